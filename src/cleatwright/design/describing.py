"""From a recipe to the description of a part, without evaluating it."""

from __future__ import annotations

from cleatwright.base.errors import DesignError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.recipe import (
    CARRIED,
    AnyRecipe,
    CarrierRecipe,
    FittingRecipe,
    HungRecipe,
    Recipe,
    SeatRecipe,
)
from cleatwright.holders.registry import family
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.fittings.registry import fitting_kind
from cleatwright.mounts.joints.joint import CarrierFront
from cleatwright.mounts.joints.registry import joint
from cleatwright.mounts.registry import mount
from cleatwright.mounts.timber.front import WoodenFront
from cleatwright.mounts.timber.registry import wooden_joint, wooden_mount
from cleatwright.parts.holder import Front, HolderPart
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.rigid import Vector
from cleatwright.statics.cleat import OwnWeight
from cleatwright.tools.registry import tool_body

NOTHING = OwnWeight(0.0, 0.0)


def describe(
    recipe: AnyRecipe,
    *,
    least_depth_mm: float = 0.0,
    own: OwnWeight = NOTHING,
    run: Run | None = None,
) -> HolderPart:
    """Return the part that a recipe describes.

    Args:
        recipe: A holder, a carrier or a fitting.
        least_depth_mm: Depth of bearing to reach in any case.
        own: What the part and the holders on it weigh themselves, where that is known; its place
            along the part is from the middle.
        run: The run that keeps what was described before; one of its own when None.

    Raises:
        DesignError: The part cannot be made.
    """
    run = run or Run()
    if isinstance(recipe, Recipe):
        return _holder(recipe, run, least_depth_mm=least_depth_mm, own=own)
    if isinstance(recipe, FittingRecipe):
        kind = fitting_kind(recipe.name)
        return kind.shape(kind.params(**recipe.measures))
    settings = recipe.settings.deepened(least_depth_mm).loaded(own)
    hung = mount(recipe.mount)
    if recipe.made_of == "wood":
        back, wish = wooden_mount(recipe.mount), CarrierParams(**recipe.params)
        return back(CARRIED, _wooden_front(recipe, run), settings, wish)
    front = run.need(CARRIER_FRONT, recipe).front
    return hung.attach(CARRIED, front, settings, hung.params(**recipe.mount_params))


def carrier_offsets(recipe: CarrierRecipe, *, run: Run | None = None) -> tuple[Vector, ...]:
    """Return where the frame of each holder lies in that of its carrier."""
    run = run or Run()
    if recipe.made_of == "wood":
        return _wooden_front(recipe, run).offsets_mm
    return run.need(CARRIER_FRONT, recipe).offsets_mm


def fitting_recipes(recipe: HungRecipe, part: HolderPart) -> tuple[FittingRecipe, ...]:
    """Return the recipes of the fittings of a part, printed as the part is."""
    return tuple(
        FittingRecipe(
            name=one.name,
            measures=dict(one.measures),
            printer=recipe.printer,
            material=recipe.material,
        )
        for one in part.fittings
    )


def _carrier_front(run: Run, recipe: CarrierRecipe) -> CarrierFront:
    interface = joint(recipe.joint)
    if interface is None:
        raise DesignError("a holder in one piece needs no carrier", todo="Choose another joint")
    params = interface.params(**recipe.joint_params)
    parts = [run.need(DESCRIBED, one) for one in recipe.holders]
    return interface.carrier(parts, recipe.settings, params, CarrierParams(**recipe.params))


def _wooden_front(recipe: CarrierRecipe, run: Run) -> WoodenFront:
    front = wooden_joint(recipe.joint)
    interface = joint(recipe.joint)
    params = interface.params(**recipe.joint_params) if interface else None
    parts = [run.need(DESCRIBED, one) for one in recipe.holders]
    return front(parts, recipe.settings, params, CarrierParams(**recipe.params))


def _holder(
    recipe: Recipe, run: Run, *, least_depth_mm: float = 0.0, own: OwnWeight = NOTHING
) -> HolderPart:
    """Return the part of a holder, with its mount or with what its joint needs."""
    if recipe.in_grooves:
        rail = _holder(recipe.as_on_rail, run, least_depth_mm=least_depth_mm, own=own)
        return in_grooves(recipe, rail, least_depth_mm=least_depth_mm, own=own)
    front = run.need(FRONT, recipe)
    settings = recipe.settings.deepened(least_depth_mm).loaded(own)
    interface = joint(recipe.joint)
    if interface is not None:
        params = interface.params(**recipe.joint_params)
        return interface.plug(recipe.family, front, settings, params)
    hung = mount(recipe.mount)
    return hung.attach(recipe.family, front, settings, hung.params(**recipe.mount_params))


def in_grooves(
    recipe: Recipe, on_rail: HolderPart, *, least_depth_mm: float = 0.0, own: OwnWeight = NOTHING
) -> HolderPart:
    """Return a holder that was made for a rail, on plates in its grooves.

    Args:
        recipe: The recipe of the holder.
        on_rail: The same on a rail.
        least_depth_mm: Depth of bearing to reach in any case.
        own: What it weighs itself, where that is known; its place along it is from the middle.

    Raises:
        DesignError: The mount takes no such plates, or none hold it.
    """
    hung = mount(recipe.mount)
    if hung.in_grooves is None:
        raise DesignError(
            f"no plates in the grooves of a back go on the mount {hung.name}",
            todo="Choose another joint, or another mount",
        )
    settings = recipe.settings.deepened(least_depth_mm).loaded(own)
    return hung.in_grooves.attach(on_rail, settings, hung.params(**recipe.mount_params))


def _front(run: Run, recipe: Recipe) -> Front:
    chosen = family(recipe.family)
    tools = [
        FittedTool(run.need(BODY, seat), Fit(seat.play_mm, seat.correction_mm))
        for seat in recipe.seats
    ]
    return chosen.build(tools, chosen.params(**recipe.params), recipe.context)


def _front_key(recipe: Recipe) -> str:
    return content_key(
        (recipe.family, recipe.params, tuple(seat.key for seat in recipe.seats), recipe.context)
    )


def _body(_: Run, seat: SeatRecipe) -> ToolBody:
    return tool_body(seat.kind, seat.measures, mass_kg=seat.mass_kg, outline=seat.shape)


def _body_key(seat: SeatRecipe) -> str:
    return content_key((seat.kind, seat.measures, seat.mass_kg, seat.outline))


def _described(run: Run, recipe: AnyRecipe) -> HolderPart:
    return describe(recipe, run=run)


def _key(recipe: AnyRecipe) -> str:
    return recipe.key


BODY = Stage("tool body", _body, _body_key)
"""From a seat to the body of its tool."""
FRONT = Stage("front", _front, _front_key)
"""From a recipe to what its family makes, whatever it hangs on."""
CARRIER_FRONT = Stage("front of a carrier", _carrier_front, _key)
"""From the recipe of a carrier to its front with the places of its holders."""
DESCRIBED = Stage("description", _described, _key)
"""From a recipe to its part, before its own weight is known."""
