"""The rails of the small workshop: their loads, checks and drawings."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import lxml.etree
import numpy as np
import pdfplumber
import pytest
import trimesh

from cleatwright.base.stages.run import Run
from cleatwright.kernels.mesh.plane_section import section_across_x
from cleatwright.pack.front_view import front_view
from cleatwright.pack.output_file import drawn
from cleatwright.pack.rail_papers import SIDE_VIEW, SideView, load_map_files, section_files
from cleatwright.project.computing import compute
from cleatwright.siting.panel_job import PanelJob
from cleatwright.siting.rails.fastening import screw_strength
from cleatwright.siting.rails.loading import loaded_rails, rail_checks
from cleatwright.siting.rails.screws import rail_screw_mm
from cleatwright.statics.rail import stud_loads

STANDARD_GRAVITY = 9.80665
N_PER_LBF = 4.4482216


def rail_files(job: PanelJob) -> dict[str, bytes]:
    run = Run()
    return drawn((*section_files(job, run), *load_map_files(job, run)), run)


def wall_of(job: Any) -> Any:
    """Return what was computed for the wall of a job."""
    return job.panels[0]


@pytest.fixture
def wall(done: Any) -> Any:
    """Return the wall of the small workshop."""
    return wall_of(done.job)


def test_rails_and_their_studs_carry_everything_that_hangs_on_them(wall: Any) -> None:
    """Sum of all masses as the wall sees them, times standard gravity (CGPM 1901)."""
    rails = loaded_rails(wall)
    on_rails = math.fsum(item.mass_kg for item in wall.problem.items if item.on_rail)
    loads = [load for rail in rails for load in rail.loads]
    assert len(loads) == sum(item.on_rail for item in wall.problem.items) > 0
    hung = math.fsum(load.weight_n for load in loads)
    assert hung == pytest.approx(on_rails * STANDARD_GRAVITY, rel=1e-9)
    borne = sum(stud.weight_n for rail in rails for stud in stud_loads(rail.fixing, rail.loads))
    assert borne == pytest.approx(hung)


def test_a_load_is_at_the_place_of_its_tools_on_the_wall(wall: Any) -> None:
    """The mean of x of everything lies inside the silhouettes that the elevation draws."""
    for rail in loaded_rails(wall):
        for unit, load in zip(rail.units, rail.loads, strict=True):
            assert rail.rail.x0_mm <= load.x_mm <= rail.rail.x1_mm
            place = wall.spots[unit.planned.key].place
            xs = [
                x
                for made in unit.holders
                for tool in front_view(made, place, Run()).tools
                for loop in tool
                for x, _ in loop
            ]
            assert min(xs) < load.x_mm < max(xs)


def test_the_screw_is_the_shortest_on_sale_that_is_six_diameters_in_the_stud() -> None:
    """NDS 2018, 12.1.5.6: 18 + 12.5 + 6 x 5 = 60.5 mm; 70 mm is the next length on sale."""
    assert rail_screw_mm(rail_thickness_mm=18.0, lining_mm=12.5) == 70.0
    assert rail_screw_mm(rail_thickness_mm=18.0, lining_mm=0.0) == 50.0


def test_a_rail_screw_is_held_by_the_head_before_the_thread_draws() -> None:
    """NDS 2018, 12.2-6a: 0.9 x 690 pi D_H G^2 t for a head of 9.2 mm and a rail of 18 mm."""
    strength = screw_strength(rail_thickness_mm=18.0, lining_mm=12.5)
    head = 0.9 * 690.0 * math.pi * (9.2 / 25.4) * 0.42**2 * (18.0 / 25.4) * N_PER_LBF
    thread = 0.9 * 2850.0 * 0.42**2 * (5.0 / 25.4) * (39.5 / 25.4) * N_PER_LBF
    assert strength.withdrawal_n == pytest.approx(min(head, thread))
    assert head < thread


def test_a_rail_screw_carries_along_the_wall_what_the_least_printed_yield_mode_gives() -> None:
    """NDS 2018, Table 12.3.1A in its printed form: 0.9 for permanent load, K_D 2.2, F_e 3350 psi.

    A screw of 5 x 50 through 18 mm: root 3 mm, F_yb 80 000 psi, l_s 18, l_m 32 - 5 mm.
    """
    d, l_s, l_m = 3.0 / 25.4, 18.0 / 25.4, 27.0 / 25.4
    f_e, f_yb, r_t = 3350.0, 80_000.0, l_m / l_s
    k_1 = (math.sqrt(1 + 2 * (1 + r_t + r_t**2) + r_t**2) - (1 + r_t)) / 2
    k_2 = -1 + math.sqrt(4 + 2 * f_yb * 3 * d**2 / (3 * f_e * l_m**2))
    k_3 = -1 + math.sqrt(4 + 2 * f_yb * 3 * d**2 / (3 * f_e * l_s**2))
    modes = {
        "Im": d * l_m * f_e,
        "Is": d * l_s * f_e,
        "II": k_1 * d * l_s * f_e,
        "IIIm": k_2 * d * l_m * f_e / 3,
        "IIIs": k_3 * d * l_s * f_e / 3,
        "IV": d**2 * math.sqrt(2 * f_e * f_yb / 6),
    }
    bare = screw_strength(rail_thickness_mm=18.0, lining_mm=0.0)
    assert bare.lateral_n == pytest.approx(0.9 * min(modes.values()) / 2.2 * N_PER_LBF)
    lined = screw_strength(rail_thickness_mm=18.0, lining_mm=12.5)
    assert lined.lateral_n < bare.lateral_n


def test_a_screw_that_is_six_diameters_deep_by_the_tenth_of_a_millimetre_counts() -> None:
    """45 - 9.2 - 5.8 is 30 mm, which is six diameters of a 5 mm screw (NDS 2018, 12.1.5.6)."""
    assert screw_strength(rail_thickness_mm=9.2, lining_mm=5.8).lateral_n > 0.0


@pytest.mark.parametrize(
    ("lining_mm", "section", "map_says"),
    [
        (None, "12.5 lining taken as plasterboard (measure yours)", "taken as 12.5 mm of"),
        (20.0, "18 rail, 20 lining as given, 32 in the stud", "given as 20 mm."),
        (0.0, "18 rail, 32 in the stud", "given as 0 mm: rails lie on bare studs"),
    ],
)
def test_the_drawings_say_whether_the_lining_is_given_or_taken(
    wall: Any, lining_mm: float | None, section: str, map_says: str
) -> None:
    """Read from the files; 18 + 20 + 32 and 18 + 32 are the screws of 70 and 50 mm on sale."""
    if lining_mm is not None:
        wall = replace(wall, panel=wall.panel.model_copy(update={"lining_mm": lining_mm}))
    files = rail_files(wall)

    def words(name: str) -> str:
        return " ".join(" ".join(lxml.etree.fromstring(files[name]).itertext()).split())

    first = wall.arrangement.rails[0].name
    assert section in words(f"wall/section-{first}.svg")
    maps = sorted(name for name in files if "load-map" in name and name.endswith(".svg"))
    assert map_says in " ".join(words(name) for name in maps)


def test_the_thicker_the_lining_the_less_a_screw_carries_along_the_wall(wall: Any) -> None:
    """A gap without strength makes a joint weaker (AWC Technical Report 12, Example 3.1)."""
    panels = [wall.panel.model_copy(update={"lining_mm": mm}) for mm in (0.0, 12.5, 32.0)]
    by = [loaded_rails(replace(wall, panel=panel))[0].by for panel in panels]
    carried = [one.strength.lateral_n for one in by if one.strength is not None]
    assert len(carried) == len(panels)
    # 50, 70 and 80 mm on sale leave 32, 39.5 and 30 mm in the stud, so only the gap differs much
    assert carried == sorted(carried, reverse=True)
    assert carried[0] > 1.5 * carried[-1]


def test_every_rail_has_a_check_that_holds(wall: Any) -> None:
    """For ever, with one screw lost, and with somebody who leans on it."""
    checks = rail_checks(wall)
    assert len(checks) == 3 * len(wall.arrangement.rails)
    for number, run in enumerate(wall.arrangement.rails):
        for check in checks[3 * number : 3 * number + 3]:
            assert f"rail {run.name} " in check.name
            assert check.holds
            assert check.demand > 0.0


def test_the_cut_of_each_holder_is_as_long_all_round_as_another_library_finds(wall: Any) -> None:
    """A general mesh library cuts the same meshes by the same plane, edge by edge."""
    for made in [made for unit in wall.units for made in unit.holders][:4]:
        x = 0.4 * made.part.bounds_mm[1][0]
        loops = section_across_x(made.body, x)
        ours = sum(
            math.dist(one, other)
            for loop in loops
            for one, other in zip(loop, (*loop[1:], loop[0]), strict=True)
        )
        mesh = trimesh.Trimesh(made.body.vertices_mm, made.body.triangles)
        lines: Any = trimesh.intersections.mesh_plane(mesh, [1.0, 0.0, 0.0], [x, 0.0, 0.0])
        theirs = float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum())
        assert ours == pytest.approx(theirs, rel=2e-3)
        assert float(np.ptp(lines[:, :, 2])) == pytest.approx(
            np.ptp([z for loop in loops for _, z in loop]), abs=0.02
        )


def test_the_section_hangs_from_the_top_edge_of_the_rail(wall: Any) -> None:
    """The hook meets the bevel, which falls from (0, 0) to the wall at its angle, and no more."""
    for unit in (unit for unit in wall.units if unit.outer.part.hanging.on_rail):
        view = Run().need(SIDE_VIEW, SideView(unit, 18.0))
        points = np.array([p for loops in view.cut for loop in loops for p in loop])
        tan = math.tan(math.radians(unit.outer.part.hanging.bevel_deg))
        behind = points[(points[:, 0] < -0.01) & (points[:, 1] > -18.0 * tan)]
        assert (behind[:, 1] - behind[:, 0] * tan).min() == pytest.approx(0.0, abs=0.02)
        assert view.tool_reach_mm > 0.0


def test_every_drawing_is_there_and_the_same_each_time(wall: Any) -> None:
    files = rail_files(wall)
    names = [run.name for run in wall.arrangement.rails]
    assert sorted(files) == sorted(
        [
            *(f"wall/section-{name}.svg" for name in names),
            "wall/sections.pdf",
            *(name for name in files if "load-map-" in name),
            "wall/load-map.svg",
            "wall/load-map.pdf",
        ]
    )
    with pdfplumber.open(io.BytesIO(files["wall/sections.pdf"])) as document:
        assert len(document.pages) == len(names)
        for page, name in zip(document.pages, names, strict=True):
            assert f"Rail {name} from the side" in (page.extract_text() or "")
    assert rail_files(wall) == files


def test_a_wall_without_studs_has_no_check_and_its_drawings_ask_for_advice(
    tmp_path: Path, shed_text: str
) -> None:
    """Common practice, no source: what holds in masonry depends on the masonry."""
    folder = tmp_path / "bare"
    folder.mkdir()
    bare = re.sub(r"\[\[wall\.stud\]\]\nx = \d+\nwidth = \d+\n", "", shed_text)
    assert bare.count("wall.stud") == 0
    (folder / "workshop.toml").write_text(bare, "utf-8")
    bare_wall = wall_of(compute(folder))
    assert rail_checks(bare_wall) == ()
    for name, data in rail_files(bare_wall).items():
        if name.endswith(".svg"):
            text = " ".join(lxml.etree.fromstring(data).itertext())
            assert "qualified advice" in " ".join(text.split())
