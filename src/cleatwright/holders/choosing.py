"""Which family holds tools best, and why; and why when none can."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from cleatwright.base import said
from cleatwright.base.errors import DesignError, NoHolderError
from cleatwright.holders import prices
from cleatwright.holders.family import Family
from cleatwright.holders.registry import FAMILIES
from cleatwright.parts.grips import Blade
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.other_kinds import MOST_TAKERS, as_written, plain_measures, takers
from cleatwright.tools.registry import KINDS, tool_body

NO_MEASURES: Mapping[str, float] = MappingProxyType({})
PULLED_OFF = "it must be pulled off, and that can take a holder off its rail"
BARE = "leaves an edge bare"
NOT_KEPT = "does not keep it from being knocked out"
SUPPORT = "needs support to print"


@dataclass(frozen=True)
class Figures:
    """What a holder of a family is like, before it is built.

    Args:
        tools: How many tools it holds (>= 1).
        grams: The plastic that it takes, without hangers and bolts; an estimate.
        support: Whether it needs support to print.
        width_mm: Width of the wall that it takes with its tools.
        reach_mm: How far it stands out of the wall.
        hold_share: What a hand may pull, as a share of what takes it off its rail; 0 for one that
            no pull takes off, or that hangs on no rail.
        kept: Whether no tool can be knocked out to the front.
        pulled: Whether a tool must be pulled off springs or magnets.
        bought: What has to be bought for it, or "".
    """

    tools: int
    grams: float
    support: bool
    width_mm: float
    reach_mm: float
    hold_share: float
    kept: bool
    pulled: bool
    bought: str

    @property
    def grams_each(self) -> float:
        """Return the plastic for each tool."""
        return self.grams / self.tools

    @property
    def width_each_mm(self) -> float:
        """Return the width for each tool."""
        return self.width_mm / self.tools


@dataclass(frozen=True)
class Rating:
    """How well a family suits tools.

    Args:
        name: The family.
        figures: What its holder is like.
        bare: Whether it leaves an edge bare.
    """

    name: str
    figures: Figures
    bare: bool

    @property
    def family(self) -> Family:
        """Return the family."""
        return FAMILIES[self.name]

    @property
    def flaws(self) -> tuple[str, ...]:
        """Return what speaks against it, in a few words each."""
        one = self.figures
        found = (
            (BARE, self.bare),
            (NOT_KEPT, not one.kept),
            ("must be pulled off", one.pulled),
            (f"needs {one.bought}", bool(one.bought)),
            (SUPPORT, one.support),
        )
        return tuple(words for words, here in found if here)

    @property
    def cost_g(self) -> float:
        """Return what it costs for each tool, in grams of plastic."""
        one = self.figures
        return (
            one.grams_each
            + prices.WIDTH_G_PER_MM * one.width_each_mm
            + prices.REACH_G_PER_MM * one.reach_mm
            + prices.HOLD_G * min(1.0, one.hold_share)
            + prices.SUPPORT_G * one.support
            + prices.BARE_EDGE_G * self.bare
            + prices.NOT_KEPT_G * (not one.kept)
            + prices.PULLED_G * one.pulled
            + prices.BOUGHT_G * bool(one.bought)
        )

    @property
    def words(self) -> str:
        """Return the rating in words, for each tool."""
        one = self.figures
        size = (
            f"{one.grams_each:.0f} g of plastic and {said.mm(one.width_each_mm, '.0f')} of wall a "
            f"tool, {said.mm(one.reach_mm, '.0f')} out"
        )
        return ", ".join((size, *self.flaws))


@dataclass(frozen=True)
class PassedOver:
    """A family that was not taken though it holds the tools, and why, in a clause."""

    name: str
    why: str


@dataclass(frozen=True)
class Ranked:
    """The families that can hold tools, the best first, and those that were passed over."""

    ratings: tuple[Rating, ...]
    passed: tuple[PassedOver, ...] = ()


Ground = Literal["owner", "only", "left", "least", "made"]


@dataclass(frozen=True)
class WhyFamily:
    """Why a holder is of its family.

    Args:
        ground: The owner named it; no other can; all others were passed over; it costs least; or
            its like are made so already.
        rated: The families that were weighed against each other, the best first; none where
            there was nothing to weigh.
        passed: The families that were passed over.
        taken: The family.
    """

    ground: Ground
    taken: str
    rated: tuple[Rating, ...] = ()
    passed: tuple[PassedOver, ...] = ()

    @property
    def open(self) -> bool:
        """Return True when another family could be taken in its place."""
        if self.ground == "left":
            # the best is better than one that does no more than it
            return True
        gone = {self.taken, *(one.name for one in self.passed)}
        bare = {one.name: one.bare for one in self.rated}
        others = (one for one in self.rated if one.name not in gone)
        # no edge is laid bare for it
        return self.ground == "least" and any(one.bare <= bare[self.taken] for one in others)

    @property
    def words(self) -> str:
        """Return the reason in words."""
        own = next((one for one in self.rated if one.name == self.taken), None)
        other = next((one for one in self.rated if one.name != self.taken), None)
        parts = [_GROUNDS[self.ground]] if own is None or self.ground != "least" else []
        if own is not None:
            parts.append(own.words)
        if other is not None:
            better = self.ground == "made" and own is not None and other.cost_g < own.cost_g
            parts.append(f"{'cheaper' if better else 'next best'} {other.name}: {other.words}")
        parts += [f"{one.name} was passed over: {one.why}" for one in self.passed]
        return "; ".join(parts)


_GROUNDS: Mapping[Ground, str] = MappingProxyType(
    {
        "owner": "chosen by the owner",
        "only": "the only family that can hold it",
        "left": "the only family that is left",
        "least": "it costs least",
        "made": "its like are made so already",
    }
)


def candidates(tool: ToolBody) -> tuple[Family, ...]:
    """Return the families that can hold the tool, in the order of the registry."""
    return tuple(family for family in FAMILIES.values() if family.why_not(tool) is None)


def choices(tools: Sequence[ToolBody]) -> tuple[Family, ...]:
    """Return the families that can hold all the tools and need not be named by the owner."""
    return tuple(
        family
        for family in FAMILIES.values()
        if not family.by_wish and all(family.why_not(tool) is None for tool in tools)
    )


def ranked(
    families: Sequence[Family],
    tools: Sequence[ToolBody],
    *,
    figured: Callable[[Family], Figures],
    lifted: bool = False,
) -> Ranked:
    """Return families by what they cost, the best first.

    Args:
        families: Families that can hold all the tools.
        tools: One or more tools that shall be held alike.
        figured: Gives what a holder of a family is like, or raises DesignError.
        lifted: Whether every tool must leave its seat by being lifted, since a pull at springs
            or magnets could take the holder along.
    """
    edged = any(tool.grip(Blade) is not None for tool in tools)
    ratings: list[Rating] = []
    passed: list[PassedOver] = []
    for family in families:
        try:
            figures = figured(family)
        except DesignError as error:
            passed.append(PassedOver(family.name, as_clause(error.given)))
            continue
        if lifted and figures.pulled:
            passed.append(PassedOver(family.name, PULLED_OFF))
            continue
        ratings.append(Rating(family.name, figures, edged and not family.guards))
    # the sort is stable: equals stay in the order of the registry
    return Ranked(tuple(sorted(ratings, key=lambda rating: rating.cost_g)), tuple(passed))


def as_clause(sentence: str) -> str:
    """Return a sentence without its full stop, to stand in a list.

    >>> as_clause("No bolt is enough.")
    'No bolt is enough'
    """
    return sentence.strip().rstrip(".")


def why_none(
    tool: ToolBody,
    *,
    lifted: bool = False,
    weighed: bool = False,
    measures: Mapping[str, float] = NO_MEASURES,
) -> NoHolderError:
    """Return the error for a tool that no family can hold, with the reason of each family.

    Args:
        tool: The tool.
        lifted: As in ``ranked``.
        weighed: Whether its mass is known, and no estimate.
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
        else _described_otherwise(tool, measures, guessed=" kg " in listed and not weighed),
    )


def _described_otherwise(tool: ToolBody, measures: Mapping[str, float], *, guessed: bool) -> str:
    """Return what to write for a tool that no family can hold: another kind with a holder."""
    weigh = "Weigh it and write its mass" if guessed else "Check its measures"
    found = [
        one
        for one in takers(measures, KINDS.values(), but=tool.kind)
        if measures and candidates(tool_body(one.name, measures))
    ]
    if found:
        return f"{weigh}, or write {as_written(found[:MOST_TAKERS])}, which has a holder"
    return f"{weigh}. {plain_measures(KINDS.values(), but=tool.kind)}"
