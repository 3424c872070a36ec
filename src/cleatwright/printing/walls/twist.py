"""How far a plate on hangers is twisted and bent between its tools, its hooks and its feet.

In cuts across x the plate and the stiffest rectangle of what stands on it are twisted, each as if
it were alone; all of the cut, or the plate alone, is bent out of the wall. The largest of each, of
all mixtures of tools, counts as if both came at once:

    sqrt(s2 + 3 t2)     as a tension along the layers
    t                   as one across them: it acts between layers, too, at the edges of a plate

Source: ``statics.plate_twist``, ``statics.torsion``; the hypothesis of the greatest distortion.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from cleatwright.kernels.mesh.plate_cut import PlateCut, Rectangle, plate_cuts
from cleatwright.kernels.mesh.shell_cut import Shell
from cleatwright.mounts.printed.guide_floor import floor_shell_share, solid_floor_share
from cleatwright.parts.holder import RailHold, Seat
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.statics.arm_strength import ACROSS_HAND_MPA, LASTING_MPA
from cleatwright.statics.cleat import seat_weight
from cleatwright.statics.hand import Tug, tugs
from cleatwright.statics.load_table import Values
from cleatwright.statics.plate_twist import PUSHED, HungPlate, Turning, hung_plate
from cleatwright.statics.torsion import HollowBar, twist_modulus_mm3

CUTS = 14
# from an end of the plate to the cut beside it
BESIDE_MM = 1.0
QUARTERS = range(5)
# which part of all the rail pushes out at each of the places
BLENDS = np.array([(a, b, 4 - a - b) for a in QUARTERS for b in QUARTERS if a + b <= 4]) / 4.0


@dataclass(frozen=True)
class _Case:
    """Forces that are there, and tools any of which may be there besides.

    Args:
        there: The forces, by their numbers.
        maybe: The tools, the same.
        hand: Whether a hand is at one of them.
    """

    there: tuple[int, ...]
    maybe: tuple[int, ...]
    hand: bool


@dataclass(frozen=True, eq=False)
class _Forces:
    """All forces on a holder: its own weight, its tools and hands at them; and their cases."""

    turnings: tuple[Turning, ...]
    cases: tuple[_Case, ...]

    @classmethod
    def of(cls, loaded: Loaded, plate: HungPlate) -> _Forces:
        seats = loaded.part.seats
        weights = [loaded.own.weight, *(seat_weight(seat) for seat in seats)]
        hands = tugs(seats, loaded.settings.hand)
        tools = tuple(range(1, len(weights)))
        cases = [_Case((0,), tools, hand=False)]
        for number, tug in enumerate(hands, len(weights)):
            held = () if tug.lifted else (tug.number,)
            others = tuple(k for k in tools if k != tug.number)
            cases.append(_Case((0, number, *held), others, hand=True))
        contact = plate.section.contact_z_mm
        return cls(
            (
                *(Turning.of_weight(one) for one in weights),
                *(
                    Turning.of_hand(_passed_on(tug, seats[tug.number - 1]), contact)
                    for tug in hands
                ),
            ),
            tuple(cases),
        )


def _passed_on(tug: Tug, seat: Seat) -> Tug:
    """Return what of a hand reaches the holder: magnets let go of a tool that is tipped off them.

    Held higher it comes off by less, and no moment about its lower edge is more than that of all
    their pull in their middle.
    """
    if seat.magnet is None:
        return tug
    middle = seat.rest_z_mm + seat.magnet.lever_mm
    return replace(tug, case=replace(tug.case, pull_z_mm=min(tug.case.pull_z_mm, middle)))


@dataclass(frozen=True, eq=False)
class _Cuts:
    """Cuts, and what each of them bears.

    Args:
        at_mm: Where they lie, (n,).
        middles_mm: The heights of the middle of the plate there, (n,).
        twist_mm3: Torque over the worst shear, (n,).
        bending_mm3: Moment over the worst tension, (n,).
    """

    at_mm: Values
    middles_mm: Values
    twist_mm3: Values
    bending_mm3: Values

    @classmethod
    def of(cls, loaded: Loaded, plate: HungPlate, thick_mm: float) -> _Cuts:
        (low, _, _), (high, _, _) = loaded.part.bounds_mm
        places = places_mm(low + BESIDE_MM, high - BESIDE_MM, CUTS)
        cuts = tuple(plate_cuts(loaded.body, places, thick_mm=thick_mm, shell=loaded.shell))
        return cls(
            np.array([one.at_mm for one in cuts]),
            np.array([_middle_mm(one, plate.section.contact_z_mm) for one in cuts]),
            np.array([_twist_mm3(one, loaded.shell) for one in cuts]),
            np.array([_bending_mm3(one, loaded.shell) for one in cuts]),
        )

    def shares(
        self, torques: Values, moments: Values, *, along_mpa: float, across_mpa: float
    ) -> Values:
        """Return how far the worst cut is loaded; infinity where nothing is left to be twisted.

        Args:
            torques: What twists them, (b, n).
            moments: What bends them, (b, n).
            along_mpa: What the plastic bears as a tension.
            across_mpa: The same between its layers.
        """
        with np.errstate(divide="ignore", invalid="ignore"):
            shear = np.where(torques > 0.0, torques / self.twist_mm3, 0.0)
            tension = np.where(moments > 0.0, moments / self.bending_mm3, 0.0)
        both = np.sqrt(tension**2 + 3.0 * shear**2)
        return np.maximum(both / along_mpa, shear / across_mpa).max(axis=1)


def twist_share(loaded: Loaded, hold: RailHold) -> float:
    """Return the worst stress in cuts across the x of a holder on hangers, as a share.

    Args:
        loaded: The holder as it is printed and loaded.
        hold: Its hangers and bolts.
    """
    plate = hung_plate(loaded.part.hanging, hold)
    forces, cuts = _Forces.of(loaded, plate), _Cuts.of(loaded, plate, hold.plate_mm)
    if not cuts.at_mm.size:
        return 0.0
    torques, moments = _inside(plate, forces, cuts)
    asked = np.array([[plate.asked_n(one, where) for one in forces.turnings] for where in PUSHED])
    worst = 0.0
    for case in forces.cases:
        shares = cuts.shares(
            _largest(torques, case),
            _largest(moments, case),
            along_mpa=loaded.hand_mpa("x") if case.hand else loaded.years_mpa("x"),
            across_mpa=ACROSS_HAND_MPA if case.hand else LASTING_MPA / loaded.settings.margin,
        )
        bolts_n = _bolts_n(loaded, hold, hand=case.hand)
        holds = _held(asked[:, [*case.there, *case.maybe]].sum(axis=1), plate.bolted, bolts_n)
        worst = max(worst, float(shares[holds].min()))
    return worst


def _held(asked_n: Values, bolted: tuple[float, float], bolts_n: float) -> npt.NDArray[np.bool_]:
    """Return by which blends bolts let the hooks hold, or that by which the feet bear all.

    Args:
        asked_n: What is asked of bolts at each hook, by where the rail pushes, (3, 2).
        bolted: Which parts of what all bolts pull are there.
        bolts_n: What all bolts bear.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        each = np.where(asked_n > 0.0, asked_n / np.array(bolted), 0.0).max(axis=1)
        # a blend asks for no more than its parts do
        needs = BLENDS @ each
    return (needs <= bolts_n) | (BLENDS[:, 0] == 1.0)


