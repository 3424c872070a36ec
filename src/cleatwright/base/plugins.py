"""Things that other installed packages add: families, kinds and mounts, by entry point.

A package that cannot be used is named and left out; it never stops the program.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container
from dataclasses import dataclass
from importlib.metadata import EntryPoint, entry_points
from typing import Any, Generic, TypeVar

from packaging.utils import InvalidName, canonicalize_name

from cleatwright.base.errors import CleatwrightError, DesignError
from cleatwright.base.registry import Named

Thing = TypeVar("Thing", bound=Named)
Made = TypeVar("Made")
NAME = re.compile(r"[a-z][a-z0-9-]{0,59}")


def package_name(text: str) -> str:
    """Return the normal form of the name of a package, or "" for a text that is none.

    Source: PEP 508, names, and PEP 503, normalized names, as the library ``packaging`` has them.

    >>> package_name("Tin_Shelf"), package_name("tin; curl evil | sh")
    ('tin-shelf', '')
    """
    try:
        return str(canonicalize_name(text, validate=True))
    except InvalidName:
        return ""


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


def plug_ins(
    group: str,
    wanted: type[Thing],
    *,
    taken: Container[str],
    fault_of: Callable[[Thing], str] | None = None,
) -> PlugIns[Thing]:
    """Return the things that installed packages offer under a group of entry points.

    Args:
        group: The group, such as "cleatwright.families".
        wanted: The type that each must have.
        taken: Names that are taken already.
        fault_of: Tries a thing, and says what is wrong with it, or "".
    """
    things: dict[str, Thing] = {}
    origins: list[Origin] = []
    left_out: list[LeftOut] = []
    for point in sorted(entry_points(group=group), key=lambda p: (p.name, p.value)):
        found = _loaded(point, wanted, fault_of)
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


def _loaded(
    point: EntryPoint, wanted: type[Thing], fault_of: Callable[[Thing], str] | None
) -> Thing | str:
    """Return what an entry point names, or what is wrong with it."""
    try:
        found = point.load()
        if not isinstance(found, wanted):
            return f"{point.value} is no {wanted.__name__}"
        if not is_a(found.name, str) or not NAME.fullmatch(found.name):
            return f"its name is {found.name!r}, and not lower-case letters, digits and hyphens"
        fault = fault_of(found) if fault_of else ""
    except KeyboardInterrupt:
        raise
    # another package may fail in any way, and may try to end the program
    except BaseException as error:  # noqa: BLE001
        return f"it cannot be loaded ({what_failed(error)})"
    return fault or found


def shielded(call: Callable[..., Made], wanted: type[Made], *, what: str) -> Callable[..., Made]:
    """Return a call into another package of which each failure is a design error that names it.

    Args:
        call: The call.
        wanted: The type of what it gives.
        what: What it belongs to, such as "the mount hook-strip".
    """

    def safe(*arguments: Any, **named: Any) -> Made:
        try:
            made: object = call(*arguments, **named)
        except (CleatwrightError, KeyboardInterrupt):
            raise
        # another package may fail in any way, and may try to end the program
        except BaseException as error:
            raise _failed(call, what, what_failed(error)) from error
        if not isinstance(made, wanted):
            fault = f"it gives {type(made).__name__}, and no {wanted.__name__}"
            raise _failed(call, what, fault)
        return made

    return safe


def is_a(value: object, wanted: type) -> bool:
    """Tell whether a value of another package, whose types nobody checked, is what it must be."""
    return isinstance(value, wanted)


def is_kind_of(value: object, wanted: type) -> bool:
    """Tell the same of a type."""
    return isinstance(value, type) and issubclass(value, wanted)


def package_of(call: Callable[..., object]) -> str:
    """Return the place of a call in another package, for messages."""
    return f"package of {getattr(call, '__module__', 'unknown')}"


def _failed(call: Callable[..., object], what: str, fault: str) -> DesignError:
    return DesignError(
        f"{what} failed ({fault})",
        where=package_of(call),
        todo="Tell whoever wrote it, or choose another one",
    )


def what_failed(error: BaseException) -> str:
    """Return the type of an error and its text, if it has a text that can be had."""
    try:
        text = str(error)
    except KeyboardInterrupt:
        raise
    except BaseException:  # noqa: BLE001 - the error of another package may fail itself
        text = ""
    return f"{type(error).__name__}: {text}" if text else type(error).__name__


def _package(point: EntryPoint) -> str:
    return point.dist.name if point.dist is not None else point.module
