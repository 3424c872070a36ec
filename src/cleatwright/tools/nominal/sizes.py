"""The nominal sizes of every kind that has some, by the name of the kind."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from cleatwright.base.errors import unknown_name
from cleatwright.base.place import InDocument
from cleatwright.tools.nominal.keys import HEX_BIT_SIZES, HEX_KEY_SIZES, SCREWDRIVER_SIZES
from cleatwright.tools.nominal.nominal import NominalSizes
from cleatwright.tools.nominal.stock import BATTERY_CELL_SIZES, CAN_SIZES, TWIST_DRILL_SIZES
from cleatwright.tools.nominal.wrenches import FLAT_WRENCH_SIZES, SOCKET_SIZES

NOMINAL_SIZES: Mapping[str, NominalSizes] = MappingProxyType(
    {
        "battery-cell": BATTERY_CELL_SIZES,
        "can": CAN_SIZES,
        "flat-wrench": FLAT_WRENCH_SIZES,
        "hex-bit": HEX_BIT_SIZES,
        "hex-key": HEX_KEY_SIZES,
        "screwdriver": SCREWDRIVER_SIZES,
        "socket": SOCKET_SIZES,
        "twist-drill": TWIST_DRILL_SIZES,
    }
)


def nominal_sizes(kind_name: str) -> NominalSizes:
    """Return the nominal sizes of a kind.

    Args:
        kind_name: Name of the kind.

    Raises:
        UnknownNameError: The kind has no nominal sizes.

    >>> nominal_sizes("hex-key").get(5.0).measures
    (('flats', 5.0), ('long_arm', 85.0), ('short_arm', 33.0))
    """
    found = NOMINAL_SIZES.get(kind_name)
    if found is None:
        place = InDocument((("kind",), ("nominal_sizes",)), spoken="first")
        raise unknown_name("kind with nominal sizes", kind_name, NOMINAL_SIZES, place=place)
    return found
