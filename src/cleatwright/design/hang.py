"""How a holder shall hang: mount, joint and carrier, with their measures checked."""

from __future__ import annotations

from dataclasses import dataclass

from cleatwright.base.errors import DesignError, MeasureError
from cleatwright.design.params import checked_params
from cleatwright.design.recipe import CARRIED
from cleatwright.mounts.joints.registry import JOINTS, ONE_PIECE, joint
from cleatwright.mounts.registry import mount
from cleatwright.workshop.document.entries import Carrier, Holder
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN

Pairs = tuple[tuple[str, float], ...]
Fixed = tuple[float, float] | None


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
    """

    mount: str
    mount_params: Pairs
    joint: str
    joint_params: Pairs
    carrier: str = ""
    panel: str = MAIN
    fixed: Fixed = None
    locked: bool = False

    @property
    def lifted(self) -> bool:
        """Return True when its tools may only be lifted: a pull could take it off its rail."""
        return mount(self.mount).on_rail and not self.locked

    @property
    def screwed(self) -> bool:
        """Return True when wood screws go into the studs."""
        return mount(self.mount).screwed or self.locked

    @property
    def on_carrier(self) -> bool:
        """Return True when the holder needs a carrier."""
        return self.joint != ONE_PIECE

    @property
    def holder_mount(self) -> str:
        """Return what a holder's own recipe names as its mount."""
        return CARRIED if self.on_carrier else self.mount


def hang_of(workshop: Workshop, holder: Holder, *, where: str) -> Hang:
    """Return how a holder of the document hangs.

    Raises:
        UnknownNameError: There is no such mount or joint.
        MeasureError: Their measures cannot be.
    """
    if holder.carrier is not None:
        return carrier_hang(workshop, workshop.carrier(holder.carrier), where=where)
    place, panel = holder.place, workshop.panel_of(holder)
    return _hang(
        workshop,
        holder.mount or _mount_on(workshop, panel),
        holder.joint or workshop.defaults.joint,
        panel=panel,
        fixed=(place.x_mm, place.z_mm) if place else None,
        where=where,
    )


def hang_on(workshop: Workshop, panel: str, *, where: str) -> Hang:
    """Return how a holder hangs on a panel when the document leaves it open.

    Raises:
        UnknownNameError: There is no such mount or joint.
        MeasureError: Their measures cannot be.
    """
    own = workshop.surface(panel).mount
    return _hang(
        workshop,
        _mount_on(workshop, panel),
        workshop.defaults.joint,
        panel=panel,
        where=f'{where}, panel "{panel}"' if own else f"{where}, defaults",
    )


def _mount_on(workshop: Workshop, panel: str) -> str:
    return workshop.surface(panel).mount or workshop.defaults.mount


def carrier_hang(workshop: Workshop, carrier: Carrier, *, where: str) -> Hang:
    """Return how a carrier of the document hangs.

    Raises:
        DesignError: Its joint leaves it nothing to carry.
    """
    place = carrier.place
    if carrier.joint == ONE_PIECE:
        raise DesignError(
            "a holder in one piece needs no carrier",
            where=f'{where}, carrier "{carrier.name}"',
            allowed=", ".join(sorted(JOINTS)),
            todo="Choose one of these joints, or delete the carrier",
        )
    panel = workshop.panel_of(carrier)
    return _hang(
        workshop,
        carrier.mount or _mount_on(workshop, panel),
        carrier.joint,
        panel=panel,
        carrier=carrier.name,
        fixed=(place.x_mm, place.z_mm) if place else None,
        locked=carrier.params.as_dict().get("screw_count", 0.0) >= 1.0,
        where=f'{where}, carrier "{carrier.name}"',
    )


def _hang(
    workshop: Workshop,
    mount_name: str,
    joint_name: str,
    *,
    where: str,
    panel: str,
    carrier: str = "",
    fixed: Fixed = None,
    locked: bool = False,
) -> Hang:
    hung, meeting = mount(mount_name, where=where), joint(joint_name, where=where)
    of_mount = workshop.sizes_of("mount", mount_name)
    of_joint = workshop.sizes_of("joint", joint_name)
    return Hang(
        mount=mount_name,
        mount_params=checked_params(
            "mount", mount_name, hung.params, of_mount, where=f"{where}, mount.{mount_name}"
        ),
        joint=joint_name,
        joint_params=()
        if meeting is None
        else checked_params(
            "joint", joint_name, meeting.params, of_joint, where=f"{where}, joint.{joint_name}"
        ),
        carrier=carrier,
        panel=panel,
        fixed=fixed,
        locked=locked,
    )


def require_known(workshop: Workshop, *, where: str) -> None:
    """Refuse tables of mounts and joints that do not exist."""
    for one in workshop.mounts:
        mount(one.name, where=f"{where}, mount.{one.name}")
    for one in workshop.joints:
        if joint(one.name, where=f"{where}, joint.{one.name}") is None:
            raise MeasureError(
                f"the joint {ONE_PIECE} has no measures",
                where=f"{where}, joint.{one.name}",
                todo="Delete the table",
            )
