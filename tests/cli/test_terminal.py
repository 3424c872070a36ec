"""Whatever a name from outside holds, the terminal gets nothing that it would obey."""

import os
import shutil
import unicodedata
from pathlib import Path
from typing import Any

import pytest

# clears the screen, sets the title, turns the direction, rings, hides, begins a line of its own
HOSTILE = ("\x1b[2J", "\x1b]0;mine\x07", "\u202e", "\x9b31m", "\x08\x08", "\r\nError: pwned")
ACTING = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def require_inert(ran: Any) -> None:
    for text in (ran.out, ran.err):
        acting = {sign for sign in text if unicodedata.category(sign) in ACTING} - {"\n"}
        assert not acting, (acting, text)
        assert not any(line.startswith("Error: pwned") for line in text.splitlines())


def toml(text: str) -> str:
    return "".join(sign if sign.isalnum() else f"\\U{ord(sign):08x}" for sign in text)


@pytest.mark.parametrize("hostile", HOSTILE)
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('name = "Hammer"', 'name = "Ham{}mer"'),
        ('kind = "hammer"', 'kind = "ham{}mer"'),
        ('kind = "hammer"', '"kin{}d" = "hammer"'),
        ("[wall]", '[wall]\n"wid{}th" = 1\n[walls."{}"]'),
        ("[[holder]]", '[[holder]]\nfamily = "fo{}rk"'),
        ("[[holder]]", '[[holder]]\nparams = {{ "lip{}" = "3{}" }}'),
        ("[[holder]]", '[[holder]]\ntools = ["{}"]'),
        ("diameter = 65.5", 'diameter = "65{} mm"'),
        ("[printer.", '[printer."a{}b"]\n[printer.'),
    ],
)
def test_names_keys_and_values_of_a_document_are_inert_in_errors(
    cli: Any, shed: Path, shed_text: str, hostile: str, old: str, new: str
) -> None:
    assert old in shed_text
    text = shed_text.replace(old, new.format(toml(hostile), toml(hostile)), 1)
    (shed / "workshop.toml").write_text(text, "utf-8")
    for arguments in (("check", shed), ("check", shed, "--json"), ("export", shed, shed / "x.csv")):
        ran = cli(*arguments)
        # an end of a line in a name counts as a space
        assert ran.code == (0 if "\n" in hostile and "Hammer" in old else 2)
        require_inert(ran)
        (shed / "x.csv").unlink(missing_ok=True)


@pytest.mark.parametrize("hostile", HOSTILE)
def test_a_document_that_is_no_toml_is_inert(cli: Any, shed: Path, hostile: str) -> None:
    for text in (f"a = {hostile}", f'a = "{hostile}"', f"[{hostile}]", f"{hostile} = 1"):
        (shed / "workshop.toml").write_text(text, "utf-8")
        ran = cli("check", shed)
        assert ran.code == 2
        require_inert(ran)


@pytest.mark.parametrize("hostile", HOSTILE)
def test_cells_headings_and_names_of_a_table_are_inert(
    cli: Any, shed: Path, tmp_path: Path, hostile: str
) -> None:
    path = tmp_path / f"t{hostile.replace('/', '')}.csv"
    for row, heading in (
        (f'"Ti{hostile}n",can,60,120', "diameter"),
        (f'Tin,"c{hostile}an",60,120', "diameter"),
        (f'Tin,can,"6{hostile}0",120', "diameter"),
        ("Tin,can,60,120", f'"dia{hostile}meter"'),
        ("Tin,can,60,120", f'"diameter (m{hostile}m)"'),
    ):
        path.write_text(f"name,kind,{heading},height\n{row}\n", "utf-8")
        ran = cli("import", shed, path)
        assert ran.code in {0, 2}
        require_inert(ran)
    require_inert(cli("import", shed, path.with_suffix(f".x{hostile}")))


@pytest.mark.parametrize("hostile", HOSTILE)
def test_names_of_files_and_words_of_the_command_line_are_inert(
    cli: Any, shed: Path, tmp_path: Path, hostile: str
) -> None:
    folder = tmp_path / f"sh{hostile}ed"
    shutil.copytree(shed, folder)
    for arguments in (
        ("check", folder),
        ("export", folder, folder / f"a{hostile}.csv"),
        ("receive", folder, folder / f"a{hostile}.zip"),
        ("start", folder),
        ("start", folder / "new"),
        ("why", folder, f"Ham{hostile}mer"),
        ("share", folder, f"Ham{hostile}mer", "--out", folder / "a.zip", "--licence", "MIT"),
        ("share", folder, "Hammer", "--out", folder / "a.zip", "--licence", f"M{hostile}"),
        ("share-family", f"fo{hostile}rk", "--out", folder / "a.zip", "--licence", "MIT"),
        ("list", f"fami{hostile}lies"),
        ("remake", folder, f"7K{hostile}"),
        ("begin", f"fa{hostile}m"),
        (f"che{hostile}ck",),
        ("check", folder, f"--x{hostile}"),
    ):
        require_inert(cli(*arguments))


def test_a_name_in_bytes_that_are_no_text_is_inert(cli: Any, tmp_path: Path) -> None:
    """POSIX names are bytes; what is no UTF-8 comes as lone surrogates (PEP 383)."""
    require_inert(cli("check", tmp_path / os.fsdecode(b"a\xff\x9b31m")))


def test_brackets_and_colons_of_a_name_show_as_they_are(
    cli: Any, shed: Path, shed_text: str
) -> None:
    name = "Saw [red]x[/red] :hammer: \\"
    text = shed_text.replace("Hammer", name.replace("\\", "\\\\"))
    (shed / "workshop.toml").write_text(text, "utf-8")
    assert name in cli("check", shed).out
