"""What installed packages offer by entry points, also when one of them is broken."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.metadata import Distribution, EntryPoint, distributions

UNREADABLE = "its list of entry points cannot be read"


def offers(group: str) -> Iterator[tuple[str, EntryPoint | str]]:
    """Yield the name of each package that offers something, with the entry point, or its fault.

    Of two packages with one name the first on the path counts, as when they are imported. A list
    that cannot be read is a fault only when it names the group, or cannot even be opened.
    """
    seen: set[str] = set()
    for package in distributions():
        try:
            found: list[EntryPoint | str] = [
                point for point in package.entry_points if point.group == group
            ]
        # the library lets errors of many kinds through on a broken list
        except Exception:  # noqa: BLE001
            found = [UNREADABLE] if _names(package, group) else []
        if not found:
            continue
        name = _name(package)
        if name not in seen:
            seen.add(name)
            yield from ((name, one) for one in found)


def _names(package: Distribution, group: str) -> bool:
    try:
        return group in (package.read_text("entry_points.txt") or "")
    except (OSError, ValueError):
        return True


def _name(package: Distribution) -> str:
    try:
        return str(package.name)
    # a package without sound metadata has no name
    except Exception:  # noqa: BLE001
        return "a package without a name"
