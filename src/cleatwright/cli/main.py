"""The program ``cleatwright``."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer
from typer.exceptions import TyperException

from cleatwright.base.errors import Cancelled, CleatwrightError, InputError
from cleatwright.cli import show
from cleatwright.services.interrupts import held_back

if TYPE_CHECKING:
    from cleatwright.services.making import Made

app = typer.Typer(
    name="cleatwright",
    help="Holders that fit your tools exactly, and a French-cleat wall to hang them on.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

Folder = Annotated[Path, typer.Argument(help="A workshop folder, or its workshop.toml.")]
AsJson = Annotated[bool, typer.Option("--json", help="Answer in JSON, for programs.")]


@app.command()
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
    with held_back():
        from cleatwright.services.examples import start_workshop  # noqa: PLC0415 - loads on use

    path = start_workshop(folder, example=example)
    if as_json:
        show.print_json({"workshop": str(path), "example": example})
        return
    show.print_lines(
        [
            f"Wrote {path}, a copy of the example {example}.",
            "Measure your own tools and change the file, then:",
            f"  cleatwright check {folder}",
            f"  cleatwright make {folder}",
        ]
    )


@app.command()
def check(folder: Folder, *, as_json: AsJson = False) -> None:
    """Check a workshop: can everything be read, held, printed?"""
    with held_back():
        from cleatwright.services.checking import check_workshop  # noqa: PLC0415 - loads on use

    found = check_workshop(folder)
    show.print_warnings(found.left_out)
    if as_json:
        show.print_json(found.as_dict())
        return
    show.print_table(
        f"{found.name}: {found.tools} tools in {len(found.holders)} holders",
        ("holder", "family", "mount", "tools", "size mm"),
        [(h.name, h.family, h.mount, str(h.tools), h.size) for h in found.holders],
    )
    show.print_lines(
        [
            "",
            "Everything can be read, held and printed; make tells whether the wall has room.",
            *found.remarks,
        ]
    )


@app.command()
def make(
    folder: Folder,
    out: Annotated[
        Path | None,
        typer.Option(help="Where the files go; the folder out in the workshop if left out."),
    ] = None,
    only: Annotated[
        str,
        typer.Option(help="Only some of: parts, batches, wall, wood, lists, report (with commas)."),
    ] = "",
    *,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Say what would change, and write nothing.")
    ] = False,
    step: Annotated[
        bool, typer.Option("--step", help="Write STEP files too; needs the extra named step.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Do the whole job: holders, print files, wall drawing, cut list, report."""
    with held_back():
        from cleatwright.services.making import make_workshop  # noqa: PLC0415 - loads on use

    wanted = tuple(word.strip() for word in only.split(",") if word.strip())
    with show.bars(quiet=as_json) as progress:
        made = make_workshop(
            folder, out=out, only=wanted, dry_run=dry_run, with_step=step, progress=progress
        )
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
        ("no", "mark", "holder", "family", "size mm", "load kg", "hangs at", "cleat used"),
        made.rows,
    )
    show.print_lines(["", *made.summary, "", *(f"Caution: {text}" for text in made.cautions)])


@app.command(name="list")
def list_registry(
    what: Annotated[str, typer.Argument(help="families, kinds, mounts or joints")],
    *,
    as_json: AsJson = False,
) -> None:
    """List the families, tool kinds, mounts or joints, with their measures and bounds."""
    with held_back():
        from cleatwright.services.catalogue import catalogue, left_out  # noqa: PLC0415

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


@app.command()
def begin(
    name: Annotated[str, typer.Argument(help="The name of the family, such as tin-shelf.")],
    into: Annotated[Path, typer.Option(help="Where the folder of the package is made.")] = Path(),
    *,
    as_json: AsJson = False,
) -> None:
    """Begin a family of your own: a package with one file and its test, to be changed."""
    with held_back():
        from cleatwright.services.beginning import begin_family  # noqa: PLC0415 - loads on use

    paths = begin_family(name, into=into)
    if as_json:
        show.print_json({"files": [str(path) for path in paths]})
    else:
        show.print_lines(
            [
                *(f"Wrote {path}" for path in paths),
                "",
                "Install it with pip install -e, and it is found by itself.",
            ]
        )


@app.command()
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
    with held_back():
        from cleatwright.services.remaking import remake_part  # noqa: PLC0415 - loads on use

    paths = remake_part(folder, mark, out=out)
    if as_json:
        show.print_json({"files": [str(path) for path in paths]})
    else:
        show.print_lines([f"Wrote {path}" for path in paths])


