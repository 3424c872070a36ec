"""What the person may write where a tool or a hand lacks room."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from cleatwright.design.carrying import Unit
from cleatwright.siting.walls import Spot
from cleatwright.wall.model import Place
from cleatwright.wall.way_out import Hit, WayProof
from cleatwright.workshop.document.surfaces import Panel

_STEPS = MappingProxyType(
    {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
)


def with_todo(
    ways: Sequence[WayProof], units: Sequence[Unit], spots: Mapping[str, Spot], *, panel: Panel
) -> tuple[WayProof, ...]:
    """Return the proofs, each thing in the way with the line of the document that makes room.

    Args:
        ways: The proofs of a panel.
        units: What hangs on it.
        spots: Where, by the keys of the units.
        panel: The panel.
    """
    of_holder = {one.key: unit for unit in units for one in unit.planned.holders}
    of_name = {
        name: unit
        for unit in units
        for one in unit.planned.holders
        for name in (unit.planned.name, one.name, *(tool.name for tool in one.tools))
    }

    def told(hit: Hit | None, way: WayProof) -> Hit | None:
        if hit is None:
            return None
        own, other = of_holder[way.holder_key], of_name.get(hit.name)
        return replace(hit, todo=_todo(hit, own, other, spots=spots, panel=panel))

    return tuple(replace(way, hit=told(way.hit, way), hand=told(way.hand, way)) for way in ways)


def _todo(
    hit: Hit, own: Unit, other: Unit | None, *, spots: Mapping[str, Spot], panel: Panel
) -> str:
    """Return the line to write: of a given place, of an obstacle, or of a place to be given."""
    right, up = _STEPS[hit.direction]
    if own.planned.fixed is None and hit.sort == "obstacle":
        obstacle = next(one for one in panel.obstacles if one.name == hit.name)
        margin = obstacle.keep_out_mm + hit.shift_mm
        return f'write margin = "{margin:.1f} mm" for the obstacle "{hit.name}"'
    moved, way = own, 1.0
    if own.planned.fixed is None and other is not None and other.planned.fixed is not None:
        moved, way = other, -1.0
    at = spots[moved.planned.key].place
    place = Place(at.key, at.x_mm + way * right * hit.shift_mm, at.z_mm + way * up * hit.shift_mm)
    return (
        f'write place = {{ x = "{place.x_mm:.1f} mm", z = "{place.z_mm:.1f} mm" }} for '
        f'"{moved.planned.name}"'
    )
