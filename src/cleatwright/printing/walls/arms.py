"""How far the sections across an arm, a shelf or a ring are loaded by what stands on them.

Pieces of a cut that meet again further out are one arm. Of two arms that carry one tool each bears
half, and of more as well, though they share it; an arm's own pieces bear its part as far as they
are stiff (``statics.shared_load``). What lies ahead of the cut weighs on them likewise. A knock
along the wall is borne by all pieces of an arm, each as far as it is stiff; where they are the two
sides of a ring, its front ties them (``statics.portal``).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.kernels.mesh.shell_cut import ArmPiece, arm_pieces
from cleatwright.parts.holder import Seat
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.statics.portal import foot_share
from cleatwright.statics.seat_load import SeatLoad, seat_load
from cleatwright.statics.shared_load import shared_load

CUTS = 14
# beside a tool, and below where it rests
NEAR_MM = 4.0
# what ends so near before a cut carries nothing, as the inside of a letter of the mark
LEAST_AHEAD_MM = 1.0
# legs at least so many times as far apart as they are thick are not shortened by what they bear
APART = 4.0
_JUST_MM = 0.05


@dataclass(frozen=True)
class _Borne:
    """What a piece bears of a seat.

    Args:
        seat: The seat.
        load: How it is loaded.
        part: Part of a pull.
        carried: Part of what presses down; none where the tool does not rest on the piece.
        sideways: Part of a knock.
    """

    seat: Seat
    load: SeatLoad
    part: float
    carried: float
    sideways: float


def arms_share(loaded: Loaded) -> float:
    """Return the worst stress in cuts across y, as a share of what the layers bear."""
    plate, reach = loaded.settings.plate_mm, float(loaded.body.box_mm[1][1])
    seats = loaded.part.seats
    loads = [seat_load(seat, plate_mm=plate, reach_mm=reach) for seat in seats]
    worst = 0.0
    for at in (
        *places_mm(plate + _JUST_MM, reach - LEAST_AHEAD_MM, CUTS),
        *_before_groove_mm(loaded, plate),
    ):
        pieces = [
            one
            for one in arm_pieces(loaded.body, at, shell=loaded.shell)
            if one.ahead.reach_mm > at + LEAST_AHEAD_MM
        ]
        borne: dict[int, list[_Borne]] = {k: [] for k in range(len(pieces))}
        for seat, load in zip(seats, loads, strict=True):
            for k, one in _shared(pieces, seat, load, at):
                borne[k].append(one)
        for piece, found in zip(pieces, borne.values(), strict=True):
            if found:
                stiff = sum(one.about_x_mm4 for one in pieces if one.ahead == piece.ahead)
                own = loaded.own_nmm(piece.ahead.turning_mm4) * piece.about_x_mm4 / stiff
                worst = max(worst, _share(loaded, piece, found, at, own_nmm=own))
    return worst


def _before_groove_mm(loaded: Loaded, plate_mm: float) -> tuple[float, ...]:
    """Return where an arm leaves a plate that is thicker at the groove of its hangers."""
    hold = loaded.part.hanging.hold
    thick = 0.0 if hold is None else hold.groove.deep_mm + hold.groove.wall_mm
    return (thick + _JUST_MM,) if thick > plate_mm else ()


def _shared(
    pieces: Sequence[ArmPiece], seat: Seat, load: SeatLoad, at_mm: float
) -> Iterator[tuple[int, _Borne]]:
    """Yield the pieces that meet a tool: those at its rest carry it, all others guide it."""
    near = [k for k, one in enumerate(pieces) if _beside(one, load, NEAR_MM)]
    if not near:
        return
    off = [_off_mm(one, load.rest_mm) for one in pieces]
    high = max(NEAR_MM, min(off[k] for k in near))
    # what lies beside it, as the wall of a neighbour, is no help
    below = [k for k in near if off[k] <= high and _beside(pieces[k], load, 0.0)]
    carry = below or [k for k in near if off[k] <= high]
    arms = {pieces[k].ahead for k in carry}
    carried: dict[int, float] = {}
    for ahead in arms:
        # all of an arm bears what rests on it
        arm = [k for k, one in enumerate(pieces) if one.ahead == ahead and off[k] <= high]
        springs = [(pieces[k].centre_mm[0], pieces[k].about_x_mm4) for k in arm]
        parts = shared_load(springs, at_mm=seat.com_mm[0])
        share = 1.0 if len(arms) == 1 else 0.5
        carried |= {k: share * part for k, part in zip(arm, parts, strict=True)}
    for k in sorted({*near, *carried}):
        group = [i for i in near if (i in carried) == (k in carried)]
        part = 0.0 if k not in near else 1.0 if len(group) == 1 else 0.5
        tied = [pieces[i] for i in near if pieces[i].ahead == pieces[k].ahead]
        aside = part if len(tied) <= 1 else _of_a_knock(pieces[k], tied, at_mm)
        yield (
            k,
            _Borne(seat, load, part, carried.get(k, 0.0), aside if k in near else 0.0),
        )


def _beside(piece: ArmPiece, load: SeatLoad, near_mm: float) -> bool:
    """Return whether a piece lies above or below a tool, or as near beside it."""
    low, high = load.left_mm - near_mm, load.right_mm + near_mm
    return piece.low_mm[0] < high and piece.high_mm[0] > low


def _of_a_knock(piece: ArmPiece, tied: Sequence[ArmPiece], at_mm: float) -> float:
    """Return what one of several pieces that meet further out bears of a knock along the wall."""
    share = piece.about_v_mm4 / sum(one.about_v_mm4 for one in tied)
    if len(tied) != 2:
        return share
    left, right = tied
    apart = right.centre_mm[0] - left.centre_mm[0]
    thick = max(one.high_mm[0] - one.low_mm[0] for one in tied)
    if apart < APART * thick:
        return share
    return share * foot_share(long_mm=piece.ahead.reach_mm - at_mm, apart_mm=apart)


def _off_mm(piece: ArmPiece, rest_mm: float) -> float:
    """Return how far above or below a piece a tool rests."""
    return max(piece.low_mm[1] - rest_mm, rest_mm - piece.high_mm[1], 0.0)


def _share(
    loaded: Loaded, piece: ArmPiece, found: Sequence[_Borne], at_mm: float, *, own_nmm: float
) -> float:
    """Return the stress in one piece as a share of what its layers bear."""
    settings, ahead = loaded.settings, piece.ahead
    bent = own_nmm + sum(
        one.carried * one.load.resting_to(ahead.reach_mm).moment_nmm(one.load.weight_n, at_mm)
        for one in found
    )
    about_x = piece.about_x_mm4 / piece.fibre_v_mm
    about_v = piece.about_v_mm4 / piece.fibre_x_mm
    hand = 0.0
    for one in found:
        load, pull = one.load, settings.hand.pull_at(one.seat)
        knocked = settings.knock_n * max(load.knocked_mm - at_mm, 0.0) / about_v
        drawn = pull / piece.area_mm2
        pressed = load.resting_to(ahead.reach_mm).moment_nmm(settings.lift_n, at_mm) / about_x
        if one.carried:
            # a tool pulls where it meets what lies ahead, however far above that it rests
            height = min(max(load.rest_mm, ahead.low_v_mm), ahead.high_v_mm)
            drawn += pull * abs(height - piece.centre_mm[1]) / about_x
        hand = max(hand, one.carried * pressed, one.part * drawn, one.sideways * knocked)
    return max(
        bent / about_x / loaded.years_mpa("y"),
        (bent / about_x + hand) / loaded.hand_mpa("y"),
    )
