"""Named things in a fixed order: tool kinds, holder families, mounts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Protocol, TypeVar

from cleatwright.base.errors import DesignError, unknown_name
from cleatwright.base.place import NOWHERE, InDocument


class Named(Protocol):
    """Something with a registry name, lower case with hyphens."""

    @property
    def name(self) -> str:
        """Return the name."""
        ...


Thing = TypeVar("Thing", bound=Named)


def by_name(plural: str, things: Iterable[Thing]) -> Mapping[str, Thing]:
    """Return the things by name, in the order given.

    Raises:
        DesignError: Two have the same name.
    """
    found: dict[str, Thing] = {}
    for one in things:
        if one.name in found:
            raise DesignError(
                f'there are two {plural} "{one.name}"', todo="Rename or remove one of them"
            )
        found[one.name] = one
    return MappingProxyType(found)


def picked(
    what: str, name: str, registry: Mapping[str, Thing], *, place: InDocument = NOWHERE
) -> Thing:
    """Return the thing of a name, or raise UnknownNameError with the nearest valid name."""
    if name not in registry:
        raise unknown_name(what, name, registry, place=place)
    return registry[name]
