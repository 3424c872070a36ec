"""How much boards weigh from which rails are made, by the words in which people name them."""

from __future__ import annotations

import re

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Column, Table

_EN_1991 = Source("EN 1991-1-1:2002", "Table A.3, mean densities", Evidence.MEMORY)

BOARDS = Table(
    name="EN 1991-1-1 density of boards",
    key_name="board",
    columns=(Column("kg_m3", _EN_1991),),
    rows=(
        ("softwood C24", (420.0,)),
        ("hardwood D40", (700.0,)),
        ("softwood plywood", (500.0,)),
        ("birch plywood", (700.0,)),
        ("oriented strand board", (700.0,)),
        ("chipboard", (800.0,)),
        ("medium density fibreboard", (800.0,)),
    ),
)
# the first row of which a word stands in the name; what only says plywood may be the heavier one
_WORDS = (
    ("softwood plywood", r"(soft|pine|spruce|fir|poplar)\w*.*ply"),
    ("birch plywood", r"ply|multiplex"),
    ("medium density fibreboard", r"\bmdf\b|\bhdf\b|fib(re|er)"),
    ("oriented strand board", r"\bosb\b|strand"),
    ("chipboard", r"chip|particle"),
    ("softwood C24", r"softwood|pine|spruce|\bfir\b|larch|cedar|hemlock|\bc\d\d\b|2 ?x ?[46]"),
    ("hardwood D40", r"hardwood|oak|beech|ash\b|maple|birch|walnut|cherry|poplar|\bd\d\d\b"),
)
# what nobody knows is as heavy as any of them
HEAVIEST = "chipboard"


def board_named(timber: str) -> str:
    """Return the row of the table that a name stands for; the heaviest one for an unknown name.

    Args:
        timber: What the owner calls the wood of the rails.

    >>> [board_named(one) for one in ("plywood", "Pine, planed", "MDF 18", "old door")]
    ['birch plywood', 'softwood C24', 'medium density fibreboard', 'chipboard']
    """
    plain = timber.casefold()
    return next((row for row, words in _WORDS if re.search(words, plain)), HEAVIEST)


def board_kg_m3(timber: str) -> float:
    """Return the density of the wood that a name stands for.

    >>> board_kg_m3("birch plywood"), board_kg_m3("spruce plywood")
    (700.0, 500.0)
    """
    return BOARDS.value(board_named(timber), "kg_m3")
