"""Plates laid out in the grooves of a back, and the fittings that they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cleatwright.features.filament_pin import PIN_MM
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.fittings.groove_plate import FORK_MM
from cleatwright.mounts.grooves.cleat_back import CleatBack
from cleatwright.mounts.printed import rail_back
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.groove_hold import GrooveHold, HookBar
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.shapes.rigid import shift

THICKS_MM = (5.0, 6.0, 8.0, 10.0)
# a plate for heavy tools is wider on both sides of its screws or hooks (a choice)
WIDER_MM = (0.0, 6.0)
# how far a plate reaches down behind a back, where nothing asks for more (a choice)
DOWN_MM = 45.0
RIM_MM = 3.0
# between two plates
APART_MM = 0.5
ROUNDING_MM = 1e-6
# a hand and a driver beside a pin or a screw
CLEAR_MM = 5.5
# a plate ends with its back, so that nothing of it shows below; less than that does not bear
LEAST_BELOW_MM = rail_back.UNDER_MM


@dataclass(frozen=True)
class PlateSpan:
    """Where one plate lies along a back.

    Args:
        tongue_mm: Where its tongue begins.
        column_mm: Where its screws or hooks stand.
        x0_mm: Its lower end.
        x1_mm: Its upper end.
        half_mm: How wide it is on both sides of these.
        bolt_mm: The middle of the bolt in its fork, and the height of that one's floor.
    """

    tongue_mm: float
    column_mm: float
    x0_mm: float
    x1_mm: float
    half_mm: float
    bolt_mm: tuple[float, float] | None = None


@dataclass(frozen=True)
class PlateRows:
    """How high and how thick plates are, and where their screws or hooks stand.

    Args:
        thick_mm: Their thickness.
        rows_mm: Heights of the rows, evenly apart, the upper one first.
        high_mm: Their upper end.
        low_mm: The highest that their lower end may be.
    """

    thick_mm: float
    rows_mm: tuple[float, ...]
    high_mm: float
    low_mm: float


def spans(back: CleatBack, columns_mm: Sequence[float], *, half_mm: float) -> tuple[PlateSpan, ...]:
    """Return a plate for each groove; a single one reaches over the bolt of the back.

    Args:
        back: The back.
        columns_mm: Where screws or hooks stand, one column in each plate.
        half_mm: What a column needs on each side.
    """
    found = [
        PlateSpan(
            left,
            column,
            min(left, column - half_mm),
            max(left + back.tongue_mm, column + half_mm),
            half_mm,
        )
        for left, column in zip(back.lefts_mm, columns_mm, strict=True)
    ]
    if len(found) > 1 or not back.bolts_mm:
        return tuple(found)
    one = found[0]
    at = min(back.bolts_mm, key=lambda pair: abs(pair[0] - one.tongue_mm - back.tongue_mm / 2))
    return (
        replace(
            one,
            x0_mm=min(one.x0_mm, at[0] - FORK_MM / 2),
            x1_mm=max(one.x1_mm, at[0] + FORK_MM / 2),
            bolt_mm=at,
        ),
    )


def middles(back: CleatBack) -> tuple[float, ...]:
    """Return the middle of each tongue."""
    return tuple(left + back.tongue_mm / 2 for left in back.lefts_mm)


def screw_places(back: CleatBack, *, half_mm: float) -> tuple[float, ...]:
    """Return where screws stand: in the middle of each tongue, or so far out that plates part.

    Args:
        back: The back.
        half_mm: What a column needs on each side.
    """
    found = middles(back)
    if len(found) == 1:
        return found
    middle = (found[0] + found[-1]) / 2
    aside = max((found[-1] - found[0]) / 2, half_mm + APART_MM / 2)
    return middle - aside, middle + aside


def beside(along: Sequence[PlateSpan]) -> bool:
    """Tell whether plates lie beside each other."""
    return all(a.x1_mm + APART_MM <= b.x0_mm + ROUNDING_MM for a, b in pairwise(along))


def over_columns_mm(back: CleatBack, columns_mm: Sequence[float], *, half_mm: float) -> float:
    """Return how high a holder reaches where its plates must be reached from the front."""
    half = max(half_mm, CLEAR_MM)
    high = [back.over_mm(x - half, x + half) for x in columns_mm]
    return max([*high, back.contact_mm + rail_back.TOP_MM])


@dataclass(frozen=True)
class LaidPlates:
    """Plates in the grooves of a back.

    Args:
        back: The back.
        spans: Where they lie along it.
        rows: How high they reach.
    """

    back: CleatBack
    spans: tuple[PlateSpan, ...]
    rows: PlateRows

    @property
    def bolt_mm(self) -> tuple[float, float] | None:
        """Return the middle of the bolt in the fork, and the height of its floor."""
        return self.spans[0].bolt_mm

    @property
    def low_mm(self) -> float:
        """Return the lower end of the plates."""
        if self.bolt_mm is not None:
            return self.bolt_mm[1]
        contact = self.back.contact_mm
        lows = [max(contact - DOWN_MM, self._back_low_mm(one)) for one in self.spans]
        return min(*lows, contact - LEAST_BELOW_MM, self.rows.low_mm)

    def _back_low_mm(self, one: PlateSpan) -> float:
        return self.back.back_low_mm(one.tongue_mm, one.tongue_mm + self.back.tongue_mm)

    @property
    def bears_mm(self) -> float:
        """Return the lowest height at which back and plates bear on each other."""
        if self.bolt_mm is not None:
            return self._roof_mm(self.bolt_mm[1])
        return max([self.low_mm, *(self._back_low_mm(one) for one in self.spans)])

    @staticmethod
    def _roof_mm(floor_mm: float) -> float:
        return floor_mm + bolt.LOW_MM + bolt.MIDDLE_RISE_MM

    def measures(self, one: PlateSpan) -> dict[str, float]:
        """Return the measures of a plate, whatever holds it."""
        contact, rows = self.back.contact_mm, self.rows
        found = {
            "thick_mm": rows.thick_mm,
            "width_mm": one.x1_mm - one.x0_mm,
            "tongue_from_mm": one.tongue_mm - one.x0_mm,
            "tongue_mm": self.back.tongue_mm,
            "above_mm": rows.high_mm - contact,
            "below_mm": contact - self.low_mm,
            "column_mm": one.column_mm - one.x0_mm,
            "half_mm": one.half_mm,
            "upper_mm": rows.rows_mm[0] - contact,
            "lower_mm": rows.rows_mm[-1] - contact,
            "rows": float(len(rows.rows_mm)),
        }
        if one.bolt_mm is not None:
            x, floor = one.bolt_mm
            found["fork_mm"] = x - one.x0_mm
            found["roof_mm"] = contact - self._roof_mm(floor)
        return found

    def fittings(self, kind: str, more: Mapping[str, float]) -> tuple[Fitting, ...]:
        """Return the plates, and the bolt that locks a single one below."""
        contact = self.back.contact_mm
        each = [_sorted({**self.measures(one), **more}) for one in self.spans]
        # what is not alike must not go on the other side
        alike = all(one == each[0] for one in each)
        found = [
            Fitting(
                kind,
                measures if alike else _sorted({**dict(measures), "corner": side}),
                shift(one.x0_mm, 0.0, contact),
            )
            for one, measures, side in zip(self.spans, each, (-1.0, 1.0), strict=False)
        ]
        if self.bolt_mm is not None:
            lead, (x, floor) = bolt.PLATE_LEAD_MM, self.bolt_mm
            at = shift(x - bolt.WIDTH_MM / 2, -bolt.shut_mm(lead), floor)
            found.append(Fitting(bolt.KIND.name, (("lead_mm", lead),), at))
        return tuple(found)

    def hold(
        self, *, hole_mm: float, hook: HookBar | None = None, screw: ScrewStrength | None = None
    ) -> GrooveHold:
        """Return how they hold.

        Args:
            hole_mm: How wide the hole or slot in each plate is.
            hook: The hooks, for a board.
            screw: What each screw may bear, where that is known.
        """
        back, rows = self.back, self.rows
        return GrooveHold(
            groove=_groove(back),
            tongues_mm=middles(back),
            tongue_mm=back.tongue_mm,
            middle_mm=back.middle_mm,
            low_mm=self.bears_mm,
            foot_mm=self.low_mm,
            high_mm=rows.high_mm,
            rows_mm=rows.rows_mm,
            columns_mm=tuple(one.column_mm for one in self.spans),
            plate_mm=rows.thick_mm,
            pin_mm=PIN_MM,
            section_mm=sum(2 * one.half_mm - hole_mm for one in self.spans),
            bolt_mm=None if self.bolt_mm is None else self._roof_mm(self.bolt_mm[1]),
            hook=hook,
            screw=screw,
        )


def _groove(back: CleatBack) -> HangerGroove:
    """Return the grooves with plates in them, that bear on the back as far as it reaches."""
    groove, count = back.groove, len(back.lefts_mm)
    return replace(
        groove,
        long_mm=count * back.tongue_mm,
        strip_mm=groove.strip_mm * count / back.groove_count,
        root_mm=2 * min(rail_back.TOP_MM - hanger.MIDDLE_MM, rail_back.UNDER_MM + hanger.MIDDLE_MM),
    )


def _sorted(measures: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    # lengths that were added in another order must not make another part
    return tuple(sorted((name, round(value, 6)) for name, value in measures.items()))
