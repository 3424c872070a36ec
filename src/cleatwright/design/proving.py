"""Does a family keep its promises? The trial that every family of the program passes, too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, product

from cleatwright.base import said
from cleatwright.base.errors import CleatwrightError, DesignError, MeasureError, RailHoldError
from cleatwright.base.said import in_mm
from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart, build
from cleatwright.design.describing import describe
from cleatwright.design.recipe import (
    CARRIED,
    USUAL_MATERIAL,
    USUAL_PRINTER,
    CarrierRecipe,
    Recipe,
    SeatRecipe,
    outline_rows,
)
from cleatwright.design.wall_lines import check_sections, walls_of
from cleatwright.holders.family import Family
from cleatwright.holders.registry import family
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.joints.registry import GROOVES, JOINTS, ONE_PIECE
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.registry import MOUNTS
from cleatwright.printing.support.overhang import check_support_free
from cleatwright.tools.registry import KINDS, ordinary_body, ordinary_outline
from cleatwright.workshop.document.sections import Printer

SCALES = ((1.0,), (0.8, 1.0, 1.3))
PLAY_MM = 0.4
HAND_ROOM_MM = 12.0
# a back without anything behind its plate
FLAT_MOUNT = "wall-screws"
RAIL_MOUNT = "french-cleat"
USUAL_MOUNTS = (RAIL_MOUNT, FLAT_MOUNT)
"""How a family is shown: what may hang on no hook alone is screwed to the wall."""
BACK_DOWN = "-y"
# with all the lines that it has: fewer are taken where they are enough
PRINTER = Printer(name="usual", bed_mm=(256.0, 256.0, 256.0), least_walls=3)


@dataclass(frozen=True)
class FamilyTrial:
    """A family that holds ordinary tools of a kind by a mount: its own, or that of a carrier.

    Args:
        family: The family.
        kind: The kind.
        scales: One factor on all measures for each tool.
        mount: The mount of the holder, or of its carrier when the joint needs one.
        joint: The joint.
    """

    family: str
    kind: str
    scales: tuple[float, ...]
    mount: str
    joint: str = ONE_PIECE

    def recipes(self) -> Iterator[tuple[str, Recipe | CarrierRecipe]]:
        """Yield the recipes of its parts, each with how it hangs in words."""
        what = self.mount if self.joint == ONE_PIECE else f"{self.joint} on {self.mount}"
        holder = trial_recipe(
            self.family, self.kind, self.scales, mount=self.mount, joint=self.joint
        )
        if self.joint in JOINTS:
            yield self.joint, holder
            yield what, trial_carrier(holder, mount=self.mount)
        else:
            yield what, holder


def family_trials(name: str) -> tuple[FamilyTrial, ...]:
    """Return every trial of a registered family.

    It holds the ordinary tool of every kind that it accepts, alone on every mount with every joint
    that the mount has, and in three sizes on the usual mounts and with every joint.

    Raises:
        UnknownNameError: There is no such family.
    """
    chosen, found = family(name), list[FamilyTrial]()
    for kind, scales in product(KINDS, SCALES):
        if not all(_accepts(chosen, kind, scale) for scale in (1.0, *scales)):
            continue
        # more tools make a part wider, and no mount cares for more than that: the usual ones do
        hung = list(MOUNTS) if len(scales) == 1 else list(USUAL_MOUNTS)
        found += [FamilyTrial(name, kind, scales, mount) for mount in hung]
        found += [
            FamilyTrial(name, kind, scales, mount, GROOVES)
            for mount in hung
            if MOUNTS[mount].in_grooves is not None
        ]
        # a carrier sees its holders as loads alone: one mount will do for more tools
        borne = hung if len(scales) == 1 else hung[:1]
        found += [FamilyTrial(name, kind, scales, m, j) for j, m in product(JOINTS, borne)]
    return tuple(found)


def prove_family(name: str, trials: Sequence[FamilyTrial] | None = None) -> tuple[str, ...]:
    """Return a sentence for each promise that a registered family breaks; none is a pass.

    In every trial every check must hold, the part on a flat back must print without support in the
    pose that the family declares, and the sections of the one on a rail must bear what they carry.

    Args:
        name: The family.
        trials: Some of its trials; all of them when None.

    Raises:
        UnknownNameError: There is no such family.
    """
    chosen, kernel = family_trials(name) if trials is None else trials, MeshKernel()
    if not chosen:
        return (f"{name} holds no tool of any kind",)
    faults: list[str] = []
    for _, some in groupby(chosen, lambda one: (one.kind, one.scales)):
        # a holder is built once for all the carriers on which it hangs
        run, told = Run(), set[str]()
        for what, recipe in (named for one in some for named in one.recipes()):
            if what not in told:
                told.add(what)
                faults += _faults(what, recipe, kernel, run)
    return tuple(in_mm(fault) for fault in faults)


def trial_recipe(
    name: str,
    kind: str,
    scales: Sequence[float],
    *,
    mount: str = FLAT_MOUNT,
    joint: str = ONE_PIECE,
) -> Recipe:
    """Return the recipe of a family for ordinary tools of a kind, drawn to scales.

    Args:
        name: The family.
        kind: The kind.
        scales: One factor on all measures for each tool.
        mount: The mount, when the joint needs no carrier.
        joint: The joint.
    """
    example = dict(KINDS[kind].example)
    return Recipe(
        family=name,
        params={},
        seats=tuple(
            SeatRecipe(
                kind=kind,
                measures={key: value * scale for key, value in example.items()},
                mass_kg=None,
                play_mm=PLAY_MM,
                correction_mm=0.0,
                outline=outline_rows(ordinary_outline(kind, scale=scale)),
            )
            for scale in scales
        ),
        mount=CARRIED if joint in JOINTS else mount,
        mount_settings=MountSettings().as_dict(),
        mount_params={} if joint in JOINTS else dict(MOUNTS[mount].example),
        joint=joint,
        printer=USUAL_PRINTER,
        material=USUAL_MATERIAL,
        hand_room_mm=HAND_ROOM_MM,
    )


def usual_recipe(name: str, kind: str, scales: Sequence[float]) -> Recipe:
    """Return the recipe of a family for ordinary tools by the first usual mount that takes it.

    Raises:
        DesignError: Neither does; it tells of the last.
    """
    first, last = (trial_recipe(name, kind, scales, mount=mount) for mount in USUAL_MOUNTS)
    try:
        describe(first)
    except DesignError:
        describe(last)
        return last
    return first


def trial_carrier(holder: Recipe, *, mount: str) -> CarrierRecipe:
    """Return the recipe of a carrier for one holder with a joint."""
    return CarrierRecipe(
        params={},
        holders=(holder,),
        mount=mount,
        mount_settings=holder.mount_settings,
        mount_params=dict(MOUNTS[mount].example),
        joint=holder.joint,
        joint_params=holder.joint_params,
        printer=holder.printer,
        material=holder.material,
    )


def _accepts(chosen: Family, kind: str, scale: float) -> bool:
    try:
        return chosen.why_not(ordinary_body(kind, scale=scale)) is None
    except MeasureError:
        return False


def _faults(
    how: str, recipe: Recipe | CarrierRecipe, kernel: MeshKernel, run: Run
) -> Iterator[str]:
    holder = recipe if isinstance(recipe, Recipe) else recipe.holders[0]
    what = f"{holder.family} for {len(holder.seats)} x {holder.seats[0].kind}, {how}"
    try:
        built = build(recipe, kernel, run=run)
    except RailHoldError:
        # it may be screwed to the wall
        return
    except CleatwrightError as error:
        yield f"{what}: {error.marked}"
        return
    for check in built.checks:
        if not check.holds:
            yield (
                f"{what}: {check.name}: {check.demand:.3g} against {check.capacity:.3g} "
                f"{check.unit}, {check.note}"
            )
    if how == FLAT_MOUNT:
        yield from _supports(what, built)
    if how == RAIL_MOUNT:
        yield from _sections(what, built, run)


def _sections(what: str, built: BuiltPart, run: Run) -> Iterator[str]:
    """Yield what its sections bear too much of where it lies on its back, as most do."""
    for check in check_sections(walls_of(built, PRINTER, down=BACK_DOWN, run=run)):
        if not check.holds:
            yield f"{what}: {check.sentence}"


def _supports(what: str, built: BuiltPart) -> Iterator[str]:
    poses = built.part.free_poses
    if not poses:
        yield f"{what}: declares a pose in which not even a flat back prints"
    for pose in poses:
        check = check_support_free(built.body.vertices_mm, built.body.triangles, pose=pose)
        if not check.holds:
            yield f"{what}: needs {said.area(check.demand)} of support {pose}, {check.note}"
