"""The list of sources is whole: documents, copies and values of all that came from outside."""

import importlib
import pkgutil

import cleatwright
from cleatwright.base.source import Evidence, Source
from cleatwright.jobs.sources import UNSEEN, all_values, rule_sources, source_rows
from cleatwright.standards.table import Column, Table
from cleatwright.tools.material import Material

# an equation, or a demand that has no number
WITHOUT_A_NUMBER = {
    "Eq. 12.4-1",
    "Table 1-1, Example 3.1",
    "P (friction + tan a) / (1 - friction tan a)",
    "12.4-1 over 12.2-2, 12.2-6 and Table 12.3.1A; C_D 0.9, 1.25 with a screw lost, 1.6 leant on",
    "12.4-1 over 12.2-2 and Table 12.3.1A with the gap of the lining, C_D 0.9",
    "common practice, no source; for chemicals precautionary statement P102 (from memory)",
}


def sources_in_the_code() -> set[Source]:
    """Return every source of the program, wherever it stands."""
    found: set[Source] = set()
    for info in pkgutil.walk_packages(cleatwright.__path__, "cleatwright."):
        if info.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(info.name)).values():
            if isinstance(value, Source):
                found.add(value)
            elif isinstance(value, Material):
                found.add(value.source)
            elif isinstance(value, Table):
                found |= {one for column in value.columns for one in sources_of(column)}
    return found


def sources_of(column: Column) -> set[Source]:
    return {column.source} | ({column.except_source} if column.except_source else set())


def test_every_source_in_the_code_is_listed() -> None:
    listed = {source for _, _, source in source_rows(unseen=False)}
    assert {str(source) for source in sources_in_the_code()} <= listed
    assert len(listed) > 80


def test_every_source_that_nobody_looked_up_is_listed() -> None:
    listed = {source for _, _, source in source_rows(unseen=True)}
    unseen = {str(one) for one in sources_in_the_code() if one.evidence in UNSEEN}
    assert unseen <= listed
    assert any("Steel tables" in source for source in unseen)


def test_what_was_read_in_a_copy_names_the_copy() -> None:
    for one in sources_in_the_code():
        assert bool(one.copy) == (one.evidence is Evidence.SECONDARY), one


def test_every_rule_that_has_a_number_shows_it() -> None:
    with_value = {entry.source for entry in all_values()}
    for room, module, source in rule_sources():
        if source not in with_value:
            told = f"{room}, {module}: put a Listed with its number beside {source}"
            derived = source.evidence is Evidence.DERIVED
            demand = source.document == "what the family and the mount declare"
            assert derived or demand or source.clause in WITHOUT_A_NUMBER, told


def test_rules_of_choice_are_listed_with_their_values() -> None:
    """The words of the list: light timber in the studs, permanent load, own weights."""
    rows = {(table, value) for table, value, _ in source_rows(unseen=False)}
    assert ("Wall screws", "specific gravity of studs: 0.42") in rows
    assert ("Screws in wood", "permanent load x: 0.9") in rows
    assert ("Own weight", "filled share: 0.4") in rows
    assert ("Own weight", "heavy side, filled share: 1") in rows
    assert ("Magnets", "pull / weight: 2") in rows


def test_the_unseen_are_some_of_all() -> None:
    every, unseen = source_rows(unseen=False), source_rows(unseen=True)
    assert set(unseen) < set(every)
    assert all("memory" in source or "practice" in source for _, _, source in unseen)
    # iron, carbon steel: 7.85 g/cm3 in any steel table; from memory
    assert ("Mass of tools", "steel kg/m3: 7850", "Steel tables, density (from memory)") in unseen
