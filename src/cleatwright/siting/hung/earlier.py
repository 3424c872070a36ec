"""Parts that hang under marks of an earlier version of recipes, known again by their shape.

A mark of version 2 came from the recipe and the solid together. Where today's program gives the
very solid from which such a mark came, the part on the wall has today's shape under another mark.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from typing import Any

from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.base.stages.outcome import Done
from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.recipe import (
    RECIPE_VERSION,
    AnyRecipe,
    CarrierRecipe,
    MaterialRecipe,
    PrinterRecipe,
    recipe_from_json,
    version_of,
)
from cleatwright.design.shape_key import shape_mark
from cleatwright.parts.holder import HolderPart
from cleatwright.workshop.ledger.hung_wall import WhatHangs

BEFORE = 2


@dataclass(frozen=True)
class MadeBefore:
    """What was made here before, and what it takes to compare it with what is made today.

    Args:
        stored: The recipe of a mark as it is stored, or None when it is not known.
        printer: How today's printer is set.
        material: Today's material.
        run: The run that keeps what was built before.
    """

    stored: Callable[[str], str | None]
    printer: PrinterRecipe
    material: MaterialRecipe
    run: Run

    def known_again(self, hung: WhatHangs, marks: Collection[str]) -> WhatHangs:
        """Return what hangs, each part of today's shape under the mark that it has today.

        Args:
            hung: What hangs by the ledger.
            marks: The marks of what shall hang; a part of another shape keeps its own.
        """

        def known(mark: str) -> str:
            if mark in marks:
                return mark
            today = self._mark_today(mark)
            return today if today in marks else mark

        holders = tuple(
            replace(
                one,
                mark=known(one.mark),
                broken=tuple(sorted(map(known, one.broken))),
                fittings=tuple(sorted(map(known, one.fittings))),
            )
            for one in hung.holders
        )
        return replace(hung, holders=holders)

    def holders_on(self, mark: str) -> tuple[str, ...]:
        """Return today's marks of the holders on a carrier, as far as they are known.

        Raises:
            LedgerError: The stored recipe cannot be read.
        """
        text = self.stored(mark)
        if text is None:
            return ()
        version = version_of(text)
        if version == BEFORE:
            return tuple(self._holders_of_version_2(text))
        if version is not None and version < BEFORE:
            return ()
        recipe = recipe_from_json(text, where=f"mark {mark}")
        if not isinstance(recipe, CarrierRecipe):
            return ()
        return tuple(shape_mark(one, self.run.need(DESCRIBED, one)) for one in recipe.holders)

    def _mark_today(self, mark: str) -> str:
        text = self.stored(mark)
        if text is None or version_of(text) != BEFORE:
            return mark
        raw = json.loads(text)
        built = self.run.ask(PART, self._of_today(raw))
        if isinstance(built, Done) and _mark_then(raw, built.value.part) == mark:
            return built.value.mark
        return mark

    def _holders_of_version_2(self, text: str) -> Iterator[str]:
        for raw in json.loads(text).get("holders", ()):
            recipe = self._of_today(raw)
            found = self.run.ask(DESCRIBED, recipe)
            # the ledger knows its mark only if it was made in this shape
            if isinstance(found, Done) and self.stored(_mark_then(raw, found.value)) is not None:
                yield shape_mark(recipe, found.value)

    def _of_today(self, raw: dict[str, Any]) -> AnyRecipe:
        """Return a recipe of version 2 as one of today, with today's printer and material."""
        return recipe_from_json(json.dumps(self._raised(raw)), where="a recipe of version 2")

    def _raised(self, raw: dict[str, Any]) -> dict[str, Any]:
        printer = self.printer.model_dump()
        rest = dict(raw)
        if "line_mm" in rest:
            printer["line_mm"] = rest.pop("line_mm")
        if "holders" in rest:
            rest["holders"] = [self._raised(one) for one in rest["holders"]]
        return {
            **rest,
            "version": RECIPE_VERSION,
            "printer": printer,
            "material": self.material.model_dump(),
        }


def _mark_then(raw: dict[str, Any], part: HolderPart) -> str:
    """Return the mark that version 2 gave a recipe with the solid of a part."""
    return mark_from_key(content_key((content_key(raw), part.solid.content_key)))
