"""Holders keep their numbers, tools and families while other things come, go and change.

The oracle of identity is the list itself: the test knows which tool is which, whatever its name.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from tests.few import few

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.planned import Earlier, PlannedHolder, last_made
from cleatwright.design.planning import plan
from cleatwright.workshop.document.store import checked
from cleatwright.workshop.ledger.last_made import LastMade

HEAD = """schema = 1
name = "List"
units = "mm"

[wall]
width = 3000
height = 2000

[printer.p]
bed = [180, 180, 180]
hole_correction = {correction}

[filament.f]
material = "PETG"
density = 1270
"""
MEASURES: dict[str, Callable[[float], str]] = {
    "screwdriver": lambda mm: (
        f"shank = {mm / 5:.1f}, shank_length = {60 + 2 * mm:.1f}, handle = {mm:.1f}, "
        f"handle_length = {3 * mm:.1f}"
    ),
    "box": lambda mm: f"width = {3 * mm:.1f}, depth = 40, height = 30",
    "can": lambda mm: f"diameter = {2 * mm:.1f}, height = 120",
}
GROUPS = ("", "left", "right")


@dataclass(frozen=True)
class Row:
    """One tool of the list; ``truly`` is who it is, which the program never sees."""

    truly: int
    name: str
    kind: str
    size_mm: float
    group: str = ""

    @property
    def text(self) -> str:
        """Return its table."""
        group = f'group = "{self.group}"\n' if self.group else ""
        return (
            f'\n[[tool]]\nname = "{self.name}"\nkind = "{self.kind}"\n{group}'
            f"measures = {{ {MEASURES[self.kind](self.size_mm)} }}\n"
        )


@dataclass(frozen=True)
class Listed:
    """A list of tools, and how the printer's holes are corrected."""

    rows: tuple[Row, ...]
    correction_mm: float = 0.1

    @property
    def text(self) -> str:
        """Return the document."""
        return HEAD.format(correction=self.correction_mm) + "".join(r.text for r in self.rows)

    def planned(self, made: LastMade, store: Store, *, hangs: bool = True) -> list[PlannedHolder]:
        """Return the holders that are planned for it."""
        earlier = Earlier(made, hangs=hangs)
        return list(plan(checked(self.text), earlier=earlier, run=Run(store)))

    def truly(self, holder: PlannedHolder) -> frozenset[Row]:
        """Return who is in a holder, with their measures and groups, whatever their names."""
        names = {row.name: row for row in self.rows}
        return frozenset(replace(names[tool.name], name="") for tool in holder.tools)

    def numbers(self, holders: list[PlannedHolder]) -> dict[frozenset[Row], int]:
        """Return the number of each holder by who is in it."""
        return {self.truly(holder): holder.number for holder in holders}


def drawn(seed: int) -> random.Random:
    return random.Random(seed)  # noqa: S311 - no secret


def row(truly: int, chance: random.Random) -> Row:
    kind = chance.choice(list(MEASURES))
    size = round(chance.uniform(20.0, 34.0), 1)
    return Row(truly, f"Thing {truly}", kind, size, chance.choice(GROUPS))


def changed(listed: Listed, chance: random.Random) -> Listed:
    """Return a list after one edit of a person."""
    rows = list(listed.rows)
    k = chance.randrange(len(rows))
    new = 1 + max(one.truly for one in rows)
    match chance.choice(["add", "remove", "rename", "reorder", "measure", "regroup", "hole"]):
        case "add":
            rows.insert(k, row(new, chance))
        case "remove" if len(rows) > 2:
            rows.pop(k)
        case "rename":
            rows[k] = replace(rows[k], name=f"{rows[k].name}, {chance.randrange(10**6)}")
        case "reorder":
            chance.shuffle(rows)
        case "measure":
            rows[k] = replace(rows[k], size_mm=round(rows[k].size_mm * chance.uniform(0.9, 1.1), 1))
        case "regroup":
            rows[k] = replace(rows[k], group=chance.choice(GROUPS))
        case _:
            return replace(listed, correction_mm=chance.choice([0.1, 0.15, 0.2]))
    return replace(listed, rows=tuple(rows))


def test_holders_that_nothing_happened_to_keep_their_numbers() -> None:
    """Of all that have the same tools as before, at least 99.5 % have their number."""
    chance, store = drawn(5), Store()
    same = kept = 0
    for _ in range(12):
        listed, made = Listed(tuple(row(k, chance) for k in range(18))), LastMade()
        before = listed.planned(made, store)
        for _ in range(8):
            made, numbers = last_made(before, made), listed.numbers(before)
            for _ in range(chance.choice([1, 1, 3, 6])):
                listed = changed(listed, chance)
            before = listed.planned(made, store)
            for who, number in listed.numbers(before).items():
                same += who in numbers
                kept += numbers.get(who) == number
    assert same > 300
    assert kept >= 0.995 * same


