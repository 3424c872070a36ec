"""Taking a holder from others: the tables of a bundle go into a workshop, nothing is executed."""

from __future__ import annotations

import contextlib
from collections import Counter
from collections.abc import Generator, Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from cleatwright.base.errors import DesignError, OutputError
from cleatwright.base.gathering import in_file
from cleatwright.base.place import InFile
from cleatwright.design.planning import plan
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.bundle_tables import Brought, brought
from cleatwright.jobs.bundles import OUTLINES, RECIPE, BundleManifest, read_bundle
from cleatwright.workshop.document.editing import Value, append_entry
from cleatwright.workshop.document.entries import Tool, ToolItem
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.reading import read_limited
from cleatwright.workshop.document.store import (
    changing,
    checked,
    document_path,
    parse,
    read_text,
    save,
    write_safely,
)
from cleatwright.workshop.outlines.file import MOST_BYTES as MOST_DRAWN_BYTES

LONGEST_NAME = 80


@dataclass(frozen=True)
class Received:
    """What a bundle adds to a workshop.

    ``already`` is the number of the holder as which it is there, 0 when it is not there yet.
    """

    manifest: BundleManifest
    tools: tuple[str, ...]
    written: bool
    already: int = 0

    @property
    def lines(self) -> tuple[str, ...]:
        """Return what happened, for people."""
        one = self.manifest
        by = f", by {one.author}" if one.author else ""
        if self.already:
            there = f"as holder number {self.already}"
            return (
                f"{one.name}: a {one.family}, licence {one.licence}{by}.",
                f"Its tools and its holder are there already, {there}. Nothing was written.",
                "To add them once more, run it again with --again.",
            )
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
            "already_there": bool(self.already),
        }


def receive_bundle(path: Path, place: Path, *, write: bool, again: bool = False) -> Received:
    """Read a bundle and, with ``write``, add its tools and its holder to a workshop.

    A tool whose name is taken gets the mark of the bundle behind its name; a drawing never takes
    the place of another one. Without ``write`` nothing is written anywhere. What is there already
    is not added, unless it is wanted ``again``.

    Raises:
        DocumentError: The bundle or the workshop cannot be read.
        DesignError: The family of the bundle is not installed.
        OutputError: The workshop cannot be written, or another process changes it now; it is
            then unchanged by this one.
    """
    with changing(place) if write else nullcontext():
        return _receive_bundle(path, place, write=write, again=again)


def _receive_bundle(path: Path, place: Path, *, write: bool, again: bool) -> Received:
    bundle = read_bundle(path)
    manifest = bundle.manifest
    where = str(path)
    with in_file(where):
        _require_family(manifest)
    with in_file(f"{where}, {RECIPE}"):
        given = brought(bundle)
    text = read_text(place)
    file = str(document_path(place))
    document, workshop = parse(text, file=file), checked(text, file=file)
    folder = document_path(place).parent
    there = 0 if again else _there_already(given, workshop, folder)
    if there:
        names_there = (item.name for item in workshop.items_of(workshop.holders[there - 1]))
        return Received(manifest, tuple(names_there), written=False, already=there)
    names = _new_names(given.tools, workshop, manifest.mark)
    drawings = _new_drawings(given.drawings, folder, manifest.mark)
    for row, tool in zip(given.rows, given.tools, strict=True):
        new: dict[str, Value] = {"name": names[tool.name]}
        if tool.outline is not None:
            new["outline"] = drawings[tool.outline]
        append_entry(document, "tool", entry={**row, **new})
    append_entry(document, "holder", entry={**given.holder, "tools": _wanted(given, names)})
    # the whole new document is read, and its holders planned, before anything is written
    whole = checked(document.as_string(), file=where)
    contents = {drawings[name]: data for name, data in given.drawings.items()}
    with in_file(where):
        plan(whole, folder=folder, drawings=contents)
    if write:
        with _put(folder, contents):
            save(place, document)
    return Received(manifest, tuple(names[tool.name] for tool in given.tools), written=write)


def _there_already(given: Brought, workshop: Workshop, folder: Path) -> int:
    """Return the number of the holder that has what a bundle brings, by whatever names, or 0."""
    wish = given.wish
    wanted = Counter(
        _sort(item, given.drawings[item.outline] if item.outline else b"")
        for tool in given.tools
        for item in tool.items()
        if {tool.name, item.name} & set(given.names)
    )
    for number, holder in enumerate(workshop.holders, 1):
        same = (holder.family, holder.fit) == (wish.family, wish.fit)
        if not same or sorted(holder.params.values) != sorted(wish.params.values):
            continue
        items = workshop.items_of(holder)
        if wanted == Counter(_sort(item, _drawn(folder, item.outline)) for item in items):
            return number
    return 0


