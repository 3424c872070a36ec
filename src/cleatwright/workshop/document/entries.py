"""Tools and holders as the owner lists them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Annotated, Any, Literal, Self, cast

from pydantic import AfterValidator, BeforeValidator, Field, StringConstraints, model_validator

from cleatwright.base import said
from cleatwright.base.keys import content_key
from cleatwright.base.place import TableStep
from cleatwright.base.visible import code_point, is_plain
from cleatwright.standards.tool_properties import PROPERTIES, ToolProperty
from cleatwright.workshop.document.fields import (
    DocumentTable,
    Flag,
    Name,
    Notes,
    People,
    Readings,
    ReadingsTable,
    Slug,
    Within,
    problem,
    problems,
)
from cleatwright.workshop.document.origins import NOTHING_WRITTEN, Origins
from cleatwright.workshop.document.sections import Count, FitName

Use = Literal["daily", "weekly", "seldom"]
MadeOf = Literal["plastic", "wood"]
# planning takes about 3 ms a tool; nobody hangs more on one wall
MOST_SINGLE_TOOLS = 2_000
Mass = Annotated[
    float | None,
    Within("kg", 0, 100, above=True, estimate=True, why="nobody lifts more off a wall"),
]


def _size_text(value: object) -> object:
    """Return a size as text: 5 and 2.5 may be written without quotation marks."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return f"{value:g}"
    return value


def _file_in_workshop(text: str) -> str:
    """Return a path below the folder of the workshop, with slashes."""
    parts = text.split("/")
    unseen = next((sign for sign in text if not is_plain(sign)), None)
    if unseen is not None:
        raise problem(
            f"The name of the file has the sign {code_point(unseen)}, which cannot be seen",
            todo="Rename the file, and write the name anew",
        )
    if "\\" in text or ":" in text or any(part in {"", ".", ".."} for part in parts):
        raise problem(
            f'"{text}" is no file below the folder of the workshop',
            allowed='a path such as "shapes/square.svg", without "..", drive or leading slash',
        )
    if not text.lower().endswith((".svg", ".dxf")):
        raise problem(f'"{text}" is no drawing', allowed="a file that ends in .svg or .dxf")
    return text


FileInWorkshop = Annotated[
    str,
    StringConstraints(strict=True, min_length=5, max_length=200),
    AfterValidator(_file_in_workshop),
]
Properties = Annotated[tuple[ToolProperty, ...], Field(max_length=len(PROPERTIES))]
HandHeight = Annotated[
    float | None, Within("mm", 0, 4_000, why="of the hand on the tool above the floor")
]
NominalSize = Annotated[Name, BeforeValidator(_size_text)]


class ToolSize(DocumentTable):
    """One size of a set: what differs from the measures of the tool."""

    label: Name | None = None
    mass_kg: Mass = None
    measures: ReadingsTable = Readings()

    @model_validator(mode="before")
    @classmethod
    def _measures_stand_beside_the_label(cls, value: object) -> object:
        if not isinstance(value, Mapping):
            return value
        keys = dict(cast("Mapping[str, Any]", value))
        if isinstance(keys.get("measures"), Readings):
            return keys
        own = {key: keys.pop(key) for key in ("label", "mass") if key in keys}
        return own | {"measures": keys}


