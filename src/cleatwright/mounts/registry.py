"""The mounts by name: those of the program, then those of installed packages."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.plugins import plug_ins
from cleatwright.base.registry import by_name, picked
from cleatwright.mounts import (
    french_cleat,
    perforated_board,
    slotted_board,
    slotwall,
    t_slot,
    wall_screws,
)
from cleatwright.mounts.mount import Mount

_OWN: Mapping[str, Mount] = by_name(
    "mounts",
    (
        french_cleat.MOUNT,
        wall_screws.MOUNT,
        perforated_board.MOUNT,
        slotted_board.MOUNT,
        slotwall.MOUNT,
        t_slot.MOUNT,
    ),
)
PLUG_INS = plug_ins("cleatwright.mounts", Mount, taken=_OWN)
MOUNTS: Mapping[str, Mount] = MappingProxyType(
    {**_OWN, **{one.name: one for one in PLUG_INS.things}}
)


def mount(name: str, *, where: str = "") -> Mount:
    """Return the mount of a name, or raise UnknownNameError with the valid names."""
    return picked("mount", name, MOUNTS, where=where)
