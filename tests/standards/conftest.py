"""What the tests of printed tables share."""

import importlib
import pkgutil
from collections.abc import Callable

import pytest

from cleatwright import standards
from cleatwright.standards.table import Table


def half_digit(text: str) -> float:
    """Return half of the last digit of a printed number."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2])


def _compare(table: Table, printed: str) -> None:
    rows = [line.split("|") for line in printed.strip().split("\n")]
    assert [key.strip() for key, _ in rows] == list(table.keys)
    for key, numbers in rows:
        ours = dict(table.rows)[key.strip()]
        for column, value, text in zip(table.columns, ours, numbers.split(), strict=True):
            told = f"{table.name}, {key.strip()}, {column.name}"
            assert value == pytest.approx(float(text), abs=half_digit(text)), told


@pytest.fixture
def as_printed() -> Callable[[Table, str], None]:
    """Return the comparison of a table with its printed rows: "key | number number ..."."""
    return _compare


@pytest.fixture(scope="session")
def tables() -> tuple[Table, ...]:
    """Return every table of every module of the standards."""
    found: dict[Table, None] = {}
    for info in pkgutil.iter_modules(standards.__path__):
        module = importlib.import_module(f"cleatwright.standards.{info.name}")
        found |= {value: None for value in vars(module).values() if isinstance(value, Table)}
    return tuple(found)
