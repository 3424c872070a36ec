"""Room on the wall for what hangs below a holder: the tab by which a bolt is pushed and drawn."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import numpy as np
from tests.small import can, document

from cleatwright.base.stages.run import Run
from cleatwright.project.computing import compute
from cleatwright.siting.walls import ITEM

# common practice, no source: sizes of cans
TEXT = document(
    "Narrow",
    can("Glue", diameter=53, height=60, mass="200 g", holder=True),
    can("Wax", diameter=66, height=50, mass="300 g", holder=True),
    can("Oil", diameter=60, height=70, mass="300 g", holder=True),
    width=260,
    height=900,
    studs=(40, 220),
)


def test_no_bolt_hangs_before_the_holder_below(tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").write_text(TEXT, "utf-8")
    (panel,) = compute(tmp_path).panels
    run, boxes, tabs = Run(), [], 0
    for unit in panel.units:
        place, part = panel.spots[unit.planned.key].place, unit.outer.part
        bodies = [unit.outer.body, *unit.fitting_bodies()]
        points = np.concatenate([one.vertices_mm for one in bodies])
        low, high = points.min(axis=0), points.max(axis=0)
        # the eye that looks at the wall sees x of the part run to the left
        right = place.x_mm + part.bounds_mm[1][0]
        rise = place.z_mm - part.hanging.contact_z_mm
        boxes.append((right - high[0], right - low[0], low[2] + rise, high[2] + rise))
        tabs += bool(low[2] < part.bounds_mm[0][2] - 1.0)
        item = run.need(ITEM, unit)
        assert item.down_mm >= part.hanging.contact_z_mm - low[2] - 0.01
    assert tabs > 0
    for a, b in combinations(boxes, 2):
        assert min(a[1], b[1]) <= max(a[0], b[0]) + 0.01 or min(a[3], b[3]) <= max(a[2], b[2])
    for x0, x1, z0, z1 in boxes:
        assert min(x0, z0) >= -0.01
        assert x1 <= 260.01
        assert z1 <= 900.01
