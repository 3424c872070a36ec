"""What the worst bolt under a rail bears, wherever along a holder its weights and hands act.

A holder is stiff, and all forces act on it, without friction; t is the slope of the bevel:

    hooks    q up, q t back     at y = -r, r t below the bevel's edge, r in [BLUNT, tip]
    back     N out              at y = 0, z below that edge, z in [BLUNT, back]
    feet     N out              the same, z in [BLUNT, depth]
    bolts    S down             at y = 0 or y = -BLUNT, whichever is worse

                 ┌──────── x
      ═ hook ══╤═╧════ hook ═      hooks bear between the middles of two hangers, or in the
      │ back   │           │       middle half of one, back and feet anywhere between their ends
      └──────┬─┴─┬─────────┘
             │ ▔ │ foot, bolt

Two sums of forces and three of moments vanish. The loads under which no bolt bears more than s are
a cone, and each facet of it is a bound on s that grows evenly with the load. So the facets, found
once for a back, tell the force in every case, and the worst mixture of tools.
Source: equilibrium of a rigid body; duality of linear programmes.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from cleatwright.parts.holder import Hanging, RailHold
from cleatwright.statics.captured import BLUNT_MM, Section, section_of
from cleatwright.statics.cleat import LoadCase, Weight
from cleatwright.statics.cone_facets import cone_facets
from cleatwright.statics.load_table import LoadTable, Values

Span = tuple[float, float]
Load = npt.NDArray[np.float64]
"""Forces out (N) and up, and moments that turn out, along the wall and sideways (N mm)."""
SIZE = 5
# of moments, so that all numbers of a ray are about as large
ARM_MM = 50.0
# of a facet whose bound is none on the bolt, but on the load alone
FLAT = 1e-9
# a load on such a facet rounds to this, of its own size
JUST = 1e-9
ROUNDED = 9
BACKS = 512


@dataclass(frozen=True)
class RailContacts:
    """Where a holder meets its rail; places along it as in its own frame.

    Args:
        section: Its section.
        hooks_mm: The outermost places where its hooks bear; see ``bearing_mm``.
        wide_mm: Where its back begins and ends.
        back_mm: How far below the bevel's edge all of its back bears.
        feet_mm: Where each piece begins and ends that bears down to ``depth``.
        bolts_mm: The middles of its bolts, or of the screws that keep it down; at least one.
    """

    section: Section
    hooks_mm: Span
    wide_mm: Span
    back_mm: float
    feet_mm: tuple[Span, ...]
    bolts_mm: tuple[float, ...]

    def weight(self, one: Weight) -> Load:
        """Return what a weight does to the holder."""
        x = one.along_mm - self._middle_mm
        return np.array([0.0, -one.force_n, one.force_n * one.out_mm, -one.force_n * x, 0.0])

    def load(self, case: LoadCase | LoadTable) -> Load:
        """Return what all forces of a case do to the holder, or those of many, (5, n)."""
        x = case.hand_x_mm - self._middle_mm
        return np.array(
            [
                case.pull_n,
                case.lift_n - case.weight_n,
                case.turning_nmm(self.section.contact_z_mm),
                case.lift_n * x - case.along_nmm + case.weight_n * self._middle_mm,
                case.pull_n * x,
            ]
        )

    def bolt_n(self, case: LoadCase) -> float:
        """Return the least force on the worst bolt in a case; infinity where none will do."""
        return self.bounds.force_n(self.load(case))

    def bolts_n(self, cases: LoadTable) -> Values:
        """Return the same for each of many cases."""
        return self.bounds.forces_n(self.bounds.rows @ self.load(cases)).max(axis=0)

    @property
    def bounds(self) -> BoltBounds:
        """Return the bounds on the force of a bolt."""
        return _bounds(self)

    @property
    def _middle_mm(self) -> float:
        return sum(self.wide_mm) / 2


def bearing_mm(hangers_mm: Sequence[Span]) -> Span:
    """Return the outermost places where hooks bear: at the ends they would be bent sideways.

    Args:
        hangers_mm: Where each hanger begins and ends; at least one.

    >>> bearing_mm(((0.0, 20.0), (80.0, 100.0))), bearing_mm(((0.0, 20.0),))
    ((10.0, 90.0), (5.0, 15.0))
    """
    (low, high), (last_low, last_high) = hangers_mm[0], hangers_mm[-1]
    if len(hangers_mm) > 1:
        return (low + high) / 2, (last_low + last_high) / 2
    return low + (high - low) / 4, high - (high - low) / 4


def contacts_of(hanging: Hanging, hold: RailHold) -> RailContacts:
    """Return where a part with hangers meets its rail."""
    lock = hanging.lock
    return RailContacts(
        section_of(hanging),
        bearing_mm(hold.hangers_mm),
        hold.wide_mm,
        hold.back_mm,
        hold.feet_mm,
        hold.bolts_mm if lock is None else lock.columns_mm,
    )


@dataclass(frozen=True, eq=False)
class BoltBounds:
    """Bounds ``rows @ load <= caps * s`` on the force s of the worst bolt.

    Args:
        rows: One bound in each row, (m, 5).
        caps: 1 where it bounds the bolt, 0 where it bounds what any bolt can do, (m,).
    """

    rows: npt.NDArray[np.float64]
    caps: npt.NDArray[np.float64]

    def forces_n(self, bounded: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Return the forces that products of the rows with loads ask for, of the same shape."""
        size = JUST * max(1.0, float(np.abs(bounded).max(initial=0.0)))
        beyond = np.where(bounded > size, math.inf, 0.0)
        caps = self.caps.reshape(-1, *(1,) * (bounded.ndim - 1))
        return np.maximum(np.where(caps > 0.0, bounded, beyond), 0.0)

    def force_n(self, load: Load) -> float:
        """Return the force that a load asks for; infinity where none will do."""
        return float(self.forces_n(self.rows @ load).max())


