"""What mostly lies between a wall's face and its studs."""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

PLASTERBOARD_MM = 12.5
PLASTERBOARD = Source("EN 520", "plasterboard, usual thickness", Evidence.MEMORY)

VALUES = (Listed("Default lining", "mm", PLASTERBOARD_MM, PLASTERBOARD),)
