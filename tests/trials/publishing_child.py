"""Publishes one set after another to a folder until it is stopped, and tells of each.

Each set is told by a name: all its files hold it. Every second one lacks half of the files.
"""

import itertools
import signal
import sys
import time
from pathlib import Path

from cleatwright.base.errors import OutputError
from cleatwright.project.publishing import publish

FILES = 12


def files_of(label: str, number: int) -> dict[str, bytes]:
    """Return one set."""
    names = [f"{'inner/' * (k % 3)}{k}.txt" for k in range(FILES)]
    return {name: f"{label}{number}".encode() for name in names[:: 1 + number % 2]}


def main(folder: str, label: str) -> None:
    """Publish without end."""
    for number in (signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, stop)
    signal.signal(signal.SIGINT, signal.default_int_handler)
    for number in itertools.count():
        try:
            publish(Path(folder), files_of(label, number))
            word = "written"
        except OutputError as error:
            word = "refused" if "another run of this program" in str(error) else str(error)
        sys.stdout.write(word + "\n")
        sys.stdout.flush()
        # room for the other one
        time.sleep(0.01)


def stop(number: int, _frame: object) -> None:
    """Stop as the program does."""
    sys.exit(128 + number)


if __name__ == "__main__":
    main(*sys.argv[1:])
