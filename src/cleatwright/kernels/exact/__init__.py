"""The exact kernel: the only room that imports OCP, the Python face of the B-rep library OCCT.

Belongs here: boundary representations of descriptions, their exact facts, STEP files.
Does not belong here: meshes, parts, tools. Importing this package does not load OCP.
"""

from cleatwright.kernels.exact.kernel import ExactBody, ExactKernel, write_step

__all__ = ["ExactBody", "ExactKernel", "write_step"]
