"""A rail seen from the side, cut through the holder that loads it most, at a usual scale.

level text │ dims │ stud │ lining │ rail │ holder and tool │ words
           │      │      │        │ dimensions below        │
───────────┴──────┴──────┴────────┴──────┴─────────────────┴──────
title, numbers, checks            │ screws and cautions
"""

from __future__ import annotations

from cleatwright.base.stages.stage import Stage
from cleatwright.papers.kit.drafting import BLUE, INK, PALE, hatching
from cleatwright.papers.kit.drawn import drawn_file
from cleatwright.papers.kit.paper import landscape, series
from cleatwright.papers.kit.svg import Face, Pen, Point, Sheet
from cleatwright.papers.rail_section import notes
from cleatwright.papers.rail_section.frame import MARGIN, Frame, frame_of
from cleatwright.papers.rail_section.marks import draw_marks
from cleatwright.papers.rail_section.view import RailSectionView

PANEL_GAP = 5.0
MASONRY = "#E3CFC6"
WOOD, LINING, PLASTIC, BEHIND, TOOL = "#EAD9BC", "#E9E7E2", "#D5DDE2", "#EEF2F4", "#FFFFFF"
HATCH = 1.6
SMALL = 2.5


def rail_section_svg(view: RailSectionView, *, sheet_name: str = "A4") -> bytes:
    """Return the drawing; the same view always gives the same bytes.

    The scale is the largest usual one at which everything fits on the sheet.

    Args:
        view: What is drawn.
        sheet_name: A sheet of ISO 216 or ASME Y14.1, which stands upright.
    """
    paper = landscape(sheet_name).turned
    column = (paper.width_mm - 2 * MARGIN - PANEL_GAP) / 2
    left, right = notes.left_notes(view, width=column), notes.right_notes(view, width=column)
    panel = max(notes.height_of(left), notes.height_of(right) + notes.BAR)
    frame = frame_of(view, paper, panel=panel)
    k = float(frame.scale)
    sheet = Sheet(
        width=paper.width_mm * k,
        height=paper.height_mm * k,
        scale=k,
        title=f"{view.title}, rail {view.rail} from the side",
    )
    sheet.layer("paper")
    sheet.box((0.0, 0.0), (paper.width_mm * k, paper.height_mm * k), Pen(fill="#FFFFFF"))
    _wall(sheet, view, frame)
    _hung(sheet, view, frame)
    _rail(sheet, view, frame)
    draw_marks(sheet, view, frame)
    top = paper.height_mm - MARGIN - panel
    sheet.layer("words")
    notes.rule_above(sheet, x0=MARGIN, x1=paper.width_mm - MARGIN, y=top - 1.5)
    second = MARGIN + column + PANEL_GAP
    notes.draw_notes(sheet, left, x=MARGIN, y=top)
    notes.draw_notes(sheet, right, x=second, y=top)
    foot = paper.height_mm - MARGIN - notes.BAR + 2.0
    notes.draw_foot(sheet, view, x=second, y=foot, scale=frame.scale, paper=paper)
    return sheet.to_bytes()


SECTION: Stage[RailSectionView, bytes] = drawn_file(
    "rail from the side", lambda view: rail_section_svg(view, sheet_name=series(view.unit)[0])
)
"""From the view of a rail to its drawing, on A4 or Letter."""


