"""From built units to arranged walls: every panel of a workshop, one after the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.kernels.mesh import MeshKernel
from cleatwright.services.arranging import Words, arranged, numbered_on
from cleatwright.services.carrying import Unit
from cleatwright.services.panel_job import PanelJob
from cleatwright.services.progress import Progress
from cleatwright.services.walls import (
    crossings_of,
    rail_rule,
    reach_on,
    spots_of,
    wall_item,
    wall_space,
)
from cleatwright.wall.arrange import default_rounds
from cleatwright.wall.asking.remedies import Panel as OtherPanel
from cleatwright.wall.model import Item, Place
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.surfaces import MAIN, Panel


@dataclass(frozen=True)
class Wishes:
    """What shall hang, and what is asked of the walls.

    Args:
        workshop: The document.
        units: Everything that shall hang.
        hangs: Where units hang already, by their keys.
        where: The place of the document, for messages.
        effort: How many times as long as usual each wall is searched, >= 1.
    """

    workshop: Workshop
    units: tuple[Unit, ...]
    hangs: Mapping[str, Place]
    where: str
    effort: int = 1


def hang_up(wishes: Wishes, kernel: MeshKernel, progress: Progress) -> tuple[PanelJob, ...]:
    """Return the wall, and every further panel on which something hangs, arranged.

    Raises:
        WallError: Something finds no place; the message says what would help.
    """
    items = _items(wishes, kernel)
    keys = [planned.key for unit in wishes.units for planned in unit.planned.holders]
    numbers = MappingProxyType({key: n for n, key in enumerate(keys, 1)})
    panels: list[PanelJob] = []
    for panel in wishes.workshop.surfaces():
        if panel.name != MAIN and not items[panel.name]:
            continue
        rails = sum(len(one.arrangement.rails) for one in panels)
        space, rule = wall_space(panel), rail_rule(wishes.workshop)
        band = reach_on(wishes.workshop, panel)
        own = items[panel.name]
        arrangement = arranged(
            space,
            rule,
            own,
            band=band,
            words=Words(
                wishes.where if panel.name == MAIN else f'{wishes.where}, panel "{panel.name}"',
                {unit.planned.key: unit.planned.name for unit in wishes.units},
            ),
            others=_others(wishes.workshop, panel, items),
            rounds=wishes.effort * default_rounds(len(own)),
            progress=progress,
        )
        arrangement = numbered_on(arrangement, rails)
        units = tuple(unit for unit in wishes.units if unit.planned.panel == panel.name)
        panels.append(
            PanelJob(
                workshop=wishes.workshop,
                panel=panel,
                units=units,
                numbers=numbers,
                items=own,
                space=space,
                rule=rule,
                band=band,
                arrangement=arrangement,
                spots=spots_of(units, arrangement),
                crossings=crossings_of(space, arrangement),
                kernel=kernel,
            )
        )
    return tuple(panels)


def _items(wishes: Wishes, kernel: MeshKernel) -> Mapping[str, tuple[Item, ...]]:
    """Return the units as the walls see them, by the names of the panels."""
    ordered = {group.name for group in wishes.workshop.groups if group.in_order}
    found: dict[str, list[Item]] = {panel.name: [] for panel in wishes.workshop.surfaces()}
    for rank, unit in enumerate(wishes.units):
        hangs = wishes.hangs.get(unit.planned.key)
        found[unit.planned.panel].append(
            wall_item(
                unit,
                kernel,
                rank=rank if unit.planned.group in ordered else None,
                hangs_at=None if hangs is None else (hangs.x_mm, hangs.z_mm),
            )
        )
    return {name: tuple(items) for name, items in found.items()}


def _others(
    workshop: Workshop, panel: Panel, items: Mapping[str, Sequence[Item]]
) -> Mapping[str, OtherPanel]:
    """Return the other panels on which a holder made for this one could hang as it is."""

    def mount(one: Panel) -> str:
        return one.mount or workshop.defaults.mount

    return {
        one.name: (wall_space(one), rail_rule(workshop), tuple(items[one.name]))
        for one in workshop.surfaces()
        if one.name != panel.name and mount(one) == mount(panel)
    }
