"""Several faults that do not depend on each other, told at once."""

from __future__ import annotations

import re
from collections.abc import Collection, Generator, Sequence
from contextlib import contextmanager
from typing import TypeVar

from cleatwright.base.errors import CleatwrightError, DesignError, InputError
from cleatwright.base.place import InDocument, Step

MOST_TOLD = 50
# of these many may be alike, which takes one line
MOST_LISTED = 400
Fault = TypeVar("Fault", bound=CleatwrightError)


@contextmanager
def noted(faults: list[CleatwrightError]) -> Generator[None]:
    """Note a fault of the input or of the design in a list, and go on after the block.

    Of an error that lists several, each is noted.
    """
    try:
        yield
    except (InputError, DesignError) as error:
        whole = error.listed == len(error.faults) > 0
        faults += error.faults if whole else (error,)


@contextmanager
def under(*steps: Step) -> Generator[None]:
    """Put steps in front of the path of every fault that comes out of the block.

    What raises a fault knows its place only from its own table on; whoever asks knows the rest.

    >>> from cleatwright.base.errors import MeasureError
    >>> with under("mount", "hook"):
    ...     raise MeasureError("reach is 3 mm", place=InDocument((("reach",),)))
    Traceback (most recent call last):
    ...
    cleatwright.base.errors.MeasureError: mount, hook, key "reach": reach is 3 mm.
    """
    try:
        yield
    except (InputError, DesignError) as error:
        raise error.under(*steps) from error.__cause__


@contextmanager
def in_file(file: str) -> Generator[None]:
    """Name the file of every error that comes out of the block and has none yet."""
    try:
        yield
    except CleatwrightError as error:
        raise error.in_file(file) from error.__cause__


def equal_once(
    faults: Sequence[CleatwrightError], entries: Collection[str]
) -> tuple[CleatwrightError, ...]:
    """Return faults, those once that differ only in which of several equal things they name.

    Args:
        faults: The faults.
        entries: What equal things are called together; one of them is "NAME #3".

    >>> from cleatwright.base.errors import MeasureError
    >>> tins = [MeasureError(f"Tin #{n} is wide") for n in (1, 2)]
    >>> [one.given for one in equal_once(tins, ["Tin"])]
    ['Tin (2 equal ones) is wide']
    """
    # the longest goes first, so that none is taken for the end of another
    known = "|".join(
        re.escape(name) for name in sorted(entries, key=lambda name: (-len(name), name))
    )
    numbered = re.compile(rf"(?<!\w)({known or '(?!)'}) #\d+")
    of_entry = re.compile(rf'"({known or "(?!)"})"')
    alike: dict[tuple[type, str, bool], list[CleatwrightError]] = {}
    for one in faults:
        entry = one.said(lambda text: numbered.sub(r"\1", text))
        named = entry.sentence != one.sentence
        alike.setdefault((type(one), entry.sentence, named), []).append(one)

    def together(same: list[CleatwrightError]) -> CleatwrightError:
        count = f"({len(same)} equal ones)"
        one_mistake = len({one.sentence for one in same}) == 1
        if len(same) == 1 or (one_mistake and not of_entry.search(same[0].where)):
            # found again and again for each that it has to do with, and in none of them
            return same[0]
        if numbered.search(same[0].heading):
            return same[0].said(lambda text: numbered.sub(rf"\1 {count}", text))
        heading = same[0].heading
        return same[0].said(lambda text: f"{text} {count}" if text == heading else text)

    return tuple(together(same) for same in alike.values())


def refuse(faults: Sequence[CleatwrightError], what: str) -> None:
    """Raise what was noted, if anything was: one fault as it is, several in one list.

    Args:
        faults: The faults, in the order in which they shall be read.
        what: What they are, in words that follow a number.
    """
    if not faults:
        return
    # what two rows are at fault for alike, such as a default, is said once
    each = list({(fault.place, fault.sentence): fault for fault in faults}.values())
    if len(each) == 1:
        raise each[0]
    raise several(each, what)


def several(faults: Sequence[Fault], what: str, *, more: int = 0) -> Fault:
    """Return one error that lists several.

    Args:
        faults: The faults, in the order in which they shall be read.
        what: What they are, in words that follow a number.
        more: How many there are beside these.
    """
    files = {fault.place.file for fault in faults}
    return type(faults[0])(
        f"{len(faults) + more} {what}",
        place=InDocument(file=files.pop() if len(files) == 1 else ""),
        faults=faults[: MOST_TOLD if more else MOST_LISTED],
        listed=len(faults) + more,
    )


def combined(faults: Sequence[Fault], *, allowed: str = "", todo: str = "") -> Fault:
    """Return faults of one table as one error, in one sentence; a single one as it is.

    Args:
        faults: The faults, each in words of a few, and with places in one document.
        allowed: What would be right, of all of them.
        todo: What to do about all of them.
    """
    places = [fault.place for fault in faults]
    paths = [path for one in places if isinstance(one, InDocument) for path in one.paths]
    single = len(faults) == 1
    return type(faults[0])(
        "; ".join(fault.given for fault in faults),
        place=InDocument(tuple(dict.fromkeys(paths)), spoken="named"),
        allowed=allowed,
        todo=todo,
        line=faults[0].line if single else "",
        faults=() if single else faults,
    )
