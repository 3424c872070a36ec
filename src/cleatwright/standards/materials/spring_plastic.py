"""The plastic of printed springs: how far it may be strained, and how stiff it is."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.standards.materials.polymers import STIFFNESS, polymer_of
from cleatwright.standards.materials.printed_strain import PRINTED_STRAINS, frequent_strain


@dataclass(frozen=True)
class SpringPlastic:
    """What a spring must know of its plastic.

    Args:
        strain: Strain that it bears again and again, a plain ratio.
        modulus_mpa: Modulus of elasticity.
        why: What was taken and why, as part of a sentence.
    """

    strain: float
    modulus_mpa: float
    why: str


def spring_plastic(material: str) -> SpringPlastic:
    """Return the plastic of springs of a material; the most cautious one where no table has it.

    Args:
        material: The word for the material of a filament; "" when nobody says it.

    >>> spring_plastic("PETG").why
    'the filament is PETG'
    """
    polymer = polymer_of(material)
    if polymer:
        why = f"the filament is {polymer}"
        return SpringPlastic(frequent_strain(polymer), _modulus_mpa(polymer), why)
    brittle = min(PRINTED_STRAINS.keys, key=frequent_strain)
    stiff = max(STIFFNESS.keys, key=_modulus_mpa)
    of_what = f'for "{material}"' if material else "for the material"
    return SpringPlastic(
        frequent_strain(brittle),
        _modulus_mpa(stiff),
        f"as brittle as {brittle} and as stiff as {stiff}, the most cautious of "
        f"{', '.join(STIFFNESS.keys)}: there are no values {of_what}",
    )


def _modulus_mpa(polymer: str) -> float:
    return STIFFNESS.value(polymer, "modulus_mpa")


MOST_CAUTIOUS = spring_plastic("")
"""What is taken as long as nobody says what the part is printed of."""
