"""What holds for every registered kind, at its example, its bounds and anywhere between."""

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import content_key
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.parts.grips import (
    Blade,
    Disc,
    EyeHole,
    FlatEdge,
    FlatOutline,
    Footprint,
    Grip,
    HexShank,
    HookedArm,
    InvertedNeck,
    Loop,
    LyingBar,
    Overhang,
    PistolGrip,
    Rim,
    RollBore,
    RoundBody,
    ShaftEnd,
    Shoulder,
    SquareDrive,
    SteelFace,
    Straddle,
    ThinPlate,
)
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.kind import Kind
from cleatwright.tools.registry import KINDS, ordinary_body, ordinary_outline, tool_body

Sizes = dict[str, float]
EVERY = sorted(KINDS)
OFFERED: dict[str, type[Grip]] = {
    "screwdriver": Shoulder,
    "pliers": Straddle,
    "flat-wrench": FlatEdge,
    "hex-key": ShaftEnd,
    "hammer": Overhang,
    "can": RoundBody,
    "coil": Loop,
    "box": Footprint,
    "hex-bit": HexShank,
    "socket": SquareDrive,
    "nut-driver": Shoulder,
    "t-hex-key": Overhang,
    "twist-drill": ShaftEnd,
    "router-bit": ShaftEnd,
    "punch": ShaftEnd,
    "cordless-drill": PistolGrip,
    "angle-grinder": RoundBody,
    "chisel": Blade,
    "marking-knife": Blade,
    "scissors": Blade,
    "hand-saw": ThinPlate,
    "back-saw": Loop,
    "file": Shoulder,
    "square": ThinPlate,
    "rule": EyeHole,
    "calliper": Overhang,
    "scraper": ThinPlate,
    "marker": RoundBody,
    "battery-cell": RoundBody,
    "torch": RoundBody,
    "bin": Rim,
    "bottle": InvertedNeck,
    "cartridge": InvertedNeck,
    "flat-thing": FlatOutline,
    "level": LyingBar,
    "pole": LyingBar,
    "tape-roll": RollBore,
    "roll-stock": RollBore,
    "sanding-disc": Disc,
    "spokeshave": LyingBar,
    "hand-plane": LyingBar,
    "adjustable-wrench": EyeHole,
    "pipe-wrench": EyeHole,
    "bar-clamp": HookedArm,
    "spring-clamp": Straddle,
    "goggles": Loop,
    "paint-brush": EyeHole,
    "ratchet": Overhang,
    "mallet": Overhang,
    "tape-measure": Footprint,
}


def made(name: str, sizes: Sizes, *, mass_kg: float | None = None) -> ToolBody:
    """Return the body of a tool; of a kind that is outlined, with the outline of its example."""
    return tool_body(name, sizes, mass_kg=mass_kg, outline=ordinary_outline(name))


SIGNS = set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.×⌀-/ ")


def _orderly_screwdriver(s: Sizes) -> None:
    s["handle"] = max(s["handle"], s["shank"] + 1.0)
    if min(s["ferrule"], s["ferrule_length"]) == 0.0:
        s["ferrule"] = s["ferrule_length"] = 0.0
    else:
        s["ferrule"] = min(max(s["ferrule"], s["shank"]), s["handle"])


def _orderly_pliers(s: Sizes) -> None:
    s["length"] = max(s["length"], min(900.0, s["head_length"] + s["leg_length"]))
    s["gap"] = max(1.0, min(s["gap"], s["head_width"] - 6.0, s["spread"] - 6.0))
    s["gap_below"] = min(s["gap_below"], 0.45 * s["leg_length"])
    s["nose_width"] = min(s["nose_width"], s["head_width"])


def _orderly_wrench(s: Sizes) -> None:
    s["shaft_width"] = min(s["shaft_width"], s["head_width"] - 1.0)
    low = max(s["other_head_width"], s["shaft_width"])
    s["other_head_width"] = min(low, s["head_width"])
    heads = s["head_width"] + s["other_head_width"]
    s["length"] = max(s["length"], heads + 10.0)
    s["ring"] = min(s["ring"], s["head_width"] - 2.0)
    s["opening"] = min(s["opening"], s["head_width"] - 1.0)


