"""Wrong measures are refused in one message that names each of them."""

import math
import subprocess
import sys
from typing import Any

import pytest

from cleatwright.base.errors import DesignError, MeasureError, UnknownNameError
from cleatwright.base.lengths import IN_MM
from cleatwright.base.registry import by_name
from cleatwright.tools.registry import KINDS, kind, tool_body

DRIVER: dict[str, float] = dict(KINDS["screwdriver"].example)


def _refusal(measures: dict[str, Any], **more: Any) -> MeasureError:
    name = more.pop("name", "screwdriver")
    with pytest.raises(MeasureError) as caught:
        tool_body(name, measures, **more)
    return IN_MM.error(caught.value)


def test_an_unknown_kind_offers_the_nearest() -> None:
    with pytest.raises(UnknownNameError, match='Did you mean "pliers"') as caught:
        tool_body("plier", {})
    assert caught.value.as_dict()["path"] == ["kind"]
    assert caught.value.line == 'kind = "pliers"'
    assert kind("pliers") is KINDS["pliers"]


def test_two_kinds_of_one_name_are_an_error() -> None:
    with pytest.raises(DesignError, match='two tool kinds "box"'):
        by_name("tool kinds", [KINDS["box"], KINDS["can"], KINDS["box"]])


def test_the_registry_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        KINDS["saw"] = KINDS["box"]  # type: ignore[index]


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (math.nan, "shank is not a number (NaN)"),
        (math.inf, "shank is infinite"),
        (-math.inf, "shank is infinite"),
        (-3.0, "shank is -3 mm"),
        (0.0, "shank is 0 mm"),
        (1e9, "shank is 1000000000 mm"),
        (True, "shank is True, which is no number"),
        ("6", "shank is '6', which is no number"),
        (None, "shank is None, which is no number"),
    ],
)
def test_each_wrong_value_is_named_with_its_bounds(value: object, says: str) -> None:
    error = _refusal({**DRIVER, "shank": value})
    assert error.given == says
    assert error.allowed == "shank from 1 to 30 mm, across the blade's widest place"
    assert str(error).startswith(f"{says}.")
    assert error.as_dict()["paths"] == [["measures", "shank"]]
    assert "An ordinary screwdriver has shank 6 mm" in error.todo


def test_a_missing_measure_is_named() -> None:
    error = _refusal({"shank": 6.0, "shank_length": 100.0, "handle": 30.0})
    assert error.given == "handle_length is missing"
    assert "handle_length from 15 to 250 mm" in error.allowed


def test_an_unknown_measure_offers_the_nearest_and_lists_all() -> None:
    error = _refusal({**DRIVER, "handel": 30.0})
    assert error.given == 'there is no measure "handel" (did you mean "handle"?)'
    assert "shank, shank_length, handle" in error.allowed


def test_a_measure_with_its_unit_is_told_to_leave_it_out() -> None:
    error = _refusal({**DRIVER, "shank_mm": 6.0})
    assert error.given == 'there is no measure "shank_mm" (did you mean "shank"?)'


def test_all_faults_come_in_one_error_and_in_order() -> None:
    error = _refusal(
        {"shank": -1.0, "colour": 3.0, "handle": math.nan, "handle_length": 900.0}, mass_kg=0.0
    )
    assert error.given.split("; ") == [
        'there is no measure "colour"',
        "shank is -1 mm",
        "shank_length is missing",
        "handle is not a number (NaN)",
        "handle_length is 900 mm",
        "mass is 0 kg",
    ]


@pytest.mark.parametrize("mass_kg", [0.0, -1.0, math.nan, math.inf, 100.5])
def test_a_mass_that_cannot_be_is_refused(mass_kg: float) -> None:
    error = _refusal(DRIVER, mass_kg=mass_kg)
    assert error.allowed == "mass more than 0 to 100 kg"


