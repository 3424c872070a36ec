"""How far the sections across an arm, a shelf or a ring are loaded by what stands on them.

Of two pieces that carry one tool each bears half, and of more as well, though they share it. A
knock along the wall is borne by all pieces that meet again further out, each as far as it is stiff;
where they are the two sides of a ring, its front ties them (``statics.portal``).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cleatwright.kernels.mesh.shell_cut import ShellPiece, shell_pieces
from cleatwright.parts.holder import Seat
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.printing.walls.loaded import Loaded, places_mm
from cleatwright.statics.portal import foot_share
from cleatwright.statics.seat_load import SeatLoad, seat_load

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
    """What a piece bears of a seat: which part, whether it rests there, and what of a knock."""

    seat: Seat
    load: SeatLoad
    part: float
    carries: bool
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
            for one in shell_pieces(loaded.body, "y", at, shell=loaded.shell)
            if one.reach_mm > at + LEAST_AHEAD_MM
        ]
        borne: dict[int, list[_Borne]] = {k: [] for k in range(len(pieces))}
        for seat, load in zip(seats, loads, strict=True):
            for k, one in _shared(pieces, seat, load, at):
                borne[k].append(one)
        for piece, found in zip(pieces, borne.values(), strict=True):
            if found:
                worst = max(worst, _share(loaded, piece, found, at))
    return worst


def _before_groove_mm(loaded: Loaded, plate_mm: float) -> tuple[float, ...]:
    """Return where an arm leaves a plate that is thicker at the groove of its hangers."""
    hold = loaded.part.hanging.hold
    thick = 0.0 if hold is None else hold.groove.deep_mm + hold.groove.wall_mm
    return (thick + _JUST_MM,) if thick > plate_mm else ()


def _shared(
    pieces: Sequence[ShellPiece], seat: Seat, load: SeatLoad, at_mm: float
) -> Iterator[tuple[int, _Borne]]:
    """Yield the pieces that meet a tool: those at its rest carry it, all others guide it."""
    near = [
        k
        for k, one in enumerate(pieces)
        if one.low_mm[0] < load.right_mm + NEAR_MM and one.high_mm[0] > load.left_mm - NEAR_MM
    ]
    off = {k: _off_mm(pieces[k], load.rest_mm) for k in near}
    carry = [k for k in near if off[k] <= max(NEAR_MM, min(off.values()))]
    guide = [k for k in near if k not in carry]
    for group, carries in ((carry, True), (guide, False)):
        for k in group:
            part = 1.0 if len(group) == 1 else 0.5
            tied = [pieces[i] for i in near if pieces[i].ahead == pieces[k].ahead]
            aside = part if len(tied) == 1 else _of_a_knock(pieces[k], tied, at_mm)
            yield k, _Borne(seat, load, part, carries=carries, sideways=aside)


def _of_a_knock(piece: ShellPiece, tied: Sequence[ShellPiece], at_mm: float) -> float:
    """Return what one of several pieces that meet further out bears of a knock along the wall."""
    share = piece.about_v_mm4 / sum(one.about_v_mm4 for one in tied)
    if len(tied) != 2:
        return share
    left, right = tied
    apart = right.centre_mm[0] - left.centre_mm[0]
    thick = max(one.high_mm[0] - one.low_mm[0] for one in tied)
    if apart < APART * thick:
        return share
    return share * foot_share(long_mm=piece.reach_mm - at_mm, apart_mm=apart)


def _off_mm(piece: ShellPiece, rest_mm: float) -> float:
    """Return how far above or below a piece a tool rests."""
    return max(piece.low_mm[1] - rest_mm, rest_mm - piece.high_mm[1], 0.0)


def _share(loaded: Loaded, piece: ShellPiece, found: Sequence[_Borne], at_mm: float) -> float:
    """Return the stress in one piece as a share of what its layers bear."""
    settings, out = loaded.settings, float(loaded.body.box_mm[1][1]) - at_mm
    own = loaded.own.mass_kg * GRAVITY_M_S2 * out / 2
    bent = own + sum(
        one.part * one.load.moment_nmm(one.load.weight_n, at_mm) for one in found if one.carries
    )
    about_x = piece.about_x_mm4 / piece.fibre_v_mm
    about_v = piece.about_v_mm4 / piece.fibre_x_mm
    hand = 0.0
    for one in found:
        pull, stress = settings.hand.pull_at(one.seat), [0.0]
        knocked = settings.knock_n * max(one.load.front_mm - at_mm, 0.0) / about_v
        drawn = pull / piece.area_mm2
        if one.carries:
            pressed = one.load.moment_nmm(settings.lift_n, at_mm) / about_x
            lever = abs(one.load.rest_mm - piece.centre_mm[1])
            stress = [pressed, drawn + pull * lever / about_x]
        hand = max(hand, one.part * max(*stress, drawn), one.sideways * knocked)
    return max(
        bent / about_x / loaded.years_mpa("y"),
        (bent / about_x + hand) / loaded.hand_mpa("y"),
    )
