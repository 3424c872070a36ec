"""Parts of pages: tables, the words and sketches of modules."""

from __future__ import annotations

import inspect
import sys
from collections.abc import Iterable
from typing import Any

from cleatwright.design.catalogue import model_rows
from cleatwright.parts.params import PartParams

MADE = '<!-- Written by docs/generate.py. Change that, then run "make docs". -->\n'


def measured(name: str, made_by: Any, model: type[PartParams]) -> str:
    """Return the section of a mount or a joint with its sketch and its measures."""
    text, sketch = told(made_by)
    return f"### {name}\n\n{text}\n\n{sketch}\n{params_table(model)}"


def params_table(model: type[PartParams]) -> str:
    """Return the table of parameters with their bounds and reasons."""
    rows = [(f"`{name}`", *rest) for name, *rest in model_rows(model)]
    return table(("parameter", "from", "to", "default", "why"), rows)


def told(made_by: Any) -> tuple[str, str]:
    """Return the words and the fenced sketch in the docstring of the module of a function."""
    document = inspect.cleandoc(sys.modules[made_by.__module__].__doc__ or "")
    paragraphs = document.split("\n\n")
    drawn = [number for number, one in enumerate(paragraphs) if is_drawn(one)]
    if not drawn:
        return " ".join(document.split()), ""
    first, last = drawn[0], drawn[-1] + 1
    words = " ".join(" ".join(paragraphs[:first] + paragraphs[last:]).split())
    sketch = "\n\n".join(paragraphs[first:last])
    return words, f"```text\n{sketch}\n```\n"


def is_drawn(paragraph: str) -> bool:
    """Tell whether a paragraph is a part of a sketch: words have single spaces."""
    return "   " in paragraph or any("\u2500" <= sign <= "\u257f" for sign in paragraph)


def listed(words: Iterable[str]) -> str:
    """Join words as a list.

    >>> listed(("a", "b", "c"))
    'a, b and c'
    """
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """Return a Markdown table."""
    titles = tuple(head)
    lines = [titles, ("---",) * len(titles), *(tuple(row) for row in rows)]
    return "".join(
        f"| {' | '.join(cell.replace('|', '&#124;') for cell in line)} |\n" for line in lines
    )
