"""Lists for people: which tool goes where, and how each bed is printed."""

from __future__ import annotations

from cleatwright.parts.holder import Seat
from cleatwright.reports import cautions
from cleatwright.reports.tables import csv_bytes
from cleatwright.services.building import BuiltPart
from cleatwright.services.job import Job
from cleatwright.services.reporting import tool_cautions

HOLDERS = (
    "holder",
    "name",
    "mark",
    "family",
    "carrier",
    "rail",
    "left edge x mm",
    "rail edge or plate top z mm",
    "panel",
    "seat",
    "tool",
    "mass kg",
    "sizes made mm",
)
PRINTING = (
    "batch",
    "file",
    "printer",
    "holder",
    "mark",
    "height mm",
    "overhang mm2",
    "supports",
    "mass without voids g",
)


def holders_file(job: Job) -> dict[str, bytes]:
    """Return the list of holders with a row for each seat, as a CSV file by name."""
    rows: list[tuple[str, ...]] = []
    for number, (planned, made) in enumerate(zip(job.planned, job.built, strict=True), 1):
        spot = job.spots[planned.key]
        ranks = _ranks(made)
        for tool, seat, rank in zip(planned.tools, made.part.seats, ranks, strict=True):
            rows.append(
                (
                    str(number),
                    planned.name,
                    made.mark,
                    made.part.family,
                    spot.carrier,
                    spot.rail.name if spot.rail else f"none: {planned.hang.mount}",
                    f"{spot.place.x_mm:.1f}",
                    f"{spot.place.z_mm:.1f}",
                    planned.hang.panel,
                    rank,
                    tool.name,
                    f"{tool.body.mass_kg:.3f}",
                    "; ".join(f"{size.label} {size.made_mm:.2f}" for size in seat.sizes),
                )
            )
    told = (*cautions.holders(), *tool_cautions(job))
    return {"lists/holders.csv": csv_bytes(HOLDERS, rows, cautions=told)}


def printing_file(job: Job) -> dict[str, bytes]:
    """Return what lies on which bed and whether it needs supports, as a CSV file by name."""
    rows: list[tuple[str, ...]] = []
    holders = zip(job.planned, job.built, strict=True)
    numbers = {planned.key: (str(n), made.mark) for n, (planned, made) in enumerate(holders, 1)}
    for unit in job.units:
        if unit.carrier is not None:
            told = " ".join(numbers[holder.key][0] for holder in unit.planned.holders)
            numbers[unit.planned.key] = (f"carrier of {told}", unit.carrier.mark)
    for batch in job.production.batches:
        for part in job.production.by_key.values():
            if part.batch != batch.name:
                continue
            needed = part.overhang_mm2 > 0.005
            rows.append(
                (
                    batch.name,
                    batch.file,
                    part.printer,
                    *numbers[part.key],
                    f"{part.height_mm:.1f}",
                    f"{part.overhang_mm2:.0f}",
                    "look at the overhang; short bridges may do without" if needed else "none",
                    f"{part.solid_mass_kg * 1000:.0f}",
                )
            )
    return {"lists/printing.csv": csv_bytes(PRINTING, rows, cautions=cautions.printing())}


def _ranks(made: BuiltPart) -> list[str]:
    """Return for each seat its place as a person counts: from the left, or from the top."""
    seats = made.part.seats
    if len(seats) == 1:
        return ["only one"]
    spots = [seat.pose.shift_mm for seat in seats]
    wide = max(s[0] for s in spots) - min(s[0] for s in spots)
    high = max(seat.rest_z_mm for seat in seats) - min(seat.rest_z_mm for seat in seats)
    stacked = high > wide

    def along(seat: Seat) -> float:
        # x runs to the left for a person who faces the wall
        return -seat.rest_z_mm if stacked else -seat.pose.shift_mm[0]

    order = sorted(seats, key=along)
    word = "from the top" if stacked else "from the left"
    return [f"{order.index(seat) + 1} {word}" for seat in seats]
