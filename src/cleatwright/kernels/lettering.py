"""The letter shapes that both kernels engrave.

The font is DejaVu Sans Bold, cut down to the signs used on parts; its licence
lies beside it. Curves are flattened to ``CURVE_ERROR`` of the cap height, so that
lettering is the same polygon in every kernel.
"""

# fontTools carries no types
# pyright: reportMissingTypeStubs=false, reportUnknownMemberType=false
# pyright: reportUnknownArgumentType=false

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources

from cleatwright.base.errors import ShapeError
from cleatwright.shapes.outline import Point

CURVE_ERROR = 0.02


@dataclass(frozen=True)
class _Glyph:
    polygons: tuple[tuple[Point, ...], ...]
    advance: float


@cache
def _glyphs() -> dict[str, _Glyph]:
    from fontTools.pens.recordingPen import DecomposingRecordingPen  # noqa: PLC0415 - loads on use
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - loads on use

    path = resources.files("cleatwright.kernels") / "fonts" / "DejaVuSans-Bold-subset.ttf"
    with resources.as_file(path) as file:
        font = TTFont(str(file), lazy=False)
        glyph_set = font.getGlyphSet()
        cap = float(font["glyf"]["H"].yMax)
        found: dict[str, _Glyph] = {}
        for code, name in sorted((font.getBestCmap() or {}).items()):
            pen = DecomposingRecordingPen(glyph_set)
            glyph_set[name].draw(pen)
            polygons = _flatten(pen.value, 1.0 / cap)
            found[chr(code)] = _Glyph(polygons, glyph_set[name].width / cap)
    return found


def _flatten(
    commands: list[tuple[str, tuple[tuple[float, float], ...]]], scale: float
) -> tuple[tuple[Point, ...], ...]:
    loops: list[tuple[Point, ...]] = []
    points: list[Point] = []
    for name, raw in commands:
        args = [(x * scale, y * scale) for x, y in raw]
        if name == "moveTo":
            points = [args[0]]
        elif name == "lineTo":
            points.append(args[0])
        elif name == "qCurveTo":
            points.extend(_quadratics(points[-1], args))
        elif name in ("closePath", "endPath"):
            if points and points[0] == points[-1]:
                points.pop()
            loops.append(tuple(points))
    return tuple(loops)


def _quadratics(start: Point, controls: list[Point]) -> list[Point]:
    points: list[Point] = []
    current = start
    for i, control in enumerate(controls[:-1]):
        after = controls[i + 1]
        last = i == len(controls) - 2
        end = after if last else ((control[0] + after[0]) / 2, (control[1] + after[1]) / 2)
        # a quadratic leaves its chord by a quarter of the second difference
        bend = max(abs(current[k] - 2 * control[k] + end[k]) for k in (0, 1)) / 4
        steps = max(1, round((bend / CURVE_ERROR) ** 0.5 + 0.5))
        for step in range(1, steps + 1):
            t = step / steps
            points.append(
                (
                    (1 - t) ** 2 * current[0] + 2 * t * (1 - t) * control[0] + t * t * end[0],
                    (1 - t) ** 2 * current[1] + 2 * t * (1 - t) * control[1] + t * t * end[1],
                )
            )
        current = end
    return points


def letter_width_mm(text: str, cap_mm: float) -> float:
    """Return how wide ``text`` is with capitals ``cap_mm`` (> 0) high.

    Raises:
        ShapeError: A sign is not in the font.
    """
    return sum(glyph.advance for glyph in _of_text(text)) * cap_mm


@lru_cache(maxsize=16)
def letter_lines(text: str, cap_mm: float) -> tuple[tuple[Point, ...], ...]:
    """Return ``text`` with capitals ``cap_mm`` (> 0) high and its base line at y = 0.

    The polygons are closed, outer ones and holes mixed.

    Raises:
        ShapeError: A sign is not in the font.
    """
    polygons: list[tuple[Point, ...]] = []
    pen = 0.0
    for glyph in _of_text(text):
        polygons.extend(
            tuple(((pen + x) * cap_mm, y * cap_mm) for x, y in loop) for loop in glyph.polygons
        )
        pen += glyph.advance
    return tuple(polygons)


def _of_text(text: str) -> list[_Glyph]:
    glyphs = _glyphs()
    missing = sorted({sign for sign in text if sign not in glyphs})
    if missing:
        raise ShapeError(
            f"the lettering font has no {', '.join(missing)}",
            where=text,
            allowed="".join(sorted(glyphs)),
        )
    return [glyphs[sign] for sign in text]
