"""The mounts that come with the program, by name."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.errors import unknown_name
from cleatwright.mounts import french_cleat, wall_screws
from cleatwright.mounts.mount import Mount

MOUNTS: Mapping[str, Mount] = MappingProxyType(
    {mount.name: mount for mount in (french_cleat.MOUNT, wall_screws.MOUNT)}
)


def mount(name: str, *, where: str = "") -> Mount:
    """Return the mount of a name, or raise UnknownNameError with the valid names."""
    if name not in MOUNTS:
        raise unknown_name("mount", name, MOUNTS, where=where)
    return MOUNTS[name]
