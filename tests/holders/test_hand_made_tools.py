"""Every family with hand-made tools, from the least to the most that it holds."""

from __future__ import annotations

from importlib import import_module

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.few import few
from tests.holders.trial import GoodPart, SupportFree, Trial, any_params, bound

from cleatwright.base.said import in_mm
from cleatwright.holders.family import BuildContext
from cleatwright.holders.registry import FAMILIES
from cleatwright.kernels.lettering import letter_width_mm
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.tool import Fit
from cleatwright.shapes.rigid import shift
from cleatwright.statics.take_out import resists

TRIALS: dict[str, Trial] = {
    name: import_module(f"tests.holders.test_{name.replace('-', '_')}").TRIAL for name in FAMILIES
}
GROUPS = [(name, k) for name, trial in TRIALS.items() for k in range(len(trial.groups))]
GUIDED = [(name, k) for name, trial in TRIALS.items() for k in range(len(trial.guided))]
REFUSED = [(name, k) for name, trial in TRIALS.items() for k in range(len(trial.refused))]


@pytest.mark.parametrize("name", FAMILIES)
def test_each_trial_is_of_its_family_and_asks_what_is_held_and_what_is_not(name: str) -> None:
    trial = TRIALS[name]
    assert trial.family is FAMILIES[name]
    assert trial.groups
    assert trial.refused


@pytest.mark.parametrize("side", ["default", "ge", "le"])
@pytest.mark.parametrize(("name", "k"), GROUPS)
def test_default_least_and_most_parameters_hold_and_print_without_support(
    name: str, k: int, side: str, assert_good: GoodPart, assert_support_free: SupportFree
) -> None:
    trial = TRIALS[name]
    names = trial.family.params.model_fields if side != "default" else ()
    params = {name: bound(trial.family, name, side) for name in names}
    group = trial.groups[k]
    assert [trial.family.why_not(body) for body in group] == [None] * len(group)
    part = trial.part(*group, params=params)
    assert_support_free(assert_good(part), part.print_pose)
    if not any(resists(seat) for seat in part.seats):
        assert_good(trial.on_rail(*group, params=params))


@pytest.mark.parametrize("name", FAMILIES)
@settings(deadline=None, max_examples=few(6))
@given(data=st.data())
def test_any_group_of_unequal_tools_is_held_and_prints_without_support(
    name: str, assert_good: GoodPart, assert_support_free: SupportFree, data: st.DataObject
) -> None:
    trial = TRIALS[name]
    drawn = data.draw(st.lists(trial.bodies, min_size=1, max_size=6))
    group = [body for body in drawn if trial.family.why_not(body) is None]
    assume(group)
    fit = data.draw(st.builds(Fit, st.floats(0.1, 0.8), st.floats(0.0, 0.3)))
    ctx = data.draw(
        st.builds(BuildContext, plate_mm=st.floats(4.0, 8.0), hand_room_mm=st.floats(6.0, 30.0))
    )
    part = trial.part(*group, fit=fit, ctx=ctx, params=data.draw(any_params(trial.family)))
    assert_support_free(assert_good(part), part.print_pose)
    for seat in part.seats:
        assert 0.0 < seat.com_mm[0] < part.bounds_mm[1][0], "a tool hangs over on one side"


@pytest.mark.parametrize("fit", [Fit(0.1), Fit(0.4), Fit(0.8), Fit(0.5, 0.1)])
@pytest.mark.parametrize(("name", "k"), GUIDED)
def test_a_tool_has_half_the_play_all_round(
    name: str, k: int, fit: Fit, kernel: MeshKernel
) -> None:
    trial = TRIALS[name]
    one = trial.guided[k]
    part = trial.part(one.body, fit=fit)
    holder, envelope = kernel.evaluate(part.solid), part.seats[0].envelope()
    for piece in one.pieces:
        raised = kernel.evaluate(envelope[piece].placed(shift(0.0, 0.0, one.raised_mm)))
        gap = holder.gap_mm(raised, within_mm=5.0)
        assert gap == pytest.approx((fit.play_mm + fit.correction_mm) / 2, abs=one.within_mm)


@pytest.mark.parametrize(("name", "k"), GROUPS)
def test_every_part_has_room_for_a_mark(name: str, k: int) -> None:
    """Seven of the widest capitals, 5 mm high, with 1 mm around them, along or up the plate."""
    places = TRIALS[name].part(*TRIALS[name].groups[k]).mark_places
    seven, four = (letter_width_mm(text, 5.0) + 2.0 for text in ("WWWWWWW", "WWWW"))
    sides = [sorted((place.width_mm, place.height_mm)) for place in places]
    one_line, two_lines = sorted((seven, 7.0)), sorted((four, 12.0))
    assert any(
        short >= need[0] and long >= need[1]
        for short, long in sides
        for need in (one_line, two_lines)
    )


@pytest.mark.parametrize(("name", "k"), GROUPS)
def test_a_tool_leaves_past_its_neighbours(name: str, k: int, kernel: MeshKernel) -> None:
    """The swept way out of each tool meets no other tool that stands in its seat."""
    seats = TRIALS[name].part(*TRIALS[name].groups[k]).seats
    standing = [[kernel.evaluate(piece) for piece in seat.envelope()] for seat in seats]
    for seat, pieces in zip(seats, standing, strict=True):
        others = [piece for tool in standing if tool is not pieces for piece in tool]
        here = pieces
        for move in seat.way_out:
            swept = [piece.swept(move) for piece in here]
            assert sum(a.overlap_mm3(b) for a in swept for b in others) < 1e-6, move
            here = [piece.placed(shift(*move)) for piece in here]


@pytest.mark.parametrize("name", FAMILIES)
def test_what_is_just_inside_the_bounds_is_held(name: str) -> None:
    for body in TRIALS[name].held:
        assert TRIALS[name].family.why_not(body) is None


@pytest.mark.parametrize(("name", "k"), REFUSED)
def test_what_is_just_outside_the_bounds_is_refused_with_the_reason(name: str, k: int) -> None:
    body, words = TRIALS[name].refused[k]
    assert words in in_mm(TRIALS[name].family.why_not(body) or "")
