"""A small builder of SVG drawings whose bytes depend on nothing but their content.

The view box is in real millimetres, so that a drawing can be measured; width
and height are those of the paper. Lengths that belong to the paper, such as the
height of letters, are given in paper millimetres and multiplied by the scale here.
"""

from __future__ import annotations

import unicodedata
import xml.etree.ElementTree as ET
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

SVG = "http://www.w3.org/2000/svg"
# Directional overrides could make a name read backwards.
OVERRIDES = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
BROAD_EM, USUAL_EM, NARROW_EM = 1.0, 0.62, 0.36
BROAD_LETTERS = frozenset("MWmw@%&—")
NARROW_LETTERS = frozenset("ijltfrI.,:;'|!()[] ")


def number(value: float) -> str:
    """Return a coordinate with two decimals and without a negative zero.

    >>> number(-0.001), number(12.345)
    ('0.00', '12.35')
    """
    text = f"{value:.2f}"
    return "0.00" if text == "-0.00" else text


def clean(text: str) -> str:
    """Return text that XML can carry: what it cannot becomes U+FFFD.

    >>> clean("a" + chr(0) + "b")
    'a\ufffdb'
    """
    return "".join(
        "\ufffd"
        if unicodedata.category(c) in {"Cc", "Cs"} or c in OVERRIDES or ord(c) & 0xFFFE == 0xFFFE
        else c
        for c in text
    )


def text_width(text: str, size: float) -> float:
    """Return an estimate, on the safe side, of the width of text in a plain sans-serif face."""
    em = 0.0
    for letter in text:
        if unicodedata.east_asian_width(letter) in "WF" or letter in BROAD_LETTERS:
            em += BROAD_EM
        else:
            em += NARROW_EM if letter in NARROW_LETTERS else USUAL_EM
    return em * size


def wrap(text: str, *, size: float, width: float) -> tuple[str, ...]:
    """Return the text in lines of at most ``width``; a word that is longer is broken."""
    lines: list[str] = []
    line = ""
    for word in clean(text).split():
        rest = word
        while rest:
            trial = f"{line} {rest}" if line else rest
            if text_width(trial, size) <= width:
                line, rest = trial, ""
            elif line:
                lines.append(line)
                line = ""
            else:
                cut = max(1, _fitting(rest, size, width))
                lines.append(rest[:cut])
                rest = rest[cut:]
    return (*lines, line) if line or not lines else tuple(lines)


def _fitting(word: str, size: float, width: float) -> int:
    count = 0
    while count < len(word) and text_width(word[: count + 1], size) <= width:
        count += 1
    return count


@dataclass(frozen=True)
class Pen:
    """How something is drawn; the line width and the dashes are in paper millimetres."""

    stroke: str = "none"
    width: float = 0.25
    fill: str = "none"
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


@dataclass(frozen=True)
class Face:
    """How letters look; the size is in paper millimetres, a halo keeps lines out of the letters."""

    size: float
    colour: str
    bold: bool = False
    anchor: Anchor = "start"
    halo: bool = False


class Sheet:
    """A drawing under construction; coordinates in real millimetres from the upper left corner."""

    def __init__(self, *, width: float, height: float, scale: float, title: str) -> None:
        self.scale = scale
        self.root = ET.Element(
            "svg",
            {
                "xmlns": SVG,
                "width": f"{number(width / scale)}mm",
                "height": f"{number(height / scale)}mm",
                "viewBox": f"0 0 {number(width)} {number(height)}",
                "font-family": "sans-serif",
            },
        )
        ET.SubElement(self.root, "title").text = clean(title)
        self._layer = self.root

    def layer(self, name: str) -> None:
        """Begin a new group; what follows goes into it."""
        self._layer = ET.SubElement(self.root, "g", {"class": name})

    def polyline(
        self, points: Iterable[Point], pen: Pen, *, closed: bool = False, name: str = ""
    ) -> None:
        """Draw straight lines through the points."""
        text = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        kind = "polygon" if closed else "polyline"
        marks = {"class": name} if name else {}
        ET.SubElement(self._layer, kind, {**marks, "points": text, **self._attributes(pen)})

    def rings(self, rings: Iterable[Iterable[Point]], pen: Pen, *, name: str = "") -> None:
        """Draw closed lines as one shape; a line inside another is the rim of a hole."""
        text = " ".join(
            "M" + " L".join(f"{number(x)},{number(y)}" for x, y in ring) + " Z" for ring in rings
        )
        marks = {"class": name} if name else {}
        rule = {"fill-rule": "evenodd", "stroke-linejoin": "round"}
        ET.SubElement(self._layer, "path", {**marks, "d": text, **rule, **self._attributes(pen)})

    def line(self, start: Point, end: Point, pen: Pen) -> None:
        """Draw one straight line."""
        self.polyline((start, end), pen)

    def lines(self, pairs: Sequence[tuple[Point, Point]], pen: Pen) -> None:
        """Draw many separate lines as one element."""
        if pairs:
            text = " ".join(
                f"M{number(a)},{number(b)} L{number(c)},{number(d)}" for (a, b), (c, d) in pairs
            )
            ET.SubElement(self._layer, "path", {"d": text, **self._attributes(pen)})

    def box(self, corner: Point, size: Point, pen: Pen, *, name: str = "") -> None:
        """Draw a rectangle from its upper left corner."""
        where = {"x": corner[0], "y": corner[1], "width": size[0], "height": size[1]}
        marks = {"class": name} if name else {}
        spelt = {key: number(value) for key, value in where.items()}
        ET.SubElement(self._layer, "rect", {**marks, **spelt, **self._attributes(pen)})

    def circle(self, centre: Point, radius: float, pen: Pen) -> None:
        """Draw a circle."""
        where = {"cx": number(centre[0]), "cy": number(centre[1]), "r": number(radius)}
        ET.SubElement(self._layer, "circle", {**where, **self._attributes(pen)})

    def text(
        self, at: Point, words: str, face: Face, *, name: str = "", upright: bool = False
    ) -> None:
        """Write one line; ``at`` is on its base line, and ``upright`` turns it to read upwards."""
        x, y = number(at[0]), number(at[1])
        attributes = {"x": x, "y": y, "font-size": number(face.size * self.scale)}
        attributes["fill"] = face.colour
        if name:
            attributes["class"] = name
        if face.bold:
            attributes["font-weight"] = "bold"
        if face.anchor != "start":
            attributes["text-anchor"] = face.anchor
        if face.halo:
            attributes["paint-order"] = "stroke"
            attributes["stroke"] = "#FFFFFF"
            attributes["stroke-width"] = number(0.3 * face.size * self.scale)
        if upright:
            attributes["transform"] = f"rotate(-90 {x} {y})"
        ET.SubElement(self._layer, "text", attributes).text = clean(words)

    def to_bytes(self) -> bytes:
        """Return the file."""
        ET.indent(self.root)
        return ET.tostring(self.root, encoding="utf-8", xml_declaration=True) + b"\n"

    def _attributes(self, pen: Pen) -> dict[str, str]:
        found = {"fill": pen.fill, "stroke": pen.stroke}
        if pen.stroke != "none":
            found["stroke-width"] = number(pen.width * self.scale)
        if pen.dash:
            found["stroke-dasharray"] = " ".join(number(d * self.scale) for d in pen.dash)
        if pen.opacity != 1.0:
            found["opacity"] = number(pen.opacity)
        return found
