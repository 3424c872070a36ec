"""Wrong input is told with its place, what is allowed and what to do, and the right exit code."""

from pathlib import Path
from typing import Any

import pytest

SHANK = "shank = 4.0"
MASS = 'mass = "310 g"'
SPRAY = '[[holder]]\ntools = ["Oil spray"]\n'
BED = "bed = [220, 220, 200]"
SMALL_HEAD = (
    "measures = { length = 300, head_length = 30, head_width = 29.5, head_height = 24, "
    "neck_width = 29, neck_depth = 29, handle_width = 31, handle_depth = 29.5 }"
)
HEAD = (
    "measures = { length = 300, head_length = 105, head_width = 23.5, head_height = 24, "
    "neck_width = 20.5, neck_depth = 14.5, handle_width = 31, handle_depth = 22 }"
)


def told(cli: Any, shed: Path, text: str, command: str = "check") -> Any:
    """Run a command on a changed document and return its code and its error."""
    (shed / "workshop.toml").write_text(text, "utf-8")
    ran = cli(command, shed, "--json")
    assert ran.out == ""
    assert sorted(path.name for path in shed.iterdir()) == ["workshop.toml"]
    assert ran.error["exit_code"] == ran.code
    return ran.code, ran.error


@pytest.mark.parametrize(
    ("shank", "said"),
    [
        ("-4", "shank is -4 mm"),
        ("0", "shank is 0 mm"),
        ("31", "shank is 31 mm"),
        ("nan", "nan is not a length"),
        ("inf", "inf is not a length"),
        ("1e9", "out of bounds"),
        ("1e400", "inf is not a length"),
        ('"four"', '"four" cannot be read as a length'),
        ('"4 kg"', "kg"),
        ('"3/0 in"', "divides by zero"),
        ("true", "not a length"),
        ("[]", "not a length"),
    ],
)
def test_a_measure_that_cannot_be_is_told_with_its_tool(
    cli: Any, shed: Path, shed_text: str, shank: str, said: str
) -> None:
    code, error = told(cli, shed, shed_text.replace(SHANK, f"shank = {shank}"))
    assert code == 2
    assert said in error["given"]
    assert error["where"].startswith(f"{shed / 'workshop.toml'}, tool ")
    assert "Driver" in error["where"]
    assert error["allowed"]


@pytest.mark.parametrize(
    ("old", "new", "where", "said", "allowed"),
    [
        (SHANK + ", ", "", "Driver 4", "shank is missing", "shank from 1 to 30 mm"),
        ("handle = 23.5", "handle = 3", "Driver 4", "handle is 3 mm", "from 5 to 80"),
        (SHANK, "shanc = 4.0", "Driver 4", 'did you mean "shank"', "measures of a screwdriver"),
        ('"Hammer"', '"Pliers"', "number 3", 'name "Pliers" is used twice', ""),
        ('kind = "hammer"', 'kind = "hamer"', "Hammer", 'no tool kind "hamer"', "and others"),
        (MASS, "mass = 0", "Pliers", "0 kg is out of bounds", "more than 0 kg"),
        (MASS, 'mass = "-3 g"', "Pliers", "", "kg"),
        (MASS, 'mass = "310 mm"', "Pliers", '"mm" is not a unit of mass', "g, kg, oz, lb"),
        (SPRAY, SPRAY + 'family = "ring"\n', "holder number 1", "no holder family", "ring-floor"),
        (SPRAY, SPRAY + 'family = "fork"\n', "holder number 1", "needs a head", "ring-floor"),
        ("wall-screws", "wall-screw", "holder number 1", "no mount", "wall-screws"),
        ('tools = ["Oil spray"]', 'group = "cans"', "holder number 1", "no group", ""),
        ('tools = ["Oil spray"]', 'tools = ["Oil"]', "holder number 1", "no tool", ""),
        ("floor_gap", "flor_gap", 'key "flor_gap"', "There is no key", "floor_gap"),
        ("x = 650", "x = 1250", "holder number 1", "outside the wall", "from 0 mm to 1200 mm"),
        (BED, "bed = [10, 220, 200]", 'printer "bench"', "10 mm is out of bounds", "from 50 mm"),
        (BED, "bed = [220, 220]", 'printer "bench"', "Entry number 3 is missing", ""),
        ("schema = 1", "schema = 2", 'key "schema"', "2", "schema = 1"),
        ("height = 900", "height = = 900", "line 8, column", "Invalid value", ""),
    ],
)
def test_a_wrong_entry_is_told_with_its_place_and_what_is_allowed(
    cli: Any, shed: Path, shed_text: str, old: str, new: str, where: str, said: str, allowed: str
) -> None:
    assert old in shed_text
    code, error = told(cli, shed, shed_text.replace(old, new, 1))
    assert code == 2
    assert error["where"].startswith(str(shed / "workshop.toml"))
    assert where in error["where"] + error["given"]
    assert said in error["given"]
    assert allowed in error["allowed"]
    assert error["allowed"] or error["todo"]


