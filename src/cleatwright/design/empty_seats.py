"""Seats of tools that are gone, in parts that are printed or hang.

Such a part stays the very part that it is: its recipe keeps the seats of all tools that it was
made for, and an empty one waits for a tool that it fits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from types import MappingProxyType

from cleatwright.base import said
from cleatwright.base.errors import DesignError, InputError
from cleatwright.base.stages.run import Run
from cleatwright.design.building import PART
from cleatwright.design.describing import BODY
from cleatwright.design.equipment import OwnedTool, fit_of
from cleatwright.design.filling import Choice
from cleatwright.design.kept_parts import KeptPart
from cleatwright.design.planned import Earlier
from cleatwright.design.recipe import Recipe, SeatRecipe
from cleatwright.design.shaping import SHAPED
from cleatwright.parts.mirror import turned
from cleatwright.parts.tool import Fit
from cleatwright.tools.registry import KINDS
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.ledger.last_made import KnownHolder

GONE = " (gone)"
"""What the name of a tool that is gone ends with when another tool has its name."""
MOST_REFUSED = 3
APART = (
    "it does not share a holder with what is in it, as its [[holder]], panel, heights, people or "
    "fit are others"
)
_Group = tuple[OwnedTool, ...]


@dataclass(frozen=True)
class _Holder:
    """A holder whose part is there, with its seats by the identities of their tools."""

    known: KnownHolder
    part: KeptPart

    @property
    def seats(self) -> Mapping[str, SeatRecipe]:
        """Return its seats from left to right for the reader."""
        return dict(zip(self.known.tools, turned(self.part.recipe.seats), strict=True))

    def with_seat(self, identity: str, seat: SeatRecipe) -> Recipe:
        """Return its recipe with another tool in one seat."""
        seats = turned(tuple({**self.seats, identity: seat}.values()))
        return self.part.recipe.model_copy(update={"seats": seats})

    def mark(self, run: Run) -> str:
        """Return the mark of its part."""
        return self.part.mark or run.need(SHAPED, self.part.recipe).mark


def _holders(earlier: Earlier) -> Iterator[_Holder]:
    for known in earlier.made.holders:
        part = earlier.parts.get(known.number)
        if part is not None:
            yield _Holder(known, part)


def in_empty_seats(
    workshop: Workshop, tools: Sequence[OwnedTool], earlier: Earlier, *, run: Run
) -> _Group:
    """Return tools with identities, a new one as the tool that is gone whose empty seat it fits.

    It fits when it is of the same kind, the part with it is the very part that is there, every
    check holds, and the owner lets it share a holder with those that are in it.

    Args:
        workshop: The document.
        tools: Its tools, with the identities by which they are known again.
        earlier: What earlier times left.
        run: The run that keeps what was computed before.
    """
    found = {tool.identity: tool for tool in tools}
    known = {one.identity: one for one in earlier.made.tools}
    tables = _tables(workshop)
    for holder in _holders(earlier):
        mates = [found[one] for one in holder.known.tools if one in found]
        for identity in holder.known.tools if mates else ():
            if identity in found:
                continue
            mate = (mates[0].shares, tables[mates[0].name])
            taker = next(
                (
                    tool
                    for tool in tools
                    if tool.identity in found
                    and tool.identity not in known
                    and tool.body.kind == known[identity].kind
                    and (tool.shares, tables[tool.name]) == mate
                    and not _why_not(workshop, holder, identity, tool, run)
                ),
                None,
            )
            if taker is not None:
                del found[taker.identity]
                found[identity] = replace(taker, identity=identity)
    return tuple(sorted(found.values(), key=lambda tool: tool.position))


def _tables(workshop: Workshop) -> Mapping[str, tuple[int, str]]:
    """Return for each tool the number of the [[holder]] that claims it, or -1, and its panel."""
    found = {item.name: (-1, item.panel or "") for item in workshop.free_items()}
    for number, holder in enumerate(workshop.holders):
        found |= {item.name: (number, "") for item in workshop.items_of(holder)}
    return found


def _why_not(workshop: Workshop, holder: _Holder, identity: str, tool: OwnedTool, run: Run) -> str:
    """Return why a tool cannot take the seat of one that is gone, after its name; "" if it can."""
    left = holder.seats[identity]
    fit = fit_of(workshop, tool.fit) if tool.fit else Fit(left.play_mm, left.correction_mm)
    seat = tool.seat(fit)
    recipe = holder.with_seat(identity, seat)
    try:
        if run.need(SHAPED, recipe).mark != holder.mark(run):
            unlike = "; ".join(_unlike(seat, left)) or "it sits otherwise"
            return f"the part would have to be another one for it ({unlike})"
        return "" if run.need(PART, recipe).holds else "with it the part would not hold"
    except (DesignError, InputError) as error:
        return f"with it the part cannot be made ({error.given})"


def _unlike(seat: SeatRecipe, left: SeatRecipe) -> Iterator[str]:
    """Yield what of a tool is not as it was of the one whose seat it is."""
    for name in sorted({*seat.measures, *left.measures}):
        now, before = seat.measures.get(name, 0.0), left.measures.get(name, 0.0)
        if now != before:
            yield f"its {name.replace('_', ' ')} is {said.mm(now)}, and was {said.mm(before)}"
    if seat.mass_kg != left.mass_kg:
        now, before = map(_weighed, (seat.mass_kg, left.mass_kg))
        yield f"its mass is {now}, and was {before}"
    if seat.outline != left.outline:
        yield "its outline is another one"
    if (seat.play_mm, seat.correction_mm) != (left.play_mm, left.correction_mm):
        yield "its fit is another one"


def _weighed(mass_kg: float | None) -> str:
    return "estimated" if mass_kg is None else said.mass(mass_kg, ".3f")


def seats_refused(
    workshop: Workshop, tools: Sequence[OwnedTool], earlier: Earlier, *, run: Run
) -> Mapping[str, tuple[str, ...]]:
    """Return why new tools of the same kind do not take a seat that is empty, in sentences.

    They stand by the identities of the tools that are gone.

    Args:
        workshop: The document.
        tools: Its tools after those that fit took their seats.
        earlier: What earlier times left.
        run: The run that keeps what was computed before.
    """
    here = {tool.identity: tool for tool in tools}
    known, tables = {one.identity: one for one in earlier.made.tools}, _tables(workshop)
    new = [tool for tool in tools if tool.identity not in known]
    found: dict[str, tuple[str, ...]] = {}
    for holder in _holders(earlier):
        mates = [here[one] for one in holder.known.tools if one in here]
        for identity in holder.known.tools if mates else ():
            if identity in here:
                continue
            gone = known[identity]
            mate = (mates[0].shares, tables[mates[0].name])
            like = [tool for tool in new if tool.body.kind == gone.kind][:MOST_REFUSED]
            found[identity] = tuple(
                f'"{tool.name}" does not take the place of "{gone.name}": {why}.'
                for tool in like
                if (
                    why := _why_not(workshop, holder, identity, tool, run)
                    if (tool.shares, tables[tool.name]) == mate
                    else APART
                )
            )
    return MappingProxyType(found)


@dataclass(frozen=True)
class LeftSeats:
    """The seats that tools left in parts that are there.

    Args:
        holders: The holders whose parts are there, with these seats and others.
        gone: The tools that are gone, by their identities.
    """

    holders: tuple[_Holder, ...]
    gone: Mapping[str, OwnedTool]

    @classmethod
    def of(cls, tools: Sequence[OwnedTool], earlier: Earlier, *, run: Run) -> LeftSeats:
        """Return the seats that are left empty by those who are no longer among the tools."""
        here, taken = {tool.identity for tool in tools}, {tool.name for tool in tools}
        names = {one.identity: one.name for one in earlier.made.tools}
        holders = tuple(one for one in _holders(earlier) if here.intersection(one.known.tools))
        gone: dict[str, OwnedTool] = {}
        for holder in holders:
            for identity, seat in holder.seats.items():
                if identity in here:
                    continue
                name = names[identity]
                while name in taken:
                    name += GONE
                taken.add(name)
                position = len(tools) + len(gone)
                # a kind that is of another shape today makes another part
                with suppress(InputError):
                    gone[identity] = _gone(name, identity, seat, position=position, run=run)
        return cls(holders, MappingProxyType(gone))

    def beside(self, choice: Choice, group: _Group, run: Run) -> _Group:
        """Return the tools of a holder, and those that are gone whose seats its part keeps.

        Where no part that is there holds just these tools and empty seats, they alone are returned.

        Args:
            choice: What is decided for the holder.
            group: Its tools, in the order of its seats.
            run: The run that keeps what was computed before.
        """
        own = {tool.identity: tool for tool in group}
        holder = next((one for one in self.holders if own.keys() & set(one.known.tools)), None)
        if holder is None or not own.keys() <= set(holder.known.tools):
            return group
        whole = {**self.gone, **own}
        if any(one not in whole for one in holder.known.tools):
            return group
        members = tuple([whole[one] for one in holder.known.tools])
        same_order = [tool for tool in members if not tool.gone] == list(group)
        if members == group or (choice.together and not same_order):
            return group
        try:
            made = run.need(SHAPED, choice.recipe_of(members, run))
        except (DesignError, InputError):
            return group
        return members if made.mark == holder.mark(run) else group


def _gone(name: str, identity: str, seat: SeatRecipe, *, position: int, run: Run) -> OwnedTool:
    body, kind = run.need(BODY, seat), KINDS[seat.kind]
    return OwnedTool(
        name=name,
        body=body,
        measures=tuple(sorted(seat.measures.items())),
        weighed_kg=seat.mass_kg,
        use="seldom",
        group="",
        fit=None,
        outline=seat.shape,
        keep_cool=kind.keep_cool,
        properties=kind.properties_of(body.mass_kg, None),
        position=position,
        unnumbered=name,
        identity=identity,
        left=seat,
    )
