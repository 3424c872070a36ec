"""Setting out for the browser: steps with their fields, the wall as it is drawn, examples."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from pydantic import Field

from cleatwright.base.lengths import LengthUnit, length_words, measured_length
from cleatwright.jobs.examples import example_folders
from cleatwright.jobs.start_view import StartView
from cleatwright.jobs.starting import Started, StartField, start_steps
from cleatwright.web.rows.fields import FieldRow, field_row
from cleatwright.web.rows.row import FaultRow, Row
from cleatwright.workshop.document.store import FILE_NAME, checked


class StepRow(Row):
    """One step of setting out."""

    name: str
    fields: tuple[FieldRow, ...]


class TypedAtRow(Row):
    """What was typed into one field."""

    path: tuple[str, ...] = Field(min_length=1, max_length=6)
    text: str = Field(max_length=200)


class StartedRow(Row):
    """What somebody has typed so far."""

    name: str = Field("", max_length=80)
    unit: LengthUnit = "mm"
    typed: tuple[TypedAtRow, ...] = Field((), max_length=40)
    kind: str = Field("", max_length=60)

    def started(self) -> Started:
        """Return it as the program takes it."""
        return Started(self.name, self.unit, {one.path: one.text for one in self.typed}, self.kind)


class SeenRow(Row):
    """The wall and the person, as far as they are known; lengths in mm above the floor."""

    width_mm: float | None
    height_mm: float | None
    floor_gap_mm: float | None
    width: str
    height: str
    floor_gap: str
    stature_mm: float
    shoulder_mm: float
    elbow_mm: float
    hip_mm: float
    knee_mm: float
    arm_mm: float
    easy_low_mm: float
    easy_high_mm: float
    easy_low: str
    easy_high: str
    stature: str


class SetOutRow(Row):
    """What is wrong with what was typed so far, and what can be drawn of it."""

    faults: tuple[FaultRow, ...]
    seen: SeenRow


class BoxRow(Row):
    """A rectangle on a wall, in mm from its lower left corner."""

    x_mm: float
    z_mm: float
    width_mm: float
    height_mm: float


class ExampleRow(Row):
    """An example that comes with the program, with its bare wall."""

    name: str
    title: str
    words: str
    tools: int
    unit: LengthUnit
    width_mm: float
    height_mm: float
    obstacles: tuple[BoxRow, ...]
    studs_mm: tuple[float, ...]


def step_rows(unit: LengthUnit) -> tuple[StepRow, ...]:
    """Return the steps of setting out."""
    return tuple(
        StepRow(
            name=name,
            fields=tuple(_start_field_row(one, unit) for one in fields),
        )
        for name, fields in start_steps().items()
    )


def _start_field_row(one: StartField, unit: LengthUnit) -> FieldRow:
    """Return what is asked for, with an ordinary size as a rule of that unit shows it."""
    row = field_row(one.field, one.path[:-1], unit)
    usual, mm = row.usual, one.field.default
    if one.field.takes == "length" and isinstance(mm, (int, float)):
        usual = length_words(mm, unit)
    return row.model_copy(update={"title": one.title, "usual": usual})


def seen_row(view: StartView, unit: LengthUnit) -> SeenRow:
    """Return the wall and the person as they are drawn."""
    figure, band = view.figure, view.band

    def words(mm: float | None) -> str:
        return "" if mm is None else measured_length(mm, unit)

    return SeenRow(
        width_mm=view.width_mm,
        height_mm=view.height_mm,
        floor_gap_mm=view.floor_gap_mm,
        width=words(view.width_mm),
        height=words(view.height_mm),
        floor_gap=words(view.floor_gap_mm),
        stature_mm=figure.stature_mm,
        shoulder_mm=figure.shoulder_mm,
        elbow_mm=figure.elbow_mm,
        hip_mm=figure.hip_mm,
        knee_mm=view.knee_mm,
        arm_mm=figure.arm_mm,
        easy_low_mm=band.low_mm,
        easy_high_mm=band.high_mm,
        easy_low=words(band.low_mm),
        easy_high=words(band.high_mm),
        stature=words(figure.stature_mm),
    )


@lru_cache(maxsize=1)
def example_rows() -> tuple[ExampleRow, ...]:
    """Return the examples that come with the program."""
    return tuple(_example(name, folder) for name, folder in example_folders().items())


def _example(name: str, folder: Path) -> ExampleRow:
    text = (folder / FILE_NAME).read_text(encoding="utf-8")
    workshop = checked(text, file=name)
    wall = workshop.wall
    first = text.partition("\n")[0]
    return ExampleRow(
        name=name,
        title=workshop.name,
        words=first.removeprefix("#").strip() if first.startswith("#") else "",
        tools=len(workshop.items()),
        unit=workshop.units,
        width_mm=wall.width_mm,
        height_mm=wall.height_mm,
        obstacles=tuple(
            BoxRow(x_mm=one.x_mm, z_mm=one.z_mm, width_mm=one.width_mm, height_mm=one.height_mm)
            for one in wall.obstacles
        ),
        studs_mm=tuple(one.x_mm for one in wall.studs),
    )
