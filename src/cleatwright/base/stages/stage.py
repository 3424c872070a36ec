"""A stage: one pure step of computing, with the key of its input."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic, Protocol, TypeVar

if TYPE_CHECKING:
    from cleatwright.base.stages.run import Run

Input = TypeVar("Input")
Output = TypeVar("Output")


class Codec(Protocol[Output]):
    """Turns a result into bytes for the disk and back; ``read`` raises ValueError for others."""

    def write(self, value: Output) -> bytes:
        """Return the value as bytes, the same ones for the same value."""
        ...

    def read(self, data: bytes) -> Output:
        """Return the value that was written; raise ValueError when the bytes are no value."""
        ...


def _one(_: object) -> int:
    return 1


@dataclass(frozen=True, eq=False)
class Stage(Generic[Input, Output]):
    """One step of computing.

    Args:
        name: Its name, like no other's.
        run: The step: a pure function of its input. It asks the run for what it needs of others.
        key: The content key of an input: two inputs of one key must give one result.
        size: About how many bytes a result takes, so that a store can be bounded.
        codec: How a result is kept on disk; None for results that stay in memory.
    """

    name: str
    run: Callable[[Run, Input], Output]
    key: Callable[[Input], str]
    size: Callable[[Output], int] = _one
    codec: Codec[Output] | None = None
