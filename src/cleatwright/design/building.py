"""From a recipe to a measured, marked and checked holder."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.errors import PartError
from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.cleat_stability import check_cleat
from cleatwright.checks.hanger_strength import check_hanger_strength
from cleatwright.checks.joint_interfaces import check_joint_interfaces
from cleatwright.checks.magnet_hold import check_magnets
from cleatwright.checks.part import check_marked_wall, check_part
from cleatwright.checks.rail_hold import Holding, check_rail_hold
from cleatwright.checks.rail_screws import check_rail_screws
from cleatwright.checks.result import CheckResult
from cleatwright.checks.spring_strain import check_springs
from cleatwright.checks.wall_screws import check_wall_screws
from cleatwright.checks.way_out import check_seats
from cleatwright.design.bodies import MarkedBody, Meshing, body_bytes
from cleatwright.design.describing import DESCRIBED, carrier_offsets, describe
from cleatwright.design.marking import DEPTH_MM, UNMARKED, Marking, engraved
from cleatwright.design.recipe import (
    AnyRecipe,
    CarrierRecipe,
    FittingRecipe,
    HungRecipe,
    Recipe,
)
from cleatwright.design.seat_trials import seat_trials
from cleatwright.design.shape_key import shape_key
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import HolderPart
from cleatwright.printing.meshfile import PrintMesh, print_mesh
from cleatwright.printing.welding import welded
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid
from cleatwright.standards.table import Listed
from cleatwright.statics.cleat import OwnWeight
from cleatwright.tools.material import SOFTWOOD, WOOD

MM3_PER_M3 = 1e9
# on a cleat a light part is the unsafe one: little filament inside, and softwood
FILLED_SHARE = 0.4
FILLING = Source("own weight of a printed holder", "on the light side", Evidence.CHOICE)
HEAVY = Source("own weight for screws and rails", "solid, on the heavy side", Evidence.CHOICE)
# for screws and rails a heavy one is: filament without a void, and hardwood
HEAVY_SHARE = 1.0
PRINTED_HEAVIER = HEAVY_SHARE / FILLED_SHARE
WOODEN_HEAVIER = WOOD.density_kg_m3 / SOFTWOOD.density_kg_m3
STRENGTHENINGS = 3
STRONGER_SHARE = 1.05
LENGTHENINGS = 4
SPARE_DEPTH_MM = 2.0
VALUES = (
    Listed("Own weight", "filled share", FILLED_SHARE, FILLING),
    Listed("Own weight", "heavy side, filled share", HEAVY_SHARE, HEAVY),
    Listed("Own weight", "heavy side, wood kg/m3", WOOD.density_kg_m3, HEAVY),
)


@dataclass(frozen=True)
class BuiltPart:
    """A part, printed or of wood, with everything that was computed about it.

    ``key`` is that of the recipe and of the solid it gave, and so of everything here;
    ``shape`` is that of the shape and its material, from which the mark comes; ``solid`` is
    the description, with its mark if it is printed, ``body`` its mesh. ``contract`` are the
    checks of the part and its seats, ``standing`` those of its stand on the wall.
    """

    recipe: AnyRecipe
    key: str
    shape: str
    part: HolderPart
    solid: Solid
    body: MeshBody
    marking: Marking
    own: OwnWeight
    contract: tuple[CheckResult, ...]
    standing: tuple[CheckResult, ...]

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
    def mark(self) -> str:
        """Return the part mark."""
        return mark_from_key(self.shape)

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


def part_key(recipe: AnyRecipe, part: HolderPart) -> str:
    """Return the key of a recipe together with the solid that it gave.

    A later version of the program may shape a recipe otherwise; the key then changes too.
    """
    return content_key((recipe.key, part.solid.content_key))


def build(recipe: AnyRecipe, kernel: MeshKernel, *, run: Run | None = None) -> BuiltPart:
    """Return the evaluated, marked and checked part.

    Args:
        recipe: A holder, a carrier or a fitting.
        kernel: Its chord error counts; bodies are evaluated by kernels of their own.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        PartError: The part breaks a check.
    """
    run = run or Run()
    meshing = Meshing(run, kernel.chord_error_mm)
    if isinstance(recipe, Recipe):
        return _holder(recipe, meshing)
    if isinstance(recipe, FittingRecipe):
        part = run.need(DESCRIBED, recipe)
        return _finished(recipe, part, meshing, seats=(), standing=())
    return _carrier(recipe, [run.need(PART, one) for one in recipe.holders], meshing)


def _holder(recipe: Recipe, meshing: Meshing) -> BuiltPart:
    """Return a holder; when it has a mount of its own, its back is lengthened until it holds."""
    part, standing = _long_enough(recipe, meshing, hung=(), heavy=())
    trials = seat_trials(part, chord_error_mm=meshing.chord_error_mm, run=meshing.run)
    seats = (
        *check_seats(trials),
        *check_springs(part.seats),
        *check_magnets(part.seats, on_ledge=[trial.on_ledge for trial in trials]),
    )
    return _finished(recipe, part, meshing, seats=seats, standing=standing)


def _carrier(recipe: CarrierRecipe, holders: Sequence[BuiltPart], meshing: Meshing) -> BuiltPart:
    """Return a carrier, its back lengthened until it holds with all its holders.

    Args:
        recipe: The carrier.
        holders: Its built holders, in the order of the recipe.
        meshing: Evaluates solids.
    """
    offsets = carrier_offsets(recipe, run=meshing.run)
    hung = tuple(
        OwnWeight(one.own.mass_kg, one.own.distance_mm + dy)
        for one, (_, dy, _) in zip(holders, offsets, strict=True)
    )
    heavy = tuple(
        OwnWeight(one.heavy.mass_kg, one.heavy.distance_mm + dy)
        for one, (_, dy, _) in zip(holders, offsets, strict=True)
    )
    part, standing = _long_enough(recipe, meshing, hung=hung, heavy=heavy)
    plain = meshing.plain(part.solid)
    bodies = [one.body.placed(shift(*offset)) for one, offset in zip(holders, offsets, strict=True)]
    fits = check_joint_interfaces([one.overlap_mm3(plain) for one in bodies])
    return _finished(recipe, part, meshing, seats=fits, standing=standing)


def _finished(
    recipe: AnyRecipe,
    part: HolderPart,
    meshing: Meshing,
    *,
    seats: tuple[CheckResult, ...],
    standing: tuple[CheckResult, ...],
) -> BuiltPart:
    """Return the part with its mark cut in and its checks."""
    plain = meshing.plain(part.solid)
    key, shape = part_key(recipe, part), shape_key(recipe, part)
    mark = mark_from_key(shape)
    plain_faced = part.joinery is not None or isinstance(recipe, FittingRecipe)
    solid, marking = (part.solid, UNMARKED) if plain_faced else engraved(part, mark)
    found = meshing.marked(part, solid, marking)
    contract = (
        *check_part(part, plain.facts, thinnest_wall_mm=found.thinnest_mm),
        *_marked_wall(part, found),
        *seats,
    )
    marked = found.body.facts
    if marked.bodies != 1 or marked.genus != plain.facts.genus:
        raise PartError(
            "the engraved mark cuts through the part",
            where=f"{part.family} {mark}",
            todo="Choose a thicker plate",
        )
    own = own_weight(part, plain, density_kg_m3=recipe.material.density_kg_m3)
    return BuiltPart(recipe, key, shape, part, solid, found.body, marking, own, contract, standing)


def _marked_wall(part: HolderPart, found: MarkedBody) -> tuple[CheckResult, ...]:
    if found.behind_mm is None:
        return ()
    return check_marked_wall(part, depth_mm=DEPTH_MM, behind_mm=found.behind_mm)


def _long_enough(
    recipe: HungRecipe,
    meshing: Meshing,
    *,
    hung: Sequence[OwnWeight],
    heavy: Sequence[OwnWeight],
) -> tuple[HolderPart, tuple[CheckResult, ...]]:
    """Return the part with its back as deep as its stand needs, and its stand.

    ``hung`` are the own weights of the holders on a carrier, ``heavy`` the same on the heavy side.
    """
    least, left = 0.0, LENGTHENINGS
    settings, density = recipe.settings, recipe.material.density_kg_m3
    while True:
        part = (
            describe(recipe, least_depth_mm=least, run=meshing.run)
            if least
            else meshing.run.need(DESCRIBED, recipe)
        )
        plain = meshing.plain(part.solid)
        if part.hanging.screws is not None:
            return _well_screwed(recipe, part, meshing, heavy=heavy)
        if part.hanging.hold is not None or part.hanging.rail_screws is not None:
            return _well_hung(recipe, part, meshing, hung=hung, heavy=heavy)
        own = _together((own_weight(part, plain, density_kg_m3=density), *hung))
        standing = check_cleat(part, own, margin=settings.margin, hand=settings.hand)
        left -= 1
        if not standing or standing[0].holds or not left:
            return part, standing
        least = standing[0].demand + SPARE_DEPTH_MM


def _wanted(settings: MountSettings) -> Holding:
    return Holding(settings.margin, settings.hand, settings.knock_n)


def _well_hung(
    recipe: HungRecipe,
    part: HolderPart,
    meshing: Meshing,
    *,
    hung: Sequence[OwnWeight],
    heavy: Sequence[OwnWeight],
) -> tuple[HolderPart, tuple[CheckResult, ...]]:
    """Return the part with hangers or screws that bear its own weight too, and its stand."""
    settings = recipe.settings

    def of(one: HolderPart) -> tuple[OwnWeight, OwnWeight]:
        body = meshing.plain(one.solid)
        light = own_weight(one, body, density_kg_m3=recipe.material.density_kg_m3)
        return _together((light, *hung)), _together((heavy_weight(one, light), *heavy))

    def strong(one: HolderPart, own: OwnWeight) -> tuple[CheckResult, ...]:
        return (
            *check_hanger_strength(one, own, margin=settings.margin, hand=settings.hand),
            *check_rail_screws(
                one, own, margin=settings.margin, hand=settings.hand, knock=settings.knock_n
            ),
        )

    light, heavier = of(part)
    strength = strong(part, heavier)
    left = STRENGTHENINGS
    while left and not all(check.holds for check in strength):
        left -= 1
        # what makes it stronger weighs something as well
        more = OwnWeight(heavier.mass_kg * STRONGER_SHARE, heavier.distance_mm)
        part = describe(recipe, own=more, run=meshing.run)
        light, heavier = of(part)
        strength = strong(part, heavier)
    return part, (*check_rail_hold(part, light, _wanted(settings)), *strength)


def _well_screwed(
    recipe: HungRecipe,
    part: HolderPart,
    meshing: Meshing,
    *,
    heavy: Sequence[OwnWeight],
) -> tuple[HolderPart, tuple[CheckResult, ...]]:
    """Return the part with screws that carry its own weight too, and its stand."""

    def own_of(one: HolderPart) -> OwnWeight:
        body = meshing.plain(one.solid)
        light = own_weight(one, body, density_kg_m3=recipe.material.density_kg_m3)
        return _together((heavy_weight(one, light), *heavy))

    screwed = describe(recipe, own=own_of(part), run=meshing.run)
    standing = check_wall_screws(screwed, own_of(screwed), hand=recipe.settings.hand)
    return screwed, standing


def heavy_weight(part: HolderPart, own: OwnWeight) -> OwnWeight:
    """Return the own weight of a part on the heavy side, from that on the light side."""
    heavier = PRINTED_HEAVIER if part.joinery is None else WOODEN_HEAVIER
    return OwnWeight(own.mass_kg * heavier, own.distance_mm)


def _together(weights: Sequence[OwnWeight]) -> OwnWeight:
    mass = sum(one.mass_kg for one in weights)
    moment = sum(one.mass_kg * one.distance_mm for one in weights)
    return OwnWeight(mass, moment / mass)


def own_weight(part: HolderPart, body: MeshBody, *, density_kg_m3: float) -> OwnWeight:
    """Return the mass of a part on the light side, and how far out its centre lies.

    Args:
        part: The part.
        body: Its mesh.
        density_kg_m3: Density of the filament; a part of wood weighs what its wood weighs.
    """
    printed = density_kg_m3 * FILLED_SHARE
    density = printed if part.joinery is None else SOFTWOOD.density_kg_m3
    mass = body.facts.volume_mm3 * density / MM3_PER_M3
    return OwnWeight(mass, max(body.facts.centroid_mm[1], 0.0))


def _part(run: Run, recipe: AnyRecipe) -> BuiltPart:
    return build(recipe, MeshKernel(), run=run)


def _key(recipe: AnyRecipe) -> str:
    return recipe.key


def _size(built: BuiltPart) -> int:
    return body_bytes(built.body)


PART = Stage("part", _part, _key, _size)
"""From a recipe to the built, marked and checked part."""
