"""Walls side by side on one sheet: what is written there, read back from the drawing."""

from xml.etree import ElementTree as ET

from tests.papers.test_elevation_sheets import a_wall

from cleatwright.papers.elevation.view import ObstacleView
from cleatwright.papers.side_by_side.drawing import side_by_side_pages
from cleatwright.papers.side_by_side.view import BesideView, SideBySideView

SVG = "{http://www.w3.org/2000/svg}"


def test_what_stays_free_has_its_name_in_its_upper_left_corner() -> None:
    obstacles = (
        ObstacleView("Socket", (1500.0, 1580.0, 700.0, 780.0)),
        ObstacleView("Window to the yard", (2000.0, 2800.0, 900.0, 1900.0)),
    )
    wall = a_wall(9, obstacles=obstacles)
    view = SideBySideView("Shed", (BesideView("As far", wall),), ("what", "where"), (), ())
    (page,) = side_by_side_pages(view)
    root = ET.fromstring(page)  # noqa: S314 - our own bytes
    boxes = [one for one in root.iter(f"{SVG}rect") if one.get("class") == "obstacle"]
    names = [one for one in root.iter(f"{SVG}text") if one.get("class") == "obstacle-name"]
    assert [one.text for one in names] == ["Socket", "Window to the yard"]
    for box, name in zip(boxes, names, strict=True):
        assert 0.0 < float(name.get("x", "")) - float(box.get("x", "")) < 40.0
        assert 0.0 < float(name.get("y", "")) - float(box.get("y", "")) < 100.0
