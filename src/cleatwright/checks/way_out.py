"""Does every tool leave its seat to the front, and stay in it until it is lifted?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult

RULE = Source("the tool all along its way out, against the holder", "", Evidence.DERIVED)
TOUCH_MM3 = 0.5
DROP_MM = 1.0
NUDGE_MM = 6.0


@dataclass(frozen=True)
class SeatTrial:
    """What a kernel measured at one seat.

    Args:
        name: Name of the seat for the report.
        swept_mm3: Overlap of the holder with the tool along its way out, the rest included.
        fall_mm: How far the tool falls until the holder carries it; infinity when it never does.
        slip_mm: How far it slips to the front until it is stopped; infinity when it never is.
        kept: Whether the seat promises to stop it.
        pulled: Whether magnets carry it when nothing below does; they are checked elsewhere.
    """

    name: str
    swept_mm3: float
    fall_mm: float
    slip_mm: float
    kept: bool
    pulled: bool = False

    @property
    def on_ledge(self) -> bool:
        """Return whether something below carries the tool."""
        return self.fall_mm <= DROP_MM


def check_seats(trials: Sequence[SeatTrial]) -> tuple[CheckResult, ...]:
    """Return the worst result over all seats for each of: free, carried, kept."""
    tightest = max(trials, key=lambda t: t.swept_mm3)
    results = [
        CheckResult("way out free", tightest.swept_mm3, TOUCH_MM3, "mm3", RULE, tightest.name)
    ]
    falling = [trial for trial in trials if trial.on_ledge or not trial.pulled]
    if falling:
        lowest = max(falling, key=lambda t: t.fall_mm)
        results.append(
            CheckResult("carried", lowest.fall_mm, DROP_MM, "mm of fall", RULE, lowest.name)
        )
    keepers = [trial for trial in trials if trial.kept]
    if keepers:
        loosest = max(keepers, key=lambda t: t.slip_mm)
        results.append(
            CheckResult(
                "kept until it is lifted",
                loosest.slip_mm,
                NUDGE_MM,
                "mm of slip",
                RULE,
                loosest.name,
            )
        )
    return tuple(results)
