"""A tray on a pitch: floor with openings, ribs along and across, a lip under 45 degrees, webs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from cleatwright.features.footed import diamond
from cleatwright.features.root import bracket, cove
from cleatwright.features.webs import WebDepth
from cleatwright.shapes.outline import Outline, polygon, rectangle
from cleatwright.shapes.solid import Solid, Union, across, block, prism

RIB_MM = 1.8
WALL_MM = 2.7
BEARING_MM = 9.0
LEAST_OPENING_MM = 6.0
LARGEST_OPENING_MM = 25.0
BAY_MM = 75.0
# how deep webs are at the least: at the plate, of how far the tray reaches out, and at their ends
WEB_SHARE = 0.12
WEB_TIP_MM = 4.0
# walls and ribs begin in the floor, so that they join
_BURIED_MM = 1.0


@dataclass(frozen=True)
class RibbedFloor:
    """The fields of a tray, and what stands around them.

    Args:
        columns: How many fields lie side by side.
        rows: How many lie behind each other.
        pitch_mm: From a field to the next, both ways.
        rib_mm: Height of the ribs above the floor.
        lip_mm: Height of the lip and the side walls.
        floor_mm: Thickness of the floor, below z = 0.
        web_mm: Thickness of the webs below the floor.
        plate_mm: Thickness of the plate.
        webs: How deep the webs are; what a tray has in any case when None.
    """

    columns: int
    rows: int
    pitch_mm: float
    rib_mm: float
    lip_mm: float
    floor_mm: float
    web_mm: float
    plate_mm: float
    webs: WebDepth | None = None

    @property
    def width_mm(self) -> float:
        """Return the width over all: a wall is as far from the fields as half a rib."""
        return self.columns * self.pitch_mm + 2 * WALL_MM - RIB_MM

    @property
    def front_mm(self) -> float:
        """Return where the lip begins to rise."""
        return self.plate_mm + self.rows * self.pitch_mm

    @property
    def reach_mm(self) -> float:
        """Return the outside face of the lip."""
        return self.front_mm + self.lip_mm + WALL_MM

    @property
    def depth(self) -> WebDepth:
        """Return how deep the webs are."""
        if self.webs is not None:
            return self.webs
        root = WEB_SHARE * (self.reach_mm - self.plate_mm)
        return WebDepth(root, min(WEB_TIP_MM, root / 2))

    @property
    def webs_mm(self) -> tuple[float, ...]:
        """Return where webs begin: under both sides, and under every few fields."""
        step = max(1, round(BAY_MM / self.pitch_mm))
        inner = (
            self.edge_mm(k) + RIB_MM / 2 - self.web_mm / 2 for k in range(step, self.columns, step)
        )
        return (0.0, *inner, self.width_mm - self.web_mm)

    def edge_mm(self, column: int) -> float:
        """Return where the rib before a column begins."""
        return WALL_MM - RIB_MM + column * self.pitch_mm

    def rib_front_mm(self, row: int) -> float:
        """Return the front face of the rib before a row (> 0), counted from the front."""
        return self.front_mm - row * self.pitch_mm

    def stop_mm(self, row: int) -> float:
        """Return where the slope of the rib before a row, or of the lip, begins at the floor."""
        return self.rib_front_mm(row) - (RIB_MM + self.rib_mm if row else 0.0)

    @cached_property
    def openings(self) -> tuple[Outline, ...]:
        """Return an opening in each field, or none where a field is too small."""
        half = min(self.pitch_mm / 2 - BEARING_MM, LARGEST_OPENING_MM)
        if half < LEAST_OPENING_MM:
            return ()
        middle = (self.pitch_mm + RIB_MM) / 2
        return tuple(
            diamond(half, at=(self.edge_mm(k) + middle, self.plate_mm + (j + 0.5) * self.pitch_mm))
            for k in range(self.columns)
            for j in range(self.rows)
        )

    def solid(self, along: Iterable[int], across_at: Iterable[tuple[int, int, int]]) -> Solid:
        """Return the tray.

        Args:
            along: The columns before which a rib runs out of the wall.
            across_at: Column, width in columns and row of each rib along the wall.
        """
        floor = prism(
            rectangle(0.0, 0.0, self.width_mm, self.reach_mm), self.floor_mm, holes=self.openings
        )
        ribs = [
            block(x, 0.0, -_BURIED_MM, x + RIB_MM, self.front_mm + _BURIED_MM, self.rib_mm)
            for x in map(self.edge_mm, along)
        ]
        return Union(
            (
                floor.moved(dz=-self.floor_mm),
                *self._walls(),
                *ribs,
                *(self._step(column, wide, row) for column, wide, row in across_at),
                *self._webs(),
                cove(0.0, self.width_mm, plate_mm=self.plate_mm, z_mm=-self.floor_mm),
            )
        )

    def _walls(self) -> tuple[Solid, ...]:
        """Return the lip and both side walls."""
        y, high, wide, end = self.front_mm, self.lip_mm, self.width_mm, self.reach_mm
        low = -_BURIED_MM
        lip = polygon([(y, 0.0), (y, low), (end, low), (end, high), (y + high, high)])
        return (
            across(lip, 0.0, wide),
            block(0.0, 0.0, low, WALL_MM, end, high),
            block(wide - WALL_MM, 0.0, low, wide, end, high),
        )

    def _step(self, column: int, wide: int, row: int) -> Solid:
        """Return a rib along the wall; its back leans by 45 degrees."""
        y, high = self.rib_front_mm(row), self.rib_mm
        foot = y - RIB_MM - high
        profile = polygon(
            [(foot, -_BURIED_MM), (y, -_BURIED_MM), (y, high), (y - RIB_MM, high), (foot, 0.0)]
        )
        x = self.edge_mm(column) + RIB_MM / 2
        return across(profile, x, x + wide * self.pitch_mm)

    def _webs(self) -> list[Solid]:
        """Return the webs, as far as the lip."""
        depth = self.depth
        return [
            bracket(
                x,
                x + self.web_mm,
                plate_mm=self.plate_mm,
                root_mm=depth.root_mm,
                tip_mm=depth.tip_mm,
                reach_mm=self.front_mm,
                z_mm=-self.floor_mm,
            )
            for x in self.webs_mm
        ]