def _orderly_hex_key(s: Sizes) -> None:
    s["short_arm"] = max(s["short_arm"], 2.0 * s["flats"])
    s["long_arm"] = max(s["long_arm"], s["short_arm"])


def _orderly_hammer(s: Sizes) -> None:
    s["neck_width"] = min(s["neck_width"], s["head_length"] - 1.0)
    s["length"] = max(s["length"], s["head_height"] + 50.0)


def _orderly_coil(s: Sizes) -> None:
    s["bundle"] = max(3.0, min(s["bundle"], s["outer"] / 2 - 10.0))


def _orderly_hex_bit(s: Sizes) -> None:
    s["tip_length"] = min(s["tip_length"], s["length"] - 5.0)


def _orderly_socket(s: Sizes) -> None:
    s["outer"] = max(s["outer"], 1.5 * s["square"] + 1.0)
    s["depth"] = min(s["depth"], s["length"] - 1.0)


def _orderly_nut_driver(s: Sizes) -> None:
    s["head"] = min(s["head"], s["handle"] - 1.0)
    s["shank"] = min(s["shank"], s["handle"] - 1.0)


def _orderly_t_hex_key(s: Sizes) -> None:
    s["handle_length"] = max(s["handle_length"], 2.0 * s["flats"])
    s["length"] = max(s["length"], s["handle_height"] + 20.0)


def _orderly_twist_drill(s: Sizes) -> None:
    s["flute_length"] = min(s["flute_length"], s["length"] - 8.0)


def _orderly_punch(s: Sizes) -> None:
    s["point_length"] = min(s["point_length"], s["length"] - 15.0)


def _orderly_drill(s: Sizes) -> None:
    s["handle_depth"] = min(s["handle_depth"], s["body_length"])
    back = min(s["handle_back"], s["body_length"] - s["handle_depth"])
    s["handle_back"] = back if back >= 1.0 else 0.0
    s["handle_width"] = min(s["handle_width"], s["body_width"] - 1.0)
    s["chuck"] = min(s["chuck"], s["body_height"])
    s["battery_back"] = min(s["battery_back"], s["battery_length"])


def _orderly_grinder(s: Sizes) -> None:
    s["guard"] = min(s["guard"], s["length"] - 40.0)
    s["head"] = min(s["head"], s["guard"])
    s["guard_thickness"] = min(s["guard_thickness"], s["head_depth"] - 20.0)


def _orderly_chisel(s: Sizes) -> None:
    if min(s["bolster"], s["bolster_length"]) == 0.0:
        s["bolster"] = s["bolster_length"] = 0.0
    s["blade_thickness"] = min(s["blade_thickness"], 2.0 * s["blade_width"])
    s["handle"] = max(s["handle"], s["blade_thickness"] + 5.0, s["bolster"])


def _orderly_knife(s: Sizes) -> None:
    s["handle_width"] = max(s["handle_width"], s["blade_width"] + 5.0)


def _orderly_scissors(s: Sizes) -> None:
    s["loops_width"] = max(s["loops_width"], s["blade_width"] + 5.0)


def _orderly_saw(s: Sizes) -> None:
    s["hole_height"] = min(s["hole_height"], s["handle_length"] - 12.0, s["hole_width"] / 1.31)
    s["hole_width"] = min(s["hole_width"], s["handle_width"] - 12.0)
    s["hole_height"] = min(s["hole_height"], s["hole_width"] / 1.31)


def _orderly_hand_saw(s: Sizes) -> None:
    _orderly_saw(s)
    s["toe_width"] = min(s["toe_width"], s["heel_width"])


def _orderly_back_saw(s: Sizes) -> None:
    _orderly_saw(s)
    s["spine_height"] = min(s["spine_height"], s["plate_width"] - 10.0)


