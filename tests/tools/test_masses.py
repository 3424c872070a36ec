"""Oracles: steel tables for bars, Pappus for a ring, DIN and trade weights as plausibility.

Whatever is called plausible is no more than that: a weighed tool always wins.
"""

import math

import pytest
from tests.tools.ordinary import example

from cleatwright.base.source import Evidence
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.grips import ShaftEnd
from cleatwright.shapes.exact_volume import exact_moments
from cleatwright.shapes.solid import Union
from cleatwright.tools.kinds.hex_key import CORNERS
from cleatwright.tools.material import MATERIALS
from cleatwright.tools.registry import tool_body

# ISO 2936:1983 = DIN 911, size, long arm, short arm (from memory, except 1.5: secondary source)
# and ISO 2936:2014, e max of the corners and both arms (secondary source)
HEX_KEYS = """
1.5  45 14  1.68  46.5 15.5
2    50 16  2.25  52   18
2.5  56 18  2.82  58.5 20.5
3    63 20  3.39  66   23
4    70 25  4.53  74   29
5    80 28  5.67  85   33
6    90 32  6.81  96   38
8   100 36  9.09 108   44
10  112 40 11.37 122   50
12  125 45 13.65 137   57
14  140 56 15.93 154   70
"""
KEYS = [tuple(float(n) for n in line.split()) for line in HEX_KEYS.strip().split("\n")]


@pytest.mark.parametrize(("flats", "kg_per_m"), [(10.0, 0.680), (12.0, 0.979), (6.0, 0.245)])
def test_a_hex_bar_weighs_what_steel_tables_print(flats: float, kg_per_m: float) -> None:
    """Steel tables: hexagon 6, 10 and 12 mm; equal to sqrt(3)/2 AF^2 7850 (computed)."""
    short = tool_body("hex-key", {"flats": flats, "long_arm": 100.0, "short_arm": 40.0})
    longer = tool_body("hex-key", {"flats": flats, "long_arm": 400.0, "short_arm": 40.0})
    metre = (longer.mass_kg - short.mass_kg) / 0.3
    assert metre == pytest.approx(kg_per_m, abs=0.0005)
    assert metre == pytest.approx(math.sqrt(3) / 2 * flats**2 * 7850e-6, rel=1e-12)


@pytest.mark.parametrize("row", KEYS, ids=[f"SW{row[0]:g}" for row in KEYS])
def test_standard_hex_keys_of_both_editions_are_taken(row: tuple[float, ...]) -> None:
    flats, *_ = row
    for long_arm, short_arm in (row[1:3], row[4:6]):
        sizes = {"flats": flats, "long_arm": long_arm, "short_arm": short_arm}
        body = tool_body("hex-key", sizes)
        end = body.needed_grip(ShaftEnd)
        assert end.length_mm > 3 * flats
        assert body.leading == f"SW{flats:g}"


@pytest.mark.parametrize("row", KEYS, ids=[f"SW{row[0]:g}" for row in KEYS])
def test_the_sharp_corners_exceed_the_rounded_ones_of_the_standard(row: tuple[float, ...]) -> None:
    """ISO 2936 allows e max of 1.12 to 1.14 times the size, the sharp hexagon has 1.155."""
    flats, e_max = row[0], row[3]
    assert 1.0 < CORNERS * flats / e_max < 1.04


def test_a_coil_weighs_what_pappus_says_within_its_chords() -> None:
    """An oval section on its circle: pi/4 a b times pi (D - a); 16 chords enlarge it a little."""
    body = tool_body("coil", {"outer": 220.0, "bundle": 25.0, "thickness": 30.0})
    pappus = math.pi / 4 * 25.0 * 30.0 * math.pi * (220.0 - 25.0) * 1e-9 * 1400.0
    chords = (110.0**2 - 85.0**2 * math.sin(math.pi / 8) / (math.pi / 8)) / (110.0**2 - 85.0**2)
    assert body.mass_kg == pytest.approx(pappus * chords, rel=1e-9)
    assert 1.0 < chords < 1.05


def test_a_litre_of_water_weighs_a_kilogram() -> None:
    body = tool_body("can", {"diameter": 100.0, "height": 400.0 / math.pi})
    assert body.mass_kg == pytest.approx(1.0, rel=1e-12)
    assert body.com_mm == pytest.approx((0.0, 0.0, 200.0 / math.pi), abs=1e-8)


def test_a_litre_box_weighs_as_much_as_its_fill() -> None:
    body = tool_body("box", {"width": 100.0, "depth": 100.0, "height": 100.0})
    assert body.mass_kg == pytest.approx(2.0, rel=1e-12)


def test_a_screwdriver_is_steel_below_and_plastic_above() -> None:
    """Two cylinders by hand: 28.27 mm2 of 100 mm of steel, 706.86 mm2 of 100 mm of plastic."""
    sizes = {"shank": 6.0, "shank_length": 100.0, "handle": 30.0, "handle_length": 100.0}
    body = tool_body("screwdriver", sizes)
    steel, plastic = math.pi * 9e-7 * 7850.0, math.pi * 225e-7 * 1200.0
    assert body.mass_kg == pytest.approx(steel + plastic, rel=1e-12)
    centre = (steel * 50.0 + plastic * 150.0) / (steel + plastic)
    assert body.com_mm == pytest.approx((0.0, 0.0, centre), abs=1e-6)


