"""Arguments that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Folder = Annotated[Path, typer.Argument(help="A workshop folder, or its workshop.toml.")]
AsJson = Annotated[bool, typer.Option("--json", help="Answer in JSON, for programs.")]
