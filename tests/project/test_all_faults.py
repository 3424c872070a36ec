"""One check tells every fault of families, beds and carriers that does not depend on another."""

from pathlib import Path

import pytest

from cleatwright.base.errors import BedError, CleatwrightError, NoHolderError
from cleatwright.design.bed_fit import fits_bed
from cleatwright.design.describing import describe
from cleatwright.design.filling import TOO_LARGE
from cleatwright.design.planning import plan
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.checking import WorkshopCheck, check_workshop
from cleatwright.tools.registry import KINDS
from cleatwright.workshop.document.store import checked

HEAD = """schema = 1
name = "Shed"
[wall]
width = 2400
height = 1500
[printer.desk]
bed = [BED]
[filament.plain]
material = "PETG"
density = 1270
"""
HAMMER = """
[[tool]]
name = "NAME"
kind = "hammer"
mass = 0.43
[tool.measures]
length = 300
head_length = 105
head_width = 23.5
head_height = 24
neck_width = 20.5
neck_depth = 14.5
handle_width = 31
handle_depth = 22
"""
DRIVER = """
[[tool]]
name = "NAME"
kind = "screwdriver"
measures = { shank = 4.0, shank_length = 100, handle = 23.5, handle_length = 85 }
"""
TIN = """
[[tool]]
name = "NAME"
kind = "box"
measures = { width = 280, depth = 68, height = 30 }
"""


def check(folder: Path, text: str) -> WorkshopCheck:
    (folder / "workshop.toml").write_text(text, "utf-8")
    return check_workshop(folder)


def refused(folder: Path, text: str) -> CleatwrightError:
    with pytest.raises(CleatwrightError) as caught:
        check(folder, text)
    return caught.value


def test_families_beds_and_carriers_are_told_in_one_run(tmp_path: Path) -> None:
    """One fault of each sort is in the document, none depends on another: three are told."""
    text = HEAD.replace("BED", "180, 180, 180") + (
        HAMMER.replace("NAME", "Claw hammer")
        + DRIVER.replace("NAME", "Long driver")
        + DRIVER.replace("NAME", "Flat driver")
        + TIN.replace("NAME", "Long tin")
        + '[[carrier]]\nname = "Wide"\nparams = { width = 400 }\n'
        + '[[holder]]\ntools = ["Long driver"]\ncarrier = "Wide"\n'
        + '[[holder]]\ntools = ["Claw hammer"]\nfamily = "bore-block"\n'
        + '[[holder]]\ntools = ["Long tin"]\nfamily = "tray"\n'
    )
    error = refused(tmp_path, text)
    assert error.given.startswith("3 things stand in the way:"), error.sentence
    lines = error.given.splitlines()[1:]
    assert len(lines) == 3
    assert '"bore-block" cannot hold "Claw hammer"' in lines[0]
    assert "the tray for Long tin" in lines[1]
    assert "the carrier for Long driver" in lines[2]
    assert "Flat driver" not in error.sentence


def test_one_fault_alone_is_told_as_it_is(tmp_path: Path) -> None:
    text = HEAD.replace("BED", "180, 180, 180") + TIN.replace("NAME", "Long tin")
    error = refused(tmp_path, text + '[[holder]]\ntools = ["Long tin"]\nfamily = "tray"\n')
    assert isinstance(error, BedError)
    assert "stand in the way" not in error.sentence
    assert "at most 174 x 174 x 180 mm" in error.sentence


def test_a_carrier_that_lacks_a_faulty_holder_is_not_told_too(tmp_path: Path) -> None:
    text = HEAD.replace("BED", "180, 180, 180") + (
        HAMMER.replace("NAME", "Claw hammer")
        + DRIVER.replace("NAME", "Long driver")
        + '[[carrier]]\nname = "Wide"\nparams = { width = 400 }\n'
        + '[[holder]]\ntools = ["Long driver"]\ncarrier = "Wide"\n'
        + '[[holder]]\ntools = ["Claw hammer"]\nfamily = "bore-block"\ncarrier = "Wide"\n'
    )
    error = refused(tmp_path, text)
    assert "carrier for" not in error.sentence
    assert '"bore-block" cannot hold "Claw hammer"' in error.sentence


def ordinary(kind: str, side_mm: int) -> str:
    """Return a document with the ordinary tool of a kind and a cube of that side as printer."""
    measures = ", ".join(f"{name} = {value}" for name, value in KINDS[kind].example)
    tool = f'[[tool]]\nname = "T"\nkind = "{kind}"\nmeasures = {{ {measures} }}\n'
    return HEAD.replace("BED", ", ".join([str(side_mm)] * 3)) + tool


