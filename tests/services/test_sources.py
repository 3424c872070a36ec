"""The list of sources is whole, so that what nobody looked up can be seen."""

import importlib
import pkgutil

import cleatwright
from cleatwright.base.source import Source
from cleatwright.services.sources import UNSEEN, source_rows
from cleatwright.tools.material import Material


def unseen_sources() -> set[Source]:
    """Return every source of the program that nobody looked up, wherever it stands."""
    found: set[Source] = set()
    for info in pkgutil.walk_packages(cleatwright.__path__, "cleatwright."):
        if info.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(info.name)).values():
            one = value.source if isinstance(value, Material) else value
            if isinstance(one, Source) and one.evidence in UNSEEN:
                found.add(one)
    return found


def test_every_source_that_nobody_looked_up_is_listed() -> None:
    listed = {source for _, _, source in source_rows(unseen=True)}
    assert {str(source) for source in unseen_sources()} <= listed
    assert any("Steel tables" in str(source) for source in unseen_sources())


def test_the_unseen_are_some_of_all() -> None:
    every, unseen = source_rows(unseen=False), source_rows(unseen=True)
    assert set(unseen) < set(every)
    assert all("memory" in source or "practice" in source for _, _, source in unseen)
    # iron, carbon steel: 7.85 g/cm3 in any steel table; from memory
    assert ("Mass of tools", "steel kg/m3: 7850", "Steel tables, density (from memory)") in unseen
