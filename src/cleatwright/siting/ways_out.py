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
from cleatwright.base.keys import content_key
from cleatwright.base.progress import tracked
from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.checks.result import CheckResult
from cleatwright.checks.way_out import TOUCH_MM3
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit
from cleatwright.design.seat_trials import REST_GAP_MM
from cleatwright.kernels.mesh import Convex, MeshBody, MeshKernel, Passage
from cleatwright.parts.grips import PistolGrip
from cleatwright.parts.holder import Seat
from cleatwright.parts.mirror import to_part
from cleatwright.shapes.rigid import Rigid, Vector, shift
from cleatwright.siting.hand_place import hand_places
from cleatwright.siting.walls import Spot
from cleatwright.wall.frame import part_on_wall
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import FRAME_DIGITS
from cleatwright.wall.way_out import DIRECTIONS, Hindrance, Hit, Sort, Surroundings, WayProof
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN

MISSING = "mm missing"
"""Unit of the verdicts on a whole wall."""
RULE = Source(
    "the tool all along its way out, against all that is on the wall", "", Evidence.DERIVED
)


@dataclass(frozen=True, eq=False)
class _Thing:
    """Something on the wall, in a frame of its own that is shifted to its place.

    Args:
        name: Its name for people.
        sort: What sort of thing it is.
        holder: The key of the holder that it is or rests in, or "".
        shape: The content key of its parts.
        parts: Its parts in its own frame.
        at_mm: Where its frame is on the wall.
    """

    name: str
    sort: Sort
    holder: str
    shape: str
    parts: tuple[Convex | MeshBody, ...]
    at_mm: Vector

    def seen_from(self, at_mm: Vector) -> tuple[MeshBody, ...]:
        """Return its bodies in a frame that is shifted to ``at_mm``."""
        there = shift(*_between(at_mm, self.at_mm))
        moved = (part.placed(there) for part in self.parts)
        return tuple(part.body if isinstance(part, Convex) else part for part in moved)


@dataclass(frozen=True, eq=False)
class _Resting:
    """A tool at rest: what it is on the wall, its holder's name, its way and the hand's ways."""

    thing: _Thing
    holder: str
    length_mm: float
    way: Passage
    hands: tuple[Passage, ...]


class _Scene:
    """All that stands on a wall, with the boxes of its parts for the first, coarse question."""

    def __init__(self, things: Sequence[_Thing]) -> None:
        self._things = tuple(things)
        self._owners = [i for i, thing in enumerate(things) for _ in thing.parts]
        self._boxes = np.stack(
            [part.box_mm + np.array(thing.at_mm) for thing in things for part in thing.parts]
        )

    def near(self, boxes_mm: npt.NDArray[np.float64], at_mm: Vector) -> tuple[_Thing, ...]:
        """Return the things whose box shares room with one of the boxes, shape (n, 2, 3)."""
        boxes = boxes_mm + np.array(at_mm)
        low = np.minimum(boxes[:, None, 1], self._boxes[None, :, 1])
        high = np.maximum(boxes[:, None, 0], self._boxes[None, :, 0])
        meets: list[bool] = np.any(np.all(low > high, axis=2), axis=0).tolist()
        met = {owner for owner, hit in zip(self._owners, meets, strict=True) if hit}
        return tuple(self._things[number] for number in sorted(met))


