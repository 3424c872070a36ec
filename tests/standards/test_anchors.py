"""What an anchor may carry, from what its papers state.

Partial factors: ETAG 020 (concrete 1.8, masonry 2.5) and EN 1990 (variable loads 1.5), from memory.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.standards.fasteners.anchors import Base, Stated, allowable_n

BASES: tuple[Base, ...] = ("brick", "block", "concrete")


@pytest.mark.parametrize(
    ("load_n", "stated", "base", "by_hand_n"),
    [
        (500.0, "allowable", "brick", 500.0),
        (750.0, "design", "concrete", 500.0),
        # 1500 / 2.5 / 1.5 and 2700 / 1.8 / 1.5
        (1500.0, "characteristic", "brick", 400.0),
        (1500.0, "characteristic", "block", 400.0),
        (2700.0, "characteristic", "concrete", 1000.0),
    ],
)
def test_a_load_of_the_papers_becomes_an_allowable_one(
    load_n: float, stated: Stated, base: Base, by_hand_n: float
) -> None:
    assert allowable_n(load_n, stated, base) == pytest.approx(by_hand_n)


@given(st.floats(1.0, 50_000.0), st.sampled_from(BASES))
def test_the_same_number_allows_less_the_rawer_it_is(load_n: float, base: Base) -> None:
    """A characteristic load has both factors before it, a design load one, an allowable none."""
    raw, design, allowed = (
        allowable_n(load_n, stated, base) for stated in ("characteristic", "design", "allowable")
    )
    assert raw < design < allowed == load_n
