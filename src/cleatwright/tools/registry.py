"""The tool kinds by name, those of installed packages too, and tool bodies from plain numbers."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base import said
from cleatwright.base.errors import MeasureError, UnknownNameError
from cleatwright.base.gathering import combined
from cleatwright.base.place import InDocument, at
from cleatwright.base.plugins import is_a, picked_or_left_out, plug_ins, shielded
from cleatwright.base.registry import by_name
from cleatwright.parts.tool import ToolBody
from cleatwright.shapes.outline import Outline
from cleatwright.tools.kind import AT_ODDS, AtOdds, Kind, MeasureRow
from cleatwright.tools.kinds import (
    adjustable_wrench,
    angle_grinder,
    back_saw,
    bar_clamp,
    battery_cell,
    bottle,
    bow_saw,
    box,
    bucket,
    calliper,
    can,
    cartridge,
    chisel,
    coil,
    corded_drill,
    cordless_drill,
    dibber,
    file,
    filling_knife,
    flat_plate,
    flat_thing,
    flat_wrench,
    glove,
    goggles,
    hammer,
    hand_plane,
    hand_saw,
    heat_gun,
    hex_bit,
    hex_key,
    iron,
    level,
    loppers,
    mallet,
    marker,
    marking_knife,
    nut_driver,
    paint_brush,
    paint_roller,
    pipe_wrench,
    plastering_trowel,
    pliers,
    pole,
    punch,
    ratchet,
    rimmed_bin,
    roll_stock,
    round_thing,
    router_bit,
    rule,
    sanding_disc,
    scalpel,
    scissors,
    scraper,
    screwdriver,
    sieve,
    socket,
    spade,
    spokeshave,
    spring_clamp,
    square,
    staple_gun,
    t_hex_key,
    tape_measure,
    tape_roll,
    thing_with_hole,
    thing_with_loop,
    thing_with_neck,
    torch,
    trigger_bottle,
    twist_drill,
)
from cleatwright.tools.other_kinds import (
    MOST_TAKERS,
    as_written,
    plain_shapes,
    takers,
    titled,
)

MOST_KG = 100.0
# what pydantic calls a value out of bounds
OUTSIDE = frozenset({"greater_than_equal", "less_than_equal"})


_OWN: Mapping[str, Kind] = by_name(
    "tool kinds",
    (
        screwdriver.KIND,
        pliers.KIND,
        flat_wrench.KIND,
        hex_key.KIND,
        hammer.KIND,
        can.KIND,
        coil.KIND,
        box.KIND,
        hex_bit.KIND,
        socket.KIND,
        nut_driver.KIND,
        t_hex_key.KIND,
        twist_drill.KIND,
        router_bit.KIND,
        punch.KIND,
        cordless_drill.KIND,
        angle_grinder.KIND,
        chisel.KIND,
        marking_knife.KIND,
        scissors.KIND,
        hand_saw.KIND,
        back_saw.KIND,
        file.KIND,
        square.KIND,
        rule.KIND,
        calliper.KIND,
        scraper.KIND,
        marker.KIND,
        battery_cell.KIND,
        torch.KIND,
        rimmed_bin.KIND,
        bottle.KIND,
        cartridge.KIND,
        flat_thing.KIND,
        level.KIND,
        pole.KIND,
        tape_roll.KIND,
        roll_stock.KIND,
        sanding_disc.KIND,
        spokeshave.KIND,
        hand_plane.KIND,
        adjustable_wrench.KIND,
        pipe_wrench.KIND,
        bar_clamp.KIND,
        spring_clamp.KIND,
        goggles.KIND,
        paint_brush.KIND,
        ratchet.KIND,
        mallet.KIND,
        tape_measure.KIND,
        plastering_trowel.KIND,
        paint_roller.KIND,
        filling_knife.KIND,
        scalpel.KIND,
        trigger_bottle.KIND,
        heat_gun.KIND,
        corded_drill.KIND,
        staple_gun.KIND,
        spade.KIND,
        dibber.KIND,
        bow_saw.KIND,
        bucket.KIND,
        glove.KIND,
        iron.KIND,
        loppers.KIND,
        thing_with_hole.KIND,
        thing_with_neck.KIND,
        thing_with_loop.KIND,
        round_thing.KIND,
        flat_plate.KIND,
        sieve.KIND,
    ),
)


def kind_fault(kind: Kind) -> str:
    """Return what is wrong with a kind of another package, or ""; its ordinary tool is made."""
    if not is_a(kind.title, str):
        return "its title is no str"
    measures = kind.measures.model_validate(dict(kind.example))
    outline = (kind.example_outline,) if kind.outlined else ()
    body = kind.body(measures, None, *outline)
    if not kind.card or not is_a(body, ToolBody):
        return f"it makes {type(body).__name__} of its own example, and no ToolBody"
    kind.dimensions(measures)
    return ""


def _shielded(kind: Kind) -> Kind:
    return replace(kind, body=shielded(kind.body, ToolBody, what=f"the kind {kind.name}"))


PLUG_INS = plug_ins("cleatwright.kinds", Kind, taken=_OWN, fault_of=kind_fault)
KINDS: Mapping[str, Kind] = MappingProxyType(
    {**_OWN, **{one.name: _shielded(one) for one in PLUG_INS.things}}
)


def kind(name: str) -> Kind:
    """Return the kind of a name.

    Raises:
        UnknownNameError: There is none; with the nearest valid name, the kinds in whose title it
            stands, or the plain shapes.
    """
    try:
        return picked_or_left_out(
            "tool kind", name, KINDS, left_out=PLUG_INS.left_out, place=at("kind")
        )
    except UnknownNameError as error:
        if error.todo:
            raise
        alike = titled(name, KINDS.values())
        todo = (
            f"Write {as_written(alike)}, which such a tool may be"
            if alike
            else plain_shapes(KINDS.values())
        )
        raise error.to_do(todo) from None


def tool_body(
    kind_name: str,
    measures: Mapping[str, float],
    *,
    mass_kg: float | None = None,
    outline: Outline | None = None,
) -> ToolBody:
    """Return the body of a tool from its measures in mm, named without their unit.

    Args:
        kind_name: Name of the kind.
        measures: What was measured, as ``{"shank": 6.0, ...}``.
        mass_kg: The weighed mass, more than 0 to 100 kg; None to estimate it.
        outline: The outline, of a kind that is outlined; x to the left, z up.

    Raises:
        UnknownNameError: There is no such kind.
        MeasureError: Measures are missing, unknown, out of bounds or at odds with each
            other, the mass cannot be, or an outline is missing or not wanted; the one error
            lists every fault in order. Its places are those of a [[tool]] table.

    >>> tool_body("can", {"diameter": 65.0, "height": 195.0}).leading
    '⌀65×195'
    """
    chosen = kind(kind_name)
    card = {row.name: row for row in chosen.card}
    faults = [_unknown(name, measures[name], card) for name in measures if name not in card]
    strange = f"the measures of a {chosen.name}: {', '.join(card)}" if faults else ""
    known = {name: value for name, value in measures.items() if name in card}
    others = ""
    try:
        checked = chosen.measures.model_validate(known)
    except ValidationError as error:
        faults += _findings(error, card)
        outside = any(one["type"] in OUTSIDE for one in error.errors())
        others = _others(chosen, measures, outside=outside)
        checked = None
    faults += _beside_the_measures(chosen, mass_kg, outline)
    if checked is None or faults:
        raise _together(faults, chosen, strange, others=others)
    if chosen.outlined:
        return chosen.body(checked, mass_kg, outline)
    return chosen.body(checked, mass_kg)


def _beside_the_measures(
    chosen: Kind, mass_kg: float | None, outline: Outline | None
) -> Iterator[MeasureError]:
    if mass_kg is not None and not 0.0 < mass_kg <= MOST_KG:
        yield MeasureError(
            f"mass is {mass_kg:g} kg",
            place=at("mass", spoken="named"),
            allowed=f"mass more than 0 to {MOST_KG:g} kg",
        )
    if chosen.outlined and outline is None:
        yield MeasureError(
            f"a {chosen.name} needs an outline",
            place=at("outline", spoken="named"),
            allowed='outline = "shapes/name.svg" or a .dxf file, beside the measures',
        )
    if outline is not None and not chosen.outlined:
        outlined = ", ".join(name for name, one in KINDS.items() if one.outlined)
        yield MeasureError(
            f"a {chosen.name} has no use for an outline",
            place=InDocument((("outline",), ("kind",)), spoken="named"),
            allowed=f"an outline for: {outlined}",
        )


def _others(chosen: Kind, measures: Mapping[str, float], *, outside: bool) -> str:
    """Return what else to write for measures that a kind does not take, or ""."""
    found = takers(measures, KINDS.values(), but=chosen.name) if measures else ()
    if 0 < len(found) <= MOST_TAKERS:
        return f"A tool of these measures may also be of {as_written(found)}"
    return plain_shapes(KINDS.values(), but=chosen.name) if outside and not found else ""


def _together(
    faults: Sequence[MeasureError], chosen: Kind, strange: str, *, others: str
) -> MeasureError:
    """Return the faults of one tool as one sentence, with each of them apart for programs."""
    allowed = [strange, *(fault.allowed for fault in faults)]
    bounds = "; ".join(dict.fromkeys(one for one in allowed if one))
    usual = _ordinary(chosen) if bounds else ""
    return combined(faults, allowed=bounds, todo=". ".join(one for one in (usual, others) if one))


def ordinary_outline(kind_name: str, *, scale: float = 1.0) -> Outline | None:
    """Return the outline of an ordinary tool of a kind, drawn to a scale, if it has one."""
    outline = kind(kind_name).example_outline
    return None if outline is None else outline.scaled(scale)


def ordinary_body(kind_name: str, *, scale: float = 1.0) -> ToolBody:
    """Return the body of an ordinary tool of a kind, drawn to a scale (> 0).

    Raises:
        UnknownNameError: There is no such kind.
        MeasureError: A measure is out of bounds at that scale.

    >>> ordinary_body("can").leading
    '⌀65×195'
    """
    return tool_body(
        kind_name,
        {name: value * scale for name, value in kind(kind_name).example},
        outline=ordinary_outline(kind_name, scale=scale),
    )


def _ordinary(chosen: Kind) -> str:
    sizes = ", ".join(f"{name} {said.mm(value)}" for name, value in chosen.example)
    return f"An ordinary {chosen.name} has {sizes}"


def _unknown(name: str, value: float, card: Mapping[str, MeasureRow]) -> MeasureError:
    near = next(iter(difflib.get_close_matches(name, card, n=1, cutoff=0.5)), "")
    hint = f' (did you mean "{near}"?)' if near else ""
    return MeasureError(
        f'there is no measure "{name}"{hint}',
        place=at("measures", name, spoken="named"),
        line=f"{near} = {value:g}" if near else "",
    )


def _findings(error: ValidationError, card: Mapping[str, MeasureRow]) -> list[MeasureError]:
    """Return each fault with its bounds, where there are some."""
    findings: list[MeasureError] = []
    for item in error.errors():
        if not item["loc"]:
            findings += _at_odds(item)
            continue
        row = card[str(item["loc"][0])]
        least = "0, or " if row.may_be_zero else ""
        findings.append(
            MeasureError(
                f"{row.name} {_is(item['type'], item['input'])}",
                place=at("measures", row.name, spoken="named"),
                allowed=f"{row.name} {least}{row.bounds}, {row.description}",
            )
        )
    return findings


def _at_odds(item: ErrorDetails) -> list[MeasureError]:
    each: tuple[AtOdds, ...] = item.get("ctx", {}).get("each", ())
    # a kind of another package may refuse its measures in a way of its own
    if item["type"] != AT_ODDS:
        said = str(item.get("ctx", {}).get("error", item["msg"]))
        return [MeasureError(said, place=at("measures", spoken="table"))]
    return [
        MeasureError(
            one.text,
            place=InDocument(tuple(("measures", name) for name in one.names), spoken="named"),
        )
        for one in each
    ]


def _is(fault: str, given: object) -> str:
    if fault == "missing":
        return "is missing"
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        return f"is {given!r}, which is no number"
    if math.isnan(given):
        return "is not a number (NaN)"
    if math.isinf(given):
        return "is infinite"
    return f"is {said.mm(given)}"
