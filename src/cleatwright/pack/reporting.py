"""The report of a job, for programs and for whoever wants every number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cleatwright import __version__
from cleatwright.checks.cleat_stability import least_pull_n
from cleatwright.checks.rail_hold import least_hold_n
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit
from cleatwright.design.equipment import OwnedTool
from cleatwright.holders.registry import FAMILIES
from cleatwright.pack.carrier_papers import drawing_name
from cleatwright.pack.job import Job
from cleatwright.pack.partfiles import part_file_names
from cleatwright.pack.report_rows import (
    check_rows,
    family_rows,
    panel_row,
    rail_rows,
    screwed_rows,
    tool_names,
    why_row,
    with_tool_names,
)
from cleatwright.papers.report_model import (
    BatchRow,
    CarrierRow,
    FittingRow,
    HolderRow,
    MoveRow,
    PlaceRow,
    PrintRow,
    RailMoveRow,
    Report,
    ScrewedRow,
    SeatRow,
    SizeRow,
    SpareRow,
    StandRow,
    WhyRow,
)
from cleatwright.parts.holder import Seat
from cleatwright.siting.people import People, people_of
from cleatwright.siting.screws_behind import plate_screws
from cleatwright.siting.walls import Spot
from cleatwright.standards import cautions
from cleatwright.standards.tool_properties import cautions_of
from cleatwright.statics.take_out import grip_z_mm, take_out_n
from cleatwright.tools.registry import KINDS


def report_of(job: Job, *, files: tuple[str, ...]) -> Report:
    """Return the report; ``files`` are the names of everything that is written with it."""
    told = _ReportWords(
        why={one.key: why_row(one) for found in job.found for one in found.explained},
        ways={one.tool: one.sentences for found in job.found for one in found.ways},
        files=files,
        fittings={u.planned.key: tuple(one.mark for one in u.fittings) for u in job.units},
        people=people_of(job.workshop),
        screws={
            one.unit.planned.key: screwed_rows(one)
            for panel in job.panels
            for one in plate_screws(panel)
        },
    )
    holders = tuple(_holder(job, number, told) for number in range(len(job.planned)))
    report = Report(
        program=f"cleatwright {__version__}",
        workshop=job.workshop.name,
        holders=holders,
        carriers=tuple(
            _carrier(job, unit, unit.carrier, told)
            for unit in job.units
            if unit.carrier is not None
        ),
        fittings=_fittings(job, told),
        panels=tuple(
            panel_row(panel, found) for panel, found in zip(job.panels, job.found, strict=True)
        ),
        rails=tuple(row for panel in job.panels for row in rail_rows(panel)),
        moves=tuple(
            MoveRow(name=move.name, what=move.what, sentence=move.sentence)
            for move in job.change_plan.moves
        ),
        rail_moves=tuple(
            RailMoveRow(name=one.name, panel=one.panel, what=one.what, sentence=one.sentence)
            for one in job.change_plan.rails
        ),
        batches=tuple(
            BatchRow(name=b.name, printer=b.printer, marks=b.marks, file=b.file)
            for b in job.production.batches
        ),
        spares=tuple(SpareRow(mark=mark, count=count) for mark, count in job.there.over),
        warnings=job.warning_notes,
        cautions=tuple(
            dict.fromkeys(
                (
                    *job.cautions,
                    *tool_cautions(job),
                    *cautions.printing(pla=job.uses_pla),
                    *(text for _, table in job.woodwork.lists for text in table.cautions),
                    *(cautions.routing() if job.new_wood else ()),
                )
            )
        ),
        notes=tuple(
            dict.fromkeys(
                (
                    *(text for _, table in job.woodwork.lists for text in table.notes),
                    *job.woodwork.notes,
                    *job.pitch_notes,
                    *job.empty_notes,
                )
            )
        ),
        files=files,
    )
    return report.spoken(job.words)


@dataclass(frozen=True)
class _ReportWords:
    """What is told of the units, by their keys, and of the tools, by their names, and to whom."""

    why: Mapping[str, WhyRow]
    ways: Mapping[str, tuple[str, ...]]
    files: tuple[str, ...]
    fittings: Mapping[str, tuple[str, ...]]
    people: People
    screws: Mapping[str, tuple[ScrewedRow, ...]]


def tool_cautions(job: Job) -> tuple[str, ...]:
    """Return the cautions of the tools that hang on the wall, of how and where, each once."""
    tools = [tool for planned in job.planned for tool in planned.present]
    kinds = dict.fromkeys(tool.body.kind for tool in tools)
    of_properties = cautions_of(one for tool in tools for one in tool.properties)
    of_kinds = (*(KINDS[kind].caution for kind in kinds), *of_properties)
    of_families = (FAMILIES[planned.recipe.family].caution for planned in job.planned)
    of_places = (caution for found in job.found for caution in found.cautions)
    told = (*of_kinds, *of_families, *of_places)
    return tuple(dict.fromkeys(caution for caution in told if caution))


def _holder(job: Job, index: int, told: _ReportWords) -> HolderRow:
    planned, made = job.planned[index], job.built[index]
    spot = job.spots[planned.key]
    return HolderRow(
        number=planned.number,
        name=planned.name,
        mark=made.mark,
        family=made.part.family,
        why=planned.why.words,
        families=family_rows(planned.why),
        mount=planned.hang.mount,
        joint=planned.hang.joint,
        carrier=spot.carrier or None,
        params=planned.recipe.params,
        size_mm=made.body.facts.size_mm,
        load_kg=planned.load_kg,
        seats=tuple(
            _seat(tool, seat, told)
            for tool, seat in zip(planned.tools, made.part.seats, strict=True)
        ),
        checks=check_rows(
            with_tool_names(
                (*made.checks, *job.section_checks(planned.key)),
                [tool.name for tool in planned.tools],
            )
        ),
        stand=_stand(made),
        place=_place(spot, planned.hang.panel),
        wall_screws=told.screws.get(planned.key, ()),
        fittings=told.fittings.get(planned.key, ()),
        why_there=told.why.get(planned.key),
        print=_print(job, planned.key),
        state=job.there.state(planned.key),
        files=_own_files(made, told.files),
    )


def _carrier(job: Job, unit: Unit, made: BuiltPart, told: _ReportWords) -> CarrierRow:
    recipe = unit.planned.carrier
    return CarrierRow(
        name=unit.planned.name,
        mark=made.mark,
        holders=tuple(one.mark for one in unit.holders),
        mount=made.part.hanging.mount,
        joint=recipe.joint if recipe else "",
        made_of=recipe.made_of if recipe else "plastic",
        params=recipe.params if recipe else {},
        size_mm=made.body.facts.size_mm,
        load_kg=sum(one.load_kg for one in unit.planned.holders),
        checks=check_rows(with_tool_names(made.checks, tool_names(unit))),
        stand=_stand(made),
        place=_place(job.spots[unit.planned.key], unit.planned.panel),
        wall_screws=told.screws.get(unit.planned.key, ()),
        fittings=told.fittings.get(unit.planned.key, ()),
        why_there=told.why[unit.planned.key],
        print=_print(job, unit.planned.key),
        state=job.there.state(unit.planned.key),
        files=_own_files(made, told.files),
    )


def _stand(made: BuiltPart) -> StandRow:
    hanging = made.part.hanging
    pull, height = _least_pull(made)
    return StandRow(
        contact_z_mm=hanging.contact_z_mm,
        depth_below_mm=hanging.depth_below_mm,
        bevel_deg=hanging.bevel_deg,
        own_mass_kg=made.own.mass_kg,
        own_mass_most_kg=made.heavy.mass_kg,
        own_distance_mm=made.own.distance_mm,
        least_pull_n=pull,
        least_pull_z_mm=height,
    )


def _least_pull(made: BuiltPart) -> tuple[float | None, float | None]:
    """Return the least pull that takes a part off its rail, and its height in its frame."""
    if made.part.hanging.rail_screws is not None:
        return None, None
    if made.part.hanging.hold is None:
        return least_pull_n(made.part, made.own), None
    found = least_hold_n(made.part, made.own, made.hung_as.settings.hand)
    return (None, None) if found is None else (found[0], found[1].pull_z_mm)


def _fittings(job: Job, told: _ReportWords) -> tuple[FittingRow, ...]:
    """Return a row for each mark of the fittings."""
    by_mark: dict[str, list[tuple[BuiltPart, str]]] = {}
    for unit in job.units:
        for made in unit.fittings:
            by_mark.setdefault(made.mark, []).append((made, unit.outer.mark))
    return tuple(
        FittingRow(
            name=of_mark[0][0].part.family,
            mark=mark,
            leading=of_mark[0][0].part.leading,
            count=len(of_mark),
            on=tuple(outer for _, outer in of_mark),
            checks=check_rows(of_mark[0][0].checks),
            files=_own_files(of_mark[0][0], told.files),
        )
        for mark, of_mark in by_mark.items()
    )


def _place(spot: Spot, panel: str) -> PlaceRow:
    rail = spot.rail.name if spot.rail else None
    return PlaceRow(panel=panel, x_mm=spot.place.x_mm, z_mm=spot.place.z_mm, rail=rail)


def _print(job: Job, key: str) -> PrintRow | None:
    """Return how a part is printed; None for one that is there already or is of wood."""
    printed = job.production.by_key.get(key)
    if printed is None:
        return None
    return PrintRow(
        printer=printed.printer,
        batch=printed.batch,
        height_mm=printed.height_mm,
        overhang_mm2=printed.overhang_mm2,
        solid_mass_kg=printed.solid_mass_kg,
        mass_kg=printed.mass_kg,
        heavy=printed.heavy,
        walls=printed.walls.count,
        section_share=printed.walls.share,
        twist_share=printed.walls.twist,
    )


def _own_files(made: BuiltPart, files: tuple[str, ...]) -> tuple[str, ...]:
    own = part_file_names(made) if made.printed else (drawing_name(made),)
    return tuple(name for name in own if name in files)


def _seat(tool: OwnedTool, seat: Seat, told: _ReportWords) -> SeatRow:
    people = told.people
    return SeatRow(
        tool=tool.name,
        empty=tool.gone,
        kind=tool.body.kind,
        properties=tool.properties,
        mass_kg=tool.body.mass_kg,
        mass_is="estimated" if tool.weighed_kg is None else "weighed",
        guessed=tool.guessed,
        com_mm=seat.com_mm,
        rest_z_mm=seat.rest_z_mm,
        grip_z_mm=grip_z_mm(seat),
        taken_by=tuple(one.name for one in people.takers(tool.taken_by)) if people.several else (),
        take_out_n=take_out_n(seat),
        sizes=tuple(
            SizeRow(
                label=size.label,
                measured_mm=size.measured_mm,
                play_mm=size.play_mm,
                correction_mm=size.correction_mm,
                made_mm=size.made_mm,
            )
            for size in seat.sizes
        ),
        way_out_mm=seat.way_out,
        in_the_way=told.ways[tool.name],
    )
