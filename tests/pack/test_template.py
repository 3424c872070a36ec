"""The drilling template of a whole job."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import Any

import pdfplumber

from cleatwright.base.stages.run import Run
from cleatwright.pack.output_file import drawn
from cleatwright.pack.template import template_files
from cleatwright.workshop.document.sections import Drawings

MM_PER_PT = 25.4 / 72.0


def test_every_screw_of_every_rail_is_on_the_template_at_full_size(done: Any) -> None:
    """Heights at thirds of a rail; a sheet of A4 shows 285 mm and shares 10 with the next."""
    (data,) = drawn(template_files(done.job.panels[0], Run())).values()
    rails = {run.name: run for run in done.job.rails}
    found: set[tuple[str, float, float]] = set()
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page in document.pages:
            named = re.search(r"rail (R\d+), sheet (\d+) of", page.extract_text())
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
        # 11 by 8.5 in, 72 points an inch (ASME Y14.1, size A)
        assert {(float(p.width), float(p.height)) for p in document.pages} == {(792.0, 612.0)}
    again = drawn(template_files(on_letter, Run()))
    assert again == {"wall/drilling-template.pdf": data}