@pytest.mark.parametrize(
    ("name", "changes", "both"),
    [
        ("screwdriver", {"handle": 6.0, "ferrule": 6.0}, ("handle 6 mm", "shank 6 mm")),
        ("screwdriver", {"ferrule_length": 0.0}, ("ferrule 10 mm", "ferrule_length 0 mm")),
        ("screwdriver", {"ferrule": 5.0}, ("ferrule 5 mm", "shank 6 mm")),
        ("screwdriver", {"ferrule": 31.0}, ("ferrule 31 mm", "handle 30 mm")),
        ("pliers", {"leg_length": 140.0}, ("head_length 45 mm", "leg_length 140 mm", "length 180")),
        ("pliers", {"gap": 21.0}, ("gap 21 mm", "head_width 26 mm", "spread 50 mm")),
        ("pliers", {"gap_below": 55.0}, ("gap_below 55 mm", "leg_length 110 mm")),
        ("pliers", {"nose_width": 27.0}, ("nose_width 27 mm", "head_width 26 mm")),
        ("flat-wrench", {"other_head_width": 30.0}, ("other_head_width 30 mm", "head_width 29 mm")),
        ("flat-wrench", {"other_head_width": 9.0}, ("other_head_width 9 mm", "shaft_width 11.5")),
        ("flat-wrench", {"shaft_width": 29.0}, ("head_width 29 mm", "shaft_width 29 mm")),
        ("flat-wrench", {"length": 58.0}, ("length 58 mm", "head_width 29 mm")),
        ("flat-wrench", {"ring": 28.0}, ("ring 28 mm", "head_width 29 mm")),
        ("flat-wrench", {"opening": 29.0}, ("opening 29 mm", "head_width 29 mm")),
        ("hex-key", {"short_arm": 81.0}, ("long_arm 80 mm", "short_arm 81 mm")),
        ("hex-key", {"short_arm": 9.0}, ("short_arm 9 mm", "flats 5 mm")),
        ("hammer", {"head_length": 30.0, "neck_width": 30.0}, ("neck_width 30", "head_length 30")),
        ("hammer", {"length": 120.0, "head_height": 71.0}, ("length 120 mm", "head_height 71 mm")),
        ("coil", {"bundle": 101.0}, ("outer 220 mm", "bundle 101 mm")),
        ("chisel", {"bolster": 0.0}, ("bolster 0 mm", "bolster_length 8 mm")),
        ("chisel", {"bolster": 33.0}, ("bolster 33 mm", "handle 32 mm")),
        ("chisel", {"blade_width": 2.0}, ("blade_thickness 5 mm", "blade_width 2 mm")),
        ("chisel", {"blade_thickness": 28.0}, ("handle 32 mm", "blade_thickness 28 mm")),
        ("marking-knife", {"handle_width": 14.0, "handle_thickness": 6.0}, ("14 mm", "12 mm")),
        ("scissors", {"loops_width": 28.0}, ("loops_width 28 mm", "blade_width 24 mm")),
        ("file", {"thickness": 21.0}, ("thickness 21 mm", "width 20 mm")),
        ("file", {"handle": 20.0}, ("handle 20 mm", "width 20 mm", "20.62 mm")),
        ("rule", {"hole": 0.0}, ("hole 0 mm", "hole_rim 5 mm")),
        ("rule", {"hole": 27.0}, ("hole 27 mm", "width 28 mm")),
        ("rule", {"length": 60.0, "hole_rim": 30.0}, ("hole_rim 30 mm", "length 60 mm")),
        ("scraper", {"width": 150.0, "length": 140.0}, ("width 150 mm", "length 140 mm")),
        ("square", {"stock_length": 38.0}, ("stock_length 38 mm", "blade_width 38 mm")),
        ("square", {"blade_thickness": 8.0, "stock_thickness": 7.0}, ("7 mm", "8 mm")),
        ("hand-saw", {"toe_width": 120.0}, ("toe_width 120 mm", "heel_width 115 mm")),
        ("hand-saw", {"hole_height": 80.0}, ("hole_width 90 mm", "hole_height 80 mm")),
        ("hand-saw", {"hole_width": 120.0}, ("120 mm", "handle_width 130 mm")),
        ("back-saw", {"handle_length": 50.0}, ("42 mm", "handle_length 50 mm")),
        ("back-saw", {"plate_width": 29.0}, ("spine_height 20 mm", "plate_width 29 mm")),
        ("calliper", {"slider_width": 15.0}, ("slider_width 15 mm", "beam_width 16 mm")),
        ("calliper", {"slider_thickness": 3.0}, ("slider_thickness 3 mm", "3.5 mm")),
        ("calliper", {"slider_width": 49.0}, ("slider_width 49 mm", "17 mm")),
        ("calliper", {"length": 107.0}, ("length 107 mm", "slider_length 60 mm")),
        ("level", {"hole": 47.0}, ("hole 47 mm", "height 50 mm")),
        ("level", {"hole_rim": 0.0}, ("hole 20 mm", "hole_rim 0 mm")),
        ("pole", {"head_width": 25.0}, ("head_width 25 mm", "handle 25 mm")),
        ("pole", {"head_depth": 0.0}, ("head_width 280 mm", "head_depth 0 mm")),
        ("tape-roll", {"bore": 104.0}, ("bore 104 mm", "outer 105 mm")),
        ("roll-stock", {"bore": 59.0}, ("bore 59 mm", "outer 60 mm")),
        ("sanding-disc", {"bore": 130.0, "diameter": 135.0}, ("bore 130 mm", "diameter 135 mm")),
        ("spokeshave", {"handle": 35.0}, ("handle 35 mm", "body_height 34 mm")),
    ],
)
def test_measures_at_odds_are_both_named(
    name: str, changes: dict[str, float], both: tuple[str, ...]
) -> None:
    error = _refusal({**dict(KINDS[name].example), **changes}, name=name)
    for measure in both:
        assert measure in error.given
    assert ": " in error.given


