"""Families of other packages: tried before they are used, and their faults given as theirs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from cleatwright.base.errors import CleatwrightError, DesignError
from cleatwright.base.plugins import is_a, is_kind_of, package_of, shielded, what_failed
from cleatwright.base.unheard import silenced
from cleatwright.holders.family import BuildContext, Family, FamilyParams
from cleatwright.parts.grips import Grip
from cleatwright.parts.holder import Front, Seat
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.solid import Solid
from cleatwright.tools.registry import KINDS, ordinary_body

# play and correction, as for an ordinary tool and printer
TRIAL_FIT = Fit(0.4, 0.0)
NOT_ASKED = "it cannot be asked"


def guarded(family: Family) -> Family:
    """Return a family whose unexpected failures are design errors that name it, and that is mute.

    What it prints would stand in the midst of our own output.
    """
    what = f"the family {family.name}"
    whole = shielded(family.build, Front, what=what)

    def build(group: Sequence[FittedTool], params: Any, ctx: BuildContext) -> Front:
        front = whole(group, params, ctx)
        if fault := _front_fault(front, len(group)):
            raise DesignError(
                f"{what} failed ({fault})",
                where=package_of(family.build),
                todo="Tell whoever wrote it, or choose another family",
            )
        return front

    def refuses(tool: ToolBody) -> str | None:
        try:
            with silenced():
                reason = family.refuses(tool)
        except KeyboardInterrupt:
            raise
        except BaseException as error:  # noqa: BLE001 - the same
            return f"{NOT_ASKED} ({what_failed(error)})"
        if reason is None or is_a(reason, str):
            return reason
        return f"{NOT_ASKED} (it answers {type(reason).__name__}, and not a text or None)"

    return replace(family, build=build, refuses=refuses)


def family_fault(family: Family) -> str:
    """Return what is wrong with a family of another package, or "".

    It builds its front for the first ordinary tool that it says it can hold.
    """
    fields: tuple[tuple[str, object, type], ...] = (
        ("title", family.title, str),
        ("guards", family.guards, bool),
        ("by_wish", family.by_wish, bool),
    )
    for name, value, wanted in fields:
        if not is_a(value, wanted):
            return f"its {name} is no {wanted.__name__}"
    types: tuple[tuple[str, object, type], ...] = (
        ("grip", family.grip, Grip),
        ("params", family.params, FamilyParams),
    )
    for name, value, wanted in types:
        if not is_kind_of(value, wanted):
            return f"its {name} is no kind of {wanted.__name__}"
    safe = guarded(family)
    for kind in KINDS:
        body = ordinary_body(kind)
        reason = safe.why_not(body)
        if reason is not None and reason.startswith(NOT_ASKED):
            return reason
        if reason is not None:
            continue
        try:
            safe.build([FittedTool(body, TRIAL_FIT)], family.params(), BuildContext())
        except CleatwrightError as error:
            # it may have its reasons not to hold a tool; a failure is reason as one
            if error.where == package_of(family.build):
                return error.given
        return ""
    return ""


def _front_fault(front: Front, tools: int) -> str:
    """Return what is wrong with what a family built, or ""."""
    if not is_a(front.solid, Solid):
        return "its Front has no solid"
    if not is_a(front.seats, tuple) or not all(is_a(one, Seat) for one in front.seats):
        return "the seats of its Front are no Seats"
    if len(front.seats) != tools:
        return f"it makes {len(front.seats)} seats for {tools} tools"
    return ""
