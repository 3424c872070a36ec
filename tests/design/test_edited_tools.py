"""What is kept of a tool never stands for the same tool with another line in its table."""

from __future__ import annotations

import pytest

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.equipment import all_owned
from cleatwright.workshop.document.store import checked

DOCUMENT = """schema = 1
name = "Shed"

[wall]
width = 1600
height = 1000

[[wall.obstacle]]
name = "sink"
x = 0
z = 0
width = 100
height = 100

[[other_person]]
name = "Bo"

[[tool]]
name = "Can"
kind = "can"
measures = { diameter = 66, height = 150 }
"""
LINES = (
    'mass = "400 g"',
    'use = "daily"',
    'group = "cans"\n[[group]]\nname = "cans"',
    'fit = "snug"',
    "keep_cool = false",
    'properties = ["sharp"]',
    "lowest_height = 900",
    "highest_height = 1300",
    'taken_by = ["Bo"]',
    'left_of = "sink"',
    'near = "sink"',
    "count = 2",
)


@pytest.mark.parametrize("line", LINES)
def test_a_line_more_counts_though_the_tool_was_there_before(line: str) -> None:
    """The oracle is a store in which nothing is kept."""
    store = Store()
    plain, more = checked(DOCUMENT), checked(f"{DOCUMENT}{line}\n")
    before = all_owned(plain, run=Run(store))
    after = all_owned(more, run=Run(store))
    assert after == all_owned(more, run=Run(Store()))
    assert after != before