@pytest.mark.parametrize(
    ("params", "said", "allowed"),
    [
        ("floor = 300", "floor is 300", "floor from 3 to 12 (thinner floors bend)"),
        ("wibble = 3", 'there is no parameter "wibble"', "share, most, ring, wall, floor, lift"),
        ("rings = 12", 'did you mean "ring"', "the parameters of the holder family ring-floor"),
        ("floor = 1, ring = 99", "floor is 1; ring is 99", "ring from 8 to 16"),
    ],
)
def test_a_wrong_parameter_is_told_with_its_bounds(
    cli: Any, shed: Path, shed_text: str, params: str, said: str, allowed: str
) -> None:
    text = shed_text.replace(SPRAY, f"{SPRAY}params = {{ {params} }}\n")
    code, error = told(cli, shed, text)
    assert code == 2
    told_again = sorted(error["given"].split("; "))
    assert all(part in error["given"] for part in said.split("; "))
    assert len(told_again) == len(said.split("; "))
    assert allowed in error["allowed"]
    assert error["where"].endswith("holder number 1, params")


@pytest.mark.parametrize(
    ("missing", "said", "todo"),
    [
        ("[printer.bench]\n" + BED + "\nhole_correction = 0.15\n", "no printer", "[printer.NAME]"),
        (
            '[filament.plain]\nmaterial = "PETG"\ndensity = 1270\n',
            "no filament",
            "[filament.NAME]",
        ),
        ("schema = 1\n", 'key "schema" is missing', "schema = 1"),
    ],
)
def test_what_is_missing_is_told_by_check_already(
    cli: Any, shed: Path, shed_text: str, missing: str, said: str, todo: str
) -> None:
    assert missing in shed_text
    code, error = told(cli, shed, shed_text.replace(missing, ""))
    assert (code, error["where"]) == (2, str(shed / "workshop.toml"))
    assert said in error["given"]
    assert todo in error["todo"]


def test_a_workshop_without_tools_is_told(cli: Any, shed: Path, shed_text: str) -> None:
    code, error = told(cli, shed, shed_text[: shed_text.index("[[tool]]")])
    assert (code, error["given"]) == (2, "the workshop has no tools")
    assert "cleatwright import" in error["todo"]


def test_a_default_mount_that_is_unknown_is_told(cli: Any, shed: Path, shed_text: str) -> None:
    text = shed_text.replace("[[tool]]", '[defaults]\nmount = "cleat"\n\n[[tool]]', 1)
    code, error = told(cli, shed, text)
    assert (code, error["where"]) == (2, f'{shed / "workshop.toml"}, defaults, key "mount"')


def test_a_handle_that_is_thinner_than_the_shank_is_told(
    cli: Any, shed: Path, shed_text: str
) -> None:
    code, error = told(cli, shed, shed_text.replace(SHANK, "shank = 24"))
    assert code == 2
    assert "Driver 4" in error["where"]
    assert "handle" in error["given"]
    assert "shank" in error["given"]