def test_a_tool_added_to_a_group_of_forty_changes_one_holder() -> None:
    chance, store = drawn(2), Store()
    forty = Listed(
        tuple(Row(k, f"No {k}", "screwdriver", 20.0 + 0.3 * k, "all") for k in range(40))
    )
    first = forty.planned(LastMade(), store)
    made, recipes = last_made(first, LastMade()), {one.recipe.key for one in first}
    for k in range(12):
        size = round(chance.uniform(20.0, 32.0), 2)
        more = Listed((*forty.rows, Row(40 + k, "New", "screwdriver", size, "all")))
        then = more.planned(made, store)
        assert sum(one.recipe.key not in recipes for one in then) == 1
        assert sum(one.number not in {o.number for o in first} for one in then) <= 1


def test_a_renamed_tool_keeps_its_holder_and_its_part() -> None:
    store = Store()
    rows = tuple(Row(k, f"Can {k}", "can", 25.0 + k) for k in range(5))
    before = Listed(rows).planned(LastMade(), store)
    renamed = Listed((replace(rows[0], name="Zinc spray"), *rows[1:][::-1]))
    after = renamed.planned(last_made(before, LastMade()), store)
    assert {(one.number, one.recipe.key) for one in after} == {
        (one.number, one.recipe.key) for one in before
    }


def test_grouping_anew_forgets_who_shared_a_holder() -> None:
    store, made = Store(), LastMade()
    rows: tuple[Row, ...] = ()
    # boxes that come one after the other fill holders as they come, not by their sizes
    for k, size in enumerate([20.0, 30.0, 21.0, 34.0, 22.0, 33.0, 23.0, 32.0]):
        rows = (*rows, Row(k, f"Box {k}", "box", size))
        made = last_made(Listed(rows).planned(made, store), made)
    workshop, earlier = checked(Listed(rows).text), Earlier(made, regroup=True)

    def shared(holders: Iterable[PlannedHolder]) -> list[set[str]]:
        return [{tool.name for tool in one.tools} for one in holders]

    anew = plan(workshop, earlier=earlier, run=Run(store))
    assert shared(anew) == shared(Listed(rows).planned(LastMade(), Store()))
    assert shared(anew) != shared(Listed(rows).planned(made, store))


class Edits(RuleBasedStateMachine):
    """Edits, commits and steps back, in any order.

    What is found with all that was found before is what a new run finds; what was made is
    planned just so again.
    """

    @initialize(seed=st.integers(0, 10**6), tools=st.integers(2, 9))
    def begin(self, seed: int, tools: int) -> None:
        """Begin with a list."""
        chance = drawn(seed)
        self.listed = Listed(tuple(row(k, chance) for k in range(tools)))
        self.past: list[Listed] = []
        self.store, self.made = Store(), LastMade()
        self.hangs = False

    @rule(seed=st.integers(0, 10**6))
    def edit(self, seed: int) -> None:
        """Change the list once."""
        self.past.append(self.listed)
        self.listed = changed(self.listed, drawn(seed))

    @precondition(lambda self: self.past)
    @rule()
    def undo(self) -> None:
        """Take the last change back."""
        self.listed = self.past.pop()

    @rule(hangs=st.booleans())
    def commit(self, *, hangs: bool) -> None:
        """Make what is listed."""
        before = self.listed.planned(self.made, self.store, hangs=self.hangs)
        self.made, self.hangs = last_made(before, self.made), self.hangs or hangs
        assert self.listed.planned(self.made, self.store, hangs=self.hangs) == before

    @invariant()
    def as_from_scratch(self) -> None:
        """Compare with a run that found nothing before."""
        if not hasattr(self, "listed"):
            return
        found = self.listed.planned(self.made, self.store, hangs=self.hangs)
        assert found == self.listed.planned(self.made, Store(), hangs=self.hangs)
        numbers = [one.number for one in found]
        assert len(set(numbers)) == len(numbers)
        seated = sorted(tool.name for one in found for tool in one.tools)
        assert seated == sorted(one.name for one in self.listed.rows)


class TestEdits(Edits.TestCase):
    """Edits drawn at random."""

    settings = settings(max_examples=few(8), stateful_step_count=12, deadline=None)


@pytest.mark.parametrize("seed", range(3))
def test_a_step_back_gives_what_was_before(seed: int) -> None:
    """From what is committed, not from one revision to the next."""
    chance, store = drawn(seed), Store()
    listed = Listed(tuple(row(k, chance) for k in range(12)))
    made = last_made(listed.planned(LastMade(), store), LastMade())
    before = listed.planned(made, store)
    for _ in range(5):
        changed(listed, chance).planned(made, store)
    assert listed.planned(made, store) == before
