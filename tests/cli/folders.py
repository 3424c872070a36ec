"""Workshop folders, and where an answer says that their holders hang."""

from __future__ import annotations

from pathlib import Path
from typing import Any


def write(folder: Path, text: str) -> Path:
    """Write the document of a workshop, and return its folder."""
    folder.mkdir(exist_ok=True)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def places(answer: Any) -> dict[str, tuple[float, float]]:
    """Return where each holder hangs, without the name of its rail."""
    return {
        row["name"]: (row["spot"]["x_mm"], row["spot"]["z_mm"])
        for panel in answer["panels"]
        for row in panel["places"]
    }
