"""Reading and writing the file."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import DocumentError, OutputError, StorageError, UnknownNameError
from cleatwright.workshop.document.editing import append_entry, append_tool, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import changing, checked, load, parse, save

TEXT = Path(__file__).with_name("shed.toml").read_text(encoding="utf-8")
PLAIN = 'schema = 1\nname = "Shed"\n[wall]\nwidth = 2400\nheight = 1200\n'


def test_a_folder_and_its_file_give_the_same_workshop(folder: Path) -> None:
    assert load(folder) == load(folder / "workshop.toml")


def test_a_syntax_error_is_named_with_line_and_column() -> None:
    with pytest.raises(DocumentError, match=r"workshop\.toml, line 3, column \d+"):
        checked('schema = 1\nname = "Shed"\nwall = = 3\n')


def test_a_key_given_twice_is_a_document_error() -> None:
    with pytest.raises(DocumentError, match="name"):
        checked('schema = 1\nname = "Shed"\nname = "Hut"\n')


def test_missing_wrongly_encoded_and_huge_files_are_refused(tmp_path: Path) -> None:
    with pytest.raises(DocumentError, match="no such file"):
        load(tmp_path)
    path = tmp_path / "workshop.toml"
    path.write_bytes(b'name = "W\xe4rkstatt"')
    with pytest.raises(DocumentError, match="Byte 10 of the file is not UTF-8"):
        load(tmp_path)
    path.write_bytes(b"#" * 5_000_001)
    with pytest.raises(DocumentError, match="too large"):
        load(tmp_path)


def test_a_byte_order_mark_is_forgiven(tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").write_text(PLAIN, encoding="utf-8-sig")
    assert load(tmp_path).name == "Shed"


def test_a_file_that_the_disk_refuses_is_a_storage_error(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_path: Path, _mode: str) -> object:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(StorageError, match="Permission denied"):
        load(folder)


def test_deep_nesting_is_a_document_error() -> None:
    with pytest.raises(DocumentError):
        checked("a = " + "[" * 5000 + "]" * 5000)


def test_saving_keeps_comments_and_order(folder: Path) -> None:
    document = parse(TEXT)
    set_value(document, ("wall", "width"), value=2400)
    set_value(document, ("tool", "Long nose", "measures", "neck"), value="20 mm")
    set_value(document, ("defaults", "plate"), value=6)
    append_tool(document, {"name": "Saw", "kind": "saw", "measures": {"blade": 120.5}, "count": 1})
    shed = save(folder, document)
    assert shed == load(folder)
    assert (shed.wall.width_mm, shed.defaults.plate_mm) == (2400, 6)
    assert shed.tools[0].measures.as_dict()["neck"] == 20
    assert shed.tools[-1].measures.as_dict() == {"blade": 120.5}
    written = (folder / "workshop.toml").read_text(encoding="utf-8")
    for comment in ("# The shed behind the house.", "# measured twice", "# Three equal ones."):
        assert comment in written
    tables = [line for line in TEXT.splitlines() if line.startswith("[")]
    found = [line for line in written.splitlines() if line.startswith("[")]
    assert [line for line in found if line in tables][: len(tables) - 2] == tables[:-2]


def test_an_unchanged_document_is_written_byte_for_byte(folder: Path) -> None:
    save(folder, parse(TEXT))
    assert (folder / "workshop.toml").read_bytes() == TEXT.encode()


@pytest.mark.parametrize(
    "before",
    [PLAIN, PLAIN.rstrip("\n"), "tool = []\n" + PLAIN, PLAIN + "\n# the end"],
)
def test_tools_can_be_added_to_any_document(before: str) -> None:
    document = parse(before)
    for name in ("A", "B"):
        append_tool(document, {"name": name, "kind": "x", "measures": {"d": "1/4 in"}})
    append_entry(document, "holder", entry={"tools": ["A"], "place": {"x": 1, "z": 2}})
    shed = checked(tomlkit.dumps(document))
    assert [tool.name for tool in shed.tools] == ["A", "B"]
    assert shed.tools[1].measures.as_dict() == {"d": 6.35}


def test_wrong_paths_of_edits_are_refused() -> None:
    document = parse(TEXT)
    with pytest.raises(DocumentError, match="row of tables"):
        append_entry(document, "wall", entry={"name": "x"})
    with pytest.raises(DocumentError, match="does not lead"):
        set_value(document, ("name", "x", "y"), value=1)
    with pytest.raises(UnknownNameError, match="Did you mean"):
        set_value(document, ("tool", "Long nos", "count"), value=2)
    with pytest.raises(DocumentError, match="needs a key"):
        set_value(document, (), value=1)


def test_a_document_that_is_no_workshop_is_not_written(folder: Path) -> None:
    document = parse(TEXT)
    set_value(document, ("wall", "width"), value=-5)
    with pytest.raises(DocumentError, match="out of bounds"):
        save(folder, document)
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == TEXT


@pytest.mark.parametrize("call", ["fsync", "replace", "mkstemp"])
def test_a_full_disk_leaves_the_old_file_whole(
    folder: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    target = {"fsync": "os.fsync", "replace": "pathlib.Path.replace", "mkstemp": "tempfile.mkstemp"}
    monkeypatch.setattr(target[call], full)
    document = parse(TEXT)
    set_value(document, ("wall", "width"), value=2400)
    with pytest.raises(OutputError, match="No space left on device"):
        save(folder, document)
    monkeypatch.undo()
    assert (folder / "workshop.toml").read_text(encoding="utf-8") == TEXT
    assert [path.name for path in folder.iterdir()] == ["workshop.toml"]


def test_saving_keeps_the_permissions_and_follows_a_link(folder: Path, tmp_path: Path) -> None:
    path = folder / "workshop.toml"
    path.chmod(0o600)
    link = tmp_path / "link.toml"
    link.symlink_to(path)
    save(link, parse(TEXT))
    assert link.is_symlink()
    assert path.stat().st_mode & 0o777 == 0o600


KEYS = (
    "schema",
    "name",
    "units",
    "wall",
    "rail",
    "printer",
    "filament",
    "fit",
    "defaults",
    "tool",
    "holder",
)
INNER = (
    *("width", "height", "x", "bed", "measures", "sizes", "count", "name", "tools", "group"),
    *("mass", "stud", "obstacle", "stock", "kind", "place", "label"),
)
SCALARS = st.one_of(
    st.integers(),
    st.floats(),
    st.booleans(),
    st.text(max_size=12),
    st.dates(),
    st.sampled_from(["5 mm", "1/0 in", "estimate", "in", "3 kg", "a" * 200]),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(INNER) | st.text(max_size=5), inner, max_size=4)
    ),
    max_leaves=12,
)


def only_document_errors(text: str) -> None:
    try:
        shed = checked(text)
    except DocumentError as error:
        assert error.sentence  # noqa: PT017 - both outcomes are right, and each has its own fact
    else:
        assert isinstance(shed, Workshop)


@settings(deadline=None, max_examples=200)
@given(st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=8))
def test_any_values_give_a_workshop_or_a_document_error(raw: dict[str, object]) -> None:
    base: dict[str, object] = {"schema": 1, "name": "S", "wall": {"width": 900, "height": 900}}
    try:
        text = tomlkit.dumps(base | raw)
    except (ValueError, UnicodeError):
        return
    only_document_errors(text)


@settings(deadline=None, max_examples=200)
@given(
    st.lists(
        st.sampled_from(
            [
                *TEXT.splitlines(),
                "[",
                "]]",
                "{",
                '"',
                "'''",
                "=",
                "a.b.c = 1",
                "[a.b]",
                "[[a]]",
                "#",
            ]
        )
        | st.text(max_size=10),
        max_size=14,
    )
)
def test_any_text_gives_a_workshop_or_a_document_error(lines: list[str]) -> None:
    only_document_errors(PLAIN + "\n".join(lines))


@pytest.mark.parametrize("relative", [False, True])
def test_nothing_is_written_through_a_link_that_leads_out_of_the_folder(
    tmp_path: Path, shed_text: str, relative: bool
) -> None:
    """Reading follows it; whoever writes is told where it leads, and link and file stay."""
    elsewhere, folder = tmp_path / "elsewhere", tmp_path / "shed"
    elsewhere.mkdir()
    folder.mkdir()
    target, link = elsewhere / "mine.toml", folder / "workshop.toml"
    target.write_text(shed_text, "utf-8")
    link.symlink_to(Path("..") / "elsewhere" / "mine.toml" if relative else target)
    assert load(folder).tools
    document = parse(shed_text.replace("Shed", "Other"))
    with pytest.raises(OutputError, match="leads out of its folder") as caught:
        save(folder, document)
    assert str(target.resolve()) in caught.value.given
    with pytest.raises(OutputError, match="leads out of its folder"), changing(folder):
        pass
    assert link.is_symlink()
    assert target.read_text("utf-8") == shed_text
    assert sorted(path.name for path in tmp_path.rglob("*.toml")) == ["mine.toml", "workshop.toml"]


def test_a_folder_that_is_reached_by_a_link_is_written_as_any_other(
    tmp_path: Path, shed_text: str
) -> None:
    folder, link = tmp_path / "shed", tmp_path / "link"
    folder.mkdir()
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    link.symlink_to(folder)
    with changing(link):
        save(link, parse(shed_text + "\n# more\n"))
    assert (folder / "workshop.toml").read_text("utf-8").endswith("# more\n")
