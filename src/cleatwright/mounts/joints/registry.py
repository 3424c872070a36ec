"""The joints that come with the program, by name, and the two ways that need no carrier.

In "one-piece" a holder bears its mount on its back. In "grooves" it is made as for a rail, and
plates in the grooves of its back hold it on any other mount.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.errors import unknown_name
from cleatwright.base.place import NOWHERE, InDocument
from cleatwright.base.registry import by_name
from cleatwright.mounts.joints import bolted, dovetail
from cleatwright.mounts.joints.joint import Joint

ONE_PIECE = "one-piece"
GROOVES = "grooves"
WITHOUT_CARRIER: Mapping[str, str] = MappingProxyType(
    {
        ONE_PIECE: "One piece with its mount",
        GROOVES: "Made as for a rail, with plates in the grooves of its back",
    }
)
"""Their titles for people, by name."""
JOINTS: Mapping[str, Joint] = by_name("joints", (dovetail.JOINT, bolted.JOINT))


def joint(name: str, *, place: InDocument = NOWHERE) -> Joint | None:
    """Return the joint of a name, None for one that needs no carrier, or raise UnknownNameError."""
    if name in WITHOUT_CARRIER:
        return None
    if name not in JOINTS:
        raise unknown_name("joint", name, (*WITHOUT_CARRIER, *JOINTS), place=place)
    return JOINTS[name]
