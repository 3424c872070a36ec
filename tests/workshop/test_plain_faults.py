"""Faults of a document are told once, in plain words, at the right place and with their unit."""

from __future__ import annotations

import pytest

from cleatwright.base.errors import CleatwrightError, DocumentError, InputError
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.design.equipment import all_owned
from cleatwright.workshop.document.store import checked

HEAD = 'schema = 1\nname = "S"\nunits = "in"\n[wall]\nwidth = 128\nheight = 71\n'
HOSE = '[[tool]]\nname = "Hose"\nkind = "coil"\nmeasures = { outer = 20, bundle = 3 }\n'


def told(text: str) -> str:
    """Return what is said of a document that is at fault."""
    with pytest.raises(CleatwrightError) as caught:
        all_owned(checked(text))
    return caught.value.sentence


def test_a_measure_out_of_bounds_is_told_in_the_unit_it_was_written_in() -> None:
    """10000 mm are 393.70 in, and no more than 393-11/16 in are sure to be allowed."""
    said = told(HEAD + HOSE.replace("outer = 20", "outer = 508"))
    assert "508 in is out of bounds. Allowed: up to 393-11/16 in" in said


@pytest.mark.parametrize(
    ("text", "said", "unsaid"),
    [
        (HOSE.replace("coil", "hose"), 'tool "Hose" (number 1), key "kind"', "Did you mean"),
        (HOSE.replace("= 20", '= "1,200 mm"'), "Write 1200 or 1.200 without a comma", "\n"),
        (HOSE + "mass = 2024-01-01\n", "The date 2024-01-01 does not say", "datetime"),
        (HOSE + "count = 999\n", "999 is out of bounds", "belong"),
        (HOSE + 'left_of = "a"\nright_of = "a"\n', "Take left_of away, or right_of", "obstacle"),
        (
            HOSE + "[printer.p]\nbed = [9, 9, 9, 9]\n",
            "4 entries is too long. Allowed: at most 3",
            "belong",
        ),
        (HOSE.replace("[[tool]]", "[tool]") * 2, "Write [[tool]], with two brackets", "spelling"),
        (
            HOSE + 'nominal_sizes = ["25", "13", "25"]\n',
            "nominal_sizes number 3",
            "There are measures",
        ),
    ],
)
def test_a_fault_says_where_it_is_and_what_to_write(text: str, said: str, unsaid: str) -> None:
    sentence = told(HEAD + text)
    assert said in sentence
    assert unsaid not in sentence


def test_a_size_that_is_named_twice_says_how_equal_tools_are_written() -> None:
    said = told(HEAD + HOSE + 'nominal_sizes = ["25", "25"]\n')
    assert "Allowed: each size once" in said
    assert "with measures and a count" in said


def test_an_unknown_unit_hides_bounds_that_nobody_can_judge() -> None:
    said = told(HEAD.replace('"in"', '"inch"') + HOSE + "count = 999\n")
    assert "'mm' or 'in'" in said
    assert "width" not in said
    assert "height" not in said


def test_a_schema_of_a_later_program_is_told_plainly() -> None:
    said = told(HEAD.replace("schema = 1", "schema = 2") + HOSE)
    assert "schema = 2 is not known. Allowed: schema = 1. Use a later version" in said


def test_a_name_used_twice_is_no_second_fault_of_its_holder() -> None:
    said = told(HEAD + HOSE + HOSE + '[[holder]]\ntools = ["Hose"]\nfamily = "peg"\n')
    assert 'The name "Hose" is used twice' in said
    assert "already in holder" not in said
    other = told(HEAD + HOSE + '[[holder]]\ntools = ["Hose"]\n[[holder]]\ntools = ["Hose"]\n')
    assert 'The tool "Hose" is already in holder number 1' in other


def test_an_obstacle_that_reaches_out_may_have_a_wrong_x_as_well_as_a_wrong_width() -> None:
    window = '[[wall.obstacle]]\nname = "w"\nx = {x}\nz = 2\nwidth = 24\nheight = 26\n'
    said = told(HEAD + window.format(x=120) + HOSE)
    assert 'obstacle "w" (number 1): Its far edge at 144 in lies outside the wall' in said
    assert "Measure its x and its width again" in said
    assert 'key "width"' not in said
    # one that begins outside is told of once
    assert told(HEAD + window.format(x=130) + HOSE).count("lies outside") == 1


def test_what_is_wrong_with_equal_tools_is_told_once() -> None:
    said = told(HEAD + HOSE.replace("coil", "can") + "count = 3\n")
    assert said.count("there is no measure") == 2  # outer and bundle, of one tool
    assert "#1" not in said


def test_a_check_tells_its_numbers_without_powers_of_ten() -> None:
    rule = Source("a rule", "", Evidence.PRACTICE)
    check = CheckResult("screws", 1460.4, 291.2, "N", rule)
    assert check.sentence == "screws: 1460 against 291 N"


def test_the_error_tree_knows_these_faults() -> None:
    with pytest.raises(DocumentError):
        checked(HEAD.replace("schema = 1", "schema = 2") + HOSE)
    assert issubclass(DocumentError, InputError)


def test_a_name_that_is_a_length_stays_as_the_owner_gave_it() -> None:
    """The wall is 60 in wide, and the pipe reaches to 59 + 2 = 61 in."""
    text = """schema = 1
name = "My 90 mm wall"
units = "in"
wall = { width = 60, height = 40, obstacle = [
    { name = "the 19 mm pipe", x = 59, z = 1, width = 2, height = 2 } ] }
"""
    with pytest.raises(DocumentError) as told:
        checked(text)
    assert 'obstacle "the 19 mm pipe"' in str(told.value)
    assert "61 in lies outside" in str(told.value)
    assert "to 60 in" in str(told.value)
