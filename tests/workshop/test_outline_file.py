"""Outlines from drawings: sizes by the standards of both formats, and no drawing that crashes."""

from __future__ import annotations

import io
import logging
import math
import os
import subprocess
import sys
import warnings
from pathlib import Path

import ezdxf.filemanagement
import pytest
from ezdxf.document import Drawing
from ezdxf.layouts.layout import Modelspace
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import InputError
from cleatwright.shapes.outline import Outline
from cleatwright.workshop.outlines.file import outline_in, read_outline
from cleatwright.workshop.outlines.loops import MOST_CORNERS, one_outline

RING = 'd="M10 10 H70 V30 H30 V90 H10 Z"'


def svg(inner: str, head: str = 'width="100mm" height="100mm" viewBox="0 0 100 100"') -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{inner}</svg>'.encode()


def from_svg(
    inner: str, head: str = 'width="100mm" height="100mm" viewBox="0 0 100 100"'
) -> Outline:
    return outline_in(svg(inner, head), name="a.svg")


def drawn_dxf(units: int = 4) -> tuple[Drawing, Modelspace]:
    document = ezdxf.filemanagement.new(units=units)
    return document, document.modelspace()


def from_dxf(document: Drawing) -> Outline:
    text = io.StringIO()
    document.write(text)
    return outline_in(text.getvalue().encode(), name="a.DXF")


def size(outline: Outline) -> tuple[float, float]:
    x0, y0, x1, y1 = outline.bounds
    return (round(x1 - x0, 3), round(y1 - y0, 3))


@pytest.mark.parametrize(
    ("head", "scale"),
    [
        ('width="100mm" height="100mm" viewBox="0 0 100 100"', 1.0),
        ('width="20cm" height="20cm" viewBox="0 0 100 100"', 2.0),
        ('width="2in" height="2in" viewBox="0 0 100 100"', 2 * 25.4 / 100),
        ('width="144pt" height="144pt" viewBox="0 0 100 100"', 2 * 25.4 / 100),
        ('width="100mm" height="100mm"', 25.4 / 96),
        ('viewBox="0 0 300 300"', 1.0),
        ('width="400" height="400" viewBox="0 0 100 100"', 1.0),
        ("", 1.0),
    ],
)
def test_an_svg_has_the_unit_of_its_size_and_else_millimetres(head: str, scale: float) -> None:
    """CSS Values and Units Level 3, clause 5.2: 1 in = 25.4 mm = 72 pt = 96 px (from memory)."""
    outline = from_svg(f"<path {RING}/>", head)
    assert size(outline) == pytest.approx((60 * scale, 80 * scale), abs=1e-3)
    assert outline.area_mm2 == pytest.approx(scale**2 * (60 * 20 + 20 * 60), rel=1e-4)


def test_what_lies_to_the_right_of_the_person_lies_at_less_x() -> None:
    """The corner of the angle, at the upper left for the person, is the one of most x and z."""
    outline = from_svg(f"<path {RING}/>")
    _, _, x1, y1 = outline.bounds
    assert (x1, y1) in outline.corners
    assert (outline.bounds[0], outline.bounds[1]) not in outline.corners


def test_shapes_groups_and_transforms_of_an_svg_count() -> None:
    outline = from_svg('<g transform="scale(2) rotate(90)"><rect width="30" height="10"/></g>')
    assert size(outline) == (20.0, 60.0)


@pytest.mark.parametrize("radius", [6.0, 40.0, 290.0])
def test_curves_stay_within_a_twentieth_of_a_millimetre(radius: float) -> None:
    """A chord that leaves a circle by s encloses it to s: the radius of every corner is told."""
    document, space = drawn_dxf()
    space.add_circle((5.0, 7.0), radius)
    round_svg = from_svg(f'<circle cx="50" cy="50" r="{radius}"/>', "")
    for outline in (from_dxf(document), round_svg):
        x0, y0, x1, y1 = outline.bounds
        centre = ((x0 + x1) / 2, (y0 + y1) / 2)
        middles = [edge.at(0.5) for edge in outline.edges]
        reach = [math.dist(p, centre) for p in (*outline.corners, *middles)]
        assert max(reach) - min(reach) <= 0.06
        assert outline.area_mm2 == pytest.approx(math.pi * radius**2, rel=0.1 / radius)


@pytest.mark.parametrize(("units", "scale"), [(0, 1.0), (4, 1.0), (1, 25.4), (5, 10.0)])
def test_a_dxf_of_single_lines_has_the_unit_that_its_head_names(units: int, scale: float) -> None:
    """$INSUNITS: 0 none, 1 inches, 4 millimetres, 5 centimetres (DXF reference, from memory)."""
    document, space = drawn_dxf(units)
    corners = (
        [(0, 0), (4, 0), (4, 2), (0, 2)] if scale > 1 else [(0, 0), (40, 0), (40, 20), (0, 20)]
    )
    for k in (2, 0, 3, 1):
        space.add_line(corners[k], corners[(k + 1) % 4])
    expected = (4 * scale, 2 * scale) if scale > 1 else (40.0, 20.0)
    assert size(from_dxf(document)) == pytest.approx(expected, abs=1e-3)


