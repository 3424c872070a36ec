"""Whether what lies on the wall and the panels of a document lies inside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Literal

from pydantic_core import PydanticCustomError

from cleatwright.base import said
from cleatwright.workshop.document.entries import FixedPlace
from cleatwright.workshop.document.fields import problem
from cleatwright.workshop.document.sections import RailRules
from cleatwright.workshop.document.surfaces import (
    MAIN,
    TOUCH_MM,
    KeptRail,
    Obstacle,
    Panel,
    touching,
)

Wrong = tuple[tuple[str | int, ...], object, PydanticCustomError]
At = tuple[str | int, ...]
Side = Literal["width", "height"]
SLACK_MM = 1e-6
# how far it is, and from where
REACHES: Mapping[str | int, str] = MappingProxyType({"width": "x", "height": "z", "length": "x"})


def off_the_surfaces(surfaces: Sequence[Panel], rules: RailRules) -> list[Wrong]:
    """Return what reaches beyond its wall or panel, and kept rails that cannot hang there.

    ``surfaces`` are the wall, as the panel of that name, and the panels in their order.
    """
    wrong: list[Wrong] = []
    for number, panel in enumerate(surfaces):
        at: At = (MAIN,) if number == 0 else ("panel", number - 1)
        for place, end_mm, side in _reaches(panel):
            size_mm = panel.width_mm if side == "width" else panel.height_mm
            wrong += _outside((*at, *place), end_mm, size_mm=size_mm, panel=panel, edge=(*at, side))
        wrong += _studs(panel, at=at)
        wrong += _rails(panel, rules, at=at)
    return wrong


def off_its_panel(place: FixedPlace, panel: Panel, *, at: At, surface: At) -> list[Wrong]:
    """Return the coordinates of a fixed place that lie outside its panel, a table of its own."""
    return [
        *_outside(
            (*at, "place", "x"),
            place.x_mm,
            size_mm=panel.width_mm,
            panel=panel,
            edge=(*surface, "width"),
        ),
        *_outside(
            (*at, "place", "z"),
            place.z_mm,
            size_mm=panel.height_mm,
            panel=panel,
            edge=(*surface, "height"),
        ),
    ]


def _reaches(panel: Panel) -> Iterator[tuple[At, float, Side]]:
    """Yield how far each thing reaches, with its place in the table and the side that bounds it."""
    for index, one in enumerate(panel.obstacles):
        yield ("obstacle", index, "x"), one.x_mm, "width"
        yield ("obstacle", index, "z"), one.z_mm, "height"
        # what begins outside is reported once
        if one.x_mm <= panel.width_mm + SLACK_MM:
            yield ("obstacle", index, "width"), one.x_mm + one.width_mm, "width"
        if one.z_mm <= panel.height_mm + SLACK_MM:
            yield ("obstacle", index, "height"), one.z_mm + one.height_mm, "height"
    for index, stud in enumerate(panel.studs):
        yield ("stud", index, "x"), stud.x_mm, "width"
    for index, rail in enumerate(panel.rails):
        yield ("rail", index, "x"), rail.x_mm, "width"
        yield ("rail", index, "length"), rail.x_mm + rail.length_mm, "width"
        yield ("rail", index, "z_top"), rail.z_top_mm, "height"
    if panel.stand_x_mm is not None:
        yield ("stand_x",), panel.stand_x_mm, "width"


def _outside(at: At, end_mm: float, *, size_mm: float, panel: Panel, edge: At) -> list[Wrong]:
    if end_mm <= size_mm + SLACK_MM:
        return []
    what, todo = "", ""
    if at[-1] in REACHES:
        # either of the two may be the wrong one
        what, todo = "Its far edge at ", f"Measure its {REACHES[at[-1]]} and its {at[-1]} again"
    fault = problem(
        f"{what}{said.mm(end_mm)} lies outside {_called(panel)}",
        allowed=f"from {said.first(0)} to {said.mm(size_mm)}",
        todo=todo,
        keys=(REACHES[at[-1]], str(at[-1])) if todo else (),
        also=(edge,),
    )
    return [(at[:-1] if todo else at, end_mm, fault)]


def _called(panel: Panel) -> str:
    return "the wall" if panel.name == MAIN else f'the panel "{panel.name}"'


def _studs(panel: Panel, *, at: At) -> list[Wrong]:
    """Return each stud that overlaps or touches one before it, of which a rail would meet two.

    Studs that are nailed together touch, when the person says so.
    """
    wrong: list[Wrong] = []
    for index, stud in enumerate(panel.studs):
        for earlier, before in enumerate(panel.studs[:index]):
            apart_mm = abs(stud.x_mm - before.x_mm)
            touch_mm = (stud.width_mm + before.width_mm) / 2
            fault = _too_close(
                f"number {earlier + 1} and number {index + 1}",
                apart_mm,
                touch_mm,
                doubled=stud.doubled or before.doubled,
                also=(
                    (*at, "stud", index, "width"),
                    *((*at, "stud", earlier, key) for key in ("x", "width")),
                ),
            )
            if fault is not None:
                wrong.append(((*at, "stud", index, "x"), stud.x_mm, fault))
                break
        if stud.doubled and not any(
            touching(stud, other) for n, other in enumerate(panel.studs) if n != index
        ):
            fault = problem(
                f"The stud number {index + 1} is doubled and touches no other stud",
                allowed="doubled = true for a stud that is nailed to one that it touches",
                todo="Write a [[stud]] table for each of the two, or take doubled away",
            )
            wrong.append(((*at, "stud", index, "doubled"), True, fault))
    return wrong


def _too_close(
    names: str, apart_mm: float, touch_mm: float, *, doubled: bool, also: tuple[At, ...]
) -> PydanticCustomError | None:
    """Return what is wrong with two studs whose middles are so far apart, or None."""
    if apart_mm > touch_mm + TOUCH_MM or (doubled and apart_mm >= touch_mm - TOUCH_MM):
        return None
    touches = apart_mm >= touch_mm - TOUCH_MM
    return problem(
        f"The studs {names} {'touch' if touches else 'overlap'}: their middles are "
        f"{said.mm(apart_mm)} apart, and half their widths together are {said.mm(touch_mm)}",
        allowed=f"more than {said.mm(touch_mm)}, or exactly that for studs that are nailed "
        "together",
        todo="Write doubled = true in one of the two if they are nailed together, so that they "
        "count as one place for screws"
        if touches
        else "Measure both again, correct their x or width, or delete one",
        line="doubled = true" if touches else "",
        also=also,
    )


def _rails(panel: Panel, rules: RailRules, *, at: At) -> list[Wrong]:
    """Return kept rails that hang below the panel, on an obstacle or too near another one."""
    wrong: list[Wrong] = []
    for index, rail in enumerate(panel.rails):
        here = (*at, "rail", index, "z_top")
        if rail.z_top_mm < rules.height_mm - SLACK_MM:
            fault = problem(
                f"A rail {said.mm(rules.height_mm)} high with its top edge at "
                f"{said.mm(rail.z_top_mm)} reaches below {_called(panel)}",
                allowed=f"from {said.mm(rules.height_mm)}",
                also=(("rail", "height"),),
            )
            wrong.append((here, rail.z_top_mm, fault))
        for number, obstacle in enumerate(panel.obstacles):
            if _crosses(rail, obstacle, rules.height_mm):
                fault = problem(
                    f'The rail number {index + 1} lies on the obstacle "{obstacle.name}"',
                    todo="Measure both again; two rails may end left and right of an obstacle",
                    also=(
                        *((*at, "rail", index, key) for key in ("x", "length")),
                        *((*at, "obstacle", number, key) for key in ("x", "z", "width", "height")),
                        ("rail", "height"),
                    ),
                )
                wrong.append((here, rail.z_top_mm, fault))
        for other_index, other in enumerate(panel.rails[:index]):
            wrong += _too_near((rail, index), (other, other_index), rules, at=here)
    return wrong


def _crosses(rail: KeptRail, obstacle: Obstacle, height_mm: float) -> bool:
    return (
        rail.x_mm < obstacle.x_mm + obstacle.width_mm - SLACK_MM
        and obstacle.x_mm < rail.x_mm + rail.length_mm - SLACK_MM
        and rail.z_top_mm - height_mm < obstacle.z_mm + obstacle.height_mm - SLACK_MM
        and obstacle.z_mm < rail.z_top_mm - SLACK_MM
    )


def _too_near(
    one: tuple[KeptRail, int], other: tuple[KeptRail, int], rules: RailRules, *, at: At
) -> list[Wrong]:
    """Return two rails one above the other that leave a cleat no room between them."""
    (rail, number), (before, earlier) = one, other
    apart_mm = abs(rail.z_top_mm - before.z_top_mm)
    needed_mm = rules.height_mm + rules.min_gap_mm
    meet = (
        rail.x_mm < before.x_mm + before.length_mm - SLACK_MM
        and before.x_mm < rail.x_mm + rail.length_mm - SLACK_MM
    )
    if not meet or apart_mm >= needed_mm - SLACK_MM:
        return []
    fault = problem(
        f"The rails number {earlier + 1} and number {number + 1} are {said.mm(apart_mm)} apart, "
        "top edge to top edge, where one lies above the other",
        allowed=f"at least {said.least(needed_mm)}, the height and the min_gap of [rail]",
        todo="Measure them again, write a smaller min_gap, or take one rail off the wall",
        also=((*at[:-2], earlier, "z_top"), ("rail", "height"), ("rail", "min_gap")),
    )
    return [(at, rail.z_top_mm, fault)]
