"""One name, one thing: no two classes of the program share a name."""

import ast
from collections import Counter
from pathlib import Path

import cleatwright

ROOT = Path(cleatwright.__file__).parent
# each family keeps its parameters in a class of this name, in a file of its own
OF_EACH_FAMILY = "Params"


def test_no_two_classes_share_a_name() -> None:
    """A reader who meets a class by name never has to ask which one is meant."""
    found = Counter(
        node.name
        for path in ROOT.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    del found[OF_EACH_FAMILY]
    assert [name for name, count in found.items() if count > 1] == []
    assert len(found) > 400
