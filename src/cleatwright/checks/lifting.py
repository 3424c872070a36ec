"""May a heavy tool be taken from its place with two hands?

The equation of NIOSH gives the mass for people who lift all day; it is asked here for one tool
that is taken now and then. Tools below 3 kg are outside the scope of the standard for manual
handling, so that nothing is said about them.
"""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.result import CheckResult
from cleatwright.standards.people.body_segments import HALF_BODY_MM
from cleatwright.standards.people.niosh_lifting import (
    EQUATION,
    FARTHEST_MM,
    HIGHEST_MM,
    NEAREST_MM,
    Lift,
    recommended_kg,
)
from cleatwright.standards.table import Listed

LEAST_KG = 3.0
SCOPE = Source("ISO 11228-1:2021", "scope: objects of 3 kg or more", Evidence.SEEN)
LIMITS = (
    "by two hands, upright, on a firm floor, now and then; the equation says nothing about one "
    "hand. Local rules and people qualified in this come first"
)
VALUES = (Listed("Lifting", "lightest tool asked about kg", LEAST_KG, SCOPE),)


@dataclass(frozen=True)
class LiftTask:
    """One tool that is taken from the wall.

    Args:
        name: What the tool is called.
        mass_kg: Its mass.
        grip_height_mm: Height of the hands on it above the floor, >= 0.
        grip_out_mm: How far the hands are out of the wall, >= 0.
    """

    name: str
    mass_kg: float
    grip_height_mm: float
    grip_out_mm: float


def horizontal_mm(*, bench_depth_mm: float, grip_out_mm: float) -> float:
    """Return how far the hands are before the ankles, and no less than the equation takes.

    The person stands upright at the bench (depth >= 0), or at a bare wall as near as is good.

    >>> horizontal_mm(bench_depth_mm=400.0, grip_out_mm=80.0)
    445.0
    """
    return max(NEAREST_MM, bench_depth_mm + HALF_BODY_MM - grip_out_mm)


def check_lifting(
    task: LiftTask, *, bench_depth_mm: float, brought_to_mm: float
) -> CheckResult | None:
    """Return the mass of a tool against what may be lifted there, or None below 3 kg.

    Args:
        task: The tool in its place.
        bench_depth_mm: Depth of what keeps the person off the wall, >= 0.
        brought_to_mm: Height above the floor to which the hands bring it, such as the elbow.

    Raises:
        MeasureError: A measure is below zero or no number.

    Source: NIOSH 94-110, clause 1.3, up to 1 hour and at most once in five minutes. Nobody knows
    how well the hands hold it: the coupling is poor, as the manual asks.
    """
    if task.mass_kg < LEAST_KG:
        return None
    lift = Lift(
        horizontal_mm=horizontal_mm(bench_depth_mm=bench_depth_mm, grip_out_mm=task.grip_out_mm),
        height_mm=task.grip_height_mm,
        travel_mm=abs(task.grip_height_mm - brought_to_mm),
    )
    return CheckResult(
        name=f'taking "{task.name}" off the wall',
        demand=task.mass_kg,
        capacity=recommended_kg(lift),
        unit="kg",
        source=EQUATION,
        note=f"{_hands(lift)}; {LIMITS}",
    )


def _hands(lift: Lift) -> str:
    """Return where the hands are, and what to change where nothing may be lifted."""
    where = (
        f"hands {said.mm(lift.height_mm, '.0f')} high and {said.mm(lift.horizontal_mm, '.0f')} "
        "before the ankles"
    )
    if lift.horizontal_mm > FARTHEST_MM:
        return (
            f"{where}, farther than {said.mm(FARTHEST_MM)}: hang it where no bench stands before it"
        )
    if lift.height_mm > HIGHEST_MM:
        return f"{where}, higher than {said.mm(HIGHEST_MM)}: hang it lower"
    return where
