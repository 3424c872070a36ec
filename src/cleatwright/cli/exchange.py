"""Commands that pass things on: tables of tools, bundles of holders."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.cli import show
from cleatwright.cli.arguments import AsJson, Folder

Licence = Annotated[
    str, typer.Option(help="What others may do with it: an SPDX name such as CC-BY-4.0.")
]
Author = Annotated[str, typer.Option(help="Who gives it.")]
WithStep = Annotated[
    bool, typer.Option("--step", help="Add a STEP file; needs the extra named step.")
]


def import_tools(
    folder: Folder,
    table: Annotated[Path, typer.Argument(help="A CSV or XLSX file with one tool a row.")],
    *,
    write: Annotated[
        bool, typer.Option("--write", help="Add the good rows; without it, only report.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Read tools from a table: report each row, and add the good ones with --write.

    The exit code is 2 when a row is refused, though good ones are added.
    """
    with defer_interrupts():
        from cleatwright.jobs.exchange import import_table  # noqa: PLC0415 - loads on use

    with show.muted(on=as_json):
        report = import_table(folder, table, write=write)
    if as_json:
        show.print_json(report.as_dict())
    else:
        show.print_table(str(table), ("row", "tool", "kind", "result"), report.rows)
        show.print_lines(["", *report.summary])
    if report.report.refused:
        raise typer.Exit(2)


def export_tools(
    folder: Folder,
    table: Annotated[Path, typer.Argument(help="The CSV file to write.")],
    *,
    as_json: AsJson = False,
) -> None:
    """Write the tools of a workshop as CSV."""
    with defer_interrupts():
        from cleatwright.jobs.exchange import export_table  # noqa: PLC0415 - loads on use

    with show.muted(on=as_json):
        count = export_table(folder, table)
    show.print_answer(
        {"file": str(table), "tools": count}, [f"Wrote {count} tools to {table}."], as_json=as_json
    )


def share(
    folder: Folder,
    holder: Annotated[str, typer.Argument(help="The name of a holder, or its mark.")],
    out: Annotated[Path, typer.Option(help="The archive to write, such as pliers.zip.")],
    licence: Licence,
    author: Author = "",
    *,
    step: WithStep = False,
    as_json: AsJson = False,
) -> None:
    """Bundle a holder for others: print files, picture, sizes, and the tables to make it again."""
    with defer_interrupts():
        from cleatwright.jobs.sharing import share_holder  # noqa: PLC0415 - loads on use

    with show.muted(on=as_json):
        path = share_holder(folder, holder, licence=licence, author=author, out=out, with_step=step)
    show.print_answer({"file": str(path)}, [f"Wrote {path}."], as_json=as_json)


def share_family(
    family: Annotated[str, typer.Argument(help="The name of a family.")],
    out: Annotated[Path, typer.Option(help="The archive to write, such as fork.zip.")],
    licence: Licence,
    kind: Annotated[str, typer.Option(help="The kind of tool that it shall hold.")] = "",
    author: Author = "",
    *,
    step: WithStep = False,
    as_json: AsJson = False,
) -> None:
    """Bundle a family for others, filled with an ordinary tool."""
    with defer_interrupts():
        from cleatwright.jobs import sharing  # noqa: PLC0415 - loads on use

    path = sharing.share_family(
        family, kind=kind, licence=licence, author=author, out=out, with_step=step
    )
    show.print_answer({"file": str(path)}, [f"Wrote {path}."], as_json=as_json)


def receive(
    folder: Folder,
    bundle: Annotated[Path, typer.Argument(help="The archive that somebody shared.")],
    *,
    write: Annotated[
        bool, typer.Option("--write", help="Add it; without it, only report.")
    ] = False,
    again: Annotated[
        bool, typer.Option("--again", help="Add it once more where it is there already.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Read a bundle into a workshop: its tools and its holder; nothing in it is executed."""
    with defer_interrupts():
        from cleatwright.jobs.receiving import receive_bundle  # noqa: PLC0415 - loads on use

    with show.muted(on=as_json):
        received = receive_bundle(bundle, folder, write=write, again=again)
    show.print_answer(received.as_dict(), received.lines, as_json=as_json)