def test_every_wrong_tool_is_told_at_once(cli: Any, shed: Path, shed_text: str) -> None:
    text = shed_text.replace(SHANK, "shank = 99").replace("diameter = 65.5", "diameter = 1")
    code, error = told(cli, shed, text)
    assert code == 2
    assert "2 things stand in the way" in error["given"]
    assert "shank is 99 mm" in error["given"]
    assert "diameter is 1 mm" in error["given"]


def test_a_tool_that_no_family_can_hold_is_told_with_the_reason_of_each_that_takes_its_grip(
    cli: Any, shed: Path, shed_text: str
) -> None:
    assert HEAD in shed_text
    code, error = told(cli, shed, shed_text.replace(HEAD, SMALL_HEAD))
    assert (code, error["code"]) == (3, "no-holder")
    assert "Hammer" in error["where"]
    assert "offers head over a neck" in error["given"]
    assert "fork: its head reaches only" in error["given"]


@pytest.mark.parametrize("command", ["check", "make"])
def test_a_bed_that_is_too_small_is_told_with_the_size_and_the_room(
    cli: Any, shed: Path, shed_text: str, command: str
) -> None:
    code, error = told(cli, shed, shed_text.replace(BED, "bed = [100, 100, 90]"), command)
    assert (code, error["code"]) == (3, "bed")
    # the can of 65.5 mm with play, correction and two walls of 3 mm is wider than 70 mm; its
    # eight-sided ring comes to a flat of 9 mm in front, so that it prints without support
    said = " ".join((error["given"], error["allowed"], error["todo"]))
    assert "ring-floor for Oil spray is 76 x 84 x 118 mm" in said
    # a rim of 3 mm on each side of the bed is left free
    assert "94 x 94 x 90 mm" in said
    assert "larger printer" in said


def test_a_wall_that_is_too_small_is_told_with_the_holders_and_what_would_help(
    cli: Any, shed: Path, shed_text: str
) -> None:
    text = shed_text.replace("width = 1200\nheight = 900", "width = 260\nheight = 300")
    text = text.replace("x = 700", "x = 160").replace("x = 1100", "x = 230")
    text = text[: text.index("[[holder]]")]
    code, error = told(cli, shed, text, "make")
    assert (code, error["code"]) == (3, "wall-room")
    assert '"Hammer" needs' in error["given"]
    assert "mm higher" in error["given"]
    assert error["where"].startswith(str(shed / "workshop.toml"))


def test_a_fixed_place_that_cannot_be_kept_is_told(cli: Any, shed: Path, shed_text: str) -> None:
    code, error = told(cli, shed, shed_text.replace("x = 650", "x = 1190"), "make")
    assert (code, error["code"]) == (3, "wall")
    assert '"Oil spray" reaches beyond the edge' in error["given"]


def test_boards_that_are_too_short_are_told(cli: Any, shed: Path, shed_text: str) -> None:
    code, error = told(cli, shed, shed_text.replace("length = 2400", "length = 110"), "make")
    assert (code, error["code"]) == (3, "stock")
    assert "up to 110 mm" in error["allowed"]
    assert error["where"].endswith("workshop.toml, rail, stock")


@pytest.mark.parametrize("command", ["check", "make"])
def test_a_folder_that_is_not_there_is_told(cli: Any, tmp_path: Path, command: str) -> None:
    ran = cli(command, tmp_path / "nowhere")
    assert ran.code == 2
    assert "There is no such file" in ran.err
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize(
    ("mark", "why"),
    [
        ("", "it has 0 characters"),
        ("X", "it has 1 character."),
        ("KG4HW3Y9", "it has 8 characters"),
        ("!!!!!!!", "check character"),
        ("0000001", "check character"),
    ],
)
def test_a_text_that_is_no_mark_is_told(cli: Any, shed: Path, mark: str, why: str) -> None:
    ran = cli("remake", shed, mark)
    assert ran.code == 2
    assert why in ran.err
    assert sorted(path.name for path in shed.iterdir()) == ["workshop.toml"]
