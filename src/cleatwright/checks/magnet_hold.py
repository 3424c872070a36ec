"""Do magnets hold a tool by friction, and do they keep it from tipping out?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.parts.hold import MagnetPull
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.standards.table import Listed
from cleatwright.statics.magnet_need import FACTOR, carrying_n, tipping_n_mm

TWICE = Source("hold by magnets", f"{FACTOR:g} times the tool's own weight", Evidence.CHOICE)
VALUES = (Listed("Magnets", "pull / weight", FACTOR, TWICE),)


@dataclass(frozen=True)
class _Held:
    seat: Seat
    magnet: MagnetPull
    number: int
    on_ledge: bool

    @property
    def weight_n(self) -> float:
        return self.seat.tool.mass_kg * GRAVITY_M_S2

    def friction(self) -> CheckResult:
        """Return the pull that carries by friction alone against the pull that is there."""
        need = carrying_n(self.weight_n, friction=self.magnet.friction)
        return self._result("carried by friction", need, self.magnet.pull_n, "N of pull")

    def tipping(self) -> CheckResult:
        """Return the moment that tips the tool out against that of the magnets."""
        need = tipping_n_mm(self.weight_n, out_mm=self.seat.com_mm[1] - self.magnet.face_y_mm)
        there = self.magnet.pull_n * self.magnet.lever_mm
        return self._result("held against tipping out", need, there, "N mm")

    def _result(self, name: str, need: float, there: float, unit: str) -> CheckResult:
        note = f"seat {self.number}, {self.magnet.source}"
        return CheckResult(name, need, there, unit, TWICE, note)


def check_magnets(seats: Sequence[Seat], *, on_ledge: Sequence[bool]) -> tuple[CheckResult, ...]:
    """Return the worst seat for friction, where nothing else carries, and for tipping out.

    Args:
        seats: The seats of a holder; those without magnets are passed over.
        on_ledge: For each seat, whether something below carries the tool.

    Source: Coulomb friction and a moment about the tipping edge, with a factor by choice.
    """
    held = [
        _Held(seat, seat.magnet, number, ledge)
        for number, (seat, ledge) in enumerate(zip(seats, on_ledge, strict=True), start=1)
        if seat.magnet is not None
    ]
    groups = (
        [one.friction() for one in held if not one.on_ledge],
        [one.tipping() for one in held],
    )
    return tuple(max(group, key=lambda result: result.utilisation) for group in groups if group)
