"""Grips by which a tool hangs: something wide above something narrow, or an eye."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from cleatwright.parts.grips.grip import Grip


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
class EyeHole(Grip):
    """A hole along y through a flat part; its inner top lies at ``z_mm``.

    The largest upright circle in the hole is ``diameter_mm`` wide, the part is ``thickness_mm``
    thick along y and centred on y = 0, and ``rim_mm`` of it lie above the hole.
    """

    z_mm: float
    diameter_mm: float
    thickness_mm: float
    rim_mm: float
    title: ClassVar[str] = "hole to hang by"


@dataclass(frozen=True)
class HookedArm(Grip):
    """An arm that reaches from an upright bar towards the wall, its flat underside at ``z_mm``.

    The bar runs along z and is ``bar_y_mm`` deep, centred on the axis. The arm is
    ``arm_x_mm`` wide and reaches ``reach_mm`` towards the wall, counted from the bar's back;
    its last ``nose_y_mm`` turn down by ``nose_mm`` (0: its end is flat). Nothing else of the
    tool lies behind the bar for ``free_mm`` below the arm. The tool is lifted off to the
    front: what carries the arm stands between the bar and the wall, and the bar hangs
    before it.
    """

    z_mm: float
    bar_y_mm: float
    arm_x_mm: float
    reach_mm: float
    free_mm: float
    nose_mm: float = 0.0
    nose_y_mm: float = 0.0
    title: ClassVar[str] = "arm that hooks over"


@dataclass(frozen=True)
class PistolGrip(Grip):
    """A body that lies along y over a handle that goes down through its middle.

    The flat underside of the body lies at ``z_mm``; it is ``body_x_mm`` wide and reaches
    ``front_y_mm`` out and ``back_y_mm`` (>= 0) towards the wall from the axis. The handle
    is ``handle_x_mm`` by ``handle_y_mm`` for ``handle_length_mm`` below the body.
    """

    z_mm: float
    body_x_mm: float
    front_y_mm: float
    back_y_mm: float
    handle_x_mm: float
    handle_y_mm: float
    handle_length_mm: float
    title: ClassVar[str] = "body over a handle"
