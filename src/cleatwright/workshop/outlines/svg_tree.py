"""A drawing in SVG cut down to what draws, and held small, before a library unfolds it.

``<use>`` draws other elements again, and groups hand their transforms down: a small file can
stand for a drawing without end. So what would be drawn is counted first, one by one.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator

from cleatwright.base.errors import InputError

SVG = "http://www.w3.org/2000/svg"
XLINK_HREF = "{http://www.w3.org/1999/xlink}href"
# letters that a library reads to draw all of it; 20 000 points take less than half of it
MOST_LETTERS = 2_000_000
MOST_DEEP = 60
MOST_IN_ATTRIBUTE = 100
MOST_IN_TRANSFORM = 2_000
MOST_IN_NAME = 1_000
MOST_STYLE = 20_000
# what one element costs beside its letters
ELEMENT_LETTERS = 100
NUMBER_LETTERS = 20
MOST_PIECES = MOST_LETTERS // NUMBER_LETTERS
# no number of a drawing is longer; the library takes time without end over digits without end
MOST_DIGITS = 40
LISTS = ("d", "points")
NAMES = ("id", "class", "href", XLINK_HREF)
SHORT = (
    *("x", "y", "width", "height", "cx", "cy", "r", "rx", "ry", "x1", "y1", "x2", "y2"),
    *("display", "viewBox", "preserveAspectRatio"),
)
# the library takes each declaration of a style for an attribute
STYLED = frozenset({"display", "transform", *LISTS, *SHORT[:13]})
_DIGITS = re.compile(r"[0-9]+")
# what they may not have; SVG 1.1, clauses 9.2 to 9.4: "a negative value is an error"
_SIZES = {
    "circle": frozenset({"r"}),
    "ellipse": frozenset({"rx", "ry"}),
    "rect": frozenset({"width", "height", "rx", "ry"}),
}
_PIECE = re.compile(r"[A-Za-z]|[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)")
# nothing in them is drawn as an outline
MUTE = frozenset({"text", "tspan", "desc", "title", "image", "script", "metadata"})
TODO = "Save it again as plain SVG, with the outline as one path"


def plain_tree(root: ET.Element) -> None:
    """Cut a tree down to what draws, in place, and refuse one that stands for far too much.

    Raises:
        InputError: It is nested too deeply, an attribute is too long, or drawing it would take
            too much.
    """
    style_letters = _cut(root)
    pieces = _pieces(root)
    named = {one.get("id", ""): one for one in root.iter() if one.get("id")}
    cost = 0
    for element, handed_down in _drawn(root, named):
        classes = element.get("class", "").count(" ") + 1
        # the transforms of all that is around are read again for each element
        cost += (
            ELEMENT_LETTERS
            + pieces[element] * NUMBER_LETTERS
            + handed_down
            + classes * style_letters
        )
        if cost > MOST_LETTERS:
            raise InputError(
                "the drawing stands for far more than one outline: its parts are used again and "
                "again",
                todo=TODO,
            )


def _pieces(root: ET.Element) -> dict[ET.Element, int]:
    """Return how many numbers and letters the lists of each element hold, and refuse too many."""
    found = {
        element: sum(len(_PIECE.findall(element.get(name, ""))) for name in LISTS)
        for element in root.iter()
    }
    if (total := sum(found.values())) > MOST_PIECES:
        raise InputError(
            f"the drawing has too many points: {total} numbers and letters in its paths",
            allowed=f"up to {MOST_PIECES}",
            todo="Simplify the outline in your drawing program",
        )
    return found


def _cut(root: ET.Element) -> int:
    """Take out what draws nothing, and return the letters of the styles that are left."""
    letters, level, depth = 0, [root], 0
    while level:
        depth += 1
        if depth > MOST_DEEP:
            raise InputError(
                "the drawing is nested too deeply",
                allowed=f"up to {MOST_DEEP} levels",
                todo=TODO,
            )
        for element in level:
            letters += _cut_element(element)
            for child in list(element):
                # a comment or an instruction has a function in place of a tag
                if callable(child.tag) or _tag(child) in MUTE:
                    element.remove(child)
        level = [child for element in level for child in element]
    return letters


def _cut_element(element: ET.Element) -> int:
    attributes = element.attrib
    kept: dict[str, str] = {name: attributes[name] for name in LISTS if name in attributes}
    limits = {"transform": MOST_IN_TRANSFORM}
    limits |= dict.fromkeys(SHORT, MOST_IN_ATTRIBUTE) | dict.fromkeys(NAMES, MOST_IN_NAME)
    for name, most in limits.items():
        if name in attributes:
            if len(attributes[name]) > most:
                plain = name.rpartition("}")[2]
                raise InputError(
                    f'the attribute "{plain}" has {len(attributes[name])} letters',
                    allowed=f"up to {most}",
                    todo=TODO,
                )
            kept[name] = attributes[name]
    style = _declarations(attributes.get("style", ""))
    if style:
        kept["style"] = style
    attributes.clear()
    attributes.update(kept)
    text, element.text, element.tail = element.text or "", None, None
    _require_sizes(element)
    if _tag(element) == "style":
        style = element.text = "".join(_rules(text))
    for name, value in (*kept.items(), ("style", style)):
        _require_numbers(name, value)
    return _require_short(style)


def _require_numbers(name: str, text: str) -> None:
    longest = max((len(run[0]) for run in _DIGITS.finditer(text)), default=0)
    if longest > MOST_DIGITS:
        raise InputError(
            f'a number in "{name.rpartition("}")[2]}" has {longest} digits',
            allowed=f"up to {MOST_DIGITS} digits",
            todo=TODO,
        )


def _require_sizes(element: ET.Element) -> None:
    tag, style = _tag(element), element.get("style", "")
    given = [*element.attrib.items(), *(one.partition(":")[::2] for one in style.split(";"))]
    for name, value in given:
        if name in _SIZES.get(tag, ()) and value.startswith("-") and value.strip("-+.0"):
            raise InputError(
                f'a {tag} of the drawing has "{name}" {value}',
                allowed="0 or more",
                todo=TODO,
            )


def _require_short(style: str) -> int:
    if len(style) > MOST_STYLE:
        raise InputError("the styles of the drawing are too long", todo=TODO)
    return len(style)


def _rules(text: str) -> Iterator[str]:
    """Yield the rules of a style sheet that move or hide something, each in its plainest form."""
    for rule in text.split("}"):
        selectors, _, body = rule.rpartition("{")
        kept = _declarations(body)
        if kept and "{" not in selectors:
            # a comment may stand before them
            plain = selectors.rpartition("*/")[2]
            names = ",".join(name.strip() for name in plain.split(",") if name.strip())
            if names:
                yield f"{names}{{{kept}}}"


def _declarations(style: str) -> str:
    pairs = (one.partition(":") for one in style.split(";"))
    return ";".join(
        f"{name.strip()}:{value.strip()}" for name, _, value in pairs if name.strip() in STYLED
    )


def _drawn(root: ET.Element, named: dict[str, ET.Element]) -> Iterator[tuple[ET.Element, int]]:
    """Yield each element as often as it would be drawn, and the letters handed down to it."""
    waiting: list[tuple[ET.Element, int, int]] = [(root, 0, 0)]
    while waiting:
        element, handed_down, depth = waiting.pop()
        if depth > 2 * MOST_DEEP:
            raise InputError("a part of the drawing uses itself", todo=TODO)
        own = handed_down + len(element.get("transform", "")) + len(element.get("style", ""))
        yield element, own
        inner = list(element)
        if _tag(element) == "use":
            # the library takes the plain one where both are there
            target = element.get("href") or element.get(XLINK_HREF) or ""
            if target[1:] in named:
                inner.append(named[target[1:]])
        waiting += [(child, own, depth + 1) for child in inner]


def _tag(element: ET.Element) -> str:
    return element.tag.rpartition("}")[2]
