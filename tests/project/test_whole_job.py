"""The whole job on a small workshop, read back by other programs' readers."""

import csv
import io
import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import lib3mf
import lxml.etree
import numpy as np
import pdfplumber
import pytest
import trimesh

from cleatwright.papers.report_model import Report
from cleatwright.project.publishing import MANIFEST

ROW = re.compile(r"^\| (`[^|]+`(?:, `[^|]+`)*) \|", re.MULTILINE)


def read_strictly(path: Path) -> list[Any]:
    model: Any = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)  # noqa: FBT003 - the signature of the library
    reader.ReadFromFile(str(path))
    assert reader.GetWarningCount() == 0
    found, objects = model.GetMeshObjects(), []
    while found.MoveNext():
        objects.append(found.GetCurrentMeshObject())
    return objects


def items_of(path: Path) -> list[str]:
    """Return the part number of each thing on a bed; equal ones share a mesh."""
    model: Any = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(str(path))
    items, found = model.GetBuildItems(), []
    while items.MoveNext():
        at = items.GetCurrent().GetObjectResourceID()
        found.append(model.GetMeshObjectByID(at).GetPartNumber())
    return found


def loaded(path: Path) -> trimesh.Trimesh:
    mesh = trimesh.load_mesh(path)
    if isinstance(mesh, trimesh.Scene):
        (mesh,) = mesh.dump()
    assert isinstance(mesh, trimesh.Trimesh)
    return mesh


def rows(path: Path) -> list[list[str]]:
    return list(csv.reader(io.StringIO(path.read_text("utf-8-sig"), newline="")))


@pytest.fixture(scope="session")
def report(done: Any) -> Report:
    return Report.model_validate_json((done.out / "report.json").read_bytes(), strict=True)


def test_every_file_that_the_readme_names_is_there(done: Any) -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    table = readme[readme.index("What comes out:") :]
    named = [name for row in ROW.findall(table) for name in re.findall(r"`([^`]+)`", row)]
    assert {"parts/*.3mf", "wall/elevation.svg", "report.json"} <= set(named)
    missing = [name for name in named if not list(done.out.glob(name))]
    assert missing == []


def test_the_manifest_names_every_file(done: Any) -> None:
    listed = json.loads((done.out / MANIFEST).read_text("utf-8"))["files"]
    assert listed == sorted(done.files())


def test_each_part_is_read_strictly_and_has_the_volume_of_its_body(done: Any) -> None:
    for built in done.job.built:
        (path,) = done.out.glob(f"parts/*_{built.mark}.3mf")
        (single,) = read_strictly(path)
        assert single.GetPartNumber() == built.mark
        assert single.IsManifoldAndOriented()
        mesh = loaded(path)
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        assert mesh.volume == pytest.approx(built.body.facts.volume_mm3, rel=1e-4)
        assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-4)
        sides = sorted(mesh.extents)
        assert sides == pytest.approx(sorted(built.body.facts.size_mm), abs=1e-3)


def test_each_stl_has_the_volume_of_its_body(done: Any) -> None:
    for built in done.job.built:
        (path,) = done.out.glob(f"parts/*_{built.mark}.stl")
        mesh = loaded(path)
        assert mesh.volume == pytest.approx(built.body.facts.volume_mm3, rel=1e-4)


def test_batches_hold_every_part_once_apart_and_on_the_bed(done: Any) -> None:
    marks = sorted(made.mark for _, made in done.job.parts.values())
    found: list[str] = []
    for path in sorted(done.out.glob("batches/*.3mf")):
        found += items_of(path)
        boxes = [np.asarray(mesh.bounds) for mesh in trimesh.load_scene(path).dump()]
        for low, high in boxes:
            assert (low >= [3.0 - 1e-3, 3.0 - 1e-3, -1e-3]).all()
            assert (high <= [217.0 + 1e-3, 217.0 + 1e-3, 200.0]).all()
        for index, (low, high) in enumerate(boxes):
            for other_low, other_high in boxes[:index]:
                gap = np.maximum(other_low - high, low - other_high)[:2]
                assert gap.max() >= 5.0 - 1e-3
    assert sorted(found) == marks


def test_the_report_says_how_each_size_came_about(report: Report) -> None:
    sizes = [size for holder in report.holders for seat in holder.seats for size in seat.sizes]
    assert len(sizes) > len(report.holders)
    for size in sizes:
        total = size.measured_mm + size.play_mm + size.correction_mm
        assert size.made_mm == pytest.approx(total, abs=1e-9)
    # the play of the fit "easy" and the correction of the printer, as the document has them
    assert {abs(size.correction_mm) for size in sizes if size.correction_mm} == {0.15}
    assert 0.4 in {abs(size.play_mm) for size in sizes}


