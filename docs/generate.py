"""Write the reference pages, the schema of the report and the example picture into docs/.

Everything comes from the models and registries of the program; only what a key is for, and
the text around the tables of workshop.md, are written by hand; a key without words stops it.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Le
from family_pages import CATALOGUE, catalogue_files, groove_pictures, holders_page
from kind_pages import card_files, kinds_page
from page_parts import table
from pydantic.fields import FieldInfo
from stamped_pictures import Draw, drawn_anew

from cleatwright.base.errors import DesignError
from cleatwright.base.said import in_mm
from cleatwright.base.stages.run import Run
from cleatwright.pack.drawing import elevation_files
from cleatwright.pack.output_file import drawn
from cleatwright.papers.report_model import schema_text
from cleatwright.project.computing import compute
from cleatwright.standards.wall.obstacles import OBSTACLES
from cleatwright.workshop.document import entries, fields
from cleatwright.workshop.document.described import (
    fields_of,
    is_table,
    parted,
    tables_of,
    within_of,
)
from cleatwright.workshop.document.fields import DocumentTable
from cleatwright.workshop.document.key_words import KEY_WORDS
from cleatwright.workshop.document.model import Workshop

DOCS = Path(__file__).resolve().parent
PAGE = DOCS / "workshop.md"
OBSTACLE_MARKS = ("<!-- obstacles by kind -->", "<!-- end of obstacles -->")
MARKED = re.compile(r"<!-- keys of (\w+) -->\n(.*?)<!-- end of keys -->\n", re.DOTALL)
MEASURES = {"mm": "length", "kg": "mass", "deg": "angle", "": "number"}
PLAIN: tuple[tuple[Any, str], ...] = (
    (fields.Name, "text on one line, up to 80 letters"),
    (entries.NominalSize, "number, or text on one line"),
    (entries.FileInWorkshop, "path of an `.svg` or `.dxf` file, up to 200 letters"),
    (fields.Notes, "text, up to 2000 letters"),
    (fields.Words, "text that is not blank, up to 2000 letters"),
    (fields.Slug, "name in lower-case letters, digits and hyphens"),
    (fields.Flag, "`true` or `false`"),
    (fields.Colour, "colour such as `#1f5fa8`"),
    (fields.ReadingsTable, "table of names and measures"),
)


def write(folder: Path, run: Run | None = None, *, draw: Draw = drawn_anew) -> tuple[Path, ...]:
    """Write every generated file below a folder and return their paths.

    Args:
        folder: Where the files go.
        run: The run that keeps what was computed before; a new one when None.
        draw: Draws a picture of the catalogue.
    """
    run = run or Run()
    made = {
        "workshop.md": workshop_page().encode(),
        "holders.md": holders_page().encode(),
        "kinds.md": kinds_page().encode(),
        "report.schema.json": schema_text().encode(),
        "pictures/bicycle-room.svg": bicycle_room(run),
        **groove_pictures(run, draw),
        **catalogue_files(run, draw),
        **card_files(),
    }
    for name, data in made.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(in_mm(data.decode()).encode() if path.suffix == ".md" else data)
    # a family or a kind that is gone leaves no page
    for path in sorted((folder / CATALOGUE).rglob("*")):
        if path.is_file() and path.relative_to(folder).as_posix() not in made:
            path.unlink()
    return tuple(folder / name for name in made)


def bicycle_room(run: Run) -> bytes:
    """Return the elevation of the example."""
    job = compute(DOCS.parent / "examples" / "bicycle-room", run=run)
    return drawn(elevation_files(job.panels[0], run), run)["wall/elevation.svg"]


def workshop_page() -> str:
    """Return the page of the document, its hand-written text as it is and its tables anew.

    Raises:
        DesignError: A table of the document has no place on the page, or a place no table.
    """
    models = {model.__name__: model for model in tables_of(Workshop)}
    text = PAGE.read_text(encoding="utf-8")
    require_equal({name for name, _ in MARKED.findall(text)}, models, where=PAGE.name)
    text = MARKED.sub(lambda found: marked_table(models[found[1]]), text)
    return re.sub(
        rf"{OBSTACLE_MARKS[0]}.*?{OBSTACLE_MARKS[1]}",
        lambda _: obstacle_table(),
        text,
        flags=re.DOTALL,
    )


def obstacle_table() -> str:
    """Return what follows from the kind of an obstacle, between its marks."""
    rows = [(f"`{kind}`", *(f"{mm:g} mm" for mm in sizes)) for kind, sizes in OBSTACLES.rows]
    listed = table(("kind", "margin", "depth", "heat"), rows)
    return f"{OBSTACLE_MARKS[0]}\n\n{listed}\n{OBSTACLE_MARKS[1]}"


def marked_table(model: type[DocumentTable]) -> str:
    """Return the keys of a table of the document between their marks.

    Raises:
        DesignError: A key has no words, or words have no key.
    """
    words, rows = KEY_WORDS[model.__name__], []
    keys = {name: model.model_fields[name].alias or name for name in fields_of(model)}
    require_equal(words, keys.values(), where=f"key_words.toml, {model.__name__}")
    for name, hint in fields_of(model).items():
        meant = default(model.model_fields[name], hint)
        rows.append((f"`{keys[name]}`", words[keys[name]], takes(hint), meant))
    listed = table(("key", "what it is", "takes", "default"), rows)
    return f"<!-- keys of {model.__name__} -->\n\n{listed}\n<!-- end of keys -->\n"


def require_equal(told: Iterable[str], there: Iterable[str], *, where: str) -> None:
    """Refuse to tell of what is not there, or not to tell of what is."""
    if odd := sorted({*told} ^ {*there}):
        raise DesignError(f"on one side only: {', '.join(odd)}", where=where)


def takes(hint: Any) -> str:
    """Return what a key takes, from its type and its bounds, or raise DesignError."""
    core, metadata = parted(hint)
    inner = get_args(core)
    within = within_of(hint)
    if words := plain_words(hint):
        return words
    if get_origin(core) is Literal:
        return one_of([f"`{word}`" for word in inner])
    if within is not None:
        return f"{MEASURES[within.unit]}, {within.allowed}"
    if core is int:
        bounds = [bound for info in metadata for bound in info.metadata]
        low = next(bound.ge for bound in bounds if isinstance(bound, Ge))
        high = next(bound.le for bound in bounds if isinstance(bound, Le))
        return f"whole number, {low}" if low == high else f"whole number, from {low} to {high}"
    if get_origin(core) is tuple and not is_table(inner[0]):
        many = "" if inner[-1] is Ellipsis else f" of {len(inner)}"
        return f"list{many}, each: {takes(inner[0])}"
    if not is_table(inner[0] if inner else core):
        raise DesignError(f"nobody says in words what {hint} takes", where="takes()")
    return "tables" if inner else "table"


def plain_words(hint: Any) -> str:
    """Return the words for a type that has no bounds of its own, or nothing."""
    return next((words for one, words in PLAIN if hint in {one, one | None}), "")


def default(info: FieldInfo, hint: Any) -> str:
    """Return the default of a key in words."""
    if info.alias == "schema" or info.is_required():
        return "needed"
    value: Any = info.default
    within = within_of(hint)
    if within is not None:
        unknown = '`"estimate"`' if within.estimate else "none"
        return unknown if value is None else f"{value:g} {within.unit}".rstrip()
    if isinstance(value, DocumentTable):
        return "its defaults"
    if value in {None, (), ""} or value == fields.Readings():
        return "none"
    if isinstance(value, bool):
        return f"`{str(value).lower()}`"
    return str(value) if isinstance(value, int) else f"`{value}`"


def one_of(words: Iterable[str]) -> str:
    """Join words as a choice."""
    *first, last = words
    return f"{', '.join(first)} or {last}" if first else last


if __name__ == "__main__":
    for made in write(DOCS):
        sys.stdout.write(f"{made.relative_to(DOCS.parent)}\n")
