"""How single values of the document are read: measures with units, names, colours.

In the document a key has no unit; in the model the unit ends the name. A bare
length counts in the document's ``units``, which the validation context carries.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Annotated, Any, Self, cast

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    PlainValidator,
    StringConstraints,
    ValidationError,
    ValidationInfo,
)
from pydantic_core import CoreSchema, InitErrorDetails, PydanticCustomError, core_schema

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import content_key
from cleatwright.base.units import angle_deg, length_mm, mass_kg, plainly
from cleatwright.base.visible import JOINERS, LINE_SIGNS, code_point, is_plain

Count = Annotated[int, Field(strict=True)]

ESTIMATE = "estimate"
LONGEST_MEASURE_MM = 10_000.0
UNIT_ENDINGS = ("_kg_m3", "_mm", "_kg", "_deg")
OUT_OF_BOUNDS = "is out of bounds"
NAME_INSIDE = "name (inside the table)"
# keys that end in s and name no row of tables
ONE_TABLE = frozenset({"units", "defaults", "drawings", "reserved_seats"})


def key_of(field: str) -> str:
    """Return the key that the owner writes for a field of the model.

    >>> key_of("width_mm"), key_of("price_per_kg"), key_of("name")
    ('width', 'price_per_kg', 'name')
    """
    if "_per_" in field:
        return field
    for ending in UNIT_ENDINGS:
        if field.endswith(ending):
            return field.removesuffix(ending)
    return field


def row_key_of(field: str) -> str:
    """Return the key of a field whose tables stand in rows: one ``[[tool]]`` for each of ``tools``.

    >>> row_key_of("tools"), row_key_of("wall"), row_key_of("units"), row_key_of("thickness_mm")
    ('tool', 'wall', 'units', 'thickness')
    """
    key = key_of(field)
    return key if key != field or field in ONE_TABLE else key.removesuffix("s")


class DocumentTable(BaseModel):
    """Base of all tables of the document: frozen, no unknown keys, finite numbers."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        alias_generator=key_of,
        populate_by_name=True,
    )

    @cached_property
    def content_key(self) -> str:
        """The content key of the table and all tables in it."""
        return content_key(tuple(getattr(self, name) for name in type(self).model_fields))

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """Return a copy, changed as ``update`` says; what follows from its values is its own."""
        copied = super().model_copy(update=update, deep=deep)
        for name in set(vars(copied)) - set(type(self).model_fields):
            del vars(copied)[name]
        return copied


def problem(
    text: str,
    *,
    allowed: str = "",
    todo: str = "",
    line: str = "",
    keys: tuple[str, ...] = (),
    also: tuple[tuple[str | int, ...], ...] = (),
    meant: str = "",
) -> PydanticCustomError:
    """Return a validation problem that keeps what is allowed and what to do apart.

    Args:
        text: What is wrong.
        allowed: What would be right.
        todo: What to do.
        line: The line to write, where there is one.
        keys: The keys of the table that are at odds, when the problem is that of a table.
        also: Other keys that may be the wrong ones, each from the outermost table on.
        meant: The name that was meant with one that does not exist, if one is near.
    """
    kept = {"given": text, "allowed": allowed, "todo": todo, "line": line, "meant": meant}
    return PydanticCustomError("workshop", "{given}", {**kept, "keys": keys, "also": also})


def problems(found: list[tuple[tuple[str | int, ...], object, PydanticCustomError]]) -> Exception:
    """Return one exception for several problems, each with its place and its value."""
    lines: list[InitErrorDetails] = [
        {"type": error, "loc": place, "input": value} for place, value, error in found
    ]
    return ValidationError.from_exception_data("workshop", lines)


def _units(info: ValidationInfo[Any]) -> str:
    """Return the unit in which bare lengths count."""
    context = info.context
    return str(context["units"]) if context else "mm"


def _read_length(value: object, info: ValidationInfo[Any]) -> float:
    return length_mm(cast("Any", value), unit=_units(info))


def _read_angle(value: object, _info: ValidationInfo[Any]) -> float:
    return angle_deg(cast("Any", value))


# a number, or a fraction, and nothing else
_BARE = re.compile(r"\s*[+-]?[\d.,/ -]+\s*$")


