"""Screws of plates and of carriers into the wall itself: which have a stud behind them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from cleatwright.base import said
from cleatwright.design.carrying import Unit
from cleatwright.parts.holder import Hardware
from cleatwright.parts.mirror import to_reader
from cleatwright.siting.panel_job import PanelJob
from cleatwright.wall.model import Place
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.studs import INSIDE_MM, lefts_over
from cleatwright.workshop.document.surfaces import Panel

Met = Literal["all", "some", "edge", "none", "unknown"]
"""How many of a plate's screws meet a stud; unknown on a panel that names no stud.

At an edge are screws that are in a stud, and none of them far enough from its faces.
"""

Behind = Literal["stud", "edge", "none", "unknown"]
"""What is behind a screw: a stud, the edge of one, or none; unknown as above."""

Zone = tuple[float, float]


@dataclass(frozen=True)
class ScrewColumn:
    """Screws of a plate or a carrier one above the other.

    Args:
        x_mm: Where they are from the panel's left edge.
        rows_mm: Their heights above the panel's lower edge, the upper one first.
        behind: What is behind them.
    """

    x_mm: float
    rows_mm: tuple[float, ...]
    behind: Behind


@dataclass(frozen=True)
class PlateScrews:
    """The screws of one plate, or those that lock a carrier on its rail.

    Args:
        unit: What it carries.
        columns_mm: Where its columns of screws are, from its left edge for the reader.
        zones_mm: Between which x of the panel a screw is in a stud, well off its faces.
        x_mm: Where its left edge is on the panel.
        rows_mm: The heights of its rows above the panel's lower edge, the upper one first.
        lock: True when it hangs on a rail, and they only keep it from riding up.
        faces_mm: The faces of the stud of each of the zones.
    """

    unit: Unit
    columns_mm: tuple[float, ...]
    zones_mm: tuple[Zone, ...]
    x_mm: float
    rows_mm: tuple[float, ...]
    lock: bool = False
    faces_mm: tuple[Zone, ...] = ()

    @property
    def columns(self) -> tuple[ScrewColumn, ...]:
        """Return where its screws are on the panel, from left to right.

        >>> PlateScrews(None, (10.0,), ((400.0, 420.0),), 395.0, (560.0, 500.0)).columns
        (ScrewColumn(x_mm=405.0, rows_mm=(560.0, 500.0), behind='stud'),)
        """
        places = sorted(self.x_mm + column for column in self.columns_mm)
        return tuple(ScrewColumn(x, self.rows_mm, self._behind(x)) for x in places)

    @property
    def met_count(self) -> int:
        """Return how many columns have a stud behind them."""
        return sum(one.behind == "stud" for one in self.columns)

    @property
    def met(self) -> Met:
        """Return how many of the screws meet a stud, in a word."""
        if not self.zones_mm:
            return "unknown"
        if self.met_count == len(self.columns_mm):
            return "all"
        if self.met_count:
            return "some"
        return "edge" if self.near_edges_mm else "none"

    @property
    def near_edges_mm(self) -> tuple[tuple[float, float], ...]:
        """Return how far from a face each column is that is in a stud too near it, and the least.

        >>> one = PlateScrews(None, (10.4,), ((12.5, 30.5),), 0.0, (), faces_mm=((0.0, 43.0),))
        >>> one.near_edges_mm
        ((10.4, 12.5),)
        """
        found: list[tuple[float, float]] = []
        for x in (self.x_mm + column for column in self.columns_mm):
            if self._well_inside(x):
                continue
            for (low, _), (left, right) in zip(self.zones_mm, self.faces_mm, strict=True):
                if left <= x <= right:
                    found.append((min(x - left, right - x), low - left))
                    break
        return tuple(found)

    def _behind(self, x_mm: float) -> Behind:
        if not self.zones_mm:
            return "unknown"
        if self._well_inside(x_mm):
            return "stud"
        return "edge" if any(low <= x_mm <= high for low, high in self.faces_mm) else "none"

    def _well_inside(self, x_mm: float) -> bool:
        return any(low <= x_mm <= high for low, high in self.zones_mm)

    def lefts_mm(self, low_mm: float, high_mm: float) -> tuple[Zone, ...]:
        """Return where its left edge may be so that each column has a stud behind it.

        >>> zones = ((90.0, 120.0), (200.0, 215.0))
        >>> PlateScrews(None, (10.0, 110.0), zones, 0.0, ()).lefts_mm(0, 300)
        ((90.0, 105.0),)
        """
        return lefts_over(self.columns_mm, self.zones_mm, (low_mm, high_mm))

    def begins_mm(self, low_mm: float, high_mm: float) -> tuple[Zone, ...]:
        """Return the same well inside what studs leave, so that what a rule shows still is there.

        >>> zones = ((90.0, 120.0), (200.0, 215.0))
        >>> PlateScrews(None, (10.0, 110.0), zones, 0.0, ()).begins_mm(0, 300)
        ((92.0, 103.0),)
        """
        found = self.lefts_mm(low_mm, high_mm)
        aside = [min(INSIDE_MM, (b - a) / 2) for a, b in found]
        return tuple((a + off, b - off) for (a, b), off in zip(found, aside, strict=True))


def plate_screws(job: PanelJob) -> tuple[PlateScrews, ...]:
    """Return the screws of every plate and carrier of a panel that go into the wall itself."""
    found = (screws_of(unit, job.panel, at=job.spots[unit.planned.key].place) for unit in job.units)
    return tuple(one for one in found if one is not None)


def screws_of(unit: Unit, panel: Panel, *, at: Place) -> PlateScrews | None:
    """Return the screws of a unit that go into the wall itself, if it has any.

    Args:
        unit: What hangs.
        panel: Its panel.
        at: Where it hangs on the panel.
    """
    part = unit.outer.part
    screws = part.hanging.screws or part.hanging.lock
    if screws is None:
        return None
    studs = studs_of(panel)
    zones = tuple(zone for stud in studs for zone in stud.zones())
    faces = tuple(face for stud in studs for face in stud.uprights)
    width = part.bounds_mm[1][0]
    columns = tuple(to_reader(x, origin_mm=width) for x in screws.columns_mm)
    rows = tuple(at.z_mm - part.hanging.contact_z_mm + z for z in screws.rows_mm)
    lock = part.hanging.screws is None
    return PlateScrews(unit, columns, zones, at.x_mm, rows, lock=lock, faces_mm=faces)


def begins_of(unit: Unit, panel: Panel) -> tuple[Zone, ...]:
    """Return between which x a plate begins so that each column of its screws meets a stud.

    Args:
        unit: What hangs.
        panel: Its panel.

    Returns:
        The spans from left to right; none for what has no such screws, and where no place of the
        panel does.
    """
    screws = screws_of(unit, panel, at=Place(unit.planned.key, 0.0, 0.0))
    if screws is None:
        return ()
    return screws.begins_mm(0.0, panel.width_mm - unit.outer.part.bounds_mm[1][0])


def screws_met(panels: Sequence[PanelJob]) -> Mapping[str, Met]:
    """Return for each part with screws into a wall itself, by its key, what they meet."""
    return MappingProxyType(
        {one.unit.planned.key: one.met for panel in panels for one in plate_screws(panel)}
    )


def placed_hardware(item: Hardware, met: Met) -> Hardware:
    """Return something to buy, told by what is behind it where it goes in.

    Args:
        item: The thing.
        met: How many of the screws of its part meet a stud.
    """
    if not item.stud_mm:
        return item
    if met == "all":
        behind = (
            f", at least {said.least(item.stud_mm)} into studs; for masonry ask for qualified "
            "advice"
        )
    elif met == "unknown":
        behind = (
            f"; its check takes for granted {said.mm(item.stud_mm)} of it in sound solid wood. It "
            "must be shorter than plate, lining and wood together, so that no point comes through: "
            "measure them; for thinner wood or masonry ask for qualified advice"
        )
    else:
        where = {
            "some": "not everywhere a stud is behind it",
            "edge": "it is too near the edge of a stud",
        }.get(met, "no stud is behind it")
        behind = (
            f"; {where} where it hangs, and it does not hold without: choose a fixing for your "
            "wall with qualified advice"
        )
    return replace(item, note=item.note + behind)
