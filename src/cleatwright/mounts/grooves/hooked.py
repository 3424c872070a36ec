"""Plates with hooks that go through a board, and pins above the upper ones.

section at one plate

  board  plate
   ║║   │▒│ ·── pin of filament over the bar, above all of the holder: the hook cannot rise
  ╭╨╨───┤ │ upper hook
  ╰╮║   │▒│
   ║║   │▒╲___
   ║║   │▒     │ tongue
   ║║   │▒╱‾‾‾
  ╭╨╨───┤ │ lower hook, one or more pitches below; the back of the holder keeps it in
  ╰╮║   │▒│
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from cleatwright.features.filament_pin import PIN_MM, pins
from cleatwright.features.flat_back import pitch_columns
from cleatwright.mounts.fittings import board_hook, hanger
from cleatwright.mounts.fittings.groove_plate import HOOK_PLATE, pin_above_mm
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.grooves.holding import Way
from cleatwright.mounts.grooves.plates import (
    RIM_MM,
    THICKS_MM,
    WIDER_MM,
    LaidPlates,
    PlateRows,
    beside,
    over_columns_mm,
    spans,
)
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.groove_hold import HookBar
from cleatwright.shapes.rigid import shift

# finger tips and pliers above a holder
PIN_CLEAR_MM = 2.5
PIN_OUT_MM = 4.0
MOST_ROWS_APART = 4
# about the head of a hook in its pocket
GAP_MM = 0.3
# of what goes through a round hole, the first that a pin can hold down
WIDE_SHARES = (0.6, 0.5, 0.4)
DROP_SHARE = 0.32
LEAST_DROP_MM = 0.9
PIN_ROOM_MM = 0.2
# of its drop a pinned hook may rise by so much
CAUGHT_SHARE = 0.8
# the two outermost columns alone
SPAN_MM = 1e9


@dataclass(frozen=True)
class BoardHooks:
    """The hooks of a board.

    Args:
        wide_mm: Width of a hook.
        bar_mm: Height of its bar.
        drop_mm: How far its nose catches behind the board.
        board_mm: Thickness of the board.
        play_mm: Play through the board.
        nose_mm: Thickness of the nose.
        pitch_mm: From opening to opening, along and up.
    """

    wide_mm: float
    bar_mm: float
    drop_mm: float
    board_mm: float
    play_mm: float
    nose_mm: float
    pitch_mm: float

    @property
    def half_mm(self) -> float:
        """Return what a column needs on each side."""
        return self.wide_mm / 2 + RIM_MM

    @property
    def head_mm(self) -> float:
        """Return how far its head reaches below the underside of its bar, with its play."""
        return self.drop_mm + board_hook.LAP_MM + GAP_MM

    @property
    def bar(self) -> HookBar:
        """Return its bar, which the board carries in its middle."""
        return HookBar(self.wide_mm, self.bar_mm, self.drop_mm, self.board_mm / 2)

    def fitting(self, x_mm: float, z_mm: float, thick_mm: float) -> Fitting:
        """Return one hook in a plate whose front lies at y = 0."""
        measures = (
            ("bar_mm", self.bar_mm),
            ("drop_mm", self.drop_mm),
            ("lip_mm", self.board_mm + self.play_mm),
            ("nose_mm", self.nose_mm),
            ("thick_mm", thick_mm),
            ("wide_mm", self.wide_mm),
        )
        rounded = tuple((name, round(value, 6)) for name, value in measures)
        return Fitting(board_hook.KIND.name, rounded, shift(x_mm - self.wide_mm / 2, 0.0, z_mm))


def hook_ways(back: CleatBack, hooks: BoardHooks) -> Iterator[Way]:
    """Yield plates with hooks in two rows, then in more.

    One plate alone where two are nearer to each other than two openings.

    Args:
        back: The back that they hold.
        hooks: The hooks of the board.
    """
    columns = _columns(back, hooks)
    if not columns:
        # one plate, and the bolt of the back
        yield from hook_ways(replace(back, first_alone=True), hooks)
        return
    over = over_columns_mm(back, columns, half_mm=hooks.half_mm)
    above_tongue = back.middle_mm + hanger.WIDE_MM / 2 + hooks.head_mm
    upper = max(over + PIN_CLEAR_MM - hooks.bar_mm, above_tongue)
    high = upper + pin_above_mm(hooks.bar_mm) + PIN_MM / 2 + RIM_MM
    below = hooks.head_mm + RIM_MM
    ways = product(WIDER_MM, range(1, MOST_ROWS_APART + 1), THICKS_MM)
    for wider, apart, thick in ways:
        rows = _rows(back, hooks, upper, apart)
        lower = rows[-1]
        along = spans(back, columns, half_mm=hooks.half_mm + wider)
        laid = LaidPlates(back, along, PlateRows(thick, rows, high, lower - below))
        # above the bolt's fork
        if (
            beside(along)
            and len(rows) > 1
            and (laid.bolt_mm is None or lower - below >= laid.bears_mm)
        ):
            yield _way(laid, hooks)


def _columns(back: CleatBack, hooks: BoardHooks) -> tuple[float, ...]:
    """Return where hooks stand: in the middle of a single tongue, else whole pitches apart."""
    if len(back.lefts_mm) == 1:
        return (back.lefts_mm[0] + back.tongue_mm / 2,)
    width = back.part.bounds_mm[1][0]
    found = pitch_columns(width, pitch_mm=hooks.pitch_mm, edge_mm=hooks.half_mm, span_mm=SPAN_MM)
    return found if len(found) > 1 else ()


def _rows(back: CleatBack, hooks: BoardHooks, upper_mm: float, apart: int) -> tuple[float, ...]:
    """Return rows of hooks over so many pitches, at each pitch where no tongue stands in the way.

    The upper one alone where the lowest would meet the tongue.
    """
    found = tuple(upper_mm - k * hooks.pitch_mm for k in range(apart + 1))
    if not any(_meets_tongue(back, one, hooks) for one in found):
        return found
    ends = (found[0], found[-1])
    return ends[:1] if _meets_tongue(back, ends[1], hooks) else ends


def _meets_tongue(back: CleatBack, row_mm: float, hooks: BoardHooks) -> bool:
    """Tell whether the tongue of its plate stands in the way of a hook that is put in."""
    low, high = row_mm - hooks.head_mm, row_mm + hooks.bar_mm + GAP_MM
    half = hanger.WIDE_MM / 2
    return low < back.middle_mm + half and high > back.middle_mm - half


def _way(laid: LaidPlates, hooks: BoardHooks) -> Way:
    rows, thick = laid.rows, laid.rows.thick_mm
    columns = tuple(one.column_mm for one in laid.spans)
    measures = {"wide_mm": hooks.wide_mm, "bar_mm": hooks.bar_mm, "drop_mm": hooks.drop_mm}
    return Way(
        laid,
        laid.hold(hole_mm=hooks.wide_mm, hook=hooks.bar),
        (
            *laid.fittings(HOOK_PLATE.name, measures),
            *(hooks.fitting(x, z, thick) for x in columns for z in rows.rows_mm),
        ),
        (
            pins(
                len(columns),
                long_mm=thick + hooks.board_mm + PIN_OUT_MM,
                note="through the hole above each upper hook, over its bar, when the holder hangs",
            ),
        ),
    )


def round_hole_hook(hole_mm: float, play_mm: float) -> tuple[float, float, float]:
    """Return how wide a hook for a round hole is, how high its bar, and how far its nose drops.

    Bar and nose go through the hole together: w2 + (bar + drop)2 = (hole - play)2. Once it hangs,
    a pin has room over the bar, and leaves less than the nose catches.

    >>> wide, bar, drop = round_hole_hook(6.35, 0.35)
    >>> round(wide, 6), round(wide**2 + (bar + drop) ** 2, 6)
    (3.6, 36.0)
    """
    across, radius = hole_mm - play_mm, hole_mm / 2
    # a pin that is not quite straight fits below its corners; a straight one rises to its crown
    corners = math.sqrt(radius**2 - PIN_MM**2 / 4)
    found = (0.0, 0.0, 0.0)
    for share in WIDE_SHARES:
        wide = share * across
        high = math.sqrt(across**2 - wide**2)
        # what a pin leaves over the bar beyond the drop
        spare = math.sqrt(radius**2 - wide**2 / 4) - high - PIN_MM
        least, most = PIN_ROOM_MM - corners - spare, -(radius + spare) / (1.0 - CAUGHT_SHARE)
        drop = max(least, min(DROP_SHARE * high, most))
        found = wide, high - drop, drop
        if drop <= most and drop >= LEAST_DROP_MM:
            break
    return found
