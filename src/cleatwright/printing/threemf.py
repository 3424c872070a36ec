"""3MF files: named, coloured, placed parts, the same bytes for the same parts.

The bytes are stable for one version of the library on one platform. Sources: 3MF
Core Specification 1.4.0; 3MF Production Extension for the identifiers.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID, uuid5

from cleatwright.base.errors import MeasureError, PartError
from cleatwright.base.keys import content_key
from cleatwright.printing import lib3mf_model as library
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.printing.zip_dates import first_day_of_zip
from cleatwright.shapes.rigid import turn

APPLICATION = "Cleatwright"
_NAMESPACE = UUID("5d7a2f0e-6c43-5b1f-9c0e-0d6f3f6a4b21")
_NOT_XML = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]+")
_COLOUR = re.compile(r"#[0-9A-Fa-f]{6}")


@dataclass(frozen=True, eq=False)
class PlacedMesh:
    """A mesh and where it lies.

    Args:
        mesh: The mesh in its print pose.
        x_mm: Least x of the turned box around the part.
        y_mm: Least y of the turned box around the part.
        z_mm: Least z of the part; 0 is the bed.
        turn_deg: Turn about z, counter-clockwise.
    """

    mesh: PrintMesh
    x_mm: float = 0.0
    y_mm: float = 0.0
    z_mm: float = 0.0
    turn_deg: float = 0.0

    @property
    def motion(self) -> tuple[tuple[tuple[float, ...], ...], tuple[float, float, float]]:
        """Return the rows of the rotation and the shift that put the mesh in its place."""
        rotation = turn("z", self.turn_deg)
        (x0, y0, z0), (x1, y1, _) = self.mesh.bounds_mm
        corners = [rotation.apply((x, y, z0)) for x in (x0, x1) for y in (y0, y1)]
        wanted = (self.x_mm, self.y_mm, self.z_mm)
        x, y, z = (wanted[k] - min(corner[k] for corner in corners) for k in range(3))
        return rotation.rows, (x, y, z)


def plain_text(text: str) -> str:
    r"""Return text that XML can hold: control characters become one space.

    >>> plain_text("rack\x00 \n12")
    'rack 12'
    """
    return " ".join(_NOT_XML.sub(" ", text).split())


def threemf_bytes(
    items: Sequence[PlacedMesh],
    *,
    title: str,
    description: str = "",
    colour: str = "#5B7C99",
    material: str = "filament",
) -> bytes:
    """Return a 3MF file with all items; equal meshes are stored once.

    Args:
        items: The parts and their places, at least one.
        title: Title of the file.
        description: What a person should know about the file.
        colour: Display colour as "#RRGGBB".
        material: Name of the material that carries the colour.

    Raises:
        PartError: There is nothing to write.
        MeasureError: The colour cannot be read.
        KernelError: The library reported a failure.
    """
    if not items:
        raise PartError("a print file without parts", where=title)
    if not _COLOUR.fullmatch(colour):
        raise MeasureError(f'the colour "{colour}"', allowed="#RRGGBB with hexadecimal digits")
    with library.reported(title):
        wrapper = library.library_wrapper()
        model = wrapper.CreateModel()
        _add_metadata(model, title=title, description=description)
        shades = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
        group = model.AddBaseMaterialGroup()
        shade = group.AddMaterial(plain_text(material), library.colour(*shades))
        objects: dict[str, Any] = {}
        for mesh in (item.mesh for item in items):
            if mesh.content_key not in objects:
                made = library.add_mesh(wrapper, model, mesh)
                made.SetName(plain_text(mesh.name))
                made.SetPartNumber(plain_text(mesh.part_number))
                made.SetUUID(_uuid("object", mesh.content_key))
                made.SetObjectLevelProperty(group.GetUniqueResourceID(), shade)
                objects[mesh.content_key] = made
        keys = [_add_item(model, objects, item, at) for at, item in enumerate(items)]
        model.SetBuildUUID(_uuid("build", content_key((title, description, *keys))))
        return first_day_of_zip(library.model_bytes(model, "3mf"))


def _add_metadata(model: Any, *, title: str, description: str) -> None:
    group = model.GetMetaDataGroup()
    for name, value in (
        ("Title", title),
        ("Application", APPLICATION),
        ("Description", description),
    ):
        if plain_text(value):
            group.AddMetaData("", name, plain_text(value), "xs:string", True)  # noqa: FBT003 - the library's own signature


def _add_item(model: Any, objects: dict[str, Any], item: PlacedMesh, at: int) -> str:
    rows, shift_mm = item.motion
    made = model.AddBuildItem(objects[item.mesh.content_key], library.transform(rows, shift_mm))
    key = content_key((item.mesh.content_key, at, rows, shift_mm))
    made.SetUUID(_uuid("item", key))
    # no part number here: readers that key items by it would drop all but one of equal parts
    return key


def _uuid(kind: str, key: str) -> str:
    return str(uuid5(_NAMESPACE, f"{kind} {key}"))
