"""The catalogue: a page for each family of holders, their index, and the page of the mounts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from cut_pictures import cut_open
from page_parts import MADE, listed, measured, params_table, table, told
from stamped_pictures import Draw, Picture, drawn_anew

from cleatwright.base.errors import CleatwrightError, DesignError
from cleatwright.base.factors import MM3_PER_M3
from cleatwright.base.stages.run import Run
from cleatwright.design.building import BuiltPart, build
from cleatwright.design.catalogue import kinds_held
from cleatwright.design.choice import TRIED
from cleatwright.design.describing import describe
from cleatwright.design.proving import FLAT_MOUNT, USUAL_MOUNTS, trial_recipe
from cleatwright.design.shaping import FILLED_SHARE
from cleatwright.holders.family import Family
from cleatwright.holders.prices import (
    BARE_EDGE_G,
    BOUGHT_G,
    HOLD_G,
    NOT_KEPT_G,
    PULLED_G,
    REACH_G_PER_MM,
    SUPPORT_G,
    WIDTH_G_PER_MM,
)
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.sharing import shown_with_fittings, shown_with_tools
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.mounts.carrier import CarrierParams
from cleatwright.mounts.fittings.bolt import RAIL_OFF_MM, self_holding_friction
from cleatwright.mounts.joints.registry import GROOVES, JOINTS
from cleatwright.mounts.registry import MOUNTS
from cleatwright.papers.kit.picture import Seen
from cleatwright.printing.pose import ACROSS_MM2, HEIGHT_MM2, SLENDER, SLENDER_MM2, SUPPORT_MM2
from cleatwright.printing.walls.arms import CUTS
from cleatwright.printing.walls.twist import CUTS as TWIST_CUTS
from cleatwright.shapes.rigid import Vector
from cleatwright.statics.arm_strength import (
    ACROSS_HAND_MPA,
    IN_PLANE_HAND_MPA,
    IN_PLANE_YEARS_MPA,
    LASTING_MPA,
)
from cleatwright.statics.captured import BLUNT_MM
from cleatwright.tools.registry import KINDS, ordinary_body

CATALOGUE = "catalogue"
# three sizes in one picture, and one alone where a family does not take all of them
SCALES = ((0.8, 1.0, 1.2), (1.0,))
INDEX_PX = 150
CHOOSING = f"""\
## Which family is taken

Every family that can hold the tools of one kind and group draws a holder for up to {TRIED} of
them. It costs, for each tool, in grams of plastic: the plastic itself, as an estimate;
{SUPPORT_G:g} where it needs support to print; {WIDTH_G_PER_MM:g} for each mm of wall with its
tools, and {REACH_G_PER_MM:g} for each mm out of the wall; up to {HOLD_G:g} for how near a hand's
pull comes to what takes it off its rail; {BARE_EDGE_G:g} for an edge that it leaves bare,
{NOT_KEPT_G:g} for a tool that can be knocked out, {PULLED_G:g} where it must be pulled off springs
or magnets, and {BOUGHT_G:g} for something to buy. All of these are choices; `cleatwright sources`
lists them. What is made already keeps its family as long as that can hold it.

The next family is taken where the best does not do: its holder fits no bed in any pose, turned by
any angle; weights or a hand ask for more than its back, its sections or another check bear; or it
finds no place on its wall. Each is said with its reason by `check`, `why`, the report and the page
Holders. No edge is laid bare for it, a family that you name is never replaced, and what is made
is not chosen anew.

The plastic is that of walls and skins along the whole surface, and infill behind them: for nine
holders of ten within a tenth of what `lists/printing.csv` says.
"""
PRINTING = f"""\
## How a part lies on the bed

Of the six sides of a part the one is put down that costs least. All is weighed in mm2 of overhang:
the overhang itself, {SUPPORT_MM2:g} for any support at all, {HEIGHT_MM2:g} for each mm of height,
{SLENDER_MM2:g} for each mm by which it is taller than {SLENDER:g} times its narrower side, and
{ACROSS_MM2["z"]:g} upright or {ACROSS_MM2["y"]:g} on its back, since a part tears most easily
between its layers. A front with a flat back (screwed, bolted, or on a T-slot) prints without
support, and so does one for a French cleat: its hangers and bolts are printed by themselves, on
their sides. `lists/printing.csv` says for each part whether it needs support, and how much hangs
over.

## How many lines make a wall

