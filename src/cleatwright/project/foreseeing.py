"""What can be said of the walls of a workshop before anything is arranged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, StockError, WallError
from cleatwright.base.gathering import noted
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import PlannedUnit, Unit, build_units, wooden_carriers
from cleatwright.design.describing import DESCRIBED
from cleatwright.pack.carrier_papers import carrier_wood
from cleatwright.siting.arranging import Words
from cleatwright.siting.given_places import off_the_wall
from cleatwright.siting.hung.in_use import parts_there
from cleatwright.siting.people import on_panel
from cleatwright.siting.walls import ITEM, rail_rule, wall_space
from cleatwright.siting.written_at import written_at
from cleatwright.timber.boards import Stock
from cleatwright.timber.carriers import carrier_pieces
from cleatwright.timber.cutting import cut_boards
from cleatwright.wall.inputs import check_problem
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.studs import reaches_of
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import stock_place
from cleatwright.workshop.document.surfaces import Panel
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.ready_parts import ReadyParts


@dataclass(frozen=True)
class Foreseen:
    """What is known before anything is arranged.

    Args:
        faults: What stands in the way however the walls are arranged.
        remarks: What will be warned of, or stands in the way of most arrangements.
    """

    faults: tuple[CleatwrightError, ...]
    remarks: tuple[str, ...]


def foreseen(
    workshop: Workshop, units: Sequence[PlannedUnit], *, hung: WhatHangs, run: Run
) -> Foreseen:
    """Return what stands in the way of making a workshop however its walls are arranged.

    These are given places that cannot be kept, and boards too short for what must be cut
    from them. Only what has a given place, and carriers of wood, are built for it.

    Args:
        workshop: The document.
        units: What shall hang.
        hung: What hangs.
        run: The run that keeps what was computed before.
    """
    faults: list[CleatwrightError] = []
    remarks: list[str] = []
    for panel in workshop.surfaces():
        with noted(faults):
            on_panel(workshop, panel)
        with noted(faults):
            faults += _given_places(workshop, panel, units, hung=hung, run=run)
    if workshop.rail.stocks:
        with noted(faults):
            _cut_carriers(workshop, units, hung=hung, run=run)
        short = tuple(_short_boards(workshop, units, hung=hung, run=run))
        faults += (fault for fault, stops in short if stops)
        remarks += (_remark(fault) for fault, stops in short if not stops)
    return Foreseen(tuple(faults), tuple(remarks))


def _given_places(
    workshop: Workshop,
    panel: Panel,
    units: Sequence[PlannedUnit],
    *,
    hung: WhatHangs,
    run: Run,
) -> tuple[CleatwrightError, ...]:
    """Return the faults of given places on a panel.

    Raises:
        DesignError: What shall hang there cannot be built, or not with the others.
    """
    fixed = [one for one in units if one.panel == panel.name and one.fixed is not None]
    if not fixed:
        return ()
    built = build_units(fixed, run)
    items = tuple(run.need(ITEM, one) for one in built)
    problem = WallProblem(wall_space(panel), rail_rule(workshop, panel), items)
    off = off_the_wall(workshop, built, problem=problem)
    # what hangs on rails that hang already needs none of its own
    if not off and not panel.rails and not _rails_hang(panel, hung):
        try:
            with written_at(workshop, panel, fixed):
                check_problem(problem)
        except WallError as error:
            words = Words({one.planned.key: one.planned.name for one in built})
            raise words.told(error) from error
    return off


def _remark(fault: CleatwrightError) -> str:
    return f"{fault.given[0].upper()}{fault.given[1:]}. {fault.todo}."


def _cut_carriers(
    workshop: Workshop, units: Sequence[PlannedUnit], *, hung: WhatHangs, run: Run
) -> None:
    """Cut the wood of the carriers that do not hang yet, and nothing else, from the boards."""
    wooden = [one for one in units if one.carrier is not None and one.carrier.made_of == "wood"]
    built = build_units(wooden, run)
    pieces = carrier_pieces(
        carrier_wood(wooden_carriers(built, but=_hanging(built, hung))),
        rail_height_mm=workshop.rail.height_mm,
    )
    stocks = [Stock(one.name, one.length_mm, one.count or None) for one in workshop.rail.stocks]
    try:
        cut_boards(pieces, stocks, kerf_mm=workshop.rail.kerf_mm)
    except StockError as error:
        raise error.at(stock_place(workshop)) from error


def _hanging(built: Sequence[Unit], hung: WhatHangs) -> frozenset[str]:
    if not built:
        return frozenset()
    return parts_there(hung.holders, built, lambda _: (), ready=ReadyParts()).in_use


def _short_boards(
    workshop: Workshop, units: Sequence[PlannedUnit], *, hung: WhatHangs, run: Run
) -> Iterator[tuple[StockError, bool]]:
    """Yield what each panel needs longer boards for, and whether nothing can be made without.

    Where a rail hangs already, nothing may need a new one. Rails that carry several plates may
    be parted between them, so that none of them meets two studs; then they are only warned of.
    """
    board = max(workshop.rail.stocks, key=lambda one: one.length_mm)
    for panel in workshop.surfaces():
        widths = dict(_plates(panel, units, run))
        if not widths or panel.rails or _rails_hang(panel, hung):
            continue
        studs_mm, widest = _between_studs_mm(panel), max(widths, key=lambda name: widths[name])
        needed_mm, why = widths[widest], f'"{widest}" needs a rail behind its whole plate'
        stops = needed_mm > board.length_mm or len(widths) == 1
        if studs_mm > needed_mm:
            needed_mm, why = studs_mm, "a rail must meet two studs to be fixed safely"
        if needed_mm <= board.length_mm:
            continue
        # a rail lies off its studs and its plates by as much as all of them
        enough_mm = studs_mm + widths[widest] + 2 * rail_rule(workshop, panel).end_room_mm
        yield (
            StockError(
                f"{why}, for which it is {said.at(needed_mm)} long at the least, and the "
                f'longest board, "{board.name}", has {said.at(board.length_mm)}',
                place=stock_place(workshop),
                allowed=f"at least {said.least(needed_mm)}",
                todo=f"Write a [[rail.stock]] with a length of at least {said.least(enough_mm)}",
            ),
            stops,
        )


def _plates(panel: Panel, units: Sequence[PlannedUnit], run: Run) -> Iterator[tuple[str, float]]:
    """Yield the name and the width of each plate that hangs on a rail of a panel."""
    for unit in units:
        part = run.need(DESCRIBED, unit.carrier or unit.holders[0].recipe)
        if unit.panel == panel.name and part.hanging.on_rail:
            yield unit.name, part.bounds_mm[1][0] - part.bounds_mm[0][0]


def _between_studs_mm(panel: Panel) -> float:
    """Return how long a rail is at the least that meets two studs; 0 where no stud is known."""
    reaches = [least for least, _ in reaches_of(studs_of(panel), wall_mm=panel.width_mm)]
    return min((b.to_mm - a.from_mm for a, b in pairwise(reaches)), default=0.0)


def _rails_hang(panel: Panel, hung: WhatHangs) -> bool:
    return any(rail.panel == panel.name for rail in hung.rails)
