"""What a new arrangement changes for what hangs, as a list of things to do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cleatwright.services.carrying import Unit
from cleatwright.services.hung_matching import matched, wanted_of
from cleatwright.wall.conflicts import whole
from cleatwright.wall.model import Item, Place
from cleatwright.wall.moving.moves import Hanging, Move, What, moves
from cleatwright.wall.moving.order import Step, ordered
from cleatwright.workshop.hung_entry import HungEntry

CAUTION = (
    "Take the tools out of a holder before you take it down or move it, edges and points first, "
    "and have a second person hold what is heavy or above your head."
)
_COUNTED: tuple[tuple[What, str, str], ...] = (
    ("stays", "stays", "stay"),
    ("moves", "moves", "move"),
    ("is new", "is new", "are new"),
    ("comes off", "comes off", "come off"),
)


@dataclass(frozen=True)
class Moving:
    """What the new plan changes for what hangs, and in which order to change it."""

    moves: tuple[Move, ...]
    steps: tuple[Step, ...]

    @property
    def summary(self) -> tuple[str, ...]:
        """Return everything in sentences: how much stays, then the steps."""
        counts = Counter(move.what for move in self.moves)
        told = ", ".join(
            f"{counts[what]} {one if counts[what] == 1 else many}" for what, one, many in _COUNTED
        )
        steps = tuple(f"{number}. {step.sentence}" for number, step in enumerate(self.steps, 1))
        return (f"Of what hangs or shall hang, {told}.", *steps, *((CAUTION,) if steps else ()))

    def as_dict(self) -> dict[str, object]:
        """Return the result for programs."""
        return {
            "moves": [
                {
                    "name": move.name,
                    "what": move.what,
                    "right_mm": move.right_mm,
                    "up_mm": move.up_mm,
                    "renewed": move.renewed,
                    "sentence": move.sentence,
                }
                for move in self.moves
            ],
            "steps": [
                {"action": step.action, "name": step.move.name, "sentence": step.sentence}
                for step in self.steps
            ],
            "caution": CAUTION if self.steps else "",
        }


def moving(
    entries: Iterable[HungEntry],
    units: Sequence[Unit],
    *,
    items: Iterable[Item],
    places: Mapping[str, Place],
) -> Moving:
    """Return what a new arrangement changes for what hangs, and in which order to change it.

    Args:
        entries: What hangs now.
        units: What shall hang.
        items: The units as the wall sees them.
        places: Where each unit shall hang, by its key.

    Raises:
        WallError: Two units would overlap.
    """
    now, wanted = tuple(entries), wanted_of(units)
    known = matched(now, wanted)
    keys = {entry.identity: key for key, entry in known.items()}
    before = [
        Hanging(
            # what comes off has no key in the new plan; its own one sorts behind the others
            Place(keys.get(one.identity, f"off {one.identity}"), one.x_mm, one.z_mm),
            one.name,
            one.panel,
            one.mark,
        )
        for one in now
    ]
    after = [Hanging(places[one.key], one.name, one.panel, one.mark) for one in wanted]
    by_key = {item.key: item for item in items}
    changes = moves(before, after)
    steps = ordered(
        changes,
        before={
            one.place.key: whole(by_key[one.place.key], one.place)
            for one in before
            if one.place.key in by_key
        },
        after={one.place.key: whole(by_key[one.place.key], one.place) for one in after},
    )
    return Moving(changes, steps)
