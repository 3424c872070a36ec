"""Measuring cards: of a kind, and for the tools of a list."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np
from shapely import MultiPoint, Polygon, union_all
from shapely.geometry.base import BaseGeometry

from cleatwright.base.errors import InputError
from cleatwright.base.lengths import LengthUnit, Wording, bounds_words, measured_length
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.papers.cards.view import (
    CardDimension,
    CardFace,
    CardRow,
    CardTool,
    CardView,
    FaceName,
    Ring,
)
from cleatwright.papers.elevation.view import letter
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline
from cleatwright.tools.dimension import Dimension
from cleatwright.tools.kind import Kind, MeasureRow
from cleatwright.tools.registry import kind as kind_of
from cleatwright.tools.registry import ordinary_outline, tool_body

Matrix = tuple[tuple[float, float, float], tuple[float, float, float]]
# to the right and up on the paper: x of a tool runs to the left for a person who faces it
SEEN: dict[FaceName, Matrix] = {
    "front": ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "side": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "above": ((-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
}
# pieces that touch leave no gap of rounding between them
JOIN_MM = 1e-4
# what the ordinary tool lacks is drawn between its bounds, smaller until it fits
LEAST_MM, SMALLER, TRIES = 0.1, 0.8, 14
OUTLINED = "Take its outline, too."


def measuring_card(
    kind_name: str,
    measures: Mapping[str, float] | None = None,
    *,
    outline: Outline | None = None,
    tools: Sequence[CardTool] = (),
    unit: LengthUnit = "mm",
) -> CardView:
    """Return the card of a kind, drawn on its ordinary tool or on a given one.

    Args:
        kind_name: The kind.
        measures: The measures of a tool in mm; its values are written on the card. Without
            any the ordinary tool is drawn, with all that it may have, and values are blank.
        outline: The outline of that tool, of a kind that is outlined.
        tools: Tools whose fields stand below the legend.
        unit: The unit in which bounds and values are written.

    Raises:
        UnknownNameError: There is no such kind.
        MeasureError: The measures are none of such a tool.
    """
    chosen = kind_of(kind_name)
    shown = full_example(chosen) if measures is None else dict(measures)
    drawn = ordinary_outline(kind_name) if measures is None else outline
    rows = chosen.card
    letters = {row.name: letter(number) for number, row in enumerate(rows)}
    return CardView(
        kind=chosen.name,
        title=chosen.title,
        faces=_faces(chosen, shown, drawn, letters),
        rows=tuple(_row(row, letters[row.name], measures, unit) for row in rows),
        tools=tuple(tools),
        hint=OUTLINED if chosen.outlined else "",
        caution=Wording(unit)(" ".join(chosen.cautions)),
        unit=unit,
    )


def full_example(kind: Kind) -> dict[str, float]:
    """Return an ordinary tool of a kind with every feature that it may have, if it can be made."""
    found = dict(kind.example)
    for row in kind.card:
        if found.get(row.name):
            continue
        value = math.sqrt(max(row.low_mm, LEAST_MM) * row.high_mm)
        for _ in range(TRIES):
            trial = found | {row.name: round(value, 2)}
            if value >= row.low_mm and _makes(kind, trial):
                found = trial
                break
            value *= SMALLER
    return found


def _makes(kind: Kind, measures: Mapping[str, float]) -> bool:
    try:
        tool_body(kind.name, measures, outline=ordinary_outline(kind.name))
    except InputError:
        return False
    return True


def tool_fields(
    kind_name: str, measures: Mapping[str, float], *, unit: LengthUnit = "mm"
) -> tuple[str, ...]:
    """Return what is known of a tool, in the order of its card; "" for what is not."""
    return tuple(_value(row.name, measures, unit) for row in kind_of(kind_name).card)


def _value(name: str, measures: Mapping[str, float], unit: LengthUnit) -> str:
    return measured_length(measures[name], unit) if name in measures else ""


def _row(
    row: MeasureRow, sign: str, measures: Mapping[str, float] | None, unit: LengthUnit
) -> CardRow:
    note = ""
    if row.may_be_zero:
        note = "may be missing"
    elif not row.needed:
        note = "may be left out"
    value = "" if measures is None else _value(row.name, measures, unit)
    bounds = bounds_words(row.low_mm, row.high_mm, unit)
    return CardRow(sign, row.name, Wording(unit)(row.description), bounds, note, value)


def _faces(
    kind: Kind,
    measures: Mapping[str, float],
    outline: Outline | None,
    letters: Mapping[str, str],
) -> tuple[CardFace, ...]:
    body = tool_body(kind.name, measures, outline=outline)
    drawn = kind.drawn(kind.measures.model_validate(dict(measures)))
    return tuple(
        _face(name, body, [one for one in drawn if one.view == name], letters)
        for name in SEEN
        # an outline is seen from the front, whatever is measured there
        if any(one.view == name for one in drawn) or (name == "front" and outline is not None)
    )


def _face(
    name: FaceName, body: ToolBody, drawn: Iterable[Dimension], letters: Mapping[str, str]
) -> CardFace:
    seen, kernel = np.array(SEEN[name]), MeshKernel()
    pieces = [
        MultiPoint(kernel.evaluate(piece).vertices_mm @ seen.T).convex_hull
        for piece in body.envelope
    ]
    whole = union_all([piece.buffer(JOIN_MM, join_style="mitre") for piece in pieces])
    return CardFace(
        name=name,
        outline=tuple(_rings(whole.simplify(2 * JOIN_MM))),
        pieces=tuple(ring for piece in pieces for ring in _rings(piece)),
        dimensions=tuple(
            CardDimension(letters[one.measure], *(_on_face(seen, one)))
            for one in sorted(drawn, key=lambda one: letters[one.measure])
        ),
    )


def _on_face(
    seen: np.ndarray[tuple[int, ...], np.dtype[np.float64]], one: Dimension
) -> tuple[tuple[float, float], tuple[float, float]]:
    (a, b), (c, d) = ((seen @ np.array(end)).tolist() for end in (one.start_mm, one.end_mm))
    return (a, b), (c, d)


def _rings(shape: BaseGeometry) -> Iterator[Ring]:
    for part in getattr(shape, "geoms", (shape,)):
        if isinstance(part, Polygon):
            for ring in (part.exterior, *part.interiors):
                yield tuple((x, y) for x, y in ring.coords[:-1])
