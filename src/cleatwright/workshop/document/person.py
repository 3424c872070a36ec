"""The person for whom the wall is arranged."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import model_validator

from cleatwright.base import said
from cleatwright.standards.people.body_segments import segment_mm
from cleatwright.workshop.document.fields import DocumentTable, Within, problem

Hand = Literal["right", "left", "either"]
_BODY = "measure standing upright, in shoes"


class Person(DocumentTable):
    """The measures of a standing person; what is left out follows from the stature."""

    stature_mm: Annotated[
        float, Within("mm", 1_000, 2_500, why="of a person who stands, in shoes")
    ] = 1750.0
    elbow_height_mm: Annotated[float | None, Within("mm", 400, 2_000, why=_BODY)] = None
    shoulder_height_mm: Annotated[float | None, Within("mm", 500, 2_300, why=_BODY)] = None
    arm_reach_mm: Annotated[
        float | None, Within("mm", 250, 1_200, why="from the shoulder to a rod in the fist")
    ] = None
    hand: Hand = "either"

    @model_validator(mode="after")
    def _heights_in_order(self) -> Self:
        elbow, shoulder = (
            segment_mm(name, stature_mm=self.stature_mm) if given is None else given
            for name, given in (
                ("elbow height", self.elbow_height_mm),
                ("shoulder height", self.shoulder_height_mm),
            )
        )
        hip = segment_mm("hip height", stature_mm=self.stature_mm)
        if not max(elbow, hip) < shoulder < self.stature_mm:
            raise problem(
                f"An elbow at {said.mm(elbow)}, a shoulder at {said.mm(shoulder)} and a stature of "
                f"{said.mm(self.stature_mm)} do not belong to one person",
                allowed="elbow and hip below shoulder, and shoulder below stature",
                todo="Measure again, or leave out what you did not measure",
                keys=("stature", "elbow_height", "shoulder_height"),
            )
        return self
