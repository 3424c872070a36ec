"""Checking a workshop without making anything."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path

from cleatwright.base.errors import CleatwrightError, WallError
from cleatwright.base.gathering import in_file, noted, refuse, several
from cleatwright.base.lengths import LengthUnit, Wording, errors_in
from cleatwright.base.stages.run import Run
from cleatwright.design.carrying import units_what_can_be
from cleatwright.design.catalogue import left_out
from cleatwright.design.describing import DESCRIBED
from cleatwright.design.held import plan_that_holds
from cleatwright.design.marking import engraved
from cleatwright.design.planned import PlannedHolder
from cleatwright.design.planning import FAULTS
from cleatwright.design.shape_key import shape_mark
from cleatwright.design.weighed import figures_of
from cleatwright.project.foreseeing import foreseen
from cleatwright.project.revision import Revision, read_revision, revision_of
from cleatwright.siting.children import takes_what_hurts
from cleatwright.siting.no_height import SeatedTool, without_height
from cleatwright.siting.people import people_of
from cleatwright.siting.rails.fastening import fastening_of
from cleatwright.siting.safe_heights import SafeHeights, faulty_heights
from cleatwright.siting.seats.told import seats_foreseen
from cleatwright.wall.moving.moves import surface
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.problems import CANNOT_BE_USED
from cleatwright.workshop.document.readable import Readable
from cleatwright.workshop.document.store import document_path, load_what_can_be
from cleatwright.workshop.document.surfaces import MAIN, Panel


@dataclass(frozen=True)
class HolderSummary:
    """One holder in a few words; grams, support and the width with its tools are estimates."""

    name: str
    family: str
    mount: str
    tools: int
    size_mm: tuple[float, float, float]
    grams: float
    support: bool
    width_mm: float
    reach_mm: float
    why: str


@dataclass(frozen=True)
class WorkshopCheck:
    """What a workshop amounts to, and remarks that are no errors."""

    name: str
    unit: LengthUnit
    tools: int
    holders: tuple[HolderSummary, ...]
    remarks: tuple[str, ...]
    left_out: tuple[str, ...]

    def as_dict(self) -> dict[str, object]:
        """Return the check for programs."""
        return asdict(self)


def check_workshop(place: Path, *, run: Run | None = None) -> WorkshopCheck:
    """Read a workshop, hold every tool, fit every holder on a bed and its mark on the holder.

    Given places must be on their walls, and the boards long enough for what is cut from them.

    Args:
        place: The folder of the workshop, or its document.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        CleatwrightError: What stands in the way; things that do not depend on each other
            come as one error, which lists them.
    """
    run = run or Run()
    unread = load_what_can_be(place)
    if unread is not None:
        raise _with_the_rest(unread, document_path(place), run)
    revision = read_revision(place, run)
    with in_file(str(revision.path)), errors_in(Wording(revision.workshop.units)):
        return _checked(revision, run)


def _with_the_rest(unread: Readable, path: Path, run: Run) -> CleatwrightError:
    """Return what cannot be read of a document, and what else is wrong with the rest of it."""
    faults, words, what = list(unread.faults), unread.words, CANNOT_BE_USED
    if unread.workshop is not None:
        rest: list[CleatwrightError] = []
        with noted(rest):
            of_rest = revision_of(unread.workshop, path)
            _checked(of_rest, run, takers_unknown=unread.takers_unknown)
        faults += (unread.placed(fault) for fault in rest)
        if rest:
            what = f"{FAULTS}; the rest was checked without what cannot be read"
    found = faults[0] if len(faults) == 1 else several(faults, what)
    return words.error(found.in_file(str(path)))


def _checked(
    revision: Revision, run: Run, *, takers_unknown: frozenset[str] = frozenset()
) -> WorkshopCheck:
    workshop, folder = revision.workshop, revision.folder
    planned = plan_that_holds(workshop, folder=folder, earlier=revision.earlier(), run=run)
    holders, faults = planned.holders, list[CleatwrightError](planned.faults)
    whole = [one for one in holders if one.hang.carrier not in planned.without]
    units, of_carriers = units_what_can_be(workshop, whole, run=run)
    faults += of_carriers
    seen = foreseen(workshop, units, hung=revision.hung, run=run)
    faults += seen.faults
    faults += _heights(revision, holders, run, takers_unknown=takers_unknown)
    summaries: list[HolderSummary] = []
    words = Wording(workshop.units)
    for holder in holders:
        with noted(faults):
            summaries.append(_summary(workshop, holder, words, run))
    refuse(faults, FAULTS)
    return WorkshopCheck(
        name=workshop.name,
        unit=workshop.units,
        tools=len(workshop.items()),
        holders=tuple(summaries),
        remarks=words.all(
            (
                *seen.remarks,
                *_remarks(workshop, holders, railed=_railed(holders, run)),
                *_seats(revision, holders, run),
            )
        ),
        left_out=left_out(),
    )


def _heights(
    revision: Revision,
    holders: Sequence[PlannedHolder],
    run: Run,
    *,
    takers_unknown: frozenset[str],
) -> list[CleatwrightError]:
    """Return the faults of wished heights, and of tools for which people leave no height.

    Nothing is said of tools, or tools of groups, of which nobody knows who takes them.
    """
    workshop, found = revision.workshop, list[CleatwrightError]()
    unsure = {
        item.name
        for item in workshop.items()
        if takers_unknown.intersection((item.tool, item.group))
    }
    of_tools = (tool for one in holders for tool in one.present if tool.name not in unsure)
    faulty = faulty_heights(workshop, of_tools)
    found += faulty.values()
    kept = unsure | {name for entry in revision.hung.holders for name in entry.tools}
    with suppress(WallError):
        # who does not reach a panel is told of it already
        heights = {one.name: SafeHeights(workshop, one) for one in workshop.surfaces()}
        seated = (
            SeatedTool(tool, seat, one.hang.panel)
            for one in holders
            if one.hang.fixed is None
            for tool, seat in zip(one.tools, run.need(DESCRIBED, one.recipe).seats, strict=True)
            if not tool.gone and tool.name not in faulty and tool.name not in kept
        )
        found += without_height(workshop, heights, seated)
    return found


def _summary(workshop: Workshop, holder: PlannedHolder, words: Wording, run: Run) -> HolderSummary:
    part = run.need(DESCRIBED, holder.recipe)
    figures = figures_of(workshop, holder, run)
    engraved(part, shape_mark(holder.recipe, part))
    low, high = part.bounds_mm
    return HolderSummary(
        name=holder.name,
        family=holder.recipe.family,
        mount=holder.hang.mount,
        tools=len(holder.present),
        grams=figures.grams,
        support=figures.support,
        width_mm=figures.width_mm,
        reach_mm=figures.reach_mm,
        why=words(holder.why.words),
        size_mm=(high[0] - low[0], high[1] - low[1], high[2] - low[2]),
    )


def _of_the_walls(workshop: Workshop) -> Iterator[str]:
    """Yield of which walls it is not known what holds a rail."""
    for panel in workshop.surfaces():
        where = surface(panel.name)
        if panel.name == MAIN and not panel.places_known:
            yield (
                "No studs are given, and rails need them: write the x of each, or made_of if the "
                "wall is of something else."
            )
        if not panel.takes_anchors:
            continue
        if panel.made_of == "unknown":
            yield f"Nobody has said what {where} is made of: find out, and write made_of."
        elif panel.anchor is None or panel.anchor.lacking:
            rest = "" if panel.anchor is None else f": {', '.join(panel.anchor.lacking)}"
            yield (
                f"The anchors for {where} are not known, so nothing on it is said to hold: copy "
                f"what their own papers say into [{_table(panel)}.anchor]{rest}."
            )
        elif unknown := fastening_of(workshop.rail, panel).carries.unknown:
            yield f"The anchors for {where} do not do, so nothing on it is said to hold: {unknown}."


def _table(panel: Panel) -> str:
    return MAIN if panel.name == MAIN else "panel"


def _railed(holders: Iterable[PlannedHolder], run: Run) -> frozenset[str]:
    """Return the walls on which something hangs on rails."""
    return frozenset(
        one.hang.panel for one in holders if run.need(DESCRIBED, one.recipe).hanging.on_rail
    )


def _seats(revision: Revision, holders: Sequence[PlannedHolder], run: Run) -> Iterator[str]:
    """Yield what is known of the seats that are to be kept free on each wall with rails."""
    made = revision.wall
    railed = _railed(holders, run)
    for panel in revision.workshop.surfaces():
        if panel.reserved_seats and panel.name in railed:
            kept = sum(seat.panel == panel.name for seat in made.seats)
            yield seats_foreseen(panel, kept if panel.name in dict(made.bases) else None)


def _remarks(
    workshop: Workshop, holders: tuple[PlannedHolder, ...], *, railed: frozenset[str]
) -> tuple[str, ...]:
    remarks: list[str] = []
    guessed = sum(1 for holder in holders for tool in holder.present if tool.weighed_kg is None)
    if guessed:
        remarks.append(f"{guessed} masses are estimated from the measures; weigh what is heavy.")
    unmeasured = sum(1 for holder in holders for tool in holder.present if tool.guessed)
    if unmeasured:
        remarks.append(
            f"{unmeasured} tools have measures that are nominal, not measured; measure one of each "
            "set, since standards fix limits and not what is sold."
        )
    tools = [tool for holder in holders for tool in holder.present]
    remarks += takes_what_hurts(people_of(workshop), tools)
    remarks += (holder.emptiness for holder in holders if holder.emptiness)
    remarks += _of_the_walls(workshop)
    if railed and not workshop.rail.stocks:
        remarks.append("No boards are given under [[rail.stock]]; rails are listed, not cut.")
    if workshop.printer().hole_correction_mm == 0.0:
        remarks.append(
            f"The printer {workshop.printer().name} has no hole correction; print one holder, "
            "try the tool, and set hole_correction."
        )
    return tuple(remarks)
