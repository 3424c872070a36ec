"""One tool more on a wall that hangs: the cases, what the program makes of them, and an oracle.

The oracle looks at every height and every gap with plain loops and the rules of the wall as
``conflicts`` tells them; it shares nothing with what seats new holders.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cleatwright.base.errors import WallError
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.planned import last_made
from cleatwright.jobs.hung import hung_entries, hung_rail_entries
from cleatwright.project.revision import Revision, read_revision, with_text
from cleatwright.project.walls import TO_HANG, WALLS, Request
from cleatwright.siting.as_made import made_wall
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.siting.safe_heights import SafeHeights
from cleatwright.siting.walls import ITEM
from cleatwright.tools.registry import KINDS
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Item, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.score import stays_at
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade

SINCE = "2026-11-29"
NEAR_MM = 0.01


def hanging(folder: Path, run: Run) -> Revision:
    """Return a workshop of which everything hangs as it is made first; nothing is written."""
    revision = read_revision(folder, run)
    given = (revision, Request())
    found, panels = run.need(TO_HANG, given), run.need(WALLS, given)
    places = {key: spot.place for panel in panels for key, spot in panel.spots.items()}
    units = found.wall.units
    holders = [one for unit in units for one in unit.planned.holders]
    return replace(
        revision,
        made=last_made(holders, LastMade()),
        hung=WhatHangs(
            hung_entries(units, places, since=SINCE), hung_rail_entries(panels, since=SINCE)
        ),
        wall=made_wall(revision.workshop, panels, run),
    )


def tool_tables(revision: Revision, count: int, *, seed: int) -> Iterator[str]:
    """Yield tables of tools of random kinds, 0.7 to 1.5 times as large as ordinary ones.

    Where the workshop has a group with tools of the kind, half of them belong to it.
    """
    chance = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    kinds = [kind for kind in KINDS.values() if not kind.outlined]
    groups: dict[str, list[str]] = {}
    for item in revision.workshop.items():
        if item.group:
            groups.setdefault(item.kind, []).append(item.group)
    for number in range(count):
        kind, scale = chance.choice(kinds), round(chance.uniform(0.7, 1.5), 2)
        own = groups.get(kind.name, [])
        group = f'group = "{chance.choice(own)}"\n' if own and chance.random() < 0.5 else ""
        sizes = ", ".join(f'{name} = "{value * scale:.1f} mm"' for name, value in kind.example)
        yield (
            f'\n[[tool]]\nname = "one more {number}"\nkind = "{kind.name}"\n{group}'
            f"measures = {{ {sizes} }}\n"
        )


@dataclass(frozen=True)
class OneMore:
    """What became of a wall to which one tool was added.

    Args:
        renewed: The names of things that hang and of which another part is made.
        moved: The names of things that hang and hang elsewhere, or hang no more.
        new_rails: How many rails are new.
        fault: Why something finds no place, or "".
    """

    renewed: tuple[str, ...] = ()
    moved: tuple[str, ...] = ()
    new_rails: int = 0
    fault: str = ""


@dataclass(frozen=True)
class Seats:
    """Whether an exhaustive look finds a seat: on a rail that hangs, or on any rail."""

    on_hanging: bool
    anywhere: bool


@dataclass(frozen=True)
class Case:
    """A workshop of which everything hangs, with one tool more.

    Args:
        before: The workshop as it hangs.
        after: The same with one tool more.
        name: The name of that tool.
    """

    before: Revision
    after: Revision
    name: str

    @classmethod
    def of(cls, revision: Revision, table: str, run: Run) -> Case:
        """Return the case of a table that is written below the others.

        Raises:
            CleatwrightError: There is no such tool, or no holder for it.
        """
        case = cls(
            revision,
            with_text(revision, revision.text + table, run),
            table.split('name = "')[1].split('"', maxsplit=1)[0],
        )
        run.need(TO_HANG, (case.after, Request()))
        return case

    def unit(self, run: Run) -> Unit:
        """Return the thing that holds the new tool."""
        units = run.need(TO_HANG, (self.after, Request())).wall.units
        return next(
            unit
            for unit in units
            if any(tool.name == self.name for one in unit.planned.holders for tool in one.tools)
        )

    def planned(self, run: Run) -> OneMore:
        """Return what the program makes of it."""
        given = (self.after, Request())
        found = run.need(TO_HANG, given)
        try:
            panels = run.need(WALLS, given)
        except WallError as error:
            return OneMore(fault=str(error))
        wanted = wanted_of(found.wall.units)
        known = matched(found.hung.holders, wanted)
        spots = {key: spot.place for panel in panels for key, spot in panel.spots.items()}
        seen = {entry.identity for entry in known.values()}
        return OneMore(
            renewed=tuple(
                one.name for one in wanted if one.key in known and known[one.key].mark != one.mark
            ),
            moved=(
                *(
                    one.name
                    for one in wanted
                    if one.key in known
                    and not stays_at((known[one.key].x_mm, known[one.key].z_mm), spots[one.key])
                ),
                *(one.name for one in found.hung.holders if one.identity not in seen),
            ),
            new_rails=sum(not rail.stays for one in panels for rail in one.arrangement.rails),
        )

    def seats(self, run: Run) -> Seats:
        """Return whether there is a seat for the new tool while all else stays."""
        unit = self.unit(run)
        panels = {one.panel.name: one for one in run.need(WALLS, (self.before, Request()))}
        panel = panels[unit.planned.panel]
        bounds = SafeHeights(self.after.workshop, panel.panel).bounds(unit)
        item = replace(run.need(ITEM, unit), bounds=bounds)
        others = [place for place in panel.arrangement.places if place.key != item.key]
        problem = panel.problem.having(
            (*(panel.problem.known[place.key] for place in others), item)
        )
        rails = problem.space.kept_rails
        tops = {rail.z_top_mm - problem.rule.edge_above_mm for rail in rails}
        step_mm = problem.rule.step_mm
        steps = {step_mm * n for n in range(int(problem.space.height_mm // step_mm) + 1)}
        hanging = any(
            _seat(problem, others, item, z, hangs=True)
            for z in sorted(tops if item.on_rail else tops | steps)
        )
        anywhere = hanging or any(
            _seat(problem, others, item, z, hangs=False) for z in sorted(tops | steps)
        )
        return Seats(hanging, anywhere)


def _seat(
    problem: WallProblem, others: Sequence[Place], item: Item, z_mm: float, *, hangs: bool
) -> bool:
    """Look into each gap at one height: beside each edge there is."""
    if not item.may_hang_at(z_mm):
        return False
    low, high = z_mm - item.down_mm, z_mm + item.up_mm
    if low < -NEAR_MM or high > problem.space.height_mm + NEAR_MM:
        return False
    boxes = [(b.x_mm, b.right_mm, b.z_mm, b.top_mm) for b in problem.space.obstacles]
    for place in others:
        other = problem.known[place.key]
        left = place.x_mm - other.side_left_mm
        right = place.x_mm + other.width_mm + other.side_right_mm
        boxes.append((left, right, place.z_mm - other.down_mm, place.z_mm + other.up_mm))
    edges = {0.0, problem.space.width_mm}
    for x0, x1, _, _ in boxes:
        edges |= {x0, x1}
    plates = {place.x_mm for place in others}
    plates |= {place.x_mm + problem.known[place.key].width_mm for place in others}
    ends = {x for rail in problem.space.kept_rails for x in (rail.x0_mm, rail.x1_mm)}
    lefts = {edge + item.side_left_mm for edge in edges} | plates | ends
    lefts |= {edge - item.width_mm - item.side_right_mm for edge in edges}
    lefts |= {edge - item.width_mm for edge in plates | ends}
    for x in sorted(lefts):
        x0, x1 = x - item.side_left_mm, x + item.width_mm + item.side_right_mm
        if any(
            min(x1, b1) - max(x0, b0) > 0.1 and min(high, t1) - max(low, t0) > 0.1
            for b0, b1, t0, t1 in boxes
        ):
            continue
        on_rail = any(
            abs(rail.z_top_mm - problem.rule.edge_above_mm - z_mm) <= NEAR_MM
            and rail.x0_mm - NEAR_MM <= x
            and x + item.width_mm <= rail.x1_mm + NEAR_MM
            for rail in problem.space.kept_rails
        )
        if hangs and item.on_rail and not on_rail:
            continue
        places = (*others, Place(item.key, x, z_mm))
        tried = Arrangement(places, cut_rails(problem, places))
        if not conflicts(problem, tried):
            return True
    return False
