"""The papers of a workshop one by one, and one panel by itself, for whoever shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.pack.file_set import OUTPUTS, output_of
from cleatwright.project.files import file_bytes, files_of
from cleatwright.project.revision import read_revision
from cleatwright.project.walls import PanelFound, panel_found
from cleatwright.workshop.document.surfaces import MAIN


@dataclass(frozen=True)
class PaperRow:
    """A drawing, a list or a print file that can be asked for.

    Args:
        path: Its path in the set; it is known by it.
        title: What it is, in plain words.
        kind: What sort of file it is: svg, pdf, dxf, csv, json, 3mf, stl.
        output: Which of the folders of the set it lies in, or "report".
    """

    path: str
    title: str
    kind: str
    output: str


@dataclass(frozen=True)
class PaperList:
    """What there is to be asked for, and what stands in the way of the rest."""

    papers: tuple[PaperRow, ...]
    faults: tuple[CleatwrightError, ...]


def papers(place: Path, *, only: Sequence[str] = OUTPUTS, run: Run | None = None) -> PaperList:
    """Return what there is to be asked for; nothing is drawn for it.

    Args:
        place: The workshop folder, or its document.
        only: Some of OUTPUTS; what others need is not computed.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        DocumentError: The document cannot be read as a workshop.
        CleatwrightError: A kernel or a disk failed, or the run was cancelled.
    """
    run = run or Run()
    found = files_of(read_revision(place, run), only=only, run=run)
    rows = (PaperRow(one.path, one.title, one.kind, output_of(one.path)) for one in found.files)
    return PaperList(tuple(rows), found.faults)


def paper(place: Path, path: str, *, run: Run | None = None) -> bytes:
    """Return the bytes of one paper, the same that ``make`` writes; no other is drawn.

    Args:
        place: The workshop folder, or its document.
        path: Its path in the set.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        UnknownNameError: There is no such paper.
        CleatwrightError: The first thing that stands in the way.
    """
    run = run or Run()
    return file_bytes(path, read_revision(place, run), run=run)


def panel(place: Path, name: str = MAIN, *, run: Run | None = None) -> PanelFound:
    """Return one panel: what hangs where, how it comes out, and what its rails bear.

    Args:
        place: The workshop folder, or its document.
        name: The name of the panel.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        UnknownNameError: Nothing hangs on such a panel.
        CleatwrightError: The first thing that stands in the way of this panel.
    """
    run = run or Run()
    return panel_found(name, read_revision(place, run), run=run)
