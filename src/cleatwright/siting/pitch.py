"""Boards on which a holder hangs in holes, slots or grooves: the steps in which it can be put.

The search knows places to the hundredth of a millimetre. What hangs in holes goes into the nearest
ones, at most half a pitch off, so that each such holder keeps that much room on each side.
"""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base import said
from cleatwright.design.carrying import Unit
from cleatwright.mounts.mount import Mount
from cleatwright.mounts.registry import mount
from cleatwright.workshop.document.surfaces import MAIN


def half_pitch_mm(unit: Unit) -> tuple[float, float]:
    """Return how far from its place a unit may come to hang, along and up."""
    along, up = _steps(unit)[1]
    return along / 2, up / 2


def pitch_notes(units: Sequence[Unit], *, panel: str) -> tuple[str, ...]:
    """Return what must be said of a panel whose holders hang in holes, slots or grooves.

    Args:
        units: What hangs on it.
        panel: Its name.
    """
    steps = dict.fromkeys(_steps(unit) for unit in units)
    where = "" if panel == MAIN else f" on {panel}"
    notes: list[str] = []
    for hung, (along, up) in steps:
        if along or up:
            sides = "on each side of it" if along else "above and below it"
            notes.append(
                f"{hung.name.capitalize()}{where}: hang each holder in the nearest "
                f"{hung.openings}; room for half a pitch ({said.mm(max(along, up) / 2)}) is kept "
                f"{sides}."
            )
    return tuple(notes)


def _steps(unit: Unit) -> tuple[Mount, tuple[float, float]]:
    recipe = unit.outer.hung_as
    hung = mount(recipe.mount)
    return hung, hung.pitch(hung.params(**dict(recipe.mount_params)))
