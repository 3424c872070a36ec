"""Sentences as a page says them: whoever reads it sees forms, and not the lines of the document.

The line to write stays with the command line; a page names the thing and has a place for it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated

from pydantic import BeforeValidator

NAMES: Mapping[str, str] = MappingProxyType(
    {
        "holder": "holder",
        "rail.stock": "board",
        "wall.obstacle": "obstacle",
        "panel.obstacle": "obstacle",
    }
)
"""What stands in a row of tables is called on a page; anything else by the last step of its key."""

_PLANS = r'press "Show the plans" and choose \1'
_PLACE = r'place = \{ x = "([^"]*)", z = "([^"]*)" \}'
_NAMES = r'"[^"]*"(?:, "[^"]*")*'
_NEW = rf'a new \[\[holder\]\] with tools = \[({_NAMES})\] and family = "[^"]*"'
_PUT = r"put \3 at x \1, z \2 on the wall"
COMMANDS: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"\bsay make --(?:change|plan) (\w+)"), _PLANS),
    (re.compile(r"\bsee plans, and make --plan (\w+)"), _PLANS),
    (re.compile(r"\bsay (?:hung|so with) --anyway"), 'press "It hangs so, and I have seen to it"'),
    (re.compile(r", as with arrange --effort \d+"), ""),
    (re.compile(r": make --regroup\b"), ': press "Show the plans" and choose afresh'),
    (re.compile(r', or write change = "\w+" under \[defaults\]'), ""),
    (re.compile(rf"\bwrite {_PLACE} in {_NEW}"), _PUT),
    (re.compile(rf"\bwrite {_PLACE} in (the \[\[\w+\]\] (?:with )?{_NAMES})"), _PUT),
    (re.compile(rf"\bWrite {_PLACE} in {_NEW}"), f"P{_PUT[1:]}"),
    (re.compile(rf"\bWrite {_PLACE} in (the \[\[\w+\]\] (?:with )?{_NAMES})"), f"P{_PUT[1:]}"),
    (re.compile(rf"\bIn {_NEW}, leave"), "Leave"),
    (re.compile(rf"\bin {_NEW}, leave"), "leave"),
    (re.compile(r"\bmade_of\b"), '"made of"'),
)
"""What is said of a command and its options, and what is pressed for it on a page."""

_AMONG = re.compile(r"\bunder \[\[([\w.]+)\]\]")
_ROW = re.compile(r"\[\[([\w.]+)\]\]")
_TABLE = re.compile(r"(?:\bthe )?\[(defaults|filament|person|printer|rail|wall)((?:\.[\w-]+)?)\]")
_INLINE = re.compile(r"\{ ([^{}]*) \}")
_VALUE = re.compile(r"\b([a-z][a-z0-9_]*) = ")
# a key that is named in a sentence, but no file and no name that a person gave
_KEY = re.compile(r'(?<![\w"./-])[a-z]+(?:_[a-z0-9]+)+(?![\w"./-])|(?<=key ")[a-z_]+(?=")')


def page_words(text: str) -> str:
    """Return a sentence without the notation of the document.

    >>> page_words("Write a [[rail.stock]] with a length of at least 900 mm.")
    'Write a board with a length of at least 900 mm.'
    >>> page_words("Give its tools a [[holder]] of their own")
    'Give its tools a holder of their own'
    >>> page_words('Hang it on a [[carrier]] with screw_count = 2, or by mount = "screwed".')
    'Hang it on a carrier with screw count 2, or by mount "screwed".'
    >>> page_words('write place = { x = "120 mm", z = "40 mm" } in the [[holder]] with "Awl"')
    'put the holder with "Awl" at x 120 mm, z 40 mm on the wall'
    >>> page_words("No boards are given under [[rail.stock]]; rails are listed, not cut.")
    'No boards are given among the boards; rails are listed, not cut.'
    >>> page_words("the height and the min_gap of [rail]")
    'the height and the min gap of the rail'
    >>> page_words("change bench_depth or the [person]")
    'change bench depth or the person'
    >>> page_words('panel "my_lid", key "floor_gap": it is 3 mm')
    'panel "my_lid", key "floor gap": it is 3 mm'
    >>> page_words('Write place = { x = "1 mm", z = "2 mm" } in a new [[holder]] with '
    ...            'tools = ["Awl #1", "Awl #2"] and family = "yoke", or leave its place out')
    'Put "Awl #1", "Awl #2" at x 1 mm, z 2 mm on the wall, or leave its place out'
    >>> page_words('Write a [[stud]], or made_of if it is brick')
    'Write a stud, or "made of" if it is brick'
    >>> page_words("It would need 2 fewer: make --regroup.")
    'It would need 2 fewer: press "Show the plans" and choose afresh.'
    >>> page_words('say make --change moves, or write change = "moves" under [defaults]')
    'press "Show the plans" and choose moves'
    >>> page_words("to allow it, say make --change moves")
    'to allow it, press "Show the plans" and choose moves'
    """
    for command, pressed in COMMANDS:
        text = command.sub(pressed, text)
    text = _AMONG.sub(lambda found: f"among the {_name(found[1])}s", text)
    text = _ROW.sub(lambda found: _name(found[1]), text)
    text = _INLINE.sub(r"\1", text)
    text = _VALUE.sub(lambda found: f"{found[1]} ", text)
    text = _TABLE.sub(lambda found: f"the {found[1]}{found[2].replace('.', ' ')}", text)
    return _KEY.sub(lambda found: found[0].replace("_", " "), text)


def _name(key: str) -> str:
    return NAMES.get(key, key.rsplit(".", 1)[-1].replace("_", " "))


Sentence = Annotated[str, BeforeValidator(page_words)]
"""A sentence for people."""
