"""What each screw or anchor of some rails must be able to bear, in numbers and in words."""

from __future__ import annotations

import math
from collections.abc import Iterable

from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.siting.rails.loading import RailLoads


def most_demanded(loaded: Iterable[RailLoads]) -> ScrewLoad | None:
    """Return the greatest tension and the greatest shear of all screws; None without any."""
    found = [one for one in (rail.demand for rail in loaded) if one is not None]
    if not found:
        return None
    return ScrewLoad(
        found[0].stud_mm,
        found[0].row_mm,
        max(one.shear_n for one in found),
        max(one.withdrawal_n for one in found),
    )


def must_bear(load: ScrewLoad | None) -> str:
    """Return what each must bear as a sentence, in whole newtons rounded up; "" for none.

    >>> must_bear(ScrewLoad(0.0, 0.0, 10.2, 30.0))
    'Each must bear 30 N out of the wall and 11 N along it at worst.'
    """
    if load is None:
        return ""
    out, along = math.ceil(load.withdrawal_n), math.ceil(load.shear_n)
    return f"Each must bear {out} N out of the wall and {along} N along it at worst."
