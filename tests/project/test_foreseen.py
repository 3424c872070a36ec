"""``check`` refuses what ``make`` must refuse however a wall is arranged, and its lines help."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cleatwright.base.errors import CleatwrightError, StockError, WallError
from cleatwright.base.said import in_mm
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.checking import check_workshop
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute

SMALL = Path(__file__).parents[1] / "cli" / "small.toml"
STOCK = '\n[[rail.stock]]\nname = "offcut"\nlength = {}\n'
GIVEN = """
[[holder]]
tools = ["Patch tin"]
family = "tray"
place = {{ x = {x}, z = {z} }}
"""
CARRIER = """
[[carrier]]
name = "Shelf"
made_of = "wood"
joint = "dovetail"
params = { width = 420 }

[[holder]]
tools = ["Patch tin"]
family = "tray"
carrier = "Shelf"
"""
KEPT = "\n[[wall.rail]]\nx = 100\nz_top = 500\nlength = 1000\n"
LINE_OF_PLACE = re.compile(r"place = \{.*\}")
LINE = re.compile(r'place = \{ x = "[^"]+", z = "[^"]+" \}')


def write(folder: Path, text: str) -> Path:
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def in_inches(text: str) -> str:
    """Return a document of a workshop in inches whose lengths say that they are in mm."""
    keys = "width|height|depth|diameter|floor_gap|length|x|z|z_top"
    text = re.sub(rf"\b({keys}) = ([\d.]+)", r'\1 = "\2 mm"', text)
    text = text.replace("[220, 220, 200]", '["220 mm", "220 mm", "200 mm"]')
    return text.replace('name = "Small"', 'name = "Small"\nunits = "in"', 1)


def both_refuse(folder: Path, known: Store) -> CleatwrightError:
    """Return the error of the check, after asking that the whole job fails of the same sort."""
    with pytest.raises(CleatwrightError) as caught:
        check_workshop(folder)
    with pytest.raises(type(caught.value)):
        compute(folder, run=Run(known))
    return caught.value


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize(("x_mm", "z_mm"), [(1150, 700), (0, 700), (500, 895), (500, 3), (1199, 1)])
def test_a_holder_beyond_the_edge_gets_a_place_with_which_the_job_is_done(
    tmp_path: Path, known: Store, unit: str, x_mm: float, z_mm: float
) -> None:
    """The wall is 1200 x 900 mm: a tray 110 mm wide for a tin cannot begin at 1150 mm."""
    text = SMALL.read_text("utf-8") + GIVEN.format(x=x_mm, z=z_mm)
    if unit == "in":
        text = in_inches(text)
    error = both_refuse(write(tmp_path, text), known)
    assert isinstance(error, WallError)
    assert '"Patch tin" reaches beyond the edge' in error.given
    (line,) = LINE.findall(error.todo)
    assert f" {unit}" in line
    mended = write(tmp_path, LINE_OF_PLACE.sub(line, text))
    check_workshop(mended)
    assert hangs_inside(compute(mended, run=Run(known)))


def hangs_inside(job: Job) -> bool:
    """Return whether every plate is on the wall, in plain numbers of the part."""
    return all(
        0.0 <= spot.place.x_mm <= 1200.0 - made.part.bounds_mm[1][0]
        and 0.0 <= spot.place.z_mm <= 900.0
        for made, spot in zip(job.built, job.spots.values(), strict=True)
    )


def test_the_place_that_is_named_is_free_of_another_given_one(tmp_path: Path, known: Store) -> None:
    """Where the only room at the edge is taken, no place is named that would be refused next."""
    taken = GIVEN.format(x=1085, z=600).replace("Patch tin", "Oil spray").replace("tray", "")
    taken = taken.replace('family = ""\n', "")
    text = SMALL.read_text("utf-8") + GIVEN.format(x=1150, z=600) + taken
    error = both_refuse(write(tmp_path, text), known)
    assert not LINE.findall(error.todo)
    assert "leave its place out" in error.todo


def test_two_given_places_that_overlap_are_told_before_anything_is_arranged(
    tmp_path: Path, known: Store
) -> None:
    other = GIVEN.format(x=430, z=500).replace("Patch tin", "Oil spray")
    text = SMALL.read_text("utf-8") + GIVEN.format(x=400, z=500)
    other = other.replace('family = "tray"\n', "")
    error = both_refuse(write(tmp_path, text + other), known)
    assert '"Oil spray" and "Patch tin" overlap' in error.given.replace(
        '"Patch tin" and "Oil spray"', '"Oil spray" and "Patch tin"'
    )


# studs of 50 mm at 300, 700 and 1100 mm: screws 12.5 mm inside their nearer faces are 375 mm apart,
# and a rail goes on for 50 mm beyond both
TWO_STUDS_MM = 475
ENOUGH = re.compile(r"a length of at least ([\d.]+) mm")


def test_one_plate_whose_rail_no_board_brings_to_two_studs_is_refused(
    tmp_path: Path, known: Store
) -> None:
    small = SMALL.read_text("utf-8")
    text = small[: small.rindex("[[tool]]")]
    error = both_refuse(write(tmp_path, text + STOCK.format(TWO_STUDS_MM - 1)), known)
    assert isinstance(error, StockError)
    assert error.where.endswith("rail, stock")
    assert f"{TWO_STUDS_MM} mm long at the least" in in_mm(error.given)
    enough = write(tmp_path, text + STOCK.format(ENOUGH.findall(error.todo)[0]))
    assert not any("[[rail.stock]]" in one for one in check_workshop(enough).remarks)
    assert compute(enough, run=Run(known)).woodwork.plan is not None


def test_rails_that_may_be_parted_off_their_studs_are_told_and_not_refused(tmp_path: Path) -> None:
    text = SMALL.read_text("utf-8")
    short = check_workshop(write(tmp_path, text + STOCK.format(TWO_STUDS_MM - 1)))
    assert ENOUGH.search(short.remarks[0])
    long = check_workshop(write(tmp_path, text + STOCK.format(TWO_STUDS_MM)))
    assert not any(ENOUGH.search(one) for one in long.remarks)


def test_a_board_shorter_than_a_plate_is_told_where_no_stud_is(
    tmp_path: Path, known: Store
) -> None:
    text = re.sub(r"\[\[wall\.stud\]\]\nx = \d+\nwidth = 50\n\n", "", SMALL.read_text("utf-8"))
    wide = text + STOCK.format(100)
    error = both_refuse(write(tmp_path, wide), known)
    assert '"Patch tin" needs a rail behind its whole plate' in error.given
    assert check_workshop(write(tmp_path, text + STOCK.format(200))).holders


def test_a_rail_that_hangs_needs_no_board(tmp_path: Path, known: Store) -> None:
    folder = write(tmp_path, SMALL.read_text("utf-8") + KEPT + STOCK.format(150))
    check_workshop(folder)
    assert compute(folder, run=Run(known)).woodwork.plan is None


def test_a_carrier_of_wood_longer_than_every_board_is_told(tmp_path: Path, known: Store) -> None:
    """The carrier is 420 mm wide, and its board comes from the stock of the rails."""
    text = SMALL.read_text("utf-8") + KEPT + CARRIER
    error = both_refuse(write(tmp_path, text + STOCK.format(400)), known)
    assert isinstance(error, StockError)
    assert "420 mm long" in in_mm(error.given)
    assert in_mm(error.todo) == "Write a [[rail.stock]] with a length of at least 420 mm"
    check_workshop(write(tmp_path, text + STOCK.format(420)))


def test_the_line_for_a_carrier_of_an_inch_workshop_is_no_shorter_than_it(tmp_path: Path) -> None:
    """420 mm are 16.535 in: the next 1/32 up is 16-9/16 in."""
    text = in_inches(SMALL.read_text("utf-8") + KEPT + CARRIER + STOCK.format(400))
    with pytest.raises(StockError) as caught:
        check_workshop(write(tmp_path, text))
    assert caught.value.todo.endswith("at least 16-9/16 in")


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_what_fits_between_the_heights_that_are_tried_is_told_with_a_line_that_does(
    tmp_path: Path, known: Store, unit: str
) -> None:
    """A wall 1 mm higher than what hangs with its way out has room at about one height only."""
    small = SMALL.read_text("utf-8")
    text = re.sub(r"\[\[wall\.stud\]\]\nx = \d+\nwidth = 50\n\n", "", small)
    # a can that would not just hang at two steps of 2 in., in a family that stays
    text = text[: text.rindex("[[tool]]")].replace("diameter = 65.5", "diameter = 50")
    text += '\n[[holder]]\ntools = ["Oil spray"]\nfamily = "ring-floor"\n'
    (item,) = compute(write(tmp_path, text), run=Run(known)).panels[0].problem.items
    whole_mm = item.up_mm + max(item.down_mm, item.rail_depth_mm)
    low = text.replace("height = 900", f"height = {whole_mm + 1.0:.2f}")
    low = in_inches(low) if unit == "in" else low
    with pytest.raises(WallError) as caught:
        compute(write(tmp_path, low), run=Run(known))
    (line,) = LINE.findall(caught.value.given)
    assert f" {unit}" in line
    assert f"{line} in " in caught.value.given
    (panel,) = compute(write(tmp_path, f"{low}{line}\n"), run=Run(known)).panels
    assert len(panel.arrangement.places) == 1
