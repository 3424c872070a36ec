"""Densities by which tools are weighed on paper, until somebody weighs them for real."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.source import Evidence, Source


@dataclass(frozen=True)
class Material:
    """A density in kg/m3 and where it comes from."""

    name: str
    density_kg_m3: float
    source: Source


def _memory(name: str, density_kg_m3: float, document: str) -> Material:
    return Material(name, density_kg_m3, Source(document, "density", Evidence.MEMORY))


def _choice(name: str, density_kg_m3: float, why: str) -> Material:
    return Material(name, density_kg_m3, Source("Mass estimate", why, Evidence.CHOICE))


STEEL = _memory("steel", 7850.0, "Steel tables")
WOOD = _memory("ash or hickory", 720.0, "Timber handbooks")
PLASTIC = _memory("handle plastic", 1200.0, "Plastics handbooks")
SOFTWOOD = _memory("softwood", 420.0, "EN 338, class C24, mean")
ALUMINIUM = _memory("aluminium", 2700.0, "Metal tables")
LIQUID = _memory("water", 1000.0, "Physics handbooks")
BUNDLE = _choice("bundle", 1400.0, "plastic tube and steel wire with air between the turns")
TAPE = _choice("roll of tape", 1000.0, "plastic film and glue on a core of board")
CLOTH = _choice("cloth", 200.0, "cloth or thin leather, folded with air between")
MIXED = _choice("mixed", 1200.0, "a thing of unknown make: plastic and wood with some steel")
PAPER = _choice("roll of paper", 900.0, "paper of 800 kg/m3 and some foil or film")
SMALL_PARTS = _choice("small parts", 2000.0, "a box half full of loose steel screws")
MOTOR = _choice("motor and gears", 1600.0, "a plastic shell around copper, steel and air")
CELLS = _choice("battery pack", 1300.0, "lithium cells of 2700 kg/m3 fill half of the case")
SEALANT = _choice("sealant", 1500.0, "silicone is about 1000, filled acrylic up to 1700")

MATERIALS = (
    STEEL,
    WOOD,
    SOFTWOOD,
    PLASTIC,
    LIQUID,
    BUNDLE,
    SMALL_PARTS,
    MOTOR,
    CELLS,
    SEALANT,
    ALUMINIUM,
    TAPE,
    PAPER,
    CLOTH,
    MIXED,
)
