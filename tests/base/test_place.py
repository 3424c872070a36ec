"""A place is data: relative where it is raised, whole where somebody asked, in words for people."""

import pytest

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, MeasureError, unknown_name
from cleatwright.base.gathering import in_file, noted, refuse, under
from cleatwright.base.lengths import Wording
from cleatwright.base.place import InDocument, InFile, InLedger, Path, TableStep, at, plain_path

LONG = TableStep(6, "Long nose")


def test_whoever_asks_puts_steps_in_front_and_names_the_file() -> None:
    with (
        pytest.raises(MeasureError) as told,
        in_file("workshop.toml"),
        under("tool", LONG),
        under("measures"),
    ):
        raise MeasureError("neck is 3 mm", place=at("neck"))
    place = told.value.place
    assert isinstance(place, InDocument)
    assert place.file == "workshop.toml"
    assert plain_path(place.paths[0]) == ("tool", 6, "measures", "neck")
    assert told.value.as_dict()["path"] == ["tool", 6, "measures", "neck"]


@pytest.mark.parametrize(
    ("paths", "words"),
    [
        (
            (("tool", LONG, "measures", "neck"),),
            'tool "Long nose" (number 7), measures, key "neck"',
        ),
        ((("printer", TableStep(None, "desk"), "bed", 2),), 'printer "desk", bed number 3'),
        ((("rail", "height"), ("rail", "bevel")), 'rail, keys "height" and "bevel"'),
        (
            (("wall", "stud", TableStep(0), "x"), ("wall", "stud", TableStep(1), "x")),
            'wall, stud number 1, key "x" and stud number 2, key "x"',
        ),
        ((("name",), ("units",)), 'keys "name" and "units"'),
    ],
)
def test_a_path_is_put_into_words_for_people(paths: tuple[Path, ...], words: str) -> None:
    assert InDocument(paths).words == words


def test_a_table_is_no_key_and_a_missing_key_is_named_once() -> None:
    assert at("defaults", spoken="table").words == "defaults"
    assert at("tool", LONG, "neck", spoken="named").words == 'tool "Long nose" (number 7)'


def test_a_fault_that_has_its_file_keeps_it() -> None:
    with pytest.raises(MeasureError) as told, in_file("workshop.toml"), under("tool", LONG):
        raise MeasureError("x", place=InFile("list.csv", line=3, row=True))
    assert told.value.where == "list.csv, row 3"
    assert told.value.as_dict()["line_number"] == 3
    ledger = InLedger("hung", "K7").in_file("ledger.db")
    assert (ledger.words, ledger.as_dict()["key"]) == ('ledger.db, hung "K7"', "K7")


def test_steps_reach_each_fault_of_a_list_and_the_file_is_said_once() -> None:
    faults: list[CleatwrightError] = []
    for number in range(2):
        with noted(faults), under("tool", TableStep(number)):
            raise MeasureError(said.mm(number), place=at("neck"))
    with pytest.raises(MeasureError) as told, in_file("a.toml"), under("panel", TableStep(0)):
        refuse(faults, "things")
    assert [one.as_dict()["path"] for one in told.value.leaves()] == [
        ["panel", 0, "tool", 0, "neck"],
        ["panel", 0, "tool", 1, "neck"],
    ]
    assert str(told.value).count("a.toml") == 1
    assert Wording("in").error(told.value).leaves()[1].place == told.value.leaves()[1].place
    again: list[CleatwrightError] = []
    with noted(again):
        raise told.value
    assert len(again) == 2


def test_the_line_to_write_is_there_when_it_is_sure() -> None:
    error = unknown_name("kind", "hamer", ["hammer"], place=at("kind"))
    assert error.line == 'kind = "hammer"'
    assert unknown_name("tool", "hamer", ["hammer"], place=at("tools", 0)).line == ""
    assert unknown_name("kind", "zzz", ["hammer"], place=at("kind")).line == ""
