"""What a tool kind is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from string import Formatter
from typing import Any, cast

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from cleatwright.base import said
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline
from cleatwright.standards.tool_properties import (
    HEAVY_KG,
    PROPERTIES,
    ToolProperty,
    cautions_of,
)
from cleatwright.tools.dimension import Dimension

AT_ODDS = "at_odds"
"""The type of a fault of measures that do not belong together."""


def measure_name(field: str) -> str:
    """Return the name that a person writes for a field: without its unit."""
    return field.removesuffix("_mm")


def optional_mm(least_mm: float, most_mm: float, *, description: str) -> Any:
    """Return the field of a feature that a tool may lack: 0, or at least ``least_mm``."""
    return Field(
        0.0,
        ge=0.0,
        le=most_mm,
        description=f"{description}; 0 without",
        json_schema_extra={"least_mm": least_mm},
    )


@dataclass(frozen=True)
class AtOdds:
    """Measures that cannot belong to one tool.

    Args:
        text: What is wrong, with each measure by its name.
        names: The measures, by the names a person writes: any of them may be the wrong one.
    """

    text: str
    names: tuple[str, ...]


class Measures(BaseModel):
    """Base of a kind's measures: frozen, in mm; a person writes the names without ``_mm``.

    Each field has bounds (``ge`` and ``le``) and a ``description`` that says where the
    calliper goes. A field with a default may be left out; ``optional_mm`` makes one that is
    zero when the tool has no such feature.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        alias_generator=measure_name,
        populate_by_name=True,
    )

    def faults(self) -> Iterator[AtOdds]:
        """Yield each pair of measures that cannot belong to one tool."""
        yield from ()

    def at_odds(self, text: str, *also: str, **lengths_mm: float) -> AtOdds:
        """Return what is wrong with measures that cannot belong to one tool.

        Args:
            text: The sentence; ``{neck}`` stands for the measure of that name with its value,
                ``{least}`` for another length.
            also: Measures that may be wrong, too, though the sentence does not show their values.
            lengths_mm: The other lengths by their names.
        """
        fields = [name for _, name, _, _ in Formatter().parse(text) if name]
        shown = {name: self.shown(name) for name in fields if name not in lengths_mm}
        others = {name: said.mm(value) for name, value in lengths_mm.items()}
        return AtOdds(text.format(**shown, **others), (*shown, *also))

    def together(self, *names: str) -> Iterator[AtOdds]:
        """Yield a fault where of the measures of one feature some are given and some left out."""
        given = sum(self.value_mm(name) > 0.0 for name in names)
        if 0 < given < len(names):
            *first, last = [self.shown(name) for name in names]
            count, every = ("both", "both") if len(names) == 2 else ("all three", "all")
            yield self.at_odds(
                f"{', '.join(first)} and {last} go together: give {count}, or leave {every} out",
                *names,
            )

    def value_mm(self, name: str) -> float:
        """Return a measure by the name that a person writes."""
        return float(getattr(self, f"{name}_mm"))

    def shown(self, name: str) -> str:
        """Return a measure with its value for a person."""
        return f"{name} {said.mm(self.value_mm(name))}"

    @model_validator(mode="after")
    def _belong_together(self) -> Measures:
        faults = [*self._slivers(), *self.faults()]
        if faults:
            given = "; ".join(fault.text for fault in faults)
            raise PydanticCustomError(AT_ODDS, "{given}", {"given": given, "each": tuple(faults)})
        return self

    def _slivers(self) -> Iterator[AtOdds]:
        for row in card(type(self)):
            if row.may_be_zero and 0.0 < self.value_mm(row.name) < row.low_mm:
                yield self.at_odds(
                    f"{self.shown(row.name)} is too little: give 0, or {row.bounds}", row.name
                )


