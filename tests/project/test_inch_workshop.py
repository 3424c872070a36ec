"""A workshop in inches is told everything in inches, on sheets that are sold in inches."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import lxml.etree
import pdfplumber
import pytest
from ezdxf import filemanagement

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.cli.rows import made_cells, made_columns
from cleatwright.jobs import making
from cleatwright.jobs.checking import check_workshop
from cleatwright.jobs.making import all_files_of
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.rails.answers import why_rail
from cleatwright.workshop.document.store import checked

METRIC = re.compile(r"\b[cm]m2?\b|\bA[0-4]\b|millimet|\bkg\b(?!/m3)")
# ASME Y14.1: Letter is 8.5 x 11 in, and each larger sheet is two of the one before
SHEETS_IN = {(8.5, 11.0), (11.0, 17.0), (17.0, 22.0), (22.0, 34.0), (34.0, 44.0)}


@dataclass(frozen=True)
class Bench:
    """The example in inches, done once."""

    job: Job
    files: dict[str, bytes]


@pytest.fixture(scope="module")
def bench(examples: Path, known: Store) -> Bench:
    job = compute(examples / "joiners-bench", run=Run(known))
    return Bench(job, all_files_of(job))


def texts(tree: Any, key: str = "") -> Iterator[str]:
    """Yield the texts of a JSON file; the unit of a check is for programs, like its numbers."""
    if isinstance(tree, str) and key != "unit":
        yield tree
    elif isinstance(tree, dict):
        for name, value in tree.items():
            yield from texts(value, name)
    elif isinstance(tree, list):
        for value in tree:
            yield from texts(value, key)


def words_of(name: str, data: bytes) -> list[str]:
    """Return the words of an output that a person reads."""
    if name.endswith(".svg"):
        return [str(text) for text in lxml.etree.fromstring(data).itertext()]
    if name.endswith(".pdf"):
        with pdfplumber.open(io.BytesIO(data)) as document:
            return [page.extract_text() for page in document.pages]
    if name.endswith(".dxf"):
        space = filemanagement.read(io.StringIO(data.decode())).modelspace()
        return [entity.dxf.text for entity in space if entity.dxf.hasattr("text")]
    if name == "report.json":
        return list(texts(json.loads(data)))
    return data.decode("utf-8-sig").splitlines() if name.endswith(".csv") else []


def test_no_output_speaks_of_mm_or_of_a_sheet_in_mm(bench: Bench) -> None:
    read = 0
    for name, data in bench.files.items():
        for words in words_of(name, data):
            found = METRIC.search(words)
            assert found is None, f"{name}: {words}"
            read += 1
    assert read > 500


def test_every_drawing_is_on_a_sheet_that_is_sold_in_inches(bench: Bench) -> None:
    pages = 0
    for name, data in bench.files.items():
        if name.endswith(".pdf"):
            with pdfplumber.open(io.BytesIO(data)) as document:
                for page in document.pages:
                    short, long = sorted((float(page.width) / 72, float(page.height) / 72))
                    assert (round(short, 2), round(long, 2)) in SHEETS_IN, name
                    pages += 1
    assert pages > 5


def test_the_terminal_speaks_inches(bench: Bench) -> None:
    made = making._made(bench.job, (), Path("out"), dry_run=True)
    cells = [cell for row in made.holders for cell in made_cells(row, made.unit)]
    said = [*made_columns(made.unit), *cells, *made.summary]
    assert not any(METRIC.search(text) for text in (*said, *made.cautions))
    assert "size in" in made_columns(made.unit)


def test_what_is_answered_about_the_wall_speaks_inches(bench: Bench, examples: Path) -> None:
    """The columns of check, and why each rail lies where it lies."""
    checked_now = check_workshop(examples / "joiners-bench")
    said = [*checked_now.remarks, *(one.why for one in checked_now.holders)]
    for run in bench.job.rails:
        where, sentences = why_rail(bench.job.panels, run.name)
        said += [where, *bench.job.words.all(sentences)]
    for found in bench.job.found:
        said += bench.job.words.all((*found.warnings, *found.failing, *found.cautions))
        said += bench.job.words.all(tuple(c.sentence for c in (*found.checks, *found.lifting)))
    assert len(said) > 30
    assert [text for text in said if METRIC.search(text)] == []


def test_a_length_is_rounded_alike_in_a_sentence_and_on_paper(bench: Bench) -> None:
    """Screws and ends of rails against exact fractions: the nearest 1/32 to the length in mm."""
    lines = bench.files["wood/cut-list.csv"].decode("utf-8-sig").splitlines()
    column = lines[0].split(",").index("length")
    rows = {row[3]: row for row in (line.split(",") for line in lines[1:])}
    screws = 0
    for panel in bench.job.panels:
        for run in panel.arrangement.rails:
            where, sentences = why_rail(bench.job.panels, run.name)
            said = " ".join(bench.job.words.all((where, *sentences)))
            for x in run.studs_mm:
                assert re.search(rf"studs? at x [^.]*\b{thirty_second(x)}\b", said), said
                screws += 1
            assert f"from x {thirty_second(run.x0_mm)} to {thirty_second(run.x1_mm)} in" in where
            if not run.stays:
                assert f"length of {thirty_second(run.length_mm)} in" in said
                assert rows[run.name][column] == f"{thirty_second(run.length_mm)} in"
        for found in bench.job.found:
            for check in found.checks:
                at = re.search(r"screw at x ([\d.]+) mm", check.note)
                if at:
                    assert f"x {thirty_second(float(at[1]))} in" in bench.job.words(check.note)
    assert screws > 4


def thirty_second(mm: float) -> str:
    """Return the nearest 1/32 inch, as the standard library's fractions reckon it."""
    inches = Fraction(round(Fraction(mm) / Fraction("25.4") * 32), 32)
    whole, rest = divmod(inches, 1)
    return "-".join(str(part) for part in (whole, rest) if part) or "0"