def _read_mass(value: object, info: ValidationInfo[Any]) -> float:
    if not isinstance(value, str) and _units(info) != "mm":
        raise MeasureError(
            f"{plainly(value)} does not say in which unit it is",
            allowed="a text with a unit, such as 350 g or 12 oz",
        )
    if isinstance(value, str) and _BARE.match(value):
        raise MeasureError(
            f"{plainly(value)} does not say in which unit it is",
            allowed="a text with a unit, such as 350 g or 12 oz; a bare number is in kg",
        )
    return mass_kg(cast("Any", value))


def _read_number(value: object, _info: ValidationInfo[Any]) -> float:
    return _plain_number(value)


def _plain_number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise MeasureError(
            f"{plainly(value)} is not a number", allowed="a number without quotation marks"
        )
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise MeasureError("The number is not finite", allowed="a finite number")
    return number


_READERS = {
    "mm": _read_length,
    "kg": _read_mass,
    "deg": _read_angle,
    "": _read_number,
}


@dataclass(frozen=True)
class Within:
    """Marks a field as a measure with bounds.

    Args:
        unit: "mm", "kg", "deg", or "" for a plain number.
        low: Smallest value.
        high: Largest value.
        above: True when ``low`` itself is not allowed.
        why: The reason for the bounds, when it is not plain.
        estimate: True when the word "estimate" may stand for an unknown value.
    """

    unit: str
    low: float
    high: float
    above: bool = False
    why: str = ""
    estimate: bool = False

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Read the value before pydantic sees it."""
        return core_schema.with_info_before_validator_function(self.read, handler(source))

    @property
    def allowed(self) -> str:
        """Return the bounds in words."""
        unit = f" {self.unit}" if self.unit else ""
        low, high = f"{self.low:g}{unit}", f"{self.high:g}{unit}"
        if self.unit == "mm":
            low, high = said.first(self.low), said.most(self.high)
        elif self.unit == "kg":
            low, high = said.mass(self.low, ".0f"), said.mass(self.high, ".0f")
        words = f"more than {low} and at most {high}" if self.above else f"from {low} to {high}"
        words += f', or "{ESTIMATE}"' if self.estimate else ""
        return f"{words} ({self.why})" if self.why else words

    def read(self, value: object, info: ValidationInfo[Any]) -> float | None:
        """Return the value in its inner unit.

        Raises:
            PydanticCustomError: The value cannot be read or is out of bounds.
        """
        if value is None or (self.estimate and value == ESTIMATE):
            return None
        try:
            number = _READERS[self.unit](value, info)
        except MeasureError as error:
            allowed = f"{error.allowed}; {self.allowed}" if error.allowed else self.allowed
            raise problem(error.given, allowed=allowed, todo=error.todo) from None
        if number < self.low or number > self.high or (self.above and number == self.low):
            unit = _units(info) if self.unit == "mm" else self.unit
            shown = f"{value} {unit}".rstrip() if not isinstance(value, str) else f'"{value}"'
            raise problem(f"{shown} {OUT_OF_BOUNDS}", allowed=self.allowed)
        return number


def _shown(value: object) -> str:
    """Show a value as the owner wrote it."""
    return f'"{value}"' if isinstance(value, str) else f"{value}"


@dataclass(frozen=True)
class Readings:
    """Named measures as written and as read.

    Args:
        given: Names and values as the owner wrote them.
        values: The same names with mm, or degrees, counts and shares for names that end so.
    """

    given: tuple[tuple[str, float | str], ...] = ()
    values: tuple[tuple[str, float], ...] = ()

    def as_dict(self) -> dict[str, float]:
        """Return the values by name."""
        return dict(self.values)

    def merged(self, other: Readings) -> Readings:
        """Return these readings with those of ``other`` in place of equal names."""
        return Readings(
            tuple((dict(self.given) | dict(other.given)).items()),
            tuple((dict(self.values) | dict(other.values)).items()),
        )


def is_length(name: str) -> bool:
    """Tell whether a measure of that name is a length; else it is told by its last word.

    >>> is_length("shank_length"), is_length("lean_deg"), is_length("teeth_count")
    (True, False, False)
    """
    return _last_word(name) not in {"share", "count", "deg"}


def _last_word(name: str) -> str:
    return name.rpartition("_")[2]


def read_measure(name: str, value: object, *, units: str) -> float:
    """Return one named measure in mm, or by the last word of its name: deg, count or share.

    Raises:
        MeasureError: The name or the value cannot be used.
    """
    plain = name.isascii() and name.isidentifier() and name == name.lower() and name[0] != "_"
    if not plain or len(name) > 40 or name.endswith(("_mm", "_kg")):
        raise MeasureError(
            f'"{name}" is not a name of a measure',
            allowed="lower-case letters, digits and underscores, without a unit at the end",
        )
    last = _last_word(name)
    if last == "share":
        return _plain_number(value)
    if last == "count":
        if isinstance(value, bool) or not isinstance(value, int) or abs(value) > 10_000:
            raise MeasureError(f"{_shown(value)} is not a count", allowed="a whole number")
        return float(value)
    unit, inner = (units, "mm") if last != "deg" else ("deg", "deg")
    if last == "deg":
        number = angle_deg(cast("Any", value))
    else:
        number = length_mm(cast("Any", value), unit=units)
    if abs(number) > LONGEST_MEASURE_MM:
        shown = _shown(value) if isinstance(value, str) else f"{value} {unit}"
        most = said.most(LONGEST_MEASURE_MM) if inner == "mm" else f"{LONGEST_MEASURE_MM:g} {inner}"
        raise MeasureError(f"{shown} {OUT_OF_BOUNDS}", allowed=f"up to {most}")
    return number


def _read_readings(value: object, info: ValidationInfo[Any]) -> Readings:
    """Read a table of measures; every wrong entry is reported."""
    if isinstance(value, Readings):
        return value
    if not isinstance(value, Mapping):
        raise problem(f"{_shown(value)} is not a table", allowed="a table of names and measures")
    wrong: list[tuple[tuple[str | int, ...], object, PydanticCustomError]] = []
    given: list[tuple[str, float | str]] = []
    values: list[tuple[str, float]] = []
    for name, one in cast("Mapping[str, Any]", value).items():
        try:
            values.append((name, read_measure(name, one, units=_units(info))))
            given.append((name, one))
        except MeasureError as error:
            fault = problem(error.given, allowed=error.allowed, todo=error.todo)
            wrong.append(((name,), one, fault))
    if wrong:
        raise problems(wrong)
    return Readings(tuple(given), tuple(values))


def _one_line(text: str) -> str:
    """Return a text on one line, with single spaces; a no-break space counts as a space."""
    plain = " ".join(text.split())
    if not plain:
        raise problem("A name needs letters or digits")
    strange = next((sign for sign in plain if not is_plain(sign)), None)
    if strange is not None:
        # two names that look alike would be two tools
        raise problem(
            f"The name has the sign {code_point(strange)}, which cannot be seen",
            todo="Delete it, or write the name anew",
        )
    return plain


def _somebody(names: tuple[str, ...]) -> tuple[str, ...]:
    """Return who takes something; a list of nobody says nothing."""
    if not names:
        raise problem(
            "Nobody is named here",
            allowed="the names of people",
            todo="Name somebody, or leave the key out: every adult takes it then, or who its group "
            "says",
        )
    return names


def _says_something(text: str) -> str:
    """Return a text that is not blank."""
    if not text.strip():
        raise problem(
            "Nothing is written here", allowed="some words", todo="Write them, or leave the key out"
        )
    return text


def _no_controls(text: str) -> str:
    """Return a text that may have several lines."""
    kept = JOINERS | LINE_SIGNS
    strange = next((sign for sign in text if not is_plain(sign) and sign not in kept), None)
    if strange is not None:
        raise problem(
            f"The text has the sign {code_point(strange)}, which cannot be seen", todo="Delete it"
        )
    return text


ReadingsTable = Annotated[Readings, PlainValidator(_read_readings)]
Flag = Annotated[bool, Field(strict=True)]
Name = Annotated[
    str, StringConstraints(strict=True, min_length=1, max_length=80), AfterValidator(_one_line)
]
Notes = Annotated[
    str, StringConstraints(strict=True, max_length=2000), AfterValidator(_no_controls)
]
Words = Annotated[Notes, AfterValidator(_says_something)]
People = Annotated[tuple[Name, ...], Field(max_length=50), AfterValidator(_somebody)]
Slug = Annotated[str, StringConstraints(strict=True, max_length=60, pattern="^[a-z][a-z0-9-]*$")]
Colour = Annotated[str, StringConstraints(strict=True, pattern="^#[0-9a-fA-F]{6}$")]