The printer has `walls`, such as 3. A holder on a rail or on screws gets as few as `least_walls`,
such as 2, where its sections bear what hangs there with no more. It is cut at {CUTS} places across
its arms and at {CUTS} across its back. In each cut walls and skins count alone; what is inside
counts for nothing. Weights with their margin may cause {LASTING_MPA:g} MPa across the layers and
{IN_PLANE_YEARS_MPA:g} along them, and a hand that presses, pulls or knocks {ACROSS_HAND_MPA:g} and
{IN_PLANE_HAND_MPA:g}: a thin arm that bends across its layers has half the strength. Hangers,
bolts and carriers keep the walls of the printer. `lists/printing.csv`, the report and the page
Make say how many lines each part has; the report and the page Holders say how far its worst section
is loaded with them (`section_share`).

A plate on hangers is twisted between its tools, its hangers and its feet, above all by a heavy tool
or a hand beside its only bolt. It is cut at {TWIST_CUTS} places across x for that; there the plate
and the stiffest piece of what stands on it bear the torque, and all of the cut is bent out of the
wall. The rail pushes the plate out at its feet, under the tool or below its hangers, as it asks
least of the plate and as its bolts let the hangers hold. A plate that bears too little gets another
bolt where that saves a millimetre of it, and is thicker else (`twist_share`).

Pieces of a cut that meet again further out are one arm: they bear a tool as far as they are stiff,
as springs under a stiff body, and what lies ahead of the cut weighs on them. A tool rests on what
of it lies where it is carried, and no further out than what carries it reaches.

What bends is made for its load: webs under floors are as deep as their moment asks, the opening in
a floor leaves as much beside it, the walls of a wide ring bear a knock, a plate is thicker between
tools, hangers and foot, and a second bolt is added where the floor of one guide does not bear its
own. With ordinary tools every family bears what it holds with three lines. A size that you give
stays: a share above 1 with all lines does not hold, and another family is taken where one does
better, else let it hold fewer tools or give it more `walls`. For a holder of more than 60 g list,
report and page say where its plastic goes.
"""
HANGERS = f"""\
### Hangers and bolts

On a French cleat the back of a holder is flat. Small parts, alike for all holders of a workshop,
are printed by themselves and go with it:

- A **hanger** hooks over the rail. It slides from the side into a groove of the back until it
  stops; a pin of filament of 1.75 mm, pressed into the hole in the top edge, keeps it there. Its
  dovetail carries the weight, and a pull upwards. A hook that breaks is one small print.
- A **bolt** goes through the back under the lower edge of the rail. Its tab hangs below the holder:
  to the wall it is tight, to the front it is free, by hand. It takes up a rail that is
  {RAIL_OFF_MM:g} mm higher or lower than it was measured; measure yours. Shut, it leaves the holder
  no way off its rail.