def test_the_report_keeps_exact_mm_for_programs(bench: Bench) -> None:
    report = json.loads(bench.files["report.json"])
    for row, run in zip(report["rails"], bench.job.rails, strict=True):
        assert row["length_mm"] == run.length_mm
    assert report["rails"][0]["height_mm"] == pytest.approx(3 * 25.4)


def test_the_pull_that_unhooks_names_the_tool_and_the_least_of_all(bench: Bench) -> None:
    report = json.loads(bench.files["report.json"])
    told = 0
    for row in (*report["holders"], *report["carriers"]):
        for check in row["checks"]:
            if "takes it off its rail" in check["name"]:
                names = [seat["tool"] for seat in row.get("seats", [])]
                assert re.search(r"\btool \d", check["note"]) is None
                assert not names or any(f'"{name}"' in check["note"] for name in names)
                assert float(row["stand"]["least_pull_n"]) <= check["capacity"] + 1e-9
                told += 1
    assert told > 5


def test_the_cut_list_adds_up_in_inches(bench: Bench) -> None:
    """Fractions of the list against the rails in mm: within half of 1/32 inch."""
    lines = bench.files["wood/cut-list.csv"].decode("utf-8-sig").splitlines()
    heading = lines[0].split(",")
    rows = {row[3]: row for row in (line.split(",") for line in lines[1:])}
    at = heading.index("length")
    for run in bench.job.rails:
        whole, _, rest = rows[run.name][at].removesuffix(" in").rpartition("-")
        top, _, bottom = rest.partition("/")
        inches = float(whole or 0) + float(top) / float(bottom or 1)
        assert inches * 25.4 == pytest.approx(run.length_mm, abs=25.4 / 64 + 1e-6)


@pytest.mark.parametrize(
    "table",
    ['[rail]\nheight = "1/2"', "[rail]\nthickness = 9", "[defaults]\nplate = 8"],
)
def test_errors_of_the_document_speak_inches(table: str) -> None:
    text = f'schema = 1\nname = "Bench"\nunits = "in"\n[wall]\nwidth = 96\nheight = 48\n{table}\n'
    with pytest.raises(CleatwrightError) as caught:
        checked(text)
    assert METRIC.search(caught.value.sentence) is None
    assert " in" in caught.value.sentence


def test_errors_of_the_plan_speak_inches(tmp_path: Path, examples: Path) -> None:
    """A box wider than any bed, in the example in inches."""
    text = (examples / "joiners-bench" / "workshop.toml").read_text("utf-8")
    text += (
        '\n[[tool]]\nname = "Crate"\nkind = "box"\n'
        'measures = { width = 36, depth = 6, height = 4 }\nmass = "2 lb"\n'
    )
    (tmp_path / "workshop.toml").write_text(text, "utf-8")
    with pytest.raises(CleatwrightError) as caught:
        check_workshop(tmp_path)
    assert METRIC.search(caught.value.sentence) is None
    assert " in" in caught.value.sentence
