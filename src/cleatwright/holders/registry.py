"""The holder families by name: those of the program, then those of installed packages."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.plugins import plug_ins
from cleatwright.base.registry import by_name, picked
from cleatwright.holders import (
    blade_sheath,
    bore_block,
    bracket_pair,
    clamp_bar,
    cradle,
    disc_file,
    edge_comb,
    fork,
    hex_pocket_block,
    inverted_bottle_seat,
    loop_hook,
    magnet_bar,
    peg,
    pistol_grip_fork,
    ribbed_tray,
    rim_ledge,
    ring_floor,
    roll_spindle,
    shadow_pocket,
    shoulder_rack,
    spring_clip,
    square_post_rail,
    straddle_bar,
    thin_slot,
    tray,
    wide_saddle,
)
from cleatwright.holders.family import Family
from cleatwright.holders.guarded import family_fault, guarded

_OWN: Mapping[str, Family] = by_name(
    "holder families",
    (
        shoulder_rack.FAMILY,
        straddle_bar.FAMILY,
        edge_comb.FAMILY,
        hex_pocket_block.FAMILY,
        bore_block.FAMILY,
        fork.FAMILY,
        ring_floor.FAMILY,
        wide_saddle.FAMILY,
        tray.FAMILY,
        square_post_rail.FAMILY,
        pistol_grip_fork.FAMILY,
        blade_sheath.FAMILY,
        thin_slot.FAMILY,
        spring_clip.FAMILY,
        magnet_bar.FAMILY,
        bracket_pair.FAMILY,
        cradle.FAMILY,
        disc_file.FAMILY,
        roll_spindle.FAMILY,
        peg.FAMILY,
        loop_hook.FAMILY,
        clamp_bar.FAMILY,
        rim_ledge.FAMILY,
        ribbed_tray.FAMILY,
        inverted_bottle_seat.FAMILY,
        shadow_pocket.FAMILY,
    ),
)
PLUG_INS = plug_ins("cleatwright.families", Family, taken=_OWN, fault_of=family_fault)
FAMILIES: Mapping[str, Family] = MappingProxyType(
    {**_OWN, **{one.name: guarded(one) for one in PLUG_INS.things}}
)


def family(name: str, *, where: str = "") -> Family:
    """Return the family of a name, or raise UnknownNameError with the nearest valid name."""
    return picked("holder family", name, FAMILIES, where=where)
