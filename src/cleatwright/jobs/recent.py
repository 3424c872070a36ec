"""The folders of workshops that were opened last, kept where a person's settings belong."""

from __future__ import annotations

import contextlib
import json
from dataclasses import dataclass
from pathlib import Path
from typing import cast

import platformdirs

from cleatwright.workshop.document.store import FILE_NAME

MOST = 8


def usual_recent() -> RecentFolders:
    """Return the list of this person on this computer."""
    return RecentFolders(
        platformdirs.user_state_path("cleatwright", appauthor=False) / "recent.json"
    )


@dataclass(frozen=True)
class RecentFolders:
    """A list of folders in a file; it only saves typing, and a damaged one counts as empty.

    Args:
        file: Where it is kept; None to keep nothing.
    """

    file: Path | None = None

    def folders(self) -> tuple[Path, ...]:
        """Return the folders that still hold a workshop, the one opened last first."""
        if self.file is None:
            return ()
        try:
            listed: object = json.loads(self.file.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return ()
        if not isinstance(listed, list):
            return ()
        names = [one for one in cast("list[object]", listed) if isinstance(one, str)]
        return tuple(Path(one) for one in names[:MOST] if holds_workshop(Path(one)))

    def remember(self, folder: Path) -> None:
        """Put a folder in front; where nothing can be kept, nothing is."""
        if self.file is None:
            return
        whole = folder.resolve()
        kept = [whole, *(one for one in self.folders() if one != whole)]
        with contextlib.suppress(OSError):
            self.file.parent.mkdir(parents=True, exist_ok=True)
            self.file.write_text(json.dumps([str(one) for one in kept[:MOST]]), encoding="utf-8")


def holds_workshop(folder: Path) -> bool:
    """Tell whether a workshop stands in a folder; one that cannot be read has none."""
    try:
        return (folder / FILE_NAME).is_file()
    except (OSError, ValueError):
        return False
