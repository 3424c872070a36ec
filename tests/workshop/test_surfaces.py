"""The wall, its panels, and what lies on them."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from cleatwright.base.errors import DocumentError, UnknownNameError
from cleatwright.wall.panel_studs import studs_of
from cleatwright.workshop.document.editing import append_entry, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import checked, load, parse, read_text, save
from cleatwright.workshop.document.surfaces import KeptRail, Obstacle, Panel, Wall

HEAD = 'schema = 1\nname = "Shed"\n'
WALL = "[wall]\nwidth = 2400\nheight = 1200\n"
LID = "[[panel]]\nname = 'lid'\nwidth = 600\nheight = 400\n"
TOOLS = "".join(f"[[tool]]\nname = '{name}'\nkind = 'x'\n" for name in "AB")
ON_LID = TOOLS.replace("kind = 'x'\n", "kind = 'x'\npanel = 'lid'\n", 1)
FOUR_RAILS = "".join(
    f"[[wall.rail]]\nx = {x}\nz_top = {z}\nlength = 800\n"
    for x, z in ((0, 300), (0, 430), (1200, 500), (700, 700))
)


def wrong(text: str) -> DocumentError:
    with pytest.raises(DocumentError) as caught:
        checked(HEAD + text)
    return caught.value


def obstacle(kind: str, rest: str = "") -> Obstacle:
    text = f"[[wall.obstacle]]\nname = 'O'\nkind = '{kind}'\nx = 9\nz = 9\nwidth = 9\nheight = 9\n"
    return checked(HEAD + WALL + text + rest).wall.obstacles[0]


# common practice, no source: room for a plug, a hand, a sash, a swing, warm air
@pytest.mark.parametrize(
    ("kind", "keep_out", "out", "heat"),
    [
        ("socket", 60, 60, 0),
        ("switch", 60, 20, 0),
        ("window", 40, 60, 0),
        ("pipe", 30, 60, 0),
        ("door", 20, 1000, 0),
        ("heater", 200, 150, 1000),
        ("other", 0, 100, 0),
    ],
)
def test_what_an_obstacle_does_not_say_follows_from_its_kind(
    kind: str, keep_out: float, out: float, heat: float
) -> None:
    one = obstacle(kind)
    assert (one.keep_out_mm, one.stands_out_mm, one.heat_mm) == (keep_out, out, heat)
    told = obstacle(kind, "margin = 0\ndepth = 7\nheat = '1 in'\n")
    assert (told.keep_out_mm, told.stands_out_mm, told.heat_mm) == (0, 7, 25.4)


def test_an_obstacle_without_a_kind_needs_no_room_of_its_own() -> None:
    """Documents from before kinds mean what they meant."""
    one = Obstacle(name="O", x_mm=1, z_mm=1, width_mm=1, height_mm=1)
    assert (one.kind, one.keep_out_mm, one.heat_mm) == ("other", 0, 0)


def test_the_wall_is_the_first_surface_and_the_panels_follow_in_order() -> None:
    shed = checked(HEAD + WALL + "floor_gap = 300\n" + LID + LID.replace("lid", "door side"))
    assert [panel.name for panel in shed.surfaces()] == ["wall", "lid", "door side"]
    assert shed.surface().floor_gap_mm == 300
    assert shed.surface("lid").width_mm == 600
    with pytest.raises(UnknownNameError, match="Did you mean"):
        shed.surface("lit")


@given(
    st.floats(100, 30_000),
    st.floats(100, 6_000),
    st.none() | st.floats(100, 2_000),
    st.lists(st.floats(0, 100), max_size=3),
)
@settings(deadline=None, max_examples=40)
def test_the_wall_as_a_panel_has_every_value_of_the_wall(
    width: float, height: float, bench: float | None, rails: list[float]
) -> None:
    kept = tuple(KeptRail(x_mm=0, z_top_mm=90, length_mm=100 - end / 2) for end in rails[:1])
    wall = Wall(width_mm=width, height_mm=height, bench_height_mm=bench, rails=kept)
    (panel,) = Workshop(name="S", wall=wall).surfaces()
    assert {name: getattr(panel, name) for name in Wall.model_fields} == dict(wall)


def test_the_person_stands_in_the_middle_unless_told_otherwise() -> None:
    assert Wall(width_mm=2400, height_mm=900).stands_at_mm == 1200
    assert Wall(width_mm=2400, height_mm=900, stand_x_mm=300).stands_at_mm == 300


@pytest.mark.parametrize(
    ("text", "where", "said"),
    [
        (WALL + "stand_x = 2401", 'wall, key "stand_x"', "outside the wall"),
        (WALL + "bench_depth = 1501", 'wall, key "bench_depth"', "nobody reaches over"),
        (WALL + "lining = 61", 'wall, key "lining"', "from 0 mm to 60 mm"),
        (WALL + LID + "lining = -1", 'panel "lid" (number 1), key "lining"', "carries nothing"),
        (
            WALL + "[[wall.obstacle]]\nname = 'O'\nkind = 'sink'\nx=1\nz=1\nwidth=1\nheight=1",
            'obstacle "O" (number 1), key "kind"',
            "'heater'",
        ),
        (
            WALL + LID + "[[panel.obstacle]]\nname = 'O'\nx=590\nz=1\nwidth=20\nheight=1",
            'panel "lid" (number 1), obstacle "O" (number 1)',
            'outside the panel "lid"',
        ),
        (WALL + LID + "[[panel.stud]]\nx = 700", 'panel "lid" (number 1)', "from 0 mm to 600 mm"),
        (
            WALL + "[[wall.rail]]\nx = 2000\nz_top = 300\nlength = 500",
            "wall, rail number 1",
            "2500 mm lies outside the wall",
        ),
        (
            WALL + "[[wall.rail]]\nx = 0\nz_top = 60\nlength = 500",
            'wall, rail number 1, key "z_top"',
            "from 70 mm",
        ),
        (
            WALL
            + "[[wall.rail]]\nx = 0\nz_top = 300\nlength = 500\n"
            + "[[wall.obstacle]]\nname = 'tap'\nx=100\nz=280\nwidth=20\nheight=100",
            "wall, rail number 1",
            'lies on the obstacle "tap"',
        ),
        (
            WALL + FOUR_RAILS.replace("430", "420"),
            "wall, rail number 2",
            "The rails number 1 and number 2 are 120 mm apart",
        ),
        (WALL + LID.replace("lid", "Wall"), 'panel "Wall" (number 1)', "that of the wall itself"),
        (WALL + LID + LID, 'panel "lid" (number 2)', "used twice"),
        (WALL + LID + ON_LID.replace("'lid'", "'lit'"), 'tool "A"', 'no panel "lit"'),
        (WALL + TOOLS + "[[holder]]\ntools=['A']\npanel='lid'", "holder number 1", "no panel"),
        (
            WALL + LID + ON_LID + "[[holder]]\ntools = ['A', 'B']\npanel = 'wall'",
            'holder number 1, key "panel"',
            'the holder on "wall", "A" on "lid"',
        ),
        (
            WALL + LID + ON_LID + "[[holder]]\ntools=['B']\npanel='lid'\ncarrier='C'\n"
            "[[carrier]]\nname='C'",
            "holder number 1",
            "must not have its own panel",
        ),
        (
            WALL + LID + ON_LID + "[[holder]]\ntools=['A']\ncarrier='C'\n"
            "[[carrier]]\nname='C'\npanel='wall'",
            'carrier "C" (number 1), key "panel"',
            'the carrier on "wall", "A" on "lid"',
        ),
        (
            WALL + LID + ON_LID + "[[holder]]\ntools=['A']\nplace={x=650, z=300}",
            "holder number 1, place",
            'outside the panel "lid"',
        ),
        (WALL + TOOLS + "[[group]]\nname = 'A'", 'group "A" (number 1)', 'no group "A"'),
        (
            WALL + TOOLS.replace("'x'", "'x'\ngroup = 'g'") + 2 * "[[group]]\nname = 'g'\n",
            'group "g" (number 2)',
            "used twice",
        ),
        (WALL + TOOLS + "keep_cool = 'yes'", 'tool "B"', "true or false"),
        (WALL + "[drawings]\nsheet = 'A7'", 'drawings, key "sheet"', "'A0'"),
    ],
)
def test_each_wrong_entry_of_a_surface_is_named(text: str, where: str, said: str) -> None:
    error = wrong(text)
    assert where in error.where
    assert said in error.sentence


def test_rails_apart_by_their_height_and_gap_may_stay() -> None:
    """Rails 70 mm high with a gap of 60 mm stand 130 mm apart, or side by side at any height."""
    shed = checked(HEAD + WALL + FOUR_RAILS)
    assert [rail.z_top_mm for rail in shed.wall.rails] == [300, 430, 500, 700]


@given(st.integers(0, 160), st.integers(7, 120), st.integers(0, 210), st.integers(0, 90))
@settings(deadline=None, max_examples=80)
def test_a_rail_may_touch_an_obstacle_but_not_lie_on_it(
    x: int, z: int, left: int, low: int
) -> None:
    """Held against the shared area that shapely finds, on a grid of 10 mm."""
    rail = KeptRail(x_mm=10 * x, z_top_mm=10 * z, length_mm=800)
    thing = Obstacle(name="O", x_mm=10 * left, z_mm=10 * low, width_mm=300, height_mm=300)
    shared = box(10 * x, 10 * z - 70, 10 * x + 800, 10 * z).intersection(
        box(10 * left, 10 * low, 10 * left + 300, 10 * low + 300)
    )
    wall = Wall(width_mm=2400, height_mm=1200, rails=(rail,), obstacles=(thing,))
    if shared.area > 0:
        with pytest.raises(ValueError, match="lies on the obstacle"):
            Workshop(name="S", wall=wall)
    else:
        assert Workshop(name="S", wall=wall).wall.rails == (rail,)


def test_a_holder_hangs_where_its_tools_hang() -> None:
    tables = (
        "[[tool]]\nname = 'C'\nkind = 'x'\n"
        "[[holder]]\ntools = ['A', 'B']\nplace = { x = 590, z = 300 }\n"
        "[[holder]]\ntools = ['C']\ncarrier = 'strip'\n[[carrier]]\nname = 'strip'\npanel = 'lid'\n"
    )
    shed = checked(HEAD + WALL + LID + ON_LID + tables)
    assert [shed.panel_of(row) for row in (*shed.holders, *shed.carriers)] == ["lid"] * 3
    assert [shed.panel_of(item) for item in shed.items()] == ["lid"] * 3
    free = checked(HEAD + WALL + LID + ON_LID)
    assert [free.panel_of(item) for item in free.items()] == ["lid", "wall"]


def test_panel_and_coolness_reach_every_single_tool() -> None:
    text = "[[tool]]\nname='A'\nkind='x'\ncount=2\npanel='lid'\nkeep_cool=true\n"
    shed = checked(HEAD + WALL + LID + text + "[[tool]]\nname='B'\nkind='x'\nnominal_sizes=[3]\n")
    assert [(i.panel, i.keep_cool) for i in shed.items()] == [("lid", True)] * 2 + [(None, None)]


def test_a_document_without_the_new_tables_has_their_defaults() -> None:
    shed = checked(HEAD + WALL)
    assert (shed.person.stature_mm, shed.person.hand) == (1750, "either")
    assert (shed.drawings.sheet, shed.drawings.template_sheet) == ("auto", "auto")
    assert (shed.wall.bench_depth_mm, shed.wall.bench_height_mm) == (0, None)
    assert shed.panels == () == shed.groups


@pytest.mark.parametrize(
    ("text", "mm"),
    [("", 12.5), ("lining = 0\n", 0.0), ("lining = '5/8 in'\n", 15.875), ("lining = 60\n", 60.0)],
)
def test_the_lining_is_plasterboard_unless_it_is_given(text: str, mm: float) -> None:
    """12.5 mm is the usual board (EN 520, from memory); 5/8 of 25.4 mm is 15.875 mm."""
    shed = checked(HEAD + WALL + text + LID + text)
    assert [panel.lining_mm for panel in shed.surfaces()] == pytest.approx([mm, mm])
    given = ["lining_mm" in panel.model_fields_set for panel in shed.surfaces()]
    assert given == [bool(text)] * 2


def test_a_panel_built_from_python_takes_what_a_wall_takes() -> None:
    lid = Panel(name="lid", width_mm=600, height_mm=400, mount="wall-screws")
    assert hash(Workshop(name="S", wall=Wall(width_mm=900, height_mm=900), panels=(lid,)))


def test_new_tables_are_written_and_found_by_name(folder: Path) -> None:
    """A row of tables is appended with what lies inside it, and the owner's text stays."""
    before = read_text(folder)
    document = parse(before)
    lid = {"name": "lid", "width": 600, "height": 400, "stud": [{"x": 300}]}
    append_entry(document, "panel", entry=lid)
    append_entry(document, "group", entry={"name": "electrics", "in_order": True})
    set_value(document, ("panel", "lid", "bench_depth"), value="2 ft")
    set_value(document, ("wall", "obstacle", "Switch", "kind"), value="switch")
    set_value(document, ("person", "stature"), value=1680)
    set_value(document, ("tool", "Long nose", "panel"), value="lid")
    set_value(document, ("holder", 0, "place", "x"), value=20)
    set_value(document, ("holder", 0, "place", "z"), value=350)
    save(folder, document)
    shed = load(folder)
    assert shed.surface("lid").studs[0].x_mm == 300
    assert shed.surface("lid").bench_depth_mm == pytest.approx(609.6)
    assert shed.wall.obstacles[0].kind == "switch"
    assert (shed.person.stature_mm, shed.groups[0].in_order) == (1680, True)
    assert shed.panel_of(shed.holders[0]) == "lid"
    assert "# measured twice" in read_text(folder)
    assert [line for line in before.splitlines() if line not in read_text(folder).splitlines()] == [
        "place = { x = 100, z = 900 }"
    ]


