"""Rails to be made, and the numbers for ripping their bevels.

    square strip of width S               two mating rails from one bevel rip
    ┌─────────────────────────┐           ┌────────────╱ ╱───────────┐
    │                         │  t   ─►   │     A     ╱ ╱      B     │
    └─────────────────────────┘           └──────────╱ ╱─────────────┘

A and B are measured on the longer face of each rail; the kerf k is slanted and so
takes k / cos(bevel) of the width. The bevel is the angle from a square cut.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.timber.boards import Piece
from cleatwright.wall.rail import Profile


class Bevelled(Protocol):
    """A strip that is ripped with a bevel and cut to length: a rail, or the hook of a carrier."""

    @property
    def name(self) -> str:
        """Return what it is called in the lists."""
        ...

    @property
    def length_mm(self) -> float:
        """Return its length."""
        ...

    @property
    def profile(self) -> Profile:
        """Return its cross-section."""
        ...


@dataclass(frozen=True)
class BevelRip:
    """How to rip rails of one profile, two and two, from square strips.

    Args:
        profile: The profile of both rails of a pair.
        rails: Names of the rails, longest first.
        pieces: The rails as pieces for the cutting plan, longest first.
        strip_mm: Width of the square strip that gives one pair.
        blade_tilt_deg: Tilt of the blade from upright.
        fence_mm: Distance from the fence to the blade at the table, with the
            blade tilted away from the fence: the shorter face lies on the table.
    """

    profile: Profile
    rails: tuple[str, ...]
    pieces: tuple[Piece, ...]
    strip_mm: float
    blade_tilt_deg: float
    fence_mm: float

    @property
    def total_mm(self) -> float:
        """Return the total length of the rails."""
        return sum(piece.length_mm for piece in self.pieces)


def pair_strip_mm(first: Profile, second: Profile, *, kerf_mm: float) -> float:
    """Return the width S = A + B - t tan(bevel) + k / cos(bevel) of a strip for two mating rails.

    Args:
        first: The one rail.
        second: The other; thickness and bevel must be the same.
        kerf_mm: Width of the saw cut (>= 0).

    Raises:
        MeasureError: The two do not share thickness and bevel, or the kerf is none.

    >>> rail = Profile(height_mm=80.0, thickness_mm=18.0, bevel_deg=45.0)
    >>> round(pair_strip_mm(rail, rail, kerf_mm=3.2), 3)
    146.525
    """
    if (first.thickness_mm, first.bevel_deg) != (second.thickness_mm, second.bevel_deg):
        raise MeasureError(
            "two rails of different thickness or bevel cannot share one cut",
            todo="Rip each from a strip of its own",
        )
    if not (math.isfinite(kerf_mm) and kerf_mm >= 0.0):
        raise MeasureError(f"a kerf of {said.mm(kerf_mm)}", allowed=f"{said.mm(0)} or more")
    slanted_kerf = kerf_mm / math.cos(math.radians(first.bevel_deg))
    return first.height_mm + second.height_mm - first.slant_mm + slanted_kerf


def bevel_rips(strips: Sequence[Bevelled], *, kerf_mm: float) -> tuple[BevelRip, ...]:
    """Return the rip data of all rails, one entry a profile, highest profile first."""
    profiles = {one.profile for one in strips}
    order = sorted(profiles, key=lambda p: (-p.height_mm, -p.thickness_mm, p.bevel_deg))
    return tuple(_rip(profile, strips, kerf_mm) for profile in order)


def _rip(profile: Profile, strips: Sequence[Bevelled], kerf_mm: float) -> BevelRip:
    own = sorted(
        (one for one in strips if one.profile == profile), key=lambda s: (-s.length_mm, s.name)
    )
    return BevelRip(
        profile=profile,
        rails=tuple(one.name for one in own),
        pieces=tuple(Piece(one.name, one.length_mm) for one in own),
        strip_mm=pair_strip_mm(profile, profile, kerf_mm=kerf_mm),
        blade_tilt_deg=profile.bevel_deg,
        fence_mm=profile.short_face_mm,
    )