class Tool(DocumentTable):
    """A tool, ``count`` equal ones, or a set in several ``sizes``."""

    name: Name
    kind: Slug
    measures: ReadingsTable = Readings()
    count: Annotated[Count, Field(ge=1, le=200)] = 1
    sizes: Annotated[tuple[ToolSize, ...], Field(max_length=200)] = ()
    nominal_sizes: Annotated[tuple[NominalSize, ...], Field(max_length=200)] = ()
    mass_kg: Mass = None
    outline: FileInWorkshop | None = None
    use: Use = "weekly"
    group: Name | None = None
    fit: FitName | None = None
    panel: Name | None = None
    keep_cool: Flag | None = None
    properties: Properties | None = None
    lowest_height_mm: HandHeight = None
    highest_height_mm: HandHeight = None
    height_reason: Notes = ""
    taken_by: People = ()
    near: Name | None = None
    left_of: Name | None = None
    right_of: Name | None = None
    notes: Notes = ""

    @model_validator(mode="after")
    def _heights_in_order(self) -> Self:
        low, high = self.lowest_height_mm, self.highest_height_mm
        if low is not None and high is not None and low >= high:
            raise problem(
                f"Its lowest height of {said.mm(low)} is no lower than its highest of "
                f"{said.mm(high)}",
                allowed="lowest_height below highest_height",
                keys=("lowest_height", "highest_height"),
            )
        return self

    @model_validator(mode="after")
    def _on_one_side(self) -> Self:
        if self.left_of is not None and self.left_of == self.right_of:
            raise problem(
                f'Nothing hangs wholly left of "{self.left_of}" and right of it',
                todo="Take left_of away, or right_of",
                keys=("left_of", "right_of"),
            )
        return self

    @model_validator(mode="after")
    def _count_or_sizes(self) -> Self:
        if self.sizes and self.count > 1:
            raise problem(
                "A tool has either a count or sizes",
                todo="Write one [[tool]] for the equal ones and one for the set",
                keys=("count", "sizes"),
            )
        if self.nominal_sizes:
            self._require_nominal()
        return self

    def _require_nominal(self) -> None:
        """Refuse nominal sizes beside a count, twice, or measures of a size that is not there."""
        names = self.nominal_sizes
        if self.count > 1:
            raise problem(
                "A tool has either a count or nominal_sizes",
                todo="Write one [[tool]] for the equal ones and one for the set",
                keys=("count", "nominal_sizes"),
            )
        twice = next((name for name in names if names.count(name) > 1), None)
        if twice is not None:
            fault = problem(
                f'The size "{twice}" is named twice',
                allowed="each size once",
                todo="Write equal tools as one [[tool]] of their own with measures and a count",
            )
            at = len(names) - 1 - names[::-1].index(twice)
            raise problems([(("nominal_sizes", at), twice, fault)])
        strange = [
            size.label or "without a label" for size in self.sizes if size.label not in names
        ]
        if strange:
            raise problem(
                f"There are measures of {', '.join(strange)}, which is none of nominal_sizes",
                allowed=f"labels: {', '.join(names)}",
                keys=("sizes", "nominal_sizes"),
            )

    @property
    def single_tools(self) -> int:
        """Return how many single tools this entry stands for."""
        return len(self.nominal_sizes) or len(self.sizes) or self.count

    def items(self) -> Iterator[ToolItem]:
        """Yield every single tool of this entry, in the order of the document."""
        yield from self._items

    @cached_property
    def _items(self) -> tuple[ToolItem, ...]:
        return tuple(self._each())

    def _each(self) -> Iterator[ToolItem]:
        if self.nominal_sizes:
            yield from self._nominal_items()
            return
        if not self.sizes:
            for number in range(1, self.count + 1):
                name = f"{self.name} #{number}" if self.count > 1 else self.name
                item = self._item(name, self.measures, self.mass_kg)
                yield replace(item, unnumbered=self.name)
        for number, size in enumerate(self.sizes, 1):
            name = f"{self.name} {size.label or f'#{number}'}"
            mass_kg = self.mass_kg if size.mass_kg is None else size.mass_kg
            item = self._item(name, self.measures.merged(size.measures), mass_kg)
            item = replace(item, origins=self._origins(size, number - 1))
            yield item if size.label else replace(item, unnumbered=self.name)

    def _nominal_items(self) -> Iterator[ToolItem]:
        """Yield a tool for each nominal size; what was measured of one stands in ``sizes``."""
        measured = {size.label: (size, number) for number, size in enumerate(self.sizes)}
        for place, name in enumerate(self.nominal_sizes):
            size, number = measured.get(name, (ToolSize(), None))
            mass_kg = self.mass_kg if size.mass_kg is None else size.mass_kg
            item = self._item(f"{self.name} {name}", self.measures.merged(size.measures), mass_kg)
            origins = replace(self._origins(size, number), nominal=("nominal_sizes", place))
            yield replace(item, nominal_size=name, origins=origins)

    def _origins(self, size: ToolSize, number: int | None) -> Origins:
        """Return where the measures of one of several sizes are written."""
        if number is None:
            return Origins(own=tuple(self.measures.as_dict()))
        return Origins(
            own=tuple(self.measures.as_dict()),
            size=("sizes", TableStep(number, size.label or "")),
            of_size=(*size.measures.as_dict(), *(() if size.mass_kg is None else ("mass",))),
        )

    @property
    def along(self) -> AlongWish:
        """Return where along its wall it is wanted."""
        return AlongWish(self.near, self.left_of, self.right_of)

    def _item(self, name: str, measures: Readings, mass_kg: float | None) -> ToolItem:
        """Return one single tool of this entry."""
        return ToolItem(
            name=name,
            unnumbered=name,
            tool=self.name,
            kind=self.kind,
            measures=measures,
            mass_kg=mass_kg,
            use=self.use,
            group=self.group,
            fit=self.fit,
            outline=self.outline,
            panel=self.panel,
            keep_cool=self.keep_cool,
            properties=self.properties,
            heights=HeightWish(
                self.lowest_height_mm, self.highest_height_mm, self.height_reason.strip()
            ),
            taken_by=self.taken_by,
            along=self.along,
        )


@dataclass(frozen=True)
class HeightWish:
    """Between which heights of the hand above the floor an owner wants a tool.

    Args:
        lowest_mm: No lower than this, or None.
        highest_mm: No higher than this, or None.
        reason: Why it may hang higher than is usual, or in reach of children, or "".
    """

    lowest_mm: float | None = None
    highest_mm: float | None = None
    reason: str = ""

    def lifts(self, usual_mm: float) -> bool:
        """Tell whether it may hang higher than is usual, for a reason."""
        return bool(self.reason) and self.highest_mm is not None and self.highest_mm > usual_mm

    def lowers(self, least_mm: float) -> bool:
        """Tell whether it may hang lower than children leave it, for a reason."""
        return bool(self.reason) and self.lowest_mm is not None and self.lowest_mm < least_mm


