"""What a mount is, and the settings it may need."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from cleatwright.parts.holder import Front, HolderPart, PrintPose
from cleatwright.parts.params import PartParams
from cleatwright.shapes.solid import Difference, Solid, joined
from cleatwright.standards.wall.linings import PLASTERBOARD_MM
from cleatwright.statics.cleat import OwnWeight
from cleatwright.statics.hand import KNOCK_N, LIFT_N, PULL_N, Hand

# the mark of an own weight that is not known before the part is evaluated
GUESSED_MASS_KG = 0.05


def guessed_weights(front: Front) -> tuple[OwnWeight, ...]:
    """Return own weights to design for: none is the worst for its tools, some for itself."""
    out, along = front.reach_mm / 2, front.width_mm / 2
    return tuple(OwnWeight(mass, out, along) for mass in (0.0, GUESSED_MASS_KG))


@dataclass(frozen=True)
class MountSettings:
    """What a mount must know of the wall and of the wishes of the owner.

    Args:
        plate_mm: Thickness of the plate.
        rail_thickness_mm: Thickness of the rails.
        rail_height_mm: Height of the rail's front face.
        bevel_deg: Angle of the bevel from the wall's normal.
        margin: Factor on the depth that the statics ask for (>= 1).
        drag: Share of a tool's weight with which a hand drags it along its seat.
        least_depth_mm: Depth of bearing below the bevel to reach in any case.
        lining_mm: What lies between the back of the mount and the studs and carries nothing.
        own_kg: Mass of the part and of what it carries itself, once it is known.
        own_out_mm: How far in front of the wall face that mass lies.
        own_aside_mm: How far along from the middle of the part it lies.
        pull_n: How hard a hand may pull a tool to the front without the holder coming off its rail.
        lift_n: The same, upwards.
        knock_n: How hard a tool may be knocked along the wall at its far end.
        least_bolts: How many bolts it has on a rail at the least, where they have room.
    """

    plate_mm: float = 5.0
    rail_thickness_mm: float = 18.0
    rail_height_mm: float = 70.0
    bevel_deg: float = 45.0
    margin: float = 1.5
    drag: float = 0.1
    least_depth_mm: float = 0.0
    lining_mm: float = PLASTERBOARD_MM
    own_kg: float = 0.0
    own_out_mm: float = 0.0
    own_aside_mm: float = 0.0
    pull_n: float = PULL_N
    lift_n: float = LIFT_N
    knock_n: float = KNOCK_N
    least_bolts: float = 1

    @property
    def hand(self) -> Hand:
        """Return what a hand does to a tool."""
        return Hand(self.drag, self.pull_n, self.lift_n)

    def as_dict(self, *, screwed: bool = True) -> dict[str, float]:
        """Return what a recipe keeps by name; the lining only for what is screwed to the wall."""
        unknown = ("own_kg", "own_out_mm", "own_aside_mm", "least_bolts")
        left_out = unknown if screwed else (*unknown, "lining_mm")
        return {name: value for name, value in vars(self).items() if name not in left_out}

    def loaded(self, own: OwnWeight) -> MountSettings:
        """Return the settings for a part whose own weight is known, ``along`` from its middle."""
        return replace(
            self,
            own_kg=own.mass_kg,
            own_out_mm=own.distance_mm,
            own_aside_mm=own.along_mm,
        )

    def own_in(self, width_mm: float) -> OwnWeight:
        """Return the own weight of a part so wide; nothing while it is not known."""
        return OwnWeight(self.own_kg, self.own_out_mm, width_mm / 2 + self.own_aside_mm)

    def deepened(self, least_depth_mm: float) -> MountSettings:
        """Return the settings with at least this depth of bearing."""
        return replace(self, least_depth_mm=max(self.least_depth_mm, least_depth_mm))


class MountParams(PartParams):
    """Base of a mount's own parameters, such as the pitch of a board."""


class NoParams(MountParams):
    """A mount without parameters of its own."""


NO_PARAMS = NoParams()


def _anywhere(_params: MountParams) -> tuple[float, float]:
    """Return the steps of a mount that may be put anywhere."""
    return 0.0, 0.0


@dataclass(frozen=True)
class InGrooves:
    """How a mount takes a holder that was made for a rail, by plates in its grooves.

    Args:
        attach: Makes the part from the holder on its rail, the settings and the parameters.
        put_in: How a holder is put in place and taken off, in sentences.
    """

    attach: Callable[[HolderPart, MountSettings, Any], HolderPart]
    put_in: str


@dataclass(frozen=True)
class Mount:
    """A way of hanging.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people.
        attach: Makes the part from a family's name and front, the settings and the parameters.
        on_rail: True when it hangs on a rail.
        screwed: True when wood screws hold it to the studs.
        params: The parameter model.
        poses: The poses in which its back prints without support.
        put_in: How a holder is put in place and taken off, in sentences.
        openings: Into what it is put, as "holes", where it can be put there only.
        pitch: Steps along and up in which it can be put in place, by its parameters; 0 for any.
        example: Invented values of the parameters that have no default, for trials and pictures.
        in_grooves: How it takes a holder that was made for a rail; None where it cannot.
    """

    name: str
    title: str
    attach: Callable[[str, Front, MountSettings, Any], HolderPart]
    on_rail: bool
    params: type[MountParams] = NoParams
    poses: tuple[PrintPose, ...] = ()
    screwed: bool = False
    put_in: str = ""
    openings: str = ""
    pitch: Callable[[Any], tuple[float, float]] = _anywhere
    example: tuple[tuple[str, float], ...] = ()
    in_grooves: InGrooves | None = None


def promised(front: Front, poses: tuple[PrintPose, ...]) -> tuple[PrintPose, ...]:
    """Return the poses in which a front and a back that prints in ``poses`` need no support."""
    return tuple(one for one in (front.print_pose, *front.also) if one in poses)


def whole(front: Front, *backs: Solid) -> Solid:
    """Return a front with everything behind it, less what the front wants cut out of both."""
    solid = joined(front.solid, *backs)
    return Difference(solid, front.cuts) if front.cuts else solid
