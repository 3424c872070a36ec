"""Lines of the document that may make room for a tool or a hand; each is still to be tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base.written import Side, written_length
from cleatwright.design.carrying import Unit
from cleatwright.siting.giving_places import Given, Written, place_given, written_place
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place
from cleatwright.wall.way_out import Hit, WayProof
from cleatwright.workshop.document.editing import Step, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse
from cleatwright.workshop.document.surfaces import MAIN, Panel

_STEPS = MappingProxyType(
    {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
)
_SIDES: dict[float, Side] = {-1.0: "down", 0.0: "nearest", 1.0: "up"}


@dataclass(frozen=True)
class Lack:
    """What lacks room on its way out.

    Args:
        way: The way.
        hit: What is in the way.
        at_hand: True when it is in the way of the hand, false when it is in that of the tool.
    """

    way: WayProof
    hit: Hit
    at_hand: bool

    def freed_in(self, ways: Sequence[WayProof]) -> bool:
        """Return whether the same lacks no room among other proofs."""
        same = [way for way in ways if way.tool == self.way.tool]
        return bool(same) and all((w.hand if self.at_hand else w.hit) is None for w in same)


def lacks(ways: Sequence[WayProof]) -> tuple[Lack, ...]:
    """Return all that lacks room, the tools before the hands."""
    return (
        *(Lack(way, way.hit, at_hand=False) for way in ways if way.hit is not None),
        *(Lack(way, way.hand, at_hand=True) for way in ways if way.hand is not None),
    )


def lines_for(lack: Lack, job: PanelJob, *, workshop: Workshop, text: str) -> Iterator[Given]:
    """Yield documents in which it may have room, the one that changes the least first.

    A margin is written to the safe side, and so is what of a place changes.

    Args:
        lack: What lacks room.
        job: Its panel.
        workshop: The document.
        text: The same, as it stands in the file.
    """
    hit = lack.hit
    of_holder = {one.key: unit for unit in job.units for one in unit.planned.holders}
    own, other = of_holder[lack.way.holder_key], _unit_of(job, hit)
    if hit.sort == "obstacle" and own.planned.fixed is None:
        yield _margin(job, hit, workshop=workshop, text=text)
    both = [(own, 1.0), *([(other, -1.0)] if other is not None and other is not own else [])]
    # the owner gave that place, so that nothing else will move it
    both.sort(key=lambda one: one[0].planned.fixed is None)
    for unit, way in both:
        written = _moved(job, unit, hit, way)
        given = written and place_given(text, workshop, unit, written)
        if given is not None:
            yield given


def _unit_of(job: PanelJob, hit: Hit) -> Unit | None:
    of_name = {
        name: unit
        for unit in job.units
        for one in unit.planned.holders
        for name in (unit.planned.name, one.name, *(tool.name for tool in one.tools))
    }
    return None if hit.sort in ("obstacle", "rail") else of_name.get(hit.name)


def _moved(job: PanelJob, unit: Unit, hit: Hit, way: float) -> Written | None:
    """Return the place of a unit moved on by what is missing, or the opposite way."""
    right, up = (way * step for step in _STEPS[hit.direction])
    at = job.spots[unit.planned.key].place
    place = Place(at.key, at.x_mm + right * hit.shift_mm, at.z_mm + up * hit.shift_mm)
    if min(place.x_mm, place.z_mm) < 0.0:
        return None
    return written_place(place, job.setting.units, x_side=_SIDES[right], z_side=_SIDES[up])


def _margin(job: PanelJob, hit: Hit, *, workshop: Workshop, text: str) -> Given:
    number, obstacle = next(
        (n, one) for n, one in enumerate(job.panel.obstacles) if one.name == hit.name
    )
    margin = written_length(obstacle.keep_out_mm + hit.shift_mm, job.setting.units, side="up")
    document = parse(text)
    set_value(document, (*_table(workshop, job.panel), "obstacle", number, "margin"), value=margin)
    return Given(document.as_string(), f'write margin = "{margin}" for the obstacle "{hit.name}"')


def _table(workshop: Workshop, panel: Panel) -> tuple[Step, ...]:
    if panel.name == MAIN:
        return ("wall",)
    return "panel", [one.name for one in workshop.panels].index(panel.name)
