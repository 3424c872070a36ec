"""How long a person who stops a run waits: the longest piece of work between two looks at the stop.

Each example is made twice in one process, so that nothing is compiled or imported the second time.
Processor time of the thread, so that other work on the machine does not count.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from pathlib import Path

from rich.console import Console
from rich.table import Table

from cleatwright.base.stages.run import Run
from cleatwright.jobs.making import make_workshop

EXAMPLES = Path(__file__).parents[1] / "examples"
GOAL_MS = 300.0


class Watched(Run):
    """A run that notes how long it was between two looks at whether it was stopped."""

    def __init__(self) -> None:
        super().__init__()
        self.longest_ms, self._last_s = 0.0, time.thread_time()

    def go_on(self) -> None:
        """Note the time since the last look, and look."""
        now_s = time.thread_time()
        self.longest_ms = max(self.longest_ms, (now_s - self._last_s) * 1e3)
        self._last_s = now_s
        super().go_on()


def main() -> int:
    """Print a table; fail when a piece is longer than the goal."""
    table = Table("make", "longest piece ms", "goal")
    missed = False
    for example in sorted(path.name for path in EXAMPLES.iterdir() if path.is_dir()):
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place) / example
            ignored = shutil.ignore_patterns("out", "ledger.db")
            shutil.copytree(EXAMPLES / example, folder, ignore=ignored)
            make_workshop(folder, run=Run())
            run = Watched()
            make_workshop(folder, run=run)
        missed |= run.longest_ms >= GOAL_MS
        table.add_row(example, f"{run.longest_ms:.0f}", f"{GOAL_MS:g}")
    Console().print(table)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