def surroundings(workshop: Workshop, rails: Sequence[Rail], *, panel: str = MAIN) -> Surroundings:
    """Return what is on the wall or on a panel of a document beside the holders.

    Args:
        workshop: The document.
        rails: All rails on that panel, those that stay included.
        panel: The name of the panel.

    Raises:
        UnknownNameError: There is no such panel.
    """
    return Surroundings(
        rails=tuple(rails),
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
    run: Run,
) -> tuple[WayProof, ...]:
    """Return the proof for every tool on one wall, in the order of its holder and its seat.

    Args:
        units: What hangs on this wall.
        spots: Where each unit hangs, by its key.
        around: What else is on the wall.
        run: Told of each tool; it keeps each proof for the same tool among the same things.

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
            standing.append(_part_thing(unit.planned.name, "carrier", "", unit.outer, frame))
        for one, made, offset in zip(
            unit.planned.holders, unit.holders, unit.offsets_mm, strict=True
        ):
            there = shift(*offset).then(frame)
            standing.append(_part_thing(one.name, "holder", one.key, made, there))
            for number, tool in enumerate(one.tools):
                seated = run.need(SEATED, _Seated(made, number, around.hand_room_mm))
                tools.append(
                    _Resting(
                        thing=_Thing(
                            name=tool.name,
                            sort="tool",
                            holder=one.key,
                            shape=f"{made.key}/{number}",
                            parts=seated.pieces,
                            at_mm=there.shift_mm,
                        ),
                        holder=one.name,
                        length_mm=seated.length_mm,
                        way=seated.way,
                        hands=seated.hands,
                    )
                )
    if not tools:
        return ()
    scene = _Scene([*standing, *(tool.thing for tool in tools)])
    return tuple(_proof(tool, scene, run) for tool in tracked(tools, "proving the ways out", run))


def _part_thing(name: str, sort: Sort, holder: str, made: BuiltPart, there: Rigid) -> _Thing:
    return _Thing(name, sort, holder, made.key, (made.body,), there.shift_mm)


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


@dataclass(frozen=True, eq=False)
class _Seated:
    """A seat of a built holder, and the room that a hand needs there."""

    made: BuiltPart
    number: int
    room_mm: float


@dataclass(frozen=True, eq=False)
class _SeatWays:
    """The tool of a seat at rest, its way out, and those of a hand at each place that it may take.

    All in the frame of the holder.
    """

    pieces: tuple[Convex, ...]
    length_mm: float
    way: Passage
    hands: tuple[Passage, ...]


def _seat_ways(_: Run, seated: _Seated) -> _SeatWays:
    seat, kernel = seated.made.part.seats[seated.number], MeshKernel()
    pieces = tuple(Convex(kernel.corners(piece)).placed(seat.pose) for piece in seat.tool.envelope)
    # a tool at rest touches what carries it
    raised = shift(0.0, 0.0, REST_GAP_MM)
    hands = (
        hand_places(pieces, seated.made.body, room_mm=seated.room_mm, handle=_handle(seat))
        if seated.room_mm > 0.0
        else ()
    )
    return _SeatWays(
        pieces=pieces,
        length_mm=sum(math.hypot(*move) for move in seat.way_out),
        way=Passage(tuple(piece.placed(raised) for piece in pieces), seat.way_out),
        hands=tuple(Passage(place, seat.way_out) for place in hands),
    )


def _seated_key(seated: _Seated) -> str:
    return f"{seated.made.key}/{seated.number}/{seated.room_mm!r}"


SEATED = Stage("seated tool", _seat_ways, _seated_key)
"""From a seat to the tool in it, its way out and the hand's."""


def _handle(seat: Seat) -> tuple[float, float] | None:
    """Return from which height to which the handle of a pistol grip reaches."""
    grip = seat.tool.grip(PistolGrip)
    if grip is None:
        return None
    ends = (grip.z_mm - grip.handle_length_mm, grip.z_mm)
    low, high = sorted(seat.pose.apply((0.0, 0.0, z))[2] for z in ends)
    return low, high


def _rails(around: Surroundings) -> Iterator[_Thing]:
    for rail in around.rails:
        of = rail.profile
        (x0, x1, low, top), thick = rail.strip, of.thickness_mm
        section = ((0.0, low), (thick, low), (thick, top), (0.0, top - of.slant_mm))
        corners = [(to_part(x), y, z) for x in (x0, x1) for y, z in section]
        yield _corner_thing(rail.name, "rail", corners)