@lru_cache(maxsize=BACKS)
def _bounds(contacts: RailContacts) -> BoltBounds:
    found = [_facets(contacts, bolt_y_mm) for bolt_y_mm in (0.0, -BLUNT_MM)]
    rows, caps = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return BoltBounds(rows, caps)


def _facets(
    contacts: RailContacts, bolt_y_mm: float
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Return the bounds with the bolts pushed down at one place."""
    slope, middle = contacts.section.slope, sum(contacts.wide_mm) / 2
    steep = 1.0 + slope**2
    hooks = [
        (-slope, 1.0, steep * r, x, -slope * x)
        for x in (end - middle for end in contacts.hooks_mm)
        for r in (BLUNT_MM, contacts.section.tip_mm)
    ]
    spans = [(contacts.wide_mm, contacts.back_mm)]
    spans += [(foot, contacts.section.depth_mm) for foot in contacts.feet_mm]
    face = [
        (1.0, 0.0, -z, 0.0, x - middle)
        for span, low in spans
        for x in span
        for z in (BLUNT_MM, max(low, BLUNT_MM))
    ]
    # of forces none beyond s, the first or the last ones together are the corners
    places = sorted(x - middle for x in contacts.bolts_mm)
    count = len(places)
    sets = [some for k in range(1, count + 1) for some in (places[:k], places[count - k :])]
    bolts = [(0.0, -1.0 * len(some), bolt_y_mm * len(some), -sum(some), 0.0) for some in sets]
    # each force bears a load that is its opposite
    borne = [(*(-value for value in force), 0.0) for force in (*hooks, *face)]
    borne += [(*(-value for value in force), 1.0) for force in bolts]
    cone = np.array([*borne, (0.0,) * SIZE + (1.0,)])
    scale = np.array([1.0, 1.0, *(1.0 / ARM_MM,) * 3, 1.0])
    normals = cone_facets(cone * scale) * scale
    caps = np.where(normals[:, SIZE] < -FLAT, 1.0, 0.0)
    size = np.where(caps > 0.0, -normals[:, SIZE], 1.0)
    return np.round(normals[:, :SIZE] / size[:, None], ROUNDED), caps
