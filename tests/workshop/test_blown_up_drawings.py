"""Small drawings that stand for endless ones are refused soon; plain ones of the kind are read."""

import io
import resource
import time
from collections.abc import Callable

import ezdxf.filemanagement
import pytest
from ezdxf.document import Drawing

from cleatwright.base.errors import InputError
from cleatwright.workshop.outlines.file import MOST_BYTES, outline_in

MOST_S = 25.0
MOST_MB = 300
PATH = '<path id="p0" d="M10 10H60V50H10Z"/>'
XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(inner: str) -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {XLINK}>{inner}</svg>'.encode()


def dxf(change: Callable[[Drawing], object]) -> bytes:
    document = ezdxf.filemanagement.new(units=4)
    change(document)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


def uses(times: int, depth: int, inner: str = PATH, key: str = "href") -> str:
    """Return groups of which each uses the one before it several times."""
    groups = "".join(
        f'<g id="p{k}">' + f'<use {key}="#p{k - 1}"/>' * times + "</g>" for k in range(1, depth + 1)
    )
    return f'<defs>{inner}{groups}</defs><use {key}="#p{depth}"/>'


BLOWN_UP_SVG = {
    "uses": uses(10, 13),
    "uses by xlink": uses(10, 13, key="xlink:href"),
    "uses of nothing": uses(10, 13, inner='<g id="p0"/>'),
    "a use of itself": '<g id="a"><use href="#a"/></g>',
    "a use of each other": '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>',
    "transforms": "".join(f'<g transform="{"scale(1)" * 240}">' for _ in range(50))
    + PATH * 2000
    + "</g>" * 50,
    "one transform": f'<g transform="{"scale(1)" * 100_000}">{PATH}</g>',
    "depth": "<g>" * 100_000 + "</g>" * 100_000,
    "a style without an end": f"<style>{'a ' * 900_000}</style>{PATH * 9}",
    "a style of spaces": f"<style>a{' ' * 900_000}b</style>{PATH * 9}",
    "classes": f"<style>.a{{d:M{'0 ' * 9000}}}</style>" + f'<g class="{"a " * 490}"/>' * 300,
    "segments": f'<path d="M0 0{"h1v1" * 400_000}"/>',
    "points": f'<polygon points="{"1,1 " * 400_000}"/>',
    "commands": f'<path d="M0 0{"z" * 1_500_000}"/>',
    "a long number": f'<rect width="{"1" * 1_000_000}" height="5"/>',
    "a long text": f'<text font="{"a " * 500_000}">{"x" * 500_000}</text>{PATH * 2}',
    "shapes": "<rect/>" * 200_000,
    "circles": '<circle r="90000"/>' * 9000,
}


def nested(
    times: int, depth: int, *, empty: bool = False, rows: int = 1
) -> Callable[[Drawing], object]:
    """Return a change that adds blocks of which each holds the one before it several times."""

    def change(document: Drawing) -> None:
        first = document.blocks.new("B0")
        if not empty:
            first.add_circle((0, 0), 20)
        for k in range(1, depth + 1):
            block = document.blocks.new(f"B{k}")
            for _ in range(times):
                block.add_blockref(
                    f"B{k - 1}", (0, 0), dxfattribs={"row_count": rows, "row_spacing": 1}
                )
        document.modelspace().add_blockref(f"B{depth}", (0, 0))

    return change


def each_other(document: Drawing) -> None:
    for one, other in (("A", "B"), ("B", "A")):
        document.blocks.new(one).add_blockref(other, (0, 0))
    document.modelspace().add_blockref("a", (0, 0))


def rows(document: Drawing) -> None:
    document.blocks.new("A").add_circle((0, 0), 20)
    document.modelspace().add_blockref(
        "A",
        (0, 0),
        dxfattribs={
            "row_count": 30_000,
            "row_spacing": 1,
            "column_count": 30_000,
            "column_spacing": 1,
        },
    )


def spline(degree: int, points: int) -> Callable[[Drawing], object]:
    def change(document: Drawing) -> None:
        corners = [(k % 97, k % 89, 0) for k in range(points)]
        document.modelspace().add_open_spline(corners, degree=degree)

    return change


BLOWN_UP_DXF = {
    "blocks": nested(10, 12),
    "blocks of nothing": nested(10, 12, empty=True),
    "rows": rows,
    "rows in a block": nested(2, 2, rows=30_000),
    "blocks in each other": each_other,
    "a chain of blocks": nested(1, 200),
    "a spline of high degree": spline(2000, 9000),
    "a spline of many points": spline(3, 20_000),
}  # fmt: skip


