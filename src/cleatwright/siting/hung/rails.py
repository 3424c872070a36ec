"""Which rails hang on each panel: those of the document, and those that the ledger keeps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from cleatwright.design.carrying import Unit
from cleatwright.siting.rails.ground import ground_of, rows_of
from cleatwright.siting.rails.stays import held_by, why_not
from cleatwright.siting.walls import rail_profile
from cleatwright.wall.conflicts import overlap
from cleatwright.wall.rail import Profile, Rail, State
from cleatwright.wall.rails import last_number, numbered
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.made_wall import MadeWall


@dataclass(frozen=True)
class HungRails:
    """The rails that hang, on all panels.

    Args:
        rails: All of them; those of the ledger that lie on one of the document are that one.
        covered: By the number of a rail of the ledger the number of a longer one of the document
            that lies there, when that is another one.
    """

    rails: tuple[Rail, ...]
    covered: Mapping[int, int]

    def on(self, panel: str, *states: State) -> tuple[Rail, ...]:
        """Return the rails of a panel that are in one of some states."""
        return tuple(one for one in self.rails if one.panel == panel and one.state in states)

    @property
    def down(self) -> tuple[Rail, ...]:
        """Return those that cannot stay, whatever is arranged."""
        return tuple(one for one in self.rails if one.state == "down")

    @property
    def last(self) -> int:
        """Return the highest number that a rail has, or had before it came down."""
        return max(last_number(self.rails), *self.covered, 0)


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
    ordered = sorted(recorded, key=lambda row: row.order)
    last = max((row.number for row in ordered), default=0)
    found: list[Rail] = []
    covered: dict[int, int] = {}
    for panel in workshop.surfaces():
        own = [row for row in ordered if row.panel == panel.name]
        document, under = _of_document(workshop, panel, own, after=last)
        covered |= under
        last = max(last, last_number(document))
        told = {*under, *(rail.number for rail in document)}
        rest = [row for row in own if row.number not in told]
        used = any(u.outer.part.hanging.on_rail for u in units if u.planned.panel == panel.name)
        ledger = _of_ledger(workshop, panel, rest, document=document, used=used)
        found += document
        found += (replace(r, state="set aside") if afresh and r.stays else r for r in ledger)
    known = {panel.name for panel in workshop.surfaces()}
    found += (
        from_ledger(row).down(f'the document has no panel "{row.panel}" any more')
        for row in ordered
        if row.panel not in known
    )
    return HungRails(tuple(found), MappingProxyType(covered))


def without_those_given_up(rails: HungRails, made: MadeWall) -> HungRails:
    """Return the rails, those set aside that hang and were to come down by the last papers."""
    walls, kept = dict(made.bases), {rail.number for rail in made.rails}
    return replace(
        rails,
        rails=tuple(
            replace(one, state="set aside")
            if one.state == "recorded" and one.panel in walls and one.number not in kept
            else one
            for one in rails.rails
        ),
    )


def as_told(hung: WhatHangs, rails: HungRails) -> WhatHangs:
    """Return what hangs, with holders as high as the document tells the rail on which they hang.

    Whoever measures a rail again does not move what hangs on it.
    """
    tops = {rail.number: rail.z_top_mm for rail in rails.rails if rail.state == "document"}

    def told(holder: HungEntry) -> HungEntry:
        for row in hung.rails:
            top = tops.get(rails.covered.get(row.number, row.number))
            if top is not None and carries(row, holder):
                return replace(holder, z_mm=top + holder.z_mm - row.z_top_mm)
        return holder

    return replace(hung, holders=tuple(told(holder) for holder in hung.holders))


def from_ledger(row: HungRail) -> Rail:
    """Return a rail of the ledger as the wall knows it, with the screws that the ledger knows."""
    return Rail(
        row.number,
        row.z_top_mm,
        row.x0_mm,
        row.x1_mm,
        Profile(row.height_mm, row.thickness_mm, row.bevel_deg),
        panel=row.panel,
        studs_mm=row.studs_mm or (),
        state="recorded",
    )


def to_ledger(rail: Rail, *, since: str, screwed: bool) -> HungRail:
    """Return what the ledger keeps of a rail that hangs.

    Args:
        rail: The rail.
        since: ISO date since which it hangs so.
        screwed: True when it is known into which studs it is screwed.
    """
    return HungRail(
        panel=rail.panel,
        name=rail.name,
        z_top_mm=rail.z_top_mm,
        x0_mm=rail.x0_mm,
        x1_mm=rail.x1_mm,
        height_mm=rail.profile.height_mm,
        thickness_mm=rail.profile.thickness_mm,
        bevel_deg=rail.profile.bevel_deg,
        studs_mm=rail.studs_mm if screwed else None,
        since=since,
    )


def carries(row: HungRail, holder: HungEntry) -> bool:
    """Return whether a holder of the ledger hangs on a rail of it."""
    return from_ledger(row).is_under(holder.panel, holder.x_mm, holder.z_mm)


def _of_document(
    workshop: Workshop, panel: Panel, recorded: Sequence[HungRail], *, after: int
) -> tuple[tuple[Rail, ...], Mapping[int, int]]:
    """Return the rails of the document with numbers, and which other recorded rails they cover.

    Each takes the number of the recorded rail of which it covers most, or one after ``after``;
    what else it covers is that rail too, as the document tells it.
    """
    profile = rail_profile(workshop.rail)
    rails = [
        _screwed(
            panel,
            Rail(0, one.z_top_mm, one.x_mm, one.x_mm + one.length_mm, profile, panel.name),
            state="document",
        )
        for one in panel.rails
    ]
    known = [from_ledger(row) for row in recorded]
    meets = sorted(
        (
            (-rail.shared_mm(one), abs(rail.z_top_mm - one.z_top_mm), place, *one.order, one.number)
            for place, rail in enumerate(rails)
            for one in known
            if overlap(rail.strip, one.strip)
        ),
    )
    taken: set[int] = set()
    for *_, place, _, _, _, number in meets:
        if not rails[place].number and number not in taken:
            rails[place] = replace(rails[place], number=number)
            taken.add(number)
    named = numbered(rails, after=after)
    under = {
        one.number: next(rail.number for rail in named if overlap(rail.strip, one.strip))
        for one in known
        if one.number not in taken and any(overlap(rail.strip, one.strip) for rail in named)
    }
    return named, under


def _screwed(panel: Panel, rail: Rail, *, state: State) -> Rail:
    """Return a rail with the screws that it has by what its panel is made of."""
    ground = ground_of(panel, z_top_mm=rail.z_top_mm, height_mm=rail.height_mm)
    return replace(
        _rowed(panel, rail), studs_mm=ground.columns((rail.x0_mm, rail.x1_mm)), state=state
    )


def _rowed(panel: Panel, rail: Rail) -> Rail:
    """Return a rail with its rows of screws where its panel has them."""
    rows = rows_of(panel, z_top_mm=rail.z_top_mm, height_mm=rail.height_mm)
    return replace(rail, rows=rows)


def _of_ledger(
    workshop: Workshop,
    panel: Panel,
    rows: Sequence[HungRail],
    *,
    document: Sequence[Rail],
    used: bool,
) -> Iterator[Rail]:
    """Yield the rails of the ledger on a panel, those that may not stay as such that come down."""
    stays = list(document)
    for row in rows:
        screwed, rail = row.studs_mm is not None, _rowed(panel, from_ledger(row))
        if not screwed:
            rail = _screwed(panel, rail, state="recorded")
        why = why_not(workshop, panel, rail, others=stays, used=used, screwed=screwed)
        if why:
            yield rail.down(why)
            continue
        held = held_by(panel, rail.studs_mm) if screwed else rail.studs_mm
        rail = replace(rail, studs_mm=held)
        stays.append(rail)
        yield rail
