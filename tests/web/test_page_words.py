"""What a page says: nothing of a command line."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import cleatwright
from cleatwright.web.rows.sentence import page_words

ROOT = Path(cleatwright.__file__).parent
# what is said there is read on pages as well
READ_ON_PAGES = (
    "design",
    "siting",
    "wall",
    "holders",
    "checks",
    "project/walls.py",
    "jobs/hung.py",
)
OPTION = re.compile(r"(?<!\S)--[a-z]")


def sentences(path: Path) -> Iterator[str]:
    """Yield the texts of a module, with a word for whatever is put into them."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.JoinedStr):
            yield "".join(
                str(one.value) if isinstance(one, ast.Constant) else "moves" for one in node.values
            )
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def test_no_page_tells_anybody_to_type_an_option() -> None:
    files = [
        path
        for room in READ_ON_PAGES
        for path in ([ROOT / room] if room.endswith(".py") else (ROOT / room).rglob("*.py"))
    ]
    # the pieces of a text with values in it stand beside the whole one
    told = {text for path in files for text in sentences(path) if OPTION.search(text)}
    whole = {text for text in told if not any(text != one and text in one for one in told)}
    whole = {text for text in whole if not text.endswith("--change ")}
    assert len(whole) >= 3, "nothing is looked at"
    assert [text for text in whole if OPTION.search(page_words(text))] == []
