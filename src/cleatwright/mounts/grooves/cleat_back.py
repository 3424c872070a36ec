"""The back of a holder on a rail, as plates in its grooves see it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from cleatwright.mounts.fittings import bolt, hanger
from cleatwright.mounts.printed import rail_back
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.extent import extent
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Rigid
from cleatwright.shapes.solid import Difference, Placed, Solid, Union

FLAT_MM = 1e-6


@dataclass(frozen=True)
class CleatBack:
    """A holder with hangers, by what its grooves and its bolt leave to plates.

    Args:
        part: The holder on its rail.
        first_alone: Whether the first of its grooves alone takes a plate.
    """

    part: HolderPart
    first_alone: bool = False

    @cached_property
    def lefts_mm(self) -> tuple[float, ...]:
        """Where each hanger begins along the back, in whose groove a plate goes."""
        found = tuple(one.pose.shift_mm[0] for one in self._named(hanger.KIND.name))
        return found[:1] if self.first_alone else found

    @property
    def groove_count(self) -> int:
        """Return how many grooves it has."""
        return len(self._named(hanger.KIND.name))

    @cached_property
    def tongue_mm(self) -> float:
        """How long each hanger is."""
        return dict(self._named(hanger.KIND.name)[0].measures)["width_mm"]

    @property
    def contact_mm(self) -> float:
        """Return the height of the bevel contact, from which fittings are measured."""
        return self.part.hanging.contact_z_mm

    @property
    def middle_mm(self) -> float:
        """Return the height of the middle of the grooves."""
        return self.contact_mm + hanger.MIDDLE_MM

    @cached_property
    def bolts_mm(self) -> tuple[tuple[float, float], ...]:
        """The middle of each bolt along the back, and the height of its floor."""
        found = (one.pose.shift_mm for one in self._named(bolt.KIND.name))
        return tuple((x + bolt.WIDTH_MM / 2, z) for x, _, z in found)

    @cached_property
    def groove(self) -> HangerGroove:
        """The section of its grooves with hangers in them.

        Where screws hold it on a rail, no more of the plate counts than it has everywhere.
        """
        hold = self.part.hanging.hold
        if hold is not None:
            return hold.groove
        low, high = self.contact_mm - rail_back.UNDER_MM, self.contact_mm + rail_back.TOP_MM
        thick = [
            box[1][1]
            for box in self._boxes
            if box[0][1] <= FLAT_MM
            and box[0][2] <= low + FLAT_MM
            and box[1][2] >= high - FLAT_MM
            and box[1][0] - box[0][0] >= self.part.bounds_mm[1][0] - FLAT_MM
        ]
        return rail_back.groove_for(
            rail_back.Hangers(self.tongue_mm, self.lefts_mm, self.part.bounds_mm[1][0]),
            thick_mm=min(thick),
            bedded=self.part.print_pose == rail_back.BEDDED_POSE,
        )

    def _named(self, name: str) -> list[Fitting]:
        return [one for one in self.part.fittings if one.name == name]

    @cached_property
    def _boxes(self) -> tuple[Bounds, ...]:
        return tuple(_pieces(self.part.solid, Rigid()))

    def _beside(self, x0: float, x1: float) -> Iterator[Bounds]:
        return (box for box in self._boxes if box[0][0] < x1 and box[1][0] > x0)

    def over_mm(self, x0: float, x1: float) -> float:
        """Return how high the holder reaches between two places along it."""
        return max((box[1][2] for box in self._beside(x0, x1)), default=self.contact_mm)

    def back_low_mm(self, x0: float, x1: float) -> float:
        """Return how low its back lies flat on plates between two places along it."""
        flat = [
            box[0][2]
            for box in self._beside(x0, x1)
            if box[0][1] <= FLAT_MM and box[0][0] <= x0 + FLAT_MM and box[1][0] >= x1 - FLAT_MM
        ]
        return min(flat, default=math.inf)


def _pieces(solid: Solid, motion: Rigid) -> Iterator[Bounds]:
    """Yield boxes around the pieces of a solid, whatever is cut out of them."""
    match solid:
        case Placed():
            yield from _pieces(solid.solid, solid.motion.then(motion))
        case Difference():
            yield from _pieces(solid.solid, motion)
        case Union():
            for one in solid.solids:
                yield from _pieces(one, motion)
        case _:
            yield extent(solid.placed(motion))