@pytest.mark.parametrize(
    ("kind", "side_mm"),
    [("rule", 100), ("scraper", 110), ("torch", 120)],
)
def test_the_next_family_is_taken_when_the_best_fits_no_bed(kind: str, side_mm: int) -> None:
    (best,) = plan(checked(ordinary(kind, 600)))
    small = checked(ordinary(kind, side_mm))
    assert not fits_bed(describe(best.recipe).bounds_mm, small.printer())
    (taken,) = plan(small)
    assert fits_bed(describe(taken.recipe).bounds_mm, small.printer())
    assert taken.recipe.family != best.recipe.family
    assert f"{best.recipe.family} was passed over: {TOO_LARGE}" in taken.why.words
    assert TOO_LARGE not in best.why.words


def test_no_edge_is_left_bare_to_fit_a_bed() -> None:
    """Common practice, no source: the edge of a chisel that hangs stays guarded."""
    (best,) = plan(checked(ordinary("chisel", 600)))
    assert FAMILIES[best.recipe.family].guards
    with pytest.raises(BedError, match=best.recipe.family):
        plan(checked(ordinary("chisel", 110)))


def test_equal_tools_that_no_bed_takes_are_told_in_one_line_with_their_count(
    tmp_path: Path,
) -> None:
    """Three equal crates and one more of another name and the same size: two lines."""
    crate = TIN.replace("width = 280", "width = 405").replace('kind = "box"', 'kind = "box"\nCOUNT')
    text = HEAD.replace("BED", "180, 180, 180") + (
        crate.replace("NAME", "Crate").replace("COUNT", "count = 3")
        + crate.replace("NAME", "Crate 2").replace("COUNT", "")
    )
    error = refused(tmp_path, text)
    told = [one.given for one in error.faults]
    assert len(told) == 2, error.sentence
    assert any("Crate (3 equal ones) is" in one for one in told)
    assert any("for Crate 2 is" in one for one in told)


def test_equal_tools_that_no_family_holds_are_told_in_one_line(tmp_path: Path) -> None:
    """Three drills of 0.5 mm, too thin for every family."""
    drill = '[[tool]]\nname = "NAME"\nkind = "twist-drill"\nMORE\n'
    thin = drill.replace("NAME", "Thin drill").replace("MORE", "count = 3\nMORE")
    measures = dict(KINDS["twist-drill"].example) | {"diameter": 0.5}
    given = ", ".join(f"{key} = {value}" for key, value in measures.items())
    text = HEAD.replace("BED", "180, 180, 180")
    error = refused(tmp_path, text + thin.replace("MORE", f"measures = {{ {given} }}"))
    assert isinstance(error, NoHolderError)
    assert not error.faults
    assert error.given.endswith("(3 equal ones)")
    assert "Thin drill" in error.where


MANY = f"""schema = 1
name = "Shed"
colour = "red"
[wall]
width = 2400
height = "tall"
[[wall.stud]]
x = 300
[[wall.stud]]
x = 310
[rail]
height = 30
bevel = 60
[printer.desk]
bed = [180, 180, 180]
layer = 0.9
[filament.plain]
material = "PETG"
density = 1270
[mount.slotbord]
pitch = 3
{HAMMER.replace("NAME", "Claw hammer").replace('"hammer"', '"hamer"')}
{DRIVER.replace("NAME", "Driver").replace("4.0", '"4 kg"')}
{DRIVER.replace("NAME", "Long driver").replace("4.0", "40")}
{TIN.replace("NAME", "Tin")}
{DRIVER.replace("NAME", "Flat driver")}
[[holder]]
tools = ["Tin"]
family = "tray"
[[holder]]
tools = ["Hammr"]
[[holder]]
group = "gg"
[[holder]]
tools = ["Flat driver"]
family = "bore-blok"
mount = "nails"
place = {{ x = 3000, z = 300 }}
[[holder]]
tools = ["Driver"]
family = 3
"""


def test_a_fault_in_one_table_hides_none_of_another(tmp_path: Path) -> None:
    """Sixteen faults of as many sorts, and nothing that only follows from one of them."""
    error = refused(tmp_path, MANY)
    assert error.given.startswith("16 things stand in the way; the rest was checked without")
    assert [one.as_dict()["path"] for one in error.leaves()] == [
        ["colour"],
        ["wall", "height"],
        ["rail", "height"],
        ["printer", "desk", "layer"],
        ["tool", 1, "measures", "shank"],
        ["holder", 4, "family"],
        ["wall", "stud", 1, "x"],
        ["holder", 1, "tools", 0],
        ["holder", 2, "group"],
        ["holder", 3, "place", "x"],
        ["mount", "slotbord"],
        ["tool", 0, "kind"],
        ["tool", 2, "measures", "shank"],
        ["holder", 3, "family"],
        ["holder", 3, "mount"],
        ["holder", 0],
    ]


