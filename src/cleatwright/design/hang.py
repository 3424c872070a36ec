"""How a holder shall hang: mount, joint and carrier, with their measures checked."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.base.errors import CleatwrightError, DesignError, MeasureError
from cleatwright.base.gathering import noted, under
from cleatwright.base.place import Path, Place, TableStep, at
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import CARRIED, RAIL_MOUNT
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.joints.registry import GROOVES, JOINTS, WITHOUT_CARRIER, joint
from cleatwright.mounts.registry import MOUNTS, mount
from cleatwright.workshop.document.entries import Carrier, Holder
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.paths import carrier_path, holder_path, panel_path
from cleatwright.workshop.document.surfaces import MAIN

Pairs = tuple[tuple[str, float], ...]
Fixed = tuple[float, float] | None
Named = tuple[str, Path]
"""A name, and the key in the document at which it is written."""


@dataclass(frozen=True)
class Hang:
    """A wish for how to hang.

    Args:
        mount: Name of the mount, that of the carrier if there is one.
        mount_params: Its measures that are not the defaults, sorted.
        joint: Name of the joint.
        joint_params: Its measures that are not the defaults, sorted.
        carrier: Name of the carrier that the owner described, or "".
        panel: Name of the panel on which it hangs.
        fixed: The fixed place, left edge and hang height, if the owner gave one.
        locked: Whether screws keep its carrier from being lifted off a rail.
        wooden: Whether its carrier is of wood, whose hook has no bolt.
    """

    mount: str
    mount_params: Pairs
    joint: str
    joint_params: Pairs
    carrier: str = ""
    panel: str = MAIN
    fixed: Fixed = None
    locked: bool = False
    wooden: bool = False

    @property
    def lifted(self) -> bool:
        """Return True when its tools may only be lifted: a pull could take it off its rail."""
        return mount(self.mount).on_rail and self.wooden and not self.locked

    @property
    def screwed(self) -> bool:
        """Return True when wood screws go into the studs."""
        return mount(self.mount).screwed or self.locked

    @property
    def on_carrier(self) -> bool:
        """Return True when the holder needs a carrier."""
        return self.joint in JOINTS

    @property
    def back_mount(self) -> str:
        """Return the mount whose back it has: in grooves, that of a rail."""
        return RAIL_MOUNT if self.joint == GROOVES else self.mount

    @property
    def holder_mount(self) -> str:
        """Return what a holder's own recipe names as its mount."""
        return CARRIED if self.on_carrier else self.mount


def hang_of(workshop: Workshop, holder: Holder) -> Hang:
    """Return how a holder of the document hangs.

    Raises:
        UnknownNameError: There is no such mount or joint.
        MeasureError: Their measures cannot be.
    """
    if holder.carrier is not None:
        return carrier_hang(workshop, workshop.carrier(holder.carrier))
    place, panel, own = holder.place, workshop.panel_of(holder), holder_path(workshop, holder)
    return _hang(
        workshop,
        _mount_by(workshop, holder.mount, own, panel),
        (holder.joint, (*own, "joint")) if holder.joint else _usual_joint(workshop),
        panel=panel,
        fixed=(place.x_mm, place.z_mm) if place else None,
    )


def hang_on(workshop: Workshop, panel: str) -> Hang:
    """Return how a holder hangs on a panel when the document leaves it open.

    Raises:
        UnknownNameError: There is no such mount or joint.
        MeasureError: Their measures cannot be.
    """
    return _hang(
        workshop, _mount_by(workshop, None, (), panel), _usual_joint(workshop), panel=panel
    )


def _mount_by(workshop: Workshop, wanted: str | None, own: Path, panel: str) -> Named:
    """Return the mount of a holder or carrier, and where it is named."""
    if wanted:
        return wanted, (*own, "mount")
    on_panel = workshop.surface(panel).mount
    if on_panel:
        return on_panel, (*panel_path(workshop, panel), "mount")
    return workshop.defaults.mount, ("defaults", "mount")


def _usual_joint(workshop: Workshop) -> Named:
    return workshop.defaults.joint, ("defaults", "joint")


