"""What a proof of the ways out says about each tool, in words for the person at the wall."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import MeasureError
from cleatwright.shapes.rigid import Vector
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import COUNT_SLACK

Sort = Literal["holder", "carrier", "tool", "rail", "obstacle"]
Direction = Literal["left", "right", "up", "down"]
# in the frame of the wall, whose x runs to the left for the reader
DIRECTIONS: tuple[tuple[Direction, Vector], ...] = (
    ("left", (1.0, 0.0, 0.0)),
    ("right", (-1.0, 0.0, 0.0)),
    ("up", (0.0, 0.0, 1.0)),
    ("down", (0.0, 0.0, -1.0)),
)
_TOWARDS: dict[Direction, str] = {
    "left": "to the left",
    "right": "to the right",
    "up": "up",
    "down": "down",
}


@dataclass(frozen=True)
class Hindrance:
    """An obstacle as a box that stands out of the wall, its margin left out.

    Args:
        name: Its name.
        x_mm: Its left edge from that of the wall.
        z_mm: Its lower edge above that of the wall.
        width_mm: Width, > 0.
        height_mm: Height, > 0.
        stands_out_mm: How far it stands out of the wall; one that does not is in nobody's way.
    """

    name: str
    x_mm: float
    z_mm: float
    width_mm: float
    height_mm: float
    stands_out_mm: float

    def __post_init__(self) -> None:
        """Refuse a box that is none."""
        whole = (self.x_mm, self.z_mm, self.width_mm, self.height_mm, self.stands_out_mm)
        sizes = min(self.width_mm, self.height_mm) > 0.0 and self.stands_out_mm >= 0.0
        if not (all(math.isfinite(value) for value in whole) and sizes):
            raise MeasureError(
                f"a box of {said.number(self.width_mm)} x {said.number(self.height_mm)} x "
                f"{said.mm(self.stands_out_mm)}",
                where=f'obstacle "{self.name}"',
                allowed=f"a width and a height of more than {said.mm(0)}, and at least "
                f"{said.least(0)} out of the wall",
            )


@dataclass(frozen=True)
class Surroundings:
    """What is on a wall beside the holders, and the room that a hand needs.

    Args:
        rails: The rails.
        obstacles: What stands out of the wall.
        hand_room_mm: Free room that fingers need beside and before a tool, >= 0.
    """

    rails: tuple[Rail, ...]
    obstacles: tuple[Hindrance, ...]
    hand_room_mm: float

    def __post_init__(self) -> None:
        """Refuse less than no room."""
        if not (math.isfinite(self.hand_room_mm) and self.hand_room_mm >= 0.0):
            raise MeasureError(
                f"{said.mm(self.hand_room_mm)}",
                where="room for the hand",
                allowed=f"at least {said.least(0)}",
            )


@dataclass(frozen=True)
class Hit:
    """The first thing that is in the way.

    Args:
        name: Its name.
        sort: What sort of thing it is.
        travel_mm: How far the tool comes along its way out before it meets the thing.
        short_mm: The least shift of the tool with its holder that frees the whole way.
        direction: Where to, for the reader who faces the wall.
        todo: What the person may write in the document, as the end of a sentence, or "".
    """

    name: str
    sort: Sort
    travel_mm: float
    short_mm: float
    direction: Direction
    todo: str = ""

    @property
    def title(self) -> str:
        """Return what it is, with its name.

        >>> Hit("Pliers", "holder", 10.0, 2.0, "down").title
        'the holder "Pliers"'
        """
        return f'the {self.sort} "{self.name}"'

    @property
    def remedy(self) -> str:
        """Return what would free the way; the thing in the way may move instead, oppositely.

        >>> said.in_mm(Hit("socket", "obstacle", 0.0, 1.234, "left").remedy)
        'at least 1.3 mm more to the left'
        """
        words = f"at least {said.least(self.shift_mm, '.1f')} more {_TOWARDS[self.direction]}"
        return f"{words}: {self.todo}" if self.todo else words

    @property
    def shift_mm(self) -> float:
        """Return the shift that frees the way, rounded up to a tenth."""
        return math.ceil(self.short_mm * 10 - COUNT_SLACK) / 10


@dataclass(frozen=True)
class WayProof:
    """What was found along the way out of one tool.

    Args:
        tool: Its name.
        holder: The name of its holder.
        holder_key: The key of its holder.
        length_mm: Length of its way out.
        hit: The first thing that the tool meets, or None when its way is free.
        hand: What is in the way of the hand at its best place, or None when there is room.
    """

    tool: str
    holder: str
    holder_key: str
    length_mm: float
    hit: Hit | None
    hand: Hit | None

    @property
    def free(self) -> bool:
        """Return True when the tool comes out and a hand can take it."""
        return self.hit is None and self.hand is None

    @property
    def sentences(self) -> tuple[str, ...]:
        """Return one sentence for each thing in the way; none when all is free.

        >>> hit = Hit("Pliers", "holder", 10.0, 2.0, "down")
        >>> said.in_mm(WayProof("Saw", "Saws", "003", 52.0, hit, None).sentences[0])[25:]
        'holder "Pliers" after 10.0 of 52.0 mm: it needs at least 2.0 mm more down.'
        """
        found: list[str] = []
        if self.hit is not None:
            after = self._after(self.hit)
            if self.hit.travel_mm <= 0.0:
                after = "before it has moved"
            found.append(
                f'The tool "{self.tool}" meets {self.hit.title} {after}: '
                f"it needs {self.hit.remedy}."
            )
        if self.hand is not None:
            after = self._after(self.hand)
            if self.hand.travel_mm <= 0.0:
                after = "where it hangs"
            found.append(
                f'A hand that takes the tool "{self.tool}" meets {self.hand.title} {after}: '
                f"it needs {self.hand.remedy}."
            )
        return tuple(found)

    def _after(self, hit: Hit) -> str:
        return f"after {said.number(hit.travel_mm, '.1f')} of {said.mm(self.length_mm, '.1f')}"
