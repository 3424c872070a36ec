"""The people of a workshop: who takes what, where each reaches, and what children must not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

from cleatwright.base.keys import fields_key
from cleatwright.design.equipment import OwnedTool
from cleatwright.siting.written_at import written_at
from cleatwright.standards.people.ada_reach import child_range_mm, seated_range_mm
from cleatwright.standards.people.overhead import touched_mm
from cleatwright.wall.reach import PersonReach, ReachBand, band_of, person
from cleatwright.wall.shared_reach import NamedBand, SharedReach, shared_reach
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import person_path
from cleatwright.workshop.document.person import Person
from cleatwright.workshop.document.surfaces import Panel


@dataclass(frozen=True)
class KnownPerson:
    """One person.

    Args:
        name: What the person is called.
        reach: The measures; of a child of an age those of a small one.
        child: Whether things are kept from it.
        age: Of a child whose stature nobody wrote, in whole years, or None.
        touches_mm: How high the fingertips come, standing; of a child of an age those of a tall
            one.
        seated: Whether the person sits.
        arm_measured: Whether somebody measured how far the arm reaches.
    """

    name: str
    reach: PersonReach
    child: bool
    age: int | None
    touches_mm: float
    seated: bool = False
    arm_measured: bool = False


@dataclass(frozen=True)
class People:
    """Everybody of a workshop, in the order of the document."""

    everybody: tuple[KnownPerson, ...]

    @cached_property
    def content_key(self) -> str:
        """The content key of all of them."""
        return fields_key(self)

    @property
    def several(self) -> bool:
        """Return whether there is more than one."""
        return len(self.everybody) > 1

    def takers(self, taken_by: Iterable[str] = ()) -> tuple[KnownPerson, ...]:
        """Return who takes a tool: who is named, else every adult, else everybody."""
        named = set(taken_by)
        if named:
            return tuple(one for one in self.everybody if one.name in named)
        return tuple(one for one in self.everybody if not one.child) or self.everybody

    def takers_of_any(self, tools: Iterable[OwnedTool]) -> tuple[KnownPerson, ...]:
        """Return who takes one or more of some tools."""
        found = {one.name for tool in tools for one in self.takers(tool.taken_by)}
        return tuple(one for one in self.everybody if one.name in found)

    def kept_off(self, taken_by: Iterable[str] = ()) -> tuple[KnownPerson, ...]:
        """Return the children that do not take a tool."""
        takers = {one.name for one in self.takers(taken_by)}
        return tuple(one for one in self.everybody if one.child and one.name not in takers)


def people_of(workshop: Workshop) -> People:
    """Return the people of a document with every measure."""
    several = len(workshop.people) > 1
    return People(tuple(_known(one, named=several) for one in workshop.people))


def reach_person(wanted: Person, *, named: bool = False) -> PersonReach:
    """Return a person of the document with every measure; a child of an age is a small one.

    Args:
        wanted: The person.
        named: Whether what is said of the reach names the person.
    """
    return person(
        wanted.least_mm,
        elbow_mm=wanted.elbow_height_mm,
        shoulder_mm=wanted.shoulder_height_mm,
        arm_mm=wanted.arm_reach_mm,
        hand=wanted.hand,
        name=wanted.name if named else "",
        lower_mm=wanted.lower_mm,
    )


def _known(wanted: Person, *, named: bool) -> KnownPerson:
    return KnownPerson(
        name=wanted.name,
        reach=reach_person(wanted, named=named),
        child=wanted.child,
        age=None if wanted.is_measured else wanted.age,
        touches_mm=touched_mm(wanted.most_mm),
        seated=wanted.seated,
        arm_measured=wanted.arm_reach_mm is not None,
    )


@dataclass(frozen=True)
class PanelPeople:
    """Where the people of a workshop reach on one panel.

    Args:
        people: Everybody.
        reaches: The reach of each who takes something; who takes nothing may be missing.
    """

    people: People
    reaches: tuple[NamedBand, ...]

    @cached_property
    def content_key(self) -> str:
        """The content key of all of it."""
        return fields_key(self)

    @cached_property
    def bands(self) -> Mapping[str, ReachBand]:
        """The reach of each who takes something, by name."""
        return MappingProxyType({one.name: one.band for one in self.reaches})

    def shared(self, takers: Iterable[KnownPerson]) -> SharedReach:
        """Return where all of some people reach who take something."""
        names = {one.name for one in takers}
        return shared_reach([one for one in self.reaches if one.name in names])

    @property
    def usual(self) -> SharedReach:
        """Return where those reach who take what names nobody."""
        return self.shared(self.people.takers())

    def taken(self, tools: Iterable[OwnedTool]) -> SharedReach | None:
        """Return where those reach who take some tools; None where there is but one person."""
        if not self.people.several:
            return None
        return self.shared(self.people.takers_of_any(tools))


def on_panel(workshop: Workshop, panel: Panel) -> PanelPeople:
    """Return where the people of a document reach on a panel.

    Raises:
        WallError: The hand of one who takes something does not reach it over the bench.
    """
    people = people_of(workshop)
    named = {name for item in workshop.items() for name in item.taken_by}
    wanted = named | {one.name for one in people.takers()}
    reaches: list[NamedBand] = []
    for one in people.everybody:
        if one.name in wanted:
            with written_at(workshop, panel, person=person_path(workshop, one.name)):
                reaches.append(NamedBand(one.name, _band(one, panel), one.reach.hand))
    return PanelPeople(people, tuple(reaches))


def _band(one: KnownPerson, panel: Panel) -> ReachBand:
    band = band_of(
        one.reach,
        bench_depth_mm=panel.bench_depth_mm,
        bench_height_mm=panel.bench_height_mm,
        stand_x_mm=panel.stands_at_mm,
    )
    public = None if one.age is None else child_range_mm(one.age)
    if public is not None:
        band = narrowed(band, *public)
    # what somebody measured goes before what a code takes of everybody
    if one.seated and not one.arm_measured:
        band = narrowed(band, *seated_range_mm(panel.bench_depth_mm))
    return band


def narrowed(band: ReachBand, lowest_mm: float, highest_mm: float) -> ReachBand:
    """Return a reach that goes no lower and no higher, unless nothing is left of it."""
    lowest, highest = max(band.lowest_mm, lowest_mm), min(band.highest_mm, highest_mm)
    if lowest >= highest:
        return band
    low = min(max(band.low_mm, lowest), highest)
    return replace(
        band,
        low_mm=low,
        high_mm=max(min(band.high_mm, highest), low),
        lowest_mm=lowest,
        highest_mm=highest,
    )
