"""Solids for the browser as one block of bytes: a header in JSON, then plain arrays.

Layout: the length of the header (u32), the header padded to four bytes, and for each piece the
corners (float32, x y z) and the triangles (uint32) in the order of the header. Little-endian.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, eq=False)
class FramePiece:
    """One solid: what it is, its corners (n, 3) in mm and its triangles (m, 3)."""

    role: str
    about: Mapping[str, object]
    vertices_mm: NDArray[np.float64]
    triangles: NDArray[np.integer[Any]]


def mesh_frame(pieces: Sequence[FramePiece], about: Mapping[str, object]) -> bytes:
    """Return solids as one block of bytes."""
    header = {
        **about,
        "pieces": [
            {
                **piece.about,
                "role": piece.role,
                "corners": len(piece.vertices_mm),
                "triangles": len(piece.triangles),
            }
            for piece in pieces
        ],
    }
    text = json.dumps(header).encode()
    text += b" " * (-len(text) % 4)
    arrays = [
        data
        for piece in pieces
        for data in (
            np.asarray(piece.vertices_mm, dtype="<f4").tobytes(),
            np.asarray(piece.triangles, dtype="<u4").tobytes(),
        )
    ]
    return b"".join([len(text).to_bytes(4, "little"), text, *arrays])
