"""The lines of the document that give a holder a place."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.design.carrying import Unit
from cleatwright.wall.asking.why import DIGITS
from cleatwright.wall.model import Place
from cleatwright.workshop.document.editing import Value, append_entry, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse


@dataclass(frozen=True)
class Given:
    """A document in which one holder or carrier has a place.

    Args:
        text: The whole document.
        words: What the person writes, in words.
    """

    text: str
    words: str


def place_given(text: str, workshop: Workshop, unit: Unit, place: Place) -> Given | None:
    """Return the document with a place for a unit; None when one entry has several units.

    Args:
        text: The document as it is.
        workshop: The same, checked.
        unit: What shall have a place.
        place: The left edge of its plate and its hang height.
    """
    x, z = (f"{round(value, DIGITS):g} mm" for value in (place.x_mm, place.z_mm))
    value: dict[str, Value] = {"x": x, "z": z}
    line = f'place = {{ x = "{x}", z = "{z}" }}'
    tools = [tool.name for holder in unit.planned.holders for tool in holder.tools]
    document = parse(text)
    for number, carrier in enumerate(workshop.carriers):
        if carrier.name == unit.planned.holders[0].hang.carrier:
            set_value(document, ("carrier", number, "place"), value=value)
            return Given(document.as_string(), f'write {line} in the [[carrier]] "{carrier.name}"')
    for number, holder in enumerate(workshop.holders):
        items = [item.name for item in workshop.items_of(holder)]
        if sorted(items) == sorted(tools):
            set_value(document, ("holder", number, "place"), value=value)
            which = ", ".join(f'"{name}"' for name in holder.tools) or f'the group "{holder.group}"'
            return Given(document.as_string(), f"write {line} in the [[holder]] with {which}")
        if set(items) & set(tools):
            return None
    family = unit.planned.holders[0].recipe.family
    append_entry(document, "holder", entry={"tools": tools, "family": family, "place": value})
    named = ", ".join(f'"{name}"' for name in tools)
    return Given(
        document.as_string(),
        f'write a [[holder]] table with tools = [{named}], family = "{family}" and {line}',
    )
