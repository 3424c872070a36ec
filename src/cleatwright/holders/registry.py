"""The holder families that come with the program, by name, in their order of preference."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from cleatwright.base.errors import DesignError, unknown_name
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


def by_name(families: Iterable[Family]) -> Mapping[str, Family]:
    """Return the families by name, in the order given.

    Raises:
        DesignError: Two families have the same name.
    """
    found: dict[str, Family] = {}
    for one in families:
        if one.name in found:
            raise DesignError(
                f'there are two holder families "{one.name}"', todo="Rename or remove one of them"
            )
        found[one.name] = one
    return MappingProxyType(found)


FAMILIES: Mapping[str, Family] = by_name(
    (
        shoulder_rack.FAMILY,
        straddle_bar.FAMILY,
        edge_comb.FAMILY,
        bore_block.FAMILY,
        fork.FAMILY,
        ring_floor.FAMILY,
        hook.FAMILY,
        tray.FAMILY,
    )
)


def family(name: str, *, where: str = "") -> Family:
    """Return the family of a name, or raise UnknownNameError with the nearest valid name."""
    if name not in FAMILIES:
        raise unknown_name("holder family", name, FAMILIES, where=where)
    return FAMILIES[name]
