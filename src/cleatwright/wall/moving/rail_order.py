"""When rails are taken down and screwed on among the moves of the holders."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cleatwright.wall.conflicts import overlap
from cleatwright.wall.model import Place
from cleatwright.wall.moving.moves import Move
from cleatwright.wall.moving.rail_moves import RailMove
from cleatwright.wall.rail import Rail, Rect

Graph = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class HangsNow:
    """One holder where it hangs while the rails are changed.

    Args:
        name: A name for people.
        panel: The panel.
        place: Its place there.
        room: The room (x0, x1, z0, z1) that it takes there.
    """

    name: str
    panel: str
    place: Place
    room: Rect


@dataclass(frozen=True)
class RailWork:
    """What happens to the rails."""

    moves: tuple[RailMove, ...] = ()

    @property
    def down(self) -> dict[str, Rail]:
        """Return the rails that come down, by their keys."""
        return {one.key: one.before for one in self.moves if one.before and not one.after}

    @property
    def new(self) -> dict[str, Rail]:
        """Return the rails that are new, by their keys."""
        return {one.key: one.after for one in self.moves if one.after and not one.before}

    def loses_its_rail(self, move: Move) -> bool:
        """Return whether the rail on which something hangs now comes down."""
        return _under(self.down, move) != ()

    def blockers(self, movers: Sequence[Move], now: Mapping[str, Rect]) -> Graph:
        """Return for rails, and for holders that go on new ones, what must be done before.

        A rail comes down when nothing hangs on it; a new one is screwed on when its place is free
        of holders and of rails that come down, and before anything hangs on it.

        Args:
            movers: The holders that move or must be taken off, with any rail.
            now: The room (x0, x1, z0, z1) that each of them takes now, by its key.
        """
        graph: dict[str, tuple[str, ...]] = {}
        for key, rail in self.down.items():
            graph[key] = tuple(one.key for one in movers if one.key in rail.carries)
        for key, rail in self.new.items():
            holders = [
                one.key
                for one in movers
                if one.panel_before == rail.panel and overlap(rail.strip, now[one.key])
            ]
            rails = [
                other
                for other, old in self.down.items()
                if old.panel == rail.panel and overlap(rail.strip, old.strip)
            ]
            graph[key] = (*holders, *rails)
        for one in movers:
            graph[one.key] = _under(self.new, one)
        return graph

    def in_front(self, key: str, hanging: Iterable[HangsNow]) -> tuple[str, ...]:
        """Return the names of those holders that hang before a rail without hanging on it."""
        rail = {**self.down, **self.new}[key]
        return tuple(
            one.name
            for one in hanging
            if one.panel == rail.panel
            and overlap(rail.strip, one.room)
            and not rail.is_under(one.panel, one.place.x_mm, one.place.z_mm)
        )


def _under(rails: Mapping[str, Rail], move: Move) -> tuple[str, ...]:
    """Return the keys of the rails on which something hangs."""
    return tuple(key for key, rail in rails.items() if move.key in rail.carries)
