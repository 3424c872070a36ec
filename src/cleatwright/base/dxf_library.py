"""The DXF library, loaded so that it keeps nothing among the files of the person.

On loading it looks through all fonts of the machine and keeps what it found in the person's cache
folder. No drawing of ours needs a font of it, so it is shown an empty list instead.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Generator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from cleatwright.base.unheard import unheard

LOGGER = "ezdxf"
_CACHE_HOME = "XDG_CACHE_HOME"
# the list of fonts as version 1.4 of the library keeps it; another version looks anew
_NO_FONTS = '{"version": 2, "font-faces": []}'


@contextmanager
def _without_fonts() -> Generator[None]:
    before = os.environ.get(_CACHE_HOME)
    with ExitStack() as stack:
        try:
            folder = stack.enter_context(tempfile.TemporaryDirectory())
            kept = Path(folder) / LOGGER / "font_manager_cache.json"
            kept.parent.mkdir()
            kept.write_text(_NO_FONTS, "utf-8")
        except OSError:
            # where nothing can be written, the library looks for itself and keeps nothing
            folder = os.devnull
        os.environ[_CACHE_HOME] = folder
        try:
            yield
        finally:
            os.environ.pop(_CACHE_HOME, None)
            if before is not None:
                os.environ[_CACHE_HOME] = before


with _without_fonts(), unheard(LOGGER):
    import ezdxf
    from ezdxf import path, recover
    from ezdxf.disassemble import recursive_decompose
    from ezdxf.enums import InsertUnits, TextEntityAlignment
    from ezdxf.math import Bezier3P, Bezier4P, Vec2
    from ezdxf.units import conversion_factor

__all__ = [
    "Bezier3P",
    "Bezier4P",
    "InsertUnits",
    "TextEntityAlignment",
    "Vec2",
    "conversion_factor",
    "ezdxf",
    "path",
    "recover",
    "recursive_decompose",
]
