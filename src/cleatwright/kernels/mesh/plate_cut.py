"""Cuts of a body across x: rectangles of a plate and of what stands on it, and how a cut bends."""

# the library's stubs leave the element types of its arrays open
# pyright: reportUnknownMemberType=false, reportUnknownVariableType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from manifold3d import CrossSection

from cleatwright.kernels.mesh.body import Floats, MeshBody, transformed
from cleatwright.kernels.mesh.shell_cut import LAID, Shell, ShellPiece, pieces_of

# corners and spans that differ by less are the same
SAME_MM = 0.01
# what is narrower twists by itself
LEAST_MM = 1.0
Span = tuple[float, float]


@dataclass(frozen=True)
class Rectangle:
    """A rectangle that lies wholly in a cut.

    Args:
        low_mm: Its least y and z.
        high_mm: Its largest y and z.
    """

    low_mm: tuple[float, float]
    high_mm: tuple[float, float]


@dataclass(frozen=True)
class PlateCut:
    """A cut across x.

    Args:
        at_mm: Where.
        plate: What is left of the plate, one above the other.
        front: The largest rectangle of what stands on it, or None.
        pieces: All of the cut, in z and in y.
    """

    at_mm: float
    plate: tuple[Rectangle, ...]
    front: Rectangle | None
    pieces: tuple[ShellPiece, ...]


def plate_cuts(
    body: MeshBody, places_mm: Sequence[float], *, thick_mm: float, shell: Shell
) -> Iterator[PlateCut]:
    """Yield cuts across x, those that meet nothing left out.

    Args:
        body: The body in the frame of its holder.
        places_mm: Where it is cut.
        thick_mm: How thick the plate is, from y = 0.
        shell: What is closed.
    """
    laid, sign = LAID["x"]
    turned = transformed(body.manifold, laid)
    for at in places_mm:
        cut = turned.slice(at)
        pieces = tuple(pieces_of(cut, "x", shell, sign))
        if pieces:
            left, _, right, reach = cut.bounds()
            plate, front = (
                cut ^ CrossSection.square((right - left, high - low)).translate((left, low))
                for low, high in ((0.0, thick_mm), (thick_mm, max(reach, thick_mm)))
            )
            bands = _bands(plate, along=0)
            standing = [Rectangle((y0, -z1), (y1, -z0)) for (z0, z1), (y0, y1) in _stiff(bands)]
            before = _stiffest(_bands(front, along=1))
            yield PlateCut(
                at,
                tuple(sorted(standing, key=lambda one: one.low_mm[1])),
                None if before is None else _rectangle(before[2]),
                pieces,
            )


Band = tuple[Span, Span]
"""A rectangle from one corner of a cut to the next along a line, and its longest span across."""


def _rectangle(band: Band) -> Rectangle:
    (y0, y1), (z0, z1) = band
    return Rectangle((y0, -z1), (y1, -z0))


def _bands(cut: CrossSection, *, along: int) -> list[Band]:
    """Return bands of a cut one beside the other, along z (0) or along y (1)."""
    if cut.is_empty():
        return []
    loops = [np.asarray(one) for one in cut.to_polygons()]
    starts = np.concatenate(loops)
    ends = np.concatenate([np.roll(one, -1, axis=0) for one in loops])
    corners = np.unique(np.round(starts[:, along] / SAME_MM)) * SAME_MM
    edge = SAME_MM / 2
    beside = np.stack([corners[:-1] + edge, corners[1:] - edge], axis=1)
    spans = _longest(starts, ends, beside.ravel(), along).reshape(-1, 4).tolist()
    found: list[Band] = []
    for (low, high), (a, b, c, d) in zip(pairwise(corners.tolist()), spans, strict=True):
        span = max(a, c), min(b, d)
        if found and all(abs(a - b) < SAME_MM for a, b in zip(found[-1][1], span, strict=True)):
            found[-1] = (found[-1][0][0], high), found[-1][1]
        else:
            found.append(((low, high), span))
    return found


def _longest(starts: Floats, ends: Floats, at_mm: Floats, along: int) -> Floats:
    """Return the longest span of lines across a cut, (m, 2); from 0 to 0 where one misses it.

    Args:
        starts: Where the edges of the cut begin, (n, 2).
        ends: Where they end, (n, 2).
        at_mm: Where the lines lie, (m,).
        along: The direction that is counted by ``at_mm``.
    """
    at, across = at_mm[:, None], 1 - along
    over = (starts[:, along] > at) != (ends[:, along] > at)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = (at - starts[:, along]) / (ends[:, along] - starts[:, along])
        met = starts[:, across] + share * (ends[:, across] - starts[:, across])
    crossed = np.sort(np.where(over, met, np.inf), axis=1)
    # an edge is met by none or by two: pairs are spans, and what is left lies beyond all
    pairs = crossed[:, : len(starts) // 2 * 2].reshape(len(at_mm), -1, 2)
    lows, highs = pairs[..., 0], pairs[..., 1]
    real = np.isfinite(highs)
    lengths = np.where(real, highs, 0.0) - np.where(real, lows, 1.0)
    rows, best = np.arange(len(at_mm)), lengths.argmax(axis=1)
    return np.where(real[rows, best][:, None], pairs[rows, best], 0.0)


def _stiffest(bands: Sequence[Band]) -> tuple[int, int, Band] | None:
    """Return the rectangle across bands that is stiffest by a3 b, with the first and last."""
    best, stiff = None, 0.0
    for k, ((begins, _), _) in enumerate(bands):
        low, high = -math.inf, math.inf
        for n in range(k, len(bands)):
            (_, ends), (one, other) = bands[n]
            low, high = max(low, one), min(high, other)
            if high - low < LEAST_MM:
                break
            short, long = sorted((high - low, ends - begins))
            if long * short**3 > stiff and short >= LEAST_MM:
                stiff, best = long * short**3, (k, n, ((begins, ends), (low, high)))
    return best


def _stiff(bands: Sequence[Band]) -> Iterator[Band]:
    """Yield the stiffest rectangle, and those beside it."""
    best = _stiffest(bands)
    if best is not None:
        first, last, band = best
        yield band
        yield from _stiff(bands[:first])
        yield from _stiff(bands[last + 1 :])
