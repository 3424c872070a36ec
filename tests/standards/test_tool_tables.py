"""The tables of tools as a whole: none is forgotten, and each cell can be told from any other."""

import importlib
import pkgutil
import re
from pathlib import Path

import cleatwright
from cleatwright import standards
from cleatwright.standards.listing import TABLES
from cleatwright.standards.table import Table
from cleatwright.standards.tool_tables import TOOL_TABLES


def test_every_table_of_every_module_is_in_one_of_the_lists() -> None:
    named: dict[str, Table] = {}
    for info in pkgutil.iter_modules(standards.__path__):
        module = importlib.import_module(f"cleatwright.standards.{info.name}")
        named |= {v.name: v for v in vars(module).values() if isinstance(v, Table)}
    assert set(named) == {table.name for table in (*TABLES, *TOOL_TABLES)}


def test_each_table_has_its_own_name_and_each_row_its_own_key() -> None:
    names = [table.name for table in TOOL_TABLES]
    assert len(set(names)) == len(names)
    for table in TOOL_TABLES:
        assert len(set(table.keys)) == len(table.rows)
        assert {len(numbers) for _, numbers in table.rows} == {len(table.columns)}


def test_exceptions_name_rows_that_exist_and_columns_end_in_their_unit() -> None:
    units = ("_mm", "_in")
    for table in TOOL_TABLES:
        for column in table.columns:
            assert set(column.except_rows) <= set(table.keys), table.name
            assert (column.except_source is None) == (not column.except_rows), table.name
            assert column.name.endswith(units), table.name


def test_every_number_is_positive() -> None:
    assert all(e.value > 0.0 for table in TOOL_TABLES for e in table.listed())


def test_every_table_feeds_something() -> None:
    """Outside of its module its name is used, or the name of something there that reads it."""
    lists = {"listing.py", "tool_tables.py"}
    texts = {
        path: path.read_text("utf-8")
        for path in Path(str(cleatwright.__file__)).parent.rglob("*.py")
        if path.name not in lists
    }
    for info in pkgutil.iter_modules(standards.__path__):
        module = importlib.import_module(f"cleatwright.standards.{info.name}")
        own = Path(str(module.__file__))
        outside = "\n".join(text for path, text in texts.items() if path != own)
        for name, value in vars(module).items():
            if isinstance(value, Table) and own in texts and f"\n{name} = Table(" in texts[own]:
                readers = _readers(name, texts[own])
                assert any(re.search(rf"\b{one}\b", outside) for one in readers), name


def _readers(name: str, text: str) -> set[str]:
    """Return a name and, step by step, what at the top of a module reads it."""
    block = re.compile(r"^(?:def |class )?(\w+)(.*?)(?=^\S|\Z)", re.MULTILINE | re.DOTALL)
    blocks = block.findall(text)
    found = {name}
    while True:
        more = {
            head for head, body in blocks if any(re.search(rf"\b{one}\b", body) for one in found)
        }
        if more <= found:
            return found
        found |= more
