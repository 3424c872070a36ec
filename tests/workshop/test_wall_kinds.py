"""What a wall is: which keys go with what, and what a panel takes over from the wall."""

from __future__ import annotations

import pytest
from tests.small import document

from cleatwright.base.errors import CleatwrightError
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import checked

ANCHOR = (
    'anchor = { name = "plug", loads = "allowable", tension_n = 400, shear_n = 300, screw = 6, '
    "edge = 100, spacing = 120 }\n"
)


def read(wall: str, *parts: str, studs: tuple[float, ...] = ()) -> Workshop:
    return checked(document("Walls", *parts, width=2000, height=1200, studs=studs, wall=wall))


def test_a_wall_that_says_nothing_has_studs_as_ever() -> None:
    wall = read("").surface()
    assert (wall.made_of, wall.between_mm, wall.takes_anchors) == ("studs", 12.5, False)
    assert not wall.places_known
    assert read("", studs=(400.0,)).surface().places_known


def test_before_anything_but_studs_there_is_no_lining_unless_it_is_given() -> None:
    assert read('made_of = "brick"\n').surface().between_mm == 0.0
    assert read('made_of = "brick"\nlining = 15\n').surface().between_mm == 15.0


@pytest.mark.parametrize(
    ("wall", "studs", "keys"),
    [
        ('made_of = "brick"\n', (400.0,), {"made_of", "stud"}),
        ('made_of = "brick"\nthickness = 40\n', (), {"made_of", "thickness"}),
        (f'made_of = "solid wood"\nthickness = 40\n{ANCHOR}', (), {"made_of", "anchor"}),
        (f'made_of = "unknown"\n{ANCHOR}', (), {"made_of", "anchor"}),
        ('made_of = "solid wood"\n', (), {"made_of", "thickness"}),
        ('made_of = "concrete"\ncourse = 75\njoint_z = 10\n', (), {"made_of", "course"}),
        ('made_of = "brick"\ncourse = 75\n', (), {"course", "joint_z"}),
        ('made_of = "granite"\n', (), {"made_of"}),
    ],
)
def test_keys_that_do_not_go_with_what_the_wall_is_are_refused(
    wall: str, studs: tuple[float, ...], keys: set[str]
) -> None:
    with pytest.raises(CleatwrightError) as caught:
        read(wall, studs=studs)
    told = str(caught.value)
    assert any(key in told for key in keys)


def test_a_panel_is_made_as_the_wall_unless_it_says_otherwise() -> None:
    panels = (
        '\n[[panel]]\nname = "pier"\nwidth = 800\nheight = 900\n'
        '\n[[panel]]\nname = "door"\nwidth = 800\nheight = 900\nmade_of = "solid wood"\n'
        "thickness = 40\n"
        '\n[[panel]]\nname = "partition"\nwidth = 800\nheight = 900\n'
        "\n[[panel.stud]]\nx = 400\n"
    )
    workshop = read(f'made_of = "brick"\n{ANCHOR}', panels)
    pier, door, partition = (workshop.surface(n) for n in ("pier", "door", "partition"))
    assert pier.made_of == "brick"
    assert pier.anchor == workshop.wall.anchor != None  # noqa: E711 - it has one
    assert (door.made_of, door.anchor) == ("solid wood", None)
    assert (partition.made_of, partition.anchor) == ("studs", None)


def test_what_an_anchor_lacks_is_told_by_its_keys() -> None:
    wall = read('made_of = "brick"\nanchor = { name = "plug", tension_n = 400, screw = 6 }\n')
    anchor = wall.surface().anchor
    assert anchor is not None
    assert anchor.lacking == ("loads", "shear_n", "edge", "spacing")
