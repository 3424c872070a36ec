"""Commands for the wall: arrange, rearrange, plans, why, hung."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cleatwright.base.errors import InputError, RoomError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.base.numbers import ranges
from cleatwright.cli import show
from cleatwright.cli.arguments import AsJson, Folder
from cleatwright.cli.rows import (
    family_cells,
    family_columns,
    how_to_draw,
    place_table,
    typed,
)

if TYPE_CHECKING:
    from cleatwright.jobs.so_far import SoFar
    from cleatwright.jobs.wall_answers import WallAnswer

MOST_EFFORT = 100
MOST_TRIES = 40


def arrange(
    folder: Folder,
    *,
    afresh: Annotated[
        bool, typer.Option("--afresh", help="Arrange as if nothing hung on the wall yet.")
    ] = False,
    effort: Annotated[
        int | None,
        typer.Option(
            min=1,
            max=MOST_EFFORT,
            help="How many times as long as usual to search; as [defaults] effort if left out.",
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(help="Draw the walls, as far as they go: a new PDF or SVG file."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Arrange the wall and tell what each place costs, what would move, what is in the way."""
    with defer_interrupts():
        from cleatwright.jobs import so_far  # noqa: PLC0415 - loads on use
        from cleatwright.jobs.wall_answers import arrange_walls  # noqa: PLC0415 - the same

    asked = so_far.AskedWalls(folder, afresh, effort, out)
    with show.bars(quiet=as_json) as run:
        answer: WallAnswer | RoomError
        try:
            answer = arrange_walls(folder, afresh=afresh, effort=effort, run=run)
        except RoomError as error:
            answer = error
        lacks = isinstance(answer, RoomError)
        found = so_far.walls_as_far(asked, run) if lacks or out is not None else None
    if isinstance(answer, RoomError):
        if found is not None:
            _print_unfinished(found, folder, as_json=as_json)
        raise answer
    files = () if found is None else found.files
    if as_json:
        wrote = {"files": [str(path) for path in files]} if files else {}
        show.print_json({**answer.as_dict(), **wrote})
    else:
        for panel in answer.panels:
            show.print_table(panel.title, *place_table(panel.places, panel.unit))
            show.print_lines(["", *panel.summary, ""])
        tried = f"To make it so, write effort = {effort} under [defaults]."
        show.print_lines(
            [
                *([] if effort is None else [tried, ""]),
                *answer.moves,
                *answer.notes,
                *(f"Warning: {text}" for text in answer.warnings),
                *(f"Does not hold: {text}" for text in answer.failing),
                *answer.helps,
                *(f"Caution: {text}" for text in answer.cautions),
                *(f"Wrote {path}" for path in files),
            ]
        )
    if not answer.holds:
        raise typer.Exit(3)


def _print_unfinished(found: SoFar, folder: Path, *, as_json: bool) -> None:
    """Print what hangs where on walls that cannot be finished."""
    if as_json:
        show.print_json(found.as_dict())
        return
    for wall in found.walls:
        cells = [(ranges(one.numbers), one.name, one.spot.words(found.unit)) for one in wall.places]
        show.print_table(f"{wall.title}: {wall.summary}", ("no", "holder", "hangs at"), cells)
    files = [f"Wrote {path}" for path in found.files] or [how_to_draw(folder)]
    failing = [f"Does not hold: {text}" for wall in found.walls for text in wall.failing]
    show.print_lines(["", *failing, *files, ""])