NO_WISH = HeightWish()


@dataclass(frozen=True)
class AlongWish:
    """Beside which obstacles of its wall an owner wants a tool.

    Args:
        near: The name of the one that it is wanted near, or None.
        left_of: The name of the one left of which it hangs, or None.
        right_of: The name of the one right of which it hangs, or None.
    """

    near: str | None = None
    left_of: str | None = None
    right_of: str | None = None

    @property
    def named(self) -> Iterator[tuple[str, str]]:
        """Yield each key of the document with the name of its obstacle."""
        for key, name in vars(self).items():
            if name is not None:
                yield key, name


NO_ALONG = AlongWish()


@dataclass(frozen=True)
class ToolItem:
    """One single tool.

    Args:
        name: Its own name, such as "Combination wrench 8 #1".
        unnumbered: Its name without the number by which it is fault from others of its entry.
        tool: The name of its entry in the document.
        kind: Name of its kind.
        measures: Its measures, those of its size included.
        mass_kg: Weighed mass, or None when it is to be estimated.
        use: How often it is used.
        group: Name of the group it belongs to.
        fit: Class of fit, or None for that of the holder or the document.
        nominal_size: The size whose measures stand in for those that nobody measured, or "".
        outline: The file with its outline, from the folder of the workshop, or None.
        panel: The name of the panel on which it hangs, or None when it says none.
        keep_cool: Whether it must hang away from heat, or None when its kind decides.
        properties: What of it can hurt, or None when its kind and its mass decide.
        heights: Between which heights its owner wants it.
        taken_by: The names of who takes it; none for every adult.
        along: Where along its wall it is wanted.
        origins: Where its measures are written.
    """

    name: str
    unnumbered: str
    tool: str
    kind: str
    measures: Readings
    mass_kg: float | None
    use: Use
    group: str | None
    fit: FitName | None
    nominal_size: str = ""
    outline: str | None = None
    panel: str | None = None
    keep_cool: bool | None = None
    properties: tuple[ToolProperty, ...] | None = None
    heights: HeightWish = NO_WISH
    taken_by: tuple[str, ...] = ()
    along: AlongWish = NO_ALONG
    origins: Origins = NOTHING_WRITTEN

    @cached_property
    def key(self) -> str:
        """The content key of what it is; where it hangs and is written does not count."""
        return content_key(
            (
                (self.name, self.unnumbered, self.kind, self.nominal_size, self.measures.values),
                (self.mass_kg, self.use, self.group, self.fit, self.keep_cool, self.properties),
                (self.taken_by, self.along, self.heights),
            )
        )


class FixedPlace(DocumentTable):
    """A fixed place: left edge from its wall's left, height above that wall's lower edge.

    The height is that of the rail's top edge, or of the plate's top for a
    holder that is screwed to the wall.
    """

    x_mm: Annotated[float, Within("mm", 0, 30_000)]
    z_mm: Annotated[float, Within("mm", 0, 6_000)]


class Holder(DocumentTable):
    """A wish for one holder: which tools share it, and how it is made."""

    tools: Annotated[tuple[Name, ...], Field(max_length=200)] = ()
    group: Name | None = None
    family: Slug | None = None
    params: ReadingsTable = Readings()
    mount: Slug | None = None
    joint: Slug | None = None
    carrier: Name | None = None
    fit: FitName | None = None
    panel: Name | None = None
    place: FixedPlace | None = None

    @model_validator(mode="after")
    def _tools_or_group(self) -> Self:
        if bool(self.tools) == (self.group is not None):
            raise problem(
                "A holder does not say which tools it takes"
                if not self.tools
                else "A holder names both tools and a group",
                allowed="either tools = [names] or group = a name",
                keys=("tools", "group"),
            )
        return self

    @model_validator(mode="after")
    def _hangs_where_its_carrier_hangs(self) -> Self:
        if self.carrier is None:
            return self
        given = [
            key
            for key, value in (
                ("mount", self.mount),
                ("joint", self.joint),
                ("panel", self.panel),
                ("place", self.place),
            )
            if value is not None
        ]
        if given:
            raise problem(
                f"A holder on a carrier must not have its own {' and '.join(given)}",
                todo=f"Give the [[carrier]] {' and '.join(given)} instead",
                keys=(*given, "carrier"),
            )
        return self


class Carrier(DocumentTable):
    """A piece that several holders share: they meet it by a joint, it hangs by a mount."""

    name: Name
    made_of: MadeOf = "plastic"
    joint: Slug = "dovetail"
    mount: Slug | None = None
    params: ReadingsTable = Readings()
    panel: Name | None = None
    place: FixedPlace | None = None


class Group(DocumentTable):
    """How the holders of a group hang among each other."""

    name: Name
    in_order: Flag = False
    taken_by: People = ()
