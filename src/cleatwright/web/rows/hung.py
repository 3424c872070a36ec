"""What hangs, for the browser: by the ledger, and by the papers that were made last."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from cleatwright.jobs.hung import HungNow
from cleatwright.jobs.hung_by_papers import OnPaper, on_papers
from cleatwright.jobs.since_made import last_report
from cleatwright.project.places import output_folder
from cleatwright.web.rows.row import Row
from cleatwright.workshop.ledger.hung_wall import WhatHangs


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


class HungRailRow(Row):
    """A rail that hangs by the ledger."""

    name: str
    panel: str
    since: str
    bears: int


class WhatHangsRow(Row):
    """What hangs by the ledger, and what could be said to hang."""

    summary: tuple[str, ...]
    holders: int
    rails: tuple[HungRailRow, ...]
    papers: tuple[OnPaperRow, ...]
    made: bool
    failing: tuple[str, ...]
    others: tuple[str, ...]


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
    said = {one.entry.identity for one in papers if one.hangs(now.hung)}
    return WhatHangsRow(
        summary=now.summary,
        holders=len(now.hung.holders),
        rails=tuple(
            HungRailRow(
                name=rail.name, panel=rail.panel, since=rail.since, bears=_bears(rail.name, papers)
            )
            for rail in now.hung.rails
        ),
        papers=tuple(_on_paper(one, now.hung) for one in papers),
        made=report is not None,
        failing=tuple(failing),
        others=tuple(one.name for one in now.hung.holders if one.identity not in said),
    )


def _bears(rail: str, papers: tuple[OnPaper, ...]) -> int:
    return len([one for one in papers if one.rail == rail])


def _on_paper(one: OnPaper, hung: WhatHangs) -> OnPaperRow:
    known = next((old for old in hung.holders if old.identity == one.entry.identity), None)
    hangs = one.hangs(hung)
    return OnPaperRow(
        numbers=one.numbers,
        name=one.entry.name,
        mark=one.entry.mark,
        panel=one.entry.panel,
        rail=one.rail,
        hangs=hangs,
        since=known.since if known is not None and hangs else "",
        failing=one.failing,
    )
