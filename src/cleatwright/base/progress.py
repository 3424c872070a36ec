"""How long work tells what it is doing, and how it is asked to stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol, TypeVar

Item = TypeVar("Item")


class Progress(Protocol):
    """Told of each step; it may raise Cancelled to stop the work between two steps."""

    def step(self, stage: str, done: int, total: int) -> None:
        """Take note that ``done`` of ``total`` steps of a stage are behind us."""
        ...


class Silent:
    """Takes no note of anything."""

    def step(self, stage: str, done: int, total: int) -> None:
        """Do nothing."""


def tracked(items: Iterable[Item], stage: str, progress: Progress) -> Iterator[Item]:
    """Yield the items and report each as done when the next is asked for."""
    whole = list(items)
    progress.step(stage, 0, len(whole))
    for done, item in enumerate(whole, 1):
        yield item
        progress.step(stage, done, len(whole))
