"""The fittings by name."""

from __future__ import annotations

from collections.abc import Mapping

from cleatwright.base.registry import by_name, picked
from cleatwright.mounts.fittings import board_hook, bolt, hanger
from cleatwright.mounts.fittings.fitting_kind import FittingKind
from cleatwright.mounts.fittings.groove_plate import HOOK_PLATE, SCREW_PLATE

FITTINGS: Mapping[str, FittingKind] = by_name(
    "fittings", (hanger.KIND, bolt.KIND, SCREW_PLATE, HOOK_PLATE, board_hook.KIND)
)


def fitting_kind(name: str) -> FittingKind:
    """Return the kind of fitting of a name, or raise UnknownNameError with the valid names."""
    return picked("fitting", name, FITTINGS)
