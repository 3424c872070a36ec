"""How far beyond the last screws of a rail something may hang, so that a hand may lean on it.

     over
   ├──────┤
   ┌──────────┐
═══│══════╪═══│═════════╪═══      a load beyond the last stud lifts at the last but one:
   └──────────┘ stud      stud    the screws there bear more than it
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import content_key
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.rail_loads import check_rail
from cleatwright.design.carrying import Unit
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.loading import load_at
from cleatwright.standards.table import Listed
from cleatwright.statics.rail import HungLoad, RailFixing
from cleatwright.wall.model import Place
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.studs import OVERHANG_MM
from cleatwright.workshop.document.sections import RailRules
from cleatwright.workshop.document.surfaces import Panel

# of what screws may carry one thing may ask so much; the rest is for what hangs beside it
SHARE = 0.8
STEPS = 8
LEFT = Source("of what screws may carry, for one thing at the end of its rail", "", Evidence.CHOICE)
VALUES = (Listed("Rail screws", "share of one thing beyond the last stud", SHARE, LEFT),)


def _overhang(_: Run, given: tuple[Unit, RailRules, Panel]) -> float:
    """Return how far beyond the last screws a unit may reach, in mm; infinite for any far."""
    unit, rail, panel = given
    studs = studs_of(panel) if panel.made_of == "studs" else ()
    if len(studs) < 2 or not unit.outer.part.hanging.on_rail:
        return math.inf
    try:
        by = fastening_of(rail, panel).carries
    except MeasureError:
        # the assessment of the wall says which screws it lacks
        return math.inf
    if by.strength is None:
        return math.inf
    load = load_at(unit, Place(unit.planned.key, 0.0, 0.0), rail_height_mm=rail.height_mm)
    apart_mm = min(after.x_mm - before.x_mm for before, after in pairwise(studs))
    rows = studs[0].rule.rows(rail.height_mm)
    fixing = RailFixing(
        (0.0, apart_mm),
        rail.height_mm,
        rail.thickness_mm,
        tuple(share * rail.height_mm for share in rows),
    )

    def holds(over_mm: float) -> bool:
        hung, ends = _shifted(load, -over_mm), (-over_mm, apart_mm)
        checks = check_rail("", ends, fixing, loads=(hung,), by=by)
        return all(one.utilisation <= SHARE for one in checks)

    low, high = 0.0, OVERHANG_MM
    if holds(high):
        return math.inf
    if not holds(low):
        return 0.0
    for _step in range(STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def _shifted(load: HungLoad, left_mm: float) -> HungLoad:
    """Return a load with its left edge at an x."""
    left, right = load.edges_mm or (load.x_mm, load.x_mm)
    aside = left_mm - left
    return replace(load, x_mm=load.x_mm + aside, edges_mm=(left + aside, right + aside))


OVERHANG = Stage("how far beyond its screws a unit may hang", _overhang, content_key)
"""From a built unit, the rails and their wall to how far it may reach beyond the last screws."""
