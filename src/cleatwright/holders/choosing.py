"""Which family holds tools best, and why; and why when none can."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from cleatwright.base import said
from cleatwright.base.errors import DesignError, NoHolderError
from cleatwright.holders.family import BuildContext, Family
from cleatwright.holders.registry import FAMILIES
from cleatwright.parts.grips import Blade
from cleatwright.parts.holder import Front, PrintPose
from cleatwright.parts.tool import FittedTool, ToolBody
from cleatwright.shapes.extent import joint_extent
from cleatwright.statics.take_out import resists
from cleatwright.tools.other_kinds import MOST_TAKERS, as_written, plain_measures, takers
from cleatwright.tools.registry import KINDS, tool_body

# choices, in square centimetres of wall for each tool that one would give to avoid it
BARE_EDGE_CM2 = 60.0
NOT_KEPT_CM2 = 15.0
BOUGHT_CM2 = 12.0
SUPPORT_CM2 = 8.0
REACH_CM2_PER_MM = 0.15
# so many tools of a group tell which family suits it
TRIED = 6
NO_MEASURES: Mapping[str, float] = MappingProxyType({})
PULLED_OFF = "it must be pulled off, and that can take a holder off its rail"
Prints = Callable[[PrintPose], bool]


@dataclass(frozen=True)
class Rating:
    """How well a family suits tools.

    Args:
        family: The family.
        wall_cm2: Wall that one tool takes, with its way up.
        width_mm: Width that the holder and its tools take, for each tool.
        lift_mm: How far the tool must be lifted.
        reach_mm: How far the holder stands out.
        flaws: What speaks against it, in a few words each.
        cost_cm2: The wall, and what the flaws count.
        pulled: Whether a tool must be pulled off springs or magnets.
    """

    family: Family
    wall_cm2: float
    width_mm: float
    lift_mm: float
    reach_mm: float
    flaws: tuple[str, ...]
    cost_cm2: float
    pulled: bool

    @property
    def words(self) -> str:
        """Return the rating in words."""
        size = (
            f"{said.wide_area(self.wall_cm2 * 100)} of wall a tool, lifted "
            f"{said.mm(self.lift_mm, '.0f')}"
        )
        return ", ".join((size, *self.flaws))


def candidates(tool: ToolBody) -> tuple[Family, ...]:
    """Return the families that can hold the tool, in the order of the registry."""
    return tuple(family for family in FAMILIES.values() if family.why_not(tool) is None)


def ranked(
    tools: Sequence[FittedTool], ctx: BuildContext, *, prints: Prints, lifted: bool = False
) -> tuple[Rating, ...]:
    """Return the families that can hold all the tools, the best first.

    Families that are a wish of the owner are left out.

    Args:
        tools: One or more tools that shall be held alike.
        ctx: What families must know of the outside.
        prints: Whether a part that lies in a pose needs no support on the mount in use.
        lifted: Whether every tool must leave its seat by being lifted, since a pull at springs
            or magnets could take the holder along.
    """
    rated = [
        rating
        for family in FAMILIES.values()
        if not family.by_wish
        and all(family.why_not(tool.body) is None for tool in tools)
        and (rating := _rated(family, tools, ctx, prints)) is not None
        and not (lifted and rating.pulled)
    ]
    # the sort is stable: equals stay in the order of the registry
    return tuple(sorted(rated, key=lambda rating: rating.cost_cm2))


def reason(rated: Sequence[Rating]) -> str:
    """Return why the first of the ratings was chosen."""
    best, *others = rated
    if not others:
        return f"the only family that can hold it: {best.words}"
    return f"{best.words}; next best {others[0].family.name}: {others[0].words}"


def _rated(
    family: Family, tools: Sequence[FittedTool], ctx: BuildContext, prints: Prints
) -> Rating | None:
    shown = tools[:TRIED]
    try:
        front = family.build(shown, family.params(), ctx)
    except DesignError:
        return None
    width, height, lift = _room_mm(front)
    count = len(front.seats)
    wall = width * height / count / 100.0
    flaws: list[tuple[str, float]] = []
    if not family.guards and any(tool.body.grip(Blade) is not None for tool in shown):
        flaws.append(("leaves an edge bare", BARE_EDGE_CM2))
    if not all(seat.kept or seat.magnet for seat in front.seats):
        flaws.append(("does not keep it from being knocked out", NOT_KEPT_CM2))
    if front.hardware:
        flaws.append((f"needs {front.hardware[0].name}", BOUGHT_CM2))
    if not prints(front.print_pose):
        flaws.append(("needs support to print", SUPPORT_CM2))
    cost = wall + REACH_CM2_PER_MM * front.reach_mm + sum(cm2 for _, cm2 in flaws)
    return Rating(
        family=family,
        wall_cm2=wall,
        width_mm=width / count,
        lift_mm=lift,
        reach_mm=front.reach_mm,
        flaws=tuple(words for words, _ in flaws),
        cost_cm2=cost,
        pulled=any(resists(seat) for seat in front.seats),
    )


def _room_mm(front: Front) -> tuple[float, float, float]:
    """Return width and height that a front takes with its tools, and how far these are lifted."""
    boxes = [joint_extent(seat.envelope()) for seat in front.seats]
    lifts = [_lift_mm(seat.way_out) for seat in front.seats]
    left = min([0.0, *(low[0] for low, _ in boxes)])
    right = max([front.width_mm, *(high[0] for _, high in boxes)])
    low = min([front.plate_low_mm, front.low_mm, *(box[0][2] for box in boxes)])
    high = max(
        [
            front.plate_high_mm,
            front.high_mm,
            *(box[1][2] + lift for box, lift in zip(boxes, lifts, strict=True)),
        ]
    )
    return right - left, high - low, max(lifts)


def _lift_mm(moves: Sequence[tuple[float, float, float]]) -> float:
    height = highest = 0.0
    for _, _, dz in moves:
        height += dz
        highest = max(highest, height)
    return highest


def why_none(
    tool: ToolBody, *, lifted: bool = False, measures: Mapping[str, float] = NO_MEASURES
) -> NoHolderError:
    """Return the error for a tool that no family can hold, with the reason of each family.

    Args:
        tool: The tool.
        lifted: As in ``ranked``.
        measures: Its measures in mm, by the names that a person writes.
    """
    reasons = [
        f"{family.name}: {why}"
        for family in FAMILIES.values()
        if tool.grip(family.grip) is not None and (why := family.why_not(tool)) is not None
    ]
    pulled = [family.name for family in candidates(tool) if not family.by_wish] if lifted else []
    reasons += [f"{one}: {PULLED_OFF}" for one in pulled]
    grips = ", ".join(grip.title for grip in tool.grips) or "nothing to be held by"
    listed = f" ({'; '.join(reasons)})" if reasons else ""
    return NoHolderError(
        f"no holder can take this {tool.kind}, which offers {grips}{listed}",
        todo='Hang it on a [[carrier]] with screw_count = 2, or by mount = "wall-screws"'
        if pulled
        else _described_otherwise(tool, measures, heavy=" kg " in listed),
    )


def _described_otherwise(tool: ToolBody, measures: Mapping[str, float], *, heavy: bool) -> str:
    """Return what to write for a tool that no family can hold: another kind with a holder."""
    weigh = "Weigh it and write its mass" if heavy else "Check its measures"
    found = [
        one
        for one in takers(measures, KINDS.values(), but=tool.kind)
        if measures and candidates(tool_body(one.name, measures))
    ]
    if found:
        return f"{weigh}, or write {as_written(found[:MOST_TAKERS])}, which has a holder"
    return f"{weigh}. {plain_measures(KINDS.values(), but=tool.kind)}"
