"""What to heed before a rail is hung on masonry or concrete, by what the wall is made of.

Source: common practice, no source; the papers of the anchor and local rules go first.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

DUST = (
    "Drilling masonry raises dust with quartz that harms the lungs: draw it off at the hole or wet "
    "it, and wear a mask for fine dust (FFP3, N100 or better) and eye protection."
)
PAPERS_FIRST = (
    "Anchors hold only in the wall, at the distances and in holes of the size that their own "
    "papers name: read those first, brush and blow each hole clean as they say, and draw the "
    "screws as tight as they say. What carries weight over people is for licensed practice where "
    "local codes say so."
)
DRILLING = (
    "Drill with the dust drawn off, a fine-dust mask and eye protection on, as the anchor's papers "
    "say and off every free edge; try one anchor before you set the others."
)
TRIAL = (
    "Set one anchor first and pull at it with twice what an anchor must bear, from where it cannot "
    "fall on you, before you hang anything. One that turns, comes out or cracks the wall holds "
    "nothing: choose another kind with qualified advice."
)
FREE_EDGES = (
    "Keep the distance of the anchor's papers to every free edge of the wall, also to ducts, "
    "flues and old holes that no drawing shows."
)
BRICK = (
    "Drill into the middle of bricks and not into joints, unless the anchor's papers say "
    "otherwise: old mortar is often soft. Old, soft or crumbling bricks carry less than any table "
    "says: try one anchor and ask qualified advice."
)
HOLLOW = (
    "Drill hollow bricks and blocks without hammer, which breaks their webs, and use anchors whose "
    "papers name that very block: a solid-wall anchor finds no hold in a chamber. Aerated "
    "blocks need anchors of their own."
)
CONCRETE = (
    "Look for reinforcement before you drill concrete and never cut it; prestressed slabs are not "
    "to be drilled at all without the engineer."
)
UNKNOWN = (
    "What this wall is made of is not known: find out before anything hangs on it. Drill one thin "
    "trial hole, away from cables and pipes: red or yellow dust is brick, grey that goes slowly is "
    "concrete, white that goes easily is aerated block or plaster, a drill that falls through "
    "meets a hollow. Ask somebody qualified when in doubt."
)
ANCHORED_UP = (
    "Rails go up with the bevel at the top and its sharp edge to the front, away from the wall. "
    "Heights are measured to that edge. Anchors go where the drawing shows them: in one line along "
    "the rail, never nearer to its ends."
)
IN_A_LINE_UP = (
    "Rails go up with the bevel at the top and its sharp edge to the front, away from the wall. "
    "Heights are measured to that edge. One screw at each place of the drawing, at half of the "
    "rail's height."
)
WOOD_UP = (
    "Rails go up with the bevel at the top and its sharp edge to the front, away from the wall. "
    "Heights are measured to that edge. Two screws at each place of the drawing, at a third and at "
    "two thirds of the rail's height; their points must not come out behind."
)
NOT_KNOWN = (
    "Nobody has said yet what holds these rails safely: cut and print what you like, but hang "
    "nothing before the papers of the fixing say that it bears what the load map asks of each."
)

BY_WALL: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "brick": (BRICK, HOLLOW),
        "block": (HOLLOW,),
        "concrete": (CONCRETE,),
        "unknown": (UNKNOWN, HOLLOW),
    }
)


def before_anchoring(made_of: str) -> tuple[str, ...]:
    """Return what to heed before anchors go into a wall; nothing for one of wood."""
    if made_of not in BY_WALL:
        return ()
    return (*BY_WALL[made_of], DUST, PAPERS_FIRST, FREE_EDGES, TRIAL)


def at_the_drill(made_of: str) -> tuple[str, ...]:
    """Return the same in short, for the sheet that hangs on the wall while it is drilled."""
    return (*BY_WALL[made_of], DRILLING) if made_of in BY_WALL else ()


def rails_up(made_of: str, usual: str, *, lines: int = 2) -> str:
    """Return how rails go up on a wall; as usual on studs with two lines of screws."""
    if made_of in ("studs", "solid wood") and lines == 1:
        return IN_A_LINE_UP
    if made_of == "studs":
        return usual
    return WOOD_UP if made_of == "solid wood" else ANCHORED_UP
