"""What has to be bought for the wall: one list over all holders and rails."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.base.lengths import Wording
from cleatwright.base.source import Evidence, Source
from cleatwright.papers.kit.tables import ListTable
from cleatwright.parts.holder import Hardware
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.screws import (
    PENETRATION_DIAMETERS,
    RAIL_SCREW_MM,
    RAIL_SCREW_RULE,
    SCREWS_A_STUD,
    lining_given,
    rail_screw_mm,
)
from cleatwright.standards.fasteners.wood_screws import countersink_mm
from cleatwright.standards.table import Listed

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
    for panel in panels:
        wanted = [rail for rail in panel.arrangement.rails if rail.stays is stays]
        count = sum(len(rail.studs_mm) for rail in wanted) * SCREWS_A_STUD
        if count:
            found.append(_rail_screws(panel, count))
        lacking += [rail.name for rail in wanted if len(rail.studs_mm) < 2]
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
    return tuple(found)


def _rail_screws(panel: PanelJob, count: int) -> Hardware:
    """Return the screws of one panel's rails, with what their length assumes."""
    rail, lining = panel.setting.rail.thickness_mm, panel.panel.lining_mm
    length = rail_screw_mm(rail_thickness_mm=rail, lining_mm=lining)
    known = "as given" if lining_given(panel.panel) else "taken as plasterboard (measure yours)"
    between = f"{said.mm(lining)} lining {known}" if lining else f"no lining {known}"
    return Hardware(
        name=f"countersunk wood screw {said.metric(RAIL_SCREW_MM, length)}",
        count=count,
        note=f"rails, {SCREWS_A_STUD} in each stud; {said.mm(rail)} rail, {between}, "
        f"{said.mm(length - rail - lining)} in the stud, of which "
        f"{said.mm(PENETRATION_DIAMETERS * RAIL_SCREW_MM)} are needed; "
        f"head {said.mm(countersink_mm(RAIL_SCREW_MM))}",
        source=RAIL_SCREW_RULE,
    )


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
