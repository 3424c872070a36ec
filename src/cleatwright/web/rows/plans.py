"""Two arrangements of a wall for the browser: the one that is, and one that could be taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Literal

from pydantic import Field

from cleatwright.base.stages.run import Run
from cleatwright.jobs.arranging_again import Asked, FoundArrangement
from cleatwright.jobs.comparing_lines import comparing_lines
from cleatwright.jobs.placing import identity_of
from cleatwright.jobs.two_arrangements import Side, TwoArrangements
from cleatwright.wall.weights import PREFERENCES, Wanted
from cleatwright.web.rows.row import FaultRow, Row
from cleatwright.web.rows.wall import ShownPanelRow, panel_row

MOST_TRIES = 40


class PreferenceRow(Row):
    """What a search can be asked for."""

    key: Wanted
    name: str
    words: str


class AskedRow(Row):
    """What is looked for."""

    panel: str = Field("wall", max_length=200)
    wanted: Wanted = "usual"
    tries: int = Field(12, ge=1, le=MOST_TRIES)
    given_stays: bool = False
    hung_moves: bool = False

    def asked(self) -> Asked:
        """Return it as the job takes it."""
        return Asked(self.panel, self.wanted, self.tries, self.given_stays, self.hung_moves)


class DearRow(Row):
    """What costs most."""

    name: str
    points: float
    reasons: tuple[str, ...]


class ComparingRow(Row):
    """One line of the table of two arrangements."""

    what: str
    now: str
    other: str
    more: str
    chief: bool


class SideRow(Row):
    """One of two arrangements; things have the keys and numbers that they have now."""

    panel: ShownPanelRow
    rail_mm: float
    dearest: tuple[DearRow, ...]
    failing: tuple[str, ...]
    warnings: tuple[str, ...]


class MovedRow(Row):
    """Something that hangs elsewhere in the other one."""

    key: str
    numbers: tuple[int, ...]
    name: str
    way: str
    hangs: bool = Field(description="whether it hangs already, and would have to be moved")


class TwoRow(Row):
    """Two arrangements of one panel."""

    revision: int
    now: SideRow
    other: SideRow
    moved: tuple[MovedRow, ...]
    lines: tuple[ComparingRow, ...]
    renewed: tuple[str, ...] = Field(description="parts that would have to be made anew")


class AgainRow(Row):
    """Looking for another arrangement: how far that is, and the best so far."""

    state: Literal["running", "done", "stopped", "failed"]
    asked: AskedRow
    done: int
    total: int
    tried: int
    found_at: int
    bound: float | None = Field(description="points that no such arrangement can undercut")
    faults: tuple[FaultRow, ...]
    two: TwoRow | None


class RoomRow(Row):
    """Making room for something where others hang."""

    state: Literal["running", "done", "stopped", "failed"]
    key: str
    x_mm: float
    z_mm: float
    faults: tuple[FaultRow, ...]
    two: TwoRow | None


def preference_rows() -> tuple[PreferenceRow, ...]:
    """Return everything that a search can be asked for."""
    return tuple(
        PreferenceRow(key=key, name=one.name, words=one.words) for key, one in PREFERENCES.items()
    )


def asked_row(asked: Asked) -> AskedRow:
    """Return what is looked for as a row."""
    return AskedRow(
        panel=asked.panel,
        wanted=asked.wanted,
        tries=asked.tries,
        given_stays=asked.given_stays,
        hung_moves=asked.hung_moves,
    )


def bound_of(found: FoundArrangement | None) -> float | None:
    """Return the bound, when it is a number."""
    return found.bound if found is not None and found.bound < 1e9 else None


def two_row(two: TwoArrangements, run: Run, revision: int) -> TwoRow:
    """Return two arrangements as rows."""
    hung = {item.key for item in two.now.panel.problem.items if item.hangs_at is not None}
    numbers = {
        unit.planned.key: tuple(sorted(one.number for one in unit.planned.holders))
        for unit in two.now.panel.units
    }
    return TwoRow(
        revision=revision,
        now=_side(two.now, run, {}),
        other=_side(two.other, run, _of_now(two)),
        moved=tuple(
            MovedRow(
                key=one.key,
                numbers=numbers[one.key],
                name=one.name,
                way=two.now.panel.words(one.way),
                hangs=one.key in hung,
            )
            for one in two.moved
        ),
        lines=tuple(
            ComparingRow(**asdict(one)) for one in comparing_lines(two, two.now.at.workshop.units)
        ),
        renewed=two.renewed,
    )


Names = Mapping[str, tuple[str, Mapping[int, int]]]
"""From the key of something in the other one to its key now, and the numbers of its holders."""


def _of_now(two: TwoArrangements) -> Names:
    """Return what things are called now that have other numbers in the other document."""
    now = {identity_of(unit): unit.planned for unit in two.now.panel.units}
    found: dict[str, tuple[str, Mapping[int, int]]] = {}
    for unit in two.other.panel.units:
        before = now.get(identity_of(unit))
        if before is not None:
            pairs = zip(unit.planned.holders, before.holders, strict=True)
            found[unit.planned.key] = (before.key, {b.number: a.number for b, a in pairs})
    return found


def _side(side: Side, run: Run, names: Names) -> SideRow:
    row = panel_row(side.panel, side.at.workshop, run)

    def known(key: str) -> tuple[str, Mapping[int, int]]:
        return names.get(key, (key, {}))

    def called(key: str, number: int) -> int:
        return known(key)[1].get(number, number)

    hung = [
        one.model_copy(
            update={
                "key": known(one.key)[0],
                "numbers": tuple(called(one.key, number) for number in one.numbers),
            }
        )
        for one in row.hung
    ]
    shapes = [
        one.model_copy(update={"key": known(one.key)[0], "number": called(one.key, one.number)})
        for one in row.shapes
    ]
    return SideRow(
        panel=row.model_copy(update={"hung": tuple(hung), "shapes": tuple(shapes)}),
        rail_mm=side.rail_mm,
        dearest=tuple(
            DearRow(name=one.name, points=one.points, reasons=one.reasons) for one in side.dearest
        ),
        failing=side.failing,
        warnings=side.panel.words.all(side.found.warnings),
    )
