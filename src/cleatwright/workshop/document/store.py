"""Reading and writing ``workshop.toml``.

Writing keeps the owner's comments and order, and the old file stays whole until
the new one is safely on disk.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Generator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import tomlkit
from pydantic import ValidationError
from tomlkit.exceptions import ParseError, TOMLKitError

from cleatwright.base.errors import (
    CleatwrightError,
    DocumentError,
    OutputError,
    StorageError,
)
from cleatwright.base.lengths import LengthUnit, Wording
from cleatwright.base.place import InDocument, InFile
from cleatwright.base.stages.run import Run
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.own_unit import unit_of
from cleatwright.workshop.document.problems import document_error
from cleatwright.workshop.document.readable import Readable, readable
from cleatwright.workshop.document.reading import read_limited
from cleatwright.workshop.document.toml_text import toml_tables
from cleatwright.workshop.document.tool_tables import with_tools_read
from cleatwright.workshop.ledger.one_at_a_time import alone_in

FILE_NAME = "workshop.toml"
LARGEST_FILE_BYTES = 1_000_000


def document_path(place: Path) -> Path:
    """Return the path of the document in a workshop folder, or the file itself."""
    # a folder of that name is no workshop, and is told as one that is in the way
    return place / FILE_NAME if place.is_dir() and place.name != FILE_NAME else place


def load(place: Path) -> Workshop:
    """Return the checked workshop of a folder or of a file.

    Raises:
        DocumentError: The file is missing, no TOML or no workshop; every wrong entry is named.
        StorageError: The disk refused to give the file.
    """
    path = document_path(place)
    return checked(read_text(path), file=str(path))


def read_text(place: Path) -> str:
    """Return the text of a document.

    Raises:
        DocumentError: The file is missing, too large or not in UTF-8.
        StorageError: The disk refused to give the file.
    """
    path = document_path(place)
    try:
        if path.is_dir():
            raise DocumentError(
                "This is a folder, and no file",
                place=InFile(str(path)),
                todo=f"Rename it; {FILE_NAME} is the file in which a workshop stands",
            )
        data = read_limited(path, most_bytes=LARGEST_FILE_BYTES)
        if len(data) > LARGEST_FILE_BYTES:
            raise DocumentError(
                "The file is too large for a workshop",
                place=InFile(str(path)),
                allowed=f"up to {LARGEST_FILE_BYTES} bytes",
            )
        return data.decode("utf-8-sig")
    except FileNotFoundError:
        raise DocumentError(
            "There is no such file",
            place=InFile(str(path)),
            todo=f"Name a folder with a {FILE_NAME}",
        ) from None
    except UnicodeDecodeError as error:
        raise DocumentError(
            f"Byte {error.start + 1} of the file is not UTF-8",
            place=InFile(str(path)),
            todo="Save the file as UTF-8",
        ) from None
    except OSError as error:
        raise StorageError(
            f"The file cannot be read: {error.strerror}",
            place=InFile(str(path)),
            todo="Look at the file, the rights and the disk, then try again",
        ) from error


def parse(text: str, *, file: str = FILE_NAME) -> tomlkit.TOMLDocument:
    """Return a text as a TOML document, with its comments and order.

    Raises:
        DocumentError: The text is no TOML; line and column are named where they are known. Or
            it is far larger than a workshop.
    """
    toml_tables(text, file=file)
    try:
        document = tomlkit.parse(text)
        document.unwrap()
    except ParseError as error:
        reason = str(error).split(" at line ", maxsplit=1)[0]
        raise DocumentError(
            reason,
            place=InFile(file, line=error.line, column=error.col + 1),
            todo="Mend the spelling of the file there",
        ) from None
    except RecursionError:
        raise DocumentError("Lists or tables are nested too deeply", place=InFile(file)) from None
    except (TOMLKitError, ValueError, TypeError, LookupError, ArithmeticError) as error:
        raise DocumentError(
            f"The file cannot be read as TOML ({error})",
            place=InFile(file),
            todo="Mend the spelling",
        ) from None
    return document


def checked(text: str, *, file: str = FILE_NAME, run: Run | None = None) -> Workshop:
    """Return the workshop that a text describes.

    Args:
        text: The text.
        file: The name of its file, for faults.
        run: The run that keeps the tools that were read before; None to read each of them.

    Raises:
        DocumentError: The text is no TOML or no workshop; every wrong entry is named.

    >>> checked('schema = 1' + chr(10) + 'name = "Shed"' + chr(10) + '[wall]').name
    Traceback (most recent call last):
    ...
    cleatwright.base.errors.DocumentError: workshop.toml: 2 entries cannot be used:
    - wall: The key "width" is missing. Add it.
    - wall: The key "height" is missing. Add it.
    """
    raw = toml_tables(text, file=file)
    if "schema" not in raw:
        raise _no_schema().in_file(file)
    units = unit_of(raw)
    try:
        if run is not None:
            # a fault is told by reading all anew, so that it never depends on what was read before
            with contextlib.suppress(ValidationError):
                return _validated(with_tools_read(raw, units, run), units)
        return _validated(raw, units)
    except ValidationError as error:
        wrong = document_error(error, raw=raw, model=Workshop, file=file)
        raise Wording(units).error(wrong) from None


def _validated(raw: Mapping[str, Any], units: LengthUnit) -> Workshop:
    return Workshop.model_validate(raw, context={"units": units}, by_alias=True, by_name=False)


def _no_schema() -> DocumentError:
    return DocumentError(
        'The key "schema" is missing',
        place=InDocument((("schema",),), spoken="named"),
        todo="Add schema = 1",
        line="schema = 1",
    )


def load_what_can_be(place: Path) -> Readable | None:
    """Return what can be read of a document that is no workshop; None when it is one.

    Raises:
        DocumentError: The file is missing, or its text is no TOML.
        StorageError: The disk refused to give the file.
    """
    path = document_path(place)
    found = what_can_be_read(toml_tables(read_text(path), file=str(path)))
    return found if isinstance(found, Readable) else None


def what_can_be_read(raw: Mapping[str, Any], *, run: Run | None = None) -> Workshop | Readable:
    """Return the workshop that a document describes, or what of it can be read.

    Args:
        raw: The document as plain tables.
        run: The run that keeps the tools that were read before; None to read each of them.
    """
    units = unit_of(raw)
    try:
        if run is not None:
            # as in ``checked``
            with contextlib.suppress(ValidationError):
                return _validated(with_tools_read(raw, units, run), units)
        return _validated(raw, units)
    except ValidationError as error:
        found = readable(raw, error, units=units)
        before = () if "schema" in raw else (_no_schema(),)
        return replace(found, faults=(*before, *found.faults))


def faults_in(raw: Mapping[str, Any]) -> tuple[CleatwrightError, ...]:
    """Return every fault of a document that is given as plain tables, each with its place."""
    found = what_can_be_read(raw)
    if isinstance(found, Workshop):
        return ()
    return tuple(found.words.error(one) for fault in found.faults for one in fault.leaves())


@contextmanager
def changing(place: Path) -> Generator[None]:
    """Keep other processes from changing a document, from reading it until it is saved.

    Raises:
        DocumentError: The file is missing, too large or not in UTF-8.
        StorageError: The disk refused to give the file.
        OutputError: Another process is changing it, its folder cannot be written, or it is a link
            that leads out of its folder.
    """
    # what is wrong with the document is said before what is wrong with its folder
    read_text(place)
    _require_inside(document_path(place))
    with alone_in(document_path(place).resolve().parent):
        yield


def save(place: Path, document: tomlkit.TOMLDocument) -> Workshop:
    """Write a document to a folder or file, and return the workshop it describes.

    A document that is no workshop is not written. The new text goes to a
    temporary file in the same folder, is flushed to the disk, and only then
    takes the place of the old file. A link stays a link, and what it leads to is written.

    Raises:
        DocumentError: The document is no workshop; the old file is untouched.
        OutputError: The disk refused, or it is a link that leads out of its folder; the old file
            is untouched.
    """
    path = document_path(place)
    _require_inside(path)
    text = tomlkit.dumps(document)
    workshop = checked(text, file=str(path))
    write_safely(path, text.encode())
    return workshop


def save_text(place: Path, text: str) -> None:
    """Write the text of a document, which was read as TOML, whether it is a workshop or not.

    Raises:
        OutputError: The disk refused, or the document is a link that leads out of its folder; the
            old file is untouched.
    """
    path = document_path(place)
    _require_inside(path)
    write_safely(path, text.encode())


def _require_inside(path: Path) -> None:
    """Refuse a document that is a link to a file elsewhere: nobody expects a change there."""
    try:
        target = path.resolve()
        if not path.is_symlink() or target.is_relative_to(path.parent.resolve()):
            return
        led = f", to {target}"
    except (OSError, RuntimeError):
        led = ""
    raise OutputError(
        f"This is a link that leads out of its folder{led}, and so nothing is written through it",
        place=InFile(str(path)),
        todo="Name the folder of that file, or put the file itself in the place of the link; "
        "nothing was changed",
    )


def write_safely(path: Path, data: bytes) -> None:
    """Write a whole file or leave the old one as it is.

    Raises:
        OutputError: The disk refused; the old file is untouched and no half file is left.
    """
    target = path.resolve()
    temporary: Path | None = None
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
        temporary = Path(name)
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        if target.exists():
            shutil.copymode(target, temporary)
        else:
            temporary.chmod(0o644)
        temporary.replace(target)
    except OSError as error:
        if temporary is not None:
            with contextlib.suppress(OSError):
                temporary.unlink(missing_ok=True)
        raise OutputError(
            f"The file cannot be written: {error.strerror or error}",
            place=InFile(str(path)),
            todo="Make room or choose another folder; the old file is unchanged",
        ) from error
