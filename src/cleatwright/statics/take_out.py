"""How high and how hard a hand pulls at a tool that it takes.

A hand may take a tool anywhere that it reaches. The highest place is the worst for a hook on a
rail: the pull turns the holder about its foot. What has to be lifted out is dragged a little on
the way; what springs or magnets hold is pulled off with all the force that they oppose.
"""

from __future__ import annotations

from cleatwright.parts.holder import Seat
from cleatwright.shapes.extent import joint_extent
from cleatwright.standards.people.hands import HAND_MM
from cleatwright.statics.spring_force import drawn_out_n


def grip_z_mm(seat: Seat) -> float:
    """Return the middle of the highest place of a hand on a seated tool, in the holder's frame.

    The hand is as wide as the tool is high, or as hands are.
    """
    (_, _, low), (_, _, high) = joint_extent(seat.envelope())
    return high - min(HAND_MM, high - low) / 2


def take_out_n(seat: Seat) -> float:
    """Return the most force by which springs and magnets oppose a hand; 0 where there are none.

    The arms are as stiff as their plastic, and the magnets count as the strongest.
    """
    spring, magnet = seat.spring, seat.magnet
    return max(
        0.0 if spring is None else drawn_out_n(spring, modulus_mpa=spring.plastic.modulus_mpa),
        0.0 if magnet is None else max(magnet.pull_n, magnet.most_n),
    )


def resists(seat: Seat) -> bool:
    """Tell whether a hand must pull the tool off its seat, and not only lift it."""
    return seat.spring is not None or seat.magnet is not None
