"""Properties of tools that can hurt somebody or spoil something, each with its caution.

A kind of tools sets them, and whoever owns a tool may set others for it.

Source: common practice, no source, unless said otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Literal, get_args

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

ToolProperty = Literal["sharp", "hot", "heavy", "liquid", "flammable", "cell", "glass"]
PROPERTIES: tuple[ToolProperty, ...] = get_args(ToolProperty)

HEAVY_KG = 3.0
HEAVY = Source(
    "HSE INDG143",
    "lifting filter: 3 kg is the least of its figures, above the shoulders at arm's length",
    Evidence.MEMORY,
)
VALUES = (Listed("Tools", "mass from which a tool counts as heavy, kg", HEAVY_KG, HEAVY),)

CAUTIONS: Mapping[ToolProperty, str] = MappingProxyType(
    {
        "sharp": "Cover edges, points and teeth on the wall, or turn them to the wall, before "
        "anybody reaches past them.",
        "hot": "Let a hot tool cool down before it goes on the wall: printed holders soften. Pull "
        "its plug, and keep cans, solvents, paper and cords away from it.",
        "heavy": "Hang heavy tools no higher than you lift them with ease.",
        "liquid": "Close what holds a liquid before it goes on the wall, and hang it away from "
        "plugs, cords and cells. Its own label says how to keep it.",
        "flammable": "Keep spray cans and solvents away from heat, sparks and sunlight, and no "
        "more of them than local rules allow.",
        "cell": "Keep what has cells inside away from heat and water, and take the cells out of "
        "what hangs unused for long: they leak.",
        "glass": "Hang glass where nobody brushes against it, and nothing heavy above it.",
    }
)


def cautions_of(properties: Iterable[ToolProperty]) -> tuple[str, ...]:
    """Return the caution of each property, in the order of the list above.

    >>> cautions_of(["heavy", "heavy"])
    ('Hang heavy tools no higher than you lift them with ease.',)
    """
    known = set(properties)
    return tuple(CAUTIONS[one] for one in PROPERTIES if one in known)
