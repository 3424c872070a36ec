"""The mounts that come with the program, by name."""

from __future__ import annotations

from collections.abc import Mapping

from cleatwright.base.registry import by_name, picked
from cleatwright.mounts import french_cleat, wall_screws
from cleatwright.mounts.mount import Mount

MOUNTS: Mapping[str, Mount] = by_name("mounts", (french_cleat.MOUNT, wall_screws.MOUNT))


def mount(name: str, *, where: str = "") -> Mount:
    """Return the mount of a name, or raise UnknownNameError with the valid names."""
    return picked("mount", name, MOUNTS, where=where)
