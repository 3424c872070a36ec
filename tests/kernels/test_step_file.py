"""STEP files: the same bytes each time, in mm, and read back as the same body."""

# pyright: reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from cleatwright.base.errors import KernelError, OutputError
from cleatwright.kernels.exact import ExactKernel, write_step
from cleatwright.shapes.outline import circle, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import block, prism

PLATE = prism(
    fillet(rectangle(0.0, 0.0, 30.0, 20.0), 4.0),
    5.0,
    holes=(circle(6.0, at=(12.0, 9.0)),),
    top_chamfer_mm=1.0,
)
SCRIPT = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from test_step_file import PLATE
from cleatwright.kernels.exact import ExactKernel, write_step
write_step(Path(sys.argv[2]), "shelf-6.5-AB12CD", ExactKernel().evaluate(PLATE))
"""


def test_two_processes_with_different_hash_seeds_write_the_same_bytes(
    exact: ExactKernel, tmp_path: Path
) -> None:
    here = tmp_path / "here.step"
    write_step(tmp_path / "first.step", "another", exact.evaluate(PLATE))
    write_step(here, "shelf-6.5-AB12CD", exact.evaluate(PLATE))
    there = tmp_path / "there.step"
    subprocess.run(  # noqa: S603 - our own script in our own interpreter
        [sys.executable, "-c", SCRIPT, str(Path(__file__).parent), str(there)],
        env={**os.environ, "PYTHONHASHSEED": "7"},
        check=True,
    )
    assert here.read_bytes() == there.read_bytes()


def test_the_file_names_its_product_unit_and_protocol_and_no_day(
    exact: ExactKernel, tmp_path: Path
) -> None:
    """ISO 10303-242 is AP242; ISO 10303-21 has the time stamp second in FILE_NAME."""
    path = tmp_path / "a.step"
    write_step(path, "it's a plate", exact.evaluate(PLATE))
    text = path.read_text(encoding="ascii")
    assert text.startswith("ISO-10303-21;")
    assert re.findall(r"PRODUCT\('(.*?)','(.*?)',", text) == [("it''s a plate", "it''s a plate")]
    assert "FILE_NAME('it''s a plate','2000-01-01T00:00:00'" in text
    assert "AP242" in text
    assert "SI_UNIT(.MILLI.,.METRE.)" in text


def test_a_body_that_is_read_back_has_the_same_facts(exact: ExactKernel, tmp_path: Path) -> None:
    from OCP.STEPControl import STEPControl_Reader  # noqa: PLC0415 - slow to load

    from cleatwright.kernels.exact.measure import facts_of  # noqa: PLC0415 - slow to load

    body = exact.evaluate(PLATE | block(40.0, 0.0, 0.0, 41.0, 1.0, 1.0))
    path = tmp_path / "two.step"
    write_step(path, "two", body)
    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    reader.TransferRoots()
    facts = facts_of(reader.OneShape())
    assert facts.volume_mm3 == pytest.approx(body.facts.volume_mm3, rel=1e-9)
    assert facts.centroid_mm == pytest.approx(body.facts.centroid_mm, abs=1e-8)
    assert (facts.genus, facts.bodies) == (1, 2)


def test_nothing_is_printed(
    exact: ExactKernel, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    write_step(tmp_path / "a.step", "plate", exact.evaluate(PLATE))
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("name", ["", "plate ⌀6", "two\nlines", "x" * 61])
def test_a_name_that_a_step_string_cannot_carry_is_refused(
    exact: ExactKernel, tmp_path: Path, name: str
) -> None:
    with pytest.raises(OutputError, match="cannot be the name"):
        write_step(tmp_path / "a.step", name, exact.evaluate(PLATE))
    assert not (tmp_path / "a.step").exists()


def test_a_file_that_cannot_be_written_is_an_error(exact: ExactKernel, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot be written"):
        write_step(tmp_path / "missing" / "a.step", "plate", exact.evaluate(PLATE))


def test_without_the_extra_the_message_tells_how_to_install_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "OCP", None)
    with pytest.raises(KernelError, match=re.escape("pip install 'cleatwright[step]'")):
        ExactKernel()
