"""What each key of ``workshop.toml`` is for, in the words of the manual."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path

_FILE = Path(__file__).with_name("key_words.toml")
_LINK = re.compile(r"\[([^\]]+)\]\([^)]+\)")

KEY_WORDS: Mapping[str, Mapping[str, str]] = tomllib.loads(_FILE.read_text(encoding="utf-8"))
"""By the name of a model and by the key, as the pages in docs/ show them."""


def plain_words(model: str, key: str) -> str:
    """Return what a key is for without links and marks of a page; "" where nothing is known.

    >>> plain_words("Workshop", "rail"), plain_words("Person", "hand")
    ('how rails are made', 'the hand that takes the tools')
    """
    return _LINK.sub(r"\1", KEY_WORDS.get(model, {}).get(key, "")).replace("`", "")
