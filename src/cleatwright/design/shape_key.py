"""The key of what is printed: the shape of a part and its material, from which its mark comes.

A measure of a tool that changes nothing in the part changes no mark, and neither does the last
digit of a number, which another machine or another way to the same number may round otherwise.
"""

from __future__ import annotations

import math
from dataclasses import fields, is_dataclass
from typing import cast

from cleatwright.base.keys import content_key, mark_from_key
from cleatwright.design.recipe import AnyRecipe
from cleatwright.parts.holder import HolderPart
from cleatwright.shapes.rigid import Rigid

FORM = "shape/1"
STEP_MM = 1e-4
# a turn moves what lies a metre away by a thousand times as much
TURN_STEP = 1e-7
# steps end at no number that people write: halves, tenths and fractions of an inch lie inside
OFFSET = 0.31831
WOOD = "wood"


def shape_key(recipe: AnyRecipe, part: HolderPart) -> str:
    """Return the key of the shape of a part without its mark, and of its material.

    The places for the mark count, since it is cut there, and so does all joinery: the papers of
    a carrier of wood come from it.

    Args:
        recipe: The recipe of the part.
        part: The part.
    """
    wooden = part.joinery is not None
    return content_key(
        (
            FORM,
            quantised(part.solid),
            quantised(part.mark_places),
            quantised(part.joinery),
            part.family,
            part.leading,
            WOOD if wooden else " ".join(recipe.material.word.split()).casefold(),
        )
    )


def shape_mark(recipe: AnyRecipe, part: HolderPart) -> str:
    """Return the mark of a part."""
    return mark_from_key(shape_key(recipe, part))


def quantised(value: object) -> object:
    """Return a description with each number as the step in which it lies.

    >>> quantised((0.1 + 0.2, "a")) == quantised((0.3, "a")) != quantised((0.3002, "a"))
    True
    """
    if isinstance(value, tuple):
        members = cast("tuple[object, ...]", value)
        # most are numbers, and a call for each would take most of the time
        return tuple([_step(v, STEP_MM) if type(v) is float else quantised(v) for v in members])
    if value is None or isinstance(value, (str, bool)):
        return value
    if isinstance(value, (int, float)):
        return _step(value, STEP_MM)
    if isinstance(value, Rigid):
        turned = tuple([tuple([_step(number, TURN_STEP) for number in row]) for row in value.rows])
        return (turned, quantised(value.shift_mm))
    if is_dataclass(value):
        return (
            type(value).__name__,
            *(quantised(getattr(value, field.name)) for field in fields(value)),
        )
    raise TypeError(f"{type(value).__name__} describes no shape")


def _step(number: float, step: float) -> int:
    return math.floor(number / step + OFFSET)
