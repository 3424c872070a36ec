"""The program ``cleatwright``."""

from __future__ import annotations

import sys

import typer
from typer.exceptions import TyperException

from cleatwright.base.errors import Cancelled, CleatwrightError, InputError
from cleatwright.cli import catalogue, exchange, show, wall, work

app = typer.Typer(
    name="cleatwright",
    help="Holders that fit your tools exactly, and a French-cleat wall to hang them on.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
for _name, _command in (
    ("start", work.start),
    ("check", work.check),
    ("arrange", wall.arrange),
    ("why", wall.why),
    ("make", work.make),
    ("hung", wall.hung),
    ("remake", work.remake),
    ("import", exchange.import_tools),
    ("export", exchange.export_tools),
    ("share", exchange.share),
    ("share-family", exchange.share_family),
    ("receive", exchange.receive),
    ("list", catalogue.list_registry),
    ("series", catalogue.series),
    ("cards", catalogue.cards),
    ("begin", catalogue.begin),
    ("sources", catalogue.sources),
):
    app.command(name=_name)(_command)


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
        # words of the command line stand in it, and they must not begin a line of their own
        told = " ".join(error.format_message().split())
        wrong = InputError(told, todo='See "cleatwright --help"')
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
