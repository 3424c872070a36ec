"""What helps a rail whose screws or anchors do not carry what hangs on it: each thing was tried."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.base.units import length_mm
from cleatwright.base.written import written_length
from cleatwright.project.revision import Revision, with_text
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.assessing import ASSESSED
from cleatwright.siting.borne_there import BorneThere, fails_anew
from cleatwright.siting.giving_places import exact_place, place_given
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import LOADED, RailLoads
from cleatwright.wall.explaining.elsewhere import Offering, other_place, way_to
from cleatwright.wall.explaining.typed import Typing
from cleatwright.workshop.document.editing import Step, set_value
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import parse
from cleatwright.workshop.document.surfaces import MAIN

# how much more than now the anchors of one trial after the other bear, at the least as asked
STRONGER = (1.0, 1.3, 1.7)
# how much higher than now the rails of one trial after the other are
HIGHER = (1.25, 1.5, 2.0)
LOAD_STEP_N = 10.0


@dataclass(frozen=True)
class Remedies:
    """The rails of one panel that do not hold, and the documents in which they might.

    Args:
        revision: The document.
        workshop: The same, checked.
        panel: The panel as it is arranged.
        run: The run that keeps what was computed before.
    """

    revision: Revision
    workshop: Workshop
    panel: PanelJob
    run: Run

    @cached_property
    def failing(self) -> tuple[RailLoads, ...]:
        """The rails of which it is known that they do not hold."""
        return tuple(one for one in self.run.need(LOADED, self.panel) if one.fails)

    def sentences(self, name: str) -> tuple[str, ...]:
        """Return what was tried for a rail and helps, in sentences; none where it holds."""
        rail = next((one for one in self.failing if one.rail.name == name), None)
        if rail is None:
            return ()
        found = (
            *(f"Tried, and one rail less fails: {words}." for words in self._elsewhere(rail)),
            *(
                f"Tried, and every rail holds then: {words}."
                for words in (*self._stronger(), *self._higher())
            ),
        )
        if found:
            return found
        more = "stronger anchors nor " if self._known else ""
        words = f"Nothing that was tried for rail {name} helps, neither other places nor {more}"
        return (f"{words}higher rails: hang less on this wall, or in smaller holders.",)

    @property
    def _known(self) -> bool:
        anchor = self.panel.panel.anchor
        return anchor is not None and None not in (anchor.tension_n, anchor.shear_n)

    def _elsewhere(self, rail: RailLoads) -> Iterator[str]:
        """Yield another place for one of those that were given theirs, or hang already."""
        for unit in rail.units:
            key = unit.planned.key
            item = self.panel.problem.known[key]
            if item.fixed is None and item.hangs_at is None:
                # its best place was looked for when the wall was arranged
                continue
            free = self.panel.problem.changed(replace(item, fixed=None, hangs_at=None))
            unit_name, typing = self.workshop.units, Typing(self.workshop.units)
            offering = Offering(typing, BorneThere(self.panel, key))
            other = other_place(free, self.panel.arrangement, key=key, offering=offering)
            if other is None:
                continue
            written = exact_place(other.place, unit_name)
            given = place_given(self.revision.text, self.workshop, unit, written)
            if given is not None and self._less_fails(given.text, key):
                way = way_to(self.panel.spots[key].place, other.place)
                yield f'"{unit.planned.name}" {way}; for that, {given.words}'
                return

    def _stronger(self) -> Iterator[str]:
        """Yield what anchors bear with which all holds."""
        anchor = self.panel.panel.anchor
        if anchor is None or anchor.tension_n is None or anchor.shear_n is None:
            return
        most = max(one.check.utilisation for one in self.failing if one.check is not None)
        if not math.isfinite(most):
            return
        for more in STRONGER:
            out, along = (
                math.ceil(load * most * more / LOAD_STEP_N) * LOAD_STEP_N
                for load in (anchor.tension_n, anchor.shear_n)
            )
            document = parse(self.revision.text)
            for key, value in (("tension_n", out), ("shear_n", along)):
                set_value(document, (*self._table, "anchor", key), value=value)
            if self._holds(document.as_string()):
                yield (
                    f"anchors whose papers allow {out:.0f} N straight out of the wall and "
                    f"{along:.0f} N along it (tension_n and shear_n of the anchor, stated as "
                    f"{anchor.loads})"
                )
                return

    def _higher(self) -> Iterator[str]:
        """Yield how high rails are with which all holds."""
        now_mm, unit = self.workshop.rail.height_mm, self.workshop.units
        for more in HIGHER:
            written = written_length(now_mm * more, unit, side="up")
            document = parse(self.revision.text)
            set_value(document, ("rail", "height"), value=written)
            if length_mm(written) > now_mm and self._holds(document.as_string()):
                yield f'rails {written} high (height = "{written}" in [rail])'
                return

    @property
    def _table(self) -> tuple[Step, ...]:
        name = self.panel.panel.name
        if name == MAIN:
            return ("wall",)
        return "panel", [one.name for one in self.workshop.panels].index(name)

    def _holds(self, text: str) -> bool:
        """Return whether every rail of the panel holds by a document, and no less of the rest."""
        found = self._with(text)
        return found is not None and all(
            one.check is None or one.check.holds for one in self.run.need(LOADED, found)
        )

    def _less_fails(self, text: str, key: str) -> bool:
        """Return whether a thing is borne by a document, and no other rail fails for it."""
        found = self._with(text)
        return found is not None and not fails_anew(
            self.run.need(LOADED, self.panel), self.run.need(LOADED, found), key
        )

    def _with(self, text: str) -> PanelJob | None:
        """Return the panel by a document; None unless less fails on it."""
        try:
            changed = self.run.need(WALLS, (with_text(self.revision, text, self.run), Request()))
        except CleatwrightError:
            return None
        name = self.panel.panel.name
        found = next((one for one in changed if one.panel.name == name), None)
        if found is None:
            return None
        after, before = (len(self.run.need(ASSESSED, one).failing) for one in (found, self.panel))
        return found if after < before else None
