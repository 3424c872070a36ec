"""The settings of a workshop: every table that is no list of tools or holders, and what it takes.

Forms are made of what is described here; nothing of a single key is known to who shows them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

from annotated_types import Ge, Gt, Le, Lt

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, DocumentError, MeasureError, unknown_name
from cleatwright.base.place import InDocument, plain_path
from cleatwright.base.place import at as place_at
from cleatwright.mounts.joints.registry import JOINTS, WITHOUT_CARRIER
from cleatwright.mounts.registry import MOUNTS
from cleatwright.parts.params import PartParams
from cleatwright.workshop.document.changes import DocumentChange, Plain, standing
from cleatwright.workshop.document.described import DescribedField, Takes, described
from cleatwright.workshop.document.editing import Step
from cleatwright.workshop.document.entries import Tool
from cleatwright.workshop.document.fields import OUT_OF_BOUNDS, DocumentTable, read_measure
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.own_unit import unit_of
from cleatwright.workshop.document.sections import Sizes
from cleatwright.workshop.document.store import faults_in
from cleatwright.workshop.document.typed import with_value, written

# what has a sheet of its own, and what nobody changes
ELSEWHERE = frozenset({"schema", "tool", "holder", "carrier", "group"})
# what the form of a tool shows in its own way
OF_TOOL = frozenset({"name", "kind", "measures", "count", "sizes", "nominal_sizes", "mass"}) | {
    "outline",
    "use",
    "group",
    "fit",
    "panel",
    "properties",
    "taken_by",
    "notes",
}
# what that form takes as it is typed
TYPED_OF_TOOL = frozenset({"name", "count", "group", "notes"})
TOOL = "tool"
Path = tuple[Step, ...]


@dataclass(frozen=True)
class SettingsTable:
    """One table of the settings, as it may stand in a document.

    Args:
        path: Where it stands.
        title: What people call it: the last key of its path, or the name of a row.
        words: What it is for.
        fields: The keys that it takes, tables left out.
        grows: What is added to it: "rows" without and "named" with a name in their heading, or "".
        row: The keys of what is added.
        removable: Whether it is a row, or a table by name, that may be taken away.
        flat: Whether it grows by rows without tables inside, so that each has room in one line.
    """

    path: Path
    title: str
    words: str
    fields: tuple[DescribedField, ...] = ()
    grows: str = ""
    row: tuple[DescribedField, ...] = ()
    removable: bool = False
    flat: bool = False


def settings_tables(raw: Mapping[str, Any]) -> tuple[SettingsTable, ...]:
    """Return every table of the settings in the order of the manual, with the rows there are.

    Args:
        raw: The document as plain tables.
    """
    top = [one for one in described(Workshop) if one.key not in ELSEWHERE]
    own = tuple(_chosen(one, raw) for one in top if one.inner is None)
    return (
        SettingsTable((), "workshop", "", own),
        *(found for one in top if one.inner is not None for found in _tables((), one, raw)),
    )


def tool_fields() -> tuple[DescribedField, ...]:
    """Return the keys of a tool that its form shows as they are described, and in no other way."""
    return tuple(one for one in described(Tool) if one.key not in OF_TOOL and one.inner is None)


def _tables(
    path: Path, field: DescribedField, raw: Mapping[str, Any], words: str = ""
) -> Iterator[SettingsTable]:
    """Yield the table, or the tables, of a key, and those inside."""
    here, model = (*path, field.key), cast("type[DocumentTable]", field.inner)
    words = words or field.words
    stands: Any = standing(raw, here)
    if model is Sizes:
        yield from _measures(here, words)
        return
    if field.takes == "table":
        yield from _table(here, field.key, words, model, raw)
        return
    own = _own(model, raw)
    flat = field.takes == "rows" and len(own) == len(described(model))
    yield SettingsTable(here, field.key, words, grows=field.takes, row=own, flat=flat)
    rows = cast("list[Any]", stands) if isinstance(stands, list) else []
    steps: list[Step] = list(range(len(rows)))
    if field.takes == "named" and isinstance(stands, dict):
        steps = list(cast("dict[str, Any]", stands))
    for step in steps:
        name = step if isinstance(step, str) else standing(raw, (*here, step, "name"))
        title = f"{field.key} {name if isinstance(name, str) else int(step) + 1}"
        for one in _table((*here, step), title, "", model, raw):
            yield replace(one, removable=True) if one.path == (*here, step) else one


def _table(
    path: Path, title: str, words: str, model: type[DocumentTable], raw: Mapping[str, Any]
) -> Iterator[SettingsTable]:
    yield SettingsTable(path, title, words, _own(model, raw))
    for one in described(model):
        if one.inner is not None:
            yield from _tables(path, one, raw)


def _own(model: type[DocumentTable], raw: Mapping[str, Any]) -> tuple[DescribedField, ...]:
    return tuple(_chosen(one, raw) for one in described(model) if one.inner is None)


def _chosen(field: DescribedField, raw: Mapping[str, Any]) -> DescribedField:
    """Return a key with the names among which it chooses, where it takes one of them."""
    choices: tuple[str, ...] = ()
    if field.takes == "slug":
        found = {"mount": tuple(MOUNTS), "joint": (*WITHOUT_CARRIER, *JOINTS)}
        choices = found.get(field.key, ())
    elif field.takes == "name" and field.key in {"printer", "filament"}:
        tables = raw.get(field.key)
        choices = tuple(cast("dict[str, Any]", tables)) if isinstance(tables, dict) else ()
    return replace(field, takes="choice", choices=choices) if choices else field


def _measures(path: Path, words: str) -> Iterator[SettingsTable]:
    """Yield the measures of every mount or joint that has some."""
    models: dict[str, type[PartParams]] = (
        {name: one.params for name, one in MOUNTS.items()}
        if path == ("mount",)
        else {name: one.params for name, one in JOINTS.items()}
    )
    for name, model in models.items():
        if fields := tuple(_params(model)):
            yield SettingsTable((*path, name), f"{path[0]} {name}", words, fields)


def _params(model: type[PartParams]) -> Iterator[DescribedField]:
    for name, info in model.model_fields.items():
        bounds = info.metadata
        low = next(m.ge if isinstance(m, Ge) else m.gt for m in bounds if isinstance(m, Ge | Gt))
        high = next(m.le if isinstance(m, Le) else m.lt for m in bounds if isinstance(m, Le | Lt))
        takes: Takes = "length" if name.endswith("_mm") else "number"
        yield DescribedField(
            key=info.alias or name,
            words="",
            takes="angle" if name.endswith("_deg") else takes,
            low=float(str(low)),
            high=float(str(high)),
            why=info.description or "",
            needed=info.is_required(),
            default=None if info.is_required() else float(info.default),
        )


def field_at(path: Sequence[Step], raw: Mapping[str, Any]) -> DescribedField:
    """Return what a key of the settings takes.

    Raises:
        DocumentError: The settings have no such key.
    """
    *way, key = path
    match way:
        case ["tool", int()]:
            own = (one for one in described(Tool) if one.key in TYPED_OF_TOOL)
            found = next((one for one in (*own, *tool_fields()) if one.key == key), None)
            if found is not None:
                return found
        case _:
            pass
    for table in settings_tables(raw):
        if table.path == tuple(way) or (table.grows and table.path == tuple(way[:-1])):
            fields = table.fields if table.path == tuple(way) else table.row
            found = next((one for one in fields if one.key == key), None)
            if found is not None:
                return found
    raise DocumentError("The settings have no such key", place=place_at(*path))


def typed_change(raw: Mapping[str, Any], path: Path, text: str, *, was: Plain) -> DocumentChange:
    """Return the change that writes what a person typed into a key of the settings.

    Args:
        raw: The document as plain tables.
        path: The key.
        text: What was typed; nothing takes the key away.
        was: What stood there when it was typed.

    Raises:
        CleatwrightError: It cannot be read, or is out of bounds.
    """
    field, place = field_at(path, raw), place_at(*path)
    try:
        value = written(field, text)
        _require_measure(path, field, value, raw)
    except MeasureError as error:
        raise error.at(place) from None
    if value is None and field.needed:
        raise DocumentError("It is needed", place=place, todo="Write what holds")
    if field.takes == "choice" and value is not None and value not in field.choices:
        raise unknown_name(field.key, text.strip(), field.choices, place=place)
    trial = with_value(raw, path, value)
    fault = fault_at(trial, path) or (_twice(trial, path) if field.key == "name" else None)
    if value is not None and fault is not None:
        raise fault
    operation = "unset" if value is None else "set"
    name = standing(raw, (*path[:2], "name")) if path[0] == TOOL else ""
    return DocumentChange(operation, path, value, was=was, name=str(name or ""))


def _require_measure(
    path: Path, field: DescribedField, value: Plain, raw: Mapping[str, Any]
) -> None:
    """Hold a measure of a mount or a joint, which the document does not know, to its bounds."""
    if path[0] not in {"mount", "joint"} or value is None:
        return
    number = read_measure(field.key, value, units=unit_of(raw))
    low, high = field.low or 0.0, field.high or 0.0
    if not low <= number <= high:
        unit = " deg" if field.takes == "angle" else ""
        given, least, most = (
            said.mm(one) if field.takes == "length" else f"{one:g}{unit}"
            for one in (number, low, high)
        )
        raise MeasureError(
            f"{given} {OUT_OF_BOUNDS}", allowed=f"from {least} to {most} ({field.why})"
        )


def fault_at(raw: Mapping[str, Any], path: Path) -> CleatwrightError | None:
    """Return the fault of one key alone, or None; what several keys are at odds over is none."""
    for fault in faults_in(raw):
        paths = fault.place.paths if isinstance(fault.place, InDocument) else ()
        if len(paths) == 1 and plain_path(paths[0])[: len(path)] == tuple(path):
            return fault
    return None


def _twice(raw: Mapping[str, Any], path: Path) -> CleatwrightError | None:
    """Return the fault of a name that another thing has too, or None."""
    for fault in faults_in(raw):
        paths = fault.place.paths if isinstance(fault.place, InDocument) else ()
        if any(plain_path(one) == tuple(path) for one in paths):
            return fault
    return None


def added(
    raw: Mapping[str, Any], path: Path, *, name: str, typed: Mapping[str, str]
) -> tuple[DocumentChange, ...]:
    """Return the changes that add a row to a table of the settings.

    Args:
        raw: The document as plain tables.
        path: The table, such as ``rail.stock`` or ``printer``.
        name: What stands in its heading, of a table that is found by its name.
        typed: What was typed, by keys.

    Raises:
        CleatwrightError: Something cannot be read, is out of bounds or is missing.
    """
    table = next((one for one in settings_tables(raw) if one.path == path and one.grows), None)
    if table is None:
        raise DocumentError("Nothing can be added there", place=place_at(*path))
    stands: Any = standing(raw, path)
    step: Step = len(cast("list[Any]", stands)) if isinstance(stands, list) else 0
    if table.grows == "named":
        step = name.strip()
        if not step or (isinstance(stands, dict) and step in stands):
            raise DocumentError(
                f'There is already one called "{step}"' if step else "It has no name",
                place=place_at(*path),
                todo="Give it a name of its own",
            )
    entry, place = dict[str, Plain](), (*path, step)
    for field in table.row:
        text = typed.get(field.key, "")
        try:
            value = written(field, text)
        except MeasureError as error:
            raise error.at(place_at(*place, field.key)) from None
        if value is not None:
            entry[field.key] = value
        elif field.needed:
            raise DocumentError(
                f"The {field.key} is needed", place=place_at(*place, field.key), todo="Write it"
            )
    _require_sound(raw, path, step, entry)
    if isinstance(step, str):
        return tuple(DocumentChange("set", (*place, key), value) for key, value in entry.items())
    return (DocumentChange("insert", path, cast("Plain", entry)),)


def _require_sound(raw: Mapping[str, Any], path: Path, step: Step, entry: dict[str, Plain]) -> None:
    """Refuse a row of which a single key is out of bounds."""
    if isinstance(step, str):
        trial = with_value(raw, (*path, step), entry)
    else:
        rows = cast("list[Plain]", standing(raw, path) or [])
        trial = with_value(raw, path, [*rows, entry])
    if fault := fault_at(trial, (*path, step)):
        raise fault


def removed(raw: Mapping[str, Any], path: Path) -> DocumentChange:
    """Return the change that takes a row, or a table that is found by its name, away.

    Raises:
        DocumentError: The settings have no such row.
    """
    if not any(one.removable and one.path == path for one in settings_tables(raw)):
        raise DocumentError("There is nothing that can be taken away", place=place_at(*path))
    if isinstance(path[-1], str):
        return DocumentChange("unset", path, was=standing(raw, path))
    name = standing(raw, (*path, "name"))
    return DocumentChange("remove", path, was=name if isinstance(name, str) else "")
