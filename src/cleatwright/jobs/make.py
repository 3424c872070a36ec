"""Making a workshop, unless nothing changed since the last time.

What was made, and of what, is kept on the shelf under the content of the document and of what
hangs. When drawings, ledger and every file of the set are as they were then, there is nothing to
compute: not even what computes is loaded.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.jobs.made import Made
from cleatwright.project.going import AS_LITTLE_AS_CAN_BE, Going
from cleatwright.project.intact import require_intact
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import Change
from cleatwright.project.unfinished import manifest_in
from cleatwright.workshop.document.store import document_path, load, read_text
from cleatwright.workshop.ledger.reading import read_kept, read_recipe

WHOLE_SET = "whole set"


@dataclass(frozen=True)
class LastTime:
    """What was made, and of what.

    Args:
        made: What was told of it.
        drawings: The digests of the outlines by their paths from the workshop folder.
        files: The digests of the files by their paths from the output folder.
        marks: The marks of its parts.
    """

    made: Made
    drawings: dict[str, str]
    files: dict[str, str]
    marks: tuple[str, ...]


CODEC = JsonCodec(LastTime)


def make(
    place: Path,
    *,
    out: Path | None = None,
    only: Sequence[str] | None = None,
    dry_run: bool = False,
    with_step: bool = False,
    regroup: bool = False,
    going: Going = AS_LITTLE_AS_CAN_BE,
    run: Run | None = None,
) -> Made:
    """Do the whole job as ``make_workshop`` does; when nothing changed, say so at once.

    Args:
        place: As for ``make_workshop``.
        out: As for ``make_workshop``.
        only: As for ``make_workshop``.
        dry_run: As for ``make_workshop``.
        with_step: As for ``make_workshop``.
        regroup: As for ``make_workshop``.
        going: As for ``make_workshop``.
        run: As for ``make_workshop``.

    Raises:
        CleatwrightError: As ``make_workshop``.
    """
    run = run or Run()
    whole = only is None
    if whole and not regroup and going == AS_LITTLE_AS_CAN_BE:
        before = _as_before(place, out, run, with_step=with_step)
        if before is not None:
            return replace(before, dry_run=dry_run)
    with defer_interrupts():
        from cleatwright.jobs.making import make_workshop  # noqa: PLC0415 - loads on use

    made = make_workshop(
        place,
        out=out,
        only=only,
        dry_run=dry_run,
        with_step=with_step,
        regroup=regroup,
        going=going,
        run=run,
    )
    if whole and not dry_run and going == AS_LITTLE_AS_CAN_BE:
        _remember(place, made, run, with_step=with_step)
    return made


def _as_before(place: Path, out: Path | None, run: Run, *, with_step: bool) -> Made | None:
    """Return what was made the last time, when all is as it was then."""
    with suppress(CleatwrightError, ValueError):
        folder = document_path(place).parent
        kept = run.shelf.get(_key(place, with_step=with_step)) if run.shelf else None
        if kept is None:
            return None
        last = CODEC.read(kept)
        papers = output_folder(out, workshop=folder)
        manifest = manifest_in(papers)
        if manifest is None or manifest.between or manifest.sha256 != last.files:
            return None
        if _digests(folder, last.drawings) != last.drawings:
            return None
        if not all(read_recipe(folder, mark) for mark in last.marks):
            return None
        require_intact(papers)
        changes = tuple(Change(name, "same") for name in sorted(last.files))
        return replace(last.made, changes=changes, folder=papers)
    # whatever is wrong is found, and told, by the whole job
    return None


def _remember(place: Path, made: Made, run: Run, *, with_step: bool) -> None:
    folder, manifest = document_path(place).parent, manifest_in(made.folder)
    if run.shelf is None or manifest is None:
        return
    last = LastTime(
        made=replace(made, changes=()),
        drawings=_digests(folder, _drawings(place)),
        files=manifest.sha256,
        marks=tuple(sorted({row.mark for row in made.holders})),
    )
    run.shelf.put(_key(place, with_step=with_step), CODEC.write(last))


def _key(place: Path, *, with_step: bool) -> tuple[str, str]:
    folder = document_path(place).parent
    kept = read_kept(folder)
    return WHOLE_SET, content_key(
        (read_text(place), kept.hung, kept.made, kept.ready, kept.wall, with_step)
    )


def _drawings(place: Path) -> Iterator[str]:
    for item in load(place).items():
        if item.outline is not None:
            yield item.outline


def _digests(folder: Path, names: Iterable[str]) -> dict[str, str]:
    """Return the digests of files by name; a file that is not there has none."""
    found: dict[str, str] = {}
    for name in names:
        with suppress(OSError):
            found[name] = hashlib.sha256((folder / name).read_bytes()).hexdigest()
    return found
