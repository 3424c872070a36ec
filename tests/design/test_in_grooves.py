"""A holder in grooves is the holder of the rail, whatever it hangs on.

Oracles: the solid, the mark and the print mesh of the same holder on its rail; what one more or one
less of a thing must do to a check.
"""

from __future__ import annotations

import numpy as np
import pytest

from cleatwright.base.errors import RailHoldError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.building import PART, BuiltPart
from cleatwright.design.proving import BACK_DOWN, PRINTER, trial_recipe
from cleatwright.design.wall_lines import walls_of
from cleatwright.mounts.joints.registry import GROOVES
from cleatwright.mounts.registry import MOUNTS

HELD = [("shoulder-rack", "screwdriver"), ("ring-floor", "can"), ("peg", "paint-brush")]
IN_GROOVES = sorted(mount.name for mount in MOUNTS.values() if mount.in_grooves)


def made(run: Run, family: str, kind: str, mount: str, *scales: float) -> BuiltPart:
    joint = "one-piece" if mount == "french-cleat" else GROOVES
    return run.need(PART, trial_recipe(family, kind, scales or (1.0,), mount=mount, joint=joint))


@pytest.mark.parametrize(("family", "kind"), HELD)
def test_the_same_front_with_the_same_mark_and_walls_hangs_everywhere(
    family: str, kind: str, known: Store
) -> None:
    run = Run(known)
    rail = made(run, family, kind, "french-cleat")
    lines = walls_of(rail, PRINTER, down=BACK_DOWN, run=run)
    for mount in IN_GROOVES:
        try:
            there = made(run, family, kind, mount)
        except RailHoldError:
            # slots lie too far apart for a narrow back
            assert mount == "slotted-board"
            continue
        assert (there.mark, there.part.solid) == (rail.mark, rail.part.solid)
        assert np.array_equal(there.body.vertices_mm, rail.body.vertices_mm)
        assert there.part.seats == rail.part.seats
        assert walls_of(there, PRINTER, down=BACK_DOWN, run=run) == lines
        assert there.holds
        assert not there.part.hanging.on_rail
        assert there.part.hanging.stand_off_mm >= 5.0


def test_grooves_on_a_rail_are_the_rail_itself(known: Store) -> None:
    run = Run(known)
    plain = made(run, *HELD[0], "french-cleat")
    joint = trial_recipe(*HELD[0], (1.0,), mount="french-cleat", joint=GROOVES)
    assert run.need(PART, joint).part == plain.part


def test_what_hooks_do_not_bear_is_refused_with_the_piece_and_the_number(known: Store) -> None:
    with pytest.raises(RailHoldError, match=r"its hooks can bear 10 MPa.*one-piece"):
        made(Run(known), "ribbed-tray", "iron", "perforated-board", 0.8, 1.0, 1.3)


def test_heavier_tools_get_more_hooks(known: Store) -> None:
    counts = [
        sum(one.name == "board-hook" for one in made(Run(known), *what).part.fittings)
        for what in (
            ("fork", "hammer", "perforated-board", 0.8),
            ("ribbed-tray", "box", "perforated-board", 1.0),
        )
    ]
    assert counts[0] < counts[1]
