"""A file that a page sends as it is, taken no further than a table may be large."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from cleatwright.base.errors import ImportTableError
from cleatwright.workshop.tables.cells import LARGEST_FILE_BYTES

FILE_BODY = {
    "requestBody": {
        "required": True,
        "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}},
    }
}


async def _file(request: Request) -> bytes:
    """Return what is sent; a larger file is refused as soon as it is seen to be one."""
    taken = bytearray()
    async for part in request.stream():
        taken += part
        if len(taken) > LARGEST_FILE_BYTES:
            raise ImportTableError(
                "The file is too large for a tool list",
                allowed=f"up to {LARGEST_FILE_BYTES // 1_000_000} MB",
            )
    return bytes(taken)


TheFile = Annotated[bytes, Depends(_file)]
