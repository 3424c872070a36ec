"""What is made and loses a tool stays the part that it is, with an empty seat for its like.

Oracle: the mark that stands on a part, which is that of its shape, and who was taken from the list.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import settings as rounds
from hypothesis import strategies as st
from tests.small import document

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.building import BuiltPart
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.kept_parts import KeptPart, kept_part
from cleatwright.design.planned import Earlier, PlannedHolder, last_made
from cleatwright.design.planning import plan
from cleatwright.design.proving import trial_carrier, trial_recipe
from cleatwright.design.shaping import SHAPED
from cleatwright.parts.mirror import turned
from cleatwright.workshop.document.store import checked
from cleatwright.workshop.ledger.last_made import KnownTool, LastMade

SIZES_MM = (4.0, 5.5, 6.5, 8.0)


def driver(shank_mm: float, *lines: str, name: str = "") -> str:
    """Return the table of a screwdriver."""
    rows = [
        f'name = "{name or f"Driver {shank_mm:g}"}"',
        'kind = "screwdriver"',
        f"measures = {{ shank = {shank_mm}, shank_length = 110, handle = 26, handle_length = 90 }}",
        *lines,
    ]
    return "\n[[tool]]\n" + "\n".join(rows) + "\n"


def tins(count: int, *lines: str) -> str:
    """Return the table of equal tins, and the one holder in which all of them shall be."""
    more = "".join(f"{line}\n" for line in lines)
    return (
        f'\n[[tool]]\nname = "Tin"\nkind = "can"\nmeasures = {{ diameter = 52, height = 90 }}\n'
        f'group = "tins"\ncount = {count}\n{more}\n[[holder]]\ngroup = "tins"\n'
    )


RINGS = '\n[[tool]]\nname = "Key"\nkind = "hex-key"\nnominal_sizes = {}\ngroup = "keys"\n'


class Wall:
    """A wall by its papers: everything that is planned is made, and hangs."""

    def __init__(self, store: Store, *tables: str) -> None:
        self.run = Run(store)
        self.made = self.planned(*tables, earlier=Earlier())
        self.earlier = self.hung(self.made)

    def planned(self, *tables: str, earlier: Earlier | None = None) -> tuple[PlannedHolder, ...]:
        """Return what is planned for a list of tools."""
        text = document("List", *tables, width=3000.0, height=2000.0, studs=())
        return plan(checked(text), earlier=earlier or self.earlier, run=self.run)

    def hung(self, holders: Iterable[PlannedHolder], before: LastMade | None = None) -> Earlier:
        """Return what is left when holders hang."""
        found = list(holders)
        return Earlier(
            last_made(found, before or LastMade()),
            hangs=True,
            there=frozenset(one for holder in found for one in holder.shared_by),
            parts={one.number: KeptPart(self.mark(one), one.recipe) for one in found},
        )

    def mark(self, holder: PlannedHolder) -> str:
        """Return the mark of a holder."""
        return self.run.need(SHAPED, holder.recipe).mark

    def marks(self, holders: Iterable[PlannedHolder]) -> dict[int, str]:
        """Return the marks of holders by their numbers."""
        return {one.number: self.mark(one) for one in holders}


@pytest.fixture(scope="module")
def drivers(known: Store) -> Wall:
    """Return four screwdrivers in one holder, which hangs."""
    wall = Wall(known, *map(driver, SIZES_MM))
    assert len(wall.made) == 1
    return wall


def test_a_holder_that_loses_a_tool_is_the_same_part_with_an_empty_seat(drivers: Wall) -> None:
    (one,) = drivers.planned(*map(driver, (4.0, 6.5, 8.0)))
    assert one.recipe == drivers.made[0].recipe
    assert one.empty_for == ("Driver 5.5",)
    assert sorted(tool.name for tool in one.present) == ["Driver 4", "Driver 6.5", "Driver 8"]
    assert one.load_kg < sum(tool.body.mass_kg for tool in drivers.made[0].tools)
    assert 'has an empty place for "Driver 5.5".' in one.emptiness
    assert one.listed == ("Driver 4", "Driver 6.5", "Driver 8")
    assert len(drivers.run.need(DESCRIBED, one.recipe).seats) == 4


@pytest.mark.parametrize(
    "new",
    [
        driver(5.5, name="A new one"),
        # the seat gives no more way than the last step of the mark
        driver(5.5, 'mass = "90 g"', name="A heavier one"),
    ],
)
def test_the_like_of_a_tool_that_is_gone_takes_its_seat(drivers: Wall, new: str) -> None:
    rest = [driver(mm) for mm in (4.0, 6.5, 8.0)]
    before = drivers.hung(drivers.planned(*rest), drivers.earlier.made)
    (one,) = drivers.planned(new, *rest, earlier=before)
    assert drivers.mark(one) == drivers.mark(drivers.made[0])
    assert one.empty_for == ()
    assert one.number == drivers.made[0].number


@pytest.mark.parametrize(
    "new",
    [
        pytest.param(driver(9.5), id="too thick"),
        pytest.param(driver(5.7), id="a little thicker"),
        pytest.param(driver(5.5, 'group = "others"', name="Of others"), id="of another group"),
        pytest.param(driver(5.5, 'fit = "snug"', name="Snug"), id="of another fit"),
        pytest.param(
            driver(5.5, name="Apart") + '\n[[holder]]\ntools = ["Apart"]\n', id="by itself"
        ),
        pytest.param(driver(5.5, 'mass = "9 kg"', name="Lead"), id="too heavy"),
    ],
)
def test_what_is_unlike_leaves_the_seat_empty_and_the_part_as_it_is(
    drivers: Wall, new: str
) -> None:
    rest = [driver(mm) for mm in (4.0, 6.5, 8.0)]
    before = drivers.hung(drivers.planned(*rest), drivers.earlier.made)
    one, other = sorted(
        drivers.planned(*rest, new, earlier=before), key=lambda holder: holder.number
    )
    assert one.recipe == drivers.made[0].recipe
    assert one.empty_for == ("Driver 5.5",)
    assert len(other.tools) == 1


@pytest.mark.parametrize("new_mm", [5.7, 11.0])
def test_a_tool_that_goes_as_another_comes_leaves_its_seat_empty(
    drivers: Wall, new_mm: float
) -> None:
    """However near it is, under another name it is another tool."""
    found = drivers.planned(*map(driver, (4.0, 6.5, 8.0, new_mm)))
    assert {one.empty_for for one in found} == {("Driver 5.5",), ()}
    assert drivers.mark(drivers.made[0]) in drivers.marks(found).values()


def test_a_new_tool_may_have_the_name_of_one_that_is_gone(drivers: Wall) -> None:
    rest = [driver(mm) for mm in (4.0, 6.5, 8.0)]
    before = drivers.hung(drivers.planned(*rest), drivers.earlier.made)
    found = drivers.planned(*rest, driver(11.0, name="Driver 5.5"), earlier=before)
    names = [tool.name for one in found for tool in one.tools]
    assert sorted(names) == [
        "Driver 4",
        "Driver 5.5",
        "Driver 5.5 (gone)",
        "Driver 6.5",
        "Driver 8",
    ]


def test_a_changed_measure_makes_the_part_anew_without_empty_seats(drivers: Wall) -> None:
    """Its owner changes 6.5 to 7, so that another part is made in any case."""
    changed = driver(7.0, name="Driver 6.5")
    (one,) = drivers.planned(driver(4.0), changed, driver(8.0))
    assert one.number == drivers.made[0].number
    assert one.empty_for == ()
    assert len(one.tools) == 3


def test_what_may_be_made_anew_has_no_empty_seats(drivers: Wall) -> None:
    """Nothing is there for ``make --change parts`` and ``afresh``, as for what is only planned."""
    free = replace(drivers.earlier, there=frozenset(), parts={})
    (one,) = drivers.planned(*map(driver, (4.0, 6.5, 8.0)), earlier=free)
    assert len(one.tools) == 3


def test_a_holder_of_which_all_tools_are_gone_is_not_planned(drivers: Wall) -> None:
    (one,) = drivers.planned(driver(20.0, name="Another"))
    assert one.number != drivers.made[0].number
    assert [tool.name for tool in one.tools] == ["Another"]


def test_equal_tools_that_are_fewer_and_as_many_again(known: Store) -> None:
    wall = Wall(known, tins(4))
    marks = wall.marks(wall.made)
    fewer = wall.planned(tins(2))
    earlier = wall.hung(fewer, wall.earlier.made)
    kept = wall.marks(fewer)
    assert kept == {number: marks[number] for number in kept}
    empty = sum(len(one.empty_for) for one in fewer)
    assert empty == sum(len(one.tools) for one in wall.made if one.number in kept) - 2
    again = wall.planned(tins(2 + empty), earlier=earlier)
    assert wall.marks(again) == kept
    assert not any(one.empty_for for one in again)


def test_a_size_of_a_set_that_is_lost_and_found(known: Store) -> None:
    wall = Wall(known, RINGS.format([3, 4, 5, 6]))
    fewer = wall.planned(RINGS.format([3, 4, 6]))
    assert [one.empty_for for one in fewer if one.empty_for] == [("Key 5",)]
    assert wall.marks(fewer) == wall.marks(wall.made)
    earlier = wall.hung(fewer, wall.earlier.made)
    again = wall.planned(RINGS.format([3, 4, 5, 6]), earlier=earlier)
    assert wall.marks(again) == wall.marks(wall.made)
    assert not any(one.empty_for for one in again)


MANY = (
    *map(driver, (*SIZES_MM, 3.0, 5.0, 7.0)),
    tins(3),
    *(
        f'\n[[tool]]\nname = "Box {w}"\nkind = "box"\ngroup = "boxes"\n'
        f"measures = {{ width = {w}, depth = 40, height = 30 }}\n"
        for w in (50, 60, 70)
    ),
)


@pytest.fixture(scope="module")
def many(known: Store) -> Wall:
    """Return a wall with holders of three families."""
    return Wall(known, *MANY)


@given(st.lists(st.sets(st.integers(0, len(MANY) - 1)), min_size=1, max_size=3))
# 7 mm goes, and those come back that were in its holder, and are within a tenth of it
@example([{0, 1, 2, 3}, {0, 1, 6}])
@rounds(max_examples=8, deadline=None)
def test_nothing_that_is_made_changes_when_tools_go_and_come(
    many: Wall, absent: list[set[int]]
) -> None:
    """Whatever goes, and comes back: who stays is where it was, in a part with the mark it had.

    A holder of which nobody is left comes down; what is like its last tool may be that tool.
    """
    before, earlier = many.made, many.earlier
    for gone in absent:
        left = [table for place, table in enumerate(MANY) if place not in gone]
        if not left:
            continue
        found, marks = many.planned(*left, earlier=earlier), many.marks(before)
        now = {tool.identity: one for one in found for tool in one.present}
        names = {tool.name for one in found for tool in one.present}
        for one in before:
            if names.isdisjoint(tool.name for tool in one.tools):
                continue
            for tool in one.present:
                if tool.identity in now:
                    assert now[tool.identity].number == one.number
                    assert many.mark(now[tool.identity]) == marks[one.number]
        every = [tool.name for one in found for tool in one.tools]
        assert len(set(every)) == len(every)
        before, earlier = found, many.hung(found, earlier.made)


def test_a_holder_on_a_carrier_is_known_by_the_recipe_of_its_carrier() -> None:
    """The mark that hangs is the carrier's, which has the recipe of each holder in it."""
    holder = trial_recipe("straddle-bar", "pliers", (1.0, 1.2), joint="dovetail")
    stored = trial_carrier(holder, mount="french-cleat").to_json()
    tools = [
        KnownTool(str(k), str(k), one.kind, tuple(sorted(one.measures.items())))
        for k, one in enumerate(turned(holder.seats))
    ]
    assert kept_part("0000000", [stored], tools) == KeptPart("", holder)
    assert kept_part("0000000", [stored], tools[::-1]) is None
    assert kept_part("0000000", [stored], tools[:1]) is None


