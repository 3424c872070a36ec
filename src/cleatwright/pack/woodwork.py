"""From rails on the wall to lists for the saw."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from cleatwright.base import said
from cleatwright.base.errors import StockError
from cleatwright.base.keys import content_key
from cleatwright.base.lengths import LengthUnit, Wording, cell
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.kit.word_sheet import Block, cautions_block
from cleatwright.siting.walls import rail_profile
from cleatwright.timber.boards import CuttingPlan, Piece, Stock
from cleatwright.timber.carriers import (
    CarrierWood,
    carrier_notes,
    carrier_pieces,
    hook_strips,
    square_rips,
)
from cleatwright.timber.cutlist import CutList, crosscut_list, rip_list
from cleatwright.timber.cutting import cut_boards
from cleatwright.timber.rails import bevel_rips, pair_strip_mm
from cleatwright.wall.rail import Rail
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import stock_place
from cleatwright.workshop.document.sections import RailRules


@dataclass(frozen=True)
class Woodwork:
    """The rails to be made and, when the workshop names its boards, how they are cut."""

    rails: tuple[Rail, ...]
    plan: CuttingPlan | None
    lists: tuple[tuple[str, CutList], ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class ToSaw:
    """What shall be made of wood, and of which boards.

    Args:
        rules: How rails are made, and the boards.
        units: The unit in which people read lengths.
        rails: The rails to be made.
        carriers: The carriers of wood, whose boards and strips come from the rail stock.
    """

    rules: RailRules
    units: LengthUnit
    rails: tuple[Rail, ...]
    carriers: tuple[CarrierWood, ...]


def woodwork(
    workshop: Workshop, rails: Iterable[Rail], *, carriers: Iterable[CarrierWood] = (), run: Run
) -> Woodwork:
    """Return the lists for the saw.

    Args:
        workshop: The document.
        rails: The rails to be made.
        carriers: The carriers of wood to be made.
        run: The run that keeps what was cut before.

    Raises:
        StockError: A piece is longer than every board, or the boards do not suffice.
    """
    try:
        wanted = ToSaw(workshop.rail, workshop.units, tuple(rails), tuple(carriers))
        return run.need(WOODWORK, wanted)
    except StockError as error:
        raise error.at(stock_place(workshop)) from error


def _woodwork(_: Run, wanted: ToSaw) -> Woodwork:
    rail, rails, carriers = wanted.rules, wanted.rails, wanted.carriers
    if not rails and not carriers:
        return Woodwork((), None, ())
    lists = [("rip-list", _rips(wanted))]
    plan = None
    if rail.stocks:
        stocks = [Stock(one.name, one.length_mm, one.count or None) for one in rail.stocks]
        pieces = [
            *(Piece(one.name, one.length_mm) for one in rails),
            *carrier_pieces(carriers, rail_height_mm=rail.height_mm),
        ]
        plan = cut_boards(pieces, stocks, kerf_mm=rail.kerf_mm)
        lists.append(("cut-list", crosscut_list(plan, unit=wanted.units)))
    profile = rail_profile(rail)
    strip = pair_strip_mm(profile, profile, kerf_mm=rail.kerf_mm)
    order = (
        f"Timber: {rail.timber}, {said.mm(rail.thickness_mm)} thick. Rip the bevels along the "
        "whole board first, then cut to length."
    )
    pairs = (
        f"Each board counts here as one rail strip {said.mm(rail.height_mm)} high. A board at "
        f"least {said.least(strip)} wide gives two strips by one bevel rip; fewer boards may "
        "then do."
    )
    notes = carrier_notes(carriers, rail_height_mm=rail.height_mm)
    return Woodwork(rails, plan, tuple(lists), (order, pairs, *notes))


WOODWORK = Stage("lists for the saw", _woodwork, content_key)
"""From what shall be made of wood to the lists for the saw."""


def _rips(wanted: ToSaw) -> CutList:
    """Return the rip list: the bevels of rails and hook strips, then the square strips."""
    rail, unit = wanted.rules, wanted.units
    bevels = rip_list(
        bevel_rips((*wanted.rails, *hook_strips(wanted.carriers)), kerf_mm=rail.kerf_mm), unit=unit
    )
    squares = tuple(
        (
            one.name if one.count == 1 else f"{one.name}, {one.count} widths",
            cell(one.height_mm, unit),
            cell(one.thickness_mm, unit),
            "0",
            "0",
            cell(one.height_mm, unit),
            "",
            cell(one.count * one.length_mm, unit),
        )
        for one in square_rips(wanted.carriers, rail_height_mm=rail.height_mm)
    )
    return replace(bevels, rows=(*bevels.rows, *squares))


def wood_blocks(work: Woodwork, words: Wording) -> tuple[Block, ...]:
    """Return the notes and cautions of the saw's lists, in the unit of the workshop."""
    tables = [table for _, table in work.lists]
    return (
        *(cautions_block(f"{table.title}: cautions", table.cautions) for table in tables),
        *(Block(table.title, "note", words.all(table.notes)) for table in tables),
        Block("Boards", "note", words.all(work.notes)),
    )