@dataclass(frozen=True)
class MeasureRow:
    """One line of a measuring card.

    Args:
        name: The name that a person writes.
        low_mm: The least value; of a feature that may be missing, the least when it is there.
        high_mm: The largest value.
        needed: False when it may be left out.
        may_be_zero: True when zero means that the tool has no such feature.
        description: Where the calliper goes.
    """

    name: str
    low_mm: float
    high_mm: float
    needed: bool
    may_be_zero: bool
    description: str

    @property
    def bounds(self) -> str:
        """Return the bounds for a person."""
        return f"from {said.number(self.low_mm)} to {said.mm(self.high_mm)}"


def card(measures: type[Measures]) -> tuple[MeasureRow, ...]:
    """Return what has to be measured, in order."""
    rows: list[MeasureRow] = []
    for field, info in measures.model_fields.items():
        # pydantic keeps each bound as a small object with one attribute
        low = next(m.ge for m in info.metadata if hasattr(m, "ge"))
        high = next(m.le for m in info.metadata if hasattr(m, "le"))
        least = _least_mm(info.json_schema_extra)
        rows.append(
            MeasureRow(
                name=measure_name(field),
                low_mm=low if least is None else least,
                high_mm=high,
                needed=info.is_required(),
                may_be_zero=least is not None,
                description=info.description or "",
            )
        )
    return tuple(rows)


def _least_mm(extra: object) -> float | None:
    if not isinstance(extra, dict):
        return None
    return cast("dict[str, float]", extra)["least_mm"]


def ordinary(**sizes_mm: float) -> tuple[tuple[str, float], ...]:
    """Return the measures of an ordinary tool, by the names that a person writes."""
    return tuple(sizes_mm.items())


@dataclass(frozen=True)
class Kind:
    """What a tool is.

    Args:
        name: Registry name, lower case with hyphens.
        title: One line for people.
        measures: The measure model.
        body: Makes the tool body from the measures, its mass in kg when weighed, and of a kind
            that is outlined the outline.
        example: Measures of an ordinary tool of the kind, by the names a person writes, in mm.
        dimensions: Where each measure lies on the tool, each exactly once.
        caution: What can hurt someone when such a tool hangs on a wall, and no property of it
            says; or "".
        example_outline: The outline of that ordinary tool, x to the left of a person who looks
            at it and z up; None when the measures say it all.
        keep_cool: True when such a tool must hang away from heat.
        properties: What of an ordinary tool of the kind can hurt; each tool may have others.
        plain: Of a kind that takes any thing of its shape, that shape in plain words, or "".
    """

    name: str
    title: str
    measures: type[Measures]
    body: Callable[..., ToolBody]
    example: tuple[tuple[str, float], ...]
    dimensions: Callable[[Any], tuple[Dimension, ...]]
    caution: str = ""
    example_outline: Outline | None = None
    keep_cool: bool = False
    properties: tuple[ToolProperty, ...] = ()
    plain: str = ""

    @property
    def cautions(self) -> tuple[str, ...]:
        """Return what can hurt someone with an ordinary tool of the kind, in sentences."""
        own = (self.caution,) if self.caution else ()
        return (*own, *cautions_of(self.properties))

    def properties_of(
        self, mass_kg: float, given: tuple[ToolProperty, ...] | None
    ) -> tuple[ToolProperty, ...]:
        """Return the properties of one tool, in the order of their list.

        Args:
            mass_kg: Its mass.
            given: What its owner says; None to take those of the kind, and heavy by its mass.
        """
        heavy: tuple[ToolProperty, ...] = ("heavy",) if mass_kg >= HEAVY_KG else ()
        known = (*self.properties, *heavy) if given is None else given
        return tuple(one for one in PROPERTIES if one in known)

    @property
    def outlined(self) -> bool:
        """Return True when a tool of the kind needs an outline beside its measures."""
        return self.example_outline is not None

    @property
    def card(self) -> tuple[MeasureRow, ...]:
        """Return what has to be measured, in order."""
        return card(self.measures)

    def drawn(self, measures: Measures) -> tuple[Dimension, ...]:
        """Return where each measure that is not zero lies on the tool."""
        return tuple(one for one in self.dimensions(measures) if one.length_mm > 0.0)
