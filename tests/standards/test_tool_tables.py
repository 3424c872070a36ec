"""The tables as a whole: each feeds something, and has a name of its own."""

import importlib
import pkgutil
import re
from pathlib import Path

import cleatwright
from cleatwright import standards
from cleatwright.standards.table import Table


def test_each_table_has_its_own_name(tables: tuple[Table, ...]) -> None:
    names = [table.name for table in tables]
    assert len(set(names)) == len(names)


def test_exceptions_name_rows_that_exist(tables: tuple[Table, ...]) -> None:
    for table in tables:
        for column in table.columns:
            assert set(column.except_rows) <= set(table.keys), table.name
            assert (column.except_source is None) == (not column.except_rows), table.name


def test_every_table_feeds_something() -> None:
    """Outside of its module its name is used, or the name of something there that reads it."""
    texts = {
        path: path.read_text("utf-8")
        for path in Path(str(cleatwright.__file__)).parent.rglob("*.py")
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
