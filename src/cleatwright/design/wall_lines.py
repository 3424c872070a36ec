"""How many lines make the walls of a part: fewer where its sections bear it."""

from __future__ import annotations

from dataclasses import replace

from cleatwright.base.source import Evidence, Source
from cleatwright.base.stages.run import Run
from cleatwright.checks.result import CheckResult
from cleatwright.design.bed_fit import usable_mm
from cleatwright.design.building import BuiltPart
from cleatwright.design.recipe import Recipe
from cleatwright.printing.pose import best_pose
from cleatwright.printing.walls.deciding import WALLS_OF_PART, LinesOf, ToWall, Walls
from cleatwright.workshop.document.sections import Printer

_ROUNDING_MM = 1e-9
SECTIONS = Source(
    "stress in cuts across arms and back, walls and skins alone", "", Evidence.DERIVED
)


TWIST = Source(
    "torque and bending in cuts across x; Saint-Venant's rectangles, the greatest distortion",
    "",
    Evidence.DERIVED,
)


def check_sections(walls: Walls) -> tuple[CheckResult, ...]:
    """Return the checks of the sections of a part with the lines that its walls have.

    None where its sections are not asked.

    Args:
        walls: Its walls.
    """
    shares = (
        ("most loaded section of its plastic", walls.share, SECTIONS),
        ("its plate is not twisted between tools, hangers and feet", walls.twist, TWIST),
    )
    return tuple(
        CheckResult(
            name,
            share,
            1.0,
            "of what it bears",
            source,
            _note(walls.count, share),
            by_design=walls.fewest,
        )
        for name, share, source in shares
        if share is not None
    )


def _note(count: int, share: float) -> str:
    note = f"with {count} lines a wall"
    if share > 1.0:
        note += "; let it hold fewer tools, choose another family, or give its printer more walls"
    return note


def sections_of(made: BuiltPart, printer: Printer, run: Run) -> tuple[CheckResult, ...]:
    """Return the checks of the sections of a part as it lies on the bed of its printer.

    None where its sections are not asked, or where it fits no bed.

    Args:
        made: The part.
        printer: Its printer.
        run: The run that keeps what was found before.
    """
    pose = best_pose(made.print_mesh, bed_mm=usable_mm(printer), run=run)
    if not pose.fits:
        return ()
    return check_sections(walls_of(made, printer, down=pose.down, run=run))


def walls_of(made: BuiltPart, printer: Printer, *, down: str, run: Run) -> Walls:
    """Return how many lines make the walls of a part.

    Hangers, bolts and carriers, and holders on anything but a rail or screws, have those of the
    printer: what they bear is known for solid sections alone. So have arms that spring and would
    bend otherwise with thinner walls.

    Args:
        made: The part.
        printer: Its printer.
        down: The side that lies on the bed, as "-y".
        run: The run that keeps what was found before.
    """
    recipe, part = made.recipe, made.part
    if part.hanging.on_rail_as is not None:
        # it may go to a rail, and plates hold it just where hangers would
        part = replace(part, hanging=part.hanging.on_rail_as)
    hanging = part.hanging
    if not isinstance(recipe, Recipe) or (hanging.hold is None and hanging.screws is None):
        return Walls(printer.walls, None)
    springs = [seat.spring.thickness_mm for seat in made.part.seats if seat.spring is not None]
    least = min(printer.least_walls, printer.walls)
    while least < printer.walls and any(
        one > 2 * least * printer.line_mm + _ROUNDING_MM for one in springs
    ):
        least += 1
    lines = LinesOf(least, printer.walls, printer.line_mm, printer.skin_mm)
    asked = ToWall(made.key, made.body, part, made.heavy, recipe.settings, down, lines)
    return run.need(WALLS_OF_PART, asked)
