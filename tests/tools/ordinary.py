"""Ordinary tools with some measures changed, and the space that they leave free."""

from __future__ import annotations

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.solid import Solid, Union
from cleatwright.tools.registry import KINDS, tool_body


def example(name: str, **changes: float) -> ToolBody:
    """Return the ordinary tool of a kind, with measures changed by name."""
    return tool_body(name, {**dict(KINDS[name].example), **changes})


def overlap(body: ToolBody, space: Solid) -> float:
    """Return how much of a space a tool fills, in mm3."""
    kernel = MeshKernel()
    return kernel.evaluate(Union(body.envelope)).overlap_mm3(kernel.evaluate(space))
