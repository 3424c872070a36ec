"""Small printed parts that go with a holder: alike for many holders, and printed by themselves."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.shapes.rigid import Rigid


@dataclass(frozen=True)
class Fitting:
    """A fitting, and where it sits.

    Args:
        name: Its name in the register of fittings, such as "hanger".
        measures: The measures that shape it, by name, sorted.
        pose: From its own frame to that of the holder.
    """

    name: str
    measures: tuple[tuple[str, float], ...]
    pose: Rigid
