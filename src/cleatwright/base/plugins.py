"""Things that other installed packages add: families, kinds and mounts, by entry point.

A package that cannot be used is named and left out; it never stops the program.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from importlib.metadata import EntryPoint, entry_points
from typing import Generic, TypeVar

from cleatwright.base.registry import Named

Thing = TypeVar("Thing", bound=Named)


@dataclass(frozen=True)
class LeftOut:
    """A thing that another package offers and that cannot be used.

    Args:
        group: The group of entry points.
        name: The name of the entry point.
        package: The package that offers it.
        fault: What is wrong, in one sentence.
    """

    group: str
    name: str
    package: str
    fault: str

    @property
    def sentence(self) -> str:
        """Return the whole message."""
        return f"{self.package} is left out of {self.group}: {self.name}: {self.fault}"


@dataclass(frozen=True)
class Origin:
    """Which package offers a thing."""

    name: str
    package: str


@dataclass(frozen=True)
class PlugIns(Generic[Thing]):
    """What other packages add, where it comes from, and what had to be left out."""

    things: tuple[Thing, ...]
    origins: tuple[Origin, ...]
    left_out: tuple[LeftOut, ...]


def plug_ins(group: str, wanted: type[Thing], *, taken: Container[str]) -> PlugIns[Thing]:
    """Return the things that installed packages offer under a group of entry points.

    Args:
        group: The group, such as "cleatwright.families".
        wanted: The type that each must have.
        taken: Names that are taken already.
    """
    things: dict[str, Thing] = {}
    origins: list[Origin] = []
    left_out: list[LeftOut] = []
    for point in sorted(entry_points(group=group), key=lambda p: (p.name, p.value)):
        found = _loaded(point, wanted)
        if isinstance(found, str):
            fault = found
        elif found.name in taken or found.name in things:
            fault = f'the name "{found.name}" is taken'
        else:
            things[found.name] = found
            origins.append(Origin(found.name, _package(point)))
            continue
        left_out.append(LeftOut(group, point.name, _package(point), fault))
    return PlugIns(tuple(things.values()), tuple(origins), tuple(left_out))


def _loaded(point: EntryPoint, wanted: type[Thing]) -> Thing | str:
    """Return what an entry point names, or what is wrong with it."""
    try:
        found = point.load()
    except Exception as error:  # noqa: BLE001 - another package may fail in any way
        return f"it cannot be loaded ({type(error).__name__}: {error})"
    if not isinstance(found, wanted):
        return f"{point.value} is no {wanted.__name__}"
    return found


def _package(point: EntryPoint) -> str:
    return point.dist.name if point.dist is not None else point.module
