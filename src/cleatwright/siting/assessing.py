"""What is found about one arranged panel: ways out, screws, lifting, and what each place costs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from cleatwright.base import said
from cleatwright.base.keys import content_key
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.lifting import LEAST_KG, LiftTask, check_lifting
from cleatwright.checks.result import CheckResult
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.recipe import Recipe
from cleatwright.siting.beside import beyond_along
from cleatwright.siting.children import CLIMBS, can_hurt, takes_what_hurts
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import TIP, TIP_MM
from cleatwright.siting.rails.loading import rail_checks
from cleatwright.siting.remark import Remark
from cleatwright.siting.screws_behind import PlateScrews, plate_screws
from cleatwright.siting.walls import weak_rails
from cleatwright.siting.ways_out import MISSING, check_ways
from cleatwright.standards.table import Listed
from cleatwright.standards.wall.masonry import NOT_KNOWN, before_anchoring
from cleatwright.wall.conflicts import whole
from cleatwright.wall.explaining.explain import Explained, explain
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.off_heat import HOT_MM
from cleatwright.wall.rail import distance_mm
from cleatwright.wall.way_out import WayProof
from cleatwright.workshop.document.surfaces import MAIN

OVER_STUDS = "columns over studs"
LINING = Source("a lining such as plasterboard carries nothing", "", Evidence.PRACTICE)
VALUES = (Listed("Wall screws", "what a lining carries N", 0.0, LINING),)


@dataclass(frozen=True)
class RailHelp:
    """What was tried for rails that do not hold, in a sentence.

    Args:
        rails: The names of the rails that it is said of; none where it is said of all.
        sentence: What helps, or that nothing does.
    """

    rails: tuple[str, ...]
    sentence: str

    def is_for(self, rail: str) -> bool:
        """Return whether it is said of a rail that fails."""
        return not self.rails or rail in self.rails


@dataclass(frozen=True)
class Assessment:
    """What was found about one panel.

    Args:
        ways: The proof of the way out of every tool.
        checks: Ways out, room for the hand, and the screws of each rail.
        lifting: The heavy tools against what may be lifted where they hang.
        explained: What each unit costs, and why.
        remarks: What the owner should change.
        cautions: What can hurt someone, in sentences.
        helps: What was tried for rails that do not hold; none until it is tried.
    """

    ways: tuple[WayProof, ...]
    checks: tuple[CheckResult, ...]
    lifting: tuple[CheckResult, ...]
    explained: tuple[Explained, ...]
    remarks: tuple[Remark, ...]
    cautions: tuple[str, ...]
    helps: tuple[RailHelp, ...] = ()

    @property
    def warnings(self) -> tuple[str, ...]:
        """Return what the owner should change, in sentences."""
        return (
            *(one.sentence for one in self.remarks if not one.beside_studs),
            *(line for one in self.ways for line in replace(one, hit=None).sentences),
        )

    @property
    def failing(self) -> tuple[str, ...]:
        """Return a sentence for each tool that does not come out, and each thing that is not held.

        That is a rail that is too weak, or a plate with a screw in nothing but the lining.
        """
        blocked = [
            line
            for proof in self.ways
            if proof.hit is not None
            for line in replace(proof, hand=None).sentences
        ]
        beside = (one.sentence for one in self.remarks if one.beside_studs)
        # ways out and what is beside studs are told one by one, and lack of room for a hand is a
        # warning
        others = (
            one for one in self.checks if not one.holds and one.unit not in {MISSING, OVER_STUDS}
        )
        return (*blocked, *beside, *(check.sentence for check in others))


def _assessed(_: Run, job: PanelJob) -> Assessment:
    explained = explain(job.problem, job.arrangement)
    lifting = tuple(_lifting(job))
    return Assessment(
        ways=job.ways,
        checks=(
            *check_ways(job.ways),
            *rail_checks(job),
            *_points_inside(job),
            *_over_studs(job),
        ),
        lifting=lifting,
        explained=explained,
        remarks=(
            *weak_rails(job.arrangement.rails, job.panel),
            *_no_rows(job),
            *_out_of_reach(job, explained),
            *_beyond_safe(job),
            *beyond_along(job),
            *_hot_beside_cool(job),
            *_beside_studs(job),
        ),
        cautions=tuple(_cautions(job, lifting)),
    )


ASSESSED = Stage("assessed panel", _assessed, content_key)
"""From a panel to what is found about it."""


def lift_tasks(job: PanelJob) -> tuple[LiftTask, ...]:
    """Return every tool of a panel with the place from which it is taken."""
    return tuple(task for _, task in _taken(job))


def _taken(job: PanelJob) -> Iterator[tuple[OwnedTool, LiftTask]]:
    for planned, made in zip(job.planned, job.built, strict=True):
        place, hanging = job.spots[planned.key].place, made.part.hanging
        for tool, seat in zip(planned.tools, made.part.seats, strict=True):
            if tool.gone:
                continue
            _, y, z = seat.com_mm
            height = job.panel.floor_gap_mm + place.z_mm + z - hanging.contact_z_mm
            yield (
                tool,
                LiftTask(
                    name=tool.name,
                    mass_kg=tool.body.mass_kg,
                    grip_height_mm=height,
                    grip_out_mm=max(0.0, hanging.stand_off_mm + y),
                ),
            )


def _lifting(job: PanelJob) -> Iterator[CheckResult]:
    """Yield the check of each heavy tool, by who takes it and may lift the least."""
    for tool, task in _taken(job):
        checks = [
            check
            for one in job.setting.people.takers(tool.taken_by)
            if not one.seated
            and (
                check := check_lifting(
                    task,
                    bench_depth_mm=job.panel.bench_depth_mm,
                    brought_to_mm=one.reach.elbow_mm,
                )
            )
        ]
        if checks:
            yield max(checks, key=lambda one: one.utilisation)


def _cautions(job: PanelJob, lifting: tuple[CheckResult, ...]) -> Iterator[str]:
    if job.panel.name != MAIN:
        yield (
            f"If {job.panel.name} is a door, a lid or a part of a vehicle: what hangs on it swings "
            "and can fall. Hold every tool with a strap, and take heavy and sharp ones off before "
            "it moves."
        )
    if job.arrangement.rails:
        yield from before_anchoring(job.panel.made_of)
        if any(check.is_open for check in rail_checks(job)):
            yield NOT_KNOWN
    if any(one.met == "unknown" for one in plate_screws(job)):
        yield (
            f"Screws on {surface(job.panel.name)}, for which no stud is given: each must be "
            "shorter than plate, lining and the wood behind together, so that no point comes "
            "through. Measure before you drill."
        )
    yield from _for_children(job)
    yield from _heavy(job)
    for item in job.problem.items:
        yield from item.bounds.lifted_at(job.spots[item.key].place.z_mm)
    for check in lifting:
        if not check.holds:
            yield (
                f"{check.name[0].upper()}{check.name[1:]}: {said.mass(check.demand, '.1f')}, and "
                f"no more than {said.mass(check.capacity, '.1f')} may be lifted there: "
                f"{check.note}."
            )


def _heavy(job: PanelJob) -> Iterator[str]:
    """Yield what is to be known of heavy tools that hang high, or are taken by who sits."""
    for tool, taken in _taken(job):
        takers = job.setting.people.takers(tool.taken_by)
        shoulder = min(one.reach.shoulder_mm for one in takers)
        sitting = any(one.seated for one in takers)
        if taken.mass_kg >= LEAST_KG and sitting:
            yield (
                f"{taken.name} ({said.mass(taken.mass_kg, '.1f')}) is taken by somebody who "
                "sits, and the lifting equation says nothing of that: keep it close to the "
                "body, or have it handed over."
            )
        if taken.mass_kg >= LEAST_KG and taken.grip_height_mm > shoulder:
            yield (
                f"{taken.name} ({said.mass(taken.mass_kg, '.1f')}) is taken from "
                f"{said.mm(taken.grip_height_mm, '.0f')} above the floor, higher than the shoulder "
                f"({said.mm(shoulder, '.0f')}): stand on firm ground, use both hands, and let "
                "nobody stand below."
            )


def _for_children(job: PanelJob) -> Iterator[str]:
    """Yield what is to be known where children come to a wall with what can hurt them."""
    people, tools = job.setting.people, [tool for one in job.planned for tool in one.present]
    yield from takes_what_hurts(people, tools)
    kept = [tool for tool in tools if can_hurt(tool) and people.kept_off(tool.taken_by)]
    locked = job.panel.locked.strip()
    if kept and locked:
        yield (
            f"What hangs on {surface(job.panel.name)} hangs within the reach of children and can "
            f"hurt them. It is kept from them otherwise: {locked.rstrip('.')}. See that it is, "
            "each time."
        )
    elif kept:
        yield CLIMBS


def _points_inside(job: PanelJob) -> Iterator[CheckResult]:
    """Yield whether the screws of each plate on solid wood stay inside it."""
    thick = job.panel.thickness_mm
    if thick is None:
        return
    for unit in job.units:
        screws = unit.outer.part.hanging.screws
        if screws is not None:
            plates = unit.outer.part.hanging.in_grooves
            plate = unit.outer.hung_as.settings.plate_mm if plates is None else plates.plate_mm
            yield CheckResult(
                f'points of the screws of "{unit.planned.name}" stay in the wood',
                screws.length_mm - plate - job.panel.between_mm,
                thick - TIP_MM,
                "mm",
                TIP,
                "hang it on a rail, or where the wood is thicker",
            )


def _over_studs(job: PanelJob) -> Iterator[CheckResult]:
    """Yield for each plate or carrier with screws into the wall itself whether they meet studs."""
    for one in plate_screws(job):
        if one.met != "unknown":
            yield CheckResult(
                f'screws of "{one.unit.planned.name}" into studs',
                len(one.columns_mm),
                one.met_count,
                OVER_STUDS,
                LINING,
                by_design=True,
            )


def _beside_studs(job: PanelJob) -> Iterator[Remark]:
    """Yield a remark for each plate or carrier with screws into the wall beside the studs."""
    for one in plate_screws(job):
        if one.met in ("all", "unknown"):
            continue
        found = _beside(one)
        how = "is kept down on its rail by screws" if one.lock else "is screwed to the wall"
        yield Remark(
            one.unit.planned.key,
            f'"{one.unit.planned.name}" {how} and {found}',
            f"{without_place(one)}.",
            beside_studs=True,
        )


def _beside(screws: PlateScrews) -> str:
    """Return which of the screws of a plate meet no stud, or are too near the edge of one."""
    count, met, near = len(screws.columns_mm), screws.met_count, screws.near_edges_mm
    if not near:
        if not met:
            return "no stud is behind its screws"
        return f"only {met} of its {count} columns of screws meets a stud"
    off_mm, least_mm = min(near)
    edge = (
        f"{said.most(off_mm, '.1f')} from it, and it needs at least {said.least(least_mm, '.1f')}"
    )
    if count == 1:
        return f"its column of screws is too near the edge of a stud: {edge}"
    which = f"only {met}" if met else "none"
    return (
        f"{which} of its {count} columns of screws is far enough inside a stud: one is too near "
        f"an edge, {edge}"
    )


def without_place(screws: PlateScrews) -> str:
    """Return what helps a plate or a carrier beside the studs that has no better place."""
    ways: list[str] = []
    if len(screws.columns_mm) > 1:
        if screws.lock:
            ways.append("ask for a lower screw_count")
        elif any(len(holder.part.seats) > 1 for holder in screws.unit.holders):
            ways.append("hold fewer tools in it")
        recipe = screws.unit.outer.recipe
        if isinstance(recipe, Recipe) and recipe.in_grooves:
            ways.append('write joint = "one-piece" for it, which may need one column alone')
    board = "screw a board across two studs behind it"
    return f"{', '.join((*ways, board))}, or choose a fixing for your wall with qualified advice"


def _beyond_safe(job: PanelJob) -> Iterator[Remark]:
    """Yield a remark for each unit that was given a place, or hangs, at a height that is unsafe."""
    for unit in job.units:
        key = unit.planned.key
        bounds, z_mm = job.problem.known[key].bounds, job.spots[key].place.z_mm
        broken = bounds.broken_by(z_mm)
        if not broken:
            continue
        todo = "give it another place"
        if z_mm > bounds.highest_mm:
            todo += ", or say in highest_height and height_reason of the tool why it may hang there"
        found = f'"{unit.planned.name}" hangs at a height that is not safe: {broken}'
        yield Remark(key, found, f"{todo}.")


def _hot_beside_cool(job: PanelJob) -> Iterator[Remark]:
    """Yield a remark for each holder with a hot tool near one with what must stay cool."""
    rects = {item.key: whole(item, job.spots[item.key].place) for item in job.problem.items}
    tools = {unit.planned.key: unit.planned.tools for unit in job.units}
    for hot in job.units:
        warm = [tool.name for tool in tools[hot.planned.key] if tool.hot]
        for other in job.units if warm else ():
            cool = [tool.name for tool in tools[other.planned.key] if tool.spoilt_by_heat]
            apart = distance_mm(rects[hot.planned.key], rects[other.planned.key])
            if cool and apart < HOT_MM:
                yield Remark(
                    hot.planned.key,
                    f'"{warm[0]}" goes back hot, {said.mm(apart, ".0f")} from "{cool[0]}", which '
                    "must stay cool",
                    f"give one of them a place at least {said.mm(HOT_MM)} away, or let it cool "
                    "down elsewhere first.",
                )
                break


def _no_rows(job: PanelJob) -> Iterator[Remark]:
    """Say it where rails are pieces, since whole rows do not take everything."""
    new = next((rail for rail in job.arrangement.rails if not rail.stays), None)
    if job.problem.rule.rows and new is not None and not job.arrangement.in_rows:
        yield Remark(
            new.name,
            f"No whole rows of rail were found that take everything on {job.title}",
            "its new rails are as long as what hangs on them; for rows, hang less on it, or make "
            "it larger.",
        )


def _out_of_reach(job: PanelJob, explained: tuple[Explained, ...]) -> Iterator[Remark]:
    names = {unit.planned.key: unit.planned for unit in job.units}
    for one in explained:
        unit, item = names[one.key], job.problem.known[one.key]
        # where several share a wall, its bounds go by the hand on each tool
        if item.taken is not None and item.bounds.holds(job.spots[one.key].place.z_mm):
            continue
        if one.beyond_mm > 0.0 and unit.use != "seldom":
            yield Remark(
                one.key,
                f'"{unit.name}" hangs {said.mm(one.beyond_mm, ".0f")} out of reach, though it is '
                "in "
                f"{unit.use} use",
                "give it a place, or change bench_depth or the [person].",
            )
