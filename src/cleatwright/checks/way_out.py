"""Does every tool leave its seat to the front, and stay in it until it is lifted?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult

RULE = Source("swept envelope against the solid", "", Evidence.DERIVED)
TOUCH_MM3 = 0.5
DROP_MM = 1.0
NUDGE_MM = 6.0


@dataclass(frozen=True)
class SeatTrial:
    """What a kernel measured at one seat, in mm3 of overlap with the holder.

    Args:
        name: Name of the seat for the report.
        resting_mm3: The tool at rest.
        swept_mm3: The tool along its way out.
        dropped_mm3: The tool moved down by DROP_MM.
        nudged_mm3: The tool moved straight to the front by NUDGE_MM.
        kept: Whether the seat promises to keep a nudged tool.
    """

    name: str
    resting_mm3: float
    swept_mm3: float
    dropped_mm3: float
    nudged_mm3: float
    kept: bool


def check_seats(trials: Sequence[SeatTrial]) -> tuple[CheckResult, ...]:
    """Return the worst result over all seats for each of: free, carried, kept."""
    worst = max(trials, key=lambda t: max(t.resting_mm3, t.swept_mm3))
    loosest = min(trials, key=lambda t: t.dropped_mm3)
    results = [
        CheckResult(
            "way out free",
            max(worst.resting_mm3, worst.swept_mm3),
            TOUCH_MM3,
            "mm3",
            RULE,
            worst.name,
        ),
        CheckResult(
            f"carried: a drop of {DROP_MM:g} mm meets the holder",
            TOUCH_MM3,
            loosest.dropped_mm3,
            "mm3",
            RULE,
            loosest.name,
        ),
    ]
    keepers = [trial for trial in trials if trial.kept]
    if keepers:
        freest = min(keepers, key=lambda t: t.nudged_mm3)
        results.append(
            CheckResult(
                f"kept: a nudge of {NUDGE_MM:g} mm to the front meets the holder",
                TOUCH_MM3,
                freest.nudged_mm3,
                "mm3",
                RULE,
                freest.name,
            )
        )
    return tuple(results)
