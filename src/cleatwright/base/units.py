"""Lengths, masses and angles from outside, read once at the edge and plain floats from there on.

The grammar of a number is ours; the names of units and their exact factors come from a units
library, which is loaded only when a unit turns up that few people write.

    27.5   27,5 mm   3/4 in   1-3/8"   1 3/8 in   2 ft 3 in   2'-3 1/2"   1 lb 4 oz   -0.1 mm
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from fractions import Fraction
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Any, cast

from cleatwright.base.errors import MeasureError
from cleatwright.base.visible import visible

LONGEST_TEXT = 60

_LOOKALIKES = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'", "−": "-", "–": "-", "⁄": "/"}
)
_NUMBER = re.compile(
    r"(?:(?P<whole>[0-9]+)(?:\s+|\s?-\s?))?(?P<top>[0-9]+)\s?/\s?(?P<bottom>[0-9]+)"
    r"|(?P<plain>(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?![0-9.,]))"
)
_UNIT = re.compile(r"\s*(?P<unit>[A-Za-zµμ]+|''|[\"'°])")
_GAP = re.compile(r"\s*-?\s*")
_UNCLEAR = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


# the library takes a third of a second to load; Source: SI prefixes, and the international yard
# and pound agreement of 1959: 1 yd = 0.9144 m and 1 lb = 0.45359237 kg exactly
_POUND_G = Fraction(45359237, 100_000)
_YARD_M = Fraction(9144, 10_000)
_USUAL: Mapping[tuple[str, str], Fraction] = MappingProxyType(
    {
        ("mm", "meter"): Fraction(1, 1000),
        ("cm", "meter"): Fraction(1, 100),
        ("m", "meter"): Fraction(1),
        ("in", "meter"): _YARD_M / 36,
        ("inch", "meter"): _YARD_M / 36,
        ("ft", "meter"): _YARD_M / 3,
        ("foot", "meter"): _YARD_M / 3,
        ("g", "gram"): Fraction(1),
        ("kg", "gram"): Fraction(1000),
        ("oz", "gram"): _POUND_G / 16,
        ("lb", "gram"): _POUND_G,
    }
)


# a name of so many letters is no symbol; the library takes an s after any
FULL_NAME = 4
OTHER_PLURALS = frozenset({"inch", "inches", "foot", "feet"})
# of symbols only these are used so in the trade
SAID_SO = frozenset({"lb", "yd"})


@dataclass(frozen=True)
class _Quantity:
    """What is measured: its inner unit, that unit's root in the units library, and its signs.

    ``units`` are those of the library, by its names, that workshops use: it knows hundreds, and
    reads "gr" as grains, 15 times lighter than the grams that are meant.
    """

    what: str
    inner: str
    root: str
    units: frozenset[str]
    examples: str
    forms: str
    signs: tuple[tuple[str, str], ...]


_FEET_AND_INCHES = (("'", "foot"), ('"', "inch"), ("''", "inch"))
_LENGTH = _Quantity(
    "length",
    "mm",
    "meter",
    frozenset({"micrometer", "millimeter", "centimeter", "decimeter", "meter"})
    | {"thou", "inch", "foot", "yard"},
    "mm, cm, m, in, ft, yd",
    "27.5, 27,5 mm, 3/4 in, 1-3/8 in, 2 ft 3 in",
    _FEET_AND_INCHES,
)
_MASS = _Quantity(
    "mass",
    "kg",
    "gram",
    frozenset({"milligram", "gram", "kilogram", "ounce", "pound"}),
    "g, kg, oz, lb",
    "0.35, 350 g, 12 oz, 1-1/2 lb, 1 lb 4 oz",
    (),
)
_ANGLE = _Quantity(
    "angle",
    "deg",
    "radian",
    frozenset({"degree", "radian", "turn", "arcminute", "arcsecond"}),
    "deg, rad, turn",
    "45, 22,5 deg, 1/8 turn",
    (("°", "deg"), ("'", "arcminute"), ('"', "arcsecond"), ("''", "arcsecond")),
)


def length_mm(given: float | str, *, unit: str = "mm") -> float:
    """Return a length in mm, from a number that counts in ``unit`` or a text.

    A text may carry its own unit; without one it counts in ``unit`` too.

    Raises:
        MeasureError: The length cannot be read, is not finite, or its unit is no length.

    Source: 1 in = 25.4 mm exactly, international yard and pound agreement of 1959.

    >>> length_mm("1-3/8 in"), length_mm("27,5 mm"), length_mm(2, unit="in")
    (34.925, 27.5, 50.8)
    """
    return _read(given, _LENGTH, unit)


def mass_kg(given: float | str, *, unit: str = "kg") -> float:
    """Return a mass in kg, from a number that counts in ``unit`` or a text.

    Raises:
        MeasureError: The mass cannot be read, is not finite, or its unit is no mass.

    Source: 1 lb = 0.45359237 kg exactly, international yard and pound agreement of 1959.

    >>> mass_kg("350 g"), mass_kg("1 lb")
    (0.35, 0.45359237)
    """
    return _read(given, _MASS, unit)


def angle_deg(given: float | str, *, unit: str = "deg") -> float:
    """Return an angle in degrees, from a number that counts in ``unit`` or a text.

    Raises:
        MeasureError: The angle cannot be read, is not finite, or its unit is no angle.

    >>> angle_deg("22,5°"), angle_deg("1/8 turn")
    (22.5, 45.0)
    """
    return _read(given, _ANGLE, unit)


def is_length_unit(name: str) -> bool:
    """Tell whether ``name`` is a unit of length.

    >>> is_length_unit("in"), is_length_unit("kg")
    (True, False)
    """
    return _known(name, _LENGTH)


def is_mass_unit(name: str) -> bool:
    """Tell whether ``name`` is a unit of mass."""
    return _known(name, _MASS)


def is_angle_unit(name: str) -> bool:
    """Tell whether ``name`` is a unit of angle."""
    return _known(name, _ANGLE)


def plainly(value: object) -> str:
    """Return a value of a document in plain words.

    >>> plainly(True), plainly([1]), plainly("a"), plainly(date(2024, 1, 1))
    ('true', 'A list', '"a"', 'The date 2024-01-01')
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (datetime, date, time)):
        return f"The {'time' if isinstance(value, time) else 'date'} {value}"
    if isinstance(value, Mapping):
        return "A table"
    if isinstance(value, (list, tuple)):
        return "A list"
    return f'"{value}"' if isinstance(value, str) else str(value)


