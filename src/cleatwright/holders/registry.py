"""The holder families that come with the program, by name, in their order of preference."""

from __future__ import annotations

from collections.abc import Mapping

from cleatwright.base.registry import by_name, picked
from cleatwright.holders import (
    bore_block,
    edge_comb,
    fork,
    hook,
    ring_floor,
    shoulder_rack,
    straddle_bar,
    tray,
)
from cleatwright.holders.family import Family

FAMILIES: Mapping[str, Family] = by_name(
    "holder families",
    (
        shoulder_rack.FAMILY,
        straddle_bar.FAMILY,
        edge_comb.FAMILY,
        bore_block.FAMILY,
        fork.FAMILY,
        ring_floor.FAMILY,
        hook.FAMILY,
        tray.FAMILY,
    ),
)


def family(name: str, *, where: str = "") -> Family:
    """Return the family of a name, or raise UnknownNameError with the nearest valid name."""
    return picked("holder family", name, FAMILIES, where=where)
