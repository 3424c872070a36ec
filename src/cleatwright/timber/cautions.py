"""What can hurt a person who makes the rails, said where the work is described.

The sentences are common practice of the trade, without one source. They come on
top of local rules and the machine's manual, never in their place.
"""

from __future__ import annotations

AUTHORITY = (
    "Local rules, the manual of your machine and qualified people decide. Nothing on this page "
    "overrules them. If nobody has shown you how to make this cut, leave it to someone who knows."
)
GUARDS = (
    "Keep the riving knife and the guard on the saw. A bevel rip closes on the blade like any "
    "other rip and can throw the board back."
)
TILT = (
    "Tilt the blade away from the fence, so that the strip is not trapped between fence and blade. "
    "If your saw tilts the other way, move the fence to the other side of the blade."
)
PUSH = (
    "Use a push stick and keep your hands out of the line of the blade. Stand beside the board, "
    "never behind it. Do not reach over a turning blade, and let it stop before you clear offcuts."
)
BODY = (
    "Wear eye and ear protection, and a dust mask with extraction running. Wear no gloves, loose "
    "sleeves or jewellery at a turning blade."
)
SET_UP = (
    "Unplug the saw before you change the blade, its tilt or the riving knife. Make the first cut "
    "in scrap of the same thickness and check the angle and the width."
)
SOUND_WOOD = (
    "Look for nails, screws, loose knots and twist before you cut. "
    "Support long boards at both ends."
)
HOLD = (
    "Hold or clamp the board against the fence. Never crosscut freehand, and do not use the rip "
    "fence as a stop for a crosscut: the offcut jams and is thrown."
)

BEVEL_RIP = (AUTHORITY, GUARDS, TILT, PUSH, BODY, SET_UP, SOUND_WOOD)
"""The cautions for ripping a bevel at the table saw, the most important first."""

CROSSCUT = (AUTHORITY, HOLD, BODY, SOUND_WOOD)
"""The cautions for cutting to length, the most important first."""
