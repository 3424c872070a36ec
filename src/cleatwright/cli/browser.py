"""The command that opens a workshop in the browser."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from cleatwright.base.interrupts import defer_interrupts
from cleatwright.cli import show


def open_workshop(
    folder: Annotated[
        Path | None,
        typer.Argument(
            help="The workshop folder, or one to start in; without one, choose in the browser."
        ),
    ] = None,
    port: Annotated[int, typer.Option(min=0, max=65_535, help="The port; 0 takes a free one.")] = 0,
    lan: Annotated[
        str,
        typer.Option(
            help="The name or address of this computer in your network: lets others there work "
            "with it who have the whole address. Nothing that is sent is encrypted."
        ),
    ] = "",
    *,
    browser: Annotated[bool, typer.Option(help="Show the page in your browser.")] = True,
) -> None:
    """Work on a workshop in the browser: measure, see, arrange, make."""
    with defer_interrupts():
        from cleatwright.web.serving import serve  # noqa: PLC0415 - loads on use

    def say(address: str) -> None:
        show.print_lines([f"Open {address}", "Ctrl-C stops it."])

    serve(folder, port=port, lan=lan, show=browser, say=say)
    sys.stdout.flush()
    # threads may still hold solids, of which the mesh library would complain one by one
    os._exit(0)
