"""A wall on which not everything finds a place: told and drawn as far as it goes."""

import itertools
import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
import shapely
from tests.a_move_needed import hung_store
from tests.cli.conftest import Cli

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.why import why_there
from cleatwright.pack.drawing import elevation_view
from cleatwright.project.revision import read_revision
from cleatwright.project.walls import Request, walls_so_far
from cleatwright.web.rows.wall import row_so_far

CANS = """schema = 1
name = "Narrow"
units = "mm"
wall = { width = 300, height = 440, stud = [{ x = 150, width = 40 }] }
printer.bench = { bed = [240, 240, 200] }
filament.plain = { material = "PETG", density = 1270 }

[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65.5, height = 180 }
mass = "390 g"
count = 3
"""
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def narrow(shed: Path, shed_text: str) -> Path:
    """Return the small workshop on a wall that is too small for it."""
    text = shed_text.replace("width = 1200\nheight = 900", "width = 300\nheight = 440")
    text = text.partition("[[holder]]")[0]
    for x in (700, 1100):
        text = text.replace(f"[[wall.stud]]\nx = {x}\nwidth = 50\n", "")
    text = text.replace("[[wall.stud]]", "[[wall.stud]]\nx = 250\nwidth = 50\n\n[[wall.stud]]", 1)
    (shed / "workshop.toml").write_text(text, "utf-8")
    return shed


def test_what_hangs_and_what_is_left_over_are_told_and_drawn(
    narrow: Path, cli: Cli, tmp_path: Path
) -> None:
    drawn = tmp_path / "wall.svg"
    ran = cli("arrange", narrow, "--out", drawn, "--json")
    assert ran.code == 3
    assert ran.json["finished"] is False
    (wall,) = ran.json["panels"]
    hang, left = [one["name"] for one in wall["places"]], [one["name"] for one in wall["left_over"]]
    assert hang
    assert left
    assert not set(hang) & set(left)
    for one in wall["left_over"]:
        assert f'"{one["name"]}"' in one["why"]
        assert one["why"] in ran.error["given"]
    assert ran.json["files"] == [str(drawn)]
    words = " ".join("".join(text.itertext()) for text in ET.parse(drawn).iter(f"{SVG}text"))  # noqa: S314 - our own bytes
    assert f"{len(hang)} of {len(hang) + len(left)} find a place" in words
    for name in hang:
        assert name in words
    for name in left:
        assert f'Left over: "{name}"' in words
    assert "Before you drill" in words


def test_what_is_drawn_lies_apart_and_on_the_wall(narrow: Path, known: Store) -> None:
    """Shapely says so of the silhouettes of holders and tools."""
    run = Run(known)
    (found,) = walls_so_far((read_revision(narrow, run), Request()), run)
    view = elevation_view(found.job, run)
    wall = shapely.box(0.0, 0.0, view.width_mm, view.height_mm)
    shapes = [
        shapely.union_all(
            [shapely.make_valid(shapely.Polygon(ring)) for ring in (*one.holder, *one.tools)]
        )
        for one in view.holders
    ]
    assert shapes
    for shape in shapes:
        assert wall.buffer(0.1).contains(shape)
    for one, other in itertools.combinations(shapes, 2):
        assert one.intersection(other).area < 1.0
    hang = {unit.planned.name for unit in found.job.units}
    assert hang.isdisjoint({one.key for one in found.left})
    assert found.left


def test_what_hangs_stays_with_its_rails(tmp_path: Path, known: Store) -> None:
    """One tool more has no place beside a can that hangs: neither it nor its rail comes down."""
    run = Run(known)
    folder = hung_store(tmp_path / "store", run)
    (found,) = walls_so_far((read_revision(folder, run), Request()), run)
    assert [one.key for one in found.left] == ["Steel rule"]
    assert [unit.planned.name for unit in found.job.units] == ["Oil spray"]
    assert [(rail.name, rail.state) for rail in found.job.arrangement.rails] == [("R1", "recorded")]
    assert found.job.down == ()


def test_make_writes_nothing_and_says_how_to_see_the_wall(
    narrow: Path, cli: Cli, listing: Callable[[Path], dict[str, bytes]]
) -> None:
    before = listing(narrow)
    ran = cli("make", narrow)
    assert ran.code == 3
    assert f"cleatwright arrange {narrow} --out wall.pdf" in ran.err
    after = {name for name in listing(narrow) if not name.startswith(".")}
    assert after == {name for name in before if not name.startswith(".")}


def test_a_file_that_is_there_already_is_kept(narrow: Path, cli: Cli, tmp_path: Path) -> None:
    kept = tmp_path / "wall.pdf"
    kept.write_bytes(b"mine")
    ran = cli("arrange", narrow, "--out", kept)
    assert ran.code == 5
    assert "already a file of this name" in ran.err
    assert kept.read_bytes() == b"mine"


def test_a_wall_that_is_finished_is_drawn_too(shed: Path, cli: Cli, tmp_path: Path) -> None:
    drawn = tmp_path / "wall.pdf"
    ran = cli("arrange", shed, "--out", drawn)
    assert ran.code == 0
    assert f"Wrote {drawn}" in ran.out
    assert drawn.read_bytes().startswith(b"%PDF")


def test_where_more_than_room_is_wanting_only_that_is_told(narrow: Path, cli: Cli) -> None:
    """A place that is given off the wall is no want of room."""
    path = narrow / "workshop.toml"
    given = '\n[[holder]]\ntools = ["Hammer"]\nplace = { x = 260, z = 300 }\n'
    path.write_text(path.read_text("utf-8") + given, "utf-8")
    ran = cli("arrange", narrow)
    assert ran.code == 3
    assert "find a place" not in ran.out


