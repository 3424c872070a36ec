"""What a plan changes on each wall: what moves, is new or comes off, and where it hangs now."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from cleatwright.base.stages.outcome import Done
from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART
from cleatwright.design.carrying import Unit
from cleatwright.design.recipe import RECIPE_VERSION, recipe_from_json, version_of
from cleatwright.pack.drawing import elevation_view
from cleatwright.pack.front_view import Polygons, front_view
from cleatwright.pack.job import Job
from cleatwright.papers.side_by_side.view import BesideView, WasView
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import Move
from cleatwright.wall.moving.rail_moves import RailMove
from cleatwright.workshop.ledger.hung_entry import HungEntry

Stored = Callable[[str], str | None]
"""The recipe of a mark as the ledger keeps it, or None when it is not known."""


@dataclass(frozen=True)
class ChangedThing:
    """What happens to one holder, or carrier with its holders, that hangs on a wall or shall.

    Args:
        move: What happens to it.
        numbers: The numbers of its holders in the plan, sorted; none when it comes off.
        was: Where it hangs now on this wall, when it moves or comes off.
    """

    move: Move
    numbers: tuple[int, ...]
    was: WasView | None


@dataclass(frozen=True)
class ChangedWall:
    """One wall by a plan, and what that changes.

    Args:
        panel: The wall as it would be.
        things: What happens to everything that hangs on it, or shall.
        rails: What happens to its rails.
    """

    panel: PanelJob
    things: tuple[ChangedThing, ...]
    rails: tuple[RailMove, ...]

    @property
    def changes(self) -> bool:
        """Tell whether anything of it changes."""
        things = any(one.move.what != "stays" or one.move.renewed for one in self.things)
        return things or any(one.what != "stays" for one in self.rails)

    def beside(self, words: str, run: Run) -> BesideView:
        """Return what a sheet of walls side by side shows of it, under some words."""
        name = self.panel.panel.name

        def numbers(what: str) -> frozenset[int]:
            return frozenset(
                number
                for one in self.things
                if one.move.what == what and one.move.panel_after == name
                for number in one.numbers
            )

        return BesideView(
            words=words,
            wall=elevation_view(self.panel, run),
            moved=numbers("moves"),
            new=numbers("is new"),
            was=tuple(one.was for one in self.things if one.was is not None),
            new_rails=frozenset(one.name for one in self.rails if one.what == "is new"),
            rails_down=tuple(
                one.before for one in self.rails if one.what == "comes down" and one.before
            ),
        )


def changed_walls(job: Job, stored: Stored, run: Run) -> tuple[ChangedWall, ...]:
    """Return every wall of a job with what it changes for what hangs.

    Args:
        job: The job.
        stored: The recipes in the ledger, from which a part that is made no more is drawn.
        run: The run that keeps what was drawn before.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    known = matched(job.hung.holders, wanted_of(job.units))
    used = {one.identity for one in known.values()}
    off = {f"off {one.identity}": one for one in job.hung.holders if one.identity not in used}
    now = _Now(job, {**known, **off}, stored, run)
    return tuple(
        ChangedWall(
            panel=panel,
            things=tuple(now.things(panel)),
            rails=tuple(one for one in job.change_plan.rails if one.panel == panel.panel.name),
        )
        for panel in job.panels
    )


@dataclass(frozen=True)
class _Now:
    """What hangs now: the entry of each thing by the key that the plan has for it."""

    job: Job
    entries: Mapping[str, HungEntry]
    stored: Stored
    run: Run

    def things(self, panel: PanelJob) -> Iterator[ChangedThing]:
        """Yield what happens to everything that hangs on a panel, or shall."""
        name, units = panel.panel.name, {one.planned.key: one for one in self.job.units}
        for move in self.job.change_plan.moves:
            here = move.before is not None and move.panel_before == name
            then = move.after is not None and move.panel_after == name
            if not (here or then):
                continue
            unit = units.get(move.key)
            goes = here and move.what in ("moves", "comes off")
            yield ChangedThing(
                move=move,
                numbers=() if unit is None else _numbers(unit),
                was=self._was(move, unit, stays_here=then) if goes else None,
            )

    def _was(self, move: Move, unit: Unit | None, *, stays_here: bool) -> WasView | None:
        if move.before is None:
            return None
        outline = self._outline(move, unit)
        at = _middle(outline) if outline else (move.before.x_mm, move.before.z_mm)
        to = (at[0] + move.right_mm, at[1] + move.up_mm) if stays_here else None
        return WasView(outline, at, to)

    def _outline(self, move: Move, unit: Unit | None) -> Polygons:
        """Return the outlines of what hangs now, as far as they are known."""
        before = move.before
        if before is None:
            return ()
        if unit is None or move.renewed:
            entry = self.entries.get(move.key)
            return () if entry is None else self._of_mark(entry.mark, before)
        here = self.job.spots[unit.planned.key].place
        dx, dz = before.x_mm - here.x_mm, before.z_mm - here.z_mm
        parts = [
            (made, self.job.spots[planned.key].place)
            for planned, made in zip(unit.planned.holders, unit.holders, strict=True)
        ]
        if unit.carrier is not None:
            parts.append((unit.carrier, here))
        return tuple(
            tuple((x + dx, z + dz) for x, z in ring)
            for made, place in parts
            for ring in front_view(made, place, self.run).part
        )

    def _of_mark(self, mark: str, place: Place) -> Polygons:
        text = self.stored(mark)
        if text is None or version_of(text) != RECIPE_VERSION:
            return ()
        built = self.run.ask(PART, recipe_from_json(text, where=f"mark {mark}"))
        if not isinstance(built, Done):
            return ()
        return front_view(built.value, place, self.run).part


def _numbers(unit: Unit) -> tuple[int, ...]:
    return tuple(sorted(one.number for one in unit.planned.holders))


def _middle(outline: Polygons) -> tuple[float, float]:
    xs = [x for ring in outline for x, _ in ring]
    zs = [z for ring in outline for _, z in ring]
    return (min(xs) + max(xs)) / 2, (min(zs) + max(zs)) / 2
