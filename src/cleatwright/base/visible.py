"""Texts from outside, safe to show: what a terminal would obey is spelled as its code."""

from __future__ import annotations

import unicodedata

# they join or part letters of several scripts, and act on nothing else
JOINERS = frozenset("\u200c\u200d")
LINE_SIGNS = frozenset("\n\t")


def is_plain(sign: str) -> bool:
    r"""Tell whether a sign only shows or parts words; a no-break space does.

    >>> [is_plain(sign) for sign in ("a", " ", "\u00a0", "\x1b", "\u202e", "\n")]
    [True, True, True, False, False, False]
    """
    return sign.isprintable() or unicodedata.category(sign) == "Zs"


def visible(text: str, *, lines: bool = False) -> str:
    r"""Return a text in which every sign that acts instead of showing is spelled as its code.

    Args:
        text: Any text, from anywhere.
        lines: True when ends of lines and tabs stay what they are.

    >>> visible("Saw\x1b[2J"), visible("a\nb"), visible("a\nb", lines=True)
    ('Saw\\x1b[2J', 'a\\x0ab', 'a\nb')
    """
    if text.isprintable():
        return text
    kept = LINE_SIGNS if lines else frozenset[str]()
    return "".join(
        sign if is_plain(sign) or sign in JOINERS or sign in kept else _spelled(sign)
        for sign in text
    )


def code_point(sign: str) -> str:
    r"""Return the code point of a sign, and its name where it has one.

    >>> code_point("\u200d"), code_point("\x1b")
    ('U+200D (zero width joiner)', 'U+001B (a control character)')
    """
    name = unicodedata.name(sign, "a control character").lower()
    return f"U+{ord(sign):04X} ({name})"


def _spelled(sign: str) -> str:
    code = ord(sign)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
