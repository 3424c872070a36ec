"""What one wood screw may carry for ever that holds something to a stud through the lining.

part      lining      stud
 │▓▓▓│░░░░░░░░░░░│═══════════
 ║<─>║           ║<── deep ──>   length = side + lining + deep
 head            the lining carries nothing
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.fasteners.nds_screws import (
    GRAVITIES,
    LEAST_PENETRATION,
    PERMANENT,
    WoodAround,
    lateral_n,
    metric_dowel,
    pull_through_n,
    withdrawal_n,
)
from cleatwright.standards.fasteners.wood_screws import wood_screw_head_mm
from cleatwright.standards.table import Listed

STUD_TIMBER = "spruce-pine-fir"
STUD_SOURCE = Source("studs taken as spruce-pine-fir of specific gravity 0.42", "", Evidence.CHOICE)
# DIN 7997, thread at least 0.6 of the length
THREAD_SHARE = 0.6
THREAD_SOURCE = Source(
    "DIN 7997",
    "least length of thread / length",
    Evidence.SECONDARY,
    "a public file that cites fasteners.eu",
)
PLASTIC_SIDE = Source(
    "printed plates around screws", "count as the light softwood of the stud", Evidence.CHOICE
)

VALUES = (
    Listed("Wall screws", "thread / length", THREAD_SHARE, THREAD_SOURCE),
    *(
        Listed("Wall screws", label, GRAVITIES.value(STUD_TIMBER, "specific_gravity"), source)
        for label, source in (
            ("specific gravity of studs", STUD_SOURCE),
            ("specific gravity in place of plastic", PLASTIC_SIDE),
        )
    ),
)


@dataclass(frozen=True)
class WallScrew:
    """A wood screw through a part and a lining into a stud.

    Args:
        diameter_mm: A nominal diameter of DIN 7997.
        length_mm: Its length.
        side_mm: What it holds, under its head.
        lining_mm: What lies between the part and the stud, >= 0.
    """

    diameter_mm: float
    length_mm: float
    side_mm: float
    lining_mm: float

    @property
    def deep_mm(self) -> float:
        """Return how deep it is in the stud, its tip included."""
        return self.length_mm - self.side_mm - self.lining_mm

    @property
    def along_n(self) -> float:
        """Return what it may carry along the wall; 0 when it is not six diameters deep."""
        gravity = stud_gravity()
        bed = WoodAround(self.side_mm, self.deep_mm, gravity, gravity, self.lining_mm)
        return PERMANENT * lateral_n(metric_dowel(self.diameter_mm), bed)

    @property
    def thread_out_n(self) -> float:
        """Return what its thread may carry straight out of the stud; 0 when it is not deep."""
        if self.deep_mm < LEAST_PENETRATION * self.diameter_mm - 1e-9:
            return 0.0
        thread = min(self.deep_mm, THREAD_SHARE * self.length_mm)
        out = withdrawal_n(stud_gravity(), diameter_mm=self.diameter_mm, thread_mm=thread)
        return PERMANENT * out

    @property
    def wooden_out_n(self) -> float:
        """Return what it may carry straight out when its head is drawn against wood, too."""
        head, _ = wood_screw_head_mm(self.diameter_mm)
        through = pull_through_n(stud_gravity(), head_mm=head, side_mm=self.side_mm)
        return min(self.thread_out_n, PERMANENT * through)


def stud_gravity() -> float:
    """Return the specific gravity that a stud is taken to have."""
    return GRAVITIES.value(STUD_TIMBER, "specific_gravity")
