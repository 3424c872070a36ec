"""The checked document of a workshop."""

from __future__ import annotations

from collections import Counter
from typing import Annotated, Literal, Self, TypeVar

from pydantic import ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from cleatwright.base.errors import DocumentError, unknown_name
from cleatwright.workshop.entries import Carrier, Holder, Tool, ToolItem
from cleatwright.workshop.fields import Name, Table, problem, problems, row_key_of
from cleatwright.workshop.sections import (
    Count,
    Defaults,
    Filament,
    Filaments,
    FitRules,
    NamedSizes,
    Printer,
    Printers,
    RailRules,
    Wall,
)

Units = Literal["mm", "in"]
Equipment = TypeVar("Equipment", Printer, Filament)
Wrong = tuple[tuple[str | int, ...], object, PydanticCustomError]


class Workshop(Table):
    """Everything the owner decided: wall, rails, printers, filaments, tools and holders.

    Built from Python, bare numbers are mm, kg and degrees; ``units`` is only the
    unit in which the owner writes and reads lengths.
    """

    model_config = ConfigDict(alias_generator=row_key_of)

    schema_version: Annotated[Count, Field(alias="schema", ge=1, le=1)] = 1
    name: Name
    units: Units = "mm"
    wall: Wall
    rail: RailRules = RailRules()
    printers: Printers = ()
    filaments: Filaments = ()
    fit: FitRules = FitRules()
    defaults: Defaults = Defaults()
    mounts: NamedSizes = ()
    joints: NamedSizes = ()
    tools: Annotated[tuple[Tool, ...], Field(max_length=1_000)] = ()
    holders: Annotated[tuple[Holder, ...], Field(max_length=1_000)] = ()
    carriers: Annotated[tuple[Carrier, ...], Field(max_length=200)] = ()

    @model_validator(mode="after")
    def _parts_agree(self) -> Self:
        wrong = [
            *_names_used_twice(self),
            *_unknown_defaults(self),
            *_off_the_wall(self),
            *_holder_choices(self),
            *_carrier_choices(self),
        ]
        if wrong:
            raise problems(wrong)
        return self

    def items(self) -> tuple[ToolItem, ...]:
        """Return every single tool, in the order of the document."""
        return tuple(item for tool in self.tools for item in tool.items())

    def items_of(self, holder: Holder) -> tuple[ToolItem, ...]:
        """Return the single tools that share a holder of this document.

        A name in ``holder.tools`` is that of an entry, which gives all its single
        tools, or that of one single tool.
        """
        return _chosen(holder, self.items())

    def free_items(self) -> tuple[ToolItem, ...]:
        """Return the single tools that no holder of the document claims."""
        items = self.items()
        taken = {item.name for holder in self.holders for item in _chosen(holder, items)}
        return tuple(item for item in items if item.name not in taken)

    def carrier(self, name: str) -> Carrier:
        """Return the carrier of a name; the checked document has it."""
        return next(carrier for carrier in self.carriers if carrier.name == name)

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


def _chosen(holder: Holder, items: tuple[ToolItem, ...]) -> tuple[ToolItem, ...]:
    """Return the tools of a holder: those of its group, or those it names, in its order."""
    if holder.group is not None:
        return tuple(item for item in items if item.group == holder.group)
    found: dict[str, list[ToolItem]] = {name: [] for name in holder.tools}
    for item in items:
        for name in sorted({item.name, item.tool}):
            if name in found:
                found[name].append(item)
    return tuple(item for name in holder.tools for item in found[name])


def _wanted(what: str, name: str | None, tables: tuple[Equipment, ...]) -> Equipment:
    """Return the table of a name, or the first one when no name is given."""
    for table in tables:
        if name in {None, table.name}:
            return table
    if not tables:
        raise DocumentError(f"The workshop has no {what}", todo=f"Add a table [{what}.NAME]")
    raise unknown_name(what, str(name), [table.name for table in tables])


