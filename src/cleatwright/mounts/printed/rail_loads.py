"""What hangers and bolts of a holder must bear, before its own weight is known."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.mount import MountSettings, guessed_weights
from cleatwright.mounts.printed.rail_back import BEDDED_POSE, EDGE_MM, Hangers, groove_for
from cleatwright.parts.holder import Front
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.standards.table import Listed
from cleatwright.statics.arm_strength import (
    ACROSS_HAND_MPA,
    IN_PLANE_HAND_MPA,
    IN_PLANE_YEARS_MPA,
    LASTING_MPA,
)
from cleatwright.statics.captured import BLUNT_MM, Section, bolt_n, foot_n, knock_n
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import hand_cases, knock_lever_mm, resting_cases
from cleatwright.statics.hanger_stress import STEP_MM, HangerForces, hanger_forces
from cleatwright.statics.rail_screw_load import rail_screw_load


def bolt_strength_n(stress_mpa: float) -> float:
    """Return what a bolt bears in bending where it leaves its guide: s b h2 / 6 l.

    The floor of the guide carries it beside the slot of its tab, and the edge of the rail is
    rounded by as much as the bevel is blunted.
    """
    wide = bolt.WIDTH_MM - bolt.TAB_MM
    return stress_mpa * wide * bolt.LOW_MM**2 / 6.0 / BLUNT_MM


BOLT_YEARS_N = bolt_strength_n(IN_PLANE_YEARS_MPA)
BOLT_HAND_N = bolt_strength_n(IN_PLANE_HAND_MPA)
# for what does not depend on their number and width
ANY_HANGERS = Hangers(1.0, (0.0,))
# a wider holder may be too wide to lie on a bed, and stands on it upright
UPRIGHT_MM = 255.0
BEDS = Source("many beds are 256 mm wide or less", "common practice, no source", Evidence.PRACTICE)
VALUES = (Listed("Mounts", "holder that may print upright, width mm", UPRIGHT_MM, BEDS),)


@dataclass(frozen=True)
class RailDemand:
    """The load cases of a front on a rail.

    Args:
        front: What hangs; a carrier has the seats of all its holders.
        section: Its section on the rail.
        settings: What it shall stand.
    """

    front: Front
    section: Section
    settings: MountSettings

    @cached_property
    def _cases(self) -> tuple[tuple[tuple[LoadCase, ...], float], ...]:
        """The cases with the stress that they may cause: for years, and while a hand pulls."""
        seats, settings = self.front.seats, self.settings
        owns = guessed_weights(self.front)
        if settings.own_kg:
            owns = (*owns, OwnWeight(settings.own_kg, settings.own_out_mm))
        resting = tuple(case for own in owns for case in resting_cases(seats, own))
        hand = tuple(case for own in owns for case in hand_cases(seats, own, self.settings.hand))
        return (resting, IN_PLANE_YEARS_MPA / self.settings.margin), (hand, IN_PLANE_HAND_MPA)

    @property
    def _hung(self) -> tuple[tuple[tuple[LoadCase, ...], float, float], ...]:
        """The cases with the stress that they may cause along the layers, and across them."""
        (resting, years), (hand, while_pulled) = self._cases
        across = LASTING_MPA / self.settings.margin
        return (resting, years, across), (hand, while_pulled, ACROSS_HAND_MPA)

    @cached_property
    def bolts(self) -> float:
        """How many bolts it takes, as a share; infinity where none will do."""
        return max(
            (
                bolt_n(case, self.section) / bolt_strength_n(stress)
                for cases, stress in self._cases
                for case in cases
            ),
            default=0.0,
        )

    def thick_mm(self, hangers: Hangers) -> float:
        """Return how thick a plate must be at the groove of hangers.

        Infinity where they do not bear it themselves, or the lips of their groove do not.
        """
        # where they sit does not matter
        same = hangers.width_mm, len(hangers.lefts_mm)
        if same not in self._thick:
            self._thick[same] = self._found_thick_mm(hangers)
        return self._thick[same]

    @cached_property
    def _thick(self) -> dict[tuple[float, int], float]:
        """What was found for as many hangers as wide before."""
        return {}

    @cached_property
    def _forces(self) -> tuple[tuple[tuple[HangerForces, ...], float, float], ...]:
        """The forces of each case at a groove, which are the same however long hangers are."""
        groove = groove_for(ANY_HANGERS, thick_mm=0.0, bedded=True)
        return tuple(
            (tuple(hanger_forces(case, self.section, groove) for case in cases), along, across)
            for cases, along, across in self._hung
        )

    def _found_thick_mm(self, hangers: Hangers) -> float:
        bedded = self.front.print_pose == BEDDED_POSE
        groove = groove_for(hangers, thick_mm=0.0, bedded=bedded)
        wall = STEP_MM
        for found, along, across in self._forces:
            for forces in found:
                if forces.neck_mpa(groove) > along or forces.lip_mpa(groove) > across:
                    return math.inf
                stress = along if bedded else across
                # what the cases before it ask for is mostly enough
                wall = forces.wall_needed_mm(groove, stress_mpa=stress, least_mm=wall)
                if math.isinf(wall):
                    return math.inf
        return groove.deep_mm + wall

    def screws_bear(self, screws: RailScrews) -> bool:
        """Return True when screws into the rail are strong enough in every case."""
        return all(share <= 1.0 for share in self._screw_shares(screws))

    def screw_share(self, screws: RailScrews) -> float:
        """Return which share of their strength screws into the rail use at the worst."""
        return max(self._screw_shares(screws))

    def _screw_shares(self, screws: RailScrews) -> Iterator[float]:
        settings, section = self.settings, self.section
        (resting, _), (hand, _) = self._cases
        # a hand mostly asks for more than weights do
        for cases, factor in ((hand, 1.0), (resting, settings.margin)):
            for case in cases:
                yield factor * screws.strength.share(rail_screw_load(case, section, screws))
        knocks = [
            knock_n(
                settings.knock_n * knock_lever_mm(seat, section.contact_z_mm),
                0.0,
                weight_x_mm=0.0,
                hooks_mm=screws.hooks_mm,
                bolts_mm=screws.columns_mm,
            )
            + settings.knock_n / len(screws.columns_mm)
            for seat in self.front.seats
        ]
        most = screws.strength.lateral_n
        yield max(knocks, default=0.0) / most if most > 0.0 else math.inf

    def modulus_mm3(self, lever_mm: float) -> float:
        """Return the section modulus of what bears the foot's force this far below the plate.

        The layers of a wide holder may lie across its columns.
        """
        if lever_mm <= 0.0:
            return 0.0
        upright = self.front.width_mm > UPRIGHT_MM
        return max(
            (
                foot_n(case, self.section) * lever_mm / (across if upright else along)
                for cases, along, across in self._hung
                for case in cases
            ),
            default=0.0,
        )

    def width_mm(self, bolts: int, aside_mm: float) -> float:
        """Return how wide the plate must be so that a knock at a tool leaves the hooks down.

        Args:
            bolts: How many there are.
            aside_mm: How far the farthest of them stands from the middle.
        """
        arms = [
            self.settings.knock_n
            * knock_lever_mm(seat, self.section.contact_z_mm)
            / (bolts * BOLT_HAND_N + seat.tool.mass_kg * GRAVITY_M_S2)
            for seat in self.front.seats
        ]
        return 2 * (max(arms, default=0.0) + aside_mm + EDGE_MM)
