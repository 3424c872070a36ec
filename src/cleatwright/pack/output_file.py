"""One file that is made of a workshop, known by its name and its title before it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.kit.drawn import Pages
from cleatwright.papers.kit.svg_pdf import PDF

Shown = TypeVar("Shown")


@dataclass(frozen=True)
class OutputFile:
    """A drawing, a list or a print file.

    Args:
        path: Where it lies in the output folder; no other file has it, and it is known by it.
        title: What it is, in plain words.
        draw: Gives its bytes; what was drawn before comes from the store of the run.
    """

    path: str
    title: str
    draw: Callable[[Run], bytes]

    @property
    def kind(self) -> str:
        """Return what sort of file it is, by the ending of its name."""
        return self.path.rsplit(".", 1)[-1]


def of_stage(path: str, title: str, stage: Stage[Shown, bytes], shown: Shown) -> OutputFile:
    """Return a file that a stage draws."""

    def draw(run: Run) -> bytes:
        return run.need(stage, shown)

    return OutputFile(path, title, draw)


def sheets(
    path: str, title: str, count: int, pages: Callable[[Run], Pages]
) -> Iterator[OutputFile]:
    """Yield the sheets of a drawing as SVG files of their own.

    Args:
        path: The path of the first one without its ending.
        title: What the drawing is.
        count: On how many sheets it is.
        pages: Gives all of them.
    """

    def draw(run: Run, number: int) -> bytes:
        return pages(run)[number - 1]

    for number in range(1, count + 1):
        more, of = ("", "") if number == 1 else (f"-{number}", "")
        if count > 1:
            of = f", sheet {number} of {count}"
        yield OutputFile(f"{path}{more}.svg", f"{title}{of}", partial(draw, number=number))


def as_pdf(path: str, title: str, pages: Callable[[Run], Pages], *, heading: str) -> OutputFile:
    """Return all sheets of a drawing as a PDF file; ``heading`` is the title inside it."""
    return OutputFile(path, title, lambda run: run.need(PDF, (pages(run), heading)))


def drawn(files: Iterable[OutputFile], run: Run | None = None) -> dict[str, bytes]:
    """Return the bytes of files by their paths."""
    run = run or Run()
    return {one.path: one.draw(run) for one in files}
