"""The density in the document reaches what loads screws and what holds a hook down.

Sources: m = rho V, the volume and its centre from the mesh by a general mesh library; equilibrium
of a hook and of a screwed plate, by hand.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import trimesh

from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import build_units, plan_units
from cleatwright.design.planning import plan
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.workshop.document.store import checked

STANDARD_GRAVITY = 9.80665
DENSITIES = (500.0, 1270.0, 1400.0, 3900.0)


def made(shed_text: str, density: float) -> dict[str, BuiltPart]:
    text = shed_text.replace("density = 1270", f"density = {density:g}")
    assert f"density = {density:g}" in text
    workshop, run = checked(text, file="shed"), Run()
    holders = plan(workshop, folder=Path(), run=run)
    units = build_units(plan_units(workshop, holders, run=run), run)
    return {unit.planned.name: unit.outer for unit in units}


def solid_kg(part: BuiltPart) -> tuple[float, float]:
    """Return the mass of the plain part without a void, and how far out its centre lies."""
    body = MeshKernel().evaluate(part.part.solid)
    mesh = trimesh.Trimesh(body.vertices_mm, body.triangles)
    density = part.recipe.material.density_kg_m3
    return float(mesh.volume) * 1e-9 * density, max(0.0, float(mesh.center_mass[1]))


@pytest.mark.parametrize("density", DENSITIES)
def test_screws_bear_the_part_as_heavy_as_its_filament_without_a_void(
    shed_text: str, density: float
) -> None:
    """Half of all weight on each of two rows; all that turns it out on the upper row."""
    part = made(shed_text, density)["Oil spray"]
    screws, (seat,) = part.part.hanging.screws, part.part.seats
    assert screws is not None
    own_kg, own_out = solid_kg(part)
    can_n = seat.tool.mass_kg * STANDARD_GRAVITY
    own_n = own_kg * STANDARD_GRAVITY
    (_, _, low), (_, _, high) = min_max(seat.envelope())
    pull_at = high - min(97.0, high - low) / 2 - screws.low_z_mm
    # a hand tugs with 10 N, which is more than its drag
    drag_n = max(part.hung_as.settings.drag * can_n, 10.0)
    shear = (own_n + can_n) / 2 / len(screws.columns_mm)
    turning = own_n * own_out + can_n * seat.com_mm[1] + drag_n * pull_at
    out = turning / screws.apart_mm / len(screws.columns_mm)
    assert part.standing[0].demand == pytest.approx(math.hypot(shear, out), rel=1e-6)


@pytest.mark.parametrize("density", DENSITIES)
def test_a_hook_is_kept_down_by_two_fifths_of_the_filament_alone(
    shed_text: str, density: float
) -> None:
    """The least pull that takes it off, by hand: the more it weighs the more its hook bears.

    At a height f above the bevel, with the bolts' S: F (f + h) = (W + S) (h - 6) - M at 45
    degrees, edges blunted by 3 mm; or F = W + S.
    """
    part = made(shed_text, density)["Pliers"]
    (seat,), hanging = part.part.seats, part.part.hanging
    assert hanging.hold is not None
    own_kg, own_out = solid_kg(part)
    own_n, tool_n = 0.4 * own_kg * STANDARD_GRAVITY, seat.tool.mass_kg * STANDARD_GRAVITY
    assert hanging.bevel_deg == 45.0
    down = own_n + tool_n + len(hanging.hold.bolts_mm) * hanging.hold.bolt_hand_n
    moment = own_n * own_out + tool_n * seat.com_mm[1]
    (_, _, low), (_, _, high) = min_max(seat.envelope())
    found: list[float] = []
    for at in (high - min(97.0, high - low) / 2, seat.rest_z_mm):
        lever = at - hanging.contact_z_mm
        found.append(down)
        if lever + hanging.depth_below_mm > 0.0:
            turned = down * (hanging.depth_below_mm - 6.0) - moment
            found.append(turned / (lever + hanging.depth_below_mm))
    (most,) = [check for check in part.standing if check.name.startswith("a pull to the front")]
    assert most.capacity == pytest.approx(min(found), rel=1e-6)
    assert part.own.mass_kg == pytest.approx(0.4 * own_kg, rel=1e-6)


def test_a_heavier_filament_keeps_the_hook_down_better_and_asks_for_more_of_the_screws(
    shed_text: str,
) -> None:
    light, heavy = made(shed_text, 500.0), made(shed_text, 3900.0)

    def most(parts: dict[str, BuiltPart]) -> float:
        (found,) = [
            check
            for check in parts["Pliers"].standing
            if check.name.startswith("a pull to the front")
        ]
        return found.capacity

    assert most(light) < most(heavy)
    assert heavy["Oil spray"].standing[0].demand > light["Oil spray"].standing[0].demand


def min_max(pieces: object) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the least and the largest corner of an envelope, by its mesh."""
    kernel = MeshKernel()
    corners = [corner for piece in pieces for corner in kernel.corners(piece)]  # type: ignore[attr-defined]
    return tuple(map(min, zip(*corners, strict=True))), tuple(map(max, zip(*corners, strict=True)))
