"""Where and how large the mark is cut into a part."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import PartError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.mark_room import (
    DESCENT,
    LEAST_CAP_MM,
    LINE_PITCH,
    RIM_MM,
    lettering_height_mm,
)
from cleatwright.kernels.lettering import letter_width_mm
from cleatwright.parts.holder import HolderPart, MarkPlace
from cleatwright.shapes.rigid import Rigid, Vector, shift, turn
from cleatwright.shapes.solid import Difference, Lettering, Solid
from cleatwright.standards.table import Listed

# three layers of 0.2 mm
DEPTH_MM = 0.6
# and a stroke is 0.167 of the cap height in this font, measured
CAPITALS = Source("capitals under 5 mm lose strokes to a 0.45 mm line", "", Evidence.MEMORY)
CAPS_MM = (7.0, 6.0, LEAST_CAP_MM)
ABOVE_MM = 1.0
# a plate made just high enough for a mark may lie a rounding error below it
ROUNDING_MM = 1e-6
VALUES = (Listed("Mark", "least cap height mm", LEAST_CAP_MM, CAPITALS),)


@dataclass(frozen=True)
class Marking:
    """The lines that were cut, and their cap height.

    ``outward`` is the normal of the face that bears them, and ``floor_mm`` how far the floor
    of the letters lies from the origin along it.
    """

    lines: tuple[str, ...]
    cap_mm: float
    outward: Vector = (0.0, 0.0, 1.0)
    floor_mm: float = 0.0


# on wood the mark is written by hand
UNMARKED = Marking((), 0.0)


def engraved(part: HolderPart, mark: str) -> tuple[Solid, Marking]:
    """Return the solid with its mark cut in, and what was cut.

    The largest capitals and the fullest text that have room are taken: the mark with the
    leading dimensions, else the mark alone, in one line or two, along the place or upright.

    Raises:
        PartError: No place on the part has room for its mark.
    """
    for lines, cap, place, motion in _layouts(part, mark):
        letters = tuple(
            Lettering(line, cap, DEPTH_MM + ABOVE_MM)
            .moved(0.0, (len(lines) - 1 - i) * cap * LINE_PITCH, -DEPTH_MM)
            .placed(motion)
            .placed(place.pose)
            for i, line in enumerate(lines)
        )
        outward = place.pose.direct((0.0, 0.0, 1.0))
        floor = place.pose.apply((0.0, 0.0, -DEPTH_MM))
        floor_mm = sum(a * b for a, b in zip(outward, floor, strict=True))
        return Difference(part.solid, letters), Marking(lines, cap, outward, floor_mm)
    raise PartError(
        f"no place on the {part.family} has room for its mark",
        where=f"{part.family} {part.leading}",
        allowed=f"a flat place of about {said.number(_width('0' * 4, CAPS_MM[-1]), '.0f')} by "
        f"{said.mm(lettering_height_mm(CAPS_MM[-1], 2), '.0f')}",
        todo="Hold more tools in one holder, or choose a thicker shelf or a deeper plate",
    )


def _layouts(
    part: HolderPart, mark: str
) -> Iterator[tuple[tuple[str, ...], float, MarkPlace, Rigid]]:
    half = (len(mark) + 1) // 2
    texts = (
        (f"{mark} {part.leading}",),
        (mark, part.leading),
        (mark,),
        (mark[:half], mark[half:]),
    )
    for lines in texts:
        for cap in CAPS_MM:
            width = max(_width(line, cap) for line in lines) + 2 * RIM_MM
            height, below = lettering_height_mm(cap, len(lines)), RIM_MM + DESCENT * cap
            for place in part.mark_places:
                across, up = place.width_mm + ROUNDING_MM, place.height_mm + ROUNDING_MM
                if width <= across and height <= up:
                    margin = (place.height_mm - height) / 2 + below
                    yield lines, cap, place, shift(RIM_MM, margin)
                elif width <= up and height <= across:
                    upright = turn("z", 90.0).then(shift(height - below, RIM_MM))
                    yield lines, cap, place, upright


def _width(text: str, cap_mm: float) -> float:
    return letter_width_mm(text, cap_mm)
