"""The pictures of the screens are those that docs/browser.md shows, and each shows something.

Oracles: the page itself, and the pixels.
"""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
from PIL import Image
from playwright.sync_api import Browser
from tests.web.screens import SCREENS, take_screens
from tests.web.serving import SHED

DOCS = Path(__file__).parents[2] / "docs"
SHOWN = re.compile(r"!\[[^\]]+\]\(pictures/([^)]+)\)")
# a sheet of one colour has one, and a page that only says that something went wrong a few dozen
FEWEST_COLOURS = 200
# most of the ground of a sheet is bare; what is drawn covers at least so much of it
LEAST_DRAWN = 0.1


def drawn_share(pixels: np.ndarray) -> tuple[int, float]:
    """Return how many colours a picture has, and how much of it is not the commonest."""
    coded = pixels.astype(np.uint32) @ np.array([65536, 256, 1], dtype=np.uint32)
    _, counts = np.unique(coded, return_counts=True)
    return len(counts), 1 - counts.max() / counts.sum()


def test_every_screen_is_in_the_docs_and_shows_something(chromium: Browser, tmp_path: Path) -> None:
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    # the same screens as in the docs, of a workshop that is soon computed
    take_screens(chromium, tmp_path, pictures, workshop=SHED)
    shown = SHOWN.findall((DOCS / "browser.md").read_text(encoding="utf-8"))
    assert sorted(shown) == sorted(screen.file for screen in SCREENS)
    for screen in SCREENS:
        for folder in (pictures, DOCS / "pictures"):
            picture = Image.open(folder / screen.file).convert("RGB")
            assert picture.size == screen.size_px, (folder, screen.file)
            colours, drawn = drawn_share(np.asarray(picture))
            assert colours >= FEWEST_COLOURS, (folder, screen.file, colours)
            assert drawn >= LEAST_DRAWN, (folder, screen.file, drawn)
            light = np.asarray(picture).mean() > 127
            assert light is not screen.dark, (folder, screen.file)


def test_a_blank_picture_is_found_out() -> None:
    """One colour, and one colour with a line of another, are both nothing to see."""
    blank = np.full((900, 1440, 3), 243, dtype=np.uint8)
    assert drawn_share(blank) == (1, 0.0)
    blank[:5] = 0
    colours, drawn = drawn_share(blank)
    assert colours < FEWEST_COLOURS
    assert drawn < LEAST_DRAWN
