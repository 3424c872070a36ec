"""The proof of all ways out on a wall: the largest example, and 120 tools on a wall twice as long.

The figure to reach on one core is under 5 s for 120 tools. No tool of the example may strike
anything on its way out.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from rich.console import Console

from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.jobs.examples import example_folders
from cleatwright.pack.job import Job
from cleatwright.project.computing import compute
from cleatwright.siting.walls import Spot
from cleatwright.siting.ways_out import prove_ways, surroundings
from cleatwright.wall.way_out import Surroundings, WayProof

EXAMPLE = "shared-workshop"
TOOLS = 120
LONGEST_S = 5.0
CONSOLE = Console()


def tools_of(units: Sequence[Unit]) -> int:
    """Return how many tools hang on units."""
    return sum(len(holder.tools) for unit in units for holder in unit.planned.holders)


def copied(unit: Unit) -> Unit:
    """Return a unit under keys of its own."""
    planned = unit.planned
    holders = tuple(replace(one, key=f"{one.key} again") for one in planned.holders)
    return replace(unit, planned=replace(planned, key=f"{planned.key} again", holders=holders))


def lengthened(
    job: Job, around: Surroundings
) -> tuple[tuple[Unit, ...], Mapping[str, Spot], Surroundings]:
    """Return what hangs once more to the right of itself, until there are enough tools."""
    width = job.workshop.wall.width_mm
    units, spots = list(job.units), dict(job.spots)
    for unit in job.units:
        if tools_of(units) >= TOOLS:
            break
        again, spot = copied(unit), spots[unit.planned.key]
        units.append(again)
        place = replace(spot.place, key=again.planned.key, x_mm=spot.place.x_mm + width)
        spots[again.planned.key] = replace(spot, place=place)
    rails = [
        replace(rail, name=f"{rail.name} again", x0_mm=rail.x0_mm + width, x1_mm=rail.x1_mm + width)
        for rail in around.rails
    ]
    boxes = [
        replace(box, name=f"{box.name} again", x_mm=box.x_mm + width) for box in around.obstacles
    ]
    longer = replace(around, rails=(*around.rails, *rails), obstacles=(*around.obstacles, *boxes))
    return tuple(units), spots, longer


def proven(
    units: Sequence[Unit], spots: Mapping[str, Spot], around: Surroundings
) -> tuple[tuple[WayProof, ...], float]:
    """Return the proofs and how long they took in a run that knows nothing yet."""
    run = Run()
    before = time.perf_counter()
    proofs = prove_ways(units, spots, around=around, run=run)
    return proofs, time.perf_counter() - before


def told(proofs: Sequence[WayProof], seconds: float) -> None:
    """Print what was found."""
    met = Counter("struck" if one.hit else "no room" if one.hand else "free" for one in proofs)
    CONSOLE.print(
        f"{len(proofs)} tools in {seconds:.2f} s: {met['free']} free, {met['struck']} strike "
        f"something, {met['no room']} without room for the hand"
    )


def main() -> int:
    """Print both walls; fail when the larger takes too long or a tool strikes something."""
    job = compute(example_folders()[EXAMPLE])
    around = surroundings(job.workshop, job.rails)
    proofs, seconds = proven(job.units, job.spots, around)
    told(proofs, seconds)
    for proof in proofs:
        for sentence in proof.sentences:
            CONSOLE.print(f"  {sentence}", markup=False, soft_wrap=True)
    larger, seconds = proven(*lengthened(job, around))
    told(larger, seconds)
    CONSOLE.print(f"to reach: {TOOLS} tools in {LONGEST_S:g} s")
    struck = any(proof.hit for proof in (*proofs, *larger))
    return 0 if seconds < LONGEST_S and not struck and len(larger) >= TOOLS else 1


if __name__ == "__main__":
    sys.exit(main())
