"""Write the reference pages, the schema of the report and the example picture into docs/.

Everything comes from the models and registries of the program; only what a key is for, and
the text around the tables of workshop.md, are written by hand; a key without words stops it.
"""

from __future__ import annotations

import inspect
import re
import sys
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from annotated_types import Ge, Le
from family_pages import CATALOGUE, catalogue_files, holders_page
from kind_pages import card_files, kinds_page
from page_parts import table
from pydantic.fields import FieldInfo

from cleatwright.base.errors import DesignError
from cleatwright.base.stages.run import Run
from cleatwright.pack.drawing import elevation_files
from cleatwright.pack.output_file import drawn
from cleatwright.papers.report_model import schema_text
from cleatwright.project.computing import compute
from cleatwright.standards.wall.obstacles import OBSTACLES
from cleatwright.workshop.document import entries, fields
from cleatwright.workshop.document.fields import DocumentTable, Within
from cleatwright.workshop.document.model import Workshop

DOCS = Path(__file__).resolve().parent
PAGE = DOCS / "workshop.md"
OBSTACLE_MARKS = ("<!-- obstacles by kind -->", "<!-- end of obstacles -->")
MARKED = re.compile(r"<!-- keys of (\w+) -->\n(.*?)<!-- end of keys -->\n", re.DOTALL)
# what the owner does not write as a key: names in the head of a table, measures beside a label
WITHOUT_KEY = ("Printer.name", "Filament.name", "ToolSize.measures", "Sizes.name")
MEASURES = {"mm": "length", "kg": "mass", "deg": "angle", "": "number"}
PLAIN: tuple[tuple[Any, str], ...] = (
    (fields.Name, "text on one line, up to 80 letters"),
    (entries.NominalSize, "number, or text on one line"),
    (entries.FileInWorkshop, "path of an `.svg` or `.dxf` file, up to 200 letters"),
    (fields.Notes, "text, up to 2000 letters"),
    (fields.Slug, "name in lower-case letters, digits and hyphens"),
    (fields.Flag, "`true` or `false`"),
    (fields.Colour, "colour such as `#1f5fa8`"),
    (fields.ReadingsTable, "table of names and measures"),
)
# what each key of workshop.toml is for, by the name of its model
WORDS = tomllib.loads("""
[Workshop]
schema = "edition of this format"
name = "what you call the workshop; it heads the drawing"
units = "the unit of bare lengths, and of the lengths that are shown to you"
wall = "[the wall](#wall)"
panel = "[further walls](#panel), one `[[panel]]` each"
rail = "[how rails are made](#rail)"
person = "[for whom the wall is arranged](#person)"
drawings = "[the paper of the drawings](#drawings)"
printer = "[your printers](#printername), by name; at least one to make anything"
filament = "[your filaments](#filamentname), by name; at least one to make anything"
fit = "[play of the classes of fit](#fit)"
defaults = "[what holds unless a holder says otherwise](#defaults)"
mount = "[measures of a mount](#mountname-and-jointname), by its name"
joint = "[measures of a joint](#mountname-and-jointname), by its name"
tool = "[your tools](#tool), one `[[tool]]` each"
holder = "[your wishes](#holder), one `[[holder]]` each"
carrier = "[pieces that holders share](#carrier), one `[[carrier]]` each"
group = "[how a group hangs](#group), one `[[group]]` each"
[Wall]
width = "from left to right"
height = "from the lower edge up"
floor_gap = "from the floor to the lower edge; decides what is in easy reach"
bench_depth = "of what stands in front of the wall and keeps you off it"
bench_height = "of its top, from the floor"
stand_x = "where you usually stand, from the left edge; else the middle"
lining = "thickness of what lies between studs and rails; 0 on bare studs or solid wood"
datum = "from where you measure; kept for you"
obstacle = "[where nothing may hang](#wallobstacle), one `[[wall.obstacle]]` each"
stud = "[where screws hold](#wallstud), one `[[wall.stud]]` each"
rail = "[rails that hang already](#wallrail), one `[[wall.rail]]` each"
[Obstacle]
name = "what you call it"
kind = "what it is; decides what the keys below do not say"
x = "its left edge"
z = "its lower edge"
width = "from left to right"
height = "from its lower edge up"
margin = "how far holders keep off, all round; else by its kind"
depth = "how far it stands out of the wall; else by its kind"
heat = "how far off things hang that must stay cool; else by its kind"
[Stud]
x = "its centre"
width = "from left to right"
doubled = "whether it is nailed to the stud that it touches: both are one place for screws"
[KeptRail]
x = "its left end"
z_top = "its top edge"
length = "from left to right"
[Panel]
name = "a name that no other panel has; `wall` is the wall above"
mount = "[how holders hang](holders.md#mounts) here; else that of `[defaults]`"
[RailRules]
thickness = "of the board"
height = "of the rail's front face"
bevel = "of the upper edge, from the square cut"
min_gap = "least free height between two rails"
timber = "what the board is; kept for you"
kerf = "what the saw blade eats"
stock = "[your boards](#railstock), one `[[rail.stock]]` for each length"
[StockEntry]
name = "what you call it"
length = "of one board"
count = "how many you have; 0 means as many as needed"
[Person]
stature = "from the floor to the top of the head"
elbow_height = "from the floor to the elbow of the hanging arm; else from the stature"
shoulder_height = "from the floor to the joint of the shoulder; else from the stature"
arm_reach = "from the joint of the shoulder to the middle of the fist; else from the stature"
hand = "the hand that takes the tools"
[Drawings]
sheet = "for the whole wall; `auto` takes the smallest on which it can be read"
template_sheet = "for templates in true size, taped together from sheets"
[Printer]
bed = "width, depth and height that it can print"
nozzle = "bore of the nozzle; no less than a layer"
layer = "height of one layer"
line = "width of one printed line, 0.75 to 2 times the nozzle, no less than a layer"
hole_correction = "how much too narrow this printer makes a hole; added to every hole"
spacing = "between two parts on the bed"
edge = "rim of the bed that stays free"
[Filament]
material = "what it is; springs are laid out for PLA, PETG, ABS, ASA or the worst of them"
density = "for the mass of printed parts, which loads screws and keeps hooks down"
colour = "in the print files"
price_per_kg = "in your money; kept for you"
[Sizes]
params = "its measures, each beside the other under the name of the table"
[FitRules]
snug = "for light tools that must not rattle"
easy = "for most tools"
loose = "for greasy fingers and worn tools"
default = "the class for whatever asks for none"
[Defaults]
mount = "[how holders hang](holders.md#mounts)"
joint = "[how they meet the mount](holders.md#joints)"
printer = "the name of one of your printers; the first when left out"
filament = "the name of one of your filaments; the first when left out"
plate = "thickness of a holder's back"
hand_room = "free room for fingers between two tools"
stability_margin = "factor on the depth that keeps a holder on its rail"
drag = "how hard a hand pulls at the top of a tool that it lifts out"
effort = "how many times as long as usual the walls are searched for a better arrangement"
[Tool]
name = "a name that no other tool has"
kind = "one of the [kinds](kinds.md)"
measures = "what the [kind](kinds.md) wants to know, by the names on its card"
count = "how many equal ones"
sizes = "[what differs from size to size](#sizes-of-a-tool)"
nominal_sizes = "[a set by its sizes](kinds.md#nominal-sizes), for what nobody measured"
mass = "of one tool, weighed"
outline = "a drawing of its outline, below the folder of the workshop"
use = "what is used often hangs where it is reached most easily"
group = "a name that tools share which belong together"
fit = "its class of fit; else that of its holder, else that of the document"
panel = "the [panel](#panel) it hangs on; else that of its holder, else the wall"
keep_cool = "whether it must hang away from heat; else its kind decides"
notes = "kept for you"
[ToolSize]
label = "what the size is called; else it is numbered"
mass = "of this size; else that of the entry"
[Holder]
tools = 'names of tools, or of single ones such as "Hex key 4"; either this or `group`'
group = "a group of tools; either this or `tools`"
family = "one of the [families](holders.md); else the one that suits the tools best"
params = "parameters of the family, by the names on its page"
mount = "[how it hangs](holders.md#mounts); else that of `[defaults]`"
joint = "[how it meets the mount](holders.md#joints); else that of `[defaults]`"
carrier = "the name of the [carrier](#carrier) that it shares with others"
fit = "its class of fit; goes before that of the document"
panel = "the [panel](#panel) it hangs on; else that of its tools"
place = "[where it hangs](#place-of-a-holder); else the program finds the place"
[Carrier]
name = "a name that no other carrier has"
made_of = "printed, or sawn and routed from the timber of the rails"
joint = "[how its holders meet it](holders.md#joints)"
mount = "[how it hangs](holders.md#mounts); else that of `[defaults]`"
params = "its [measures](holders.md#carriers)"
panel = "the [panel](#panel) it hangs on; else that of its tools"
place = "[where it hangs](#place-of-a-holder); else the program finds the place"
[Group]
name = "a group that tools name"
in_order = "whether its holders hang from left to right as their tools stand in the document"
[FixedPlace]
x = "from the left edge of its wall or panel"
z = "from the lower edge of its wall or panel"
""")


