"""Binary STL by the STL writer of lib3mf, whose bytes are stable from process to process.

STL holds neither names, nor colours, nor units; a reader has to take millimetres for granted.
"""

from __future__ import annotations

from cleatwright.printing import lib3mf_model as library
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.printing.threemf import PlacedMesh


def stl_bytes(mesh: PrintMesh) -> bytes:
    """Return a binary STL file of one part, its least corner at the origin.

    Raises:
        KernelError: The library reported a failure.
    """
    with library.reported(mesh.name):
        wrapper = library.library_wrapper()
        model = wrapper.CreateModel()
        made = library.add_mesh(wrapper, model, mesh)
        model.AddBuildItem(made, library.transform(*PlacedMesh(mesh).motion))
        return library.model_bytes(model, "stl")
