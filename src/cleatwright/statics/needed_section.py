"""How strong an arm must be where it leaves a plate whose layers lie across it.

    W = max(margin M / 5, (M + M of a hand) / 8)      M: what rests there for years

Source: ``statics.arm_strength`` for what the layers bear; W = M / stress for a bar in bending.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed
from cleatwright.statics.arm_strength import ACROSS_HAND_MPA, LASTING_MPA
from cleatwright.statics.hand import LIFT_N
from cleatwright.statics.seat_load import SeatLoad
from cleatwright.statics.shared_load import shared_load

MARGIN = 1.5
USUAL = Source("the usual margin on weights that bear for years", "", Evidence.CHOICE)
SPARE = 1.1
OWN = Source("what an arm weighs itself", "on the heavy side", Evidence.CHOICE)
VALUES = (
    Listed("Arms", "usual margin on weights", MARGIN, USUAL),
    Listed("Arms", "spare strength for its own weight", SPARE, OWN),
)


def needed_modulus_mm3(rests_nmm: float, *, hand_nmm: float) -> float:
    """Return the section modulus that an arm needs across its layers.

    Args:
        rests_nmm: The moment of what rests on it.
        hand_nmm: That of a hand, besides.

    >>> needed_modulus_mm3(1000.0, hand_nmm=400.0), needed_modulus_mm3(100.0, hand_nmm=700.0)
    (300.0, 100.0)
    """
    return max(MARGIN * rests_nmm / LASTING_MPA, (rests_nmm + hand_nmm) / ACROSS_HAND_MPA)


@dataclass(frozen=True)
class Borne:
    """A tool on a row of equal webs.

    Args:
        load: How it rests on them.
        com_x_mm: Where along them its centre of mass lies.
    """

    load: SeatLoad
    com_x_mm: float


def web_modulus_mm3(
    tools: Sequence[Borne], webs_mm: Sequence[float], *, cut_mm: float, reach_mm: float
) -> float:
    """Return the section modulus that each of a row of webs needs, its own weight included.

    Args:
        tools: What rests on them.
        webs_mm: Where they stand.
        cut_mm: Where they are cut, from the wall face.
        reach_mm: How far out a tool may rest.

    >>> load = SeatLoad(10.0, 40.0, 10.0, 70.0, 70.0, 0.0, 60.0, 0.0)
    >>> web_modulus_mm3([Borne(load, 30.0)], [0.0, 60.0], cut_mm=20.0, reach_mm=70.0)
    41.25
    """
    rests = [0.0 for _ in webs_mm]
    hands = [0.0 for _ in webs_mm]
    for tool in tools:
        load = tool.load.resting_to(reach_mm)
        parts = shared_load([(x, 1.0) for x in webs_mm], at_mm=tool.com_x_mm)
        for k, part in enumerate(parts):
            rests[k] += part * load.moment_nmm(load.weight_n, cut_mm)
            hands[k] = max(hands[k], part * load.moment_nmm(LIFT_N, cut_mm))
    needs = (needed_modulus_mm3(r, hand_nmm=h) for r, h in zip(rests, hands, strict=True))
    return SPARE * max(needs, default=0.0)


def bar_depth_mm(modulus_mm3: float, *, width_mm: float) -> float:
    """Return how deep a bar must be: W = b h^2 / 6.

    >>> bar_depth_mm(96.0, width_mm=4.0)
    12.0
    """
    return math.sqrt(6.0 * modulus_mm3 / width_mm)
