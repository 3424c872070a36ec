"""What a measuring card shows, as plain values."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from cleatwright.base.lengths import LengthUnit
from cleatwright.papers.kit.svg import Point

Ring = tuple[Point, ...]
FaceName = Literal["front", "side", "above"]


@dataclass(frozen=True)
class CardDimension:
    """A measure on the drawing: from one point to another, in real mm as the reader sees them."""

    letter: str
    start_mm: Point
    end_mm: Point

    @property
    def length_mm(self) -> float:
        """Return the distance between both ends."""
        return math.dist(self.start_mm, self.end_mm)


@dataclass(frozen=True)
class CardFace:
    """One view of a tool, in real mm: to the right and up for the reader.

    Args:
        name: From where it is seen.
        outline: Closed lines around all that is seen; a line inside another rims a hole.
        pieces: Closed lines around each piece that the program thinks the tool made of.
        dimensions: What is drawn on it.
    """

    name: FaceName
    outline: tuple[Ring, ...]
    pieces: tuple[Ring, ...]
    dimensions: tuple[CardDimension, ...]


@dataclass(frozen=True)
class CardRow:
    """A line of the legend.

    Args:
        letter: The letter on the drawing.
        name: The name that a person writes in a document or a table.
        where: Where the calliper goes.
        bounds: From what to what, with its unit.
        note: What to know about it, such as that it may be missing; "" for none.
        value: What was measured, in the unit of the card; "" to be written by hand.
    """

    letter: str
    name: str
    where: str
    bounds: str
    note: str = ""
    value: str = ""


@dataclass(frozen=True)
class CardTool:
    """A tool with a field for each row of its card, in the same order; "" is filled in by hand."""

    name: str
    values: tuple[str, ...]


@dataclass(frozen=True)
class CardView:
    """One card.

    Args:
        kind: The name of the kind, as it is written in a document.
        title: What the kind is, for people.
        faces: The views, each at most once.
        rows: The measures, in order.
        tools: Tools whose fields stand below the legend; without any, the legend has a field.
        hint: What else has to be taken than the measures, or "".
        caution: What can hurt someone who handles such a tool, or "".
        unit: The unit in which the owner measures.
    """

    kind: str
    title: str
    faces: tuple[CardFace, ...]
    rows: tuple[CardRow, ...]
    tools: tuple[CardTool, ...] = ()
    hint: str = ""
    caution: str = ""
    unit: LengthUnit = "mm"
