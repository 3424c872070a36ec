"""From built holders to beds: how each part lies, and what is printed at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base import said
from cleatwright.base.errors import BedError
from cleatwright.base.factors import MM3_PER_M3
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.bed_fit import usable_mm
from cleatwright.design.building import BuiltPart
from cleatwright.design.recipe import Recipe
from cleatwright.design.wall_lines import walls_of
from cleatwright.pack.output_file import OutputFile, of_stage
from cleatwright.papers.kit.drawn import drawn_file
from cleatwright.printing.batches import Batch, Bed, BedPart, pack_batches
from cleatwright.printing.duration import pace_g_per_h
from cleatwright.printing.heavy import HEAVY_G, heavy_words, mass_shares
from cleatwright.printing.meshfile import PrintMesh
from cleatwright.printing.plastic import PLASTIC, Filling, ToFill
from cleatwright.printing.pose import best_pose
from cleatwright.printing.threemf import PlacedMesh, threemf_bytes
from cleatwright.printing.walls.deciding import Walls
from cleatwright.standards import cautions
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.sections import Printer


@dataclass(frozen=True)
class PrintedPart:
    """How one part is printed; its mass without voids, and with its walls and infill.

    ``heavy`` says where the plastic of a heavy holder goes.
    """

    key: str
    printer: str
    batch: str
    height_mm: float
    overhang_mm2: float
    solid_mass_kg: float
    mass_kg: float
    walls: Walls
    heavy: str = ""


@dataclass(frozen=True)
class PlannedBatch:
    """What is printed at once, and the file that holds it.

    Args:
        name: What it is called.
        printer: Its printer.
        marks: The mark of each part.
        walls: How many lines make the walls of each part.
        file: Its print file.
        items: Where each part lies.
    """

    name: str
    printer: str
    marks: tuple[str, ...]
    walls: tuple[int, ...]
    file: str
    items: tuple[PlacedMesh, ...]

    @property
    def walls_words(self) -> str:
        """Return how many lines make the walls, for each part where they differ."""
        counts = sorted(set(self.walls))
        if len(counts) == 1:
            return f"Walls of {counts[0]} lines."
        marks = (
            f"{count} lines: "
            + ", ".join(
                sorted({m for m, w in zip(self.marks, self.walls, strict=True) if w == count})
            )
            for count in counts
        )
        return f"Walls of {'; of '.join(marks)}."


@dataclass(frozen=True)
class Production:
    """All batches, and for each part by key how it is printed."""

    batches: tuple[PlannedBatch, ...]
    by_key: Mapping[str, PrintedPart]


@dataclass(frozen=True)
class ToPrint:
    """What shall be printed, and on what.

    Args:
        printer: The printer.
        density_kg_m3: That of the filament.
        parts: Every part by its key, with its name for people; each is printed once.
    """

    printer: Printer
    density_kg_m3: float
    parts: tuple[tuple[str, str, BuiltPart], ...]


def grams_per_hour(workshop: Workshop) -> float:
    """Return how much plastic the printer lays in an hour, as the owner says or estimated."""
    printer = workshop.printer()
    return printer.grams_per_hour or pace_g_per_h(
        line_mm=printer.line_mm,
        layer_mm=printer.layer_mm,
        density_kg_m3=workshop.filament().density_kg_m3,
    )


def produce(workshop: Workshop, parts: Mapping[str, tuple[str, BuiltPart]], run: Run) -> Production:
    """Return the batches on the default printer; each part is printed once.

    Args:
        workshop: The document.
        parts: Every part by its key, with its name for people.
        run: The run that keeps what was found before.

    Raises:
        BedError: A part does not fit the printer.
    """
    named = tuple((key, name, made) for key, (name, made) in parts.items())
    density = workshop.filament().density_kg_m3
    return run.need(PRODUCED, ToPrint(workshop.printer(), density, named))


def _produced(run: Run, wanted: ToPrint) -> Production:
    printer, room = wanted.printer, usable_mm(wanted.printer)
    density = wanted.density_kg_m3 / MM3_PER_M3
    laid: dict[str, PrintMesh] = {}
    lying: dict[str, tuple[float, float, float, float, Walls, str]] = {}
    for key, name, made in wanted.parts:
        mesh = made.print_mesh
        pose = best_pose(mesh, bed_mm=room, run=run)
        if pose.height_mm > room[2]:
            raise BedError(
                f"{name} stands {said.mm(pose.height_mm, '.0f')} high on the bed",
                where=f"printer {printer.name}",
                allowed=f"up to {said.most(room[2])}",
                todo="Let fewer tools share the holder, or use a larger printer",
            )
        laid[key] = mesh.moved(pose.rotation)
        solid = made.body.facts.volume_mm3 * density
        walls = walls_of(made, printer, down=pose.down, run=run)
        filling = Filling(walls.count, printer.line_mm, printer.skin_mm, printer.infill)
        filled = ToFill(made.body, mesh.shape_key, pose.rotation, filling)
        mass = run.need(PLASTIC, filled) * density
        heavy = _heavy(made, mass * 1e3)
        lying[key] = (pose.height_mm, pose.overhang_mm2, solid, mass, walls, heavy)
    beds = [BedPart(key, mesh.size_mm[0], mesh.size_mm[1]) for key, mesh in laid.items()]
    packed = pack_batches(beds, _bed(printer))
    marks = {key: (made.mark, lying[key][-2].count) for key, _, made in wanted.parts}
    batches = tuple(
        _batch(number, batch, printer, laid, marks) for number, batch in enumerate(packed, 1)
    )
    batch_of = {
        place.part.name: planned_batch.name
        for planned_batch, batch in zip(batches, packed, strict=True)
        for place in batch.places
    }
    by_key = {key: PrintedPart(key, printer.name, batch_of[key], *lying[key]) for key in laid}
    return Production(batches, MappingProxyType(by_key))


def _heavy(made: BuiltPart, grams: float) -> str:
    """Return where the plastic of a heavy holder goes; "" for what is light, or no holder."""
    if grams <= HEAVY_G or not isinstance(made.recipe, Recipe):
        return ""
    plate = made.recipe.settings.plate_mm
    return heavy_words(grams, mass_shares(made.body.corners_mm, plate_mm=plate))


PRODUCED = Stage("beds", _produced, content_key)
"""From what shall be printed to how each part lies, and in which batch."""


@dataclass(frozen=True)
class BatchPrint:
    """A batch, and what its print file says of workshop and filament."""

    batch: PlannedBatch
    workshop: str
    colour: str
    material: str


def batch_files(workshop: Workshop, production: Production) -> Iterator[OutputFile]:
    """Yield one 3MF file for each batch."""
    filament = workshop.filament()
    for batch in production.batches:
        shown = BatchPrint(batch, workshop.name, filament.colour, filament.material)
        yield of_stage(batch.file, f"Print file of {batch.name}", BATCH_FILE, shown)


def _batch_file(shown: BatchPrint) -> bytes:
    batch = shown.batch
    return threemf_bytes(
        batch.items,
        title=f"{shown.workshop}, {batch.name}",
        description=" ".join(
            (
                f"For {batch.printer}, {shown.material}.",
                batch.walls_words,
                *cautions.printing(),
            )
        ),
        colour=shown.colour,
        material=shown.material,
    )


BATCH_FILE = drawn_file("print file of a batch", _batch_file, kept=True)
"""From a batch and its filament to its print file."""


def _bed(printer: Printer) -> Bed:
    return Bed(
        name=printer.name,
        width_mm=printer.bed_mm[0],
        depth_mm=printer.bed_mm[1],
        rim_mm=printer.edge_mm,
        spacing_mm=printer.spacing_mm,
    )


def _batch(
    number: int,
    batch: Batch,
    printer: Printer,
    laid: Mapping[str, PrintMesh],
    marks: Mapping[str, tuple[str, int]],
) -> PlannedBatch:
    name = f"batch {number:02d}"
    return PlannedBatch(
        name=name,
        printer=printer.name,
        marks=tuple(marks[place.part.name][0] for place in batch.places),
        walls=tuple(marks[place.part.name][1] for place in batch.places),
        file=f"batches/{name.replace(' ', '-')}.3mf",
        items=tuple(
            PlacedMesh(
                laid[place.part.name],
                x_mm=place.x_mm,
                y_mm=place.y_mm,
                turn_deg=place.turn_deg,
            )
            for place in batch.places
        ),
    )
