"""A recipe: everything from which one holder is made again, to the byte."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Discriminator, Field, TypeAdapter

from cleatwright.base.errors import LedgerError
from cleatwright.base.keys import content_key
from cleatwright.holders.family import BuildContext
from cleatwright.mounts.joints.registry import ONE_PIECE
from cleatwright.mounts.mount import MountSettings
from cleatwright.shapes.outline import Outline
from cleatwright.workshop.document.entries import MadeOf

RECIPE_VERSION = 2
CARRIED = "carrier"


def _is_plastic(made_of: object) -> bool:
    return made_of == "plastic"


def _is_empty(outline: tuple[object, ...]) -> bool:
    return not outline


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    @cached_property
    def key(self) -> str:
        """Return the content key."""
        return content_key(self.model_dump())

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """Return a copy, changed as ``update`` says; its key is its own."""
        copied = super().model_copy(update=update, deep=deep)
        vars(copied).pop("key", None)
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
    # left out where there is none: other recipes keep the keys that they had before
    outline: tuple[tuple[float, float, float], ...] = Field(default=(), exclude_if=_is_empty)

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


class Recipe(_Frozen):
    """All numbers that shape a holder.

    ``line_mm`` and ``hand_room_mm`` are those of BuildContext; ``mount_settings``
    those of MountSettings, by name. A holder with a joint has no mount of its own: ``mount``
    is CARRIED then.
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
    line_mm: float
    hand_room_mm: float

    @property
    def settings(self) -> MountSettings:
        """Return the mount settings as a value."""
        return MountSettings(**self.mount_settings)

    @property
    def context(self) -> BuildContext:
        """Return what the family must know of the outside."""
        return BuildContext(
            plate_mm=self.settings.plate_mm,
            line_mm=self.line_mm,
            hand_room_mm=self.hand_room_mm,
        )


class CarrierRecipe(_Frozen):
    """All numbers that shape a carrier, those of its holders included, by growing x."""

    what: Literal["carrier"] = "carrier"
    version: int = RECIPE_VERSION
    params: dict[str, float]
    holders: tuple[Recipe, ...]
    mount: str
    mount_settings: dict[str, float]
    mount_params: dict[str, float]
    joint: str
    joint_params: dict[str, float]
    # left out where it is plastic: carriers made before there was a choice keep their marks
    made_of: MadeOf = Field(default="plastic", exclude_if=_is_plastic)

    @property
    def settings(self) -> MountSettings:
        """Return the mount settings as a value."""
        return MountSettings(**self.mount_settings)


AnyRecipe = Recipe | CarrierRecipe
_STORED: TypeAdapter[AnyRecipe] = TypeAdapter(Annotated[AnyRecipe, Discriminator("what")])


def recipe_from_json(text: str, *, where: str) -> AnyRecipe:
    """Read a recipe back; raises LedgerError when it is not one of ours."""
    try:
        recipe = _STORED.validate_json(text)
    except ValueError as error:
        raise LedgerError(
            "the stored recipe cannot be read",
            where=where,
            todo="Use the version of the program that wrote it, or make the workshop again",
        ) from error
    if recipe.version != RECIPE_VERSION:
        raise LedgerError(
            f"the recipe has version {recipe.version}",
            where=where,
            allowed=f"version {RECIPE_VERSION}",
            todo="Use the version of the program that wrote it",
        )
    return recipe
