"""The families that could hold the tools of a holder, side by side: one row for every reader."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from cleatwright.base.stages.run import Run
from cleatwright.design.choice import Manner
from cleatwright.design.figures import FIGURES, ToFigure
from cleatwright.design.filling import HolderTrial
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.shared_recipe import SharedRecipe
from cleatwright.holders.choosing import Figures, Rating
from cleatwright.holders.registry import FAMILIES
from cleatwright.workshop.document.model import Workshop

State = Literal["used", "can", "passed", "cannot"]


@dataclass(frozen=True)
class WeighedFamily:
    """A family and what a holder of it would be for the tools of one holder, all together.

    Args:
        name: The family.
        state: Whether it is used, could be, was passed over, or cannot hold them.
        figures: What its holder is like; None where there is none.
        cost_g: What it costs for each tool, in grams of plastic.
        words: What speaks against it, or why it is used.
        near: Whether every tool offers the grip that it needs.
    """

    name: str
    state: State
    figures: Figures | None
    cost_g: float | None
    words: str
    near: bool


def figures_of(workshop: Workshop, one: PlannedHolder, run: Run) -> Figures:
    """Return what a holder is like, before it is built.

    Raises:
        DesignError: It cannot be made.
    """
    return run.need(FIGURES, ToFigure(one.recipe, workshop.printer()))


def weighed_families(workshop: Workshop, one: PlannedHolder, run: Run) -> tuple[WeighedFamily, ...]:
    """Return every family for the tools of a holder: its own first, then by what they cost.

    Args:
        workshop: The document.
        one: The holder.
        run: The run that keeps what was computed before.
    """
    # each tool has its own fit, or that of the workshop: what can hold them is the same in all
    shared = SharedRecipe(workshop, one.hang, None)
    order = Manner(shared, HolderTrial(shared, {}, together=True)).ranked(
        one.present, run, together=True
    )
    rated = {rating.name: rating for rating in order.ratings}
    passed = {other.name: other.why for other in (*order.passed, *one.why.passed)}
    names = dict.fromkeys((one.recipe.family, *rated, *passed, *FAMILIES))
    return tuple(_rows(workshop, one, run, names, rated, passed))


def _rows(
    workshop: Workshop,
    one: PlannedHolder,
    run: Run,
    names: Mapping[str, None],
    rated: Mapping[str, Rating],
    passed: Mapping[str, str],
) -> Iterator[WeighedFamily]:
    used = one.recipe.family
    for name in names:
        family, rating = FAMILIES[name], rated.get(name)
        near = all(tool.body.grip(family.grip) is not None for tool in one.present)
        figures, cost = (rating.figures, rating.cost_g) if rating else (None, None)
        state: State = "can"
        words = ", ".join(rating.flaws) if rating else ""
        if name == used:
            state, figures, words = "used", figures_of(workshop, one, run), one.why.words
            cost = Rating(name, figures, rating.bare).cost_g if rating else None
        elif name in passed:
            state, words = "passed", passed[name]
        elif rating is None:
            reasons = [why for tool in one.present if (why := family.why_not(tool.body))]
            if reasons:
                state, words = "cannot", reasons[0]
            else:
                words = "only when you name it"
        yield WeighedFamily(name, state, figures, cost, words, near)
