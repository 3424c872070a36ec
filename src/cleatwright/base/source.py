"""Where a number comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Evidence(Enum):
    """How well a number is attested, best first."""

    SEEN = "seen in the source"
    SECONDARY = "seen in a secondary source"
    PRACTICE = "common practice, no source"
    MEMORY = "from memory"
    DERIVED = "derived here in closed form"
    CHOICE = "a choice of this program"


@dataclass(frozen=True)
class Source:
    """The document and the clause or table behind a number or a rule.

    ``copy`` names what was read in its place, when the evidence is secondary.
    """

    document: str
    clause: str
    evidence: Evidence
    copy: str = ""

    def __str__(self) -> str:
        """Return one line for a report.

        >>> str(Source("ISO 273:1979", "Table 1", Evidence.SECONDARY, "a hardware shop's page"))
        "ISO 273:1979, Table 1 (seen in a secondary source: a hardware shop's page)"
        """
        # a clause that only says how well it is attested says it once
        named = self.clause and self.clause != self.evidence.value
        place = f", {self.clause}" if named else ""
        read = f": {self.copy}" if self.copy else ""
        return f"{self.document}{place} ({self.evidence.value}{read})"