def test_bulges_blocks_and_remarks_of_a_dxf_count_as_they_should() -> None:
    document, space = drawn_dxf()
    block = document.blocks.new("thing")
    block.add_lwpolyline([(0, 0, 0), (20, 0, 1.0), (20, 20, 0), (0, 20, 1.0)], "xyb", close=True)
    space.add_blockref("thing", (100, 0), dxfattribs={"xscale": 2, "yscale": 2})
    space.add_text("upper edge")
    outline = from_dxf(document)
    assert size(outline) == pytest.approx((80.0, 40.0), abs=0.05)
    assert outline.area_mm2 == pytest.approx(40 * 40 + math.pi * 20**2, rel=1e-3)


def test_holes_inside_the_outline_are_left_out() -> None:
    outline = from_svg('<rect width="60" height="40"/><circle cx="30" cy="20" r="8"/>')
    assert outline.area_mm2 == pytest.approx(2400.0)


@pytest.mark.parametrize(
    ("inner", "told"),
    [
        ("", "no lines or curves"),
        ('<path d="M0 0 H60 V30 L0 20"/>', "is open"),
        ('<path d="M0 0 H60 L0 30 L60 30 Z"/>', "crosses or touches itself"),
        ('<rect width="30" height="30"/><rect x="40" width="30" height="30"/>', "several outlines"),
        ('<rect width="30" height="30"/><rect x="20" y="9" width="30" height="9"/>', "cross or"),
        ('<rect width="9" height="30"/>', "9 by 30 mm.*10 to 600 mm"),
        ('<rect width="601" height="30"/>', "601 by 30 mm"),
        ('<rect width="1e9" height="30"/>', "no sensible size"),
    ],
)
def test_a_drawing_without_exactly_one_outline_is_refused_with_a_remedy(
    inner: str, told: str
) -> None:
    with pytest.raises(InputError, match=told) as caught:
        from_svg(inner)
    assert caught.value.todo


def test_a_stretched_or_broken_drawing_is_refused() -> None:
    with pytest.raises(InputError, match="stretched"):
        from_svg("<path/>", 'width="100mm" height="50mm" viewBox="0 0 100 100"')
    for content, name in ((b"<svg", "a.svg"), (b"<html/>", "a.svg"), (b"0\nSECTION", "a.dxf")):
        with pytest.raises(InputError):
            outline_in(content, name=name)


@pytest.mark.parametrize(
    ("inner", "told"),
    [
        ('<g id="a"><use href="#a"/></g>', "uses itself"),
        ("<g>" * 20_000 + "</g>" * 20_000, "nested too deeply"),
        ('<circle r="100"/>' * 3_000, "too many points or lines"),
        ('<rect width="50%" height="5%"/>', "no sensible size"),
    ],
)
def test_drawings_that_mean_harm_or_nothing_are_refused_soon(inner: str, told: str) -> None:
    with pytest.raises(InputError, match=told):
        from_svg(inner, "")


def test_an_outline_of_too_many_corners_is_refused() -> None:
    turns = [2 * math.pi * k / 900 for k in range(901)]
    points = tuple(
        ((80 + k % 2) * math.cos(a), (80 + k % 2) * math.sin(a)) for k, a in enumerate(turns)
    )
    with pytest.raises(InputError, match=f"up to {MOST_CORNERS}"):
        one_outline([(*points[:-1], points[0])])


def test_a_drawing_is_read_from_below_the_folder_only(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.svg").write_bytes(svg('<rect width="60" height="40"/>'))
    (tmp_path / "in" / "link.svg").symlink_to(tmp_path / "out.svg")
    (tmp_path / "out.svg").write_bytes(svg('<rect width="60" height="40"/>'))
    assert size(read_outline("a.svg", folder=tmp_path / "in")) == (60.0, 40.0)
    for name, told in (("link.svg", "outside"), ("../out.svg", "outside"), ("b.svg", "cannot be")):
        with pytest.raises(InputError, match=told):
            read_outline(name, folder=tmp_path / "in")
    with pytest.raises(InputError, match="needs the folder"):
        read_outline("a.svg", folder=None)


numbers = st.one_of(
    st.integers(-200, 200).map(str), st.sampled_from(["1e400", "nan", "-0", "1e-300", "inf", ""])
)
commands = st.tuples(st.sampled_from("MmLlHhVvCcSsQqTtAaZz"), st.lists(numbers, max_size=7)).map(
    lambda pair: pair[0] + " ".join(pair[1])
)


@settings(deadline=None, max_examples=120)
@given(st.lists(commands, max_size=8), st.sampled_from(["", 'width="9mm"', 'viewBox="0 0 1 nan"']))
def test_any_path_is_an_outline_or_refused(parts: list[str], head: str) -> None:
    content = svg(f'<path d="{"".join(parts)}"/>', head)
    try:
        outline = outline_in(content, name="a.svg")
    except InputError:
        return
    assert min(size(outline)) >= 10.0


def _sample_dxf() -> bytes:
    document, space = drawn_dxf()
    space.add_lwpolyline([(0, 0), (50, 0), (50, 30, 0, 0, 0.3)], close=True)
    space.add_spline([(0, 0), (9, 9), (3, 8)])
    space.add_ellipse((0, 0), (30, 0), 0.5)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


SAMPLE = _sample_dxf()
LINES = SAMPLE.split(b"\n")
TAIL = next(i for i, line in enumerate(LINES) if line.strip() == b"ENTITIES")


@settings(deadline=None, max_examples=25)
@given(st.data())
def test_any_dxf_is_an_outline_or_refused(data: st.DataObject) -> None:
    lines = list(LINES)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(TAIL, len(lines) - 1))
        lines[at] = data.draw(st.one_of(st.binary(max_size=6), numbers.map(str.encode)))
    try:
        outline = outline_in(b"\n".join(lines), name="a.dxf")
    except InputError:
        return
    assert min(size(outline)) >= 10.0


