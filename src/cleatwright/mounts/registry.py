"""The mounts by name: those of the program, then those of installed packages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from cleatwright.base.place import NOWHERE, InDocument
from cleatwright.base.plugins import is_a, is_kind_of, picked_or_left_out, plug_ins, shielded
from cleatwright.base.registry import by_name
from cleatwright.mounts.mount import Mount, MountParams
from cleatwright.mounts.printed import (
    french_cleat,
    perforated_board,
    slotted_board,
    slotwall,
    t_slot,
    wall_screws,
)
from cleatwright.parts.holder import HolderPart

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


def mount_fault(mount: Mount) -> str:
    """Return what is wrong with a mount of another package, or ""."""
    if not is_a(mount.title, str):
        return "its title is no str"
    if not is_kind_of(mount.params, MountParams):
        return "its params are no kind of MountParams"
    if not callable(mount.attach):
        return "its attach cannot be called"
    return "" if is_a(mount.poses, tuple) else "its poses are no tuple"


def _shielded(mount: Mount) -> Mount:
    what = f"the mount {mount.name}"
    return replace(
        mount,
        attach=shielded(mount.attach, HolderPart, what=what),
        pitch=shielded(mount.pitch, tuple, what=what),
    )


PLUG_INS = plug_ins("cleatwright.mounts", Mount, taken=_OWN, fault_of=mount_fault)
MOUNTS: Mapping[str, Mount] = MappingProxyType(
    {**_OWN, **{one.name: _shielded(one) for one in PLUG_INS.things}}
)


def mount(name: str, *, place: InDocument = NOWHERE) -> Mount:
    """Return the mount of a name, or raise UnknownNameError with the valid names."""
    return picked_or_left_out("mount", name, MOUNTS, left_out=PLUG_INS.left_out, place=place)
