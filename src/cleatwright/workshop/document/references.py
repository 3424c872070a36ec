"""Whether tools, holders, carriers, groups and panels of a document name each other rightly."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from pydantic_core import PydanticCustomError

from cleatwright.base.errors import nearest, unknown_name
from cleatwright.base.place import InDocument, at
from cleatwright.workshop.document.entries import Carrier, Group, Holder, Tool, ToolItem
from cleatwright.workshop.document.fields import problem
from cleatwright.workshop.document.person import OWNER, Person
from cleatwright.workshop.document.surfaces import MAIN, Panel

Wrong = tuple[tuple[str | int, ...], object, PydanticCustomError]
Items = Sequence[ToolItem]
MOST_HINTS = 50


def chosen(holder: Holder, items: Items) -> tuple[ToolItem, ...]:
    """Return the tools of a holder: those of its group, or those it names, in its order."""
    if holder.group is not None:
        return tuple(item for item in items if item.group == holder.group)
    found: dict[str, list[ToolItem]] = {name: [] for name in holder.tools}
    for item in items:
        if item.name in found:
            found[item.name].append(item)
        if item.tool != item.name and item.tool in found:
            found[item.tool].append(item)
    return tuple(item for name in holder.tools for item in found[name])


def panels_named(
    row: Holder | Carrier, *, holders: Sequence[Holder], items: Items
) -> tuple[tuple[str, str], ...]:
    """Return (panel, who names it) for each panel that a holder or carrier or its tools name.

    The own panel of the holder or carrier comes first. A tool that names none goes with the
    others of its holder.
    """
    hung = [one for one in holders if isinstance(row, Carrier) and one.carrier == row.name]
    tools = [
        item for one in (hung or [row]) if isinstance(one, Holder) for item in chosen(one, items)
    ]
    found: dict[str, str] = {}
    if row.panel is not None:
        found[row.panel] = "the carrier" if isinstance(row, Carrier) else "the holder"
    for item in tools:
        if item.panel is not None:
            found.setdefault(item.panel, f'"{item.name}"')
    return tuple(found.items())


def panel_of(
    row: Holder | Carrier, *, holders: Sequence[Holder], carriers: Sequence[Carrier], items: Items
) -> str:
    """Return the panel of a holder or a carrier: the one it or its tools name, or the wall."""
    if isinstance(row, Holder):
        row = next((one for one in carriers if one.name == row.carrier), row)
    found = panels_named(row, holders=holders, items=items)
    return found[0][0] if found else MAIN


def holder_choices(holders: Sequence[Holder], items: Items) -> list[Wrong]:
    """Return holders that ask for tools that are unknown or already in another holder."""
    wrong: list[Wrong] = []
    names = {item.name for item in items} | {item.tool for item in items}
    taken: dict[str, int] = {}
    often = Counter(item.name for item in items)
    for index, holder in enumerate(holders):
        for place, name in enumerate(holder.tools):
            if name not in names:
                # the nearest name takes time to find, and nobody reads it a hundred times
                near = names if len(wrong) < MOST_HINTS else ()
                error = unknown_name("tool", name, near)
                fault = problem(error.given, todo=error.todo or "Add the tool or mend the name")
                wrong.append((("holder", index, "tools", place), name, fault))
        if holder.group is not None:
            here = ("holder", index, "group")
            wrong += _unknown_group(holder.group, items, here=here, hint=len(wrong) < MOST_HINTS)
        for item in chosen(holder, items):
            # of two tools with one name that is the fault, and reported there
            if item.name in taken and often[item.name] == 1:
                first = taken[item.name]
                fault = problem(
                    f'The tool "{item.name}" is already in holder number {first + 1}',
                    todo="Name it in one holder only",
                    also=() if first == index else (("holder", first, _claim(holders[first])),),
                )
                wrong.append((("holder", index, _claim(holder)), item.name, fault))
            taken.setdefault(item.name, index)
    return wrong


def _claim(holder: Holder) -> str:
    """Return the key by which a holder says what it takes."""
    return "tools" if holder.tools else "group"


def _unknown_group(
    name: str, items: Items, *, here: tuple[str | int, ...], hint: bool = True
) -> list[Wrong]:
    groups = sorted({item.group for item in items if item.group is not None})
    if name in groups:
        return []
    error = unknown_name("group", name, groups if hint else (), place=InDocument((here,)))
    todo = error.todo or "Give a tool this group, or name the tools"
    return [(here, name, problem(error.given, allowed=error.allowed, todo=todo, line=error.line))]


def group_choices(groups: Sequence[Group], items: Items) -> list[Wrong]:
    """Return rules for groups that no tool is in, and the second rule for one group."""
    wrong: list[Wrong] = []
    for index, group in enumerate(groups):
        here = ("group", index, "name")
        if group.name in {other.name for other in groups[:index]}:
            wrong.append((here, group.name, problem("The name is used twice")))
        else:
            wrong += _unknown_group(group.name, items, here=here)
    return wrong


def carrier_choices(carriers: Sequence[Carrier], holders: Sequence[Holder]) -> list[Wrong]:
    """Return carriers of one name, those that no holder names, and those that are not there."""
    wrong: list[Wrong] = []
    names = [carrier.name for carrier in carriers]
    wanted = {holder.carrier for holder in holders}
    for index, name in enumerate(names):
        if name in names[:index]:
            wrong.append((("carrier", index, "name"), name, problem("The name is used twice")))
        elif name not in wanted:
            fault = problem(
                f'No holder hangs on the carrier "{name}"',
                todo=f'Write carrier = "{name}" in a [[holder]], or delete the [[carrier]]',
            )
            wrong.append((("carrier", index, "name"), name, fault))
    for index, holder in enumerate(holders):
        if holder.carrier is not None and holder.carrier not in names:
            error = unknown_name("carrier", holder.carrier, names, place=at("carrier"))
            todo = error.todo or "Add a [[carrier]] of this name"
            fault = problem(
                error.given, allowed=error.allowed, todo=todo, line=error.line, also=(("carrier",),)
            )
            wrong.append((("holder", index, "carrier"), holder.carrier, fault))
    return wrong


def panel_names(panels: Sequence[Panel]) -> list[Wrong]:
    """Return panels whose name is taken by another one or by the wall itself."""
    wrong: list[Wrong] = []
    for index, panel in enumerate(panels):
        if panel.name.casefold() == MAIN:
            fault = problem(
                f'The name "{panel.name}" is that of the wall itself',
                todo="Give the panel another name",
            )
        elif panel.name in {other.name for other in panels[:index]}:
            fault = problem("The name is used twice", todo="Give each panel a name of its own")
        else:
            continue
        wrong.append((("panel", index, "name"), panel.name, fault))
    return wrong


def panel_choices(
    panels: Sequence[Panel],
    *,
    tools: Sequence[Tool],
    holders: Sequence[Holder],
    carriers: Sequence[Carrier],
    items: Items,
) -> list[Wrong]:
    """Return panels that are named and not there, and holders that hang on several at once."""
    wrong = _unknown_panels([MAIN, *(panel.name for panel in panels)], tools, holders, carriers)
    hung: list[tuple[str, int, Holder | Carrier]] = [
        ("holder", index, holder) for index, holder in enumerate(holders) if holder.carrier is None
    ]
    hung += [("carrier", index, carrier) for index, carrier in enumerate(carriers)]
    choosy = [item for item in items if item.panel is not None]
    for key, index, one in hung:
        found = panels_named(one, holders=holders, items=choosy)
        if len(found) > 1:
            apart = ", ".join(f'{who} on "{panel}"' for panel, who in found)
            fault = problem(
                f"What shares this {key} cannot hang on two panels: {apart}",
                todo=f"Name one panel, or write a [[{key}]] for each panel",
            )
            wrong.append(((key, index, "panel"), one.panel, fault))
    return wrong


def _unknown_panels(names: Sequence[str], *rows: Sequence[Tool | Holder | Carrier]) -> list[Wrong]:
    """Return the panels that tools, holders and carriers (in this order) name in vain."""
    wrong: list[Wrong] = []
    for key, tables in zip(("tool", "holder", "carrier"), rows, strict=True):
        for index, one in enumerate(tables):
            if one.panel is not None and one.panel not in names:
                error = unknown_name("panel", one.panel, names, place=at("panel"))
                todo = error.todo or "Add a [[panel]] of this name"
                fault = problem(
                    error.given,
                    allowed=error.allowed,
                    todo=todo,
                    line=error.line,
                    also=(("panel",),),
                    meant=nearest(one.panel, names),
                )
                wrong.append(((key, index, "panel"), one.panel, fault))
    return wrong


def beside_choices(surfaces: Sequence[Panel], tools: Sequence[Tool]) -> list[Wrong]:
    """Return tools that are wanted near or on one side of something that is on no wall."""
    names = {one.name for panel in surfaces for one in panel.obstacles}
    wrong: list[Wrong] = []
    named = ((index, *one) for index, tool in enumerate(tools) for one in tool.along.named)
    for index, key, name in named:
        if name in names:
            continue
        hints = names if len(wrong) < MOST_HINTS else ()
        other = "Add a [[wall.obstacle]] of this name, or mend the name"
        fault = _no_such("obstacle", name, hints, otherwise=other)
        wrong.append((("tool", index, key), name, fault))
    return wrong


def _no_such(what: str, name: str, hints: Iterable[str], *, otherwise: str) -> PydanticCustomError:
    """Return that there is nothing of a name, with the one that was meant if one is near."""
    names = sorted(hints)
    error = unknown_name(what, name, names)
    return problem(
        error.given,
        allowed=error.allowed,
        todo=error.todo or otherwise,
        meant=nearest(name, names),
    )


def people_choices(
    people: Sequence[Person], *, tools: Sequence[Tool], groups: Sequence[Group]
) -> list[Wrong]:
    """Return people of one name, and who is named by a tool or a group and is not there."""
    names, wrong = [one.name for one in people], list[Wrong]()
    for index, name in enumerate(names[1:]):
        if name in names[: index + 1]:
            whose = f", as who has none in [person] is called {OWNER}" if name == OWNER else ""
            fault = problem(
                f'The name "{name}" is used twice{whose}',
                todo="Give each person a name of their own",
            )
            wrong.append((("other_person", index, "name"), name, fault))
    rows = [("tool", index, tool.taken_by) for index, tool in enumerate(tools)]
    rows += [("group", index, group.taken_by) for index, group in enumerate(groups)]
    for key, index, taken_by in rows:
        for place, name in enumerate(taken_by):
            if name not in names:
                hints = names if len(wrong) < MOST_HINTS else ()
                other = "Add an [[other_person]] of this name, or mend the name"
                fault = _no_such("person", name, hints, otherwise=other)
                wrong.append(((key, index, "taken_by", place), name, fault))
    return wrong
