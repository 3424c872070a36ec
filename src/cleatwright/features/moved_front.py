"""A front moved along its plate, with everything that belongs to it."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.parts.holder import Front, Seat
from cleatwright.shapes.rigid import Rigid, shift


def widened(front: Front, width_mm: float, *, share: float = 0.5) -> Front:
    """Return a front on a plate that is at least as wide as asked.

    Args:
        front: The front.
        width_mm: The least width.
        share: How much of what is added lies before x = 0 of the front; a half on either side.
    """
    more = width_mm - front.width_mm
    if more <= 0.0:
        return front
    dx = share * more
    aside = shift(dx)
    place, lock = front.mark_place, front.lock
    return replace(
        front,
        solid=front.solid.placed(aside),
        width_mm=width_mm,
        seats=tuple(_moved(seat, aside) for seat in front.seats),
        mark_place=replace(place, pose=place.pose.then(aside)),
        cuts=tuple(cut.placed(aside) for cut in front.cuts),
        lock=None
        if lock is None
        else replace(lock, columns_mm=tuple(x + dx for x in lock.columns_mm)),
    )


def set_forward(front: Front, by_mm: float) -> Front:
    """Return a front on a plate that is thicker by so much.

    What is cut out of it goes through the whole of that plate.
    """
    if by_mm <= 0.0:
        return front
    out = shift(0.0, by_mm)
    place = front.mark_place
    return replace(
        front,
        solid=front.solid.placed(out),
        reach_mm=front.reach_mm + by_mm,
        seats=tuple(_moved(seat, out) for seat in front.seats),
        mark_place=replace(place, pose=place.pose.then(out)),
        cuts=(*front.cuts, *(cut.placed(out) for cut in front.cuts)),
    )


def _moved(seat: Seat, aside: Rigid) -> Seat:
    spring = seat.spring
    if spring is not None:
        spring = replace(spring, moving=tuple(arm.placed(aside) for arm in spring.moving))
    return replace(seat, pose=seat.pose.then(aside), spring=spring)
