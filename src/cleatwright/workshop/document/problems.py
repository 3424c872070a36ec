"""Validation problems told in the words of the document: table, key, value, allowed, what to do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base.errors import DocumentError, nearest
from cleatwright.base.visible import visible
from cleatwright.workshop.document.fields import NAME_INSIDE, OUT_OF_BOUNDS

Path = tuple[str | int, ...]

MOST_TOLD = 50
# rows of tables that have their names in their headings
NAMED = frozenset({"printer", "filament", "mount", "joint"})
_SHAPES = {
    "string_type": "a text in quotation marks",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "dict_type": "a table",
    "tuple_type": "a list in square brackets",
    "list_type": "a list in square brackets",
    "int_type": "a whole number without quotation marks",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
}
_BOUNDS = {
    "greater_than_equal": "at least {ge}",
    "less_than_equal": "at most {le}",
    "too_long": "at most {max_length} entries",
    "string_too_short": "a text with something in it",
    "string_too_long": "at most {max_length} characters",
    "literal_error": "{expected}",
}
_NUMBER_BOUNDS = frozenset({"greater_than_equal", "less_than_equal"})
_PATTERNS = {
    "#": "a colour such as #3060c0",
    "^": "lower-case letters, digits and hyphens, beginning with a letter",
}


@dataclass(frozen=True)
class Told:
    """One problem in words."""

    where: str
    given: str
    allowed: str
    todo: str


def document_error(
    error: ValidationError, *, raw: Mapping[str, Any], model: type[BaseModel], file: str
) -> DocumentError:
    """Return one error that names every problem, in the order of the document."""
    found = sorted(error.errors(include_url=False), key=lambda one: _position(one["loc"], raw))
    if any(one["loc"] == ("units",) for one in found):
        # no length is known to be out of bounds while nobody knows its unit
        found = [one for one in found if not _is_bound(one)]
    told = list(dict.fromkeys(_tell(one, raw, model) for one in found[:MOST_TOLD]))
    if len(told) == 1:
        only = told[0]
        place = ", ".join(part for part in (file, only.where) if part)
        return DocumentError(only.given, where=place, allowed=only.allowed, todo=only.todo)
    faults = [
        DocumentError(one.given, where=one.where, allowed=one.allowed, todo=one.todo)
        for one in told
    ]
    numbered = "\n".join(f"  {number}. {fault}" for number, fault in enumerate(faults, 1))
    left = len(found) - MOST_TOLD
    more = f"\n  and {left} more" if left > 0 else ""
    count = len(found) if left > 0 else len(told)
    return DocumentError(
        f"{count} entries cannot be used:\n{numbered}{more}", where=file, faults=faults
    )


def _is_bound(one: ErrorDetails) -> bool:
    """Tell whether a problem is that a measure is out of bounds."""
    given = (one.get("ctx") or {}).get("given", "")
    return one["type"] == "workshop" and given.endswith(OUT_OF_BOUNDS)


def _position(place: Path, raw: Any) -> tuple[int, ...]:
    """Return where a problem stands in the document, for sorting."""
    order: list[int] = []
    inner: Any = raw
    for step in place:
        keys = list(cast("Mapping[str, Any]", inner)) if isinstance(inner, Mapping) else []
        if isinstance(step, int):
            order.append(step)
        elif step in keys:
            order.append(keys.index(step))
        elif step != "measures":
            order.append(len(keys))
        inner = _step(inner, step)
    return tuple(order)


def _step(raw: Any, step: str | int) -> Any:
    """Return what stands one step deeper, or None."""
    if isinstance(raw, Mapping):
        table = cast("Mapping[str, Any]", raw)
        if isinstance(step, int):
            rows = list(table.values())
            return rows[step] if step < len(rows) else None
        return table if step == "measures" and step not in table else table.get(step)
    if isinstance(raw, (list, tuple)) and isinstance(step, int):
        rows = list(cast("list[Any]", raw))
        return rows[step] if step < len(rows) else None
    return None


def _where(place: Path, raw: object) -> str:
    """Return the place in words, such as: tool "Long nose" (number 7), measures, key "neck"."""
    words: list[str] = []
    for depth, step in enumerate(place):
        inner = _step(raw, step)
        if isinstance(step, int) and words:
            if isinstance(raw, Mapping):
                name = list(cast("Mapping[str, Any]", raw))[step]
                words[-1] += f' "{name}"'
            else:
                named = _step(inner, "name")
                title = f' "{named}" (number {step + 1})' if isinstance(named, str) else ""
                words[-1] += title or f" number {step + 1}"
        elif depth == len(place) - 1:
            words.append(f'key "{step}"')
        elif not (step == "measures" and inner is raw):
            words.append(str(step))
        raw = inner
    return ", ".join(words)


def _model_at(place: Path, model: type[BaseModel]) -> type[BaseModel] | None:
    """Return the model of the table in which a place lies."""
    for step in place[:-1]:
        if isinstance(step, int):
            continue
        for name, info in model.model_fields.items():
            if step in {info.alias, name}:
                inner = _inner_model(info.annotation)
                if inner is None:
                    return None
                model = inner
                break
    return model


def _inner_model(annotation: object) -> type[BaseModel] | None:
    """Return the model inside an annotation such as ``tuple[Tool, ...]``."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for arg in get_args(annotation) if (found := _inner_model(arg))), None)


