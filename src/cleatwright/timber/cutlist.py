"""The cut list: one row a cut, in the order of the work, with the cautions that belong to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.lengths import LengthUnit, cell, column
from cleatwright.timber import cautions
from cleatwright.timber.boards import CuttingPlan
from cleatwright.timber.rails import BevelRip

Cells = tuple[str, ...]


@dataclass(frozen=True)
class CutList:
    """A table for print or CSV.

    Args:
        title: What the table is for.
        header: Names of the columns.
        rows: The cells as text.
        notes: Sentences on the plan as a whole.
        cautions: What can hurt, the most important first.
    """

    title: str
    header: Cells
    rows: tuple[Cells, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]


def crosscut_list(plan: CuttingPlan, *, unit: LengthUnit = "mm") -> CutList:
    """Return the list for cutting to length, board by board, the piece nearest the end first."""
    rows: list[Cells] = []
    for number, board in enumerate(plan.boards, start=1):
        last = len(board.pieces)
        for turn, cut in enumerate(board.pieces, start=1):
            rows.append(
                (
                    str(number),
                    board.stock.name,
                    str(turn),
                    cut.piece.name,
                    cell(cut.piece.length_mm, unit),
                    cell(cut.start_mm, unit),
                    cell(board.offcut_mm, unit) if turn == last else "",
                )
            )
    lengths = (column(name, unit) for name in ("length", "from end", "remainder"))
    kerf = (
        f"Each cut takes {said.mm(plan.kerf_mm, '.1f')}. Measure each piece after the cut before "
        "it."
    )
    return CutList(
        title="Cut to length",
        header=("board", "stock", "cut", "piece", *lengths),
        rows=tuple(rows),
        notes=(plan.verdict, kerf),
        cautions=cautions.CROSSCUT,
    )


def rip_list(rips: Sequence[BevelRip], *, unit: LengthUnit = "mm") -> CutList:
    """Return the list for ripping the bevels, one row a profile."""
    rows = tuple(
        (
            "; ".join(rip.rails),
            cell(rip.profile.height_mm, unit),
            cell(rip.profile.thickness_mm, unit),
            f"{rip.profile.bevel_deg:g}",
            f"{rip.blade_tilt_deg:g}",
            cell(rip.fence_mm, unit),
            cell(rip.strip_mm, unit),
            cell(rip.total_mm, unit),
        )
        for rip in rips
    )
    fence = (
        "The fence is measured at the table, to the side of the blade that faces it, with the "
        "blade tilted away from the fence."
    )
    order = "Rip the square strips first; one bevel rip then gives two mating rails."
    return CutList(
        title="Rip the bevels",
        header=(
            "rails",
            column("height", unit),
            column("thickness", unit),
            "bevel deg",
            "blade tilt deg",
            column("fence", unit),
            column("strip for a pair", unit),
            column("total length", unit),
        ),
        rows=rows,
        notes=(fence, order),
        cautions=cautions.BEVEL_RIP,
    )
