"""Which families can hold a tool, and why when none can."""

from __future__ import annotations

from cleatwright.base.errors import NoHolderError
from cleatwright.holders.family import Family
from cleatwright.holders.registry import FAMILIES
from cleatwright.parts.tool import ToolBody


def candidates(tool: ToolBody) -> tuple[Family, ...]:
    """Return the families that can hold the tool, the preferred one first.

    The order is that of the registry: what a tool hangs by goes before what it stands on.
    """
    return tuple(family for family in FAMILIES.values() if family.why_not(tool) is None)


def why_none(tool: ToolBody, *, name: str = "") -> NoHolderError:
    """Return the error for a tool that no family can hold, with the reason of each family.

    Args:
        tool: The tool.
        name: What the owner calls it.
    """
    reasons = [
        f"{family.name}: {reason}"
        for family in FAMILIES.values()
        if (reason := family.why_not(tool)) is not None
    ]
    grips = ", ".join(grip.title for grip in tool.grips) or "nothing to be held by"
    return NoHolderError(
        f"no holder can take this {tool.kind}, which offers {grips} ({'; '.join(reasons)})",
        where=f'tool "{name}"' if name else "",
        todo="Check its measures, or choose another kind that describes it as well",
    )
