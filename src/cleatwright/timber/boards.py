"""What goes into and comes out of a cutting plan: pieces, stock, boards."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.errors import MeasureError, StockError

UNITS_PER_MM = 10
"""Lengths are cut in whole tenths of a millimetre; a finer length counts as the next tenth."""

_NOISE = 1e-6


def units_up(length_mm: float) -> int:
    """Return a length in tenths of a millimetre, rounded up but for floating-point noise.

    >>> units_up(603.2), units_up(0.21)
    (6032, 3)
    """
    return math.ceil(length_mm * UNITS_PER_MM - _NOISE)


def units_down(length_mm: float) -> int:
    """Return a length in tenths of a millimetre, rounded down but for floating-point noise."""
    return math.floor(length_mm * UNITS_PER_MM + _NOISE)


@dataclass(frozen=True)
class Piece:
    """A piece to be cut: its name and its finished length in mm (> 0)."""

    name: str
    length_mm: float

    def __post_init__(self) -> None:
        """Raise MeasureError for a length that is none."""
        if not (math.isfinite(self.length_mm) and units_up(self.length_mm) > 0):
            raise MeasureError(
                f"a length of {said.mm(self.length_mm)}",
                where=self.name,
                allowed=f"more than {said.mm(0)}",
            )


@dataclass(frozen=True)
class Stock:
    """Boards of one length in mm: as many as needed, or ``count`` (>= 1) of them."""

    name: str
    length_mm: float
    count: int | None = None

    def __post_init__(self) -> None:
        """Raise MeasureError for a board that is none."""
        if not (math.isfinite(self.length_mm) and units_down(self.length_mm) > 0):
            raise MeasureError(
                f"a board of {said.mm(self.length_mm)}",
                where=self.name,
                allowed=f"more than {said.mm(0)}",
            )
        if self.count is not None and self.count < 1:
            raise MeasureError(f"{self.count} boards", where=self.name, allowed="1 or more")


@dataclass(frozen=True)
class CutPiece:
    """A piece on its board; ``start_mm`` is measured from the end where cutting begins."""

    piece: Piece
    start_mm: float


@dataclass(frozen=True)
class Board:
    """One board and what is cut from it, in the order of cutting."""

    stock: Stock
    pieces: tuple[CutPiece, ...]
    kerf_mm: float

    @property
    def _left_mm(self) -> float:
        last = self.pieces[-1]
        left = self.stock.length_mm - last.start_mm - last.piece.length_mm
        return left if left * UNITS_PER_MM > _NOISE else 0.0

    @property
    def offcut_mm(self) -> float:
        """Return what remains behind the last cut; zero when the board comes out even."""
        return round(max(0.0, self._left_mm - self.kerf_mm), 6)

    @property
    def cuts(self) -> int:
        """Return how many cuts are made; a board that comes out even needs none at its end."""
        return len(self.pieces) - (0 if self._left_mm else 1)

    @property
    def kerf_loss_mm(self) -> float:
        """Return the length that becomes sawdust."""
        whole = (len(self.pieces) - 1) * self.kerf_mm
        return round(whole + min(self._left_mm, self.kerf_mm), 6)


@dataclass(frozen=True)
class CuttingPlan:
    """Which piece comes from which board.

    Args:
        boards: The boards, longest stock first.
        kerf_mm: Width of the saw cut.
        proven: True when no plan needs less stock, nor fewer boards of the same total length.
        lower_bound_mm: No plan can use less stock than this, by proof.
        method: How the plan was found and, when not proven, what stopped the proof.
    """

    boards: tuple[Board, ...]
    kerf_mm: float
    proven: bool
    lower_bound_mm: float
    method: str

    @property
    def stock_mm(self) -> float:
        """Return the total length of the boards used."""
        return sum(board.stock.length_mm for board in self.boards)

    @property
    def pieces_mm(self) -> float:
        """Return the total length of the pieces."""
        return sum(cut.piece.length_mm for board in self.boards for cut in board.pieces)

    @property
    def kerf_loss_mm(self) -> float:
        """Return the total length that becomes sawdust."""
        return sum(board.kerf_loss_mm for board in self.boards)

    @property
    def verdict(self) -> str:
        """Return one sentence that says how good the plan is, and no more than is proven."""
        boards = f"{len(self.boards)} board" + ("s" if len(self.boards) != 1 else "")
        if self.proven:
            return f"{boards}, {said.mm(self.stock_mm)}: proven optimal."
        return (
            f"{boards}, {said.mm(self.stock_mm)}: not proven optimal; "
            f"no plan can use less than {said.mm(self.lower_bound_mm)}."
        )


def lay_out(stock: Stock, pieces: Sequence[Piece], kerf_mm: float) -> Board:
    """Return a board with the pieces one behind the other, longest first, a kerf between them."""
    cuts: list[CutPiece] = []
    start = 0.0
    for piece in sorted(pieces, key=lambda p: (-p.length_mm, p.name)):
        cuts.append(CutPiece(piece, round(start, 6)))
        start += piece.length_mm + kerf_mm
    return Board(stock, tuple(cuts), kerf_mm)


def check_lengths(pieces: Sequence[Piece], stocks: Sequence[Stock]) -> None:
    """Raise StockError when a piece is longer than every board, naming the worst one."""
    if not stocks:
        raise StockError("there is no board in stock", todo="Add a board with its length")
    longest = max(stocks, key=lambda s: units_down(s.length_mm))
    for piece in sorted(pieces, key=lambda p: (-p.length_mm, p.name)):
        if units_up(piece.length_mm) > units_down(longest.length_mm):
            raise StockError(
                f'the piece "{piece.name}" is {said.at(piece.length_mm)} long, and the longest '
                f'board, "{longest.name}", has {said.mm(longest.length_mm)}',
                allowed=f"up to {said.most(longest.length_mm)}",
                todo="Write a [[rail.stock]] with a length of at least "
                f"{said.least(piece.length_mm)}",
            )