def rearrange(  # noqa: PLR0913 - each option of a command is an argument of its function
    folder: Folder,
    *,
    wanted: Annotated[
        str, typer.Option(help="What counts more: usual, timber, rails or heights.")
    ] = "usual",
    wall: Annotated[str, typer.Option(help="The wall or panel.")] = "wall",
    tries: Annotated[int, typer.Option(min=1, max=MOST_TRIES, help="How many searches.")] = 6,
    free: Annotated[
        bool, typer.Option("--free", help="What has a given place may move, too.")
    ] = False,
    hung_moves: Annotated[
        bool, typer.Option("--hung-moves", help="What hangs already may move.")
    ] = False,
    out: Annotated[
        Path | None, typer.Option(help="Draw both side by side: a new PDF or SVG file.")
    ] = None,
    take: Annotated[
        bool, typer.Option("--take", help="Write the places of the other into the document.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Look for another arrangement of a wall, and show it beside the one that there is."""
    with defer_interrupts():
        from cleatwright.jobs import rearranging as work  # noqa: PLC0415 - loads on use

    asked = work.asked_for(wanted, panel=wall, tries=tries, free=free, hung_moves=hung_moves)
    with show.bars(quiet=as_json) as run:
        made = work.rearrange(folder, asked, out=out, take=take, run=run)
    if as_json:
        show.print_json(made.as_dict())
        return
    show.print_table(made.title, work.COLUMNS, made.cells)
    show.print_lines(
        [
            "",
            *made.notes,
            "",
            *(f"Wrote {path}" for path in made.files),
            "Its places stand in the document now."
            if made.taken
            else "Nothing was changed; --take writes its places into the document.",
        ]
    )


def plans(
    folder: Folder,
    *,
    out: Annotated[
        Path | None,
        typer.Option(help="Draw their walls side by side: a new PDF or SVG file."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Show what a change costs when little or much of what is there changes, and make nothing."""
    with defer_interrupts():
        from cleatwright.jobs import plan_drawings  # noqa: PLC0415 - loads on use
        from cleatwright.jobs import plans as work  # noqa: PLC0415 - the same

    files: tuple[Path, ...] = ()
    with show.bars(quiet=as_json) as run:
        if out is None:
            found = work.plans(folder, run=run)
        else:
            found, files = plan_drawings.draw_plans(folder, out, run=run)
    if as_json:
        show.print_json({**found.as_dict(), "files": [str(path) for path in files]})
        return
    show.print_table(f"{found.name}: plans to choose from", found.columns, found.cells)
    wrote = ["", *(f"Wrote {path}" for path in files)] if files else []
    show.print_lines(["", *found.notes(typed("make", folder)), *wrote])


def why(
    folder: Folder,
    name: Annotated[str, typer.Argument(help="The name of a holder, a carrier, a tool or a rail.")],
    *,
    as_json: AsJson = False,
) -> None:
    """Tell why something hangs where it hangs, or finds no place, and what else it could do."""
    with defer_interrupts():
        from cleatwright.jobs.why import why_there  # noqa: PLC0415 - loads on use

    with show.bars(quiet=as_json) as run:
        answer = why_there(folder, name, run=run)
    show.print_answer(
        answer.as_dict(),
        [answer.heading, *answer.sentences],
        as_json=as_json,
    )
    if answer.families and not as_json:
        show.print_table(
            "Families that could hold it, the cheapest first after its own",
            family_columns(answer.unit),
            [family_cells(one, answer.unit) for one in answer.families],
        )


def hung(
    folder: Folder,
    out: Annotated[
        Path | None,
        typer.Option(help="Where it was made; the folder out in the workshop if left out."),
    ] = None,
    *,
    show_only: Annotated[
        bool, typer.Option("--show", help="Only tell what hangs by the ledger.")
    ] = False,
    forget: Annotated[
        bool, typer.Option("--forget", help="The wall was cleared: forget what hangs.")
    ] = False,
    gone: Annotated[
        list[str] | None,
        typer.Option("--gone", help="This rail was taken down: forget it. May be repeated."),
    ] = None,
    anyway: Annotated[
        bool,
        typer.Option("--anyway", help="Keep it although something of it does not hold."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Say that everything hangs as it was made, so that later changes move little."""
    with defer_interrupts():
        from cleatwright.jobs import hung as service  # noqa: PLC0415 - loads on use

    if sum(bool(one) for one in (show_only, forget, gone)) > 1:
        raise InputError(
            "either what hangs is shown, or all of it is forgotten, or only rails that are gone",
            allowed="one of --show, --forget and --gone",
        )
    if show_only:
        now, heading = service.hung_now(folder), "By the ledger:"
    elif forget:
        now, heading = service.forget_hung(folder), "Forgotten:"
    elif gone:
        now, heading = service.forget_rails(folder, gone), "Forgotten:"
    else:
        with show.bars(quiet=as_json) as run:
            now = service.record_hung(folder, out=out, anyway=anyway, run=run)
        heading = "Kept in the ledger; from now on it stays unless it must move or come down:"
    if as_json:
        show.print_json(now.as_dict())
    else:
        show.print_lines(
            [*([heading] if now.hung else []), *now.summary, *now.notes(typed("parts", folder))]
        )
        show.print_lines([f"Warning: it hangs, but does not hold: {text}" for text in now.failing])
