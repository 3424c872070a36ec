"""Commands about what there is: lists, sources, series, families of one's own."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cleatwright.base.errors import InputError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.cli import show
from cleatwright.cli.arguments import AsJson


def list_registry(
    what: Annotated[str, typer.Argument(help="families, kinds, mounts or joints")],
    *,
    as_json: AsJson = False,
) -> None:
    """List the families, tool kinds, mounts or joints, with their measures and bounds."""
    with defer_interrupts():
        from cleatwright.design.catalogue import catalogue, left_out  # noqa: PLC0415

    with show.muted(on=as_json):
        listing = catalogue(what)
    show.print_warnings(left_out())
    if as_json:
        show.print_json([entry.as_dict() for entry in listing])
        return
    for entry in listing:
        title = f"{entry.name}: {entry.title}"
        if entry.rows:
            show.print_table(title, ("measure", "from", "to", "default", "note"), entry.rows)
        show.print_lines(["" if entry.rows else title])


def sources(
    *,
    unseen: Annotated[
        bool, typer.Option("--unseen", help="Only those that nobody has looked up.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List every value from outside with its source."""
    with defer_interrupts():
        from cleatwright.jobs.sources import source_rows  # noqa: PLC0415 - loads on use

    rows = source_rows(unseen=unseen)
    if as_json:
        show.print_json([dict(zip(("table", "value", "source"), row, strict=True)) for row in rows])
    else:
        show.print_table("Sources", ("table", "value", "source"), rows)


def cards(
    out: Annotated[Path, typer.Option(help="The folder for the cards.")],
    *,
    kinds: Annotated[
        str, typer.Option(help='Kinds such as "screwdriver,pliers"; all when left out.')
    ] = "",
    workshop: Annotated[
        Path | None,
        typer.Option(
            help="A workshop: fields for each of its tools; its unit beside --kinds or --tools."
        ),
    ] = None,
    tools: Annotated[
        Path | None,
        typer.Option(help="A CSV or XLSX list with a name and a kind for each tool."),
    ] = None,
    paper: Annotated[str, typer.Option(help="a4 or letter")] = "a4",
    as_json: AsJson = False,
) -> None:
    """Print cards that show what to measure on a tool, with room to write it down."""
    with defer_interrupts():
        from cleatwright.jobs import card_lists as work  # noqa: PLC0415 - loads on use

    if kinds and tools:
        raise InputError(
            "cards are made for kinds or for a list",
            allowed="one of --kinds and --tools; --workshop beside it gives the unit",
        )
    title = "Measuring cards"
    with show.muted(on=as_json):
        if tools is not None:
            views = work.table_cards(tools, unit=work.unit_of(workshop))
        elif kinds or workshop is None:
            views = work.kind_cards(kinds, unit=work.unit_of(workshop))
        else:
            name, views = work.workshop_cards(workshop)
            title = f"{name}: what to measure"
        made = work.make_cards(views, out, title=title, paper=paper)
    if as_json:
        show.print_json(made.as_dict())
    else:
        where = made.folder / work.SHEET
        show.print_lines([f"Wrote {where}; cards: {len(made.kinds)}, pages: {made.pages}."])


def begin(
    name: Annotated[str, typer.Argument(help="The name of the family, such as tin-shelf.")],
    into: Annotated[Path, typer.Option(help="Where the folder of the package is made.")] = Path(),
    *,
    as_json: AsJson = False,
) -> None:
    """Begin a family of your own: a package with one file and its test, to be changed."""
    with defer_interrupts():
        from cleatwright.jobs.beginning import begin_family  # noqa: PLC0415 - loads on use

    paths = begin_family(name, into=into)
    show.print_answer(
        {"files": [str(path) for path in paths]},
        [
            *(f"Wrote {path}" for path in paths),
            "",
            "Install it with pip install -e, and it is found by itself.",
        ],
        as_json=as_json,
    )


def series(  # noqa: PLR0913, PLR0917 - each option of a command is an argument of its function
    family: Annotated[str, typer.Argument(help="The family to make.")],
    out: Annotated[Path, typer.Option(help="The folder for the files.")],
    tools: Annotated[
        Path | None, typer.Option(help="A CSV or XLSX table with a part for each row.")
    ] = None,
    kind: Annotated[str, typer.Option(help="The kind of tool whose measures are varied.")] = "",
    vary: Annotated[
        list[str] | None,
        typer.Option(help='A range such as "shank 3 to 12 by 0.5"; give several to combine them.'),
    ] = None,
    mount: Annotated[str, typer.Option(help="How the parts hang.")] = "french-cleat",
    joint: Annotated[str, typer.Option(help="How they meet the mount.")] = "one-piece",
    seats: Annotated[int, typer.Option(help="Equal tools in each part.")] = 1,
    workshop: Annotated[
        Path | None, typer.Option(help="A workshop whose printer, fit and rails count.")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Make a family over a table of sizes: a 3MF file for each, named by size and mark."""
    with defer_interrupts():
        from cleatwright.jobs import series as work  # noqa: PLC0415 - loads on use

    request = work.SeriesRequest(family, mount=mount, joint=joint, seats=seats, workshop=workshop)
    with show.bars(quiet=as_json) as progress:
        rows = work.wanted_rows(request, table=tools, kind=kind, vary=tuple(vary or ()))
        made = work.make_series(rows, request, out, progress=progress)
    show.print_answer(
        made.as_dict(),
        [
            f"Wrote {len(made.rows)} parts and series.csv to {made.folder}.",
            *(f"Does not hold: {text}" for text in made.failing),
        ],
        as_json=as_json,
    )
    if made.failing:
        raise typer.Exit(3)
