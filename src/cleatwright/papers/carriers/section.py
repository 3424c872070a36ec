"""The section of a carrier of wood, seen from the left, with its thicknesses."""

from __future__ import annotations

from collections.abc import Callable

from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet
from cleatwright.parts.joinery import Joinery

INK, BLUE, WOOD, STRIP, GREY = "#202020", "#1F4E8C", "#EAD9BC", "#DCC39B", "#8A8A8A"
TEXT_MM = 2.6
HIDDEN = Pen(GREY, 0.25, dash=(1.6, 1.0))
THIN = Pen(BLUE, 0.15)
Placed = Callable[[float, float], Point]


def draw_section(sheet: Sheet, board: Joinery, *, corner: Point, unit: LengthUnit) -> None:
    """Draw the board with its strips; ``corner`` is where the wall meets the top edge."""
    behind = max((strip.thickness_mm for strip in board.strips), default=0.0)
    left, top = corner

    def at(y_mm: float, z_mm: float) -> Point:
        return left + behind + y_mm, top + board.high_mm - z_mm

    sheet.layer("section")
    thick = board.thickness_mm
    sheet.box(at(0.0, board.high_mm), (thick, board.height_mm), Pen(INK, 0.4, WOOD), name="board")
    for strip in board.strips:
        points = [at(y, z) for y, z in strip.profile]
        sheet.polyline(points, Pen(INK, 0.4, STRIP), closed=True)
    _hidden(sheet, board, at)
    ends = (left, left + behind, left + behind + board.thickness_mm)
    _thicknesses(sheet, ends, foot=top + board.height_mm, unit=unit)
    _labels(sheet, board, at, unit)


def _hidden(sheet: Sheet, board: Joinery, at: Placed) -> None:
    """Draw what the section hides: a groove, the screws and the holes."""
    thick = board.thickness_mm
    for groove in board.grooves[:1]:
        y = thick - groove.depth_mm
        # the round end reaches lower at the bottom of the groove than at its mouth
        points = [
            at(y, board.high_mm),
            at(y, groove.low_mm),
            at(thick, groove.stop_mm - groove.mouth_mm / 2),
        ]
        sheet.polyline(points, HIDDEN)
    for screw in board.screws:
        start, end = at(-thick, screw.z_mm), at(screw.length_mm - thick, screw.z_mm)
        sheet.line(start, end, Pen(GREY, 0.5))
    for bore in board.bores:
        if bore.counterbore_mm:
            half = bore.counterbore_mm / 2
            size = (bore.counterbore_depth_mm, bore.counterbore_mm)
            sheet.box(at(0.0, bore.z_mm + half), size, HIDDEN)
        for edge in (-bore.diameter_mm / 2, bore.diameter_mm / 2):
            z = bore.z_mm + edge
            sheet.line(at(-bore.behind_mm, z), at(thick, z), HIDDEN)


def _labels(sheet: Sheet, board: Joinery, at: Placed, unit: LengthUnit) -> None:
    thick, k = board.thickness_mm, sheet.scale
    for strip in board.strips:
        if strip.bevel_deg:
            words = f"bevel {strip.bevel_deg:g} degrees"
            x, y = at(0.0, strip.top_mm - strip.short_mm)
            place = (x + thick + 2.0 * k, y)
            sheet.line((x + thick + 1.0 * k, y), (x - strip.thickness_mm / 3, y), THIN)
            sheet.text((place[0], place[1] + 0.9 * k), words, _face("start"))
    for groove in board.grooves[:1]:
        x0, y = at(thick - groove.depth_mm, board.high_mm)
        y -= 2.5 * k
        _between(sheet, (x0, y), (x0 + groove.depth_mm, y))
        words = f"groove {length_words(groove.depth_mm, unit, decimals=2)} deep"
        sheet.text((x0 + groove.depth_mm + 1.5 * k, y + 0.9 * k), words, _face("start"))


def _thicknesses(
    sheet: Sheet, ends: tuple[float, float, float], *, foot: float, unit: LengthUnit
) -> None:
    """Write how thick strips and board are, below them; ``ends`` are their faces."""
    k = sheet.scale
    y = foot + 3.0 * k
    names = ["strips", "board"]
    for x0, x1, name in zip(ends, ends[1:], names, strict=False):
        if x1 - x0 < 1e-6:
            continue
        _between(sheet, (x0, y), (x1, y))
        face = _face("end") if name == "strips" else _face("start")
        x = x0 - 1.0 * k if name == "strips" else x1 + 1.0 * k
        words = f"{name} {length_words(x1 - x0, unit, decimals=2)}"
        sheet.text((x, y + (4.6 if name == "strips" else 0.9) * k), words, face)


def _face(anchor: str) -> Face:
    return Face(TEXT_MM, BLUE, anchor="end" if anchor == "end" else "start", halo=True)


def _between(sheet: Sheet, start: Point, end: Point) -> None:
    """Draw a dimension line with an oblique stroke at each end."""
    sheet.line(start, end, THIN)
    r = 0.8 * sheet.scale
    sheet.lines(
        [((x - r, y + r), (x + r, y - r)) for x, y in (start, end)],
        Pen(BLUE, 0.3),
    )
