"""The holder families by name: those of the program, then those of installed packages."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.place import NOWHERE, InDocument
from cleatwright.base.plugins import picked_or_left_out, plug_ins
from cleatwright.base.registry import by_name
from cleatwright.holders.families import (
    bracket_pair,
    cradle,
    disc_file,
    fork,
    inverted_bottle_seat,
    rim_rest,
    shoulder_rack,
    square_post_rail,
    straddle_bar,
    wide_saddle,
)
from cleatwright.holders.families.blade_sheath import family as blade_sheath
from cleatwright.holders.families.bore_block import family as bore_block
from cleatwright.holders.families.clamp_bar import family as clamp_bar
from cleatwright.holders.families.edge_comb import family as edge_comb
from cleatwright.holders.families.hex_pocket_block import family as hex_pocket_block
from cleatwright.holders.families.loop_hook import family as loop_hook
from cleatwright.holders.families.magnet_bar import family as magnet_bar
from cleatwright.holders.families.peg import family as peg
from cleatwright.holders.families.pistol_grip_fork import family as pistol_grip_fork
from cleatwright.holders.families.ribbed_tray import family as ribbed_tray
from cleatwright.holders.families.rim_ledge import family as rim_ledge
from cleatwright.holders.families.ring_floor import family as ring_floor
from cleatwright.holders.families.roll_spindle import family as roll_spindle
from cleatwright.holders.families.shadow_pocket import family as shadow_pocket
from cleatwright.holders.families.spring_clip import family as spring_clip
from cleatwright.holders.families.thin_slot import family as thin_slot
from cleatwright.holders.families.tray import family as tray
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
        rim_rest.FAMILY,
    ),
)
PLUG_INS = plug_ins("cleatwright.families", Family, taken=_OWN, fault_of=family_fault)
FAMILIES: Mapping[str, Family] = MappingProxyType(
    {**_OWN, **{one.name: guarded(one) for one in PLUG_INS.things}}
)


def family(name: str, *, place: InDocument = NOWHERE) -> Family:
    """Return the family of a name, or raise UnknownNameError with the nearest valid name."""
    return picked_or_left_out(
        "holder family", name, FAMILIES, left_out=PLUG_INS.left_out, place=place
    )
