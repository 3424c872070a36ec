"""What a family's own test file gives to the trial that every family passes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from hypothesis import strategies as st

from cleatwright.holders.family import BuildContext, Family
from cleatwright.kernels.mesh import MeshBody
from cleatwright.mounts.mount import MountSettings
from cleatwright.mounts.printed import french_cleat, wall_screws
from cleatwright.parts.holder import Front, HolderPart, PrintPose
from cleatwright.parts.tool import Fit, FittedTool, ToolBody

CTX = BuildContext()
FIT = Fit(0.4)
DEFAULT: Mapping[str, float] = MappingProxyType({})
GoodPart = Callable[[HolderPart], MeshBody]
SupportFree = Callable[[MeshBody, PrintPose | None], None]


@dataclass(frozen=True)
class HalfPlay:
    """A tool that has half the play all round in its seat.

    Args:
        body: The tool.
        pieces: Which pieces of its envelope are guided.
        raised_mm: How far it is raised from what carries it, so that only the sides are near.
        within_mm: Chords of circles lie within 0.02 mm of the true ones.
    """

    body: ToolBody
    pieces: tuple[int, ...] = (0,)
    raised_mm: float = 0.0
    within_mm: float = 1e-6


@dataclass(frozen=True)
class Trial:
    """A family and hand-made tools for it, every face of which is known.

    Args:
        family: The family.
        bodies: Tools up to the bounds of what it holds; some may be refused.
        groups: Groups that its default, least and most parameters hold.
        guided: Tools with half the play all round.
        held: Tools just inside its bounds.
        refused: Tools just outside, each with words of the reason.
    """

    family: Family
    bodies: st.SearchStrategy[ToolBody]
    groups: tuple[tuple[ToolBody, ...], ...]
    guided: tuple[HalfPlay, ...] = ()
    held: tuple[ToolBody, ...] = ()
    refused: tuple[tuple[ToolBody, str], ...] = ()

    def front(
        self,
        *bodies: ToolBody,
        fit: Fit = FIT,
        ctx: BuildContext = CTX,
        params: Mapping[str, float] = DEFAULT,
    ) -> Front:
        """Return what the family builds; parameters that are not named have their default."""
        fitted = [FittedTool(body, fit) for body in bodies]
        return self.family.build(fitted, self.family.params.model_validate(params), ctx)

    def part(
        self,
        *bodies: ToolBody,
        fit: Fit = FIT,
        ctx: BuildContext = CTX,
        params: Mapping[str, float] = DEFAULT,
    ) -> HolderPart:
        """Return the part with a flat back, which promises a pose in which it prints."""
        front = self.front(*bodies, fit=fit, ctx=ctx, params=params)
        return wall_screws.attach(self.family.name, front, MountSettings(plate_mm=ctx.plate_mm))

    def on_rail(
        self, *bodies: ToolBody, fit: Fit = FIT, params: Mapping[str, float] = DEFAULT
    ) -> HolderPart:
        """Return the part with the hook of a French cleat."""
        front = self.front(*bodies, fit=fit, params=params)
        return french_cleat.attach(self.family.name, front, MountSettings())


def bound(family: Family, name: str, side: str) -> float:
    """Return the least (side "ge") or the largest ("le") value of a parameter."""
    metadata = family.params.model_fields[name].metadata
    return next(getattr(m, side) for m in metadata if hasattr(m, side))


def any_params(family: Family) -> st.SearchStrategy[dict[str, float]]:
    """Return parameters drawn within the bounds of a family."""
    return st.fixed_dictionaries(
        {
            name: st.floats(bound(family, name, "ge"), bound(family, name, "le"))
            for name in family.params.model_fields
        }
    )
