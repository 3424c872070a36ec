"""Tables of tools that were read before, so that an edit reads the one that it changes."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from typing import Any, cast

from pydantic import ValidationError

from cleatwright.base.lengths import LengthUnit
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.workshop.document.entries import Tool

_ROWS = "tool"
_Given = tuple[object, LengthUnit]


def with_tools_read(raw: Mapping[str, Any], units: LengthUnit, run: Run) -> Mapping[str, Any]:
    """Return a document as plain tables with each table of a tool read, as far as it can be.

    Args:
        raw: The document.
        units: The unit of a bare length.
        run: The run that keeps what was read before.
    """
    rows: object = raw.get(_ROWS)
    if not isinstance(rows, list):
        return raw
    return {
        **raw,
        _ROWS: [run.need(TOOL, (row, units)) or row for row in cast("list[object]", rows)],
    }


def _tool(_: Run, given: _Given) -> Tool | None:
    """Return the tool of a table; None for a table with faults, which the document tells."""
    row, units = given
    try:
        return Tool.model_validate(row, context={"units": units}, by_alias=True, by_name=False)
    except ValidationError:
        return None


def _key(given: _Given) -> str:
    # plain values of TOML, and the order of measures counts
    return hashlib.sha256(repr(given).encode()).hexdigest()


TOOL = Stage("table of a tool", _tool, _key)
"""From the table of a tool to the tool."""
