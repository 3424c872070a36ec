"""The paths of tables in a checked document, for whoever puts a fault in its place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cleatwright.base.place import InDocument, Path, TableStep
from cleatwright.workshop.document.entries import Holder, ToolItem
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN


def panel_path(workshop: Workshop, name: str) -> Path:
    """Return the table of the wall or of a panel."""
    found = next((n for n, one in enumerate(workshop.panels) if one.name == name), None)
    return (MAIN,) if found is None else ("panel", TableStep(found, name))


def person_path(workshop: Workshop, name: str) -> Path:
    """Return the table of a person of the document by what the person is called."""
    found = next((n for n, one in enumerate(workshop.other_persons) if one.name == name), None)
    return ("person",) if found is None else ("other_person", TableStep(found, name))


def carrier_path(workshop: Workshop, name: str) -> Path:
    """Return the table of a carrier that the document has."""
    number = next(n for n, one in enumerate(workshop.carriers) if one.name == name)
    return ("carrier", TableStep(number, name))


def stock_place(workshop: Workshop) -> InDocument:
    """Return the place of the boards, of which people are told as a whole."""
    rows = [TableStep(number, one.name) for number, one in enumerate(workshop.rail.stocks)]
    keys = [("rail", "stock", row, key) for row in rows for key in ("length", "count")]
    return InDocument((("rail", "stock"), *keys, ("rail", "kerf")), spoken="whole")


def holder_path(workshop: Workshop, holder: Holder) -> Path:
    """Return the table of a holder of the document."""
    return ("holder", TableStep(workshop.holders.index(holder)))


def tool_paths(workshop: Workshop, names: Iterable[str]) -> tuple[Path, ...]:
    """Return the tables of single tools, then all that says what these tools are.

    Where a tool cannot be held or its holder is too large, any of them may be the wrong one.
    """
    wanted, tables, keys = set(names), list[Path](), list[Path]()
    numbers = {tool.name: number for number, tool in enumerate(workshop.tools)}
    for item in workshop.single_tools:
        if item.name in wanted:
            table: Path = ("tool", TableStep(numbers[item.tool], item.tool))
            tables.append(table)
            keys += ((*table, *path) for path in (("kind",), *_said(item)))
    return tuple(dict.fromkeys((*tables, *keys)))


def _said(item: ToolItem) -> Iterator[Path]:
    for name, _ in item.measures.values:
        yield from item.origins.paths(("measures", name))
    if item.origins.nominal:
        yield item.origins.nominal
    for key, value in (("mass", item.mass_kg), ("outline", item.outline)):
        if value is not None:
            yield from item.origins.paths((key,))


def first_of(*paths: Path) -> InDocument:
    """Return a place of which people are told the first table alone.

    >>> first_of(("tool", TableStep(0, "A")), ("printer", TableStep(None, "desk"), "bed")).words
    'tool "A" (number 1)'
    """
    return InDocument(tuple(dict.fromkeys(paths)), spoken="whole")
