"""Names from outside, made to escape from a terminal or a folder, stay what they are: names."""

from __future__ import annotations

import random
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from cleatwright.cli.main import main
from cleatwright.jobs.bundles import FORM, BundleManifest, bundle_bytes

Rounds = Callable[[], Iterator[random.Random]]
# general categories of signs that act instead of showing (Unicode Standard, table 4-4, from memory)
ACTING = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
PIECES = (
    *("\x1b[2J", "\x1b]0;x\x07", "\x1b[", "\x9b", "\x90", "\x08", "\x7f", "\r", "\n", "\t", "\x00"),
    *("\u202e", "\u2066", "\u200b", "\ufeff", "\u2028", "\U000e0041", "\ue000", "[red]"),
    *("../", "..\\", "/", "C:", "~", "a", "Saw", " ", "\u00a0", ":x:", "$(x)", "`x`", "=1+1", "'"),
)  # fmt: skip
CAN = "[[tool]]\nname = {0}\nkind = {1}\nmeasures = {{diameter = {2}, height = '120 mm'}}\n"
DEFAULTS = ("'Tin'", "'can'", "'60 mm'")


def name_of(chance: random.Random) -> str:
    return "".join(chance.choice(PIECES) for _ in range(chance.randint(1, 6)))


def words_of(chance: random.Random, shed: Path) -> tuple[object, ...]:
    """Return a command with a bad word or name of a file in it."""
    word = name_of(chance).replace("\x00", "0")
    return chance.choice(
        (
            ("check", f"{shed}/{word}"),
            ("import", shed, shed / f"{word}.csv"),
            ("receive", shed, shed / f"{word}.zip"),
            ("share-family", f"x{word}", "--out", shed / "a.zip", "--licence", "MIT"),
            ("share-family", "fork", "--out", shed / "a.zip", "--licence", f"x{word}"),
            ("list", f"x{word}"),
            ("remake", shed, f"x{word}"),
            (f"x{word}",),
            ("check", shed, f"--x{word}"),
        )
    )


def toml(text: str) -> str:
    return '"' + "".join(f"\\U{ord(sign):08x}" for sign in text) + '"'


def require_inert(capsys: pytest.CaptureFixture[str], *arguments: object) -> None:
    code = main([str(argument) for argument in arguments])
    shown = capsys.readouterr()
    assert code in {0, 1, 2, 3, 4, 5}
    for text in (shown.out, shown.err):
        acting = {sign for sign in text if unicodedata.category(sign) in ACTING}
        assert acting <= {"\n"}, (acting, arguments)
        assert "Traceback" not in text


def listing(folder: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_names_in_documents_tables_files_and_words(
    rounds: Rounds, shed: Path, shed_text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    for chance in rounds():
        said = [toml(name_of(chance)) if chance.random() < 0.5 else one for one in DEFAULTS]
        (shed / "workshop.toml").write_text(shed_text + CAN.format(*said), "utf-8")
        require_inert(capsys, "check", shed, *chance.choice(((), ("--json",))))
        (shed / "workshop.toml").write_text(shed_text, "utf-8")
        table = shed / "t.csv"
        cells = [name_of(chance).replace('"', "") for _ in range(2)]
        table.write_text(f'name,kind,diameter,height\n"{cells[0]}",can,"{cells[1]}",9\n', "utf-8")
        require_inert(capsys, "import", shed, table)
        require_inert(capsys, *words_of(chance, shed))


def test_names_in_bundles(
    rounds: Rounds, shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    model: Any = BundleManifest
    outside = listing(tmp_path)
    for chance in rounds():
        says = {"name": "Tins", "family": "ring-floor", "package": "", "licence": "MIT"}
        says |= {"author": "", "mark": "0000000", "made_with": "by hand"}
        said: list[str] = list(DEFAULTS)
        files: dict[str, bytes] = {}
        match chance.randrange(3):
            case 0:
                says[chance.choice(sorted(says))] = name_of(chance)[:60]
            case 1:
                said[chance.randrange(3)] = toml(name_of(chance))
            case _:
                files[name_of(chance)] = b"x"
        held = f"[[holder]]\ntools = [{said[0]}]\nfamily = 'ring-floor'\n"
        files["holder.toml"] = (CAN.format(*said) + held).encode()
        manifest = model.model_construct(form=FORM, files={}, **says)
        path = tmp_path / "given.zip"
        path.write_bytes(bundle_bytes(manifest, files))
        require_inert(
            capsys, "receive", shed, path, *(("--write",) if chance.random() < 0.3 else ())
        )
        path.unlink()
        new = set(listing(tmp_path)) - set(outside)
        assert {one for one in new if not one.startswith(str(shed))} == set()
        (shed / "workshop.toml").write_bytes(outside[str(shed / "workshop.toml")])