def carrier_hang(workshop: Workshop, carrier: Carrier) -> Hang:
    """Return how a carrier of the document hangs.

    Raises:
        DesignError: Its joint leaves it nothing to carry.
    """
    place, own = carrier.place, carrier_path(workshop, carrier.name)
    if carrier.joint in WITHOUT_CARRIER:
        raise DesignError(
            f'the carrier "{carrier.name}" has nothing to carry: a holder with '
            f'joint = "{carrier.joint}" hangs without one',
            place=at(*own, "joint"),
            allowed=", ".join(sorted(JOINTS)),
            todo="Choose one of these joints, or delete the carrier",
        )
    panel = workshop.panel_of(carrier)
    hang = _hang(
        workshop,
        _mount_by(workshop, carrier.mount, own, panel),
        (carrier.joint, (*own, "joint")),
        panel=panel,
        fixed=(place.x_mm, place.z_mm) if place else None,
    )
    locked = carrier.params.as_dict().get("screw_count", 0.0) >= 1.0
    if locked:
        _require_wood(workshop, panel, "the screws that lock a carrier", at(*own, "params"))
    return replace(hang, carrier=carrier.name, locked=locked, wooden=carrier.made_of == "wood")


def _hang(
    workshop: Workshop,
    mount_named: Named,
    joint_named: Named,
    *,
    panel: str,
    fixed: Fixed = None,
) -> Hang:
    (mount_name, mount_at), (joint_name, joint_at) = mount_named, joint_named
    hung, interface = mount(mount_name, place=at(*mount_at)), joint(joint_name, place=at(*joint_at))
    with under("mount", TableStep(None, mount_name)):
        of_mount = checked_params(
            "mount", mount_name, hung.params, workshop.sizes_of("mount", mount_name)
        )
    if hung.screwed:
        _require_wood(workshop, panel, f'the screws of "{mount_name}"', at(*mount_at))
    if joint_name == GROOVES and not hung.on_rail and hung.in_grooves is None:
        raise DesignError(
            f'no plates in the grooves of a back go on the mount "{mount_name}"',
            place=at(*joint_at),
            allowed=", ".join(one.name for one in MOUNTS.values() if one.on_rail or one.in_grooves),
            todo="Choose another joint, or another mount",
        )
    of_joint: Pairs = ()
    if interface is not None:
        with under("joint", TableStep(None, joint_name)):
            of_joint = checked_params(
                "joint", joint_name, interface.params, workshop.sizes_of("joint", joint_name)
            )
    return Hang(
        mount=mount_name,
        mount_params=of_mount,
        joint=joint_name,
        joint_params=of_joint,
        panel=panel,
        fixed=fixed,
    )


def _require_wood(workshop: Workshop, panel: str, screws: str, place: Place) -> None:
    """Refuse wood screws of a holder or a carrier in a wall that takes none."""
    made_of = workshop.surface(panel).made_of
    if workshop.surface(panel).takes_anchors:
        what = "a wall that nobody knows" if made_of == "unknown" else made_of
        raise DesignError(
            f"{screws} are wood screws, and {what} takes none",
            place=place,
            allowed='panels with made_of = "studs" or "solid wood"',
            todo="Hang it on a rail, or anchor a board to the wall with qualified advice and "
            'describe that board as a [[panel]] with made_of = "solid wood"',
        )


def unknown_tables(workshop: Workshop) -> tuple[CleatwrightError, ...]:
    """Return what is wrong with the tables of mounts, joints and carriers, each by itself."""
    faults: list[CleatwrightError] = []
    for one in workshop.mounts:
        here = ("mount", TableStep(None, one.name))
        with noted(faults):
            known = mount(one.name, place=at(*here, spoken="table"))
            with under(*here):
                checked_params("mount", one.name, known.params, one.params.as_dict())
    for one in workshop.joints:
        here = ("joint", TableStep(None, one.name))
        with noted(faults):
            interface = joint(one.name, place=at(*here, spoken="table"))
            if interface is None:
                raise MeasureError(
                    f"the joint {one.name} has no measures",
                    place=at(*here, spoken="table"),
                    todo="Delete the table",
                )
            with under(*here):
                checked_params("joint", one.name, interface.params, one.params.as_dict())
    for carrier in workshop.carriers:
        with noted(faults):
            carrier_hang(workshop, carrier)
        with noted(faults), under(*carrier_path(workshop, carrier.name), "params"):
            checked_params("carrier", carrier.name, CarrierParams, carrier.params.as_dict())
    return tuple(faults)
