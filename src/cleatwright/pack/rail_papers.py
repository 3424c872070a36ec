"""Drawings and checks of the rails of a job."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.design.carrying import Unit
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.kernels.mesh.plane_section import section_across_x
from cleatwright.pack.report_rows import tool_names, with_tool_names
from cleatwright.papers.elevation.layout import AUTO
from cleatwright.papers.kit.paper import series
from cleatwright.papers.kit.svg_pdf import svg_pdf
from cleatwright.papers.load_map.drawing import load_map_pages
from cleatwright.papers.load_map.view import ArrowView, LoadedStud, LoadMapView, StripView
from cleatwright.papers.rail_section.drawing import rail_section_svg
from cleatwright.papers.rail_section.view import (
    HungView,
    LoadView,
    Loop,
    RailSectionView,
    ScrewView,
    WallView,
)
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.rigid import shift
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import RailLoads, loaded_rails
from cleatwright.siting.rails.screws import RAIL_SCREW_MM, lining_given, rail_screw_mm
from cleatwright.standards.fasteners.wood_screws import wood_screw_head_mm
from cleatwright.statics.rail import screw_loads, stud_loads
from cleatwright.statics.wall_screw import STUD_TIMBER, stud_gravity
from cleatwright.wall.screws import HEIGHT_SHARES

# a plane through the middle of a seat often runs along a face: a hair beside it cuts cleanly
ASIDE_MM = 0.037


def section_files(job: PanelJob, *, sheet: str = AUTO) -> dict[str, bytes]:
    """Return the sections of all rails on which something hangs, as SVG and as pages of a PDF.

    Args:
        job: The job.
        sheet: Name of the sheet; "auto" is A4, or Letter for a workshop in inches.

    Raises:
        UnknownNameError: There is no such sheet.
        MeasureError: No screw on sale is long enough for the rails.
    """
    loaded = loaded_rails(job)
    views = [rail_section_view(job, one) for one in loaded if one.units]
    if sheet == AUTO:
        sheet = series(job.setting.units)[0]
    sections = [rail_section_svg(view, sheet_name=sheet) for view in views]
    files = {
        f"wall/section-{view.rail}.svg": svg for view, svg in zip(views, sections, strict=True)
    }
    if sections:
        title = f"{job.title}: rails from the side"
        files["wall/sections.pdf"] = svg_pdf(sections, title=title)
    return files


def load_map_files(job: PanelJob) -> dict[str, bytes]:
    """Return the load map of all rails, as SVG and as pages of a PDF; nothing without rails.

    Raises:
        MeasureError: No screw on sale is long enough for the rails.
    """
    loaded = loaded_rails(job)
    if not loaded:
        return {}
    maps = load_map_pages(load_map_view(job, loaded))
    names = ("wall/load-map.svg", *(f"wall/load-map-{n}.svg" for n in range(2, len(maps) + 1)))
    files = dict(zip(names, maps, strict=True))
    files["wall/load-map.pdf"] = svg_pdf(maps, title=f"{job.title}: loads on the rails")
    return files


def rail_section_view(job: PanelJob, loaded: RailLoads) -> RailSectionView:
    """Return what the section of a rail shows: the unit with the largest moment on it."""
    rail, wall = loaded.rail, job.panel
    index = max(
        range(len(loaded.units)),
        key=lambda n: (loaded.loads[n].weight_n * loaded.loads[n].distance_mm, -n),
    )
    unit, load = loaded.units[index], loaded.loads[index]
    length = rail_screw_mm(rail_thickness_mm=rail.profile.thickness_mm, lining_mm=wall.lining_mm)
    head, _ = wood_screw_head_mm(RAIL_SCREW_MM)
    screws = tuple(
        ScrewView((share - 1.0) * rail.height_mm, RAIL_SCREW_MM, length, head)
        for share in sorted(HEIGHT_SHARES, reverse=True)
    )
    return RailSectionView(
        title=job.title,
        rail=rail.name,
        profile=rail.profile,
        wall=WallView(
            lining_mm=wall.lining_mm if wall.studs else 0.0,
            lining_given=lining_given(wall),
            has_stud=bool(rail.studs_mm),
            top_mm=rail.z_top_mm,
            floor_gap_mm=wall.floor_gap_mm,
            any_stud=bool(wall.studs),
        ),
        screws=screws if rail.studs_mm else (),
        hung=hung_view(unit, lift_mm=rail.profile.slant_mm),
        load=LoadView(
            mass_kg=load.weight_n / GRAVITY_M_S2,
            weight_n=load.weight_n,
            distance_mm=load.distance_mm,
            depth_mm=load.depth_mm,
            foot_on_wall=load.depth_mm > rail.height_mm,
        ),
        checks=(
            *with_tool_names(unit.outer.standing, tool_names(unit)),
            *([loaded.check] if loaded.check else []),
        ),
        unit=job.setting.units,
        words=job.words,
        stays=rail.stays,
    )


def load_map_view(job: PanelJob, loaded: Sequence[RailLoads]) -> LoadMapView:
    """Return what the load map shows."""
    length = rail_screw_mm(
        rail_thickness_mm=job.setting.rail.thickness_mm, lining_mm=job.panel.lining_mm
    )
    return LoadMapView(
        title=job.title,
        floor_gap_mm=job.panel.floor_gap_mm,
        strips=tuple(_strip(one) for one in loaded),
        strength=loaded[0].strength,
        assumed=job.words(
            f"Wood screws {RAIL_SCREW_MM:g} x {length:g} mm; rails and studs are taken as "
            f"{STUD_TIMBER} (specific gravity {stud_gravity():g}). {_lining_words(job)} Weaker "
            "wood or a thicker lining carries less."
        ),
        unit=job.setting.units,
    )


def _lining_words(job: PanelJob) -> str:
    """Return what is known of what lies between rails and studs."""
    thick = job.panel.lining_mm
    if not thick:
        return "The lining is given as 0 mm: rails lie on bare studs."
    if lining_given(job.panel):
        return f"The lining between them is given as {thick:g} mm."
    return f"The lining between them is taken as {thick:g} mm of plasterboard: measure yours."


def _strip(loaded: RailLoads) -> StripView:
    screws = screw_loads(loaded.fixing, loaded.loads)
    return StripView(
        rail=loaded.rail,
        arrows=tuple(
            ArrowView(
                unit.planned.numbers,
                load.name,
                load.x_mm,
                load.weight_n / GRAVITY_M_S2,
                load.weight_n,
            )
            for unit, load in zip(loaded.units, loaded.loads, strict=True)
        ),
        studs=tuple(
            LoadedStud(
                stud.x_mm,
                stud.weight_n,
                tuple(screw for screw in screws if screw.stud_mm == stud.x_mm),
            )
            for stud in stud_loads(loaded.fixing, loaded.loads)
        ),
    )


def hung_view(unit: Unit, *, lift_mm: float) -> HungView:
    """Return a unit cut through the seat with the largest moment, from the top of its rail."""
    part = unit.outer.part
    seat = max(part.seats, key=lambda one: one.tool.mass_kg * one.com_mm[1])
    x, y, z = seat.com_mm
    down = part.hanging.contact_z_mm
    offsets = [(0.0, 0.0, 0.0)]
    bodies = [unit.outer.body]
    if unit.carrier is not None:
        bodies += [made.body for made in unit.holders]
        offsets += list(unit.offsets_mm)
    placed = [
        body.placed(shift(dx, dy, dz - down))
        for body, (dx, dy, dz) in zip(bodies, offsets, strict=True)
    ]
    cut = tuple(loops for body in placed if (loops := section_across_x(body, x + ASIDE_MM)))
    return HungView(
        name=f"{unit.planned.name} ({unit.outer.mark})",
        cut=cut,
        beyond=tuple(body.silhouette("side") for body in placed),
        tools=tool_side(seat, down_mm=down),
        way_from=(y, z - down),
        way_out=seat.way_out,
        lift_mm=lift_mm,
        first_of_wood=part.joinery is not None,
    )


def tool_side(seat: Seat, *, down_mm: float) -> tuple[Loop, ...]:
    """Return the outline of a seated tool from the side, ``down_mm`` lower than in its part."""
    pose, kernel = seat.pose.then(shift(0.0, 0.0, -down_mm)), MeshKernel()
    pieces = [kernel.evaluate(piece).placed(pose) for piece in seat.tool.envelope]
    return MeshBody.joined(pieces).silhouette("side")
