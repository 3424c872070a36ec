"""A workshop in which one tool more finds a place only when what hangs moves.

A can hangs in the middle of a brick wall 640 mm wide, and a rule 300 mm long needs 360 mm beside
it: that is there only when the can moves.
"""

from __future__ import annotations

from pathlib import Path

from cleatwright.base.stages.run import Run
from cleatwright.jobs.hung import record_hung
from cleatwright.jobs.making import make_workshop

WALL = """schema = 1
name = "Store"

[wall]
width = 640
height = 380
made_of = "brick"

[wall.anchor]
name = "plug"
loads = "characteristic"
tension_n = 3000
shear_n = 2000
hole = 10
hole_depth = 85
embedment = 70
screw = 7
screw_length = 105
head = 11
edge = 60
spacing = 100

[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270

[[rail.stock]]
name = "board"
length = 1300
"""
CAN = """
[[tool]]
name = "Oil spray"
kind = "can"
measures = { diameter = 65, height = 195 }

[[holder]]
tools = ["Oil spray"]
family = "ring-floor"
"""
MIDDLE = "place = { x = 290, z = 150 }\n"
RULE = """
[[tool]]
name = "Steel rule"
kind = "rule"
measures = { length = 300, width = 28, thickness = 1.0 }

[[holder]]
tools = ["Steel rule"]
family = "edge-comb"
"""


def hung_store(folder: Path, run: Run) -> Path:
    """Return the folder of the workshop of which the can hangs, with the rule in its document."""
    folder.mkdir()
    document = folder / "workshop.toml"
    document.write_text(WALL + CAN + MIDDLE, "utf-8")
    make_workshop(folder, run=run)
    record_hung(folder, run=run)
    document.write_text(WALL + CAN + RULE, "utf-8")
    return folder
