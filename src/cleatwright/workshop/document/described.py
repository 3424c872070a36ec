"""What a table of the document takes, read off its model: keys, bounds, reasons, choices.

Pages of the manual and forms are made of it, so that a key that is added to a model shows up in
both by itself.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from dataclasses import dataclass
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from annotated_types import Ge, Le
from pydantic import BeforeValidator
from pydantic.fields import FieldInfo

from cleatwright.base.errors import DesignError
from cleatwright.workshop.document import entries, fields
from cleatwright.workshop.document.fields import DocumentTable, Within
from cleatwright.workshop.document.key_words import plain_words

Takes = Literal[
    "length",
    "mass",
    "angle",
    "number",
    "count",
    "name",
    "text",
    "slug",
    "flag",
    "colour",
    "choice",
    "file",
    "readings",
    "table",
    "rows",
    "named",
]
# what the owner does not write as a key: names in the head of a table, measures beside a label
WITHOUT_KEY = ("Printer.name", "Filament.name", "ToolSize.measures", "Sizes.name")
_OF_UNIT: dict[str, Takes] = {"mm": "length", "kg": "mass", "deg": "angle", "": "number"}
_PLAIN: tuple[tuple[Any, Takes], ...] = (
    (fields.Name, "name"),
    (entries.NominalSize, "name"),
    (entries.FileInWorkshop, "file"),
    (fields.Notes, "text"),
    (fields.Words, "text"),
    (fields.Slug, "slug"),
    (fields.Flag, "flag"),
    (fields.Colour, "colour"),
    (fields.ReadingsTable, "readings"),
)


@dataclass(frozen=True)
class DescribedField:
    """One key of a table.

    Args:
        key: As the owner writes it.
        words: What it is for.
        takes: What may stand there.
        many: Of how many values it is a list; 0 for a single value, -1 for as many as wanted.
        low: The least number, in mm, kg, degrees or as it is; None without bounds.
        high: The largest.
        above: True when ``low`` itself is not allowed.
        why: The reason for the bounds, or "".
        estimate: Whether the word "estimate" may stand there.
        choices: The words that may stand there, of a choice.
        needed: Whether it must stand there.
        default: What holds where it is left out, in the inner unit; None for nothing.
        inner: The model of the tables inside, or None.
    """

    key: str
    words: str
    takes: Takes
    many: int = 0
    low: float | None = None
    high: float | None = None
    above: bool = False
    why: str = ""
    estimate: bool = False
    choices: tuple[str, ...] = ()
    needed: bool = False
    default: str | float | bool | None = None
    inner: type[DocumentTable] | None = None


def described(model: type[DocumentTable]) -> tuple[DescribedField, ...]:
    """Return every key of a table, with what a table takes over from another one.

    Raises:
        DesignError: Nobody knows what a field takes.

    >>> [one.key for one in described(fields.DocumentTable)]
    []
    """
    hints = get_type_hints(model, include_extras=True)
    return tuple(
        _field(model, name, hints[name])
        for name in model.model_fields
        if f"{model.__name__}.{name}" not in WITHOUT_KEY
    )


def _field(model: type[DocumentTable], name: str, hint: Any) -> DescribedField:
    info = model.model_fields[name]
    key = info.alias or name
    words = next(
        (found for one in model.__mro__ if (found := plain_words(one.__name__, key))),
        "",
    )
    takes, many, within, inner = _taken(hint)
    word = parted(get_args(parted(hint)[0])[0])[0] if many else parted(hint)[0]
    low, high = (None, None) if within is None else (within.low, within.high)
    core, metadata = parted(hint)
    if core is int:
        low, high = _whole_bounds(metadata)
    return DescribedField(
        key=key,
        words=words,
        takes=takes,
        many=many,
        low=low,
        high=high,
        above=within is not None and within.above,
        why="" if within is None else within.why,
        estimate=within is not None and within.estimate,
        choices=tuple(str(one) for one in get_args(word)) if takes == "choice" else (),
        needed=info.is_required(),
        default=_default(info),
        inner=inner,
    )


def _taken(hint: Any) -> tuple[Takes, int, Within | None, type[DocumentTable] | None]:
    """Return what a field takes, of how many values, their bounds, and the tables inside."""
    core, metadata = parted(hint)
    if is_table(core):
        return "table", 0, None, core
    if get_origin(core) is not tuple:
        return _single(hint), 0, within_of(hint), None
    first, *rest = get_args(core)
    if is_table(first):
        by_name = any(isinstance(one, BeforeValidator) for one in metadata)
        return ("named" if by_name else "rows"), -1, None, first
    many = -1 if rest[-1:] == [Ellipsis] else 1 + len(rest)
    return _single(first), many, within_of(first), None


def _single(hint: Any) -> Takes:
    plain: Takes | None = next((takes for one, takes in _PLAIN if hint in {one, one | None}), None)
    core, within = parted(hint)[0], within_of(hint)
    if plain is not None:
        return plain
    if get_origin(core) is Literal:
        return "choice"
    if within is not None:
        return _OF_UNIT[within.unit]
    if core is int:
        return "count"
    raise DesignError(f"nobody knows what {hint} takes", where="described()")


def _whole_bounds(metadata: tuple[Any, ...]) -> tuple[float, float]:
    bounds = [bound for info in metadata for bound in getattr(info, "metadata", ())]
    low = next(bound.ge for bound in bounds if isinstance(bound, Ge))
    high = next(bound.le for bound in bounds if isinstance(bound, Le))
    return float(str(low)), float(str(high))


def _default(info: FieldInfo) -> str | float | bool | None:
    if info.is_required():
        return None
    value: Any = info.default
    return value if isinstance(value, (str, int, float, bool)) else None


def tables_of(model: type[DocumentTable]) -> Iterator[type[DocumentTable]]:
    """Yield a table of the document and every table inside it."""
    yield model
    for hint in fields_of(model).values():
        core = parted(hint)[0]
        inner = get_args(core)[0] if get_origin(core) is tuple else core
        if is_table(inner):
            yield from tables_of(inner)


def fields_of(model: type[DocumentTable]) -> dict[str, Any]:
    """Return the types of a table's own fields with all that is noted on them."""
    hints = get_type_hints(model, include_extras=True)
    named = {name: f"{model.__name__}.{name}" for name in model.model_fields}
    # what a table takes over from another one is told there
    above: Any = [base for base in model.__bases__ if is_table(base)]
    told = {str(name) for base in above for name in base.model_fields}
    told -= inspect.get_annotations(model).keys()
    return {
        name: hints[name]
        for name, full in named.items()
        if full not in WITHOUT_KEY and name not in told
    }


def parted(hint: Any) -> tuple[Any, tuple[Any, ...]]:
    """Return a type without "or none", and what is noted on it."""
    metadata: tuple[Any, ...] = ()
    while get_origin(hint) in {Annotated, Union, UnionType}:
        if get_origin(hint) is Annotated:
            metadata += hint.__metadata__
            hint = hint.__origin__
        else:
            hint = next(one for one in get_args(hint) if one is not type(None))
    return hint, metadata


def within_of(hint: Any) -> Within | None:
    """Return the bounds noted on a type."""
    return next((one for one in parted(hint)[1] if isinstance(one, Within)), None)


def is_table(core: Any) -> bool:
    """Tell whether a type is a table of the document."""
    return inspect.isclass(core) and issubclass(core, DocumentTable)