def _bolts_n(loaded: Loaded, hold: RailHold, *, hand: bool) -> float:
    """Return what all bolts bear, or screws in their place."""
    lock = loaded.part.hanging.lock
    if lock is not None:
        return lock.along_n * lock.count
    shell = loaded.shell
    floor = min(1.0, floor_shell_share(shell.walls_mm, shell.skin_mm) / solid_floor_share())
    each = hold.bolt_hand_n if hand else hold.bolt_years_n / loaded.settings.margin
    return floor * each * len(hold.bolts_mm)


def _inside(plate: HungPlate, forces: _Forces, cuts: _Cuts) -> tuple[Values, Values]:
    """Return torques and moments by each blend, of each force in each cut, (b, f, n)."""
    found = [
        [plate.inside(one, where, cuts.at_mm, cuts.middles_mm) for one in forces.turnings]
        for where in PUSHED
    ]
    torques = np.array([[one.torque_nmm for one in row] for row in found])
    moments = np.array([[one.bending_nmm for one in row] for row in found])
    return np.tensordot(BLENDS, torques, 1), np.tensordot(BLENDS, moments, 1)


def _largest(inside: Values, case: _Case) -> Values:
    """Return the most in each cut, either way, whichever of the tools are there, (b, n)."""
    there, maybe = inside[:, list(case.there)].sum(axis=1), inside[:, list(case.maybe)]
    up = there + np.maximum(maybe, 0.0).sum(axis=1)
    down = there + np.minimum(maybe, 0.0).sum(axis=1)
    return np.maximum(up, -down)


def _middle_mm(cut: PlateCut, contact_z_mm: float) -> float:
    highs = [one.high_mm[1] - one.low_mm[1] for one in cut.plate]
    middles = [(one.high_mm[1] + one.low_mm[1]) / 2 for one in cut.plate]
    if not highs:
        return contact_z_mm
    return float(np.average(middles, weights=highs))


def _twist_mm3(cut: PlateCut, shell: Shell) -> float:
    """Return the twist modulus of a plate, and of what stands on it where that helps."""
    plate = [_strip(one, shell) for one in cut.plate]
    front = [] if cut.front is None else [_strip(cut.front, shell)]
    return max(twist_modulus_mm3(plate), twist_modulus_mm3([*plate, *front]))


def _bending_mm3(cut: PlateCut, shell: Shell) -> float:
    """Return the section modulus of a cut, or of its plate alone.

    A low rib has the outermost fibre and little else: what stands on a plate makes it no weaker.
    """
    fibre = max(one.fibre_v_mm for one in cut.pieces)
    whole = math.fsum(one.about_x_mm4 for one in cut.pieces) / fibre
    return max(whole, math.fsum(_strip(one, shell).bending_mm3 for one in cut.plate))


def _strip(one: Rectangle, shell: Shell) -> HollowBar:
    """Return a rectangle of a cut with what is closed around it."""
    edges = shell.skin_mm if shell.layers == "z" else shell.walls_mm
    faces = shell.skin_mm if shell.layers == "y" else shell.walls_mm
    (y0, z0), (y1, z1) = one.low_mm, one.high_mm
    return HollowBar(z1 - z0, y1 - y0, edges, faces)
