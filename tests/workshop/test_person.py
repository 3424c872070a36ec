"""The person of the document."""

from __future__ import annotations

import pytest

from cleatwright.base.errors import DocumentError
from cleatwright.workshop.document.store import checked

HEAD = 'schema = 1\nname = "Shed"\n[wall]\nwidth = 2400\nheight = 1200\n[person]\n'


def test_measures_of_the_body_take_any_unit() -> None:
    """A person of 5 ft 6 in is 66 in of 25.4 mm (yard and pound agreement of 1959)."""
    person = checked(HEAD + "stature = '5 ft 6 in'\nelbow_height = '105 cm'\nhand = 'left'").person
    assert person.stature_mm == pytest.approx(66 * 25.4)
    assert (person.elbow_height_mm, person.shoulder_height_mm) == (1050, None)
    assert person.hand == "left"


# shares of stature after Winter, Fig. 4.1: shoulder 0.818, elbow 0.630
@pytest.mark.parametrize(
    "text",
    [
        "elbow_height = 1500\nshoulder_height = 1400",
        "shoulder_height = 1100",
        "elbow_height = 1440",
        "stature = 1500\nshoulder_height = 1500",
    ],
)
def test_measures_that_no_body_has_are_refused(text: str) -> None:
    with pytest.raises(DocumentError, match="do not belong to one person"):
        checked(HEAD + text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("stature = 175", "from 1000 mm to 2500 mm"),
        ("arm_reach = 1300", "rod in the fist"),
        ("hand = 'both'", "'either'"),
    ],
)
def test_what_a_person_may_be_is_told(text: str, said: str) -> None:
    with pytest.raises(DocumentError) as caught:
        checked(HEAD + text)
    assert said in caught.value.sentence
