"""Which joints and which mounts can be made of wood."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from cleatwright.base.errors import DesignError
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.timber import (
    bolted as wooden_bolted,
)
from cleatwright.mounts.timber import (
    cleat as wooden_cleat,
)
from cleatwright.mounts.timber import (
    dovetail as wooden_dovetail,
)
from cleatwright.mounts.timber import (
    screws as wooden_screws,
)
from cleatwright.mounts.timber.front import WoodenFront
from cleatwright.parts.holder import HolderPart

Fronts = Callable[[Sequence[HolderPart], MountSettings, Any, CarrierParams], WoodenFront]
Backs = Callable[[str, WoodenFront, MountSettings, CarrierParams], HolderPart]

JOINTS: Mapping[str, Fronts] = MappingProxyType(
    {"bolted": wooden_bolted.front, "dovetail": wooden_dovetail.front}
)
MOUNTS: Mapping[str, Backs] = MappingProxyType(
    {"french-cleat": wooden_cleat.attach, "wall-screws": wooden_screws.attach}
)


def wooden_joint(name: str) -> Fronts:
    """Return what makes the front of a wooden carrier for a joint, or raise DesignError."""
    if name not in JOINTS:
        raise _no_wood("joint", name, JOINTS)
    return JOINTS[name]


def wooden_mount(name: str) -> Backs:
    """Return what makes the back of a wooden carrier for a mount, or raise DesignError."""
    if name not in MOUNTS:
        raise _no_wood("mount", name, MOUNTS)
    return MOUNTS[name]


def _no_wood(what: str, name: str, known: Mapping[str, object]) -> DesignError:
    return DesignError(
        f'the {what} "{name}" cannot be made of wood',
        allowed=", ".join(sorted(known)),
        todo='Choose one of these for the carrier, or made_of = "plastic"',
    )
