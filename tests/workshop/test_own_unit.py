"""A document that counts in another unit describes the same workshop.

The oracle is the workshop as it was read before, key by key.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from pydantic import BaseModel

from cleatwright.base.lengths import LengthUnit
from cleatwright.workshop.document.changes import apply_changes
from cleatwright.workshop.document.fields import Readings
from cleatwright.workshop.document.own_unit import in_other_unit
from cleatwright.workshop.document.store import load

EXAMPLES = Path(__file__).parents[2] / "examples"
CASES: tuple[tuple[str, LengthUnit], ...] = (
    ("bicycle-room", "in"),
    ("shared-workshop", "in"),
    ("joiners-bench", "mm"),
)


def numbers(value: Any, where: str = "") -> Iterator[tuple[str, object]]:
    """Yield everything that a workshop says, each by the way to it; not how it was written."""
    if isinstance(value, Readings):
        yield from ((f"{where}.{name}", number) for name, number in value.values)
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from numbers(getattr(value, name), f"{where}.{name}")
    elif is_dataclass(value) and not isinstance(value, type):
        for one in fields(value):
            yield from numbers(getattr(value, one.name), f"{where}.{one.name}")
    elif isinstance(value, tuple):
        for n, one in enumerate(value):
            yield from numbers(one, f"{where}[{n}]")
    else:
        yield where, value


@pytest.mark.parametrize(("example", "unit"), CASES)
def test_the_workshop_is_the_same_in_another_unit(
    example: str, unit: LengthUnit, tmp_path: Path
) -> None:
    before = EXAMPLES / example / "workshop.toml"
    document = tomlkit.parse(before.read_text(encoding="utf-8"))
    apply_changes(document, in_other_unit(document.unwrap(), unit))
    after = tmp_path / "workshop.toml"
    after.write_text(tomlkit.dumps(document), encoding="utf-8")
    one, other = dict(numbers(load(before))), dict(numbers(load(after)))
    assert one.keys() == other.keys()
    differing = {
        key
        for key, value in one.items()
        if (
            other[key] != pytest.approx(value, rel=1e-9)
            if isinstance(value, float)
            else other[key] != value
        )
    }
    assert differing == {".units"}
    # and nothing is left that would be read another way when it is turned back
    assert load(after).units == unit
    assert in_other_unit(document.unwrap(), unit) == ()


def test_what_measures_no_length_stays_as_it_is() -> None:
    raw = {
        "units": "mm",
        "tool": [
            {
                "name": "Awl",
                "count": 3,
                "mass": 0.2,
                "measures": {"shank": 4, "lean_deg": 10, "teeth_count": 8, "blade": "1 in"},
                "sizes": [{"label": "7", "shank": 7.5, "mass": "9 g"}],
                "nominal_sizes": [3, 4],
            }
        ],
        "printer": {"one": {"bed": [220, "9 in", 250]}},
        "mount": {"french-cleat": {"play": 0.3}},
        "wall": {"stud": [{"x": 100}], "made_of": 7},
    }
    found = {one.path: one.value for one in in_other_unit(raw, "in")}
    assert found == {
        ("tool", 0, "measures", "shank"): "4 mm",
        ("tool", 0, "sizes", 0, "shank"): "7.5 mm",
        ("printer", "one", "bed"): ["220 mm", "9 in", "250 mm"],
        ("mount", "french-cleat", "play"): "0.3 mm",
        ("wall", "stud", 0, "x"): "100 mm",
        ("units",): "in",
    }
