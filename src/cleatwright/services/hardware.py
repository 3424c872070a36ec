"""What has to be bought for the wall: one list over all holders and rails."""

from __future__ import annotations

from collections.abc import Sequence

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.holder import Hardware
from cleatwright.reports import cautions
from cleatwright.reports.tables import csv_bytes
from cleatwright.services.building import BuiltPart
from cleatwright.standards.wood_screws import countersink_mm
from cleatwright.wall.rails import StudCrossing

RAIL_SCREW_MM = 5.0
SCREWS_A_STUD = 2
PENETRATION_DIAMETERS = 6
RAIL_SCREW_RULE = Source(
    "NDS 2018", "12.1.5.6: at least six diameters in the stud, the tip included", Evidence.SECONDARY
)
RAIL_SCREW_SIZE = Source("screws of a rail in studs", "", Evidence.PRACTICE)
OUTSIDE_STUDS = Source("fixings outside studs", "", Evidence.PRACTICE)


def rail_hardware(
    crossings: Sequence[StudCrossing], *, rail_thickness_mm: float
) -> tuple[Hardware, ...]:
    """Return the screws of the rails, two in each stud they cross, and what lacks studs."""
    count = sum(len(crossing.studs_mm) for crossing in crossings) * SCREWS_A_STUD
    depth = PENETRATION_DIAMETERS * RAIL_SCREW_MM
    found: list[Hardware] = []
    if count:
        found.append(
            Hardware(
                name=f"countersunk wood screw {RAIL_SCREW_MM:g} mm",
                count=count,
                note=f"rails, two in each stud; rail {rail_thickness_mm:g} mm + lining of the wall "
                f"+ at least {depth:g} mm in the stud; head {countersink_mm(RAIL_SCREW_MM):g} mm",
                source=RAIL_SCREW_RULE,
            )
        )
    lacking = sorted(c.rail for c in crossings if len(c.studs_mm) < 2)
    if lacking:
        found.append(
            Hardware(
                name="fixing for a rail that meets fewer than two studs",
                count=len(lacking),
                note=f"{', '.join(lacking)}: choose it for your wall with qualified advice, or put "
                "a board across the studs behind it",
                source=OUTSIDE_STUDS,
            )
        )
    return tuple(found)


def hardware_file(built: Sequence[BuiltPart], rails: Sequence[Hardware]) -> dict[str, bytes]:
    """Return the hardware list as a CSV file by name; equal things are added up."""
    counts: dict[tuple[str, str, str], int] = {}
    for item in (*rails, *(item for made in built for item in made.part.hardware)):
        key = (item.name, item.note, str(item.source))
        counts[key] = counts.get(key, 0) + item.count
    rows = [(name, str(counts[name, note, src]), note, src) for name, note, src in sorted(counts)]
    table = csv_bytes(
        ("item", "count", "for", "rule"),
        rows or [("nothing to buy", "0", "", "")],
        cautions=cautions.holders(),
    )
    return {"lists/hardware.csv": table}
