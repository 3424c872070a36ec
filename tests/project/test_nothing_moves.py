"""What hangs moves only when its owner allows it.

Oracle: the places in the ledger before, and the room on the wall by its width.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.small import document

from cleatwright.base.errors import WallError
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop
from cleatwright.project.computing import Going, compute

CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65, height = 195 }
"""
PLACE = '\n[[holder]]\ntools = ["Oil spray"]\nfamily = "ring-floor"\n'
RULE = """
[[tool]]
name = "Steel rule"
kind = "rule"
measures = { length = 300, width = 28, thickness = 1.0 }

[[holder]]
tools = ["Steel rule"]
family = "edge-comb"
"""


def written(folder: Path, *parts: str) -> Path:
    text = document("Shed", *parts, width=520.0, height=380.0, studs=(60.0, 460.0))
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def test_what_hangs_makes_no_room_for_a_new_tool_unless_that_is_allowed(tmp_path: Path) -> None:
    """Of 520 mm the can in the middle leaves less than 300 at either side, at an end more."""
    middle = "place = { x = 220, z = 150 }\n"
    make_workshop(written(tmp_path, CAN, PLACE + middle))
    record_hung(tmp_path)
    shed = written(tmp_path, CAN, PLACE, RULE)
    with pytest.raises(WallError, match="--change moves"):
        compute(shed)
    (panel,) = compute(shed, going=Going(limit="moves")).panels
    assert len(panel.arrangement.places) == 2
