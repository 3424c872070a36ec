"""The page of the tool kinds, and the measuring card of each."""

from __future__ import annotations

from page_parts import MADE, table, told

from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.measuring import measuring_card
from cleatwright.papers.cards.card import card_svg
from cleatwright.parts.tool import ToolBody
from cleatwright.tools.nominal.sizes import NOMINAL_SIZES
from cleatwright.tools.registry import KINDS, ordinary_body

CARDS = "catalogue/cards"
NOMINAL_INTRO = """\
## Nominal sizes

A set can be written in one line, `nominal_sizes = [3, 4, 5]`: its measures are then guesses from
the tables below. A value that you measured always goes before them: write it in `measures` for all
sizes, or in `sizes` for one.
"""
KINDS_INTRO = """\
# Kinds of tools

A kind says what to measure on a tool, and by which grip it can be held. Measure with a calliper, in
the position that the sketch shows, and write what you read: play is added later. Lengths are in mm;
in [workshop.toml](workshop.md#tool) any other unit may be written. Weigh what is heavy or unusual:
the mass is estimated when it is left out.
"""


def card_files() -> dict[str, bytes]:
    """Return the measuring card of each kind by its path."""
    return {f"{CARDS}/{name}.svg": card_svg(measuring_card(name)) for name in KINDS}


def kinds_page() -> str:
    """Return the page of the tool kinds."""
    parts = [MADE, KINDS_INTRO]
    for kind in KINDS.values():
        text, sketch = told(kind.body)
        parts.append(f"## {kind.name}\n\n{text}\n")
        parts.append(sketch)
        rows: list[tuple[str, ...]] = []
        for m in kind.card:
            low, high, needed = f"{m.low_mm:g}", f"{m.high_mm:g}", ("no", "yes")[m.needed]
            rows.append((f"`{m.name}`", low, high, needed, m.description))
        parts.append(table(("measure", "from", "to", "needed", "where the calliper goes"), rows))
        parts.append(f"![What to measure: {kind.title}]({CARDS}/{kind.name}.svg)\n")
        if kind.outlined:
            parts.append("It takes its outline, too.\n")
        if kind.caution:
            parts.append(f"> Caution: {kind.caution}\n")
        body = ordinary_body(kind.name)
        grips = " and a ".join(dict.fromkeys(grip.title for grip in body.grips))
        measures = ", ".join(f"{name} = {value:g}" for name, value in kind.example)
        parts.append(f"Offers a {grips}. {held_by(body)}\n\nAn ordinary one:\n")
        drawing = f'\noutline = "shapes/{kind.name}.svg"' if kind.outlined else ""
        parts.append(
            f'```toml\n[[tool]]\nname = "Ordinary {kind.name}"\nkind = "{kind.name}"\n'
            f"measures = {{ {measures} }}{drawing}\n```\n"
        )
    parts.append(NOMINAL_INTRO)
    for name, sizes in NOMINAL_SIZES.items():
        sources = "; ".join(dict.fromkeys(str(one.source) for one in sizes.sizes))
        parts.append(f"**{name}.** {sizes.title}: {', '.join(sizes.names)}. Source: {sources}.\n")
    return "\n".join(part for part in parts if part)


def held_by(body: ToolBody) -> str:
    """Return which families hold the ordinary tool of a kind."""
    able = [f"[{f.name}](catalogue/{f.name}.md)" for f in FAMILIES.values() if not f.why_not(body)]
    return f"Held by {', '.join(able) or 'none of the families'}."
