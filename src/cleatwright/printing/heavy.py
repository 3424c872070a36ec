"""Which pieces of a heavy part take its plastic.

Most of a print is walls and skins, so that plastic lies where surface is: what of the surface
belongs to the plate behind, and what of the rest faces up or down, aside, or to the front.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

HEAVY_G = 60.0
HEAVY = Source("a holder that is heavy", "a choice", Evidence.CHOICE)
LEAST_SHARE = 0.1
PLATE = "the plate with what holds it on the wall"
LEVEL = "floors, shelves and their undersides"
ASIDE = "webs, sides and arms along the way out"
BEFORE = "front walls and lips"
_BEHIND_MM = 0.05
VALUES = (Listed("Plastic", "a heavy holder g", HEAVY_G, HEAVY),)


@dataclass(frozen=True)
class MassShare:
    """A sort of pieces of a part, and what of its plastic they take.

    Args:
        piece: Which pieces.
        share: Their share of the surface, and so about of the plastic, 0 to 1.
    """

    piece: str
    share: float


def mass_shares(corners_mm: npt.NDArray[np.float64], *, plate_mm: float) -> tuple[MassShare, ...]:
    """Return what takes the plastic of a part, the most first; small shares are left out.

    Args:
        corners_mm: Corners of its triangles in the frame of a holder, shape (m, 3, 3).
        plate_mm: Where its plate ends along y.
    """
    edges = corners_mm[:, 1] - corners_mm[:, 0], corners_mm[:, 2] - corners_mm[:, 0]
    normals = np.cross(*edges)
    areas = np.linalg.norm(normals, axis=1) / 2.0
    behind = corners_mm[:, :, 1].mean(axis=1) <= plate_mm + _BEHIND_MM
    facing = np.abs(normals).argmax(axis=1)
    whole = float(areas.sum())
    found = [MassShare(PLATE, float(areas[behind].sum()) / whole)]
    for axis, piece in ((2, LEVEL), (0, ASIDE), (1, BEFORE)):
        found.append(MassShare(piece, float(areas[~behind & (facing == axis)].sum()) / whole))
    kept = (one for one in found if one.share >= LEAST_SHARE)
    return tuple(sorted(kept, key=lambda one: -one.share))


def heavy_words(grams: float, shares: tuple[MassShare, ...]) -> str:
    """Return where the plastic of a heavy part goes, in a clause; "" for one that is not heavy.

    >>> heavy_words(100.0, (MassShare("the plate", 0.62), MassShare("front walls", 0.2)))
    'about 62 g in the plate, 20 g in front walls'
    >>> heavy_words(50.0, (MassShare("the plate", 0.62),))
    ''
    """
    if grams <= HEAVY_G or not shares:
        return ""
    parts = ", ".join(f"{grams * one.share:.0f} g in {one.piece}" for one in shares)
    return f"about {parts}"
