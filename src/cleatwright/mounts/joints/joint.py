"""What a joint is: how a holder meets its mount, in one piece or on a carrier."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.holder import Front, HolderPart, PrintPose
from cleatwright.parts.params import PartParams


class JointParams(PartParams):
    """Base of a joint's parameters."""


@dataclass(frozen=True)
class CarrierFront:
    """What a joint makes for a mount to carry.

    Args:
        front: The carrier without its mount; its seats are those of its holders, placed.
        offsets_mm: Where the frame of each holder lies in that of the carrier, as (x, y, z).
    """

    front: Front
    offsets_mm: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Joint:
    """A way in which a holder meets its mount.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people.
        params: The parameter model, shared by the holder and the carrier.
        plug: Makes the holder's part from a family's name, its front, settings and parameters.
        poses: The poses in which the holder's side of it prints without support.
        carrier: Makes the carrier for holders, from settings, parameters and the carrier's own.
    """

    name: str
    title: str
    params: type[JointParams]
    plug: Callable[[str, Front, MountSettings, Any], HolderPart]
    poses: tuple[PrintPose, ...]
    carrier: Callable[[Sequence[HolderPart], MountSettings, Any, CarrierParams], CarrierFront]
