"""From a recipe to a measured, marked and checked holder."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.joint_interfaces import check_joint_interfaces
from cleatwright.checks.magnet_hold import check_magnets
from cleatwright.checks.part import check_marked_wall, check_part
from cleatwright.checks.result import CheckResult
from cleatwright.checks.spring_strain import check_springs
from cleatwright.checks.way_out import check_seats
from cleatwright.design.bodies import Meshing, PartWalls, body_bytes
from cleatwright.design.describing import carrier_offsets
from cleatwright.design.marking import DEPTH_MM
from cleatwright.design.recipe import (
    AnyRecipe,
    CarrierRecipe,
    FittingRecipe,
    HungRecipe,
    Recipe,
)
from cleatwright.design.seat_trials import seat_trials
from cleatwright.design.shaping import SHAPED, ShapedPart, heavy_weight, shaped
from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.fittings.registry import fitting_kind
from cleatwright.parts.holder import HolderPart
from cleatwright.printing.meshfile import PrintMesh, print_mesh
from cleatwright.printing.welding import welded
from cleatwright.shapes.rigid import shift
from cleatwright.statics.cleat import OwnWeight


@dataclass(frozen=True)
class BuiltPart(ShapedPart):
    """A part with everything that was computed about it.

    ``contract`` are the checks of the part and its seats, beside those of its stand on the wall.
    """

    recipe: AnyRecipe
    contract: tuple[CheckResult, ...]

    @property
    def content_key(self) -> str:
        """Return its key, for the keys of what it is part of."""
        return self.key

    @cached_property
    def print_mesh(self) -> PrintMesh:
        """Return the checked mesh of the part in its own frame."""
        vertices, triangles = welded(self.body.vertices_mm, self.body.triangles)
        return print_mesh(
            f"{self.part.family} {self.part.leading}",
            self.mark,
            vertices=vertices,
            triangles=triangles,
        )

    @property
    def hung_as(self) -> HungRecipe:
        """Return the recipe of a holder or a carrier.

        Raises:
            TypeError: It is a fitting.
        """
        if isinstance(self.recipe, FittingRecipe):
            raise TypeError("a fitting hangs by nothing of its own")
        return self.recipe

    @property
    def checks(self) -> tuple[CheckResult, ...]:
        """Return all checks."""
        return (*self.contract, *self.standing)

    @property
    def heavy(self) -> OwnWeight:
        """Return the own weight on the heavy side, for screws, rails and drawings."""
        return heavy_weight(self.part, self.own)

    @property
    def printed(self) -> bool:
        """Return True when it comes from a printer, False when it is made of wood."""
        return self.part.joinery is None

    @property
    def holds(self) -> bool:
        """Return True when every check holds."""
        return all(check.holds for check in self.checks)


def fitting_bodies(built: BuiltPart) -> Iterator[MeshBody]:
    """Yield the fittings of a part where they are in it."""
    for one in built.part.fittings:
        kind = fitting_kind(one.name)
        solid = kind.shape(kind.params(**dict(one.measures))).solid
        yield MeshKernel().evaluate(solid).placed(one.pose)


def build(recipe: AnyRecipe, kernel: MeshKernel, *, run: Run | None = None) -> BuiltPart:
    """Return the evaluated, marked and checked part.

    Args:
        recipe: A holder, a carrier or a fitting.
        kernel: Its chord error counts; bodies are evaluated by kernels of their own.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        PartError: The part breaks a check.
    """
    meshing = Meshing(run or Run(), kernel.chord_error_mm)
    return _checked(recipe, shaped(recipe, meshing), meshing)


def _checked(recipe: AnyRecipe, made: ShapedPart, meshing: Meshing) -> BuiltPart:
    part, plain = made.part, meshing.plain(made.part.solid)
    walls = meshing.walls(part, made.solid, made.marking)
    contract = (
        *check_part(part, plain.facts, thinnest_wall_mm=walls.thinnest_mm),
        *_marked_wall(part, walls),
        *_fits(recipe, part, meshing),
    )
    return BuiltPart(
        recipe=recipe,
        key=made.key,
        shape=made.shape,
        part=part,
        solid=made.solid,
        body=made.body,
        marking=made.marking,
        own=made.own,
        contract=contract,
        standing=made.standing,
    )


def _marked_wall(part: HolderPart, walls: PartWalls) -> tuple[CheckResult, ...]:
    if walls.behind_mm is None:
        return ()
    return check_marked_wall(part, depth_mm=DEPTH_MM, behind_mm=walls.behind_mm)


def _fits(recipe: AnyRecipe, part: HolderPart, meshing: Meshing) -> tuple[CheckResult, ...]:
    """Return the checks of what goes into the part: its tools, or its holders."""
    match recipe:
        case Recipe():
            return _seats(part, meshing)
        case CarrierRecipe():
            return _joints(recipe, part, meshing)
        case _:
            return ()


def _seats(part: HolderPart, meshing: Meshing) -> tuple[CheckResult, ...]:
    trials = seat_trials(part, chord_error_mm=meshing.chord_error_mm, run=meshing.run)
    return (
        *check_seats(trials),
        *check_springs(part.seats),
        *check_magnets(part.seats, on_ledge=[trial.on_ledge for trial in trials]),
    )


def _joints(recipe: CarrierRecipe, part: HolderPart, meshing: Meshing) -> tuple[CheckResult, ...]:
    offsets = carrier_offsets(recipe, run=meshing.run)
    plain = meshing.plain(part.solid)
    holders = [meshing.run.need(PART, one) for one in recipe.holders]
    bodies = [one.body.placed(shift(*at)) for one, at in zip(holders, offsets, strict=True)]
    return check_joint_interfaces([one.overlap_mm3(plain) for one in bodies])


def _part(run: Run, recipe: AnyRecipe) -> BuiltPart:
    return _checked(recipe, run.need(SHAPED, recipe), Meshing(run, CHORD_ERROR_MM))


def _key(recipe: AnyRecipe) -> str:
    return recipe.key


def _size(built: BuiltPart) -> int:
    return body_bytes(built.body)


PART = Stage("part", _part, _key, _size)
"""From a recipe to the built, marked and checked part."""
