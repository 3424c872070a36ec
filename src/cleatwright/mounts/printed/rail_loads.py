"""What hangers and bolts of a holder must bear, before its own weight is known."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from cleatwright.base.source import Evidence, Source
from cleatwright.mounts.fittings import bolt
from cleatwright.mounts.mount import MountSettings, guessed_weights
from cleatwright.mounts.printed.rail_back import (
    BEDDED_POSE,
    EDGE_MM,
    GUIDE_WIDTH_MM,
    UNDER_MM,
    Hangers,
    groove_for,
)
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
from cleatwright.statics.captured import BLUNT_MM, Section, foot_n, knock_n
from cleatwright.statics.cleat import LoadCase, OwnWeight
from cleatwright.statics.hand import hand_cases, knock_lever_mm, resting_cases
from cleatwright.statics.hanger_stress import STEP_MM, hanger_forces
from cleatwright.statics.load_table import LoadTable, Values
from cleatwright.statics.rail_contacts import RailContacts, bearing_mm
from cleatwright.statics.rail_screw_load import pad_mpa, rail_screw_load
from cleatwright.statics.worst_mixture import Mixtures


def bolt_strength_n(stress_mpa: float) -> float:
    """Return what a bolt bears in bending where it leaves its guide: s b h2 / 6 l.

    The floor of the guide carries it beside the slot of its tab, and the edge of the rail is
    rounded by as much as the bevel is blunted.
    """
    wide = bolt.WIDTH_MM - bolt.TAB_MM
    return stress_mpa * wide * bolt.LOW_MM**2 / 6.0 / BLUNT_MM


Places = tuple[float, ...]
"""Where bolts stand along a holder."""
BOLT_YEARS_N = bolt_strength_n(IN_PLANE_YEARS_MPA)
BOLT_HAND_N = bolt_strength_n(IN_PLANE_HAND_MPA)
# a wider holder may be too wide to lie on a bed, and stands on it upright
UPRIGHT_MM = 255.0
BEDS = Source("many beds are 256 mm wide or less", "common practice, no source", Evidence.PRACTICE)
VALUES = (Listed("Mounts", "holder that may print upright, width mm", UPRIGHT_MM, BEDS),)


@dataclass(frozen=True, eq=False)
class _Loads:
    """Load cases, and the stresses that they may cause along the layers and across them."""

    cases: tuple[LoadCase, ...]
    table: LoadTable
    along_mpa: float
    across_mpa: float

    @classmethod
    def of(cls, cases: Sequence[LoadCase], along_mpa: float, across_mpa: float) -> _Loads:
        return cls(tuple(cases), LoadTable.of(cases), along_mpa, across_mpa)


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
    def _owns(self) -> tuple[OwnWeight, ...]:
        owns, settings = guessed_weights(self.front), self.settings
        if not settings.own_kg:
            return owns
        return (*owns, settings.own_in(self.front.width_mm))

    @cached_property
    def _cases(self) -> tuple[_Loads, _Loads]:
        """What rests for years, and what a hand does, with the stresses that it may cause."""
        seats, owns, settings = self.front.seats, self._owns, self.settings
        resting = [case for own in owns for case in resting_cases(seats, own)]
        hand = [case for own in owns for case in hand_cases(seats, own, settings.hand)]
        return (
            _Loads.of(resting, IN_PLANE_YEARS_MPA / settings.margin, LASTING_MPA / settings.margin),
            _Loads.of(hand, IN_PLANE_HAND_MPA, ACROSS_HAND_MPA),
        )

    def contacts(self, hangers: Hangers, bolts_mm: Places) -> RailContacts:
        """Return where it meets its rail with hangers in a plate, in the middle of which it is.

        One bolt is taken to stand in the middle while nobody knows where they do.
        """
        width, lock, contact = self.front.width_mm, self.front.lock, self.section.contact_z_mm
        aside, half = self._aside_mm(hangers), GUIDE_WIDTH_MM / 2
        bolts = bolts_mm or (width / 2,)
        low = min(self.front.plate_low_mm, contact - UNDER_MM)
        left, right = bearing_mm(hangers.spans_mm)
        return RailContacts(
            self.section,
            (left - aside, right - aside),
            (-aside, hangers.plate_mm - aside),
            min(contact - low, self.section.depth_mm),
            () if lock else tuple((x - half, x + half) for x in bolts),
            lock.columns_mm if lock else bolts,
        )

    def _aside_mm(self, hangers: Hangers) -> float:
        return (hangers.plate_mm - self.front.width_mm) / 2

    def bolt_share(self, hangers: Hangers, bolts_mm: Places) -> float:
        """Return which share of its strength the worst bolt uses; infinity where none will do."""
        contacts, settings = self.contacts(hangers, bolts_mm), self.settings
        shares: list[float] = []
        for own in self._owns:
            mixed = Mixtures(contacts, self.front.seats, own)
            shares.append(mixed.resting().force_n * settings.margin / BOLT_YEARS_N)
            pulled = mixed.pulled(settings.hand)
            shares.append(0.0 if pulled is None else pulled.force_n / BOLT_HAND_N)
        return max(shares)

    def thick_mm(self, hangers: Hangers, bolts_mm: Places = ()) -> float:
        """Return how thick a plate must be at the groove of hangers.

        Infinity where they do not bear it themselves, or the lips of their groove do not.
        """
        asked = hangers, bolts_mm
        if asked not in self._thick:
            self._thick[asked] = self._found_thick_mm(hangers, bolts_mm)
        return self._thick[asked]

    @cached_property
    def _thick(self) -> dict[tuple[Hangers, Places], float]:
        """What was found for the same hangers and bolts before."""
        return {}

    def _found_thick_mm(self, hangers: Hangers, bolts_mm: Places) -> float:
        bedded = self.front.print_pose == BEDDED_POSE
        groove = groove_for(hangers, thick_mm=0.0, bedded=bedded)
        contacts, aside = self.contacts(hangers, bolts_mm), self._aside_mm(hangers)
        spans = tuple((low - aside, high - aside) for low, high in hangers.spans_mm)
        wall = STEP_MM
        for loads in self._cases:
            bolts = contacts.bolts_n(loads.table)
            forces = hanger_forces(loads.table, bolts, contacts, groove, spans)
            if np.any(forces.neck_mpa(groove) > loads.along_mpa) or np.any(
                forces.lip_mpa(groove) > loads.across_mpa
            ):
                return math.inf
            stress = loads.along_mpa if bedded else loads.across_mpa
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
        resting, hand = self._cases
        # a hand mostly asks for more than weights do
        for loads, factor in ((hand, 1.0), (resting, settings.margin)):
            pads = loads.across_mpa if screws.across else loads.along_mpa
            for case in loads.cases:
                yield factor * screws.strength.share(rail_screw_load(case, section, screws))
                yield pad_mpa(case, section, screws) / pads
        knocks = [
            knock_n(
                settings.knock_n * knock_lever_mm(seat, section.contact_z_mm),
                hooks_mm=screws.hooks_mm,
                bolts_mm=screws.columns_mm,
            )
            + settings.knock_n / len(screws.columns_mm)
            for seat in self.front.seats
        ]
        most = screws.strength.lateral_n
        yield max(knocks, default=0.0) / most if most > 0.0 else math.inf

    def modulus_mm3(self, lever_mm: float, bolts_mm: Places) -> float:
        """Return the section modulus of what bears the foot's force this far below the plate.

        That of all columns together, as if each bore as much as the worst. The layers of a wide
        holder may lie across its columns.
        """
        if lever_mm <= 0.0:
            return 0.0
        upright = self.front.width_mm > UPRIGHT_MM
        found = [
            foot_n(one.table, self.section)
            * self._foot_shares(one.table, bolts_mm)
            * lever_mm
            / (one.across_mpa if upright else one.along_mpa)
            for one in self._cases
        ]
        return float(np.concatenate(found).max(initial=0.0))

    def _foot_shares(self, cases: LoadTable, bolts_mm: Places) -> Values:
        """Return how much more the worst foot bears than all of them on the mean, in each case."""
        turning = cases.turning_nmm(self.section.contact_z_mm)
        if len(bolts_mm) < 2:
            return np.ones_like(turning)
        skew = cases.skew_nmm2 + (turning - cases.moment_nmm) * cases.hand_x_mm
        first, last = min(bolts_mm), max(bolts_mm)
        at = skew / np.where(turning > 0.0, turning, math.inf)
        return 1.0 + np.minimum(np.abs(2.0 * at - first - last) / (last - first), 1.0)

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