@settings(deadline=None, max_examples=60)
@given(st.binary(max_size=300), st.sampled_from(["a.svg", "a.dxf"]))
def test_any_bytes_are_refused(content: bytes, name: str) -> None:
    with pytest.raises(InputError):
        outline_in(content, name=name)


def test_an_arc_without_a_radius_is_a_line_and_a_radius_is_not_negative() -> None:
    """SVG 1.1, clauses F.6.2 and 9.2 to 9.4."""
    for radii in ("0 0", "0 9", "9 0"):
        assert size(from_svg(f'<path d="M10 10 A{radii} 0 1 1 90 10 V90 H10Z"/>')) == (80.0, 80.0)
    for shape in (
        '<circle cx="50" cy="50" r="-20"/>',
        '<ellipse cx="50" cy="50" rx="20" ry="-20"/>',
        '<rect width="-20" height="40"/>',
        '<circle cx="50" cy="50" style="r:-20"/>',
    ):
        with pytest.raises(InputError, match="Allowed: 0 or more"):
            from_svg(shape)
    with pytest.raises(InputError, match="no lines or curves"):
        from_svg('<circle cx="50" cy="50" r="-0"/>')


def test_a_size_of_the_drawing_is_shown_shortly() -> None:
    for head in (f'width="{"1" * 9000}mm" height="1mm"', f'viewBox="{"1 " * 9000}"'):
        with pytest.raises(InputError) as told:
            from_svg("", head)
        assert len(str(told.value)) < 300


def polyline(bulge: str, layer: str = "0") -> bytes:
    corners = "".join(
        f"10\n{x}\n20\n{y}\n42\n{bulge}\n" for x, y in ((10, 10), (90, 10), (90, 80), (10, 80))
    )
    entity = (
        f"0\nLWPOLYLINE\n8\n{layer}\n100\nAcDbEntity\n100\nAcDbPolyline\n90\n4\n70\n1\n{corners}"
    )
    head = "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n0\nENDSEC\n"
    return f"{head}0\nSECTION\n2\nENTITIES\n{entity}0\nENDSEC\n0\nEOF\n".encode()


@pytest.mark.parametrize(
    "content",
    [
        polyline("1e300"),
        polyline("0\x1b[2J"),
        polyline("0", layer="\x1b[31mx"),
        polyline("0").replace(b"90\n4", b"90\n4\x1b[2J"),
        polyline("0").replace(b"AC1015", b"\x1b[2J"),
        polyline("0").replace(b"LWPOLYLINE", b"\x1b[31mX"),
        b"\x1b[31m" * 900,
    ],
)
def test_nothing_of_a_drawing_reaches_the_terminal_by_the_library(
    content: bytes, capfd: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture
) -> None:
    before = (list(warnings.filters), list(logging.getLogger("ezdxf").filters))
    told = ""
    try:
        outline_in(content, name="a.dxf")
    except InputError as error:
        told = str(error)
    assert "\x1b" not in told
    assert "Error)" not in told
    assert capfd.readouterr() == ("", "")
    assert caplog.records == []
    assert (list(warnings.filters), list(logging.getLogger("ezdxf").filters)) == before


def test_the_library_of_drawings_keeps_nothing_in_the_home_of_the_person(tmp_path: Path) -> None:
    code = "import os, cleatwright.base.dxf_library as d; print(os.environ['XDG_CACHE_HOME'])"
    ran = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, "-c", code],
        env={**os.environ, "HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path / "cache")},
        capture_output=True,
        check=True,
        text=True,
    )
    assert (ran.stdout.strip(), ran.stderr) == (str(tmp_path / "cache"), "")
    assert list(tmp_path.iterdir()) == []
