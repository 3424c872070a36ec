"""What a new arrangement changes for what hangs, as a list of things to do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cleatwright.design.carrying import Unit
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.siting.hung.rails import from_ledger
from cleatwright.standards import cautions
from cleatwright.wall.conflicts import whole
from cleatwright.wall.model import Item, Place
from cleatwright.wall.moving.moves import HungItem, Move, What, moves
from cleatwright.wall.moving.order import ChangeStep, ordered
from cleatwright.wall.moving.rail_moves import RailMove, RailWhat, hung_on, rail_moves
from cleatwright.wall.moving.rail_order import RailWork
from cleatwright.wall.rail import Rail
from cleatwright.workshop.ledger.hung_entry import HungEntry
from cleatwright.workshop.ledger.hung_rail import HungRail
from cleatwright.workshop.ledger.hung_wall import WhatHangs

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
_RAILS_COUNTED: tuple[tuple[RailWhat, str, str], ...] = (
    ("stays", "stays", "stay"),
    ("is new", "is new", "are new"),
    ("comes down", "comes down", "come down"),
)
RAILS_UNKNOWN = (
    "The ledger does not know on which rails it hangs, so these are listed to be made anew: say "
    "hung before you change the workshop, or write the rails that stay as [[wall.rail]]."
)


@dataclass(frozen=True)
class RailChange:
    """The rails after an arrangement, and what is known of those before.

    Args:
        after: The rails that shall hang.
        down: Those that come down, and why.
        covered: Which rails of the ledger are a part of another one by the document, by number.
    """

    after: tuple[Rail, ...]
    down: tuple[Rail, ...]
    covered: Mapping[int, int]


@dataclass(frozen=True)
class ChangePlan:
    """What the new plan changes for what hangs, and in which order to change it.

    Args:
        moves: What happens to every holder and carrier.
        rails: What happens to every rail.
        steps: What to do, in order.
        notes: What else is to be known of the rails, in sentences.
    """

    moves: tuple[Move, ...]
    rails: tuple[RailMove, ...]
    steps: tuple[ChangeStep, ...]
    notes: tuple[str, ...] = ()

    @property
    def cautions(self) -> tuple[str, ...]:
        """Return what can hurt whoever does the steps, in sentences."""
        drilled = any(step.action == "screw on" for step in self.steps)
        return (*((cautions.PIPES,) if drilled else ()), *((CAUTION,) if self.steps else ()))

    @property
    def rail_notes(self) -> tuple[str, ...]:
        """Return the rails that come down with the reason, and those that carry nothing."""
        told = [
            move.sentence
            for move in self.rails
            if move.what == "comes down" or (move.what == "stays" and not move.carries)
        ]
        return (*told, *self.notes)

    @property
    def counts(self) -> tuple[str, ...]:
        """Return how many holders and rails stay, move, are new or come off, in sentences."""
        counts = Counter(move.what for move in self.moves)
        rails = Counter(move.what for move in self.rails)
        return (
            f"Of what hangs or shall hang, {_counted(counts, _COUNTED)}.",
            *((f"Of the rails, {_counted(rails, _RAILS_COUNTED)}.",) if self.rails else ()),
        )

    @property
    def summary(self) -> tuple[str, ...]:
        """Return everything in sentences: how much stays, then the steps."""
        steps = (f"{number}. {step.sentence}" for number, step in enumerate(self.steps, 1))
        return (
            *self.counts,
            *self.rail_notes,
            *steps,
            *self.cautions,
        )

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
            "rails": [
                {
                    "name": move.name,
                    "panel": move.panel,
                    "what": move.what,
                    "carries": move.carries,
                    "reason": move.reason,
                    "sentence": move.sentence,
                }
                for move in self.rails
            ],
            "steps": [
                {"action": step.action, "name": step.move.name, "sentence": step.sentence}
                for step in self.steps
            ],
            "notes": list(self.notes),
            "caution": " ".join(self.cautions),
        }


def without_unsafe_steps(
    wanted: ChangePlan, *, rails: Collection[str], units: Collection[str]
) -> ChangePlan:
    """Return the same, no step of which hangs anything on what does not hold.

    Args:
        wanted: What the new plan changes.
        rails: The names of the rails that do not hold.
        units: The keys of the units that do not hold.
    """
    weak = [one.after for one in wanted.rails if one.name in rails and one.after]

    def why_not(step: ChangeStep) -> str:
        move = step.move
        if step.action not in ("screw on", "hang", "move"):
            return ""
        if isinstance(move, RailMove):
            return "it does not hold" if move.name in rails else ""
        if move.key in units:
            return "it does not hold"
        on = (one for one in weak if move.key in one.carries)
        return next((f"rail {one.name} does not hold" for one in on), "")

    return replace(wanted, steps=tuple(replace(one, not_yet=why_not(one)) for one in wanted.steps))


def _counted(counts: Mapping[str, int], words: Sequence[tuple[str, str, str]]) -> str:
    return ", ".join(
        f"{counts.get(what, 0)} {one if counts.get(what, 0) == 1 else many}"
        for what, one, many in words
    )


def change_plan(
    hung: WhatHangs,
    units: Sequence[Unit],
    *,
    items: Iterable[Item],
    places: Mapping[str, Place],
    rails: RailChange,
) -> ChangePlan:
    """Return what a new arrangement changes for what hangs, and in which order to change it.

    Args:
        hung: What hangs now.
        units: What shall hang.
        items: The units as the wall sees them.
        places: Where each unit shall hang, by its key.
        rails: The rails that shall hang.

    Raises:
        WallError: Two units would overlap.
    """
    now, wanted = hung.holders, wanted_of(units)
    known = matched(now, wanted)
    keys = {entry.identity: key for key, entry in known.items()}
    before = [
        HungItem(
            # what comes off has no key in the new plan; its own one sorts behind the others
            Place(keys.get(one.identity, f"off {one.identity}"), one.x_mm, one.z_mm),
            one.name,
            one.panel,
            # what broke is another part than the one that shall hang there
            f"{one.mark}, broken" if one.broken else one.mark,
        )
        for one in now
    ]
    on = {key: rail.name for rail in rails.after for key in rail.carries}
    after = [
        HungItem(places[one.key], one.name, one.panel, one.mark, on.get(one.key, ""))
        for one in wanted
    ]
    by_key = {item.key: item for item in items}
    changes = moves(before, after)
    changed = _rails(hung.rails, rails, before)
    steps = ordered(
        changes,
        before={
            one.place.key: whole(by_key[one.place.key], one.place)
            for one in before
            if one.place.key in by_key
        },
        after={one.place.key: whole(by_key[one.place.key], one.place) for one in after},
        rails=RailWork(changed),
    )
    notes = _notes(hung, changes, changed, rails.covered)
    return ChangePlan(changes, changed, steps, (*notes, *_refitted(units, known)))


def _refitted(units: Sequence[Unit], known: Mapping[str, HungEntry]) -> Iterator[str]:
    """Yield what holders that hang already and hang again get for other fittings than they have."""
    for unit in units:
        entry = known.get(unit.planned.key)
        now = HungEntry.sorted_marks(one.mark for one in unit.fittings)
        if entry is None or entry.mark != unit.outer.mark or entry.fitted_with(now):
            continue
        counts = Counter(one.part.family for one in unit.fittings)
        new = ", ".join(
            f"{count} {name}{'s' if count > 1 else ''}" for name, count in sorted(counts.items())
        )
        yield (
            f'Before "{unit.planned.name}" ({entry.mark}) hangs again, draw the pins of its '
            f"grooves, slide out what is in them and keep it for another wall, and put in: {new}. "
            "It stays as it is itself."
        )


def _rails(
    hung: Sequence[HungRail], rails: RailChange, holders: Sequence[HungItem]
) -> tuple[RailMove, ...]:
    """Return what happens to the rails; those that hang by the document alone hang already, too."""
    given = [one for one in rails.after if one.stays]
    recorded = [from_ledger(row) for row in hung if row.number not in rails.covered]
    before = {one.number: one for one in (*given, *recorded, *rails.down)}
    return rail_moves(hung_on(before.values(), holders), rails.after)


def _notes(
    hung: WhatHangs,
    changes: Sequence[Move],
    rails: Sequence[RailMove],
    covered: Mapping[int, int],
) -> tuple[str, ...]:
    notes = [
        f"By the document, rail R{covered[number]} lies where the ledger has rail R{number} too."
        for number in sorted(covered)
    ]
    on_new = any(
        one.key in rail.after.carries
        for one in changes
        if one.what == "stays"
        for rail in rails
        if rail.what == "is new" and rail.after
    )
    return (*notes, *((RAILS_UNKNOWN,) if on_new and not hung.rails else ()))
