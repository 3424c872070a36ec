"""Making a part again from the mark on it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from cleatwright import __version__
from cleatwright.base.errors import DocumentError, LedgerError, UnknownNameError, unknown_name
from cleatwright.base.keys import MARK_LENGTH, read_mark
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible
from cleatwright.design.building import BuiltPart, build
from cleatwright.design.recipe import recipe_from_json
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.carrier_papers import carrier_drawing
from cleatwright.pack.output_file import OutputFile, drawn
from cleatwright.pack.partfiles import part_files
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import no_files, publish
from cleatwright.workshop.document.store import FILE_NAME, document_path, load
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.mark_entry import MarkEntry
from cleatwright.workshop.ledger.reading import has_ledger


@dataclass(frozen=True)
class KnownPart:
    """A part that is made again from its mark.

    Args:
        entry: What the ledger keeps of it.
        built: The part.
        files: What it is made with: print files, or the drawing of a carrier of wood.
    """

    entry: MarkEntry
    built: BuiltPart
    files: tuple[OutputFile, ...]


def known_part(place: Path, mark: str) -> KnownPart:
    """Return the part of a mark, and write nothing.

    Raises:
        UnknownNameError: The text is no mark; its check character is wrong, or the ledger of this
            workshop does not know it.
        DocumentError: There is no workshop.
        LedgerError: The ledger cannot be read, or this program would shape the part otherwise.
    """
    known = _read(mark)
    document = document_path(place)
    folder = document.parent
    if not document.is_file():
        raise DocumentError(
            "there is no workshop here",
            place=InFile(str(document)),
            todo=f"Name a folder with a {FILE_NAME}",
        )
    if not has_ledger(folder):
        raise unknown_name("mark", known, (), where=f"{folder} (nothing was made here yet)")
    with open_ledger(folder) as ledger:
        stored = ledger.recipe(known)
        marks = list(dict.fromkeys(entry.mark for entry in ledger.all_marks()))
    if stored is None:
        raise unknown_name("mark", known, marks, place=InFile(str(folder / "ledger.db")))
    built = build(recipe_from_json(stored.recipe_json, where=f"mark {known}"), MeshKernel())
    if built.mark != known:
        raise LedgerError(
            f"this program, version {__version__}, would give the part another shape",
            where=f"mark {known}, made with version {stored.made_with or 'unknown'}",
            todo=f"Use that version for the same bytes, or make the workshop again; the part then "
            f"bears the mark {built.mark}",
        )
    files = part_files(built) if built.printed else [carrier_drawing(built, unit=load(place).units)]
    return KnownPart(stored, built, tuple(files))


def _read(mark: str) -> str:
    known = read_mark(mark)
    if known is None:
        plain = "".join(one for one in mark if one not in " -")
        long = len(plain) == MARK_LENGTH + 1
        count = f"it has {len(plain)} {'character' if len(plain) == 1 else 'characters'}"
        why = "its check character does not agree" if long else count
        raise UnknownNameError(
            f'"{visible(mark)}" is no mark: {why}',
            allowed="seven letters and digits, as on the part",
            todo="Read the mark again; 0 and O, 1 and I count as the same",
        )
    return known


def remake_part(place: Path, mark: str, *, out: Path | None) -> tuple[Path, ...]:
    """Write the files of a mark again, byte for byte, and return their paths.

    They are the print files, or the drawing of a carrier of wood.

    Raises:
        OutputError: The folder cannot be written.
        CleatwrightError: As for ``known_part``.
    """
    _read(mark)
    target = output_folder(out, workshop=document_path(place).parent, usual="out/remade")
    files = drawn(known_part(place, mark).files)
    publish(target, files, kind="remake", replaces=no_files)
    return tuple(target / name for name in sorted(files))
