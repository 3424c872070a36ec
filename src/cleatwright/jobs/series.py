"""Holders over a table of sizes: one part for each row, named by family, sizes and mark."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from pathlib import Path

from cleatwright.base.errors import CleatwrightError, InputError, MeasureError
from cleatwright.base.factors import G_PER_KG, MM3_PER_M3
from cleatwright.base.lengths import (
    IN_MM,
    LengthUnit,
    Wording,
    errors_in,
    measured_length,
    sides_words,
)
from cleatwright.base.place import InFile
from cleatwright.base.progress import Progress, Silent
from cleatwright.base.visible import visible
from cleatwright.design.equipment import (
    fit_of,
    material_recipe,
    mount_settings,
    printer_recipe,
)
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import (
    CARRIED,
    USUAL_MATERIAL,
    USUAL_PRINTER,
    Recipe,
    SeatRecipe,
)
from cleatwright.design.shaping import FILLED_SHARE
from cleatwright.holders.registry import family
from cleatwright.jobs.ranges import Range, read_range
from cleatwright.jobs.together import made_together
from cleatwright.mounts.joints.registry import JOINTS, ONE_PIECE, joint
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.registry import mount
from cleatwright.papers.kit.tables import csv_bytes
from cleatwright.papers.kit.word_sheet import WordSheet, cautions_block, sheet_text
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import Change, publish
from cleatwright.standards import cautions
from cleatwright.tools.registry import kind as kind_of
from cleatwright.tools.registry import tool_body
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import FitRules
from cleatwright.workshop.document.store import load
from cleatwright.workshop.document.surfaces import MAIN
from cleatwright.workshop.tables.importing import import_tools

MOST_PARTS = 5_000
MOST_SEATS = 40
TOLD_FAULTS = 10
HAND_ROOM_MM = 12.0


@dataclass(frozen=True)
class SeriesRequest:
    """How a series shall be made.

    Args:
        family: Name of the family.
        params: Parameters of the family, by the names a person writes, in mm.
        mount: Name of the mount.
        joint: Name of the joint.
        seats: Equal tools in each holder; a table's own count goes before it.
        workshop: A workshop folder whose printer, filament, fit and rails count; defaults, and
            PLA, when None.
    """

    family: str
    params: tuple[tuple[str, float], ...] = ()
    mount: str = "french-cleat"
    joint: str = ONE_PIECE
    seats: int = 1
    workshop: Path | None = None


@dataclass(frozen=True)
class SeriesMade:
    """What a series came to; each row has a cell for each of ``columns``."""

    folder: Path
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    changes: tuple[Change, ...]
    failing: tuple[str, ...]

    def as_dict(self) -> dict[str, object]:
        """Return the series for programs."""
        return {
            "folder": str(self.folder),
            "parts": [dict(zip(self.columns, row, strict=True)) for row in self.rows],
            "failing": list(self.failing),
        }


@dataclass(frozen=True)
class _Row:
    name: str
    kind: str
    measures: Mapping[str, float]
    mass_kg: float | None
    seats: int


def wanted_rows(
    request: SeriesRequest, *, table: Path | None, kind: str, vary: Sequence[str]
) -> tuple[_Row, ...]:
    """Return the rows of a table, or those of ranges of a kind's measures.

    Raises:
        InputError: Neither or both are given, or what is given cannot be read.
    """
    if (table is None) == (not vary) or bool(kind) != bool(vary):
        raise InputError(
            "a series needs sizes",
            allowed="--tools with a table, or --kind with one or more --vary",
        )
    units = load(request.workshop).units if request.workshop is not None else "mm"
    if table is not None:
        return rows_of_table(table, units=units, seats=request.seats)
    ranges = [read_range(text, unit=units) for text in vary]
    return rows_of_ranges(kind, ranges, seats=request.seats, unit=units)


def rows_of_ranges(
    kind: str, ranges: Sequence[Range], *, seats: int, unit: LengthUnit = "mm"
) -> tuple[_Row, ...]:
    """Return a row for each combination; other measures are those of an ordinary tool.

    Raises:
        UnknownNameError: There is no such kind.
        MeasureError: A measure that the kind does not have, named twice, or too many parts.
    """
    chosen = kind_of(kind)
    names = [one.name for one in ranges]
    known = [row.name for row in chosen.card]
    for name in names:
        if name not in known or names.count(name) > 1:
            raise MeasureError(
                f'"{name}" is named twice'
                if name in known
                else f'a {kind} has no "{visible(name)}"',
                allowed=", ".join(known),
            )
    # features that a tool may lack are left out unless they are varied
    example = dict(chosen.example)
    plain = {row.name: example[row.name] for row in chosen.card if row.needed}
    rows: list[_Row] = []
    for values in product(*(one.values_mm for one in ranges)):
        varied = dict(zip(names, values, strict=True))
        told = ", ".join(f"{name} {_named(value, unit)}" for name, value in varied.items())
        rows.append(_Row(told, kind, plain | varied, None, seats))
        if len(rows) > MOST_PARTS:
            raise MeasureError("the ranges make too many parts", allowed=f"up to {MOST_PARTS}")
    return tuple(rows)


def _named(value_mm: float, unit: LengthUnit) -> str:
    """Return a size as it stands in the name of a row."""
    return f"{value_mm:g}" if unit == "mm" else f"{measured_length(value_mm, unit)} in"


def rows_of_table(table: Path, *, units: str, seats: int) -> tuple[_Row, ...]:
    """Return a row for each tool of a table; its count is the number of seats.

    Raises:
        ImportTableError: The table cannot be read.
        InputError: Rows that cannot be; the message names the first of them.
    """

    def check(kind: str, measures: Mapping[str, float]) -> None:
        tool_body(kind, measures)

    report = import_tools(table, check=check, known=(), units="in" if units == "in" else "mm")
    if report.refused:
        raise _faults([f"row {row.number}, {row.name}: {row.reason}" for row in report.refused])
    rows: list[_Row] = []
    for row in report.accepted:
        tool = row.tool
        if tool is not None:
            count = tool.count if tool.count > 1 else seats
            rows.append(_Row(tool.name, tool.kind, tool.measures.as_dict(), tool.mass_kg, count))
    if not rows:
        raise InputError("the table has no tools", place=InFile(str(table)))
    return tuple(rows)


def make_series(
    rows: Sequence[_Row], request: SeriesRequest, out: Path, *, progress: Progress | None = None
) -> SeriesMade:
    """Write a 3MF file for each row and a table of all; nothing is written when a row is at fault.

    Raises:
        CleatwrightError: The request or rows that cannot be.
        OutputError: The folder cannot be written.
    """
    output_folder(out)
    workshop = load(request.workshop) if request.workshop is not None else None
    words = Wording(workshop.units) if workshop is not None else IN_MM
    with errors_in(words):
        return _made(rows, request, workshop, out, words=words, progress=progress or Silent())


def _made(
    rows: Sequence[_Row],
    request: SeriesRequest,
    workshop: Workshop | None,
    out: Path,
    *,
    words: Wording,
    progress: Progress,
) -> SeriesMade:
    recipes = _recipes(rows, request, workshop)
    results = made_together(recipes, progress=progress)
    faults = [
        f"{row.name}: {one.fault}" for row, one in zip(rows, results, strict=True) if one.fault
    ]
    if faults:
        raise _faults(faults)
    columns = ("part", "mark", "file", "tools", f"size {words.unit}", "plastic g", "checks")
    files: dict[str, bytes] = {}
    told: list[tuple[str, ...]] = []
    failing: list[str] = []
    filled_kg_mm3 = recipes[0].material.density_kg_m3 * FILLED_SHARE / MM3_PER_M3
    for number, (row, one) in enumerate(zip(rows, results, strict=True), 1):
        files[one.file] = one.data
        grams = one.volume_mm3 * filled_kg_mm3 * G_PER_KG
        told.append(
            (
                str(number),
                one.mark,
                one.file,
                f"{row.seats} x {row.name}",
                sides_words(one.size_mm, words.unit),
                f"{grams:.0f}",
                words("; ".join(one.failing)) or "hold",
            )
        )
        failing += [f"{row.name} ({one.mark}): {words(text)}" for text in one.failing]
    files["series.csv"] = csv_bytes(columns, told)
    said = cautions_block("When you print", cautions.printing())
    files["cautions.txt"] = sheet_text(WordSheet("Read this first", (said,)))
    changes = publish(out, files, kind="series")
    return SeriesMade(out, columns, tuple(told), changes, tuple(failing))


def _recipes(
    rows: Sequence[_Row], request: SeriesRequest, workshop: Workshop | None
) -> list[Recipe]:
    chosen = family(request.family)
    screwed = mount(request.mount).screwed
    joint(request.joint)
    if not 1 <= request.seats <= MOST_SEATS:
        raise MeasureError(f"{request.seats} seats", allowed=f"from 1 to {MOST_SEATS}")
    params = checked_params("holder family", request.family, chosen.params, dict(request.params))
    settings = mount_settings(workshop, MAIN) if workshop else MountSettings()
    play, correction = _fit(workshop)
    faults: list[str] = []
    recipes: list[Recipe] = []
    for row in rows:
        try:
            body = tool_body(row.kind, row.measures, mass_kg=row.mass_kg)
            reason = chosen.why_not(body)
        except CleatwrightError as error:
            reason = error.marked
        if reason is not None:
            faults.append(f"{row.name}: {reason}")
            continue
        seat = SeatRecipe(
            kind=row.kind,
            measures=dict(row.measures),
            mass_kg=row.mass_kg,
            play_mm=play,
            correction_mm=correction,
        )
        recipes.append(
            Recipe(
                family=request.family,
                params=dict(params),
                seats=(seat,) * row.seats,
                mount=CARRIED if request.joint in JOINTS else request.mount,
                mount_settings=settings.as_dict(screwed=screwed and request.joint not in JOINTS),
                joint=request.joint,
                printer=printer_recipe(workshop) if workshop else USUAL_PRINTER,
                material=material_recipe(workshop) if workshop else USUAL_MATERIAL,
                hand_room_mm=workshop.defaults.hand_room_mm if workshop else HAND_ROOM_MM,
            )
        )
    if faults:
        raise _faults(faults)
    return recipes


def _fit(workshop: Workshop | None) -> tuple[float, float]:
    if workshop is None:
        return FitRules().play_mm(), 0.0
    fit = fit_of(workshop, None)
    return fit.play_mm, fit.correction_mm


def _faults(faults: Iterable[str]) -> InputError:
    lines = list(faults)
    more = f"\n- and {len(lines) - TOLD_FAULTS} more" if len(lines) > TOLD_FAULTS else ""
    return InputError(
        f"{len(lines)} rows cannot be made:\n"
        + "\n".join(f"- {line}" for line in lines[:TOLD_FAULTS])
        + more,
        todo="Nothing was written. Mend the rows, or narrow the range",
        faults=[InputError(line) for line in lines[:TOLD_FAULTS]],
    )