def studs(*rows: tuple[float, float, str]) -> str:
    text = "".join(f"[[wall.stud]]\nx = {x}\nwidth = {width}\n{more}\n" for x, width, more in rows)
    return WALL + text


def test_studs_that_overlap_are_refused_with_both_names_and_the_distance() -> None:
    """Two of 38 mm need 38 mm from middle to middle: half of either width."""
    error = wrong(studs((100, 38, ""), (101, 38, "")))
    assert "number 1 and number 2 overlap" in str(error)
    assert "38 mm" in str(error)
    wide = wrong(studs((700, 50, ""), (100, 38, ""), (743, 38, "")))
    assert "number 1 and number 3 overlap" in str(wide)
    assert "44 mm" in str(wide)
    # said to be doubled, they overlap all the same
    assert "overlap" in str(wrong(studs((100, 38, ""), (110, 38, "doubled = true"))))


def test_studs_that_touch_are_one_place_for_screws_when_the_person_says_so() -> None:
    touching = wrong(studs((100, 38, ""), (138, 38, "")))
    assert "touch" in str(touching)
    assert "doubled = true" in str(touching)
    for rows in (
        ((100, 38, "doubled = true"), (138, 38, ""), (600, 38, "")),
        ((138, 38, "doubled = true"), (600, 38, ""), (100, 38, "")),
    ):
        shed = checked(HEAD + studs(*rows))
        places = studs_of(shed.surface())
        assert [(one.x0_mm, one.x1_mm) for one in places] == [(81.0, 157.0), (581.0, 619.0)]
        assert [len(one.uprights) for one in places] == [2, 1]
    apart = checked(HEAD + studs((100, 38, ""), (139, 38, "")))
    assert len(studs_of(apart.surface())) == 2


def test_a_doubled_stud_that_touches_none_is_refused() -> None:
    error = wrong(studs((100, 38, "doubled = true"), (600, 38, "")))
    assert "touches no other stud" in str(error)
    assert "wall.stud" in str(error) or "stud" in str(error.where)
