"""What a tool kind is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, model_validator

from cleatwright.parts.tool import ToolBody


def measure_name(field: str) -> str:
    """Return the name that a person writes for a field: without its unit."""
    return field.removesuffix("_mm")


class Measures(BaseModel):
    """Base of a kind's measures: frozen, in mm; a person writes the names without ``_mm``.

    Each field has bounds (``ge`` and ``le``) and a ``description`` that says where the
    calliper goes. A field with a default may be left out.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        alias_generator=measure_name,
        populate_by_name=True,
    )

    def faults(self) -> Iterator[str]:
        """Yield a sentence for each pair of measures that cannot belong to one tool."""
        yield from ()

    @model_validator(mode="after")
    def _belong_together(self) -> Measures:
        faults = list(self.faults())
        if faults:
            raise ValueError("; ".join(faults))
        return self


@dataclass(frozen=True)
class MeasureRow:
    """One line of a measuring card: the name, its bounds in mm and where the calliper goes."""

    name: str
    low_mm: float
    high_mm: float
    needed: bool
    description: str


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

    @property
    def card(self) -> tuple[MeasureRow, ...]:
        """Return what has to be measured, in order."""
        rows: list[MeasureRow] = []
        for field, info in self.measures.model_fields.items():
            # pydantic keeps each bound as a small object with one attribute
            low = next(m.ge for m in info.metadata if hasattr(m, "ge"))
            high = next(m.le for m in info.metadata if hasattr(m, "le"))
            text = info.description or ""
            rows.append(MeasureRow(measure_name(field), low, high, info.is_required(), text))
        return tuple(rows)
