"""What the recipes of all carriers that hang alike have in common."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from cleatwright.base.gathering import under
from cleatwright.base.keys import content_key
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.equipment import material_recipe, mount_settings, printer_recipe
from cleatwright.design.hang import Hang, Pairs
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import CarrierRecipe, Recipe
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.workshop.document.entries import MadeOf
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import carrier_path


@dataclass(frozen=True, eq=False)
class SharedCarrier:
    """All of the recipe of a carrier but its holders.

    Args:
        workshop: The workshop.
        hang: How the carrier hangs; those that nobody named hang alike.
    """

    workshop: Workshop
    hang: Hang

    @cached_property
    def made_of(self) -> MadeOf:
        """Of what it is made."""
        return self.workshop.carrier(self.hang.carrier).made_of if self.hang.carrier else "plastic"

    @cached_property
    def params(self) -> Pairs:
        """Its parameters that are not the defaults, sorted.

        Raises:
            MeasureError: They cannot be.
        """
        name = self.hang.carrier
        if not name:
            return ()
        wished = self.workshop.carrier(name).params.as_dict()
        if self.made_of == "wood":
            # an end pin is for plastic, and wood leaves it out unless it is asked for
            wished = {"pin_count": 0.0} | wished
        with under(*carrier_path(self.workshop, name), "params"):
            return checked_params("carrier", name, CarrierParams, wished)

    @cached_property
    def key(self) -> str:
        """The content key of all this."""
        return self.filled(()).key

    def filled(self, holders: tuple[Recipe, ...]) -> CarrierRecipe:
        """Return the recipe of one carrier."""
        workshop, hang = self.workshop, self.hang
        settings = mount_settings(workshop, hang.panel)
        return CarrierRecipe(
            params=dict(self.params),
            holders=holders,
            mount=hang.mount,
            mount_settings=settings.as_dict(screwed=hang.screwed),
            mount_params=dict(hang.mount_params),
            joint=hang.joint,
            joint_params=dict(hang.joint_params),
            printer=printer_recipe(workshop),
            material=material_recipe(workshop),
            made_of=self.made_of,
        )

    def of(self, holders: tuple[Recipe, ...], *, run: Run) -> CarrierRecipe:
        """Return how the carrier for holders is made.

        Args:
            holders: The recipes of its holders, by growing x.
            run: The run that keeps what was computed before.

        Raises:
            MeasureError: Its parameters cannot be.
        """
        return run.need(CARRIER_RECIPE, (self, holders))


_Given = tuple[SharedCarrier, tuple[Recipe, ...]]


def _recipe(_: Run, given: _Given) -> CarrierRecipe:
    shared, holders = given
    return shared.filled(holders)


def _key(given: _Given) -> str:
    shared, holders = given
    return content_key((shared.key, tuple([one.key for one in holders])))


CARRIER_RECIPE = Stage("recipe of a carrier", _recipe, _key)
"""From the recipes of holders to that of their carrier, which keeps its own content key."""
