"""A holder: what a family builds, what a mount adds, and where tools rest in it.

The frame of a holder: y out of the wall from the wall face of its plate, z up, x
along the wall from one edge of the plate. A mount lies at y < 0. The frame is
right-handed, so that x runs to the left for a person who faces the wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cleatwright.base.source import Source
from cleatwright.parts.fitting import Fitting
from cleatwright.parts.groove_hold import GrooveHold
from cleatwright.parts.hanger_groove import HangerGroove
from cleatwright.parts.hold import MagnetPull, SpringArms
from cleatwright.parts.joinery import Joinery
from cleatwright.parts.rail_screws import RailScrews
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.parts.tool import Size, ToolBody
from cleatwright.shapes.facts import Bounds
from cleatwright.shapes.rigid import Rigid, Vector
from cleatwright.shapes.solid import Solid

PrintPose = Literal["upright", "upside-down", "on-its-back", "on-its-face", "on-its-side"]
"""How a part lies on the bed, named by what it does in the frame of a holder."""


@dataclass(frozen=True)
class Seat:
    """Where one tool rests.

    Args:
        tool: The tool that sits here.
        pose: From the frame of the tool to the frame of the holder.
        way_out: Straight moves, in mm, by which the tool leaves to the front.
        sizes: The openings that were made for this tool.
        kept: True when the tool cannot leave straight to the front (+y) without its first move.
        rest_z_mm: Height in the frame of the holder at which the tool is carried.
        spring: The arms that bend when the tool goes in or out, if there are any.
        magnet: The magnets that hold the tool, if there are any.
        swings: True when the tool hangs and may swing along the wall.
    """

    tool: ToolBody
    pose: Rigid
    way_out: tuple[Vector, ...]
    sizes: tuple[Size, ...]
    kept: bool = True
    rest_z_mm: float = 0.0
    spring: SpringArms | None = None
    magnet: MagnetPull | None = None
    swings: bool = False

    @property
    def com_mm(self) -> Vector:
        """Return the centre of mass of the seated tool in the frame of the holder."""
        return self.pose.apply(self.tool.com_mm)

    def envelope(self) -> tuple[Solid, ...]:
        """Return the convex pieces of the seated tool in the frame of the holder."""
        return tuple(piece.placed(self.pose) for piece in self.tool.envelope)


@dataclass(frozen=True)
class MarkPlace:
    """A flat place for lettering: x runs along the text, z out of the material.

    The lower left corner of the place is the origin of ``pose``; its room is
    ``width_mm`` by ``height_mm``.
    """

    pose: Rigid
    width_mm: float
    height_mm: float


def front_mark(x0: float, x1: float, *, z0: float, z1: float, y_mm: float) -> MarkPlace:
    """Return a place for a mark on a face at ``y_mm`` that looks to the person, x0 < x1, z0 < z1.

    The text runs from x1 to x0, since x runs to the left for the reader.
    """
    facing = Rigid(((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)), (x1, y_mm, z0))
    return MarkPlace(pose=facing, width_mm=x1 - x0, height_mm=z1 - z0)


@dataclass(frozen=True)
class Hardware:
    """Something to buy: a screw, a nut, an insert.

    ``stud_mm`` is how deep it must be in a stud, where only the place tells whether one is there;
    0 for everything else. ``of_fittings`` says that it goes with the fittings of a part and not
    with the part itself, which may get others.
    """

    name: str
    count: int
    note: str
    source: Source
    stud_mm: float = 0.0
    of_fittings: bool = False


@dataclass(frozen=True)
class ScrewRows:
    """Two rows of wood screws through a plate into the studs.

    Args:
        columns_mm: Where the screws of each row stand along the part.
        apart_mm: From the lower row to the upper one.
        low_z_mm: Height of the lower row.
        length_mm: Length of each screw.
        strength: What one of them may carry.
    """

    columns_mm: tuple[float, ...]
    apart_mm: float
    low_z_mm: float
    length_mm: float
    strength: ScrewStrength

    @property
    def columns(self) -> int:
        """Return how many screws stand in each row."""
        return len(self.columns_mm)

    @property
    def rows_mm(self) -> tuple[float, ...]:
        """Return the heights of the rows in the frame of the part, the upper one first."""
        return self.low_z_mm + self.apart_mm, self.low_z_mm


@dataclass(frozen=True)
class LockScrews:
    """Screws through a part on a rail into the wall: its hook can no longer ride up.

    Args:
        columns_mm: Where they stand along the part.
        along_n: What one of them may carry along the wall.
        z_mm: Their height in the frame of the part.
    """

    columns_mm: tuple[float, ...]
    along_n: float
    z_mm: float

    @property
    def count(self) -> int:
        """Return how many there are."""
        return len(self.columns_mm)

    @property
    def rows_mm(self) -> tuple[float, ...]:
        """Return the heights of their rows in the frame of the part: they are one row."""
        return (self.z_mm,)


@dataclass(frozen=True)
class Front:
    """What a family builds: everything in front of a plate, and what it asks of the plate.

    Args:
        solid: The solid at y >= 0; it reaches into the plate, so that they join.
        width_mm: Width of the plate.
        plate_low_mm: Lowest z at which the plate must still be there.
        plate_high_mm: Highest z at which the plate must still be there.
        reach_mm: Largest y of the solid.
        low_mm: Lowest z of the solid.
        high_mm: Highest z of the solid.
        seats: The seats, from left to right or from top to bottom.
        genus: Through holes of the solid joined with a plain plate.
        min_wall_mm: The thinnest wall that the family leaves.
        mark_place: Where the mark goes.
        leading: Leading dimensions in drawing notation.
        hardware: What has to be bought for the front, such as magnets.
        cuts: What is cut out of the front and everything that a mount puts behind it.
        print_pose: The pose it is made for, in which it prints without support on a plain plate.
        also: Further poses in which it does.
        lock: Screws that go through it and all behind it into the wall, if there are any.
        anchored: True when other parts have places in its frame, so that it may not be moved.
    """

    solid: Solid
    width_mm: float
    plate_low_mm: float
    plate_high_mm: float
    reach_mm: float
    low_mm: float
    high_mm: float
    seats: tuple[Seat, ...]
    genus: int
    min_wall_mm: float
    mark_place: MarkPlace
    leading: str
    hardware: tuple[Hardware, ...] = ()
    cuts: tuple[Solid, ...] = ()
    print_pose: PrintPose = "upright"
    also: tuple[PrintPose, ...] = ()
    lock: LockScrews | None = None
    anchored: bool = False


@dataclass(frozen=True)
class RailHold:
    """How hangers and bolts hold a holder on its rail.

    Args:
        tip_mm: How far behind the face of the rail the hooks still meet its bevel.
        hangers_mm: Where each hanger begins and ends along the part.
        wide_mm: Where the back begins and ends.
        back_mm: How far below the bevel's edge all of the back bears on the rail.
        feet_mm: Where each piece begins and ends that bears down to ``Hanging.depth_below_mm``.
        bolts_mm: The middles of the bolts along the part.
        bolt_years_n: What one bolt may bear for years.
        bolt_hand_n: What one bolt may bear while a hand pulls.
        play_mm: By how much the part may rise in all while a bolt comes out from under the rail.
        under_mm: How far that bolt lies under the rail, at least.
        rail_mm: Height of the rail's face.
        rail_off_mm: By how much that height may be off.
        groove: The hangers where they sit in the back.
        plate_mm: Thickness of the plate between its hangers and its feet.
    """

    tip_mm: float
    hangers_mm: tuple[tuple[float, float], ...]
    wide_mm: tuple[float, float]
    back_mm: float
    feet_mm: tuple[tuple[float, float], ...]
    bolts_mm: tuple[float, ...]
    bolt_years_n: float
    bolt_hand_n: float
    play_mm: float
    under_mm: float
    rail_mm: float
    rail_off_mm: float
    groove: HangerGroove
    plate_mm: float

    @property
    def hooks_mm(self) -> tuple[float, float]:
        """Return the outermost ends of the hooks along the part."""
        return self.hangers_mm[0][0], self.hangers_mm[-1][1]


@dataclass(frozen=True)
class Hanging:
    """How a finished holder meets the wall, in its own frame.

    Args:
        mount: Name of the mount.
        on_rail: True when it hangs on a rail, false when it is fixed to the wall.
        contact_z_mm: Height of the bevel contact (on a rail) or of the plate's top (fixed).
        depth_below_mm: How far below the contact the holder bears on the rail or the wall.
        bevel_deg: Angle of the bevel from the wall's normal; zero when fixed.
        stand_off_mm: Distance of the plate's wall face from the wall.
        lock: Screws that keep its hook from riding up, if there are any.
        screws: The screws that carry it on the wall, if it hangs by screws.
        hold: The hangers and bolts that hold it on a rail, if it has them.
        rail_screws: The screws into its rail that hold it there in place of bolts.
        in_grooves: The plates in the grooves of its back that hold it off a rail.
        on_rail_as: How it would hang on a rail with the same back, if plates hold it off one.
    """

    mount: str
    on_rail: bool
    contact_z_mm: float
    depth_below_mm: float
    bevel_deg: float
    stand_off_mm: float = 0.0
    lock: LockScrews | None = None
    screws: ScrewRows | None = None
    hold: RailHold | None = None
    rail_screws: RailScrews | None = None
    in_grooves: GrooveHold | None = None
    on_rail_as: Hanging | None = None


@dataclass(frozen=True)
class JointInterface:
    """Where a holder meets a carrier: a tongue from ``low_mm`` up to ``high_mm``, or one bolt."""

    x_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True)
class HolderPart:
    """One holder, ready to be checked, placed and made.

    ``solid`` is without the engraved mark, which is cut at the first of
    ``mark_places`` that has room for it.
    ``bounds_mm`` is the box within which the family and the mount promise to stay.
    ``free_poses`` are those in which the part is known to print without support, the one it is
    made for first; ``interfaces`` are the places where it meets its carrier, if it has one.
    ``joinery`` is there when it is made of wood, and not printed. ``fittings`` are printed by
    themselves.
    """

    family: str
    leading: str
    solid: Solid
    seats: tuple[Seat, ...]
    genus: int
    bounds_mm: Bounds
    min_wall_mm: float
    mark_places: tuple[MarkPlace, ...]
    hanging: Hanging
    hardware: tuple[Hardware, ...]
    free_poses: tuple[PrintPose, ...] = ()
    interfaces: tuple[JointInterface, ...] = ()
    joinery: Joinery | None = None
    fittings: tuple[Fitting, ...] = ()

    @property
    def print_pose(self) -> PrintPose | None:
        """Return the pose in which it prints without support, or None when there is no promise."""
        return self.free_poses[0] if self.free_poses else None

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Return every opening size, seat by seat."""
        return tuple(size for seat in self.seats for size in seat.sizes)

    @property
    def load_kg(self) -> float:
        """Return the mass of all seated tools."""
        return sum(seat.tool.mass_kg for seat in self.seats)
