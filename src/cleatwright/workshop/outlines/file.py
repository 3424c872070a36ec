"""The outline of a flat tool from a drawing in the folder of the workshop.

A drawing shows the tool as a person sees it on the wall. It has exactly one closed
outline; loops inside it, such as holes, are left out, since a pocket follows the outside.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from cleatwright.base.errors import InputError
from cleatwright.base.gathering import in_file
from cleatwright.shapes.outline import Outline
from cleatwright.workshop.document.reading import NO_FILES, read_limited
from cleatwright.workshop.outlines.dxf_strokes import dxf_strokes
from cleatwright.workshop.outlines.loops import one_outline
from cleatwright.workshop.outlines.svg_strokes import svg_strokes

MOST_BYTES = 2_000_000


def read_outline(name: str, *, folder: Path | None, new: Mapping[str, bytes] = NO_FILES) -> Outline:
    """Return the outline in a drawing, x to the left of the person and z up, in mm.

    Args:
        name: The path of an .svg or .dxf file, from the folder of the workshop.
        folder: The folder of the workshop; None when the document has none.
        new: Drawings by their paths that shall be put into the folder, and go before what is there.

    Raises:
        InputError: The file is not there, lies outside the folder, or has no single closed
            outline between 10 and 600 mm.
    """
    with in_file(name):
        content = new[name] if name in new else _content(name, folder)
        return outline_in(content, name=name)


def _content(name: str, folder: Path | None) -> bytes:
    if folder is None:
        raise InputError("an outline needs the folder of the workshop")
    try:
        path = (folder / name).resolve()
    except (OSError, RuntimeError) as error:
        raise InputError("the drawing is a link that leads to itself") from error
    if not path.is_relative_to(folder.resolve()):
        raise InputError(
            "the drawing lies outside the folder of the workshop",
            todo="Copy it into the folder",
        )
    try:
        return read_limited(path, most_bytes=MOST_BYTES)
    except OSError as error:
        raise InputError(
            f"the drawing cannot be read: {error.strerror or 'it is no file'}",
            todo="Write its path as seen from the folder of workshop.toml",
        ) from error


def outline_in(content: bytes, *, name: str) -> Outline:
    """Return the outline in the bytes of a drawing, by the end of its name; see read_outline."""
    if len(content) > MOST_BYTES:
        raise InputError(
            "the drawing is too large for one outline",
            allowed=f"up to {MOST_BYTES} bytes",
            todo="Leave nothing but the outline in it",
        )
    read = dxf_strokes if name.lower().endswith(".dxf") else svg_strokes
    return one_outline(read(content))
