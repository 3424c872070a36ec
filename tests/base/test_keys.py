"""Marks against Crockford's base 32, and content keys as invariants.

Source of the alphabet, the check remainder by 37 and the example 1234 = 16J with check D:
Douglas Crockford, "Base 32", from memory; the arithmetic is repeated here by hand.
"""

import subprocess
import sys
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.keys import CHECK, CROCKFORD, content_key, mark_from_key, read_mark, spell


@dataclass(frozen=True)
class Plain:
    """A value to be keyed."""

    length_mm: float
    name: str


def test_the_alphabet_leaves_out_i_l_o_and_u() -> None:
    assert len(CROCKFORD) == 32
    assert not set(CROCKFORD) & set("ILOU")
    assert len(CHECK) == 37


def test_1234_is_spelled_16j_with_check_d() -> None:
    assert spell(1234) == "00016JD"


@given(st.integers(min_value=0, max_value=2**256 - 1))
def test_every_key_gives_a_mark_that_reads_back_and_suits_a_file_name(number: int) -> None:
    mark = mark_from_key(f"{number:064x}")
    assert read_mark(mark) == mark
    assert mark.isalnum()
    assert len(mark) == 7


@given(st.integers(min_value=0, max_value=32**6 - 1), st.data())
def test_one_wrong_sign_or_two_exchanged_ones_are_found(body: int, data: st.DataObject) -> None:
    """A prime modulus above 32 finds every single error and every exchange of neighbours."""
    mark = spell(body)
    place = data.draw(st.integers(0, 5))
    other = data.draw(st.sampled_from(sorted(set(CROCKFORD) - {mark[place]})))
    assert read_mark(mark[:place] + other + mark[place + 1 :]) is None
    if place < 5 and mark[place] != mark[place + 1]:
        swapped = mark[:place] + mark[place + 1] + mark[place] + mark[place + 2 :]
        assert read_mark(swapped) is None


def test_small_letters_hyphens_and_look_alikes_are_forgiven() -> None:
    mark = spell(1234)
    assert read_mark("oooi6j-d") == mark


@pytest.mark.parametrize("text", ["", "123", "UUUUUUU", "00016J", "00016JDD", "00016JÄ"])
def test_nonsense_is_no_mark(text: str) -> None:
    assert read_mark(text) is None


def test_keys_tell_types_and_nesting_apart() -> None:
    values: list[object] = [1, 1.0, "1", True, (1,), ((1,),), ("ab", "c"), ("a", "bc"), None, {}]
    assert len({content_key(value) for value in values}) == len(values)


def test_negative_zero_is_zero() -> None:
    assert content_key(Plain(-0.0, "a")) == content_key(Plain(0.0, "a"))


def test_a_key_does_not_depend_on_the_hash_seed() -> None:
    code = "from cleatwright.base.keys import content_key as k; print(k({'b': (1, 'x'), 'a': 2.5}))"
    runs = {
        subprocess.run(  # noqa: S603 - our own interpreter and a fixed text
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "77")
    }
    assert len(runs) == 1


def test_a_value_without_a_key_is_refused() -> None:
    with pytest.raises(TypeError):
        content_key(object())


def test_a_key_sees_the_order_and_the_nesting_of_a_row_and_no_sort_of_it() -> None:
    rows: list[object] = [(1, 2), (2, 1), ((1, 2),), (1, (2,)), (12,), ("1", 2), ()]
    assert len({content_key(row) for row in rows}) == len(rows)
    assert content_key([1, 2]) == content_key((1, 2))
