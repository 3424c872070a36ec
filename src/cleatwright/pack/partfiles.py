"""The print files of one part: its shape, its mark and its name give them, and no printer."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.printing.pose import best_pose
from cleatwright.printing.stl import stl_bytes
from cleatwright.printing.threemf import PlacedMesh, threemf_bytes

NO_BED_MM = (1e6, 1e6, 1e6)
PART_COLOUR = "#8C9BA5"
_UNSAFE = re.compile(r"[^A-Za-z0-9.-]+")


def stem(built: BuiltPart) -> str:
    """Return the file name without its ending: family, leading dimensions and mark."""
    leading = _UNSAFE.sub("-", built.part.leading).strip("-.")
    return f"{built.part.family}_{leading}_{built.mark}"


def part_file_names(built: BuiltPart) -> tuple[str, ...]:
    """Return every file that may belong to a part, the STEP file included."""
    return tuple(f"parts/{stem(built)}.{ending}" for ending in ("3mf", "stl", "step"))


def part_files(built: BuiltPart, run: Run | None = None) -> dict[str, bytes]:
    """Return the 3MF and the STL file of a part, lying as it prints best, by name."""
    laid = _laid(built, run)
    _, stl, _ = part_file_names(built)
    name, data = _threemf(built, laid)
    return {name: data, stl: stl_bytes(laid)}


def threemf_file(built: BuiltPart, run: Run | None = None) -> tuple[str, bytes]:
    """Return the name and the content of the 3MF file of a part."""
    return _threemf(built, _laid(built, run))


def _laid(built: BuiltPart, run: Run | None) -> PrintMesh:
    mesh = built.print_mesh
    return mesh.moved(best_pose(mesh, bed_mm=NO_BED_MM, run=run).rotation)


def _threemf(built: BuiltPart, laid: PrintMesh) -> tuple[str, bytes]:
    description = f"Part {built.mark}. Lettering: {' / '.join(built.marking.lines)}."
    data = threemf_bytes(
        [PlacedMesh(laid)], title=laid.name, description=description, colour=PART_COLOUR
    )
    return part_file_names(built)[0], data


def step_files(built: BuiltPart) -> dict[str, bytes]:
    """Return the STEP file of a part by name.

    Raises:
        KernelError: The extra ``step`` is not installed, or the exact kernel failed.
    """
    from cleatwright.kernels.exact import ExactKernel, write_step  # noqa: PLC0415 - loads on use

    body = ExactKernel().evaluate(built.solid)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "part.step"
        write_step(path, f"{built.part.family} {built.mark}", body)
        return {part_file_names(built)[2]: path.read_bytes()}