def _read(given: object, quantity: _Quantity, unit: str) -> float:
    """Read one value of a quantity in its inner unit."""
    try:
        if isinstance(given, str):
            return float(_read_text(given, quantity, unit))
        return float(_read_number(given, quantity) * _factor(unit, quantity))
    except OverflowError:
        shown = f'"{given}"' if isinstance(given, str) else "The number"
        raise MeasureError(f"{shown} is too large for a {quantity.what}") from None


def _read_number(given: object, quantity: _Quantity) -> Fraction:
    """Return a bare number as it is."""
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        raise MeasureError(
            f"{plainly(given)} is not a {quantity.what}",
            allowed=f"a number, or a text such as {quantity.forms}",
        )
    if not math.isfinite(given):
        raise MeasureError(f"{given} is not a {quantity.what}", allowed="a finite number")
    return Fraction(given)


def _read_text(given: str, quantity: _Quantity, unit: str) -> Fraction:
    """Read a text: an optional sign, then one or more numbers with units from large to small."""
    unreadable = MeasureError(
        f'"{visible(given[:LONGEST_TEXT])}" cannot be read as a {quantity.what}',
        allowed=f"a number with a unit ({quantity.examples}), such as {quantity.forms}",
    )
    if len(given) > LONGEST_TEXT:
        raise unreadable
    text = _plain_signs(given)
    sign = -1 if text.startswith("-") else 1
    text = text[1:].lstrip() if text[:1] in {"-", "+"} else text
    total = Fraction(0)
    smallest: Fraction | None = None
    at = 0
    while at < len(text):
        number = _NUMBER.match(text, at)
        if number is None:
            raise unreadable
        named = _UNIT.match(text, number.end())
        if named is None and (smallest is not None or number.end() != len(text)):
            raise unreadable
        factor = _factor(named["unit"] if named else unit, quantity)
        if smallest is not None and factor >= smallest:
            raise unreadable
        total += _value(number, given) * factor
        smallest = factor
        end = named.end() if named else number.end()
        at = end if end == len(text) else cast("re.Match[str]", _GAP.match(text, end)).end()
        if at == len(text) and end != len(text):
            raise unreadable
    if smallest is None:
        raise unreadable
    return sign * total


