"""Does every tool come off the arranged wall, and is there room for the hand that takes it?

Each tool passes along the moves of its seat, as the exact hulls of its convex pieces at the
start and at the end of each move, through all that stands on the wall: the other holders, the
carriers, its own one included, the other tools at rest, the rails and the obstacles. That it
leaves its own holder is proven with the holder. A hand needs its room beside what stands on
other holders; the room between tools of one holder is laid out by its family.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cleatwright.base.errors import unknown_name
from cleatwright.base.progress import Progress, tracked
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.checks.way_out import TOUCH_MM3
from cleatwright.design.building import REST_GAP_MM
from cleatwright.design.carrying import Unit
from cleatwright.kernels.mesh import Convex, MeshBody, MeshKernel, Passage
from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.holder import Seat
from cleatwright.shapes.rigid import Rigid, Vector, shift
from cleatwright.siting.hand_place import hand_places
from cleatwright.siting.walls import Spot
from cleatwright.wall.frame import part_on_wall
from cleatwright.wall.model import RailRun
from cleatwright.wall.way_out import DIRECTIONS, Hindrance, Hit, Sort, Surroundings, WayProof
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN

MISSING = "mm missing"
"""Unit of the verdicts on a whole wall."""
RULE = Source("swept envelope against all that is on the wall", "", Evidence.DERIVED)


@dataclass(frozen=True, eq=False)
class _Thing:
    """Something on the wall; ``holder`` is the key of the holder that it is or rests in, or ""."""

    name: str
    sort: Sort
    holder: str
    parts: tuple[Convex | MeshBody, ...]

    @property
    def bodies(self) -> tuple[MeshBody, ...]:
        return tuple(part.body if isinstance(part, Convex) else part for part in self.parts)


@dataclass(frozen=True, eq=False)
class _Resting:
    """A tool at rest: its pieces, its holder's name and body, its way out and its handle."""

    thing: _Thing
    pieces: tuple[Convex, ...]
    holder: str
    body: MeshBody
    moves: tuple[Vector, ...]
    handle: tuple[float, float] | None


class _Scene:
    """All that stands on a wall, with the boxes of its parts for the first, coarse question."""

    def __init__(self, things: Sequence[_Thing]) -> None:
        self._things = tuple(things)
        self._owners = [i for i, thing in enumerate(things) for _ in thing.parts]
        self._boxes = np.stack([part.box_mm for thing in things for part in thing.parts])

    def near(self, boxes_mm: npt.NDArray[np.float64]) -> tuple[_Thing, ...]:
        """Return the things whose box shares room with one of the boxes, shape (n, 2, 3)."""
        low = np.minimum(boxes_mm[:, None, 1], self._boxes[None, :, 1])
        high = np.maximum(boxes_mm[:, None, 0], self._boxes[None, :, 0])
        meets: list[bool] = np.any(np.all(low > high, axis=2), axis=0).tolist()
        met = {owner for owner, hit in zip(self._owners, meets, strict=True) if hit}
        return tuple(self._things[number] for number in sorted(met))


def surroundings(
    workshop: Workshop, rails: Sequence[RailRun], *, panel: str = MAIN
) -> Surroundings:
    """Return what is on the wall or on a panel of a document beside the holders.

    Args:
        workshop: The document.
        rails: All rails on that panel, those that stay included.
        panel: The name of the panel.

    Raises:
        UnknownNameError: There is no such panel.
    """
    rail = workshop.rail
    return Surroundings(
        rails=tuple(rails),
        rail_height_mm=rail.height_mm,
        rail_thickness_mm=rail.thickness_mm,
        bevel_deg=rail.bevel_deg,
        obstacles=tuple(
            Hindrance(
                name=one.name,
                x_mm=one.x_mm,
                z_mm=one.z_mm,
                width_mm=one.width_mm,
                height_mm=one.height_mm,
                stands_out_mm=one.stands_out_mm,
            )
            for one in workshop.surface(panel).obstacles
        ),
        hand_room_mm=workshop.defaults.hand_room_mm,
    )


def prove_ways(
    units: Sequence[Unit],
    spots: Mapping[str, Spot],
    *,
    around: Surroundings,
    kernel: MeshKernel,
    progress: Progress,
) -> tuple[WayProof, ...]:
    """Return the proof for every tool on one wall, in the order of its holder and its seat.

    Args:
        units: What hangs on this wall.
        spots: Where each unit hangs, by its key.
        around: What else is on the wall.
        kernel: The kernel.
        progress: Told of each tool.

    Raises:
        UnknownNameError: A unit has no spot.
    """
    standing: list[_Thing] = [*_rails(around), *_obstacles(around)]
    tools: list[_Resting] = []
    for unit in units:
        if unit.planned.key not in spots:
            raise unknown_name("place of a holder", unit.planned.key, spots)
        frame = part_on_wall(unit.outer.part, spots[unit.planned.key].place)
        if unit.carrier is not None:
            body = unit.outer.body.placed(frame)
            standing.append(_Thing(unit.planned.name, "carrier", "", (body,)))
        for one, made, offset in zip(
            unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
        ):
            there = shift(*offset).then(frame)
            body = made.body.placed(there)
            standing.append(_Thing(one.name, "holder", one.key, (body,)))
            for tool, seat in zip(one.tools, made.part.seats, strict=True):
                pieces = _envelope(seat, there, kernel)
                thing = _Thing(tool.name, "tool", one.key, pieces)
                handle = _handle(seat, there)
                tools.append(_Resting(thing, pieces, one.name, body, seat.way_out, handle))
    if not tools:
        return ()
    scene = _Scene([*standing, *(tool.thing for tool in tools)])
    return tuple(
        _proof(tool, scene, room_mm=around.hand_room_mm)
        for tool in tracked(tools, "proving the ways out", progress)
    )


