"""The wall drawing of a job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.mounts.registry import MOUNTS
from cleatwright.pack.front_view import front_view
from cleatwright.pack.output_file import OutputFile, as_pdf, of_stage, sheets
from cleatwright.papers.elevation.drawing import ELEVATION, elevation_count
from cleatwright.papers.elevation.dxf import ELEVATION_DXF
from cleatwright.papers.elevation.view import (
    BenchView,
    ElevationView,
    FreeSeatView,
    HangView,
    HolderView,
    ObstacleView,
    PersonView,
    Polygon,
    ScrewedAtView,
    ScrewedView,
)
from cleatwright.papers.kit.drawn import Pages
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.pitch import pitch_notes
from cleatwright.siting.rails.ground import courses_of
from cleatwright.siting.rails.loading import LOADED, failing_rails
from cleatwright.siting.screws_behind import PlateScrews, plate_screws
from cleatwright.siting.walls import weak_rails
from cleatwright.standards import cautions
from cleatwright.standards.wall.masonry import before_anchoring, rails_up
from cleatwright.wall.model import Item, Place
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.document.surfaces import Panel


def elevation_files(job: PanelJob, run: Run) -> Iterator[OutputFile]:
    """Yield the elevation: a SVG file for each sheet, all sheets as PDF, and as DXF.

    Raises:
        UnknownNameError: There is no such sheet as the document asks for.
    """
    view, sheet = elevation_view(job, run), job.setting.drawings.sheet
    path, title = f"{job.folder}/elevation", f"Elevation of {surface(job.panel.name)}"

    def pages(run: Run) -> Pages:
        return run.need(ELEVATION, (view, sheet))

    yield from sheets(path, title, elevation_count(view, sheet=sheet), pages)
    yield as_pdf(f"{path}.pdf", title, pages, heading=view.title)
    plain = view.without_words()
    yield of_stage(f"{path}.dxf", f"{title} for drawing programs", ELEVATION_DXF, plain)


def elevation_view(job: PanelJob, run: Run) -> ElevationView:
    """Return what the elevation shows."""
    wall, fails = job.panel, failing_rails(run.need(LOADED, job))
    weak, courses = weak_rails(job.arrangement.rails, wall), courses_of(wall)
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
        holders=_holders(job, run),
        unit=job.setting.units,
        cautions=(
            *job.words.all(
                (
                    *(f"{name} DOES NOT HOLD: {text}" for name, text in fails.items()),
                    *(one.sentence for one in weak),
                )
            ),
            *_hanging(job),
        ),
        reach=job.problem.band,
        people=_people(job),
        bench=_bench(wall),
        made_of=wall.made_of,
        joints_mm=() if courses is None else courses.joints_mm(wall.height_mm),
        seats=tuple(
            FreeSeatView(one.item.key, one.box_mm, one.place.z_mm) for one in job.arrangement.seats
        ),
    )


def _people(job: PanelJob) -> tuple[PersonView, ...]:
    """Return each of several people with the reach on a panel."""
    reaches = job.reaches
    if not reaches.people.several:
        return ()
    return tuple(
        PersonView(one.name, reaches.bands.get(one.name), one.touches_mm if one.child else None)
        for one in reaches.people.everybody
    )


def _hanging(job: PanelJob) -> tuple[str, ...]:
    """Return the cautions of whoever hangs what is on a panel, by the mounts that it has."""
    mounts = [one.outer.part.hanging.mount for one in job.units]
    ways = dict.fromkeys(_put_in(one) for one in job.units)
    rails, made_of = bool(job.arrangement.rails), job.panel.made_of
    anchored = before_anchoring(made_of) if rails else ()
    usual = cautions.hanging(
        rails=rails,
        screwed=any(MOUNTS[name].screwed for name in mounts),
        put_in=(
            *(way for way in ways if way),
            *((cautions.SCREW_IN,) if any(_into_rail(one) for one in job.units) else ()),
            *job.words.all(pitch_notes(job.units, panel=job.panel.name)),
        ),
        rail_up=rails_up(
            made_of,
            cautions.RAIL_UP,
            lines=min((len(rail.rows) for rail in job.arrangement.rails), default=2),
        ),
    )
    return (*anchored, *usual)


def _put_in(unit: Unit) -> str:
    """Return how a unit is put in place and taken off."""
    hanging = unit.outer.part.hanging
    hung = MOUNTS[hanging.mount]
    if hanging.in_grooves is not None and hung.in_grooves is not None:
        return hung.in_grooves.put_in
    return hung.put_in


def _into_rail(unit: Unit) -> bool:
    return unit.outer.part.hanging.rail_screws is not None


def _bench(panel: Panel) -> BenchView | None:
    if panel.bench_depth_mm == 0.0 or panel.bench_height_mm is None:
        return None
    return BenchView(panel.bench_depth_mm, panel.bench_height_mm)


def _holders(job: PanelJob, run: Run) -> tuple[HolderView, ...]:
    views: list[HolderView] = []
    screws = {one.unit.planned.key: one for one in plate_screws(job)}
    for unit, item in zip(job.units, job.problem.items, strict=True):
        at = job.spots[unit.planned.key].place
        for planned, made in zip(unit.planned.holders, unit.holders, strict=True):
            seen = front_view(made, job.spots[planned.key].place, run)
            tools = tuple(
                polygon
                for tool, outline in zip(planned.tools, seen.tools, strict=True)
                for polygon in outline
                if not tool.gone
            )
            shapes, hangs = seen.part, [_hang(job, unit, planned.key, inner=bool(unit.carrier))]
            if unit.carrier is not None and planned is unit.planned.holders[0]:
                # the carrier is drawn once, with the first of its holders
                shapes += front_view(unit.carrier, at, run).part
                what = f"carrier {unit.carrier.mark}"
                hangs.append(_hang(job, unit, unit.planned.key, what=what))
            views.append(
                HolderView(
                    number=planned.number,
                    name=planned.name,
                    holder=shapes,
                    tools=tools,
                    lift=_lift(item, at, tools),
                    note=made.mark,
                    front=seen.front,
                    hangs=tuple(hangs),
                    screwed=_screwed(screws.get(unit.planned.key), unit)
                    if planned is unit.planned.holders[0]
                    else None,
                )
            )
    return tuple(views)


def _hang(job: PanelJob, unit: Unit, key: str, *, inner: bool = False, what: str = "") -> HangView:
    """Return where a part hangs; a holder on a carrier hangs by its top."""
    place = job.spots[key].place
    edge = "rail edge" if unit.outer.part.hanging.on_rail else "plate top"
    return HangView(place.x_mm, place.z_mm, "top" if inner else edge, what)


def _screwed(screws: PlateScrews | None, unit: Unit) -> ScrewedView | None:
    """Return the screws of a unit into the wall itself, if it has any."""
    if screws is None:
        return None
    return ScrewedView(
        f"carrier {unit.carrier.mark}" if unit.carrier is not None else "",
        tuple(ScrewedAtView(one.x_mm, one.rows_mm, one.behind) for one in screws.columns),
    )


def _lift(item: Item, place: Place, tools: Sequence[Polygon]) -> tuple[float, float, float, float]:
    """Return the room above the highest tool that its way out needs."""
    top = max(z for polygon in tools for _, z in polygon)
    return (
        place.x_mm - item.side_left_mm,
        place.x_mm + item.width_mm + item.side_right_mm,
        min(top, place.z_mm + item.up_mm),
        place.z_mm + item.up_mm,
    )
