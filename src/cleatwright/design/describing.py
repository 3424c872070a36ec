"""From a recipe to the description of a part, without evaluating it."""

from __future__ import annotations

from cleatwright.base.errors import DesignError
from cleatwright.design.recipe import CARRIED, AnyRecipe, CarrierRecipe, Recipe
from cleatwright.holders.registry import family
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.joint import CarrierFront
from cleatwright.mounts.joints.registry import joint
from cleatwright.mounts.registry import mount
from cleatwright.mounts.timber.front import WoodenFront
from cleatwright.mounts.timber.registry import wooden_joint, wooden_mount
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import Fit, FittedTool
from cleatwright.shapes.rigid import Vector
from cleatwright.statics.cleat import OwnWeight
from cleatwright.tools.registry import tool_body

NOTHING = OwnWeight(0.0, 0.0)


def describe(
    recipe: AnyRecipe, *, least_depth_mm: float = 0.0, own: OwnWeight = NOTHING
) -> HolderPart:
    """Return the part that a recipe describes.

    Args:
        recipe: A holder or a carrier.
        least_depth_mm: Depth of bearing to reach in any case.
        own: What the part and the holders on it weigh themselves, where that is known.

    Raises:
        DesignError: The part cannot be made.
    """
    if isinstance(recipe, Recipe):
        return _holder(recipe, least_depth_mm=least_depth_mm, own=own)
    settings = recipe.settings.deepened(least_depth_mm).loaded(own)
    hung = mount(recipe.mount)
    if recipe.made_of == "wood":
        back, wish = wooden_mount(recipe.mount), CarrierParams(**recipe.params)
        return back(CARRIED, _wooden_front(recipe), settings, wish)
    front = _carrier_front(recipe).front
    return hung.attach(CARRIED, front, settings, hung.params(**recipe.mount_params))


def carrier_offsets(recipe: CarrierRecipe) -> tuple[Vector, ...]:
    """Return where the frame of each holder lies in that of its carrier."""
    if recipe.made_of == "wood":
        return _wooden_front(recipe).offsets_mm
    return _carrier_front(recipe).offsets_mm


def _carrier_front(recipe: CarrierRecipe) -> CarrierFront:
    meeting = joint(recipe.joint)
    if meeting is None:
        raise DesignError("a holder in one piece needs no carrier", todo="Choose another joint")
    params = meeting.params(**recipe.joint_params)
    parts = [_holder(one) for one in recipe.holders]
    return meeting.carrier(parts, recipe.settings, params, CarrierParams(**recipe.params))


def _wooden_front(recipe: CarrierRecipe) -> WoodenFront:
    front = wooden_joint(recipe.joint)
    meeting = joint(recipe.joint)
    params = meeting.params(**recipe.joint_params) if meeting else None
    parts = [_holder(one) for one in recipe.holders]
    return front(parts, recipe.settings, params, CarrierParams(**recipe.params))


def _holder(recipe: Recipe, *, least_depth_mm: float = 0.0, own: OwnWeight = NOTHING) -> HolderPart:
    """Return the part of a holder, with its mount or with what its joint needs."""
    chosen = family(recipe.family)
    tools = [
        FittedTool(
            tool_body(seat.kind, seat.measures, mass_kg=seat.mass_kg, outline=seat.shape),
            Fit(seat.play_mm, seat.correction_mm),
        )
        for seat in recipe.seats
    ]
    front = chosen.build(tools, chosen.params(**recipe.params), recipe.context)
    settings = recipe.settings.deepened(least_depth_mm).loaded(own)
    meeting = joint(recipe.joint)
    if meeting is not None:
        params = meeting.params(**recipe.joint_params)
        return meeting.plug(recipe.family, front, settings, params)
    hung = mount(recipe.mount)
    return hung.attach(recipe.family, front, settings, hung.params(**recipe.mount_params))
