"""Documents, tables, bundles and drawings changed at random are read, or refused with a reason."""

from __future__ import annotations

import contextlib
import io
import random
import resource
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import ezdxf.filemanagement
import openpyxl

from cleatwright.base.errors import CleatwrightError
from cleatwright.jobs.bundles import bundle_bytes, read_bundle
from cleatwright.jobs.exchange import import_table
from cleatwright.jobs.receiving import receive_bundle
from cleatwright.jobs.sharing import share_family
from cleatwright.workshop.document.store import checked
from cleatwright.workshop.outlines.file import outline_in

Rounds = Callable[[], Iterator[random.Random]]
# a round is an ordinary read, which takes far less on an idle machine
MOST_S = 60.0
MOST_MB = 600
WORDS = (
    *("-1", "1e999", "nan", "0x" + "f" * 5000, "9" * 4000, "''", "[]", "{}", "true", "\x00"),
    *("../../x", "\u202e", "1979-05-27", "[[tool]]\n", "count = 200\n", "<use href='#a'/>", "use"),
    *("1/0", "=1+1", '"', "\n", "\r", "#", "#a", "d='M0 0'", "scale(1e300)", "INSERT"),
    *(" 70\n", "=", ".", "\x1b[2J"),
)  # fmt: skip
TABLE = (
    "name,kind,count,use,mass (g),diameter (mm),height (mm)\r\n"
    'Paint,can,2,daily,400,60,120\r\n"Wax, old",can,,,,"2 3/8 in",12\r\n'
)
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
    '<style>.a{display:none}</style><defs><g id="a"><path d="M10 10H70V30C60 40 40 40 30 30'
    'A5 5 0 0 1 20 30V90H10Z"/></g></defs><use href="#a" transform="rotate(9) scale(.9)"/>'
    '<rect class="a" x="1" y="2" width="3" height="4" rx="1"/></svg>'
)


def damaged(data: bytes, chance: random.Random) -> bytes:
    """Return bytes with some of them cut, doubled, swapped, flipped or replaced by bad words."""
    for _ in range(chance.choice((1, 1, 2, 4, 12))):
        at = chance.randrange(len(data) + 1)
        end = min(len(data), at + chance.choice((0, 1, 2, 8, 40, 400)))
        piece = data[at:end]
        word = chance.choice(WORDS).encode()
        new = chance.choice((b"", piece * chance.choice((2, 50)), word, word + piece, piece[::-1]))
        data = data[:at] + new + data[end:]
    return data


def drawn_dxf() -> bytes:
    document = ezdxf.filemanagement.new(units=4)
    block = document.blocks.new("A")
    block.add_lwpolyline([(0, 0), (60, 0, 0, 0, 0.5), (60, 40), (0, 40)], close=True)
    document.modelspace().add_blockref("A", (5, 5), dxfattribs={"xscale": 1.5, "yscale": 1.5})
    document.modelspace().add_spline([(10, 10, 0), (20, 30, 0), (30, 10, 0), (10, 10, 0)])
    text = io.StringIO()
    document.write(text)
    # what the reader needs, without the tables of styles that fill the rest
    return text.getvalue().encode()


def sheet() -> bytes:
    book = openpyxl.Workbook()
    page = book.active
    assert page is not None
    for line in TABLE.splitlines():
        page.append(line.split(","))
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def repacked(data: bytes, chance: random.Random) -> bytes:
    """Return an archive with one of its members damaged, and sound again as an archive."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        names = old.namelist()
        wrong = chance.choice(names)
        for name in names:
            inner = old.read(name)
            new.writestr(name, damaged(inner, chance) if name == wrong else inner)
    return out.getvalue()


def require_told(call: Callable[[], object]) -> None:
    """Require that a call ends soon and in bounds, in success or in an error of the program."""
    start = time.monotonic()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with contextlib.suppress(CleatwrightError):
        call()
    assert time.monotonic() - start < MOST_S
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < MOST_MB * 1024


def test_damaged_documents(rounds: Rounds, examples: Path, shed_text: str) -> None:
    texts = [shed_text.encode(), (examples / "joiners-bench" / "workshop.toml").read_bytes()]
    for chance in rounds():
        text = damaged(chance.choice(texts), chance).decode("utf-8", "replace")
        require_told(lambda: checked(text))  # noqa: B023 - called at once


def test_damaged_tables(rounds: Rounds, shed: Path) -> None:
    whole = sheet()
    before = (shed / "workshop.toml").read_bytes()
    for chance in rounds():
        kind = chance.choice((".csv", ".csv", ".tsv", ".xlsx"))
        path = shed / f"table{kind}"
        if kind == ".xlsx":
            path.write_bytes(chance.choice((damaged, repacked))(whole, chance))
        else:
            text = TABLE if kind == ".csv" else TABLE.replace(",", "\t")
            path.write_bytes(damaged(text.encode(), chance))
        require_told(lambda: import_table(shed, path, write=False))  # noqa: B023 - called at once
        assert (shed / "workshop.toml").read_bytes() == before
        path.unlink()


def test_damaged_drawings(rounds: Rounds) -> None:
    drawings = [("a.svg", SVG.encode()), ("a.dxf", drawn_dxf())]
    for chance in rounds():
        name, whole = chance.choice(drawings)
        content = damaged(whole, chance)
        require_told(lambda: outline_in(content, name=name))  # noqa: B023


def test_damaged_bundles(rounds: Rounds, shed: Path, tmp_path: Path) -> None:
    given = tmp_path / "given.zip"
    bundle = read_bundle(share_family("shadow-pocket", licence="MIT", out=given))
    # pictures and print files are bytes that only their sums are held against
    files = {name: data for name, data in bundle.files.items() if len(data) < 20_000}
    forged = tmp_path / "forged.zip"
    before = {path: path.read_bytes() for path in shed.rglob("*")}
    for chance in rounds():
        wrong = chance.choice(("holder.toml", "holder.toml", "outlines/tool-1.svg", "archive"))
        if wrong == "archive":
            whole = bundle_bytes(bundle.manifest, files)
            forged.write_bytes(chance.choice((damaged, repacked))(whole, chance))
        else:
            changed = files | {wrong: damaged(files[wrong], chance)}
            forged.write_bytes(bundle_bytes(bundle.manifest, changed))
        require_told(lambda: receive_bundle(forged, shed, write=False))
        assert {path: path.read_bytes() for path in shed.rglob("*")} == before