def check_ways(proofs: Sequence[WayProof]) -> tuple[CheckResult, ...]:
    """Return the two verdicts on a wall: every tool comes out, and a hand can take it.

    What is asked is the longest shift that is missing, and there is none to give; the note
    names the tool. A wall without tools has no verdict.
    """
    if not proofs:
        return ()
    return (
        _worst("ways out free on the wall", [(one.tool, one.hit) for one in proofs]),
        _worst("room for the hand on the wall", [(one.tool, one.hand) for one in proofs]),
    )


def _worst(name: str, hits: Sequence[tuple[str, Hit | None]]) -> CheckResult:
    short = [(hit.short_mm, tool, hit.title) for tool, hit in hits if hit is not None]
    if not short:
        return CheckResult(name, 0.0, 0.0, MISSING, RULE)
    most, tool, title = max(short)
    note = f"{len(short)} of {len(hits)} tools, {tool} at {title} most"
    return CheckResult(name, most, 0.0, MISSING, RULE, note)


def _envelope(seat: Seat, there: Rigid, kernel: MeshKernel) -> tuple[Convex, ...]:
    pose = seat.pose.then(there)
    return tuple(Convex(kernel.corners(piece)).placed(pose) for piece in seat.tool.envelope)


def _handle(seat: Seat, there: Rigid) -> tuple[float, float] | None:
    """Return from which height to which the handle of a pistol grip reaches."""
    grip = seat.tool.grip(PistolGrip)
    if grip is None:
        return None
    pose = seat.pose.then(there)
    ends = (grip.z_mm - grip.handle_length_mm, grip.z_mm)
    low, high = sorted(pose.apply((0.0, 0.0, z))[2] for z in ends)
    return low, high


def _rails(around: Surroundings) -> Iterator[_Thing]:
    thick = around.rail_thickness_mm
    for rail in around.rails:
        top, low = rail.z_top_mm, rail.z_top_mm - around.rail_height_mm
        profile = ((0.0, low), (thick, low), (thick, top), (0.0, top - around.bevel_drop_mm))
        corners = [(-x, y, z) for x in (rail.x0_mm, rail.x1_mm) for y, z in profile]
        yield _Thing(rail.name, "rail", "", (Convex(np.array(corners)),))


def _obstacles(around: Surroundings) -> Iterator[_Thing]:
    for one in around.obstacles:
        if one.stands_out_mm > 0.0:
            corners = [
                (-x, y, z)
                for x in (one.x_mm, one.x_mm + one.width_mm)
                for y in (0.0, one.stands_out_mm)
                for z in (one.z_mm, one.z_mm + one.height_mm)
            ]
            yield _Thing(one.name, "obstacle", "", (Convex(np.array(corners)),))


def _proof(tool: _Resting, scene: _Scene, *, room_mm: float) -> WayProof:
    # a tool at rest touches what carries it
    raised = shift(0.0, 0.0, REST_GAP_MM)
    way = Passage(tuple(piece.placed(raised) for piece in tool.pieces), tool.moves)
    own = tool.thing.holder
    in_way = [
        thing
        for thing in scene.near(way.boxes_mm)
        if thing is not tool.thing and not (thing.sort == "holder" and thing.holder == own)
    ]
    return WayProof(
        tool=tool.thing.name,
        holder=tool.holder,
        holder_key=own,
        length_mm=sum(math.hypot(*move) for move in tool.moves),
        hit=_first_hit(way, in_way),
        hand=_hand(tool, scene, room_mm=room_mm) if room_mm > 0.0 else None,
    )


def _hand(tool: _Resting, scene: _Scene, *, room_mm: float) -> Hit | None:
    """Return None when a hand has room at one place at least, else what is nearest to giving it."""
    best: Hit | None = None
    places = hand_places(tool.pieces, tool.body, room_mm=room_mm, handle=tool.handle)
    for pieces in places:
        way = Passage(pieces, tool.moves)
        in_way = [t for t in scene.near(way.boxes_mm) if t.holder != tool.thing.holder]
        hit = _first_hit(way, in_way)
        if hit is None:
            return None
        if best is None or hit.short_mm < best.short_mm:
            best = hit
    return best


def _first_hit(way: Passage, things: Sequence[_Thing]) -> Hit | None:
    """Return the first thing met, of two at once the first by sort and name."""
    met = [thing for thing in things if way.meets(thing.bodies, touch_mm3=TOUCH_MM3)]
    if not met:
        return None
    travels = [(way.travel_mm(t.bodies, touch_mm3=TOUCH_MM3), t.sort, t.name) for t in met]
    first = min(range(len(met)), key=lambda number: travels[number])
    number, short = way.freeing_shift(
        [step for _, step in DIRECTIONS], met[first].bodies, touch_mm3=TOUCH_MM3
    )
    return Hit(
        name=met[first].name,
        sort=met[first].sort,
        travel_mm=travels[first][0],
        short_mm=short,
        direction=DIRECTIONS[number][0],
    )
