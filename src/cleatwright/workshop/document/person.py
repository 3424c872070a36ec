"""The people for whom the wall is arranged."""

from __future__ import annotations

import math
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from cleatwright.base import said
from cleatwright.standards.people.body_segments import segment_mm
from cleatwright.standards.people.cdc_statures import (
    OLDEST,
    YOUNGEST,
    can_be_mm,
    least_stature_mm,
    most_stature_mm,
)
from cleatwright.standards.people.overhead import SHOES_MM
from cleatwright.standards.people.seated import lower_by_mm, usual_seat_mm
from cleatwright.workshop.document.fields import DocumentTable, Flag, Name, Within, problem
from cleatwright.workshop.document.sections import Count

Hand = Literal["right", "left", "either"]
OWNER = "owner"
"""What the person of ``[person]`` is called who has no name."""
ROUND_MM = 10.0
_BODY = "measure as the person works, in shoes: standing upright, or seated"


class Person(DocumentTable):
    """The measures of a person; what is left out follows from the stature.

    Of a child the age alone is enough: it then counts as tall where things are kept from it, and
    as small where it takes something itself.
    """

    name: Name = OWNER
    stature_mm: Annotated[
        float, Within("mm", 700, 2_500, why="of a person who stands, in shoes")
    ] = 1750.0
    child: Flag = False
    age: Annotated[Count, Field(ge=YOUNGEST, le=OLDEST)] | None = None
    elbow_height_mm: Annotated[float | None, Within("mm", 400, 2_000, why=_BODY)] = None
    shoulder_height_mm: Annotated[float | None, Within("mm", 500, 2_300, why=_BODY)] = None
    arm_reach_mm: Annotated[
        float | None, Within("mm", 200, 1_200, why="from the shoulder to a rod in the fist")
    ] = None
    hand: Hand = "either"
    seated: Flag = False
    seat_height_mm: Annotated[
        float | None, Within("mm", 150, 900, why="of the seat above the floor")
    ] = None

    @property
    def lower_mm(self) -> float:
        """Return how much lower the shoulder is than standing; 0 of who does not sit."""
        if not self.seated:
            return 0.0
        seat = self.seat_height_mm
        seat = usual_seat_mm(self.least_mm) if seat is None else seat
        return lower_by_mm(self.least_mm, seat)

    @property
    def is_measured(self) -> bool:
        """Return whether the stature is written, and not taken from the age."""
        return self.age is None or "stature_mm" in self.model_fields_set

    @property
    def least_mm(self) -> float:
        """Return the stature, of a child of an age that of a small one, in shoes."""
        if self.is_measured or self.age is None:
            return self.stature_mm
        return least_stature_mm(self.age) + SHOES_MM

    @property
    def most_mm(self) -> float:
        """Return the stature, of a child of an age that of a tall one, in shoes."""
        if self.is_measured or self.age is None:
            return self.stature_mm
        return most_stature_mm(self.age) + SHOES_MM

    @model_validator(mode="after")
    def _how_tall_a_child_is(self) -> Self:
        if self.age is not None and not self.child:
            raise problem(
                "An age is asked of children alone",
                todo="Write child = true, or take age away",
                keys=("age", "child"),
            )
        if self.child and self.age is None and "stature_mm" not in self.model_fields_set:
            raise problem(
                "Nobody says how tall the child is",
                allowed="stature with the length in it, or age in whole years",
                todo="Write one of them, and mend it as the child grows",
                keys=("child", "stature", "age"),
            )
        if self.age is not None and "stature_mm" in self.model_fields_set:
            least, most = can_be_mm(self.age)
            least = ROUND_MM * math.floor((least + SHOES_MM) / ROUND_MM)
            most = ROUND_MM * math.ceil((most + SHOES_MM) / ROUND_MM)
            if not least <= self.stature_mm <= most:
                raise problem(
                    f"No child of {self.age} years has a stature of {said.mm(self.stature_mm)}",
                    allowed=f"from {said.first(least)} to {said.most(most)} (all but the rarest "
                    "children of that age, in shoes)",
                    todo="Measure again, mend age, or take age away: the stature alone is enough",
                    keys=("stature", "age"),
                )
        return self

    @model_validator(mode="after")
    def _only_who_sits_has_a_seat(self) -> Self:
        if self.seat_height_mm is not None and not self.seated:
            raise problem(
                "Only who sits has a seat",
                todo="Write seated = true, or take seat_height away",
                keys=("seat_height", "seated"),
            )
        if self.lower_mm < 0.0:
            raise problem(
                f"On a seat {said.mm(self.seat_height_mm or 0.0)} high somebody of "
                f"{said.mm(self.least_mm)} would be taller than standing",
                todo="Measure the seat again",
                keys=("seat_height", "stature"),
            )
        return self

    @model_validator(mode="after")
    def _heights_in_order(self) -> Self:
        elbow, shoulder = (
            segment_mm(name, stature_mm=self.least_mm) - self.lower_mm if given is None else given
            for name, given in (
                ("elbow height", self.elbow_height_mm),
                ("shoulder height", self.shoulder_height_mm),
            )
        )
        hip = segment_mm("hip height", stature_mm=self.least_mm) - self.lower_mm
        if not max(elbow, hip) < shoulder < self.least_mm:
            raise problem(
                f"An elbow at {said.mm(elbow)}, a shoulder at {said.mm(shoulder)} and a stature of "
                f"{said.mm(self.least_mm)} do not belong to one person",
                allowed="elbow and hip below shoulder, and shoulder below stature",
                todo="Measure again, or leave out what you did not measure",
                keys=("stature", "elbow_height", "shoulder_height"),
            )
        return self


class OtherPerson(Person):
    """A further person who uses the wall, or a child that comes near it."""

    # of several people each needs a name
    name: Name  # pyright: ignore[reportGeneralTypeIssues] - the base has a default
