"""Valid, fixed dates in a ZIP archive."""

from __future__ import annotations

import io
import struct
import zipfile

_LOCAL_TIME, _CENTRAL_TIME = 10, 12
_CENTRAL_SIZE, _CENTRAL_LENGTHS = 46, 28
_FIRST_DAY = struct.pack("<HH", 0, (1 << 5) | 1)
"""Midnight and 1980-01-01 in the form of DOS: year since 1980, month, day."""


def first_day_of_zip(archive: bytes) -> bytes:
    """Return the archive with every date set to 1980-01-01, the first one that ZIP can hold.

    Dates of 1980-00-00 come out of the 3MF library; some readers refuse them.

    Source: the ZIP file format specification (APPNOTE), local and central headers (from memory).
    """
    patched = bytearray(archive)
    with zipfile.ZipFile(io.BytesIO(archive)) as opened:
        entries = opened.infolist()
        central = opened.start_dir
    for entry in entries:
        at = entry.header_offset + _LOCAL_TIME
        patched[at : at + 4] = _FIRST_DAY
        patched[central + _CENTRAL_TIME : central + _CENTRAL_TIME + 4] = _FIRST_DAY
        name, extra, comment = struct.unpack_from("<HHH", archive, central + _CENTRAL_LENGTHS)
        central += _CENTRAL_SIZE + name + extra + comment
    return bytes(patched)
