"""Numbers on holders and letters on obstacles: each on a spot where it covers nothing else."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from cleatwright.base.errors import DesignError
from cleatwright.papers.elevation.layout import Layout
from cleatwright.papers.elevation.legend import INK
from cleatwright.papers.elevation.view import ElevationView, HolderView, Rect, letter
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet, text_width

BALLOON = 2.9
SIZE = 2.6
LETTER_HALF = 2.2
# white between two balloons, and between a balloon and a letter or a screw
APART = 0.4
# so many free spots are looked at for one that covers no screw
FEW = 24
WHITE = Pen(INK, 0.25, "#FFFFFF")


@dataclass(frozen=True)
class Balloon:
    """A number and its place in mm of the wall; ``tail`` is what it points at, when it is away."""

    number: int
    at: Point
    tail: Point | None


def letter_boxes(view: ElevationView, scale: float) -> tuple[tuple[str, Rect], ...]:
    """Return the letter of each obstacle and the white box behind it, in mm of the wall."""
    boxes: list[tuple[str, Rect]] = []
    for n, obstacle in enumerate(view.obstacles):
        x0, x1, z0, z1 = obstacle.box_mm
        x, z = (x0 + x1) / 2, (z0 + z1) / 2
        wide = max(text_width(letter(n), SIZE) / 2 + 0.8, LETTER_HALF) * scale
        high = LETTER_HALF * scale
        boxes.append((letter(n), (x - wide, x + wide, z - high, z + high)))
    return tuple(boxes)


def balloons(view: ElevationView, scale: float) -> tuple[Balloon, ...]:
    """Return a place for each balloon, on its holder or as near to it as others allow.

    No two balloons touch, and none touches the letter of an obstacle; screws are avoided as
    long as there is another place.

    Args:
        view: What is drawn.
        scale: The k of 1:k.

    Raises:
        DesignError: The wall on paper has too little room.
    """
    letters = [box for _, box in letter_boxes(view, scale)]
    screws = [(p.x_mm, p.z_mm) for rail in view.rails for p in rail.screws]
    screws += [(x, z) for one in view.holders for x, z, _ in one.screw_points_mm]
    reach, near = (2 * BALLOON + APART) * scale, (BALLOON + APART) * scale
    placed: list[Balloon] = []
    for holder in sorted(view.holders, key=lambda h: h.number):
        own = _middle(holder)

        def free(p: Point) -> bool:
            return all(math.dist(p, b.at) >= reach for b in placed) and all(
                _from_box(p, box) >= near for box in letters
            )

        spots = (p for p in _spots(own, holder, view, scale) if free(p))
        few = tuple(islice(spots, FEW))
        if not few:
            raise DesignError(
                f"{len(view.holders)} numbers at a scale of 1:{scale:g}",
                where="elevation",
                todo="Choose a larger sheet, or a scale that draws the wall larger",
            )
        clear = (p for p in few if all(math.dist(p, s) >= near for s in screws))
        at = next(clear, few[0])
        tail = own if math.dist(at, own) > BALLOON * scale else None
        placed.append(Balloon(holder.number, at, tail))
    return tuple(placed)


def draw_balloons(sheet: Sheet, view: ElevationView, lay: Layout) -> None:
    """Draw letters, then tails, then numbers, so that no tail crosses a number."""
    k = float(lay.scale)

    def at(x: float, z: float) -> Point:
        return lay.left * k + x, lay.bottom * k - z

    sheet.layer("balloons")
    face = Face(SIZE, INK, anchor="middle")
    for words, (x0, x1, z0, z1) in letter_boxes(view, k):
        sheet.box(at(x0, z1), (x1 - x0, z1 - z0), WHITE)
        x, y = at((x0 + x1) / 2, (z0 + z1) / 2)
        sheet.text((x, y + 0.36 * SIZE * k), words, face, name="obstacle-letter")
    found = balloons(view, k)
    for balloon in found:
        if balloon.tail is not None:
            sheet.line(at(*balloon.tail), at(*balloon.at), Pen(INK, 0.18))
            sheet.circle(at(*balloon.tail), 0.5 * k, Pen(fill=INK))
    bold = Face(SIZE, INK, bold=True, anchor="middle")
    for balloon in found:
        x, y = at(*balloon.at)
        sheet.circle((x, y), BALLOON * k, WHITE)
        sheet.text((x, y + 0.36 * SIZE * k), str(balloon.number), bold, name="balloon")


def _from_box(point: Point, box: Rect) -> float:
    (x, z), (x0, x1, z0, z1) = point, box
    return math.hypot(max(x0 - x, x - x1, 0.0), max(z0 - z, z - z1, 0.0))


def _middle(holder: HolderView) -> Point:
    """Return the middle of the plate, or of whatever the holder shows."""
    points = [p for loop in (holder.holder or holder.tools) for p in loop]
    if not points:
        x0, x1, z0, z1 = holder.lift or (0.0, 0.0, 0.0, 0.0)
        points = [(x0, z0), (x1, z1)]
    xs, zs = [x for x, _ in points], [z for _, z in points]
    return (min(xs) + max(xs)) / 2, (min(zs) + max(zs)) / 2


def _spots(own: Point, holder: HolderView, view: ElevationView, scale: float) -> Iterator[Point]:
    """Yield places on the wall for the balloon of a holder, from the best to the worst."""
    room = 1.2 * BALLOON * scale
    for x, z in _wishes(own, holder, view, scale):
        if room <= x <= view.width_mm - room and room <= z <= view.height_mm - room:
            yield x, z


def _wishes(own: Point, holder: HolderView, view: ElevationView, scale: float) -> Iterator[Point]:
    """Yield the middle, places along the tools below it, then rings round it over the wall."""
    x, z = own
    yield own
    step = 0.75 * BALLOON * scale
    low = min((h for loop in holder.tools for _, h in loop), default=z)
    for n in range(1, int((z - low) / step) + 1):
        yield x, z - n * step
    rings = int(max(view.width_mm, view.height_mm) / step) + 1
    for n in range(1, rings + 1):
        for k in range(8 * n):
            turn = 2 * math.pi * k / (8 * n)
            yield x + n * step * math.sin(turn), z + n * step * math.cos(turn)
