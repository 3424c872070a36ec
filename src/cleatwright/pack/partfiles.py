"""The print files of one part: its shape, its mark and its name give them, and no printer."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

from cleatwright.base.keys import content_key
from cleatwright.base.stages.codec import BytesCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.building import BuiltPart
from cleatwright.pack.output_file import OutputFile, of_stage
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


def part_files(built: BuiltPart, name: str = "", *, with_step: bool = False) -> list[OutputFile]:
    """Return the print files of a part, lying as it prints best; a 3MF and a STL file.

    Args:
        built: The part.
        name: What people call it; its family when "".
        with_step: Whether to give a STEP file too, for which the extra ``step`` is needed.
    """
    title, kinds = name or built.part.family, ("3MF", "STL", "STEP")
    stages = (PART_3MF, PART_STL, PART_STEP)[: 3 if with_step else 2]
    return [
        of_stage(path, f"{title} ({built.mark}), {kind}", stage, built)
        for path, kind, stage in zip(part_file_names(built), kinds, stages, strict=False)
    ]


def _laid(run: Run, built: BuiltPart) -> PrintMesh:
    mesh = built.print_mesh
    return mesh.moved(best_pose(mesh, bed_mm=NO_BED_MM, run=run).rotation)


def _threemf(run: Run, built: BuiltPart) -> bytes:
    laid = _laid(run, built)
    description = f"Part {built.mark}. Lettering: {' / '.join(built.marking.lines)}."
    return threemf_bytes(
        [PlacedMesh(laid)], title=laid.name, description=description, colour=PART_COLOUR
    )


def _stl(run: Run, built: BuiltPart) -> bytes:
    return stl_bytes(_laid(run, built))


def _step(_: Run, built: BuiltPart) -> bytes:
    from cleatwright.kernels.exact import ExactKernel, write_step  # noqa: PLC0415 - loads on use

    body = ExactKernel().evaluate(built.solid)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "part.step"
        write_step(path, f"{built.part.family} {built.mark}", body)
        return path.read_bytes()


def _drawn_by(built: BuiltPart) -> str:
    """Return the key of the mesh and of what is written into the file, whatever the printer is."""
    return content_key((built.print_mesh.content_key, built.mark, built.marking.lines))


PART_3MF = Stage("part as 3MF", _threemf, _drawn_by, size=len, codec=BytesCodec())
PART_STL = Stage("part as STL", _stl, _drawn_by, size=len)
PART_STEP = Stage("part as STEP", _step, content_key, size=len)
"""From a built part to a file of its shape."""
