"""Arranging what hangs on one panel, and the sentences when it cannot be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.errors import KernelError, WallError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.siting.as_made import NO_START, Start
from cleatwright.siting.rails.as_made import rails_made
from cleatwright.siting.searching import SEARCHED, Moves, Search
from cleatwright.wall.adding.moved import with_moves
from cleatwright.wall.adding.seats import MOST_ORDERED, Seated, seats_beside
from cleatwright.wall.arrange import require_all
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.inputs import check_problem
from cleatwright.wall.keeping import KeptArrangement, keep_rails
from cleatwright.wall.model import Arrangement, Item, Place, ReservedSeat
from cleatwright.wall.off_heat import off_heat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import numbered
from cleatwright.wall.rows.choosing import on_rows
from cleatwright.wall.rows.laying import rows_behind, without_bare_rows
from cleatwright.wall.score import hung
from cleatwright.workshop.ledger.made_wall import MadeRail


@dataclass(frozen=True)
class Words:
    """How things are called in messages.

    Args:
        names: The names of holders by their keys.
    """

    names: Mapping[str, str]

    def told(self, error: WallError) -> WallError:
        """Return the error with the names of holders in place of their keys."""
        return error.said(lambda words: by_name(words, self.names) if words else words)


@dataclass(frozen=True)
class ArrangingRequest:
    """What one panel is, and what is asked of it.

    Args:
        problem: The panel, with the rails that stay whatever comes, and what shall hang on it.
        rails: Rails that hang already, and stay as long as everything finds a place.
        rounds: Rounds of the search.
        firm: True when no rail that hangs may come down for what finds no place.
        seed: Start of the random numbers.
        heights_mm: The hang heights of rows that go before others; None for any.
        start: From where the plan sets out.
        still: True when nothing that hangs may move, and no rail come down, for what finds no
            place.
        anew: True when everything may hang elsewhere, as far as that pays.
        aside: Rails that hang and count as if they did not, but where a new one would lie.
    """

    problem: WallProblem
    rails: tuple[Rail, ...]
    rounds: int
    firm: bool = False
    seed: int = 0
    heights_mm: tuple[float, ...] | None = None
    start: Start = NO_START
    still: bool = False
    anew: bool = False
    aside: tuple[Rail, ...] = ()

    @property
    def bare(self) -> Search:
        """Return the search on the panel as if the rails did not hang."""
        return self.search(self.problem)

    def search(self, problem: WallProblem) -> Search:
        """Return the search on a panel of what is asked for."""
        return Search(problem, self.rounds, self.seed, self.moves, self.heights_mm)

    @property
    def told(self) -> Search:
        """Return the search of which it is told why something finds no place."""
        if self.holds and _sound(self.with_rails):
            return self.search(self.with_rails)
        return self.bare

    @property
    def holds(self) -> bool:
        """Return whether something hangs that has to stay."""
        hangs = any(item.hangs_at for item in self.problem.items)
        return self.still and (hangs or bool(self.rails))

    @property
    def moves(self) -> Moves:
        """Return when the search may move what hangs."""
        return "never" if self.holds else "paying" if self.anew else "needed"

    @property
    def with_rails(self) -> WallProblem:
        """Return the panel with all rails that hang."""
        space = self.problem.space
        return self.problem.on(replace(space, kept_rails=(*space.kept_rails, *self.rails)))

    @property
    def starts(self) -> Iterator[tuple[WallProblem, tuple[Place, ...]]]:
        """Yield the panel as it was made, with its rows, and as it hangs."""
        problem = self.with_rails
        made = replace(problem.space, rows=self.start.rows)
        bare = problem.on(made).having(())
        # what has a given place since may hang where no row of the papers can be
        if not conflicts(bare, hung(bare, ())) and _sound(problem.on(made)):
            yield problem.on(made), self.as_made
        if self.as_made != self.hanging:
            yield problem, self.hanging

    @property
    def hanging(self) -> tuple[Place, ...]:
        """Return where things are fixed or hang already as they are."""
        return tuple(
            Place(item.key, *at)
            for item in self.problem.items
            if (at := item.fixed or (None if item.key in self.start.renewed else item.hangs_at))
        )

    @property
    def as_made(self) -> tuple[Place, ...]:
        """Return the same, and where else things are by the papers that were made last."""
        made = {place.key: place for place in self.hanging}
        items = self.problem.known
        for place in self.start.places:
            if place.key in items and items[place.key].fixed is None:
                made[place.key] = place
        return tuple(made[key] for key in sorted(made))


def arranged(run: Run, asked: ArrangingRequest) -> KeptArrangement:
    """Return where everything hangs on a panel, and which rails stay.

    The wall as it was made is the start: what is new is seated beside all else. Otherwise what
    hangs already stays where it is, as long as everything finds a place; only then, and only when
    it may, does the search move it, and as little as it pays. Only when something still finds no
    place is the panel arranged as if the rails of the ledger did not hang; of these, all that are
    not in the way stay all the same. A rail that was set aside stays where a new one would lie.

    Raises:
        WallError: Something finds no place; ``HELPED`` knows what would help.
        KernelError: The arrangement does not stand its own independent check.
    """
    problem = asked.problem
    kept = _beside_all(run, asked) or _with_moves(asked) or _with_rails(run, asked)
    if kept is not None and (asked.firm or asked.holds):
        require_all(kept.arrangement)
    if kept is None or kept.arrangement.left_over:
        found = require_all(run.need(SEARCHED, asked.bare))
        bare = _without_seats(on_rows(problem, found), found)
        kept = keep_rails(problem.on(bare.space), bare.arrangement, rails=asked.rails)
        kept = replace(kept, seats=bare.seats)
    kept = _off_heat(asked, kept)
    if asked.aside:
        wall = problem.on(kept.space)
        beside = keep_rails(wall, kept.arrangement, rails=(), aside=asked.aside)
        kept = replace(beside, down=kept.down, seats=kept.seats)
    broken = conflicts(problem.on(kept.space), kept.arrangement)
    if broken:
        raise KernelError("the arrangement breaks its own rules: " + "; ".join(broken))
    return kept


def _off_heat(asked: ArrangingRequest, kept: KeptArrangement) -> KeptArrangement:
    """Return what is planned anew, hot things off what heat spoils as far as there are seats."""
    made = {place.key for place in (*asked.hanging, *asked.start.places)}
    may_move = {item.key for item in asked.problem.items} - made
    wall, before = asked.problem.on(kept.space), kept.arrangement
    seated = off_heat(wall, before.places, may_move=may_move, in_rows=before.in_rows)
    if seated.places == tuple(sorted(before.places, key=lambda one: one.key)):
        return kept
    return replace(kept_of(wall, seated), down=kept.down, seats=kept.seats)


def _beside_all(run: Run, asked: ArrangingRequest) -> KeptArrangement | None:
    """Return the wall as it was made with what is new beside it; None when that cannot be.

    When it cannot, only what hangs stays, and the rest is seated anew.
    """
    if asked.anew or not asked.start.places:
        return None
    if not _sound(asked.with_rails):
        return None
    for problem, start in asked.starts:
        run.go_on()
        stays = _standing(problem, start)
        laid = rows_behind(problem, stays) if problem.rule.rows else problem
        here = {place.key for place in stays}
        new = [item for item in laid.items if item.key not in here]
        seated = _seated(run, asked.search(laid), stays, new, asked.start.seats)
        if seated is not None:
            return kept_of(laid, seated)
    return None


def kept_of(problem: WallProblem, seated: Seated) -> KeptArrangement:
    """Return what is seated, without rows that carry nothing."""
    cleared = without_bare_rows(problem.on(seated.space), seated.places)
    found, laid = hung(cleared, seated.places), {one.strip for one in cleared.space.rows}
    whole = all(rail.stays or rail.strip in laid for rail in found.rails)
    return KeptArrangement(cleared.space, replace(found, in_rows=seated.in_rows and whole))


def _standing(problem: WallProblem, start: Sequence[Place]) -> tuple[Place, ...]:
    """Return the places of a start that can be together; those that are fixed first."""
    if not conflicts(_only(problem, start), hung(problem, start)):
        return tuple(start)
    stays: tuple[Place, ...] = ()
    for place in sorted(start, key=lambda one: problem.known[one.key].fixed is None):
        tried = (*stays, place)
        if not conflicts(_only(problem, tried), hung(problem, tried)):
            stays = tried
    return stays


def _only(problem: WallProblem, places: Sequence[Place]) -> WallProblem:
    return problem.having(problem.known[place.key] for place in places)


def _seated(
    run: Run,
    search: Search,
    stays: Sequence[Place],
    new: Sequence[Item],
    reserved: Sequence[ReservedSeat],
) -> Seated | None:
    """Return the places of all with what is new, which a search finds when it is much."""
    problem = search.problem
    in_rows = problem.rule.rows
    if len(new) <= MOST_ORDERED:
        return seats_beside(problem, stays, new, in_rows=in_rows, reserved=reserved)
    at = {place.key: (place.x_mm, place.z_mm) for place in stays}
    items = (replace(item, hangs_at=at.get(item.key)) for item in problem.items)
    pinned = problem.having(items).with_seats(())
    found = run.need(SEARCHED, replace(search, problem=pinned, moves="never"))
    places = {one.key: (one.x_mm, one.z_mm) for one in found.places}
    if found.left_over or any(places[key] != at[key] for key in at):
        return seats_beside(problem, stays, new, in_rows=in_rows, reserved=reserved)
    return Seated(on_rows(problem, found).space, found.places, found.in_rows)


def _with_moves(asked: ArrangingRequest) -> KeptArrangement | None:
    """Return the wall with one or two of the things that hang moved; None when that is no help."""
    problem, hanging = asked.with_rails, asked.hanging
    here = {place.key for place in hanging}
    new = [item for item in problem.items if item.key not in here]
    if asked.anew or asked.holds or not (asked.start.places and hanging):
        return None
    few = len(new) <= MOST_ORDERED
    if not few or not _sound(problem) or len(_standing(problem, hanging)) < len(hanging):
        return None
    seated = with_moves(problem, hanging, new, in_rows=problem.rule.rows)
    return None if seated is None else kept_of(problem, seated)


def _sound(problem: WallProblem) -> bool:
    """Return whether what has a given place can hang there beside the rails that hang."""
    try:
        check_problem(problem)
    except WallError:
        return False
    return True


def _with_rails(run: Run, asked: ArrangingRequest) -> KeptArrangement | None:
    """Return the arrangement with all rails of the ledger; None when it has none, or they clash.

    They clash when what has a given place cannot hang there beside them.
    """
    problem = asked.with_rails
    if not asked.rails or not _sound(problem):
        return None
    found = run.need(SEARCHED, asked.search(problem))
    return _without_seats(on_rows(problem, found), found)


def _without_seats(problem: WallProblem, found: Arrangement) -> KeptArrangement:
    """Return what a search found with its seats aside, and rails only for what hangs."""
    if not found.seats:
        return KeptArrangement(problem.space, found)
    cleared = without_bare_rows(problem, found.places)
    bare = hung(cleared, found.places)
    bare = replace(bare, left_over=found.left_over, in_rows=found.in_rows)
    return KeptArrangement(cleared.space, bare, seats=found.seats)


ARRANGED = Stage("arranged panel", arranged, content_key, codec=JsonCodec(KeptArrangement))
"""From a panel and what shall hang on it to where everything hangs, and which rails stay."""


def numbered_on(
    arrangement: Arrangement, *, after: int, made: Sequence[MadeRail] = ()
) -> Arrangement:
    """Return the arrangement with its new rails numbered on after ``after``.

    A new rail in the place of one that was ``made`` is that rail still.
    """
    rails = [rail if rail.stays else replace(rail, number=0) for rail in arrangement.rails]
    return replace(arrangement, rails=numbered(rails_made(made, rails), after=after))
