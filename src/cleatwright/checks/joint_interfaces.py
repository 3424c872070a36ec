"""Do the holders of a carrier sit in it without overlap?"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult

RULE = Source("holder against carrier", "", Evidence.DERIVED)
TOUCH_MM3 = 0.5


def check_joint_interfaces(overlaps_mm3: Sequence[float]) -> tuple[CheckResult, ...]:
    """Return the worst overlap of a seated holder with its carrier.

    Args:
        overlaps_mm3: The overlap of each holder, in order.
    """
    worst = max(range(len(overlaps_mm3)), key=lambda k: overlaps_mm3[k])
    return (
        CheckResult(
            "holders fit the carrier",
            overlaps_mm3[worst],
            TOUCH_MM3,
            "mm3",
            RULE,
            f"holder {worst + 1}",
        ),
    )
