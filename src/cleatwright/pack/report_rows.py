"""Rows of the report that say what was found about a wall."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import asdict, replace

from cleatwright.checks.result import CheckResult
from cleatwright.design.carrying import Unit
from cleatwright.holders.choosing import WhyFamily
from cleatwright.papers.report_model import (
    CheckRow,
    FamilyRow,
    FreeSeatRow,
    PanelRow,
    PersonRow,
    RailRow,
    ScoreRow,
    ScrewedRow,
    WhyRow,
)
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.people import PanelPeople
from cleatwright.siting.rails.loading import loaded_rails
from cleatwright.siting.screws_behind import PlateScrews
from cleatwright.wall.explaining.explain import Explained
from cleatwright.wall.model import ReservedSeat, Scores
from cleatwright.wall.rail import Rail

_COUNTED = re.compile(r"\btool (\d+)\b")


def with_tool_names(checks: Iterable[CheckResult], tools: Sequence[str]) -> tuple[CheckResult, ...]:
    """Return checks whose notes name the tools of a part instead of counting them.

    Args:
        checks: The checks of a part.
        tools: The names of its tools, in the order of its seats.
    """

    def named(found: re.Match[str]) -> str:
        number = int(found[1])
        return f'"{tools[number - 1]}"' if number <= len(tools) else found[0]

    return tuple(replace(one, note=_COUNTED.sub(named, one.note)) for one in checks)


def tool_names(unit: Unit) -> list[str]:
    """Return the names of the tools of a unit, holder by holder, in the order of its seats."""
    return [tool.name for holder in unit.planned.holders for tool in holder.tools]


def check_rows(checks: Iterable[CheckResult]) -> tuple[CheckRow, ...]:
    """Return checks with the source of each rule."""
    return tuple(
        CheckRow(
            name=check.name,
            demand=check.demand,
            capacity=check.capacity,
            unit=check.unit,
            holds=check.holds,
            near=check.near,
            source=str(check.source),
            note=check.note,
        )
        for check in checks
    )


def why_row(explained: Explained) -> WhyRow:
    """Return why something hangs where it does."""
    return WhyRow(points=_points(explained.costs), reasons=explained.sentences)


def family_rows(why: WhyFamily) -> tuple[FamilyRow, ...]:
    """Return the families that were weighed for tools, the cheapest first, then those passed over.

    One that was weighed and passed over comes where it was weighed, with the reason.
    """
    passed = {one.name: one.why for one in why.passed}
    weighed = {one.name: one for one in why.rated}
    rows: list[FamilyRow] = []
    for name in dict.fromkeys((*weighed, *passed)):
        rating = weighed.get(name)
        figures = None if rating is None else rating.figures
        rows.append(
            FamilyRow(
                name=name,
                state="used"
                if name == why.taken
                else "passed over"
                if name in passed
                else "weighed",
                grams=figures and figures.grams_each,
                support=figures and figures.support,
                width_mm=figures and figures.width_each_mm,
                reach_mm=figures and figures.reach_mm,
                cost_g=rating and rating.cost_g,
                words=passed.get(name, ", ".join(rating.flaws) if rating else ""),
            )
        )
    return tuple(rows)


def panel_row(job: PanelJob, found: Assessment) -> PanelRow:
    """Return a panel with the points of its arrangement and its checks."""
    panel, band = job.panel, job.problem.band
    return PanelRow(
        name=panel.name,
        width_mm=panel.width_mm,
        height_mm=panel.height_mm,
        floor_gap_mm=panel.floor_gap_mm,
        easy_reach_mm=(band.low_mm, band.high_mm),
        reach_mm=(band.lowest_mm, band.highest_mm),
        people=_people(job.reaches),
        points=_points(job.arrangement.scores),
        checks=check_rows(found.checks),
        lifting=check_rows(found.lifting),
        folder=job.folder,
        helps=tuple(one.sentence for one in found.helps),
        reserved_seats_asked=len(job.problem.seats),
        reserved_seats=tuple(_seat(job, rail, one) for rail, one in _seats(job)),
    )


def _seats(job: PanelJob) -> list[tuple[Rail, ReservedSeat]]:
    on = {one.item.key: rail for rail in job.arrangement.rails for one in job.seats_on(rail)}
    return [(on[one.item.key], one) for one in job.arrangement.seats]


def _seat(job: PanelJob, rail: Rail, seat: ReservedSeat) -> FreeSeatRow:
    loads = {one.name: one for load in loaded_rails(job) for one in load.reserved}
    return FreeSeatRow(
        name=seat.item.key,
        rail=rail.name,
        x_mm=seat.place.x_mm,
        z_mm=seat.place.z_mm,
        width_mm=seat.item.width_mm,
        above_mm=seat.item.up_mm,
        below_mm=seat.item.down_mm,
        load_kg=loads[seat.item.key].weight_n / GRAVITY_M_S2,
    )


def _people(reaches: PanelPeople) -> tuple[PersonRow, ...]:
    if not reaches.people.several:
        return ()
    return tuple(
        PersonRow(
            name=one.name,
            child=one.child,
            easy_reach_mm=band and (band.low_mm, band.high_mm),
            reach_mm=band and (band.lowest_mm, band.highest_mm),
            touches_mm=one.touches_mm if one.child else None,
        )
        for one in reaches.people.everybody
        for band in (reaches.bands.get(one.name),)
    )


def screwed_rows(screws: PlateScrews) -> tuple[ScrewedRow, ...]:
    """Return the screws of a unit into the wall itself, from left to right, the upper first."""
    return tuple(
        ScrewedRow(x_mm=column.x_mm, z_mm=z, behind=column.behind)
        for column in screws.columns
        for z in column.rows_mm
    )


def rail_rows(job: PanelJob) -> tuple[RailRow, ...]:
    """Return the rails of a panel, those that stay included."""
    return tuple(
        RailRow(
            name=rail.name,
            z_top_mm=rail.z_top_mm,
            x0_mm=rail.x0_mm,
            x1_mm=rail.x1_mm,
            length_mm=rail.length_mm,
            bevel_deg=rail.profile.bevel_deg,
            height_mm=rail.profile.height_mm,
            thickness_mm=rail.profile.thickness_mm,
            studs_mm=rail.studs_mm,
            panel=rail.panel,
            stays=rail.stays,
        )
        for rail in job.arrangement.rails
    )


def _points(scores: Scores) -> ScoreRow:
    return ScoreRow(**asdict(scores), total=scores.total)
