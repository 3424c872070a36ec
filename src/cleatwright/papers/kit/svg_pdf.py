"""Drawings as pages of a PDF file, at their own size, with vectors and text."""

from __future__ import annotations

import re
from collections.abc import Sequence

from cleatwright.base.errors import DesignError
from cleatwright.base.stages.stage import Stage
from cleatwright.papers.kit.drawn import Pages, drawn_file
from cleatwright.papers.kit.svg import clean
from cleatwright.papers.kit.typesetter import set_pdf

_SIZE = re.compile(rb'<svg\b[^>]*?\bwidth="([0-9.]+)mm"[^>]*?\bheight="([0-9.]+)mm"')


def svg_pdf(pages: Sequence[bytes], *, title: str) -> bytes:
    """Return SVG drawings as one PDF file, a page for each, as large as the drawing says.

    It knows no clock and uses no fonts of the machine, so that equal drawings give equal bytes.

    Args:
        pages: SVG files whose root has a width and a height in mm.
        title: Title of the document.

    Raises:
        DesignError: A drawing does not say how large it is.
    """
    lines = [f"#set document(title: {_quoted(clean(title))}, date: none)"]
    for number, page in enumerate(pages, 1):
        found = _SIZE.search(page)
        if found is None:
            raise DesignError("a drawing without a size in mm", where=f"page {number}")
        size = f"width: {found[1].decode()}mm, height: {found[2].decode()}mm"
        image = f'image(bytes({_quoted(page.decode())}), format: "svg", {size})'
        lines.append(f"#page({size}, margin: 0mm, {image})")
    return set_pdf(lines)


PDF: Stage[tuple[Pages, str], bytes] = drawn_file(
    "drawing as PDF", lambda given: svg_pdf(given[0], title=given[1]), kept=True
)
"""From sheets and their title to one PDF file."""


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
