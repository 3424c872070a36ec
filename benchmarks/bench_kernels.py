"""The same descriptions in both kernels, side by side in one run.

The mesh kernel is meant to be at least ten times as fast: every preview and check uses it.
Both start from an empty cache each time; loading the libraries is not counted.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

from rich.console import Console
from rich.table import Table

from cleatwright.kernels.api import Body
from cleatwright.kernels.exact import ExactKernel
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.shapes.outline import circle, polygon, rectangle
from cleatwright.shapes.rounding import fillet
from cleatwright.shapes.solid import (
    Difference,
    Lettering,
    Loft,
    Revolved,
    Solid,
    Union,
    across,
    block,
    prism,
)

ROUNDS = 9
TARGET = 10.0


def rack() -> Solid:
    """Return a rack like those of the catalogue: six slotted bores, gussets and lettering."""
    pitch, bores = 24.0, 6
    width, depth = pitch * bores, 42.0
    shelf = prism(fillet(rectangle(0.0, 0.0, width, depth), 5.0), 8.0, top_chamfer_mm=0.8)
    plate = block(0.0, -5.0, -60.0, width, 0.0, 8.0)
    rib = across(polygon([(0.0, -40.0), (30.0, 0.0), (0.0, 0.0)]), 0.0, 4.0)
    cuts: list[Solid] = []
    for k in range(bores):
        x, size = pitch * (k + 0.5), 6.0 + k
        cuts.append(prism(circle(size, at=(x, 24.0)), 12.0).moved(dz=-2.0))
        cuts.append(block(x - size / 2.5, 24.0, -2.0, x + size / 2.5, 60.0, 10.0))
        cuts.append(prism(circle(size + 5.0, at=(x, 24.0)), 4.0).moved(dz=5.0))
        label = Lettering(f"⌀{size:g}", 4.0, 0.6)
        cuts.append(label.moved(x - 5.0, 3.0, 7.4))
    ribs = [rib.moved(x) for x in (0.0, width / 2 - 2.0, width - 4.0)]
    return Difference(Union((shelf, plate, *ribs)), tuple(cuts))


def socket() -> Solid:
    """Return a tapered pocket in a turned boss."""
    boss = Revolved(fillet(rectangle(0.0, 0.0, 18.0, 30.0), 3.0, only=(1, 2)))
    pocket = fillet(rectangle(-8.0, -5.0, 8.0, 5.0), 2.0)
    wider = fillet(rectangle(-9.0, -6.0, 9.0, 6.0), 2.0)
    return boss - Loft(pocket, wider, 30.0).moved(dz=4.0)


def _median_s(evaluate: Callable[[], Body]) -> tuple[float, float]:
    """Return the median time and the volume that was measured with it."""
    times: list[float] = []
    volume = 0.0
    for _ in range(ROUNDS):
        start = time.perf_counter()
        volume = evaluate().facts.volume_mm3
        times.append(time.perf_counter() - start)
    return statistics.median(times), volume


def main() -> int:
    """Print the table; return 1 when the mesh kernel misses its target."""
    table = Table("description", "mesh, ms", "exact, ms", "ratio", "volumes differ by")
    missed = False
    for name, solid in (("six-bore rack", rack()), ("tapered socket", socket())):
        mesh, near = _median_s(lambda solid=solid: MeshKernel().evaluate(solid))
        exact, true = _median_s(lambda solid=solid: ExactKernel().evaluate(solid))
        ratio = exact / mesh
        missed |= ratio < TARGET
        table.add_row(
            name,
            f"{mesh * 1e3:.1f}",
            f"{exact * 1e3:.1f}",
            f"{ratio:.1f}",
            f"{abs(near - true) / true:.1e}",
        )
    console = Console()
    console.print(table)
    console.print(f"target: at least {TARGET:g} times; {'missed' if missed else 'met'}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
