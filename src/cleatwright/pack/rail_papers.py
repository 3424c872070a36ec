"""Drawings and checks of the rails of a job."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from cleatwright.base import said
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.result import CheckResult
from cleatwright.design.carrying import Unit
from cleatwright.kernels.mesh import MeshBody, MeshKernel
from cleatwright.kernels.mesh.plane_section import (
    Loops,
    middle_section,
    section_across_x,
    stepped_section,
)
from cleatwright.mounts.fittings import hanger
from cleatwright.pack.output_file import OutputFile, as_pdf, sheets
from cleatwright.pack.report_rows import tool_names, with_tool_names
from cleatwright.papers.kit.drawn import Pages
from cleatwright.papers.load_map.drawing import LOAD_MAP, load_map_count
from cleatwright.papers.load_map.view import ArrowView, LoadedStud, LoadMapView, StripView
from cleatwright.papers.rail_section.drawing import SECTION
from cleatwright.papers.rail_section.view import (
    HoleView,
    HungView,
    LoadView,
    Loop,
    RailSectionView,
    ScrewView,
    WallView,
)
from cleatwright.parts.holder import Seat
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.shapes.rigid import shift
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.demand import must_bear
from cleatwright.siting.rails.fastening import RailFastening, as_allowable, fastening_of
from cleatwright.siting.rails.loading import LOADED, RailLoads, failing_rails
from cleatwright.siting.rails.own_weight import rail_kg_m3
from cleatwright.siting.rails.screws import lining_given
from cleatwright.standards import cautions
from cleatwright.standards.fasteners.wood_screws import wood_screw_head_mm
from cleatwright.standards.materials.boards import board_named
from cleatwright.standards.materials.en_338 import WEAKEST, density_kg_m3
from cleatwright.standards.wall.masonry import before_anchoring, rails_up
from cleatwright.statics.rail import screw_loads, stud_loads
from cleatwright.statics.wall_screw import STUD_TIMBER, stud_gravity
from cleatwright.wall.moving.moves import surface

# a plane through the middle of a seat often runs along a face: a hair beside it cuts cleanly
ASIDE_MM = 0.037
# how high the dovetail of a hanger is
HANGER_HIGH_MM = hanger.WIDE_MM + 2.0


def section_files(job: PanelJob, run: Run) -> Iterator[OutputFile]:
    """Yield the sections of all rails on which something hangs, as SVG and as pages of a PDF.

    Raises:
        MeasureError: No screw on sale is long enough for the rails.
    """
    loaded = [one for one in run.need(LOADED, job) if one.units]

    def section(run: Run, one: RailLoads) -> bytes:
        return run.need(SECTION, rail_section_view(job, one, run))

    for one in loaded:
        name, draw = one.rail.name, partial(section, one=one)
        yield OutputFile(f"{job.folder}/section-{name}.svg", f"Rail {name} from the side", draw)
    if loaded:
        yield as_pdf(
            f"{job.folder}/sections.pdf",
            f"Rails of {surface(job.panel.name)} from the side",
            lambda run: tuple(section(run, one) for one in loaded),
            heading=f"{job.title}: rails from the side",
        )


def load_map_files(job: PanelJob, run: Run) -> Iterator[OutputFile]:
    """Yield the load map of all rails, as SVG and as pages of a PDF; nothing without rails.

    Raises:
        MeasureError: No screw on sale is long enough for the rails.
    """
    loaded = run.need(LOADED, job)
    if not loaded:
        return
    view, path = load_map_view(job, loaded), f"{job.folder}/load-map"
    title = f"Loads on the rails of {surface(job.panel.name)}"

    def pages(run: Run) -> Pages:
        return run.need(LOAD_MAP, view)

    yield from sheets(path, title, load_map_count(view), pages)
    yield as_pdf(f"{path}.pdf", title, pages, heading=f"{job.title}: loads on the rails")


def rail_section_view(job: PanelJob, loaded: RailLoads, run: Run) -> RailSectionView:
    """Return what the section of a rail shows: the unit with the largest moment on it."""
    rail, wall = loaded.rail, job.panel
    index = max(
        range(len(loaded.units)),
        key=lambda n: (loaded.loads[n].weight_n * loaded.loads[n].distance_mm, -n),
    )
    unit, load = loaded.units[index], loaded.loads[index]
    fastening = fastening_of(job.setting.rail, wall)
    heights = [(share - 1.0) * rail.height_mm for share in sorted(rail.rows, reverse=True)]
    screws = tuple(screw for z in heights for screw in _screws(fastening, z))
    anchor = fastening.anchor
    screws_in = unit.outer.part.hanging.rail_screws
    into = cautions.HOOK_IN if screws_in is None else cautions.SCREW_IN
    return RailSectionView(
        title=job.title,
        cautions=(
            cautions.PIPES,
            *before_anchoring(wall.made_of),
            *(() if wall.takes_anchors else (cautions.FIXING,)),
            rails_up(wall.made_of, cautions.RAIL_UP, lines=len(rail.rows)),
            into,
            cautions.DEFER,
        ),
        rail=rail.name,
        profile=rail.profile,
        wall=WallView(
            lining_mm=wall.between_mm if wall.places_known else 0.0,
            lining_given=lining_given(wall),
            has_stud=bool(rail.studs_mm),
            top_mm=rail.z_top_mm,
            floor_gap_mm=wall.floor_gap_mm,
            any_stud=bool(wall.studs),
            made_of=wall.made_of,
        ),
        screws=screws if rail.studs_mm else (),
        hung=run.need(SIDE_VIEW, SideView(unit, rail.profile.slant_mm)),
        load=LoadView(
            mass_kg=load.weight_n / GRAVITY_M_S2,
            weight_n=load.weight_n,
            distance_mm=load.distance_mm,
            depth_mm=load.depth_mm,
            foot_on_wall=load.depth_mm > rail.height_mm,
            screws_mm=None if screws_in is None else screws_in.below_mm,
        ),
        checks=(
            *with_tool_names(unit.outer.standing, tool_names(unit)),
            *loaded.checks,
        ),
        unit=job.setting.units,
        words=job.words,
        stays=rail.stays,
        holes=tuple(
            HoleView(z, anchor and anchor.hole_mm, anchor and anchor.hole_depth_mm)
            for z in heights
            if fastening.carries.one == "anchor" and rail.studs_mm
        ),
        held=_held(job, loaded, fastening),
    )


def _screws(fastening: RailFastening, z_mm: float) -> tuple[ScrewView, ...]:
    """Return a screw as it is drawn; none where nobody has said which it is."""
    screw, length = fastening.screw_mm, fastening.length_mm
    if screw is None or length is None:
        return ()
    if fastening.anchor is None:
        head, _ = wood_screw_head_mm(screw)
    else:
        head = fastening.anchor.head_mm or screw
    return (ScrewView(z_mm, screw, length, head),)


def _held(job: PanelJob, loaded: RailLoads, fastening: RailFastening) -> str:
    """Return what holds a rail, in sentences; "" for wood screws in studs."""
    demand, by = loaded.demand, fastening.carries
    if job.panel.made_of == "studs":
        return ""
    if demand is None:
        return f"This rail carries nothing: {by.nowhere}."
    count, bears = len(loaded.fixing.studs_mm), must_bear(demand)
    if by.one == "screw":
        screw, length = fastening.screw_mm, fastening.length_mm
        if screw is None or length is None:
            return f"{bears} Which screw bears that is not known: {by.unknown}."
        each = "Two wood screws" if len(loaded.rail.rows) > 1 else "One wood screw"
        return f"{each} {said.metric(screw, length)} at each of {count} places. {bears}"
    anchor, strength = fastening.anchor, by.strength
    name = f' "{anchor.name}"' if anchor and anchor.name else ""
    if strength is None:
        return f"{count} anchors{name} in one line. {bears} Not known yet: {by.unknown}."
    return (
        f"{count} anchors{name} in one line. {bears} One may carry {strength.withdrawal_n:.0f} N "
        f"out of it and {strength.lateral_n:.0f} N along it, the two shares adding up to 1 at the "
        f"most. {as_allowable(job.panel)}"
    ).strip()


def load_map_view(job: PanelJob, loaded: Sequence[RailLoads]) -> LoadMapView:
    """Return what the load map shows."""
    fastening, fails = fastening_of(job.setting.rail, job.panel), failing_rails(loaded)
    return LoadMapView(
        title=job.title,
        floor_gap_mm=job.panel.floor_gap_mm,
        strips=tuple(_strip(one, job.words(fails.get(one.rail.name, ""))) for one in loaded),
        strength=fastening.carries.strength,
        assumed=job.words(f"{_own_words(job)} {_assumed(job, fastening)}".strip()),
        unit=job.setting.units,
        one=fastening.carries.one,
        place=fastening.carries.place,
        rule=job.panel.rule,
        cautions=(
            *before_anchoring(job.panel.made_of),
            *(() if job.panel.takes_anchors else (cautions.FIXING,)),
            cautions.OVERHEAD,
            cautions.DEFER,
        ),
    )


def _assumed(job: PanelJob, fastening: RailFastening) -> str:
    """Return of what it is known, or taken, that rails are held, in sentences."""
    by, screw, length = fastening.carries, fastening.screw_mm, fastening.length_mm
    if by.unknown:
        return f"What one {by.one} may carry is not known: {by.unknown}."
    if by.one == "anchor":
        name = fastening.anchor.name if fastening.anchor else None
        return (
            f"Anchors{f' {name}' if name else ''} in {job.panel.made_of}, with the loads of their "
            f"own papers as the document has them. {as_allowable(job.panel)}"
        ).strip()
    if screw is None or length is None:
        return ""
    studs = "studs" if job.panel.made_of == "studs" else "wall"
    if job.panel.rule != "NDS 2018":
        timber = job.panel.timber or WEAKEST
        return (
            f"Wood screws {said.metric(screw, length)}; rails and {studs} are taken as {timber} "
            f"({density_kg_m3(timber):g} kg/m3, EN 338:2016). {_lining_words(job)} Weaker wood or "
            "a thicker lining carries less."
        )
    return (
        f"Wood screws {said.metric(screw, length)}; rails and {studs} are taken as "
        f"{STUD_TIMBER} (specific gravity {stud_gravity():g}). {_lining_words(job)} Weaker "
        "wood or a thicker lining carries less."
    )


def _own_words(job: PanelJob) -> str:
    """Return how heavy the wood of the rails counts, in a sentence."""
    rail = job.setting.rail
    told = "as the document says" if rail.density_kg_m3 else f"as {board_named(rail.timber)}"
    return f"The rails themselves count with {rail_kg_m3(rail):g} kg/m3 ({told})."


def _lining_words(job: PanelJob) -> str:
    """Return what is known of what lies between rails and studs."""
    thick = job.panel.between_mm
    if job.panel.made_of != "studs" and not lining_given(job.panel):
        return "No lining is given, so that rails lie on the wall itself."
    if not thick:
        return f"The lining is given as {said.mm(0)}: rails lie on bare studs."
    if lining_given(job.panel):
        return f"The lining between them is given as {said.mm(thick)}."
    return f"The lining between them is taken as {said.mm(thick)} of plasterboard: measure yours."


def _strip(loaded: RailLoads, fails: str) -> StripView:
    screws = screw_loads(loaded.fixing, loaded.borne)
    numbers = [*(unit.planned.numbers for unit in loaded.units), *("" for _ in loaded.reserved)]
    arrows = [
        ArrowView(number, load.name, load.x_mm, load.weight_n / GRAVITY_M_S2, load.weight_n)
        for number, load in zip(numbers, loaded.all_loads, strict=True)
    ]
    return StripView(
        rail=loaded.rail,
        arrows=tuple(sorted(arrows, key=lambda one: one.x_mm)),
        studs=tuple(
            LoadedStud(
                stud.x_mm,
                stud.weight_n,
                tuple(screw for screw in screws if screw.stud_mm == stud.x_mm),
            )
            for stud in stud_loads(loaded.fixing, loaded.borne)
        ),
        fails=fails,
        own_n=math.fsum(one.weight_n for one in loaded.own),
        most=_most(loaded.check),
    )


def _most(check: CheckResult | None) -> tuple[float, str]:
    if check is None or check.is_open or not math.isfinite(check.utilisation):
        return 0.0, ""
    return check.utilisation, check.name


@dataclass(frozen=True)
class SideView:
    """A unit that is looked at from the side, and by how much it is lifted off its rail."""

    unit: Unit
    lift_mm: float

    @property
    def content_key(self) -> str:
        """Return the key of what is seen: of its tools their names are not."""
        unit = self.unit
        empty = tuple([one.empty_for for one in unit.planned.holders])
        seen = (unit.planned.name, empty, unit.outer, unit.holders, unit.offsets_mm)
        return content_key((*seen, self.lift_mm))


def _side_view(_: Run, looked_at: SideView) -> HungView:
    """Return a unit cut through the seat with the largest moment, from the top of its rail."""
    unit = looked_at.unit
    part = unit.outer.part
    seat = max(_seats_held(unit), key=lambda one: one.tool.mass_kg * one.com_mm[1])
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
    fittings = [body.placed(shift(0.0, 0.0, -down)) for body in unit.fitting_bodies()]
    screws = part.hanging.rail_screws
    screw_x = screws.columns_mm[0] if screws else None
    cuts = [
        _stepped(placed[0], fittings, x + ASIDE_MM, screw_x_mm=screw_x),
        *(section_across_x(body, x + ASIDE_MM) for body in placed[1:]),
        *map(middle_section, fittings),
        *((_screw_loops(screws),) if screws else ()),
    ]
    cut = tuple(loops for loops in cuts if loops)
    return HungView(
        name=f"{unit.planned.name} ({unit.outer.mark})",
        cut=cut,
        beyond=tuple(body.silhouette("side") for body in placed),
        tools=tool_side(seat, down_mm=down),
        way_from=(y, z - down),
        way_out=seat.way_out,
        lift_mm=looked_at.lift_mm,
        first_of_wood=part.joinery is not None,
    )


def _seats_held(unit: Unit) -> Sequence[Seat]:
    """Return the seats in which tools are; all of a carrier, on which some of them are."""
    seats = unit.outer.part.seats
    if unit.carrier is not None:
        return seats
    (holder,) = unit.planned.holders
    return [seat for tool, seat in zip(holder.tools, seats, strict=True) if not tool.gone]


def _screw_loops(screws: RailScrews) -> Loops:
    """Return the outline of a screw through a holder into the rail, below the bevel's edge."""
    half, head = screws.diameter_mm / 2, wood_screw_head_mm(screws.diameter_mm)[0] / 2
    z, front = -screws.below_mm, screws.pad_mm
    tip, neck = front - screws.length_mm, front - (head - half)
    upper = [(front, head), (neck, half), (tip + 2 * half, half)]
    loop = [(y, z + dz) for y, dz in upper]
    return ((*loop, (tip, z), *((y, z - dz) for y, dz in reversed(upper))),)


