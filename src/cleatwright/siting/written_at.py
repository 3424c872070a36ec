"""Where in the document what is wrong with a panel, or with what hangs on it, is written.

The wall knows keys of what hangs on it and names of its own measures; the document has tables.
"""

from __future__ import annotations

from collections.abc import Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager

from cleatwright.base.errors import DesignError, InputError
from cleatwright.base.place import InDocument, Path, Place, TableStep
from cleatwright.design.carrying import PlannedUnit, unit_table
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import first_of, panel_path, tool_paths
from cleatwright.workshop.document.surfaces import Panel

# what a wall calls by its own name, and what stands outside the table of a panel
OF_THE_PERSON = {"arm": "arm_reach", "stature": "stature"}


@contextmanager
def written_at(
    workshop: Workshop,
    panel: Panel,
    units: Iterable[PlannedUnit] = (),
    *,
    person: Path = ("person",),
) -> Generator[None]:
    """Put what is wrong with a panel, or with what hangs on it, at its place in the document.

    Args:
        workshop: The document.
        panel: The panel.
        units: What hangs on it.
        person: The table of the person whose reach it is about.
    """
    try:
        yield
    except (InputError, DesignError) as error:
        keys = {unit.key: unit for unit in units}

        def move(place: Place) -> Place:
            if not isinstance(place, InDocument) or place.file:
                return place
            found = [
                path
                for step in place.paths
                for path in _paths(step, workshop=workshop, panel=panel, units=keys, person=person)
            ]
            return first_of(panel_path(workshop, panel.name), *found)

        raise error.moved(move) from error.__cause__


def _paths(
    path: Path,
    *,
    workshop: Workshop,
    panel: Panel,
    units: dict[str, PlannedUnit],
    person: Path,
) -> Iterator[Path]:
    """Yield the paths in the document of what a wall speaks of."""
    first, here = path[0], panel_path(workshop, panel.name)
    if isinstance(first, TableStep):
        if first.name in units:
            yield from unit_paths(workshop, units[first.name])
    elif first in OF_THE_PERSON:
        yield (*person, OF_THE_PERSON[str(first)])
    elif path == ("stud",):
        for number, _ in enumerate(panel.studs):
            yield from ((*here, "stud", TableStep(number), key) for key in ("x", "width"))
    elif path == ("obstacle",):
        for number, one in enumerate(panel.obstacles):
            table = (*here, "obstacle", TableStep(number, one.name))
            yield from ((*table, key) for key in ("x", "z", "width", "height"))
    elif path == ("rail",):
        for number, _ in enumerate(panel.rails):
            yield from ((*here, "rail", TableStep(number), key) for key in ("x", "z_top", "length"))
    else:
        yield (*here, *path)


def unit_paths(workshop: Workshop, unit: PlannedUnit) -> Sequence[Path]:
    """Return the table that says how a unit hangs, its place if it is given, and its tools."""
    table = unit_table(workshop, unit.holders)
    place = [(*table, "place", key) for key in ("x", "z")] if unit.fixed is not None else []
    names = [tool.name for holder in unit.holders for tool in holder.tools]
    return (table, *place, *tool_paths(workshop, names))
