"""One wall or panel of a workshop: what hangs on it, where, and on which rails."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

from cleatwright.base.lengths import Wording
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit
from cleatwright.design.planned import PlannedHolder
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.siting.walls import Spot
from cleatwright.wall.model import Arrangement
from cleatwright.wall.problem import WallProblem
from cleatwright.wall.rail import Rail
from cleatwright.wall.way_out import WayProof
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.surfaces import MAIN, Panel
from cleatwright.workshop.document.wording import wording_of


@dataclass(frozen=True)
class PanelJob:
    """What was computed for one panel.

    Args:
        workshop: The whole document.
        panel: The panel.
        units: What hangs on it.
        problem: The panel as the wall sees it, with the rails that stay, and its units in order.
        arrangement: Where everything hangs; rails are numbered through all panels.
        spots: The place of every part on the panel, by its key.
        ways: The proof of the way out of every tool.
        down: The rails of the ledger that stand in the way, and why.
        kernel: The kernel with which everything was built.
    """

    workshop: Workshop
    panel: Panel
    units: tuple[Unit, ...]
    problem: WallProblem
    arrangement: Arrangement
    spots: Mapping[str, Spot]
    ways: tuple[WayProof, ...]
    down: tuple[Rail, ...]
    kernel: MeshKernel

    @property
    def words(self) -> Wording:
        """Return what turns sentences into the unit of the workshop."""
        return wording_of(self.workshop)

    @property
    def planned(self) -> tuple[PlannedHolder, ...]:
        """Return the holders, unit by unit."""
        return tuple(holder for unit in self.units for holder in unit.planned.holders)

    @property
    def built(self) -> tuple[BuiltPart, ...]:
        """Return the built holders, unit by unit."""
        return tuple(made for unit in self.units for made in unit.holders)

    @property
    def title(self) -> str:
        """Return the name of the workshop, and that of the panel unless it is the wall."""
        if self.panel.name == MAIN:
            return self.workshop.name
        return f"{self.workshop.name}: {self.panel.name}"

    @property
    def folder(self) -> str:
        """Return the folder of its drawings in the output; its number keeps like names apart."""
        if self.panel.name == MAIN:
            return "wall"
        number = [one.name for one in self.workshop.surfaces()].index(self.panel.name) + 1
        plain = unicodedata.normalize("NFKD", self.panel.name.lower())
        words = re.findall(r"[a-z0-9]+", plain.encode("ascii", "ignore").decode())
        return "/".join(("wall", "-".join((str(number), *words))))
