"""Families are found by name, chosen in a fixed order, and refused with reasons."""

from __future__ import annotations

import re

import pytest

from cleatwright.base.errors import DesignError, NoHolderError, UnknownNameError
from cleatwright.base.place import TableStep, at
from cleatwright.base.registry import by_name
from cleatwright.base.said import in_mm
from cleatwright.holders.choosing import candidates, why_none
from cleatwright.holders.family import Family
from cleatwright.holders.registry import FAMILIES, family
from cleatwright.mounts.joints.joint import Joint
from cleatwright.mounts.joints.registry import JOINTS
from cleatwright.mounts.mount import Mount
from cleatwright.mounts.registry import MOUNTS
from cleatwright.parts.grips import Footprint, Grip, RoundBody, ShaftEnd
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import block
from cleatwright.tools.registry import tool_body
from cleatwright.workshop.document.fields import read_measure


def tool(*grips: Grip) -> ToolBody:
    whole = block(-20.0, -20.0, 0.0, 20.0, 20.0, 100.0)
    return ToolBody("test-tool", "x", (whole,), 0.2, (0.0, 0.0, 50.0), grips, 40.0)


def test_every_family_is_found_by_its_own_name() -> None:
    for name, one in FAMILIES.items():
        assert one.name == name
        assert family(name) is one
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", name)


def test_every_parameter_has_a_default_within_its_bounds_and_a_reason() -> None:
    for one in FAMILIES.values():
        one.params()
        for field, info in one.params.model_fields.items():
            assert info.description, f"{one.name}.{field}"
            assert any(hasattr(m, "ge") for m in info.metadata), f"{one.name}.{field}"
            assert any(hasattr(m, "le") for m in info.metadata), f"{one.name}.{field}"


@pytest.mark.parametrize("one", [*FAMILIES.values(), *MOUNTS.values(), *JOINTS.values()])
def test_the_last_word_of_every_parameter_says_what_it_is(one: Family | Mount | Joint) -> None:
    """A document in inches turns every bare number into mm that is no angle, count or share."""
    for field in one.params.model_fields:
        key = field.removesuffix("_mm")
        read = read_measure(key, 1, units="in")
        assert read == (25.4 if field.endswith("_mm") else 1.0), f"{one.name}.{field}"


def test_an_unknown_name_offers_the_nearest_one() -> None:
    with pytest.raises(UnknownNameError, match='Did you mean "ring-floor"') as caught:
        family("ring-flor", place=at("holder", TableStep(1), "family"))
    assert caught.value.where == 'holder number 2, key "family"'
    assert caught.value.line == 'family = "ring-floor"'


def test_two_families_of_one_name_are_an_error() -> None:
    tray = FAMILIES["tray"]
    with pytest.raises(DesignError, match='two holder families "tray"'):
        by_name("holder families", (tray, tray))


def test_candidates_come_in_the_order_of_the_registry() -> None:
    both = tool(Footprint(0.0, 40.0, 40.0, 100.0), RoundBody(0.0, 40.0, 100.0))
    assert [one.name for one in candidates(both)] == [
        "ring-floor",
        "tray",
        "spring-clip",
        "ribbed-tray",
    ]


def test_a_tool_that_no_family_holds_gets_the_reason_of_each_that_takes_its_grip() -> None:
    thin = tool(ShaftEnd(0.0, 0.5, 60.0))
    assert candidates(thin) == ()
    error = why_none(thin)
    assert isinstance(error, NoHolderError)
    for one in FAMILIES.values():
        assert (f"{one.name}: " in error.given) == (one.grip is ShaftEnd)
    assert "0.5 mm is outside" in in_mm(error.given)


def test_a_tool_that_no_family_holds_is_told_of_a_kind_that_has_a_holder() -> None:
    low = tool_body("can", {"diameter": 60.0, "height": 30.0})
    assert 'kind = "thing-with-neck", with a neck, by its length' in why_none(low).todo
    error = why_none(low, measures={"length": 350.0, "width": 60.0, "thickness": 5.0})
    assert 'or write kind = "rule" or kind = "flat-plate", which has a holder' in error.todo
    for name in ("rule", "flat-plate"):
        body = tool_body(name, {"length": 350.0, "width": 60.0, "thickness": 5.0})
        assert candidates(body)
