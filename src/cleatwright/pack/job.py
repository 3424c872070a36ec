"""What was computed for a workshop, all together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cleatwright.base.lengths import Wording
from cleatwright.design.building import BuiltPart
from cleatwright.design.carrying import Unit, part_names
from cleatwright.design.planning import PlannedHolder
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.production import Production
from cleatwright.pack.woodwork import Woodwork
from cleatwright.siting.assessing import Assessment
from cleatwright.siting.hung.moves import Moving
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.walls import Spot
from cleatwright.wall.model import RailRun
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.wording import wording_of
from cleatwright.workshop.ledger.hung_wall import WhatHangs


@dataclass(frozen=True)
class Job:
    """Everything that was computed for a workshop, before any file is written.

    ``planned`` and ``built`` are the holders, unit by unit; ``panels`` are the wall and the
    further panels on which something hangs, and ``found`` what was found about each;
    ``spots`` are the place of every part by its key; ``hung`` is what hangs already by the
    ledger and the document, ``moving`` what the job changes about that, and ``in_use`` the keys
    of the parts that hang already and are used again.
    """

    workshop: Workshop
    units: tuple[Unit, ...]
    planned: tuple[PlannedHolder, ...]
    built: tuple[BuiltPart, ...]
    panels: tuple[PanelJob, ...]
    found: tuple[Assessment, ...]
    spots: Mapping[str, Spot]
    hung: WhatHangs
    moving: Moving
    woodwork: Woodwork
    production: Production
    in_use: frozenset[str]
    kernel: MeshKernel

    @property
    def words(self) -> Wording:
        """Return what turns sentences into the unit of the workshop."""
        return wording_of(self.workshop)

    @property
    def parts(self) -> Mapping[str, tuple[str, BuiltPart]]:
        """Return every part by its key, with its name for people."""
        return part_names(self.units)

    @property
    def rails(self) -> tuple[RailRun, ...]:
        """Return the rails of all panels."""
        return tuple(run for panel in self.panels for run in panel.arrangement.rails)