def _orderly_file(s: Sizes) -> None:
    s["thickness"] = min(s["thickness"], s["width"])
    s["handle"] = max(s["handle"], 1.01 * math.hypot(s["width"], s["thickness"]))


def _orderly_square(s: Sizes) -> None:
    s["stock_length"] = max(s["stock_length"], s["blade_width"] + 1.0)
    s["stock_thickness"] = max(s["stock_thickness"], s["blade_thickness"])


def _orderly_rule(s: Sizes) -> None:
    s["hole"] = min(s["hole"], s["width"] - 2.0, s["length"] / 2 - 1.0)
    s["hole_rim"] = min(s["hole_rim"], s["length"] / 2 - s["hole"])


def _orderly_calliper(s: Sizes) -> None:
    s["beam_width"] = min(s["beam_width"], s["slider_width"])
    least = min(s["small_jaw"], s["long_jaw"])
    s["slider_width"] = min(s["slider_width"], s["beam_width"] + 2.0 * least - 2.0)
    s["slider_thickness"] = max(s["slider_thickness"], s["beam_thickness"])
    s["length"] = max(s["length"], s["jaws_height"] + s["slider_length"] + 20.0)


def _orderly_scraper(s: Sizes) -> None:
    s["length"] = max(s["length"], s["width"])


def _orderly_marker(s: Sizes) -> None:
    if min(s["cap"], s["cap_length"]) == 0.0:
        s["cap"] = s["cap_length"] = 0.0
    s["cap_length"] = min(s["cap_length"], s["length"] - 25.0)


def _orderly_torch(s: Sizes) -> None:
    if min(s["head"], s["head_length"]) == 0.0:
        s["head"] = s["head_length"] = 0.0
    s["head_length"] = min(s["head_length"], s["length"] - 35.0)


def _orderly_bin(s: Sizes) -> None:
    s["body_width"] = min(s["body_width"], s["rim_width"] - 2.5)
    s["body_depth"] = min(s["body_depth"], s["rim_depth"] - 2.5)
    s["rim"] = min(s["rim"], 0.29 * s["height"])


def _orderly_bottle(s: Sizes) -> None:
    s["neck"] = min(s["neck"], s["body"] - 4.5)
    s["neck_length"] = min(s["neck_length"], s["height"] - 16.0)
    room = s["height"] - s["neck_length"] - 15.5
    s["shoulder"] = min(s["shoulder"], room) if room >= 1.0 else 0.0


def _orderly_cartridge(s: Sizes) -> None:
    s["nozzle"] = min(s["nozzle"], s["tube"] - 8.5)


def _orderly_level(s: Sizes) -> None:
    s["hole"] = min(s["hole"], s["height"] - 4.0)
    s["hole_rim"] = max(2.0, min(s["hole_rim"], (s["length"] - s["hole"]) / 2 - 2.0))


def _orderly_pole(s: Sizes) -> None:
    s["head_width"] = max(s["head_width"], s["handle"] + 1.0)
    s["length"] = max(s["length"], s["head_height"] + 151.0)


def _orderly_roll(s: Sizes) -> None:
    s["outer"] = max(s["outer"], s["bore"] + 3.0)


def _orderly_disc(s: Sizes) -> None:
    s["bore"] = min(s["bore"], s["diameter"] - 9.0)


def _orderly_spokeshave(s: Sizes) -> None:
    s["handle"] = min(s["handle"], s["body_height"])
    s["body_length"] = min(s["body_length"], s["length"] - 41.0)


def _orderly_holed(s: Sizes) -> None:
    s["handle_thickness"] = min(s["handle_thickness"], s["head_thickness"])
    s["hole"] = min(s["hole"], s["handle_width"] - 4.0)
    least = s["head_length"] + max(30.0, s["hole"] + 2.0 * s["hole_rim"] + 5.0)
    s["length"] = max(s["length"], least + 0.01)


