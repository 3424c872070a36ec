"""What a tool kind is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict

from cleatwright.parts.tool import ToolBody


def measure_name(field: str) -> str:
    """Return the name that a person writes for a field: without its unit."""
    return field.removesuffix("_mm")


class Measures(BaseModel):
    """Base of a kind's measures: frozen, in mm; a person writes the names without ``_mm``.

    Each field has bounds (``gt``/``ge``/``le``) and a ``description`` that says
    where the calliper goes.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        alias_generator=measure_name,
        populate_by_name=True,
    )


@dataclass(frozen=True)
class Kind:
    """What a tool is.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people.
        measures: The measure model.
        body: Makes the tool body from the measures and, when weighed, its mass in kg.
        example: Measures of an ordinary tool of the kind, by the names a person writes, in mm.
    """

    name: str
    title: str
    measures: type[Measures]
    body: Callable[[Any, float | None], ToolBody]
    example: tuple[tuple[str, float], ...]
