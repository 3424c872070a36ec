"""Carriers of wood, from the document to the papers for saw and router."""

from __future__ import annotations

import csv
import io
import shutil
from collections.abc import Mapping
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cleatwright.base.errors import (
    CleatwrightError,
    DesignError,
    DocumentError,
    MeasureError,
    StockError,
)
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import part_names, wooden_carriers
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import all_files_of, make_workshop
from cleatwright.jobs.remaking import remake_part
from cleatwright.pack.job import Job
from cleatwright.pack.reporting import report_of
from cleatwright.project.computing import compute

BOARD = """
[[carrier]]
name = "Board"
made_of = "wood"
joint = "dovetail"
mount = "french-cleat"

[[holder]]
tools = ["Oil spray"]
carrier = "Board"

[[holder]]
tools = ["Hammer"]
carrier = "Board"
"""
# without screws a hand's tug takes so light a carrier off its rail
SCREWED = BOARD.replace('"french-cleat"\n', '"french-cleat"\nparams = { screw_count = 2 }\n')
KERF_MM = 3.0
SVG = "{http://www.w3.org/2000/svg}"


def shed_with(shed_text: str, folder: Path, more: str) -> Path:
    """Return a folder with two tools of the small workshop, its own wishes replaced."""
    head, *tools = shed_text.split("[[holder]]", maxsplit=1)[0].split("[[tool]]")
    kept = [one for one in tools if '"Hammer"' in one or '"Oil spray"' in one]
    folder.mkdir(parents=True)
    (folder / "workshop.toml").write_text("[[tool]]".join([head, *kept]) + more, "utf-8")
    return folder


def table(data: bytes) -> list[dict[str, str]]:
    """Return the rows of a list, without the sentences below it."""
    heading, *rows = csv.reader(io.StringIO(data.decode("utf-8-sig")))
    return [dict(zip(heading, row, strict=True)) for row in rows if len(row) == len(heading)]


@pytest.fixture(scope="module")
def wooden(
    tmp_path_factory: pytest.TempPathFactory, shed_text: str
) -> tuple[Path, Job, Mapping[str, bytes]]:
    folder = shed_with(shed_text, tmp_path_factory.mktemp("wooden") / "shed", SCREWED)
    assert any("1 carrier of wood" in note for note in make_workshop(folder).notes)
    job = compute(folder)
    return folder, job, all_files_of(job)


def only_carrier(job: Job) -> BuiltPart:
    ((_, made),) = wooden_carriers(job.units)
    return made


