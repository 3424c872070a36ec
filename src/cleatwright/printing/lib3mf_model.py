"""The one place that talks to lib3mf: meshes into a model, a model into bytes."""

from __future__ import annotations

import ctypes
import tempfile
from collections.abc import Generator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from cleatwright.base.errors import KernelError
from cleatwright.base.interrupts import defer_interrupts
from cleatwright.printing.meshfile import PrintMesh


@cache
def _library() -> Any:
    """Return the library, which ships no types."""
    with defer_interrupts():
        import lib3mf  # noqa: PLC0415 # pyright: ignore[reportMissingTypeStubs] - loads on use
    return lib3mf


@contextmanager
def reported(where: str) -> Generator[None]:
    """Turn a failure of the library into a KernelError that names the place."""
    try:
        yield
    except _library().ELib3MFException as error:
        raise KernelError(f"the print file library reported: {error}", where=where) from error


@cache
def library_wrapper() -> Any:
    """Return the connection to the library: loading its functions takes longer than a file does."""
    return _library().get_wrapper()


def add_mesh(wrapper: Any, model: Any, mesh: PrintMesh) -> Any:
    """Add a mesh as an object of the model and return the object; its name is not set."""
    found = model.AddMeshObject()
    set_geometry(wrapper, found, mesh)
    return found


def set_geometry(wrapper: Any, target: Any, mesh: PrintMesh) -> None:
    """Hand both arrays over at once.

    The public method makes a Python object of every corner and takes a hundred
    times as long, so the library function behind it is called with the arrays.
    """
    vertices = np.array(mesh.vertices, dtype=np.float32, order="C")
    triangles = np.array(mesh.triangles, dtype=np.uint32, order="C")
    handle = target._handle  # noqa: SLF001 - the library offers no other way to hand over arrays
    code = wrapper.lib.lib3mf_meshobject_setgeometry(
        handle,
        ctypes.c_uint64(len(vertices)),
        (_library().Position * len(vertices)).from_buffer(vertices),
        ctypes.c_uint64(len(triangles)),
        (_library().Triangle * len(triangles)).from_buffer(triangles),
    )
    wrapper.checkError(target, code)
    if target.GetVertexCount() != len(vertices) or target.GetTriangleCount() != len(triangles):
        raise KernelError("the print file library dropped a part of the mesh", where=mesh.name)


def transform(rows: tuple[tuple[float, ...], ...], shift_mm: tuple[float, float, float]) -> Any:
    """Return the library's transform, which holds the images of the axes and then the shift."""
    result = _library().Transform()
    for axis in range(3):
        for row in range(3):
            result.Fields[axis][row] = rows[row][axis]
    for row in range(3):
        result.Fields[3][row] = shift_mm[row]
    return result


def colour(red: int, green: int, blue: int) -> Any:
    """Return an opaque colour."""
    result = _library().Color()
    result.Red, result.Green, result.Blue, result.Alpha = red, green, blue, 255
    return result


def model_bytes(model: Any, form: str) -> bytes:
    """Return the model as a file of the form "3mf" or "stl".

    It goes through a file of its own, because the library's buffer becomes a list of numbers.
    """
    with tempfile.TemporaryDirectory(prefix="cleatwright-") as folder:
        path = Path(folder) / f"model.{form}"
        model.QueryWriter(form).WriteToFile(str(path))
        return path.read_bytes()
