"""The mesh kernel: the only room that imports manifold3d.

Belongs here: meshes of descriptions, measured, swept, cut and met with each other.
Does not belong here: files, parts, tools.
"""

from cleatwright.kernels.mesh.body import MeshBody
from cleatwright.kernels.mesh.convex import Convex
from cleatwright.kernels.mesh.kernel import MeshKernel
from cleatwright.kernels.mesh.passage import Passage

__all__ = ["Convex", "MeshBody", "MeshKernel", "Passage"]
