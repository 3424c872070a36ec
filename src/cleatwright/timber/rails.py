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

from cleatwright.base.errors import MeasureError
from cleatwright.timber.boards import Piece

MOST_BEVEL_DEG = 60.0


@dataclass(frozen=True)
class Profile:
    """The cross-section of a rail.

    Args:
        height_mm: Height of the longer face (> 0).
        thickness_mm: Thickness of the board (> 0).
        bevel_deg: Angle of the bevel from a square cut, above 0 and at most 60 degrees.
    """

    height_mm: float
    thickness_mm: float
    bevel_deg: float

    def __post_init__(self) -> None:
        """Raise MeasureError for numbers that make no rail."""
        numbers = (self.height_mm, self.thickness_mm, self.bevel_deg)
        if not all(math.isfinite(n) and n > 0.0 for n in numbers):
            raise MeasureError(f"a rail with numbers {numbers}", allowed="numbers above 0")
        if self.bevel_deg > MOST_BEVEL_DEG:
            raise MeasureError(
                f"a bevel of {self.bevel_deg:g} degrees",
                allowed=f"above 0 and at most {MOST_BEVEL_DEG:g} degrees",
            )
        if not self.short_face_mm > 1e-6:
            raise MeasureError(
                f"a rail {self.height_mm:g} mm high from a board {self.thickness_mm:g} mm thick "
                f"with a bevel of {self.bevel_deg:g} degrees comes to a point",
                allowed=f"a height above {self.slant_mm:g} mm",
                todo="Make the rail higher, the board thinner or the bevel smaller",
            )

    @property
    def slant_mm(self) -> float:
        """Return by how much the shorter face is shorter: t tan(bevel)."""
        return self.thickness_mm * math.tan(math.radians(self.bevel_deg))

    @property
    def short_face_mm(self) -> float:
        """Return the height of the shorter face."""
        return self.height_mm - self.slant_mm


@dataclass(frozen=True)
class RailRun:
    """One straight rail on the wall: its name, length and profile."""

    name: str
    length_mm: float
    profile: Profile


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
        raise MeasureError(f"a kerf of {kerf_mm:g} mm", allowed="0 mm or more")
    slanted_kerf = kerf_mm / math.cos(math.radians(first.bevel_deg))
    return first.height_mm + second.height_mm - first.slant_mm + slanted_kerf


def bevel_rips(runs: Sequence[RailRun], *, kerf_mm: float) -> tuple[BevelRip, ...]:
    """Return the rip data of all rails, one entry a profile, highest profile first."""
    profiles = {run.profile for run in runs}
    order = sorted(profiles, key=lambda p: (-p.height_mm, -p.thickness_mm, p.bevel_deg))
    return tuple(_rip(profile, runs, kerf_mm) for profile in order)


def _rip(profile: Profile, runs: Sequence[RailRun], kerf_mm: float) -> BevelRip:
    own = sorted(
        (run for run in runs if run.profile == profile), key=lambda r: (-r.length_mm, r.name)
    )
    return BevelRip(
        profile=profile,
        rails=tuple(run.name for run in own),
        pieces=tuple(Piece(run.name, run.length_mm) for run in own),
        strip_mm=pair_strip_mm(profile, profile, kerf_mm=kerf_mm),
        blade_tilt_deg=profile.bevel_deg,
        fence_mm=profile.short_face_mm,
    )
