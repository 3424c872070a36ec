"""Each kind of thing that people own gets a holder on a French cleat, over its usual range.

The ranges are what shops sell, common practice without a source.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from cleatwright.base.errors import MeasureError, NoRoomError
from cleatwright.design.building import build
from cleatwright.design.proving import trial_recipe
from cleatwright.holders.choosing import candidates
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.registry import tool_body

Range = tuple[float, float]
# measures that are not listed are left out
USUAL: dict[str, dict[str, Range]] = {
    "plastering-trowel": {
        "blade_length": (200, 500),
        "blade_width": (80, 150),
        "blade_thickness": (0.7, 3),
        "handle_length": (115, 150),
        "handle_height": (55, 85),
        "handle_thickness": (25, 38),
        "opening_length": (85, 105),
        "opening_height": (30, 45),
    },
    "paint-roller": {
        "roller": (25, 75),
        "roller_length": (100, 270),
        "wire": (6, 8),
        "crank": (45, 75),
        "stem": (60, 120),
        "handle": (25, 35),
        "handle_length": (100, 300),
    },
    "filling-knife": {
        "blade_length": (60, 130),
        "blade_width": (15, 120),
        "blade_thickness": (1, 5),
        "handle_length": (90, 140),
        "handle_width": (18, 32),
        "handle_thickness": (14, 24),
    },
    "scalpel": {
        "blade_length": (15, 45),
        "handle_length": (90, 150),
        "handle_width": (8, 14),
        "handle_thickness": (3, 8),
    },
    "trigger-bottle": {
        "body_width": (60, 110),
        "height": (180, 320),
        "head_height": (70, 120),
        "head_length": (80, 130),
        "head_width": (28, 50),
    },
    "heat-gun": {
        "body_length": (110, 200),
        "body_width": (55, 90),
        "body_height": (50, 90),
        "nose": (20, 40),
        "nose_length": (30, 80),
        "handle_back": (20, 45),
        "handle_width": (28, 40),
        "handle_depth": (35, 55),
        "handle_length": (100, 140),
        "cord": (50, 90),
    },
    "corded-drill": {
        "body_length": (150, 230),
        "body_width": (62, 85),
        "body_height": (60, 90),
        "nose": (35, 45),
        "nose_length": (40, 70),
        "handle_back": (50, 100),
        "handle_width": (32, 42),
        "handle_depth": (40, 60),
        "handle_length": (105, 140),
        "cord": (50, 90),
    },
    "staple-gun": {
        "length": (140, 200),
        "height": (120, 170),
        "thickness": (25, 35),
        "opening_width": (80, 110),
        "opening_height": (25, 45),
        "rim": (15, 30),
    },
    "spade": {
        "length": (700, 1150),
        "handle_width": (100, 140),
        "handle_height": (95, 130),
        "handle_thickness": (28, 38),
        "opening_width": (75, 92),
        "opening_height": (55, 80),
        "shaft": (30, 40),
        "blade_width": (120, 220),
        "blade_length": (200, 340),
        "blade_depth": (40, 110),
    },
    "dibber": {
        "length": (150, 400),
        "pin": (20, 40),
        "head_width": (80, 130),
        "head_depth": (25, 40),
        "head_height": (25, 45),
    },
    "bow-saw": {
        "length": (300, 920),
        "height": (120, 260),
        "frame": (12, 28),
        "frame_thickness": (12, 28),
        "blade_width": (8, 30),
    },
    "bucket": {
        "width": (120, 330),
        "depth": (100, 320),
        "height": (150, 320),
        "bail_height": (60, 170),
        "bail": (5, 30),
        "bail_thickness": (5, 30),
    },
    "glove": {
        "width": (90, 200),
        "thickness": (15, 60),
        "height": (180, 350),
        "loop_width": (15, 50),
        "loop_height": (15, 60),
        "strap": (5, 25),
    },
    "iron": {"width": (90, 130), "depth": (110, 170), "height": (220, 320)},
    "loppers": {
        "length": (450, 900),
        "head_width": (40, 80),
        "head_length": (70, 180),
        "leg_length": (300, 650),
        "gap": (12, 30),
        "spread": (90, 250),
        "thickness": (20, 40),
        "gap_below": (15, 50),
    },
    # a riddle of the garden, a sieve of the kitchen
    "sieve": {"diameter": (160, 380), "depth": (64, 110), "rim": (0.5, 8)},
    # a broom, a hand brush or a squeegee by its head
    "pole": {
        "length": (250, 1500),
        "handle": (18, 32),
        "head_width": (60, 450),
        "head_depth": (15, 80),
        "head_height": (30, 150),
    },
    # a hose of a garden
    "coil": {"outer": (250, 600), "bundle": (30, 75), "thickness": (40, 100)},
    "rule": {"length": (300, 2000), "width": (20, 60), "thickness": (0.8, 4)},
    "thing-with-hole": {
        "length": (80, 400),
        "width": (25, 120),
        "thickness": (2, 20),
        "hole": (12, 25),
        "hole_rim": (4, 15),
    },
    "thing-with-neck": {
        "length": (80, 600),
        "head_width": (60, 250),
        "head_depth": (10, 80),
        "head_height": (10, 60),
        "neck": (6, 40),
    },
    "thing-with-loop": {
        "width": (60, 250),
        "depth": (10, 120),
        "height": (50, 250),
        "loop": (20, 45),
        "loop_thickness": (2, 25),
    },
    "round-thing": {"diameter": (12, 120), "length": (80, 900)},
    "flat-plate": {"length": (60, 600), "width": (30, 250), "thickness": (1, 30)},
}
TRIED, BUILT = 60, 2


def usual(name: str) -> Iterator[tuple[dict[str, float], ToolBody]]:
    """Yield things of a kind, drawn from its usual range."""
    numbers = random.Random(name)  # noqa: S311 - a repeatable draw, no secret
    ranges = USUAL[name]
    ends = ([low for low, _ in ranges.values()], [high for _, high in ranges.values()])
    drawn = [[round(numbers.uniform(a, b), 1) for a, b in ranges.values()] for _ in range(TRIED)]
    for values in (*ends, *drawn):
        sizes = dict(zip(ranges, values, strict=True))
        try:
            yield sizes, tool_body(name, sizes)
        except MeasureError:
            continue


@pytest.mark.parametrize("name", sorted(USUAL))
def test_everything_in_the_usual_range_has_a_holder_that_needs_no_wish(name: str) -> None:
    made = list(usual(name))
    assert len(made) > TRIED / 2
    for sizes, body in made:
        assert [one.name for one in candidates(body) if not one.by_wish], sizes


# so wide, and so near to the wall, that some stand before the bolt wherever it goes
BEFORE_THE_BOLT = {"bucket", "glove", "thing-with-loop"}


@pytest.mark.parametrize("name", sorted(USUAL))
def test_the_holder_of_a_usual_thing_hangs_on_a_french_cleat(name: str, kernel: MeshKernel) -> None:
    """Or it is refused there, where the thing itself leaves no room for a bolt, and is screwed."""
    for sizes, body in list(usual(name))[:BUILT]:
        family = next(one for one in candidates(body) if not one.by_wish)
        plain = trial_recipe(family.name, name, (1.0,), mount="french-cleat")
        seat = plain.seats[0].model_copy(update={"measures": sizes})
        hung = plain.model_copy(update={"seats": (seat,)})
        try:
            built = build(hung, kernel)
        except NoRoomError:
            assert name in BEFORE_THE_BOLT
            built = build(hung.model_copy(update={"mount": "wall-screws"}), kernel)
        assert [check.sentence for check in built.checks if not check.holds] == [], sizes
