"""Setting out a workshop of one's own: a few sizes, and the document that is written of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import cast

from cleatwright.base.errors import (
    CleatwrightError,
    InputError,
    MeasureError,
)
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.place import InDocument, plain_path
from cleatwright.base.place import at as place_at
from cleatwright.jobs.examples import write_new
from cleatwright.standards.materials.polymers import DENSITIES, density_kg_m3, polymer_of
from cleatwright.tools.registry import kind as kind_of
from cleatwright.workshop.document.changes import Plain, standing
from cleatwright.workshop.document.described import DescribedField, described
from cleatwright.workshop.document.editing import item_of
from cleatwright.workshop.document.person import Person
from cleatwright.workshop.document.sections import Filament, Printer, RailRules
from cleatwright.workshop.document.store import FILE_NAME, checked, faults_in
from cleatwright.workshop.document.surfaces import Wall
from cleatwright.workshop.document.typed import shown, with_value, written

Key = tuple[str, ...]
# what the first printer and the first filament are called until their owner names them
FIRST = "first"
_ASKED: Mapping[str, tuple[Key, ...]] = MappingProxyType(
    {
        "wall": (
            ("wall", "width"),
            ("wall", "height"),
            ("wall", "floor_gap"),
            ("wall", "datum"),
            ("person", "stature"),
        ),
        "rail": (("rail", "thickness"), ("rail", "height"), ("rail", "bevel")),
        "printer": (("printer", FIRST, "bed"), ("filament", FIRST, "material")),
    }
)
_MODELS = MappingProxyType(
    {"wall": Wall, "rail": RailRules, "person": Person, "printer": Printer, "filament": Filament}
)
_WORDS = MappingProxyType(
    {
        "width": ("width", "where tools may hang, from left to right"),
        "height": ("height", "of that part of the wall"),
        "floor_gap": ("lower edge", "above the floor; over a bench, the height of its top"),
        "datum": ("measure from", "what you will measure from when you drill"),
        "stature": ("your height", "in shoes; it decides what is in easy reach"),
    }
)
NAME_IF_NONE = "Workshop"


@dataclass(frozen=True)
class StartField:
    """A size that is asked for.

    Args:
        path: Where it will stand in the document.
        field: What it takes.
        title: What it is called here.
    """

    path: Key
    field: DescribedField
    title: str


@dataclass(frozen=True)
class Started:
    """What somebody has typed so far.

    Args:
        name: What the workshop is called.
        unit: In which unit bare lengths count.
        typed: What was typed, by where it will stand.
        kind: The kind of the first tool, or "".
    """

    name: str
    unit: LengthUnit
    typed: Mapping[Key, str]
    kind: str = ""


def start_steps() -> dict[str, tuple[StartField, ...]]:
    """Return what is asked for, step by step."""
    return {step: tuple(_start_field(path) for path in paths) for step, paths in _ASKED.items()}


def _start_field(path: Key) -> StartField:
    field = next(one for one in described(_MODELS[path[0]]) if one.key == path[-1])
    if path[-1] == "material":
        polymers = tuple(name for name, _ in DENSITIES.rows)
        field = replace(field, takes="choice", choices=polymers, default=polymers[0])
    title, words = _WORDS.get(
        path[-1] if path[0] != "rail" else "", (field.key.replace("_", " "), field.words)
    )
    if path[-1] == "floor_gap":
        # a wall that begins at the floor is rare enough to be typed
        field = replace(field, needed=True, default=None)
    return StartField(path, replace(field, words=words), title)


def start_faults(started: Started) -> tuple[CleatwrightError, ...]:
    """Return what is wrong, or missing, in what was typed; each with its place in the document."""
    tables, faults = _tables(started)
    return (*faults, *(one for one in faults_in(tables) if not _among(one, faults)))


def start_text(started: Started) -> str:
    """Return the document of a workshop that was set out.

    Raises:
        InputError: Something is wrong, or missing.
    """
    if faults := start_faults(started):
        raise faults[0]
    tables, _ = _tables(started)

    def lines(*path: str, without: tuple[str, ...] = ()) -> str:
        table = cast("dict[str, Plain]", standing(tables, path) or {})
        kept = {key: one for key, one in table.items() if key not in without}
        return "".join(f"{key} = {_toml(value)}\n" for key, value in kept.items())

    material = shown(standing(tables, ("filament", FIRST, "material")))
    text = _TEXT.format(
        unit=started.unit,
        bare="millimetres" if started.unit == "mm" else "inches",
        name=_toml(tables["name"]),
        wall=lines("wall"),
        rail=lines("rail"),
        person=f"\n# For whom the wall is arranged.\n[person]\n{own}"
        if (own := lines("person"))
        else "",
        bed=lines("printer", FIRST),
        filament=lines("filament", FIRST),
        first=FIRST,
        material=material,
    )
    if started.kind:
        text += _TOOL.format(name=_toml(_tool_name(started.kind)), kind=_toml(started.kind))
    checked(text)
    return text


def start_own(folder: Path, started: Started) -> Path:
    """Write the document of a workshop that was set out into a folder, and return its path.

    Raises:
        InputError: Something is wrong, or missing.
        OutputError: There is a workshop in the folder already, or it cannot be written.
    """
    return write_new(folder, start_text(started).encode())


def named_folder(given: str) -> Path:
    """Return the folder that a person means; ``~`` is the home folder.

    Raises:
        InputError: It is not named from the root of a disk or from the home folder.
    """
    try:
        place = Path(given.strip()).expanduser()
    except RuntimeError:
        place = Path(given.strip())
    if not given.strip() or "\0" in given or not place.is_absolute():
        raise InputError(
            f'"{given.strip()}" does not say where the folder is' if given.strip() else "No folder",
            allowed="a path from the root of the disk, or one that begins with ~",
            todo=f"Write it whole, such as {Path.home() / 'workshop'}",
        )
    return place.parent if place.name == FILE_NAME else place


def folder_words(folder: Path) -> str:
    """Return what would become of a folder in which a workshop is started, or why it cannot be.

    >>> folder_words(Path("/no such place/at all"))
    'The folder is not there yet; it is made when you start.'
    """
    try:
        if (folder / FILE_NAME).exists():
            return "A workshop stands in this folder already: open it, or name another folder."
        if folder.is_dir():
            return "The folder is there, and gets one file: workshop.toml."
        if folder.exists():
            return "This is a file, and no folder."
    except OSError as error:
        return f"The folder cannot be read: {error.strerror}."
    return "The folder is not there yet; it is made when you start."


def _tables(started: Started) -> tuple[dict[str, Plain], list[CleatwrightError]]:
    """Return the document as plain tables, and what of it cannot be read at all."""
    name = started.name.strip() or NAME_IF_NONE
    tables: dict[str, Plain] = {"schema": 1, "name": name, "units": started.unit, "wall": {}}
    faults: list[CleatwrightError] = []
    for fields in start_steps().values():
        for one in fields:
            text = started.typed.get(one.path, "")
            try:
                value = written(one.field, text)
            except MeasureError as error:
                faults.append(error.at(place_at(*one.path)))
                continue
            if value is None and one.field.needed:
                faults.append(_missing(one))
            if value is not None:
                tables = with_value(tables, one.path, value)
    material = shown(standing(tables, ("filament", FIRST, "material")))
    if polymer := polymer_of(material):
        tables = with_value(tables, ("filament", FIRST, "density"), density_kg_m3(polymer))
    if started.kind:
        kind_of(started.kind)
    return tables, faults


def _missing(one: StartField) -> CleatwrightError:
    given = f"The {one.title} is not known yet"
    return InputError(given, place=place_at(*one.path), todo="Write it")


def _among(fault: CleatwrightError, others: list[CleatwrightError]) -> bool:
    """Tell whether a fault is at a place, or at tables around a place, of others."""
    known = {path for one in others for path in _paths(one)}
    return any(path == other[: len(path)] for path in _paths(fault) for other in known)


def _paths(fault: CleatwrightError) -> list[tuple[str | int, ...]]:
    place = fault.place
    return [plain_path(path) for path in place.paths] if isinstance(place, InDocument) else []


def _tool_name(kind: str) -> str:
    plain = kind.replace("-", " ")
    return plain[:1].upper() + plain[1:]


def _toml(value: Plain) -> str:
    return item_of(cast("str", value)).as_string()


_TEXT = """\
# What you decided, in one file. The program writes it, and you may write it too: your comments and
# your order are kept. A length without a unit is in {bare}; any other unit may be named.
# Measure with a calliper and write what you read; play is added later, from [fit].

schema = 1
name = {name}
units = "{unit}"

# x runs from the left edge of the wall, z up from its lower edge, which lies floor_gap above the
# floor. datum is from where you measure when you drill.
[wall]
{wall}
# Next: the studs, since rails are screwed into studs and never into plasterboard alone, and what is
# on the wall already. Look for hidden cables and pipes before you drill.
# [[wall.stud]]
# x = ...

# Rails are ripped from boards with the saw tilted to the bevel.
[rail]
{rail}{person}
# bed: how wide, deep and high it prints. Name it as you like; hole_correction comes from a coupon.
[printer.{first}]
{bed}
# The data sheet of your own spool wins over the density of plain {material}.
[filament.{first}]
{filament}"""
_TOOL = """
[[tool]]
name = {name}
kind = {kind}
"""
