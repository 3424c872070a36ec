"""The tools of a workshop for the browser: a sheet for each kind, as it stands in the document."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pydantic import Field, JsonValue

from cleatwright.base.errors import CleatwrightError, InputError
from cleatwright.base.lengths import MM_PER_INCH, LengthUnit, Wording, measured_length
from cleatwright.design.equipment import OwnedTool
from cleatwright.jobs.settings import TOOL, tool_fields
from cleatwright.project.opened.document import ReadDocument, ReadTools
from cleatwright.standards.tool_properties import PROPERTIES, ToolProperty, cautions_of
from cleatwright.tools.registry import KINDS
from cleatwright.web.rows.fields import FieldRow, field_row
from cleatwright.web.rows.kinds import ColumnRow, column_rows
from cleatwright.web.rows.raw import RawTable, list_of, table_of, tables_of, text_of
from cleatwright.web.rows.row import FaultRow, Row, Step, fault_row
from cleatwright.workshop.document.changes import standing
from cleatwright.workshop.document.own_unit import unit_of
from cleatwright.workshop.document.person import OWNER
from cleatwright.workshop.document.typed import shown


class MeasureCellRow(Row):
    """One measure of a tool: as it is written, as it is read, and what stands in for it."""

    given: str = Field(description="as it stands in the document, or empty")
    raw: JsonValue = Field(description="the same, as a value of the document; null without one")
    shown: str = Field(description="in the unit of the workshop, or as it is written if unreadable")
    mm: float | None
    nominal: bool = Field(description="whether it comes from a table of standard sizes")


class ToolSizeRow(Row):
    """One size of a set, as one of its ``sizes`` or ``nominal_sizes``."""

    number: int | None = Field(description="its number in ``sizes``; null when it is not there")
    label: str
    cells: dict[str, MeasureCellRow]
    mass_kg: float | None


class ToolRow(Row):
    """One entry of the list of tools."""

    number: int = Field(description="its number in the document, from 0")
    name: str
    kind: str
    cells: dict[str, MeasureCellRow]
    sizes: tuple[ToolSizeRow, ...]
    nominal: tuple[str, ...]
    count: int
    count_raw: JsonValue = Field(description="as it stands in the document; null without")
    tools: int = Field(description="how many single tools it stands for")
    mass_given: str
    mass_raw: JsonValue
    mass_kg: tuple[float, float] | None = Field(description="least and most of its tools")
    weighed: bool
    use: str
    group: str
    fit: str
    panel: str
    notes: str
    outline: str
    properties: tuple[str, ...] = Field(description="what of it can hurt, by its kind or as given")
    properties_raw: JsonValue = Field(description="as they stand in the document; null without")
    taken_by: tuple[str, ...] = Field(description="the names of who takes it, as it says itself")
    taken_by_raw: JsonValue = Field(description="as they stand in the document; null without")
    cautions: str
    more: tuple[str, ...] = Field(description="what else is written of it, as a key and its value")


class SheetRow(Row):
    """All tools of one kind."""

    kind: str
    title: str
    known: bool
    caution: str
    columns: tuple[ColumnRow, ...]
    rows: tuple[ToolRow, ...]


class MendRow(Row):
    """A change that most likely mends a fault: a point or a unit was left out."""

    path: tuple[Step, ...]
    value: JsonValue
    was: JsonValue
    name: str
    words: str


class ToolFaultRow(FaultRow):
    """A fault, and what most likely mends it."""

    mend: MendRow | None


class ToolsRow(Row):
    """All tools of a workshop."""

    sheets: tuple[SheetRow, ...]
    tools: int
    estimated: int
    groups: tuple[str, ...]
    panels: tuple[str, ...]
    properties: tuple[str, ...] = Field(description="what of a tool can hurt, all there is")
    people: tuple[str, ...] = Field(description="who may take a tool; empty where one is alone")
    faults: tuple[ToolFaultRow, ...]


def tools_row(document: ReadDocument, read: ReadTools) -> ToolsRow:
    """Return the tools of a document; what cannot be read is shown as it is written."""
    unit = unit_of(document.raw)
    by_entry: dict[str, list[OwnedTool]] = {}
    items = document.workshop.items() if document.workshop else ()
    entry_of = {item.name: item.tool for item in items}
    for tool in read.tools:
        by_entry.setdefault(entry_of.get(tool.name, tool.name), []).append(tool)
    rows = [
        _row(number, entry, by_entry.get(str(entry.get("name", "")), []), unit)
        for number, entry in enumerate(tables_of(document.raw.get("tool")))
    ]
    kinds = dict.fromkeys(row.kind for row in rows)
    return ToolsRow(
        sheets=tuple(
            _sheet(kind, [row for row in rows if row.kind == kind], unit) for kind in kinds
        ),
        tools=sum(row.tools for row in rows),
        estimated=sum(1 for tool in read.tools if tool.weighed_kg is None),
        groups=tuple(sorted({row.group for row in rows if row.group})),
        panels=tuple(text_of(one.get("name")) for one in tables_of(document.raw.get("panel"))),
        properties=PROPERTIES,
        people=_people(document),
        faults=tuple(_fault(fault, document, unit) for fault in read.faults),
    )


def more_rows(document: ReadDocument, number: int) -> tuple[FieldRow, ...]:
    """Return what else may be written of a tool, as fields, with what stands there.

    Raises:
        InputError: There is no such tool.
    """
    unit = unit_of(document.raw)
    entries = tables_of(document.raw.get(TOOL))
    if not 0 <= number < len(entries):
        raise InputError(f"There is no tool number {number}", todo="Choose one of the list")
    return tuple(
        field_row(one, (TOOL, number), unit, stands=standing(entries[number], (one.key,)))
        for one in tool_fields()
    )


def _people(document: ReadDocument) -> tuple[str, ...]:
    others = [text_of(one.get("name")) for one in tables_of(document.raw.get("other_person"))]
    first = text_of(table_of(document.raw.get("person")).get("name")) or OWNER
    return (first, *others) if others else ()


def _fault(error: CleatwrightError, document: ReadDocument, unit: LengthUnit) -> ToolFaultRow:
    row = fault_row(error)
    return ToolFaultRow(**row.model_dump(), mend=_mend(row, document, unit))


def _mend(row: FaultRow, document: ReadDocument, unit: LengthUnit) -> MendRow | None:
    """Return the value that was most likely meant: a point was left out, or another unit."""
    if len(row.paths) != 1 or row.paths[0][:1] != ("tool",) or "measures" not in row.paths[0]:
        return None
    path = row.paths[0]
    tool = tables_of(document.raw.get("tool"))[int(path[1])]
    known, name = KINDS.get(text_of(tool.get("kind"))), str(path[-1])
    raw = table_of(tool.get("measures")).get(name)
    bounds = {one.name: one for one in known.card} if known else {}
    if name not in bounds or not isinstance(raw, (int, float)) or isinstance(raw, bool):
        return None
    card, ordinary = (
        bounds[str(path[-1])],
        dict(known.example).get(str(path[-1])) if known else None,
    )
    per_unit = MM_PER_INCH if unit == "in" else 1.0
    meant = [
        value
        for value in (raw / 10, raw * 10, raw / 100, raw * MM_PER_INCH, raw / MM_PER_INCH)
        if card.low_mm <= value * per_unit <= card.high_mm
    ]
    if not meant or not ordinary:
        return None
    value = float(f"{min(meant, key=lambda one: abs(math.log(one * per_unit / ordinary))):.4g}")
    return MendRow(
        path=path,
        value=int(value) if value.is_integer() else value,
        was=raw,
        name=text_of(tool.get("name")),
        words=f"Make it {measured_length(value * per_unit, unit)}",
    )


def _sheet(kind: str, rows: list[ToolRow], unit: LengthUnit) -> SheetRow:
    known = KINDS.get(kind)
    return SheetRow(
        kind=kind,
        title=known.title if known else kind or "of no kind",
        known=known is not None,
        caution=Wording(unit)(" ".join(known.cautions)) if known else "",
        columns=column_rows(known, unit) if known else (),
        rows=tuple(rows),
    )


def _row(number: int, entry: RawTable, owned: list[OwnedTool], unit: LengthUnit) -> ToolRow:
    kind, name = text_of(entry.get("kind")), text_of(entry.get("name"))
    nominal = tuple(text_of(one) for one in list_of(entry.get("nominal_sizes")))
    sizes, count = tables_of(entry.get("sizes")), entry.get("count", 1)
    masses = [tool.body.mass_kg for tool in owned]
    whole = owned[0] if owned and not sizes and not nominal else None
    properties = _properties(kind, entry, max(masses, default=0.0))
    return ToolRow(
        number=number,
        name=name,
        kind=kind,
        cells=_cells(kind, table_of(entry.get("measures")), whole, unit),
        sizes=tuple(_sizes(entry, kind, nominal, owned, unit)),
        nominal=nominal,
        count=count if isinstance(count, int) else 1,
        count_raw=entry.get("count"),
        tools=len(nominal) or len(sizes) or (max(1, count) if isinstance(count, int) else 1),
        mass_given=text_of(entry.get("mass")),
        mass_raw=entry.get("mass"),
        mass_kg=(min(masses), max(masses)) if masses else None,
        weighed=bool(owned) and all(tool.weighed_kg is not None for tool in owned),
        use=text_of(entry.get("use")) or "weekly",
        group=text_of(entry.get("group")),
        fit=text_of(entry.get("fit")),
        panel=text_of(entry.get("panel")),
        notes=text_of(entry.get("notes")),
        outline=text_of(entry.get("outline")),
        properties=properties,
        properties_raw=entry.get("properties"),
        taken_by=tuple(text_of(one) for one in list_of(entry.get("taken_by"))),
        taken_by_raw=entry.get("taken_by"),
        cautions=_cautions(kind, properties, unit),
        more=tuple(
            f"{one.key.replace('_', ' ')} {shown(standing(entry, (one.key,)))}"
            for one in tool_fields()
            if one.key in entry
        ),
    )


def _properties(kind: str, entry: RawTable, mass_kg: float) -> tuple[ToolProperty, ...]:
    """Return what of a tool can hurt; words that are no properties are left to its faults."""
    known, raw = KINDS.get(kind), entry.get("properties")
    words = [text_of(one) for one in list_of(raw)]
    given: tuple[ToolProperty, ...] = tuple(one for one in PROPERTIES if one in words)
    if known is None:
        return given
    return known.properties_of(mass_kg, given if isinstance(raw, list) else None)


def _cautions(kind: str, properties: tuple[ToolProperty, ...], unit: LengthUnit) -> str:
    known = KINDS.get(kind)
    own = (known.caution,) if known and known.caution else ()
    return " ".join(Wording(unit).all((*own, *cautions_of(properties))))


def _sizes(
    entry: RawTable,
    kind: str,
    nominal: tuple[str, ...],
    owned: list[OwnedTool],
    unit: LengthUnit,
) -> Iterable[ToolSizeRow]:
    written = tables_of(entry.get("sizes"))
    labels = [text_of(one.get("label")) for one in written]
    name = text_of(entry.get("name"))
    by_name = {tool.name: tool for tool in owned}
    if nominal:
        for label in nominal:
            number = labels.index(label) if label in labels else None
            own = {} if number is None else written[number]
            yield _size(number, label, kind, own, by_name.get(f"{name} {label}"), unit)
        return
    for number, own in enumerate(written):
        label = labels[number] or f"#{number + 1}"
        yield _size(number, label, kind, own, by_name.get(f"{name} {label}"), unit)


def _size(
    number: int | None,
    label: str,
    kind: str,
    own: RawTable,
    tool: OwnedTool | None,
    unit: LengthUnit,
) -> ToolSizeRow:
    measures = {key: value for key, value in own.items() if key not in {"label", "mass"}}
    measures |= table_of(measures.pop("measures", {}))
    return ToolSizeRow(
        number=number,
        label=label,
        cells=_cells(kind, measures, tool, unit),
        mass_kg=tool.body.mass_kg if tool else None,
    )


def _cells(
    kind: str, written: RawTable, tool: OwnedTool | None, unit: LengthUnit
) -> dict[str, MeasureCellRow]:
    known = KINDS.get(kind)
    read = dict(tool.measures) if tool else {}
    guessed = tool.guessed if tool else ""
    names = [row.name for row in known.card] if known else []
    names += [name for name in written if name not in names]
    cells: dict[str, MeasureCellRow] = {}
    for name in names:
        mm, given = read.get(name), text_of(written.get(name))
        if not given and mm is None:
            continue
        cells[name] = MeasureCellRow(
            given=given,
            raw=written.get(name),
            shown=given if mm is None else measured_length(mm, unit),
            mm=mm,
            nominal=not given and bool(guessed) and name in guessed.partition(":")[0],
        )
    return cells
