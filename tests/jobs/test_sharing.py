"""A holder passes from one workshop to another by a bundle, and nothing else does."""

from __future__ import annotations

import io
import json
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
import trimesh
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from cleatwright.base.errors import (
    CleatwrightError,
    DesignError,
    DocumentError,
    MeasureError,
    OutputError,
    UnknownNameError,
)
from cleatwright.jobs.bundles import bundle_bytes, read_bundle
from cleatwright.jobs.examples import start_workshop
from cleatwright.jobs.receiving import receive_bundle
from cleatwright.jobs.sharing import share_family, share_holder
from cleatwright.project.computing import compute
from cleatwright.workshop.document.store import load

Entries = dict[str, bytes]


@pytest.fixture(scope="module")
def given_bundle(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> Path:
    folder = tmp_path_factory.mktemp("giver")
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    return share_holder(folder, "Hammer", licence="cc0-1.0", out=folder / "hammer.zip")


@pytest.fixture
def taker(tmp_path: Path) -> Path:
    start_workshop(tmp_path / "taker", example="joiners-bench")
    return tmp_path / "taker"


def entries(path: Path) -> Entries:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def packed(path: Path, files: Entries) -> Path:
    with zipfile.ZipFile(path, "w") as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return path


def test_a_bundle_holds_what_others_need(given_bundle: Path) -> None:
    files = entries(given_bundle)
    (threemf,) = (name for name in files if name.endswith(".3mf"))
    scene = trimesh.load_scene(io.BytesIO(files[threemf]), file_type="3mf")
    (mesh,) = scene.geometry.values()
    assert mesh.is_watertight
    picture = Image.open(io.BytesIO(files["picture.png"]))
    assert min(picture.size) >= 300
    assert len(picture.convert("RGB").getcolors(1 << 20) or ()) > 10
    assert "Licence: CC0-1.0" in files["README.md"].decode()
    assert "lip" in files["parameters.csv"].decode("utf-8-sig")
    assert json.loads(files["recipe.json"])["family"] == "fork"


def test_the_taker_makes_the_same_part_whatever_the_unit_of_the_workshop(
    given_bundle: Path, taker: Path, shed_text: str, tmp_path: Path
) -> None:
    """joiners-bench counts in inches; the tool comes over in mm and its measures stay."""
    before = (taker / "workshop.toml").read_bytes()
    assert not receive_bundle(given_bundle, taker, write=False).written
    assert (taker / "workshop.toml").read_bytes() == before
    received = receive_bundle(given_bundle, taker, write=True)
    assert load(taker).units == "in"
    (name,) = received.tools
    mine = next(item for item in load(taker).items() if item.name == name)
    (tmp_path / "giver").mkdir()
    (tmp_path / "giver" / "workshop.toml").write_text(shed_text, "utf-8")
    theirs = next(i for i in load(tmp_path / "giver").items() if i.name == "Hammer")
    assert mine.measures.as_dict() == pytest.approx(theirs.measures.as_dict())
    assert mine.mass_kg == theirs.mass_kg
    job = compute(taker)
    assert any(p.tools[0].name == name and p.recipe.family == "fork" for p in job.planned)


def test_received_twice_the_names_stay_apart(given_bundle: Path, taker: Path) -> None:
    names = [receive_bundle(given_bundle, taker, write=True, again=True).tools[0] for _ in range(3)]
    assert len(set(names)) == 3
    assert len(load(taker).items()) == len({item.name for item in load(taker).items()})


def test_the_same_holder_gives_the_same_bytes(
    given_bundle: Path, tmp_path: Path, shed_text: str
) -> None:
    (tmp_path / "workshop.toml").write_text(shed_text, "utf-8")
    again = share_holder(tmp_path, "hammer".title(), licence="CC0-1.0", out=tmp_path / "b.zip")
    assert again.read_bytes() == given_bundle.read_bytes()
    mark = read_bundle(again).manifest.mark
    by_mark = share_holder(tmp_path, mark.lower(), licence="CC0-1.0", out=tmp_path / "c.zip")
    assert by_mark.read_bytes() == again.read_bytes()


@pytest.mark.parametrize(
    ("which", "licence", "name", "error"),
    [
        ("Hammer", "free for all", "x.zip", UnknownNameError),
        ("Hammr", "MIT", "x.zip", UnknownNameError),
        ("Hammer", "MIT", "x.tar", OutputError),
        ("Hammer", "MIT", "there.zip", OutputError),
        ("Hammer", "MIT", "no-such-folder/x.zip", OutputError),
    ],
)
def test_what_cannot_be_shared_is_told(
    tmp_path: Path, shed_text: str, which: str, licence: str, name: str, error: type[Exception]
) -> None:
    (tmp_path / "workshop.toml").write_text(shed_text, "utf-8")
    (tmp_path / "there.zip").write_bytes(b"mine")
    with pytest.raises(error):
        share_holder(tmp_path, which, licence=licence, out=tmp_path / name)
    assert (tmp_path / "there.zip").read_bytes() == b"mine"


def test_a_family_is_shared_with_an_ordinary_tool(tmp_path: Path, taker: Path) -> None:
    path = share_family("ring-floor", licence="MIT", author="Somebody", out=tmp_path / "ring.zip")
    manifest = read_bundle(path).manifest
    assert (manifest.family, manifest.licence, manifest.author) == ("ring-floor", "MIT", "Somebody")
    assert receive_bundle(path, taker, write=True).written
    with pytest.raises(MeasureError, match="cannot hold"):
        share_family("ring-floor", kind="hammer", licence="MIT", out=tmp_path / "no.zip")


def test_an_outline_comes_along_as_a_drawing(tmp_path: Path, taker: Path) -> None:
    path = share_family("shadow-pocket", licence="CC0-1.0", out=tmp_path / "flat.zip")
    assert not receive_bundle(path, taker, write=False).written
    assert not (taker / "outlines").exists()
    received = receive_bundle(path, taker, write=True)
    (drawing,) = (taker / "outlines").iterdir()
    tool = next(item for item in load(taker).items() if item.name == received.tools[0])
    assert tool.outline == f"outlines/{drawing.name}"
    assert read_bundle(path).manifest.mark in drawing.name


def rewrite(change: Callable[[Entries], object]) -> Callable[[Path, Path], Path]:
    """Return a forgery: the files changed, the manifest's sums made again."""

    def forge(source: Path, target: Path) -> Path:
        bundle = read_bundle(source)
        files = dict(bundle.files)
        change(files)
        target.write_bytes(bundle_bytes(bundle.manifest, files))
        return target

    return forge


def _set(name: str, data: bytes) -> Callable[[Path, Path], Path]:
    return rewrite(lambda files: files.update({name: data}))


def _plain(change: Callable[[Entries], object]) -> Callable[[Path, Path], Path]:
    def forge(source: Path, target: Path) -> Path:
        files = entries(source)
        change(files)
        return packed(target, files)

    return forge


def _linked(source: Path, target: Path) -> Path:
    packed(target, entries(source))
    with zipfile.ZipFile(target, "a") as archive:
        link = zipfile.ZipInfo("link")
        link.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(link, "/etc/passwd")
    return target


HOSTILE: dict[str, tuple[Callable[[Path, Path], Path], str]] = {
    "parent": (_set("../evil.txt", b"x"), "leads out"),
    "deep parent": (_set("parts/../../evil.txt", b"x"), "leads out"),
    "absolute": (_set("/tmp/evil", b"x"), "leads out"),  # noqa: S108 - a name in an archive
    "backslash": (_set("a\\..\\evil", b"x"), "leads out"),
    "drive": (_set("C:evil", b"x"), "leads out"),
    "link": (_linked, "leads out"),
    "changed file": (_plain(lambda f: f.update({"README.md": b"x"})), "changed or damaged"),
    "missing file": (_plain(lambda f: f.pop("README.md")), "differ"),
    "extra file": (_plain(lambda f: f.update({"more": b"x"})), "differ"),
    "no manifest": (_plain(lambda f: f.pop("bundle.toml")), "no bundle.toml"),
    "manifest": (_plain(lambda f: f.update({"bundle.toml": b"form = 7"})), "bundle.toml"),
    "bomb": (_set("zeros", bytes(120_000_000)), "MB"),
    "no recipe": (rewrite(lambda f: f.pop("holder.toml")), "nothing to make"),
    "other tables": (_set("holder.toml", b"[wall]\nwidth = 1\n"), "and nothing else"),
    "no toml": (_set("holder.toml", b"\xff\xfe"), "UTF-8"),
    "no rows": (_set("holder.toml", b"tool = 1\nholder = 2\n"), "no row of tables"),
    "no name": (
        _set("holder.toml", b"[[tool]]\nkind='can'\n[[holder]]\ngroup='x'\n"),
        "is missing",
    ),
    "bad tool": (
        _set(
            "holder.toml",
            b"[[tool]]\nname='A'\nkind='can'\n[[holder]]\ntools=['A']\nfamily='fork'\n",
        ),
        "is missing",
    ),
}


@pytest.mark.parametrize("name", sorted(HOSTILE))
def test_a_hostile_or_broken_bundle_is_refused_and_nothing_is_changed(
    given_bundle: Path, taker: Path, tmp_path: Path, name: str
) -> None:
    forge, words = HOSTILE[name]
    before = (taker / "workshop.toml").read_bytes()
    with pytest.raises(CleatwrightError) as told:
        receive_bundle(forge(given_bundle, tmp_path / "forged.zip"), taker, write=True)
    assert words in str(told.value)
    assert (taker / "workshop.toml").read_bytes() == before
    assert not (tmp_path / "evil.txt").exists()


def test_a_family_that_is_not_installed_is_named_with_its_package(
    given_bundle: Path, taker: Path, tmp_path: Path
) -> None:
    bundle = read_bundle(given_bundle)
    other = bundle.manifest.model_copy(update={"family": "tin-shelf", "package": "tin-package"})
    (tmp_path / "other.zip").write_bytes(bundle_bytes(other, bundle.files))
    with pytest.raises(DesignError, match=r"package tin-package, if you trust it"):
        receive_bundle(tmp_path / "other.zip", taker, write=True)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_a_bundle_with_any_bytes_changed_is_read_or_refused(
    given_bundle: Path, tmp_path: Path, data: st.DataObject
) -> None:
    whole = bytearray(given_bundle.read_bytes())
    for _ in range(data.draw(st.integers(1, 4))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    forged = tmp_path / "fuzzed.zip"
    forged.write_bytes(bytes(whole[: data.draw(st.integers(0, len(whole)))]))
    try:
        read_bundle(forged)
    except DocumentError:
        return
