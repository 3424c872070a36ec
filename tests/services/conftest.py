"""One job of the small workshop, computed and written once."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from cleatwright.services.computing import compute
from cleatwright.services.job import Job
from cleatwright.services.making import Made, make_workshop
from cleatwright.services.publishing import MANIFEST


@dataclass(frozen=True)
class Done:
    """The small workshop after the whole job."""

    folder: Path
    out: Path
    job: Job
    made: Made

    def files(self) -> dict[str, bytes]:
        """Return every output file by its relative path."""
        return {
            str(path.relative_to(self.out)): path.read_bytes()
            for path in sorted(self.out.rglob("*"))
            if path.is_file() and path.name != MANIFEST
        }


@pytest.fixture(scope="session")
def done(tmp_path_factory: pytest.TempPathFactory, shed_text: str) -> Done:
    folder = tmp_path_factory.mktemp("done") / "shed"
    folder.mkdir()
    (folder / "workshop.toml").write_text(shed_text, "utf-8")
    made = make_workshop(folder)
    return Done(folder, folder / "out", compute(folder), made)
