"""The drawing of a tool to its measures, with a letter and a line for each of them."""

from __future__ import annotations

from collections.abc import Mapping

from cleatwright.base.errors import InputError
from cleatwright.base.lengths import LengthUnit
from cleatwright.jobs.measuring import full_example, measuring_card
from cleatwright.papers.cards.drawing import TITLES, drawing
from cleatwright.papers.cards.lines import Drawn, outside
from cleatwright.shapes.outline import Outline
from cleatwright.tools.registry import KINDS, ordinary_outline
from cleatwright.web.rows.row import Row

Point = tuple[float, float]
DIGITS = 2


class DimensionRow(Row):
    """One measure on the drawing; all in mm of paper, to the right and down."""

    measure: str
    letter: str
    start: Point
    end: Point
    extensions: tuple[tuple[Point, Point], ...]
    leader: tuple[Point, ...]
    centre: Point
    outside: bool


class ViewRow(Row):
    """The tool from one side."""

    title: str
    caption: Point
    outline: tuple[tuple[Point, ...], ...]
    pieces: tuple[tuple[Point, ...], ...]
    dimensions: tuple[DimensionRow, ...]


class DrawingRow(Row):
    """All views of a tool on a paper of ``size`` mm.

    ``true`` tells whether it is drawn to its own measures; ``ordinary`` are those that the
    ordinary tool of the kind lends.
    """

    size: Point
    views: tuple[ViewRow, ...]
    true: bool
    ordinary: tuple[str, ...]


def drawing_row(
    kind: str,
    measures: Mapping[str, float],
    *,
    outline: Outline | None = None,
    unit: LengthUnit = "mm",
    width: float = 96.0,
    height: float = 110.0,
) -> DrawingRow:
    """Return a tool drawn to its measures; what is missing is lent by the ordinary tool.

    Where the measures cannot be together, the ordinary tool is drawn.

    Raises:
        UnknownNameError: There is no such kind.
    """
    chosen = KINDS.get(kind)
    lent = {} if chosen is None else _lent(chosen.example, measures)
    try:
        view = measuring_card(
            kind, {**lent, **measures}, outline=outline or ordinary_outline(kind), unit=unit
        )
        true = True
    except InputError:
        view = measuring_card(kind, full_example(KINDS[kind]), outline=ordinary_outline(kind))
        true, lent = False, {}
    shown = drawing(view.faces, width=width, height=height)
    names = {row.letter: row.name for row in view.rows}
    return DrawingRow(
        size=_point(shown.size),
        views=tuple(
            ViewRow(
                title=TITLES[one.face.face.name],
                caption=_point(one.caption),
                outline=tuple(_ring(ring, one.at) for ring in one.face.outline),
                pieces=tuple(_ring(ring, one.at) for ring in one.face.pieces),
                dimensions=tuple(_dimension(d, one.at, names[d.letter]) for d in one.face.drawn),
            )
            for one in shown.views
        ),
        true=true,
        ordinary=tuple(lent),
    )


def _lent(
    example: tuple[tuple[str, float], ...], measures: Mapping[str, float]
) -> dict[str, float]:
    """Return the ordinary measures of those that are missing, as large as the others are."""
    ordinary = dict(example)
    shared = [measures[name] / ordinary[name] for name in measures if ordinary.get(name)]
    scale = sorted(shared)[len(shared) // 2] if shared else 1.0
    return {name: mm * scale for name, mm in ordinary.items() if name not in measures}


def _dimension(one: Drawn, at: Point, measure: str) -> DimensionRow:
    return DimensionRow(
        measure=measure,
        letter=one.letter,
        start=_at(one.start, at),
        end=_at(one.end, at),
        extensions=tuple((_at(a, at), _at(b, at)) for a, b in one.extensions),
        leader=tuple(_at(point, at) for point in one.leader),
        centre=_at(one.centre, at),
        outside=outside(one),
    )


def _at(point: Point, at: Point) -> Point:
    return _point((point[0] + at[0], point[1] + at[1]))


def _ring(ring: tuple[Point, ...], at: Point) -> tuple[Point, ...]:
    return tuple(_at(point, at) for point in ring)


def _point(point: Point) -> Point:
    return round(point[0], DIGITS), round(point[1], DIGITS)
