"""Markers, cells and torches: plausible masses and what stands on what."""

from __future__ import annotations

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.parts.grips import RoundBody, ShaftEnd
from cleatwright.tools.nominal.sizes import nominal_sizes
from cleatwright.tools.registry import KINDS, tool_body


@pytest.mark.parametrize(
    ("cell", "least_g", "most_g"),
    [("R03", 8.5, 13.0), ("R6", 18.0, 26.0), ("R14", 55.0, 80.0), ("R20", 120.0, 165.0)],
)
def test_alkaline_cells_weigh_what_shops_print(cell: str, least_g: float, most_g: float) -> None:
    """AAA 11 g, AA 23 g, C 66 g, D 140 g (from memory), as plausibility only."""
    body = tool_body("battery-cell", dict(nominal_sizes("battery-cell").get(cell).measures))
    assert least_g < 1000 * body.mass_kg < most_g


def test_a_pencil_and_a_torch_weigh_what_they_do() -> None:
    """A pencil 4 to 7 g, a torch with two cells R6 80 to 200 g: common practice, no source."""
    pencil = tool_body("marker", {"diameter": 7.5, "length": 175.0})
    assert 0.004 < pencil.mass_kg < 0.007
    torch = tool_body("torch", dict(KINDS["torch"].example))
    assert 0.08 < torch.mass_kg < 0.2


def test_only_the_barrel_is_gripped_below_a_cap_or_head() -> None:
    marker = tool_body("marker", {"diameter": 16.0, "length": 138.0, "cap": 18, "cap_length": 45})
    barrel, end = marker.grip(RoundBody), marker.grip(ShaftEnd)
    assert barrel is not None
    assert end is not None
    assert barrel.height_mm == end.length_mm == 138.0 - 45.0
    torch = tool_body("torch", dict(KINDS["torch"].example))
    grip = torch.needed_grip(RoundBody)
    assert (grip.diameter_mm, grip.height_mm) == (26.0, 115.0)


def test_the_point_of_a_pencil_is_not_guided() -> None:
    end = tool_body("marker", {"diameter": 7.5, "length": 175.0}).needed_grip(ShaftEnd)
    assert end.length_mm == 155.0


@pytest.mark.parametrize(
    ("kind", "measures", "said"),
    [
        ("marker", {"diameter": 16.0, "length": 138.0, "cap": 18.0}, "go together"),
        ("marker", {"diameter": 9.0, "length": 80.0, "cap": 9.0, "cap_length": 70.0}, "barrel"),
        ("torch", {"diameter": 26.0, "length": 150.0, "head_length": 35.0}, "go together"),
        ("torch", {"diameter": 26.0, "length": 90.0, "head": 40.0, "head_length": 70.0}, "barrel"),
    ],
)
def test_pairs_that_cannot_be_are_named(kind: str, measures: dict[str, float], said: str) -> None:
    with pytest.raises(MeasureError, match=said):
        tool_body(kind, measures)


def test_a_loose_cell_is_kept_from_keys() -> None:
    assert "short" in KINDS["battery-cell"].caution