def _shown(value: object) -> str:
    """Show a value shortly, as the owner wrote it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{value[:40]}…"' if len(value) > 40 else f'"{value}"'
    if isinstance(value, Mapping):
        return "A table"
    if isinstance(value, (list, tuple)):
        return "A list"
    if isinstance(value, int) and abs(value) > 10**30:
        return "A very large number"
    return str(value)


def _tell(one: ErrorDetails, raw: Mapping[str, Any], model: type[BaseModel]) -> Told:
    """Put one problem into words; no sign in them acts on a terminal or begins a line."""
    told = _in_words(one, raw, model)
    return Told(*map(visible, (told.where, told.given, told.allowed, told.todo)))


def _in_words(one: ErrorDetails, raw: Mapping[str, Any], model: type[BaseModel]) -> Told:
    place = one["loc"]
    if place and place[-1] == NAME_INSIDE:
        place = (*place[:-1], "name")
    where = _where(place, raw)
    context: Mapping[str, Any] = one.get("ctx") or {}
    if one["type"] == "workshop":
        return Told(where, context["given"], context["allowed"], context["todo"])
    if one["type"] == "missing":
        return _missing(place, raw)
    if one["type"] == "extra_forbidden":
        return _unknown_key(place, where, model)
    if place == ("schema",):
        return Told(
            where,
            f"schema = {_shown(one['input'])} is not known",
            "schema = 1",
            "Use a later version of the program for a later schema",
        )
    what = OUT_OF_BOUNDS if one["type"] in _NUMBER_BOUNDS else "does not belong here"
    given = f"{_shown(one['input'])} {what}"
    return Told(where, given, _tables_at(place, one["type"], model) or _allowed(one, context), "")


def _tables_at(place: Path, kind: str, model: type[BaseModel]) -> str:
    """Say which tables are wanted in the place of a wrong value, or ""."""
    table = _model_at(place, model)
    if kind not in {"tuple_type", "list_type"} or table is None or not place:
        return ""
    key = place[-1]
    for name, info in table.model_fields.items():
        if key in {info.alias, name} and _inner_model(info.annotation) is not None:
            named = len(place) == 1 and key in NAMED
            return f"tables such as [{key}.name]" if named else f"tables, each under [[{key}]]"
    return ""


def _allowed(one: ErrorDetails, context: Mapping[str, Any]) -> str:
    """Say what would be right in the place of a wrong value."""
    kind = one["type"]
    if kind in _BOUNDS:
        return _BOUNDS[kind].format_map(context)
    if kind == "string_pattern_mismatch":
        return _PATTERNS["#" if "#" in str(context["pattern"]) else "^"]
    return _SHAPES.get(kind, one["msg"])


def _missing(place: Path, raw: Mapping[str, Any]) -> Told:
    """Tell of a key or of an entry of a list that is not there."""
    last = place[-1]
    if isinstance(last, int):
        return Told(_where(place[:-1], raw), f"Entry number {last + 1} is missing", "", "Add it")
    table = _where((*place[:-1], ""), raw).rpartition(", ")[0]
    return Told(table, f'The key "{last}" is missing', "", "Add it")


def _unknown_key(place: Path, where: str, model: type[BaseModel]) -> Told:
    """Tell of a key that its table does not have, with the nearest one that it has."""
    key = str(place[-1])
    table = _model_at(place, model)
    valid = sorted(info.alias or name for name, info in table.model_fields.items()) if table else []
    if place[0] in {"printer", "filament"}:
        valid.remove("name")
    near = nearest(key, valid)
    todo = f'Did you mean "{near}"?' if near else ""
    if not near and "measures" in valid:
        todo = 'Measures of a tool stand in its table "measures"'
    return Told(where, f'There is no key "{key}" in this table', ", ".join(valid), todo)
