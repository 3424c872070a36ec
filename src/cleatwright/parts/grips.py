"""Grips: the features by which a tool can be held, in the frame of the tool.

The frame of a tool is that of its hanging pose: z up along its length, x along the
wall, y out of the wall. Its axis is x = y = 0.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True)
class Grip:
    """Base of all grips."""

    title: ClassVar[str] = "grip"


@dataclass(frozen=True)
class Shoulder(Grip):
    """A round neck below a wider shoulder; the shoulder's underside lies at ``z_mm``."""

    z_mm: float
    neck_mm: float
    shoulder_mm: float
    neck_length_mm: float
    title: ClassVar[str] = "shoulder"


@dataclass(frozen=True)
class Straddle(Grip):
    """Two legs below a joint, in the xz plane; they meet at ``z_mm``.

    ``gap_mm`` is the clear width between the legs from ``gap_below_mm`` below the
    meeting point down to their ends; ``thickness_mm`` is along y, ``spread_mm``
    the widest place over both legs.
    """

    z_mm: float
    gap_mm: float
    gap_below_mm: float
    leg_length_mm: float
    thickness_mm: float
    spread_mm: float
    title: ClassVar[str] = "straddle"


@dataclass(frozen=True)
class FlatEdge(Grip):
    """A flat bar, width along x and thickness along y, straight from ``low_mm`` to ``high_mm``."""

    low_mm: float
    high_mm: float
    width_mm: float
    thickness_mm: float
    title: ClassVar[str] = "flat edge"


@dataclass(frozen=True)
class ShaftEnd(Grip):
    """A straight shaft that ends at ``z_mm``; the diameter is that of the circle around it."""

    z_mm: float
    diameter_mm: float
    length_mm: float
    title: ClassVar[str] = "shaft end"


@dataclass(frozen=True)
class Overhang(Grip):
    """A head wider along x than the neck below it; its flat underside lies at ``z_mm``.

    The neck keeps its size for ``neck_length_mm`` below the head; then the handle may
    swell to ``handle_x_mm`` along x.
    """

    z_mm: float
    neck_x_mm: float
    neck_y_mm: float
    neck_length_mm: float
    handle_x_mm: float
    head_x_mm: float
    head_y_mm: float
    title: ClassVar[str] = "head over a neck"


@dataclass(frozen=True)
class RoundBody(Grip):
    """An upright round body that stands on its base at ``z_mm``."""

    z_mm: float
    diameter_mm: float
    height_mm: float
    title: ClassVar[str] = "round body"


@dataclass(frozen=True)
class Loop(Grip):
    """A closed loop in the xz plane whose inner top lies at ``z_mm``.

    The opening is ``width_mm`` by ``height_mm``; the bundle is ``bundle_mm`` thick along y.
    """

    z_mm: float
    width_mm: float
    height_mm: float
    bundle_mm: float
    title: ClassVar[str] = "loop"


@dataclass(frozen=True)
class Footprint(Grip):
    """A box-shaped body that stands on ``width_mm`` by ``depth_mm`` at ``z_mm``."""

    z_mm: float
    width_mm: float
    depth_mm: float
    height_mm: float
    title: ClassVar[str] = "footprint"
