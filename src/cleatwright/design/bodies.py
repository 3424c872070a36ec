"""The bodies of a part, plain and with its mark, and what is measured on them.

Many edits change a tool and leave its holder, or change a holder and leave its carrier: a body is
found by the solid that it is the mesh of, whatever asks for it.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.marking import DEPTH_MM, Marking
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.solid import Solid

WALL_SOUGHT_MM = 1.0
"""How far beyond the least wall a thin one is looked for."""


@dataclass(frozen=True, eq=False)
class Meshing:
    """Evaluates solids for one run; what was evaluated before is found again.

    Args:
        run: The run that keeps it.
        chord_error_mm: Largest distance of a chord from its arc.
    """

    run: Run
    chord_error_mm: float

    def plain(self, solid: Solid) -> MeshBody:
        """Return the body of a solid.

        Raises:
            KernelError: An operation failed or left nothing.
        """
        return self.run.need(PLAIN, (solid, self.chord_error_mm))

    def marked(self, part: HolderPart, solid: Solid, marking: Marking) -> MeshBody:
        """Return the body of a part with its mark.

        Args:
            part: The part.
            solid: Its solid with the mark cut in, or its own for a part without.
            marking: What was cut.

        Raises:
            KernelError: An operation failed or left nothing.
        """
        return self.run.need(MARKED, _Marked(part, solid, marking, self.chord_error_mm))

    def walls(self, part: HolderPart, solid: Solid, marking: Marking) -> PartWalls:
        """Return the walls of a part without and with its mark; arguments as in ``marked``."""
        return self.run.need(WALLS, _Marked(part, solid, marking, self.chord_error_mm))


@dataclass(frozen=True)
class PartWalls:
    """What was measured on the body of a part without and with its mark.

    Args:
        thinnest_mm: The thinnest wall of the plain body, as far as it was looked for.
        behind_mm: The thinnest wall behind the floor of the letters; None for a part without.
    """

    thinnest_mm: float
    behind_mm: float | None


@dataclass(frozen=True, eq=False)
class _Marked:
    part: HolderPart
    solid: Solid
    marking: Marking
    chord_error_mm: float


def _plain(_: Run, given: tuple[Solid, float]) -> MeshBody:
    solid, chord_error_mm = given
    # a kernel that has built nothing yet: a body is a function of its solid
    return MeshKernel(chord_error_mm=chord_error_mm).evaluate(solid)


def _plain_key(given: tuple[Solid, float]) -> str:
    solid, chord_error_mm = given
    return content_key((solid.content_key, chord_error_mm))


def _marked(run: Run, given: _Marked) -> MeshBody:
    plain = run.need(PLAIN, (given.part.solid, given.chord_error_mm))
    if not given.marking.lines:
        return plain
    kernel = MeshKernel(chord_error_mm=given.chord_error_mm)
    made = kernel.evaluate(given.solid, known={given.part.solid.content_key: plain})
    # it is drawn, weighed and printed, all of which its mesh is enough for
    return made.settled()


def _walls(run: Run, given: _Marked) -> PartWalls:
    part, marking = given.part, given.marking
    plain = run.need(PLAIN, (part.solid, given.chord_error_mm))
    thinnest = plain.thinnest_wall_mm(within_mm=part.min_wall_mm + WALL_SOUGHT_MM)
    if not marking.lines:
        return PartWalls(thinnest, None)
    behind = run.need(MARKED, given).wall_behind_mm(
        marking.outward, offset_mm=marking.floor_mm, within_mm=part.min_wall_mm + DEPTH_MM
    )
    return PartWalls(thinnest, behind)


def _marked_key(given: _Marked) -> str:
    # where the mark is cut and what it says is in the solid
    keys = given.part.solid.content_key, given.solid.content_key
    return content_key((keys, given.part.min_wall_mm, given.chord_error_mm))


def body_bytes(body: MeshBody) -> int:
    """Return about how much a body and the mesh that is printed of it take in memory."""
    return 2 * body.kept_bytes


def _plain_bytes(body: MeshBody) -> int:
    return body.kept_bytes


PLAIN = Stage("body", _plain, _plain_key, _plain_bytes)
"""From a solid to its body."""
MARKED = Stage("marked body", _marked, _marked_key, body_bytes)
"""From a part and its mark to the body that is printed."""
WALLS = Stage("walls of a part", _walls, _marked_key, codec=JsonCodec(PartWalls))
"""From a part and its mark to its thinnest walls."""
