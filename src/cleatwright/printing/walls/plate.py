"""How far the sections of a back on a rail are loaded: its plate, its columns and its guides.

Below the lowest seat a cut bears the foot's force, N (z - foot); above the highest what the hooks
pull, (N + F) (contact - z) and the moment at their roots; between them the larger of the two.
Magnets load a back at the middle of their pad.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cleatwright.kernels.mesh.shell_cut import shell_pieces
from cleatwright.mounts.fittings import hanger
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.guide_floor import floor_shell_share, solid_floor_share
from cleatwright.mounts.printed.rail_loads import bolt_strength_n
from cleatwright.parts.holder import RailHold, Seat
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.statics.arm_strength import IN_PLANE_HAND_MPA, IN_PLANE_YEARS_MPA
from cleatwright.statics.captured import Section, foot_n, hook_nmm, section_of
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.hand import hand_cases, resting_cases
from cleatwright.statics.load_table import LoadTable, Values
from cleatwright.statics.rail_contacts import contacts_of
from cleatwright.statics.worst_mixture import Mixtures

CUTS = 14
_JUST_MM = 0.1
# as thick as a plate may be
_THINNER_MM = tuple(4.0 + k / 2.0 for k in range(17))


def back_share(loaded: Loaded) -> float:
    """Return the worst stress in cuts across z and in a guide, as a share of what is borne.

    0 for a holder that is screwed to the wall: its plate lies on it.
    """
    hold = loaded.part.hanging.hold
    if hold is None:
        return 0.0
    return max(plate_share(loaded, hold), _guide_share(loaded, hold))


def plate_share(loaded: Loaded, hold: RailHold) -> float:
    """Return the worst stress in cuts across the z of a holder on hangers, as such a share."""
    section, cases = section_of(loaded.part.hanging), _cases(loaded, hold)
    worst = 0.0
    for at in places_mm(section.foot_z_mm + 1.0, _high_mm(section), CUTS):
        needed, there = _needed_mm3(loaded, cases, section, at), _modulus_mm3(loaded, at)
        if there > 0.0:
            if needed > there:
                there = max(there, *(_modulus_mm3(loaded, at, most) for most in _THINNER_MM))
            worst = max(worst, needed / there)
    return worst


def _modulus_mm3(loaded: Loaded, at_mm: float, most_mm: float = math.inf) -> float:
    """Return the section modulus of a cut across z, or of what of it is no thicker.

    A low rib has the outermost fibre and little else: what stands on a plate makes it no weaker.
    """
    pieces = shell_pieces(loaded.body, "z", at_mm, shell=loaded.shell, most_v_mm=most_mm)
    fibre = max((one.fibre_v_mm for one in pieces), default=0.0)
    return sum(one.about_x_mm4 for one in pieces) / fibre if fibre > 0.0 else 0.0


def plate_alone_share(loaded: Loaded, hold: RailHold) -> float:
    """Return the same for a plate of walls and skins without anything that stands on it.

    What stands on a plate mostly lowers its share; columns below it are not asked.
    """
    section, cases = section_of(loaded.part.hanging), _cases(loaded, hold)
    (low_x, _, _), (high_x, _, _) = loaded.part.bounds_mm
    bears = back.hollow_modulus_mm3(high_x - low_x, loaded.settings.plate_mm)
    high = _high_mm(section)
    rests = (_meets_mm(seat) + _JUST_MM for seat in loaded.part.seats)
    places = {high, *(min(max(z, section.foot_z_mm), high) for z in rests)}
    return max(_needed_mm3(loaded, cases, section, at) for at in places) / bears


@dataclass(frozen=True, eq=False)
class _Bolted:
    """Cases, what all bolts bear in each of them, and the stress that they may cause."""

    cases: LoadTable
    bolts_n: Values
    mpa: float


def _cases(loaded: Loaded, hold: RailHold) -> tuple[_Bolted, ...]:
    """Return the cases that rest for years, and those of a hand."""
    seats, own = loaded.part.seats, loaded.own
    contacts = contacts_of(loaded.part.hanging, hold)

    def bolted(cases: Sequence[LoadCase], mpa: float) -> _Bolted:
        table = LoadTable.of(cases)
        return _Bolted(table, len(contacts.bolts_mm) * contacts.bolts_n(table), mpa)

    return (
        bolted(resting_cases(seats, own), loaded.years_mpa("z")),
        bolted(hand_cases(seats, own, loaded.settings.hand), loaded.hand_mpa("z")),
    )


def _high_mm(section: Section) -> float:
    """Return where the highest cut lies, just below the groove of the hangers."""
    return section.contact_z_mm - back.UNDER_MM - _JUST_MM


def _needed_mm3(loaded: Loaded, cases: Sequence[_Bolted], section: Section, at_mm: float) -> float:
    """Return the section modulus that a cut needs; infinity where no bolt will do."""
    most = [_moments_nmm(loaded, one, section, at_mm).max(initial=0.0) / one.mpa for one in cases]
    return float(max(most))


def _moments_nmm(loaded: Loaded, bolted: _Bolted, section: Section, at_mm: float) -> Values:
    cases, tight = bolted.cases, np.isfinite(bolted.bolts_n)
    rests = [_meets_mm(seat) for seat in loaded.part.seats]
    force = foot_n(cases, section)
    below = force * (at_mm - section.contact_z_mm + section.depth_mm)
    bolts = np.where(tight, bolted.bolts_n, 0.0)
    above = (force + cases.pull_n) * (section.contact_z_mm - at_mm) + hook_nmm(
        cases, section, bolts_n=bolts, middle_mm=hanger.MIDDLE_MM
    )
    if at_mm < min(rests):
        return below
    above = np.where(tight, above, math.inf)
    return above if at_mm > max(rests) else np.maximum(below, above)


def _meets_mm(seat: Seat) -> float:
    """Return the height at which a tool loads the back."""
    return seat.rest_z_mm + (0.0 if seat.magnet is None else seat.magnet.lever_mm)


def _guide_share(loaded: Loaded, hold: RailHold) -> float:
    """Return how far the floors of the guides are loaded by their bolts.

    A solid floor bears what its bolt does; one of walls and skins its share of that.
    """
    if not hold.bolts_mm:
        return 0.0
    mixed = Mixtures(contacts_of(loaded.part.hanging, hold), loaded.part.seats, loaded.own)
    years = bolt_strength_n(IN_PLANE_YEARS_MPA / loaded.settings.margin)
    used, pulled = mixed.resting().force_n / years, mixed.pulled(loaded.settings.hand)
    if pulled is not None:
        used = max(used, pulled.force_n / bolt_strength_n(IN_PLANE_HAND_MPA))
    return (
        used * solid_floor_share() / floor_shell_share(loaded.shell.walls_mm, loaded.shell.skin_mm)
    )