def write(folder: Path) -> tuple[Path, ...]:
    """Write every generated file below a folder and return their paths."""
    made = {
        "workshop.md": workshop_page().encode(),
        "holders.md": holders_page().encode(),
        "kinds.md": kinds_page().encode(),
        "report.schema.json": schema_text().encode(),
        "pictures/bicycle-room.svg": bicycle_room(),
        **catalogue_files(),
        **card_files(),
    }
    for name, data in made.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    # a family or a kind that is gone leaves no page
    for path in sorted((folder / CATALOGUE).rglob("*")):
        if path.is_file() and path.relative_to(folder).as_posix() not in made:
            path.unlink()
    return tuple(folder / name for name in made)


def bicycle_room() -> bytes:
    """Return the elevation of the example."""
    job = compute(DOCS.parent / "examples" / "bicycle-room")
    run = Run()
    return drawn(elevation_files(job.panels[0], run), run)["wall/elevation.svg"]


def workshop_page() -> str:
    """Return the page of the document, its hand-written text as it is and its tables anew.

    Raises:
        DesignError: A table of the document has no place on the page, or a place no table.
    """
    models = {model.__name__: model for model in tables_of(Workshop)}
    text = PAGE.read_text(encoding="utf-8")
    require_equal({name for name, _ in MARKED.findall(text)}, models, where=PAGE.name)
    text = MARKED.sub(lambda found: marked_table(models[found[1]]), text)
    return re.sub(
        rf"{OBSTACLE_MARKS[0]}.*?{OBSTACLE_MARKS[1]}",
        lambda _: obstacle_table(),
        text,
        flags=re.DOTALL,
    )