def test_several_measures_at_odds_are_all_listed() -> None:
    error = _refusal({**DRIVER, "handle": 5.0})
    assert error.given.count("handle 5 mm") == 2


def test_whole_numbers_are_numbers() -> None:
    assert tool_body("can", {"diameter": 65, "height": 195}).leading == "⌀65×195"


def test_the_registry_loads_no_kernel() -> None:
    code = (
        "import sys, cleatwright.tools.registry\n"
        "heavy = {'manifold3d', 'numpy', 'scipy', 'OCP', 'build123d'} & set(sys.modules)\n"
        "print(sorted(heavy))"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter and our own text
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("name", "kinds"),
    [
        ("squeegee", 'kind = "pole"'),
        ("digging-fork", 'kind = "spade"'),
        ("lantern", 'kind = "bucket"'),
        ("hedge-shears", 'kind = "loppers"'),
        ("spatula", '"thing-with-hole" (with a hole)'),
    ],
)
def test_a_name_that_is_no_kind_leads_to_a_kind_that_it_may_be(name: str, kinds: str) -> None:
    with pytest.raises(UnknownNameError) as found:
        kind(name)
    assert kinds in found.value.todo


def test_measures_beyond_a_kind_lead_to_kinds_that_take_them() -> None:
    """A plate 400 by 30 by 2 mm is no card scraper, and is a rule or any flat thing."""
    with pytest.raises(MeasureError) as found:
        tool_body("scraper", {"length": 400.0, "width": 30.0, "thickness": 2.0})
    assert 'kind = "rule" or kind = "flat-plate"' in found.value.todo
    for name in ("rule", "flat-plate"):
        assert tool_body(name, {"length": 400.0, "width": 30.0, "thickness": 2.0}).mass_kg > 0.0


def test_measures_that_no_kind_takes_lead_to_the_plain_shapes() -> None:
    with pytest.raises(MeasureError) as found:
        tool_body("can", {"diameter": 400.0, "height": 50.0})
    assert '"box" (with a flat base)' in found.value.todo


def test_a_missing_measure_leads_to_no_other_shape() -> None:
    with pytest.raises(MeasureError) as found:
        tool_body("screwdriver", {"shank": 6.0})
    assert "plain shape" not in found.value.todo
