"""On which pages the rails of a load map lie: paper that homes have, at a scale that reads well.

┌──────────────────────────────┐
│ title, page n of m           │   a rail that is longer than a page goes on on the next one;
│ R1 ══↓═══↓═══════↓═══        │   each load and each stud is on one page only
│       stud    stud           │
│ R2 ══↓══════                 │   the notes stand after the last rail
└──────────────────────────────┘
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from cleatwright.papers.kit.paper import SCALES, Paper, landscape, series
from cleatwright.papers.kit.tiling import windows
from cleatwright.papers.load_map.view import LoadMapView, StripView

MARGIN = 10.0
# room beside the ends of a rail, for words that are centred under a stud there
SIDE = 16.0
TITLE = 4.6
HEAD = MARGIN + TITLE * 1.6 + 2.0
# what two studs need beside each other, and a rail for the marks of its screws
BLOCK_WIDTH, LEAST_RAIL = 29.0, 4.8
OVERLAP = 10.0
FIRST_SCALE = 5


@dataclass(frozen=True)
class RailStretch:
    """What one page shows of a rail: a stretch of it, with its own loads and studs.

    Args:
        strip: The rail with the loads and studs of the stretch alone.
        whole: The rail.
        start_mm: Where the stretch begins.
        end_mm: Where it ends.
        number: Its number among the stretches of the rail, from 1.
        count: How many there are.
    """

    strip: StripView
    whole: StripView
    start_mm: float
    end_mm: float
    number: int = 1
    count: int = 1


@dataclass(frozen=True)
class Pages:
    """The sheet, the scale, and what is on each page from top to bottom; notes on the last."""

    paper: Paper
    scale: int
    pages: tuple[tuple[RailStretch, ...], ...]


def room_mm(paper: Paper) -> float:
    """Return how much of a rail a page shows, in paper millimetres."""
    return paper.width_mm - 2 * SIDE


def pages_of(
    view: LoadMapView,
    height: Callable[[RailStretch, int, Paper], float],
    notes_height: Callable[[Paper, int], float],
) -> Pages:
    """Return the pages of a load map, on the smallest sheet of its series.

    Args:
        view: What is drawn.
        height: How high a piece is at a scale on a sheet, in paper millimetres.
        notes_height: How high the notes are on a sheet at a scale.
    """
    paper = landscape(series(view.unit)[0])
    scale = _scale(view, room_mm(paper))
    lowest = paper.height_mm - MARGIN
    pages: list[list[RailStretch]] = [[]]
    y = HEAD
    for strip in view.strips:
        for piece in pieces_of(strip, room=room_mm(paper) * scale, overlap=OVERLAP * scale):
            high = height(piece, scale, paper)
            if pages[-1] and y + high > lowest:
                pages.append([])
                y = HEAD
            pages[-1].append(piece)
            y += high
    if y + notes_height(paper, scale) > lowest:
        pages.append([])
    return Pages(paper, scale, tuple(tuple(page) for page in pages))


def pieces_of(strip: StripView, *, room: float, overlap: float) -> tuple[RailStretch, ...]:
    """Return the stretches of a rail, each at most ``room`` long; both in mm of the wall."""
    if strip.rail.length_mm <= room:
        return (RailStretch(strip, strip, strip.rail.x0_mm, strip.rail.x1_mm),)
    every = windows(strip.rail.x0_mm, strip.rail.x1_mm, room=room, overlap=overlap)

    def page_of(x_mm: float) -> int:
        # the page on which a place is farthest from both edges of the paper
        return max(every, key=lambda w: (min(x_mm - w.start, w.end - x_mm), -w.number)).number

    return tuple(
        RailStretch(
            replace(
                strip,
                arrows=tuple(one for one in strip.arrows if page_of(one.x_mm) == w.number),
                studs=tuple(one for one in strip.studs if page_of(one.x_mm) == w.number),
            ),
            strip,
            w.start,
            min(w.end, strip.rail.x1_mm),
            w.number,
            len(every),
        )
        for w in every
    )


def _scale(view: LoadMapView, room: float) -> int:
    """Return the largest usual scale at which every rail fits, if it reads well; else the next.

    Where the words of neighbouring studs would touch at that scale it is a larger one, on more
    pages.
    """
    longest = max((strip.rail.length_mm for strip in view.strips), default=0.0)
    known = [k for k in SCALES if k >= FIRST_SCALE]
    legible = [k for k in known if _legible(view, k)] or known[:1]
    return next((k for k in legible if longest / k <= room), legible[-1])


def _legible(view: LoadMapView, scale: int) -> bool:
    """Return True when words under studs stay apart and a rail is high enough for its screws."""
    rails = all(strip.rail.height_mm / scale >= LEAST_RAIL for strip in view.strips)
    return rails and view.least_spacing_mm / scale >= BLOCK_WIDTH
