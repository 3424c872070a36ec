"""Why something hangs where it hangs, or finds no place: what readers of that show."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass

from cleatwright.base.errors import unknown_name
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import Unit
from cleatwright.design.choice import Misfit
from cleatwright.design.weighed import State, weighed_families
from cleatwright.workshop.document.model import Workshop


@dataclass(frozen=True)
class FamilyAnswer:
    """A family for the tools of a holder: what it would take and need, and why it is used or not.

    ``grams`` is an estimate of the plastic of the whole holder; figures are None where there are
    none.
    """

    holder: str
    family: str
    state: State
    grams: float | None
    support: bool | None
    width_mm: float | None
    reach_mm: float | None
    cost_g: float | None
    why: str


@dataclass(frozen=True)
class WhyAnswer:
    """Why one holder hangs where it hangs, or finds no place.

    Args:
        name: Its name.
        place: Where it hangs, in words; "" when it finds no place.
        sentences: Why, in the unit of the document.
        unit: That unit.
        families: The families that could hold its tools.
        hangs: Whether it has a place.
    """

    name: str
    place: str
    sentences: tuple[str, ...]
    unit: LengthUnit = "mm"
    families: tuple[FamilyAnswer, ...] = ()
    hangs: bool = True

    @property
    def heading(self) -> str:
        """Return where it hangs, in a sentence."""
        return f"{self.name} hangs at {self.place}." if self.hangs else f"{self.name} is left over."

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return asdict(self)


def families_of(
    workshop: Workshop,
    unit: Unit,
    words: Callable[[str], str],
    run: Run,
    *,
    vain: Sequence[Misfit] = (),
) -> tuple[FamilyAnswer, ...]:
    """Return the families that could hold the tools of a unit, holder by holder.

    Args:
        workshop: The document.
        unit: What hangs, or shall hang.
        words: What turns sentences into the unit of the document.
        run: The run that keeps what was computed before.
        vain: Families that were tried on the wall, and found no place.
    """
    return tuple(
        FamilyAnswer(
            holder=one.name,
            family=row.name,
            state=row.state,
            grams=row.figures and row.figures.grams,
            support=row.figures and row.figures.support,
            width_mm=row.figures and row.figures.width_mm,
            reach_mm=row.figures and row.figures.reach_mm,
            cost_g=row.cost_g,
            why=words("; ".join(filter(None, (*_vain(row.name, one.shared_by, vain), row.words)))),
        )
        for one in unit.planned.holders
        for row in weighed_families(workshop, one, run)
        if row.state != "cannot"
    )


def _vain(family: str, tools: Iterable[str], vain: Sequence[Misfit]) -> Iterator[str]:
    """Yield that a family was tried for tools and found no place, with the reason."""
    for one in vain:
        if one.family == family and not one.tools.isdisjoint(tools):
            yield f"tried: {one.why}"
            return


def named_unit(units: Iterable[Unit], name: str, *, rails: Iterable[str]) -> Unit:
    """Return what has a name, or the holder of the tool or of the group that has it.

    Args:
        units: What hangs, and what shall hang.
        name: The name.
        rails: The names of the rails, for the error.

    Raises:
        UnknownNameError: Nothing has this name.
    """
    known: dict[str, Unit] = {}
    for unit in units:
        tools = [tool.name for one in unit.planned.holders for tool in one.tools]
        holders = [one.name for one in unit.planned.holders]
        for word in (unit.planned.name, *holders, *tools):
            known.setdefault(word, unit)
    for unit in units:
        known.setdefault(unit.planned.group, unit)
    # the entry of a set or of equal tools stands for the first of them
    entry = (key for key in known if re.fullmatch(rf"{re.escape(name)} (#\d+|\S+)", key))
    found = name if name in known else next(entry, None)
    if not name or found is None:
        raise unknown_name("holder, tool or rail", name, [*filter(None, known), *rails])
    return known[found]
