"""Seats that a workshop keeps free: on rails that bear them, in nobody's way, where they were."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from statistics import median

import pytest
from tests.one_more import hanging
from tests.small import can, document

from cleatwright.base.errors import DocumentError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.checking import check_workshop
from cleatwright.pack.report_rows import panel_row
from cleatwright.parts.tool import GRAVITY_M_S2
from cleatwright.project.revision import Revision, read_revision, with_text
from cleatwright.project.walls import WALLS, Request
from cleatwright.siting.assessing import ASSESSED
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.loading import hung_load, loaded_rails
from cleatwright.siting.seats.told import seat_notes
from cleatwright.wall.bound.bound import lower_bound
from cleatwright.wall.conflicts import conflicts, overlap, whole
from cleatwright.wall.explaining.elsewhere import other_place
from cleatwright.wall.explaining.explain import explain
from cleatwright.wall.model import ReservedSeat
from cleatwright.wall.score import hung, score
from cleatwright.workshop.document.store import load

ANCHOR = (
    'made_of = "concrete"\nreserved_seats = 2\nanchor = { name = "plug", loads = "allowable", '
    "tension_n = 900, shear_n = 750, hole = 8, hole_depth = 65, embedment = 50, screw = 6, "
    "screw_length = 80, edge = 100, spacing = 300 }\n"
)
CANS = tuple(
    can(f"Can {n}", diameter=66.0, height=150.0, mass=f"{300 * (n + 1)} g", holder=True)
    for n in range(3)
)
ONE_MORE = can("One more", diameter=66.0, height=150.0, mass="400 g", holder=True)


def written(folder: Path, wall: str) -> Path:
    text = document("Studio", *CANS, width=2000, height=1200, studs=(), wall=wall)
    (folder / "workshop.toml").write_text(text, "utf-8")
    return folder


def planned(revision: Revision, known: Store) -> PanelJob:
    return Run(known).need(WALLS, (revision, Request()))[0]


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory, known: Store) -> Revision:
    """Return a workshop of which everything hangs."""
    return hanging(written(tmp_path_factory.mktemp("studio"), ANCHOR), Run(known))


@pytest.fixture(scope="module")
def wall(studio: Revision, known: Store) -> PanelJob:
    return planned(read_revision(studio.folder, Run(known)), known)


def kept(job: PanelJob) -> tuple[ReservedSeat, ...]:
    return job.arrangement.seats


def test_a_seat_is_for_the_usual_holder_and_its_load_counts(wall: PanelJob) -> None:
    """The median of three masses is the middle one."""
    assert [one.item.key for one in kept(wall)] == ["reserved seat 1", "reserved seat 2"]
    assert conflicts(wall.problem, wall.arrangement) == ()
    masses = sorted(item.mass_kg for item in wall.problem.items)
    assert {one.item.mass_kg for one in kept(wall)} == {round(masses[1], 2)}
    (rail,) = loaded_rails(wall)
    middle_n = median(hung_load(unit, wall).weight_n for unit in wall.units)
    assert [one.weight_n for one in rail.reserved] == [middle_n, middle_n]
    row = panel_row(wall, Run().need(ASSESSED, wall))
    assert row.reserved_seats_asked == len(row.reserved_seats) == 2
    assert {one.rail for one in row.reserved_seats} == {rail.rail.name}
    assert row.reserved_seats[0].load_kg == pytest.approx(middle_n / GRAVITY_M_S2)


def test_a_rail_with_loads_in_its_seats_is_asked_for_more(wall: PanelJob) -> None:
    bare = replace(wall, arrangement=replace(wall.arrangement, seats=()))
    (with_them,), (without,) = loaded_rails(wall), loaded_rails(bare)
    assert with_them.check is not None
    assert without.check is not None
    assert with_them.check.utilisation > without.check.utilisation
    assert with_them.demand is not None


def test_a_seat_that_its_rail_does_not_bear_is_none(tmp_path: Path, known: Store) -> None:
    """With anchors of about half the strength the rail bears its cans and nothing more."""
    weak = ANCHOR.replace("tension_n = 900", "tension_n = 515")
    job = planned(read_revision(written(tmp_path, weak), Run(known)), known)
    assert Run().need(ASSESSED, job).failing == ()
    assert len(job.problem.seats) == 2
    assert kept(job) == ()
    (why,) = seat_notes(job)
    assert why.startswith("0 of 2 reserved seats found room on the wall: ")
    assert "the rail would not bear it" in why


def test_on_anchors_of_which_nothing_is_known_no_seat_is_said_not_to_be_borne(
    tmp_path: Path, known: Store
) -> None:
    written(tmp_path, ANCHOR.replace("tension_n = 900, ", ""))
    job = planned(read_revision(tmp_path, Run(known)), known)
    (why,) = seat_notes(job)
    assert why == (
        "0 of 2 reserved seats found room on the wall: it is not known what a rail on its anchors "
        "bears."
    )


def test_seats_for_which_no_rail_has_room_are_said_to_have_none(
    tmp_path: Path, known: Store
) -> None:
    """Ten plates of 76 mm, three cans and 2 mm beside each are wider than a wall of 900 mm."""
    strong = ANCHOR.replace("tension_n = 900, shear_n = 750", "tension_n = 9000, shear_n = 7500")
    written(tmp_path, strong.replace("reserved_seats = 2", "reserved_seats = 10"))
    narrow = tmp_path / "workshop.toml"
    narrow.write_text(narrow.read_text("utf-8").replace("width = 2000", "width = 900"), "utf-8")
    job = planned(read_revision(tmp_path, Run(known)), known)
    *_, why = seat_notes(job)
    assert 0 < len(kept(job)) < 10
    assert why.startswith(
        "No more seats are kept free on the wall: no rail within reach has room left for a plate of"
    )


def test_a_check_says_how_many_seats_are_asked_for(tmp_path: Path) -> None:
    fresh = check_workshop(written(tmp_path, ANCHOR), run=Run(Store())).remarks
    assert any(one.startswith("2 seats are to be kept free on the wall where") for one in fresh)


def test_nothing_is_kept_free_where_nothing_is_asked_for(tmp_path: Path, known: Store) -> None:
    none = ANCHOR.replace("reserved_seats = 2", "reserved_seats = 0")
    job = planned(read_revision(written(tmp_path, none), Run(known)), known)
    assert job.problem.seats == kept(job) == tuple(seat_notes(job)) == ()


def test_seats_stay_where_they_are(studio: Revision, wall: PanelJob, known: Store) -> None:
    assert kept(planned(studio, known)) == kept(wall)
    fewer = studio.text.replace("reserved_seats = 2", "reserved_seats = 1")
    one = with_text(studio, fewer, Run(known))
    job = planned(one, known)
    assert kept(job) == kept(wall)[:1]
    assert job.arrangement.places == wall.arrangement.places


def test_a_new_tool_goes_beside_the_seats_while_a_rail_has_room(
    studio: Revision, wall: PanelJob, known: Store
) -> None:
    more = planned(with_text(studio, studio.text + ONE_MORE, Run(known)), known)
    before = {one.key: one for one in wall.arrangement.places}
    (new,) = (one for one in more.arrangement.places if one.key not in before)
    assert {one.key: one for one in more.arrangement.places if one != new} == before
    assert len(more.arrangement.rails) == len(wall.arrangement.rails)
    assert kept(more) == kept(wall)
    here = whole(more.problem.known[new.key], new)
    assert not any(overlap(here, whole(one.item, one.place)) for one in kept(more))


def test_points_are_those_of_the_tools_and_shares_add_up(wall: PanelJob) -> None:
    problem, found = wall.problem, wall.arrangement
    bare = replace(found, seats=())
    assert score(problem, found) == score(problem, bare) == found.scores
    assert explain(problem, found) == explain(problem, bare)
    assert lower_bound(problem) == lower_bound(problem.with_seats(()))
    for place in found.places:
        other = other_place(problem, found, key=place.key)
        assert other is not None
        here = whole(problem.known[place.key], other.place)
        assert not any(overlap(here, whole(one.item, one.place)) for one in found.seats)
        moved = tuple(other.place if one == place else one for one in found.places)
        rails = hung(problem, moved, found.seats)
        assert rails.scores.total - found.scores.total == pytest.approx(other.more.total)


@pytest.mark.parametrize("wrong", ["-1", "21", "1.5", '"three"'])
def test_the_number_of_seats_is_a_whole_one_from_0_to_20(tmp_path: Path, wrong: str) -> None:
    written(tmp_path, ANCHOR.replace("reserved_seats = 2", f"reserved_seats = {wrong}"))
    with pytest.raises(DocumentError, match="reserved_seats"):
        load(tmp_path)
