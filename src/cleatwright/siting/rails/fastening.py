"""What the rails of a panel are fastened with: wood screws, or the anchors of the document.

The one place that asks what a wall is made of; whoever checks, draws or lists asks what is here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cleatwright.base import said
from cleatwright.base.source import Evidence, Source
from cleatwright.checks.rail_loads import SCREW_RULE
from cleatwright.parts.fastening import Fastening
from cleatwright.parts.screw_strength import ScrewStrength
from cleatwright.siting.rails.screws import PENETRATION_DIAMETERS, RAIL_SCREW_MM, rail_screw_mm
from cleatwright.standards.fasteners.anchors import (
    GAMMA_F,
    GAMMA_M,
    INTERACTION,
    Base,
    allowable_n,
)
from cleatwright.standards.fasteners.en_1995_screws import K_MOD
from cleatwright.standards.fasteners.nds_screws import PERMANENT, SEVEN_DAYS, TEN_MINUTES
from cleatwright.standards.fasteners.wood_screws import SCREW_LENGTHS_MM, countersink_mm
from cleatwright.standards.materials.en_338 import WEAKEST, density_kg_m3
from cleatwright.standards.table import Listed
from cleatwright.statics.en_wall_screw import en_strength
from cleatwright.statics.wall_screw import WallScrew
from cleatwright.wall.ground import end_mm
from cleatwright.wall.panel_studs import EN_SCREW_MM
from cleatwright.workshop.document.sections import RailRules
from cleatwright.workshop.document.surfaces import Panel, WallAnchor

# between the point of a screw and the back of a sheet (common practice, no source)
TIP_MM = 2.0
# thinner sheets take thinner screws
SHEET_SCREWS_MM = (5.0, 4.5, 4.0, 3.5)
TIP = Source("a screw's point stays inside a sheet", "", Evidence.PRACTICE)
PAPERS = Source(
    "The anchor's own papers, as the document has them",
    f"out and along together by {INTERACTION.document}: {INTERACTION.clause}",
    Evidence.MEMORY,
)
EN_RULE_OF_SCREWS = Source(
    "EN 1995-1-1:2004",
    "8.28 over 8.38, 8.40b and 8.6; k_mod 0.6, 0.9 with a screw lost or leant on; gamma_M 1.3, "
    "loads by 1.5",
    Evidence.SECONDARY,
    "public calculation sheets that name the clause, with cases worked by hand",
)
VALUES = (
    Listed("Rail screws", "EN 1995, factor of loads", GAMMA_F, EN_RULE_OF_SCREWS),
    Listed("Rail screws", "point before the back of a sheet mm", TIP_MM, TIP),
    Listed("Rail screws", "sum of the shares of an anchor", 1.0, PAPERS),
)
NO_STUD = "it meets no stud, and plasterboard alone carries nothing"
NO_ROOM = "it has no room for a {one} that keeps its distance to the ends of the rail and the wall"


@dataclass(frozen=True)
class RailFastening:
    """What holds the rails of one panel, and what has to be bought and drilled for it.

    Args:
        carries: What one of them may carry, by which rule.
        screw_mm: Diameter of the screw; None where nobody has said it.
        length_mm: Its length from under the rail's front; None where nobody has said it.
        head_mm: How wide its head is sunk into the rail; None where nobody has said it.
        anchor: The anchor of the document; None where wood takes the screws.
    """

    carries: Fastening
    screw_mm: float | None
    length_mm: float | None
    head_mm: float | None
    anchor: WallAnchor | None = None

    @property
    def end_mm(self) -> float:
        """Return how far screws stay off the ends of a rail so that they do not split it."""
        return end_mm(self.screw_mm or RAIL_SCREW_MM)


def fastening_of(rail: RailRules, panel: Panel) -> RailFastening:
    """Return what holds the rails of a panel.

    Args:
        rail: How rails are made.
        panel: The panel.

    Raises:
        MeasureError: No screw on sale is long enough for the studs.
    """
    if panel.made_of == "studs":
        return _in_studs(rail, panel)
    return _in_wood(rail, panel) if panel.made_of == "solid wood" else _in_masonry(rail, panel)


def _wooden(
    panel: Panel, screw: WallScrew | None, place: str, nowhere: str, unknown: str = ""
) -> Fastening:
    """Return wood screws by the rule of a panel; ``unknown`` where there is none."""
    if panel.rule == "NDS 2018":
        strength = ScrewStrength(screw.wooden_out_n, screw.along_n) if screw else None
        days, minutes = SEVEN_DAYS / PERMANENT, TEN_MINUTES / PERMANENT
        return Fastening(
            "screw", strength, SCREW_RULE, place, nowhere, unknown, days=days, minutes=minutes
        )
    timber = panel.timber or WEAKEST
    strength = en_strength(screw, density_kg_m3(timber)) if screw else None
    short = K_MOD["short"] / K_MOD["permanent"]
    return Fastening("screw", strength, EN_RULE_OF_SCREWS, place, nowhere, unknown, short, short)


def _in_studs(rail: RailRules, panel: Panel) -> RailFastening:
    side, lining = rail.thickness_mm, panel.between_mm
    screw = RAIL_SCREW_MM if panel.rule == "NDS 2018" else EN_SCREW_MM
    length = rail_screw_mm(rail_thickness_mm=side, lining_mm=lining, screw_mm=screw)
    carries = _wooden(panel, WallScrew(screw, length, side, lining), "stud", NO_STUD)
    return RailFastening(carries, screw, length, countersink_mm(screw))


def screw_strength(*, rail_thickness_mm: float, lining_mm: float) -> ScrewStrength:
    """Return what one screw of a rail may carry for ever, rail and stud of the same light wood."""
    length = rail_screw_mm(rail_thickness_mm=rail_thickness_mm, lining_mm=lining_mm)
    screw = WallScrew(RAIL_SCREW_MM, length, rail_thickness_mm, lining_mm)
    return ScrewStrength(screw.wooden_out_n, screw.along_n)


def _in_wood(rail: RailRules, panel: Panel) -> RailFastening:
    """Return the thickest screw whose point stays in the wood, six diameters deep."""
    side, between, thick = rail.thickness_mm, panel.between_mm, panel.thickness_mm or 0.0
    nowhere = NO_ROOM.format(one="screw")
    screws_mm = SHEET_SCREWS_MM if panel.rule == "NDS 2018" else (EN_SCREW_MM,)
    for diameter in screws_mm:
        deep = PENETRATION_DIAMETERS * diameter
        for length in SCREW_LENGTHS_MM:
            in_wood = length - side - between
            if deep <= in_wood <= thick - TIP_MM:
                screw = WallScrew(diameter, length, side, between)
                return RailFastening(
                    _wooden(panel, screw, "place", nowhere),
                    diameter,
                    length,
                    countersink_mm(diameter),
                )
    least = PENETRATION_DIAMETERS * screws_mm[-1] + TIP_MM
    unknown = (
        f"no screw on sale is {PENETRATION_DIAMETERS} diameters deep in {said.mm(thick)} of wood "
        f"without its point coming out: it takes {said.least(least)} at the least. Behind a "
        f'thinner sheet are studs: write made_of = "studs", where each is, and '
        f"lining = {said.mm(thick)}"
    )
    return RailFastening(_wooden(panel, None, "place", nowhere, unknown), None, None, None)


def _in_masonry(rail: RailRules, panel: Panel) -> RailFastening:
    anchor = panel.anchor
    unknown = " and ".join(_not_known(rail, panel))
    strength = None if unknown else _allowed(panel, anchor)
    carries = Fastening("anchor", strength, PAPERS, "place", NO_ROOM.format(one="anchor"), unknown)
    if anchor is None:
        return RailFastening(carries, None, None, None)
    return RailFastening(carries, anchor.screw_mm, anchor.screw_length_mm, anchor.head_mm, anchor)


def _allowed(panel: Panel, anchor: WallAnchor | None) -> ScrewStrength | None:
    if anchor is None or anchor.loads is None:
        return None
    tension, shear, base = anchor.tension_n, anchor.shear_n, panel.made_of
    if tension is None or shear is None or base not in ("brick", "block", "concrete"):
        return None
    out, along = (allowable_n(load, anchor.loads, base) for load in (tension, shear))
    return ScrewStrength(out, along, "sum")


def _not_known(rail: RailRules, panel: Panel) -> Iterator[str]:
    """Yield what has to be found out before anybody knows what an anchor of a panel carries."""
    anchor = panel.anchor
    if panel.made_of == "unknown":
        yield "find out first what the wall is made of, and write it as made_of"
        return
    if anchor is None:
        yield (
            f"choose an anchor for {panel.made_of} by its own papers, and write what they say as "
            "[wall.anchor]"
        )
        return
    if anchor.lacking:
        yield f"its papers must say the rest of [wall.anchor]: {', '.join(anchor.lacking)}"
    held = rail.thickness_mm + panel.between_mm
    if anchor.clamp_mm is not None and anchor.clamp_mm < held:
        yield (
            f"by its papers it clamps {said.mm(anchor.clamp_mm)} at the most, and rail and lining "
            f"are {said.mm(held)}: choose a longer one"
        )
    if anchor.screw_length_mm is not None and anchor.embedment_mm is not None:
        needed = held + anchor.embedment_mm
        if anchor.screw_length_mm < needed:
            yield (
                f"its screw of {said.mm(anchor.screw_length_mm)} is too short for rail, lining and "
                f"embedment, {said.least(needed)} together"
            )


def as_allowable(panel: Panel) -> str:
    """Return how the loads of an anchor were turned into allowable ones, as a sentence, or ""."""
    anchor = panel.anchor
    if anchor is None or anchor.loads in (None, "allowable"):
        return ""
    base: Base = panel.made_of if panel.made_of in ("brick", "block", "concrete") else "brick"
    by = f"the partial factor of loads {GAMMA_F:g} (EN 1990, from memory)"
    if anchor.loads == "characteristic":
        by = f"the partial factor {GAMMA_M[base]:g} in {base} (ETAG 020, from memory) and {by}"
    return f"The {anchor.loads} loads of its papers are divided by {by}."
