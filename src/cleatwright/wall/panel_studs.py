"""The studs of a panel, as places for the screws of its rails."""

from __future__ import annotations

from cleatwright.standards.fasteners.en_1995_screws import ALONG, EDGE
from cleatwright.wall.ground import end_mm
from cleatwright.wall.studs import NDS_RULE, StudPlace, StudRule
from cleatwright.workshop.document.surfaces import Panel, touching

# EN 1995-1-1 counts screws that are drawn out from this diameter up (8.7.2)
EN_SCREW_MM = 6.0
# 10, 4 and 7 diameters, and 4 to the edges of the rail: Table 8.6, for screws that are drawn out
EN_RULE = StudRule(
    end_mm=end_mm(EN_SCREW_MM),
    least_end_mm=end_mm(EN_SCREW_MM),
    edge_mm=EDGE * EN_SCREW_MM,
    apart_mm=ALONG * EN_SCREW_MM,
    rail_edge_mm=EDGE * EN_SCREW_MM,
)


def stud_rule(panel: Panel) -> StudRule:
    """Return which distances screws keep in the studs of a panel."""
    return NDS_RULE if panel.rule == "NDS 2018" else EN_RULE


def studs_of(panel: Panel) -> tuple[StudPlace, ...]:
    """Return the studs of a panel from left to right; those nailed together are one."""
    places: list[StudPlace] = []
    rule = stud_rule(panel)
    before = None
    for stud in sorted(panel.studs, key=lambda one: one.x_mm):
        half = stud.width_mm / 2
        faces = (stud.x_mm - half, stud.x_mm + half)
        if before and (before.doubled or stud.doubled) and touching(before, stud):
            places[-1] = StudPlace((*places[-1].uprights, faces), rule)
        else:
            places.append(StudPlace((faces,), rule))
        before = stud
    return tuple(places)
