"""From a checked workshop to tools with bodies and the settings that shape parts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from cleatwright.base.errors import CleatwrightError, InputError
from cleatwright.base.gathering import noted, refuse, under
from cleatwright.base.keys import content_key
from cleatwright.base.place import TableStep, at
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.describing import BODY
from cleatwright.design.recipe import MaterialRecipe, PrinterRecipe, SeatRecipe, outline_rows
from cleatwright.mounts.mount import MountSettings
from cleatwright.parts.tool import Fit, FittedTool, ToolBody
from cleatwright.shapes.outline import Outline
from cleatwright.standards.tool_properties import ToolProperty
from cleatwright.tools.nominal.sizes import nominal_sizes
from cleatwright.tools.registry import KINDS, kind
from cleatwright.workshop.document.entries import NO_ALONG, AlongWish, FitName, ToolItem, Use
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.reading import NO_FILES


@dataclass(frozen=True)
class Shares:
    """What is alike of tools that may share a holder: what differs would have it hang elsewhere.

    Args:
        group: Their group, or "".
        hot: Whether they go back hot.
        taken_by: The names of who takes them, sorted.
        wished_mm: Between which heights their owner wants them, each or None.
        along: Where along their wall their owner wants them.
    """

    group: str
    hot: bool = False
    taken_by: tuple[str, ...] = ()
    wished_mm: tuple[float | None, float | None] = (None, None)
    along: AlongWish = NO_ALONG


@dataclass(frozen=True)
class OwnedTool:
    """One single tool of the workshop with its body.

    Args:
        name: Its own name.
        body: What its kind makes of its measures.
        measures: The measures in mm, by the names a person writes, sorted.
        weighed_kg: The weighed mass, or None when it is estimated.
        use: How often it is used.
        group: Its group, or "".
        fit: The class of fit it asks for, or None.
        guessed: The nominal measures, and where they come from; "" when all are measured.
        outline: Its outline, of a kind that is outlined.
        keep_cool: Whether it must hang away from heat.
        properties: What of it can hurt or spoil something.
        position: Its place among all tools of the document, from 0.
        unnumbered: Its name without the number by which it is told from others of its entry.
        taken_by: The names of who takes it; none for every adult.
        wished_mm: No lower and no higher than this its owner wants it, each or None.
        along: Where along its wall its owner wants it.
        seats: Its parts of recipes that were asked for before, which follow from all the others.
        identity: What it is known by from one making to the next; "" before it is looked up.
        left: Of a tool that is gone the seat that it left in a part that is there; else None.
    """

    name: str
    body: ToolBody
    measures: tuple[tuple[str, float], ...]
    weighed_kg: float | None
    use: Use
    group: str
    fit: FitName | None
    guessed: str = ""
    outline: Outline | None = None
    keep_cool: bool = False
    properties: tuple[ToolProperty, ...] = ()
    position: int = 0
    unnumbered: str = ""
    identity: str = ""
    taken_by: tuple[str, ...] = ()
    wished_mm: tuple[float | None, float | None] = (None, None)
    along: AlongWish = NO_ALONG
    left: SeatRecipe | None = None
    seats: dict[Fit, SeatRecipe] = field(
        default_factory=dict[Fit, SeatRecipe], compare=False, repr=False
    )

    @property
    def shares(self) -> Shares:
        """Return with which others it may share a holder."""
        takers = tuple(sorted(self.taken_by))
        return Shares(self.group, self.hot, takers, self.wished_mm, self.along)

    @property
    def gone(self) -> bool:
        """Return True when only its seat is there."""
        return self.left is not None

    @property
    def hot(self) -> bool:
        """Return True when it goes back on the wall hot."""
        return "hot" in self.properties

    @property
    def spoilt_by_heat(self) -> bool:
        """Return True when heat beside it can hurt somebody: a spray can, a cell."""
        return self.keep_cool or not {"flammable", "cell"}.isdisjoint(self.properties)

    def seat(self, fit: Fit) -> SeatRecipe:
        """Return the part of a recipe that makes a seat for this tool; the one that it left."""
        if self.left is not None:
            return self.left
        if fit not in self.seats:
            self.seats[fit] = SeatRecipe(
                kind=self.body.kind,
                measures=dict(self.measures),
                mass_kg=self.weighed_kg,
                play_mm=fit.play_mm,
                correction_mm=fit.correction_mm,
                outline=outline_rows(self.outline),
            )
        return self.seats[fit]

    def fitted(self, fit: Fit) -> FittedTool:
        """Return the tool with the fit its seat shall have."""
        return FittedTool(self.body, fit)


Outlines = Callable[[str], Outline]
"""Gives the outline in a drawing, by its path from the folder."""


def outlines_in(folder: Path | None, *, new: Mapping[str, bytes] = NO_FILES) -> Outlines:
    """Return a reader of drawings that reads each of them once.

    Args:
        folder: The folder of the workshop; None when it has none.
        new: Drawings by their paths that shall be put into the folder.
    """
    read: dict[str, Outline | InputError] = {}

    def outline(name: str) -> Outline:
        from cleatwright.workshop.outlines.file import read_outline  # noqa: PLC0415 - loads on use

        if name not in read:
            try:
                read[name] = read_outline(name, folder=folder, new=new)
            except InputError as error:
                read[name] = error
        found = read[name]
        if isinstance(found, InputError):
            raise found.located(name).at(at("outline", spoken="named"))
        return found

    return outline


def owned(item: ToolItem, outlines: Outlines, *, position: int = 0, run: Run) -> OwnedTool:
    """Return one tool with its body.

    Args:
        item: The tool.
        outlines: Gives the outline in a drawing.
        position: Its place among all tools of the document.
        run: The run that keeps what was computed before.

    Raises:
        InputError: Its kind, its measures or its outline cannot be; its places are those of the
            [[tool]] table, where what is at fault is written.
    """
    try:
        kind(item.kind)
        outline = None if item.outline is None else outlines(item.outline)
        return run.need(OWNED, (item, outline, position))
    except InputError as error:
        raise error.moved(item.origins.placed) from error


_Given = tuple[ToolItem, Outline | None, int]


def _owned(run: Run, given: _Given) -> OwnedTool:
    item, outline, position = given
    taken = item.measures.as_dict()
    guesses, guessed = _guesses(item)
    # what was measured goes before what a table says
    measures = tuple(sorted((guesses | taken).items()))
    made = SeatRecipe(
        kind=item.kind,
        measures=dict(measures),
        mass_kg=item.mass_kg,
        play_mm=0.0,
        correction_mm=0.0,
        outline=outline_rows(outline),
    )
    kind, body = KINDS[item.kind], run.need(BODY, made)
    return OwnedTool(
        name=item.name,
        body=body,
        measures=measures,
        weighed_kg=item.mass_kg,
        use=item.use,
        group=item.group or "",
        fit=item.fit,
        guessed=guessed,
        outline=outline,
        keep_cool=kind.keep_cool if item.keep_cool is None else item.keep_cool,
        properties=kind.properties_of(body.mass_kg, item.properties),
        position=position,
        unnumbered=item.unnumbered,
        taken_by=item.taken_by,
        wished_mm=(item.heights.lowest_mm, item.heights.highest_mm),
        along=item.along,
    )


def _owned_key(given: _Given) -> str:
    """Return the key of all of a tool but where it is written."""
    item, outline, position = given
    if outline is None:
        return f"{item.key} {position}"
    return content_key((item.key, outline_rows(outline), position))


OWNED = Stage("tool of the owner", _owned, _owned_key)
"""From a tool of a document, with its place among all, to the tool with its body."""


def _guesses(item: ToolItem) -> tuple[dict[str, float], str]:
    """Return the measures that the nominal size of a tool stands for, and what to say of them."""
    if not item.nominal_size:
        return {}, ""
    known = nominal_sizes(item.kind)
    with under("nominal_sizes"):
        nominal = known.get(item.nominal_size)
    measured = item.measures.as_dict()
    names = [name for name, _ in nominal.measures if name not in measured]
    told = f"{', '.join(names)}: {nominal.source}" if names else ""
    return dict(nominal.measures), told


def all_owned(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    new: Mapping[str, bytes] = NO_FILES,
    run: Run | None = None,
) -> tuple[OwnedTool, ...]:
    """Return every tool of the workshop.

    Args:
        workshop: The workshop.
        folder: The folder in which outlines lie; None when there is none.
        new: Drawings by their paths that shall be put into the folder.
        run: The run that keeps what was computed before; one of its own when None.

    Raises:
        InputError: One or more tools cannot be; the message lists every one of them.
    """
    found, faults = owned_what_can_be(workshop, folder=folder, new=new, run=run)
    refuse(faults, "tools cannot be read")
    return found


def owned_what_can_be(
    workshop: Workshop,
    *,
    folder: Path | None = None,
    new: Mapping[str, bytes] = NO_FILES,
    run: Run | None = None,
) -> tuple[tuple[OwnedTool, ...], tuple[CleatwrightError, ...]]:
    """Return the tools of ``all_owned`` that can be, and what is wrong with the others.

    Raises:
        InputError: The workshop has no tools.
    """
    found: list[OwnedTool] = []
    faults: list[CleatwrightError] = []
    outlines = outlines_in(folder, new=new)
    run = run or Run()
    for number, tool in enumerate(workshop.tools):
        for item in workshop.items_in(tool):
            # what is wrong with one of several equal tools is told once for all of them
            name = tool.name if tool.count > 1 else item.name
            before = len(faults)
            with noted(faults), under("tool", TableStep(number, name)):
                found.append(owned(item, outlines, position=len(found), run=run))
            if len(faults) > before and tool.count > 1:
                break
    if not workshop.tools:
        raise InputError(
            "the workshop has no tools",
            place=at("tool", spoken="named"),
            todo='Add a [[tool]] to workshop.toml, or use "cleatwright import"',
        )
    return tuple(found), tuple(faults)


def fit_of(workshop: Workshop, wanted: FitName | None) -> Fit:
    """Return the play of a class of fit with the default printer's correction."""
    correction = workshop.printer().hole_correction_mm
    return Fit(workshop.fit.play_mm(wanted), correction)


def printer_recipe(workshop: Workshop) -> PrinterRecipe:
    """Return how the default printer is set, as recipes keep it."""
    printer = workshop.printer()
    return PrinterRecipe(
        nozzle_mm=printer.nozzle_mm, line_mm=printer.line_mm, layer_mm=printer.layer_mm
    )


def material_recipe(workshop: Workshop) -> MaterialRecipe:
    """Return the material of the default filament, as recipes keep it."""
    filament = workshop.filament()
    return MaterialRecipe(word=filament.material, density_kg_m3=filament.density_kg_m3)


def mount_settings(workshop: Workshop, panel: str) -> MountSettings:
    """Return what mounts must know, from the workshop and the panel on which they hang."""
    defaults, rail = workshop.defaults, workshop.rail
    return MountSettings(
        plate_mm=defaults.plate_mm,
        rail_thickness_mm=rail.thickness_mm,
        rail_height_mm=rail.height_mm,
        bevel_deg=rail.bevel_deg,
        margin=defaults.stability_margin,
        drag=defaults.drag,
        pull_n=defaults.pull_n,
        lift_n=defaults.lift_n,
        knock_n=defaults.knock_n,
        lining_mm=workshop.surface(panel).between_mm,
    )
