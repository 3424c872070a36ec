"""The joints that come with the program, by name; "one-piece" needs none of them."""

from __future__ import annotations

from collections.abc import Mapping

from cleatwright.base.errors import unknown_name
from cleatwright.base.place import NOWHERE, InDocument
from cleatwright.base.registry import by_name
from cleatwright.mounts.joints import bolted, dovetail
from cleatwright.mounts.joints.joint import Joint

ONE_PIECE = "one-piece"
JOINTS: Mapping[str, Joint] = by_name("joints", (dovetail.JOINT, bolted.JOINT))


def joint(name: str, *, place: InDocument = NOWHERE) -> Joint | None:
    """Return the joint of a name, None for one piece, or raise UnknownNameError."""
    if name == ONE_PIECE:
        return None
    if name not in JOINTS:
        raise unknown_name("joint", name, (ONE_PIECE, *JOINTS), place=place)
    return JOINTS[name]
