"""A disk that is full after any number of bytes leaves what was there, and says so in a sentence.

The system refuses to let a file grow beyond a limit (setrlimit, RLIMIT_FSIZE, POSIX.1-2017), which
to a program is a disk without room.
"""

import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from cleatwright.project.publishing import compare, publish
from cleatwright.workshop.document.store import load
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.reading import read_hung

Rounds = Callable[[], Iterator[random.Random]]
CHILD = """
import resource, sys
from pathlib import Path
from cleatwright.base.errors import StorageError
from cleatwright.jobs.exchange import import_table
from cleatwright.project.publishing import publish
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.database import open_ledger

folder, room = Path(sys.argv[1]), int(sys.argv[2])
table = folder / "tools.csv"
rows = "".join(f"Tin {k},box,40,30,20\\n" for k in range(40))
table.write_text("name,kind,width,depth,height\\n" + rows)
hung = WhatHangs(
    tuple(
        HungEntry("wall", f"Tin {k}", 10.0 * k, 10.0, "0000000", (f"Tin {k}",), "2024-05-01")
        for k in range(200)
    )
)


def record():
    with open_ledger(folder) as ledger:
        ledger.replace_hung(hung)


resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
for work in (
    lambda: publish(folder / "out", {f"{k}.txt": b"new" * 9 * k for k in range(50, 100)}),
    lambda: import_table(folder, table, write=True),
    record,
):
    try:
        work()
        print("done")
    except StorageError as error:
        print(error.given)
"""


def content(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("*.txt")}


def test_a_full_disk_leaves_the_old_and_says_so(
    tmp_path: Path, shed_text: str, rounds: Rounds
) -> None:
    old = {f"{k}.txt": b"old" * k for k in range(40, 80)}
    for number, chance in enumerate(rounds()):
        folder = tmp_path / f"{number}"
        folder.mkdir()
        (folder / "workshop.toml").write_text(shed_text, "utf-8")
        tools = len(load(folder).tools)
        publish(folder / "out", old)
        with open_ledger(folder):
            pass
        room = int(10 ** chance.uniform(2.5, 5.0))
        ran = subprocess.run(  # noqa: S603 - our own interpreter and code
            [sys.executable, "-c", CHILD, str(folder), str(room)],
            capture_output=True,
            text=True,
            check=True,
        )
        assert ran.stderr == ""
        published, imported, recorded = ran.stdout.splitlines()
        compare(folder / "out", old)
        assert (published == "done") == (content(folder / "out") != old)
        assert len(load(folder).tools) == tools + 40 * (imported == "done")
        assert len(read_hung(folder).holders) == 200 * (recorded == "done")
        for said in (published, imported):
            assert said == "done" or "File too large" in said
        assert recorded == "done" or "disk" in recorded