def test_every_check_holds_and_the_board_weighs_what_softwood_weighs(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """Source: EN 338, class C24: 420 kg/m3 on average (from memory)."""
    _, job, _ = wooden
    for name, made in part_names(job.units).values():
        assert made.holds, (name, [check for check in made.checks if not check.holds])
    made = only_carrier(job)
    assert made.own.mass_kg == pytest.approx(made.body.facts.volume_mm3 * 420e-9)


def test_a_wooden_carrier_is_not_printed_but_drawn_and_reported(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    _, job, files = wooden
    mark = only_carrier(job).mark
    assert [name for name in files if mark in name] == [f"wood/carrier-{mark}.svg"]
    assert mark not in files["lists/printing.csv"].decode("utf-8-sig")
    assert all(mark not in batch.marks for batch in job.production.batches)
    report = report_of(job, files=tuple(sorted(files)))
    (row,) = [one for one in report.carriers if one.mark == mark]
    assert (row.made_of, row.print) == ("wood", None)
    assert row.files == (f"wood/carrier-{mark}.svg",)
    assert {one.carrier for one in report.holders if one.mark in row.holders} == {mark}
    hung = [one for one in report.holders if one.carrier == mark]
    assert all(any(name.endswith(".stl") for name in one.files) for one in hung)


def test_nothing_is_engraved_and_the_mark_is_to_be_written(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    _, job, files = wooden
    made = only_carrier(job)
    assert made.solid == made.part.solid
    assert made.marking.lines == ()
    drawing = files[f"wood/carrier-{made.mark}.svg"].decode()
    assert f"Write the mark {made.mark}" in drawing


def test_a_carrier_that_hangs_unchanged_is_not_cut_again(
    wooden: tuple[Path, Job, Mapping[str, bytes]], tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(wooden[0], tmp_path / "hung"))
    # its screws are beside the studs
    record_hung(folder, anyway=True)
    job = compute(folder)
    files = all_files_of(job)
    mark = only_carrier(job).mark
    listed = ("wood/carriers.csv", "wood/rip-list.csv", "wood/cut-list.csv")
    assert all(mark in wooden[2][name].decode("utf-8-sig") for name in listed)
    assert not any(name in files for name in listed)
    assert f"wood/carrier-{mark}.svg" in files


def test_its_drawing_is_made_again_from_the_mark(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    folder, job, files = wooden
    mark = only_carrier(job).mark
    (again,) = remake_part(folder, mark, out=folder / "again")
    assert again.read_bytes() == files[f"wood/carrier-{mark}.svg"]


def test_the_cut_list_holds_its_boards_and_strips_and_adds_up(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """A board is its pieces, a kerf behind each, and the remainder."""
    _, job, files = wooden
    made = only_carrier(job)
    width = made.body.facts.size_mm[0]
    rows = table(files["wood/cut-list.csv"])
    own = [row for row in rows if made.mark in row["piece"]]
    names = sorted(row["piece"].removeprefix(f"carrier {made.mark} ") for row in own)
    height = made.body.facts.size_mm[2]
    widths = [name for name in names if name.startswith("board")]
    # rail strips of 70 mm, and no more of them than the board needs
    assert (len(widths) - 1) * 70.0 < height <= len(widths) * 70.0
    assert names == [*widths, "hook strip", "spacer strip"]
    assert all(float(row["length mm"]) == pytest.approx(width, abs=0.06) for row in own)
    for number in {row["board"] for row in rows}:
        pieces = [row for row in rows if row["board"] == number]
        total = sum(float(row["length mm"]) + KERF_MM for row in pieces)
        assert total + float(pieces[-1]["remainder mm"]) == pytest.approx(2400.0, abs=0.1 * 8)


def test_the_rip_list_has_the_bevel_of_the_hook_strip_and_the_square_strips(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """At 45 degrees the hook strip is higher at the wall by its thickness of 18 mm."""
    _, job, files = wooden
    made = only_carrier(job)
    rows = {row["rails"]: row for row in table(files["wood/rip-list.csv"])}
    hook = rows[f"carrier {made.mark} hook strip"]
    assert float(hook["height mm"]) == pytest.approx(30.0 + 18.0)
    assert float(hook["fence mm"]) == pytest.approx(30.0)
    assert hook["blade tilt deg"] == "45"
    (board,) = [row for name, row in rows.items() if " board" in name]
    count = round(float(board["total length mm"]) / made.body.facts.size_mm[0])
    assert count * float(board["height mm"]) == pytest.approx(made.body.facts.size_mm[2], abs=0.2)
    assert any("glue it up from" in note for note in job.woodwork.notes)


def test_the_list_says_where_each_groove_is(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """Measured in the mesh: a probe where the list says is free, one beside it is wood."""
    _, job, files = wooden
    made = only_carrier(job)
    rows = [row for row in table(files["wood/carriers.csv"]) if row["mark"] == made.mark]
    (board,) = [row for row in rows if row["what"] == "board"]
    size = made.body.facts.size_mm
    assert float(board["length mm"]) == pytest.approx(size[0], abs=0.06)
    assert float(board["height mm"]) == pytest.approx(size[2], abs=0.06)
    assert float(board["thickness mm"]) == pytest.approx(18.0)
    grooves = [row for row in rows if row["what"] == "dovetail groove"]
    assert len(grooves) == sum(len(one.part.interfaces) for one in job.built[:2])
    low, high = made.part.bounds_mm
    for groove in grooves:
        # x runs to the left for the reader
        x = high[0] - float(groove["from left mm"])
        end = high[2] - float(groove["length mm"])
        floor = high[1] - float(groove["depth mm"])
        corners = made.body.vertices_mm
        near = corners[(abs(corners[:, 0] - x) < 6.5) & (abs(corners[:, 1] - floor) < 1e-3)]
        assert near[:, 2].min() == pytest.approx(end, abs=0.06)
        assert near[:, 0].max() - near[:, 0].min() == pytest.approx(12.7, abs=0.02)
    assert {row["what"] for row in rows} == {
        "board",
        "dovetail groove",
        "hole",
        "hook strip",
        "spacer strip",
        "screw from behind",
    }
    assert low[1] == pytest.approx(-18.0)


def test_screws_are_bought_as_many_as_are_listed(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    _, _, files = wooden
    listed = [r for r in table(files["wood/carriers.csv"]) if r["what"] == "screw from behind"]
    bought = table(files["lists/hardware.csv"])
    (row,) = [one for one in bought if "from behind" in one["for"]]
    assert int(row["count"]) == len(listed)
    # 18 mm of strip and 18 mm of board: a screw of 30 mm ends 6 mm behind the face
    assert row["item"] == "countersunk wood screw 4 x 30 mm"


def test_the_drawing_is_to_scale_and_says_what_can_hurt(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """The view box is in real millimetres, so the board can be measured in the file."""
    _, job, files = wooden
    made = only_carrier(job)
    root = ET.fromstring(files[f"wood/carrier-{made.mark}.svg"])  # noqa: S314 - our own file
    front = next(one for one in root.iter(f"{SVG}rect") if one.get("class") == "board")
    assert float(front.get("width", "")) == pytest.approx(made.body.facts.size_mm[0], abs=0.01)
    assert float(front.get("height", "")) == pytest.approx(made.body.facts.size_mm[2], abs=0.01)
    _, _, wide, _ = (float(n) for n in root.get("viewBox", "").split())
    paper = float(root.get("width", "").removesuffix("mm"))
    words = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    assert f"scale 1 : {wide / paper:g} " in words
    assert "table saw" in words
    assert "router" in words
    assert "Local rules" in words


def test_the_section_has_its_strips_at_the_left_and_is_seen_from_the_left(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """Strips lie behind the board; a right-handed frame seen from the left has them at the left."""
    _, job, files = wooden
    root = ET.fromstring(files[f"wood/carrier-{only_carrier(job).mark}.svg"])  # noqa: S314 - ours
    (section,) = [one for one in root.iter(f"{SVG}g") if one.get("class") == "section"]
    board = next(one for one in section.iter(f"{SVG}rect") if one.get("class") == "board")
    strips = [
        float(pair.partition(",")[0])
        for one in section.iter(f"{SVG}polygon")
        for pair in one.get("points", "").split()
    ]
    assert max(strips) == pytest.approx(float(board.get("x", "")), abs=0.01)
    words = [text.text for text in root.iter(f"{SVG}text")]
    assert "section seen from the left" in words


def test_the_same_document_gives_the_same_papers(
    wooden: tuple[Path, Job, Mapping[str, bytes]],
) -> None:
    """The folder was written by one run, the files here come from another one."""
    folder, _, files = wooden
    papers = [name for name in files if name.startswith("wood/")]
    assert len(papers) == 5
    assert all((folder / "out" / name).read_bytes() == files[name] for name in papers)


def test_bolts_and_wall_screws_need_no_rail(tmp_path: Path, shed_text: str) -> None:
    wishes = BOARD.replace('"dovetail"', '"bolted"').replace('"french-cleat"', '"wall-screws"')
    folder = shed_with(
        shed_text, tmp_path / "shed", '\n[defaults]\nmount = "wall-screws"\n' + wishes
    )
    job = compute(folder)
    files = all_files_of(job)
    made = only_carrier(job)
    assert made.holds
    assert not job.rails
    rows = table(files["wood/carriers.csv"])
    bolts = [row for row in rows if "bolt M4" in row["how"]]
    assert len(bolts) == sum(len(one.part.interfaces) for one in job.built[:2])
    assert all("counterbore of 15 mm" in row["how"] for row in bolts)
    bought = {row["item"]: int(row["count"]) for row in table(files["lists/hardware.csv"])}
    assert bought["machine screw M4 x 20"] == len(bolts)
    assert bought["washer for M4"] == 2 * len(bolts)
    assert made.mark in files["wood/cut-list.csv"].decode("utf-8-sig")


@pytest.mark.parametrize(
    ("old", "new", "error", "words"),
    [
        ('"wood"', '"glass"', DocumentError, "wood"),
        ('"french-cleat"', '"perforated-board"', DesignError, 'carrier "Board"'),
        ('"french-cleat"', '"perforated-board"', DesignError, "french-cleat, wall-screws"),
        ('joint = "dovetail"', 'joint = "one-piece"', DesignError, "bolted, dovetail"),
        ('"dovetail"', '"dovetail"\nparams = { pin_count = 1 }', DesignError, "pin_count = 0"),
        ('"dovetail"', '"dovetail"\nparams = { width = 60 }', DesignError, "at least"),
        ('"dovetail"', '"dovetail"\nparams = { depth = 9 }', MeasureError, "no parameter"),
        ("\n[[carrier]]", "\n[joint.dovetail]\ndepth = 11\n\n[[carrier]]", DesignError, "8 mm"),
    ],
)
def test_a_wrong_wish_is_told_with_what_is_allowed(
    tmp_path: Path, shed_text: str, old: str, new: str, error: type[CleatwrightError], words: str
) -> None:
    assert old in BOARD
    folder = shed_with(shed_text, tmp_path / "shed", BOARD.replace(old, new, 1))
    with pytest.raises(error) as told:
        compute(folder)
    assert words in str(told.value)


def test_a_board_shorter_than_the_carrier_is_told(tmp_path: Path, shed_text: str) -> None:
    short = shed_text.replace("length = 2400", "length = 600")
    wide = BOARD.replace('"french-cleat"', '"wall-screws"\nparams = { width = 590 }')
    folder = shed_with(short.replace("length = 600", "length = 580"), tmp_path / "shed", wide)
    with pytest.raises(StockError, match="board"):
        compute(folder)
