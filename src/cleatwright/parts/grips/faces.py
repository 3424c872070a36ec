"""Grips by which a tool leans on or lies in something: faces, rims, outlines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from cleatwright.parts.grips.grip import Grip
from cleatwright.shapes.outline import Outline


@dataclass(frozen=True)
class SteelFace(Grip):
    """A flat face of magnetic steel that looks to the wall, at ``y_mm``.

    It is at least ``width_mm`` wide about x = 0 from ``low_mm`` to ``high_mm``; nothing of
    the tool lies nearer to the wall within that height, and the steel is
    ``thickness_mm`` thick.
    """

    y_mm: float
    low_mm: float
    high_mm: float
    width_mm: float
    thickness_mm: float
    title: ClassVar[str] = "flat steel face"


@dataclass(frozen=True)
class Rim(Grip):
    """A rim around a box-shaped body; its underside lies at ``z_mm``.

    The body below it is ``body_x_mm`` wide at its widest and ``below_mm`` high,
    the rim ``rim_x_mm`` by ``rim_y_mm``, and ``rim_mm`` high.
    """

    z_mm: float
    body_x_mm: float
    below_mm: float
    rim_x_mm: float
    rim_y_mm: float
    rim_mm: float
    title: ClassVar[str] = "rim"


@dataclass(frozen=True)
class FlatOutline(Grip):
    """A flat thing of any outline in the xz plane, drawn as (x, z).

    It is ``thickness_mm`` thick along y from ``y_mm``, its back.
    """

    outline: Outline
    y_mm: float
    thickness_mm: float
    title: ClassVar[str] = "flat outline"
