"""The drilling template of a whole job."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pdfplumber
from tests.small import can, document

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.pack.drawing import elevation_view
from cleatwright.pack.output_file import drawn
from cleatwright.pack.template import template_files, template_view
from cleatwright.project.computing import compute
from cleatwright.workshop.document.sections import Drawings

MM_PER_PT = 25.4 / 72.0


def test_every_screw_of_every_rail_is_on_the_template_at_full_size(done: Any) -> None:
    """Heights at thirds of a rail; a sheet of A4 shows 285 mm and shares 10 with the next."""
    (data,) = drawn(template_files(done.job.panels[0], Run())).values()
    rails = {run.name: run for run in done.job.rails}
    found: set[tuple[str, float, float]] = set()
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page in document.pages:
            text = page.extract_text()
            if re.search(r"holder \d+, sheet", text):
                continue
            named = re.search(r"rail (R\d+), sheet (\d+) of", text)
            assert named is not None
            start = rails[named[1]].x0_mm - 10.0 + (int(named[2]) - 1) * 275.0
            for c in page.curves:
                wide = (float(c["x1"]) - float(c["x0"])) * MM_PER_PT
                if abs(wide - 8.0) < 0.05:
                    x = start - 6.0 + float(c["x0"]) * MM_PER_PT + 4.0
                    down = float(c["top"]) * MM_PER_PT + 4.0 - 15.0
                    found.add((named[1], round(x, 1), round(down, 1)))
    high = done.job.workshop.rail.height_mm
    wanted = {
        (rail.name, round(x, 1), round(share * high, 1))
        for rail in done.job.panels[0].arrangement.rails
        for x in rail.studs_mm
        for share in (1 / 3, 2 / 3)
    }
    assert wanted
    assert {(name, x, d) for name, x, d in found} == wanted


def test_a_named_paper_is_taken_and_the_same_job_gives_the_same_bytes(done: Any) -> None:
    wall = done.job.panels[0]
    on_letter = replace(
        wall, setting=replace(wall.setting, drawings=Drawings(template_sheet="Letter"))
    )
    (data,) = drawn(template_files(on_letter, Run())).values()
    with pdfplumber.open(io.BytesIO(data)) as document:
        # 11 by 8.5 in, 72 points an inch (ASME Y14.1, size A); for a high plate it stands upright
        sides = {tuple(sorted((float(p.width), float(p.height)))) for p in document.pages}
        assert sides == {(612.0, 792.0)}
    again = drawn(template_files(on_letter, Run()))
    assert again == {"wall/drilling-template.pdf": data}


def test_what_is_screwed_to_the_wall_is_on_the_template_until_it_hangs(
    tmp_path: Path, known: Store
) -> None:
    """One can has a stud at 300 mm behind it, one hangs between studs: the elevation has both."""
    run = Run(known)
    cans = "".join(
        f'{can(name, diameter=66.0, height=150.0, mass="1 kg", holder=True)}mount = "wall-screws"\n'
        f"place = {{ x = {x}, z = 500 }}\n"
        for name, x in (("Oil", 267), ("Paint", 500))
    )
    text = document("Studio", cans, width=1200, height=900, studs=(300, 900))
    (tmp_path / "workshop.toml").write_text(text, "utf-8")
    (job,) = compute(tmp_path, run=run).panels
    plates = template_view(job, run).plates
    holders = {one.number: one for one in elevation_view(job, run).holders}
    assert [one.name for one in plates] == ["Oil", "Paint"]
    for plate in plates:
        screwed = holders[plate.number].screwed
        assert screwed is not None
        wanted = {(column.x_mm, z) for column in screwed.columns for z in column.rows_mm}
        assert {(one.x_mm, one.z_mm) for one in plate.screws} == wanted
        assert all(plate.x0_mm < x < plate.x1_mm for x, _ in wanted)
        assert all(plate.z_top_mm - plate.height_mm < z < plate.z_top_mm for _, z in wanted)
        assert "wood screw" in plate.holes
        assert "pilot hole" in plate.holes
        behind = {column.behind for column in screwed.columns}
        assert bool(plate.fails) == (behind != {"stud"})
    assert any(plate.fails for plate in plates)
    hang = [
        replace(one, hangs_at=(at.x_mm, at.z_mm))
        for one in job.problem.items
        for at in job.arrangement.places
        if at.key == one.key
    ]
    there = replace(job, problem=job.problem.having(hang))
    assert template_view(there, run).plates == ()
