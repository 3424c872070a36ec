"""Print files, read back strictly by the 3MF library and by trimesh as an independent reader."""

import io
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import lib3mf
import lxml.etree
import numpy as np
import pytest
import trimesh

from cleatwright.base.errors import KernelError, MeasureError, PartError
from cleatwright.printing import lib3mf_model
from cleatwright.printing.meshfile import PrintMesh, print_mesh
from cleatwright.printing.stl import stl_bytes
from cleatwright.printing.threemf import PlacedMesh, threemf_bytes

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"


def wedge(name: str = "wedge", mark: str = "W1", scale: float = 1.0) -> PrintMesh:
    """Return a corner of a 30 x 20 x 10 box, which no turn maps onto itself."""
    corners = np.array([[0, 0, 0], [30, 0, 0], [0, 20, 0], [0, 0, 10]], dtype=np.float64)
    triangles = [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]
    return print_mesh(name, mark, vertices=corners * scale, triangles=triangles)


def read_strictly(data: bytes, tmp_path: Path) -> Any:
    path = tmp_path / "read.3mf"
    path.write_bytes(data)
    model: Any = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)  # noqa: FBT003 - the signature of the library
    reader.ReadFromFile(str(path))
    assert reader.GetWarningCount() == 0
    return model


def placed_corners(data: bytes) -> list[Any]:
    scene = trimesh.load_scene(io.BytesIO(data), file_type="3mf")
    return sorted(scene.dump(), key=lambda m: tuple(m.bounds[0]))


def objects_of(model: Any) -> list[Any]:
    found = model.GetMeshObjects()
    out: list[Any] = []
    while found.MoveNext():
        out.append(found.GetCurrentMeshObject())
    return out


def test_names_marks_metadata_and_colour_are_read_back_strictly(tmp_path: Path) -> None:
    data = threemf_bytes(
        [PlacedMesh(wedge("Ratschenhalter ⌀6.5 <&>", "7K2M9QX"))],
        title="Batch 1 & 2",
        description="PLA, 0.2 mm",
        colour="#0A141E",
    )
    model = read_strictly(data, tmp_path)
    (found,) = objects_of(model)
    assert found.GetName() == "Ratschenhalter ⌀6.5 <&>"
    assert found.GetPartNumber() == "7K2M9QX"
    assert found.IsManifoldAndOriented()
    assert (found.GetVertexCount(), found.GetTriangleCount()) == (4, 4)
    group = model.GetMetaDataGroup()
    told = {
        group.GetMetaData(i).GetName(): group.GetMetaData(i).GetValue()
        for i in range(group.GetMetaDataCount())
    }
    assert told == {
        "Title": "Batch 1 & 2",
        "Application": "Cleatwright",
        "Description": "PLA, 0.2 mm",
    }
    resource, shade, has = found.GetObjectLevelProperty()
    assert has
    colour = model.GetBaseMaterialGroupByID(resource).GetDisplayColor(shade)
    assert (colour.Red, colour.Green, colour.Blue, colour.Alpha) == (10, 20, 30, 255)


def test_volume_and_corners_survive_the_round_trip_by_an_independent_reader() -> None:
    """A corner of a 30 x 20 x 10 box holds a sixth of it: 1000 mm3."""
    (found,) = placed_corners(threemf_bytes([PlacedMesh(wedge())], title="t"))
    assert found.is_watertight
    assert found.volume == pytest.approx(1000.0)
    assert found.bounds.tolist() == [[0, 0, 0], [30, 20, 10]]


# The square corner of the wedge lies, within its turned box, at these shares of the extents
@pytest.mark.parametrize(
    ("turns", "size", "corner"),
    [
        (0, (30, 20), (0, 0)),
        (1, (20, 30), (20, 0)),
        (2, (30, 20), (30, 20)),
        (3, (20, 30), (0, 30)),
    ],
)
def test_a_turned_item_lands_where_it_should(
    turns: int, size: tuple[float, float], corner: tuple[float, float]
) -> None:
    """By hand: a quarter turn counter-clockwise takes (x, y) to (-y, x)."""
    item = PlacedMesh(wedge(), x_mm=40.0, y_mm=70.0, z_mm=0.0, turn_deg=90.0 * turns)
    (found,) = placed_corners(threemf_bytes([item], title="t"))
    assert found.bounds[0] == pytest.approx([40.0, 70.0, 0.0])
    assert found.bounds[1] == pytest.approx([40.0 + size[0], 70.0 + size[1], 10.0])
    top = found.vertices[found.vertices[:, 2].argmax()]
    assert top == pytest.approx([40.0 + corner[0], 70.0 + corner[1], 10.0])
    assert found.volume == pytest.approx(1000.0)


