"""A French cleat of wood: a hook strip and a spacer strip behind a board, glued and screwed.

wall      rail face                profile seen from the left
 │ ┌───────┬─────┐ ← top of the board
 │ │ hook ─┼──►  │   ROOT: screws from behind, and glue
 │ └─╮     │  b  │
 │   ╲╲    │  o  │
 │     ╲╲  │  a  │
 │   rail╲╲│  r  │ ← bevel contact
 │         │  d  │
 │  rail   │     │
 ├─────────┤     │
 │ spacer ─┼──►  │ ← below the rail, clear of it while the hook is lifted off
 ├─────────┴─────┤
"""

from __future__ import annotations

from dataclasses import replace

from cleatwright.base import said
from cleatwright.base.errors import DesignError
from cleatwright.base.source import Evidence, Source
from cleatwright.features.layout import screw_columns
from cleatwright.mounts.carrier import SCREW_MM, CarrierParams, lock_screws, locking
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat
from cleatwright.mounts.timber import hook_depth
from cleatwright.mounts.timber.front import SIDE_MM, WoodenFront, clear_columns
from cleatwright.parts.holder import Hanging, Hardware, HolderPart, LockScrews
from cleatwright.parts.joinery import Bore, Joinery, Screw, Strip
from cleatwright.standards.fasteners.iso_273 import clearance_hole_mm
from cleatwright.standards.fasteners.wood_screws import SCREW_LENGTHS_MM, countersink_mm
from cleatwright.standards.table import Listed

ROOT_MM = 30.0
SPACER_MM = 30.0
FLAT_MM = 2.0
SPAN_MM = 110.0
# wood in front of the tip of a screw, and the least that it goes into the board
COVER_MM = 3.0
LEAST_DEPTH_MM = 8.0
LOCK_RISE_MM = 8.0
SPACER_SCREW_RISE_MM = 20.0
SCREW_EDGE_MM = 8.0
STRIP_SCREWS = Source(
    "as long as the wood allows, at least 8 mm into the board; the glue carries",
    "common practice, no source",
    Evidence.PRACTICE,
)
VALUES = (
    Listed("Mounts", "screws of strips: least depth in the board mm", LEAST_DEPTH_MM, STRIP_SCREWS),
)


def attach(
    family: str, wooden: WoodenFront, settings: MountSettings, chosen: CarrierParams
) -> HolderPart:
    """Return the carrier: its board, a hook strip at its top and a spacer strip at its foot.

    Raises:
        DesignError: The board is too thin for screws, or no depth would hold.
    """
    front, thick = wooden.front, settings.rail_thickness_mm
    bolts = [bore for bore in wooden.board.bores if bore.counterbore_mm]
    slant = hook_depth.slant_mm(settings)
    # a socket wrench must reach the nuts below the whole hook
    hook = ROOT_MM + slant
    top = max([front.plate_high_mm, *(b.z_mm + b.widest_mm / 2 + 1 + hook for b in bolts)])
    contact = top - ROOT_MM
    below_rail = contact - settings.rail_height_mm - slant - hook_depth.RAIL_PLAY_MM
    spacer_top = min([below_rail, *(b.z_mm - b.widest_mm / 2 - 1 for b in bolts)])
    count = round(chosen.screw_count)
    lock_screw, lock = None, None
    if count:
        columns = _lock_columns(count, wooden.board.width_mm)
        lock_screw, along_n = locking(side_mm=2 * thick, behind_mm=0.0, settings=settings)
        lock = LockScrews(columns, along_n, front.plate_low_mm)
    front = replace(front, lock=lock)
    needed = max(hook_depth.needed_depth_mm(front, contact, settings), settings.least_depth_mm)
    strip = countersink_mm(SCREW_MM) + SIDE_MM if count else 0.0
    low = min(front.plate_low_mm - strip, contact - needed - SPACER_MM / 2, spacer_top - SPACER_MM)
    if lock is not None:
        # through the spacer strip, whose height follows from the depth that it needs
        lock = replace(lock, z_mm=low + LOCK_RISE_MM)
    strips = (
        Strip("hook strip", top, hook, thick, settings.bevel_deg, FLAT_MM),
        Strip("spacer strip", low + SPACER_MM, SPACER_MM, thick),
    )
    locks = () if lock is None else _locks(lock, behind_mm=thick)
    board = replace(
        wooden.board,
        low_mm=low,
        high_mm=top,
        strips=strips,
        bores=(*wooden.board.bores, *locks),
    )
    screws = _screws(board, heights_mm=(top - ROOT_MM / 2, low + SPACER_SCREW_RISE_MM))
    return HolderPart(
        family=family,
        leading=front.leading,
        solid=board.solid,
        seats=front.seats,
        genus=len(board.bores),
        bounds_mm=(
            (0.0, -thick, min(low, strips[0].low_mm)),
            (board.width_mm, thick, top),
        ),
        min_wall_mm=min(front.min_wall_mm, FLAT_MM),
        mark_places=(),
        hanging=Hanging(
            mount=french_cleat.MOUNT.name,
            on_rail=True,
            contact_z_mm=contact,
            depth_below_mm=contact - low - SPACER_MM / 2,
            bevel_deg=settings.bevel_deg,
            stand_off_mm=thick,
            lock=lock,
        ),
        hardware=(
            *front.hardware,
            _strip_screws(screws, thick),
            *([lock_screws(lock_screw, count, "through a wooden carrier")] if lock_screw else []),
        ),
        joinery=replace(board, screws=screws),
    )


