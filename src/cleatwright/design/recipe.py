"""A recipe: everything from which one holder is made again, to the byte."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Discriminator, TypeAdapter

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key
from cleatwright.holders.family import BuildContext
from cleatwright.mounts.joints.registry import GROOVES, ONE_PIECE
from cleatwright.mounts.mount import MountSettings
from cleatwright.shapes.outline import Outline
from cleatwright.standards.materials.polymers import density_kg_m3
from cleatwright.workshop.document.entries import MadeOf

RECIPE_VERSION = 3
CARRIED = "carrier"
RAIL_MOUNT = "french-cleat"


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    @cached_property
    def key(self) -> str:
        """Return the content key."""
        return content_key(self.to_json())

    @property
    def content_key(self) -> str:
        """Return the same, for the keys of what it is part of."""
        return self.key

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """Return a copy, changed as ``update`` says; its key is its own."""
        copied = super().model_copy(update=update, deep=deep)
        for kept in ("key", "as_on_rail"):
            vars(copied).pop(kept, None)
        return copied

    def to_json(self) -> str:
        """Return the recipe as JSON with a fixed order of keys."""
        return self.model_dump_json()


class SeatRecipe(_Frozen):
    """One tool of a holder: kind, measures, weighed mass, fit and outline. Names do not count.

    ``outline`` are x, z and bulge of each corner, as in shapes.outline.Outline.
    """

    kind: str
    measures: dict[str, float]
    mass_kg: float | None
    play_mm: float
    correction_mm: float
    outline: tuple[tuple[float, float, float], ...] = ()

    @property
    def shape(self) -> Outline | None:
        """Return the outline of the tool, or None when its kind has none."""
        if not self.outline:
            return None
        corners = tuple((x, z) for x, z, _ in self.outline)
        return Outline(corners, tuple(bulge for _, _, bulge in self.outline))


def outline_rows(outline: Outline | None) -> tuple[tuple[float, float, float], ...]:
    """Return an outline as a recipe keeps it; nothing for none."""
    if outline is None:
        return ()
    return tuple((x, z, b) for (x, z), b in zip(outline.corners, outline.bulges, strict=True))


class PrinterRecipe(_Frozen):
    """How the printer of a part is set."""

    nozzle_mm: float
    line_mm: float
    layer_mm: float


class MaterialRecipe(_Frozen):
    """Of what a part is printed: the owner's word for it, and its density without a void."""

    word: str
    density_kg_m3: float


# what a part is made with that belongs to no workshop: a trial, a picture, a series of its own
USUAL_PRINTER = PrinterRecipe(nozzle_mm=0.4, line_mm=0.45, layer_mm=0.2)
USUAL_MATERIAL = MaterialRecipe(word="PLA", density_kg_m3=density_kg_m3("PLA"))


class Recipe(_Frozen):
    """Everything that shapes and loads a holder.

    ``hand_room_mm`` is that of BuildContext; ``mount_settings`` those of MountSettings, by
    name. A holder with a joint has no mount of its own: ``mount`` is CARRIED then.
    """

    what: Literal["holder"] = "holder"
    version: int = RECIPE_VERSION
    family: str
    params: dict[str, float]
    seats: tuple[SeatRecipe, ...]
    mount: str
    mount_settings: dict[str, float]
    mount_params: dict[str, float] = {}
    joint: str = ONE_PIECE
    joint_params: dict[str, float] = {}
    printer: PrinterRecipe
    material: MaterialRecipe
    hand_room_mm: float

    @property
    def settings(self) -> MountSettings:
        """Return the mount settings as a value."""
        return MountSettings(**self.mount_settings)

    @property
    def in_grooves(self) -> bool:
        """Return True when it is made as for a rail and hangs on something else."""
        return self.joint == GROOVES and self.mount != RAIL_MOUNT

    @cached_property
    def as_on_rail(self) -> Recipe:
        """The recipe of the same holder on a rail."""
        settings = {k: v for k, v in self.mount_settings.items() if k != "lining_mm"}
        there = {"mount": RAIL_MOUNT, "mount_params": {}, "mount_settings": settings}
        return self.model_copy(update={**there, "joint": ONE_PIECE})

    def with_plate(self, plate_mm: float) -> Recipe:
        """Return the same with a plate of another thickness."""
        settings = {**self.mount_settings, "plate_mm": plate_mm}
        return self.model_copy(update={"mount_settings": settings})

    def with_bolts(self, count: int) -> Recipe:
        """Return the same with so many bolts at least, where they have room."""
        settings = {**self.mount_settings, "least_bolts": count}
        return self.model_copy(update={"mount_settings": settings})

    @property
    def context(self) -> BuildContext:
        """Return what the family must know of the outside."""
        return BuildContext(
            plate_mm=self.settings.plate_mm,
            line_mm=self.printer.line_mm,
            hand_room_mm=self.hand_room_mm,
            material=self.material.word,
        )


class CarrierRecipe(_Frozen):
    """Everything that shapes and loads a carrier, its holders included, by growing x."""

    what: Literal["carrier"] = "carrier"
    version: int = RECIPE_VERSION
    params: dict[str, float]
    holders: tuple[Recipe, ...]
    mount: str
    mount_settings: dict[str, float]
    mount_params: dict[str, float]
    joint: str
    joint_params: dict[str, float]
    printer: PrinterRecipe
    material: MaterialRecipe
    made_of: MadeOf = "plastic"

    @property
    def settings(self) -> MountSettings:
        """Return the mount settings as a value."""
        return MountSettings(**self.mount_settings)


class FittingRecipe(_Frozen):
    """Everything that shapes a fitting: a small part that is alike for many holders."""

    what: Literal["fitting"] = "fitting"
    version: int = RECIPE_VERSION
    name: str
    measures: dict[str, float]
    printer: PrinterRecipe
    material: MaterialRecipe


HungRecipe = Recipe | CarrierRecipe
"""What hangs by itself, or on what hangs."""
AnyRecipe = HungRecipe | FittingRecipe
_STORED: TypeAdapter[AnyRecipe] = TypeAdapter(Annotated[AnyRecipe, Discriminator("what")])


def recipe_from_json(text: str, *, where: str) -> AnyRecipe:
    """Read a recipe back; raises LedgerError when it is not one of ours."""
    version = version_of(text)
    if version not in (None, RECIPE_VERSION):
        raise LedgerError(
            f"the recipe has version {version}, and this program shapes and marks parts otherwise",
            where=where,
            allowed=f"version {RECIPE_VERSION}",
            todo="Use the version of the program that wrote it for the same bytes, or make the "
            "workshop again; the part then bears another mark",
        )
    try:
        return _STORED.validate_json(text)
    except ValueError as error:
        raise LedgerError(
            "the stored recipe cannot be read",
            where=where,
            todo="Use the version of the program that wrote it, or make the workshop again",
        ) from error


def version_of(text: str) -> int | None:
    """Return the version of a stored recipe, or None for what is no recipe at all."""
    try:
        return _Versioned.model_validate_json(text).version
    except ValueError:
        return None


class _Versioned(BaseModel):
    """Of any recipe, that of an earlier program too, what it says of itself."""

    what: Literal["holder", "carrier", "fitting"]
    version: int
