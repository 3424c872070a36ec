"""What ``make`` tells of what it made."""

from __future__ import annotations

from collections import Counter
from dataclasses import asdict, dataclass
from pathlib import Path

from cleatwright.base.lengths import LengthUnit
from cleatwright.jobs.rows import MadeRow
from cleatwright.project.publishing import WHAT_HAPPENS, Change


@dataclass(frozen=True)
class Made:
    """What was made, or would be, for a person and for programs.

    The holders are rows with numbers in mm and kg; ``unit`` is that in which people read them.
    """

    title: str
    unit: LengthUnit
    holders: tuple[MadeRow, ...]
    changes: tuple[Change, ...]
    folder: Path
    dry_run: bool
    failing: tuple[str, ...]
    warnings: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    left_out: tuple[str, ...]
    helps: tuple[str, ...] = ()

    @property
    def holds(self) -> bool:
        """Return True when every check of every holder holds."""
        return not self.failing

    @property
    def summary(self) -> tuple[str, ...]:
        """Return what happened to the files, in sentences."""
        counts = Counter(change.what for change in self.changes)
        verb = "Would write to" if self.dry_run else "Wrote to"
        told = ", ".join(f"{counts[what]} {what}" for what in WHAT_HAPPENS)
        lines = [f"{verb} {self.folder}: {told}."]
        if self.dry_run:
            lines += [f"  {c.what:8} {c.path}" for c in self.changes if c.what != "same"]
        warned = (f"Warning: {text}" for text in self.warnings)
        failing = (f"Does not hold: {text}" for text in self.failing)
        return (*lines, *self.notes, *warned, *failing, *self.helps)

    def as_dict(self) -> dict[str, object]:
        """Return the result for programs."""
        return {
            "folder": str(self.folder),
            "holders": [asdict(row) for row in self.holders],
            "dry_run": self.dry_run,
            "holds": self.holds,
            "failing": list(self.failing),
            "helps": list(self.helps),
            "changes": [{"path": c.path, "what": c.what} for c in self.changes],
            "notes": list(self.notes),
            "warnings": list(self.warnings),
            "cautions": list(self.cautions),
            "left_out": list(self.left_out),
        }
