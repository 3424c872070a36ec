"""What the ledger keeps of a part mark."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass, fields

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import read_mark
from cleatwright.base.place import InLedger


@dataclass(frozen=True)
class MarkEntry:
    """One part mark and one recipe of what is needed to make the part again.

    Args:
        mark: The part mark in its normal spelling.
        content_key: The key from which the mark was made.
        recipe_key: The key of the recipe; of earlier ledgers that from which the mark was made.
        recipe_json: Family, parameters and tools, as JSON.
        family: Name of the family.
        leading: Leading dimensions in drawing notation.
        first_seen: ISO date on which it was first made.
        made_with: Version of the program; empty in entries from before it was kept.
    """

    mark: str
    content_key: str
    recipe_key: str
    recipe_json: str
    family: str
    leading: str
    first_seen: str
    made_with: str = ""

    def require_sound(self) -> None:
        """Refuse an entry that could not be resolved later.

        Raises:
            LedgerError: Its mark is none, its date is none, or its recipe is no JSON.
        """
        if read_mark(self.mark) != self.mark:
            raise LedgerError(
                f'"{self.mark}" is not a part mark', place=InLedger("marks", self.mark)
            )
        try:
            dt.date.fromisoformat(self.first_seen)
            json.loads(self.recipe_json)
        except ValueError as error:
            raise LedgerError(
                f'The entry of the mark "{self.mark}" is malformed ({error})',
                place=InLedger("marks", self.mark),
                allowed="an ISO date and a recipe in JSON",
            ) from None


MARK_COLUMNS = tuple(field.name for field in fields(MarkEntry))
