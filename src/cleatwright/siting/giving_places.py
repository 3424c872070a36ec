"""The lines of the document that give a holder a place."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base.lengths import LengthUnit
from cleatwright.base.units import length_mm
from cleatwright.base.written import Side, place_line, written_exactly, written_length
from cleatwright.design.carrying import PlannedUnit, Unit
from cleatwright.design.planned import PlannedHolder
from cleatwright.wall.conflicts import conflicts
from cleatwright.wall.model import Arrangement, Place
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rails import cut_rails
from cleatwright.wall.tolerances import SLACK_MM
from cleatwright.workshop.document.changes import DocumentChange
from cleatwright.workshop.document.editing import Step, Value, append_entry, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse


@dataclass(frozen=True)
class Given:
    """A document in which one holder or carrier has a place.

    Args:
        text: The whole document.
        words: What the person writes, in words; its lengths stand as they were tried.
    """

    text: str
    words: str


@dataclass(frozen=True)
class Written:
    """A place as a document says it: two lengths with their units."""

    x: str
    z: str

    @property
    def line(self) -> str:
        """Return the line of the document."""
        return place_line(self.x, self.z)


def written_place(
    place: Place, unit: LengthUnit, *, x_side: Side = "nearest", z_side: Side = "nearest"
) -> Written:
    """Return a place as the document of a workshop in that unit says it."""
    return Written(
        written_length(place.x_mm, unit, side=x_side), written_length(place.z_mm, unit, side=z_side)
    )


def exact_place(place: Place, unit: LengthUnit) -> Written:
    """Return the very place as the document of a workshop in that unit says it."""
    return Written(written_exactly(place.x_mm, unit), written_exactly(place.z_mm, unit))


def on_the_grid(place: Place, unit: LengthUnit) -> Place:
    """Return the nearest place that a document in that unit says without decimals of an inch."""
    x, z = (length_mm(written_length(at, unit)) for at in (place.x_mm, place.z_mm))
    return Place(place.key, x, z)


def on_the_grid_together(problem: WallProblem, places: Iterable[Place]) -> tuple[Place, ...]:
    """Return places in 1/32 of an inch, each as far as all still hang together then.

    Each is rounded by itself, and what touches its neighbour would overlap it by up to 0.8 mm.

    Args:
        problem: The wall; what has a given place keeps it.
        places: Where everything hangs.
    """
    found = {place.key: place for place in places}
    for key, place in found.items():
        if problem.known[key].fixed is not None:
            continue
        z = _kept_or_rounded(place.z_mm)
        for side in _NEAREST_FIRST:
            x = length_mm(written_length(place.x_mm, "in", side=side))
            tried = tuple({**found, key: Place(key, x, z)}.values())
            if not conflicts(problem, Arrangement(tried, cut_rails(problem, tried))):
                found[key] = Place(key, x, z)
                break
    return tuple(found.values())


def _kept_or_rounded(z_mm: float) -> float:
    """Return a hang height in 1/32 of an inch, if it stays on its rail so."""
    rounded = length_mm(written_length(z_mm, "in"))
    return rounded if abs(rounded - z_mm) <= SLACK_MM else z_mm


@dataclass(frozen=True)
class PlaceTable:
    """The table of a document in which the place of a unit stands, or would.

    Args:
        path: Where it is; None when it is still to be written.
        words: What it is, with its article.
    """

    path: tuple[Step, ...] | None
    words: str


def entry_of(workshop: Workshop, unit: PlannedUnit) -> PlaceTable | None:
    """Return the table in which a unit has its place; None when one table has several units."""
    first = unit.holders[0]
    tools = [name for holder in unit.holders for name in holder.listed]
    for number, carrier in enumerate(workshop.carriers):
        if carrier.name == first.hang.carrier:
            return PlaceTable(("carrier", number), f'the [[carrier]] "{carrier.name}"')
    for number, holder in enumerate(workshop.holders):
        items = [item.name for item in workshop.items_of(holder)]
        if sorted(items) == sorted(tools):
            which = ", ".join(f'"{name}"' for name in holder.tools) or f'the group "{holder.group}"'
            return PlaceTable(("holder", number), f"the [[holder]] with {which}")
        if set(items) & set(tools):
            return None
    named = ", ".join(f'"{name}"' for name in tools)
    family = first.recipe.family
    return PlaceTable(None, f'a new [[holder]] with tools = [{named}] and family = "{family}"')


def new_table(holder: PlannedHolder) -> dict[str, Value]:
    """Return the [[holder]] that makes a holder as it is made without one."""
    return {"tools": list(holder.listed), "family": holder.recipe.family}


CHOICES: Mapping[str, str] = MappingProxyType(
    {
        "family": "its family",
        "params": "its sizes",
        "place": "its place",
        "mount": "how it hangs",
        "joint": "its joint",
        "carrier": "its carrier",
        "fit": "its play",
        "panel": "its panel",
    }
)
"""What a [[holder]] may say of its holder, in words; the program chooses the first three too."""
_NEAREST_FIRST: tuple[Side, ...] = ("nearest", "up", "down")
_LEFT_TO_PROGRAM = ("family", "params", "place")


def chosen_in(table: Mapping[str, object]) -> tuple[str, ...]:
    """Return what a [[holder]] says of its holder that the program would choose, in words."""
    return tuple(CHOICES[key] for key in _LEFT_TO_PROGRAM if key in table)


def left_to_program(
    path: tuple[Step, ...], table: Mapping[str, object]
) -> tuple[DocumentChange, ...]:
    """Return the changes after which the program chooses family, sizes and place of a holder.

    A table that says nothing else of its tools goes, so that they are grouped as all others are.

    Args:
        path: The [[holder]].
        table: What stands in it.
    """
    if "tools" in table and not any(key in table for key in CHOICES if key not in _LEFT_TO_PROGRAM):
        return (DocumentChange("remove", path, guarded=False),)
    return tuple(
        DocumentChange("unset", (*path, key), guarded=False)
        for key in _LEFT_TO_PROGRAM
        if key in table
    )


def place_given(text: str, workshop: Workshop, unit: Unit, place: Written) -> Given | None:
    """Return the document with a place for a unit; None when one entry has several units.

    Args:
        text: The document as it is.
        workshop: The same, checked.
        unit: What shall have a place.
        place: The left edge of its plate and its hang height.
    """
    entry, document = entry_of(workshop, unit.planned), parse(text)
    if entry is None:
        return None
    value: dict[str, Value] = {"x": place.x, "z": place.z}
    if entry.path is not None:
        set_value(document, (*entry.path, "place"), value=value)
    else:
        # what has no table of its own is one holder
        table = new_table(unit.planned.holders[0])
        append_entry(document, "holder", entry={**table, "place": value})
    return Given(document.as_string(), f"write {place.line} in {entry.words}")


def tables_of(workshop: Workshop, units: Iterable[Unit]) -> Mapping[str, str]:
    """Return the table of each unit that has one of its own, by its key, with its article."""
    entries = {unit.planned.key: entry_of(workshop, unit.planned) for unit in units}
    return {key: one.words for key, one in entries.items() if one is not None}