@app.command()
def share(
    folder: Folder,
    holder: Annotated[str, typer.Argument(help="The name of a holder, or its mark.")],
    out: Annotated[Path, typer.Option(help="The archive to write, such as pliers.zip.")],
    licence: Annotated[
        str, typer.Option(help="What others may do with it: an SPDX name such as CC-BY-4.0.")
    ],
    author: Annotated[str, typer.Option(help="Who gives it.")] = "",
    *,
    step: Annotated[
        bool, typer.Option("--step", help="Add a STEP file; needs the extra named step.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Bundle a holder for others: print files, picture, sizes, and the tables to make it again."""
    with held_back():
        from cleatwright.services.sharing import share_holder  # noqa: PLC0415 - loads on use

    path = share_holder(folder, holder, licence=licence, author=author, out=out, with_step=step)
    if as_json:
        show.print_json({"file": str(path)})
    else:
        show.print_lines([f"Wrote {path}."])


@app.command()
def receive(
    folder: Folder,
    bundle: Annotated[Path, typer.Argument(help="The archive that somebody shared.")],
    *,
    write: Annotated[
        bool, typer.Option("--write", help="Add it; without it, only report.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Read a bundle into a workshop: its tools and its holder; nothing in it is executed."""
    with held_back():
        from cleatwright.services.receiving import receive_bundle  # noqa: PLC0415 - loads on use

    received = receive_bundle(bundle, folder, write=write)
    if as_json:
        show.print_json(received.as_dict())
    else:
        show.print_lines(received.lines)


@app.command()
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
    with held_back():
        from cleatwright.services import series as work  # noqa: PLC0415 - loads on use

    wish = work.SeriesWish(family, mount=mount, joint=joint, seats=seats, workshop=workshop)
    rows = work.wanted_rows(wish, table=tools, kind=kind, vary=tuple(vary or ()))
    with show.bars(quiet=as_json) as progress:
        made = work.make_series(rows, wish, out, progress=progress)
    if as_json:
        show.print_json(made.as_dict())
    else:
        show.print_lines(
            [
                f"Wrote {len(made.rows)} parts and series.csv to {made.folder}.",
                *(f"Does not hold: {text}" for text in made.failing),
            ]
        )
    if made.failing:
        raise typer.Exit(3)


@app.command(name="import")
def import_tools(
    folder: Folder,
    table: Annotated[Path, typer.Argument(help="A CSV or XLSX file with one tool a row.")],
    *,
    write: Annotated[
        bool, typer.Option("--write", help="Add the good rows; without it, only report.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Read tools from a table: report each row, and add the good ones with --write."""
    with held_back():
        from cleatwright.services.exchange import import_table  # noqa: PLC0415 - loads on use

    report = import_table(folder, table, write=write)
    if as_json:
        show.print_json(report.as_dict())
        return
    show.print_table(str(table), ("row", "tool", "kind", "result"), report.rows)
    show.print_lines(["", *report.summary])


@app.command(name="export")
def export_tools(
    folder: Folder,
    table: Annotated[Path, typer.Argument(help="The CSV file to write.")],
    *,
    as_json: AsJson = False,
) -> None:
    """Write the tools of a workshop as CSV."""
    with held_back():
        from cleatwright.services.exchange import export_table  # noqa: PLC0415 - loads on use

    count = export_table(folder, table)
    if as_json:
        show.print_json({"file": str(table), "tools": count})
    else:
        show.print_lines([f"Wrote {count} tools to {table}."])


@app.command()
def sources(
    *,
    unseen: Annotated[
        bool, typer.Option("--unseen", help="Only those that nobody has looked up.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List every value from outside with its source."""
    with held_back():
        from cleatwright.services.sources import source_rows  # noqa: PLC0415 - loads on use

    rows = source_rows(unseen=unseen)
    if as_json:
        show.print_json([dict(zip(("table", "value", "source"), row, strict=True)) for row in rows])
    else:
        show.print_table("Sources", ("table", "value", "source"), rows)


def run() -> None:
    """Run the program and leave with its exit code."""
    show.forgive_encodings()
    sys.exit(main(sys.argv[1:]))


def main(arguments: list[str]) -> int:
    """Run one command and return its exit code."""
    as_json = "--json" in arguments
    try:
        result = app(arguments or ["--help"], prog_name="cleatwright", standalone_mode=False)
    except CleatwrightError as error:
        show.print_error(error, as_json=as_json)
        return error.exit_code
    except (KeyboardInterrupt, typer.Abort):
        result = Cancelled.exit_code
    except TyperException as error:
        wrong = InputError(error.format_message(), todo='See "cleatwright --help"')
        show.print_error(wrong, as_json=as_json)
        return error.exit_code
    if result == Cancelled.exit_code:
        # the library turns an interrupt into this code without a word
        show.print_error(_stopped(), as_json=as_json)
    return result if isinstance(result, int) else 0


def _stopped() -> Cancelled:
    return Cancelled(
        "stopped by the person; every folder holds its whole old set of files or its whole new one",
        todo="Run the same command again to go on",
    )
