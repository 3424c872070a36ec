"""How far the sections of a back on a rail are loaded: its plate, its columns and its guides.

Below the lowest seat a cut bears the foot's force, N (z - foot); above the highest what the hooks
pull, (N + F) (contact - z) and the moment at their roots; between them the larger of the two.
"""

from __future__ import annotations

from cleatwright.kernels.mesh.shell_cut import shell_pieces
from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.printed import rail_back as back
from cleatwright.mounts.printed.rail_loads import bolt_strength_n
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.statics.arm_strength import IN_PLANE_HAND_MPA, IN_PLANE_YEARS_MPA
from cleatwright.statics.captured import BLUNT_MM, Section, bolt_n, foot_n, hook_nmm, section_of
from cleatwright.statics.cleat import LoadCase
from cleatwright.statics.hand import hand_cases, resting_cases

CUTS = 14
_JUST_MM = 0.1


def back_share(loaded: Loaded) -> float:
    """Return the worst stress in cuts across z and in a guide, as a share of what is borne.

    0 for a holder that is screwed to the wall: its plate lies on it.
    """
    hanging = loaded.part.hanging
    if hanging.hold is None:
        return 0.0
    section = section_of(hanging)
    rest = resting_cases(loaded.part.seats, loaded.own)
    hand = hand_cases(loaded.part.seats, loaded.own, loaded.settings.hand)
    cases = (
        *((case, loaded.years_mpa("z")) for case in rest),
        *((case, loaded.hand_mpa("z")) for case in hand),
    )
    foot = section.contact_z_mm - section.depth_mm
    high = section.contact_z_mm - back.UNDER_MM - _JUST_MM
    worst = 0.0
    for at in places_mm(foot + 1.0, high, CUTS):
        pieces = shell_pieces(loaded.body, "z", at, shell=loaded.shell)
        about = sum(one.about_x_mm4 for one in pieces)
        if about > 0.0:
            fibre = max(one.fibre_v_mm for one in pieces)
            stress = max(_moment_nmm(loaded, case, section, at) / mpa for case, mpa in cases)
            worst = max(worst, stress * fibre / about)
    return max(worst, _guide_share(loaded, rest, hand, section))


def _moment_nmm(loaded: Loaded, case: LoadCase, section: Section, at_mm: float) -> float:
    rests = [seat.rest_z_mm for seat in loaded.part.seats]
    force = foot_n(case, section)
    below = force * (at_mm - section.contact_z_mm + section.depth_mm)
    above = (force + case.pull_n) * (section.contact_z_mm - at_mm) + hook_nmm(
        case, section, middle_mm=hanger.MIDDLE_MM
    )
    if at_mm < min(rests):
        return below
    return above if at_mm > max(rests) else max(below, above)


def _guide_share(
    loaded: Loaded,
    rest: tuple[LoadCase, ...],
    hand: tuple[LoadCase, ...],
    section: Section,
) -> float:
    """Return how far the floors of the guides are loaded by their bolts.

    A solid floor bears what its bolt does; one of walls and skins its share of that.
    """
    hold = loaded.part.hanging.hold
    if hold is None or not hold.bolts_mm:
        return 0.0
    count = len(hold.bolts_mm)
    years, pulled = (
        count * bolt_strength_n(mpa)
        for mpa in (IN_PLANE_YEARS_MPA / loaded.settings.margin, IN_PLANE_HAND_MPA)
    )
    used = max(
        [
            *(bolt_n(case, section) / years for case in rest),
            *(bolt_n(case, section) / pulled for case in hand),
        ],
        default=0.0,
    )
    return (
        used * solid_floor_share() / floor_shell_share(loaded.shell.walls_mm, loaded.shell.skin_mm)
    )


def solid_floor_share() -> float:
    """Return how far a bolt at its strength loads a solid floor; see ``FLOOR_RIM_MM``."""
    edge = bolt_strength_n(1.0) * (1.0 + BLUNT_MM / bolt.HELD_MM)
    return edge * (bolt.WIDTH_MM - bolt.TAB_MM) / 2 * 6.0 / (bolt.GUIDE_MM * back.FLOOR_RIM_MM**2)


def floor_shell_share(walls_mm: float, skin_mm: float) -> float:
    """Return the section modulus of a floor of walls and skins, as a share of a solid one.

    >>> floor_shell_share(100.0, 0.9), round(floor_shell_share(1.35, 0.9), 3)
    (1.0, 0.713)
    """
    high, deep = back.FLOOR_RIM_MM, bolt.GUIDE_MM
    inside = max(high - 2 * walls_mm, 0.0) ** 3 * max(deep - 2 * skin_mm, 0.0)
    return 1.0 - inside / (high**3 * deep)
