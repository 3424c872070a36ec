"""The reach of each of several people: a bar beside the wall, and what the legend says of it.

wall │ easy   ╷      ╷      a thin line where the hand reaches, a broad green one where it
     │ 1374   ┃ B    │ T    reaches with ease; a red one from the floor up is what a child
     │        ┃ e    ┃ o    touches
     │        ╵ n    ┃ m
"""

from __future__ import annotations

from collections.abc import Iterator

from cleatwright.papers.elevation.layout import DIMENSION_SIZE, PERSON_STEP, Layout, reach_room
from cleatwright.papers.elevation.legend import CAUTION, GREEN, INK
from cleatwright.papers.elevation.view import ElevationView, PersonView
from cleatwright.papers.kit.svg import Face, Pen, Sheet, text_width

EASY = Pen(GREEN, 1.3)
REACHED = Pen(GREEN, 0.3)
TOUCHED = Pen(CAUTION, 0.5, dash=(1.2, 0.8))
# from the wall to the bar, from the bar to the name and to what a child touches
BAR, NAME, TOUCH = 1.6, 3.9, 1.3


def draw_people(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw a bar for each of several people at the right of the wall."""
    k = float(lay.scale)
    edge = lay.left + view.width_mm / k + reach_room(view)
    for number, one in enumerate(view.people):
        x = edge + number * PERSON_STEP + BAR
        for low, high, pen, aside in _lines(view, one):
            ends = ((x + aside) * k, lay.bottom * k - low), ((x + aside) * k, lay.bottom * k - high)
            sheet.line(*ends, pen)
        words = cut(one.name, room=view.height_mm / k)
        face = Face(DIMENSION_SIZE, INK, halo=True)
        sheet.text(((x + NAME) * k, lay.bottom * k), words, face, name="person-name", upright=True)


def _lines(view: ElevationView, one: PersonView) -> Iterator[tuple[float, float, Pen, float]]:
    """Yield what is drawn of a person, as z of both ends on the wall, pen and place aside."""
    gap, height = view.floor_gap_mm, view.height_mm
    spans: list[tuple[float, float, Pen, float]] = []
    if one.band is not None:
        spans.append((one.band.lowest_mm, one.band.highest_mm, REACHED, 0.0))
        spans.append((one.band.low_mm, one.band.high_mm, EASY, 0.0))
    if one.touches_mm is not None:
        spans.append((0.0, one.touches_mm, TOUCHED, -TOUCH if one.band is not None else 0.0))
    for low, high, pen, aside in spans:
        z0, z1 = max(low - gap, 0.0), min(high - gap, height)
        if z0 < z1:
            yield z0, z1, pen, aside


def cut(name: str, *, room: float) -> str:
    """Return a name as long as there is room for it, in paper mm.

    >>> cut("Anna", room=40.0), cut("Somebody with a long name", room=20.0)
    ('Anna', 'Somebody wi…')
    """
    shown = name
    while len(shown) > 1 and text_width(shown, DIMENSION_SIZE) > room:
        shown = f"{shown.rstrip('…')[:-1]}…"
    return shown
