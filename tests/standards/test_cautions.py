"""Cautions are told where they apply, and only there."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from cleatwright.base.source import Evidence, Source
from cleatwright.holders.registry import FAMILIES
from cleatwright.pack.reporting import tool_cautions
from cleatwright.standards import cautions
from cleatwright.tools.registry import KINDS


def test_pla_is_spoken_of_where_it_is_printed(done: Any) -> None:
    """A workshop with one filament, of the one plastic or of the other."""
    for told in (cautions.holders, cautions.printing):
        assert any("PLA" in text for text in told())
        assert not any("PLA" in text for text in told(pla=False))
        assert len(told()) == len(told(pla=False)) + 1
    shop = done.job.workshop
    (first, *_) = shop.filaments
    for material, expected in (("PETG", False), ("PLA", True), ("pla+", True)):
        filament = first.model_copy(update={"material": material})
        one = shop.model_copy(update={"filaments": (filament,)})
        assert replace(done.job, workshop=one).uses_pla is expected


def test_a_bottle_leaks_in_the_holder_that_turns_it_over_and_in_no_other(done: Any) -> None:
    (turned,) = [one.name for one in FAMILIES.values() if "leaks" in one.caution]
    assert turned == "inverted-bottle-seat"
    assert "leaks when its cap" not in KINDS["bottle"].caution
    families = {planned.recipe.family for planned in done.job.planned}
    assert any("leaks when its cap" in text for text in tool_cautions(done.job)) == (
        turned in families
    )


def test_a_source_says_once_how_well_it_is_attested() -> None:
    practice = "common practice, no source"
    assert str(Source("screws", practice, Evidence.PRACTICE)) == f"screws ({practice})"
