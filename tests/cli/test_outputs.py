"""What ``make`` writes where, and what it leaves alone."""

from pathlib import Path
from typing import Any

import pytest

from cleatwright.jobs.making import OUTPUTS

pytestmark = pytest.mark.usefixtures("computed")


def folders(files: dict[str, bytes]) -> set[str]:
    return {name.split("/")[0] for name in files} - {"manifest.json"}


@pytest.mark.parametrize("word", OUTPUTS)
def test_only_writes_that_output_with_the_bytes_of_the_whole_job(
    cli: Any, shed: Path, listing: Any, word: str
) -> None:
    assert cli("make", shed, "--out", shed / "all").code == 0
    assert cli("make", shed, "--out", shed / "some", "--only", word).code == 0
    some, every = listing(shed / "some"), listing(shed / "all")
    assert folders(some) == {"report.json" if word == "report" else word}
    del some["manifest.json"]
    assert some.items() <= every.items()


def test_only_takes_several_words_and_leaves_the_other_outputs(
    cli: Any, shed: Path, listing: Any
) -> None:
    cli("make", shed)
    before = listing(shed / "out")
    (shed / "out" / "wood" / "cut-list.csv").write_bytes(b"old")
    (shed / "out" / "report.json").write_bytes(b"old")
    ran = cli("make", shed, "--only", " report, wood ", "--json")
    assert {c["path"] for c in ran.json["changes"] if c["what"] == "changed"} == {
        "report.json",
        "wood/cut-list.csv",
    }
    assert listing(shed / "out") == before


def test_a_wrong_word_after_only_is_told_before_anything_is_done(cli: Any, shed: Path) -> None:
    ran = cli("make", shed, "--only", "parts,woods")
    assert ran.code == 2
    assert 'no output "woods"' in ran.err
    assert 'Did you mean "wood"?' in ran.err
    assert sorted(path.name for path in shed.iterdir()) == ["workshop.toml"]


def test_a_dry_run_writes_nothing_at_all(cli: Any, shed: Path) -> None:
    ran = cli("make", shed, "--dry-run")
    assert ran.code == 0
    assert "Would write to" in ran.out
    assert "new      report.json" in ran.out
    assert sorted(path.name for path in shed.iterdir()) == ["workshop.toml"]


def test_files_of_an_earlier_run_go_and_those_of_the_owner_stay(
    cli: Any, shed: Path, listing: Any
) -> None:
    cli("make", shed)
    out = shed / "out"
    fresh = listing(out)
    stale = out / "parts" / "hook_1x50_0000000.3mf"
    stale.write_bytes(b"an earlier part")
    text = (out / "manifest.json").read_text("utf-8")
    (out / "manifest.json").write_text(
        text.replace('"report.json"', '"parts/hook_1x50_0000000.3mf", "report.json"', 1)
    )
    (out / "parts" / "my notes.txt").write_bytes(b"mine")
    (out / "mine").mkdir()
    ran = cli("make", shed, "--json")
    assert [c["path"] for c in ran.json["changes"] if c["what"] == "removed"] == [
        "parts/hook_1x50_0000000.3mf"
    ]
    assert listing(out) == fresh | {"parts/my notes.txt": b"mine"}
    assert (out / "mine").is_dir()


def test_only_of_nothing_is_refused_with_what_there_is(cli: Any, shed: Path) -> None:
    for word in ("", " , "):
        ran = cli("make", shed, "--only", word)
        assert ran.code == 2
        assert "Allowed: batches, lists, parts, report, wall, wood" in ran.err
    assert [path.name for path in shed.iterdir()] == ["workshop.toml"]


def test_files_never_go_among_those_of_a_workshop(cli: Any, shed: Path) -> None:
    for command in (("make", shed), ("cards", "--kinds", "can")):
        for out in (shed, "/"):
            ran = cli(*command, "--out", out)
            assert ran.code == 5
            assert "Choose another folder" in ran.err
    assert [path.name for path in shed.iterdir()] == ["workshop.toml"]


def test_the_document_itself_may_be_named(cli: Any, shed: Path) -> None:
    assert cli("make", shed / "workshop.toml").code == 0
    assert (shed / "out" / "report.json").is_file()
    assert (shed / "ledger.db").is_file()


def test_a_check_that_does_not_hold_is_told_and_is_exit_code_3(
    cli: Any, shed: Path, job: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from dataclasses import replace  # noqa: PLC0415 - used here alone

    from cleatwright.jobs import making  # noqa: PLC0415 - used here alone

    unit = job.units[1]
    built = unit.outer
    (check, *rest) = built.standing
    weak = replace(built, standing=(replace(check, demand=check.capacity * 2), *rest))
    broken_unit = replace(unit, outer=weak, holders=(weak,))
    broken = replace(job, units=(job.units[0], broken_unit, *job.units[2:]))
    monkeypatch.setattr(making, "compute", lambda *_place, **_progress: broken)
    ran = cli("make", shed, "--json")
    assert ran.code == 3
    assert ran.json["holds"] is False
    assert built.mark in ran.json["failing"][0]
