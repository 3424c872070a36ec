"""What was computed is kept in one place, the store of the stages, which is bounded and knows why.

Functions keep only what never changes, or small values of plain arguments, and not without end.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import cleatwright

ROOT = Path(cleatwright.__file__).parent
# what is read once and never changes: a font, a library of units, a connection to a library
READ_ONCE = {"_glyphs", "_library", "_registry", "library_wrapper"}
# small values of plain arguments, bounded
BOUNDED = {
    "_bounds",
    "letter_lines",
    "_root_factor",
    "_factor",
    "kind_row",
    "example_rows",
    "_reach_of",
}


def functions_that_keep() -> Iterator[tuple[str, str, int]]:
    """Yield the decorator, the name and the number of arguments of what outlives its call."""
    for path in ROOT.rglob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                for one in node.decorator_list:
                    if "cache" in ast.unparse(one):
                        yield ast.unparse(one), node.name, len(node.args.args)


def test_no_function_keeps_without_end_what_the_store_should_keep() -> None:
    kept = list(functions_that_keep())
    assert {name for _, name, _ in kept} == READ_ONCE | BOUNDED
    for how, name, arguments in kept:
        assert arguments == 0 if name in READ_ONCE else how.startswith("lru_cache(maxsize="), name


FILLED_LATER = {"{}", "[]", "dict()", "list()", "set()", "OrderedDict()", "WeakKeyDictionary()"}


def test_no_module_keeps_what_its_functions_find() -> None:
    """No empty table stands at the top of a module, and no function names a ``global``."""
    for path in ROOT.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        assert not [node for node in ast.walk(tree) if isinstance(node, ast.Global)], path
        for node in tree.body:
            value = node.value if isinstance(node, (ast.Assign, ast.AnnAssign)) else None
            assert value is None or ast.unparse(value) not in FILLED_LATER, (path, node.lineno)
