"""Giving a holder to others: one archive with everything to print, see and make it again."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import tomlkit

from cleatwright import __version__
from cleatwright.base.errors import MeasureError, OutputError, unknown_name
from cleatwright.base.gathering import in_file
from cleatwright.base.place import InFile
from cleatwright.design.building import BuiltPart, build, fitting_bodies
from cleatwright.design.catalogue import kinds_held, model_rows, package_of
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.hang import Hang
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.planning import plan
from cleatwright.design.proving import usual_recipe
from cleatwright.holders.choosing import WhyFamily
from cleatwright.holders.registry import FAMILIES, family
from cleatwright.jobs.bundles import (
    FORM,
    MOST_LETTERS,
    OUTLINES,
    RECIPE,
    BundleManifest,
    bundle_bytes,
    checked_licence,
    is_line,
)
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.output_file import drawn
from cleatwright.pack.partfiles import part_files
from cleatwright.papers.kit.outline_svg import outline_svg
from cleatwright.papers.kit.picture import FITTING, TOOL, Seen, picture_png
from cleatwright.papers.kit.tables import csv_bytes
from cleatwright.standards import cautions
from cleatwright.tools.registry import kind as kind_of
from cleatwright.tools.registry import ordinary_body, ordinary_outline
from cleatwright.workshop.document.editing import Value, append_entry
from cleatwright.workshop.document.store import document_path, load, write_safely

PARAMETERS = ("parameter", "value", "from", "to", "default", "why")
SIZES = ("tool", "opening", "measured mm", "play mm", "correction mm", "made mm")
ENDING = ".zip"


def share_holder(
    place: Path,
    which: str,
    *,
    licence: str,
    author: str = "",
    out: Path,
    with_step: bool = False,
) -> Path:
    """Write a bundle of one holder of a workshop and return its path.

    Args:
        place: The workshop folder, or its document.
        which: The name of the holder, or its mark.
        licence: What others may do with it, as an SPDX expression.
        author: Who gives it; may be empty.
        out: The file to write; it must not be there.
        with_step: Add a STEP file; needs the extra ``step``.

    Raises:
        MeasureError: The licence is none.
        UnknownNameError: There is no such holder.
        OutputError: The file is there already, or cannot be written.
    """
    terms = Terms.of(licence, author)
    _require_new(out)
    where = str(document_path(place))
    with in_file(where):
        holders = plan(load(place), folder=document_path(place).parent)
    planned, built = _wanted(holders, which)
    return _write(planned, built, terms, out, with_step=with_step)


def share_family(
    name: str,
    *,
    kind: str = "",
    licence: str,
    author: str = "",
    out: Path,
    with_step: bool = False,
) -> Path:
    """Write a bundle of a family, filled with the ordinary tool of a kind, and return its path.

    Args:
        name: The family.
        kind: The kind; the first that the family can hold when it is "".
        licence: What others may do with it, as an SPDX expression.
        author: Who gives it; may be empty.
        out: The file to write; it must not be there.
        with_step: Add a STEP file; needs the extra ``step``.

    Raises:
        UnknownNameError: There is no such family or kind.
        MeasureError: The licence is none, or the family cannot hold the kind.
        OutputError: The file is there already, or cannot be written.
    """
    terms = Terms.of(licence, author)
    _require_new(out)
    chosen = family(name)
    held = kind or next(iter(kinds_held(chosen)), "")
    if not held:
        raise MeasureError(f'the family "{name}" holds no ordinary tool of any kind')
    example = dict(kind_of(held).example)
    body = ordinary_body(held)
    if reason := chosen.why_not(body):
        raise MeasureError(
            f'the family "{name}" cannot hold an ordinary {held}: {reason}',
            allowed=", ".join(kinds_held(chosen)),
        )
    tool = OwnedTool(
        name=f"Ordinary {held}",
        body=body,
        measures=tuple(sorted(example.items())),
        weighed_kg=None,
        use="weekly",
        group="",
        fit=None,
        outline=ordinary_outline(held),
    )
    recipe = usual_recipe(name, held, (1.0,))
    planned = PlannedHolder(
        number=1,
        name=f"{name} for an ordinary {held}",
        tools=(tool,),
        recipe=recipe,
        why=WhyFamily("owner", name),
        use="weekly",
        group="",
        hang=Hang(recipe.mount, (), recipe.joint, ()),
    )
    return _write(planned, build(recipe, MeshKernel()), terms, out, with_step=with_step)


@dataclass(frozen=True)
class Terms:
    """On what terms something is given, and by whom."""

    licence: str
    author: str

    @classmethod
    def of(cls, licence: str, author: str) -> Terms:
        """Return terms that can stand in a bundle.

        Raises:
            MeasureError: The licence is none, or the author is no line of text.
        """
        if len(author) > MOST_LETTERS or not is_line(author):
            raise MeasureError(
                "the author cannot be named so",
                allowed=f"one line of up to {MOST_LETTERS} letters, without control characters",
            )
        return cls(checked_licence(licence), author)


def _require_new(out: Path) -> None:
    if out.suffix.lower() != ENDING:
        raise OutputError(
            "a bundle is an archive", place=InFile(str(out)), allowed=f"a name with {ENDING}"
        )
    if out.exists():
        raise OutputError(
            "the file is there already", place=InFile(str(out)), todo="Name another file"
        )


def _write(
    planned: PlannedHolder, built: BuiltPart, terms: Terms, out: Path, *, with_step: bool
) -> Path:
    files = bundle_files(planned, built, with_step=with_step)
    manifest = BundleManifest(
        form=FORM,
        name=planned.name,
        family=built.part.family,
        package=package_of(built.part.family),
        licence=terms.licence,
        author=terms.author,
        mark=built.mark,
        made_with=f"cleatwright {__version__}",
        files={},
    )
    files["README.md"] = _readme(manifest, planned).encode()
    write_safely(out, bundle_bytes(manifest, files))
    return out


def bundle_files(
    planned: PlannedHolder, built: BuiltPart, *, with_step: bool = False
) -> dict[str, bytes]:
    """Return the files of a bundle by name, without its manifest and its README."""
    files = drawn(part_files(built, with_step=with_step))
    recipe = built.recipe
    chosen = FAMILIES[built.part.family]
    given = planned.recipe.params
    rows = [
        (name, f"{given[name]:g}" if name in given else default, low, high, default, why)
        for name, low, high, default, why in model_rows(chosen.params)
    ]
    sizes = [
        (
            tool.name,
            size.label,
            f"{size.measured_mm:.2f}",
            f"{size.play_mm:.2f}",
            f"{size.correction_mm:.2f}",
            f"{size.made_mm:.2f}",
        )
        for tool, seat in zip(planned.tools, built.part.seats, strict=True)
        for size in seat.sizes
    ]
    return {
        **files,
        **_outlines(planned),
        RECIPE: holder_toml(planned).encode(),
        "recipe.json": (recipe.to_json() + "\n").encode(),
        "picture.png": picture_png(shown_with_tools(built)),
        "parameters.csv": csv_bytes(PARAMETERS, rows),
        "sizes.csv": csv_bytes(SIZES, sizes),
    }


def _outlines(planned: PlannedHolder) -> dict[str, bytes]:
    """Return the drawing of each tool that is outlined."""
    return {
        _outline_name(number): outline_svg(tool.outline)
        for number, tool in enumerate(planned.tools, 1)
        if tool.outline is not None
    }


def _outline_name(number: int) -> str:
    return f"{OUTLINES}/tool-{number}.svg"


def shown_with_tools(built: BuiltPart) -> list[Seen]:
    """Return a part with its fittings and the tools in it, ready to be drawn."""
    kernel = MeshKernel()
    shown = shown_with_fittings(built)
    for seat in built.part.seats:
        for piece in seat.envelope():
            body = kernel.evaluate(piece)
            shown.append(Seen(body.vertices_mm, body.triangles, TOOL))
    return shown


def shown_with_fittings(built: BuiltPart) -> list[Seen]:
    """Return a part with its hangers and bolts, ready to be drawn."""
    fittings = (Seen(one.vertices_mm, one.triangles, FITTING) for one in fitting_bodies(built))
    return [Seen(built.body.vertices_mm, built.body.triangles), *fittings]


def holder_toml(planned: PlannedHolder) -> str:
    """Return the tables of workshop.toml that make a holder again; lengths carry their unit."""
    document = tomlkit.document()
    document.add(tomlkit.comment(f"{planned.name}: put these tables into a workshop.toml"))
    for number, tool in enumerate(planned.tools, 1):
        entry: dict[str, Value] = {
            "name": tool.name,
            "kind": tool.body.kind,
            "measures": {name: _length(name, value) for name, value in tool.measures},
        }
        if tool.outline is not None:
            entry["outline"] = _outline_name(number)
        if tool.weighed_kg is not None:
            entry["mass"] = f"{tool.weighed_kg:.6g} kg"
        if tool.fit is not None:
            entry["fit"] = tool.fit
        append_entry(document, "tool", entry=entry)
    wish: dict[str, Value] = {
        "tools": [tool.name for tool in planned.tools],
        "family": planned.recipe.family,
    }
    if planned.recipe.params:
        wish["params"] = {n: _length(n, v) for n, v in sorted(planned.recipe.params.items())}
    append_entry(document, "holder", entry=wish)
    return tomlkit.dumps(document)


def _length(name: str, value: float) -> str | float | int:
    """Return a value as the document reads it whatever its unit."""
    last = name.rpartition("_")[2]
    if last == "count":
        return int(value)
    return value if last in {"deg", "share"} else f"{value:g} mm"


def _wanted(holders: tuple[PlannedHolder, ...], which: str) -> tuple[PlannedHolder, BuiltPart]:
    kernel = MeshKernel()
    named = [holder for holder in holders if holder.name == which]
    if named:
        return named[0], build(named[0].recipe, kernel)
    for holder in holders:
        built = build(holder.recipe, kernel)
        if built.mark == which.upper():
            return holder, built
    raise unknown_name("holder or mark", which, [one.name for one in holders])


def _readme(manifest: BundleManifest, planned: PlannedHolder) -> str:
    by = f", by {manifest.author}" if manifest.author else ""
    tools = ", ".join(tool.name for tool in planned.tools)
    lines = [
        f"# {manifest.name}",
        "",
        f"A {manifest.family} for {tools}.",
        f"Part mark {manifest.mark}, made with {manifest.made_with}.",
        "",
        f"Licence: {manifest.licence}{by}",
        "",
        "![The holder with its tools](picture.png)",
        "",
        "- `parts/`: print files",
        f"- `{RECIPE}`: the tables for a workshop.toml",
        "- `parameters.csv`, `sizes.csv`: what was chosen, and how wide each opening is",
        "",
        "Measure your own tools: a holder fits the tools it was made for.",
        "",
        *(
            f"Caution: {text}"
            for text in dict.fromkeys((*cautions.holders(), *cautions.printing()))
        ),
    ]
    return "\n".join(lines) + "\n"