@pytest.mark.parametrize(
    ("name", "least_kg", "most_kg"),
    [
        ("pliers", 0.20, 0.32),  # combination pliers of 180 mm: 250 g, common practice
        ("hammer", 0.50, 0.75),  # DIN 1041 500 g and its handle, from memory
        ("flat-wrench", 0.05, 0.11),  # combination wrench 13: 60 to 90 g, common practice
        ("screwdriver", 0.06, 0.14),  # cross-recess 2 by 100: 80 to 120 g, common practice
        ("hand-saw", 0.4, 0.9),
        ("back-saw", 0.35, 0.8),
        ("chisel", 0.1, 0.25),
        ("scissors", 0.1, 0.25),
        ("file", 0.12, 0.3),
        ("calliper", 0.12, 0.22),
        ("square", 0.1, 0.3),
        ("adjustable-wrench", 0.40, 0.55),
        ("pipe-wrench", 1.3, 1.9),
        ("bar-clamp", 0.8, 1.2),
        ("spring-clamp", 0.10, 0.18),
        ("goggles", 0.10, 0.30),
        ("paint-brush", 0.06, 0.14),
        ("ratchet", 0.45, 0.65),
        ("mallet", 0.7, 1.0),
        ("tape-measure", 0.2, 0.35),
        ("cordless-drill", 1.7, 2.6),  # drills of 18 V with a battery: common practice, no source
        ("angle-grinder", 2.2, 3.6),  # for discs of 125 mm with a battery: common practice
        ("nut-driver", 0.08, 0.18),  # of 8 mm: common practice, no source
        ("socket", 0.04, 0.08),  # of 13 mm on a square of 12.5: common practice, no source
        ("t-hex-key", 0.03, 0.08),  # of 5 mm: common practice, no source
        ("hex-bit", 0.007, 0.016),  # 50 mm long: common practice, no source
        ("level", 0.3, 0.7),
        ("hand-plane", 1.3, 2.0),
        ("spokeshave", 0.25, 0.7),
        ("pole", 0.5, 1.2),
    ],
)
def test_ordinary_tools_weigh_about_what_they_weigh(
    name: str, least_kg: float, most_kg: float
) -> None:
    """Plausibility only: trade weights, common practice without a source."""
    assert least_kg < example(name).mass_kg < most_kg


def test_a_roll_of_tape_weighs_about_what_it_does_on_a_scale() -> None:
    """Plausibility only, from memory."""
    assert 0.25 < example("tape-roll", outer=120.0, bore=76.0, width=50.0).mass_kg < 0.45


def test_a_hammer_balances_close_to_its_head() -> None:
    body = example("hammer")
    assert 320.0 * 0.75 < body.com_mm[2] < 320.0


@pytest.mark.parametrize(("name", "density"), [("pliers", 0.55 * 7850.0), ("coil", 1400.0)])
def test_pieces_of_one_material_balance_where_their_mesh_does(name: str, density: float) -> None:
    """Oracle: volume and centroid of the joined mesh, of which the pieces must not overlap."""
    body = example(name)
    facts = MeshKernel(chord_error_mm=0.001).evaluate(Union(body.envelope)).facts
    assert body.com_mm == pytest.approx(facts.centroid_mm, abs=0.01)
    share = math.pi / 4 if name == "coil" else 1.0
    assert body.mass_kg == pytest.approx(facts.volume_mm3 * 1e-9 * density * share, rel=1e-3)


def test_a_hex_key_balances_like_a_bent_rod() -> None:
    """Two thin rods that meet at a right angle, each from its tip to the crossing."""
    body = tool_body("hex-key", {"flats": 5.0, "long_arm": 80.0, "short_arm": 28.0})
    down, out = 77.5, 25.5
    y = out * out / 2 / (down + out)
    z = (down * down / 2 + out * down) / (down + out)
    assert body.com_mm == pytest.approx((0.0, y, z), abs=1e-8)


@pytest.mark.parametrize("name", ["can", "box"])
def test_plain_kinds_weigh_their_exact_volume(name: str) -> None:
    body = example(name)
    density = {"can": 1000.0, "box": 2000.0}[name]
    volume = sum(exact_moments(piece).volume_mm3 for piece in body.envelope)
    assert body.mass_kg == pytest.approx(volume * 1e-9 * density, rel=1e-12)


def test_every_density_says_where_it_comes_from() -> None:
    assert len({m.name for m in MATERIALS}) == len(MATERIALS)
    for material in MATERIALS:
        assert material.source.evidence in {Evidence.MEMORY, Evidence.CHOICE}
        assert 100.0 < material.density_kg_m3 < 8000.0
