"""Whole numbers for people."""

from __future__ import annotations

from collections.abc import Iterable


def ranges(numbers: Iterable[int]) -> str:
    """Return ascending numbers with those that follow each other as a range.

    >>> ranges((4, 5, 6, 9))
    '4-6, 9'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join("-".join(str(n) for n in sorted({run[0], run[-1]})) for run in runs)
