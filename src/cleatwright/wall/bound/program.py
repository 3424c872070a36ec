"""A linear program that grows row by row, solved by a general solver."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from cleatwright.base.interrupts import defer_interrupts

if TYPE_CHECKING:
    from scipy.optimize import OptimizeResult


@dataclass
class Program:
    """Columns with costs and limits, rows with limits; the least cost is wanted."""

    cost: list[float] = field(default_factory=list[float])
    least: list[float] = field(default_factory=list[float])
    most: list[float] = field(default_factory=list[float])
    whole: list[int] = field(default_factory=list[int])
    row_of: list[int] = field(default_factory=list[int])
    column_of: list[int] = field(default_factory=list[int])
    factor: list[float] = field(default_factory=list[float])
    row_low: list[float] = field(default_factory=list[float])
    row_high: list[float] = field(default_factory=list[float])

    def column(
        self, cost: float, *, least: float = 0.0, most: float = np.inf, whole: int = 0
    ) -> int:
        """Add a column and return its number.

        Args:
            cost: What each of it costs.
            least: How much there is of it at least.
            most: How much at most.
            whole: 0 for a column of which any share may be used; of others, branching takes those
                with the lowest number first.
        """
        self.cost.append(cost)
        self.least.append(least)
        self.most.append(most)
        self.whole.append(whole)
        return len(self.cost) - 1

    def row(
        self, terms: list[tuple[int, float]], *, low: float = -np.inf, high: float = np.inf
    ) -> None:
        """Add the row ``low <= sum of factor times column <= high``."""
        number = len(self.row_low)
        for column, factor in terms:
            self.row_of.append(number)
            self.column_of.append(column)
            self.factor.append(factor)
        self.row_low.append(low)
        self.row_high.append(high)

    def solve(self, *, pinned: Sequence[tuple[int, float]] = ()) -> OptimizeResult:
        """Return the result with shares of whole columns allowed, and some columns pinned."""
        with defer_interrupts():
            from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415 - loads on use
            from scipy.sparse import coo_array, csr_array  # noqa: PLC0415 - loads on use
        shape = (len(self.row_low), len(self.cost))
        matrix = csr_array(coo_array((self.factor, (self.row_of, self.column_of)), shape=shape))
        least, most = np.array(self.least), np.array(self.most)
        for column, value in pinned:
            least[column] = most[column] = value
        return milp(
            np.array(self.cost),
            constraints=LinearConstraint(matrix, self.row_low, self.row_high),
            bounds=Bounds(least, most),
        )
