"""What plates in the grooves of a back bear, and what holds these on a board or a wall.

section              turn m about the middle of the groove, of weights and of the hand, at y = 0:

  ┌┬ high            the bottom pressed on     N = m / (middle - low), and the tongue is drawn by
  ││ ◎ upper row                               N + F
  ││╲ groove         the bottom swung out      the neck of the tongue bears -m, drawn by F
  ││╱
  ├┘ low             The rows bear the same about the face of the board, which is a plate's
  │  ◎ lower row     thickness behind y = 0: the bottom pressed on at ``foot``, the upper row is
  └─ foot            drawn; swung out about ``high``, the lower one; between the two both are.
                     Rows between the two bear weight alone.

A knock along the wall turns the holder in its plane: two plates bear it as a couple up and down, a
single one by its bolt below, or by both halves of its tongue.
Source: derived here; a distribution of forces in equilibrium is on the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from cleatwright.parts.groove_hold import GrooveHold, HookBar
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.hanger_stress import HangerForces


def turning_nmm(case: LoadCase, *, z_mm: float, behind_mm: float = 0.0) -> float:
    """Return the moment that presses the bottom of a back to the wall.

    Args:
        case: Weights and a hand's pull and lift.
        z_mm: The height about which.
        behind_mm: How far behind the back's face about which.

    >>> turning_nmm(LoadCase("", 10.0, 300.0, 5.0, 20.0), z_mm=0.0, behind_mm=5.0)
    450.0
    """
    return case.turning_nmm(z_mm) + behind_mm * (case.weight_n - case.lift_n)


def tongue_forces(case: LoadCase, hold: GrooveHold, *, twist_n: float = 0.0) -> HangerForces:
    """Return the forces at the grooves in a case.

    Args:
        case: Weights and a hand's pull and lift.
        hold: The plates.
        twist_n: What a turn along the wall adds up and down, as if all tongues bore the worst.
    """
    up = abs(case.weight_n - case.lift_n) + twist_n
    turn = turning_nmm(case, z_mm=hold.middle_mm)
    pressed = max(0.0, turn) / (hold.middle_mm - hold.low_mm)
    out, moment = case.pull_n + pressed, max(0.0, -turn)
    groove = hold.groove
    shoulder = (moment + sum(groove.flank_at_mm) * up) / groove.shoulder_mm
    upper = (up + out + shoulder) / 2
    lower = max(0.0, upper - up)
    return HangerForces(*map(np.asarray, (up, out, moment, shoulder, upper, lower)))


@dataclass(frozen=True)
class RowPulls:
    """What draws the rows out of the wall, and presses the plates on it.

    Args:
        upper_n: On the upper row, all its columns together.
        lower_n: On the lower row; 0 where there is one row alone.
        high_n: Of the wall on the upper end of the plates.
        foot_n: The same on their lower end.
    """

    upper_n: float
    lower_n: float
    high_n: float = 0.0
    foot_n: float = 0.0


def row_pulls(case: LoadCase, hold: GrooveHold) -> RowPulls:
    """Return what draws the rows of screws or hooks, all columns of each together.

    Args:
        case: Weights and a hand's pull and lift.
        hold: The plates.
    """

    def about(z: float) -> float:
        return turning_nmm(case, z_mm=z, behind_mm=hold.plate_mm)

    upper, lower = hold.rows_mm[0], hold.rows_mm[-1]
    pressed_on = about(hold.foot_mm) / (upper - hold.foot_mm)
    if pressed_on >= case.pull_n:
        drawn = max(0.0, pressed_on)
        return RowPulls(drawn, 0.0, foot_n=drawn - case.pull_n)
    swung_out = -about(hold.high_mm) / (hold.high_mm - lower)
    if swung_out >= case.pull_n or upper == lower:
        last = max(0.0, swung_out)
        one = upper == lower
        pushed = max(0.0, last - case.pull_n)
        return RowPulls(last if one else 0.0, 0.0 if one else last, high_n=pushed)
    both = about(lower) / (upper - lower)
    return RowPulls(both, case.pull_n - both)


def plate_mpa(case: LoadCase, hold: GrooveHold) -> float:
    """Return how far the plates are bent: 6 M / (b t2).

    At the middle of the grooves by what draws them above it, and where the back ends below.
    """
    pulls, middle = row_pulls(case, hold), hold.middle_mm
    above = (
        pulls.upper_n * max(0.0, hold.rows_mm[0] - middle)
        + pulls.lower_n * max(0.0, hold.rows_mm[-1] - middle)
        - pulls.high_n * max(0.0, hold.high_mm - middle)
    )
    reach = hold.low_mm - hold.foot_mm
    below = max(pulls.foot_n * reach, pulls.lower_n * max(0.0, hold.low_mm - hold.rows_mm[-1]))
    moment = max(abs(above), below)
    return 6.0 * moment / (hold.section_mm * hold.plate_mm**2)


def hook_mpa(case: LoadCase, hold: GrooveHold, bar: HookBar, *, twist_n: float = 0.0) -> float:
    """Return the stress in the bar of the hook that bears the most, bent down and drawn.

    All hooks share the weight; a row that is drawn is drawn at the middle of its noses.

    Args:
        case: Weights and a hand's pull and lift.
        hold: The plates.
        bar: The bar of each hook.
        twist_n: What a turn along the wall adds on one hook.
    """
    columns, rows = len(hold.columns_mm), len(hold.rows_mm)
    down = max(0.0, case.weight_n - case.lift_n) / (columns * rows) + twist_n
    pulls = row_pulls(case, hold)
    out = max(pulls.upper_n, pulls.lower_n) / columns
    bent = down * bar.lever_mm + out * (bar.high_mm + bar.drop_mm) / 2
    return 6.0 * bent / (bar.wide_mm * bar.high_mm**2) + out / (bar.wide_mm * bar.high_mm)


@dataclass(frozen=True)
class Twist:
    """What a knock along the wall asks of plates.

    Args:
        tongue_n: Up and down at the grooves, as if all tongues bore the worst.
        bolt_n: Along the wall on the bolt, and on the pin of the groove against it.
        hook_n: On one hook.
    """

    tongue_n: float
    bolt_n: float
    hook_n: float


def twist_of(knock_n: float, lever_mm: float, hold: GrooveHold) -> Twist:
    """Return what a knock asks of plates.

    Args:
        knock_n: The knock along the wall.
        lever_mm: How far above or below the grooves it acts.
        hold: The plates.
    """
    turn, first, last = knock_n * lever_mm, hold.tongues_mm[0], hold.tongues_mm[-1]
    columns = len(hold.columns_mm)
    if columns > 1:
        couple = turn / (last - first)
        apart = hold.columns_mm[-1] - hold.columns_mm[0]
        hooks = (turn / apart + knock_n / columns) / len(hold.rows_mm)
        return Twist(columns * couple, 0.0, hooks)
    apart = hold.rows_mm[0] - hold.rows_mm[-1]
    hooks = turn / apart + knock_n if apart > 0.0 else math.inf
    if hold.bolt_mm is not None:
        # the couple of tongue and bolt, and the knock itself on one of them
        return Twist(0.0, turn / (hold.middle_mm - hold.bolt_mm) + knock_n, hooks)
    # each half of the tongue bears one force of a couple half as long as it
    return Twist(4.0 * turn / hold.tongue_mm, knock_n, hooks)