def obstacle_table() -> str:
    """Return what follows from the kind of an obstacle, between its marks."""
    rows = [(f"`{kind}`", *(f"{mm:g} mm" for mm in sizes)) for kind, sizes in OBSTACLES.rows]
    listed = table(("kind", "margin", "depth", "heat"), rows)
    return f"{OBSTACLE_MARKS[0]}\n\n{listed}\n{OBSTACLE_MARKS[1]}"


def tables_of(model: type[DocumentTable]) -> Iterator[type[DocumentTable]]:
    """Yield a table of the document and every table inside it."""
    yield model
    for hint in fields_of(model).values():
        core = parted(hint)[0]
        inner = get_args(core)[0] if get_origin(core) is tuple else core
        if is_table(inner):
            yield from tables_of(inner)


def fields_of(model: type[DocumentTable]) -> dict[str, Any]:
    """Return the types of a table's fields with all that is noted on them."""
    hints = get_type_hints(model, include_extras=True)
    named = {name: f"{model.__name__}.{name}" for name in model.model_fields}
    # what a table takes over from another one is told there
    told = {name for base in model.__bases__ if is_table(base) for name in base.model_fields}
    return {
        name: hints[name]
        for name, full in named.items()
        if full not in WITHOUT_KEY and name not in told
    }


