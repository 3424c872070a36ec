"""What is new since the workshop was last made, part by part, by the report of that time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from cleatwright.base.errors import OutputError
from cleatwright.base.lengths import LengthUnit, fine_length
from cleatwright.pack.hung_papers import MOST_BYTES, REPORT
from cleatwright.papers.report_model import CarrierRow, HolderRow, Report, report_bytes
from cleatwright.project.unfinished import require_finished
from cleatwright.workshop.document.reading import read_limited

WhatOfPart = Literal["new", "again", "as it was", "gone"]
SAME_MM = 0.005
Part = HolderRow | CarrierRow


@dataclass(frozen=True)
class PartChange:
    """What became of one part.

    Args:
        what: Whether it is new, must be made again, is as it was, or is gone.
        number: The number of its holder in all drawings; "" for a carrier and for fittings.
        name: Its name for people.
        mark: Its mark now; that of the last time when it is gone.
        before: Its mark of the last time, or "" when it is new.
        why: What differs, in sentences.
    """

    what: WhatOfPart
    number: str
    name: str
    mark: str
    before: str
    why: tuple[str, ...] = ()


@dataclass(frozen=True)
class SinceMade:
    """What is new since the last time.

    Args:
        on: The day on which the set was written; None when nothing was made.
        same: Whether nothing at all differs in the report.
        placed: Whether all parts and rails are where they were; the lists differ all the same once
            something hangs.
        parts: What became of each part, what must be made first.
        beds: The print files of whole beds, each with the marks on it.
    """

    on: date | None
    same: bool
    placed: bool
    parts: tuple[PartChange, ...]
    beds: tuple[tuple[str, tuple[str, ...]], ...] = ()

    def made_as(self, marks: Sequence[str]) -> str:
        """Return the print file of the last time that has the same parts on its bed, or ""."""
        wanted = Counter(marks)
        return next((file for file, there in self.beds if Counter(there) == wanted), "")


def last_report(out: Path) -> tuple[Report | None, bytes]:
    """Return the report of what was made, and its bytes; None where none can be read.

    Raises:
        OutputError: Some files there are old and some are new, or the disk refused.
    """
    require_finished(out)
    try:
        data = read_limited(out / REPORT, most_bytes=MOST_BYTES)
        return Report.model_validate_json(data), data
    except FileNotFoundError:
        return None, b""
    except ValidationError:
        # of another version of the program
        return None, b""
    except OSError as error:
        raise OutputError(f"the report cannot be read: {error.strerror}") from error


def since_made(now: Report, out: Path, *, unit: LengthUnit) -> SinceMade:
    """Return what is new in a report since the one in a folder.

    Args:
        now: The report of what would be made now, with the names of all files.
        out: The folder of the set that was made last.
        unit: The unit in which people read lengths.

    Raises:
        OutputError: Some files there are old and some are new, or the disk refused.
    """
    before, data = last_report(out)
    order: Sequence[WhatOfPart] = ("new", "again", "gone", "as it was")
    parts = sorted(_changes(now, before, unit), key=lambda one: order.index(one.what))
    on = None if before is None else _day_of(out / REPORT)
    placed = before is not None and _places(before) == _places(now)
    beds = () if before is None else tuple((one.file, one.marks) for one in before.batches)
    return SinceMade(on, data == report_bytes(now), placed, tuple(parts), beds)


def _places(report: Report) -> Counter[tuple[object, ...]]:
    """Return the places of all parts and rails, whether they hang already or not."""
    parts = (*report.holders, *report.carriers)
    found = Counter[tuple[object, ...]]((one.mark, one.place) for one in parts)
    found.update((rail.model_copy(update={"stays": False}),) for rail in report.rails)
    return found


def _day_of(path: Path) -> date | None:
    try:
        return datetime.fromtimestamp(path.stat().st_mtime, UTC).date()
    except OSError:
        return None


def _changes(now: Report, before: Report | None, unit: LengthUnit) -> Iterator[PartChange]:
    old = {} if before is None else dict(_parts(before))
    for key, part in _parts(now):
        number = str(part.number) if isinstance(part, HolderRow) else ""
        was = old.pop(key, None)
        if was is None:
            yield PartChange("new", number, part.name, part.mark, "")
        elif was.mark == part.mark:
            yield PartChange("as it was", number, part.name, part.mark, was.mark)
        else:
            why = tuple(_why(was, part, unit))
            yield PartChange("again", number, part.name, part.mark, was.mark, why)
    for part in old.values():
        number = str(part.number) if isinstance(part, HolderRow) else ""
        yield PartChange("gone", number, part.name, part.mark, part.mark)
    yield from _fitting_changes(now, before)


def _fitting_changes(now: Report, before: Report | None) -> Iterator[PartChange]:
    """Yield what became of the hangers and bolts, once for all that are alike."""
    old = {} if before is None else {one.mark: one for one in before.fittings}
    for one in now.fittings:
        if old.pop(one.mark, None) is None:
            yield PartChange("new", "", one.name, one.mark, "")
        else:
            yield PartChange("as it was", "", one.name, one.mark, one.mark)
    for one in old.values():
        yield PartChange("gone", "", one.name, one.mark, one.mark)


def _parts(report: Report) -> Iterator[tuple[str, Part]]:
    """Yield every part with what it is known by: a holder by its number, a carrier by its name."""
    for holder in report.holders:
        yield str(holder.number), holder
    for carrier in report.carriers:
        yield f"carrier {carrier.name}", carrier


def _why(was: Part, now: Part, unit: LengthUnit) -> Iterator[str]:
    """Yield what differs between two states of a part, in sentences."""
    if isinstance(was, HolderRow) and isinstance(now, HolderRow):
        yield from _of_holder(was, now, unit)
    for what, before, after in (
        ("mount", was.mount, now.mount),
        ("joint", was.joint, now.joint),
    ):
        if before != after:
            yield f"The {what} was {before} and is {after}."
    for name in sorted({*was.params, *now.params} if _alike(was, now) else ()):
        before, after = was.params.get(name), now.params.get(name)
        if before != after:
            values = [_value(name, one, unit) for one in (before, after)]
            title = name.removesuffix("_mm").replace("_", " ")
            yield f"{title} was {values[0]} and is {values[1]}."


def _alike(was: Part, now: Part) -> bool:
    """Return True when the parameters of two states of a part mean the same."""
    if isinstance(was, HolderRow) and isinstance(now, HolderRow):
        return was.family == now.family
    return True


def _value(name: str, value: float | None, unit: LengthUnit) -> str:
    if value is None:
        return "as usual"
    return f"{fine_length(value, unit)} {unit}" if name.endswith("_mm") else f"{value:g}"


def _of_holder(was: HolderRow, now: HolderRow, unit: LengthUnit) -> Iterator[str]:
    if was.family != now.family:
        yield f"The family was {was.family} and is {now.family}."
    before, after = ({seat.tool for seat in row.seats if not seat.empty} for row in (was, now))
    for tool in sorted(after - before):
        yield f"{tool} came into it."
    for tool in sorted(before - after):
        yield f"{tool} left it."
    old = {(seat.tool, size.label): size for seat in was.seats for size in seat.sizes}
    for seat in now.seats:
        for size in seat.sizes:
            one = old.get((seat.tool, size.label))
            if one is None or abs(one.made_mm - size.made_mm) <= SAME_MM:
                continue
            made = [fine_length(mm, unit) for mm in (one.made_mm, size.made_mm)]
            yield f"{size.label} of {seat.tool} was made {made[0]} and is {made[1]} {unit}."
