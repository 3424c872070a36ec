"""The parts of holders that are printed or hang, with the recipes from which they were made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.design.recipe import (
    RECIPE_VERSION,
    CarrierRecipe,
    Recipe,
    recipe_from_json,
    version_of,
)
from cleatwright.parts.mirror import turned
from cleatwright.tools.registry import KINDS
from cleatwright.workshop.ledger.last_made import KnownTool


@dataclass(frozen=True)
class KeptPart:
    """The part of a holder that is printed, or hangs.

    Args:
        mark: Its mark; "" when it hangs on a carrier, whose recipe this one is from.
        recipe: How it was made, its seats for the tools of the holder as the ledger knows them.
    """

    mark: str
    recipe: Recipe


NO_PARTS: Mapping[int, KeptPart] = MappingProxyType({})


def kept_part(mark: str, stored: Sequence[str], tools: Sequence[KnownTool]) -> KeptPart | None:
    """Return the part of a holder for tools; None when no recipe of its mark is for just them.

    Args:
        mark: The mark of the part that is there: that of the holder, or of its carrier.
        stored: The recipes of the mark as they are stored, the newest first.
        tools: The tools of the holder, from left to right for the reader.

    Raises:
        LedgerError: A stored recipe cannot be read.
    """
    for text in stored:
        # what an earlier program made cannot be made again, so that it cannot be told from another
        if version_of(text) != RECIPE_VERSION:
            continue
        for own, recipe in _holders(mark, text):
            if _is_for(recipe, tools):
                return KeptPart(own, recipe)
    return None


def _holders(mark: str, text: str) -> Iterator[tuple[str, Recipe]]:
    match recipe_from_json(text, where=f"mark {mark}"):
        case Recipe() as recipe:
            yield mark, recipe
        case CarrierRecipe() as carrier:
            yield from (("", one) for one in carrier.holders)
        case _:
            return


def _is_for(recipe: Recipe, tools: Sequence[KnownTool]) -> bool:
    seats = turned(recipe.seats)
    return [(one.kind, one.measures) for one in seats] == [
        (tool.kind, dict(tool.measures)) for tool in tools
    ] and all(one.kind in KINDS for one in seats)