def _orderly_bar_clamp(s: Sizes) -> None:
    for one, other in (("handle", "handle_length"), ("pad", "pad_depth")):
        if min(s[one], s[other]) == 0.0:
            s[one] = s[other] = 0.0
    s["throat"] = max(s["throat"], s["pad_depth"] + 5.001, s["handle"] / 2 + 2.0)
    others = s["jaw_height"] + s["slide_height"] + s["handle_length"]
    s["opening"] = max(5.0, s["pad"] + 1.0, min(s["opening"], 980.0 - others))
    s["length"] = min(990.0, max(s["length"], others + s["opening"] + 0.01))


def _orderly_spring_clamp(s: Sizes) -> None:
    s["handle_length"] = min(s["handle_length"], s["length"] - 15.0)
    s["gap"] = min(s["gap"], s["spread"] - 8.0, s["head_width"] - 8.0)


def _orderly_goggles(s: Sizes) -> None:
    opening = min(s["strap_height"], (s["width"]) / 2) - 10.0
    s["strap_thickness"] = max(1.0, min(s["strap_thickness"], opening))


def _orderly_brush(s: Sizes) -> None:
    s["hole"] = min(s["hole"], s["handle_width"] - 4.0)
    foot = s["bristle_length"] + s["ferrule_length"] + s["hole"] + 2.0 * s["hole_rim"]
    s["length"] = max(s["length"], foot + 5.01)


def _orderly_ratchet(s: Sizes) -> None:
    s["neck"] = min(s["neck"], s["head_width"] - 1.0, s["head_depth"] - 1.0)
    s["length"] = max(s["length"], s["head_height"] + 50.0)


def _as_drawn(_: Sizes) -> None:
    """Leave measures of which any fit together."""


ORDERLY: dict[str, Callable[[Sizes], None]] = {
    "screwdriver": _orderly_screwdriver,
    "pliers": _orderly_pliers,
    "flat-wrench": _orderly_wrench,
    "hex-key": _orderly_hex_key,
    "hammer": _orderly_hammer,
    "coil": _orderly_coil,
    "can": _as_drawn,
    "box": _as_drawn,
    "hex-bit": _orderly_hex_bit,
    "socket": _orderly_socket,
    "nut-driver": _orderly_nut_driver,
    "t-hex-key": _orderly_t_hex_key,
    "twist-drill": _orderly_twist_drill,
    "router-bit": _as_drawn,
    "punch": _orderly_punch,
    "cordless-drill": _orderly_drill,
    "angle-grinder": _orderly_grinder,
    "chisel": _orderly_chisel,
    "marking-knife": _orderly_knife,
    "scissors": _orderly_scissors,
    "hand-saw": _orderly_hand_saw,
    "back-saw": _orderly_back_saw,
    "file": _orderly_file,
    "square": _orderly_square,
    "rule": _orderly_rule,
    "calliper": _orderly_calliper,
    "scraper": _orderly_scraper,
    "marker": _orderly_marker,
    "battery-cell": _as_drawn,
    "torch": _orderly_torch,
    "bin": _orderly_bin,
    "bottle": _orderly_bottle,
    "cartridge": _orderly_cartridge,
    "flat-thing": _as_drawn,
    "level": _orderly_level,
    "pole": _orderly_pole,
    "tape-roll": _orderly_roll,
    "roll-stock": _orderly_roll,
    "sanding-disc": _orderly_disc,
    "spokeshave": _orderly_spokeshave,
    "hand-plane": _as_drawn,
    "adjustable-wrench": _orderly_holed,
    "pipe-wrench": _orderly_holed,
    "bar-clamp": _orderly_bar_clamp,
    "spring-clamp": _orderly_spring_clamp,
    "goggles": _orderly_goggles,
    "paint-brush": _orderly_brush,
    "ratchet": _orderly_ratchet,
    "mallet": _orderly_hammer,
    "tape-measure": _as_drawn,
}


def _within_bounds(kind: Kind) -> st.SearchStrategy[Sizes]:
    return st.fixed_dictionaries(
        {row.name: st.floats(row.low_mm, row.high_mm) for row in kind.card}
    )


