"""What is heavy loads on use."""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = ("manifold3d", "OCP", "build123d", "numpy", "scipy")


@pytest.mark.parametrize(
    ("module", "heavy"),
    [
        ("cleatwright.kernels.api", HEAVY),
        ("cleatwright.kernels.lettering", HEAVY),
        ("cleatwright.shapes.solid", HEAVY),
        ("cleatwright.holders", HEAVY[:3]),
        ("cleatwright.kernels.exact", HEAVY),
        ("cleatwright.kernels.mesh", ("OCP", "build123d")),
        # a server that nobody asks for a plan or for files holds none of what makes them
        (
            "cleatwright.web.serving",
            ("OCP", "scipy", "numba", "ezdxf", "typst", "PIL", "lib3mf"),
        ),
        # nor does a check, which arranges nothing
        ("cleatwright.jobs.checking", ("OCP", "scipy", "numba", "ezdxf", "uvicorn")),
    ],
)
def test_importing_a_room_loads_no_library_that_it_does_not_need(
    module: str, heavy: tuple[str, ...]
) -> None:
    script = f"import sys, {module}; print([n for n in {heavy!r} if n in sys.modules])"
    done = subprocess.run(  # noqa: S603 - our own script in our own interpreter
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
