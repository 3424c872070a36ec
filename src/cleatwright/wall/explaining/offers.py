"""The kinds of change that may give a place to a holder that is left over, each one proven.

An offer is made only for those for whom the changed wall was arranged without a conflict, while
nobody else lost a place. Where a thing can be tried in many ways, those come first for which
the wall as it hangs has room already.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import combinations, islice

from cleatwright.base import said
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.units import length_mm
from cleatwright.base.written import place_line, written_exactly, written_within
from cleatwright.wall.explaining.insertion import Standing, first_sound, free_places, heights
from cleatwright.wall.explaining.trials import Trials
from cleatwright.wall.explaining.typed import Typing
from cleatwright.wall.model import Item, Place, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import COUNT_SLACK

FINER = (2, 5)
GRID_MM = 10.0
# so many places of the wall as it hangs are looked at for one more
MOST_SPOTS = 6
MOST_HAND_SPOTS = 24
MOST_SINGLES, MOST_PAIRED = 40, 12
# changes that are arranged though the wall as it hangs has no room after them
MOST_BLIND = 4
USES = ("seldom", "weekly", "daily")
# how much it changes to leave one out, by its use, and two; a larger wall lies between
SINGLE_SIZES, PAIR_SIZE = (5, 7, 8), 9


Change = Callable[[WallProblem], WallProblem]
"""Changes a wall and what shall hang on it."""


@dataclass(frozen=True)
class Offer:
    """A change that was found to work.

    Args:
        size: How much it changes; the least comes first.
        words: The change, to follow the words "It finds a place with".
        helped: The keys of those that find a place after a short search.
        proof: Returns the keys of those that do after a search as long as that of the person.
        change: Changes a wall so; of a move to another panel what is left of this one.
        family: Of one family only the smallest change is told to each; "" for none.
        moved: The other panel to which something is moved, and its key; None for no move.
    """

    size: tuple[int, float, str]
    words: str
    helped: frozenset[str]
    proof: Callable[[], frozenset[str]]
    change: Change
    family: str = ""
    moved: tuple[str, str] | None = None


@dataclass(frozen=True)
class Variant:
    """An item as another wish of its owner would have it.

    Args:
        words: The wish, to follow the words "It finds a place with".
        item: The item, with the key that it has.
        family: Of one family only the first that helps is told.
    """

    words: str
    item: Item
    family: str


@dataclass(frozen=True)
class Means:
    """What a change may use, and how a place is written.

    Args:
        others: Other panels by name, with their rails and all that hangs on them.
        unit: The unit of the document.
        tables: By the key of each item that can be given a place the table of the document in
            which it stands, with its article; None where every item has one of its own.
        variants: By the key of an item what it would be with other wishes of its owner.
    """

    others: Mapping[str, WallProblem] = field(default_factory=dict[str, WallProblem])
    unit: LengthUnit = "mm"
    tables: Mapping[str, str] | None = None
    variants: Mapping[str, tuple[Variant, ...]] = field(
        default_factory=dict[str, tuple[Variant, ...]]
    )

    def table(self, key: str) -> str | None:
        """Return the table of an item; None when it cannot be given a place."""
        return f'the table of "{key}"' if self.tables is None else self.tables.get(key)


@dataclass(frozen=True)
class Ask:
    """What is asked: the wall as it hangs, and how far to search.

    Args:
        problem: The wall and all items, those without a place too.
        places: Where the others hang.
        trials: How a changed wall is arranged.
        tries: How many ways of one kind are tried at most, > 0.
        means: What a change may use, and how a place is written.
        wanted: The keys of those that are not left out for others: they waited themselves before.
        tried: The offers of changes that were tried before, by their words.
    """

    problem: WallProblem
    places: tuple[Place, ...]
    trials: Trials
    tries: int
    means: Means
    wanted: frozenset[str] = frozenset()
    tried: dict[str, tuple[Offer, ...]] = field(
        default_factory=dict[str, tuple[Offer, ...]], compare=False, repr=False
    )

    @property
    def wall(self) -> Standing:
        """Return the wall as it hangs."""
        return Standing(self.problem, self.places)

    def item(self, key: str) -> Item:
        """Return the item of a key."""
        return self.problem.known[key]

    def offer(
        self, kind: int, much: float, words: str, *, change: Change, family: str = ""
    ) -> Iterator[Offer]:
        """Yield the offer when somebody who waits finds a place on the changed wall."""
        if words not in self.tried:
            case = change(self.problem)
            helped = self.trials.helped(case)
            proof = partial(self.trials.helped, case, full=True)
            offer = Offer((kind, much, words), words, helped, proof, change, family)
            self.tried[words] = (offer,) if helped else ()
        yield from self.tried[words]


def by_hand(ask: Ask, key: str) -> Iterator[Offer]:
    """Yield a place between the regular heights, where the item touches what is there."""
    s, item = ask.wall, ask.item(key)
    band = ask.problem.band_of(item)
    spots = sorted(
        free_places(s, item, z_mm=heights(s, item, edges=True)),
        key=lambda p: (
            band.distance_mm(p.z_mm + s.space.floor_gap_mm + item.hand_up_mm),
            -p.z_mm,
            p.x_mm,
        ),
    )
    table, typing = ask.means.table(key), Typing(ask.means.unit)
    if table is None:
        return
    typed = (typing.free(s, item, place) for place in islice(spots, MOST_HAND_SPOTS))
    sound = (place for place in typed if place is not None)
    for place in islice(sound, MOST_BLIND):
        x, z = (written_exactly(at, ask.means.unit) for at in (place.x_mm, place.z_mm))
        words = f"{place_line(x, z)} in {table}"
        offers = list(_given(ask, place, words, size=(0, 0.0)))
        yield from offers
        if offers:
            return


def between_steps(ask: Ask) -> Iterator[Offer]:
    """Yield places that items get where rails may lie between the regular heights.

    The coarser steps come first. All else then finds its place by itself, at regular heights.
    """
    for part in FINER:
        rule = replace(ask.problem.rule, step_mm=ask.problem.rule.step_mm / part)
        found = ask.trials.arranged(replace(ask.problem, rule=rule))
        places = found.places if found is not None else ()
        for place in places:
            line = _line(ask, place) if place.key in ask.trials.waiting else None
            if line is not None:
                yield from _given(ask, *line, size=(1, float(part)))


def _line(ask: Ask, place: Place) -> tuple[Place, str] | None:
    """Return a place as it reads once it is written, and what is written in words.

    None where the document has no room for it.
    """
    table = ask.means.table(place.key)
    if table is None:
        return None
    item, space, unit = ask.item(place.key), ask.problem.space, ask.means.unit
    x = written_within(
        place.x_mm,
        item.side_left_mm,
        space.width_mm - item.width_mm - item.side_right_mm,
        unit=unit,
    )
    z = written_within(place.z_mm, item.down_mm, space.height_mm - item.up_mm, unit=unit)
    return Place(place.key, length_mm(x), length_mm(z)), f"{place_line(x, z)} in {table}"


def _given(ask: Ask, place: Place, words: str, *, size: tuple[int, float]) -> Iterator[Offer]:
    """Yield the offer of a place when the item itself hangs there and nobody else loses one."""
    change = _fixed_at(place.key, (place.x_mm, place.z_mm))
    for offer in ask.offer(*size, words, change=change, family="place"):
        if place.key in offer.helped:
            yield replace(offer, helped=frozenset((place.key,)))


def _fixed_at(key: str, place: tuple[float, float] | None) -> Change:
    """Return the change that gives an item a place, or takes it from it."""
    return lambda wall: wall.changed(replace(wall.known[key], fixed=place))


def _without_keys(keys: Collection[str]) -> Change:
    return lambda wall: wall.having(one for one in wall.items if one.key not in keys)


def panels(ask: Ask, key: str) -> Iterator[Offer]:
    """Yield each other panel on which the item finds a place beside all that hangs there."""
    for name in sorted(ask.means.others):
        case = moved_to(ask, name, (key,))
        if ask.trials.all_hang(case):
            words = f'a move to the panel "{name}"'
            yield Offer(
                (2, 0.0, words),
                words,
                frozenset((key,)),
                _moved(ask, key, case),
                _without_keys((key,)),
                moved=(name, key),
            )


def moved_to(ask: Ask, name: str, keys: Iterable[str]) -> WallProblem:
    """Return another panel with some items of this one beside all that hangs there."""
    there = ask.means.others[name]
    free = (replace(ask.item(key), fixed=None, hangs_at=None) for key in keys)
    return replace(there, items=(*there.items, *free), band=ask.problem.band)


def _moved(ask: Ask, key: str, case: WallProblem) -> Callable[[], frozenset[str]]:
    return lambda: frozenset((key,) if ask.trials.all_hang(case, full=True) else ())


def other_wishes(ask: Ask, key: str) -> Iterator[Offer]:
    """Yield each other wish of its owner with which the item finds a place."""
    for number, one in enumerate(ask.means.variants.get(key, ())):
        for offer in ask.offer(
            2, 1.0 + number, one.words, change=_other(one.item), family=one.family
        ):
            if key in offer.helped:
                yield replace(offer, helped=frozenset((key,)))


def _other(item: Item) -> Change:
    return lambda wall: wall.changed(item)


def begun_lower(ask: Ask, keys: Sequence[str]) -> Iterator[Offer]:
    """Yield by how much lower the wall may begin, in whole steps of its rail heights.

    Its upper edge stays. Where rows of screws keep off the joints of bricks this is not tried.
    """
    space, step_mm = ask.problem.space, ask.problem.rule.step_mm
    most = int(space.floor_gap_mm / step_mm + COUNT_SLACK)
    if most < 1 or (space.all_over is not None and space.all_over.courses is not None):
        return

    def look(count: int) -> Iterator[Offer]:
        if count > most:
            return
        more_mm = count * step_mm
        words = (
            f"the wall begun {said.mm(more_mm)} lower (floor_gap "
            f"{said.mm(space.floor_gap_mm - more_mm)}, height "
            f"{said.mm(space.height_mm + more_mm)}, each z on it {said.mm(more_mm)} more)"
        )

        def change(wall: WallProblem) -> WallProblem:
            return _begun_lower(wall, more_mm)

        yield from ask.offer(6, more_mm, words, change=change, family="lower")

    yield from _smallest(ask, dict.fromkeys(keys, (0, most, most)), look)


def _begun_lower(problem: WallProblem, more_mm: float) -> WallProblem:
    """Return the same wall and all that is on it, told from a lower edge further down."""

    def up(at: tuple[float, float] | None) -> tuple[float, float] | None:
        return None if at is None else (at[0], at[1] + more_mm)

    def raised(item: Item) -> Item:
        bounds = replace(
            item.bounds,
            lowest_mm=item.bounds.lowest_mm + more_mm,
            highest_mm=item.bounds.highest_mm + more_mm,
        )
        return replace(item, fixed=up(item.fixed), hangs_at=up(item.hangs_at), bounds=bounds)

    return problem.having(raised(one) for one in problem.items).on(
        begun_lower_space(problem.space, more_mm)
    )


def begun_lower_space(space: WallSpace, more_mm: float) -> WallSpace:
    """Return the same wall told from a lower edge further down; its bench stays where it is.

    Args:
        space: The wall.
        more_mm: How much further down, at most its height above the floor.
    """
    bare = space.without_bench()

    def risen(rail: Rail) -> Rail:
        return replace(rail, z_top_mm=rail.z_top_mm + more_mm)

    return replace(
        bare,
        height_mm=bare.height_mm + more_mm,
        floor_gap_mm=bare.floor_gap_mm - more_mm,
        obstacles=tuple(replace(one, z_mm=one.z_mm + more_mm) for one in bare.obstacles),
        kept_rails=tuple(risen(one) for one in bare.kept_rails),
        rows=tuple(risen(one) for one in bare.rows),
    ).with_bench()


def any_order(ask: Ask) -> Iterator[Offer]:
    """Yield each group that would lose its order from left to right."""
    ranked = [item.group for item in ask.problem.items if item.group and item.rank is not None]
    for group in sorted({group for group in ranked if ranked.count(group) > 1})[: ask.tries]:
        words = f'the group "{group}" in any order'
        yield from ask.offer(3, 0.0, words, change=_unordered(group))


def _unordered(group: str) -> Change:
    return lambda wall: wall.having(
        replace(one, rank=None) if one.group == group else one for one in wall.items
    )


def freed(ask: Ask, key: str) -> Iterator[Offer]:
    """Yield each fixed place that may be given up, those with room for the item first."""
    item, s = ask.item(key), ask.wall
    fixed = [one for one in ask.problem.items if one.fixed is not None and one.key in s.items]
    roomy = [one for one in fixed if _has_room(s.without(one.key), item)]
    rest = [one for one in fixed if one not in roomy]
    for one in (*roomy[: ask.tries], *rest[:MOST_BLIND]):
        words = f'the place of "{one.key}" no longer fixed'
        change = _fixed_at(one.key, None)
        yield from ask.offer(4, _area(one), words, change=change, family="freed")


def left_out(ask: Ask, key: str) -> Iterator[Offer]:
    """Yield one other item to leave out, or else two; the least used and smallest first."""
    item, s = ask.item(key), ask.wall
    others = (one for one in s.items.values() if one.key not in ask.wanted)
    pool = sorted(others, key=lambda one: _missed((one,)))
    singles = [(one,) for one in pool[:MOST_SINGLES]]
    pairs = sorted(combinations(pool[:MOST_PAIRED], 2), key=_missed)
    for sets in (singles, pairs):
        roomy = [out for out in sets if _has_room(s.without(*(o.key for o in out)), item)]
        # where nothing fits as it hangs, the largest may still make room for a new order
        large = sorted(sets, key=lambda out: -sum(_area(one) for one in out))
        tried = roomy[: ask.tries] or large[:MOST_BLIND]
        found = [offer for out in tried for offer in _without(ask, out)]
        yield from found
        if any(key in offer.helped for offer in found):
            return


def _missed(out: Sequence[Item]) -> tuple[int, float, tuple[str, ...]]:
    """Return how much some items are missed: first the most used of them, then their size."""
    use = max(USES.index(one.use) for one in out)
    return use, sum(_area(one) for one in out), tuple(one.key for one in out)


def _without(ask: Ask, out: Sequence[Item]) -> Iterator[Offer]:
    keys = [one.key for one in out]
    use, much, _ = _missed(out)
    kind = PAIR_SIZE + use if len(out) > 1 else SINGLE_SIZES[use]
    words = " and ".join(f'"{key}"' for key in keys) + " left out"
    yield from ask.offer(kind, much, words, change=_without_keys(keys), family="left out")


def larger(ask: Ask, keys: Sequence[str], *, wide: bool) -> Iterator[Offer]:
    """Yield how much wider, or else higher, the wall may be, from the least growth up.

    The smallest growth for each of the keys in steps of 10 mm is looked for by halving.
    """
    space = ask.problem.space
    now_mm = space.width_mm if wide else space.height_mm

    def look(count: int) -> Iterator[Offer]:
        more_mm = count * GRID_MM
        side, key_of = ("wider", "width") if wide else ("higher", "height")
        words = (
            f"a wall {said.mm(more_mm)} {side} ({key_of} at least {said.least(now_mm + more_mm)}"
            f"{', and the studs there' if wide and space.studs else ''})"
        )

        def change(wall: WallProblem) -> WallProblem:
            return wall.on(grown(wall.space, more_mm, wide=wide))

        yield from ask.offer(6, more_mm, words, change=change, family=side)

    last = _shelved(ask, wide=wide)
    bounds = {key: (*_bounds(ask, ask.item(key), wide=wide), last) for key in keys}
    yield from _smallest(ask, bounds, look)


def _smallest(
    ask: Ask, bounds: Mapping[str, tuple[int, int, int]], look: Callable[[int], Iterable[Offer]]
) -> Iterator[Offer]:
    """Yield all offers that were tried to find the smallest that helps each of some items.

    Args:
        ask: What is asked.
        bounds: By the key of each item the counts between which it is looked for.
        look: Gives the offers of a count.
    """
    seen: dict[int, tuple[Offer, ...]] = {}

    def helps(key: str, count: int) -> bool:
        if count not in seen:
            seen[count] = tuple(look(count))
        return _helps(key, seen[count])

    for key, between in bounds.items():
        _halve(partial(helps, key), between, tries=ask.tries)
    _smallest_for_all(ask, bounds, seen, look)
    for count in sorted(seen):
        yield from seen[count]


def _smallest_for_all(
    ask: Ask,
    bounds: Mapping[str, tuple[int, int, int]],
    seen: dict[int, tuple[Offer, ...]],
    look: Callable[[int], Iterable[Offer]],
) -> None:
    """Look for the smallest count that helps all who wait, where each is helped by one.

    Args:
        ask: What is asked.
        bounds: As for ``_smallest``.
        seen: The offers of each count that was tried; those that are tried now are added.
        look: Gives the offers of a count.
    """
    waiting = ask.trials.waiting
    least = [
        min((count for count, found in seen.items() if _helps(key, found)), default=None)
        for key in bounds
    ]
    known = [count for count in least if count is not None]
    if len(waiting) < 2 or len(known) < len(least):
        return

    def helps_all(count: int) -> bool:
        if count not in seen:
            seen[count] = tuple(look(count))
        return any(one.helped >= waiting for one in seen[count])

    low = max(count for count in (*known, 0) if count == 0 or not helps_all(count))
    high = min((count for count in seen if helps_all(count)), default=max(seen) + 1)
    _halve(helps_all, (low, high, max(last for _, _, last in bounds.values())), tries=ask.tries)


def _helps(key: str, found: Iterable[Offer]) -> bool:
    return any(key in one.helped for one in found)


def _halve(good: Callable[[int], bool], bounds: tuple[int, int, int], *, tries: int) -> None:
    """Look for the smallest good count, by at most ``tries`` halvings.

    Args:
        good: Whether a count is good; it remembers what it was asked.
        bounds: A count at which none can be good, one that may be, and a last one to try.
        tries: Halvings, > 0.
    """
    low, high, last = bounds
    if not good(high):
        low, high = high, max(last, high + 1)
        if not good(high):
            return
    for _ in range(tries):
        if high - low <= 1:
            return
        middle = (low + high) // 2
        low, high = (low, middle) if good(middle) else (middle, high)


def _shelved(ask: Ask, *, wide: bool) -> int:
    """Return the growth at which all that wait hang in a row of their own, in steps of 10 mm.

    As many rows above each other as the width of the wall asks for, when it grows in height.
    """
    space, rule = ask.problem.space, ask.problem.rule
    waiting = [ask.item(key) for key in sorted(ask.trials.waiting)]
    more_mm = sum(item.whole_width_mm for item in waiting)
    if not wide:
        rows = math.ceil(more_mm / space.width_mm) + 1
        deep = max(max(item.down_mm, item.rail_depth_mm) for item in waiting)
        row_mm = max(item.up_mm for item in waiting) + deep
        more_mm = rows * (row_mm + rule.height_mm + rule.min_gap_mm + rule.step_mm)
    return math.ceil(more_mm / GRID_MM)


def grown(space: WallSpace, more_mm: float, *, wide: bool) -> WallSpace:
    """Return a wall that is wider, or else higher, by so much; its bench is before all of it."""
    bare = space.without_bench()
    if wide:
        return replace(bare, width_mm=space.width_mm + more_mm).with_bench()
    return replace(bare, height_mm=space.height_mm + more_mm).with_bench()


def _bounds(ask: Ask, item: Item, *, wide: bool) -> tuple[int, int]:
    """Return the last growth that cannot be enough, and one that is when all others stay.

    Both in steps of 10 mm.
    """
    space, rule = ask.problem.space, ask.problem.rule
    deep_mm = max(item.down_mm, item.rail_depth_mm if item.on_rail else 0.0)
    size_mm = item.whole_width_mm if wide else item.up_mm + deep_mm
    now_mm = space.width_mm if wide else space.height_mm
    room_mm = size_mm + rule.height_mm + rule.min_gap_mm + rule.step_mm
    s = ask.wall
    vast = replace(s, problem=ask.problem.on(grown(space, room_mm, wide=wide)))

    def needed(place: Place) -> float:
        if wide:
            return place.x_mm + item.width_mm + item.side_right_mm
        return place.z_mm + max(item.up_mm, rule.edge_above_mm if item.on_rail else 0.0)

    spots = sorted(free_places(vast, item), key=lambda p: (needed(p), p.z_mm, p.x_mm))
    place = first_sound(vast, item, spots, most=MOST_SPOTS)
    low = max(0, math.ceil((size_mm - now_mm) / GRID_MM - COUNT_SLACK) - 1)
    most = room_mm if place is None else max(needed(place) - now_mm, GRID_MM)
    return low, max(low + 1, math.ceil(most / GRID_MM - COUNT_SLACK))


def _has_room(s: Standing, item: Item) -> bool:
    return first_sound(s, item, free_places(s, item), most=MOST_SPOTS) is not None


def _area(item: Item) -> float:
    return item.whole_width_mm * (item.up_mm + item.down_mm)
