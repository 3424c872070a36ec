"""Why a rail that hangs by the ledger cannot stay where it hangs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import astuple

from cleatwright.base import said
from cleatwright.mounts.registry import mount
from cleatwright.siting.walls import rail_profile
from cleatwright.wall.conflicts import overlap
from cleatwright.wall.ground import PLACES_A_RAIL
from cleatwright.wall.moving.moves import surface
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.rail import Rail
from cleatwright.wall.tolerances import TOLERANCE_MM
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN, Obstacle, Panel


def why_not(
    workshop: Workshop,
    panel: Panel,
    rail: Rail,
    *,
    others: Iterable[Rail],
    used: bool,
    screwed: bool,
) -> str:
    """Return why a rail of the ledger cannot stay on its panel, as the end of a sentence, or "".

    Args:
        workshop: The document.
        panel: The panel of the document on which the rail hangs.
        rail: The rail.
        others: The rails of this panel that stay before it.
        used: True when anything on this panel shall hang on a rail.
        screwed: True when the ledger knows into which studs it is screwed.
    """
    return next(_reasons(workshop, panel, rail, others=others, used=used, screwed=screwed), "")


def _reasons(
    workshop: Workshop,
    panel: Panel,
    rail: Rail,
    *,
    others: Iterable[Rail],
    used: bool,
    screwed: bool,
) -> Iterator[str]:
    name = panel.mount or workshop.defaults.mount
    if not (used or mount(name).on_rail):
        yield f'{surface(panel.name)} has the mount "{name}" now, whose holders hang on no rail'
    yield from _outside(panel, rail)
    yield from _of_another_profile(workshop, rail)
    for obstacle in panel.obstacles:
        if _crosses(rail, obstacle):
            yield f'the obstacle "{obstacle.name}" lies there now'
    yield from _loose(panel, rail, screwed=screwed)
    least = workshop.rail.min_gap_mm
    for other in others:
        clear = abs(rail.z_top_mm - other.z_top_mm) - rail.height_mm
        if other.shared_mm(rail) > TOLERANCE_MM and clear < least - TOLERANCE_MM:
            yield (
                f"it leaves {said.at(max(clear, 0.0))} to rail {other.name}, and [rail] asks "
                f"for a min_gap of {said.at(least)} now"
            )


def _outside(panel: Panel, rail: Rail) -> Iterator[str]:
    where = surface(panel.name)
    if rail.x1_mm > panel.width_mm + TOLERANCE_MM:
        yield (
            f"it reaches to {said.at(rail.x1_mm)}, and {where} is {said.at(panel.width_mm)} "
            f"wide now; when you saw it shorter instead, write it as {_table(panel)}"
        )
    if rail.z_top_mm > panel.height_mm + TOLERANCE_MM:
        top = f"its top edge is at {said.at(rail.z_top_mm)}"
        yield f"{top}, and {where} is {said.at(panel.height_mm)} high now"
    if rail.z_top_mm < rail.height_mm - TOLERANCE_MM:
        yield f"it reaches below {where}"


def _of_another_profile(workshop: Workshop, rail: Rail) -> Iterator[str]:
    has, asked = astuple(rail.profile), astuple(rail_profile(workshop.rail))
    if any(abs(one - other) > TOLERANCE_MM for one, other in zip(has, asked, strict=True)):
        yield f"it is {_profile(*has)}, and [rail] asks for {_profile(*asked)} now"


def _profile(height_mm: float, thickness_mm: float, bevel_deg: float) -> str:
    return (
        f"{said.mm(height_mm)} high and {said.mm(thickness_mm)} thick with a bevel of "
        f"{bevel_deg:g} degrees"
    )


def _crosses(rail: Rail, obstacle: Obstacle) -> bool:
    x, z = obstacle.x_mm, obstacle.z_mm
    return overlap(rail.strip, (x, x + obstacle.width_mm, z, z + obstacle.height_mm))


def _loose(panel: Panel, rail: Rail, *, screwed: bool) -> Iterator[str]:
    """Yield why a rail is not held by two studs any more.

    One that was put up where it meets fewer is held otherwise, and the document does not say how.
    """
    if not panel.places_known or (screwed and len(rail.studs_mm) < PLACES_A_RAIL):
        return
    held = held_by(panel, rail.studs_mm)
    if panel.made_of != "studs":
        if len(held) < PLACES_A_RAIL:
            yield (
                "it is held at fewer than two places; if it is fixed safely all the same, write it "
                f"as {_table(panel)}"
            )
        return
    if len(held) < PLACES_A_RAIL:
        how = "is screwed into" if screwed else "meets"
        yield (
            f"it {how} {_studs(len(held))} of the studs that the document names now; "
            f"if it is fixed safely all the same, write it as {_table(panel)}"
        )


def _table(panel: Panel) -> str:
    return "[[wall.rail]]" if panel.name == MAIN else "[[panel.rail]]"


def _studs(count: int) -> str:
    return ("none", "only one")[count]


def held_by(panel: Panel, screws_mm: Sequence[float]) -> tuple[float, ...]:
    """Return those of the screws at these x that hold: one in each stud, or all of them.

    What takes screws all over holds each that was put in.
    """
    if panel.made_of != "studs":
        return tuple(screws_mm)
    found = (
        next((x for x in sorted(screws_mm) if stud.x0_mm <= x <= stud.x1_mm), None)
        for stud in studs_of(panel)
    )
    return tuple(x for x in found if x is not None)
