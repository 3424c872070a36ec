"""Where what is said of a single tool is written in its table."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.base.place import InDocument, Path, Place


@dataclass(frozen=True)
class Origins:
    """Where the measures of one single tool are written, from its [[tool]] table on.

    Args:
        own: The names of the measures that all its sizes share.
        size: The path of its own size, or ().
        of_size: The names that stand there; they go before those of all sizes.
        nominal: The path of its nominal size, or (); what nobody measured is taken from there.
    """

    own: tuple[str, ...] = ()
    size: Path = ()
    of_size: tuple[str, ...] = ()
    nominal: Path = ()

    def paths(self, path: Path) -> tuple[Path, ...]:
        """Return where a measure or the mass is written really, or where it could be."""
        name = path[-1]
        if path == ("nominal_sizes",) and self.nominal:
            return (self.nominal,)
        if path[0] not in {"measures", "mass"} or not isinstance(name, str):
            return (path,)
        if name in self.of_size:
            return ((*self.size, name),)
        if path[0] == "mass" or name in self.own:
            return (path,)
        if self.nominal:
            return (self.nominal, path)
        return (path, (*self.size, name)) if self.size else (path,)

    def placed(self, place: Place) -> Place:
        """Return the place of a fault of the tool as it is written."""
        if not isinstance(place, InDocument):
            return place
        found = (real for path in place.paths for real in self.paths(path))
        return replace(place, paths=tuple(dict.fromkeys(found)))


NOTHING_WRITTEN = Origins()
