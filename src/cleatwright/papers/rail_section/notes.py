"""The words below the section of a rail: what it is, its numbers, its checks and cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.lengths import ROUNDED_TO, Wording, show_mass
from cleatwright.checks.result import CheckResult
from cleatwright.papers.kit.drafting import BLUE, CAUTION, INK, PALE
from cleatwright.papers.kit.paper import Paper
from cleatwright.papers.kit.svg import Face, Pen, Sheet, wrap
from cleatwright.papers.rail_section.view import RailSectionView

BODY, HEAD, TITLE = 2.6, 3.0, 4.2
LEADING = 1.42
GAP, BAR = 1.6, 12.0
BARS_MM = {"mm": (100.0, 50.0, 200.0), "in": (101.6, 50.8, 203.2)}


@dataclass(frozen=True)
class Note:
    """One line: its words, its size, and how it looks; ``before`` is the room above it."""

    words: str
    size: float = BODY
    bold: bool = False
    colour: str = INK
    before: float = 0.0

    @property
    def height(self) -> float:
        """Return the height of the line with the room above it."""
        return self.size * LEADING + self.before


def left_notes(view: RailSectionView, *, width: float) -> tuple[Note, ...]:
    """Return title, numbers and checks in lines of at most ``width`` paper millimetres."""
    load, hung = view.load, view.hung
    unit = "mm" if view.unit == "mm" else f"inches, {ROUNDED_TO}"
    kept = " (hangs already and stays)" if view.stays else ""
    bears = "its foot bears on the wall" if load.foot_on_wall else "it bears on the rail"
    lines = [
        *_wrapped(f"Rail {view.rail} from the side{kept}", TITLE, width, bold=True),
        *_wrapped(f"{view.title}: cut through {hung.name}", BODY, width),
        *_wrapped(f"Seen from the left. Dimensions in {unit}.", BODY, width),
        *_headed("What it carries", width),
        *_wrapped(
            f"W = {load.weight_n:.1f} N ({show_mass(load.mass_kg, view.unit)} with its tools) at "
            f"e = {view.length(load.distance_mm)} in front of the rail; {bears} "
            f"h = {view.length(load.depth_mm)} below the top edge, {_held_by(view)} = "
            f"{load.press_n:.1f} N.",
            BODY,
            width,
        ),
        *_headed("Used of what is allowed", width),
        *(line for check in view.checks for line in _check(check, width, view.words)),
    ]
    return tuple(lines)


def _held_by(view: RailSectionView) -> str:
    """Return what holds the top of the holder, and by which lever."""
    screws_mm = view.load.screws_mm
    if screws_mm is None:
        return "so that the bevel holds W e / h"
    return f"and screws hold it s = {view.length(screws_mm)} below that edge with W e / (h - s)"


def right_notes(view: RailSectionView, *, width: float) -> tuple[Note, ...]:
    """Return the screws and the cautions."""
    wall = view.wall
    lines = list(_headed("Anchors" if wall.anchored else "Screws", width))
    if view.held:
        lines += _wrapped(view.words(view.held), BODY, width)
        if view.stays:
            lines += _wrapped("They are taken so: look at those of this rail.", BODY, width)
    elif view.screws:
        one = view.screws[0]
        deep = one.length_mm - view.profile.thickness_mm - wall.lining_mm
        size = view.words(f"wood screws {said.metric(one.diameter_mm, one.length_mm)}")
        lines += _wrapped(
            f"{len(view.screws)} countersunk {size} in each stud: "
            f"{view.length(view.profile.thickness_mm)} rail, "
            f"{_lining(view)}{view.length(deep)} in the stud.",
            BODY,
            width,
        )
        if view.stays:
            lines += _wrapped("They are taken so: look at those of this rail.", BODY, width)
    else:
        lines += _wrapped(
            "This rail meets no stud. It carries nothing until it is fixed with qualified advice.",
            BODY,
            width,
        )
    lines += _headed("Before you drill and hang", width, colour=CAUTION)
    for caution in view.cautions:
        first, *rest = _wrapped(caution, BODY, width)
        lines += [Note(first.words, before=0.7), *rest]
    return tuple(lines)


def _lining(view: RailSectionView) -> str:
    """Return how thick the lining is and who says so; nothing where rails lie on the studs."""
    wall = view.wall
    if not wall.lining_mm:
        return ""
    known = "as given" if wall.lining_given else "taken as plasterboard (measure yours)"
    return f"{view.length(wall.lining_mm)} lining {known}, "


def height_of(notes: tuple[Note, ...]) -> float:
    """Return the height of lines in paper millimetres."""
    return sum(note.height for note in notes)


def draw_notes(sheet: Sheet, notes: tuple[Note, ...], *, x: float, y: float) -> None:
    """Write lines downwards from ``y``, both in paper millimetres."""
    k = sheet.scale
    for note in notes:
        y += note.height
        face = Face(note.size, note.colour, bold=note.bold)
        sheet.text((x * k, (y - 0.3 * note.size) * k), note.words, face)


def draw_foot(
    sheet: Sheet, view: RailSectionView, *, x: float, y: float, scale: int, paper: Paper
) -> None:
    """Draw the scale, the paper and a bar to check the print with, ``BAR`` high from ``y``."""
    k = sheet.scale
    bars = BARS_MM[view.unit]
    long = next((mm for mm in bars if 20.0 <= mm / k <= 60.0), bars[-1])
    words = f"Scale 1:{scale} on {paper.words}. Print at 100 %."
    sheet.text((x * k, (y + 3.6) * k), words, Face(BODY, BLUE))
    unit = " mm" if view.unit == "mm" else ""
    at = (x * k + long + 2.0 * k, (y + 7.8) * k)
    sheet.text(at, f"{view.length(long)}{unit}: check it with a rule", Face(BODY, BLUE))
    for n in range(4):
        fill = INK if n % 2 == 0 else "none"
        corner = (x * k + n * long / 4, (y + 6.0) * k)
        sheet.box(corner, (long / 4, 1.6 * k), Pen(INK, 0.2, fill), name="scale-bar")


def _headed(words: str, width: float, *, colour: str = INK) -> list[Note]:
    first, *rest = _wrapped(words, HEAD, width, bold=True, colour=colour)
    return [Note(first.words, size=HEAD, bold=True, colour=colour, before=GAP), *rest]


def _check(check: CheckResult, width: float, spoken: Wording) -> Iterator[Note]:
    if check.is_open:
        name = check.name[:1].upper() + check.name[1:]
        words = spoken(f"{name}: NOT KNOWN, so it does not hold yet: {check.note}")
        for n, line in enumerate(_wrapped(words, BODY, width, colour=CAUTION)):
            yield Note(line.words, colour=CAUTION, before=0.7 if n == 0 else 0.0)
        return
    verdict = "holds" if check.holds else "DOES NOT HOLD"
    share = "more than can be" if check.capacity <= 0.0 else f"{100.0 * check.utilisation:.0f} %"
    name = check.name[:1].upper() + check.name[1:]
    note = f" ({check.note})" if check.note else ""
    amount = f"{check.in_unit(check.demand, '.1f')} of {check.with_unit(check.capacity, '.1f')}"
    words = spoken(f"{name}: {amount}, {share} used, {verdict}{note}")
    colour = INK if check.holds else CAUTION
    for n, line in enumerate(_wrapped(words, BODY, width, colour=colour)):
        yield Note(line.words, colour=colour, before=0.7 if n == 0 else 0.0)


def _wrapped(
    words: str, size: float, width: float, *, bold: bool = False, colour: str = INK
) -> list[Note]:
    return [
        Note(line, size, bold=bold, colour=colour) for line in wrap(words, size=size, width=width)
    ]


def rule_above(sheet: Sheet, *, x0: float, x1: float, y: float) -> None:
    """Draw a thin line over the words, in paper millimetres."""
    k = sheet.scale
    sheet.line((x0 * k, y * k), (x1 * k, y * k), Pen(PALE, 0.2))
