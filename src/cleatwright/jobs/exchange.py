"""Tool lists in and out of a workshop."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.base.lengths import IN_MM, Wording
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible
from cleatwright.tools.registry import KINDS, tool_body
from cleatwright.workshop.document.editing import append_tool
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import changing, load, parse, read_text, save, write_safely
from cleatwright.workshop.tables.cells import read_rows
from cleatwright.workshop.tables.exporting import export_csv
from cleatwright.workshop.tables.importing import ImportReport, NamedKinds, RowsOf, import_tools


@dataclass(frozen=True)
class TableImport:
    """What became of each row of a table, and whether the good ones were written."""

    report: ImportReport
    written: bool
    words: Wording = IN_MM

    @property
    def rows(self) -> tuple[tuple[str, str, str, str], ...]:
        """Return (row, tool, kind, result) for each row."""
        good = "added" if self.written else "would be added"
        return tuple(
            (
                str(r.number),
                r.name,
                r.kind,
                good if r.ok else self.words(r.reason),
            )
            for r in self.report.rows
        )

    @property
    def summary(self) -> tuple[str, ...]:
        """Return the counts in a sentence, and what to do next."""
        good, bad = len(self.report.accepted), len(self.report.refused)
        lines = [*self.report.left_out, f"{good} rows good, {bad} refused."]
        if bad and self.written:
            lines.append("The good rows were added; mend the refused ones and import them again.")
        if not self.written and good:
            lines.append("Nothing was written; run it again with --write to add the good rows.")
        return tuple(lines)

    def as_dict(self) -> dict[str, object]:
        """Return the import for programs."""
        names = ("row", "tool", "kind", "result")
        return {
            "written": self.written,
            "left_out": list(self.report.left_out),
            "accepted": len(self.report.accepted),
            "refused": len(self.report.refused),
            "rows": [dict(zip(names, row, strict=True)) for row in self.rows],
        }


def import_table(place: Path, table: Path, *, write: bool) -> TableImport:
    """Read a CSV or XLSX table of tools; with ``write`` the good rows join the document.

    Raises:
        ImportTableError: The table cannot be read.
        DocumentError: The workshop cannot be read.
        OutputError: The workshop cannot be written, or another process changes it now; it is
            then unchanged by this one.
    """
    with changing(place) if write else nullcontext():
        return _import_table(place, table, write=write)


def read_table(workshop: Workshop, table: Path, *, rows_of: RowsOf = read_rows) -> ImportReport:
    """Return what would become of each row of a table in a workshop; nothing is written.

    Args:
        workshop: The workshop.
        table: A CSV or XLSX file.
        rows_of: How its rows are read.

    Raises:
        ImportTableError: The table cannot be read.
    """
    known = {tool.name for tool in workshop.tools} | {item.name for item in workshop.items()}
    return import_tools(
        table,
        check=_check,
        known=known,
        there=len(workshop.items()),
        panels=[panel.name for panel in workshop.surfaces()],
        units=workshop.units,
        kinds=NamedKinds(
            measures={
                name: {row.name: (row.low_mm, row.high_mm) for row in one.card}
                for name, one in KINDS.items()
            },
            titles={" ".join(one.title.lower().split()): name for name, one in KINDS.items()},
        ),
        rows_of=rows_of,
    )


def _import_table(place: Path, table: Path, *, write: bool) -> TableImport:
    workshop = load(place)
    report = read_table(workshop, table)
    adds = write and bool(report.accepted)
    if adds:
        document = parse(read_text(place))
        for row in report.accepted:
            append_tool(document, row.entry)
        save(place, document)
    return TableImport(report, written=adds, words=Wording(workshop.units))


def export_table(place: Path, table: Path) -> int:
    """Write the tools of a workshop as CSV and return how many rows it has.

    Raises:
        OutputError: It is no CSV file, it exists already, or it cannot be written.
    """
    text = export_csv(load(place))
    if table.suffix.lower() != ".csv":
        raise OutputError(
            f'tools are written as CSV, not as "{visible(table.name)}"',
            place=InFile(str(table)),
            allowed="a file name that ends in .csv",
        )
    if table.exists():
        raise OutputError(
            "there is already a file of this name",
            place=InFile(str(table)),
            todo="Name another file; nothing was changed",
        )
    write_safely(table, text.encode("utf-8-sig"))
    return len(text.splitlines()) - 1


def _check(kind: str, measures: Mapping[str, float]) -> None:
    tool_body(kind, measures)