def test_a_part_away_from_the_origin_is_brought_to_its_place() -> None:
    far = wedge()
    moved = print_mesh("m", "M", vertices=far.vertices - [500, 3, 40], triangles=far.triangles)
    (found,) = placed_corners(threemf_bytes([PlacedMesh(moved, 5.0, 6.0, 0.0)], title="t"))
    assert found.bounds[0] == pytest.approx([5.0, 6.0, 0.0], abs=1e-4)


def test_equal_parts_are_stored_once_and_placed_often(tmp_path: Path) -> None:
    items = [PlacedMesh(wedge(), x_mm=35.0 * i) for i in range(20)]
    data = threemf_bytes([*items, PlacedMesh(wedge("big", "B", 2.0), y_mm=40.0)], title="t")
    model = read_strictly(data, tmp_path)
    assert len(objects_of(model)) == 2
    assert model.GetBuildItems().Count() == 21
    assert len(placed_corners(data)) == 21
    assert len(data) < 8_000


def test_every_identifier_in_a_file_is_unique(tmp_path: Path) -> None:
    items = [PlacedMesh(wedge()), PlacedMesh(wedge()), PlacedMesh(wedge("big", "B", 2.0))]
    with zipfile.ZipFile(io.BytesIO(threemf_bytes(items, title="t"))) as archive:
        tree = lxml.etree.fromstring(archive.read("3D/3dmodel.model"))
    found = [
        str(value)
        for element in tree.iter()
        for key, value in element.attrib.items()
        if str(key).endswith("}UUID")
    ]
    assert len(found) == 2 + 3 + 1
    assert len(set(found)) == len(found)


def test_control_characters_in_names_leave_valid_xml() -> None:
    nasty = wedge("a\x00b\x1b\tc\ud800d", "M\x07")
    data = threemf_bytes([PlacedMesh(nasty)], title="t\x02\ufffe", description="\x03")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        tree = lxml.etree.fromstring(archive.read("3D/3dmodel.model"))
    found = tree.find(f".//{CORE}object")
    assert found is not None
    assert (found.get("name"), found.get("partnumber")) == ("a b c d", "M")


def test_the_dates_in_the_archive_are_valid_and_fixed() -> None:
    data = threemf_bytes([PlacedMesh(wedge())], title="t")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        for entry in archive.infolist():
            local = struct.unpack_from("<HH", data, entry.header_offset + 10)
            assert local == (0, 33)


SCRIPT = """
import hashlib, sys
import numpy as np
from cleatwright.printing.meshfile import print_mesh
from cleatwright.printing.stl import stl_bytes
from cleatwright.printing.threemf import PlacedMesh, threemf_bytes
v = np.array([[0, 0, 0], [30, 0, 0], [0, 20, 0], [0, 0, 10]], dtype=float)
t = [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]
m = [print_mesh(f"p{i}", f"M{i}", vertices=v * (i + 1), triangles=t) for i in range(4)]
items = [PlacedMesh(x, x_mm=50.0 * i, turn_deg=90.0 * i) for i, x in enumerate(m + m)]
data = threemf_bytes(items, title="t", description="d") + stl_bytes(m[1])
print(hashlib.sha256(data).hexdigest())
"""


def test_two_processes_write_the_same_bytes(under_hash_seeds: Callable[..., set[bytes]]) -> None:
    digests = under_hash_seeds(SCRIPT)
    assert len(digests) == 1


def test_binary_stl_reads_back_with_its_volume_at_the_origin() -> None:
    """Binary STL: 80 bytes of header, a count, 50 bytes a triangle; the header is not "solid"."""
    far = print_mesh("m", "M", vertices=wedge().vertices + 70, triangles=wedge().triangles)
    data = stl_bytes(far)
    assert len(data) == 84 + 50 * 4
    assert not data.startswith(b"solid")
    found: Any = trimesh.load_mesh(io.BytesIO(data), file_type="stl")
    assert found.volume == pytest.approx(1000.0, rel=1e-5)
    assert found.bounds == pytest.approx(np.array([[0, 0, 0], [30, 20, 10]]), abs=1e-5)


def test_nothing_to_write_and_a_colour_that_is_none_are_refused() -> None:
    with pytest.raises(PartError, match="without parts"):
        threemf_bytes([], title="t")
    with pytest.raises(MeasureError, match="#RRGGBB"):
        threemf_bytes([PlacedMesh(wedge())], title="t", colour="blue")


def test_a_failure_of_the_library_becomes_an_error_of_the_kernel() -> None:
    model: Any = lib3mf.get_wrapper().CreateModel()
    with (
        pytest.raises(KernelError, match="file t: the print file library"),
        lib3mf_model.reported("file t"),
    ):
        model.QueryWriter("no such form")
