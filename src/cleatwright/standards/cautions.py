"""The cautions of the trade, each for the paper and the screen where they are needed.

Source: common practice, no source; where a local rule or a machine's manual says more, it wins.
"""

from __future__ import annotations

DEFER = (
    "Local building and electrical rules, the manuals of your machines and qualified people "
    "decide; this program does not replace them."
)
PIPES = (
    "Before you drill: look for pipes and cables with a detector, also straight above, below and "
    "beside sockets, switches and taps."
)
FIXING = "Fix rails only into studs or sound masonry. Plasterboard alone carries nothing here."
SCREWING = (
    "Screw holders only into studs or solid wood; on masonry hang them on rails. Plasterboard "
    "alone carries nothing here."
)
BOARD = (
    "See that the board itself is fixed safely before anything hangs on it, and that it carries "
    "all that hangs there."
)
OVERHEAD = (
    "Hang heavy and sharp tools low, edges and points covered or turned to the wall; what falls "
    "from above head height hurts."
)
WALL = (PIPES, FIXING, OVERHEAD)
RAIL_UP = (
    "Rails go up with the bevel at the top and its sharp edge to the front, away from the wall. "
    "Heights are measured to that edge. Two screws in each stud, at a third and at two thirds of "
    "the rail's height."
)
HOOK_IN = (
    "To hang a holder, draw the tab of its bolt to the front, lower its hangers behind the sharp "
    "edge until its back lies flat on the rail, and push the tab to the wall until the bolt is "
    "tight. To take it off, empty it, draw the tab, and lift it straight up. A carrier of "
    "wood has no bolt."
)
HANGERS_IN = (
    "Before you hang a holder, slide its hangers into the groove of its back from the sides until "
    "they stop, and press a pin of filament into the hole above each."
)
SCREW_IN = (
    "A holder with a countersunk hole in place of a bolt: hook it on, drill a pilot hole of 2 mm "
    "through its hole, no deeper than the rail is thick, and drive the screw of the hardware list "
    "until its head is flush, not harder. It stays until the screw is drawn; empty it first."
)
UNPROVEN = (
    "The checks cover the way out, the part as built, the stress in a part that is printed well, "
    "its stand on the cleat, and the screws of rails and of holders straight in the wall, in studs "
    "of sound light softwood. They do not cover layers that came out weak, glue, the bending of "
    "rails, the strength of carriers, or other screws and fixings: hang a new holder at double "
    "load over an empty floor before you trust it."
)
CREEP = "Plastics creep under load, and soften in the warmth."
PLA = (
    "PLA is not for a place that gets warmer than about 45 degrees C (a car, a loft, a sunny shed)."
)
LAYERS = (
    "A part tears most easily between its layers. Overhang, height and layers together decide how "
    "a part lies; one that stands upright or lies on its back is weaker than one on its side."
)
PRINT = (
    "Hot ends and beds burn; let the printer be watched and the room aired. Remove supports with "
    "safety glasses on."
)

SAW = (
    "At the table saw: guard and riving knife on, a push stick in the hand, body and hands out of "
    "the line of the blade, no gloves or loose sleeves. Unplug it before you change blade or tilt."
)
ROUTER = (
    "At the router: clamp the work, feed against the turn of the bit, unplug it to change the bit. "
    "A dovetail bit cuts its full depth at once: clear the groove with a narrower straight bit "
    "first, never lift the dovetail bit in the groove, and let it stop before you draw it back."
)
WEAR = "Wear eye and ear protection, and a dust mask with extraction running."
TRADE = (
    "These are the usual cautions. Local rules, the manual of your machine and licensed practice "
    "decide; if nobody has shown you how to make a cut, leave it to someone who knows."
)


def woodworking() -> tuple[str, ...]:
    """Return the cautions for whoever saws and routs a carrier of wood, on a sheet of its own."""
    return (SAW, ROUTER, WEAR, TRADE)


def routing() -> tuple[str, ...]:
    """Return those of ``woodworking`` that the cautions of the saw's lists do not say."""
    return (ROUTER,)


def before_drilling(*, rails: bool = True, screwed: bool = True) -> tuple[str, ...]:
    """Return what to heed before anything is fixed to a wall.

    Args:
        rails: Whether it has rails.
        screwed: Whether holders are screwed to it straight.
    """
    return (
        *((PIPES,) if rails or screwed else (BOARD,)),
        *((FIXING,) if rails else ()),
        *((SCREWING,) if screwed else ()),
        OVERHEAD,
    )


def hanging(
    *, rails: bool, screwed: bool, put_in: tuple[str, ...], rail_up: str = RAIL_UP
) -> tuple[str, ...]:
    """Return what whoever puts up a wall must know.

    Args:
        rails: Whether it has rails.
        screwed: Whether holders are screwed to it straight.
        put_in: How holders are put in place on what it has.
        rail_up: How rails go up on it.
    """
    up = (rail_up,) if rails else ()
    return (*before_drilling(rails=rails, screwed=screwed), *up, *put_in, DEFER)


def holders(*, rails: bool = True, screwed: bool = True, pla: bool = True) -> tuple[str, ...]:
    """Return the cautions for whoever hangs and loads holders.

    Args:
        rails: As for ``hanging``.
        screwed: As for ``hanging``.
        pla: False where nothing is printed of PLA.
    """
    return (*before_drilling(rails=rails, screwed=screwed), *_load(pla=pla), DEFER)


def printing(*, pla: bool = True) -> tuple[str, ...]:
    """Return the cautions for whoever prints.

    Args:
        pla: False where nothing is printed of PLA.
    """
    return (PRINT, LAYERS, *_load(pla=pla), DEFER)


def _load(*, pla: bool) -> tuple[str, ...]:
    return (UNPROVEN, CREEP, *((PLA,) if pla else ()))