Each holder on a rail stands a hand's pull of `pull_n` to the front, of `lift_n` upwards and of both
at once, at the highest place where a hand can hold a tool, and a knock of `knock_n` along the wall
at its far end ([defaults](workshop.md#defaults)); on a bevel whose sharp edge is worn by
{BLUNT_MM:g} mm, without any friction. Where a bolt has no room before a tool, it stands beside it;
where one is too little there are two.

Where no bolt has room, or two are too little, one to three **screws** go through the holder into
the rail: in a pad that a driver reaches from the front, below the fall of the bevel and four
diameters from both edges, six diameters deep, the tip in the rail. They alone carry its weights,
the pull, the lift and the knock; its hooks are left out. The holder bears on the rail with the
lower end of its pads, which are as long and as thick as what bends them asks. The screws are on the
hardware list. A rail of less than 18 mm takes none: then the holder is refused on it.

Of friction the bolt wants {self_holding_friction():.2f} to stay where it was pushed: a dry rail,
without wax or oil under it.
"""
JOINTS_INTRO = """\
## Joints

A holder in `one-piece` bears its mount on its back. In [`grooves`](#grooves) it is made as for a
rail, and small plates hold it on another mount. With any other joint it meets a carrier, which
bears the mount: several holders can then share one carrier, change places or move to another wall.
"""
GROOVES_INTRO = """\
### grooves

Plates in the grooves of a back: `joint = "grooves"` of a holder, or of `[defaults]`, takes a holder
just as it is on a French cleat, with the same mark, to another wall. Nothing of it is printed
anew. What was in its grooves slides out, and small parts take its place:

- A **plate** slides from the side into the groove until it stops, as a hanger does, and the same
  pin of filament keeps it there. It lies flat between the back and the wall, 5 to 10 mm thick.
  Where the back has one groove alone, its bolt goes into the fork of the plate: pushed tight, it
  keeps the holder from swinging sideways.
- A **screw-plate** is screwed to the wall, or to the slots of a profile, above the holder, where a
  driver reaches it from the front past all that stands out.
- A **hook-plate** takes two or more **board-hooks**, put through it from the front. They go into
  the holes or slots of a board and drop. A pin of filament through the plate over the upper hook
  keeps the holder from being lifted out: that is more than hooks in one piece do. A hook that
  breaks is a third of a gram.

A holder that was printed or hangs stays as it is when its mount changes: only plates and hooks go
into the next batch, the steps say what to put into which grooves, and what they need is on the
hardware list. `joint = "grooves"` on a French cleat is the same as `one-piece` there. Made for a
board at first, a holder may go to a rail later.

They bear what holders on rails do: weights with their margin, a hand's pull, lift and both, and a
knock. The tongues, the groove, the plates, the hooks, the pins and the wood screws are checked.
What they do not bear is refused, with the piece and the number: heavy trays on a board of thin
hooks above all. Then `one-piece` may do. A board, a profile and its nuts must bear what hangs on
them: that is not checked.

| mount | what holds it |
| --- | --- |
| `wall-screws` | two countersunk wood screws in each plate |
| `t-slot` | two machine screws in each plate, or one where slots are far apart |
| `perforated-board`, `slotted-board` | hooks, whole pitches apart along and up |

Plates print flat and hooks on their sides, without support. The screws of two plates that are
nearer than two studs do not both meet one: then hang it on solid wood, or in `one-piece`.

A `slotwall` takes no plates: it has one groove, and nothing that a pin could hold a hook down in.
"""
CARRIERS_INTRO = """\
## Carriers

A carrier is as wide as its holders need, or wider. It prints on its back without support. A count
of 1 or more in `screw_count` puts screws straight through it, six diameters deep into a stud behind
the lining: hang it over one. Then tools may be pulled off it.
"""
HOLDERS_INTRO = """\
# Holders

A holder takes tools that offer the grip it needs: any tool with a shoulder hangs in a
`shoulder-rack`, whatever it is called. When a `[[holder]]` names no family, the one that costs
least is taken, [as below](#which-family-is-taken); the report says why. Lengths are in
mm; `params` in [workshop.toml](workshop.md#holder) changes a parameter within its bounds. The
[catalogue](catalogue/index.md) shows each family, its parameters and what it can hold.
"""
INDEX_INTRO = """\
# Catalogue of holders

Each family takes any tool that offers its grip. The pictures show ordinary tools on a French cleat;
"can hold" is asked with the ordinary tool of each [kind](../kinds.md), and the measures of yours
decide. How holders hang and meet their mount: [holders](../holders.md).
"""


# what is shown in grooves: a family with a kind, by these mounts
IN_GROOVES = ("shoulder-rack", "screwdriver")
SHOWN_IN_GROOVES = ("wall-screws", "perforated-board", "t-slot")


@dataclass(frozen=True)
class Shown:
    """A family as it is shown: with which kind of tool, at which sizes, and its pictures."""

    kind: str
    scales: tuple[float, ...]
    mount: str
    picture: Picture
    behind: Picture
    cut: Picture


def catalogue_files(run: Run, draw: Draw = drawn_anew) -> dict[str, bytes]:
    """Return the index, the pages and the pictures of all families by path.

    Args:
        run: The run that keeps what was computed before.
        draw: Draws a picture.
    """
    shown = {name: pictured(family, run) for name, family in FAMILIES.items()}
    files = {f"{CATALOGUE}/index.md": index_page(shown).encode()}
    for name, family in FAMILIES.items():
        one = shown[name]
        files[f"{CATALOGUE}/{name}.md"] = family_page(family, one, run).encode()
        if one is not None:
            for side, picture in (("", one.picture), ("-behind", one.behind), ("-cut", one.cut)):
                path = f"{CATALOGUE}/pictures/{name}{side}.png"
                files[path] = draw(path, picture)
    return files


def pictured(family: Family, run: Run) -> Shown | None:
    """Return the pictures of a family with ordinary tools, or None when it holds none of them."""
    for kind in kinds_held(family):
        for mount, scales in product(USUAL_MOUNTS, SCALES):
            built = tried(family.name, kind, scales, run, mount=mount)
            if isinstance(built, BuiltPart) and built.holds:
                picture = Picture(tuple(shown_with_tools(built)))
                behind = Picture(tuple(turned_round(one) for one in shown_with_fittings(built)))
                return Shown(kind, scales, mount, picture, behind, Picture(cut_open(built)))
    return None


def turned_round(seen: Seen) -> Seen:
    """Return a mesh half turned about its height, so that its back is seen."""
    return replace(seen, vertices_mm=seen.vertices_mm * np.array((-1.0, -1.0, 1.0)))


def tried(name: str, kind: str, scales: tuple[float, ...], run: Run, **how: str) -> BuiltPart | str:
    """Return a trial of a family, or why it cannot be built."""
    try:
        return build(trial_recipe(name, kind, scales, **how), MeshKernel(), run=run)
    except CleatwrightError as error:
        return str(error)


def index_page(shown: dict[str, Shown | None]) -> str:
    """Return the table of all families."""
    rows: list[tuple[str, ...]] = []
    for family in FAMILIES.values():
        picture = ""
        if shown[family.name] is not None:
            picture = (
                f'<a href="{family.name}.md"><img src="pictures/{family.name}.png" '
                f'width="{INDEX_PX}" alt="{family.title}"></a>'
            )
        able = ", ".join(f"[{kind}](../kinds.md#{kind})" for kind in kinds_held(family))
        link = f"[{family.name}]({family.name}.md)"
        rows.append((picture, link, family.title, family.grip.title, able))
    head = ("", "family", "what it is", "takes a", "can hold the ordinary")
    return "\n".join((MADE, INDEX_INTRO, table(head, rows)))


def family_page(family: Family, shown: Shown | None, run: Run) -> str:
    """Return the page of a family."""
    text, sketch = told(family.build)
    parts = [MADE, f"# {family.name}\n\n{family.title}.\n"]
    if shown is not None:
        sizes = listed(f"{scale:g}" for scale in shown.scales)
        parts.append(
            f"![{family.title}](pictures/{family.name}.png) "
            f"![The same from behind](pictures/{family.name}-behind.png) "
            f"![The same cut open through a tool](pictures/{family.name}-cut.png)\n\n"
            f"Shown with the ordinary [{shown.kind}](../kinds.md#{shown.kind}), its measures times "
            f"{sizes}, by the mount {shown.mount}.\n"
        )
    parts += [f"{text}\n", sketch]
    if family.caution:
        parts.append(f"> Caution: {family.caution}\n")
    parts.append("## What it holds\n")
    parts.append(f"It takes a **{family.grip.title}**.\n\n{held(family)}")
    parts.append(f"## Parameters\n\nLengths are in mm.\n\n{params_table(family.params)}")
    if shown is not None:
        parts += ["## As it is built\n", *as_built(family, shown, run)]
    parts.append("[All families](index.md) · [Mounts, joints and carriers](../holders.md)\n")
    return "\n".join(part for part in parts if part)


def as_built(family: Family, shown: Shown, run: Run) -> Iterator[str]:
    """Yield how a family for one ordinary tool hangs, prints, gives the tool back and weighs."""
    one, kind = (1.0,), shown.kind
    ways = [(f"[{name}](../holders.md#mounts)", {"mount": name}) for name in MOUNTS]
    ways += [
        (f"[grooves on {m.name}](../holders.md#grooves)", {"mount": m.name, "joint": GROOVES})
        for m in MOUNTS.values()
        if m.in_grooves is not None
    ]
    ways += [(f"[{name}](../holders.md#joints)", {"joint": name}) for name in JOINTS]
    good: list[str] = []
    bad: list[str] = []
    for link, how in ways:
        built = tried(family.name, kind, one, run, **how)
        if isinstance(built, str):
            bad.append(f"- Not with {link}: {built}")
        elif faults := [check.note or check.name for check in built.checks if not check.holds]:
            bad.append(f"- Not with {link}: {'; '.join(faults)}")
        else:
            good.append(link)
    yield f"- For the ordinary {kind} it passes every check with {listed(good)}."
    yield from bad
    pose = describe(trial_recipe(family.name, kind, one, mount=FLAT_MOUNT)).print_pose
    if pose is not None:
        yield f"- With a flat back it prints {pose.replace('-', ' ')}, without support."
    built = tried(family.name, kind, one, run, mount=shown.mount)
    if isinstance(built, BuiltPart):
        yield f"- The tool leaves {way_in_words(built.part.seats[0].way_out)}."
        kg_mm3 = built.recipe.material.density_kg_m3 * FILLED_SHARE / MM3_PER_M3
        grams = built.body.facts.volume_mm3 * kg_mm3 * 1000.0
        yield (
            f"- By the mount {shown.mount} it weighs about {grams:.0f} g, printed with "
            f"{FILLED_SHARE * 100:.0f} % of its volume filled.\n"
        )


def way_in_words(moves: tuple[Vector, ...]) -> str:
    """Return straight moves as a person makes them, x to the left and y away from the wall.

    >>> way_in_words(((0.0, 0.0, 4.0), (0.0, 36.5, 0.0)))
    'up 4 mm, then towards you 36.5 mm'
    """
    words = (("to the left", "to the right"), ("towards you", "to the wall"), ("up", "down"))
    return ", then ".join(
        " and ".join(
            f"{words[k][value < 0.0]} {abs(value):.1f}".removesuffix(".0") + " mm"
            for k, value in enumerate(move)
            if abs(value) >= 0.05
        )
        for move in moves
    )


def holders_page() -> str:
    """Return the page of the holder families and the mounts."""
    parts = [MADE, HOLDERS_INTRO]
    parts.append("## Families\n")
    rows = [
        (f"[{f.name}]({CATALOGUE}/{f.name}.md)", f.title, f.grip.title) for f in FAMILIES.values()
    ]
    parts.append(table(("family", "what it is", "takes a"), rows))
    parts.append(
        "## Mounts\n\nEvery family hangs on each, unless what a hand does to its tools asks for\n"
        "more than its bolts or screws bear: then it says so, and is screwed to the wall.\n"
        "A carrier of wood has no bolt, and takes no tool that is pulled off springs or magnets\n"
        "without screws. A holder that is screwed to the wall hangs beside the rails, on a\n"
        "wall with studs where each column of its screws meets one; without such a place it\n"
        "does not hold. The elevation crosses these screws, and lists where they go.\n"
    )
    rows = [(f"`{m.name}`", m.title, ("no", "yes")[m.on_rail]) for m in MOUNTS.values()]
    parts.append(table(("mount", "how it hangs", "on a rail"), rows))
    parts.append(HANGERS)
    parts += [
        measured(m.name, m.attach, m.params) for m in MOUNTS.values() if m.params.model_fields
    ]
    parts += [CHOOSING, PRINTING]
    parts += [JOINTS_INTRO, GROOVES_INTRO, *groove_figures()]
    parts += [measured(j.name, j.plug, j.params) for j in JOINTS.values()]
    parts.append(CARRIERS_INTRO)
    parts.append(params_table(CarrierParams))
    return "\n".join(parts)


def groove_figures() -> Iterator[str]:
    """Yield the pictures of holders in grooves, as they stand on the page."""
    for mount in SHOWN_IN_GROOVES:
        yield (
            f"![A holder on {mount}, from behind](pictures/grooves-{mount}.png) "
            f"![The same cut open through a plate](pictures/grooves-{mount}-cut.png)\n"
        )


def groove_pictures(run: Run, draw: Draw = drawn_anew) -> dict[str, bytes]:
    """Return these pictures by their paths."""
    files: dict[str, bytes] = {}
    for mount in SHOWN_IN_GROOVES:
        built = tried(*IN_GROOVES, (0.8, 1.0, 1.3), run, mount=mount, joint=GROOVES)
        if not isinstance(built, BuiltPart) or built.part.hanging.in_grooves is None:
            raise DesignError(f"no picture of a holder in grooves on {mount}: {built}")
        behind = tuple(turned_round(one) for one in shown_with_fittings(built))
        at = built.part.hanging.in_grooves.columns_mm[-1]
        for side, shown in (("", behind), ("-cut", cut_open(built, at_mm=at))):
            path = f"pictures/grooves-{mount}{side}.png"
            files[path] = draw(path, Picture(shown))
    return files


def held(family: Family) -> str:
    """Return which kinds a family can hold, and why not a kind that offers the grip."""
    able: list[str] = []
    refused: list[str] = []
    for kind in KINDS.values():
        body = ordinary_body(kind.name)
        reason, linked = family.why_not(body), f"[{kind.name}](../kinds.md#{kind.name})"
        if reason is None:
            able.append(linked)
        elif body.grip(family.grip) is not None:
            refused.append(f"Not the ordinary {linked}: {reason}.")
    first = f"Can hold: {', '.join(able) or 'none of the ordinary tools'}."
    return " ".join([first, *refused]) + "\n"
