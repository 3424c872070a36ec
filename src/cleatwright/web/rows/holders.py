"""Holders for the browser: the list, and one of them with all that is known about it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, JsonValue

from cleatwright.base.lengths import LengthUnit, Wording, length_words, measured_length, sides_words
from cleatwright.base.stages.run import Run
from cleatwright.checks.result import CheckResult
from cleatwright.design.building import PART, BuiltPart
from cleatwright.design.equipment import OwnedTool
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.wall_lines import sections_of
from cleatwright.design.weighed import figures_of, weighed_families
from cleatwright.holders.registry import FAMILIES
from cleatwright.mounts.joints.registry import JOINTS, WITHOUT_CARRIER
from cleatwright.mounts.registry import MOUNTS
from cleatwright.parts.holder import Seat
from cleatwright.printing.heavy import HEAVY_G, heavy_words, mass_shares
from cleatwright.project.opened.planned import PlannedDocument
from cleatwright.siting.giving_places import chosen_in
from cleatwright.web.rows.params import ParamRow, param_rows
from cleatwright.web.rows.raw import RawTable, tables_of
from cleatwright.web.rows.row import FaultRow, Row, Step, fault_row
from cleatwright.web.rows.sentence import Sentence
from cleatwright.workshop.document.model import Workshop

State = Literal["holds", "tight", "fails"]
Triple = tuple[float, float, float]


class HolderLineRow(Row):
    """One holder in the list."""

    number: int
    name: str
    mark: str
    family: str
    state: State
    tools: tuple[str, ...]
    positions: tuple[int, ...] = Field(description="numbers of its [[tool]] tables, from 0")
    panel: str


class HoldersRow(Row):
    """All holders of a revision, and what stands in the way of others."""

    revision: int
    holders: tuple[HolderLineRow, ...]
    faults: tuple[FaultRow, ...]
    remarks: tuple[Sentence, ...]


class CheckLineRow(Row):
    """One check; ``share`` is what is asked of what is there, 1 at the bound."""

    name: str
    demand: float
    capacity: float
    unit: str
    share: float | None
    state: State
    note: str
    source: str
    words: str


class SumRow(Row):
    """A size in a part, and what it is made up of."""

    label: str
    measured: str
    play: str
    correction: str
    made: str


class SeatLineRow(Row):
    """One tool in a holder, or its empty seat, with its way out in the frame of the holder."""

    tool: str
    empty: bool = Field(description="whether the tool is gone, and only its seat is there")
    mass_kg: float
    way_out_mm: tuple[Triple, ...]
    way_words: tuple[str, ...]
    sums: tuple[SumRow, ...]
    take_out: str


class FamilyLineRow(Row):
    """A family that could take the tools of a holder, or why it cannot."""

    name: str
    title: str
    state: Literal["used", "can", "passed", "cannot"]
    grams: float | None = Field(description="plastic of the whole holder, estimated")
    support: bool | None = Field(description="whether it needs support to print")
    width: str = Field(description="of the wall, with its tools")
    reach: str = Field(description="out of the wall")
    cost_g: float | None = Field(description="what it costs for each tool, in grams of plastic")
    words: Sentence
    near: bool = Field(
        description="whether every tool offers the grip, though it cannot be so held"
    )


class ChoiceRow(Row):
    """A mount or a joint that may be chosen."""

    name: str
    title: str


class ShownHolderRow(Row):
    """One holder with all that is known about it."""

    revision: int
    number: int
    name: str
    mark: str
    family: str
    family_title: str
    why: Sentence
    hangs: Sentence = Field(description="whether it hangs, or what hangs in its place; or nothing")
    caution: Sentence
    heavy: Sentence = Field(description="where the plastic of a heavy holder goes, or nothing")
    size: str
    load_kg: float
    own_kg: float
    seats: tuple[SeatLineRow, ...]
    checks: tuple[CheckLineRow, ...]
    params: tuple[ParamRow, ...]
    families: tuple[FamilyLineRow, ...]
    mount: str
    joint: str
    carrier: str
    mounts: tuple[ChoiceRow, ...]
    joints: tuple[ChoiceRow, ...]
    panel: str
    entry: tuple[Step, ...] | None = Field(description="the table that says how it is made")
    entry_raw: dict[str, JsonValue] | None
    given: tuple[str, ...] = Field(description="what that table says that the program would choose")
    shared_with: int = Field(description="how many other holders the same table makes")
    new_entry: dict[str, JsonValue] = Field(description="the table to add where there is none")


def state_of(checks: tuple[CheckResult, ...]) -> State:
    """Return how a part stands: its tightest check decides."""
    if not all(one.holds for one in checks):
        return "fails"
    return "tight" if any(one.near for one in checks) else "holds"


def holders_row(planned: PlannedDocument, run: Run, revision: int) -> HoldersRow:
    """Return the list of holders, each built and checked."""
    entries = _entries(planned.document.workshop)
    faults = [fault_row(one) for one in planned.faults]
    lines: list[HolderLineRow] = []
    run.step("building holders", 0, len(planned.holders))
    for done, one in enumerate(planned.holders, 1):
        built = run.ask(PART, one.recipe)
        value = getattr(built, "value", None)
        if isinstance(value, BuiltPart):
            checks = _checks(planned.document.workshop, value, run)
            lines.append(_line(one, value, checks, entries))
        run.step("building holders", done, len(planned.holders))
    return HoldersRow(
        revision=revision, holders=tuple(lines), faults=tuple(faults), remarks=planned.remarks
    )


def _checks(workshop: Workshop | None, built: BuiltPart, run: Run) -> tuple[CheckResult, ...]:
    """Return all checks of a holder, that of its sections on the bed of its printer included."""
    if workshop is None:
        return built.checks
    return (*built.checks, *sections_of(built, workshop.printer(), run))


def _line(
    one: PlannedHolder,
    built: BuiltPart,
    checks: tuple[CheckResult, ...],
    entries: dict[str, int],
) -> HolderLineRow:
    return HolderLineRow(
        number=one.number,
        name=one.name,
        mark=built.mark,
        family=one.recipe.family,
        state=state_of(checks),
        tools=tuple(tool.name for tool in one.present),
        positions=tuple(
            sorted({entries[tool.name] for tool in one.present if tool.name in entries})
        ),
        panel=one.hang.panel,
    )


def _entries(workshop: Workshop | None) -> dict[str, int]:
    if workshop is None:
        return {}
    return {
        item.name: number for number, tool in enumerate(workshop.tools) for item in tool.items()
    }


def holder_row(
    planned: PlannedDocument, one: PlannedHolder, run: Run, *, revision: int
) -> ShownHolderRow:
    """Return one holder with all that is known about it.

    Raises:
        CleatwrightError: It cannot be built.
    """
    workshop = planned.document.workshop
    assert workshop is not None  # noqa: S101 - what is planned was read
    unit, words = workshop.units, planned.document.words
    built = run.need(PART, one.recipe)
    low, high = built.part.bounds_mm
    family = FAMILIES[one.recipe.family]
    entry, raw, shared = entry_of_holder(planned, one)
    return ShownHolderRow(
        revision=revision,
        number=one.number,
        name=one.name,
        mark=built.mark,
        family=family.name,
        family_title=family.title,
        why=words(one.why.words),
        hangs=_hangs(planned, one, built.mark),
        caution=words(family.caution),
        heavy=words(_heavy(workshop, one, built, run)),
        size=sides_words((b - a for a, b in zip(low, high, strict=True)), unit),
        load_kg=one.load_kg,
        own_kg=built.heavy.mass_kg,
        seats=tuple(
            _seat(seat, tool, unit) for seat, tool in zip(built.part.seats, one.tools, strict=True)
        ),
        checks=tuple(
            check_row(check, words.unit)
            for check in sorted(_checks(workshop, built, run), key=_how_tight)
        ),
        params=param_rows(family.params, dict(one.recipe.params), unit),
        families=_families(workshop, one, words, run),
        mount=one.hang.mount,
        joint=one.hang.joint,
        carrier=one.hang.carrier,
        mounts=tuple(ChoiceRow(name=m.name, title=m.title) for m in MOUNTS.values()),
        joints=(
            *(ChoiceRow(name=name, title=title) for name, title in WITHOUT_CARRIER.items()),
            *(ChoiceRow(name=j.name, title=j.title) for j in JOINTS.values()),
        ),
        panel=one.hang.panel,
        entry=entry,
        entry_raw=raw,
        given=() if raw is None else chosen_in(raw),
        shared_with=shared,
        new_entry={"tools": list(one.listed)},
    )


def _hangs(planned: PlannedDocument, one: PlannedHolder, mark: str) -> str:
    """Return whether a holder hangs by the ledger, and whether as it is now."""
    if planned.revision is None or one.hang.carrier:
        return ""
    held = {tool.name for tool in one.tools}
    for entry in planned.revision.hung.holders:
        if held & set(entry.tools):
            if entry.mark == mark:
                return f"It hangs so since {entry.since}: after a change it is printed anew."
            return f"Part {entry.mark} hangs in its place: this one is still to be printed."
    return ""


def _heavy(workshop: Workshop, one: PlannedHolder, built: BuiltPart, run: Run) -> str:
    grams = figures_of(workshop, one, run).grams
    if grams <= HEAVY_G:
        return ""
    shares = mass_shares(built.body.corners_mm, plate_mm=one.recipe.settings.plate_mm)
    return f"About {grams:.0f} g: {heavy_words(grams, shares)}."


def _how_tight(check: CheckResult) -> tuple[bool, float]:
    """Return by what checks are sorted: the tightest first, what holds by design last."""
    return check.by_design and check.holds, -check.utilisation


def check_row(check: CheckResult, unit: LengthUnit) -> CheckLineRow:
    """Return a check as a row."""
    share, words = check.utilisation, Wording(unit)
    return CheckLineRow(
        name=check.name,
        demand=check.demand,
        capacity=check.capacity,
        unit=check.unit,
        share=share if share < 1e9 else None,
        state=state_of((check,)),
        note=words(check.note),
        source=str(check.source),
        words=words(_amounts(check)),
    )


def _amounts(check: CheckResult) -> str:
    demand, capacity = check.in_unit(check.demand, ".3g"), check.with_unit(check.capacity, ".3g")
    return f"{demand} of {capacity}".rstrip()


def _seat(seat: Seat, tool: OwnedTool, unit: LengthUnit) -> SeatLineRow:
    return SeatLineRow(
        tool=tool.name,
        empty=tool.gone,
        mass_kg=seat.tool.mass_kg,
        way_out_mm=seat.way_out,
        way_words=tuple(_move_words(move, unit) for move in seat.way_out),
        sums=tuple(
            SumRow(
                label=size.label,
                measured=measured_length(size.measured_mm, unit),
                play=measured_length(size.play_mm, unit),
                correction=measured_length(size.correction_mm, unit),
                made=measured_length(size.made_mm, unit),
            )
            for size in seat.sizes
        ),
        take_out="arms bend aside" if seat.spring else "magnets let go" if seat.magnet else "",
    )


def _move_words(move: Triple, unit: LengthUnit) -> str:
    x, y, z = move
    sides = (
        (z, "up", "down"),
        (y, "towards you", "to the wall"),
        (x, "to the left", "to the right"),
    )
    said = [
        f"{length_words(abs(mm), unit)} {unit} {more if mm > 0 else less}"
        for mm, more, less in sides
        if abs(mm) >= 0.05
    ]
    return ", ".join(said)


def _families(
    workshop: Workshop, one: PlannedHolder, said: Wording, run: Run
) -> tuple[FamilyLineRow, ...]:
    unit = workshop.units
    return tuple(
        FamilyLineRow(
            name=row.name,
            title=FAMILIES[row.name].title,
            state=row.state,
            grams=row.figures.grams if row.figures else None,
            support=row.figures.support if row.figures else None,
            width=length_words(row.figures.width_mm, unit, decimals=0) if row.figures else "",
            reach=length_words(row.figures.reach_mm, unit, decimals=0) if row.figures else "",
            cost_g=row.cost_g,
            words=said(row.words),
            near=row.near,
        )
        for row in weighed_families(workshop, one, run)
    )


def entry_of_holder(
    planned: PlannedDocument, one: PlannedHolder
) -> tuple[tuple[Step, ...] | None, RawTable | None, int]:
    """Return the [[holder]] that says how a holder is made, its table, and who shares it."""
    workshop = planned.document.workshop
    rows = tables_of(planned.document.raw.get("holder"))
    if workshop is None:
        return None, None, 0
    names = {tool.name for tool in one.tools}
    for holder in workshop.holders:
        items = {item.name for item in workshop.items_of(holder)}
        if not names & items:
            continue
        others = [
            other
            for other in planned.holders
            if other.number != one.number and {tool.name for tool in other.tools} & items
        ]
        for number, row in enumerate(rows):
            if _same(row, list(holder.tools), holder.group):
                return ("holder", number), row, len(others)
    return None, None, 0


def _same(row: RawTable, tools: list[str], group: str | None) -> bool:
    return row.get("group") == group if group is not None else row.get("tools") == tools
