"""Lines of the document that are tried on the whole workshop before anything names them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from cleatwright.siting.assessing import Assessment, without_place
from cleatwright.siting.giving_places import place_given
from cleatwright.siting.missing_room import Lack, lacks, lines_for
from cleatwright.siting.over_studs import lefts_over_studs, places_over_studs
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.remark import Remark
from cleatwright.siting.screws_behind import PlateScrews, plate_screws
from cleatwright.siting.typed_place import typed_place
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.way_out import Hit, WayProof
from cleatwright.workshop.document.model import Workshop

# each trial arranges the whole workshop once more
MOST_TRIALS_EACH = 2
MOST_TRIALS = 4
LEAST_POINTS = 0.5
TRIED = "tried: all else finds its place then and nothing holds worse"


@dataclass(frozen=True)
class Plan:
    """What was found about a workshop whose warnings are looked into.

    Args:
        workshop: The document.
        text: The same, as it stands in the file.
        panels: Its panels.
        found: What was found about each.
    """

    workshop: Workshop
    text: str
    panels: Sequence[PanelJob]
    found: Sequence[Assessment]


Arranged = Callable[[str], Plan | None]
"""Arranges a changed document as the person would; None where that cannot be."""


def advised(plan: Plan, arranged: Arranged) -> tuple[Assessment, ...]:
    """Return what was found, each fault that a change mends with the line that was tried.

    These are tools and hands that lack room, and plates beside the studs. A line is named only
    when the whole workshop, arranged once more with it, has no more that does not hold than
    before, and one thing less to see to.
    """
    found = _with_room(plan, arranged)
    left = MOST_TRIALS
    told: list[Assessment] = []
    for panel, one_found in zip(plan.panels, found, strict=True):
        screws = {one.unit.planned.key: one for one in plate_screws(panel)}
        remarks: list[Remark] = []
        for one in one_found.remarks:
            if not one.beside_studs:
                remarks.append(one)
                continue
            todo, trials = _todo(plan, panel, screws[one.about], arranged, most=left)
            left -= trials
            remarks.append(replace(one, todo=f"{todo}."))
        told.append(replace(one_found, remarks=tuple(remarks)))
    return tuple(told)


def _with_room(plan: Plan, arranged: Arranged) -> tuple[Assessment, ...]:
    """Return what was found, each lack of room with the line that makes room, if one does."""
    waiting = [(panel, lack) for panel in plan.panels for lack in lacks(panel.ways)]
    lines: dict[int, str] = {}
    text, left = plan.text, MOST_TRIALS
    for number, (panel, lack) in enumerate(waiting):
        if number in lines:
            continue
        for given in islice(
            lines_for(lack, panel, workshop=plan.workshop, text=text), min(left, MOST_TRIALS_EACH)
        ):
            left -= 1
            after = arranged(given.text)
            if after is None or not _better(plan, after) or not _freed(panel, lack, after):
                continue
            lines |= {
                other: f"{given.words} ({TRIED})"
                for other, (where, one) in enumerate(waiting)
                if other not in lines and _freed(where, one, after)
            }
            break
    told = {
        (panel.panel.name, lack.way.tool, lack.at_hand): lines.get(number, "")
        for number, (panel, lack) in enumerate(waiting)
    }

    def line(panel: PanelJob, way: WayProof, hit: Hit | None, *, at_hand: bool) -> Hit | None:
        return hit and replace(hit, todo=told[panel.panel.name, way.tool, at_hand])

    return tuple(
        replace(
            found,
            ways=tuple(
                replace(
                    way,
                    hit=line(panel, way, way.hit, at_hand=False),
                    hand=line(panel, way, way.hand, at_hand=True),
                )
                for way in found.ways
            ),
        )
        for panel, found in zip(plan.panels, plan.found, strict=True)
    )


def _freed(panel: PanelJob, lack: Lack, after: Plan) -> bool:
    same = next((one for one in after.panels if one.panel.name == panel.panel.name), None)
    return same is not None and lack.freed_in(same.ways)


def _better(plan: Plan, after: Plan) -> bool:
    """Return whether nothing more fails or is warned of than before, and one thing less is."""
    found = after.found
    failing = sum(len(one.failing) for one in found) - sum(len(one.failing) for one in plan.found)
    warned = sum(len(one.warnings) for one in found) - sum(len(one.warnings) for one in plan.found)
    return failing <= 0 and warned <= 0 and failing + warned < 0


def _todo(
    plan: Plan, panel: PanelJob, screws: PlateScrews, arranged: Arranged, *, most: int
) -> tuple[str, int]:
    """Return what to do about a plate beside the studs, and how many places were tried."""
    wall, otherwise = surface(panel.panel.name), without_place(screws)
    if not lefts_over_studs(panel, screws):
        each = "each of its columns" if len(screws.columns_mm) > 1 else "its column"
        return f"no place on {wall} has a stud behind {each} of screws, so {otherwise}", 0
    text, tried = plan.text, 0
    for place in places_over_studs(panel, screws)[: min(most, MOST_TRIALS_EACH)]:
        given = place_given(text, plan.workshop, screws.unit, typed_place(panel, place))
        if given is None:
            break
        tried += 1
        after = arranged(given.text)
        more = None if after is None else _cost(plan, panel, after)
        if more is not None:
            points = f", and the wall costs {more:.0f} points more" if more >= LEAST_POINTS else ""
            return (
                f"{given.words} ({TRIED}{points}), or choose a fixing for your wall with "
                "qualified advice"
            ), tried
    if not tried:
        return otherwise, 0
    places = "the one place that was" if tried == 1 else f"none of the {tried} places that were"
    helps = "does not help" if tried == 1 else "helps"
    return f"{places} tried over studs {helps}, so {otherwise}", tried


def _cost(plan: Plan, panel: PanelJob, after: Plan) -> float | None:
    """Return how many points a panel costs more than before; None where the change does harm."""
    found = after.found
    failing = sum(len(one.failing) for one in found)
    remarks = sum(len(one.remarks) for one in found)
    worse = failing > sum(len(one.failing) for one in plan.found)
    if worse or remarks >= sum(len(one.remarks) for one in plan.found):
        return None
    same = next(one for one in after.panels if one.panel.name == panel.panel.name)
    return same.arrangement.scores.total - panel.arrangement.scores.total