def _plain_signs(text: str) -> str:
    """Replace typographic signs and one-character fractions by their plain spelling."""
    spelled = "".join(
        " " + unicodedata.normalize("NFKC", letter)
        if unicodedata.decomposition(letter).startswith("<fraction>")
        else letter
        for letter in text
    )
    return spelled.translate(_LOOKALIKES).strip()


def _value(number: re.Match[str], given: str) -> Fraction:
    """Return the value of a matched number."""
    plain = number["plain"]
    if plain is not None:
        if _UNCLEAR.fullmatch(plain):
            left, right = plain.split(",")
            raise MeasureError(
                f'"{given}" could mean {left}{right} or {left}.{right}',
                todo=f"Write {left}{right} or {left}.{right} without a comma",
            )
        return Fraction(plain.replace(",", "."))
    bottom = int(number["bottom"])
    if bottom == 0:
        raise MeasureError(f'"{given}" divides by zero', allowed="a fraction such as 3/4")
    return int(number["whole"] or 0) + Fraction(int(number["top"]), bottom)


def _known(name: str, quantity: _Quantity) -> bool:
    """Tell whether a name is a unit of the quantity."""
    try:
        _factor(name, quantity)
    except MeasureError:
        return False
    return True


@cache
def _registry() -> Any:
    """Return the units library; its own annotations know no exact fractions as factors."""
    import pint  # noqa: PLC0415 - takes half a second, and most runs need none

    settings: dict[str, Any] = {"non_int_type": Fraction}
    library: Any = pint
    return library.UnitRegistry(**settings)


def _has_plural(name: str) -> bool:
    """Return whether a unit has a plural in s: a symbol has none, and two names have another one.

    Source: SI Brochure, 9th edition, 5.2: symbols are unaltered in the plural; from memory.

    >>> _has_plural("gram"), _has_plural("kg"), _has_plural("inch")
    (True, False, False)
    """
    return name in SAID_SO or (len(name) >= FULL_NAME and name not in OTHER_PLURALS)


@lru_cache(maxsize=1024)
def _root_factor(name: str, quantity: _Quantity) -> Fraction | None:
    """Return how many root units a named unit has, or None when it is no such unit."""
    if (name, quantity.root) in _USUAL:
        return _USUAL[name, quantity.root]
    registry = _registry()
    one = name.removesuffix("s")
    if one != name and registry.parse_unit_name(one) and not _has_plural(one):
        return None
    for prefix, unit, _ in registry.parse_unit_name(name):
        if prefix + unit in quantity.units:
            return Fraction(registry.get_root_units(prefix + unit)[0])
    return None


@lru_cache(maxsize=1024)
def _factor(unit: str, quantity: _Quantity) -> Fraction:
    """Return how many inner units one ``unit`` has; a unit is read without regard to case."""
    name = dict(quantity.signs).get(unit, unit.strip().lower())
    if name == quantity.inner:
        return Fraction(1)
    root = _root_factor(name, quantity) if re.fullmatch(r"[a-zµμ]+", name) else None
    if root is None:
        raise MeasureError(f'"{unit}" is not a unit of {quantity.what}', allowed=quantity.examples)
    inner = cast("Fraction", _root_factor(quantity.inner, quantity))
    return root / inner
