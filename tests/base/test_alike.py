"""Faults of many rows are told once where they are the same, and else each by itself."""

from cleatwright.base.alike import told_once
from cleatwright.base.errors import DocumentError, UnknownNameError
from cleatwright.base.gathering import several
from cleatwright.base.place import TableStep, at

NAMES = ("Awl", "Saw", "Saw", "File", "Rasp")


def fault(number: int, name: str, kind: str) -> UnknownNameError:
    return UnknownNameError(
        f'"{name}" is of no kind "{kind}"', place=at("tool", TableStep(number, name), "kind")
    )


def test_a_hundred_and_fifty_tools_with_one_mistake_take_one_line() -> None:
    faults = [fault(n, f"Tool {n}", "tin") for n in range(150)]
    told = several(faults, "things stand in the way").sentence
    assert told.count("is of no kind") == 1
    assert 'The same of "Tool 1", "Tool 2", "Tool 3" and 146 more.' in told
    assert len(several(faults, "things").as_dict()["faults"]) == 150  # type: ignore[arg-type]


def test_two_alike_and_what_differs_stay_lines_of_their_own() -> None:
    """A name that two tools have is no list of names, and of two lines none is spared."""
    same = [fault(0, "Awl", "tin"), fault(1, "Saw", "tin")]
    other = fault(2, "File", "can")
    told = several([*same, other], "things").sentence
    assert "The same of" not in told
    assert all(f'tool "{name}"' in told for name in ("Awl", "Saw", "File"))
    twice = [fault(n, name, "tin") for n, name in enumerate(NAMES)]
    assert several(twice, "things").sentence.count("is of no kind") == len(NAMES)


def test_where_a_number_differs_each_is_told() -> None:
    lines = [
        (at("tool", TableStep(n, name), "mass"), f'"{name}" weighs {n} kg')
        for n, name in enumerate(("a", "b", "c", "d"))
    ]
    assert told_once(lines) == [line for _, line in lines]


def test_faults_of_no_row_are_left_as_they_are() -> None:
    told = several([DocumentError("no", place=at("wall", "width"))] * 2, "things").sentence
    assert told.count("no.") == 2
