"""Rows of cells from CSV and XLSX files; nothing is evaluated and no encoding is guessed."""

from __future__ import annotations

import codecs
import csv
import errno
import io
import math
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path, PurePath
from typing import Any
from xml.etree.ElementTree import ParseError
from xml.parsers.expat import errors

from cleatwright.base.errors import ImportTableError
from cleatwright.base.place import InFile
from cleatwright.base.visible import visible
from cleatwright.workshop.document.reading import read_limited

LARGEST_FILE_BYTES = 5_000_000
LARGEST_UNPACKED_BYTES = 100_000_000
MOST_ROWS = 5_000
MOST_COLUMNS = 100
# the code of expat, and "Error -4" of zlib
NO_MEMORY = errors.codes[errors.XML_ERROR_NO_MEMORY]
TYPES = (".csv", ".txt", ".tsv", ".xlsx")
DELIMITERS = (",", ";", "\t")
GUARDED = ("=", "+", "-", "@", "\t", "\r", "'")
_MARKS = (
    (codecs.BOM_UTF32_LE, None),
    (codecs.BOM_UTF32_BE, None),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


@dataclass(frozen=True)
class Formula:
    """A cell that holds a formula without a result; it is reported, never evaluated."""

    text: str


Cell = str | float | bool | Formula | None


@dataclass(frozen=True)
class CellRow:
    """One row of a table and its number in the file."""

    number: int
    cells: tuple[Cell, ...]


def guard(text: str) -> str:
    """Return a text that no spreadsheet program takes for a formula.

    >>> guard("=1+1"), guard("Long nose"), unguard(guard("'=1"))
    ("'=1+1", 'Long nose', "'=1")
    """
    return f"'{text}" if text.startswith(GUARDED) else text


def unguard(text: str) -> str:
    """Return a text as it was before ``guard``."""
    return text[1:] if text[:1] == "'" and text[1:].startswith(GUARDED) else text


def read_rows(path: Path) -> tuple[CellRow, ...]:
    """Return the rows of a CSV file or of the first sheet of an XLSX file, without empty ones.

    Raises:
        ImportTableError: The file is missing, too large, damaged, or in an unknown encoding.
    """
    try:
        data = read_limited(path, most_bytes=LARGEST_FILE_BYTES)
    except OSError as error:
        raise ImportTableError(
            f"The file cannot be read: {error.strerror}", place=InFile(str(path))
        ) from error
    if len(data) > LARGEST_FILE_BYTES:
        raise ImportTableError("The file is too large for a tool list", place=InFile(str(path)))
    try:
        read = _xlsx_rows if table_type(path.name) == ".xlsx" else _csv_rows
        rows = [row for row in read(data) if any(cell not in {None, ""} for cell in row.cells)]
    except ImportTableError as error:
        raise error.in_file(str(path)) from error.__cause__
    if len(rows) > MOST_ROWS:
        raise ImportTableError(
            "The table has too many rows", place=InFile(str(path)), allowed=f"up to {MOST_ROWS}"
        )
    return tuple(rows)


def table_type(name: str) -> str:
    """Return the ending of a file name, by which its table is read.

    Raises:
        ImportTableError: Such files cannot be read.
    """
    ending = PurePath(name).suffix
    if ending.lower() not in TYPES:
        raise ImportTableError(
            f'Files of the type "{visible(ending)}" cannot be read', allowed=", ".join(TYPES)
        )
    return ending.lower()


def _decoded(data: bytes) -> str:
    """Return the text of a file in UTF-8, or in UTF-16 with its mark."""
    encoding = next((name for mark, name in _MARKS if data.startswith(mark)), "utf-8-sig")
    try:
        if encoding is not None:
            return data.decode(encoding)
    except UnicodeDecodeError:
        pass
    raise ImportTableError(
        "The encoding of the file is unknown",
        allowed="UTF-8, or UTF-16 with a byte order mark",
        todo='Save it as "CSV UTF-8" in your spreadsheet program',
    )


def _csv_rows(data: bytes) -> Iterator[CellRow]:
    """Yield the rows of a CSV file whose first line tells the delimiter."""
    text = _decoded(data)
    header = next((line for line in text.splitlines() if line.strip()), None)
    if header is None:
        return
    delimiter = _delimiter(header)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for cells in islice(reader, MOST_ROWS + 2):
            yield CellRow(reader.line_num, tuple(_csv_cell(cell) for cell in cells))
    except csv.Error as error:
        raise ImportTableError(
            f"Line {reader.line_num} is not sound CSV ({error})", todo="Mend its quotation marks"
        ) from None


def _delimiter(header: str) -> str:
    """Return the delimiter by which the first line has most columns.

    A guess from letter frequencies, as the standard library offers, takes the
    comma in "name;kind;notes, if any".
    """
    try:
        counts = [
            (len(next(csv.reader([header], delimiter=sign), ())), sign) for sign in DELIMITERS
        ]
    except csv.Error as error:
        raise ImportTableError(f"The first line is not sound CSV ({error})") from None
    most = max(counts)[0]
    signs = [sign for count, sign in counts if count == most]
    if most < 2 or len(signs) > 1:
        raise ImportTableError(
            "The columns of the first line cannot be told apart",
            allowed="comma, semicolon or tab between the columns",
        )
    return signs[0]


def _csv_cell(text: str) -> Cell:
    """Return one cell of a CSV file."""
    plain = text.strip()
    return Formula(plain) if plain.startswith("=") else unguard(plain)


def _xlsx_rows(data: bytes) -> Iterator[CellRow]:
    """Return the rows of the first sheet; a formula counts by the result kept in the file."""
    _check_unpacked_size(data)
    results, formulas = _sheet(data, results=True), _sheet(data, results=False)
    for number, (shown, written) in enumerate(zip(results, formulas, strict=True), 1):
        cells = tuple(_xlsx_cell(*pair) for pair in zip(shown, written, strict=True))
        last = max((at for at, cell in enumerate(cells, 1) if cell is not None), default=0)
        yield CellRow(number, cells[:last])


def _check_unpacked_size(data: bytes) -> None:
    """Refuse a file that would fill the memory."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            size = sum(member.file_size for member in archive.infolist())
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError, EOFError):
        raise ImportTableError("The file is not a sound XLSX file") from None
    if size > LARGEST_UNPACKED_BYTES:
        raise ImportTableError("The file is too large for a tool list")


def _sheet(data: bytes, *, results: bool) -> list[tuple[Any, ...]]:
    """Return the values of the first sheet, or its formulas where it has some."""
    import openpyxl  # noqa: PLC0415 - takes a quarter of a second, and few runs read a sheet

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=results)
            try:
                rows = book.worksheets[0].iter_rows(
                    max_row=MOST_ROWS + 2, max_col=MOST_COLUMNS, values_only=True
                )
                return [tuple(row) for row in rows]
            finally:
                book.close()
    except MemoryError:
        raise
    except Exception as error:
        if _wants_memory(error):
            raise MemoryError from error
        raise ImportTableError("The file is not a sound XLSX file") from error


def _wants_memory(error: BaseException | None) -> bool:
    """Return whether memory was short below a fault: the parser and the unpacker say it so.

    >>> from xml.etree.ElementTree import ParseError
    >>> short = ParseError("out of memory: line 1, column 0")
    >>> short.code = 1
    >>> _wants_memory(short), _wants_memory(ParseError("no element found"))
    (True, False)
    """
    while error is not None:
        parser = isinstance(error, ParseError) and getattr(error, "code", 0) == NO_MEMORY
        unpacker = isinstance(error, zlib.error) and str(error).startswith("Error -4")
        system = isinstance(error, OSError) and error.errno == errno.ENOMEM
        # a library that cannot be loaded, or fails without a reason, is short of memory as well
        loading = isinstance(error, (ImportError, SystemError))
        if isinstance(error, MemoryError) or parser or unpacker or system or loading:
            return True
        error = error.__cause__ or error.__context__
    return False


def _xlsx_cell(shown: object, written: object) -> Cell:
    """Return one cell from its kept result and from what was written into it."""
    if isinstance(written, str) and written.startswith("=") and shown is None:
        return Formula(written)
    if shown is None or isinstance(shown, (bool, str)):
        return unguard(shown.strip()) if isinstance(shown, str) else shown
    if isinstance(shown, (int, float)):
        try:
            return float(shown)
        except OverflowError:
            return math.inf
    return str(shown)
