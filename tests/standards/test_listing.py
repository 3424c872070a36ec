"""The list of everything that came from outside."""

import pytest

from cleatwright.base.errors import UnknownNameError
from cleatwright.base.source import Evidence
from cleatwright.jobs.sources import all_values
from cleatwright.standards.fasteners.iso_273 import CLEARANCE_HOLES
from cleatwright.standards.materials.polymers import DENSITIES, density_kg_m3
from cleatwright.standards.table import Table


# Processes 2025, 13(9), 2733 for PLA (1.24 to 1.25), PETG and ABS in g/cm3; ASA from memory
@pytest.mark.parametrize(
    ("polymer", "grams_per_cm3"), [("PLA", 1.24), ("PETG", 1.27), ("ABS", 1.04), ("ASA", 1.07)]
)
def test_densities_are_the_printed_ones(polymer: str, grams_per_cm3: float) -> None:
    assert density_kg_m3(polymer) / 1000.0 == pytest.approx(grams_per_cm3, abs=0.005)
    assert polymer in DENSITIES.keys
    assert len(DENSITIES.keys) == 4


def test_only_the_density_of_asa_is_from_memory() -> None:
    evidence = {e.label.split()[0]: e.source.evidence for e in DENSITIES.listed()}
    assert [k for k, v in evidence.items() if v is Evidence.MEMORY] == ["ASA"]
    assert [k for k, v in evidence.items() if v is Evidence.SEEN] == ["PLA", "PETG", "ABS"]


def test_every_cell_of_every_table_is_listed_once(tables: tuple[Table, ...]) -> None:
    listed = [(entry.name, entry.label) for entry in all_values()]
    assert len(set(listed)) == len(listed)
    cells = {(entry.name, entry.label) for table in tables for entry in table.listed()}
    assert cells <= set(listed)
    assert len(cells) == sum(len(numbers) for table in tables for _, numbers in table.rows)


def test_each_row_has_a_number_for_each_column_and_each_key_is_unique(
    tables: tuple[Table, ...],
) -> None:
    for table in tables:
        assert len(set(table.keys)) == len(table.rows)
        assert {len(numbers) for _, numbers in table.rows} == {len(table.columns)}


def test_the_chipboard_head_is_listed_as_remembered() -> None:
    entry = next(e for e in all_values() if "head diameter" in e.label)
    assert (entry.value, entry.source.evidence) == (2.0, Evidence.MEMORY)


def test_a_column_that_does_not_exist_is_named() -> None:
    with pytest.raises(UnknownNameError, match="fine_mm"):
        CLEARANCE_HOLES.value("M3", "snug_mm")
