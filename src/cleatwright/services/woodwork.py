"""From rails on the wall to lists for the saw."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import StockError
from cleatwright.reports.tables import csv_bytes
from cleatwright.timber.boards import CuttingPlan, Piece, Stock
from cleatwright.timber.cutlist import CutList, crosscut_list, rip_list
from cleatwright.timber.cutting import cut_boards
from cleatwright.timber.rails import Profile, RailRun, bevel_rips, pair_strip_mm
from cleatwright.wall.model import Arrangement
from cleatwright.workshop.model import Workshop


@dataclass(frozen=True)
class Woodwork:
    """The rails to be made and, when the workshop names its boards, how they are cut."""

    rails: tuple[RailRun, ...]
    plan: CuttingPlan | None
    lists: tuple[tuple[str, CutList], ...]
    notes: tuple[str, ...] = ()


def woodwork(workshop: Workshop, arrangement: Arrangement, *, where: str) -> Woodwork:
    """Return the lists for the saw.

    Raises:
        StockError: A rail is longer than every board, or the boards do not suffice.
    """
    rail = workshop.rail
    profile = Profile(rail.height_mm, rail.thickness_mm, rail.bevel_deg)
    rails = tuple(RailRun(run.name, run.length_mm, profile) for run in arrangement.rails)
    if not rails:
        return Woodwork((), None, ())
    lists = [("rip-list", rip_list(bevel_rips(rails, kerf_mm=rail.kerf_mm)))]
    plan = None
    if rail.stocks:
        stocks = [Stock(one.name, one.length_mm, one.count or None) for one in rail.stocks]
        pieces = [Piece(run.name, run.length_mm) for run in rails]
        try:
            plan = cut_boards(pieces, stocks, kerf_mm=rail.kerf_mm)
        except StockError as error:
            raise error.located(f"{where}, rail, stock") from error
        lists.append(("cut-list", crosscut_list(plan)))
    strip = pair_strip_mm(profile, profile, kerf_mm=rail.kerf_mm)
    order = (
        f"Timber: {rail.timber}, {rail.thickness_mm:g} mm thick. Rip the bevels along the whole "
        "board first, then cut to length."
    )
    pairs = (
        f"Each board counts here as one rail strip {rail.height_mm:g} mm high. A board at least "
        f"{strip:.0f} mm wide gives two strips by one bevel rip; fewer boards may then do."
    )
    return Woodwork(rails, plan, tuple(lists), (order, pairs))


def wood_files(work: Woodwork) -> dict[str, bytes]:
    """Return the lists as CSV files by name."""
    return {
        f"wood/{name}.csv": csv_bytes(
            table.header,
            (*table.rows, *((note,) for note in (*table.notes, *work.notes))),
            cautions=table.cautions,
        )
        for name, table in work.lists
    }
