"""Grips by which a tool lies, rolls or leans: long things, rolls, discs, rims, thin plates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from cleatwright.parts.grips.grip import Grip, TurnedGrip


@dataclass(frozen=True)
class LyingBar(TurnedGrip):
    """A long straight thing that lies along x after ``pose``, centred on x = y = 0.

    Its underside lies at z = 0; it is ``length_mm`` long, and its section is ``depth_mm``
    along y by ``height_mm`` along z, a circle when ``round_section``.
    """

    length_mm: float = 0.0
    depth_mm: float = 0.0
    height_mm: float = 0.0
    round_section: bool = False
    title: ClassVar[str] = "long straight body"


@dataclass(frozen=True)
class RollBore(TurnedGrip):
    """A roll or ring after ``pose``: its axis is the x axis, its middle x = y = z = 0.

    The bore is ``bore_mm``, the outside ``outer_mm``, the width along x ``width_mm``.
    """

    bore_mm: float = 0.0
    outer_mm: float = 0.0
    width_mm: float = 0.0
    title: ClassVar[str] = "bore of a roll"


@dataclass(frozen=True)
class Disc(TurnedGrip):
    """A disc, or a stack of discs, after ``pose``: its axis is the x axis, its middle the origin.

    ``thickness_mm`` is that of the stack.
    """

    diameter_mm: float = 0.0
    thickness_mm: float = 0.0
    title: ClassVar[str] = "disc"


@dataclass(frozen=True)
class RoundRim(Grip):
    """A round thing that stands on its rim, flat to the wall: its axis lies along y at ``z_mm``.

    The rim is ``diameter_mm`` across and ``depth_mm`` deep about y = 0.
    """

    z_mm: float
    diameter_mm: float
    depth_mm: float
    title: ClassVar[str] = "round rim"


@dataclass(frozen=True)
class ThinPlate(TurnedGrip):
    """A thin plate that stands on edge after ``pose``: its flat sides look along x.

    Its lower edge lies at z = 0 and is straight and level from ``edge_y0_mm`` to
    ``edge_y1_mm``; the plate is ``thickness_mm`` thick about x = 0 up to ``height_mm``.
    """

    thickness_mm: float = 0.0
    edge_y0_mm: float = 0.0
    edge_y1_mm: float = 0.0
    height_mm: float = 0.0
    title: ClassVar[str] = "thin plate"
