"""The force with which a round body is drawn out between two arms that spring aside.

way out
   ^      ╭─╮ ← round tip, half a thickness in radius
   │      ╰─╯╲        the body's centre is y before the line between the tips:
   y     ╱ N          x² + y² = (R + t/2)², b = atan(y / x)
   │    ╱ b           an arm is aside by x less half of the tips' distance
   ─── · ───── x      pull = 2 k aside (tan b + friction) / (1 - friction tan b)

The arm widens towards its root, as it does where its lower edge falls at 45 degrees.
"""

from __future__ import annotations

import math

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.hold import SpringArms
from cleatwright.standards.table import Listed
from cleatwright.statics.spring_beam import compliance_mm_per_n

SLOPES = Source(
    "Makers' guides to snap-fits", "P (friction + tan a) / (1 - friction tan a)", Evidence.MEMORY
)
# of smooth things on printed arms: tools are of steel, plastic, paper and rubber
FRICTION = 0.5
FRICTION_SOURCE = Source("Printed plastic on tools", "friction, on the high side", Evidence.MEMORY)
_STEPS = 200

VALUES = (Listed("Springs", "friction of printed arms", FRICTION, FRICTION_SOURCE),)


def drawn_out_n(arms: SpringArms, *, modulus_mpa: float, friction: float = FRICTION) -> float:
    """Return the strongest pull, straight out, that takes the body from between its arms.

    Args:
        arms: The arms, their tips moved aside by ``deflection_mm`` at most.
        modulus_mpa: Modulus of elasticity of the plastic, > 0.
        friction: Friction between arms and body, below 1.
    """
    at_rest = arms.mean_radius_mm * math.sin(math.radians(arms.tip_deg))
    apart = at_rest + arms.deflection_mm
    stiff = 1.0 / compliance_mm_per_n(arms, modulus_mpa=modulus_mpa)
    steepest = math.acos(min(1.0, at_rest / apart))
    strongest = 0.0
    for step in range(_STEPS + 1):
        angle = steepest * step / _STEPS
        aside = apart * math.cos(angle) - at_rest
        slope = math.tan(angle)
        grip = 1.0 - friction * slope
        if grip <= 0.0:
            return math.inf
        strongest = max(strongest, 2.0 * stiff * aside * (slope + friction) / grip)
    return strongest
