"""Stages that draw: from what is shown to the bytes of a file, or of the sheets of a drawing."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import BytesCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage

Shown = TypeVar("Shown")
Pages = tuple[bytes, ...]


def drawn_file(
    name: str, draw: Callable[[Shown], bytes], *, kept: bool = False
) -> Stage[Shown, bytes]:
    """Return the stage of a file; the same content is never drawn twice.

    Args:
        name: The name of the stage.
        draw: Draws what is shown.
        kept: Whether the file is kept on disk too, as it pays for what takes long.
    """

    def run(_: Run, shown: Shown) -> bytes:
        return draw(shown)

    return Stage(name, run, content_key, size=len, codec=BytesCodec() if kept else None)


def drawn_pages(name: str, draw: Callable[[Shown], Pages]) -> Stage[Shown, Pages]:
    """Return the stage of a drawing on sheets."""

    def run(_: Run, shown: Shown) -> Pages:
        return draw(shown)

    return Stage(name, run, content_key, size=lambda pages: sum(map(len, pages)))
