"""Grips: the features by which a tool can be held.

Belongs here: what a kind promises about a feature and a family relies on.
Does not belong here: how a family holds it.
"""

from cleatwright.parts.grips.faces import FlatOutline, Rim, SteelFace
from cleatwright.parts.grips.grip import Grip, TurnedGrip
from cleatwright.parts.grips.hanging import (
    EyeHole,
    FlatEdge,
    HookedArm,
    Loop,
    Overhang,
    PistolGrip,
    Shoulder,
    Straddle,
)
from cleatwright.parts.grips.lying import Disc, LyingBar, RollBore, RoundRim, ThinPlate
from cleatwright.parts.grips.standing import (
    Blade,
    Footprint,
    HexShank,
    InvertedNeck,
    RoundBody,
    ShaftEnd,
    SquareDrive,
)

__all__ = [
    "Blade",
    "Disc",
    "EyeHole",
    "FlatEdge",
    "FlatOutline",
    "Footprint",
    "Grip",
    "HexShank",
    "HookedArm",
    "InvertedNeck",
    "Loop",
    "LyingBar",
    "Overhang",
    "PistolGrip",
    "Rim",
    "RollBore",
    "RoundBody",
    "RoundRim",
    "ShaftEnd",
    "Shoulder",
    "SquareDrive",
    "SteelFace",
    "Straddle",
    "ThinPlate",
    "TurnedGrip",
]
