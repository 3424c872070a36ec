"""The wall drawing of a job."""

from __future__ import annotations

from cleatwright.reports import cautions
from cleatwright.reports.elevation import elevation_svg
from cleatwright.reports.elevation_dxf import elevation_dxf
from cleatwright.reports.elevation_view import (
    ElevationView,
    HolderView,
    ObstacleView,
    Polygon,
    RailView,
)
from cleatwright.reports.svg_pdf import svg_pdf
from cleatwright.services.job import Job
from cleatwright.services.walls import holder_outline, tool_outline
from cleatwright.wall.model import Item, Place


def elevation_file(job: Job) -> dict[str, bytes]:
    """Return the elevation by name: as SVG, as PDF of the same size, and as DXF."""
    view = elevation_view(job)
    svg = elevation_svg(view)
    return {
        "wall/elevation.svg": svg,
        "wall/elevation.pdf": svg_pdf([svg], title=view.title),
        "wall/elevation.dxf": elevation_dxf(view),
    }


def elevation_view(job: Job) -> ElevationView:
    """Return what the elevation shows."""
    wall, rail = job.workshop.wall, job.workshop.rail
    screws = {crossing.rail: crossing.studs_mm for crossing in job.crossings}
    return ElevationView(
        title=job.workshop.name,
        width_mm=wall.width_mm,
        height_mm=wall.height_mm,
        floor_gap_mm=wall.floor_gap_mm,
        studs_mm=tuple(stud.x_mm for stud in wall.studs),
        obstacles=tuple(
            ObstacleView(o.name, (o.x_mm, o.x_mm + o.width_mm, o.z_mm, o.z_mm + o.height_mm))
            for o in wall.obstacles
        ),
        rails=tuple(
            RailView(
                name=run.name,
                z_top_mm=run.z_top_mm,
                x0_mm=run.x0_mm,
                x1_mm=run.x1_mm,
                height_mm=rail.height_mm,
                screws_mm=screws[run.name],
            )
            for run in job.arrangement.rails
        ),
        holders=_holders(job),
        unit=job.workshop.units,
        cautions=cautions.hanging(),
    )


def _holders(job: Job) -> tuple[HolderView, ...]:
    views: list[HolderView] = []
    for unit, item in zip(job.units, job.items, strict=True):
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
            place = job.spots[planned.key].place
            tools = [
                polygon
                for seat in range(len(planned.tools))
                for polygon in tool_outline(made, seat, place, job.kernel).polygons
            ]
            shapes = list(holder_outline(made, place).polygons)
            if unit.carrier is not None and planned is unit.planned.holders[0]:
                # the carrier is drawn once, with the first of its holders
                at = job.spots[unit.planned.key].place
                shapes += holder_outline(unit.carrier, at).polygons
            views.append(
                HolderView(
                    number=len(views) + 1,
                    name=planned.name,
                    holder=tuple(shapes),
                    tools=tuple(tools),
                    lift=_lift(item, job.spots[unit.planned.key].place, tools),
                    note=made.mark,
                )
            )
    return tuple(views)


def _lift(item: Item, place: Place, tools: list[Polygon]) -> tuple[float, float, float, float]:
    """Return the room above the highest tool that its way out needs."""
    top = max(z for polygon in tools for _, z in polygon)
    return (
        place.x_mm - item.side_left_mm,
        place.x_mm + item.width_mm + item.side_right_mm,
        min(top, place.z_mm + item.up_mm),
        place.z_mm + item.up_mm,
    )
