"""Every command answers people in sentences and programs in JSON."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from cleatwright.cli.main import main
from cleatwright.holders.registry import FAMILIES
from cleatwright.mounts.joints.registry import JOINTS, WITHOUT_CARRIER
from cleatwright.mounts.registry import MOUNTS
from cleatwright.tools.registry import KINDS

PROGRAM = Path(sys.executable).parent / "cleatwright"
HEAVY = ("manifold3d", "numpy", "scipy", "pydantic", "OCP", "lib3mf", "pint", "tomlkit")


def program(*arguments: object, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - our own program
        [str(PROGRAM), *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize(
    ("what", "names"),
    [
        ("families", FAMILIES),
        ("kinds", KINDS),
        ("mounts", MOUNTS),
        ("joints", [*WITHOUT_CARRIER, *JOINTS]),
    ],
)
def test_lists_name_everything_that_is_registered(cli: Any, what: str, names: Any) -> None:
    assert [entry["name"] for entry in cli("list", what, "--json").json] == list(names)
    shown = cli("list", what).out
    assert all(f"{name}: " in shown for name in names)


def test_an_unknown_list_is_told(cli: Any) -> None:
    ran = cli("list", "tools")
    assert ran.code == 2
    assert "Allowed: families, joints, kinds, mounts" in ran.err


def test_sources_are_listed_and_the_unseen_are_fewer(cli: Any) -> None:
    every, unseen = cli("sources", "--json").json, cli("sources", "--unseen", "--json").json
    assert 0 < len(unseen) < len(every)
    assert set(every[0]) == {"table", "value", "source"}
    assert "from memory" in cli("sources", "--unseen").out


def test_a_check_tells_each_holder_and_what_is_estimated(cli: Any, shed: Path) -> None:
    told = cli("check", shed, "--json").json
    assert (told["name"], told["tools"], len(told["holders"])) == ("Shed", 6, 5)
    shown = cli("check", shed).out
    assert "Everything can be read, held and printed" in shown
    assert "cleatwright arrange" in shown
    assert "2 masses are estimated" in shown


def test_a_workshop_that_cannot_be_written_can_be_checked(
    cli: Any, shed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_arguments: object, **_more: object) -> None:
        raise PermissionError(13, "Permission denied")

    for name in ("mkdir", "write_bytes", "write_text", "touch"):
        monkeypatch.setattr(Path, name, refused)
    monkeypatch.setattr("tempfile.mkstemp", refused)
    monkeypatch.setattr("sqlite3.connect", refused)
    assert cli("check", shed).code == 0


def test_start_makes_a_workshop_that_can_be_checked(cli: Any, tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()
    (tmp_path / "new" / "notes.txt").write_text("mine")
    told = cli("start", tmp_path / "new", "--from", "joiners-bench", "--json").json
    assert told["workshop"] == str(tmp_path / "new" / "workshop.toml")
    assert (tmp_path / "new" / "notes.txt").read_text() == "mine"
    assert "cleatwright check" in cli("start", tmp_path / "deep" / "er").out
    assert cli("check", tmp_path / "new").code == 0


def test_start_never_writes_over_a_workshop(cli: Any, shed: Path, shed_text: str) -> None:
    ran = cli("start", shed)
    assert ran.code == 5
    assert "already a workshop" in ran.err
    assert (shed / "workshop.toml").read_text("utf-8") == shed_text


def test_start_tells_of_an_unknown_example_and_of_a_file_in_the_way(
    cli: Any, tmp_path: Path
) -> None:
    ran = cli("start", tmp_path / "x", "--from", "bicycle-rom")
    assert (ran.code, 'Did you mean "bicycle-room"?' in ran.err) == (2, True)
    (tmp_path / "file").write_text("")
    assert cli("start", tmp_path / "file").code == 5


def test_wrong_options_are_told_in_a_sentence_and_in_json(cli: Any) -> None:
    assert cli("make").code == 2
    assert cli("make", ".", "--wibble").code == 2
    ran = cli("nosuch", "--json")
    assert ran.code == 2
    assert (ran.error["code"], "nosuch" in ran.error["given"]) == ("input", True)


def test_without_a_command_the_help_is_shown(cli: Any) -> None:
    ran = cli()
    assert ran.code == 0
    assert "Usage: cleatwright" in ran.out
    assert ran.err == ""


def test_help_loads_no_heavy_library() -> None:
    code = (
        "import sys; from cleatwright.cli.main import main; assert main(['--help']) == 0; "
        f"print(sorted(set({HEAVY}) & set(sys.modules)))"
    )
    ran = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert "Usage: cleatwright" in ran.stdout
    assert ran.stdout.rstrip().endswith("[]")


def test_a_pipe_that_lacks_a_sign_gets_its_number(shed: Path, shed_text: str) -> None:
    named = shed_text.replace('name = "Hammer"', 'name = "Fäustel ⌀"')
    (shed / "workshop.toml").write_text(named, "utf-8")
    ran = program("check", shed, PYTHONIOENCODING="ascii")
    assert ran.returncode == 0
    assert "F\\xe4ustel \\u2300" in ran.stdout
    assert ran.stderr == ""


def test_a_real_program_gives_the_exit_code_and_only_one_sentence(tmp_path: Path) -> None:
    ran = program("make", tmp_path / "nowhere")
    assert (ran.returncode, ran.stdout) == (2, "")
    assert ran.stderr.startswith("Error (document)")
    assert ran.stderr.count("\n") == 1
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("command", ["check", "make", "arrange"])
def test_what_others_print_meanwhile_is_no_part_of_the_answer_for_programs(
    capfd: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    command: str,
) -> None:
    """A family, a kind or a check of its measures may print whatever it likes."""
    folder = tmp_path / "small"
    folder.mkdir()
    text = Path(__file__).with_name("small.toml").read_text("utf-8")
    (folder / "workshop.toml").write_text(text, "utf-8")
    for measures in (KINDS["can"].measures, KINDS["box"].measures):
        quiet = measures.faults

        def loud(self: Any, quiet: Any = quiet) -> Any:
            sys.stdout.write("chatter")
            os.write(1, b"chatter")
            return quiet(self)

        monkeypatch.setattr(measures, "faults", loud)
    capfd.readouterr()
    assert main([command, str(folder), "--json"]) == 0
    assert isinstance(json.loads(capfd.readouterr().out), dict)