def processor_s() -> float:
    """Return what this process and those it has waited for have used."""
    who = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    return sum(used.ru_utime + used.ru_stime for used in map(resource.getrusage, who))


def require_refused(content: bytes, name: str) -> str:
    assert len(content) <= MOST_BYTES
    start = processor_s()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with pytest.raises(InputError) as told:
        outline_in(content, name=name)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < MOST_MB * 1024
    assert processor_s() - start < MOST_S
    return str(told.value)


@pytest.mark.parametrize("name", sorted(BLOWN_UP_SVG))
def test_an_svg_that_stands_for_an_endless_one_is_refused(name: str) -> None:
    require_refused(svg(BLOWN_UP_SVG[name]), "a.svg")


@pytest.mark.parametrize("name", sorted(BLOWN_UP_DXF))
def test_a_dxf_that_stands_for_an_endless_one_is_refused(name: str) -> None:
    require_refused(dxf(BLOWN_UP_DXF[name]), "a.dxf")


def test_what_is_wrong_is_said() -> None:
    assert "uses itself" in require_refused(svg(BLOWN_UP_SVG["a use of itself"]), "a.svg")
    assert "used again and again" in require_refused(svg(BLOWN_UP_SVG["uses"]), "a.svg")
    assert "used again and again" in require_refused(dxf(nested(10, 12)), "a.dxf")


@pytest.mark.parametrize("digits", [41, 1_000, 40_000, 1_000_000])
@pytest.mark.parametrize(
    "drawn",
    [
        '<polygon points="{}"/>',
        '<polyline points="1,1 {}"/>',
        '<path d="M{} 1"/>',
        '<g style="points:{}"><polygon/></g>',
        "<style>polygon{{points:{}}}</style><polygon/>",
    ],
)
def test_a_number_without_end_is_refused_at_once(drawn: str, digits: int) -> None:
    start = time.process_time()
    told = require_refused(svg(drawn.format("1" * digits)), "a.svg")
    assert time.process_time() - start < 1.0
    assert f"has {digits} digits" in told or "styles of the drawing are too long" in told
    assert len(told) < 300


def test_a_number_of_many_digits_is_read() -> None:
    exact = "10." + "0" * 38
    assert size(svg(f'<path d="M{exact} 10H60V50H{exact}Z"/>'), "a.svg") == (50.0, 40.0)


def test_too_many_points_are_told_with_the_bound() -> None:
    points = " ".join(f"{k % 97} {k % 89}" for k in range(60_000))
    told = require_refused(svg(f'<path d="M0 0 {points}"/>'), "a.svg")
    assert "too many points: 120003 numbers and letters" in told
    assert "up to 100000" in told
    fewer = " ".join(f"{k % 97} {k % 89}" for k in range(30_000))
    assert "up to 20000 points" in require_refused(svg(f'<path d="M0 0 {fewer}"/>'), "a.svg")


def size(content: bytes, name: str) -> tuple[float, float]:
    x0, y0, x1, y1 = outline_in(content, name=name).bounds
    return (round(x1 - x0, 3), round(y1 - y0, 3))


def test_a_part_that_is_used_once_or_hidden_counts_as_the_format_says() -> None:
    """SVG 1.1, clause 5.6: a use draws a copy, moved by its transform; 11.5: display none."""
    assert size(svg(uses(1, 5)), "a.svg") == (50.0, 40.0)
    moved = f'<defs>{PATH}</defs><use href="#p0" transform="scale(2)"/>'
    assert size(svg(moved), "a.svg") == (100.0, 80.0)
    sheet = (
        "<style>/* b{c:d} */ .a, .b { fill: red; display : none } @font-face{src:url(x)}</style>"
    )
    hidden = f'{sheet}{PATH}<rect class="b" x="200" width="30" height="30"/>'
    assert size(svg(hidden), "a.svg") == (50.0, 40.0)
    by_style = f'{PATH}<rect style="fill:red;display:none" x="200" width="30" height="30"/>'
    assert size(svg(by_style), "a.svg") == (50.0, 40.0)


def test_blocks_in_blocks_are_read_where_they_stand_for_one_outline() -> None:
    assert size(dxf(nested(1, 5)), "a.dxf") == pytest.approx((40.0, 40.0), abs=0.1)
