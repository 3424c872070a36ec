"""Validation problems in the words of the document: table, key, value, allowed, what to do."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, cast, get_args

from annotated_types import Ge, Le
from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from cleatwright.base.errors import DocumentError, nearest
from cleatwright.base.gathering import MOST_TOLD, several
from cleatwright.base.place import InDocument, Path, Step, TableStep
from cleatwright.base.visible import visible
from cleatwright.workshop.document.fields import NAME_INSIDE, OUT_OF_BOUNDS

Loc = tuple[str | int, ...]

MOST_WRITTEN = 200
CANNOT_BE_USED = "entries cannot be used"

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
# the words of a list as the library of the models quotes them
_WORDS = re.compile(r"'([^']*)'")
_PATTERNS = {
    "#": "a colour such as #3060c0",
    "^": "lower-case letters, digits and hyphens, beginning with a letter",
}


def document_error(
    error: ValidationError, *, raw: Mapping[str, Any], model: type[BaseModel], file: str
) -> DocumentError:
    """Return one error that names every problem, in the order of the document."""
    found = error.errors(include_url=False)
    faults = [one.in_file(file) for one in document_faults(found, raw=raw, model=model)]
    left = max(0, len(found) - MOST_TOLD)
    if len(faults) == 1 and not left:
        return faults[0]
    return several(faults, CANNOT_BE_USED, more=left)


def document_faults(
    found: Sequence[ErrorDetails], *, raw: Mapping[str, Any], model: type[BaseModel]
) -> list[DocumentError]:
    """Return an error for each of the first problems, in the order of the document."""
    misspelt = {_meant(one, model) for one in found if one["type"] == "extra_forbidden"}
    # a key is not missing that stands there with another spelling
    found = [one for one in found if one["type"] != "missing" or one["loc"] not in misspelt]
    found = sorted(found, key=lambda one: _position(one["loc"], raw))
    if any(one["loc"] == ("units",) for one in found):
        # no length is known to be out of bounds while nobody knows its unit
        found = [one for one in found if not _is_bound(one)]
    faults = [_fault(one, raw, model) for one in found[:MOST_TOLD]]
    return list({(fault.place, fault.sentence): fault for fault in faults}.values())


def mend_of(one: ErrorDetails, model: type[BaseModel]) -> tuple[Loc, object] | None:
    """Return where to write what so that a misspelt key or word is as it was meant, or None."""
    if one["type"] == "extra_forbidden" and (meant := _meant(one, model)):
        return meant, one["input"]
    if one["type"] == "literal_error" and (word := _nearest_word(one)):
        return one["loc"], word
    if meant := (one.get("ctx") or {}).get("meant", ""):
        return one["loc"], meant
    return None


def _meant(one: ErrorDetails, model: type[BaseModel]) -> Loc:
    """Return the place of the key that was meant with a key that does not exist, or ()."""
    loc = one["loc"]
    near = nearest(str(loc[-1]), _valid_keys(loc, model))
    return (*loc[:-1], near) if near else ()


def _nearest_word(one: ErrorDetails) -> str:
    """Return the word of a list of words that was meant, or ""."""
    words = _WORDS.findall(str((one.get("ctx") or {}).get("expected", "")))
    return nearest(one["input"], words) if isinstance(one["input"], str) else ""


def _is_bound(one: ErrorDetails) -> bool:
    """Tell whether a problem is that a measure is out of bounds."""
    given = (one.get("ctx") or {}).get("given", "")
    return one["type"] == "workshop" and given.endswith(OUT_OF_BOUNDS)


def _position(place: Loc, raw: Any) -> tuple[int, ...]:
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
        return table if _in_between(step, table, last=False) else table.get(step)
    if isinstance(raw, (list, tuple)) and isinstance(step, int):
        rows = list(cast("list[Any]", raw))
        return rows[step] if step < len(rows) else None
    return None


def path_in(place: Loc, raw: Any) -> Path:
    """Return the path of a place in the document as it is written."""
    found: list[Step] = []
    for depth, step in enumerate(place):
        inner: Any = _step(raw, step)
        if isinstance(step, int) and isinstance(raw, Mapping):
            found.append(TableStep(None, list(cast("Mapping[str, Any]", raw))[step]))
        elif isinstance(step, int):
            named = _step(inner, "name")
            title = named if isinstance(named, str) else ""
            found.append(TableStep(step, title) if _is_table(inner) else step)
        elif not _in_between(step, raw, last=depth == len(place) - 1):
            found.append(step)
        raw = inner
    return tuple(found)


def _in_between(step: str, raw: Any, *, last: bool) -> bool:
    """Tell whether a step is one of the model alone: its keys stand in the table around it."""
    return step in {"measures", "params"} and not last and not _has(raw, step)


def _is_table(raw: Any) -> bool:
    return isinstance(raw, Mapping)


def _has(raw: Any, key: str) -> bool:
    return isinstance(raw, dict) and key in cast("dict[str, Any]", raw)


def _model_at(place: Loc, model: type[BaseModel]) -> type[BaseModel] | None:
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


def _fault(one: ErrorDetails, raw: Mapping[str, Any], model: type[BaseModel]) -> DocumentError:
    """Return one problem as an error; no sign in it acts on a terminal or begins a line."""
    loc = one["loc"]
    if loc and loc[-1] == NAME_INSIDE:
        loc = (*loc[:-1], "name")
    elif _is_heading(loc):
        loc = loc[:-1]
    context: Mapping[str, Any] = one.get("ctx") or {}
    if one["type"] == "workshop":
        return _own(loc, raw, context)
    if one["type"] == "missing":
        return _missing(loc, raw)
    if one["type"] == "extra_forbidden":
        return _unknown_key(one, loc, raw, model)
    place = InDocument((path_in(loc, raw),))
    shown = visible(_shown(one["input"]))
    if loc == ("schema",):
        return DocumentError(
            f"schema = {shown} is not known",
            place=place,
            allowed="schema = 1",
            todo="Use a later version of the program for a later schema",
        )
    what = OUT_OF_BOUNDS if one["type"] in _NUMBER_BOUNDS else "does not belong here"
    allowed = _tables_at(loc, one["type"], model) or _allowed(one, context)
    if one["type"] in _NUMBER_BOUNDS:
        allowed = _both_bounds(loc, model) or allowed
    if one["type"] == "too_long":
        shown, what = f"A list of {context['actual_length']} entries", "is too long"
    word = _nearest_word(one) if one["type"] == "literal_error" else ""
    return DocumentError(
        f"{shown} {what}",
        place=place,
        allowed=visible(allowed),
        todo=f'Did you mean "{word}"?' if word else "",
        line=f'{loc[-1]} = "{word}"' if word and isinstance(loc[-1], str) else "",
    )


def _is_heading(loc: Loc) -> bool:
    """Tell whether the name is at fault that a table has in its heading."""
    return len(loc) == 3 and loc[0] in NAMED and loc[-1] == "name"


def _own(loc: Loc, raw: Mapping[str, Any], context: Mapping[str, Any]) -> DocumentError:
    """Return a problem that the model of the document put into words itself."""
    path = path_in(loc, raw)
    keys: tuple[str, ...] = context["keys"]
    also: tuple[Loc, ...] = context["also"]
    value: object = raw
    for step in loc:
        value = _step(value, step)
    whole = bool(loc) and (isinstance(value, Mapping) or isinstance(loc[-1], int))
    place = InDocument((path,), spoken="table" if whole else "key") if loc else InDocument()
    if keys:
        place = InDocument(tuple((*path, key) for key in keys), spoken="named")
    if also:
        paths = (*place.paths, *(path_in(one, raw) for one in also))
        place = InDocument(paths, spoken="named" if keys else "first")
    return DocumentError(
        visible(context["given"]),
        place=place,
        allowed=visible(context["allowed"]),
        todo=visible(context["todo"]),
        line=context["line"],
    )


def _both_bounds(place: Loc, model: type[BaseModel]) -> str:
    """Say between which numbers a key may be, where it has both bounds, or ""."""
    table = _model_at(place, model)
    if table is None:
        return ""
    for name, info in table.model_fields.items():
        if place[-1] in {info.alias, name}:
            marks = [*info.metadata, *_marks(info.annotation)]
            low = next((one.ge for one in marks if isinstance(one, Ge)), None)
            high = next((one.le for one in marks if isinstance(one, Le)), None)
            return "" if low is None or high is None else f"from {low} to {high}"
    return ""


def _marks(annotation: object) -> Iterator[object]:
    """Yield what marks an annotation such as ``Annotated[int, Ge(3)] | None``, at any depth."""
    for one in getattr(annotation, "__metadata__", ()):
        yield from one.metadata if isinstance(one, FieldInfo) else (one,)
    for one in get_args(annotation):
        yield from _marks(one)


def _tables_at(place: Loc, kind: str, model: type[BaseModel]) -> str:
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


def _missing(place: Loc, raw: Mapping[str, Any]) -> DocumentError:
    """Tell of a key or of an entry of a list that is not there."""
    last = place[-1]
    if isinstance(last, int):
        return DocumentError(
            f"Entry number {last + 1} is missing",
            place=InDocument((path_in(place[:-1], raw),)),
            todo="Add it",
        )
    return DocumentError(
        f'The key "{last}" is missing',
        place=InDocument(((*path_in(place[:-1], raw), last),), spoken="named"),
        todo="Add it",
    )


def _unknown_key(
    one: ErrorDetails, place: Loc, raw: Mapping[str, Any], model: type[BaseModel]
) -> DocumentError:
    """Tell of a key that its table does not have, with the nearest one that it has."""
    key, valid = str(place[-1]), _valid_keys(place, model)
    near = nearest(key, valid)
    todo = f'Did you mean "{near}"?' if near else ""
    if not near and "measures" in valid:
        todo = 'Measures of a tool stand in its table "measures"'
    return DocumentError(
        f'There is no key "{visible(key)}" in this table',
        place=InDocument((path_in(place, raw),)),
        allowed=", ".join(valid),
        todo=todo,
        line=f"{near} = {written}" if near and (written := _written(one["input"])) else "",
    )


def _valid_keys(place: Loc, model: type[BaseModel]) -> list[str]:
    """Return the keys of the table in which a place lies."""
    table = _model_at(place, model)
    valid = sorted(info.alias or name for name, info in table.model_fields.items()) if table else []
    if place[0] in {"printer", "filament"}:
        valid.remove("name")
    return valid


def _written(value: object) -> str:
    """Return a plain value as TOML, or "" for one that takes more than a few signs."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        # the same escapes hold in both, and what is not ASCII is written with them
        return json.dumps(value) if len(value) <= MOST_WRITTEN else ""
    return repr(value) if isinstance(value, (int, float)) and math.isfinite(value) else ""
