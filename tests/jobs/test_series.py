"""A family over a table of sizes: every part named, marked and checked."""

import csv
from pathlib import Path

import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.errors import CleatwrightError, InputError, MeasureError
from cleatwright.base.progress import Silent
from cleatwright.jobs import together
from cleatwright.jobs.ranges import read_range
from cleatwright.jobs.series import SeriesRequest, make_series, rows_of_ranges, wanted_rows

WISH = SeriesRequest("bore-block", seats=2)
VARY = ("flats 4 to 6 by 1", "long_arm 80 to 100 by 20")


def test_each_part_is_named_by_family_sizes_and_mark(tmp_path: Path) -> None:
    rows = wanted_rows(WISH, table=None, kind="hex-key", vary=VARY)
    made = make_series(rows, WISH, tmp_path)
    assert made.failing == ()
    assert len(made.rows) == 6
    files = sorted(path.name for path in (tmp_path / "parts").iterdir())
    # the length of a key shapes nothing but, by its weight, the plate before the groove
    assert len(files) == len({row[1] for row in made.rows}) == 6
    table = (tmp_path / "series.csv").read_text("utf-8-sig").splitlines()
    told = [row for row in csv.reader(table) if row and row[0].isdigit()]
    assert [row[2].removeprefix("parts/") for row in told] == [
        f"bore-block_2x{flats}_{mark}.3mf"
        for flats, mark in zip(
            # the hexagon's corners: flats * 2 / sqrt 3
            ("4.6", "4.6", "5.8", "5.8", "6.9", "6.9"),
            (row[1] for row in told),
            strict=True,
        )
    ]
    # another reader of the format finds one watertight body in each
    for name in files:
        (mesh,) = trimesh.load_scene(tmp_path / "parts" / name).geometry.values()
        assert mesh.is_watertight


def test_several_processes_give_the_bytes_of_one(monkeypatch: pytest.MonkeyPatch) -> None:
    from cleatwright.jobs.series import _recipes  # noqa: PLC0415 - used here alone

    rows = rows_of_ranges("hex-key", [read_range("flats 3 to 6 by 1")], seats=1)
    recipes = _recipes(rows, WISH, None)
    alone = together.made_together(recipes, progress=Silent())
    monkeypatch.setattr(together, "ALONE", 2)
    monkeypatch.setattr(together.os, "cpu_count", lambda: 2)
    assert together.made_together(recipes, progress=Silent()) == alone


def test_the_table_of_a_series_for_a_workshop_in_inches_speaks_inches(
    examples: Path, tmp_path: Path
) -> None:
    wish = SeriesRequest("bore-block", seats=2, workshop=examples / "joiners-bench")
    rows = wanted_rows(wish, table=None, kind="hex-key", vary=("flats 1/8 to 1/4 by 1/8",))
    made = make_series(rows, wish, tmp_path)
    assert [row[3] for row in made.rows] == ["2 x flats 1/8 in", "2 x flats 1/4 in"]
    table = (tmp_path / "series.csv").read_text("utf-8-sig")
    assert "size in" in table.splitlines()[0]
    assert " mm" not in table


def test_a_table_gives_a_part_for_each_row_and_its_count_the_seats(tmp_path: Path) -> None:
    table = tmp_path / "keys.csv"
    table.write_text(
        "name,kind,count,flats,long_arm,short_arm\nfive,hex-key,3,5,80,28\nsix,hex-key,1,6,90,32\n",
        "utf-8",
    )
    rows = wanted_rows(WISH, table=table, kind="", vary=())
    made = make_series(rows, WISH, tmp_path / "out")
    assert [row[3] for row in made.rows] == ["3 x five", "2 x six"]


@pytest.mark.parametrize(
    ("kind", "vary", "words"),
    [
        ("hex-key", ("flats 5",), "no range of a measure"),
        ("hex-key", ("flats 6 to 5 by 1",), "never ends"),
        ("hex-key", ("flats 5 to 6 by 0",), "never ends"),
        ("hex-key", ("flats 5 to 6 by 0.00001",), "values"),
        ("hex-key", ("flat 5 to 6 by 1",), 'has no "flat"'),
        ("hex-key", ("flats 5 to 6 by 1", "flats 5 to 6 by 1"), "named twice"),
        ("hex-key", ("flats 1 to 30 by 0.01", "long_arm 80 to 90 by 1"), "too many parts"),
        ("hexkey", ("flats 5 to 6 by 1",), "hex-key"),
        ("hex-key", (), "a series needs sizes"),
        ("", ("flats 5 to 6 by 1",), "a series needs sizes"),
        ("hex-key", ("flats 30 to 50 by 10",), "Nothing was written"),
        ("hammer", ("head_length 100 to 110 by 5",), "needs a"),
    ],
)
def test_what_cannot_be_made_is_told_and_nothing_is_written(
    tmp_path: Path, kind: str, vary: tuple[str, ...], words: str
) -> None:
    with pytest.raises(InputError) as told:
        make_series(wanted_rows(WISH, table=None, kind=kind, vary=vary), WISH, tmp_path)
    assert words in str(told.value)
    assert list(tmp_path.iterdir()) == []


@given(st.text(max_size=40))
def test_any_text_is_a_range_or_an_error_of_ours(text: str) -> None:
    try:
        read_range(text)
    except CleatwrightError:
        return


@given(first=st.integers(1, 50), steps=st.integers(0, 60), step=st.sampled_from([0.1, 0.25, 1.0]))
def test_both_ends_of_a_range_belong_to_it(first: int, steps: int, step: float) -> None:
    last = first + steps * step
    values = read_range(f"shank {first} to {last!r} by {step!r}").values_mm
    assert len(values) == steps + 1
    assert values[-1] == pytest.approx(last)


def test_units_of_a_range_may_be_written() -> None:
    """One inch is 25.4 mm by definition (international yard and pound agreement of 1959)."""
    assert read_range("width 1/4 in to 1/2 in by 1/8 in").values_mm == (6.35, 9.525, 12.7)
    with pytest.raises(MeasureError):
        read_range("width 1 kg to 2 kg by 1 kg")
