"""What hangs on each rail of a job, what its screws bear, and what they may carry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from statistics import median

from cleatwright.base.errors import MeasureError
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.rail_loads import check_rail, rail_demand
from cleatwright.checks.result import CheckResult
from cleatwright.design.carrying import Unit
from cleatwright.parts.fastening import Fastening
from cleatwright.parts.mirror import to_reader
from cleatwright.parts.screw_strength import ScrewLoad
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.rails.own_weight import own_loads, rail_kg_m3
from cleatwright.siting.walls import holder_boxes
from cleatwright.standards.fasteners.anchors import GAMMA_F
from cleatwright.standards.fasteners.en_1995_screws import DISTANCES, GAMMA_M, K_MOD
from cleatwright.standards.fasteners.en_1995_splitting import SPLITTING, splitting_n
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.rail import HungLoad, RailFixing, screw_loads
from cleatwright.statics.take_out import grip_z_mm
from cleatwright.wall.frame import origin_mm
from cleatwright.wall.model import Place, ReservedSeat
from cleatwright.wall.panel_studs import stud_rule, studs_of
from cleatwright.wall.rail import Rail
from cleatwright.workshop.document.surfaces import Panel


@dataclass(frozen=True)
class RailLoads:
    """What hangs on a rail and what its screws bear.

    Args:
        rail: The rail on the wall.
        fixing: Its measures and the studs it meets.
        units: What hangs on it, from left to right.
        loads: The load of each unit.
        reserved: The load of a usual holder in each seat that is kept free on it.
        own: The weight of the rail itself, piece by piece.
        by: What holds it.
        checks: The checks of its screws; none on a wall with studs of which none is given, whose
            fixing nobody knows.
    """

    rail: Rail
    fixing: RailFixing
    units: tuple[Unit, ...]
    loads: tuple[HungLoad, ...]
    by: Fastening
    checks: tuple[CheckResult, ...]
    reserved: tuple[HungLoad, ...] = ()
    own: tuple[HungLoad, ...] = ()

    @property
    def fails(self) -> bool:
        """Return whether it is known that its screws do not carry what hangs on it."""
        return self.check is not None and not self.check.is_open and not self.check.holds

    @property
    def all_loads(self) -> tuple[HungLoad, ...]:
        """Return the loads of all that hangs on it or is to hang there."""
        return (*self.loads, *self.reserved)

    @property
    def borne(self) -> tuple[HungLoad, ...]:
        """Return all loads that its screws must bear, its own weight among them."""
        return (*self.own, *self.all_loads)

    @property
    def check(self) -> CheckResult | None:
        """Return the check by which its screws are used most."""
        return max(self.checks, key=lambda one: one.utilisation, default=None)

    @property
    def demand(self) -> ScrewLoad | None:
        """Return what each of its screws must be able to bear; None without any."""
        if not self.fixing.studs_mm:
            return None
        ends = (self.rail.x0_mm, self.rail.x1_mm)
        return rail_demand(ends, self.fixing, self.all_loads, own=self.own)


def loaded_rails(job: PanelJob) -> tuple[RailLoads, ...]:
    """Return the rails of a job with their loads, in the order of the arrangement.

    The lining of the wall lies between rail and stud and carries nothing.

    Raises:
        MeasureError: No screw on sale is long enough.
    """
    return LoadsOf(job).on(job)


class LoadsOf:
    """The loads of the rails of one panel, for one arrangement after another of what hangs on it.

    What was computed of a rail is kept, so that only those rails cost time of which something is
    new: their own place and screws, what hangs on them or where.

    Args:
        job: The panel; units, rails and walls of all its arrangements are the same.

    Raises:
        MeasureError: No screw on sale is long enough.
    """

    def __init__(self, job: PanelJob) -> None:
        """Look up what is the same for all arrangements."""
        self.by = fastening_of(job.setting.rail, job.panel).carries
        self._density = rail_kg_m3(job.setting.rail)
        self._units = {unit.planned.key: unit for unit in job.units}
        self._usual: HungLoad | None = None
        self._known: dict[tuple[object, ...], RailLoads] = {}

    def on(self, job: PanelJob) -> tuple[RailLoads, ...]:
        """Return the rails of an arrangement with their loads, in its order."""
        at = {place.key: place for place in job.arrangement.places}
        return tuple(self._rail(job, rail, at) for rail in job.arrangement.rails)

    def _rail(self, job: PanelJob, rail: Rail, at: Mapping[str, Place]) -> RailLoads:
        places, seats = tuple(at[key] for key in rail.carries), job.seats_on(rail)
        key = (rail, places, seats)
        if key not in self._known:
            self._known[key] = self._computed(job, rail, places, seats)
        return self._known[key]

    def _computed(
        self,
        job: PanelJob,
        rail: Rail,
        places: tuple[Place, ...],
        seats: tuple[ReservedSeat, ...],
    ) -> RailLoads:
        fixing = RailFixing(rail.studs_mm, rail.height_mm, rail.profile.thickness_mm, rail.rows_mm)
        high_mm = job.setting.rail.height_mm
        pairs = [
            (unit, load_at(unit, place, rail_height_mm=high_mm))
            for place in places
            for unit in (self._units[place.key],)
        ]
        pairs.sort(key=lambda pair: (pair[1].x_mm, pair[0].planned.key))
        loads = tuple(load for _, load in pairs)
        if seats and self._usual is None:
            self._usual = _usual_load(job)
        usual = self._usual
        reserved = tuple(_in_seat(usual, seat) for seat in seats if usual)
        ends, own = (rail.x0_mm, rail.x1_mm), own_loads(rail, self._density)
        both = (*loads, *reserved)
        checks = (
            (
                *check_rail(rail.name, ends, fixing, loads=both, by=self.by, own=own),
                *_off_the_faces(job.panel, rail),
                *_whole(job.panel, fixing, rail, both, own),
            )
            if job.panel.places_known
            else ()
        )
        hung = tuple(unit for unit, _ in pairs)
        return RailLoads(rail, fixing, hung, loads, self.by, checks, reserved, own)


def screws_known(job: PanelJob) -> bool:
    """Return whether there are screws for the rails of a job; its assessment says why not."""
    try:
        fastening_of(job.setting.rail, job.panel)
    except MeasureError:
        return False
    return True


def _off_the_faces(panel: Panel, rail: Rail) -> Iterator[CheckResult]:
    """Yield whether screws keep off the faces of their studs by EN 1995; NDS only advises it."""
    if panel.rule == "NDS 2018" or not rail.studs_mm:
        return
    faces = [
        min(x - x0, x1 - x)
        for stud in studs_of(panel)
        for x0, x1 in stud.uprights
        for x in rail.studs_mm
        if x0 <= x <= x1
    ]
    if faces:
        yield CheckResult(
            f"screws of rail {rail.name} keep off the faces of their studs",
            stud_rule(panel).edge_mm,
            min(faces),
            "mm",
            DISTANCES,
            "wider studs, or rule = NDS 2018",
        )


def _whole(
    panel: Panel,
    fixing: RailFixing,
    rail: Rail,
    loads: tuple[HungLoad, ...],
    own: tuple[HungLoad, ...],
) -> Iterator[CheckResult]:
    """Yield whether a rail splits along its screws by EN 1995; NDS has no such rule.

    All that a stud bears counts as shear beside it, and a person leans as well.
    """
    if panel.rule == "NDS 2018" or panel.takes_anchors or not (rail.studs_mm and loads):
        return
    height = fixing.height_mm
    furthest_mm = height - min(fixing.rows_mm)
    splits = splitting_n(thick_mm=fixing.thickness_mm, high_mm=height, furthest_mm=furthest_mm) / (
        GAMMA_M * GAMMA_F
    )
    always = K_MOD["permanent"] * splits
    borne, ends, rows = (*own, *loads), (rail.x0_mm, rail.x1_mm), len(fixing.rows_mm)
    usual = max(one.shear_n for one in screw_loads(fixing, borne)) * rows
    leant = rail_demand(ends, fixing, loads, own=own).shear_n * rows
    # what counts for minutes may be more by as much
    demand = max(usual, leant * K_MOD["permanent"] / K_MOD["short"])
    yield CheckResult(
        f"rail {rail.name} does not split along its screws",
        demand,
        always,
        "N across the grain",
        SPLITTING,
        "a higher or thicker rail, or screws further from its bevel",
    )


def _loaded(_: Run, job: PanelJob) -> tuple[RailLoads, ...]:
    return loaded_rails(job)


LOADED = Stage("loaded rails", _loaded, content_key)
"""From a panel to its rails with their loads."""


def failing_rails(loaded: Iterable[RailLoads]) -> Mapping[str, str]:
    """Return a sentence for each rail whose screws do not carry what hangs on it, by its name."""
    return {
        one.rail.name: one.check.sentence
        for one in loaded
        if one.check is not None and not one.check.holds
    }


def hung_load(unit: Unit, job: PanelJob) -> HungLoad:
    """Return what one unit with all its tools loads its rail with."""
    place = job.spots[unit.planned.key].place
    return load_at(unit, place, rail_height_mm=job.setting.rail.height_mm)


def load_at(unit: Unit, place: Place, *, rail_height_mm: float) -> HungLoad:
    """Return what one unit with all its tools loads a rail with at a place.

    The hand's pull is the one that turns the rail most: that of the document, or what springs and
    magnets oppose, at the highest place of a hand on that tool.
    """
    part = unit.outer.part
    bodies: list[tuple[float, float, float]] = []
    for seat in part.seats:
        x, y, _ = seat.com_mm
        bodies.append((seat.tool.mass_kg * GRAVITY_M_S2, x, y))
    for own, offset, wide in _own_weights(unit):
        weight = own.mass_kg * GRAVITY_M_S2
        bodies.append((weight, offset[0] + wide / 2, own.distance_mm + offset[1]))
    weight = math.fsum(w for w, _, _ in bodies)
    along = math.fsum(w * x for w, x, _ in bodies) / weight
    out = math.fsum(w * y for w, _, y in bodies) / weight
    origin = origin_mm(part, place)
    right, left = (to_reader(corner[0], origin_mm=origin) for corner in part.bounds_mm)
    hand, contact = unit.outer.hung_as.settings.hand, part.hanging.contact_z_mm
    pulls = [(hand.pull_at(seat), grip_z_mm(seat)) for seat in part.seats]
    pull, grip = max(pulls, key=lambda one: one[0] * max(0.0, rail_height_mm + one[1] - contact))
    return HungLoad(
        name=unit.planned.name,
        x_mm=to_reader(along, origin_mm=origin),
        weight_n=weight,
        # behind the face of the rail it would only relieve the screws
        distance_mm=max(out, 0.0),
        depth_mm=part.hanging.depth_below_mm,
        pull_n=pull,
        pull_below_mm=contact - grip,
        edges_mm=(left, right),
        front_mm=max(0.0, *(high[1] for _, high in (part.bounds_mm, *holder_boxes(unit)))),
    )


def _own_weights(unit: Unit) -> list[tuple[OwnWeight, tuple[float, float, float], float]]:
    """Return the heavy own weights of what hangs, with offsets in its frame and widths."""
    outer = unit.outer
    found = [(outer.heavy, (0.0, 0.0, 0.0), outer.part.bounds_mm[1][0])]
    if unit.carrier is not None:
        found += [
            (made.heavy, offset, made.part.bounds_mm[1][0])
            for made, offset in zip(unit.holders, unit.offsets_mm, strict=True)
        ]
    made_of = zip(unit.fittings, unit.outer.part.fittings, strict=True)
    for fitting, where in made_of:
        found.append((fitting.heavy, where.pose.shift_mm, fitting.part.bounds_mm[1][0]))
    return found


def _usual_load(job: PanelJob) -> HungLoad | None:
    """Return the load of a usual holder of a panel: the median of each of its figures."""
    loads = [hung_load(unit, job) for unit in job.units if unit.outer.part.hanging.on_rail]
    if not loads:
        return None
    return HungLoad(
        name="",
        x_mm=0.0,
        weight_n=median(one.weight_n for one in loads),
        distance_mm=median(one.distance_mm for one in loads),
        depth_mm=median(one.depth_mm for one in loads),
        pull_n=median(one.pull_n for one in loads),
        pull_below_mm=median(one.pull_below_mm for one in loads),
        front_mm=median(one.front_mm or 0.0 for one in loads),
    )


def _in_seat(usual: HungLoad, seat: ReservedSeat) -> HungLoad:
    """Return the load of a usual holder in a seat that is kept free."""
    x0, x1, _, _ = seat.box_mm
    return replace(usual, name=seat.item.key, x_mm=(x0 + x1) / 2, edges_mm=(x0, x1))


def rail_checks(job: PanelJob) -> tuple[CheckResult, ...]:
    """Return the checks of the screws of each rail.

    There is none on a wall with studs of which none is given: the hardware list asks for a fixing
    chosen with qualified advice.
    """
    return tuple(check for one in loaded_rails(job) for check in one.checks)
