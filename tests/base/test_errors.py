"""The error tree: every leaf is drawn, stable and says what to do."""

from collections.abc import Iterator

import pytest

from cleatwright.base import errors, said
from cleatwright.base.errors import CleatwrightError, MeasureError, unknown_name
from cleatwright.base.gathering import refuse
from cleatwright.base.lengths import Wording


def leaves(kind: type[CleatwrightError] = CleatwrightError) -> Iterator[type[CleatwrightError]]:
    for child in kind.__subclasses__():
        yield child
        yield from leaves(child)


def test_every_error_is_drawn_in_the_docstring_and_has_a_code_of_its_own() -> None:
    kinds = list(leaves())
    assert all(kind.__name__ in (errors.__doc__ or "") for kind in kinds)
    assert len({kind.code for kind in kinds}) == len(kinds)
    assert all(kind.exit_code in {1, 2, 3, 4, 5, 130} for kind in kinds)


def test_a_sentence_has_place_fault_bounds_and_advice() -> None:
    error = MeasureError("shank is -3 mm", where="tool 2", allowed="1 to 30 mm", todo="Measure it")
    assert str(error) == "tool 2: shank is -3 mm. Allowed: 1 to 30 mm. Measure it."
    assert str(error.located("a.toml")).startswith("a.toml: tool 2: shank")


@pytest.mark.parametrize(
    ("given", "near"), [("hamer", "hammer"), ("hamr", "hammer"), ("wrech", "wrench")]
)
def test_the_nearest_valid_name_is_offered(given: str, near: str) -> None:
    assert unknown_name("kind", given, ["hammer", "wrench"]).todo == f'Did you mean "{near}"?'


def test_no_name_is_offered_when_none_is_near() -> None:
    assert unknown_name("kind", "zzz", ["hammer"]).todo == ""


def test_a_long_list_of_names_is_cut_to_the_nearest() -> None:
    error = unknown_name("mark", "00016JX", [f"00{k:03}JX" for k in range(500)])
    assert error.allowed.endswith("and others, 500 in all")
    assert len(error.allowed) < 100


def test_some_of_very_many_names_are_told_when_none_is_near() -> None:
    error = unknown_name("mark", "zzz", [f"00{k:03}JX" for k in range(500)])
    assert error.allowed == "00000JX, 00001JX, 00002JX, 00003JX, 00004JX and others, 500 in all"


def test_an_error_that_stands_for_several_has_each_of_them_apart() -> None:
    several = [
        MeasureError(f"{said.mm(25.4)} is too small", where="a"),
        MeasureError("b", todo="Do c"),
    ]
    with pytest.raises(MeasureError, match="2 faults:") as told:
        refuse(several, "faults")
    for error in (told.value, told.value.located("here"), Wording("in").error(told.value)):
        assert [one.where for one in error.faults] == ["a", ""]
        answer = error.as_dict()
        assert answer["faults"] == [one.as_dict() for one in error.faults]
    assert "1 in" in str(Wording("in").error(told.value).faults[0])
    with pytest.raises(MeasureError) as told:
        refuse(several[:1], "faults")
    assert "faults" not in told.value.as_dict()