@st.composite
def bodies(draw: st.DrawFn) -> tuple[Sizes, ToolBody]:
    kind = KINDS[draw(st.sampled_from(EVERY))]
    sizes = draw(_within_bounds(kind))
    ORDERLY[kind.name](sizes)
    return sizes, made(kind.name, sizes)


WITHIN: dict[type[Grip], Callable[[Any, float], bool]] = {
    Shoulder: lambda g, top: g.neck_mm < g.shoulder_mm and 0 < g.neck_length_mm <= g.z_mm < top,
    Straddle: lambda g, top: (
        g.gap_mm < g.spread_mm and 0 < g.gap_below_mm < g.leg_length_mm <= g.z_mm < top
    ),
    FlatEdge: lambda g, top: 0 < g.low_mm < g.high_mm < top,
    ShaftEnd: lambda g, top: g.z_mm == 0 < g.length_mm < top,
    Overhang: lambda g, top: g.neck_x_mm < g.head_x_mm and 0 < g.z_mm < top,
    Loop: lambda g, top: 0 < g.height_mm < g.z_mm < top,
    RoundBody: lambda g, top: g.z_mm == 0 < g.height_mm <= top + 1e-6 and g.diameter_mm > 0,
    Footprint: lambda g, top: g.z_mm == 0 and g.height_mm == pytest.approx(top),
    HexShank: lambda g, top: g.z_mm == 0 < g.length_mm <= top,
    SquareDrive: lambda g, top: g.z_mm == 0 < g.depth_mm < top and g.square_mm < g.body_mm,
    PistolGrip: lambda g, top: (
        g.handle_x_mm < g.body_x_mm and 0 < g.handle_length_mm < g.z_mm < top
    ),
    Blade: lambda g, top: (
        0 < g.length_mm <= g.z_mm < top
        and (g.stop_x_mm > g.width_mm or g.stop_y_mm > g.thickness_mm)
    ),
    EyeHole: lambda g, top: 0 < g.diameter_mm < g.z_mm and g.z_mm + g.rim_mm == pytest.approx(top),
    ThinPlate: lambda g, top: g.edge_y0_mm < g.edge_y1_mm and 0 < g.height_mm <= top,
    SteelFace: lambda g, top: 0 <= g.low_mm < g.high_mm <= top and g.thickness_mm > 0,
    Rim: lambda g, top: g.z_mm == g.below_mm < top and g.body_x_mm < g.rim_x_mm,
    InvertedNeck: lambda g, top: g.neck_mm < g.body_mm and 0 < g.neck_length_mm < top,
    FlatOutline: lambda g, top: g.outline.bounds[3] == pytest.approx(top) and g.thickness_mm > 0,
    LyingBar: lambda g, _: min(g.length_mm, g.depth_mm, g.height_mm) > 0,
    RollBore: lambda g, _: 0 < g.bore_mm < g.outer_mm and g.width_mm > 0,
    Disc: lambda g, top: g.diameter_mm == pytest.approx(top) and g.thickness_mm > 0,
    HookedArm: lambda g, top: (
        0 <= g.nose_mm < g.free_mm < g.z_mm < top and 0 <= g.nose_y_mm < g.reach_mm
    ),
}
"""What is true of each grip on a tool that is so high."""


def test_every_kind_is_driven_here() -> None:
    assert sorted(OFFERED) == sorted(ORDERLY) == EVERY


@pytest.mark.parametrize("name", EVERY)
def test_the_example_builds_and_offers_its_grip(name: str) -> None:
    body = ordinary_body(name)
    assert body.kind == name
    assert body.grip(OFFERED[name]) is not None


@pytest.mark.parametrize("name", EVERY)
def test_each_measure_says_where_the_calliper_goes_and_has_bounds(name: str) -> None:
    for row in KINDS[name].card:
        assert len(row.description) > 10
        assert 0.0 < row.low_mm < row.high_mm < 3000.0
        assert not (row.needed and row.may_be_zero)


