"""Two arrangements as the lines of a table: the same on the page, on paper and in the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass

from cleatwright.base.lengths import LengthUnit, length_words
from cleatwright.base.numbers import ranges
from cleatwright.jobs.two_arrangements import Side, TwoArrangements

SEEN_POINTS = 0.5
"""Points are told whole."""


@dataclass(frozen=True)
class ComparingLine:
    """One line of the table.

    Args:
        what: What is compared.
        now: What it is now.
        other: What it would be.
        more: The difference in words, of the numbers as they are told.
        chief: Whether it is one of the lines that most look for.
    """

    what: str
    now: str
    other: str
    more: str = ""
    chief: bool = False


@dataclass(frozen=True)
class MovedLine:
    """One thing that would hang elsewhere."""

    numbers: str
    name: str
    way: str
    hangs: bool


def comparing_lines(two: TwoArrangements, unit: LengthUnit) -> tuple[ComparingLine, ...]:
    """Return what two arrangements have in numbers."""
    return tuple(_lines(two, unit))


def moved_lines(two: TwoArrangements) -> tuple[MovedLine, ...]:
    """Return what would hang elsewhere, by the numbers of now."""
    numbers = {
        unit.planned.key: sorted(one.number for one in unit.planned.holders)
        for unit in two.now.panel.units
    }
    hung = {item.key for item in two.now.panel.problem.items if item.hangs_at is not None}
    words = two.now.panel.words
    rows = sorted(two.moved, key=lambda one: numbers[one.key])
    return tuple(
        MovedLine(ranges(numbers[one.key]), one.name, words(one.way), one.key in hung)
        for one in rows
    )


def _lines(two: TwoArrangements, unit: LengthUnit) -> Iterator[ComparingLine]:
    now, other = two.now, two.other
    yield _counted("points, fewer is better", now.scores.total, other.scores.total, chief=True)
    before, after = asdict(now.scores), asdict(other.scores)
    for part in before:
        if max(abs(before[part]), abs(after[part])) >= SEEN_POINTS:
            yield _counted(part.replace("_", " "), before[part], after[part])
    yield _counted("rail heights", now.rail_heights, other.rail_heights)
    yield _counted("pieces of rail", now.rail_pieces, other.rail_pieces)
    yield _long("rails", now.rail_mm, other.rail_mm, unit=unit)
    if any(side.new_rail_mm < side.rail_mm for side in (now, other)):
        yield _long("of them to cut", now.new_rail_mm, other.new_rail_mm, unit=unit)
    yield _boards(now, other)
    if now.panel.problem.seats:
        kept, after_kept = (len(one.panel.arrangement.seats) for one in (now, other))
        yield _counted("reserved seats", kept, after_kept)
    hung = sum(one.hangs for one in moved_lines(two))
    hangs = any(item.hangs_at is not None for item in now.panel.problem.items)
    none = "" if hangs or not two.moved else "none hangs yet"
    yield ComparingLine(
        "hang elsewhere",
        "",
        f"{len(two.moved)} of {len(other.panel.units)}",
        f"{hung} hang already" if hung else none,
        chief=True,
    )
    yield ComparingLine("parts to make anew", "", str(len(two.renewed)))
    yield _counted("do not hold, or are in the way", len(now.failing), len(other.failing))
    yield _counted("warnings", len(now.found.warnings), len(other.found.warnings))


def _boards(now: Side, other: Side) -> ComparingLine:
    if now.boards is None or other.boards is None:
        a, b = ("not known" if side.boards is None else str(side.boards) for side in (now, other))
        return ComparingLine("boards to cut, all walls", a, b)
    return _counted("boards to cut, all walls", now.boards, other.boards)


def _counted(what: str, now: float, other: float, *, chief: bool = False) -> ComparingLine:
    """Return a line of whole numbers, whose difference is that of what is told."""
    a, b = round(now), round(other)
    more = "the same" if a == b else f"{abs(b - a)} {'fewer' if b < a else 'more'}"
    return ComparingLine(what, str(a), str(b), more, chief)


def _long(what: str, now: float, other: float, *, unit: LengthUnit) -> ComparingLine:
    """Return a line of lengths, whose difference is that of what is told."""
    step = 10.0 if unit == "mm" else 25.4 / 32
    a, b = (round(value / step) * step for value in (now, other))

    def told(mm: float) -> str:
        return f"{mm / 1000:.2f} m" if unit == "mm" else f"{length_words(mm, unit)} in"

    more = "the same" if a == b else f"{told(abs(b - a))} {'less' if b < a else 'more'}"
    return ComparingLine(what, told(a), told(b), more, chief=True)
