"""All benchmarks one after the other, each in a process of its own."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path


def main() -> int:
    """Run every bench_*.py beside this file and return 1 when one misses its figures."""
    missed = 0
    for script in sorted(Path(__file__).parent.glob("bench_*.py")):
        sys.stdout.write(f"\n== {script.stem}\n")
        sys.stdout.flush()
        missed += subprocess.run([sys.executable, str(script)], check=False).returncode != 0  # noqa: S603 - our own scripts
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
