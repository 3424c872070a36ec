"""Content keys: the same value always gets the same key, in any process and on any day."""

from __future__ import annotations

import hashlib
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

CROCKFORD = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
CHECK = CROCKFORD + "*~$=U"
UNSAFE = "*~$="
MARK_LENGTH = 6


def _canonical(value: object) -> str:  # noqa: C901, PLR0911, PLR0912 - one return per type of value
    """Spell a value without ambiguity: every string is prefixed by its length."""
    # outlines are made of these two, so they come first
    if type(value) is float:
        return f"f{value + 0.0!r}"
    if type(value) is tuple:
        members = cast("tuple[object, ...]", value)
        # most are numbers, and a call for each would take most of the time
        spelt = [f"f{v + 0.0!r}" if type(v) is float else _canonical(v) for v in members]
        return "(" + ",".join(spelt) + ")"
    if type(value) is int:
        return f"i{value}"
    if type(value) is str:
        return f"s{len(value)}:{value}"
    if type(value) is dict:
        items = cast("dict[object, object]", value)
        keys = sorted(items, key=str)
        inner = ",".join([f"{_canonical(key)}={_canonical(items[key])}" for key in keys])
        return "{" + inner + "}"
    if value is None or isinstance(value, bool):
        return repr(value)
    if isinstance(value, Enum):
        return f"{type(value).__name__}.{value.name}"
    if isinstance(value, int):
        return f"i{value}"
    if isinstance(value, float):
        return f"f{value + 0.0!r}"
    if isinstance(value, str):
        return f"s{len(value)}:{value}"
    if isinstance(value, frozenset):
        unsorted = map(_canonical, cast("frozenset[object]", value))
        return "{" + ",".join(sorted(unsorted)) + "}"
    if isinstance(value, bytes):
        return f"b{hashlib.sha256(value).hexdigest()}"
    if isinstance(value, (tuple, list)):
        return "(" + ",".join(_canonical(v) for v in cast("tuple[object, ...]", value)) + ")"
    known = getattr(value, "content_key", None)
    if isinstance(known, str):
        return f"k{known}"
    if is_dataclass(value):
        inner = ",".join([_canonical(getattr(value, f.name)) for f in fields(value) if f.compare])
        return f"{type(value).__name__}[{inner}]"
    raise TypeError(f"{type(value).__name__} has no content key")


def content_key(value: object) -> str:
    """Return the SHA-256 key, 64 hex digits, of a value made of plain data and frozen dataclasses.

    Negative zero counts as zero; dictionaries and sets count without regard to their order. What
    has a ``content_key`` of its own counts by it, and a field that is not compared not at all.

    >>> content_key({"a": 1, "b": 2.0}) == content_key({"b": 2.0, "a": 1})
    True
    """
    return hashlib.sha256(_canonical(value).encode()).hexdigest()


def fields_key(value: DataclassInstance) -> str:
    """Return the content key of a value by its fields, for one that keeps its own key."""
    own = tuple(getattr(value, name) for name in value.__dataclass_fields__)
    return content_key((type(value).__name__, own))


def mark_from_key(key: str) -> str:
    """Return the part mark of a content key: six base-32 characters and a check character.

    The alphabet and the check character (remainder by 37) are those of
    Crockford's base 32, which leaves out I, L, O and U. A body whose check
    character has no place in a file name is passed over for the next digits of the key.
    """
    number = int(key, 16)
    while True:
        number, body = divmod(number, 32**MARK_LENGTH)
        if CHECK[body % 37] not in UNSAFE:
            return spell(body)
        number += 1


def spell(body: int) -> str:
    """Return the digits of ``body`` with the check character behind them."""
    text, rest = CHECK[body % 37], body
    for _ in range(MARK_LENGTH):
        rest, digit = divmod(rest, 32)
        text = CROCKFORD[digit] + text
    return text


def read_mark(text: str) -> str | None:
    """Return the mark in its normal spelling, or None when its check character is wrong.

    Small letters, spaces and hyphens are forgiven, and so are O for 0 and I or L for 1.
    """
    plain = text.strip().upper().replace("-", "").replace(" ", "")
    if len(plain) != MARK_LENGTH + 1:
        return None
    body = plain[:-1].translate(str.maketrans("OIL", "011"))
    check = plain[-1].translate(str.maketrans("OIL", "011"))
    if any(letter not in CROCKFORD for letter in body):
        return None
    number = 0
    for letter in body:
        number = number * 32 + CROCKFORD.index(letter)
    return body + check if CHECK[number % 37] == check else None
