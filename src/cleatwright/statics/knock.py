"""What a knock at the far end of a tool asks of what keeps its holder down.

The holder turns along the wall about the end of a hook; its weight and the tool's hold against it,
or turn it on where they act beyond that hook. Other tools are there where they do that.
Source: ``statics.captured``, moments about the end of a hook.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.statics.captured import knock_n
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import knock_lever_mm


@dataclass(frozen=True, order=True)
class Knock:
    """The knock that asks the most; the greater one compares as greater.

    Args:
        force_n: What the farthest bolt or screw bears.
        number: Which tool is knocked, from 1.
        lever_mm: How far from the bevel's edge.
        knock_n: How hard.
    """

    force_n: float
    number: int
    lever_mm: float
    knock_n: float

    @property
    def words(self) -> str:
        """Return which it is, for the note of a check."""
        return (
            f"tool {self.number}, {self.knock_n:g} N at {said.mm(self.lever_mm, '.0f')} from "
            "the top of the rail"
        )


def hardest_knock(
    part: HolderPart,
    own: OwnWeight,
    knock: float,
    *,
    hooks_mm: tuple[float, float],
    held_mm: Sequence[float],
) -> Knock | None:
    """Return the knock that asks the most of a holder; None without tools, or without a knock.

    Args:
        part: The holder, or a carrier with its holders.
        own: Its own weight, about its middle.
        knock: A knock along the wall at the far end of a tool, in N.
        hooks_mm: The outermost ends of its hooks.
        held_mm: The middles of its bolts or screws.
    """
    if knock <= 0.0:
        return None
    contact, middle = part.hanging.contact_z_mm, part.bounds_mm[1][0] / 2
    own_n = own.mass_kg * GRAVITY_M_S2
    tools = [(seat.tool.mass_kg * GRAVITY_M_S2, seat.com_mm[0]) for seat in part.seats]
    found: list[Knock] = []
    for k, seat in enumerate(part.seats):
        lever = knock_lever_mm(seat, contact)
        force = knock_n(
            knock * lever,
            ((own_n, middle), tools[k]),
            others=(*tools[:k], *tools[k + 1 :]),
            hooks_mm=hooks_mm,
            bolts_mm=tuple(held_mm),
        )
        found.append(Knock(force, k + 1, lever, knock))
    return max(found, default=None)
