"""Tool lists as CSV files, in the owner's unit."""

from __future__ import annotations

import csv
import io

from cleatwright.base.lengths import KG_PER_LB, MM_PER_INCH
from cleatwright.base.units import length_mm, mass_kg
from cleatwright.workshop.document.model import Units, Workshop
from cleatwright.workshop.tables.cells import guard
from cleatwright.workshop.tables.importing import number_text

# measures that count something, or a share of it
PLAIN_ENDS = ("_count", "_share")
# 1/64 inch has six
MOST_DECIMALS = 6
# international yard and pound agreement of 1959


def export_csv(workshop: Workshop) -> str:
    """Return the tools as CSV in the owner's unit, one row a tool or a size of a set.

    A workshop in inches has its masses in lb. A value that is no short number in the unit of its
    column, such as 13 mm among inches, carries its own unit, which the import takes.

    A text that a spreadsheet program would take for a formula gets an apostrophe in front, which
    the import takes off again.
    """
    rows = [
        (tool, item)
        for tool in workshop.tools
        for item in (tool.items() if tool.sizes else list(tool.items())[:1])
    ]
    names = sorted({name for _, item in rows for name, _ in item.measures.values})
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    units = workshop.units
    plain = [
        "name",
        "kind",
        "count",
        "group",
        "use",
        f"mass ({'lb' if units == 'in' else 'kg'})",
        "fit",
        "notes",
    ]
    with_panel = any(tool.panel for tool in workshop.tools)
    plain += ["panel"] if with_panel else []
    writer.writerow([*plain, *(_head(name, units) for name in names)])
    for tool, item in rows:
        values = item.measures.as_dict()
        texts = [
            item.name if tool.sizes else tool.name,
            tool.kind,
            str(tool.count),
            tool.group or "",
            tool.use,
            "" if item.mass_kg is None else _mass_text(item.mass_kg, units),
            tool.fit or "",
            tool.notes,
            *([tool.panel or ""] if with_panel else []),
            *(_size_text(name, values[name], units) if name in values else "" for name in names),
        ]
        writer.writerow([guard(text) for text in texts])
    return stream.getvalue()


def _head(name: str, units: Units) -> str:
    """Return the heading of a measure."""
    if name.endswith(PLAIN_ENDS):
        return guard(name)
    return f"{name} ({'deg' if name.endswith('_deg') else units})"


def _size_text(name: str, value: float, units: Units) -> str:
    """Return a measure as a cell that is read back as the same."""
    if units == "mm" or name.endswith(("_deg", *PLAIN_ENDS)):
        return number_text(value)
    text = f"{value / MM_PER_INCH:.{MOST_DECIMALS}f}".rstrip("0").rstrip(".")
    same = length_mm(float(text), unit="in") == value
    return text if same else f"{number_text(value)} mm"


def _mass_text(kg: float, units: Units) -> str:
    """Return a mass as a cell that is read back as the same."""
    if units == "mm":
        return number_text(kg)
    text = f"{kg / KG_PER_LB:.{MOST_DECIMALS}f}".rstrip("0").rstrip(".")
    return text if mass_kg(text, unit="lb") == kg else f"{number_text(kg)} kg"
