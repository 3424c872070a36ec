"""The demo job from command start to all files, and the start of ``--help``.

Figures to reach on two cores: under 30 s for at least 40 tools, under 1 s for the help.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from rich.console import Console

from cleatwright.jobs.examples import example_folders

JOB_S = 30.0
HELP_S = 1.0
COMMAND = [sys.executable, "-m", "cleatwright"]


def seconds(arguments: list[str]) -> float:
    """Return the wall time of one run of the program."""
    before = time.perf_counter()
    subprocess.run([*COMMAND, *arguments], check=True, capture_output=True)  # noqa: S603 - our own program
    return time.perf_counter() - before


def main() -> int:
    """Print both figures; fail when one is missed."""
    console = Console()
    help_s = statistics.median(seconds(["--help"]) for _ in range(5))
    console.print(f"--help: {help_s:.2f} s, to reach {HELP_S:g} s")
    worst = 0.0
    for name, folder in example_folders().items():
        with tempfile.TemporaryDirectory() as scratch:
            place = Path(scratch) / name
            shutil.copytree(folder, place)
            job_s = seconds(["make", str(place)])
        worst = max(worst, job_s)
        console.print(f"make {name}: {job_s:.1f} s, to reach {JOB_S:g} s")
    return 0 if help_s < HELP_S and worst < JOB_S else 1


if __name__ == "__main__":
    sys.exit(main())
