"""What the recipes of all holders that hang alike have in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.bed_fit import fits_bed
from cleatwright.design.equipment import (
    OwnedTool,
    fit_of,
    material_recipe,
    mount_settings,
    printer_recipe,
)
from cleatwright.design.hang import Hang, Pairs
from cleatwright.design.recipe import Recipe, SeatRecipe
from cleatwright.parts.holder import HolderPart
from cleatwright.parts.mirror import to_reader, turned
from cleatwright.parts.tool import Fit
from cleatwright.wall.panel_studs import studs_of
from cleatwright.wall.studs import INSIDE_MM, Span, lefts_over
from cleatwright.workshop.document.entries import FitName
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import Panel


@dataclass(frozen=True, eq=False)
class SharedRecipe:
    """All of a recipe but its family, the parameters of it and the seats.

    Args:
        workshop: The workshop, of which only what is below counts, and the plays of fits.
        hang: How the holders hang.
        fit: The class of fit that they ask for, or None.
    """

    workshop: Workshop
    hang: Hang
    fit: FitName | None

    def filled(self, family: str, params: Pairs, seats: tuple[SeatRecipe, ...]) -> Recipe:
        """Return the recipe of one holder."""
        workshop, hang = self.workshop, self.hang
        settings = mount_settings(workshop, hang.panel)
        return Recipe(
            family=family,
            params=dict(params),
            seats=seats,
            mount=hang.holder_mount,
            mount_settings=settings.as_dict(screwed=hang.screwed and not hang.on_carrier),
            mount_params={} if hang.on_carrier else dict(hang.mount_params),
            joint=hang.joint,
            joint_params=dict(hang.joint_params),
            printer=printer_recipe(workshop),
            material=material_recipe(workshop),
            hand_room_mm=workshop.defaults.hand_room_mm,
        )

    @cached_property
    def key(self) -> str:
        """The content key of all this and of the bed; plays of fits count with each seat."""
        printer = self.workshop.printer()
        return content_key((self.filled("", (), ()).key, printer.bed_mm, printer.edge_mm))

    @cached_property
    def _fits(self) -> dict[FitName | None, Fit]:
        return {}

    def fit_of(self, tool: OwnedTool) -> Fit:
        """Return the fit that the seat of a tool shall have."""
        wanted = tool.fit or self.fit
        if wanted not in self._fits:
            self._fits[wanted] = fit_of(self.workshop, wanted)
        return self._fits[wanted]

    def seat(self, tool: OwnedTool) -> SeatRecipe:
        """Return the part of a recipe that makes a seat for a tool."""
        return tool.seat(self.fit_of(tool))

    def fits_bed(self, part: HolderPart) -> bool:
        """Return True when a part fits on the bed."""
        return fits_bed(part.bounds_mm, self.workshop.printer())

    @cached_property
    def zones_mm(self) -> tuple[Span, ...]:
        """Where on its panel wood screws may go: none where no stud is named, or none is asked."""
        studs = studs_of(self._panel) if self.hang.screwed and not self.hang.on_carrier else ()
        return tuple(zone for stud in studs for zone in stud.zones())

    @property
    def panel_mm(self) -> float:
        """Return how wide its panel is."""
        return self._panel.width_mm

    @property
    def _panel(self) -> Panel:
        name = self.hang.panel
        return next(one for one in self.workshop.surfaces() if one.name == name)

    def meets_studs(self, part: HolderPart) -> bool:
        """Return True when each column of screws of a part lies well in a stud somewhere.

        That is on its panel; True as well where nobody has said where studs are.
        """
        screws = part.hanging.screws
        if screws is None or not self.zones_mm:
            return True
        (left, _, _), (right, _, _) = part.bounds_mm
        columns = tuple(to_reader(x, origin_mm=right) for x in screws.columns_mm)
        room = self.panel_mm - (right - left)
        lefts = lefts_over(columns, self.zones_mm, (0.0, room))
        return any(high - low >= 2 * INSIDE_MM for low, high in lefts)

    def of(self, family: str, params: Pairs, tools: Sequence[OwnedTool], *, run: Run) -> Recipe:
        """Return how the holder of a family for tools is made.

        Args:
            family: The name of the family.
            params: What the owner asks of it, sorted.
            tools: The tools, from left to right for the reader.
            run: The run that keeps what was computed before.
        """
        return run.need(RECIPE, (self, family, params, turned([self.seat(one) for one in tools])))


_Given = tuple[SharedRecipe, str, Pairs, tuple[SeatRecipe, ...]]


def _recipe(_: Run, given: _Given) -> Recipe:
    shared, family, params, seats = given
    return shared.filled(family, params, seats)


def _key(given: _Given) -> str:
    shared, family, params, seats = given
    return content_key((shared.key, family, params, tuple([seat.key for seat in seats])))


RECIPE = Stage("recipe", _recipe, _key)
"""From the tools of a holder to its recipe, which keeps its own content key."""