def _names_used_twice(workshop: Workshop) -> list[Wrong]:
    """Return every tool whose name, or the name of one of its single tools, is taken before."""
    wrong: list[Wrong] = []
    taken: set[str] = set()
    for index, tool in enumerate(workshop.tools):
        own = Counter([item.name for item in tool.items()])
        twice = sorted(name for name, times in own.items() if times > 1 or name in taken)
        if tool.name in taken and tool.name not in twice:
            twice.append(tool.name)
        if twice:
            told = problem(
                f'The name "{twice[0]}" is used twice', todo="Give each tool a name of its own"
            )
            wrong.append((("tool", index, "name"), tool.name, told))
        taken |= {tool.name, *own}
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
            error = unknown_name(key, given, names)
            told = problem(error.given, allowed=error.allowed, todo=error.todo)
            wrong.append((("defaults", key), given, told))
    return wrong


def _off_the_wall(workshop: Workshop) -> list[Wrong]:
    """Return what starts outside the wall."""
    wall = workshop.wall
    spots: list[tuple[tuple[str | int, ...], float, float]] = []
    for index, obstacle in enumerate(wall.obstacles):
        spots.append((("wall", "obstacle", index, "x"), obstacle.x_mm, wall.width_mm))
        spots.append((("wall", "obstacle", index, "z"), obstacle.z_mm, wall.height_mm))
        right, top = obstacle.x_mm + obstacle.width_mm, obstacle.z_mm + obstacle.height_mm
        spots.append((("wall", "obstacle", index, "width"), right, wall.width_mm))
        spots.append((("wall", "obstacle", index, "height"), top, wall.height_mm))
    for index, stud in enumerate(wall.studs):
        spots.append((("wall", "stud", index, "x"), stud.x_mm, wall.width_mm))
    for key, rows in (("holder", workshop.holders), ("carrier", workshop.carriers)):
        for index, row in enumerate(rows):
            if row.place is not None:
                spots.append(((key, index, "place", "x"), row.place.x_mm, wall.width_mm))
                spots.append(((key, index, "place", "z"), row.place.z_mm, wall.height_mm))
    return [
        (
            place,
            at_mm,
            problem(f"{at_mm:g} mm lies outside the wall", allowed=f"from 0 mm to {size_mm:g} mm"),
        )
        for place, at_mm, size_mm in spots
        if at_mm > size_mm
    ]


def _holder_choices(workshop: Workshop) -> list[Wrong]:
    """Return holders that ask for tools that are unknown or already in another holder."""
    wrong: list[Wrong] = []
    items = workshop.items()
    names = {item.name for item in items} | {item.tool for item in items}
    groups = sorted({item.group for item in items if item.group is not None})
    taken: dict[str, int] = {}
    for index, holder in enumerate(workshop.holders):
        for place, name in enumerate(holder.tools):
            if name not in names:
                error = unknown_name("tool", name, names)
                told = problem(error.given, todo=error.todo or "Add the tool or mend the name")
                wrong.append((("holder", index, "tools", place), name, told))
        if holder.group is not None and holder.group not in groups:
            error = unknown_name("group", holder.group, groups)
            todo = error.todo or "Give a tool this group, or name the tools"
            told = problem(error.given, allowed=error.allowed, todo=todo)
            wrong.append((("holder", index, "group"), holder.group, told))
        key = "tools" if holder.tools else "group"
        for item in _chosen(holder, items):
            if item.name in taken:
                told = problem(
                    f'The tool "{item.name}" is already in holder number {taken[item.name] + 1}',
                    todo="Name it in one holder only",
                )
                wrong.append((("holder", index, key), item.name, told))
            taken.setdefault(item.name, index)
    return wrong


def _carrier_choices(workshop: Workshop) -> list[Wrong]:
    """Return carriers of one name, those that no holder names, and those that are not there."""
    wrong: list[Wrong] = []
    names = [carrier.name for carrier in workshop.carriers]
    wanted = {holder.carrier for holder in workshop.holders}
    for index, name in enumerate(names):
        if name in names[:index]:
            wrong.append((("carrier", index, "name"), name, problem("The name is used twice")))
        elif name not in wanted:
            told = problem(
                f'No holder hangs on the carrier "{name}"',
                todo=f'Write carrier = "{name}" in a [[holder]], or delete the [[carrier]]',
            )
            wrong.append((("carrier", index, "name"), name, told))
    for index, holder in enumerate(workshop.holders):
        if holder.carrier is not None and holder.carrier not in names:
            error = unknown_name("carrier", holder.carrier, names)
            todo = error.todo or "Add a [[carrier]] of this name"
            told = problem(error.given, allowed=error.allowed, todo=todo)
            wrong.append((("holder", index, "carrier"), holder.carrier, told))
    return wrong
