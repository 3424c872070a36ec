"""What a bundle brings to a workshop: tools and one holder of them, and nothing of the taker's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, cast

from pydantic import ValidationError

from cleatwright.base import place as places
from cleatwright.base.errors import DocumentError
from cleatwright.base.gathering import under
from cleatwright.base.visible import visible
from cleatwright.jobs.bundles import MOST_TABLE_BYTES, RECIPE, ReceivedBundle
from cleatwright.workshop.document.editing import Value
from cleatwright.workshop.document.entries import Holder, Tool
from cleatwright.workshop.document.fields import DocumentTable
from cleatwright.workshop.document.problems import document_error
from cleatwright.workshop.document.store import parse
from cleatwright.workshop.outlines.file import MOST_BYTES as MOST_DRAWN_BYTES

KEYS = ("tool", "holder")
# what names something of a workshop, such as its groups, panels and places, is the taker's affair
TOOL_KEYS = (
    *("name", "kind", "measures", "count", "sizes", "nominal_sizes", "mass", "outline"),
    *("use", "fit", "keep_cool", "properties", "notes"),
)
HOLDER_KEYS = ("tools", "family", "params", "fit")
# as many as one holder of a document may name
MOST_SINGLE_TOOLS = 200
Row = Mapping[str, Value]
Entry = TypeVar("Entry", bound=DocumentTable)


@dataclass(frozen=True)
class Brought:
    """The checked content of a bundle.

    Args:
        rows: The tables of its tools, as they shall stand in the document.
        tools: The same tools, read.
        holder: The table of its holder.
        wish: The same holder, read.
        names: The names in that table's ``tools``, read.
        drawings: The drawings that its tools name.
    """

    rows: tuple[Row, ...]
    tools: tuple[Tool, ...]
    holder: Row
    wish: Holder
    names: tuple[str, ...]
    drawings: Mapping[str, bytes]


def brought(bundle: ReceivedBundle) -> Brought:
    """Return what a bundle brings.

    Args:
        bundle: The bundle, read whole.

    Raises:
        DocumentError: Its tables cannot be used as they are.
    """
    rows, holder = _tables(bundle.files.get(RECIPE))
    tools: tuple[Tool, ...] = ()
    for number, row in enumerate(rows):
        with under("tool", places.TableStep(number)):
            tools = (*tools, _read(Tool, row, keys=TOOL_KEYS))
    with under("holder"):
        wish = _read(Holder, holder, keys=HOLDER_KEYS)
    _require_one_bundle(tools, wish)
    if wish.family != bundle.manifest.family:
        raise DocumentError(
            f"The bundle says that it brings a {bundle.manifest.family}, and brings "
            f"{f'a {wish.family}' if wish.family else 'a holder without a family'}",
        )
    drawings = _drawings(tools, bundle.files)
    return Brought(rows, tools, holder, wish, wish.tools, drawings)


def _tables(data: bytes | None) -> tuple[tuple[Row, ...], Row]:
    if data is None:
        raise DocumentError("The bundle has nothing to make")
    if len(data) > MOST_TABLE_BYTES:
        raise DocumentError(
            f"The tables have {len(data)} bytes", allowed=f"up to {MOST_TABLE_BYTES}"
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise DocumentError("The file is not UTF-8") from None
    raw: Mapping[str, Any] = parse(text, file="").unwrap()
    if set(raw) != set(KEYS):
        raise DocumentError(
            f"The bundle brings {', '.join(visible(key) for key in sorted(raw)[:5]) or 'nothing'}",
            allowed="[[tool]] and [[holder]] tables, and nothing else",
        )
    for key in KEYS:
        rows = raw[key]
        if not isinstance(rows, list) or not all(
            isinstance(row, dict) for row in cast("list[object]", rows)
        ):
            raise DocumentError(f'"{key}" is no row of tables')
    if len(raw["holder"]) != 1:
        raise DocumentError(f"The bundle brings {len(raw['holder'])} holders", allowed="one")
    return tuple(raw["tool"]), raw["holder"][0]


def _read(model: type[Entry], row: Row, *, keys: tuple[str, ...]) -> Entry:
    """Return a table as an entry that means the same whatever the unit of the taker's workshop."""
    strange = sorted(set(row) - set(keys))
    if strange:
        raise DocumentError(
            f'A bundle cannot bring the key "{visible(strange[0])}"',
            allowed=", ".join(keys),
        )
    try:
        in_mm, in_inches = (
            model.model_validate(row, context={"units": units}, by_alias=True, by_name=False)
            for units in ("mm", "in")
        )
    except ValidationError as error:
        raise document_error(error, raw=row, model=model, file="") from None
    if in_mm != in_inches:
        raise DocumentError(
            "A length does not say in which unit it is",
            allowed='a text with a unit, such as "80 mm" or "3 1/4 in"',
        )
    return in_mm


def _require_one_bundle(tools: tuple[Tool, ...], wish: Holder) -> None:
    """Refuse too many tools, a name twice, and a holder of tools that are not in the bundle."""
    single = sum(tool.single_tools for tool in tools)
    if single > MOST_SINGLE_TOOLS:
        raise DocumentError(
            f"The bundle brings {single} single tools, each as often as its count or sizes say",
            allowed=f"up to {MOST_SINGLE_TOOLS}",
        )
    names: set[str] = set()
    for tool in tools:
        own = [tool.name, *(item.name for item in tool.items() if item.name != tool.name)]
        twice = next((name for name in own if name in names or own.count(name) > 1), None)
        if twice is not None:
            raise DocumentError(f'The bundle brings two tools "{twice}"')
        names |= set(own)
    strange = next((name for name in wish.tools if name not in names), None)
    if strange is not None:
        raise DocumentError(
            f'The holder of the bundle takes "{strange}", which is none of its own tools',
            allowed=", ".join(tool.name for tool in tools),
        )


def _drawings(tools: tuple[Tool, ...], files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return the drawings that tools name, in their order."""
    found: dict[str, bytes] = {}
    for tool in tools:
        if tool.outline is None:
            continue
        if tool.outline not in files:
            raise DocumentError(f'The bundle has no drawing "{tool.outline}"')
        found[tool.outline] = files[tool.outline]
    size = sum(map(len, found.values()))
    if size > MOST_DRAWN_BYTES:
        raise DocumentError(
            f"The drawings of the bundle have {size} bytes",
            allowed=f"up to {MOST_DRAWN_BYTES}",
        )
    return found
