"""Things that other installed packages add: families, kinds and mounts, by entry point.

A package that cannot be used is named and left out; it never stops the program.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import EntryPoint
from typing import Any, Generic, TypeVar

from packaging.utils import InvalidName, canonicalize_name

from cleatwright.base.errors import Cancelled, CleatwrightError, DesignError, UnknownNameError
from cleatwright.base.offers import offers
from cleatwright.base.place import NOWHERE, InDocument
from cleatwright.base.registry import Named, picked
from cleatwright.base.unheard import silenced
from cleatwright.base.visible import visible

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
    found_in = sorted(offers(group), key=lambda one: (_said(one[1]), one[0]))
    for package, point in found_in:
        if isinstance(point, str):
            left_out.append(LeftOut(group, "entry_points.txt", package, point))
            continue
        found = _loaded(point, package, wanted, fault_of)
        if isinstance(found, str):
            fault = found
        elif found.name in taken or found.name in things:
            fault = f'the name "{found.name}" is taken'
        else:
            things[found.name] = found
            origins.append(Origin(found.name, package))
            continue
        left_out.append(LeftOut(group, point.name, package, fault))
    return PlugIns(tuple(things.values()), tuple(origins), tuple(left_out))


def _loaded(
    point: EntryPoint,
    package: str,
    wanted: type[Thing],
    fault_of: Callable[[Thing], str] | None,
) -> Thing | str:
    """Return what an entry point names, or what is wrong with it; what it prints is dropped."""
    try:
        with silenced():
            found = point.load()
            if not isinstance(found, wanted):
                return f"{point.value} is no {wanted.__name__}"
            if not is_a(found.name, str) or not NAME.fullmatch(found.name):
                return f"its name is {found.name!r}, and not lower-case letters, digits and hyphens"
            fault = fault_of(found) if fault_of else ""
    except KeyboardInterrupt:
        raise Cancelled(
            f"stopped while the package {visible(package)} was being loaded",
            todo="Run the same command again; if it stops there again, remove or mend the package",
        ) from None
    # another package may fail in any way, and may try to end the program
    except BaseException as error:  # noqa: BLE001
        return f"it cannot be loaded ({what_failed(error)})"
    return fault or found


def picked_or_left_out(
    what: str,
    name: str,
    registry: Mapping[str, Thing],
    *,
    left_out: Sequence[LeftOut],
    place: InDocument = NOWHERE,
) -> Thing:
    """Return the thing of a name.

    Raises:
        UnknownNameError: There is none; when a package offers it and was left out, with the reason.
    """
    if (found := registry.get(name)) is not None:
        return found
    gone = next((one for one in left_out if one.name == name), None)
    if gone is None:
        return picked(what, name, registry, place=place)
    raise UnknownNameError(
        f'The {what} "{name}" of the package {visible(gone.package)} was left out: '
        f"{visible(gone.fault)}",
        place=place,
        todo=f"Mend or renew the package, or name another {what}",
    )


def shielded(call: Callable[..., Made], wanted: type[Made], *, what: str) -> Callable[..., Made]:
    """Return a call into another package of which each failure is a design error that names it.

    What it prints is dropped: our own output may be read by a program.

    Args:
        call: The call.
        wanted: The type of what it gives.
        what: What it belongs to, such as "the mount hook-strip".
    """

    def safe(*arguments: Any, **named: Any) -> Made:
        try:
            with silenced():
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


def _said(point: EntryPoint | str) -> tuple[str, str]:
    return ("", point) if isinstance(point, str) else (point.name, point.value)
