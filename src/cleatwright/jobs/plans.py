"""Plans to choose from: how little or how much of what is there changes, and what each costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.errors import DesignError, InputError
from cleatwright.base.factors import G_PER_KG
from cleatwright.base.lengths import length_words, show_mass
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import part_names
from cleatwright.pack.production import grams_per_hour
from cleatwright.project.computing import JOB
from cleatwright.project.revision import Revision, read_revision, said_of
from cleatwright.project.walls import FAR, TO_HANG, WALLS, Request, goes, works
from cleatwright.siting.hung.matching import matched, wanted_of
from cleatwright.workshop.document.sections import HowFar

MOST_PLANS = 3
WHOLE_FROM_H = 10.0
TITLES: Mapping[HowFar, str] = MappingProxyType(
    {
        "little": "Nothing that hangs moves, and no part is made anew that is there.",
        "moves": "Only what must move moves; no part is made anew that is there.",
        "parts": "New tools share parts with others, which are made anew for it.",
        "afresh": "Parts and places as if nothing was there.",
    }
)
"""What each plan is, in a sentence."""
PAYS = "What hangs moves where that pays; no part is made anew that is there."
"""What the plan ``moves`` is where nothing has to move."""
AS_MADE = "All hangs where it was planned last, and no part is made anew that is there."
"""What the plan ``little`` is where the plan that was made last moves what hangs."""

NOT_BY_ITSELF: Mapping[HowFar, str] = MappingProxyType(
    {
        "little": "something finds no place",
        "moves": "something that hangs would move",
        "parts": "parts that are there would be made anew",
        "afresh": "all would be planned as if nothing was there",
    }
)
"""What stops ``make`` before a plan that goes so far, unless it is allowed."""


@dataclass(frozen=True)
class PlanCost:
    """One plan, and what it costs.

    Args:
        far: How far it goes.
        parts: How many parts are to be printed.
        plastic_g: How much plastic they take.
        print_h: How many hours they are on the printer.
        scrapped: The names of parts that hang, or lie ready, and are not used again.
        moved: The names of things that hang and would hang elsewhere.
        rails: How many rails are to be cut and put up.
        rail_mm: How long these are together.
        rails_down: How many rails that hang come down.
        seats: How many reserved seats found room on all walls, and how many are asked for.
        overhead_kg: What hangs above the shoulder.
        points: The points of all walls, those for moves among them.
        failing: What of it does not hold, in sentences.
    """

    far: HowFar
    parts: int
    plastic_g: float
    print_h: float
    scrapped: tuple[str, ...]
    moved: tuple[str, ...]
    rails: int
    rail_mm: float
    rails_down: int
    seats: tuple[int, int]
    overhead_kg: float
    points: float
    failing: tuple[str, ...]

    @property
    def touched(self) -> tuple[str, ...]:
        """Return what hangs elsewhere, and what is not used again, in sentences."""
        return (
            *((f"Hangs elsewhere: {', '.join(self.moved)}.",) if self.moved else ()),
            *((f"Not used again: {', '.join(self.scrapped)}.",) if self.scrapped else ()),
        )

    def differs(self, other: PlanCost) -> bool:
        """Return whether another plan costs something else, as far as a table shows it."""
        return self._shown() != other._shown()

    def no_better_than(self, other: PlanCost) -> bool:
        """Return whether in no line of the table it costs less than another plan."""
        pairs = zip(self._lines(), other._lines(), strict=True)
        return all(ours >= theirs for ours, theirs in pairs)

    def _lines(self) -> tuple[float, ...]:
        """Return what it costs line by line as a table shows it; less is better."""
        shown = self._shown()
        return (
            shown.parts,
            shown.plastic_g,
            shown.print_h,
            len(shown.scrapped),
            len(shown.moved),
            shown.rails,
            shown.rail_mm,
            shown.rails_down,
            -shown.seats[0],
            shown.overhead_kg,
            shown.points,
            len(shown.failing),
        )

    def _shown(self) -> PlanCost:
        """Return the same with numbers as a table shows them, without how far it goes."""
        return replace(
            self,
            far="little",
            plastic_g=round(self.plastic_g),
            print_h=round(self.print_h, 1),
            rail_mm=round(self.rail_mm),
            failing=("",) * len(self.failing),
            overhead_kg=round(self.overhead_kg, 1),
            points=round(self.points),
        )


@dataclass(frozen=True)
class PlansToChoose:
    """The plans of a workshop, the one that ``make`` takes by itself first.

    Args:
        name: The name of the workshop.
        unit: The unit in which its people read lengths.
        plans: Up to three, which differ.
        taken: Which of them ``make`` takes by itself; None when it goes as far as it may and
            something finds no place.
        worse: Plans that are left out, each with one that is in no line of the table worse.
    """

    name: str
    unit: str
    plans: tuple[PlanCost, ...]
    taken: HowFar | None
    worse: tuple[tuple[HowFar, HowFar], ...] = ()

    @property
    def columns(self) -> tuple[str, ...]:
        """Return the heads of the table."""
        return ("", *(one.far for one in self.plans))

    @property
    def cells(self) -> list[tuple[str, ...]]:
        """Return the cells of the table."""

        def long(one: PlanCost) -> str:
            if self.unit == "mm":
                return f"{one.rail_mm / 1000.0:.2f} m"
            return f"{length_words(one.rail_mm, 'in')} in"

        rows: tuple[tuple[str, list[str]], ...] = (
            ("parts to print", [str(one.parts) for one in self.plans]),
            ("plastic", [f"{one.plastic_g:.0f} g" for one in self.plans]),
            ("hours on the printer, about", [_hours(one.print_h) for one in self.plans]),
            ("parts that are there and not used again", [str(len(p.scrapped)) for p in self.plans]),
            ("hang elsewhere", [str(len(one.moved)) for one in self.plans]),
            ("rails to cut", [str(one.rails) for one in self.plans]),
            ("their length", [long(one) for one in self.plans]),
            ("rails to take down", [str(one.rails_down) for one in self.plans]),
            ("reserved seats that find room", [_seats(*one.seats) for one in self.plans]),
            (
                "above the shoulder",
                [show_mass(p.overhead_kg, self.unit, ".1f") for p in self.plans],
            ),
            ("points, fewer is better", [f"{one.points:.0f}" for one in self.plans]),
            ("do not hold", [str(len(one.failing)) for one in self.plans]),
        )
        return [(what, *values) for what, values in rows if any(values)]

    def notes(self, make: str) -> tuple[str, ...]:
        """Return what each plan is, and what it takes down or makes anew, in sentences.

        Args:
            make: The command make for this workshop, as it is typed.
        """
        lines: list[str] = []
        for one in self.plans:
            lines.append(f"{one.far}: {self.title_of(one)}")
            lines += (f"  {line}" for line in one.touched)
            lines += (f"  Does not hold: {line}" for line in one.failing)
        return (*lines, "", *self.choice(make))

    def title_of(self, one: PlanCost) -> str:
        """Return what a plan is, in a sentence."""
        if one.far == "moves" and self.plans[0].far == "little":
            return PAYS
        if one.far == "little" and one.moved:
            return AS_MADE
        return TITLES[one.far]

    def choice(self, make: str) -> tuple[str, ...]:
        """Return what ``make`` takes by itself, in sentences, and whether there is any choice.

        Args:
            make: As for ``notes``.
        """
        alone = len(self.plans) == 1 and not self.worse
        same = ("Every other plan comes to the same.",) if alone else ()
        return (*same, *self.left_out, self._how_taken(make))

    @property
    def left_out(self) -> tuple[str, ...]:
        """Return which plans are left out since another is no worse in anything, in sentences."""
        return tuple(
            f"{far} is left out: in no line of the table is it better than {better}."
            for far, better in self.worse
        )

    @property
    def unless_chosen(self) -> str:
        """Return what is made when nobody chooses, in a sentence."""
        if self.taken is None:
            why = NOT_BY_ITSELF[self.plans[0].far]
            return f"None of them is made unless it is chosen, since {why}."
        if len(self.plans) == 1 and not self.worse:
            return "There is just one way; every other plan comes to the same."
        if len(self.plans) == 1:
            return " ".join((f"{self.taken} is made.", *self.left_out))
        return " ".join((f"Unless another one is chosen, {self.taken} is made.", *self.left_out))

    def _how_taken(self, make: str) -> str:
        least = self.plans[0].far
        others = [f"{make} --plan {one.far}" for one in self.plans if one.far != self.taken]
        if self.taken is None:
            return (
                f"make takes none of them by itself, since {NOT_BY_ITSELF[least]}. To take one: "
                f"{' or '.join(others)}"
            )
        if len(self.plans) == 1:
            return f"make takes {least}."
        return f"make takes {self.taken}. To take another one: {' or '.join(others)}"

    def as_dict(self) -> dict[str, object]:
        """Return the plans for programs."""
        plans = [asdict(one) for one in self.plans]
        left_out = [{"plan": far, "no_better_than": better} for far, better in self.worse]
        return {
            "workshop": self.name,
            "plans": plans,
            "taken": self.taken,
            "left_out": left_out,
        }


def _hours(hours: float) -> str:
    """Return hours as they are told: those of a long print are whole.

    >>> _hours(3.24), _hours(27.4)
    ('3.2 h', '27 h')
    """
    return f"{hours:.1f} h" if hours < WHOLE_FROM_H else f"{hours:.0f} h"


def _seats(found: int, asked: int) -> str:
    return f"{found} of {asked}" if asked else ""


def plans(place: Path, *, run: Run | None = None) -> PlansToChoose:
    """Return up to three plans of a workshop that differ, and write nothing.

    Args:
        place: The workshop folder, or its document.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: What stands in the way of every plan.
    """
    run = run or Run()
    revision = read_revision(place, run)
    with said_of(revision):
        return plans_of(revision, run)


def plans_of(revision: Revision, run: Run) -> PlansToChoose:
    """Return the same of a workshop that was read.

    Raises:
        CleatwrightError: What stands in the way of every plan.
    """
    usual = (revision, Request())
    first = goes(usual, run)
    order: tuple[HowFar, ...] = (first, *(one for one in FAR if one != first))
    found: list[PlanCost] = []
    worse: list[tuple[HowFar, HowFar]] = []
    wrong: InputError | DesignError | None = None
    for far in order:
        if works(usual, far, run) is None:
            continue
        try:
            cost = _plan(revision, far, run)
        except (InputError, DesignError) as error:
            wrong = wrong or error
            continue
        # what costs the same in every line of the table is no other choice, nor what costs no less
        better = next((one for one in found if cost.no_better_than(one)), None)
        if better is None and len(found) < MOST_PLANS:
            found.append(cost)
        elif better is not None and better.differs(cost):
            worse.append((far, better.far))
    if not found:
        # the usual plan says what would help
        run.need(WALLS, usual)
    if not found and wrong is not None:
        raise wrong
    workshop = revision.workshop
    taken = first if any(one.far == first for one in found) else None
    return PlansToChoose(workshop.name, workshop.units, tuple(found), taken, tuple(worse))


def _plan(revision: Revision, far: HowFar, run: Run) -> PlanCost:
    job = run.need(JOB, (revision, Request(plan=far)))
    printed, change, panels = job.production.by_key, job.change_plan, job.panels
    new = [one.rail for one in change.rails if one.what == "is new"]
    plastic_g = G_PER_KG * sum(one.mass_kg for one in printed.values())
    return PlanCost(
        far=far,
        parts=len(printed),
        plastic_g=plastic_g,
        print_h=plastic_g / grams_per_hour(revision.workshop),
        scrapped=_scrapped(revision, far, run),
        moved=tuple(one.name for one in change.moves if one.what == "moves"),
        rails=len(new),
        rail_mm=sum(rail.length_mm for rail in new),
        rails_down=sum(one.what == "comes down" for one in change.rails),
        seats=(
            sum(len(panel.arrangement.seats) for panel in panels),
            sum(len(panel.problem.seats) for panel in panels),
        ),
        overhead_kg=sum(
            item.mass_kg
            for panel in panels
            for item in panel.problem.items
            if panel.spots[item.key].place.z_mm + panel.problem.space.floor_gap_mm
            > panel.problem.band_of(item).high_mm
        ),
        points=sum(panel.arrangement.scores.total for panel in panels),
        failing=job.failing,
    )


def _scrapped(revision: Revision, far: HowFar, run: Run) -> tuple[str, ...]:
    """Return the names of parts that hang or lie printed and are not used again."""
    found = run.need(TO_HANG, (revision, Request(plan=far)))
    units = found.wall.units
    known = matched(found.hung.holders, wanted_of(units))
    used = {
        known[unit.planned.key].identity
        for unit in units
        if unit.planned.key in known and known[unit.planned.key].mark == unit.outer.mark
    }
    hung = [one.name for one in found.hung.holders if one.identity not in used]
    names = {made.mark: name for name, made in part_names(units).values()}
    over = [names.get(mark, mark) for mark, count in found.there.over for _ in range(count)]
    return (*hung, *over)
