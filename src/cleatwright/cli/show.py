"""How results and errors are shown: tables for people, JSON for programs."""

from __future__ import annotations

import json
import sys
from collections.abc import Generator, Iterable, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn
from rich.table import Table
from rich.text import Text

from cleatwright.base.errors import Cancelled, CleatwrightError
from cleatwright.base.stages.run import Run, RunProgress
from cleatwright.base.unheard import silenced
from cleatwright.base.visible import visible
from cleatwright.project.shelf import usual_store

JsonValue = object
PIPE_COLUMNS = 200


def print_json(value: JsonValue) -> None:
    """Print a value for programs on standard output."""
    sys.stdout.write(json.dumps(value, indent=2) + "\n")


def print_lines(lines: Iterable[str]) -> None:
    """Print plain lines for people on standard output; no text in them begins another line."""
    console = Console(highlight=False)
    for line in lines:
        console.print(_safe(visible(line)), soft_wrap=True)


def print_answer(value: JsonValue, lines: Iterable[str], *, as_json: bool) -> None:
    """Print an answer on standard output: its value for programs, or its lines for people."""
    if as_json:
        print_json(value)
    else:
        print_lines(lines)


def print_warnings(lines: Iterable[str]) -> None:
    """Print warnings on standard error, where they disturb no program that reads the answer."""
    for line in lines:
        sys.stderr.write(f"Warning: {visible(line)}\n")


def print_table(title: str, heading: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Print a table for people; numbers are set to the right."""
    table = Table(title=_safe(visible(title)), title_justify="left", title_style="bold", box=None)
    held = [[visible(cell, lines=True) for cell in row] for row in rows]
    for column, name in enumerate(heading):
        numeric = bool(held) and all(_is_number(row[column]) for row in held)
        table.add_column(
            _safe(name),
            justify="right" if numeric else "left",
            overflow="fold",
            no_wrap=_is_code(held, column),
        )
    for row in held:
        table.add_row(*map(Text, row))
    console = Console(highlight=False)
    if not console.is_terminal:
        # a pipe has no width of its own, and a table must not be cut there
        console = Console(highlight=False, width=PIPE_COLUMNS)
    console.print(table)


def print_error(error: CleatwrightError, *, as_json: bool) -> None:
    """Print an error on standard error."""
    if as_json:
        sys.stderr.write(json.dumps({"error": error.as_dict()}) + "\n")
        return
    console = Console(stderr=True, highlight=False, soft_wrap=True)
    if isinstance(error, Cancelled):
        # no fault, and it says itself that it was stopped
        console.print(_safe(error.sentence[:1].upper() + error.sentence[1:]))
        return
    head = Text.assemble(("Error", "bold red"), " ", (f"({error.code})", "dim"), " ")
    console.print(head + _safe(error.sentence))


class _Bar:
    """Shows how far a run is, as one bar on standard error."""

    def __init__(self, bars: Progress) -> None:
        self._bars = bars
        self._task: TaskID | None = None

    def __call__(self, step: RunProgress) -> None:
        """Move the bar."""
        if self._task is None:
            self._task = self._bars.add_task("", total=None)
        self._bars.update(
            self._task, description=visible(step.stage), completed=step.done, total=step.total
        )


def muted(*, on: bool) -> AbstractContextManager[None]:
    """Return a block in which no code of others can spoil an answer for programs."""
    return silenced() if on else nullcontext()


@contextmanager
def bars(*, quiet: bool) -> Generator[Run]:
    """Give a run, and show how far it is while the block runs, unless quiet or nobody watches.

    While it is quiet nothing reaches the standard streams, where a program reads the answer.
    """
    if quiet:
        with muted(on=quiet):
            yield Run(usual_store())
        return
    console = Console(stderr=True)
    columns = (
        TextColumn("{task.description:<24}", markup=False),
        BarColumn(),
        MofNCompleteColumn(),
    )
    progress = Progress(*columns, console=console, disable=not console.is_terminal)
    with progress:
        yield Run(usual_store(), report=_Bar(progress))


def _safe(text: str) -> Text:
    """Return a text that is shown as it is: no sign, no bracket in it acts."""
    return Text(visible(text, lines=True))


def _is_code(rows: Sequence[Sequence[str]], column: int) -> bool:
    """Tell whether every cell of a column is one word, which must not be broken."""
    return all(" " not in row[column] for row in rows)


def _is_number(cell: str) -> bool:
    return cell.replace(".", "", 1).replace("-", "", 1).isdigit()
