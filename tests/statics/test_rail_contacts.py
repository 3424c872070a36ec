"""What the worst bolt must bear in space, against linear programmes over forces at many places.

Source: equilibrium of a rigid body, six sums less the one along the rail; the least of a linear
programme is its optimum (scipy.optimize.linprog, HiGHS).
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog
from tests.statics.test_hand import OWN, TUG, seat

from cleatwright.shapes.rigid import shift
from cleatwright.statics.captured import Section
from cleatwright.statics.cleat import LoadCase, Weight
from cleatwright.statics.hand import hand_cases, resting_cases
from cleatwright.statics.load_table import LoadTable
from cleatwright.statics.rail_contacts import RailContacts
from cleatwright.statics.worst_mixture import Mixtures

# how much a sharp edge is worn and rounded (a choice, on the safe side)
BLUNTED_MM = 3.0
INFEASIBLE = 2  # status of scipy.optimize.linprog
SCALE = np.array([1.0, 1.0, 0.02, 0.02, 0.02])
SECTIONS = st.builds(
    Section,
    contact_z_mm=st.floats(-60.0, 60.0),
    depth_mm=st.floats(40.0, 120.0),
    bevel_deg=st.floats(25.0, 60.0),
    tip_mm=st.floats(7.0, 40.0),
)


@st.composite
def backs(draw: st.DrawFn) -> RailContacts:
    """Return a back with its hooks near its ends, and one to three bolts anywhere."""
    width, section = draw(st.floats(40.0, 400.0)), draw(SECTIONS)
    places = draw(st.lists(st.floats(0.03, 0.97), min_size=1, max_size=3))
    bolts = tuple(width * share for share in places)
    aside = draw(st.floats(-50.0, 50.0))
    return RailContacts(
        section,
        (aside + 11.0, aside + width - 11.0),
        (aside, aside + width),
        draw(st.floats(4.0, 35.0)),
        tuple((aside + x - 9.0, aside + x + 9.0) for x in bolts),
        tuple(aside + x for x in bolts),
    )


@st.composite
def cases(draw: st.DrawFn, back: RailContacts) -> LoadCase:
    """Return weights and a hand somewhere along a back, or beside it."""
    low, high = back.wide_mm
    along = st.floats(low - 20.0, high + 20.0)
    weights = draw(st.lists(st.tuples(st.floats(0.1, 30.0), st.floats(0.0, 120.0), along)))
    return LoadCase(
        "drawn",
        sum(n for n, _, _ in weights),
        sum(n * out for n, out, _ in weights),
        draw(st.just(0.0) | st.floats(0.1, 40.0)),
        draw(st.floats(-300.0, 300.0)),
        draw(st.just(0.0) | st.floats(0.1, 30.0)),
        draw(st.floats(0.0, 150.0)),
        along_nmm=sum(n * x for n, _, x in weights),
        hand_x_mm=draw(along),
    )


def contact_forces(back: RailContacts, bolt_y_mm: float) -> np.ndarray:
    """Return a column for each unit force: out, up, and its moments about three axes."""
    t = math.tan(math.radians(back.section.bevel_deg))
    points = [
        ((x, -r, -r * t), (-t, 1.0))
        for x in np.linspace(*back.hooks_mm, 4)
        for r in np.linspace(BLUNTED_MM, back.section.tip_mm, 3)
    ]
    for span, low in (
        (back.wide_mm, back.back_mm),
        *((foot, back.section.depth_mm) for foot in back.feet_mm),
    ):
        points += [
            ((x, 0.0, -z), (1.0, 0.0))
            for x in np.linspace(*span, 3)
            for z in np.linspace(BLUNTED_MM, max(low, BLUNTED_MM), 3)
        ]
    points += [((x, bolt_y_mm, -40.0), (0.0, -1.0)) for x in back.bolts_mm]
    return np.array([_wrench(at, force) for at, force in points]).T


def _wrench(at: tuple[float, float, float], force: tuple[float, float]) -> tuple[float, ...]:
    (x, y, z), (out, up) = at, force
    return out, up, out * z - up * y, up * x, out * x


def loads(case: LoadCase, back: RailContacts) -> np.ndarray:
    """Return the sums of all loads, each a force at its own place."""
    f = case.pull_z_mm - back.section.contact_z_mm
    pulled = np.array(_wrench((case.hand_x_mm, 0.0, f), (case.pull_n, 0.0)))
    lifted = np.array(_wrench((case.hand_x_mm, case.lift_y_mm, 0.0), (0.0, case.lift_n)))
    weights = np.array([0.0, -case.weight_n, case.moment_nmm, -case.along_nmm, 0.0])
    return pulled + lifted + weights


def least_bolt_n(case: LoadCase, back: RailContacts) -> float:
    """Return the least of the worst bolt, pushed down at the worse end of the blunted edge."""
    worst, count = 0.0, len(back.bolts_mm)
    for place in (0.0, -BLUNTED_MM):
        forces = contact_forces(back, place)
        size = forces.shape[1]
        most = np.zeros((count, size + 1))
        for k in range(count):
            most[k, size - count + k], most[k, -1] = 1.0, -1.0
        found = linprog(
            np.eye(size + 1)[-1],
            A_ub=most,
            b_ub=np.zeros(count),
            A_eq=np.hstack([forces, np.zeros((5, 1))]) * SCALE[:, None],
            b_eq=-loads(case, back) * SCALE,
            method="highs",
        )
        worst = max(worst, math.inf if found.fun is None else float(found.fun))
    return worst


@given(st.data())
def test_the_force_on_the_worst_bolt_is_the_optimum_of_a_linear_programme(
    data: st.DataObject,
) -> None:
    back = data.draw(backs())
    case = data.draw(cases(back))
    expected = least_bolt_n(case, back)
    if expected > 1e5:
        # by a lever of next to nothing: what just cannot be held depends on the last digit
        assert back.bolt_n(case) > 1e4
        return
    assert back.bolt_n(case) == pytest.approx(expected, rel=1e-5, abs=1e-4)


def two_hangers(*bolts_mm: float) -> RailContacts:
    """Return a back 200 mm wide whose hooks bear from 20 to 180 mm, on a rail of 70 mm."""
    feet = tuple((x - 9.0, x + 9.0) for x in bolts_mm)
    section = Section(0.0, 67.0, 45.0, 14.5)
    return RailContacts(section, (20.0, 180.0), (0.0, 200.0), 20.0, feet, bolts_mm)


@pytest.mark.parametrize(("bolt_x_mm", "lever"), [(100.0, 2.0), (140.0, 4.0), (60.0, 1.0)])
def test_a_lift_at_one_end_is_held_by_a_lever(bolt_x_mm: float, lever: float) -> None:
    """10 N up at 20 mm, no weight: about the far hook S (180 - x) = 10 * 160, and 10 at least.

    It acts so far behind the face that the section itself asks for no more.
    """
    back = two_hangers(bolt_x_mm)
    lift = LoadCase("", 0.0, 0.0, lift_n=10.0, lift_y_mm=-6.0, hand_x_mm=20.0)
    level = LoadCase("", 0.0, 0.0, lift_n=10.0, lift_y_mm=-6.0, hand_x_mm=bolt_x_mm)
    # the section's own factor, with the lift at the bolt
    assert back.bolt_n(lift) >= max(10.0 * lever, back.bolt_n(level)) * (1.0 - 1e-9)
    assert back.bolt_n(lift) == pytest.approx(least_bolt_n(lift, back), rel=1e-6)


def test_a_bolt_beyond_the_hooks_holds_no_lift_at_the_other_end() -> None:
    lift = LoadCase("", 0.0, 0.0, lift_n=10.0, hand_x_mm=20.0)
    assert two_hangers(185.0).bolt_n(lift) == math.inf
    assert two_hangers(15.0, 185.0).bolt_n(lift) < 40.0


def test_a_pull_at_one_end_asks_for_more_of_a_bolt_in_the_middle() -> None:
    """About the far end of the back, which is pressed on: F 180 = q t 180 + q t 20, q = S / 2.

    In the middle q t = F without any push of the rail.
    """
    back = two_hangers(100.0)
    at = {"weight_n": 0.0, "moment_nmm": 0.0, "pull_n": 10.0, "pull_z_mm": -3.0}
    middle, end = (LoadCase("", **at, hand_x_mm=x) for x in (100.0, 20.0))  # type: ignore[arg-type]
    assert back.bolt_n(end) >= 18.0 * (1.0 - 1e-9)
    assert back.bolt_n(end) >= 1.5 * back.bolt_n(middle)
    assert back.bolt_n(end) == pytest.approx(least_bolt_n(end, back), rel=1e-6)


@pytest.mark.parametrize("bolts", [(50.0, 150.0), (30.0, 100.0, 170.0), (20.0, 60.0, 140.0, 180.0)])
def test_what_is_mirrored_asks_as_much(bolts: tuple[float, ...]) -> None:
    """Both ends alike, and by the linear programme: any of the bolts may bear alone."""
    back = two_hangers(*bolts)
    for x in (10.0, 40.0, 80.0):
        left, right = (
            LoadCase("", 2.0, 40.0, 10.0, 30.0, 8.0, 20.0, along_nmm=2.0 * at, hand_x_mm=at)
            for at in (x, 200.0 - x)
        )
        assert back.bolt_n(left) == pytest.approx(back.bolt_n(right), rel=1e-6)
        assert back.bolt_n(left) == pytest.approx(least_bolt_n(left, back), rel=1e-6)


@given(st.data())
def test_many_cases_at_once_are_each_of_them(data: st.DataObject) -> None:
    back = data.draw(backs())
    some = data.draw(st.lists(cases(back), min_size=1, max_size=4))
    found = back.bolts_n(LoadTable.of(some))
    for case, bolt in zip(some, found, strict=True):
        assert bolt == pytest.approx(back.bolt_n(case), rel=1e-9, abs=1e-9)


TOOLS = st.lists(
    st.tuples(st.floats(0.05, 3.0), st.floats(5.0, 120.0), st.floats(0.0, 200.0)),
    min_size=1,
    max_size=4,
)


@given(TOOLS, st.sampled_from([(100.0,), (70.0,), (50.0, 150.0)]))
def test_no_mixture_of_tools_asks_for_more(
    tools: list[tuple[float, float, float]], bolts: tuple[float, ...]
) -> None:
    """Every mixture is tried here, one by one: whoever is away, and whose seat stays empty."""
    back = two_hangers(*bolts)
    own = replace(OWN, along_mm=100.0)
    seats = [
        replace(one, pose=one.pose.then(shift(x))) for m, out, x in tools for one in [seat(m, out)]
    ]
    some = [m for n in range(len(seats) + 1) for m in combinations(seats, n)]
    mixed = Mixtures(back, seats, own)
    resting = mixed.resting()
    each = [case for m in some for case in resting_cases(m, own)]
    assert resting.force_n == pytest.approx(max(map(back.bolt_n, each)), rel=1e-6, abs=1e-6)
    pulled = mixed.pulled(TUG)
    each = [case for m in some for case in hand_cases(m, own, TUG)]
    assert pulled is not None
    assert pulled.force_n == pytest.approx(max(map(back.bolt_n, each)), rel=1e-6, abs=1e-6)
    # and the case that is told is the one that asks for it
    for asked in (resting, pulled):
        if math.isfinite(asked.force_n):
            assert back.bolt_n(asked.case) == pytest.approx(asked.force_n, rel=1e-6, abs=1e-6)


@given(TOOLS, st.floats(20.0, 400.0))
def test_the_least_pull_loads_a_bolt_with_just_what_it_bears(
    tools: list[tuple[float, float, float]], bears: float
) -> None:
    back, own = two_hangers(100.0), replace(OWN, along_mm=100.0)
    seats = [
        replace(one, pose=one.pose.then(shift(x))) for m, out, x in tools for one in [seat(m, out)]
    ]
    mixed = Mixtures(back, seats, own)
    least = mixed.most_pull(TUG, bolt_n=bears)
    assert least is not None
    drawn = replace(least.case, pull_n=least.force_n)
    if 0.0 < least.force_n < math.inf:
        assert back.bolt_n(drawn) == pytest.approx(bears, rel=1e-6)
        harder = back.bolt_n(replace(drawn, pull_n=1.01 * least.force_n))
        assert harder > bears
    elif least.force_n == 0.0:
        assert mixed.resting().force_n >= bears * (1.0 - 1e-9)


def test_the_words_of_a_mixture_name_its_tools() -> None:
    """The far one presses its side down, so that the hook at the other end asks for more."""
    near, far = seat(2.0, 20.0), seat(2.0, 110.0)
    seats = [replace(near, pose=near.pose.then(shift(180.0))), far]
    mixed = Mixtures(two_hangers(100.0), seats, replace(OWN, along_mm=100.0))
    assert mixed.resting().case.name in {"tool 2 alone", "all tools in place"}
    pulled = mixed.pulled(TUG)
    assert pulled is not None
    assert pulled.case.name.startswith(("tool 1", "tool 2"))
    assert Mixtures(two_hangers(100.0), (), OWN).pulled(TUG) is None
    assert Mixtures(two_hangers(100.0), (), OWN).resting().case.name == "empty"


def test_a_weight_is_a_case_of_its_own() -> None:
    back = two_hangers(70.0)
    case = LoadCase("", 7.0, 7.0 * 30.0, along_nmm=7.0 * 44.0)
    assert back.weight(Weight(7.0, 30.0, 44.0)) == pytest.approx(back.load(case))
