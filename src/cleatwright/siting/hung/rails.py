"""Which rails hang on each panel: those of the document, and those that the ledger keeps."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from cleatwright.design.carrying import Unit
from cleatwright.siting.rails.stays import held_by, shared_mm, why_not
from cleatwright.wall.conflicts import overlap
from cleatwright.wall.model import Place, RailRun
from cleatwright.wall.moving.rail_moves import Rail
from cleatwright.wall.rails import last_number, numbered
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs


@dataclass(frozen=True)
class RailDown:
    """A rail that hangs and must come down, and why, as the end of a sentence."""

    panel: str
    name: str
    reason: str


@dataclass(frozen=True)
class PanelRails:
    """The rails that hang on one panel, each with its name.

    Args:
        document: Those of the document, which stay whatever comes.
        recorded: Those that only the ledger knows, which stay as long as everything finds a place.
        screwed_mm: The studs that still hold each of the recorded rails, by its name, where the
            ledger knows them.
        names: Rails that count as not hanging; a new one in the very place of one takes its name.
    """

    document: tuple[RailRun, ...]
    recorded: tuple[RailRun, ...]
    screwed_mm: Mapping[str, tuple[float, ...]]
    names: tuple[RailRun, ...] = ()

    @property
    def all(self) -> tuple[RailRun, ...]:
        """Return all of them."""
        return (*self.document, *self.recorded)


@dataclass(frozen=True)
class HungRails:
    """The rails that hang, panel by panel.

    Args:
        panels: The rails of every panel of the document, by its name.
        down: Those that cannot stay, whatever is arranged.
        covered: By the name of a rail of the ledger the name of a longer one of the document that
            lies there, when that is another one.
        last: The highest number that a rail has, or had before it came down.
    """

    panels: Mapping[str, PanelRails]
    down: tuple[RailDown, ...]
    covered: Mapping[str, str]
    last: int


def hung_rails(
    workshop: Workshop,
    recorded: Sequence[HungRail],
    units: Sequence[Unit],
    *,
    afresh: bool = False,
) -> HungRails:
    """Return which rails hang, and which of those in the ledger can no longer stay.

    A rail of the document that lies on one of the ledger is that rail, and the document says
    where it is.

    Args:
        workshop: The document.
        recorded: The rails of the ledger, in any order.
        units: What shall hang.
        afresh: As if the rails of the ledger did not hang.
    """
    ordered = sorted(recorded, key=lambda rail: rail.order)
    last = last_number(rail.name for rail in ordered)
    panels: dict[str, PanelRails] = {}
    down: list[RailDown] = []
    covered: dict[str, str] = {}
    for panel in workshop.surfaces():
        own = [rail for rail in ordered if rail.panel == panel.name]
        document, under = _of_document(panel, own, height_mm=workshop.rail.height_mm, after=last)
        covered |= under
        last = max(last, last_number(run.name for run in document))
        told = {*under, *(run.name for run in document)}
        rest = [rail for rail in own if rail.name not in told]
        used = any(u.outer.part.hanging.on_rail for u in units if u.planned.panel == panel.name)
        stays, gone = _of_ledger(workshop, panel, rest, document=document, used=used)
        down += gone
        runs = tuple(rail_of(rail).run for rail in stays)
        panels[panel.name] = (
            PanelRails(document, (), MappingProxyType({}), runs)
            if afresh
            else PanelRails(document, runs, _screwed(panel, stays))
        )
    known = {panel.name for panel in workshop.surfaces()}
    down += [
        RailDown(rail.panel, rail.name, f'the document has no panel "{rail.panel}" any more')
        for rail in ordered
        if rail.panel not in known
    ]
    return HungRails(MappingProxyType(panels), tuple(down), MappingProxyType(covered), last)


def as_told(hung: WhatHangs, rails: HungRails) -> WhatHangs:
    """Return what hangs, with holders as high as the document tells the rail on which they hang.

    Whoever measures a rail again does not move what hangs on it.
    """
    tops = {run.name: run.z_top_mm for panel in rails.panels.values() for run in panel.document}

    def told(holder: HungEntry) -> HungEntry:
        for rail in hung.rails:
            top = tops.get(rails.covered.get(rail.name, rail.name))
            if top is not None and carries(rail, holder):
                return replace(holder, z_mm=top + holder.z_mm - rail.z_top_mm)
        return holder

    return replace(hung, holders=tuple(told(holder) for holder in hung.holders))


def rail_of(rail: HungRail) -> Rail:
    """Return a rail of the ledger as the wall knows it."""
    run = RailRun(rail.name, rail.z_top_mm, rail.x0_mm, rail.x1_mm, stays=True)
    return Rail(rail.panel, run)


def carries(rail: HungRail, holder: HungEntry) -> bool:
    """Return whether a holder of the ledger hangs on a rail of it."""
    return rail_of(rail).carries(holder.panel, Place(holder.name, holder.x_mm, holder.z_mm))


def _of_document(
    panel: Panel, recorded: Sequence[HungRail], *, height_mm: float, after: int
) -> tuple[tuple[RailRun, ...], Mapping[str, str]]:
    """Return the rails of the document with names, and which other recorded rails they cover.

    Each takes the name of the recorded rail of which it covers most, or a number after ``after``;
    what else it covers is that rail too, as the document tells it.
    """
    runs = [
        RailRun("", one.z_top_mm, one.x_mm, one.x_mm + one.length_mm, stays=True)
        for one in panel.rails
    ]
    meets = sorted(
        (
            (-shared_mm(run, rail), abs(run.z_top_mm - rail.z_top_mm), number, rail.order, rail)
            for number, run in enumerate(runs)
            for rail in recorded
            if _lies_on(run, rail, height_mm)
        ),
        key=lambda meeting: meeting[:-1],
    )
    taken: set[str] = set()
    for *_, number, _, rail in meets:
        if not runs[number].name and rail.name not in taken:
            runs[number] = replace(runs[number], name=rail.name)
            taken.add(rail.name)
    named = numbered(runs, after=after)
    under = {
        rail.name: next(run.name for run in named if _lies_on(run, rail, height_mm))
        for *_, rail in meets
        if rail.name not in taken
    }
    return named, under


def _lies_on(run: RailRun, rail: HungRail, height_mm: float) -> bool:
    return overlap(Rail(rail.panel, run).strip(height_mm), rail_of(rail).strip(rail.height_mm))


def _of_ledger(
    workshop: Workshop,
    panel: Panel,
    rails: Sequence[HungRail],
    *,
    document: Sequence[RailRun],
    used: bool,
) -> tuple[list[HungRail], list[RailDown]]:
    """Return the rails of the ledger that may stay on a panel, and the others with the reason."""
    stays: list[HungRail] = []
    down: list[RailDown] = []
    for rail in rails:
        others = [*document, *(rail_of(one).run for one in stays)]
        reason = why_not(workshop, panel, rail, others=others, used=used)
        if reason:
            down.append(RailDown(panel.name, rail.name, reason))
        else:
            stays.append(rail)
    return stays, down


def _screwed(panel: Panel, rails: Iterable[HungRail]) -> Mapping[str, tuple[float, ...]]:
    return MappingProxyType(
        {
            rail.name: held_by(panel, rail.studs_mm)
            for rail in rails
            if rail.studs_mm is not None and panel.studs
        }
    )
