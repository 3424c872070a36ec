"""The one place that talks to the typesetter, which loads on use."""

from __future__ import annotations

from collections.abc import Iterable

from cleatwright.base.interrupts import defer_interrupts


def set_pdf(lines: Iterable[str]) -> bytes:
    """Return lines in the language of the typesetter as a PDF file, with its own fonts."""
    with defer_interrupts():
        import typst  # noqa: PLC0415 - loads on use
    fonts = typst.Fonts(include_system_fonts=False)
    return typst.compile("\n".join(lines).encode(), format="pdf", font_paths=fonts)
