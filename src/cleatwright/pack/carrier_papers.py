"""Papers for carriers of wood: one list for the workshop and a drawing of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cleatwright.base import said
from cleatwright.base.lengths import LengthUnit, Wording, cell, column
from cleatwright.design.building import BuiltPart
from cleatwright.pack.output_file import OutputFile, of_stage
from cleatwright.papers.carriers.drawing import CARRIER_DRAWING
from cleatwright.papers.kit.tables import ListTable
from cleatwright.parts.joinery import Bore, Groove, Joinery, Strip
from cleatwright.parts.mirror import to_reader, turned
from cleatwright.timber.carriers import CarrierWood

# what a row may say; the columns of lengths carry their unit where cells do not
LENGTHS = ("from left", "from top", "length", "height", "thickness", "depth", "diameter")
COLUMNS = ("mark", "carrier", "what", "count", *LENGTHS, "bevel deg", "how")
WRITE_IT = "write the mark on its back with a pencil that lasts; nothing is engraved"

Row = dict[str, str | float]


def joinery_of(made: BuiltPart) -> Joinery:
    """Return what a carrier of wood is made of."""
    joinery = made.part.joinery
    if joinery is None:
        raise TypeError(f"{made.mark} is no carrier of wood")
    return joinery


def carrier_wood(carriers: Sequence[tuple[str, BuiltPart]]) -> tuple[CarrierWood, ...]:
    """Return the carriers of wood as the cut lists take them."""
    return tuple(CarrierWood(made.mark, joinery_of(made)) for _, made in carriers)


def drawing_name(made: BuiltPart) -> str:
    """Return the file name of the drawing of a carrier of wood."""
    return f"wood/carrier-{made.mark}.svg"


def carrier_drawing(made: BuiltPart, *, unit: LengthUnit) -> OutputFile:
    """Return the drawing of a carrier of wood; it depends on recipe and unit alone."""
    shown = (made.mark, joinery_of(made), unit)
    return of_stage(drawing_name(made), f"Carrier {made.mark}, wood", CARRIER_DRAWING, shown)


def carriers_table(carriers: Sequence[tuple[str, BuiltPart]], words: Wording) -> ListTable:
    """Return the list of all carriers of wood."""
    heading = tuple(column(name, words.unit) if name in LENGTHS else name for name in COLUMNS)
    rows = (
        {"mark": made.mark, "carrier": name, **row}
        for name, made in carriers
        for row in _rows(joinery_of(made))
    )
    return ListTable(
        heading, tuple(tuple(_cell(row.get(key, ""), words) for key in COLUMNS) for row in rows)
    )


def _cell(value: str | float, words: Wording) -> str:
    return words(value) if isinstance(value, str) else cell(value, words.unit)


def _rows(board: Joinery) -> Iterator[Row]:
    yield {
        "what": "board",
        "count": "1",
        "length": board.width_mm,
        "height": board.height_mm,
        "thickness": board.thickness_mm,
        "how": f"grain along its length; {WRITE_IT}",
    }
    for groove in turned(board.grooves):
        yield _groove(board, groove)
    for bore in sorted(board.bores, key=lambda one: (-one.z_mm, to_reader(one.x_mm))):
        yield _bore(board, bore)
    for strip in board.strips:
        yield _strip(board, strip)
    for screw in sorted(board.screws, key=lambda one: (-one.z_mm, to_reader(one.x_mm))):
        yield {
            "what": "screw from behind",
            "count": "1",
            "from left": to_reader(screw.x_mm, origin_mm=board.width_mm),
            "from top": board.high_mm - screw.z_mm,
            "length": screw.length_mm,
            "diameter": screw.diameter_mm,
            "how": "through the strip into the board: drill a clear hole in the strip, a pilot "
            "hole in the board with a stop on the drill, and countersink",
        }


def _groove(board: Joinery, groove: Groove) -> Row:
    stop = board.high_mm - groove.stop_mm
    return {
        "what": "dovetail groove",
        "count": "1",
        "from left": to_reader(groove.x_mm, origin_mm=board.width_mm),
        "from top": 0.0,
        "length": board.high_mm - groove.low_mm,
        "depth": groove.depth_mm,
        "diameter": groove.bit_mm,
        "bevel deg": f"{groove.angle_deg:g}",
        "how": f"{groove.angle_deg:g}-degree dovetail bit of {said.mm(groove.bit_mm)}, from the "
        f"top edge down; stop with the bit's centre {said.mm(stop, '.1f')} from the top edge and "
        f"leave the end round; {said.mm(groove.mouth_mm, '.1f')} wide at the face",
    }


def _bore(board: Joinery, bore: Bore) -> Row:
    told = [f"for a {bore.what}"]
    if bore.counterbore_mm:
        told.append(
            f"from behind first a counterbore of {said.mm(bore.counterbore_mm)}, "
            f"{said.mm(bore.counterbore_depth_mm, '.1f')} deep"
        )
    if bore.countersink_mm:
        told.append(f"countersunk to {said.mm(bore.countersink_mm)} in front")
    if bore.behind_mm:
        told.append("through the strip behind too")
    return {
        "what": "hole",
        "count": "1",
        "from left": to_reader(bore.x_mm, origin_mm=board.width_mm),
        "from top": board.high_mm - bore.z_mm,
        "diameter": bore.diameter_mm,
        "how": "; ".join(told),
    }


def _strip(board: Joinery, strip: Strip) -> Row:
    glued = "glue and screw it behind the board, over its whole width"
    bevel = (
        f"bevel at the bottom, the longer face at the wall, {said.mm(strip.short_mm, '.1f')} on "
        f"the board; plane the sharp edge {said.mm(strip.flat_mm)} flat; "
        if strip.bevel_deg
        else ""
    )
    return {
        "what": strip.name,
        "count": "1",
        "from top": board.high_mm - strip.top_mm,
        "length": board.width_mm,
        "height": strip.height_mm,
        "thickness": strip.thickness_mm,
        "bevel deg": f"{strip.bevel_deg:g}",
        "how": bevel + glued,
    }
