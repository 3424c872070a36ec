"""Two processes that write to one folder at once never mix, and lose nothing they said was done."""

import random
import time
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from subprocess import Popen

from cleatwright.base.errors import OutputError
from cleatwright.project.publishing import STAGING
from cleatwright.workshop.document.store import load
from cleatwright.workshop.ledger.one_at_a_time import alone_in

TIMES = 3
Rounds = Callable[[], Iterator[random.Random]]
Start = Callable[..., Popen[str]]


def labels(folder: Path) -> set[bytes]:
    """Return what the files of the set hold, when nobody writes; one thing when it is one set."""
    while True:
        try:
            with alone_in(folder):
                paths = [path.relative_to(folder) for path in folder.rglob("*.txt")]
                return {(folder / path).read_bytes() for path in paths if path.parts[0] != STAGING}
        except OutputError:
            continue


def test_two_runs_that_publish_at_once_never_mix(
    tmp_path: Path, rounds: Rounds, child: Start
) -> None:
    for number, chance in enumerate(rounds()):
        folder = tmp_path / f"{number}"
        folder.mkdir()
        running = [child("publishing_child.py", folder, label) for label in "ab"]
        for _ in range(3):
            time.sleep(chance.uniform(0, 0.1))
            assert len(labels(folder)) == 1
        said: Counter[str] = Counter()
        for one in running:
            one.terminate()
            out, _ = one.communicate()
            said.update(out.split("\n")[:-1])
        assert len(labels(folder)) == 1
        assert set(said) <= {"written", "refused"}


def test_two_imports_at_once_lose_no_row(
    tmp_path: Path, shed_text: str, rounds: Rounds, child: Start
) -> None:
    for number, _ in enumerate(rounds()):
        folder = tmp_path / f"{number}"
        folder.mkdir()
        (folder / "workshop.toml").write_text(shed_text, "utf-8")
        before = {tool.name for tool in load(folder).tools}
        running = [child("importing_child.py", folder, label, TIMES) for label in "ab"]
        for one in running:
            assert one.stdin is not None
            one.stdin.write("go\n")
            one.stdin.flush()
        answers = [one.communicate() for one in running]
        assert [err for _, err in answers] == ["", ""]
        done = {name for out, _ in answers for name in out.split()}
        assert {tool.name for tool in load(folder).tools} == before | done
        assert len(done) >= TIMES
