"""What a holder takes and needs, from its recipe alone: cheap enough to weigh families by.

The plastic is that of walls and skins around the whole surface, and infill behind them. Against
``printing.csv`` of the three examples (see the decision that families are rated) nine in ten lie
within 9 %, and the worst is 16 % too heavy: a ring floor, which is thinner than two walls.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.factors import G_PER_KG, MM3_PER_M3
from cleatwright.base.keys import content_key
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.rail_hold import least_hold_n
from cleatwright.design.bed_fit import usable_mm
from cleatwright.design.describing import DESCRIBED, FRONT
from cleatwright.design.recipe import CARRIED, Recipe
from cleatwright.holders.choosing import Figures
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.holder import HolderPart
from cleatwright.printing.pose import prints_free
from cleatwright.shapes.extent import joint_extent
from cleatwright.standards.table import Listed
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.take_out import resists
from cleatwright.workshop.document.sections import Printer

COARSE_MM = 0.2
# walls meet at edges, and are counted once there
MEETING = 0.96
MEASURED = Source("walls that meet at edges", "64 holders of the examples", Evidence.DERIVED)
VALUES = (Listed("Plastic", "share of walls left where they meet", MEETING, MEASURED),)


@dataclass(frozen=True, eq=False)
class ToFigure:
    """A holder to be judged before it is built.

    Args:
        recipe: The holder.
        printer: The printer on which it is made.
    """

    recipe: Recipe
    printer: Printer


def plastic_mm3(volume_mm3: float, area_mm2: float, *, wall_mm: float, infill: float) -> float:
    """Return about how much plastic a body takes: walls along its surface, and infill.

    Args:
        volume_mm3: Its volume.
        area_mm2: Its surface.
        wall_mm: Thickness of walls and skins.
        infill: Share of the rest that is filled, 0 to 1.

    >>> plastic_mm3(1000.0, 600.0, wall_mm=10.0, infill=0.15)
    1000.0
    >>> plastic_mm3(1000.0, 600.0, wall_mm=0.0, infill=0.15)
    150.0
    """
    closed = min(volume_mm3, MEETING * area_mm2 * wall_mm)
    return closed + infill * (volume_mm3 - closed)


def _figures(run: Run, given: ToFigure) -> Figures:
    recipe, printer = given.recipe, given.printer
    part = run.need(DESCRIBED, recipe)
    body = MeshKernel(chord_error_mm=COARSE_MM).evaluate(part.solid)
    plastic = plastic_mm3(
        *body.volume_and_area,
        wall_mm=_lines(part, recipe, printer) * printer.line_mm,
        infill=printer.infill,
    )
    grams = plastic * recipe.material.density_kg_m3 / MM3_PER_M3 * G_PER_KG
    low, high = part.bounds_mm
    size = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    boxes = [joint_extent(seat.envelope()) for seat in part.seats]
    left = min([low[0], *(box[0][0] for box in boxes)])
    right = max([high[0], *(box[1][0] for box in boxes)])
    return Figures(
        tools=len(part.seats),
        grams=grams,
        support=not prints_free(size, part.free_poses, bed_mm=usable_mm(printer)),
        width_mm=right - left,
        reach_mm=high[1],
        hold_share=_hold_share(part, recipe, grams),
        kept=all(seat.kept or seat.magnet for seat in part.seats),
        pulled=any(resists(seat) for seat in part.seats),
        bought=_bought(run, recipe),
    )


def _bought(run: Run, recipe: Recipe) -> str:
    """Return the first thing to buy for what the family makes, whatever it hangs by."""
    hardware = run.need(FRONT, recipe).hardware
    return hardware[0].name if hardware else ""


def _lines(part: HolderPart, recipe: Recipe, printer: Printer) -> int:
    """Return how many lines make the walls of most parts of its sort."""
    hanging = part.hanging.on_rail_as or part.hanging
    asked = hanging.hold is not None or hanging.screws is not None
    if recipe.mount == CARRIED or not asked:
        return printer.walls
    return min(printer.least_walls, printer.walls)


def _hold_share(part: HolderPart, recipe: Recipe, grams: float) -> float:
    hand = recipe.settings.hand
    wide, reach, _ = part.bounds_mm[1]
    own = OwnWeight(grams / G_PER_KG, reach / 2, wide / 2)
    found = least_hold_n(part, own, hand)
    if found is None or found[0] <= 0.0:
        return 0.0 if found is None else 1.0
    return found[1].pull_n / found[0]


def _key(given: ToFigure) -> str:
    return content_key((given.recipe.key, given.printer))


FIGURES = Stage("figures of a holder", _figures, _key)
"""From a holder and its printer to what it takes and needs, before it is built."""
