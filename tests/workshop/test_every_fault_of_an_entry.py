"""One check tells every fault of an entry: misspelt keys and words, and what else is wrong.

Each expected sentence follows from the document of the test and from nothing else.
"""

from __future__ import annotations

import tomllib

import pytest

from cleatwright.base.errors import CleatwrightError
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import what_can_be_read

HEAD = """schema = 1
name = "Shed"
wall = { width = 2000, height = 1200 }
"""
CAN = """[[tool]]
name = "Can"
kind = "can"
measures = { diameter = 65, height = 200 }
"""
BOX = """[[panel]]
name = "lid"
width = 500
height = 400
[[panel.obstacle]]
name = "socket"
x = 450
z = 100
width = 80
"""


def faults(text: str) -> list[CleatwrightError]:
    found = what_can_be_read(tomllib.loads(HEAD + text + CAN))
    assert not isinstance(found, Workshop)
    return [leaf for fault in found.faults for leaf in fault.leaves()]


def test_a_misspelt_key_is_one_fault_and_counts_as_it_was_meant() -> None:
    """450 + 80 mm lie outside a lid 500 mm wide, which is seen though "hight" is misspelt."""
    first, second = faults(BOX + "hight = 60\n")
    assert first.todo == 'Did you mean "height"?'
    assert first.line == "height = 60"
    assert "530 mm lies outside" in second.sentence


def test_what_stands_behind_a_misspelt_key_is_told_where_it_is_written() -> None:
    first, second = faults(BOX.replace("450", "300") + 'hight = "tall"\n')
    assert first.todo == 'Did you mean "height"?'
    assert '"tall" cannot be read as a length' in second.sentence
    assert second.as_dict()["path"] == ["panel", 0, "obstacle", 0, "hight"]


def test_a_key_that_is_missing_is_told_beside_one_that_is_like_no_other() -> None:
    first, second = faults(BOX.replace("450", "300") + "colour = 3\n")
    assert ("colour" in first.sentence, first.todo) == (True, "")
    assert 'The key "height" is missing' in second.sentence


@pytest.mark.parametrize(
    ("key", "given", "meant"), [("use", "dayly", "daily"), ("fit", "lose", "loose")]
)
def test_a_misspelt_word_of_a_list_is_told_with_the_one_that_was_meant(
    key: str, given: str, meant: str
) -> None:
    (only,) = faults(CAN.replace("Can", "Tin") + f'{key} = "{given}"\n')
    assert only.todo == f'Did you mean "{meant}"?'
    assert only.line == f'{key} = "{meant}"'


def test_a_word_that_is_like_no_other_offers_none() -> None:
    (only,) = faults(CAN.replace("Can", "Tin") + 'use = "xyzzy"\n')
    assert (only.todo, only.line) == ("", "")


def test_the_other_keys_of_an_entry_with_a_wrong_measure_are_looked_at() -> None:
    """The lid that the tool names is not there; its measure that is wrong is told once."""
    tin = CAN.replace("Can", "Tin").replace("65", '"wide"') + 'panel = "lid"\n'
    first, second = faults(tin)
    assert '"wide" cannot be read as a length' in first.sentence
    assert 'There is no panel "lid"' in second.sentence


def test_nothing_is_told_that_a_lost_key_alone_brings_about() -> None:
    """Without its width a stud counts as 38 mm, and would overlap its neighbour at 30 mm."""
    studs = """[[panel]]
name = "lid"
width = 500
height = 400
stud = [{ x = 100, width = "thin" }, { x = 130, width = 20 }]
"""
    (only,) = faults(studs)
    assert '"thin" cannot be read as a length' in only.sentence