def _stepped(
    outer: MeshBody, fittings: Sequence[MeshBody], x_mm: float, *, screw_x_mm: float | None
) -> Loops:
    """Return the cut of what hangs: at its hangers, bolts or screws, else at ``x_mm``."""
    if not fittings:
        return section_across_x(outer, x_mm)
    boxes = [body.box_mm for body in fittings]
    hook, *bolts = sorted(boxes, key=lambda box: -float(box[1][2]))
    far = float(outer.box_mm[1][1]) + ASIDE_MM
    at_hook = float(hook[0][0] + hook[1][0]) / 2
    at_bolt = float(bolts[-1][0][0] + bolts[-1][1][0]) / 2 if bolts else at_hook
    if screw_x_mm is not None:
        at_bolt = screw_x_mm
    behind, high = float(hook[1][1]) + ASIDE_MM, float(outer.box_mm[1][2]) + ASIDE_MM
    low = float(outer.box_mm[0][2]) - ASIDE_MM
    # below the rail's bevel the plate is cut where the bolt comes through it
    step = float(hook[1][2]) - HANGER_HIGH_MM
    return stepped_section(
        outer,
        (
            (at_hook, (0.0, step, behind, high)),
            (at_bolt, (0.0, low, behind, step)),
            (x_mm, (behind, low, far, high)),
        ),
    )


SIDE_VIEW = Stage("unit from the side", _side_view, content_key)
"""From a built unit to its outlines from the side, the unit cut."""


def tool_side(seat: Seat, *, down_mm: float) -> tuple[Loop, ...]:
    """Return the outline of a seated tool from the side, ``down_mm`` lower than in its part."""
    pose, kernel = seat.pose.then(shift(0.0, 0.0, -down_mm)), MeshKernel()
    pieces = [kernel.evaluate(piece).placed(pose) for piece in seat.tool.envelope]
    return MeshBody.joined(pieces).silhouette("side")
