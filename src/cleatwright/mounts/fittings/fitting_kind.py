"""What a kind of fitting is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from cleatwright.parts.holder import Hanging, HolderPart, PrintPose
from cleatwright.parts.params import PartParams
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.solid import Solid

LOOSE = Hanging("fitting", on_rail=False, contact_z_mm=0.0, depth_below_mm=0.0, bevel_deg=0.0)


class FittingParams(PartParams):
    """Base of a fitting's measures."""


@dataclass(frozen=True)
class FittingKind:
    """A kind of fitting.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people, in the singular.
        params: The measures that shape it.
        shape: Makes the part from the measures.
    """

    name: str
    title: str
    params: type[FittingParams]
    shape: Callable[[Any], HolderPart]


def fitting_part(
    name: str,
    leading: str,
    solid: Solid,
    *,
    bounds_mm: Bounds,
    min_wall_mm: float,
    genus: int = 0,
    pose: PrintPose = "on-its-side",
) -> HolderPart:
    """Return a fitting as a part: it seats no tool.

    Args:
        name: Its name.
        leading: Its leading dimensions in drawing notation.
        solid: What is printed, such as a profile drawn out along x.
        bounds_mm: The box in which it stays.
        min_wall_mm: Its thinnest wall.
        genus: How many holes go through it.
        pose: In which it prints without support.
    """
    return HolderPart(
        family=name,
        leading=leading,
        solid=solid,
        seats=(),
        genus=genus,
        bounds_mm=bounds_mm,
        min_wall_mm=min_wall_mm,
        mark_places=(),
        hanging=LOOSE,
        hardware=(),
        free_poses=(pose,),
    )
