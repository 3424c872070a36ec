"""What is looked at before anything is arranged."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import WallError
from cleatwright.base.place import InDocument, Path, TableStep, at
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.model import Arrangement, Item, Place, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import as_drawn, cut_rails
from cleatwright.wall.studs import LEAST_END_MM, reaches_of

MOST_SENTENCES = 3


def of_items(keys: Iterable[str], *beside: Path) -> InDocument:
    """Return the place of items by their keys, for whoever knows where these are written.

    Args:
        keys: The keys of the items.
        beside: Measures of the wall that may be the wrong ones.
    """
    return InDocument((*((TableStep(None, key),) for key in keys), *beside), spoken="table")


def check_problem(problem: WallProblem) -> None:
    """Refuse what nobody can arrange.

    Raises:
        WallError: An obstacle or a rail that stays lies outside the wall, no rail can meet two
            studs, two items have one key, or the fixed places cannot be together.
    """
    _check_obstacles(problem.space)
    _check_kept(problem)
    _check_keys(problem.items)
    _check_studs(problem)
    _check_fixed(problem)


def _check_kept(problem: WallProblem) -> None:
    """Refuse rails that hang already where the wall has no room for them."""
    space = replace(problem.space, rows=())
    wrong = conflicts(problem.having(()).on(space), Arrangement((), space.kept_rails))
    if wrong:
        raise WallError(
            "The rails that hang already cannot be as they are described. " + " ".join(wrong),
            place=at("rail", spoken="table"),
            todo="Measure them again from the lower left corner of the wall",
        )


def _check_keys(items: Sequence[Item]) -> None:
    keys = Counter(item.key for item in items)
    for key in keys:
        if keys[key] > 1:
            raise WallError(f'two holders have the key "{key}"')


def _check_obstacles(space: WallSpace) -> None:
    for box in space.obstacles:
        if (
            min(box.x_mm, box.z_mm) < 0.0
            or box.right_mm > space.width_mm
            or box.top_mm > space.height_mm
        ):
            raise WallError(
                f'The obstacle "{box.name}" reaches from x {said.number(box.x_mm)}, '
                f"z {said.number(box.z_mm)} to x {said.number(box.right_mm)}, "
                f"z {said.mm(box.top_mm)}",
                place=at("obstacle", spoken="table"),
                allowed=f"within {said.number(space.width_mm)} × {said.mm(space.height_mm)}",
                todo="Give its place from the lower left corner of the wall",
            )


def _check_fixed(problem: WallProblem) -> None:
    fixed = [item for item in problem.items if item.fixed]
    alone = problem.having(fixed)
    places = tuple(Place(i.key, *i.fixed) for i in fixed if i.fixed)
    tried = as_drawn(cut_rails(alone, places), problem.space.kept_rails)
    wrong = conflicts(alone, Arrangement(places, tried))
    if wrong:
        raise WallError(
            "The fixed places cannot be kept. " + " ".join(first_of(wrong)),
            place=of_items(item.key for item in fixed),
            todo="Move or free one of them",
        )


def first_of(sentences: Sequence[str]) -> Iterator[str]:
    """Yield a few sentences of what is at odds, and how many more there are."""
    yield from sentences[:MOST_SENTENCES]
    more = len(sentences) - MOST_SENTENCES
    if more > 0:
        yield f"{more} more such {'conflict' if more == 1 else 'conflicts'} would follow."


def _check_studs(problem: WallProblem) -> None:
    """Refuse studs of which no rail can meet two, however long it is."""
    space = problem.space
    wanted = space.studs and any(item.on_rail for item in problem.items)
    within = reaches_of(space.studs, wall_mm=space.width_mm)
    if wanted and len(within) < PLACES_A_RAIL:
        given = said.row(stud.x_mm for stud in space.studs)
        raise WallError(
            f"No rail can meet two studs: those at {given} leave {len(within)} "
            f"whose screws are at least {said.least(LEAST_END_MM)} away from the ends of the wall",
            place=InDocument((("stud",), ("width",)), spoken="table"),
            allowed="at least two studs, or another made_of where the wall takes screws everywhere",
            todo="Give the x of every stud, or screw a board across two studs first",
        )
