"""Which rails of the ledger hang where the document allows it, and which must come down."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import Any

import pytest

from cleatwright.base.said import in_mm
from cleatwright.siting.hung.rails import HungRails, as_told, hung_rails
from cleatwright.wall.rail import Profile, Rail
from cleatwright.workshop.document.store import checked
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs

PROFILE = Profile(70.0, 18.0, 45.0)
WALL = {"width": 1200, "height": 900, "floor_gap": 700}
STUDS = [{"x": x, "width": 40} for x in (300, 700, 1100)]


def rail(name: str = "R1", z_mm: float = 600.0, **more: Any) -> HungRail:
    one = HungRail(
        panel="wall",
        name=name,
        z_top_mm=z_mm,
        x0_mm=100.0,
        x1_mm=1150.0,
        height_mm=70.0,
        thickness_mm=18.0,
        bevel_deg=45.0,
        studs_mm=(300.0, 700.0, 1100.0),
        since="2024-05-01",
    )
    return replace(one, **more)


def on(
    *rails: HungRail,
    afresh: bool = False,
    wall: dict[str, Any] | None = None,
    **tables: Any,
) -> HungRails:
    """Return the rails that hang on a wall with studs, with other keys of the wall and tables."""
    document = {"schema": 1, "name": "Shed", "wall": {**WALL, "stud": STUDS, **(wall or {})}}
    text = toml({**document, **tables})
    return hung_rails(checked(text), rails, (), afresh=afresh)


def toml(table: dict[str, Any]) -> str:
    """Return a table as TOML, rows of tables one in each line."""

    def value(one: Any) -> str:
        if isinstance(one, dict):
            return "{" + ", ".join(f"{key} = {value(one[key])}" for key in one) + "}"
        if isinstance(one, list):
            return "[" + ", ".join(value(each) for each in one) + "]"
        return f'"{one}"' if isinstance(one, str) else str(one)

    text = "\n".join(f"{key} = {value(table[key])}" for key in table)
    tomllib.loads(text)
    return text


def names(found: HungRails, panel: str = "wall") -> tuple[list[str], list[str]]:
    document, recorded = (found.on(panel, state) for state in ("document", "recorded"))
    return [one.name for one in document], [one.name for one in recorded]


def test_rails_of_the_ledger_hang_where_they_hung_with_their_names() -> None:
    found = on(rail("R4", 800.0), rail("R2", 600.0))
    studs = (300.0, 700.0, 1100.0)
    assert found.rails == (
        Rail(4, 800.0, 100.0, 1150.0, PROFILE, studs_mm=studs, state="recorded"),
        Rail(2, 600.0, 100.0, 1150.0, PROFILE, studs_mm=studs, state="recorded"),
    )
    assert (found.down, found.last) == ((), 4)


SOCKET = {"name": "Socket", "kind": "socket", "x": 500, "z": 560, "width": 80, "height": 80}
SAFE = "if it is fixed safely all the same, write it as [[wall.rail]]"
DOWN = [
    (
        {"wall": {"width": 1149}},
        (
            "it reaches to 1150 mm, and the wall is 1149 mm wide now; when you saw it shorter "
            "instead, write it as [[wall.rail]]"
        ),
    ),
    ({"wall": {"height": 599}}, "its top edge is at 600 mm, and the wall is 599 mm high now"),
    ({"wall": {"obstacle": [SOCKET]}}, 'the obstacle "Socket" lies there now'),
    (
        {"rail": {"thickness": 20}},
        (
            "it is 70 mm high and 18 mm thick with a bevel of 45 degrees, and [rail] asks for "
            "70 mm high and 20 mm thick with a bevel of 45 degrees now"
        ),
    ),
    (
        {"rail": {"height": 80}},
        (
            "it is 70 mm high and 18 mm thick with a bevel of 45 degrees, and [rail] asks for "
            "80 mm high and 18 mm thick with a bevel of 45 degrees now"
        ),
    ),
    (
        {"rail": {"bevel": 40}},
        (
            "it is 70 mm high and 18 mm thick with a bevel of 45 degrees, and [rail] asks for "
            "70 mm high and 18 mm thick with a bevel of 40 degrees now"
        ),
    ),
    (
        {"defaults": {"mount": "wall-screws"}},
        'the wall has the mount "wall-screws" now, whose holders hang on no rail',
    ),
    (
        {"wall": {"stud": [{"x": 300}, {"x": 721, "width": 40}, {"x": 400}]}},
        f"it is screwed into only one of the studs that the document names now; {SAFE}",
    ),
    (
        {"wall": {"stud": [{"x": 200}, {"x": 500}, {"x": 900}]}},
        f"it is screwed into none of the studs that the document names now; {SAFE}",
    ),
]


@pytest.mark.parametrize(("change", "reason"), DOWN, ids=[reason for _, reason in DOWN])
def test_a_rail_that_can_no_longer_be_is_left_out_and_told(
    change: dict[str, Any], reason: str
) -> None:
    found = on(rail(), **change)
    assert names(found) == ([], [])
    assert [(one.panel, one.name, in_mm(one.why)) for one in found.down] == [("wall", "R1", reason)]
    # no new rail takes the name of one that lies in the corner now
    assert found.last == 1


STAYS: list[dict[str, Any]] = [
    {"wall": {"width": 1150}},
    {"wall": {"height": 600}},
    # it may hang in the room that holders keep off the socket
    {"wall": {"obstacle": [{**SOCKET, "z": 610}]}},
    {"wall": {"stud": []}},
    {"wall": {"stud": [{"x": 320, "width": 40}, {"x": 680, "width": 40}]}},
]


@pytest.mark.parametrize("change", STAYS, ids=str)
def test_a_rail_stays_to_the_last_millimetre_that_lets_it(change: dict[str, Any]) -> None:
    found = on(rail(), **change)
    assert names(found) == ([], ["R1"])
    assert found.down == ()


def test_a_rail_that_was_put_up_beside_studs_is_held_otherwise_and_stays() -> None:
    found = on(rail(studs_mm=(700.0,)), wall={"stud": [{"x": 500}, {"x": 900}]})
    assert names(found) == ([], ["R1"])
    # when no stud was known it counts which take screws 50 mm from its ends: 38 mm wide, they have
    # 12.5 mm beside the screws
    unknown = rail(studs_mm=None)
    assert names(on(unknown, wall={"stud": [{"x": 144}, {"x": 1106}]})) == ([], ["R1"])
    loose = on(unknown, wall={"stud": [{"x": 143}, {"x": 1106}]})
    assert [in_mm(one.why) for one in loose.down] == [
        f"it meets only one of the studs that the document names now; {SAFE}"
    ]


def test_a_rail_of_a_panel_is_written_under_that_panel() -> None:
    lid = {"name": "lid", "width": 1000, "height": 900, "floor_gap": 700}
    found = on(rail(panel="lid", studs_mm=None), panel=[lid])
    assert [in_mm(one.why) for one in found.down] == [
        (
            'it reaches to 1150 mm, and the panel "lid" is 1000 mm wide now; when you saw it '
            "shorter instead, write it as [[panel.rail]]"
        )
    ]


def test_a_rail_that_comes_down_by_new_studs_stays_when_the_document_has_it() -> None:
    studs = [{"x": 200}, {"x": 500}, {"x": 900}]
    found = on(rail(), wall={"stud": studs, "rail": [kept(100, 600, 1050)]})
    assert (names(found), found.down) == ((["R1"], []), ())


def test_of_two_rails_that_are_too_near_by_a_new_rule_the_upper_one_stays() -> None:
    upper, lower = rail("R1", 600.0), rail("R2", 470.0)
    assert names(on(upper, lower)) == ([], ["R1", "R2"])
    found = on(upper, lower, rail={"min_gap": 61})
    assert names(found) == ([], ["R1"])
    assert [(one.name, in_mm(one.why)) for one in found.down] == [
        ("R2", "it leaves 60 mm to rail R1, and [rail] asks for a min_gap of 61 mm now")
    ]


def test_a_rail_on_a_panel_that_is_gone_comes_down() -> None:
    found = on(rail(), rail("R2", panel="lid"))
    assert names(found) == ([], ["R1"])
    assert [(one.panel, one.name, in_mm(one.why)) for one in found.down] == [
        ("lid", "R2", 'the document has no panel "lid" any more')
    ]


def kept(x: float, z_top: float, length: float) -> dict[str, float]:
    return {"x": x, "z_top": z_top, "length": length}


@pytest.mark.parametrize("z_top", [600, 602, 640])
def test_a_rail_of_the_document_on_one_of_the_ledger_is_that_rail_as_the_document_tells_it(
    z_top: float,
) -> None:
    found = on(rail("R1", 800.0), rail("R2"), wall={"rail": [kept(90, z_top, 1000)]})
    (document,) = found.on("wall", "document")
    assert document.strip == (90.0, 1090.0, z_top - 70.0, z_top)
    assert names(found) == (["R2"], ["R1"])
    assert found.down == ()


def test_other_rails_of_the_document_get_the_next_names_from_top_to_bottom() -> None:
    document = {"rail": [kept(0, 300, 500), kept(0, 800, 500), kept(550, 600, 600)]}
    assert names(on(wall=document)) == (["R1", "R2", "R3"], [])
    found = on(rail("R4", 580.0), wall=document)
    tops = {run.name: run.z_top_mm for run in found.on("wall", "document")}
    assert tops == {"R5": 800.0, "R4": 600.0, "R6": 300.0}
    assert found.last == 6


def test_a_long_rail_of_the_document_covers_two_of_the_ledger() -> None:
    left = rail("R1", x0_mm=0.0, x1_mm=400.0, studs_mm=())
    right = rail("R2", x0_mm=400.0, studs_mm=())
    found = on(left, right, wall={"rail": [kept(0, 600, 1150)]})
    assert names(found) == (["R2"], [])
    assert (found.down, dict(found.covered)) == ((), {1: 2})


def test_a_rail_of_the_document_too_near_to_one_of_the_ledger_wins() -> None:
    found = on(rail(), wall={"rail": [kept(100, 500, 900)]})
    assert names(found) == (["R2"], [])
    assert [in_mm(one.why) for one in found.down] == [
        "it leaves 30 mm to rail R2, and [rail] asks for a min_gap of 60 mm now"
    ]


def test_what_hangs_on_a_rail_that_was_measured_again_hangs_there_too() -> None:
    holder = HungEntry("wall", "Box", 200.0, 600.0, "0000000", ("Box",), "2024-05-01")
    other = replace(holder, name="Tin", z_mm=800.0)
    hung = WhatHangs((holder, other), (rail("R1", 800.0), rail("R2")))
    found = on(*hung.rails, wall={"rail": [kept(100, 603, 1000)]})
    assert [one.z_mm for one in as_told(hung, found).holders] == [603.0, 800.0]
    assert as_told(hung, on(*hung.rails)) == hung


def test_afresh_no_rail_of_the_ledger_hangs_and_a_new_one_in_its_place_keeps_its_name() -> None:
    found = on(rail("R3"), rail("R1", 890.0), afresh=True, wall={"height": 880})
    assert names(found) == ([], [])
    assert [run.name for run in found.on("wall", "set aside")] == ["R3"]
    assert [one.name for one in found.down] == ["R1"]
    assert found.last == 3


def test_a_stud_that_was_found_later_holds_no_rail_that_hung_before() -> None:
    found = on(rail(), wall={"stud": [*STUDS, {"x": 500, "width": 40}]})
    assert found.rails[0].studs_mm == (300.0, 700.0, 1100.0)
    # one that the document tells is held by every stud that it meets
    given = on(wall={"stud": [*STUDS, {"x": 500, "width": 40}], "rail": [kept(0, 300, 800)]})
    assert given.rails[0].studs_mm == (300.0, 500.0, 700.0)