@pytest.mark.parametrize("name", EVERY)
def test_the_smallest_and_the_largest_tool_build(name: str) -> None:
    card = KINDS[name].card
    smallest = {row.name: row.low_mm for row in card}
    largest = {row.name: row.high_mm for row in card}
    small, large = made(name, smallest), made(name, largest)
    assert 0.0 < small.mass_kg < large.mass_kg


@pytest.mark.parametrize("name", EVERY)
def test_just_outside_a_bound_is_refused_by_name(name: str) -> None:
    example = dict(KINDS[name].example)
    for row in KINDS[name].card:
        for value in (row.low_mm - 0.01, row.high_mm + 0.01):
            with pytest.raises(MeasureError, match=rf"{row.name} (is )?{value:g} mm.*{row.bounds}"):
                made(name, {**example, row.name: value})


@settings(deadline=None, max_examples=150)
@given(st.data())
def test_any_numbers_within_bounds_build_or_are_refused_as_measures(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(EVERY))
    sizes = data.draw(_within_bounds(KINDS[name]))
    try:
        body = made(name, sizes)
    except MeasureError as error:
        assert " mm" in error.given  # noqa: PT017 - most draws build, and both outcomes are right
    else:
        assert body.mass_kg > 0.0


@settings(deadline=None, max_examples=150)
@given(bodies())
def test_mass_centre_and_notation_are_sound(drawn: tuple[Sizes, ToolBody]) -> None:
    sizes, body = drawn
    assert 0.0 < body.mass_kg < math.inf
    low, high = body.extent_mm
    for axis in range(3):
        assert low[axis] - 1e-6 <= body.com_mm[axis] <= high[axis] + 1e-6
    assert low[2] == pytest.approx(0.0, abs=1e-6)
    assert 0 < len(body.leading) <= 10
    assert set(body.leading) <= SIGNS
    assert body.order_mm in sizes.values()
    assert content_key(body) == content_key(made(body.kind, sizes))
    assert made(body.kind, sizes, mass_kg=1.25).com_mm == body.com_mm
    assert made(body.kind, sizes, mass_kg=1.25).mass_kg == 1.25


@settings(deadline=None, max_examples=60)
@given(bodies())
def test_every_piece_of_an_envelope_is_convex_and_all_of_them_hang_together(
    drawn: tuple[Sizes, ToolBody],
) -> None:
    """Oracle: the hull of the same vertices by Qhull has the same volume.

    Pieces that share a face may lie a rounding error apart, so their distance is asked for.
    """
    kernel = MeshKernel()
    _, body = drawn
    meshes = [kernel.evaluate(piece) for piece in body.envelope]
    for mesh in meshes:
        hull = ConvexHull(mesh.vertices_mm).volume
        assert mesh.facts.volume_mm3 == pytest.approx(hull, rel=1e-6)
    reached, waiting = [meshes[0]], meshes[1:]
    while waiting:
        near = [one for one in waiting if any(touching(one, other) for other in reached)]
        assert near, "a piece hangs in the air"
        reached += near
        waiting = [one for one in waiting if one not in near]


def touching(one: MeshBody, other: MeshBody) -> bool:
    return one.gap_mm(other, within_mm=0.01) < 1e-9


@settings(deadline=None, max_examples=60)
@given(bodies())
def test_grips_lie_within_the_tool(drawn: tuple[Sizes, ToolBody]) -> None:
    _, body = drawn
    _, (_, _, top) = body.extent_mm
    for grip in body.grips:
        assert type(grip) in WITHIN, f"nothing is known about {grip}"
        assert WITHIN[type(grip)](grip, top), grip


def test_content_keys_do_not_depend_on_the_process(
    under_hash_seeds: Callable[..., set[bytes]],
) -> None:
    code = (
        "from cleatwright.base.keys import content_key\n"
        "from cleatwright.tools.registry import KINDS, ordinary_body\n"
        "print([content_key(ordinary_body(n)) for n in sorted(KINDS)])"
    )
    here = [content_key(ordinary_body(n)) for n in sorted(KINDS)]
    assert {text.decode().strip() for text in under_hash_seeds(code)} == {str(here)}
