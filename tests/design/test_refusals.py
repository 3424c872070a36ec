"""What a family says of a tool that it cannot hold reads as a sentence of its own."""

from __future__ import annotations

import pytest

from cleatwright.holders.registry import FAMILIES
from cleatwright.tools.registry import KINDS, ordinary_body

BEGINS = ("it ", "its ", "a ", "the ")


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_a_refusal_is_a_clause_with_its_own_subject(name: str) -> None:
    reasons = {reason for kind in KINDS if (reason := FAMILIES[name].why_not(ordinary_body(kind)))}
    assert reasons
    assert all(reason.startswith(BEGINS) for reason in reasons), reasons