def test_the_report_names_files_that_are_there_and_sources_for_every_check(
    done: Any, report: Report
) -> None:
    assert set(report.files) == set(done.files())
    for holder in report.holders:
        assert len(holder.files) == 2
        assert set(holder.files) <= set(report.files)
        assert holder.checks
        for check in holder.checks:
            assert check.holds
            assert re.fullmatch(r".+ \(.+\)", check.source)
    assert {seat.tool for holder in report.holders for seat in holder.seats} == {
        item.name for item in done.job.workshop.items()
    }


def test_holders_lie_on_the_wall_and_the_fixed_one_where_the_owner_wants_it(
    report: Report,
) -> None:
    for holder in report.holders:
        assert 0.0 <= holder.place.x_mm <= 1200.0 - holder.size_mm[0] + 1e-6
        assert 0.0 <= holder.place.z_mm <= 900.0
    spray = next(holder for holder in report.holders if holder.mount == "wall-screws")
    assert (spray.place.x_mm, spray.place.z_mm, spray.place.rail) == (650.0, 500.0, None)


def test_the_elevation_is_xml_and_names_each_mark_once(done: Any) -> None:
    # the list may have a sheet of its own
    sheets = sorted((done.out / "wall").glob("elevation*.svg"))
    roots = [lxml.etree.fromstring(sheet.read_bytes()) for sheet in sheets]
    assert {lxml.etree.QName(root).localname for root in roots} == {"svg"}
    words = " ".join(str(text) for root in roots for text in root.itertext()).split()
    for built in done.job.built:
        assert words.count(built.mark) == 1
    assert "detector," in words


def words(path: Path) -> str:
    """Return the words of a PDF file, with one space between them."""
    with pdfplumber.open(path) as document:
        return " ".join(" ".join(page.extract_text().split()) for page in document.pages)


def test_cautions_stand_on_every_paper_and_on_the_screen(done: Any, report: Report) -> None:
    hanging, wood = (words(done.out / name) for name in ("lists/cautions.pdf", "wood/notes.pdf"))
    for told in ("pipes and cables", "Hot ends and beds burn", "double load"):
        assert told in hanging
    for told in ("riving knife", "never crosscut freehand", "proven optimal"):
        assert told.lower() in wood.lower()
    for told in ("pipes and cables", "riving knife", "rip fence"):
        assert any(told in text for text in report.cautions)
    assert any("proven optimal" in text for text in report.notes)
    assert any("pipes and cables" in text for text in done.made.cautions)


def test_no_caution_stands_twice_on_one_sheet(done: Any, report: Report) -> None:
    for name in ("lists/cautions.pdf", "wood/notes.pdf"):
        sheet = words(done.out / name)
        found = [text for text in report.cautions if " ".join(text.split()) in sheet]
        assert len(found) > 3
        assert [text for text in found if sheet.count(" ".join(text.split())) > 1] == []


def test_a_table_holds_rows_and_nothing_else(done: Any) -> None:
    """RFC 4180, section 2, 4: each line has the same number of fields throughout the file."""
    papers = sorted((*done.out.glob("lists/*.csv"), *done.out.glob("wood/*.csv")))
    assert len(papers) == 5
    for path in papers:
        heading, *lines = rows(path)
        assert lines
        assert all(len(row) == len(heading) for row in lines)
        assert not any("aution" in cell for row in lines for cell in row)


def test_cut_pieces_and_kerfs_use_up_no_more_than_the_boards(done: Any, report: Report) -> None:
    table = rows(done.out / "wood" / "cut-list.csv")
    at = {name: index for index, name in enumerate(table[0])}
    cuts = [row for row in table[1:] if len(row) == len(table[0])]
    assert sorted(row[at["piece"]] for row in cuts) == sorted(rail.name for rail in report.rails)
    for rail in report.rails:
        (cut,) = [row for row in cuts if row[at["piece"]] == rail.name]
        assert float(cut[at["length mm"]]) == pytest.approx(rail.length_mm, abs=0.05)
    by_board: dict[str, float] = {}
    for row in cuts:
        used = by_board.get(row[at["board"]], 0.0)
        by_board[row[at["board"]]] = used + float(row[at["length mm"]]) + 3.0
    assert max(by_board.values()) <= 2400.0 + 3.0


def test_the_report_keeps_its_published_schema(done: Any) -> None:
    """The schema is that of docs/report.schema.json, read by an independent validator."""
    schema = json.loads(
        (Path(__file__).parents[2] / "docs" / "report.schema.json").read_text("utf-8")
    )
    report = json.loads((done.out / "report.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(report, schema)
    broken = report | {"holders": [{**report["holders"][0], "mark": 7}]}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(broken, schema)
