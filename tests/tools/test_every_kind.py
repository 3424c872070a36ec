"""What holds for every registered kind, at its example, its bounds and anywhere between."""

import math
from collections.abc import Callable
from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import content_key
from cleatwright.base.said import in_mm
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
    RoundRim,
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
    "plastering-trowel": EyeHole,
    "paint-roller": Overhang,
    "filling-knife": Blade,
    "scalpel": ShaftEnd,
    "trigger-bottle": RoundBody,
    "heat-gun": PistolGrip,
    "corded-drill": PistolGrip,
    "staple-gun": EyeHole,
    "spade": EyeHole,
    "dibber": Overhang,
    "bow-saw": EyeHole,
    "bucket": Loop,
    "glove": Loop,
    "iron": Footprint,
    "loppers": Straddle,
    "sieve": RoundRim,
    "thing-with-hole": EyeHole,
    "thing-with-neck": Overhang,
    "thing-with-loop": Loop,
    "round-thing": RoundBody,
    "flat-plate": FlatEdge,
}


def made(name: str, sizes: Sizes, *, mass_kg: float | None = None) -> ToolBody:
    """Return the body of a tool; of a kind that is outlined, with the outline of its example."""
    return tool_body(name, sizes, mass_kg=mass_kg, outline=ordinary_outline(name))


SIGNS = set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.×⌀-/ ")


def _within_bounds(kind: Kind) -> st.SearchStrategy[Sizes]:
    return st.fixed_dictionaries(
        {row.name: st.floats(row.low_mm, row.high_mm) for row in kind.card}
    )


@st.composite
def bodies(draw: st.DrawFn) -> tuple[Sizes, ToolBody]:
    """Draw measures anywhere within bounds, then towards an ordinary tool until they are one."""
    kind = KINDS[draw(st.sampled_from(EVERY))]
    far, near = draw(_within_bounds(kind)), whole(kind)
    for share in (1.0, 0.9, 0.8, 0.6, 0.4, 0.2, 0.1, 0.0):
        sizes = {name: (1.0 - share) * near[name] + share * far[name] for name in far}
        with suppress(MeasureError):
            return sizes, made(kind.name, sizes)
    raise AssertionError(f"an ordinary {kind.name} with every feature is none")


def whole(kind: Kind) -> Sizes:
    """Return the measures of an ordinary tool that has every feature which one may lack."""
    return {row.name: row.low_mm for row in kind.card} | dict(kind.example)


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
    RoundRim: lambda g, top: g.diameter_mm == pytest.approx(top) == 2 * g.z_mm and g.depth_mm > 0,
    HookedArm: lambda g, top: (
        0 <= g.nose_mm < g.free_mm < g.z_mm < top and 0 <= g.nose_y_mm < g.reach_mm
    ),
}
"""What is true of each grip on a tool that is so high."""


def test_every_kind_is_driven_here() -> None:
    assert sorted(OFFERED) == EVERY


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
            with pytest.raises(
                MeasureError, match=rf"{row.name} (is )?{value:g} mm.*{in_mm(row.bounds)}"
            ):
                made(name, {**example, row.name: value})


@settings(deadline=None, max_examples=150)
@given(st.data())
def test_any_numbers_within_bounds_build_or_are_refused_as_measures(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(EVERY))
    sizes = data.draw(_within_bounds(KINDS[name]))
    try:
        body = made(name, sizes)
    except MeasureError as error:
        assert " mm" in in_mm(error.given)  # noqa: PT017 - most draws build, and both outcomes are right
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
