"""Several faults that do not depend on each other, told at once."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from contextlib import contextmanager

from cleatwright.base.errors import CleatwrightError, DesignError, InputError

MOST_TOLD = 50


@contextmanager
def noted(faults: list[CleatwrightError]) -> Generator[None]:
    """Note a fault of the input or of the design in a list, and go on after the block."""
    try:
        yield
    except (InputError, DesignError) as error:
        faults.append(error)


def refuse(faults: Sequence[CleatwrightError], what: str) -> None:
    """Raise what was noted, if anything was: one fault as it is, several in one list.

    Args:
        faults: The faults, in the order in which they shall be read.
        what: What they are, in words that follow a number.
    """
    if not faults:
        return
    if len(faults) == 1:
        raise faults[0]
    more = len(faults) - MOST_TOLD
    raise type(faults[0])(
        f"{len(faults)} {what}:\n"
        + "\n".join(f"- {error}" for error in faults[:MOST_TOLD])
        + (f"\n- and {more} more" if more > 0 else ""),
        faults=faults[:MOST_TOLD],
    )
