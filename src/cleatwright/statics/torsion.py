"""A bar of rectangular section that is twisted: how stiff it is, and its worst shear stress.

      ┌───────────── long ─────────────┐
      │               ×                │ short     ×: where the shear is worst
      └────────────────────────────────┘

    J = b a3 (1/3 - 64/pi5 a/b sum tanh(n pi b / 2 a) / n5)        n odd, a the short side
    t = T a / J (1 - 8/pi2 sum 1 / (n2 cosh(n pi b / 2 a)))

Pieces of a section that lie beside each other, and bear each as if it were alone, bear no less
together: their stresses are in equilibrium, and no other pieces are counted.
Source: Saint-Venant's solution, as in Timoshenko and Goodier, Theory of Elasticity; from memory,
and checked in ``tests/statics`` against a membrane of many points.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

# odd terms of the series: of the stress the last is less than 1e-4 of it for a square
TERMS = range(1, 40, 2)
# beyond this a hyperbolic cosine leaves nothing of a term
FAR = 300.0


def constant_mm4(first_mm: float, second_mm: float) -> float:
    """Return the torsion constant of a rectangle; 0 where it has no area.

    >>> [round(constant_mm4(1.0, side), 4) for side in (1.0, 2.0, 10.0)]
    [0.1406, 0.4574, 3.1233]
    """
    short, long = sorted((first_mm, second_mm))
    if short <= 0.0:
        return 0.0
    terms = math.fsum(math.tanh(n * math.pi * long / short / 2.0) / n**5 for n in TERMS)
    return long * short**3 * (1.0 / 3.0 - 64.0 / math.pi**5 * short / long * terms)


def _worst_share(short: float, long: float) -> float:
    """Return the worst shear as a share of T a / J."""
    across = (n * math.pi * long / short / 2.0 for n in TERMS)
    terms = (1.0 / (n**2 * math.cosh(min(one, FAR))) for n, one in zip(TERMS, across, strict=True))
    return 1.0 - 8.0 / math.pi**2 * math.fsum(terms)


@dataclass(frozen=True)
class HollowBar:
    """A rectangle of a section, of which an inner one counts for nothing.

    Args:
        high_mm: One side (> 0).
        thick_mm: The other (> 0).
        edges_mm: How thick what counts is at the ends of ``high_mm``.
        faces_mm: How thick it is at those of ``thick_mm``.
    """

    high_mm: float
    thick_mm: float
    edges_mm: float
    faces_mm: float

    @property
    def constant_mm4(self) -> float:
        """Return its torsion constant, that of the inner rectangle taken off.

        That is exact where the inner rectangle ends at a line along which the shear flows, as in
        a wide plate. What is closed along the long sides counts as no thicker than that along
        the short ones, which the flow around a closed section would load more.

        >>> round(HollowBar(1000.0, 5.0, 1.0, 1.0).constant_mm4 / (125.0 - 27.0) / 1000.0, 2)
        0.33
        """
        edges, faces = self.edges_mm, self.faces_mm
        thin = min(edges, faces)
        edges, faces = (edges, thin) if self.high_mm >= self.thick_mm else (thin, faces)
        inside = constant_mm4(
            max(self.high_mm - 2 * edges, 0.0), max(self.thick_mm - 2 * faces, 0.0)
        )
        return constant_mm4(self.high_mm, self.thick_mm) - inside

    @property
    def bending_mm3(self) -> float:
        """Return its section modulus where it is bent out of its plane.

        >>> round(HollowBar(60.0, 5.0, 1.35, 0.9).bending_mm3, 3)
        187.413
        """
        high, thick = self.high_mm - 2 * self.edges_mm, self.thick_mm - 2 * self.faces_mm
        inside = max(high, 0.0) * max(thick, 0.0) ** 3
        return (self.high_mm * self.thick_mm**3 - inside) / (6.0 * self.thick_mm)

    @property
    def worst_per_turn_mm(self) -> float:
        """Return the worst shear over T / J: a share of the short side."""
        short, long = sorted((self.high_mm, self.thick_mm))
        return short * _worst_share(short, long)


def twist_modulus_mm3(strips: Sequence[HollowBar]) -> float:
    """Return the torque that strips bear together for each N/mm2 of shear; 0 without any.

    >>> round(twist_modulus_mm3([HollowBar(10.0, 10.0, 5.0, 5.0)]), 1)
    208.2
    """
    worst = max((one.worst_per_turn_mm for one in strips), default=0.0)
    return math.fsum(one.constant_mm4 for one in strips) / worst if worst > 0.0 else 0.0
