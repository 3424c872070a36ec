"""Commands for a workshop: start, check, make, remake."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cleatwright.base.errors import RoomError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.lengths import sides_words
from cleatwright.cli import show
from cleatwright.cli.arguments import AsJson, Folder
from cleatwright.cli.rows import how_to_draw, made_cells, made_columns, typed

if TYPE_CHECKING:
    from cleatwright.jobs.made import Made


def start(
    folder: Annotated[
        Path, typer.Argument(help="The folder to make; it must not hold a workshop.")
    ],
    example: Annotated[
        str, typer.Option("--from", help="The example to start from.")
    ] = "bicycle-room",
    *,
    as_json: AsJson = False,
) -> None:
    """Start a workshop folder from an example."""
    with defer_interrupts():
        from cleatwright.jobs.examples import start_workshop  # noqa: PLC0415 - loads on use

    path = start_workshop(folder, example=example)
    show.print_answer(
        {"workshop": str(path), "example": example},
        [
            f"Wrote {path}, a copy of the example {example}.",
            "Measure your own tools and change the file, then:",
            f"  cleatwright check {folder}",
            f"  cleatwright make {folder}",
        ],
        as_json=as_json,
    )


def check(folder: Folder, *, as_json: AsJson = False) -> None:
    """Check a workshop: can everything be read, held, printed?"""
    with defer_interrupts():
        from cleatwright.jobs.checking import check_workshop  # noqa: PLC0415 - loads on use

    with show.bars(quiet=as_json) as run:
        found = check_workshop(folder, run=run)
    show.print_warnings(found.left_out)
    if as_json:
        show.print_json(found.as_dict())
        return
    show.print_table(
        f"{found.name}: {found.tools} tools in {len(found.holders)} holders",
        (
            *("holder", "family", "mount", "tools", f"size {found.unit}"),
            *("about g", "support", "why"),
        ),
        [
            (
                *(h.name, h.family, h.mount, str(h.tools), sides_words(h.size_mm, found.unit)),
                *(f"{h.grams:.0f}", "yes" if h.support else "no", h.why),
            )
            for h in found.holders
        ],
    )
    show.print_lines(
        [
            "",
            "Everything can be read, held and printed. To see whether the wall has room:",
            f"  {typed('arrange', folder)}",
            *found.remarks,
        ]
    )


def make(  # noqa: PLR0913 - each option of a command is an argument of its function
    folder: Folder,
    out: Annotated[
        Path | None,
        typer.Option(help="Where the files go; the folder out in the workshop if left out."),
    ] = None,
    only: Annotated[
        str | None,
        typer.Option(help="Only some of: parts, batches, wall, wood, lists, report (with commas)."),
    ] = None,
    *,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Say what would change, and write nothing.")
    ] = False,
    step: Annotated[
        bool, typer.Option("--step", help="Write STEP files too; needs the extra named step.")
    ] = False,
    regroup: Annotated[
        bool,
        typer.Option(
            "--regroup", help="Choose anew which tools share a holder, whatever was made before."
        ),
    ] = False,
    change: Annotated[
        str | None,
        typer.Option(
            help="How far a change may go if something finds no place otherwise: little, moves, "
            "parts or afresh; as [defaults] change if left out.",
        ),
    ] = None,
    plan: Annotated[
        str | None,
        typer.Option(help="Take one of the plans that the command plans shows."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Do the whole job: holders, print files, wall drawing, cut list, report."""
    with defer_interrupts():
        from cleatwright.jobs.going import going_as  # noqa: PLC0415 - loads on use
        from cleatwright.jobs.make import make as make_whole  # noqa: PLC0415 - loads on use

    wanted = None
    if only is not None:
        wanted = tuple(word.strip() for word in only.split(",") if word.strip()) or ("",)
    try:
        with show.bars(quiet=as_json) as run:
            made = make_whole(
                folder,
                out=out,
                only=wanted,
                dry_run=dry_run,
                with_step=step,
                regroup=regroup,
                going=going_as(change, plan),
                run=run,
            )
    except RoomError as error:
        raise error.to_do(f"{error.todo}. {how_to_draw(folder)}") from error
    show.print_warnings(made.left_out)
    if as_json:
        show.print_json(made.as_dict())
    else:
        _show_made(made)
    if not made.holds:
        raise typer.Exit(3)


def _show_made(made: Made) -> None:
    show.print_table(
        made.title,
        made_columns(made.unit),
        [made_cells(row, made.unit) for row in made.holders],
    )
    show.print_lines(["", *made.summary, "", *(f"Caution: {text}" for text in made.cautions)])


def remake(
    folder: Folder,
    mark: Annotated[str, typer.Argument(help="The mark on the part, such as 7K2M9QX.")],
    out: Annotated[
        Path | None, typer.Option(help="Where the files go; the folder out/remade if left out.")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Make a part again by the mark on it: the same bytes."""
    with defer_interrupts():
        from cleatwright.jobs.remaking import remake_part  # noqa: PLC0415 - loads on use

    with show.muted(on=as_json):
        paths = remake_part(folder, mark, out=out)
    show.print_answer(
        {"files": [str(path) for path in paths]},
        [f"Wrote {path}" for path in paths],
        as_json=as_json,
    )
