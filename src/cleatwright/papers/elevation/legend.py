"""What is written beside an elevation, line by line: legend, rails, reach, cautions, title."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cleatwright.base.lengths import ROUNDED_TO
from cleatwright.papers.elevation.layout import COLUMN, Legend
from cleatwright.papers.elevation.view import ElevationView, ScrewedAtView, letter
from cleatwright.papers.kit.paper import Paper
from cleatwright.papers.kit.svg import Anchor, text_width, wrap

INK = "#15222A"
BLUE = "#22418F"
PALE = "#5B6B75"
CAUTION = "#8A1C1C"
GREEN = "#2F6B3A"

SMALL = 2.6
BODY = 2.8
HEAD = 3.3
TITLE = 4.6
BAR_ROOM = 13.0
# of the strip at the foot: room for the scale bar at its right, and for one line of caution
BAR_WIDTH = 84.0
FACT_WIDTH = 86.0
FOOT_PAD = 1.6
CAUTION_ROOM = 4.6
RULE = "rule"
# the heads of a table, which stand once more where it goes on in a further column
HEADS = "heads"
SCREW_COLUMNS = (36.0, 54.0, 72.0)
BEHIND = {
    "stud": "in a stud",
    "edge": "EDGE OF STUD",
    "none": "NO STUD",
    "unknown": "stud not known",
}
BESIDE = "Red crosses: not far enough inside a stud, it does not hold there"
RAIL_COLUMNS = (36.0, 54.0, 72.0, COLUMN)


@dataclass(frozen=True)
class Cell:
    """Words at a distance from the left edge of the column."""

    at: float
    words: str
    name: str = ""
    anchor: Anchor = "start"


@dataclass(frozen=True)
class LegendRow:
    """One line of the column; its cells share one face."""

    cells: tuple[Cell, ...]
    height: float
    size: float = BODY
    bold: bool = False
    colour: str = INK
    kind: str = ""


Block = tuple[LegendRow, ...]


def column_blocks(view: ElevationView) -> tuple[Block, ...]:
    """Return everything above the title block, in blocks that no column may break."""
    return (
        *_headed("Holders", _holders(view)),
        *_headed("Stays free", _obstacles(view)),
        *_headed("Reserved seats, dashed: for tools to come", _seats(view)),
        *_headed("Rails", _rails(view)),
        *_headed("Screws of what is screwed to the wall itself", _screwed(view)),
        *_headed("Reach and bench", _person(view)),
        *_headed("Before you drill and hang", _cautions(view), colour=CAUTION),
    )


def heads_again(blocks: Iterable[Block]) -> Iterator[Block]:
    """Yield for each block the heads of its table, where an earlier block has them."""
    heads: Block = ()
    for block in blocks:
        own = tuple(row for row in block if row.kind == HEADS)
        if own or any(row.kind == RULE for row in block):
            heads = own
            yield ()
        else:
            yield heads


def legend_of(view: ElevationView) -> Legend:
    """Return how high the written parts are, in paper millimetres."""
    title = sum(row.height for row in title_rows(view, width=COLUMN)) + BAR_ROOM + 5.0
    blocks = column_blocks(view)
    return Legend(
        tuple(sum(row.height for row in block) for block in blocks),
        title,
        lambda wide: foot_height(view, wide),
        tuple(sum(row.height for row in block) for block in heads_again(blocks)),
    )


def title_rows(
    view: ElevationView, *, width: float, scale: int = 1, paper: Paper | None = None
) -> tuple[LegendRow, ...]:
    """Return the lines of the title block, without the scale bar below them."""
    facts = (
        f"Wall from the front, 1:{scale}" + (f" on {paper.words}" if paper else ""),
        "All dimensions in mm" if view.unit == "mm" else f"All dimensions in inches, {ROUNDED_TO}",
        "x and heights from the lower left corner of the wall",
        "Print at 100 % and check the bar with a rule",
    )
    title = wrap(view.title, size=TITLE, width=width - 6.0)
    # a wide strip takes two facts a line
    across = 2 if width >= 2 * FACT_WIDTH else 1
    rows = (facts[n : n + across] for n in range(0, len(facts), across))
    return (
        *(LegendRow((Cell(3.0, line, "title"),), 6.2, size=TITLE, bold=True) for line in title),
        *(
            LegendRow(
                tuple(Cell(3.0 + n * FACT_WIDTH, w) for n, w in enumerate(row)), 4.0, size=SMALL
            )
            for row in rows
        ),
    )


def foot_height(view: ElevationView, width: float) -> float:
    """Return the height of the strip at the foot of a sheet, with the space above it."""
    rows = title_rows(view, width=width - BAR_WIDTH)
    return sum(row.height for row in rows) + 3 * FOOT_PAD + CAUTION_ROOM


def _headed(words: str, blocks: Iterable[Block], *, colour: str = INK) -> Iterator[Block]:
    """Yield the blocks, the first of them joined to a heading; nothing when there are none."""
    heading = (
        LegendRow((), 2.0),
        LegendRow((Cell(0.0, words),), 5.2, size=HEAD, bold=True, colour=colour),
        LegendRow((), 1.0, kind=RULE),
    )
    for block in blocks:
        yield (*heading, *block)
        heading = ()


def _holders(view: ElevationView) -> Iterator[Block]:
    for holder in sorted(view.holders, key=lambda h: h.number):
        note_room = text_width(holder.note, BODY) + 2.0 if holder.note else 0.0
        note_room = min(note_room, COLUMN / 2)
        lines = wrap(holder.name, size=BODY, width=COLUMN - 9.0 - note_room)
        notes = wrap(holder.note, size=BODY, width=COLUMN / 2 - 2.0) if holder.note else ()
        rows: list[LegendRow] = []
        for n in range(max(len(lines), len(notes))):
            cells = [Cell(6.0, str(holder.number), "legend-number", "end")] if n == 0 else []
            if n < len(lines):
                cells.append(Cell(9.0, lines[n], "legend-name"))
            if n < len(notes):
                cells.append(Cell(COLUMN, notes[n], "legend-note", "end"))
            rows.append(LegendRow(tuple(cells), 4.3))
        for at in holder.hangs:
            words = f"left edge x {view.length(at.x_mm)}, {at.edge} z {view.length(at.z_mm)}"
            told = f"{at.what}: {words}" if at.what else words
            rows += [
                LegendRow((Cell(9.0, line, "hangs-at"),), 3.7, size=SMALL, colour=PALE)
                for line in wrap(told, size=SMALL, width=COLUMN - 9.0)
            ]
        yield tuple(rows)


def _obstacles(view: ElevationView) -> Iterator[Block]:
    for k, obstacle in enumerate(view.obstacles):
        x0, x1, z0, z1 = obstacle.box_mm
        words = (
            f"{obstacle.name}: {view.length(x1 - x0)} × {view.length(z1 - z0)} "
            f"at {view.length(x0)}, {view.length(z0)}"
        )
        rows: list[LegendRow] = []
        for n, line in enumerate(wrap(words, size=BODY, width=COLUMN - 9.0)):
            mark = (Cell(6.0, letter(k), "", "end"),) if n == 0 else ()
            rows.append(LegendRow((*mark, Cell(9.0, line, "obstacle-name")), 4.3))
        yield tuple(rows)


def _seats(view: ElevationView) -> Iterator[Block]:
    for seat in view.seats:
        x0, x1, z0, z1 = seat.box_mm
        words = (
            f"left edge x {view.length(x0)}, rail edge z {view.length(seat.hang_z_mm)}: "
            f"{view.length(x1 - x0)} wide, {view.length(z1 - seat.hang_z_mm)} above and "
            f"{view.length(seat.hang_z_mm - z0)} below it"
        )
        yield (
            LegendRow((Cell(9.0, seat.name, "reserved-seat-row"),), 4.3),
            *(
                LegendRow((Cell(9.0, line),), 3.7, size=SMALL, colour=PALE)
                for line in wrap(words, size=SMALL, width=COLUMN - 9.0)
            ),
        )


def _rails(view: ElevationView) -> Iterator[Block]:
    heads = ("top edge", "from x", "to x", "length")
    titles = (Cell(at, word, "", "end") for at, word in zip(RAIL_COLUMNS, heads, strict=True))
    cells = (Cell(0.0, "rail"), *titles)
    above = (LegendRow(cells, 4.3, size=SMALL, colour=PALE, kind=HEADS),)
    for rail in sorted(view.rails, key=lambda r: r.order):
        values = (rail.z_top_mm, rail.x0_mm, rail.x1_mm, rail.length_mm)
        told = (
            Cell(at, view.length(v), "", "end") for at, v in zip(RAIL_COLUMNS, values, strict=True)
        )
        rows = [*above, LegendRow((Cell(0.0, rail.name), *told), 4.3)]
        if view.studs_mm or rail.stays or view.made_of != "studs":
            at = ", ".join(view.length(x) for x in rail.to_drill_mm)
            words = _screws_at(view, at)
            if rail.stays:
                words = "stays as it hangs"
            rows += [
                LegendRow(
                    (Cell(9.0, line),),
                    3.8,
                    size=SMALL,
                    colour=PALE if at or rail.stays else CAUTION,
                )
                for line in wrap(words, size=SMALL, width=COLUMN - 9.0)
            ]
        yield tuple(rows)
        above = ()


def _screwed(view: ElevationView) -> Iterator[Block]:
    """Yield where what is screwed to the wall itself has its screws, a line for each column."""
    titles = zip(SCREW_COLUMNS, ("x", "upper z", "lower z"), strict=True)
    cells = (Cell(9.0, "cross"), *(Cell(at, word, "", "end") for at, word in titles))
    above = (LegendRow(cells, 4.3, size=SMALL, colour=PALE, kind=HEADS),)
    for holder in sorted(view.holders, key=lambda one: one.number):
        screwed = holder.screwed
        if screwed is None:
            continue
        told = screwed.what or f"{holder.name} ({holder.note})"
        rows = list(above)
        for n, line in enumerate(wrap(told, size=BODY, width=COLUMN - 9.0)):
            number = (Cell(6.0, str(holder.number), "", "end"),) if n == 0 else ()
            rows.append(LegendRow((*number, Cell(9.0, line, "screwed-name")), 4.3))
        rows += [_screwed_row(view, column) for column in screwed.columns]
        if any(column.fails for column in screwed.columns):
            rows.append(
                LegendRow((Cell(9.0, BESIDE, "beside-studs"),), 3.8, size=SMALL, colour=CAUTION)
            )
        yield tuple(rows)
        above = ()


def _screwed_row(view: ElevationView, column: ScrewedAtView) -> LegendRow:
    values = (column.x_mm, *column.rows_mm)
    places = zip(SCREW_COLUMNS, values, strict=False)
    cells = [Cell(at, view.length(value), "screwed-at", "end") for at, value in places]
    words = BEHIND[column.behind]
    if column.behind != "unknown" or view.made_of == "studs":
        cells.append(Cell(SCREW_COLUMNS[-1] + 4.0, words, "screwed-stud"))
    return LegendRow(tuple(cells), 3.8, size=SMALL, colour=CAUTION if column.fails else INK)


def _screws_at(view: ElevationView, at: str) -> str:
    """Return where a rail is screwed to its wall; ``at`` is "" where it cannot be."""
    anchored = view.made_of not in ("studs", "solid wood")
    if at:
        return f"{'anchors' if anchored else 'screws'} at x = {at}"
    if view.made_of == "studs":
        return "no stud behind it: it cannot be fixed here"
    return "no room for two of its fixings: it cannot be fixed here"


def _person(view: ElevationView) -> Iterator[Block]:
    lines: list[str] = []
    if view.reach is not None:
        band = view.reach
        easy = "easy for all adults" if view.people else "easy reach"
        if band.low_mm < band.high_mm:
            lines.append(
                f"Green band: {easy}, {view.length(band.low_mm)} to "
                f"{view.length(band.high_mm)} above the floor"
            )
        else:
            lines.append(
                f"No height is {easy}; {view.length(band.low_mm)} above the floor is nearest"
            )
        if band.lowest_mm > 0.0:
            lines.append(f"Grey below {view.length(band.lowest_mm)}: out of reach")
        if math.isfinite(band.highest_mm):
            lines.append(f"Grey above {view.length(band.highest_mm)}: out of reach")
    lines += _person_lines(view)
    if view.bench is not None:
        deep, high = view.length(view.bench.depth_mm), view.length(view.bench.height_mm)
        lines.append(f"Bench before the wall: {deep} deep, its top {high} above the floor")
    rows = [
        LegendRow((Cell(0.0, part, "person"),), 4.3)
        for line in lines
        for part in wrap(line, size=BODY, width=COLUMN)
    ]
    if rows:
        yield tuple(rows)


def _person_lines(view: ElevationView) -> Iterator[str]:
    """Yield what the legend says of each of several people."""
    for one in view.people:
        if one.band is not None:
            low, high = view.length(one.band.low_mm), view.length(one.band.high_mm)
            told = f"{one.name}: easy {low} to {high}"
            if math.isfinite(one.band.highest_mm):
                lowest, highest = view.length(one.band.lowest_mm), view.length(one.band.highest_mm)
                told += f", reaches {lowest} to {highest}"
            yield told
        if one.touches_mm is not None:
            touches = view.length(one.touches_mm)
            yield f"{one.name}, a child, touches what is up to {touches}; red bar"


def _cautions(view: ElevationView) -> Iterator[Block]:
    for words in view.cautions:
        rows: list[LegendRow] = []
        for n, line in enumerate(wrap(words, size=SMALL, width=COLUMN - 4.0)):
            bullet = (Cell(0.0, "•"),) if n == 0 else ()
            rows.append(LegendRow((*bullet, Cell(3.5, line, "caution")), 3.7, size=SMALL))
        yield (*rows, LegendRow((), 0.8))
