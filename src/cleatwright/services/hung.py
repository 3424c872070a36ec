"""What hangs: kept in the ledger when the owner says so, and found again in a new plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, date, datetime
from pathlib import Path

from pydantic import BaseModel, ValidationError

from cleatwright.base.errors import DocumentError, InputError, OutputError, StorageError
from cleatwright.services.carrying import Unit, part_names
from cleatwright.services.hung_matching import wanted_of
from cleatwright.services.job import Job, compute
from cleatwright.services.progress import Progress
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.hung_entry import HungEntry
from cleatwright.workshop.ledger import FILE_NAME as LEDGER_NAME
from cleatwright.workshop.ledger import open_ledger, read_hung
from cleatwright.workshop.store import FILE_NAME, document_path

REPORT = "report.json"


@dataclass(frozen=True)
class HungNow:
    """What hangs now by the ledger."""

    entries: tuple[HungEntry, ...]

    @property
    def summary(self) -> tuple[str, ...]:
        """Return what hangs, in sentences."""
        if not self.entries:
            return ("The ledger knows of nothing that hangs.",)
        return tuple(
            f'"{one.name}" ({one.mark}) hangs on {surface(one.panel)} at x {one.x_mm:.0f} mm, '
            f"z {one.z_mm:.0f} mm since {one.since}."
            for one in self.entries
        )

    def as_dict(self) -> dict[str, object]:
        """Return the result for programs."""
        return {"hung": [asdict(one) for one in self.entries]}


def hung_entries(
    units: Sequence[Unit],
    places: Mapping[str, Place],
    *,
    since: str,
    known: Iterable[HungEntry] = (),
) -> tuple[HungEntry, ...]:
    """Return what the ledger keeps of units that hang, sorted.

    Args:
        units: What hangs.
        places: Where each unit hangs, by its key; others may be there too.
        since: ISO date since which it hangs.
        known: Entries from before; one that is the same but for its date stays as it is.
    """
    before = {one.identity: one for one in known}
    found: list[HungEntry] = []
    for unit, thing in zip(units, wanted_of(units), strict=True):
        at = places[unit.planned.key]
        one = HungEntry(
            panel=thing.panel,
            name=thing.name,
            x_mm=at.x_mm,
            z_mm=at.z_mm,
            mark=thing.mark,
            tools=thing.tools,
            since=since,
        )
        old = before.get(one.identity)
        same = old is not None and old.row()[:-1] == one.row()[:-1]
        found.append(old if old is not None and same else one)
    return tuple(sorted(found, key=lambda one: one.order))


def hung_now(place: Path) -> HungNow:
    """Return what hangs by the ledger of a workshop, and write nothing.

    Raises:
        DocumentError: There is no workshop.
        LedgerError: The ledger cannot be read.
    """
    return HungNow(read_hung(_folder(place)))


def record_hung(
    place: Path,
    *,
    out: Path | None = None,
    on: date | None = None,
    progress: Progress | None = None,
) -> HungNow:
    """Keep in the ledger that everything hangs as it was last made, and return it.

    Args:
        place: The workshop folder, or its document.
        out: Where the files were made; the folder ``out`` in the workshop when None.
        on: The day; today when None.
        progress: Told of each step.

    Raises:
        OutputError: Nothing was made there.
        InputError: The workshop was changed since it was made.
        CleatwrightError: Whatever stands in the way of the whole job.
    """
    folder = _folder(place)
    papers = _papers(out or folder / "out")
    job = compute(place, progress=progress)
    if papers != _parts(job):
        raise InputError(
            "what would be made now is not what was made",
            where=str(document_path(place)),
            todo="Make the workshop again, hang everything by the new drawing, and then say so",
        )
    since = (on or datetime.now(UTC).date()).isoformat()
    places = {key: spot.place for key, spot in job.spots.items()}
    with open_ledger(folder) as ledger:
        ledger.replace_hung(hung_entries(job.units, places, since=since, known=ledger.hung()))
        return HungNow(ledger.hung())


def forget_hung(place: Path) -> HungNow:
    """Forget what hangs, as when the wall was cleared, and return what was forgotten.

    Raises:
        DocumentError: There is no workshop.
        LedgerError: The ledger cannot be used.
    """
    folder = _folder(place)
    if not (folder / LEDGER_NAME).is_file():
        return HungNow(())
    with open_ledger(folder) as ledger:
        forgotten = ledger.hung()
        ledger.replace_hung(())
    return HungNow(forgotten)


def _folder(place: Path) -> Path:
    document = document_path(place)
    if not document.is_file():
        raise DocumentError(
            "there is no workshop here",
            where=str(document),
            todo=f"Name a folder with a {FILE_NAME}",
        )
    return document.parent


class _At(BaseModel):
    x_mm: float
    z_mm: float


class _Part(BaseModel):
    mark: str
    place: _At


class _Papers(BaseModel):
    holders: tuple[_Part, ...]
    carriers: tuple[_Part, ...]


Parts = Counter[tuple[str, float, float]]


def _papers(out: Path) -> Parts:
    """Return the mark and place of each part by the report of what was made."""
    path = out / REPORT
    try:
        papers = _Papers.model_validate_json(path.read_bytes())
    except FileNotFoundError:
        raise OutputError(
            "there is no report of a workshop that was made",
            where=str(path),
            todo="Make the workshop, hang everything by its drawing, and then say so",
        ) from None
    except OSError as error:
        raise StorageError(f"The file cannot be read: {error.strerror}", where=str(path)) from error
    except ValidationError as error:
        raise OutputError(
            f"the report cannot be read: {error.errors()[0]['msg']}",
            where=str(path),
            todo="Make the workshop again",
        ) from None
    parts = (*papers.holders, *papers.carriers)
    return Counter((part.mark, part.place.x_mm, part.place.z_mm) for part in parts)


def _parts(job: Job) -> Parts:
    """Return the mark and place of each part of a job."""
    spots = {key: job.spots[key].place for key in part_names(job.units)}
    return Counter(
        (made.mark, spots[key].x_mm, spots[key].z_mm)
        for key, (_, made) in part_names(job.units).items()
    )
