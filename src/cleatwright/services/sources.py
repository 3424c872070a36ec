"""Where the values from outside come from, over all rooms."""

from __future__ import annotations

import importlib
import pkgutil

from cleatwright.base.source import Evidence, Source
from cleatwright.parts.mark_room import LEAST_CAP_MM
from cleatwright.services.building import FILLED_SHARE, FILLING, SOLID_DENSITY_KG_MM3
from cleatwright.services.hardware import OUTSIDE_STUDS
from cleatwright.services.marking import CAPITALS
from cleatwright.services.rail_screws import (
    PENETRATION_DIAMETERS,
    RAIL_SCREW_MM,
    RAIL_SCREW_RULE,
    RAIL_SCREW_SIZE,
    SCREWS_A_STUD,
)
from cleatwright.standards.body_segments import HALF_BODY_MM, HALF_BODY_SOURCE
from cleatwright.standards.linings import PLASTERBOARD
from cleatwright.standards.listing import all_sources
from cleatwright.standards.table import Listed
from cleatwright.tools.material import MATERIALS
from cleatwright.wall import reach
from cleatwright.workshop.sections import FitRules
from cleatwright.workshop.surfaces import Stud, Wall

UNSEEN = (Evidence.MEMORY, Evidence.PRACTICE)
PLAY = Source("play of the classes of fit", "until a coupon gives your own", Evidence.PRACTICE)
STUD = Source("PS 20, nominal 2x4", "dressed thickness", Evidence.SECONDARY)
PER_M3 = 1e9
ROOMS = (
    *("standards", "parts", "tools", "holders", "mounts", "checks", "wall", "printing", "timber"),
    *("reports", "services"),
)


def source_rows(*, unseen: bool) -> tuple[tuple[str, str, str], ...]:
    """Return (table, value, source) for every value, or for those that nobody looked up."""
    values = tuple(
        (entry.name, f"{entry.label}: {entry.value:g}", entry.source)
        for entry in (*all_sources(), *listed_elsewhere())
    )
    told = {source for _, _, source in values}
    rules = tuple(row for row in rule_sources() if row[2] not in told)
    return tuple(
        (table, value, str(source))
        for table, value, source in (*values, *rules)
        if not unseen or source.evidence in UNSEEN
    )


def rule_sources() -> tuple[tuple[str, str, Source], ...]:
    """Return (room, module, source) for every source that stands beside a rule in the code."""
    found: dict[Source, tuple[str, str]] = {}
    for room in ROOMS:
        package = importlib.import_module(f"cleatwright.{room}")
        for info in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            module = importlib.import_module(info.name)
            for value in vars(module).values():
                if isinstance(value, Source) and value.evidence is not Evidence.CHOICE:
                    found.setdefault(value, (room, info.name.rpartition(".")[2].replace("_", " ")))
    return tuple((room, name, source) for source, (room, name) in found.items())


def listed_elsewhere() -> tuple[Listed, ...]:
    """Return the values from outside that stand in no table of a standard."""
    plays = FitRules()
    return (
        *(
            Listed("Mass of tools", f"{one.name} kg/m3", one.density_kg_m3, one.source)
            for one in MATERIALS
        ),
        Listed("Reach", "fist / hand", reach.FIST_SHARE, reach.FIST_SOURCE),
        Listed("Reach", "shoulder off the bench mm", HALF_BODY_MM, HALF_BODY_SOURCE),
        Listed("Reach", "lean deg", reach.LEAN_DEG, reach.LEAN_SOURCE),
        Listed("Reach", "stature mm", reach.STATURE_MM, reach.STATURE_SOURCE),
        Listed("Rail screws", "diameter mm", RAIL_SCREW_MM, RAIL_SCREW_SIZE),
        Listed("Rail screws", "screws a stud", SCREWS_A_STUD, RAIL_SCREW_SIZE),
        Listed("Rail screws", "depth / diameter", PENETRATION_DIAMETERS, RAIL_SCREW_RULE),
        Listed("Rail screws", "studs below which advice is asked", 2, OUTSIDE_STUDS),
        Listed("Default fit", "snug mm", plays.snug_mm, PLAY),
        Listed("Default fit", "easy mm", plays.easy_mm, PLAY),
        Listed("Default fit", "loose mm", plays.loose_mm, PLAY),
        Listed("Default stud", "width mm", Stud(x_mm=0.0).width_mm, STUD),
        Listed(
            "Default lining", "mm", Wall(width_mm=100.0, height_mm=100.0).lining_mm, PLASTERBOARD
        ),
        Listed("Mark", "least cap height mm", LEAST_CAP_MM, CAPITALS),
        Listed("Own weight", "plastic kg/m3", SOLID_DENSITY_KG_MM3 * PER_M3, FILLING),
        Listed("Own weight", "filled share", FILLED_SHARE, FILLING),
    )
