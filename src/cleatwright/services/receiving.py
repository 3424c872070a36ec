"""Taking a holder from others: the tables of a bundle go into a workshop, nothing is executed."""

from __future__ import annotations

from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from cleatwright.base.errors import DesignError, DocumentError, OutputError
from cleatwright.holders.registry import FAMILIES
from cleatwright.services.bundles import OUTLINES, RECIPE, Manifest, read_bundle
from cleatwright.services.planning import plan
from cleatwright.workshop.editing import Value, append_entry
from cleatwright.workshop.model import Workshop
from cleatwright.workshop.store import (
    changing,
    checked,
    document_path,
    parse,
    read_text,
    save,
    write_safely,
)

KEYS = ("tool", "holder")
_Row = dict[str, Value]


@dataclass(frozen=True)
class Received:
    """What a bundle adds to a workshop."""

    manifest: Manifest
    tools: tuple[str, ...]
    written: bool

    @property
    def lines(self) -> tuple[str, ...]:
        """Return what happened, for people."""
        one = self.manifest
        by = f", by {one.author}" if one.author else ""
        verb = "Added" if self.written else "Would add"
        return (
            f"{one.name}: a {one.family}, licence {one.licence}{by}.",
            f"{verb} {len(self.tools)} tools and a holder: {', '.join(self.tools)}.",
            *(() if self.written else ("Nothing was written; run it again with --write.",)),
        )

    def as_dict(self) -> dict[str, object]:
        """Return the same for programs."""
        return {
            "name": self.manifest.name,
            "family": self.manifest.family,
            "licence": self.manifest.licence,
            "author": self.manifest.author,
            "tools": list(self.tools),
            "written": self.written,
        }


def receive_bundle(path: Path, place: Path, *, write: bool) -> Received:
    """Read a bundle and, with ``write``, add its tools and its holder to a workshop.

    A tool whose name is taken gets the mark of the bundle behind its name.

    Raises:
        DocumentError: The bundle or the workshop cannot be read.
        DesignError: The family of the bundle is not installed.
        OutputError: The workshop cannot be written, or another process changes it now; it is
            then unchanged by this one.
    """
    with changing(place) if write else nullcontext():
        return _receive_bundle(path, place, write=write)


def _receive_bundle(path: Path, place: Path, *, write: bool) -> Received:
    bundle = read_bundle(path)
    manifest = bundle.manifest
    where = f"{path}, {RECIPE}"
    tables = _tables(bundle.files.get(RECIPE), where=where)
    if manifest.family not in FAMILIES:
        raise DesignError(
            f"the family {manifest.family} is not installed here",
            where=str(path),
            todo=f"Install the package {manifest.package}, if you trust it, and try again"
            if manifest.package
            else "Use a later version of the program",
        )
    document = parse(read_text(place), file=str(document_path(place)))
    workshop = checked(read_text(place), file=str(document_path(place)))
    names = _new_names(tables["tool"], workshop, manifest.mark)
    folder = document_path(place).parent
    drawings = _drawings(tables["tool"], bundle.files, manifest.mark, where=where)
    for tool in tables["tool"]:
        new: dict[str, Value] = {"name": names[str(tool["name"])]}
        if "outline" in tool:
            new["outline"] = drawings[str(tool["outline"])][0]
        append_entry(document, "tool", entry=tool | new)
    for holder in tables["holder"]:
        given = cast("Sequence[object]", holder.get("tools", ()))
        wanted = [names.get(str(name), str(name)) for name in given]
        append_entry(document, "holder", entry=holder | {"tools": wanted})
    # the whole new document is read, and its holders planned, before it is written
    whole = checked(document.as_string(), file=where)
    with _put(folder, dict(drawings.values()), keep=write):
        plan(whole, where=where, folder=folder)
        if write:
            save(place, document)
    return Received(manifest, tuple(names.values()), written=write)


def _drawings(
    tools: Sequence[_Row], files: Mapping[str, bytes], mark: str, *, where: str
) -> dict[str, tuple[str, bytes]]:
    """Return for each drawing that a tool names its new name and its content."""
    found: dict[str, tuple[str, bytes]] = {}
    for tool in tools:
        if "outline" not in tool:
            continue
        name = str(tool["outline"])
        if name not in files:
            raise DocumentError(f'The bundle has no drawing "{name}"', where=where)
        ending = ".dxf" if name.lower().endswith(".dxf") else ".svg"
        found[name] = (f"{OUTLINES}/{mark}-{len(found) + 1}{ending}", files[name])
    return found


@contextmanager
def _put(folder: Path, drawings: Mapping[str, bytes], *, keep: bool) -> Generator[None]:
    """Put drawings into the workshop for a while, or for good when all goes well."""
    new = {folder / name: data for name, data in drawings.items() if not (folder / name).exists()}
    made_folder = bool(new) and not (folder / OUTLINES).exists()
    done = False
    try:
        if new:
            (folder / OUTLINES).mkdir(exist_ok=True)
        for path, data in new.items():
            write_safely(path, data)
        yield
        done = keep
    except OSError as error:
        raise OutputError(
            f"the drawings cannot be written: {error.strerror}", where=str(folder / OUTLINES)
        ) from error
    finally:
        if not done:
            for path in new:
                path.unlink(missing_ok=True)
            if made_folder:
                (folder / OUTLINES).rmdir()


def _tables(data: bytes | None, *, where: str) -> dict[str, list[_Row]]:
    if data is None:
        raise DocumentError("The bundle has nothing to make", where=where)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise DocumentError("The file is not UTF-8", where=where) from None
    raw: Mapping[str, Any] = parse(text, file=where).unwrap()
    if set(raw) != set(KEYS):
        raise DocumentError(
            f"The bundle brings {', '.join(sorted(raw)) or 'nothing'}",
            where=where,
            allowed="[[tool]] and [[holder]] tables, and nothing else",
        )
    found: dict[str, list[_Row]] = {}
    for key in KEYS:
        rows = cast("list[object]", raw[key]) if isinstance(raw[key], list) else [None]
        if not all(isinstance(row, dict) for row in rows):
            raise DocumentError(f'"{key}" is no row of tables', where=where)
        found[key] = cast("list[_Row]", rows)
    if not all(isinstance(row.get("name"), str) for row in found["tool"]):
        raise DocumentError("A tool has no name", where=where)
    return found


def _new_names(tools: Sequence[_Row], workshop: Workshop, mark: str) -> dict[str, str]:
    taken = {tool.name for tool in workshop.tools} | {item.name for item in workshop.items()}
    names: dict[str, str] = {}
    for tool in tools:
        own = name = str(tool["name"])
        number = 1
        while name in taken:
            name = f"{own} ({mark})" if number == 1 else f"{own} ({mark} {number})"
            number += 1
        names[own] = name
        taken.add(name)
    return names
