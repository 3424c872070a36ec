"""The lines of the document that give a holder a place."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.lengths import Unit as UnitName
from cleatwright.base.written import Side, written_length
from cleatwright.design.carrying import Unit
from cleatwright.wall.model import Place
from cleatwright.workshop.document.editing import Value, append_entry, set_value
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
        return f'place = {{ x = "{self.x}", z = "{self.z}" }}'


def written_place(
    place: Place, unit: UnitName, *, x_side: Side = "nearest", z_side: Side = "nearest"
) -> Written:
    """Return a place as the document of a workshop in that unit says it."""
    return Written(
        written_length(place.x_mm, unit, side=x_side), written_length(place.z_mm, unit, side=z_side)
    )


def place_given(text: str, workshop: Workshop, unit: Unit, place: Written) -> Given | None:
    """Return the document with a place for a unit; None when one entry has several units.

    Args:
        text: The document as it is.
        workshop: The same, checked.
        unit: What shall have a place.
        place: The left edge of its plate and its hang height.
    """
    value: dict[str, Value] = {"x": place.x, "z": place.z}
    tools = [tool.name for holder in unit.planned.holders for tool in holder.tools]
    document = parse(text)
    for number, carrier in enumerate(workshop.carriers):
        if carrier.name == unit.planned.holders[0].hang.carrier:
            set_value(document, ("carrier", number, "place"), value=value)
            return Given(
                document.as_string(), f'write {place.line} in the [[carrier]] "{carrier.name}"'
            )
    for number, holder in enumerate(workshop.holders):
        items = [item.name for item in workshop.items_of(holder)]
        if sorted(items) == sorted(tools):
            set_value(document, ("holder", number, "place"), value=value)
            which = ", ".join(f'"{name}"' for name in holder.tools) or f'the group "{holder.group}"'
            return Given(document.as_string(), f"write {place.line} in the [[holder]] with {which}")
        if set(items) & set(tools):
            return None
    family = unit.planned.holders[0].recipe.family
    append_entry(document, "holder", entry={"tools": tools, "family": family, "place": value})
    named = ", ".join(f'"{name}"' for name in tools)
    return Given(
        document.as_string(),
        f'write a [[holder]] table with tools = [{named}], family = "{family}" and {place.line}',
    )


def table_of(workshop: Workshop, unit: Unit) -> str:
    """Return the table of the document that gives a unit its place, in words."""
    carrier = unit.planned.holders[0].hang.carrier
    if carrier:
        return f'[[carrier]] "{carrier}"'
    tools = {tool.name for holder in unit.planned.holders for tool in holder.tools}
    for holder in workshop.holders:
        if tools & {item.name for item in workshop.items_of(holder)}:
            which = ", ".join(f'"{name}"' for name in holder.tools) or f'the group "{holder.group}"'
            return f"[[holder]] with {which}"
    return f'[[holder]] with "{unit.planned.name}"'
