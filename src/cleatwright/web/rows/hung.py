"""What hangs, for the browser: by the ledger, and by the papers that were made last."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path

from cleatwright.base.lengths import length_words
from cleatwright.jobs.hung import HungNow
from cleatwright.jobs.hung_by_papers import OnPaper, on_papers
from cleatwright.jobs.part_states import states_of
from cleatwright.jobs.since_made import last_report
from cleatwright.papers.report_model import RailRow
from cleatwright.project.places import output_folder
from cleatwright.siting.hung.in_use import PartState
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.workshop.ledger.reading import read_kept


class PartRow(Row):
    """One part on the papers, and its state by the ledger."""

    label: str
    name: str
    mark: str
    state: PartState
    printed: bool


class PartsToSpareRow(Row):
    """Equal parts that lie ready beyond those that are to be hung."""

    mark: str
    count: int


class OnPaperRow(Row):
    """What hangs as one piece by the papers, and whether the ledger says that it hangs so."""

    numbers: tuple[int, ...]
    name: str
    mark: str
    panel: str
    rail: str
    hangs: bool
    since: str
    failing: tuple[str, ...]
    tools: tuple[str, ...]
    left: str
    height: str
    parts: tuple[PartRow, ...]


class PaperRailRow(Row):
    """A rail on the papers: where to measure it off, in the unit of the workshop."""

    panel: str
    name: str
    top: str
    left: str
    length: str
    words: Sentence
    hangs: bool


class HungRailRow(Row):
    """A rail that hangs by the ledger."""

    name: str
    panel: str
    since: str
    bears: int


class WhatHangsRow(Row):
    """What hangs by the ledger, and what could be said to hang."""

    summary: tuple[Sentence, ...]
    holders: int
    rails: tuple[HungRailRow, ...]
    papers: tuple[OnPaperRow, ...]
    paper_rails: tuple[PaperRailRow, ...]
    made: bool
    failing: tuple[Sentence, ...]
    others: tuple[str, ...]
    spares: tuple[PartsToSpareRow, ...]


def hung_row(place: Path, now: HungNow, *, failing: Collection[str] = ()) -> WhatHangsRow:
    """Return what hangs.

    Args:
        place: The folder of the workshop.
        now: What the ledger says.
        failing: What does not hold and was kept all the same.

    Raises:
        OutputError: Some files of the set are old and some are new.
    """
    report, _ = last_report(output_folder(None, workshop=place))
    papers = () if report is None else on_papers(report, since="")
    said = {one.entry.identity for one in papers if one.entry_in(now.hung)}
    ready = read_kept(place).ready
    parts: dict[int, list[PartRow]] = {}
    left = ready.counts("printed") + ready.counts("spare")
    for piece, part, state in states_of(papers, now.hung, ready):
        parts.setdefault(id(piece), []).append(
            PartRow(
                label=part.label,
                name=part.name,
                mark=part.mark,
                state=state,
                printed=part.printed,
            )
        )
        left[part.mark] -= state == "printed"
    return WhatHangsRow(
        summary=now.summary,
        holders=len(now.hung.holders),
        rails=tuple(
            HungRailRow(
                name=rail.name, panel=rail.panel, since=rail.since, bears=_bears(rail.name, papers)
            )
            for rail in now.hung.rails
        ),
        papers=tuple(_on_paper(one, now, parts[id(one)]) for one in papers),
        paper_rails=() if report is None else tuple(_paper_rail(row, now) for row in report.rails),
        made=report is not None,
        failing=tuple(failing),
        others=tuple(one.name for one in now.hung.holders if one.identity not in said),
        spares=tuple(
            PartsToSpareRow(mark=mark, count=count) for mark, count in sorted((+left).items())
        ),
    )


def _bears(rail: str, papers: tuple[OnPaper, ...]) -> int:
    return len([one for one in papers if one.rail == rail])


def _paper_rail(rail: RailRow, now: HungNow) -> PaperRailRow:
    unit = now.words.unit
    studs = ", ".join(length_words(x, unit) for x in rail.studs_mm)
    return PaperRailRow(
        panel=rail.panel,
        name=rail.name,
        top=length_words(rail.z_top_mm, unit),
        left=length_words(rail.x0_mm, unit),
        length=length_words(rail.length_mm, unit),
        words=f"Screws at {studs} {unit} from the left edge." if studs else "",
        hangs=any((one.panel, one.name) == (rail.panel, rail.name) for one in now.hung.rails),
    )


def _on_paper(one: OnPaper, now: HungNow, parts: Sequence[PartRow]) -> OnPaperRow:
    known, unit = one.entry_in(now.hung), now.words.unit
    hangs = known is not None and all(part.state == "hanging" for part in parts)
    return OnPaperRow(
        numbers=one.numbers,
        name=one.entry.name,
        mark=one.entry.mark,
        panel=one.entry.panel,
        rail=one.rail,
        hangs=hangs,
        since=known.since if known is not None and hangs else "",
        failing=one.failing,
        tools=one.entry.tools,
        left=length_words(one.entry.x_mm, unit),
        height=length_words(one.entry.z_mm, unit),
        parts=tuple(parts),
    )
