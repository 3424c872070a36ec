"""Every number of this room in one list, so that what is still from memory can be seen."""

from __future__ import annotations

from cleatwright.standards.body_segments import SEGMENTS, SOLDIERS
from cleatwright.standards.iso_273 import CLEARANCE_HOLES
from cleatwright.standards.iso_4032 import HEX_NUTS, OLD_NUT_FLATS, OLD_NUT_HEIGHTS
from cleatwright.standards.nds_screws import BENDING, GRAVITIES
from cleatwright.standards.niosh_lifting import COUPLING_MULTIPLIERS, FREQUENCY_MULTIPLIERS
from cleatwright.standards.polymers import DENSITIES, STIFFNESS
from cleatwright.standards.printed_strain import PRINTED_STRAINS
from cleatwright.standards.table import Listed, Table
from cleatwright.standards.tool_tables import TOOL_TABLES
from cleatwright.standards.wall_obstacles import OBSTACLES
from cleatwright.standards.wood_screws import CHIPBOARD_HEAD, WOOD_SCREWS

TABLES: tuple[Table, ...] = (
    CLEARANCE_HOLES,
    HEX_NUTS,
    OLD_NUT_HEIGHTS,
    OLD_NUT_FLATS,
    WOOD_SCREWS,
    GRAVITIES,
    BENDING,
    DENSITIES,
    STIFFNESS,
    PRINTED_STRAINS,
    OBSTACLES,
    SEGMENTS,
    SOLDIERS,
    FREQUENCY_MULTIPLIERS,
    COUPLING_MULTIPLIERS,
    *TOOL_TABLES,
)


def all_sources() -> tuple[Listed, ...]:
    """Return every number of the standards with its source, table by table.

    >>> any(entry.label == "M6 medium_mm" for entry in all_sources())
    True
    """
    cells = tuple(entry for table in TABLES for entry in table.listed())
    return (*cells, CHIPBOARD_HEAD)
