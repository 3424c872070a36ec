"""The command for the state of each part: planned, printed, hanging, broken, spare."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cleatwright.base.errors import InputError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.cli import show
from cleatwright.cli.arguments import AsJson, Folder

if TYPE_CHECKING:
    from cleatwright.jobs.part_states import PartsNow


def parts(
    folder: Folder,
    state: Annotated[
        str | None,
        typer.Argument(help="planned, printed, hanging, broken or spare; left out to show all."),
    ] = None,
    *,
    named: Annotated[
        list[str] | None,
        typer.Argument(metavar="[PART]...", help='A mark, a number in drawings, or "batch 01".'),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(help="Where it was made; the folder out in the workshop if left out."),
    ] = None,
    anyway: Annotated[
        bool,
        typer.Option("--anyway", help="Keep that it hangs although something does not hold."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Show the state of every part, or say which are printed, hang or broke.

    printed: it lies ready to be hung, and is in no batch any more. hanging: it hangs as the papers
    of the last making have it. broken: a new one goes into the next batch. spare: one more lies
    ready for one that breaks. planned: it neither hangs nor lies printed. The number of a carrier
    is that of its first holder after a C, such as C17.
    """
    with defer_interrupts():
        from cleatwright.jobs import part_states as service  # noqa: PLC0415 - loads on use

    if state is None:
        now = service.parts_now(folder, out=out)
    else:
        said = service.read_state(state)
        if not named:
            raise InputError(f"it is not said which parts are {state}", allowed="marks or numbers")
        now = service.say_state(folder, said, parts=named, out=out, anyway=anyway)
    if as_json:
        show.print_json(now.as_dict())
        return
    _show(now)


def _show(now: PartsNow) -> None:
    show.print_table(
        "Parts by the papers of the last making",
        ("number", "part", "mark", "state", "since"),
        [(one.label, one.name, one.mark, one.state, one.since) for one in now.parts],
    )
    show.print_lines(
        [
            *(f"{count} of {mark} lie ready beside them." for mark, count in now.spares),
            *(f"Warning: it hangs, but does not hold: {text}" for text in now.failing),
        ]
    )
