"""Looking for another arrangement of one wall, beside the one that there is.

Each try is a whole search with its own luck and is proven like any other; the best of those that
are finished is at hand at any time. What is found are places, and nothing is written.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from cleatwright.base.errors import DesignError, FaultError, InputError
from cleatwright.base.stages.run import Run
from cleatwright.jobs.placing import (
    PlannedWalls,
    freeing_changes,
    identity_of,
    movable,
    places_now,
    revision_with,
)
from cleatwright.project.revision import Revision
from cleatwright.project.walls import Request, hung_panels
from cleatwright.siting.giving_places import on_the_grid_together
from cleatwright.siting.hanging_up import Again
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.bound.bound import lower_bound
from cleatwright.wall.model import Place
from cleatwright.wall.weights import PREFERENCES, WEIGHTS, Wanted, Weights
from cleatwright.workshop.document.surfaces import RailLayout

DOING = "another arrangement"
MOST_TRIES = 40


@dataclass(frozen=True)
class Asked:
    """What is looked for.

    Args:
        panel: The panel on which.
        wanted: What counts for more than usual.
        tries: How many searches are made, >= 1.
        given_stays: Whether what has a given place keeps it.
        hung_moves: Whether what hangs already may move although all would find a place.
    """

    panel: str
    wanted: Wanted = "usual"
    tries: int = 12
    given_stays: bool = False
    hung_moves: bool = False

    @property
    def layout(self) -> RailLayout | None:
        """Return how rails are laid for what is looked for; None for as they are."""
        return PREFERENCES[self.wanted].layout


@dataclass(frozen=True)
class PlaceFound:
    """Where one thing would hang; it is known by the identities of its tools."""

    identity: tuple[str, ...]
    x_mm: float
    z_mm: float


@dataclass(frozen=True)
class FoundArrangement:
    """The best that was found so far.

    Args:
        asked: What was looked for.
        places: Where everything would hang that can have a place of its own.
        found_at: Which of the tries found it, from 1.
        tried: How many are finished.
        points: What it costs by what is looked for.
        bound: Usual points that no arrangement can undercut to which the same things are free.
    """

    asked: Asked
    places: tuple[PlaceFound, ...]
    found_at: int
    tried: int
    points: float
    bound: float


@dataclass(frozen=True)
class _Tried:
    panel: PanelJob
    number: int

    @property
    def rank(self) -> tuple[int, float, float]:
        """Return by what tries are sorted: what does not come out, room that lacks, points."""
        hits = [way for way in self.panel.ways if way.hit is not None]
        lacks = [hit.short_mm for way in self.panel.ways for hit in (way.hit, way.hand) if hit]
        return len(hits), sum(lacks), self.panel.arrangement.scores.total


def arrange_again(
    now: PlannedWalls,
    asked: Asked,
    *,
    run: Run,
    tell: Callable[[FoundArrangement], None] = lambda _: None,
) -> FoundArrangement:
    """Return the best of some further searches for one panel.

    Args:
        now: The document and its walls.
        asked: What is looked for.
        run: The run; it may be stopped between any two rounds.
        tell: Called after each try with the best so far.

    Raises:
        CleatwrightError: No try finds a place for everything; what would help is said.
        Cancelled: The run was stopped.
    """
    search = _Search.of(now, asked, run)
    best: _Tried | None = None
    wrong: InputError | DesignError | None = None
    found: FoundArrangement | None = None
    bound: float | None = None
    for number in range(1, asked.tries + 1):
        try:
            tried = search.tried(number, run.part(DOING, number - 1, of=asked.tries))
        except (InputError, DesignError) as error:
            wrong = error
            continue
        if bound is None:
            bound = lower_bound(tried.panel.problem.weighed(search.weights)).value
        if best is None or tried.rank < best.rank:
            best = tried
        found = search.found(best, tried=number, bound=bound)
        tell(found)
    if found is None:
        raise wrong or FaultError("no search was made")
    return found


@dataclass(frozen=True)
class _Search:
    """What every try is made of.

    Args:
        asked: What is looked for.
        revision: The workshop, without the given places that may be left.
        pinned: Where what can have no place of its own hangs now.
    """

    asked: Asked
    revision: Revision
    pinned: tuple[Place, ...]

    @classmethod
    def of(cls, now: PlannedWalls, asked: Asked, run: Run) -> _Search:
        """Return the search for another arrangement than that of now."""
        panel = now.panel(asked.panel)
        free = () if asked.given_stays else freeing_changes(now.workshop, panel.units)
        may, at = movable(now.workshop, panel.units), places_now(panel)
        return cls(
            asked=asked,
            revision=revision_with(now.changed(free), now.revision.path, run),
            pinned=tuple(at[key] for key in sorted(at) if key not in may),
        )

    @property
    def weights(self) -> Weights:
        """Return the weights of a bound for all tries; which rails that hang stay may differ."""
        free = self.asked.hung_moves and self.revision.hung.rails
        return replace(WEIGHTS, rail=0.0, rail_length=0.0) if free else WEIGHTS

    def tried(self, seed: int, run: Run) -> _Tried:
        """Return what comes of one try."""
        asked = self.asked
        again = Again(asked.panel, seed=seed, wanted=asked.wanted, pinned=self.pinned)
        request = Request(afresh=asked.hung_moves, again=again)
        return _Tried(searched(self.revision, request, run), seed)

    def found(self, best: _Tried, *, tried: int, bound: float) -> FoundArrangement:
        """Return the best try as what was found."""
        places, still = best.panel.arrangement.places, {one.key for one in self.pinned}
        if best.panel.setting.units == "in":
            places = on_the_grid_together(best.panel.problem, places)
        at = {place.key: place for place in places}
        return FoundArrangement(
            asked=self.asked,
            places=tuple(
                PlaceFound(identity_of(unit), at[unit.planned.key].x_mm, at[unit.planned.key].z_mm)
                for unit in best.panel.units
                if unit.planned.key not in still
            ),
            found_at=best.number,
            tried=tried,
            points=best.panel.arrangement.scores.total,
            bound=bound,
        )


def searched(revision: Revision, request: Request, run: Run) -> PanelJob:
    """Return the panel of a further search; those behind it are not arranged for it.

    Raises:
        CleatwrightError: Something finds no place.
    """
    wanted = request.again.panel if request.again else ""
    for panel in hung_panels((revision, request), run):
        if panel.panel.name == wanted:
            return panel
    raise FaultError(f'there is no panel "{wanted}"')
