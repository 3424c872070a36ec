"""What helps rails whose screws or anchors do not carry what hangs on them: each thing was tried.

Stronger anchors and higher rails are first reckoned on the wall as it hangs, which takes no time;
only what bears that is tried on the whole workshop, as its owner would have it arranged. Where
nothing bears it so, the height of rails that comes nearest is tried too: such rails may lie
elsewhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.stages.run import Run
from cleatwright.base.units import length_mm
from cleatwright.base.written import written_length
from cleatwright.project.revision import Revision, with_text
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.assessing import ASSESSED, RailHelp
from cleatwright.siting.borne_there import BorneThere, fails_anew
from cleatwright.siting.giving_places import exact_place, place_given
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.ground import rows_of
from cleatwright.siting.rails.loading import LOADED, LoadsOf, RailLoads
from cleatwright.siting.rails.spacing import with_enough_screws
from cleatwright.siting.raising import STEPS
from cleatwright.wall.explaining.elsewhere import Offering, other_place, way_to
from cleatwright.wall.explaining.remedies import by_name
from cleatwright.wall.explaining.typed import Typing
from cleatwright.workshop.document.editing import Step, set_value
from cleatwright.workshop.document.store import parse
from cleatwright.workshop.document.surfaces import MAIN, WallAnchor

# how often stronger anchors are reckoned with at the most until they hold, and then for the least
MOST_RECKONED, HALVED = 8, 3
# how much higher than now rails are that are reckoned with
HIGHER = (1.25, 1.5, 2.0)
LOAD_STEP_N = 10.0
# rails that are used so much where they lie now may hold elsewhere
NEARLY = 1.5
# so many other places are tried on the whole workshop
MOST_PLACES = 2


@dataclass(frozen=True)
class RailRemedies:
    """The rails of one panel that do not hold, and the documents in which they might.

    Args:
        revision: The document.
        request: How it is arranged.
        panel: The panel as it is arranged.
        run: The run that keeps what was computed before.
    """

    revision: Revision
    request: Request
    panel: PanelJob
    run: Run

    @cached_property
    def failing(self) -> tuple[RailLoads, ...]:
        """The rails of which it is known that they do not hold."""
        return tuple(one for one in self.run.need(LOADED, self.panel) if one.fails)

    def helps(self) -> tuple[RailHelp, ...]:
        """Return what was tried for the rails that fail and helps; that nothing does, else."""
        if not self.failing:
            return ()
        found = [
            *self._places(),
            *map(_for_every_rail, self._stronger()),
        ]
        heights = {high: self._used_where(length_mm(high)) for high in self._heights()}
        holding = [high for high, (here, _) in heights.items() if here <= 1.0][:1]
        higher = [*self._higher(holding)]
        # what is not borne where rails lie now may be elsewhere; where it is not sure to be, that
        # is tried only for want of all else
        enough = NEARLY if not (found or higher) else 1.0
        nearly = sorted((least, high) for high, (_, least) in heights.items() if least <= enough)
        elsewhere = [] if higher else [high for _, high in nearly if high not in holding][:1]
        found += map(_for_every_rail, (*higher, *self._higher(elsewhere)))
        names = {unit.planned.key: unit.planned.name for unit in self.panel.units}
        helped = {rail for one in found for rail in one.rails}
        for_all = any(not one.rails for one in found)
        bare = [one.rail.name for one in self.failing if one.rail.name not in helped]
        if bare and not for_all:
            more = "stronger anchors nor " if self._known else ""
            which = f"{'rails' if len(bare) > 1 else 'rail'} {', '.join(bare)}"
            words = f"Nothing that was tried for {which} helps, neither other places nor {more}"
            found.append(
                RailHelp(
                    tuple(bare),
                    f"{words}higher rails where these lie now{' or elsewhere' if elsewhere else ''}"
                    ": hang less on this wall, or in smaller holders.",
                )
            )
        return tuple(replace(one, sentence=by_name(one.sentence, names)) for one in found)

    @property
    def _known(self) -> bool:
        anchor = self.panel.panel.anchor
        return anchor is not None and None not in (anchor.tension_n, anchor.shear_n)

    def _places(self) -> Iterator[RailHelp]:
        """Yield other places, for as many rails as are tried at the most."""
        left = MOST_PLACES
        for rail in self.failing:
            if not left:
                return
            tried = self._elsewhere(rail)
            if tried is None:
                continue
            left -= 1
            text, key, words = tried
            if self._less_fails(text, key):
                sentence = f"Tried, and one rail less fails: {words}."
                yield RailHelp((rail.rail.name,), sentence)

    def _elsewhere(self, rail: RailLoads) -> tuple[str, str, str] | None:
        """Return a document with another place for one of those that were given theirs, or hang.

        With it come the key of that thing, and the change in words.
        """
        for unit in rail.units:
            key = unit.planned.key
            item = self.panel.problem.known[key]
            if item.fixed is None and item.hangs_at is None:
                # its best place was looked for when the wall was arranged
                continue
            free = self.panel.problem.changed(replace(item, fixed=None, hangs_at=None))
            unit_name, typing = self.revision.workshop.units, Typing(self.revision.workshop.units)
            offering = Offering(typing, BorneThere(self.panel, key))
            other = other_place(free, self.panel.arrangement, key=key, offering=offering)
            if other is None:
                continue
            written = exact_place(other.place, unit_name)
            given = place_given(self.revision.text, self.revision.workshop, unit, written)
            if given is not None:
                way = way_to(self.panel.spots[key].place, other.place)
                return given.text, key, f'"{unit.planned.name}" {way}; for that, {given.words}'
        return None

    def _stronger(self) -> Iterator[str]:
        """Yield what anchors bear with which all holds."""
        anchor = self.panel.panel.anchor
        if anchor is None or anchor.tension_n is None or anchor.shear_n is None:
            return
        found = _least_strong(self.panel, anchor, anchor.tension_n, anchor.shear_n)
        if found is None:
            return
        out, along = found
        document = parse(self.revision.text)
        for key, value in (("tension_n", out), ("shear_n", along)):
            set_value(document, (*self._table, "anchor", key), value=value)
        if self._holds(document.as_string()):
            yield (
                f"anchors whose papers allow {out:.0f} N straight out of the wall and "
                f"{along:.0f} N along it (tension_n and shear_n of the anchor, stated as "
                f"{anchor.loads})"
            )

    def _heights(self) -> Iterator[str]:
        """Yield how high rails could be, as it is written, the least first."""
        now_mm, unit = self.revision.workshop.rail.height_mm, self.revision.workshop.units
        for more in HIGHER:
            written = written_length(now_mm * more, unit, side="up")
            if length_mm(written) > now_mm:
                yield written

    def _higher(self, heights: Iterable[str]) -> Iterator[str]:
        """Yield which heights of rails let all hold; each trial arranges the whole workshop."""
        for written in heights:
            document = parse(self.revision.text)
            set_value(document, ("rail", "height"), value=written)
            if self._holds(document.as_string()):
                yield f'rails {written} high (height = "{written}" in [rail])'

    def _used_where(self, high_mm: float) -> tuple[float, float]:
        """Return how much rails so high are used where they lie, and some steps off at the least.

        There their screws have another row where they keep off the joints of bricks.
        """
        step_mm = self.panel.problem.rule.step_mm
        used = [_most_used(self._as_high(high_mm, up_mm=count * step_mm)) for count in (0, *STEPS)]
        return used[0], min(used)

    def _as_high(self, high_mm: float, *, up_mm: float = 0.0) -> PanelJob:
        """Return the panel as it hangs, with higher rails that reach further down.

        Their rows are those of rails so much higher up.
        """
        panel, setting = self.panel.panel, self.panel.setting
        rails = tuple(
            one
            if one.stays
            else replace(
                one,
                profile=replace(one.profile, height_mm=high_mm),
                rows=rows_of(panel, z_top_mm=one.z_top_mm + up_mm, height_mm=high_mm),
            )
            for one in self.panel.arrangement.rails
        )
        rules = setting.rail.model_copy(update={"height_mm": high_mm})
        return replace(
            self.panel,
            setting=replace(setting, rail=rules),
            arrangement=replace(self.panel.arrangement, rails=rails),
        )

    @property
    def _table(self) -> tuple[Step, ...]:
        name = self.panel.panel.name
        if name == MAIN:
            return ("wall",)
        return "panel", [one.name for one in self.revision.workshop.panels].index(name)

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
            trial = with_text(self.revision, text, self.run)
            changed = self.run.need(WALLS, (trial, self.request))
        except CleatwrightError:
            return None
        name = self.panel.panel.name
        found = next((one for one in changed if one.panel.name == name), None)
        if found is None:
            return None
        after, before = (len(self.run.need(ASSESSED, one).failing) for one in (found, self.panel))
        return found if after < before else None


def _for_every_rail(words: str) -> RailHelp:
    return RailHelp((), f"Tried, and every rail holds then: {words}.")


def _least_strong(
    panel: PanelJob, anchor: WallAnchor, tension_n: float, shear_n: float
) -> tuple[float, float] | None:
    """Return about the least loads of anchors with which a panel holds as it hangs, or None.

    Both are as many times those of now. A check that fails hides those that come after it, so
    that how many times has to be found step by step.
    """

    def loads(times: float) -> tuple[float, float]:
        out, along = (
            math.ceil(load * times / LOAD_STEP_N) * LOAD_STEP_N for load in (tension_n, shear_n)
        )
        return out, along

    def used(times: float) -> float:
        out, along = loads(times)
        strong = anchor.model_copy(update={"tension_n": out, "shear_n": along})
        ground = panel.panel.model_copy(update={"anchor": strong})
        return _most_used(replace(panel, panel=ground))

    low, high = 1.0, 1.0
    for _ in range(MOST_RECKONED):
        more = used(high)
        if more <= 1.0:
            break
        low, high = high, high * more
        if not math.isfinite(high):
            return None
    else:
        return None
    for _ in range(HALVED):
        middle = math.sqrt(low * high)
        low, high = (low, middle) if used(middle) <= 1.0 else (middle, high)
    return loads(high)


def _most_used(panel: PanelJob) -> float:
    """Return how much the rails of a panel are used at the most, with as many screws as help."""
    loads = LoadsOf(panel)
    found = loads.on(with_enough_screws(panel, loads))
    return max((one.check.utilisation for one in found if one.check is not None), default=0.0)
