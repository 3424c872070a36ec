"""The drawing on a measuring card: its views side by side, each at the same scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.papers.cards.lines import ARROW, RADIUS, TAIL, Drawn, outside
from cleatwright.papers.cards.placing import PlacedFace, placed
from cleatwright.papers.cards.view import CardFace, FaceName
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet

INK = "#111111"
BODY = Pen(fill="#ECECEC")
THICK = Pen(INK, 0.5)
FAINT = Pen("#8A8A8A", 0.25)
THIN = Pen(INK, 0.25)
LETTER = Face(3.0, INK, bold=True, anchor="middle")
CAPTION = Face(2.5, INK, anchor="middle")
TITLES: dict[FaceName, str] = {
    "front": "from the front",
    "side": "from the left",
    "above": "from above",
}
# what a mm of tool may be on paper: the largest of these that fits is taken
SCALES = (5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, *(k / 100 for k in range(100, 1, -2)))
BETWEEN = 10.0
CAPTION_ROOM = 5.0


@dataclass(frozen=True)
class PlacedView:
    """A view at its place in the drawing; ``caption`` is the middle of its base line."""

    face: PlacedFace
    at: Point
    caption: Point


@dataclass(frozen=True)
class Drawing:
    """All views of a card.

    Args:
        scale: mm of paper for a mm of tool.
        views: The views.
        size: Width and height in mm of paper.
    """

    scale: float
    views: tuple[PlacedView, ...]
    size: Point


def drawing(faces: Sequence[CardFace], *, width: float, height: float) -> Drawing:
    """Return the views at the largest scale at which they fit into a box of mm of paper.

    The view from the left stands at the right of that from the front, that from above below.
    Source: ISO 5456-2:1996, first angle projection (from memory).
    """
    tried = Drawing(1.0, (), (0.0, 0.0))
    for scale in SCALES if faces else ():
        tried = _arranged({face.name: placed(face, scale) for face in faces}, scale)
        if tried.size[0] <= width and tried.size[1] <= height:
            break
    return tried


def _arranged(faces: dict[FaceName, PlacedFace], scale: float) -> Drawing:
    top = max([faces[n].body[1] for n in ("front", "side") if n in faces], default=0.0)
    left = max([faces[n].body[0] for n in ("front", "above") if n in faces], default=0.0)
    corners: dict[FaceName, Point] = {}
    wide = max([_right(faces[n], left) for n in ("front", "above") if n in faces], default=0.0)
    low = 0.0
    if "front" in faces:
        corners["front"] = (left - faces["front"].body[0], top - faces["front"].body[1])
    if "side" in faces:
        corners["side"] = (wide + BETWEEN if wide else 0.0, top - faces["side"].body[1])
    for name, corner in corners.items():
        low = max(low, corner[1] + faces[name].size[1] + CAPTION_ROOM)
    if "above" in faces:
        corners["above"] = (left - faces["above"].body[0], low + BETWEEN / 2 if low else 0.0)
    views: list[PlacedView] = []
    for name in TITLES:
        if name not in corners:
            continue
        face, (x, y) = faces[name], corners[name]
        middle = x + face.body[0] + max(a for ring in face.outline for a, _ in ring) / 2
        middle -= face.body[0] / 2
        views.append(PlacedView(face, (x, y), (middle, y + face.size[1] + CAPTION_ROOM - 1.0)))
    return Drawing(
        scale,
        tuple(views),
        (
            max(view.at[0] + view.face.size[0] for view in views),
            max(view.at[1] + view.face.size[1] + CAPTION_ROOM for view in views),
        ),
    )


def _right(face: PlacedFace, left: float) -> float:
    return left - face.body[0] + face.size[0]


def draw(sheet: Sheet, shown: Drawing, corner: Point) -> None:
    """Draw all views; ``corner`` is the upper left corner of the drawing on the sheet."""
    for view in shown.views:
        at = corner[0] + view.at[0], corner[1] + view.at[1]
        sheet.layer(f"view {view.face.face.name}")
        outline = [_moved(ring, at) for ring in view.face.outline]
        sheet.rings(outline, BODY, name="body")
        for ring in view.face.pieces:
            sheet.polyline(_moved(ring, at), FAINT, closed=True)
        sheet.rings(outline, THICK, name="outline")
        for one in view.face.drawn:
            _dimension(sheet, one, at)
        # the letters come last, so that no line runs through one
        for one in view.face.drawn:
            x, y = one.centre[0] + at[0], one.centre[1] + at[1]
            sheet.circle((x, y), RADIUS, Pen(INK, 0.3, "#FFFFFF"))
            sheet.text((x, y + 0.36 * LETTER.size), one.letter, LETTER, name="letter")
        where = corner[0] + view.caption[0], corner[1] + view.caption[1]
        sheet.text(where, TITLES[view.face.face.name], CAPTION, name="caption")


def _moved(line: Sequence[Point], by: Point) -> list[Point]:
    return [(x + by[0], y + by[1]) for x, y in line]


def _dimension(sheet: Sheet, one: Drawn, at: Point) -> None:
    for line in (*one.extensions, one.leader):
        if len(line) > 1:
            sheet.polyline(_moved(line, at), THIN)
    start, end = _moved((one.start, one.end), at)
    sheet.polyline((start, end), THIN, name=f"dimension {one.letter}")
    length = math.dist(start, end)
    along = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    inward = -1.0 if outside(one) else 1.0
    for tip, sign in ((start, inward), (end, -inward)):
        way = along[0] * sign, along[1] * sign
        if inward < 0.0:
            sheet.polyline((tip, (tip[0] + TAIL * way[0], tip[1] + TAIL * way[1])), THIN)
        back = tip[0] + ARROW * way[0], tip[1] + ARROW * way[1]
        across = -way[1] * ARROW * 0.2, way[0] * ARROW * 0.2
        head = (
            tip,
            (back[0] + across[0], back[1] + across[1]),
            (back[0] - across[0], back[1] - across[1]),
        )
        sheet.polyline(head, Pen("none", fill=INK), closed=True)
