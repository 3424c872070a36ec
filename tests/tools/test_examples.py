"""The example workshops load, and each of their tools is a sound body."""

from collections import Counter
from pathlib import Path

import pytest

from cleatwright.tools.registry import KINDS, tool_body
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import load

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ["bicycle-room", "joiners-bench"]


@pytest.fixture(params=NAMES)
def workshop(request: pytest.FixtureRequest) -> Workshop:
    return load(EXAMPLES / request.param)


def test_every_tool_of_an_example_is_a_sound_body(workshop: Workshop) -> None:
    for item in workshop.items():
        body = tool_body(item.kind, item.measures.as_dict(), mass_kg=item.mass_kg)
        assert body.grips, item.name
        assert 0.005 < body.mass_kg < 5.0 or item.kind == "hex-key", item.name


def test_an_example_shows_eight_kinds_at_least(workshop: Workshop) -> None:
    shown = {item.kind for item in workshop.items()}
    assert len(shown) >= 8
    assert shown <= set(KINDS)


def test_a_weighed_tool_weighs_about_what_is_estimated(workshop: Workshop) -> None:
    """Plausibility of invented tools: between a fifth and three times the estimate."""
    for item in workshop.items():
        if item.mass_kg is None or item.name in {"Rubber mallet", "Joiner's mallet"}:
            continue
        estimate = tool_body(item.kind, item.measures.as_dict()).mass_kg
        assert 0.2 * estimate < item.mass_kg < 3.0 * estimate, item.name


def test_an_example_makes_its_two_choices(workshop: Workshop) -> None:
    assert [holder.mount for holder in workshop.holders] == ["wall-screws", None]
    assert all(holder.place is not None for holder in workshop.holders)
    assert all(workshop.items_of(holder) for holder in workshop.holders)


def test_the_bicycle_room_is_as_large_as_it_says() -> None:
    room = load(EXAMPLES / "bicycle-room")
    kinds = Counter(item.kind for item in room.items())
    assert len(room.items()) == 64
    assert kinds["pliers"] == 7
    assert (room.wall.width_mm, room.wall.height_mm, room.wall.floor_gap_mm) == (2600, 1500, 700)
    assert room.printer().bed_mm == (240, 200, 200)
    lengths = {item.measures.as_dict()["length"] for item in room.items() if item.kind == "pliers"}
    assert len(lengths) == 7
    wrenches = [i.measures.as_dict()["opening"] for i in room.items() if "Combination wr" in i.name]
    assert (min(wrenches), max(wrenches)) == (6.0, 24.0)


def test_the_joiners_bench_is_written_in_inches() -> None:
    bench = load(EXAMPLES / "joiners-bench")
    assert bench.units == "in"
    assert len(bench.items()) == 34
    mallet = next(item for item in bench.items() if item.name == "Joiner's mallet")
    assert mallet.mass_kg == pytest.approx(1.25 * 0.45359237)
    assert mallet.measures.as_dict()["head_width"] == pytest.approx(2.625 * 25.4)