def marked_table(model: type[DocumentTable]) -> str:
    """Return the keys of a table of the document between their marks.

    Raises:
        DesignError: A key has no words, or words have no key.
    """
    words, rows = WORDS[model.__name__], []
    keys = {name: model.model_fields[name].alias or name for name in fields_of(model)}
    require_equal(words, keys.values(), where=f"WORDS, {model.__name__}")
    for name, hint in fields_of(model).items():
        meant = default(model.model_fields[name], hint)
        rows.append((f"`{keys[name]}`", words[keys[name]], takes(hint), meant))
    listed = table(("key", "what it is", "takes", "default"), rows)
    return f"<!-- keys of {model.__name__} -->\n\n{listed}\n<!-- end of keys -->\n"


def require_equal(told: Iterable[str], there: Iterable[str], *, where: str) -> None:
    """Refuse to tell of what is not there, or not to tell of what is."""
    if odd := sorted({*told} ^ {*there}):
        raise DesignError(f"on one side only: {', '.join(odd)}", where=where)


def takes(hint: Any) -> str:
    """Return what a key takes, from its type and its bounds, or raise DesignError."""
    core, metadata = parted(hint)
    inner = get_args(core)
    within = within_of(hint)
    if words := plain_words(hint):
        return words
    if get_origin(core) is Literal:
        return one_of([f"`{word}`" for word in inner])
    if within is not None:
        return f"{MEASURES[within.unit]}, {within.allowed}"
    if core is int:
        bounds = [bound for info in metadata for bound in info.metadata]
        low = next(bound.ge for bound in bounds if isinstance(bound, Ge))
        high = next(bound.le for bound in bounds if isinstance(bound, Le))
        return f"whole number, {low}" if low == high else f"whole number, from {low} to {high}"
    if get_origin(core) is tuple and not is_table(inner[0]):
        many = "" if inner[-1] is Ellipsis else f" of {len(inner)}"
        return f"list{many}, each: {takes(inner[0])}"
    if not is_table(inner[0] if inner else core):
        raise DesignError(f"nobody says in words what {hint} takes", where="takes()")
    return "tables" if inner else "table"


def plain_words(hint: Any) -> str:
    """Return the words for a type that has no bounds of its own, or nothing."""
    return next((words for one, words in PLAIN if hint in {one, one | None}), "")


def parted(hint: Any) -> tuple[Any, tuple[Any, ...]]:
    """Return a type without "or none", and what is noted on it."""
    metadata: tuple[Any, ...] = ()
    while get_origin(hint) in {Annotated, Union, UnionType}:
        if get_origin(hint) is Annotated:
            metadata += hint.__metadata__
            hint = hint.__origin__
        else:
            hint = next(one for one in get_args(hint) if one is not type(None))
    return hint, metadata


def within_of(hint: Any) -> Within | None:
    """Return the bounds noted on a type."""
    return next((one for one in parted(hint)[1] if isinstance(one, Within)), None)


def is_table(core: Any) -> bool:
    """Tell whether a type is a table of the document."""
    return inspect.isclass(core) and issubclass(core, DocumentTable)


def default(info: FieldInfo, hint: Any) -> str:
    """Return the default of a key in words."""
    if info.alias == "schema" or info.is_required():
        return "needed"
    value: Any = info.default
    within = within_of(hint)
    if within is not None:
        unknown = '`"estimate"`' if within.estimate else "none"
        return unknown if value is None else f"{value:g} {within.unit}".rstrip()
    if isinstance(value, DocumentTable):
        return "its defaults"
    if value in {None, (), ""} or value == fields.Readings():
        return "none"
    if isinstance(value, bool):
        return f"`{str(value).lower()}`"
    return str(value) if isinstance(value, int) else f"`{value}`"


def one_of(words: Iterable[str]) -> str:
    """Join words as a choice."""
    *first, last = words
    return f"{', '.join(first)} or {last}" if first else last


if __name__ == "__main__":
    for made in write(DOCS):
        sys.stdout.write(f"{made.relative_to(DOCS.parent)}\n")