def test_what_follows_from_a_row_that_cannot_be_read_is_not_told(tmp_path: Path) -> None:
    text = HEAD.replace("BED", "180, 180, 180") + (
        DRIVER.replace("NAME", "Long driver").replace("4.0", "true")
        + DRIVER.replace("NAME", "Flat driver")
        + '[[carrier]]\nname = "Wide"\n'
        + '[[holder]]\ntools = ["Long driver", "Flat driver"]\ncarrier = "Wide"\n'
    )
    error = refused(tmp_path, text)
    assert [one.as_dict()["path"] for one in error.leaves()] == [["tool", 0, "measures", "shank"]]


PEOPLE = """[person]
stature = 2000
[[other_person]]
name = "Sue"
stature = 1300
[[other_person]]
name = "Kim"
child = true
age = 4
"""
SUE = PEOPLE.partition('[[other_person]]\nname = "Kim"')[0]
STUD = "[[wall.stud]]\nx = 200\n"


@pytest.mark.parametrize(
    ("wall", "more", "path"),
    [
        # a name that cannot be read may be the one that is meant
        ("", PEOPLE.replace('"Sue"', "5"), ["other_person", 0, "name"]),
        ("", PEOPLE.replace('"Sue"', '""'), ["other_person", 0, "name"]),
        ("", PEOPLE.replace('name = "Sue"\n', ""), ["other_person", 0, "name"]),
        ("", PEOPLE.replace("age = 4", "age = 0"), ["other_person", 1, "age"]),
        # the tool of Sue is not looked at as one of the tall owner, whatever its name stands for
        ("", PEOPLE.replace('"Sue"', '"Suse"'), ["tool", 0, "taken_by", 0]),
        ("", PEOPLE.replace('"Sue"', '"Matt"'), ["tool", 0, "taken_by", 0]),
        # what a wall is of says which keys it has
        ('made_of = "solid wod"', SUE + STUD, ["wall", "made_of"]),
        ('made_of = "woods"\nthickness = 18', SUE, ["wall", "made_of"]),
        ('made_of = "concret"\ncourse = 75\njoint_z = 20', SUE, ["wall", "made_of"]),
        ('locked = ""', PEOPLE, ["wall", "locked"]),
    ],
)
def test_one_mistake_is_one_fault(
    tmp_path: Path, wall: str, more: str, path: list[str | int]
) -> None:
    text = HEAD.replace("BED", "240, 200, 200").replace("height = 1500", f"height = 1500\n{wall}")
    driver = DRIVER.replace("NAME", "Driver") + 'properties = ["sharp"]\ntaken_by = ["Sue"]\n'
    driver += "highest_height = 1000\n" if "locked" not in wall else ""
    error = refused(tmp_path, text + more + driver)
    assert [one.as_dict()["path"] for one in error.leaves()] == [path]


def test_the_numbers_of_rows_are_those_of_the_document(tmp_path: Path) -> None:
    """The first of three tools cannot be read; the third is the third all the same."""
    text = HEAD.replace("BED", "180, 180, 180") + (
        DRIVER.replace("NAME", "A").replace("4.0", "true")
        + DRIVER.replace("NAME", "B")
        + DRIVER.replace("NAME", "C").replace("4.0", "99")
    )
    error = refused(tmp_path, text)
    assert [one.as_dict()["path"] for one in error.leaves()] == [
        ["tool", 0, "measures", "shank"],
        ["tool", 2, "measures", "shank"],
    ]
    assert 'tool "C" (number 3)' in error.sentence


def test_tools_that_no_family_holds_together_are_not_parted_in_silence(tmp_path: Path) -> None:
    text = HEAD.replace("BED", "240, 200, 200")
    text += HAMMER.replace("NAME", "Hammer") + DRIVER.replace("NAME", "Driver")
    with pytest.raises(CleatwrightError, match="cannot share one holder") as told:
        check(tmp_path, f'{text}\n[[holder]]\ntools = ["Hammer", "Driver"]\n')
    assert "[[holder]] of their own" in told.value.todo
    # each by itself is held
    apart = "".join(f'\n[[holder]]\ntools = ["{name}"]\n' for name in ("Hammer", "Driver"))
    assert len(check(tmp_path, text + apart).holders) == 2


@pytest.mark.parametrize("mass", ["85", "0,3", "1/2", " 1.5 "])
def test_a_mass_as_text_without_a_unit_is_refused(tmp_path: Path, mass: str) -> None:
    """85 may be grams to whoever writes it, and would count as kilograms."""
    text = HEAD.replace("BED", "240, 200, 200") + HAMMER.replace("NAME", "Hammer")
    with pytest.raises(CleatwrightError, match="does not say in which unit it is"):
        check(tmp_path, text.replace("mass = 0.43", f'mass = "{mass}"'))
    check(tmp_path, text.replace("mass = 0.43", 'mass = "430 g"'))
