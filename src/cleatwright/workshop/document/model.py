"""The checked document of a workshop."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cached_property
from typing import Annotated, Literal, Self, TypeVar

from pydantic import ConfigDict, Field, model_validator

from cleatwright.base.errors import DocumentError, unknown_name
from cleatwright.base.place import at
from cleatwright.workshop.document.entries import (
    MOST_SINGLE_TOOLS,
    Carrier,
    FixedPlace,
    Group,
    Holder,
    Tool,
    ToolItem,
)
from cleatwright.workshop.document.fields import DocumentTable, Name, problem, problems, row_key_of
from cleatwright.workshop.document.on_surfaces import off_its_panel, off_the_surfaces
from cleatwright.workshop.document.person import OtherPerson, Person
from cleatwright.workshop.document.references import (
    Wrong,
    beside_choices,
    carrier_choices,
    chosen,
    group_choices,
    holder_choices,
    panel_choices,
    panel_names,
    panel_of,
    people_choices,
)
from cleatwright.workshop.document.sections import (
    Count,
    Defaults,
    Drawings,
    Filament,
    Filaments,
    FitRules,
    NamedSizes,
    Printer,
    Printers,
    RailRules,
)
from cleatwright.workshop.document.surfaces import MAIN, Panel, Wall, as_the_wall, named

Units = Literal["mm", "in"]
Equipment = TypeVar("Equipment", Printer, Filament)


class Workshop(DocumentTable):
    """Everything the owner decided: walls, rails, person, printers, filaments, tools, holders.

    Built from Python, bare numbers are mm, kg and degrees; ``units`` is only the
    unit in which the owner writes and reads lengths.
    """

    model_config = ConfigDict(alias_generator=row_key_of)

    schema_version: Annotated[Count, Field(alias="schema", ge=1, le=1)] = 1
    name: Name
    units: Units = "mm"
    wall: Wall
    panels: Annotated[tuple[Panel, ...], Field(max_length=50)] = ()
    rail: RailRules = RailRules()
    person: Person = Person()
    other_persons: Annotated[tuple[OtherPerson, ...], Field(max_length=50)] = ()
    drawings: Drawings = Drawings()
    printers: Printers = ()
    filaments: Filaments = ()
    fit: FitRules = FitRules()
    defaults: Defaults = Defaults()
    mounts: NamedSizes = ()
    joints: NamedSizes = ()
    tools: Annotated[tuple[Tool, ...], Field(max_length=MOST_SINGLE_TOOLS)] = ()
    holders: Annotated[tuple[Holder, ...], Field(max_length=1_000)] = ()
    carriers: Annotated[tuple[Carrier, ...], Field(max_length=200)] = ()
    groups: Annotated[tuple[Group, ...], Field(max_length=200)] = ()

    @model_validator(mode="after")
    def _parts_agree(self) -> Self:
        _require_countable(self.tools)
        items, surfaces = self.items(), self.surfaces()
        wrong = [
            *_names_used_twice(self),
            *_unknown_defaults(self),
            *panel_names(self.panels),
            *off_the_surfaces(surfaces, self.rail),
            *holder_choices(self.holders, items),
            *carrier_choices(self.carriers, self.holders),
            *group_choices(self.groups, items),
            *panel_choices(
                self.panels,
                tools=self.tools,
                holders=self.holders,
                carriers=self.carriers,
                items=items,
            ),
            *people_choices(self.people, tools=self.tools, groups=self.groups),
            *beside_choices(surfaces, self.tools),
            *_off_their_panels(self, surfaces),
        ]
        if wrong:
            raise problems(wrong)
        return self

    @cached_property
    def single_tools(self) -> tuple[ToolItem, ...]:
        """Every single tool, in the order of the document."""
        return tuple(item for tool in self.tools for item in self.items_in(tool))

    def items_in(self, tool: Tool) -> tuple[ToolItem, ...]:
        """Return every single tool of an entry; what it does not say of people its group does."""
        group = next((one for one in self.groups if one.name == tool.group), None)
        if tool.taken_by or group is None or not group.taken_by:
            return tuple(tool.items())
        return tuple(replace(item, taken_by=group.taken_by) for item in tool.items())

    @property
    def people(self) -> tuple[Person, ...]:
        """Return the person of ``[person]``, and then the others."""
        return (self.person, *self.other_persons)

    def items(self) -> tuple[ToolItem, ...]:
        """Return every single tool, in the order of the document."""
        return self.single_tools

    def items_of(self, holder: Holder) -> tuple[ToolItem, ...]:
        """Return the single tools that share a holder of this document.

        A name in ``holder.tools`` is that of an entry, which gives all its single
        tools, or that of one single tool.
        """
        return chosen(holder, self.items())

    def free_items(self) -> tuple[ToolItem, ...]:
        """Return the single tools that no holder of the document claims."""
        items = self.items()
        taken = {item.name for holder in self.holders for item in chosen(holder, items)}
        return tuple(item for item in items if item.name not in taken)

    def carrier(self, name: str) -> Carrier:
        """Return the carrier of a name; the checked document has it."""
        return next(carrier for carrier in self.carriers if carrier.name == name)

    @cached_property
    def all_panels(self) -> tuple[Panel, ...]:
        """The wall, as the panel of the name ``wall``, and then the other panels."""
        return (named(self.wall), *(as_the_wall(one, self.wall) for one in self.panels))

    def surfaces(self) -> tuple[Panel, ...]:
        """Return the wall, as the panel of the name ``wall``, and then the other panels."""
        return self.all_panels

    def surface(self, name: str = MAIN) -> Panel:
        """Return the wall or a panel by its name.

        Raises:
            UnknownNameError: There is no such panel.
        """
        found = next((panel for panel in self.surfaces() if panel.name == name), None)
        if found is None:
            raise unknown_name("panel", name, [panel.name for panel in self.surfaces()])
        return found

    def panel_of(self, row: Holder | Carrier | ToolItem) -> str:
        """Return the name of the panel on which a holder, a carrier or a single tool hangs.

        It is the one that the holder, its carrier or one of their tools names, and else the
        wall. A tool in a holder of the document hangs where that holder hangs.
        """
        items = self.items()
        if isinstance(row, ToolItem):
            holder = next((one for one in self.holders if row in chosen(one, items)), None)
            if holder is None:
                return row.panel or MAIN
            row = holder
        return panel_of(row, holders=self.holders, carriers=self.carriers, items=items)

    def sizes_of(self, what: Literal["mount", "joint"], name: str) -> dict[str, float]:
        """Return the measures that the document gives for a mount or a joint."""
        tables = self.mounts if what == "mount" else self.joints
        found = next((one for one in tables if one.name == name), None)
        return found.params.as_dict() if found else {}

    def printer(self, name: str | None = None) -> Printer:
        """Return a printer by name, or the default one.

        Raises:
            UnknownNameError: There is no such printer.
            DocumentError: The document has no printer at all.
        """
        return _wanted("printer", name or self.defaults.printer, self.printers)

    def filament(self, name: str | None = None) -> Filament:
        """Return a filament by name, or the default one.

        Raises:
            UnknownNameError: There is no such filament.
            DocumentError: The document has no filament at all.
        """
        return _wanted("filament", name or self.defaults.filament, self.filaments)


def _wanted(what: str, name: str | None, tables: tuple[Equipment, ...]) -> Equipment:
    """Return the table of a name, or the first one when no name is given."""
    for table in tables:
        if name in {None, table.name}:
            return table
    if not tables:
        raise DocumentError(
            f"The workshop has no {what}",
            place=at(what, spoken="named"),
            todo=f"Add a table [{what}.NAME]",
        )
    names = [table.name for table in tables]
    raise unknown_name(what, str(name), names, place=at("defaults", what))


def _require_countable(tools: tuple[Tool, ...]) -> None:
    """Refuse entries that stand for more single tools than can be planned."""
    single = sum(tool.single_tools for tool in tools)
    if single > MOST_SINGLE_TOOLS:
        fault = problem(
            f"The tools, each as often as its count or its sizes say, are {single} in all",
            allowed=f"up to {MOST_SINGLE_TOOLS} single tools in a workshop",
            todo="Lower a count, or make two workshops",
        )
        raise problems([(("tool",), single, fault)])


def _names_used_twice(workshop: Workshop) -> list[Wrong]:
    """Return every tool whose name, or the name of one of its single tools, is taken before."""
    wrong: list[Wrong] = []
    taken: dict[str, int] = {}
    for index, tool in enumerate(workshop.tools):
        own = Counter([item.name for item in tool.items()])
        twice = sorted(name for name, times in own.items() if times > 1 or name in taken)
        if tool.name in taken and tool.name not in twice:
            twice.append(tool.name)
        if twice:
            earlier = taken.get(twice[0])
            fault = problem(
                f'The name "{twice[0]}" is used twice',
                todo="Give each tool a name of its own",
                also=() if earlier is None else (("tool", earlier, "name"),),
            )
            wrong.append((("tool", index, "name"), tool.name, fault))
        taken = dict.fromkeys((tool.name, *own), index) | taken
    for key, rows in (("printer", workshop.printers), ("filament", workshop.filaments)):
        for index, row in enumerate(rows):
            if row.name in {other.name for other in rows[:index]}:
                wrong.append(((key, index), row.name, problem("The name is used twice")))
    return wrong


def _unknown_defaults(workshop: Workshop) -> list[Wrong]:
    """Return the default printer and filament that the document does not have."""
    wrong: list[Wrong] = []
    for key, given, rows in (
        ("printer", workshop.defaults.printer, workshop.printers),
        ("filament", workshop.defaults.filament, workshop.filaments),
    ):
        names = [row.name for row in rows]
        if given is not None and given not in names:
            error = unknown_name(key, given, names, place=at(key))
            fault = problem(error.given, allowed=error.allowed, todo=error.todo, line=error.line)
            wrong.append((("defaults", key), given, fault))
    return wrong


def _off_their_panels(workshop: Workshop, surfaces: tuple[Panel, ...]) -> list[Wrong]:
    """Return fixed places outside the panel of their holder or carrier."""
    panels = {panel.name: panel for panel in surfaces}
    items, holders, carriers = workshop.items(), workshop.holders, workshop.carriers
    placed: list[tuple[str, int, FixedPlace, Holder | Carrier]] = [
        (key, index, row.place, row)
        for key, rows in (("holder", holders), ("carrier", carriers))
        for index, row in enumerate(rows)
        if row.place is not None
    ]
    wrong: list[Wrong] = []
    for key, index, place, row in placed:
        name = panel_of(row, holders=holders, carriers=carriers, items=items)
        if name in panels:
            number = list(panels).index(name)
            surface = (MAIN,) if number == 0 else ("panel", number - 1)
            wrong += off_its_panel(place, panels[name], at=(key, index), surface=surface)
    return wrong
