"""The wall drawing of a job."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.registry import MOUNTS
from cleatwright.papers.elevation.drawing import elevation_pages
from cleatwright.papers.elevation.dxf import elevation_dxf
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.elevation.view import (
    BenchView,
    ElevationView,
    HangView,
    HolderView,
    ObstacleView,
    Polygon,
)
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.shapes.solid import block
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.pitch import pitch_notes
from cleatwright.siting.rails.loading import failing_rails, loaded_rails
from cleatwright.siting.walls import holder_outline, tool_outline, weak_rails
from cleatwright.standards import cautions
from cleatwright.wall.model import Item, Place
from cleatwright.workshop.document.surfaces import Panel

ROOM_MM = 10.0


def elevation_file(job: PanelJob, *, sheet: str = AUTO) -> dict[str, bytes]:
    """Return the elevation by name: a SVG file for each sheet, all sheets as PDF, and as DXF.

    Args:
        job: What was computed.
        sheet: Name of the sheet, or "auto" for the smallest of its series that reads well.

    Raises:
        UnknownNameError: There is no such sheet.
    """
    view = elevation_view(job)
    pages = elevation_pages(view, sheet=sheet)
    names = ("wall/elevation.svg", *(f"wall/elevation-{n}.svg" for n in range(2, len(pages) + 1)))
    return {
        **dict(zip(names, pages, strict=True)),
        "wall/elevation.pdf": svg_pdf(pages, title=view.title),
        "wall/elevation.dxf": elevation_dxf(view),
    }


def elevation_view(job: PanelJob) -> ElevationView:
    """Return what the elevation shows."""
    wall, fails = job.panel, failing_rails(loaded_rails(job))
    known = bool(wall.studs)
    weak = weak_rails(job.arrangement.rails, studs_known=known)
    return ElevationView(
        title=job.title,
        width_mm=wall.width_mm,
        height_mm=wall.height_mm,
        floor_gap_mm=wall.floor_gap_mm,
        studs_mm=tuple(stud.x_mm for stud in wall.studs),
        obstacles=tuple(
            ObstacleView(o.name, (o.x_mm, o.x_mm + o.width_mm, o.z_mm, o.z_mm + o.height_mm))
            for o in wall.obstacles
        ),
        rails=job.arrangement.rails,
        holders=_holders(job),
        unit=job.setting.units,
        cautions=(
            *job.words.all((*fails.values(), *(one.sentence for one in weak))),
            *_hanging(job),
        ),
        reach=job.problem.band,
        bench=_bench(wall),
    )


def _hanging(job: PanelJob) -> tuple[str, ...]:
    """Return the cautions of whoever hangs what is on a panel, by the mounts that it has."""
    mounts = [one.outer.part.hanging.mount for one in job.units]
    ways = dict.fromkeys(MOUNTS[name].put_in for name in mounts)
    return cautions.hanging(
        rails=bool(job.arrangement.rails),
        screwed=any(MOUNTS[name].screwed for name in mounts),
        put_in=(
            *(way for way in ways if way),
            *job.words.all(pitch_notes(job.units, panel=job.panel.name)),
        ),
    )


def _bench(panel: Panel) -> BenchView | None:
    if panel.bench_depth_mm == 0.0 or panel.bench_height_mm is None:
        return None
    return BenchView(panel.bench_depth_mm, panel.bench_height_mm)


def _holders(job: PanelJob) -> tuple[HolderView, ...]:
    views: list[HolderView] = []
    for unit, item in zip(job.units, job.problem.items, strict=True):
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
            place = job.spots[planned.key].place
            tools = [
                polygon
                for seat in range(len(planned.tools))
                for polygon in tool_outline(made, seat, place).polygons
            ]
            shapes = list(holder_outline(made, place).polygons)
            if unit.carrier is not None and planned is unit.planned.holders[0]:
                # the carrier is drawn once, with the first of its holders
                at = job.spots[unit.planned.key].place
                shapes += holder_outline(unit.carrier, at).polygons
            hangs = [_hang(job, unit, planned.key, inner=unit.carrier is not None)]
            if unit.carrier is not None and planned is unit.planned.holders[0]:
                hangs.append(
                    _hang(job, unit, unit.planned.key, what=f"carrier {unit.carrier.mark}")
                )
            views.append(
                HolderView(
                    number=planned.number,
                    name=planned.name,
                    holder=tuple(shapes),
                    tools=tuple(tools),
                    lift=_lift(item, job.spots[unit.planned.key].place, tools),
                    note=made.mark,
                    front=_front(made, place),
                    hangs=tuple(hangs),
                )
            )
    return tuple(views)


def _hang(job: PanelJob, unit: Unit, key: str, *, inner: bool = False, what: str = "") -> HangView:
    """Return where a part hangs; a holder on a carrier hangs by its top."""
    place = job.spots[key].place
    edge = "rail edge" if unit.outer.part.hanging.on_rail else "plate top"
    return HangView(place.x_mm, place.z_mm, "top" if inner else edge, what)


def _front(made: BuiltPart, place: Place) -> tuple[Polygon, ...]:
    """Return the outlines of what lies before the middle of the tools and so hides them."""
    kernel = MeshKernel()
    depths = [
        kernel.evaluate(piece).placed(seat.pose).box_mm[:, 1]
        for seat in made.part.seats
        for piece in seat.tool.envelope
    ]
    middle = sum(float(low + high) for low, high in depths) / (2 * len(depths))
    (x0, y0, z0), (x1, y1, z1) = made.body.box_mm.tolist()
    if middle >= y1:
        return ()
    if middle > y0:
        behind = block(x0 - ROOM_MM, y0 - ROOM_MM, z0 - ROOM_MM, x1 + ROOM_MM, middle, z1 + ROOM_MM)
        body = made.body.without(kernel.evaluate(behind))
    else:
        body = made.body
    return holder_outline(replace(made, body=body), place).polygons


def _lift(item: Item, place: Place, tools: list[Polygon]) -> tuple[float, float, float, float]:
    """Return the room above the highest tool that its way out needs."""
    top = max(z for polygon in tools for _, z in polygon)
    return (
        place.x_mm - item.side_left_mm,
        place.x_mm + item.width_mm + item.side_right_mm,
        min(top, place.z_mm + item.up_mm),
        place.z_mm + item.up_mm,
    )
