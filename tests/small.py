"""A small workshop for a test: a wall with its studs, a printer, a filament, and a few tools."""

from __future__ import annotations

from collections.abc import Iterable

PRINTED = """
[printer.bench]
bed = [220, 220, 200]

[filament.plain]
material = "PETG"
density = 1270
"""


def document(
    name: str, *parts: str, width: float, height: float, studs: Iterable[float], wall: str = ""
) -> str:
    """Return a document: ``wall`` has further lines of its wall, ``parts`` all that follows."""
    places = ", ".join(f"{{ x = {x:g} }}" for x in studs)
    head = f'schema = 1\nname = "{name}"\n\n[wall]\nwidth = {width:g}\nheight = {height:g}\n'
    return f"{head}stud = [{places}]\n{wall}{PRINTED}{''.join(parts)}"


def can(
    name: str, *lines: str, diameter: float, height: float, mass: str, holder: bool = False
) -> str:
    """Return the table of a can with further lines, and with a holder of its own if asked for."""
    measures = f"{{ diameter = {diameter:g}, height = {height:g} }}"
    rows = [
        f'name = "{name}"',
        'kind = "can"',
        f"measures = {measures}",
        f'mass = "{mass}"',
        *lines,
    ]
    own = f'\n[[holder]]\ntools = ["{name}"]\n' if holder else ""
    return "\n[[tool]]\n" + "\n".join(rows) + "\n" + own
