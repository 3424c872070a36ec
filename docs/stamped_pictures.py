"""Pictures that carry, in a text chunk of their PNG file, what they were drawn from."""

from __future__ import annotations

import hashlib
import inspect
import struct
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image

from cleatwright.papers.kit import picture
from cleatwright.papers.kit.picture import Seen, picture_png

PICTURE_PX = (420, 315)
KEYWORD = "drawn-from"
# W3C PNG, 5.2 and 11.2.2 (from memory): a signature of 8 bytes, and a header chunk of 25
HEAD_BYTES = 33
# of corners: far less than a pixel, far more than what a processor rounds
ROUNDED_MM = 1e-4


@dataclass(frozen=True)
class Picture:
    """Meshes of which a picture of the catalogue is drawn."""

    shown: tuple[Seen, ...]

    @property
    def drawn_from(self) -> str:
        """Return a digest of all that decides how it looks: meshes, size, the code that draws."""
        told = hashlib.sha256(f"{PICTURE_PX}{inspect.getsource(picture)}".encode())
        for one in self.shown:
            corners = np.rint(one.vertices_mm / ROUNDED_MM).astype(np.int64)
            for part in (corners, one.triangles.astype(np.int64)):
                told.update(f"{part.shape}{one.colour}".encode())
                told.update(part.tobytes())
        return told.hexdigest()

    def png(self) -> bytes:
        """Return it as a PNG file, stamped."""
        wide, high = PICTURE_PX
        plain = picture_png(self.shown, width_px=wide, height_px=high)
        body = b"tEXt" + f"{KEYWORD}\0{self.drawn_from}".encode("latin-1")
        chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
        return plain[:HEAD_BYTES] + chunk + plain[HEAD_BYTES:]


Draw = Callable[[str, Picture], bytes]
"""What returns the PNG file of a picture by the path at which it shall lie."""


def drawn_anew(_path: str, picture: Picture) -> bytes:
    """Return a picture as it is drawn now."""
    return picture.png()


def stamp(path: Path) -> str | None:
    """Return what a PNG file was drawn from, None when it does not say so."""
    with Image.open(path) as image:
        return image.info.get(KEYWORD)
