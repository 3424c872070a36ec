"""Families of other packages, whose faults are told as theirs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from cleatwright.base.errors import CleatwrightError, DesignError
from cleatwright.holders.family import BuildContext, Family
from cleatwright.parts.holder import Front
from cleatwright.parts.tool import FittedTool, ToolBody


def guarded(family: Family) -> Family:
    """Return a family whose unexpected failures are design errors that name it."""

    def build(group: Sequence[FittedTool], params: Any, ctx: BuildContext) -> Front:
        try:
            return family.build(group, params, ctx)
        except CleatwrightError:
            raise
        except Exception as error:
            raise _failed(family, error) from error

    def refuses(tool: ToolBody) -> str | None:
        try:
            return family.refuses(tool)
        except Exception as error:  # noqa: BLE001 - another package may fail in any way
            return f"cannot be asked ({type(error).__name__}: {error})"

    return replace(family, build=build, refuses=refuses)


def _failed(family: Family, error: Exception) -> DesignError:
    return DesignError(
        f"the family {family.name} failed ({type(error).__name__}: {error})",
        where=f"package of {family.build.__module__}",
        todo="Tell whoever wrote it, or choose another family",
    )
