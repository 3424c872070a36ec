"""A carrier of wood as a drawing: seen from the front, and its section seen from the left."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.lengths import ROUNDED_TO, LengthUnit, Wording, length_words
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.carriers.section import draw_section
from cleatwright.papers.elevation.dimensions import spread
from cleatwright.papers.kit.drawn import drawn_file
from cleatwright.papers.kit.paper import Paper, landscape, series
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet, wrap
from cleatwright.parts.joinery import Bore, Joinery
from cleatwright.parts.mirror import to_reader
from cleatwright.standards import cautions

MARGIN_MM = 10.0
# room on the paper for the words beside, above and below the front view
LEFT_MM, TOP_MM, FOOT_MM, GAP_MM, RIGHT_MM = 48.0, 48.0, 34.0, 16.0, 34.0
CAPTION_MM = 28.0
SCALES = (1.0, 2.0, 2.5, 5.0, 10.0)
MOST_HIGH_MM = 88.0
INK, BLUE, WOOD, GREY = "#202020", "#1F4E8C", "#EAD9BC", "#8A8A8A"
WORDS = Face(2.6, BLUE, anchor="start", halo=True)
PITCH_MM = 3.4
LINE_MM = 3.6
SOLID = Pen(INK, 0.4, WOOD)
PLAIN = Pen(INK, 0.3)
HIDDEN = Pen(GREY, 0.25, dash=(1.6, 1.0))
THIN = Pen(BLUE, 0.15)


@dataclass(frozen=True)
class _Frame:
    """Where the front view lies, in real mm of the sheet."""

    left: float
    top: float
    scale: float
    board: Joinery
    unit: LengthUnit

    def x(self, x_mm: float) -> float:
        """Return the place of an x of the carrier."""
        return to_reader(x_mm, origin_mm=self.left + self.board.width_mm)

    def y(self, z_mm: float) -> float:
        return self.top + self.board.high_mm - z_mm


def carrier_svg(mark: str, board: Joinery, *, unit: LengthUnit = "mm") -> bytes:
    """Return the drawing of a carrier, to scale, with its dimensions and cautions."""
    paper = landscape(series(unit)[0])
    scale = _scale(board, paper)
    lines = _lines(mark, board, unit)
    width = paper.width_mm - 2 * MARGIN_MM
    written = [piece for line in lines for piece in wrap(line, size=WORDS.size, width=width)]
    below = TOP_MM + board.height_mm / scale + FOOT_MM
    high = max(paper.height_mm, below + len(written) * LINE_MM + MARGIN_MM)
    title = f"Carrier {mark}, wood"
    told = "mm" if unit == "mm" else f"inches, {ROUNDED_TO}"
    sheet = Sheet(width=paper.width_mm * scale, height=high * scale, scale=scale, title=title)
    ratio = f"scale 1 : {scale:g} on {paper.name} landscape, lengths in {told}"
    _say(sheet, (MARGIN_MM, MARGIN_MM + 4.0), f"{title}, {ratio}", Face(4.5, INK, bold=True))
    frame = _Frame(LEFT_MM * scale, TOP_MM * scale, scale, board, unit)
    _front(sheet, frame)
    _across(sheet, frame)
    _down(sheet, frame)
    edge = frame.left + board.width_mm + GAP_MM * scale
    draw_section(sheet, board, corner=(edge, frame.top), unit=unit)
    sheet.layer("words")
    under = (TOP_MM + board.height_mm / scale + CAPTION_MM) * scale
    sheet.text((frame.left, under), "seen from the front", Face(WORDS.size, INK, bold=True))
    caption = "section seen from the left"
    sheet.text((edge, under), caption, Face(WORDS.size, INK, bold=True))
    for number, line in enumerate(written):
        _say(sheet, (MARGIN_MM, below + number * LINE_MM), line, Face(WORDS.size, INK))
    return sheet.to_bytes()


CARRIER_DRAWING: Stage[tuple[str, Joinery, LengthUnit], bytes] = drawn_file(
    "carrier of wood", lambda given: carrier_svg(given[0], given[1], unit=given[2])
)
"""From the mark of a carrier, its joinery and the unit of the workshop to its drawing."""


def _scale(board: Joinery, paper: Paper) -> float:
    deep = board.thickness_mm + max((s.thickness_mm for s in board.strips), default=0.0)
    room = paper.width_mm - LEFT_MM - GAP_MM - RIGHT_MM
    return next(
        (
            one
            for one in SCALES
            if (board.width_mm + deep) / one <= room and board.height_mm / one <= MOST_HIGH_MM
        ),
        SCALES[-1],
    )


def _lines(mark: str, board: Joinery, unit: LengthUnit) -> tuple[str, ...]:
    size = said.sides((board.width_mm, board.height_mm, board.thickness_mm), ".1f")
    whole = (
        f"Board {size}, grain along its length. Write the mark {mark} on its back; it is not "
        "engraved. Distances are measured from the left edge and from the top edge, in front."
    )
    grooves = [
        f"Grooves: {groove.angle_deg:g}-degree dovetail bit of {said.mm(groove.bit_mm)}, "
        f"{said.mm(groove.depth_mm)} deep, {said.mm(groove.mouth_mm, '.1f')} wide at the face, "
        "from the top edge to where the bit's centre stops. Leave the lower end round: the holder "
        "rests on it."
        for groove in board.grooves[:1]
    ]
    screws = [
        f"Strips (dashed in front): glued, and screwed from behind with wood screws "
        f"{said.metric(screw.diameter_mm, screw.length_mm)}, in clear holes through the strip and "
        "pilot holes in the board."
        for screw in board.screws[:1]
    ]
    holes = dict.fromkeys(_hole_words(bore) for bore in board.bores)
    cautioned = [f"Caution: {text}" for text in cautions.woodworking()]
    return (*Wording(unit).all((whole, *grooves, *holes, *screws)), *cautioned)


def _hole_words(bore: Bore) -> str:
    told = f"Hole for a {bore.what}: {said.mm(bore.diameter_mm)}"
    if bore.countersink_mm:
        told += f", countersunk to {said.mm(bore.countersink_mm)} in front"
    if bore.counterbore_mm:
        told += (
            f"; from behind first a counterbore of {said.mm(bore.counterbore_mm)}, "
            f"{said.mm(bore.counterbore_depth_mm, '.1f')} deep"
        )
    return told + (", through the strip too." if bore.behind_mm else ".")


def _say(sheet: Sheet, at: Point, words: str, face: Face, *, upright: bool = False) -> None:
    sheet.text((at[0] * sheet.scale, at[1] * sheet.scale), words, face, upright=upright)


def _front(sheet: Sheet, frame: _Frame) -> None:
    """Draw the board seen from the front, what lies behind it dashed."""
    board = frame.board
    sheet.layer("front")
    sheet.box((frame.left, frame.top), (board.width_mm, board.height_mm), SOLID, name="board")
    for strip in board.strips:
        corner = (frame.left, frame.y(strip.top_mm))
        sheet.box(corner, (board.width_mm, strip.top_mm - strip.low_mm), HIDDEN, name="strip")
    for groove in board.grooves:
        x, stop = frame.x(groove.x_mm), frame.y(groove.stop_mm)
        for wide, pen in ((groove.bit_mm / 2, HIDDEN), (groove.mouth_mm / 2, PLAIN)):
            sheet.polyline(_slot(x, frame.top, stop, wide), pen)
    for bore in board.bores:
        at = (frame.x(bore.x_mm), frame.y(bore.z_mm))
        sheet.circle(at, bore.diameter_mm / 2, Pen(INK, 0.3, "#FFFFFF"))
        if bore.countersink_mm:
            sheet.circle(at, bore.countersink_mm / 2, PLAIN)
        if bore.counterbore_mm:
            sheet.circle(at, bore.counterbore_mm / 2, HIDDEN)
    r = 1.2 * sheet.scale
    for screw in board.screws:
        x, y = frame.x(screw.x_mm), frame.y(screw.z_mm)
        sheet.lines([((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))], Pen(GREY, 0.25))


def _slot(x: float, top: float, stop: float, half: float) -> list[Point]:
    """Return a groove seen from the front, its lower end as a half circle of 24 chords."""
    turn = [math.pi * k / 24 for k in range(25)]
    round_end = [(x - half * math.cos(a), stop + half * math.sin(a)) for a in turn]
    return [(x - half, top), *round_end, (x + half, top)]


def _across(sheet: Sheet, frame: _Frame) -> None:
    """Write the distances from the left edge: grooves above, holes and screws below."""
    board = frame.board
    sheet.layer("from-left")
    grooves = [(to_reader(g.x_mm, origin_mm=board.width_mm), "groove") for g in board.grooves]
    _row(sheet, frame, [*grooves, (board.width_mm, "right edge")], up=True)
    below = [(to_reader(b.x_mm, origin_mm=board.width_mm), "hole") for b in board.bores]
    below += [(to_reader(s.x_mm, origin_mm=board.width_mm), "screw") for s in board.screws]
    _row(sheet, frame, below, up=False)


def _row(sheet: Sheet, frame: _Frame, labels: Sequence[tuple[float, str]], *, up: bool) -> None:
    k = sheet.scale
    merged = _merged(labels, frame.unit)
    shown = spread(
        [(frame.left + at) / k for at, _ in merged],
        step=PITCH_MM,
        low=frame.left / k - 4.0,
        high=(frame.left + frame.board.width_mm) / k + 4.0,
    )
    edge = frame.top if up else frame.top + frame.board.height_mm
    away = -1.0 if up else 1.0
    for (at, words), place in zip(merged, shown, strict=True):
        x, near, far = frame.left + at, edge + away * 1.0 * k, edge + away * 4.0 * k
        sheet.polyline([(x, near), (x, near + away * k), (place * k, far)], THIN)
        face = Face(WORDS.size, BLUE, anchor="start" if up else "end", halo=True)
        spot = ((place + 0.9) * k, far + away * 0.8 * k)
        sheet.text(spot, words, face, upright=True)


def _down(sheet: Sheet, frame: _Frame) -> None:
    """Write the distances from the top edge, at the left."""
    board, k = frame.board, sheet.scale
    sheet.layer("from-top")
    labels = [(board.high_mm - g.stop_mm, "bit's centre stops") for g in board.grooves]
    labels += [(board.high_mm - b.z_mm, "hole") for b in board.bores]
    labels += [(board.high_mm - s.z_mm, "screw") for s in board.screws]
    labels += [
        entry
        for strip in board.strips
        for entry in (
            (board.high_mm - strip.top_mm, f"{strip.name}, top"),
            (board.high_mm - strip.low_mm, f"{strip.name}, lowest"),
        )
        if 0.05 < entry[0] < board.height_mm - 0.05
    ]
    labels.append((board.height_mm, "lower edge"))
    merged = _merged(labels, frame.unit)
    shown = spread(
        [(frame.top + at) / k for at, _ in merged],
        step=PITCH_MM,
        low=frame.top / k - 4.0,
        high=(frame.top + board.height_mm) / k + 8.0,
    )
    for (at, words), place in zip(merged, shown, strict=True):
        y = frame.top + at
        start = frame.left - 1.0 * k
        sheet.polyline([(start, y), (start - k, y), (start - 3.0 * k, place * k)], THIN)
        face = Face(WORDS.size, BLUE, anchor="end", halo=True)
        sheet.text((start - 3.8 * k, (place + 0.9) * k), words, face)


def _merged(labels: Sequence[tuple[float, str]], unit: LengthUnit) -> list[tuple[float, str]]:
    """Return labels by growing distance, one for each length as it is written."""
    found: dict[str, tuple[float, list[str]]] = {}
    for at, name in sorted(labels):
        value = f"{at:.1f}" if unit == "mm" else length_words(at, unit)
        names = found.setdefault(value, (at, []))[1]
        if name not in names:
            names.append(name)
    return [(at, f"{', '.join(names)} {value}") for value, (at, names) in found.items()]
