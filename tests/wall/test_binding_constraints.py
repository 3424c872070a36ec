"""Which rule binds: small walls on which only one of them can."""

from dataclasses import replace

import pytest

from cleatwright.wall.explaining.constraints import Cause, binding_constraint, hopeless
from cleatwright.wall.model import Box, HeightBounds, Item, RailRule, WallSpace
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Profile, Rail

RULE = RailRule(Profile(80.0, 18.0, 45.0), 50.0, step_mm=40.0)
SPACE = WallSpace(500.0, 120.0)
SAW = Item("saw", 300.0, 40.0, 80.0)
SINK = Box("sink", 220.0, 20.0, 60.0, 60.0)


@pytest.mark.parametrize(
    ("space", "rule", "items", "cause", "blockers"),
    [
        (WallSpace(299.0, 120.0), RULE, (SAW,), "width", ()),
        (WallSpace(500.0, 119.0), RULE, (SAW,), "height", ()),
        (WallSpace(500.0, 70.0), RULE, (replace(SAW, up_mm=5.0, down_mm=5.0),), "rail", ()),
        # 90 mm below the hang height are needed to bear, and 40 above it, on 120 mm
        (SPACE, RULE, (replace(SAW, rail_depth_mm=90.0),), "height", ()),
        (SPACE, replace(RULE, step_mm=50.0), (SAW,), "step", ()),
        (replace(SPACE, obstacles=(SINK,)), RULE, (SAW,), "obstacles", ("sink",)),
        (
            # a rail of 200 mm that stays at 80 mm leaves 150 mm at each side, and none beside it
            replace(
                SPACE, kept_rails=(Rail(9, 80.0, 150.0, 350.0, RULE.profile, state="document"),)
            ),
            RULE,
            (SAW,),
            "obstacles",
            ("R9",),
        ),
        (
            replace(SPACE, obstacles=(Box("stove", 440.0, 0.0, 60.0, 60.0, heat_mm=150.0),)),
            RULE,
            (replace(SAW, keep_cool=True),),
            "heat",
            ("stove",),
        ),
        (SPACE, RULE, (SAW, Item("a", 100.0, 40.0, 80.0, fixed=(201.0, 80.0))), "fixed", ("a",)),
        # either of the two leaves 300 mm when it goes
        (
            SPACE,
            RULE,
            (
                SAW,
                Item("a", 100.0, 40.0, 80.0, fixed=(100.0, 80.0)),
                Item("b", 100.0, 40.0, 80.0, fixed=(300.0, 80.0)),
            ),
            "fixed",
            ("a", "b"),
        ),
        (SPACE, RULE, (SAW, Item("a", 201.0, 40.0, 80.0)), "others", ()),
        # it can only hang at 80 mm, and may not above 60
        (SPACE, RULE, (replace(SAW, bounds=HeightBounds(highest_mm=60.0)),), "bounds", ()),
    ],
)
def test_the_rule_that_bites_is_named(
    space: WallSpace,
    rule: RailRule,
    items: tuple[Item, ...],
    cause: Cause,
    blockers: tuple[str, ...],
) -> None:
    found = binding_constraint(WallProblem(space, rule, items), key="saw")
    assert (found.cause, found.blockers) == (cause, blockers)
    assert found.sentence.startswith('"saw"')
    assert found.sentence.endswith(".")
    assert all(f'"{name}"' in found.sentence for name in blockers if cause != "heat")


def test_what_finds_no_place_even_alone_is_told_from_what_others_keep_out() -> None:
    """On 300 by 120 mm: one of 400 mm is too wide, one of 250 mm meets what is fixed in the middle.

    Two of 90 mm fit beside that, if not both at one side.
    """
    items = (
        Item("middle", 100.0, 40.0, 80.0, fixed=(100.0, 80.0)),
        Item("wide", 400.0, 40.0, 80.0),
        Item("long", 250.0, 40.0, 80.0),
        Item("a", 90.0, 40.0, 80.0),
        Item("b", 90.0, 40.0, 80.0),
        Item("c", 90.0, 40.0, 80.0),
    )
    assert hopeless(WallProblem(WallSpace(300.0, 120.0), RULE, items)) == {"wide", "long"}
