"""The README's Python does what it says."""

import re
import subprocess
import sys
from pathlib import Path

README = Path(__file__).parents[2] / "README.md"


def test_the_ten_lines_of_the_readme_make_the_wall(tmp_path: Path, shed_text: str) -> None:
    """In place of the example stands a small workshop; that the example is made others show."""
    (snippet,) = re.findall(r"```python\n(.*?)```", README.read_text("utf-8"), re.DOTALL)
    assert len([line for line in snippet.splitlines() if line.strip()]) <= 10
    example = tmp_path / "examples" / "bicycle-room"
    example.mkdir(parents=True)
    (example / "workshop.toml").write_text(shed_text, "utf-8")
    ran = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-W", "error", "-c", snippet],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    lines = ran.stdout.splitlines()
    assert len(lines) == 5
    assert all(line.endswith("kg True") for line in lines)
    assert (tmp_path / "out" / "bicycle-room" / "report.json").is_file()
    assert [path.name for path in example.iterdir()] == ["workshop.toml"]
