"""Where a set of files may go, and whether it is still what was published."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from cleatwright.base.errors import OutputError
from cleatwright.project.intact import require_intact
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import MANIFEST, publish


def test_a_set_never_goes_to_a_root_a_workshop_or_around_one(tmp_path: Path, shed: Path) -> None:
    for out in (shed, shed / "out" / "..", tmp_path, Path("/")):
        with pytest.raises(OutputError, match="Choose another folder"):
            output_folder(out, workshop=shed)
    for out in (shed, Path("/")):
        with pytest.raises(OutputError, match="Choose another folder"):
            output_folder(out)
    assert output_folder(None, workshop=shed) == shed / "out"
    assert output_folder(tmp_path / "other", workshop=shed) == tmp_path / "other"


def test_a_link_is_followed_only_where_the_person_named_it(tmp_path: Path, shed: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    link = shed / "out"
    link.symlink_to(outside)
    for usual in ("out", "out/remade"):
        with pytest.raises(OutputError, match="a link that leads out of the workshop"):
            output_folder(None, workshop=shed, usual=usual)
    assert output_folder(link, workshop=shed) == link
    publish(link, {"parts/a": b"a"})
    assert (outside / "parts" / "a").read_bytes() == b"a"
    link.unlink()
    (shed / "there").mkdir()
    link.symlink_to("there")
    assert output_folder(None, workshop=shed) == link
    link.unlink()
    link.symlink_to("out")
    with pytest.raises(OutputError, match="leads to itself"):
        output_folder(None, workshop=shed)


def test_no_link_inside_the_folder_leads_files_out_of_it(tmp_path: Path) -> None:
    outside, folder = tmp_path / "outside", tmp_path / "out"
    outside.mkdir()
    folder.mkdir()
    (folder / "parts").symlink_to(outside)
    with pytest.raises(OutputError, match="in the way"):
        publish(folder, {"parts/a": b"a"})
    assert list(outside.iterdir()) == []


def test_a_set_that_was_damaged_since_is_known(tmp_path: Path) -> None:
    publish(tmp_path, {f"parts/{k}": b"%d" % k for k in range(9)})
    require_intact(tmp_path)
    (tmp_path / "parts" / "3").write_bytes(b"4")
    (tmp_path / "parts" / "5").unlink()
    with pytest.raises(OutputError, match=r"parts/3 was changed, parts/5 is missing.*Make the"):
        require_intact(tmp_path)
    publish(tmp_path, {"a": b"a"}, replaces=lambda name: name == "a")
    with pytest.raises(OutputError, match=r"parts/3 was changed, parts/5 is missing"):
        require_intact(tmp_path)
    shutil.rmtree(tmp_path / "parts")
    with pytest.raises(OutputError, match="parts/4 is missing and 4 more"):
        require_intact(tmp_path)
    (tmp_path / MANIFEST).unlink()
    with pytest.raises(OutputError, match="no list of the files"):
        require_intact(tmp_path)


def test_of_an_older_set_only_what_is_missing_is_known(tmp_path: Path) -> None:
    publish(tmp_path, {"a": b"a", "b": b"b"})
    (tmp_path / MANIFEST).write_text('{"files": ["a", "b"]}')
    (tmp_path / "a").write_bytes(b"other")
    require_intact(tmp_path)
    (tmp_path / "b").unlink()
    with pytest.raises(OutputError, match="b is missing"):
        require_intact(tmp_path)