def _wall(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Draw stud and lining, broken off at the left, above and below."""
    k = sheet.scale
    sheet.layer("wall")
    face = -view.profile.thickness_mm
    back = face - view.wall.lining_mm
    low, high = frame.z0_mm, frame.z1_mm
    if view.wall.lining_mm:
        loop = ((back, low), (face, low), (face, high), (back, high))
        _cut(sheet, [frame.loop(loop)], fill=LINING, step=0.7, lean_deg=45.0, edge=0.0)
    if view.wall.has_stud or view.wall.solid:
        loop = ((frame.y0_mm, low), (back, low), (back, high), (frame.y0_mm, high))
        fill = MASONRY if view.wall.anchored else WOOD
        _cut(sheet, [frame.loop(loop)], fill=fill, step=2.4, lean_deg=-45.0, edge=0.0)
    for y in {face, back}:
        sheet.line(frame.at(y, low), frame.at(y, high), Pen(INK, 0.35))
    middle, (x, _) = (low + high) / 2, frame.at(frame.y0_mm, 0.0)
    zigzag = [(x, frame.at(0.0, low)[1])]
    for shift, step in ((0.0, -3.0), (1.6, -1.0), (-1.6, 1.0), (0.0, 3.0)):
        zigzag.append((x + shift * k, frame.at(0.0, middle)[1] - step * k))
    sheet.polyline([*zigzag, (x, frame.at(0.0, high)[1])], Pen(PALE, 0.18))
    _name(sheet, view, frame, back=back)


def _name(sheet: Sheet, view: RailSectionView, frame: Frame, *, back: float) -> None:
    """Write the names of the wall's layers upright, at their lower end."""
    k = sheet.scale
    face = Face(SMALL, INK, anchor="start", halo=True)
    y = frame.at(0.0, frame.z0_mm)[1] - 2.0 * k
    known = "no stud here" if view.wall.any_stud else "wall without studs"
    words = "stud" if view.wall.has_stud else known
    if view.wall.solid:
        words = (
            "wall, of what is not known" if view.wall.made_of == "unknown" else view.wall.made_of
        )
    x = frame.at((frame.y0_mm + back) / 2, 0.0)[0]
    sheet.text((x + 0.36 * SMALL * k, y), words, face, upright=True)
    if view.wall.lining_mm:
        x = frame.at(back + view.wall.lining_mm / 2, 0.0)[0]
        sheet.text((x + 0.36 * SMALL * k, y), "lining", face, upright=True)


def _rail(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    k = sheet.scale
    sheet.layer("rail")
    _cut(sheet, [frame.loop(view.rail_loop)], fill=WOOD, step=HATCH, lean_deg=45.0, edge=0.5)
    sheet.layer("screws")
    _hole(sheet, view, frame)
    for screw in view.screws:
        head, half = screw.head_mm / 2, screw.diameter_mm / 2
        tip = -screw.length_mm
        outline = (
            (0.0, screw.z_mm + head),
            (half - head, screw.z_mm + half),
            (tip + 2 * half, screw.z_mm + half),
            (tip, screw.z_mm),
            (tip + 2 * half, screw.z_mm - half),
            (half - head, screw.z_mm - half),
            (0.0, screw.z_mm - head),
        )
        sheet.polyline(frame.loop(outline), Pen(INK, 0.25, "#FFFFFF"), closed=True, name="screw")
        axis = Pen(BLUE, 0.13, dash=(3.0, 0.7, 0.5, 0.7))
        over = 2.0 * k
        sheet.line(frame.at(tip - over, screw.z_mm), frame.at(over, screw.z_mm), axis)


def _hole(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    """Draw the hole of an anchor in the wall, and its axis where its screw is not known."""
    face = -view.profile.thickness_mm
    axis = Pen(BLUE, 0.13, dash=(3.0, 0.7, 0.5, 0.7))
    for hole in view.holes:
        if hole.depth_mm is not None and hole.diameter_mm is not None:
            half, back = hole.diameter_mm / 2, face - hole.depth_mm
            loop = ((face, half), (back, half), (back, -half), (face, -half))
            outline = [frame.at(y, hole.z_mm + z) for y, z in loop]
            sheet.polyline(outline, Pen(INK, 0.2, "#FFFFFF"), closed=True, name="hole")
        if not view.screws:
            ends = (frame.at(frame.y0_mm, hole.z_mm), frame.at(4.0 * sheet.scale, hole.z_mm))
            sheet.line(ends[0], ends[1], axis)


def _hung(sheet: Sheet, view: RailSectionView, frame: Frame) -> None:
    hung = view.hung
    sheet.layer("beyond")
    for body in hung.beyond:
        sheet.rings([frame.loop(loop) for loop in body], Pen(PALE, 0.18, BEHIND))
    sheet.layer("tool")
    for loop in frame.tools:
        sheet.polyline(frame.loop(loop), Pen(INK, 0.25, TOOL), closed=True, name="tool")
    sheet.layer("cut")
    for n, loops in enumerate(hung.cut):
        lean = -45.0 if n % 2 == 0 else 45.0
        rings = [frame.loop(loop) for loop in loops]
        fill = WOOD if n == 0 and hung.first_of_wood else PLASTIC
        _cut(sheet, rings, fill=fill, step=HATCH, lean_deg=lean, edge=0.5)


def _cut(
    sheet: Sheet,
    rings: list[list[Point]],
    *,
    fill: str,
    step: float,
    lean_deg: float,
    edge: float,
) -> None:
    """Draw a cut face: filled, hatched, and with a strong edge where ``edge`` is above 0."""
    if not rings:
        return
    sheet.rings(rings, Pen(fill=fill), name="cut-face")
    sheet.lines(hatching(rings, step=step * sheet.scale, lean_deg=lean_deg), Pen(INK, 0.13))
    if edge:
        sheet.rings(rings, Pen(INK, edge))
