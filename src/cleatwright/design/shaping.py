"""From a recipe to the body that is printed: as long and as thick as it must be, and marked.

Whatever is tried on the body afterwards comes in ``building``: a picture needs none of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import DesignError, PartError
from cleatwright.base.factors import MM3_PER_M3
from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.cleat_stability import check_cleat
from cleatwright.checks.groove_plates import check_groove_plates
from cleatwright.checks.hanger_strength import check_hanger_strength
from cleatwright.checks.rail_hold import Holding, check_rail_hold
from cleatwright.checks.rail_screws import check_rail_screws
from cleatwright.checks.result import CheckResult
from cleatwright.checks.wall_screws import check_wall_screws
from cleatwright.design.bodies import Meshing, body_bytes
from cleatwright.design.describing import DESCRIBED, carrier_offsets, describe, in_grooves
from cleatwright.design.marking import UNMARKED, Marking, engraved
from cleatwright.design.recipe import (
    AnyRecipe,
    CarrierRecipe,
    FittingRecipe,
    HungRecipe,
    Recipe,
)
from cleatwright.design.shape_key import shape_key
from cleatwright.design.stiff_plate import stiff_plate_mm
from cleatwright.kernels.api import CHORD_ERROR_MM
from cleatwright.kernels.mesh import MeshBody
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import Vector
from cleatwright.shapes.solid import Solid
from cleatwright.standards.table import Listed
from cleatwright.statics.cleat import OwnWeight
from cleatwright.tools.material import SOFTWOOD, WOOD

# on a cleat a light part is the unsafe one: little filament inside, and softwood
FILLED_SHARE = 0.4
FILLING = Source("own weight of a printed holder", "on the light side", Evidence.CHOICE)
HEAVY = Source("own weight for screws and rails", "solid, on the heavy side", Evidence.CHOICE)
# for screws and rails a heavy one is: filament without a void, and hardwood
HEAVY_SHARE = 1.0
PRINTED_HEAVIER = HEAVY_SHARE / FILLED_SHARE
WOODEN_HEAVIER = WOOD.density_kg_m3 / SOFTWOOD.density_kg_m3
STRENGTHENINGS = 3
THICKENINGS = 12
# of a plate, which a bolt and its guide must save
WORTH_MM = 1.0
STRONGER_SHARE = 1.05
LENGTHENINGS = 4
SPARE_DEPTH_MM = 2.0
VALUES = (
    Listed("Own weight", "filled share", FILLED_SHARE, FILLING),
    Listed("Own weight", "heavy side, filled share", HEAVY_SHARE, HEAVY),
    Listed("Own weight", "heavy side, wood kg/m3", WOOD.density_kg_m3, HEAVY),
)


@dataclass(frozen=True)
class ShapedPart:
    """A part, printed or of wood, in its final shape.

    ``key`` is that of the recipe and of the solid it gave, and so of everything here;
    ``shape`` is that of the shape and its material, from which the mark comes; ``solid`` is
    the description, with its mark if it is printed, ``body`` its mesh. ``standing`` are the
    checks of its stand on the wall, by which it got its length.
    """

    key: str
    shape: str
    part: HolderPart
    solid: Solid
    body: MeshBody
    marking: Marking
    own: OwnWeight
    standing: tuple[CheckResult, ...]

    @property
    def mark(self) -> str:
        """Return the part mark."""
        return mark_from_key(self.shape)


def part_key(recipe: AnyRecipe, part: HolderPart) -> str:
    """Return the key of a recipe together with the solid that it gave.

    A later version of the program may shape a recipe otherwise; the key then changes too.
    """
    return content_key((recipe.key, part.solid.content_key))


def shaped(recipe: AnyRecipe, meshing: Meshing) -> ShapedPart:
    """Return the part of a recipe, its back lengthened until it holds, with its mark cut in.

    Raises:
        PartError: The mark cuts through the part.
    """
    part, standing = _standing(recipe, meshing)
    plain = meshing.plain(part.solid)
    key, shape = part_key(recipe, part), shape_key(recipe, part)
    mark = mark_from_key(shape)
    plain_faced = part.joinery is not None or isinstance(recipe, FittingRecipe)
    solid, marking = (part.solid, UNMARKED) if plain_faced else engraved(part, mark)
    body = meshing.marked(part, solid, marking)
    if body.facts.bodies != 1 or body.facts.genus != plain.facts.genus:
        raise PartError(
            "the engraved mark cuts through the part",
            where=f"{part.family} {mark}",
            todo="Choose a thicker plate",
        )
    own = own_weight(part, plain, density_kg_m3=recipe.material.density_kg_m3)
    return ShapedPart(key, shape, part, solid, body, marking, own, standing)


def _standing(recipe: AnyRecipe, meshing: Meshing) -> tuple[HolderPart, tuple[CheckResult, ...]]:
    if isinstance(recipe, FittingRecipe):
        return meshing.run.need(DESCRIBED, recipe), ()
    if isinstance(recipe, Recipe) and recipe.in_grooves:
        return _in_grooves(recipe, meshing)
    if not isinstance(recipe, CarrierRecipe):
        return _long_enough(recipe, meshing, hung=(), heavy=())
    # a carrier holds with all its holders
    holders = [meshing.run.need(SHAPED, one) for one in recipe.holders]
    offsets = carrier_offsets(recipe, run=meshing.run)
    light = [one.own for one in holders]
    heavy = [heavy_weight(one.part, one.own) for one in holders]
    return _long_enough(
        recipe,
        meshing,
        hung=[_moved(own, by) for own, by in zip(light, offsets, strict=True)],
        heavy=[_moved(own, by) for own, by in zip(heavy, offsets, strict=True)],
    )


def _in_grooves(recipe: Recipe, meshing: Meshing) -> tuple[HolderPart, tuple[CheckResult, ...]]:
    """Return a holder just as it is on a rail, on plates that carry its own weight too."""
    rail, settings = meshing.run.need(SHAPED, recipe.as_on_rail), recipe.settings
    heavy = heavy_weight(rail.part, rail.own)
    part = in_grooves(recipe, rail.part, own=_amid(rail.part, heavy))
    return part, check_groove_plates(part, (rail.own, heavy), _wanted(settings))


def _amid(part: HolderPart, own: OwnWeight) -> OwnWeight:
    """Return the own weight of a part, along it from its middle."""
    (low, _, _), (high, _, _) = part.bounds_mm
    return replace(own, along_mm=own.along_mm - (low + high) / 2)


def _moved(own: OwnWeight, by: Vector) -> OwnWeight:
    along, out, _ = by
    return OwnWeight(own.mass_kg, own.distance_mm + out, own.along_mm + along)


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
    recipe, part = _thick_enough(recipe, part, heavier, meshing)
    light, heavier = of(part)
    strength = strong(part, heavier)
    left = STRENGTHENINGS
    while left and not all(check.holds for check in strength):
        left -= 1
        # what makes it stronger weighs something as well
        more = replace(heavier, mass_kg=heavier.mass_kg * STRONGER_SHARE)
        part = describe(recipe, own=_amid(part, more), run=meshing.run)
        light, heavier = of(part)
        strength = strong(part, heavier)
    return part, (*check_rail_hold(part, light, _wanted(settings)), *strength)


def _thick_enough(
    recipe: HungRecipe, part: HolderPart, heavier: OwnWeight, meshing: Meshing
) -> tuple[HungRecipe, HolderPart]:
    """Return a holder whose plate bears what hangs on it, and the recipe that describes it so."""
    left = THICKENINGS
    while left and isinstance(recipe, Recipe):
        left -= 1
        thick = stiff_plate_mm(part, meshing.plain(part.solid), heavier, recipe.settings)
        if thick <= recipe.settings.plate_mm:
            break
        more = _on_more_bolts(recipe, part, heavier, meshing, thick_mm=thick)
        if more is not None:
            recipe, part = more
            continue
        recipe = recipe.with_plate(thick)
        part = meshing.run.need(DESCRIBED, recipe)
    return recipe, part


def _on_more_bolts(
    recipe: Recipe, part: HolderPart, heavier: OwnWeight, meshing: Meshing, *, thick_mm: float
) -> tuple[Recipe, HolderPart] | None:
    """Return a holder with one bolt more, where that saves enough of its plate."""
    hold = part.hanging.hold
    if hold is None or not hold.bolts_mm or thick_mm < recipe.settings.plate_mm + WORTH_MM:
        return None
    bolts = len(hold.bolts_mm) + 1
    again = recipe.with_bolts(bolts)
    try:
        other = meshing.run.need(DESCRIBED, again)
    except DesignError:
        return None
    held = other.hanging.hold
    if held is None or len(held.bolts_mm) < bolts:
        return None
    needed = stiff_plate_mm(other, meshing.plain(other.solid), heavier, again.settings)
    return (again, other) if needed <= thick_mm - WORTH_MM else None


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

    screwed = describe(recipe, own=_amid(part, own_of(part)), run=meshing.run)
    standing = check_wall_screws(screwed, own_of(screwed), hand=recipe.settings.hand)
    return screwed, standing


def heavy_weight(part: HolderPart, own: OwnWeight) -> OwnWeight:
    """Return the own weight of a part on the heavy side, from that on the light side."""
    heavier = PRINTED_HEAVIER if part.joinery is None else WOODEN_HEAVIER
    return replace(own, mass_kg=own.mass_kg * heavier)


def _together(weights: Sequence[OwnWeight]) -> OwnWeight:
    mass = sum(one.mass_kg for one in weights)
    out = sum(one.mass_kg * one.distance_mm for one in weights)
    along = sum(one.mass_kg * one.along_mm for one in weights)
    return OwnWeight(mass, out / mass, along / mass)


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
    along, out, _ = body.facts.centroid_mm
    return OwnWeight(mass, max(out, 0.0), along)


def _shaped(run: Run, recipe: AnyRecipe) -> ShapedPart:
    return shaped(recipe, Meshing(run, CHORD_ERROR_MM))


def _key(recipe: AnyRecipe) -> str:
    return recipe.key


def _size(one: ShapedPart) -> int:
    return body_bytes(one.body)


SHAPED = Stage("shaped part", _shaped, _key, _size)
"""From a recipe to the part in its final shape, with its mark."""
