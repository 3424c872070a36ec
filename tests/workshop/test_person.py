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
        ("stature = 175", "from 700 mm to 2500 mm"),
        ("arm_reach = 1300", "rod in the fist"),
        ("hand = 'both'", "'either'"),
    ],
)
def test_what_a_person_may_be_is_told(text: str, said: str) -> None:
    with pytest.raises(DocumentError) as caught:
        checked(HEAD + text)
    assert said in caught.value.sentence


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[[other_person]]\nname = 'Tom'\nchild = true", "Nobody says how tall the child is"),
        ("[[other_person]]\nname = 'Tom'\nage = 6", "An age is asked of children alone"),
        ("[[other_person]]\nname = 'Tom'\nchild = true\nage = 2", "from 3 to 17"),
        ("[[other_person]]\nname = 'Tom'\nchild = true\nage = 0", "from 3 to 17"),
        (
            "[[other_person]]\nname = 'Tom'\nchild = true\nage = 4\nstature = 1900",
            "No child of 4 years has a stature of 1900 mm. Allowed: from 770 mm to 1390 mm",
        ),
        (
            "[[other_person]]\nname = 'Tom'\nchild = true\nage = 17\nstature = 1200",
            "No child of 17 years",
        ),
        ("[[tool]]\nname = 'A'\nkind = 'can'\ntaken_by = []", "leave the key out"),
        ("[[group]]\nname = 'g'\ntaken_by = []", "Nobody is named here"),
        ("[[other_person]]\nstature = 1700", 'The key "name" is missing'),
        ("seat_height = 450", "Only who sits has a seat"),
        ("seated = true\nseat_height = 890", "would be taller than standing"),
        ("[[other_person]]\nname = 'owner'", 'The name "owner" is used twice, as who has none'),
        ("name = 'Ann'\n[[other_person]]\nname = 'Ann'", 'The name "Ann" is used twice'),
        ("[[tool]]\nname = 'A'\nkind = 'can'\ntaken_by = ['Ann']", 'no person "Ann"'),
        (
            "name = 'Anna'\n[[tool]]\nname = 'A'\nkind = 'can'\ntaken_by = ['Ana']",
            'Did you mean "Anna"?',
        ),
        (
            "[[tool]]\nname = 'A'\nkind = 'can'\n[[group]]\nname = 'g'\ntaken_by = ['Tim']",
            'no person "Tim"',
        ),
    ],
)
def test_what_several_people_may_be_is_told(text: str, said: str) -> None:
    with pytest.raises(DocumentError) as caught:
        checked(HEAD + text)
    assert said in caught.value.sentence


def test_who_has_no_name_is_the_owner() -> None:
    tool = "[[tool]]\nname = 'A'\nkind = 'can'\ntaken_by = ['owner', 'Ben']"
    workshop = checked(f"{HEAD}[[other_person]]\nname = 'Ben'\nstature = 1900\n{tool}")
    assert [one.name for one in workshop.people] == ["owner", "Ben"]
    assert workshop.items()[0].taken_by == ("owner", "Ben")


@pytest.mark.parametrize(
    ("age", "stature"), [(3, 800), (4, 1250), (10, 1650), (17, 2050), (17, 1350)]
)
def test_children_small_and_tall_for_their_age_are_taken(age: int, stature: int) -> None:
    """The third of 100 of five years old is about 1.00 m tall, and the 97th of twelve 1.67 m."""
    text = f"[[other_person]]\nname = 'Tom'\nchild = true\nage = {age}\nstature = {stature}"
    assert checked(HEAD + text).people[1].stature_mm == stature
