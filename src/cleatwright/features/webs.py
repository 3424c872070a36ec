"""A web under a floor, deep at the plate and less at its end, with a straight lower edge.

   plate ║══════ floor ═══════════════
         ║                           │ tip
         ║ root              __--‾‾‾‾
         ║       __--‾‾‾‾‾‾‾‾
         ║‾‾‾‾‾‾‾

A moment that falls evenly asks for a depth that falls as its root, above the straight line
between both ends by at most (h0 - h1)^2 / (4 (h0 + h1)): so much deeper are both.
Source: the largest distance of a parabola from its chord.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class WebDepth:
    """How far a web reaches below its floor: at the plate, and at its end."""

    root_mm: float
    tip_mm: float


def web_depth(root_mm: float, end_mm: float, *, floor_mm: float, least: WebDepth) -> WebDepth:
    """Return a web that is deep enough everywhere, with the floor above it.

    Args:
        root_mm: How deep floor and web together must be at the plate.
        end_mm: The same at its end, no more than at the plate.
        floor_mm: Thickness of the floor.
        least: What a web has in any case.

    >>> web_depth(20.0, 0.0, floor_mm=5.0, least=WebDepth(8.0, 4.0))
    WebDepth(root_mm=20.0, tip_mm=4.0)
    """
    more = (root_mm - end_mm) ** 2 / (4.0 * (root_mm + end_mm)) if root_mm > 0.0 else 0.0
    return WebDepth(
        max(least.root_mm, root_mm + more - floor_mm),
        max(least.tip_mm, end_mm + more - floor_mm),
    )
