"""What has to be bought for the wall: one list over all holders and rails."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.lengths import Wording
from cleatwright.base.source import Evidence, Source
from cleatwright.papers.kit.tables import ListTable
from cleatwright.parts.holder import Hardware
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.demand import most_demanded, must_bear
from cleatwright.siting.rails.fastening import RailFastening, fastening_of
from cleatwright.siting.rails.loading import loaded_rails
from cleatwright.siting.rails.screws import (
    PENETRATION_DIAMETERS,
    RAIL_SCREW_RULE,
    lining_given,
)
from cleatwright.standards.fasteners.wood_screws import countersink_mm
from cleatwright.standards.table import Listed
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.rail import Rail

OUTSIDE_STUDS = Source("fixings outside studs", "", Evidence.PRACTICE)
VALUES = (Listed("Rail screws", "studs below which advice is asked", 2, OUTSIDE_STUDS),)


def rail_hardware(panels: Sequence[PanelJob], *, stays: bool = False) -> tuple[Hardware, ...]:
    """Return the screws of the rails to be put up, panel by panel, and what lacks studs.

    Args:
        panels: The panels.
        stays: True for what holds the rails that hang already and stay instead.

    Raises:
        MeasureError: No screw on sale is long enough.
    """
    found: list[Hardware] = []
    lacking: list[str] = []
    short: list[str] = []
    for panel in panels:
        wanted = [rail for rail in panel.arrangement.rails if rail.stays is stays]
        count = sum(len(rail.studs_mm) * len(rail.rows) for rail in wanted)
        if count:
            found.append(_rail_screws(panel, wanted, count))
        weak = [rail.name for rail in wanted if len(rail.studs_mm) < PLACES_A_RAIL]
        if panel.panel.made_of == "studs":
            lacking += weak
        else:
            short += weak
    if lacking:
        found.append(
            Hardware(
                name="fixing for a rail that meets fewer than two studs",
                count=len(lacking),
                note=f"{', '.join(sorted(lacking))}: choose it for your wall with qualified "
                "advice, or put a board across the studs behind it",
                source=OUTSIDE_STUDS,
            )
        )
    if short:
        found.append(
            Hardware(
                name="fixing for a rail that is held at fewer than two places",
                count=len(short),
                note=f"{', '.join(sorted(short))}: let the rail be longer, or choose a fixing for "
                "your wall with qualified advice",
                source=OUTSIDE_STUDS,
            )
        )
    return tuple(found)


def _rail_screws(panel: PanelJob, rails: Sequence[Rail], count: int) -> Hardware:
    """Return the screws or anchors of one panel's rails, with what their length assumes."""
    fastening = fastening_of(panel.setting.rail, panel.panel)
    if panel.panel.takes_anchors:
        return _anchors(panel, fastening, rails, count)
    screw, length = fastening.screw_mm, fastening.length_mm
    if screw is None or length is None:
        return Hardware(
            name="wood screw for a rail",
            count=count,
            note=fastening.carries.unknown,
            source=RAIL_SCREW_RULE,
        )
    rail, lining = panel.setting.rail.thickness_mm, panel.panel.between_mm
    known = "as given" if lining_given(panel.panel) else "taken as plasterboard (measure yours)"
    if panel.panel.made_of != "studs" and not lining_given(panel.panel):
        known = "as none is given"
    between = f"{said.mm(lining)} lining {known}" if lining else f"no lining {known}"
    each = " or ".join(map(str, sorted({len(one.rows) for one in rails})))
    place, wood = ("stud", "stud") if panel.panel.made_of == "studs" else ("place", "wood")
    return Hardware(
        name=f"countersunk wood screw {said.metric(screw, length)}",
        count=count,
        note=f"rails, {each} in each {place}; {said.mm(rail)} rail, {between}, "
        f"{said.mm(length - rail - lining)} in the {wood}, of which "
        f"{said.mm(PENETRATION_DIAMETERS * screw)} are needed; "
        f"head {said.mm(countersink_mm(screw))}",
        source=RAIL_SCREW_RULE if panel.panel.rule == "NDS 2018" else fastening.carries.source,
    )


def _anchors(
    panel: PanelJob, fastening: RailFastening, rails: Sequence[Rail], count: int
) -> Hardware:
    """Return the anchors of a panel, with what each must bear at the least."""
    names = {rail.name for rail in rails}
    demand = most_demanded(one for one in loaded_rails(panel) if one.rail.name in names)
    anchor, made_of = fastening.anchor, panel.panel.made_of
    where = "a wall that nobody knows yet" if made_of == "unknown" else made_of
    told = [
        f"rails on {where}, one at each place",
        f"{_small(must_bear(demand))} (allowable loads)",
    ]
    if anchor is not None:
        told += [
            f"{words} {said.mm(value)}"
            for words, value in (
                ("hole", anchor.hole_mm),
                ("hole depth", anchor.hole_depth_mm),
                ("embedment", anchor.embedment_mm),
                ("screw diameter", anchor.screw_mm),
                ("screw length", anchor.screw_length_mm),
            )
            if value is not None
        ]
    told += [fastening.carries.unknown] if fastening.carries.unknown else []
    return Hardware(
        name=f"anchor {anchor.name}" if anchor and anchor.name else f"anchor for {where}",
        count=count,
        note="; ".join(told),
        source=fastening.carries.source,
    )


def _small(sentence: str) -> str:
    """Return a sentence as a part of a longer one."""
    return sentence[:1].lower() + sentence[1:].rstrip(".")


def hardware_table(items: Sequence[Hardware], words: Wording) -> ListTable:
    """Return things to buy as a list in which equal ones are added up.

    Args:
        items: The things.
        words: Turns sentences into the unit of the workshop.
    """
    counts: dict[tuple[str, str, str], int] = {}
    for item in items:
        key = (words(item.name), words(item.note), words(str(item.source)))
        counts[key] = counts.get(key, 0) + item.count
    rows = ((name, str(counts[name, note, src]), note, src) for name, note, src in sorted(counts))
    return ListTable(("item", "count", "for", "rule"), tuple(rows))
