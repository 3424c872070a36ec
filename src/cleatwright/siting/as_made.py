"""The walls as they were last made: what the ledger keeps of them, and how the next plan starts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.seats.remembered import made_seat
from cleatwright.siting.walls import ITEM
from cleatwright.wall.model import Item, Place, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.rails import new_rail
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel
from cleatwright.workshop.ledger.made_wall import MadePlace, MadeRail, MadeWall


@dataclass(frozen=True)
class Start:
    """From where the plan of a panel sets out.

    Args:
        places: Where things are by the papers that were made last, or hang.
        renewed: The keys of things of which another part hangs, or was made.
        rows: The rows of the papers that do not hang.
        seats: The seats that the papers keep free.
    """

    places: tuple[Place, ...] = ()
    renewed: frozenset[str] = frozenset()
    rows: tuple[Rail, ...] = ()
    seats: tuple[ReservedSeat, ...] = ()


NO_START = Start()


def base_of(workshop: Workshop, panel: Panel) -> str:
    """Return the content key of what an arrangement goes by, but for all that hangs or lies there.

    As long as it is the same, the next plan sets out from the wall that was made.
    """
    open_ones = {"obstacles": (), "studs": (), "rails": (), "reserved_seats": 0}
    bare = panel.model_copy(update=open_ones)
    return content_key((bare, workshop.rail, workshop.people, workshop.defaults.effort))


def made_wall(workshop: Workshop, panels: Sequence[PanelJob], run: Run) -> MadeWall:
    """Return what the ledger keeps of walls that are made.

    Args:
        workshop: The document.
        panels: Its walls.
        run: The run that keeps what was computed before.
    """
    return MadeWall(
        places=tuple(
            MadePlace(
                key=unit.planned.key,
                panel=panel.panel.name,
                x_mm=place.x_mm,
                z_mm=place.z_mm,
                mark=unit.outer.mark,
                room_mm=_room(panel.problem.known[unit.planned.key], run.need(ITEM, unit)),
            )
            for panel in panels
            for unit in panel.units
            for place in (panel.spots[unit.planned.key].place,)
        ),
        rails=tuple(
            MadeRail(rail.number, rail.panel, rail.z_top_mm, rail.x0_mm, rail.x1_mm)
            for panel in panels
            for rail in panel.arrangement.rails
        ),
        marks=tuple(
            (planned.number, made.mark)
            for panel in panels
            for planned, made in zip(panel.planned, panel.built, strict=True)
        ),
        bases=tuple(
            (panel.panel.name, base_of(workshop, panel.panel)) for panel in panels if panel.units
        ),
        in_rows=tuple(
            panel.panel.name for panel in panels if panel.units and panel.arrangement.in_rows
        ),
        seats=tuple(made_seat(one, panel) for panel in panels for one in panel.arrangement.seats),
    )


def _room(item: Item, bare: Item) -> tuple[float, float, float, float]:
    return (
        item.side_left_mm - bare.side_left_mm,
        item.side_right_mm - bare.side_right_mm,
        item.up_mm - bare.up_mm,
        item.down_mm - bare.down_mm,
    )


def with_room_of(item: Item, made: MadePlace | None, mark: str) -> Item:
    """Return an item with the room that it was found to need when it was made as this part."""
    if made is None or made.mark != mark:
        return item
    left, right, above, below = made.room_mm
    return replace(
        item,
        side_left_mm=item.side_left_mm + left,
        side_right_mm=item.side_right_mm + right,
        up_mm=item.up_mm + above,
        down_mm=item.down_mm + below,
    )


def start_of(
    units: Iterable[Unit],
    made: Mapping[str, MadePlace],
    hangs: Mapping[str, Place],
    *,
    marks: Mapping[str, str],
    rows: tuple[Rail, ...] = (),
    seats: tuple[ReservedSeat, ...] = (),
) -> Start:
    """Return from where the plan of a panel sets out.

    Args:
        units: What shall hang on it.
        made: Where things were to hang by the papers that were made last.
        hangs: Where things hang, by key.
        marks: The marks of the parts that hang, by key.
        rows: The rows of the papers that do not hang.
        seats: The seats that the papers keep free.
    """
    places: list[Place] = []
    renewed: set[str] = set()
    for unit in units:
        key, mark = unit.planned.key, unit.outer.mark
        before = made.get(key)
        if marks.get(key, mark) != mark:
            renewed.add(key)
        if before is not None and before.mark == mark:
            places.append(Place(key, before.x_mm, before.z_mm))
        elif key in hangs and key not in renewed:
            places.append(hangs[key])
    return Start(tuple(places), frozenset(renewed), rows, seats)


def rows_of(rails: Iterable[MadeRail], problem: WallProblem) -> tuple[Rail, ...]:
    """Return the rows of the papers that do not hang as new rails of a panel.

    Args:
        rails: The rails of the papers that do not hang, of all panels.
        problem: The panel.
    """
    edge_mm = problem.rule.edge_above_mm
    return tuple(
        new_rail(problem, one.z_top_mm - edge_mm, (one.x0_mm, one.x1_mm), number=one.number)
        for one in rails
        if one.panel == problem.space.panel
    )
