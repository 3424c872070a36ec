"""Walls for the browser: what hangs where, to scale, why, and what is wrong.

All in mm from the lower left corner of the panel, x to the right, z up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict

from pydantic import Field

from cleatwright.base import said
from cleatwright.base.lengths import Wording
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.pack.drawing import elevation_view
from cleatwright.papers.elevation.view import HolderView, Polygon
from cleatwright.parts.fastening import Fixing
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.project.computing import to_change
from cleatwright.project.revision import Revision
from cleatwright.project.walls import TO_HANG, WALLS, Given, assessed, walls_so_far
from cleatwright.siting.as_far import PanelSoFar
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.giving_places import entry_of
from cleatwright.siting.hung.moves import ChangePlan
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.loading import LOADED, RailLoads
from cleatwright.siting.seats.told import seat_notes
from cleatwright.wall.explaining.explain import Explained
from cleatwright.wall.model import Item, Place, Scores
from cleatwright.wall.moving.moves import Move
from cleatwright.web.rows.row import Row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import HowFar
from cleatwright.workshop.document.surfaces import Obstacle

Ring = tuple[tuple[float, float], ...]
Box = tuple[float, float, float, float]
DIGITS = 1
# points are shown whole
SEEN_POINTS = 0.5
SHARED = (
    "One choice of yours holds for several holders, this one among them: no place can be given to "
    "it alone. Choose for its tools alone to place it by hand."
)


class HungRow(Row):
    """What hangs as one piece: a holder, or a carrier with its holders."""

    key: str
    numbers: tuple[int, ...]
    name: str
    rail: str
    on_rail: bool
    x_mm: float
    z_mm: float
    width_mm: float
    box_mm: Box = Field(description="x0, x1, z0, z1 of the room that it takes with its ways out")
    mass_kg: float
    tools: tuple[str, ...]
    hangs_mm: tuple[float, float] | None = Field(description="where it hangs already, x and z")
    way: str = Field(description="by how far it must move from where it hangs, or empty")
    given: bool = Field(description="whether the document gives the place")
    movable: bool = Field(description="whether a place can be given to it alone")
    points: float
    costs: dict[str, float] = Field(description="its points by reason, as those of the panel")
    reasons: tuple[str, ...]
    blocked: tuple[Sentence, ...] = Field(
        description="what a tool, or a hand, meets on its way out"
    )
    remarks: tuple[Sentence, ...]


class ShapeRow(Row):
    """A holder as it is seen: closed lines."""

    number: int
    key: str
    holder: tuple[Ring, ...]
    tools: tuple[Ring, ...]
    front: tuple[Ring, ...]


class ShownRailRow(Row):
    """A rail, and what the worst of its screws or anchors bears of what it may."""

    name: str
    x0_mm: float
    x1_mm: float
    z_top_mm: float
    height_mm: float
    above_floor_mm: float
    length_mm: float
    carries_kg: float
    share: float | None
    holds: bool
    hangs: bool
    studs: int
    hang_z_mm: float = Field(description="the height at which holders hang on it")


class ObstacleRow(Row):
    """Something that stays free, and the room that is kept around it."""

    name: str
    kind: str
    box_mm: Box
    clear_mm: Box


class FreeSeatShownRow(Row):
    """A seat that is kept free for a tool to come."""

    name: str
    box_mm: Box


class LeftOverRow(Row):
    """Something that finds no place on a wall that cannot be finished."""

    numbers: tuple[int, ...]
    name: str
    why: Sentence
    in_the_way: tuple[Sentence, ...] = Field(description="where least is in its way, and what")
    helps: Sentence = Field(description="the changes that were tried and give it a place, or none")


class PersonBandRow(Row):
    """Where one of several people reaches; heights above the floor."""

    name: str
    child: bool
    easy_mm: tuple[float, float] | None = Field(description="null of a child that takes nothing")
    touches_mm: float | None = Field(description="of a child: how high its fingertips come")
    words: str = Field(description="the same in a sentence")


class ShownPanelRow(Row):
    """The wall or a further panel."""

    name: str
    title: str
    width_mm: float
    height_mm: float
    floor_gap_mm: float
    studs_mm: tuple[float, ...]
    joints_mm: tuple[float, ...] = Field(description="heights of the bed joints of masonry")
    fixed_by: Fixing = Field(description="what holds its rails")
    obstacles: tuple[ObstacleRow, ...]
    rails: tuple[ShownRailRow, ...]
    seats: tuple[FreeSeatShownRow, ...] = Field(description="kept free for tools to come")
    seat_notes: tuple[str, ...] = Field(description="how many of those asked for found room")
    hung: tuple[HungRow, ...]
    left_over: tuple[LeftOverRow, ...] = Field(description="what finds no place on it")
    finish: Sentence = Field(description="what finishes it where several are left over, or empty")
    shapes: tuple[ShapeRow, ...]
    easy_reach_mm: tuple[float, float] = Field(description="heights above the floor")
    reach_mm: tuple[float, float | None]
    people: tuple[PersonBandRow, ...] = Field(description="each of several people")
    points: dict[str, float]
    total: float
    warnings: tuple[Sentence, ...]
    failing: tuple[Sentence, ...]
    helps: tuple[Sentence, ...] = Field(
        description="where it is told what helps rails that do not hold"
    )
    cautions: tuple[Sentence, ...]


class ToChangeRow(Row):
    """What the plan changes for what hangs."""

    counts: tuple[Sentence, ...]
    notes: tuple[Sentence, ...]
    steps: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


class WallsRow(Row):
    """All panels of a revision, arranged."""

    revision: int
    plan: HowFar | None = Field(description="the plan that was chosen; nothing for the usual one")
    panels: tuple[ShownPanelRow, ...]
    change: ToChangeRow | None = Field(description="nothing while nothing hangs")


def walls_row(given: Given, run: Run, number: int) -> WallsRow:
    """Return all panels of a workshop as rows.

    Args:
        given: The workshop, and how it shall be arranged.
        run: The run that keeps what was computed before.
        number: The number of its revision.

    Raises:
        CleatwrightError: What stands in the way.
    """
    revision, request = given
    panels = run.need(WALLS, given)
    return WallsRow(
        revision=number,
        plan=request.plan,
        panels=tuple(panel_row(job, revision.workshop, run) for job in panels),
        change=_change(to_change(given, run), revision) if run.need(TO_HANG, given).hung else None,
    )


def row_so_far(given: Given, run: Run, number: int) -> WallsRow:
    """Return all panels of a workshop that cannot be finished, each as far as it goes.

    Args:
        given: As for ``walls_row``.
        run: As for ``walls_row``.
        number: As for ``walls_row``.

    Raises:
        CleatwrightError: Something else stands in the way than want of room.
    """
    revision, request = given
    found = walls_so_far(given, run)
    return WallsRow(
        revision=number,
        plan=request.plan,
        panels=tuple(
            panel_row(
                one.job,
                revision.workshop,
                run,
                left_over=_left_over(one),
                finish=one.job.words(one.finish),
            )
            for one in found
        ),
        change=None,
    )


def _left_over(found: PanelSoFar) -> tuple[LeftOverRow, ...]:
    words = found.job.words
    return tuple(
        LeftOverRow(
            numbers=tuple(sorted(one.number for one in unit.planned.holders)),
            name=unit.planned.name,
            why=words(left.reason),
            in_the_way=words.all(found.refused(unit)),
            helps=words(left.help_sentence),
        )
        for unit, left in zip(found.waiting, found.left, strict=True)
    )


def _change(plan: ChangePlan, revision: Revision) -> ToChangeRow:
    words = Wording(revision.workshop.units)
    return ToChangeRow(
        counts=words.all(plan.counts),
        notes=words.all(plan.rail_notes),
        steps=words.all(tuple(step.sentence for step in plan.steps)),
        cautions=words.all(plan.cautions),
    )


HELPS_ELSEWHERE = "What was tried for rails that do not hold, and helps, is told on the sheet Make."


def panel_row(
    job: PanelJob,
    workshop: Workshop,
    run: Run,
    *,
    left_over: tuple[LeftOverRow, ...] = (),
    finish: str = "",
) -> ShownPanelRow:
    """Return one panel as a row, with what is left over of what should hang on it."""
    found, loads = assessed(job, workshop, run), run.need(LOADED, job)
    view, words = elevation_view(job, run), job.words
    band = job.problem.band
    explained = {one.key: one for one in found.explained}
    return ShownPanelRow(
        name=job.panel.name,
        title=job.title,
        width_mm=job.panel.width_mm,
        height_mm=job.panel.height_mm,
        floor_gap_mm=job.panel.floor_gap_mm,
        studs_mm=view.studs_mm,
        joints_mm=view.joints_mm,
        fixed_by=fastening_of(job.setting.rail, job.panel).carries.one,
        obstacles=tuple(_obstacle(one) for one in job.panel.obstacles),
        rails=_rails(job, loads),
        seats=tuple(FreeSeatShownRow(name=one.name, box_mm=one.box_mm) for one in view.seats),
        seat_notes=words.all(tuple(seat_notes(job))),
        hung=tuple(
            _hung(job, unit, item, explained[unit.planned.key], found, workshop)
            for unit, item in zip(job.units, job.problem.items, strict=True)
        ),
        left_over=left_over,
        finish=finish,
        shapes=tuple(_shape(one, key) for one, key in _with_keys(job, view.holders)),
        easy_reach_mm=(band.low_mm, band.high_mm),
        reach_mm=(band.lowest_mm, band.highest_mm if band.highest_mm < 1e6 else None),
        people=_people(job),
        points=_by_reason(job.arrangement.scores),
        total=job.arrangement.scores.total,
        warnings=words.all(found.warnings),
        failing=words.all(found.failing),
        helps=(HELPS_ELSEWHERE,) if any(one.fails for one in loads) else (),
        cautions=words.all(found.cautions),
    )


def _people(job: PanelJob) -> tuple[PersonBandRow, ...]:
    people = job.reaches.people
    if not people.several:
        return ()
    rows: list[PersonBandRow] = []
    for one in people.everybody:
        band, told = job.reaches.bands.get(one.name), list[str]()
        if band is not None:
            told.append(
                f"easy from {said.mm(band.low_mm, '.0f')} to {said.mm(band.high_mm, '.0f')}"
            )
        if one.child:
            told.append(f"touches what is up to {said.mm(one.touches_mm, '.0f')}")
        rows.append(
            PersonBandRow(
                name=one.name,
                child=one.child,
                easy_mm=band and (band.low_mm, band.high_mm),
                touches_mm=one.touches_mm if one.child else None,
                words=job.words(f"{one.name}: {', '.join(told)}"),
            )
        )
    return tuple(rows)


def _with_keys(job: PanelJob, views: Sequence[HolderView]) -> Sequence[tuple[HolderView, str]]:
    keys = [unit.planned.key for unit in job.units for _ in unit.planned.holders]
    return list(zip(views, keys, strict=True))


def _obstacle(one: Obstacle) -> ObstacleRow:
    off = one.keep_out_mm
    x0, x1 = one.x_mm, one.x_mm + one.width_mm
    z0, z1 = one.z_mm, one.z_mm + one.height_mm
    return ObstacleRow(
        name=one.name,
        kind=str(one.kind),
        box_mm=(x0, x1, z0, z1),
        clear_mm=(x0 - off, x1 + off, z0 - off, z1 + off),
    )


def _rails(job: PanelJob, loads: Sequence[RailLoads]) -> tuple[ShownRailRow, ...]:
    by_name: Mapping[str, RailLoads] = {one.rail.name: one for one in loads}
    heights = {
        spot.rail.name: spot.place.z_mm for spot in job.spots.values() if spot.rail is not None
    }
    rows: list[ShownRailRow] = []
    for rail in job.arrangement.rails:
        load = by_name.get(rail.name)
        check = load.check if load else None
        rows.append(
            ShownRailRow(
                name=rail.name,
                x0_mm=rail.x0_mm,
                x1_mm=rail.x1_mm,
                z_top_mm=rail.z_top_mm,
                height_mm=rail.height_mm,
                above_floor_mm=job.panel.floor_gap_mm + rail.z_top_mm,
                length_mm=rail.length_mm,
                carries_kg=sum(one.weight_n for one in load.loads) / GRAVITY_M_S2 if load else 0.0,
                share=check.utilisation if check and check.utilisation < 1e6 else None,
                holds=check is None or check.holds,
                hangs=rail.stays,
                studs=len(rail.studs_mm),
                hang_z_mm=heights.get(rail.name, rail.z_top_mm),
            )
        )
    return tuple(rows)


def _hung(
    job: PanelJob,
    unit: Unit,
    item: Item,
    explained: Explained,
    found: Assessment,
    workshop: Workshop,
) -> HungRow:
    spot, words = job.spots[unit.planned.key], job.words
    place = spot.place
    own = {holder.key for holder in unit.planned.holders}
    rail = spot.rail.name if spot.rail else ""
    movable = entry_of(workshop, unit.planned) is not None
    return HungRow(
        key=unit.planned.key,
        numbers=tuple(sorted(one.number for one in unit.planned.holders)),
        name=unit.planned.name,
        rail=rail,
        on_rail=item.on_rail,
        x_mm=place.x_mm,
        z_mm=place.z_mm,
        width_mm=item.width_mm,
        box_mm=(
            place.x_mm - item.side_left_mm,
            place.x_mm + item.width_mm + item.side_right_mm,
            place.z_mm - item.down_mm,
            place.z_mm + item.up_mm,
        ),
        mass_kg=item.mass_kg,
        tools=tuple(tool.name for tool in unit.planned.tools),
        hangs_mm=item.hangs_at,
        way=words(_way(item, place)),
        given=item.fixed is not None,
        movable=movable,
        points=explained.costs.total,
        costs=_by_reason(explained.costs),
        reasons=words.all(explained.sentences),
        blocked=words.all(
            tuple(line for way in found.ways if way.holder_key in own for line in way.sentences)
        ),
        remarks=words.all(
            (
                *(one.sentence for one in found.remarks if one.about in {unit.planned.key, rail}),
                *(() if movable else (SHARED,)),
            )
        ),
    )


def _by_reason(scores: Scores) -> dict[str, float]:
    return {
        name.replace("_", " "): points
        for name, points in asdict(scores).items()
        if abs(points) >= SEEN_POINTS
    }


def _way(item: Item, place: Place) -> str:
    if item.hangs_at is None:
        return ""
    return Move(item.key, "", Place(item.key, *item.hangs_at), place).way


def _shape(view: HolderView, key: str) -> ShapeRow:
    return ShapeRow(
        number=view.number,
        key=key,
        holder=_rings(view.holder),
        tools=_rings(view.tools),
        front=_rings(view.front),
    )


def _rings(polygons: Sequence[Polygon]) -> tuple[Ring, ...]:
    return tuple(
        tuple((round(x, DIGITS), round(z, DIGITS)) for x, z in polygon) for polygon in polygons
    )
