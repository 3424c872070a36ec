"""The back of a holder on a rail: a plate with a groove for hangers, and guides for bolts.

from behind                         section at a bolt

 ┌───────────────┐ top               ┌──┐
 │══╗ groove  ╔══│ ← hangers         ├┐ │ groove, over a hanger
 │══╝         ╚══│                   ├┘ │
 │               │                   │  │   rail to the left
 └───┐       ┌───┘ low               │  │
     │ column│                       │  └──┐
     │ ┌───┐ │                    ───┴─────┴──  bolt, under the rail's lower edge
     └─┤   ├─┘ guide of a bolt       └─────┘
       └───┘

The back lies flat on the bed: grooves bridge 9.2 mm there, and guides stand upright.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.features.filament_pin import HOLE_MM
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.holder import PrintPose
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.outline import circle
from cleatwright.shapes.rigid import shift
from cleatwright.shapes.solid import Solid, across, block, prism
from cleatwright.standards.table import Listed

CAP_MM = 2.85
TOP_MM = hanger.MIDDLE_MM + hanger.WIDE_MM / 2 + hanger.PLAY_MM + CAP_MM
"""How far the top of the plate lies above the bevel contact."""
UNDER_MM = hanger.WIDE_MM / 2 + hanger.PLAY_MM + CAP_MM - hanger.MIDDLE_MM
"""How far the plate reaches below the bevel contact at least."""
LEAST_PLATE_MM = 5.0
BEDDED_POSE: PrintPose = "on-its-back"
"""How a back lies on the bed when its layers are parallel to its face."""
# where a pin of filament stands
PIN_Y_MM = 2.3
EDGE_MM = 5.0
PIN_GAP_MM = 0.1
# what stays below a pin, so that its hole never opens where the plate is thinner
PIN_FLOOR_MM = 1.0
BLIND_MM = 2.5
# what is narrower hangs on one hanger
ONE_MM = 40.0
WIDTHS_MM = (40.0, 24.0, 16.0, 12.0)
LEAST_WIDTH_MM = EDGE_MM + WIDTHS_MM[-1] + BLIND_MM
SIDE_PLAY_MM = 0.4
# more would let a bolt tilt under the rail
HEIGHT_PLAY_MM = 0.2
RIM_MM = 3.0
# the floor bends under the bolt beside the slot of its tab; the bolt, which the rail pushes down
# BLUNT behind it, levers on the roof and bears on its edge with up to 2.4 times that force
FLOOR_RIM_MM = 11.5
SIDE_RIM_MM = 4.0
# below a tab, for the finger that takes hold of it
WINDOW_MM = 4.0
# beside a window, where a guide stands at the edge of its plate
WINDOW_RIM_MM = 2.0
GUIDE_WIDTH_MM = bolt.WIDTH_MM + SIDE_PLAY_MM + 2 * SIDE_RIM_MM
# the tab stops at the front wall of its slot before the bolt comes out
SLOT_TO_MM = bolt.TAB_TO_MM + 0.5
# behind a pin, and before the slot of a tab
LEAST_WALL_MM = min(PIN_Y_MM - HOLE_MM / 2, bolt.GUIDE_MM - SLOT_TO_MM)
PAST_MM = 1.0
# of a column only the walls of two lines and the skins count, not what is inside
SHELL_MM = 0.9
SHELLS = Source(
    "two lines of 0.45 mm, and skins as thick", "common practice, no source", Evidence.PRACTICE
)
HALVINGS = 50
# a finger reaches the tab of a bolt below a column no deeper than this (a choice)
MOST_DEEP_MM = 20.0
VALUES = (Listed("Mounts", "column: walls and skins that count mm", SHELL_MM, SHELLS),)


@dataclass(frozen=True)
class Hangers:
    """Where hangers sit along a plate.

    Args:
        width_mm: Width of each.
        lefts_mm: Where each begins.
        plate_mm: Width of the plate.
    """

    width_mm: float
    lefts_mm: tuple[float, ...]
    plate_mm: float

    @property
    def long_mm(self) -> float:
        """Return how long they are together."""
        return self.width_mm * len(self.lefts_mm)

    @property
    def spans_mm(self) -> tuple[tuple[float, float], ...]:
        """Return where each begins and ends."""
        return tuple((left, left + self.width_mm) for left in self.lefts_mm)

    @property
    def ends_mm(self) -> tuple[float, float]:
        """Return the outermost ends."""
        return self.lefts_mm[0], self.lefts_mm[-1] + self.width_mm

    def cuts(self, contact_mm: float) -> tuple[Solid, ...]:
        """Return their grooves, each open to the side from which its hanger comes, and the pins."""
        section = hanger.groove(contact_mm + hanger.MIDDLE_MM)
        top = contact_mm + TOP_MM
        found: list[Solid] = []
        for k, left in enumerate(self.lefts_mm):
            right = left + self.width_mm
            if k == 0:
                found.append(across(section, -PAST_MM, right + PIN_GAP_MM))
                pin = left - PIN_GAP_MM - HOLE_MM / 2
            else:
                found.append(across(section, left - PIN_GAP_MM, self.plate_mm + PAST_MM))
                pin = right + PIN_GAP_MM + HOLE_MM / 2
            depth = pin_mm()
            hole = prism(circle(HOLE_MM), depth + PAST_MM)
            found.append(hole.moved(pin, PIN_Y_MM, top - depth))
        return tuple(found)

    def fittings(
        self, *, thickness_mm: float, bevel_deg: float, contact_mm: float
    ) -> list[Fitting]:
        """Return the hangers themselves for a rail."""
        measures = (
            ("bevel_deg", bevel_deg),
            ("thickness_mm", thickness_mm),
            ("width_mm", self.width_mm),
        )
        return [
            Fitting(hanger.KIND.name, measures, shift(left, 0.0, contact_mm))
            for left in self.lefts_mm
        ]


def groove_for(hangers: Hangers, *, thick_mm: float, bedded: bool) -> HangerGroove:
    """Return the section of hangers in a plate.

    Args:
        hangers: The hangers.
        thick_mm: Thickness of the plate at their groove.
        bedded: Whether its layers are parallel to its face.
    """
    deep = hanger.DEEP_MM + hanger.PLAY_MM
    return HangerGroove(
        long_mm=hangers.long_mm,
        strip_mm=hangers.long_mm + len(hangers.lefts_mm) * (EDGE_MM + hanger.FLOOR_MM / 2),
        middle_mm=hanger.MIDDLE_MM,
        root_mm=hanger.ROOT_MM,
        neck_mm=hanger.NECK_MM,
        wide_mm=hanger.WIDE_MM,
        floor_mm=hanger.FLOOR_MM,
        land_mm=hanger.LAND_DEEP_MM,
        flank_mm=hanger.FLANK_MM,
        deep_mm=deep,
        wall_mm=max(0.0, thick_mm - deep),
        bedded=bedded,
    )


def pin_mm() -> float:
    """Return how long a pin is: through the cap and the groove, and into the plate below."""
    return 2 * CAP_MM + hanger.WIDE_MM + 2 * hanger.PLAY_MM - PIN_FLOOR_MM


Enough = Callable[["Hangers"], bool]


def _any(_: Hangers) -> bool:
    return True


def hangers_for(width_mm: float, *, enough: Enough = _any) -> Hangers:
    """Return the hangers of a plate: two at its ends, or one where it is narrow.

    The shortest of those that are enough, or the longest that have room.

    Args:
        width_mm: Width of the plate.
        enough: Tells which bear what is asked of them.

    >>> hangers_for(140.0).lefts_mm, hangers_for(32.0).lefts_mm
    ((5.0, 123.0), (5.0,))
    """
    if width_mm >= ONE_MM:
        fit = [_two(one, width_mm) for one in reversed(WIDTHS_MM) if two_mm(one) <= width_mm]
        return next((one for one in fit if enough(one)), fit[-1])
    room = width_mm - EDGE_MM - BLIND_MM
    wide = next((one for one in WIDTHS_MM if one <= room), WIDTHS_MM[-1])
    return Hangers(wide, (max(EDGE_MM, (width_mm - wide) / 2),), width_mm)


def two_mm(hanger_mm: float) -> float:
    """Return how wide a plate must be for two hangers."""
    return max(ONE_MM, 2 * (EDGE_MM + hanger_mm + PIN_GAP_MM) + BLIND_MM)


def width_for_mm(enough: Enough) -> float:
    """Return how wide a plate must be for hangers that are enough; infinity if none are.

    >>> width_for_mm(lambda one: one.long_mm >= 14.0), width_for_mm(lambda one: one.long_mm > 80.0)
    (23.5, inf)
    """
    narrow = [
        (width, Hangers(one, (EDGE_MM,), width))
        for one in reversed(WIDTHS_MM)
        if (width := EDGE_MM + one + BLIND_MM) < ONE_MM
    ]
    wide = [(two_mm(one), _two(one, two_mm(one))) for one in reversed(WIDTHS_MM)]
    return next((width for width, found in (*narrow, *wide) if enough(found)), math.inf)


def _two(hanger_mm: float, plate_mm: float) -> Hangers:
    return Hangers(hanger_mm, (EDGE_MM, plate_mm - EDGE_MM - hanger_mm), plate_mm)


@dataclass(frozen=True)
class Guide:
    """The guide of one bolt, and the bolt in it.

    Args:
        x_mm: Its middle.
        floor_mm: Height of the floor on which the bolt slides.
        lead_mm: The lead of the bolt.
    """

    x_mm: float
    floor_mm: float
    lead_mm: float

    @property
    def high_mm(self) -> float:
        """Return its upper end."""
        return self.floor_mm + bolt.HIGH_MM + HEIGHT_PLAY_MM + RIM_MM

    @property
    def low_mm(self) -> float:
        """Return its lower end."""
        return self.floor_mm - FLOOR_RIM_MM

    @property
    def tab_mm(self) -> float:
        """Return how low the tab of its bolt hangs."""
        return self.floor_mm - bolt.TAB_LONG_MM

    def solid(self, board_mm: float) -> Solid:
        """Return the block around the bolt, as deep as a board through which its way goes."""
        half, deep = GUIDE_WIDTH_MM / 2, max(bolt.GUIDE_MM, board_mm)
        return block(self.x_mm - half, 0.0, self.low_mm, self.x_mm + half, deep, self.high_mm)

    def cuts(self, board_mm: float) -> tuple[Solid, ...]:
        """Return the way of the bolt through it, and the slot of its tab, open below.

        ``board_mm`` is how thick a board is through which the way goes as well.
        """
        left = self.x_mm - bolt.WIDTH_MM / 2
        half, front = (bolt.WIDTH_MM + SIDE_PLAY_MM) / 2, max(bolt.GUIDE_MM, board_mm) + PAST_MM
        high = self.floor_mm + bolt.HIGH_MM + HEIGHT_PLAY_MM
        way = block(self.x_mm - half, -PAST_MM, self.floor_mm, self.x_mm + half, front, high)
        slot = block(
            self.x_mm - half,
            -PAST_MM,
            self.low_mm - PAST_MM,
            left + bolt.TAB_MM + SIDE_PLAY_MM / 2,
            SLOT_TO_MM,
            high,
        )
        return way, slot

    def window(self, plate_low_mm: float, board_mm: float) -> tuple[tuple[Solid, ...], int]:
        """Return what is cut out of a plate that reaches below the guide, and how many holes.

        The tab is taken hold of there: a window, or a notch where the plate ends soon.
        """
        if plate_low_mm >= self.low_mm:
            return (), 0
        half = GUIDE_WIDTH_MM / 2 - WINDOW_RIM_MM
        ends = plate_low_mm < self.tab_mm - WINDOW_MM - RIM_MM
        low = self.tab_mm - WINDOW_MM if ends else plate_low_mm - PAST_MM
        front = max(bolt.GUIDE_MM, board_mm) + PAST_MM
        opening = block(self.x_mm - half, -PAST_MM, low, self.x_mm + half, front, self.low_mm)
        return (opening,), int(ends)

    @property
    def room(self) -> Bounds:
        """Return the box that nothing else may enter: its block, and the tab below."""
        half = GUIDE_WIDTH_MM / 2
        return (
            (self.x_mm - half, 0.0, self.tab_mm - WINDOW_MM),
            (self.x_mm + half, bolt.before_mm(), self.high_mm),
        )

    @property
    def fitting(self) -> Fitting:
        """Return the bolt, shut under a rail of the height that was asked."""
        at = shift(self.x_mm - bolt.WIDTH_MM / 2, -bolt.shut_mm(self.lead_mm), self.floor_mm)
        return Fitting(bolt.KIND.name, (("lead_mm", self.lead_mm),), at)


def guide_at(x_mm: float, *, rail_low_mm: float, lead_mm: float) -> Guide:
    """Return the guide of a bolt under a rail whose lower edge lies at a height."""
    return Guide(x_mm, rail_low_mm - bolt.LOW_MM - bolt.MIDDLE_RISE_MM, lead_mm)


def column_sizes_mm(
    modulus_mm3: float, *, thick_mm: float, most_wide_mm: float
) -> tuple[tuple[float, float], ...]:
    """Return how wide and how thick a column of a section modulus may be: W of walls and skins.

    The lightest first: thicker and no wider than the guide, up to ``MOST_DEEP_MM``; then as thick
    as the plate, and wider.

    >>> (wide, thick), flat = column_sizes_mm(150.0, thick_mm=5.0, most_wide_mm=80.0)
    >>> wide, round(hollow_modulus_mm3(wide, thick), 6), flat[1]
    (18.4, 150.0, 5.0)
    """
    flat = (_wide_mm(modulus_mm3, thick_mm, most_wide_mm), thick_mm)
    thick = _thick_mm(GUIDE_WIDTH_MM, modulus_mm3)
    if thick <= thick_mm:
        return (flat,)
    deep = min(thick, MOST_DEEP_MM)
    return (_wide_mm(modulus_mm3, deep, most_wide_mm), deep), flat


def _wide_mm(modulus_mm3: float, thick_mm: float, most_mm: float) -> float:
    """Return how wide a column of a thickness must be, no narrower than a guide."""
    # linear in the width
    narrow, step = hollow_modulus_mm3(0.0, thick_mm), hollow_modulus_mm3(1.0, thick_mm)
    return max(GUIDE_WIDTH_MM, min((modulus_mm3 - narrow) / (step - narrow), most_mm))


def hollow_modulus_mm3(wide_mm: float, thick_mm: float) -> float:
    """Return the section modulus of walls and skins alone: (b h3 - (b - 2 s) (h - 2 s)3) / (6 h).

    >>> round(hollow_modulus_mm3(18.4, 5.0), 3), round(18.4 * 5.0**2 / 6.0, 3)
    (58.535, 76.667)
    """
    inside = (wide_mm - 2 * SHELL_MM) * (thick_mm - 2 * SHELL_MM) ** 3
    return (wide_mm * thick_mm**3 - inside) / (6.0 * thick_mm)


def _thick_mm(wide_mm: float, modulus_mm3: float) -> float:
    """Return how thick a column of a width must be, by halving."""
    # solid, and with no more than its skins
    low = 2 * SHELL_MM
    high = low + math.sqrt(6.0 * modulus_mm3 / wide_mm) + modulus_mm3 / (wide_mm * SHELL_MM)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (
            (middle, high) if hollow_modulus_mm3(wide_mm, middle) < modulus_mm3 else (low, middle)
        )
    return high
