"""The files of a workshop: which there are, and one of them with no more computed than needed."""

from __future__ import annotations

from collections.abc import Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from cleatwright.base.errors import CleatwrightError, DesignError, unknown_name
from cleatwright.base.gathering import noted
from cleatwright.base.keys import content_key
from cleatwright.base.stages.outcome import Done
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.pack.file_set import (
    OUTPUTS,
    files_of_lists,
    files_of_panels,
    files_of_parts,
    files_of_wood,
    output_of,
    report_file,
)
from cleatwright.pack.output_file import OutputFile
from cleatwright.pack.panel_papers import PANEL_FILES
from cleatwright.pack.production import batch_files
from cleatwright.project.computing import ADVISED, to_print, to_saw
from cleatwright.project.revision import Revision, said_of
from cleatwright.project.walls import TO_HANG, WALLS, Given, Request, hung_panels, request_key


@dataclass(frozen=True)
class FileList:
    """The files of a workshop that can be drawn, and what stands in the way of the others."""

    files: tuple[OutputFile, ...]
    faults: tuple[CleatwrightError, ...]


def files_of(
    revision: Revision,
    *,
    request: Request | None = None,
    only: Sequence[str] = OUTPUTS,
    run: Run,
) -> FileList:
    """Return the files of a workshop, none of them drawn yet.

    Args:
        revision: The workshop.
        request: How it shall be arranged; as usual when None.
        only: Some of OUTPUTS.
        run: The run that keeps what was computed before.

    Raises:
        CleatwrightError: A kernel or a disk failed, or the run was cancelled.
    """
    given = (revision, request or Request())
    files: list[OutputFile] = []
    faults: list[CleatwrightError] = []
    for output in only:
        with noted(faults), _placed(revision):
            files += _as_far_as_can_be(output, given, run)
    return FileList(tuple(files), tuple({str(one): one for one in faults}.values()))


def file_bytes(path: str, revision: Revision, *, request: Request | None = None, run: Run) -> bytes:
    """Return one file of a workshop; of the others nothing is drawn.

    A paper of a panel asks for no more than that panel, and those before it for the numbers of
    their rails.

    Args:
        path: Its path, as ``files_of`` gives it.
        revision: The workshop.
        request: How it shall be arranged; as usual when None.
        run: The run that keeps what was computed before.

    Raises:
        UnknownNameError: There is no such file.
        CleatwrightError: The first thing that stands in the way.
    """
    given = (revision, request or Request())
    with _placed(revision):
        if output_of(path) == "wall":
            files = _of_panel(path.rsplit("/", 1)[0], given, run)
        else:
            files = run.need(FILES, (output_of(path), given))
        for one in files:
            if one.path == path:
                return one.draw(run)
    raise unknown_name("file", path, [one.path for one in files])


def _as_far_as_can_be(output: str, given: Given, run: Run) -> Iterator[OutputFile]:
    """Yield the files of a folder; those of a panel before a fault of the next one is raised."""
    found = run.ask(FILES, (output, given))
    if isinstance(found, Done):
        yield from found.value
    elif output == "wall":
        yield from files_of_panels(hung_panels(given, run), run)
    else:
        raise found.raised()


def _of_panel(folder: str, given: Given, run: Run) -> Sequence[OutputFile]:
    for panel in hung_panels(given, run):
        if panel.folder == folder:
            return run.need(PANEL_FILES, panel)
    return ()


def _files(run: Run, wanted: tuple[str, Given]) -> tuple[OutputFile, ...]:
    output, given = wanted
    return tuple(_of_output(output, given, run))


def _of_output(output: str, given: Given, run: Run) -> Iterable[OutputFile]:
    workshop = given[0].workshop
    match output:
        case "parts":
            return files_of_parts(run.need(TO_HANG, given).wall.units)
        case "batches":
            return batch_files(workshop, to_print(given, run))
        case "wall":
            return files_of_panels(run.need(WALLS, given), run)
        case "wood":
            found = run.need(TO_HANG, given)
            units, in_use = found.wall.units, found.there.in_use
            return files_of_wood(workshop, to_saw(given, run), units=units, in_use=in_use)
        case "lists":
            return files_of_lists(run.need(ADVISED, given))
        case "report":
            others = [one for name in OUTPUTS[:-1] for one in run.need(FILES, (name, given))]
            return (report_file(run.need(ADVISED, given), others),)
        case _:
            raise unknown_name("output", output, OUTPUTS)


def _files_key(wanted: tuple[str, Given]) -> str:
    output, given = wanted
    return content_key((output, request_key(given)))


FILES = Stage("files of a folder", _files, _files_key)
"""From one of OUTPUTS, a revision, and how it shall be arranged, to its files."""


@contextmanager
def _placed(revision: Revision) -> Generator[None]:
    """Name the document in every error, and let its sentences out in the unit of the workshop."""
    file = str(revision.path)
    with said_of(revision):
        try:
            yield
        except DesignError as error:
            raise error.located(file) from error