def test_a_holder_on_a_carrier_keeps_its_empty_seat(known: Store) -> None:
    shared = (
        '\n[[carrier]]\nname = "Both"\njoint = "dovetail"\n'
        '\n[[holder]]\ngroup = "tins"\ncarrier = "Both"\n'
    )
    wall = Wall(known, tins(3).split("\n[[holder]]")[0], shared)
    earlier = replace(
        wall.earlier,
        parts={one.number: KeptPart("", one.recipe) for one in wall.made},
    )
    fewer = wall.planned(tins(2).split("\n[[holder]]")[0], shared, earlier=earlier)
    kept = wall.marks(fewer)
    assert kept.items() <= wall.marks(wall.made).items()
    held = sum(len(one.tools) for one in wall.made if one.number in kept)
    assert sum(len(one.tools) for one in fewer) == held


@pytest.mark.parametrize("holds", [True, False])
def test_a_seat_in_which_a_new_tool_would_not_hold_stays_empty(
    drivers: Wall, monkeypatch: pytest.MonkeyPatch, *, holds: bool
) -> None:
    """The same shape, but a check of it with the new tool fails."""
    rest = [driver(mm) for mm in (4.0, 6.5, 8.0)]
    before = drivers.hung(drivers.planned(*rest), drivers.earlier.made)
    monkeypatch.setattr(BuiltPart, "holds", property(lambda _: holds))
    found = drivers.planned(*rest, driver(5.5, name="A new one"), earlier=before)
    assert len(found) == (1 if holds else 2)
