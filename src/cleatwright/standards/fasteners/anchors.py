"""What an anchor in masonry or concrete may carry, from the loads that its own papers state.

The papers state a load in one of three ways. A characteristic load is divided by the partial
factor of the anchor in its base material, which gives the design load; that is divided by the
partial factor of the loads, which gives what may hang there: the allowable load, which papers
also call recommended. A load at which anchors failed in tests is none of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

Stated = Literal["allowable", "design", "characteristic"]
"""How the papers of an anchor state its loads."""
Base = Literal["brick", "block", "concrete"]
"""What an anchor goes into."""

MATERIAL = Source("ETAG 020", "partial factors by base material", Evidence.MEMORY)
# the greater of 1.35 for permanent and 1.5 for variable loads: tools come and go
ACTIONS = Source("EN 1990", "Table A1.2(B), variable loads", Evidence.MEMORY)
GAMMA_M: Mapping[Base, float] = MappingProxyType({"brick": 2.5, "block": 2.5, "concrete": 1.8})
GAMMA_F = 1.5
# EN 1992-4 allows a sum of shares of 1.2, and powers of 1.5 of them; 1.0 is below both
INTERACTION = Source(
    "TMS 402",
    "anchors drawn out and along the face: the two shares add up to 1 at the most",
    Evidence.MEMORY,
)

VALUES = (
    *(
        Listed("Anchors", f"partial factor in {base}", factor, MATERIAL)
        for base, factor in GAMMA_M.items()
    ),
    Listed("Anchors", "partial factor of loads", GAMMA_F, ACTIONS),
    Listed("Anchors", "sum of the shares of tension and shear", 1.0, INTERACTION),
)


def allowable_n(load_n: float, stated: Stated, base: Base) -> float:
    """Return what may hang on an anchor, from a load of its papers.

    Args:
        load_n: The load as the papers have it, >= 0.
        stated: How they state it.
        base: What the anchor is in.

    >>> allowable_n(600.0, "allowable", "brick"), allowable_n(600.0, "design", "brick")
    (600.0, 400.0)
    >>> allowable_n(1500.0, "characteristic", "brick")
    400.0
    """
    if stated == "allowable":
        return load_n
    return load_n / GAMMA_F if stated == "design" else load_n / GAMMA_M[base] / GAMMA_F
