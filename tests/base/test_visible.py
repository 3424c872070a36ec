"""What a terminal obeys, by ECMA-48 and the Unicode general categories, never gets through."""

import sys
import unicodedata

import pytest

from cleatwright.base.errors import InputError, unknown_name
from cleatwright.base.visible import JOINERS, code_point, visible

# general categories of signs that show nothing of themselves (Unicode Standard 15.0, table 4-4,
# from memory): control, format, surrogate, private use, not assigned, line and paragraph ends
ACTING = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def test_every_acting_sign_of_unicode_is_spelled_and_every_other_stays() -> None:
    for number in range(sys.maxunicode + 1):
        sign = chr(number)
        acts = unicodedata.category(sign) in ACTING and sign not in JOINERS
        assert (visible(sign) != sign) == acts, hex(number)


def test_no_control_function_of_ecma_48_is_left_of_any_text() -> None:
    """ECMA-48, 5th edition, clauses 5.2 and 5.3: C0 0/0 to 1/15, C1 8/0 to 9/15 (from memory)."""
    text = "".join(map(chr, range(0x100)))
    left = {ord(sign) for sign in visible(text)}
    assert not left & {*range(0x20), 0x7F, *range(0x80, 0xA0)}
    kept = {ord(sign) for sign in visible(text, lines=True)}
    assert kept - left == {0x09, 0x0A}


def test_a_spelled_sign_names_its_code() -> None:
    assert visible("a\x1b[2J\u202eb\U000e0041") == r"a\x1b[2J\u202eb\U000e0041"
    assert code_point("\u202e") == "U+202E (right-to-left override)"


@pytest.mark.parametrize("text", ["Säge № 4 ⌀6", "a\u00a0b", "می\u200cخواهم", "👩\u200d🔧"])
def test_ordinary_texts_of_any_script_stay(text: str) -> None:
    assert visible(text) == text


def test_the_sentence_of_an_error_is_safe_and_keeps_its_lines() -> None:
    error = InputError("two:\n  1. \x1b[31mred", where="a\x07b", todo="\u202egnp")
    assert str(error) == "a\\x07b: two:\n  1. \\x1b[31mred. \\u202egnp."
    assert "a\\x0a" in str(unknown_name("kind", "a\nError", ["can"]))