def _obstacles(around: Surroundings) -> Iterator[_Thing]:
    for one in around.obstacles:
        if one.stands_out_mm > 0.0:
            corners = [
                (to_part(x), y, z)
                for x in (one.x_mm, one.x_mm + one.width_mm)
                for y in (0.0, one.stands_out_mm)
                for z in (one.z_mm, one.z_mm + one.height_mm)
            ]
            yield _corner_thing(one.name, "obstacle", corners)


def _corner_thing(name: str, sort: Sort, corners: Sequence[Vector]) -> _Thing:
    shape = content_key(tuple(corners))
    return _Thing(name, sort, "", shape, (Convex(np.array(corners)),), (0.0, 0.0, 0.0))


def _between(here_mm: Vector, there_mm: Vector) -> Vector:
    """Return the shift from one frame to another, free of the last digits of where both are."""
    x, y, z = (round(b - a, FRAME_DIGITS) for a, b in zip(here_mm, there_mm, strict=True))
    return (x, y, z)


def _proof(tool: _Resting, scene: _Scene, run: Run) -> WayProof:
    own, at_mm = tool.thing.holder, tool.thing.at_mm
    in_way = tuple(
        thing
        for thing in scene.near(tool.way.boxes_mm, at_mm)
        if thing is not tool.thing and not (thing.sort == "holder" and thing.holder == own)
    )
    return WayProof(
        tool=tool.thing.name,
        holder=tool.holder,
        holder_key=own,
        length_mm=tool.length_mm,
        hit=run.need(MET, _Among(tool.thing, "way", tool.way, in_way)).hit,
        hand=_hand(tool, scene, run),
    )


def _hand(tool: _Resting, scene: _Scene, run: Run) -> Hit | None:
    """Return None when a hand has room at one place at least, else what is nearest to giving it."""
    best: Hit | None = None
    for number, way in enumerate(tool.hands):
        near = scene.near(way.boxes_mm, tool.thing.at_mm)
        in_way = tuple(thing for thing in near if thing.holder != tool.thing.holder)
        hit = run.need(MET, _Among(tool.thing, f"hand {number}", way, in_way)).hit
        if hit is None:
            return None
        if best is None or hit.short_mm < best.short_mm:
            best = hit
    return best


@dataclass(frozen=True, eq=False)
class _Among:
    """A way among things that stand near it; ``which`` tells it from the tool's other ways."""

    tool: _Thing
    which: str
    way: Passage
    things: tuple[_Thing, ...]


@dataclass(frozen=True)
class _Met:
    """What a way meets first, or nothing."""

    hit: Hit | None


def _among_key(among: _Among) -> str:
    here = among.tool.at_mm
    things = tuple(
        (thing.sort, thing.name, thing.shape, _between(here, thing.at_mm)) for thing in among.things
    )
    # the room of a hand is in its boxes
    return content_key((among.tool.shape, among.which, tuple(among.way.boxes_mm.ravel()), things))


def _first_met(_: Run, among: _Among) -> _Met:
    """Return the first thing met, of two at once the first by sort and name."""
    way = among.way
    seen = [(thing, thing.seen_from(among.tool.at_mm)) for thing in among.things]
    met: list[tuple[float, Sort, str, int]] = [
        (way.travel_mm(bodies, touch_mm3=TOUCH_MM3), thing.sort, thing.name, number)
        for number, (thing, bodies) in enumerate(seen)
        if way.meets(bodies, touch_mm3=TOUCH_MM3)
    ]
    if not met:
        return _Met(None)
    travel, sort, name, first = min(met)
    side, short = way.freeing_shift(
        [step for _, step in DIRECTIONS], seen[first][1], touch_mm3=TOUCH_MM3
    )
    hit = Hit(
        name=name,
        sort=sort,
        travel_mm=travel,
        short_mm=short,
        direction=DIRECTIONS[side][0],
    )
    return _Met(hit)


MET = Stage("way among things", _first_met, _among_key, codec=JsonCodec(_Met))
"""From a way and what stands near it to what it meets first."""
