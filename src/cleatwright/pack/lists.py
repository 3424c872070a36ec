"""Lists for people: which tool goes where, and how each bed is printed."""

from __future__ import annotations

from cleatwright.base.lengths import cell, column, fine_length, mass_number, mass_unit, show_area
from cleatwright.design.building import BuiltPart
from cleatwright.pack.job import Job
from cleatwright.papers.kit.tables import ListTable
from cleatwright.parts.holder import Seat
from cleatwright.parts.mirror import to_reader


def holders_table(job: Job) -> ListTable:
    """Return the list of holders with a row for each seat."""
    unit = job.workshop.units
    heading = (
        *("holder", "name", "mark", "family", "carrier", "rail"),
        column("left edge x", unit),
        column("rail edge or plate top z", unit),
        *("panel", "seat", "tool", f"mass {mass_unit(unit)}", f"sizes made {unit}"),
    )
    rows: list[tuple[str, ...]] = []
    for planned, made in zip(job.planned, job.built, strict=True):
        spot = job.spots[planned.key]
        ranks = _ranks(made)
        for tool, seat, rank in zip(planned.tools, made.part.seats, ranks, strict=True):
            rows.append(
                (
                    str(planned.number),
                    planned.name,
                    made.mark,
                    made.part.family,
                    spot.carrier,
                    spot.rail.name if spot.rail else f"none: {planned.hang.mount}",
                    cell(spot.place.x_mm, unit),
                    cell(spot.place.z_mm, unit),
                    planned.hang.panel,
                    rank,
                    f"empty, for {tool.name}" if tool.gone else tool.name,
                    "" if tool.gone else mass_number(tool.body.mass_kg, unit),
                    "; ".join(
                        f"{one.label} {fine_length(one.made_mm, unit)}" for one in seat.sizes
                    ),
                )
            )
    return ListTable(heading, tuple(rows))


def printing_table(job: Job) -> ListTable:
    """Return the list of what lies on which bed."""
    unit = job.workshop.units
    heading = (
        *("batch", "file", "printer", "holder", "mark"),
        column("height", unit),
        f"overhang {unit}2",
        *("support", "walls", "plastic g", "mass at 100 % infill g", "where over 60 g"),
    )
    rows: list[tuple[str, ...]] = []
    numbers = _numbers(job)
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
                    cell(part.height_mm, unit),
                    show_area(part.overhang_mm2, unit),
                    "yes" if needed else "no",
                    str(part.walls.count),
                    f"{part.mass_kg * 1000:.1f}",
                    f"{part.solid_mass_kg * 1000:.0f}",
                    part.heavy,
                )
            )
    return ListTable(heading, tuple(rows))


def printed_before(job: Job) -> ListTable:
    """Return the list of what hangs already and was printed before."""
    numbers = _numbers(job)
    rows = tuple(
        (*numbers[key], name)
        for key, (name, made) in job.parts.items()
        if key in job.in_use and made.printed
    )
    return ListTable(("holder", "mark", "name"), rows)


def _numbers(job: Job) -> dict[str, tuple[str, str]]:
    """Return the number in all drawings, and the mark, of every part by its key."""
    holders = zip(job.planned, job.built, strict=True)
    numbers = {planned.key: (str(planned.number), made.mark) for planned, made in holders}
    for unit in job.units:
        if unit.carrier is not None:
            of = " ".join(numbers[holder.key][0] for holder in unit.planned.holders)
            numbers[unit.planned.key] = (f"carrier of {of}", unit.carrier.mark)
        for key, made in unit.fittings_by_key():
            numbers[key] = (f"{made.part.family} of {unit.planned.numbers}", made.mark)
    return numbers


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
        return -seat.rest_z_mm if stacked else to_reader(seat.pose.shift_mm[0])

    order = sorted(seats, key=along)
    word = "from the top" if stacked else "from the left"
    return [f"{order.index(seat) + 1} {word}" for seat in seats]
