"""The state of every part, from planned to hanging: shown, and said by whoever prints and hangs.

Parts with one mark are equal, so what is printed is counted by marks. What hangs is kept where the
papers of the last making have it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Literal

from cleatwright.base.errors import InputError, OutputError, unknown_name
from cleatwright.base.keys import read_mark
from cleatwright.base.place import InFile
from cleatwright.jobs.hung_by_papers import (
    OnPaper,
    PaperPart,
    hung_by_papers,
    on_papers,
)
from cleatwright.jobs.since_made import last_report
from cleatwright.pack.hung_papers import REPORT
from cleatwright.papers.report_model import Report
from cleatwright.project.intact import require_intact
from cleatwright.project.places import output_folder
from cleatwright.siting.hung.in_use import PartState
from cleatwright.workshop.document.store import document_path, load
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.reading import KeptInLedger, read_kept, read_recipe
from cleatwright.workshop.ledger.ready_parts import READY, ReadyParts

SaidState = Literal["planned", "printed", "hanging", "broken", "spare"]
STATES: tuple[SaidState, ...] = ("planned", "printed", "hanging", "broken", "spare")


@dataclass(frozen=True)
class PartNow:
    """One part on the papers, and its state by the ledger.

    Args:
        label: The number of its holder in all drawings; "C" before the first one of a carrier.
        name: Its name for people.
        mark: The mark that stands on it.
        state: Its state.
        since: ISO date since which it hangs; "" when it does not.
    """

    label: str
    name: str
    mark: str
    state: PartState
    since: str


@dataclass(frozen=True)
class PartsNow:
    """Every part on the papers, and what lies ready beyond them.

    Args:
        parts: The parts, in the order of the numbers.
        spares: How many parts of each mark lie ready beyond those that are to be hung.
        failing: Sentences of what does not hold and was said to hang all the same.
    """

    parts: tuple[PartNow, ...]
    spares: tuple[tuple[str, int], ...]
    failing: tuple[str, ...] = ()

    def as_dict(self) -> dict[str, object]:
        """Return the result for programs."""
        return {
            "parts": [asdict(one) for one in self.parts],
            "spares": [{"mark": mark, "count": count} for mark, count in self.spares],
            **({"failing": list(self.failing)} if self.failing else {}),
        }


@dataclass(frozen=True)
class _There:
    """What hangs and lies ready while it is said, and what the papers have."""

    pieces: tuple[OnPaper, ...]
    hung: WhatHangs
    ready: ReadyParts
    since: str

    def states(self) -> Iterator[tuple[OnPaper, PaperPart, PartState]]:
        yield from states_of(self.pieces, self.hung, self.ready)

    def without(self, entry: HungEntry) -> _There:
        holders = tuple(one for one in self.hung.holders if one != entry)
        return replace(self, hung=replace(self.hung, holders=holders))


@dataclass(frozen=True)
class _Hung:
    """A part that hangs, and the entry of the ledger that says so."""

    piece: OnPaper
    part: PaperPart
    entry: HungEntry


def read_state(word: str) -> SaidState:
    """Return the state of a word.

    Raises:
        UnknownNameError: There is no such state.
    """
    for state in STATES:
        if state == word:
            return state
    raise unknown_name("state", word, STATES)


def states_of(
    pieces: Sequence[OnPaper], hung: WhatHangs, ready: ReadyParts
) -> Iterator[tuple[OnPaper, PaperPart, PartState]]:
    """Yield every part of pieces with its state.

    Args:
        pieces: What is on the papers, in the order of the numbers.
        hung: What hangs.
        ready: What lies ready; it goes to the first that waits for it.
    """
    piles = {state: ready.counts(state) for state in READY}
    for piece in pieces:
        entry = piece.entry_in(hung)
        broken = Counter(entry.broken if entry else ())
        for part in piece.parts:
            state: PartState = "planned" if entry is None else "hanging"
            if broken[part.mark]:
                broken[part.mark] -= 1
                state = "broken"
            for pile in READY if state == "broken" else READY[:1]:
                if state != "hanging" and piles[pile][part.mark]:
                    piles[pile][part.mark] -= 1
                    state = "printed"
                    break
            yield piece, part, state


def parts_now(place: Path, *, out: Path | None = None) -> PartsNow:
    """Return the state of every part on the papers of the last making, and write nothing.

    Args:
        place: The workshop folder, or its document.
        out: Where the files were made; the folder ``out`` in the workshop when None.

    Raises:
        OutputError: Nothing was made there, or some files are old and some are new.
        LedgerError: The ledger cannot be read.
    """
    folder = document_path(place).parent
    return _now(_pieces(_report(place, out), ""), read_kept(folder))


def say_state(
    place: Path,
    state: SaidState,
    *,
    parts: Sequence[str],
    out: Path | None = None,
    on: date | None = None,
    anyway: bool = False,
) -> PartsNow:
    """Keep in the ledger in which state parts are, all of it or nothing, and return all states.

    Args:
        place: The workshop folder, or its document.
        state: The state in which they are.
        parts: Marks, numbers of holders in all drawings ("17", "C17" for a carrier), or batches
            ("batch 01").
        out: Where the files were made; the folder ``out`` in the workshop when None.
        on: The day; today when None.
        anyway: Keep that something hangs though it does not hold.

    Raises:
        OutputError: Nothing was made there, or files there are not as they were made.
        UnknownNameError: There is no such part, number or batch.
        InputError: A part cannot come into the state from that in which it is.
        DesignError: What should hang does not hold, and ``anyway`` is not said.
        LedgerError: The ledger cannot be used.
    """
    document = document_path(place)
    folder = document.parent
    report = _report(place, out)
    require_intact(output_folder(out, workshop=folder))
    since = (on or datetime.now(UTC).date()).isoformat()
    kept = read_kept(folder)
    there = _There(_pieces(report, since), kept.hung, kept.ready, since)
    named = [name for word in parts for name in _named(word, report, there, folder)]
    numbers: list[int] = []
    for name in named:
        if state == "hanging":
            numbers += _piece_to_hang(there, name).numbers
        else:
            there = _ACTS[state](there, name)
    hanging = hung_by_papers(
        report, load(place), numbers, known=there.hung, ready=there.ready, since=since
    )
    hanging.require_holding(document, anyway=anyway)
    with open_ledger(folder) as ledger:
        ledger.replace_hung(
            hanging.hung,
            made=ledger.last_made() if numbers else None,
            ready=hanging.ready,
        )
    return replace(_now(there.pieces, read_kept(folder)), failing=hanging.failing)


def _report(place: Path, out: Path | None) -> Report:
    papers = output_folder(out, workshop=document_path(place).parent)
    report, _ = last_report(papers)
    if report is None:
        raise OutputError(
            "there is no report of a workshop that was made",
            place=InFile(str(papers / REPORT)),
            todo="Make the workshop first, so that each part has its mark",
        )
    return report


def _pieces(report: Report, since: str) -> tuple[OnPaper, ...]:
    return on_papers(report, since=since)


def _now(pieces: tuple[OnPaper, ...], kept: KeptInLedger) -> PartsNow:
    left = kept.ready.counts("printed") + kept.ready.counts("spare")
    parts: list[PartNow] = []
    for piece, part, state in states_of(pieces, kept.hung, kept.ready):
        entry = piece.entry_in(kept.hung)
        left[part.mark] -= state == "printed"
        since = entry.since if entry is not None and state == "hanging" else ""
        parts.append(PartNow(part.label, part.name, part.mark, state, since))
    return PartsNow(tuple(parts), tuple(sorted((+left).items())))


def _named(word: str, report: Report, there: _There, folder: Path) -> list[str]:
    """Return the labels and marks that a word stands for: itself, or the marks of a batch."""
    for batch in report.batches:
        if batch.name == word.strip().lower():
            return list(batch.marks)
    labels = {part.label: part.label for piece in there.pieces for part in piece.parts}
    label = labels.get(word.strip().upper())
    if label is not None:
        return [label]
    mark = read_mark(word)
    marks = {part.mark for piece in there.pieces for part in piece.parts}
    if mark is not None and (mark in marks or read_recipe(folder, mark) is not None):
        return [mark]
    known = [*labels, *(batch.name for batch in report.batches), *sorted(marks)]
    raise unknown_name("part", word, known)


def _found(there: _There, name: str, *states: PartState) -> tuple[OnPaper, PaperPart] | None:
    """Return the first part with a label or mark in one of some states."""
    for wanted in states:
        for piece, part, state in there.states():
            if name in (part.label, part.mark) and state == wanted:
                return piece, part
    return None


def _hung(there: _There, name: str, *states: PartState) -> _Hung | None:
    """Return the first part with a label or mark that hangs, in one of some states."""
    found = _found(there, name, *states)
    entry = None if found is None else found[0].entry_in(there.hung)
    return None if found is None or entry is None else _Hung(*found, entry)


def _mark_of(there: _There, name: str) -> str:
    labels = {part.label: part.mark for piece in there.pieces for part in piece.parts}
    return labels.get(name, name)


def _printed(there: _There, name: str) -> _There:
    hung = _hung(there, name, "hanging") if name != _mark_of(there, name) else None
    if hung is not None:
        # taken down, with all that hangs as one piece with it
        ready, broken = there.ready, Counter(hung.entry.broken)
        for part in hung.piece.parts:
            if broken[part.mark]:
                broken[part.mark] -= 1
            elif part.printed:
                ready = ready.with_one_more(part.mark, "printed", since=there.since)
        return replace(there.without(hung.entry), ready=ready)
    found = _found(there, name, "planned", "broken")
    if found is None:
        raise InputError(
            f"{name} is there already",
            allowed="a part that is planned or broken",
            todo="Say that it is a spare if one more was printed",
        )
    _, part = found
    if not part.printed:
        raise InputError(f"{name} is of wood", allowed="a part that is printed")
    more = there.ready.with_one_more(part.mark, "printed", since=there.since)
    return replace(there, ready=more)


def _spare(there: _There, name: str) -> _There:
    mark, ready = _mark_of(there, name), there.ready
    if name != mark and _found(there, name, "printed"):
        ready = ready.with_one_less(mark, "printed")
    return replace(there, ready=ready.with_one_more(mark, "spare", since=there.since))


def _broken(there: _There, name: str) -> _There:
    found = _hung(there, name, "hanging")
    if found is not None:
        marks = tuple(sorted((*found.entry.broken, found.part.mark)))
        broken = replace(found.entry, broken=marks)
        holders = (*there.without(found.entry).hung.holders, broken)
        return replace(there, hung=replace(there.hung, holders=holders).ordered)
    return _one_less(there, name, "broken: it neither hangs nor lies ready")


def _planned(there: _There, name: str) -> _There:
    mark = _mark_of(there, name)
    # whoever names a mark means what lies in the hand before what hangs
    lies = any(there.ready.counts(state)[mark] for state in READY)
    found = None if name == mark and lies else _hung(there, name, "hanging", "broken")
    if found is not None:
        return there.without(found.entry)
    return _one_less(there, name, "planned again: it neither hangs nor lies ready")


def _one_less(there: _There, name: str, refused: str) -> _There:
    mark = _mark_of(there, name)
    for state in READY:
        if there.ready.counts(state)[mark]:
            return replace(there, ready=there.ready.with_one_less(mark, state))
    raise InputError(f"{name} cannot be {refused}", allowed="a part that is printed, or hangs")


def _piece_to_hang(there: _There, name: str) -> OnPaper:
    found = _found(there, name, "printed", "broken", "planned", "hanging")
    if found is None:
        raise InputError(
            f"{name} is on no paper, so its place is not known",
            allowed="a part on the papers of the last making",
            todo="Make the workshop again, hang it by the drawing, and then say so",
        )
    return found[0]


_ACTS = {"planned": _planned, "printed": _printed, "broken": _broken, "spare": _spare}
