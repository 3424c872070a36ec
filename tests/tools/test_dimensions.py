"""What a measuring card shows is what the measures say, on the tool that the program sees."""

from __future__ import annotations

import math
import random

import pytest

from cleatwright.base.errors import MeasureError
from cleatwright.tools.registry import KINDS, kind, ordinary_outline, tool_body

CASES = 60


@pytest.mark.parametrize("name", sorted(KINDS))
def test_each_measure_that_is_there_is_drawn_once_at_its_own_length_on_the_tool(name: str) -> None:
    """The distance between both ends of a dimension is the measure; both lie by the tool."""
    numbers = random.Random(7)  # noqa: S311 - a repeatable draw, no secret
    chosen, seen = kind(name), 0
    example = dict(chosen.example)

    def drawn_at_random() -> dict[str, float]:
        return {
            row.name: round(example.get(row.name, row.low_mm) * numbers.uniform(0.8, 1.25), 2)
            for row in chosen.card
            if row.needed or numbers.random() < 0.5
        }

    for measures in [example, *(drawn_at_random() for _ in range(CASES))]:
        try:
            body = tool_body(name, measures, outline=ordinary_outline(name))
        except MeasureError:
            continue
        seen += 1
        checked = chosen.measures.model_validate(measures)
        lengths = {row.name: float(getattr(checked, f"{row.name}_mm")) for row in chosen.card}
        drawn = chosen.drawn(checked)
        assert sorted(d.measure for d in drawn) == sorted(n for n, v in lengths.items() if v > 0.0)
        low, high = body.extent_mm
        for one in drawn:
            assert one.length_mm == pytest.approx(lengths[one.measure], abs=1e-6), one.measure
            for end in (one.start_mm, one.end_mm):
                for k in range(3):
                    assert low[k] - 0.02 <= end[k] <= high[k] + 0.02, (one.measure, end)
            in_view = {"front": (0, 2), "side": (1, 2), "above": (0, 1)}[one.view]
            flat = math.dist([one.start_mm[k] for k in in_view], [one.end_mm[k] for k in in_view])
            assert flat == pytest.approx(one.length_mm), f"{one.measure} is foreshortened"
    assert seen >= 2
