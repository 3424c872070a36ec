"""Walls side by side, drawn into a new file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.base.place import InFile
from cleatwright.base.stages.run import Run
from cleatwright.base.visible import visible
from cleatwright.papers.kit.svg_pdf import PDF
from cleatwright.papers.side_by_side.drawing import SIDE_BY_SIDE
from cleatwright.papers.side_by_side.view import SideBySideView
from cleatwright.workshop.document.store import write_safely


def require_new(out: Path) -> None:
    """Refuse a file that is there already, or is of another kind.

    Raises:
        OutputError: It is.
    """
    if out.suffix.lower() not in (".pdf", ".svg"):
        raise OutputError(
            f'walls side by side are drawn as PDF or SVG, not as "{visible(out.name)}"',
            place=InFile(str(out)),
            allowed="a file name that ends in .pdf or .svg",
        )
    if out.exists():
        raise OutputError(
            "there is already a file of this name",
            place=InFile(str(out)),
            todo="Name another file; nothing was changed",
        )


def draw_beside(views: Sequence[SideBySideView], out: Path, run: Run) -> tuple[Path, ...]:
    """Return the files that were written: one PDF, or an SVG file for each sheet.

    Args:
        views: What is drawn, at least one.
        out: The file, or the first of them.
        run: The run that keeps what was drawn before.

    Raises:
        OutputError: A file is there already, or it cannot be written.
    """
    pages = [page for view in views for page in run.need(SIDE_BY_SIDE, view)]
    if out.suffix.lower() == ".pdf":
        files = {out: run.need(PDF, (tuple(pages), views[0].title))}
    else:
        later = {out.with_stem(f"{out.stem}-{n}"): page for n, page in enumerate(pages[1:], 2)}
        for path in later:
            require_new(path)
        files = {out: pages[0], **later}
    for path, data in files.items():
        write_safely(path, data)
    return tuple(files)
