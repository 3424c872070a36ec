"""All commands under one name, and how one of them is run."""

from __future__ import annotations

from typing import Any

import typer
from typer.core import TyperGroup
from typer.exceptions import TyperException

from cleatwright.base.errors import Cancelled, InputError
from cleatwright.cli import browser, catalogue, exchange, parts, wall, work


class _EndOfFileError(Exception):
    """An end of a file inside a command, which the library would take for a wish to stop."""


class _Commands(TyperGroup):
    """The group of commands, in which an end of a file stays what it is."""

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except EOFError as error:
            raise _EndOfFileError(*error.args) from error


app = typer.Typer(
    cls=_Commands,
    name="cleatwright",
    help="Holders that fit your tools exactly, and a French-cleat wall to hang them on.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
for _name, _command in (
    ("start", work.start),
    ("open", browser.open_workshop),
    ("check", work.check),
    ("arrange", wall.arrange),
    ("rearrange", wall.rearrange),
    ("plans", wall.plans),
    ("why", wall.why),
    ("make", work.make),
    ("hung", wall.hung),
    ("parts", parts.parts),
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


def answer(arguments: list[str]) -> int:
    """Run one command and return its exit code.

    Raises:
        CleatwrightError: Whatever stands in the way.
        KeyboardInterrupt: The person wants it to stop.
        BrokenPipeError: Nobody reads its answer any more.
    """
    try:
        result = app(arguments or ["--help"], prog_name="cleatwright", standalone_mode=False)
    except TyperException as error:
        # words of the command line stand in it, and they must not begin a line of their own
        message = " ".join(error.format_message().split())
        raise InputError(message, todo='See "cleatwright --help"') from error
    except _EndOfFileError as error:
        raise EOFError(*error.args) from error
    except typer.Abort:
        raise KeyboardInterrupt from None
    except SystemExit as end:
        # the library leaves at once where nobody reads
        if isinstance(end.__context__, BrokenPipeError):
            raise end.__context__ from None
        raise
    if result == Cancelled.exit_code:
        # the library turns an interrupt into this code without a word
        raise KeyboardInterrupt
    return result if isinstance(result, int) else 0