def strip_screw_mm(thick_mm: float) -> float:
    """Return the longest screw on sale that goes through a strip and not through the board.

    Raises:
        DesignError: It would go less than 8 mm into the board.

    >>> strip_screw_mm(18.0), strip_screw_mm(25.0)
    (30.0, 45.0)
    """
    fitting = [one for one in SCREW_LENGTHS_MM if one <= 2 * thick_mm - COVER_MM]
    if not fitting or fitting[-1] - thick_mm < LEAST_DEPTH_MM:
        raise DesignError(
            f"no screw through a strip {said.mm(thick_mm)} thick goes {said.mm(LEAST_DEPTH_MM)} "
            "into a board of the same thickness without coming through",
            allowed=f"rail timber from {said.mm(14)} thick",
            todo="Choose a thicker board for the rails, a printed carrier, or wall-screws",
        )
    return fitting[-1]


def _screws(board: Joinery, *, heights_mm: tuple[float, ...]) -> tuple[Screw, ...]:
    length = strip_screw_mm(board.thickness_mm)
    columns = screw_columns(board.width_mm, strip_mm=2 * SIDE_MM, span_mm=SPAN_MM)
    clear = clear_columns(columns, board.grooves, width_mm=board.width_mm, edge_mm=SCREW_EDGE_MM)
    return tuple(Screw(x, z, SCREW_MM, length) for z in heights_mm for x in clear)


def _lock_columns(count: int, width_mm: float) -> tuple[float, ...]:
    """Return where the wished screws through board and spacer into the wall stand."""
    edge = countersink_mm(SCREW_MM)
    if count == 1:
        return (width_mm / 2,)
    step = (width_mm - 2 * edge) / (count - 1)
    if step < 2 * edge:
        raise DesignError(
            f"{count} screws have no room in a carrier {said.mm(width_mm, '.0f')} wide",
            allowed=f"up to {1 + int((width_mm - 2 * edge) / (2 * edge))}",
            todo="Ask for a lower screw_count, or for a wider carrier",
        )
    return tuple(edge + k * step for k in range(count))


def _locks(lock: LockScrews, *, behind_mm: float) -> tuple[Bore, ...]:
    """Return the holes of the screws that lock a carrier."""
    return tuple(
        Bore(
            x_mm=x,
            z_mm=lock.z_mm,
            diameter_mm=clearance_hole_mm(f"M{SCREW_MM:g}", "medium"),
            what=f"screw {said.mm(SCREW_MM)} into the wall",
            countersink_mm=countersink_mm(SCREW_MM),
            behind_mm=behind_mm,
        )
        for x in lock.columns_mm
    )


def _strip_screws(screws: tuple[Screw, ...], thick_mm: float) -> Hardware:
    length = screws[0].length_mm
    return Hardware(
        name=f"countersunk wood screw {said.metric(SCREW_MM, length)}",
        count=len(screws),
        note=f"from behind through the strips of wooden carriers, {said.mm(length - thick_mm)} "
        "into the board, with wood glue",
        source=STRIP_SCREWS,
    )
