"""Which of the rules keeps an item off the wall, found by leaving out one after the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.base import said
from cleatwright.wall.arrange import reason, unsafe
from cleatwright.wall.explaining.insertion import Standing, free_places, heights
from cleatwright.wall.model import ANY_HEIGHT, ANYWHERE_ALONG, Item, Place, WallSpace
from cleatwright.wall.problem import WallProblem

Cause = Literal[
    "width", "height", "bounds", "along", "rail", "step", "heat", "obstacles", "fixed", "others"
]


@dataclass(frozen=True)
class BindingConstraint:
    """The first rule for which an item finds no place.

    Args:
        cause: "width" and "height" of the wall, "bounds" of a safe height, where "along" the wall
            it is wanted, no "rail" on a wall so low, the "step" of the rail heights, the "heat" of
            an obstacle, the "obstacles" and rails that stay, the holders with "fixed" places, or
            the "others" all together.
        blockers: The keys of fixed holders, or the names of obstacles and rails that stay, of
            which each alone would make room by going away.
        sentence: The same in words.
    """

    cause: Cause
    blockers: tuple[str, ...]
    sentence: str


def binding_constraint(problem: WallProblem, *, key: str) -> BindingConstraint:
    """Return which rule keeps the item of a key off the wall."""
    space, item = problem.space, problem.known[key]
    words = reason(problem, item)
    bare = Standing(problem.on(replace(space, obstacles=(), kept_rails=())))
    alone = Standing(problem)
    fixed = [other for other in problem.items if other.fixed is not None and other.key != key]
    beside = Standing(problem, tuple(Place(i.key, *i.fixed) for i in fixed if i.fixed))
    if item.whole_width_mm > space.width_mm:
        return BindingConstraint("width", (), words)
    if item.up_mm + item.down_mm > space.height_mm:
        return BindingConstraint("height", (), words)
    if not _fits(bare, item):
        return _bare_constraint(bare, item, words)
    if not _fits(alone, item):
        return _alone_constraint(alone, item)
    if not _fits(beside, item):
        keys = tuple(other.key for other in fixed if _fits(beside.without(other.key), item))
        return BindingConstraint(
            "fixed",
            keys,
            f'"{item.key}" finds no free place beside those whose places are fixed{_listed(keys)}.',
        )
    return BindingConstraint("others", (), f'"{item.key}" finds no free place beside the others.')


def hopeless(problem: WallProblem) -> frozenset[str]:
    """Return the keys of items that find no place even alone with what has a given one."""
    given = tuple(Place(one.key, *one.fixed) for one in problem.items if one.fixed)
    beside = Standing(problem, given)
    return frozenset(
        one.key for one in problem.items if one.fixed is None and not _fits(beside, one)
    )


def _bare_constraint(bare: Standing, item: Item, words: str) -> BindingConstraint:
    """Return what binds on a wall without obstacles."""
    if _fits(bare, replace(item, bounds=ANY_HEIGHT)):
        return BindingConstraint("bounds", (), unsafe(item))
    if _fits(bare, replace(item, along=ANYWHERE_ALONG)):
        return BindingConstraint("along", (), _beside_words(item))
    if _fits(bare, item, edges=True):
        return BindingConstraint("step", (), _step_words(bare, item))
    depth = max(item.down_mm, item.rail_depth_mm)
    if item.on_rail and item.up_mm + depth > bare.space.height_mm:
        words = (
            f'"{item.key}" needs {said.mm(item.up_mm + depth)} of height with where it bears on '
            "its "
            f"rail, and the wall is {said.mm(bare.space.height_mm)} high."
        )
        return BindingConstraint("height", (), words)
    return BindingConstraint(
        "rail", (), f'"{item.key}" hangs on a rail, and no rail fits at a height for it.'
    )


def _alone_constraint(alone: Standing, item: Item) -> BindingConstraint:
    """Return what binds when the item is alone among obstacles and rails that stay."""
    if item.keep_cool and _fits(alone, replace(item, keep_cool=False)):
        return BindingConstraint(
            "heat",
            tuple(box.name for box in alone.space.obstacles if box.heat_mm > 0.0),
            f'"{item.key}" must stay cool, and the heat leaves it no place even alone on the wall.',
        )
    if _fits(alone, replace(item, bounds=ANY_HEIGHT)):
        return BindingConstraint("bounds", (), unsafe(item))
    if _fits(alone, replace(item, along=ANYWHERE_ALONG)):
        return BindingConstraint("along", (), _beside_words(item))
    if _fits(alone, item, edges=True):
        return BindingConstraint("step", (), _step_words(alone, item))
    blockers = tuple(
        named
        for named, less in _without_one(alone.space)
        if _fits(Standing(alone.problem.on(less)), item)
    )
    return BindingConstraint(
        "obstacles",
        blockers,
        f'"{item.key}" finds no place between the obstacles and the rails that stay even alone '
        f"on the wall{_listed(blockers)}.",
    )


def _without_one(space: WallSpace) -> Iterator[tuple[str, WallSpace]]:
    for box in space.obstacles:
        yield box.name, replace(space, obstacles=tuple(b for b in space.obstacles if b != box))
    for rail in space.kept_rails:
        yield rail.name, replace(space, kept_rails=tuple(r for r in space.kept_rails if r != rail))


def _fits(s: Standing, item: Item, *, edges: bool = False) -> bool:
    """Return whether the item finds any place while all that stands stays."""
    z_mm = heights(s, item, edges=edges)
    return any(not s.broken_by(item, place) for place in free_places(s, item, z_mm=z_mm))


def _beside_words(item: Item) -> str:
    return f'"{item.key}" finds no place where it may hang: {"; ".join(item.along.words)}.'


def _step_words(s: Standing, item: Item) -> str:
    return (
        f'"{item.key}" finds no place at a rail height in steps of {said.mm(s.rule.step_mm)}, '
        "but it would at one between them."
    )


def _listed(names: Sequence[str]) -> str:
    """Return the names that make room by themselves, as the end of a sentence."""
    if not names:
        return ""
    return "; it would without " + " or without ".join(f'"{name}"' for name in names)
