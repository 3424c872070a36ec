"""The exact kernel and its bodies, loading the B-rep library on first use."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from cleatwright.base.errors import KernelError
from cleatwright.kernels.cache import ContentCache
from cleatwright.shapes.facts import BodyFacts
from cleatwright.shapes.solid import Solid

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


def _require_library() -> None:
    try:
        import OCP  # noqa: F401, PLC0415 - an optional extra, and slow to load
    except ImportError as error:
        raise KernelError(
            f"exact shapes, as in STEP files, need a library that is not installed ({error})",
            where="exact shapes",
            todo="Install it with: pip install 'cleatwright[step]'; if a system library such as "
            "libGL is named, also with: apt install libgl1 libx11-6 libexpat1",
        ) from error


class ExactBody:
    """An evaluated boundary representation; it is never changed."""

    def __init__(self, shape: TopoDS_Shape) -> None:
        self._shape = shape

    @property
    def shape(self) -> TopoDS_Shape:
        """Return the underlying shape, for this room only."""
        return self._shape

    @property
    def facts(self) -> BodyFacts:
        """Return volume, area, centroid, bounds, genus and number of bodies."""
        return self._facts

    @cached_property
    def _facts(self) -> BodyFacts:
        from cleatwright.kernels.exact.measure import facts_of  # noqa: PLC0415 - loads on use

        return facts_of(self._shape)


class ExactKernel:
    """Evaluates descriptions with OCCT; every operation's result is checked.

    Args:
        keep: How many bodies the content cache holds.

    Raises:
        KernelError: The optional extra ``step`` is not installed.
    """

    name = "exact"

    def __init__(self, *, keep: int = 64) -> None:
        _require_library()
        self._bodies: ContentCache[ExactBody] = ContentCache(keep)

    def evaluate(self, solid: Solid) -> ExactBody:
        """Return the body of a description.

        Raises:
            KernelError: An operation failed or left nothing; the message names the node.
        """
        from cleatwright.kernels.exact.build import build  # noqa: PLC0415 - loads on use

        key = solid.content_key
        body = self._bodies.get(key)
        if body is None:
            body = ExactBody(build(solid))
            self._bodies.put(key, body)
        return body


def write_step(path: Path, name: str, body: ExactBody) -> None:
    """Write a body as a STEP file (AP242, ISO 10303-242) in mm, its product called ``name``.

    The header carries a fixed time stamp, so that the same body gives the same bytes.

    Raises:
        KernelError: The body cannot be translated.
        OutputError: The file cannot be written.
    """
    from cleatwright.kernels.exact.step_file import write  # noqa: PLC0415 - loads on use

    write(path, name, body.shape)
