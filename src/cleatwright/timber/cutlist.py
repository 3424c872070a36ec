"""The cut list: one row a cut, in the order of the work, with the cautions that belong to it."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.timber import cautions
from cleatwright.timber.boards import CuttingPlan
from cleatwright.timber.rails import BevelRip

Cells = tuple[str, ...]

CUT_HEADER: Cells = ("board", "stock", "cut", "piece", "length mm", "from end mm", "remainder mm")
RIP_HEADER: Cells = (
    "rails",
    "height mm",
    "thickness mm",
    "bevel deg",
    "blade tilt deg",
    "fence mm",
    "strip for a pair mm",
    "total length mm",
)


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

    def csv_text(self) -> str:
        """Return the header and the rows as comma-separated text (RFC 4180)."""
        text = io.StringIO()
        writer = csv.writer(text)
        writer.writerow(self.header)
        writer.writerows(self.rows)
        return text.getvalue()


def crosscut_list(plan: CuttingPlan) -> CutList:
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
                    _mm(cut.piece.length_mm),
                    _mm(cut.start_mm),
                    _mm(board.offcut_mm) if turn == last else "",
                )
            )
    kerf = f"Each cut takes {_mm(plan.kerf_mm)} mm. Measure each piece after the cut before it."
    return CutList(
        title="Cut to length",
        header=CUT_HEADER,
        rows=tuple(rows),
        notes=(plan.verdict, kerf),
        cautions=cautions.CROSSCUT,
    )


def rip_list(rips: Sequence[BevelRip]) -> CutList:
    """Return the list for ripping the bevels, one row a profile."""
    rows = tuple(
        (
            "; ".join(rip.rails),
            _mm(rip.profile.height_mm),
            _mm(rip.profile.thickness_mm),
            f"{rip.profile.bevel_deg:g}",
            f"{rip.blade_tilt_deg:g}",
            _mm(rip.fence_mm),
            _mm(rip.strip_mm),
            _mm(rip.total_mm),
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
        header=RIP_HEADER,
        rows=rows,
        notes=(fence, order),
        cautions=cautions.BEVEL_RIP,
    )


def _mm(length_mm: float) -> str:
    return f"{length_mm:.1f}"
