"""A file that somebody sends is read within limits of time and memory, and the program goes on.

Oracles: the standard library's zipfile and its processes, and the clock; what an XLSX file holds is
that of ISO/IEC 29500-1 (from memory: a shared string is an ``si`` of ``sst``, a cell a ``c``).
"""

from __future__ import annotations

import multiprocessing
import time
import zipfile
from pathlib import Path

import openpyxl
import pytest

from cleatwright.base.errors import ImportTableError
from cleatwright.workshop.tables.cells import LARGEST_FILE_BYTES, LARGEST_UNPACKED_BYTES, read_rows
from cleatwright.workshop.tables.confined import ReadingLimits, read_confined

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRINGS = (
    '<Override PartName="/xl/sharedStrings.xml" ContentType="application/'
    'vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>'
)


def book(path: Path, *rows: list[object]) -> Path:
    made = openpyxl.Workbook()
    for row in rows:
        made.worksheets[0].append(row)
    made.save(path)
    return path


def with_many_strings(path: Path, count: int, text: str) -> Path:
    """Write a small file that is large when it is read: so many shared strings."""
    plain = book(path.with_name("plain.xlsx"), ["name", "kind"], ["A", "can"])
    with (
        zipfile.ZipFile(plain) as before,
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as after,
    ):
        for name in before.namelist():
            data = before.read(name)
            if name == "[Content_Types].xml":
                data = data.replace(b"</Types>", STRINGS.encode())
            after.writestr(name, data)
        strings = f"<si><t>{text}</t></si>" * count
        after.writestr("xl/sharedStrings.xml", f'<sst xmlns="{MAIN}">{strings}</sst>')
        assert sum(one.file_size for one in after.infolist()) < LARGEST_UNPACKED_BYTES
    assert path.stat().st_size < LARGEST_FILE_BYTES
    return path


def test_what_is_sound_is_read_as_without_limits(tmp_path: Path) -> None:
    for path in (
        book(tmp_path / "a.xlsx", ["name", "kind"], ["A", "can"], ["B", "=1+1"], [1.5, True]),
        tmp_path / "a.csv",
    ):
        if path.suffix == ".csv":
            path.write_text("name,kind\nA,can\n", encoding="utf-16")
        assert read_confined(path) == read_rows(path)


def test_what_is_refused_says_the_same(tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"no sheet")
    with pytest.raises(ImportTableError) as alone:
        read_rows(path)
    with pytest.raises(ImportTableError) as confined:
        read_confined(path)
    assert confined.value.as_dict() == alone.value.as_dict()


def test_a_file_that_takes_too_long_is_let_go_of_in_time(tmp_path: Path) -> None:
    """Five million strings are under the bound of what is unpacked, and take a minute to read."""
    path = with_many_strings(tmp_path / "long.xlsx", 5_000_000, "a")
    began = time.monotonic()
    with pytest.raises(ImportTableError, match="takes longer than 3 s to read"):
        read_confined(path, limits=ReadingLimits(seconds=3))
    assert time.monotonic() - began < 10
    assert multiprocessing.active_children() == []


def test_a_file_that_takes_too_much_memory_is_let_go_of(tmp_path: Path) -> None:
    """80 MB of strings are more than 60 MB, and a small file is less."""
    path = with_many_strings(tmp_path / "large.xlsx", 400_000, "a" * 200)
    small = book(tmp_path / "small.xlsx", ["name", "kind"], ["A", "can"])
    limits = ReadingLimits(seconds=60, memory_bytes=60_000_000)
    assert len(read_confined(small, limits=limits)) == 2
    with pytest.raises(ImportTableError, match="too much memory"):
        read_confined(path, limits=limits)
    assert multiprocessing.active_children() == []