def _sort(item: ToolItem, drawing: bytes) -> tuple[object, ...]:
    """Return what two tools have in common that a holder cannot tell apart."""
    return (
        item.kind,
        tuple(sorted(item.measures.values)),
        item.nominal_size,
        item.mass_kg,
        drawing,
    )


def _drawn(folder: Path, outline: str | None) -> bytes:
    """Return the drawing of a tool that is there, nothing where it has none or cannot be read."""
    if outline is None:
        return b""
    try:
        return read_limited(folder / outline, most_bytes=MOST_DRAWN_BYTES)
    except OSError:
        return b""


def _require_family(manifest: BundleManifest) -> None:
    if manifest.family not in FAMILIES:
        raise DesignError(
            f"the family {manifest.family} is not installed here",
            todo=f"Install the package {manifest.package}, if you trust it, and try again"
            if manifest.package
            else "Use a later version of the program",
        )


def _new_names(tools: Sequence[Tool], workshop: Workshop, mark: str) -> dict[str, str]:
    """Return for each tool of a bundle the name that it gets, so that none is used twice."""
    taken = {tool.name for tool in workshop.tools} | {item.name for item in workshop.items()}
    names: dict[str, str] = {}
    for tool in tools:
        for name in _possible(tool.name, mark):
            own = {name, *(name + end for end in _ends(tool))}
            if not own & taken:
                names[tool.name] = name
                taken |= own
                break
    return names


def _possible(name: str, mark: str) -> Iterator[str]:
    """Yield the name, and then the name with the mark and a number behind it."""
    yield name
    for number in count(1):
        end = f" ({mark})" if number == 1 else f" ({mark} {number})"
        yield name[: LONGEST_NAME - len(end)].rstrip() + end


def _ends(tool: Tool) -> Iterator[str]:
    """Yield what stands behind the name of an entry in the name of each of its single tools."""
    return (item.name.removeprefix(tool.name) for item in tool.items())


def _wanted(given: Brought, names: Mapping[str, str]) -> list[str]:
    """Return the tools of the holder by their new names."""
    new = {
        old: name
        for tool in given.tools
        for end in ("", *_ends(tool))
        for old, name in ((tool.name + end, names[tool.name] + end),)
    }
    return [new[name] for name in given.names]


def _new_drawings(drawings: Mapping[str, bytes], folder: Path, mark: str) -> dict[str, str]:
    """Return for each drawing of a bundle its path in the folder.

    One that is there already, byte for byte, is used again; no other one is touched.
    """
    if not drawings:
        return {}
    _require_inside(folder)
    found: dict[str, str] = {}
    numbers = count(1)
    for name, data in drawings.items():
        ending = name[-4:].lower()
        found[name] = next(
            path
            for path in (f"{OUTLINES}/{mark}-{number}{ending}" for number in numbers)
            if _is_free(folder / path, data)
        )
    return found


def _require_inside(folder: Path) -> None:
    target = folder / OUTLINES
    if target.is_symlink() or (target.exists() and not target.is_dir()):
        raise OutputError(
            "the drawings cannot be put there, since it is no folder of its own",
            place=InFile(str(target)),
            todo="Rename it, and receive the bundle again",
        )


def _is_free(path: Path, data: bytes) -> bool:
    """Tell whether a drawing can stand at a path: nothing is there, or it is there already."""
    if path.is_symlink():
        return False
    try:
        return read_limited(path, most_bytes=len(data)) == data
    except FileNotFoundError:
        return True
    except OSError:
        return False


@contextmanager
def _put(folder: Path, drawings: Mapping[str, bytes]) -> Generator[None]:
    """Put drawings into the folder; those that were not there go again when the block fails."""
    new = [name for name in drawings if not (folder / name).exists()]
    made_folder = bool(new) and not (folder / OUTLINES).exists()
    try:
        if made_folder:
            _make(folder / OUTLINES)
        for name in new:
            write_safely(folder / name, drawings[name])
        yield
    except BaseException:
        with contextlib.suppress(OSError):
            for name in new:
                (folder / name).unlink(missing_ok=True)
            if made_folder:
                (folder / OUTLINES).rmdir()
        raise


def _make(folder: Path) -> None:
    try:
        folder.mkdir()
    except OSError as error:
        raise OutputError(
            f"the folder of the drawings cannot be made: {error.strerror}",
            place=InFile(str(folder)),
        ) from error
