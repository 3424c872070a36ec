"""The seats of the papers that are kept free, as the ledger keeps them and as a plan sees them."""

from __future__ import annotations

from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.seats.usual import within_reach
from cleatwright.wall.model import Item, Place, ReservedSeat
from cleatwright.wall.problem import WallProblem
from cleatwright.workshop.ledger.made_wall import MadeSeat


def made_seat(seat: ReservedSeat, job: PanelJob) -> MadeSeat:
    """Return what the ledger keeps of a seat of a panel."""
    item, place = seat.item, seat.place
    return MadeSeat(
        key=item.key,
        panel=job.panel.name,
        x_mm=place.x_mm,
        z_mm=place.z_mm,
        width_mm=item.width_mm,
        room_mm=(item.side_left_mm, item.side_right_mm, item.up_mm, item.down_mm),
        bears_mm=item.rail_depth_mm,
        mass_kg=item.mass_kg,
    )


def seat_again(made: MadeSeat, problem: WallProblem) -> ReservedSeat:
    """Return a seat that the ledger keeps, on its panel of today."""
    left, right, above, below = made.room_mm
    item = Item(
        key=made.key,
        width_mm=made.width_mm,
        up_mm=above,
        down_mm=below,
        mass_kg=made.mass_kg,
        use="seldom",
        side_left_mm=left,
        side_right_mm=right,
        rail_depth_mm=made.bears_mm,
        bounds=within_reach(problem),
        reserved=True,
    )
    return ReservedSeat(item, Place(made.key, made.x_mm, made.z_mm))
