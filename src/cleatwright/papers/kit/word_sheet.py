"""A sheet of words to carry along: cautions, notes, or what to do step by step.

┌──────────────────────────┐
│ Title                    │
│                          │   what can hurt stands first, in red; a step has a box to tick
│ Heading                  │
│  caution, note           │
│  ☐ 1. step               │
│                 page 1/2 │
└──────────────────────────┘
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cleatwright.base.stages.stage import Stage
from cleatwright.papers.elevation.legend import CAUTION, INK
from cleatwright.papers.kit.drawn import drawn_file
from cleatwright.papers.kit.paper import landscape
from cleatwright.papers.kit.svg import clean
from cleatwright.papers.kit.typesetter import set_pdf

Kind = Literal["caution", "note", "step"]
MARGIN_MM = 20.0


@dataclass(frozen=True)
class Block:
    """Some sentences of one kind under a heading; steps are numbered, with a box to tick."""

    heading: str
    kind: Kind
    sentences: tuple[str, ...]


@dataclass(frozen=True)
class WordSheet:
    """What is on the sheet: a title and blocks; a block without sentences is left out."""

    title: str
    blocks: tuple[Block, ...]

    @property
    def shown(self) -> tuple[Block, ...]:
        """Return the blocks that say something."""
        return tuple(block for block in self.blocks if block.sentences)


def each_once(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return blocks without the sentences that a block before them on the sheet has said."""
    said: set[str] = set()
    left: list[Block] = []
    for block in blocks:
        left.append(replace(block, sentences=tuple(s for s in block.sentences if s not in said)))
        said.update(block.sentences)
    return tuple(left)


def sheet_text(words: WordSheet) -> bytes:
    """Return a sheet as UTF-8 text."""
    lines = [words.title]
    for block in words.shown:
        lines += ["", block.heading]
        lines += [f"{_lead(block, n)}{text}" for n, text in enumerate(block.sentences, 1)]
    return ("\n".join(lines) + "\n").encode()


def sheet_pdf(words: WordSheet, *, sheet: str) -> bytes:
    """Return a sheet as PDF, upright, on as many pages as it takes; equal words, equal bytes.

    Raises:
        UnknownNameError: There is no such sheet of paper.
    """
    paper = landscape(sheet).turned
    lines = [
        f"#set document(title: {typst_text(words.title)}, date: none)",
        f"#set page(width: {paper.width_mm}mm, height: {paper.height_mm}mm)",
        f'#set page(margin: {MARGIN_MM}mm, numbering: "1 / 1")',
        f"#set text(size: 11pt, hyphenate: false, fill: rgb({typst_text(INK)}))",
        f"#text(size: 16pt, weight: 700, {typst_text(words.title)})",
    ]
    for block in words.shown:
        lines.append(
            f"#block(above: 18pt, sticky: true, text(weight: 700, {typst_text(block.heading)}))"
        )
        lines += [_line(block, n, text) for n, text in enumerate(block.sentences, 1)]
    return set_pdf(lines)


SHEET_OF_WORDS: Stage[tuple[WordSheet, str], bytes] = drawn_file(
    "sheet of words", lambda given: sheet_pdf(given[0], sheet=given[1]), kept=True
)
"""From what is on a sheet of words, and the name of the paper, to a PDF file."""


def typst_text(text: str) -> str:
    """Return a text as a string of the typesetting language, in which nothing is a command."""
    escaped = clean(text).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def cautions_block(heading: str, sentences: Sequence[str]) -> Block:
    """Return cautions under a heading, each once."""
    return Block(heading, "caution", tuple(dict.fromkeys(sentences)))


def _lead(block: Block, number: int) -> str:
    if block.kind == "step":
        return f"[ ] {number}. "
    return "Caution: " if block.kind == "caution" else "- "


def _line(block: Block, number: int, text: str) -> str:
    colour = CAUTION if block.kind == "caution" else INK
    words = f"text(fill: rgb({typst_text(colour)}), {typst_text(text)})"
    if block.kind == "step":
        box = "box(width: 10pt, height: 10pt, stroke: 0.6pt, baseline: 1pt)"
        row = f'grid(columns: (16pt, 22pt, 1fr), {box}, "{number}.", {words})'
        return f"#block(above: 9pt, breakable: false, {row})"
    return f"#block(above: 10pt, breakable: false, pad(left: 10pt, {words}))"