def test_what_does_not_hold_of_what_hangs_is_told_on_an_unfinished_wall_too(
    cli: Cli, tmp_path: Path
) -> None:
    """The first of three cans is 76 mm wide, and 20 mm from the edge it ends left of the stud."""
    cans = "".join(
        f'\n[[holder]]\ntools = ["Oil spray #{n}"]\nmount = "wall-screws"\n' for n in (1, 2, 3)
    )
    given = cans.replace('"wall-screws"', '"wall-screws"\nplace = { x = 20, z = 130 }', 1)
    (tmp_path / "workshop.toml").write_text(CANS + given, "utf-8")
    ran = cli("arrange", tmp_path)
    assert ran.code == 3
    assert "2 of 3 find a place" in ran.out
    (line,) = [one for one in ran.out.splitlines() if one.startswith("Does not hold: ")]
    assert '"Oil spray #1" is screwed to the wall and no stud is behind its screws' in line
    # no rail is on this wall
    assert not any("rails" in one for one in cli("check", tmp_path, "--json").json["remarks"])


@pytest.fixture(scope="module")
def too_narrow(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a workshop of three cans, on a wall of 220 mm, where two of about 77 mm fit."""
    folder = tmp_path_factory.mktemp("narrow")
    studs = "stud = [{ x = 50 }, { x = 190 }]"
    wall = f"wall = {{ width = 220, height = 440, floor_gap = 900, {studs} }}"
    text = re.sub("(?m)^wall = .*$", wall, CANS)
    cans = "".join(f'\n[[holder]]\ntools = ["Oil spray #{n}"]\n' for n in (1, 2, 3))
    (folder / "workshop.toml").write_text(text + cans, "utf-8")
    return folder


def test_why_tells_of_what_is_left_over_what_is_in_its_way_and_what_helps(
    too_narrow: Path, cli: Cli, tmp_path: Path
) -> None:
    """The document, changed as is told, is arranged once more: then everything hangs."""
    ran = cli("why", too_narrow, "Oil spray #3", "--json")
    assert ran.code == 0
    assert ran.json["hangs"] is False
    assert ran.json["place"] == ""
    # two fill the row of 220 mm, so that each place there meets one of the two
    told = ran.json["sentences"]
    (at,) = [line for line in told if line.startswith("At 1100 mm above the floor")]
    assert re.search(r'"Oil spray #[12]" and "Oil spray #3" overlap|"Oil spray #3" and', at)
    (helps,) = [line for line in told if line.startswith("It finds a place with ")]
    width = re.search(r"width at least (\d+) mm", helps)
    assert width
    text = (too_narrow / "workshop.toml").read_text("utf-8")
    (tmp_path / "workshop.toml").write_text(
        text.replace("width = 220", f"width = {width[1]}"), "utf-8"
    )
    wider = cli("why", tmp_path, "Oil spray #3", "--json")
    assert wider.json["hangs"] is True
    assert wider.json["place"]
    (families,) = [one for one in ran.json["families"] if one["state"] == "used"]
    assert families["holder"] == "Oil spray #3"


def test_why_tells_of_what_hangs_and_of_rails_as_far_as_the_wall_goes(
    too_narrow: Path, cli: Cli
) -> None:
    ran = cli("why", too_narrow, "Oil spray #1", "--json")
    assert ran.code == 0
    assert ran.json["hangs"] is True
    assert "on rail R1" in ran.json["place"]
    assert "Its way out is free." in ran.json["sentences"]
    far = 'as far as it goes: 2 of 3 find a place, and what is left over ("Oil spray #3")'
    assert far in ran.json["sentences"][-1]
    rail = cli("why", too_narrow, "R1")
    assert 'It carries "Oil spray #1", "Oil spray #2".' in rail.out
    assert far in rail.out
    assert cli("why", too_narrow, "Oil spary", "--json").error["code"] == "unknown-name"


def test_the_page_of_the_wall_has_what_is_left_over(too_narrow: Path, known: Store) -> None:
    """The same sentences as ``why`` has, in the words of a page for keys of the document."""
    run = Run(known)
    given = (read_revision(too_narrow, run), Request())
    (panel,) = row_so_far(given, run, 1).panels
    (left,) = panel.left_over
    assert left.name == "Oil spray #3"
    told = (left.why, *left.in_the_way, left.helps)
    answer = why_there(too_narrow, left.name, run=run).sentences[: len(told)]
    assert told == tuple(line.replace("floor_gap", "floor gap") for line in answer)
    assert [one.name for one in panel.hung] == ["Oil spray #1", "Oil spray #2"]


def test_what_finishes_a_wall_on_which_two_are_left_over_does(
    too_narrow: Path, cli: Cli, tmp_path: Path
) -> None:
    """The document is changed as is told, and arranged once more."""
    text = (too_narrow / "workshop.toml").read_text("utf-8")
    narrower = text.replace("width = 220", "width = 140").replace("{ x = 190 }", "{ x = 110 }")
    (tmp_path / "workshop.toml").write_text(narrower, "utf-8")
    drawn = tmp_path / "wall.svg"
    ran = cli("arrange", tmp_path, "--json", "--out", drawn)
    (wall,) = ran.json["panels"]
    assert len(wall["left_over"]) == 2
    assert wall["finish"] in ran.error["given"]
    words = " ".join("".join(text.itertext()) for text in ET.parse(drawn).iter(f"{SVG}text"))  # noqa: S314 - our own bytes
    assert "Everything finds a place with " in words
    size = re.search(r"(width|height) at least (\d+) mm", wall["finish"])
    assert size
    larger = re.sub(rf"\b{size[1]} = \d+", f"{size[1]} = {size[2]}", narrower, count=1)
    (tmp_path / "workshop.toml").write_text(larger, "utf-8")
    assert "finds no" not in cli("arrange", tmp_path).err
