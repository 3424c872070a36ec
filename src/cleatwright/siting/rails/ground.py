"""What the screws of a panel's rails go into, as the wall sees it."""

from __future__ import annotations

from cleatwright.siting.rails.screws import RAIL_SCREW_MM
from cleatwright.wall.ground import (
    LEAST_APART_MM,
    MIDDLE,
    AllOverRule,
    Courses,
    Ground,
    InStuds,
    WallOpening,
    end_mm,
)
from cleatwright.wall.panel_studs import EN_SCREW_MM, stud_rule, studs_of
from cleatwright.wall.screws import HEIGHT_SHARES
from cleatwright.workshop.document.surfaces import OPENINGS, Panel

# a screw into wood stays so many diameters off the edge of a board, as off that of a stud
WOOD_APART_DIAMETERS = 10.0


def all_over(panel: Panel) -> AllOverRule | None:
    """Return how screws lie in a panel that takes them all over; None for one with studs."""
    if panel.made_of == "studs":
        return None
    openings = tuple(
        WallOpening(one.x_mm, one.x_mm + one.width_mm, one.z_mm, one.z_mm + one.height_mm)
        for one in panel.obstacles
        if one.kind in OPENINGS
    )
    if panel.made_of == "solid wood":
        screw = RAIL_SCREW_MM if panel.rule == "NDS 2018" else EN_SCREW_MM
        return AllOverRule(
            end_mm=end_mm(screw),
            least_mm=WOOD_APART_DIAMETERS * screw,
            edge_mm=end_mm(screw),
            # by EN 1995 one line of them: two have no room above each other in most rails
            rows=HEIGHT_SHARES if panel.rule == "NDS 2018" else (MIDDLE,),
            openings=openings,
        )
    anchor = panel.anchor
    return AllOverRule(
        end_mm=end_mm((anchor and anchor.screw_mm) or RAIL_SCREW_MM),
        least_mm=(anchor and anchor.spacing_mm) or LEAST_APART_MM,
        edge_mm=(anchor and anchor.edge_mm) or LEAST_APART_MM,
        openings=openings,
        courses=courses_of(panel),
    )


def courses_of(panel: Panel) -> Courses | None:
    """Return how bricks or blocks lie; None where nobody has said it."""
    if panel.course_mm is None or panel.joint_z_mm is None:
        return None
    return Courses(panel.joint_z_mm, panel.course_mm)


def ground_of(panel: Panel, *, z_top_mm: float, height_mm: float) -> Ground:
    """Return what the screws of a rail of a panel go into.

    Args:
        panel: The panel.
        z_top_mm: Height of the rail's top edge.
        height_mm: Height of its front face.
    """
    rule = all_over(panel)
    if rule is None:
        return InStuds(studs_of(panel), panel.width_mm)
    return rule.ground(z_top_mm=z_top_mm, height_mm=height_mm, wall_mm=panel.width_mm)


def rows_of(panel: Panel, *, z_top_mm: float, height_mm: float) -> tuple[float, ...]:
    """Return where the rows of a rail's screws lie, as shares of its height."""
    rule = all_over(panel)
    if rule is None:
        return stud_rule(panel).rows(height_mm)
    return rule.rows_at(z_top_mm=z_top_mm, height_mm=height_mm)
