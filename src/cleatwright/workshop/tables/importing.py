"""Tool lists from CSV and XLSX files."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from io import StringIO
from pathlib import Path

from pydantic import ValidationError

from cleatwright.base import said
from cleatwright.base.errors import (
    ImportTableError,
    InputError,
    MeasureError,
    UnknownNameError,
    nearest,
    unknown_name,
)
from cleatwright.base.lengths import in_a_row
from cleatwright.base.place import InFile
from cleatwright.base.units import is_angle_unit, is_length_unit, is_mass_unit, length_mm
from cleatwright.base.visible import visible
from cleatwright.workshop.document.entries import MOST_SINGLE_TOOLS, Tool
from cleatwright.workshop.document.model import Units
from cleatwright.workshop.document.problems import document_error
from cleatwright.workshop.document.surfaces import MAIN
from cleatwright.workshop.tables.cells import Cell, CellRow, Formula, read_rows

Check = Callable[[str, Mapping[str, float]], None]
Bounds = tuple[float, float]
RowsOf = Callable[[Path], tuple[CellRow, ...]]
NEEDED = ("name", "kind")
# words of the program, which a person may write with capitals or a space
WORD_COLUMNS = ("kind", "use", "fit")
PLAIN_COLUMNS = ("name", "kind", "count", "group", "use", "mass", "fit", "panel", "notes")
MEASURE_COLUMNS = (
    "A column for each measure of the kinds in the table, by its name, with a space or not. A unit "
    "in brackets behind a name, or behind a value, counts before that of the workshop."
)
_IN_BRACKETS = re.compile(r"^(?P<name>[^()\[\]]*?)\s*[(\[]\s*(?P<unit>[^()\[\]]+?)\s*[)\]]$")
_AS_LAST_WORD = re.compile(
    r"^(?P<name>.*\S)[\s_]+(?P<unit>mm|cm|in|inch|inches|kg|g|lb|lbs|oz|deg)$", re.IGNORECASE
)
_PLAIN_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)")
_OWN_UNIT = re.compile(r"[^0-9\s.,/+-]")


@dataclass(frozen=True)
class ImportedColumn:
    """What one column of the table holds: a key of the tool or of its measures, and its unit."""

    key: str
    unit: str
    measure: bool
    left_out: bool = False


@dataclass(frozen=True)
class NamedKinds:
    """The kinds that a table can have.

    Args:
        measures: From what to what in mm each measure may be, by the names of kind and measure.
        titles: The names of kinds by their titles in lower case; a row may say either.
    """

    measures: Mapping[str, Mapping[str, Bounds]]
    titles: Mapping[str, str]

    def named(self, cell: str) -> str:
        """Return the name of a kind as it is written in a cell."""
        words = " ".join(cell.lower().split())
        return self.titles.get(words, words.replace(" ", "-"))


@dataclass(frozen=True)
class Allowed:
    """What the rows are held against: the kinds, the panels and the units of the document."""

    check: Check
    panels: frozenset[str]
    units: Units
    kinds: NamedKinds


@dataclass(frozen=True)
class ImportRow:
    """What would become of one row.

    Args:
        number: Its number in the file.
        name: The name of the tool, as far as it could be read.
        tool: The checked tool, or None when the row is refused.
        entry: The table that would be added to the document.
        reason: Why the row is refused, every fault of it; empty when it is not.
        kind: The kind of the tool, as far as it could be read.
    """

    number: int
    name: str
    tool: Tool | None
    entry: Mapping[str, str | float | Mapping[str, str | float]]
    reason: str
    kind: str = ""

    @property
    def ok(self) -> bool:
        """Tell whether it can be added."""
        return self.tool is not None


@dataclass(frozen=True)
class ImportReport:
    """Every row of a tool list, refused ones included; nothing is written yet.

    Args:
        rows: The rows.
        left_out: A sentence for each column that is left out, since no kind in the table has such
            a measure.
    """

    rows: tuple[ImportRow, ...]
    left_out: tuple[str, ...] = ()

    @property
    def accepted(self) -> tuple[ImportRow, ...]:
        """Return the rows that can be added."""
        return tuple(row for row in self.rows if row.ok)

    @property
    def refused(self) -> tuple[ImportRow, ...]:
        """Return the rows that cannot be added."""
        return tuple(row for row in self.rows if not row.ok)


def import_tools(
    path: Path,
    *,
    check: Check,
    known: Collection[str] = (),
    there: int = 0,
    panels: Collection[str] = (MAIN,),
    units: Units = "mm",
    kinds: NamedKinds | None = None,
    rows_of: RowsOf = read_rows,
) -> ImportReport:
    """Read a tool list and say row by row what would be added.

    Args:
        path: A CSV or XLSX file whose first row names the columns.
        check: Gets a kind and its measures in mm; raises an InputError when they do not fit.
        known: Names of tools that are there already.
        there: How many single tools are there already.
        panels: Names of the panels on which a tool may hang.
        units: The units of the document, in which bare lengths without a unit count.
        kinds: The kinds; where they are given, columns that no kind in the table has are left out
            and told of once.
        rows_of: How the rows of the file are read.

    Raises:
        ImportTableError: The file cannot be read, a column that is needed is missing, or there
            would be too many single tools.
    """
    rows = rows_of(path)
    if not rows:
        raise ImportTableError("The table is empty", place=InFile(str(path)))
    try:
        columns = _columns(rows[0])
    except ImportTableError as error:
        raise error.at(InFile(str(path), line=rows[0].number, row=True)) from None
    allowed = Allowed(check, frozenset(panels), units, kinds or NamedKinds({}, {}))
    columns, left_out = _known_columns(columns, rows[1:], allowed.kinds)
    used = set(known)
    done: list[ImportRow] = []
    for row in rows[1:]:
        read = _read_row(row, columns, allowed=allowed, used=used)
        if read.tool is not None:
            there += read.tool.single_tools
            if there > MOST_SINGLE_TOOLS:
                raise ImportTableError(
                    f"With row {row.number} there would be {there} single tools, each row as often "
                    "as its count says",
                    place=InFile(str(path)),
                    allowed=f"up to {MOST_SINGLE_TOOLS} in a workshop, with those that it has",
                    todo="Lower a count, or divide the table among two workshops",
                )
            used |= {read.tool.name, *(item.name for item in read.tool.items())}
        done.append(read)
    return ImportReport(tuple(done), left_out)


def rest_of(rows: Sequence[CellRow], report: ImportReport) -> str:
    """Return the lines of a table that are refused, below its heads, as it would be pasted.

    Args:
        rows: The rows of the table, the heads first.
        report: What became of them.
    """
    wanted = {row.number for row in report.refused}
    kept = [row for row in rows[1:] if row.number in wanted]
    text = StringIO()
    lines = csv.writer(text, delimiter="\t", lineterminator="\n")
    lines.writerows([_as_typed(cell) for cell in row.cells] for row in (*rows[:1], *kept) if kept)
    return text.getvalue()


def _as_typed(cell: Cell) -> str:
    if isinstance(cell, Formula):
        return cell.text
    if isinstance(cell, float):
        return number_text(cell)
    return "" if cell is None else str(cell)


def number_text(number: float) -> str:
    """Return a number in plain digits, never in powers of ten."""
    return f"{number:.9f}".rstrip("0").rstrip(".")


def _columns(header: CellRow) -> tuple[ImportedColumn | None, ...]:
    """Return what each column holds; a column without a heading holds nothing."""
    columns = tuple(_column(cell) for cell in header.cells)
    keys = [column.key for column in columns if column is not None]
    missing = [key for key in NEEDED if key not in keys]
    if missing:
        raise ImportTableError(
            f"There is no column {' and no column '.join(missing)}",
            allowed=f"columns {', '.join(PLAIN_COLUMNS)}, and one for each measure",
        )
    twice = sorted({key for key in keys if keys.count(key) > 1})
    if twice:
        raise ImportTableError(
            f'There are two columns "{twice[0]}"', todo="Delete one or rename it"
        )
    return columns


def _known_columns(
    columns: tuple[ImportedColumn | None, ...],
    rows: Sequence[CellRow],
    known: NamedKinds,
) -> tuple[tuple[ImportedColumn | None, ...], tuple[str, ...]]:
    """Return the columns, those that no kind in the table has marked, and a sentence for each."""
    at = next(n for n, one in enumerate(columns) if one is not None and one.key == "kind")
    cells = [row.cells[at] for row in rows if at < len(row.cells)]
    kinds = sorted({known.named(one) for one in cells if isinstance(one, str)})
    named = [kind for kind in kinds if kind in known.measures]
    measures = sorted({name for kind in named for name in known.measures[kind]})
    if not measures:
        return columns, ()
    kept: list[ImportedColumn | None] = []
    told: list[str] = []
    for column in columns:
        if column is None or not column.measure or column.key in measures:
            kept.append(column)
            continue
        kept.append(replace(column, left_out=True))
        near = nearest(column.key, (*PLAIN_COLUMNS, *measures))
        meant = f' Did you mean "{near}"?' if near else ""
        told.append(
            f'The column "{column.key}" is left out: it is no measure of {in_a_row(named)}.'
            f"{meant} A column can be {', '.join((*PLAIN_COLUMNS, *measures))}."
        )
    return tuple(kept), tuple(told)


def _column(cell: Cell) -> ImportedColumn | None:
    """Read one heading, such as "Shank (mm)", "shank [in]" or "Handle length in"."""
    if cell is None or cell == "":
        return None
    if not isinstance(cell, str):
        raise ImportTableError(f"{_shown(cell)} cannot be a heading", allowed="a name, as text")
    found = _IN_BRACKETS.match(cell) or _AS_LAST_WORD.match(cell)
    name, unit = (found["name"], found["unit"]) if found else (cell, "")
    key = "_".join(re.split(r"[\s_-]+", name.strip().lower()))
    if key in PLAIN_COLUMNS:
        if unit and not (key == "mass" and is_mass_unit(unit)):
            raise ImportTableError(f'"{visible(unit)}" is not a unit for the column {key}')
        return ImportedColumn(key, unit, measure=False)
    if unit and is_angle_unit(unit) and not is_length_unit(unit):
        key = key if key.endswith("_deg") else f"{key}_deg"
    elif unit and (not is_length_unit(unit) or key.endswith(("_deg", "_count"))):
        raise ImportTableError(
            f'"{visible(unit)}" is not a unit for the column "{visible(name)}"',
            allowed="mm, cm, in, deg",
        )
    return ImportedColumn(key, unit, measure=True)


def _read_row(
    row: CellRow,
    columns: tuple[ImportedColumn | None, ...],
    *,
    allowed: Allowed,
    used: set[str],
) -> ImportRow:
    """Read one row of the table; what is wrong in one cell hides no fault in another."""
    name = _name(row, columns)
    entry, faults = _entry(row, columns, allowed)
    read = not faults
    tool: Tool | None = None
    try:
        context = {"units": allowed.units}
        tool = Tool.model_validate(entry, context=context, by_alias=True, by_name=False)
    except ValidationError as error:
        faults.append(str(document_error(error, raw=entry, model=Tool, file="")))
    faults += [
        error.marked for error in _at_odds(entry, tool, allowed=allowed, used=used, read=read)
    ]
    kind = str(entry.get("kind", ""))
    if tool is None or faults:
        fault = " ".join(dict.fromkeys(faults))
        return ImportRow(row.number, tool.name if tool else name, None, entry, fault, kind)
    return ImportRow(row.number, tool.name, tool, entry, "", tool.kind)


def _at_odds(
    entry: Mapping[str, object], tool: Tool | None, *, allowed: Allowed, used: set[str], read: bool
) -> Iterator[InputError]:
    """Yield what is wrong with a tool among the others, and with its kind and its measures."""
    if tool is not None:
        twice = {tool.name, *(item.name for item in tool.items())} & used
        if twice:
            yield InputError(f'There is already a tool "{min(twice)}"')
        if tool.panel is not None and tool.panel not in allowed.panels:
            yield unknown_name("panel", tool.panel, allowed.panels)
    try:
        if tool is not None:
            allowed.check(tool.kind, tool.measures.as_dict())
        elif isinstance(entry.get("kind"), str):
            allowed.check(str(entry["kind"]), {})
    except UnknownNameError as error:
        yield error
    except InputError as error:
        # what lacks measures since these cannot be read has been told of
        if tool is not None and read:
            yield error


def _name(row: CellRow, columns: tuple[ImportedColumn | None, ...]) -> str:
    """Return the name in a row, for the report."""
    for column, cell in zip(columns, row.cells, strict=False):
        if column is not None and column.key == "name" and isinstance(cell, str):
            return visible(cell)
    return ""


def _entry(
    row: CellRow, columns: tuple[ImportedColumn | None, ...], allowed: Allowed
) -> tuple[dict[str, str | float | Mapping[str, str | float]], list[str]]:
    """Return the table of a tool as the owner would write it, and what is wrong with its cells."""
    plain: dict[str, str | float] = {}
    measures: dict[str, str | float] = {}
    faults: list[str] = []
    for at, cell in enumerate(row.cells):
        if cell is None or cell == "":
            continue
        column = columns[at] if at < len(columns) else None
        if column is not None and column.left_out:
            continue
        try:
            key, value = _cell(cell, column, allowed)
        except InputError as error:
            faults.append(error.marked)
            continue
        (measures if column is not None and column.measure else plain)[key] = value
    for key, value in tuple(measures.items()):
        if beyond := _beyond(str(plain.get("kind", "")), key, value, allowed):
            faults.append(beyond.marked)
            del measures[key]
    return {**plain, "measures": measures}, faults


def _beyond(kind: str, name: str, value: str | float, allowed: Allowed) -> MeasureError | None:
    """Return what is told of a measure that is beyond the bounds of its kind, or None."""
    bounds = allowed.kinds.measures.get(kind, {}).get(name)
    if bounds is None:
        return None
    try:
        number = length_mm(value, unit=allowed.units)
    except MeasureError:
        # it is told of where it is read
        return None
    if number <= bounds[1]:
        return None
    return MeasureError(
        f"{name} is {said.mm(number)}",
        allowed=f"from {said.number(bounds[0])} to {said.mm(bounds[1])}",
    )


def _cell(cell: Cell, column: ImportedColumn | None, allowed: Allowed) -> tuple[str, str | float]:
    """Return the key of a cell, and its value as it would stand in the document."""
    if column is None:
        raise InputError(
            f"{_shown(cell)} stands in a column without a heading",
            todo="Give the column a heading; a comma inside a number needs quotation marks",
        )
    if isinstance(cell, Formula):
        raise InputError(
            f'The column "{column.key}" holds the formula {_shown(cell)} without a result',
            todo="Write the value in its place; formulas are never evaluated",
        )
    if cell is None or isinstance(cell, bool):
        raise InputError(f'The column "{column.key}" holds {_shown(cell)}')
    if column.key == "kind" and isinstance(cell, str):
        return column.key, allowed.kinds.named(cell)
    return column.key, _value(cell, column, allowed.units)


def _value(cell: str | float, column: ImportedColumn, units: Units) -> str | float:
    """Return a cell as it would stand in the document."""
    if column.key == "count" or column.key.endswith("_count"):
        return _whole(cell)
    if column.key in WORD_COLUMNS and isinstance(cell, str):
        return "-".join(cell.lower().split())
    if not column.measure and column.key != "mass":
        return cell if isinstance(cell, str) else f"{cell:g}"
    inner = "deg" if column.key.endswith("_deg") else units if column.measure else "kg"
    unit = column.unit or inner
    if isinstance(cell, str) and not _PLAIN_NUMBER.fullmatch(cell):
        return cell if _OWN_UNIT.search(cell) else f"{cell} {unit}"
    number = length_mm(cell)
    if unit.lower() == inner and column.measure:
        return number
    if column.key == "mass" and not column.unit:
        raise MeasureError(
            f"The mass {_shown(cell)} does not say in which unit it is",
            todo='Write the unit into the heading, such as "mass (g)"',
        )
    return f"{number_text(number)} {unit}"


def _whole(cell: str | float) -> str | float:
    """Return a whole number where a cell holds one."""
    try:
        number = float(cell)
    except ValueError:
        return cell
    return int(number) if number.is_integer() else cell


def _shown(cell: Cell) -> str:
    """Show a cell shortly."""
    text = visible(cell.text if isinstance(cell, Formula) else f"{cell}")
    return f'"{text[:40]}…"' if len(text) > 40 else f'"{text}"'
