"""What stands in a document at one revision, and what of it can be read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cleatwright.base.errors import CleatwrightError, InputError
from cleatwright.base.keys import content_key
from cleatwright.base.lengths import Wording
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.equipment import OwnedTool, owned_what_can_be
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.readable import Readable
from cleatwright.workshop.document.store import what_can_be_read
from cleatwright.workshop.document.toml_text import toml_tables


@dataclass(frozen=True)
class ReadDocument:
    """A document, read as far as it goes.

    Args:
        path: Its file.
        text: What stands in it.
        raw: The same as plain tables.
        workshop: The workshop, without what cannot be read; None when nothing can be made of it.
        faults: What cannot be read, with the numbers that rows have in the document.
        readable: How places of the workshop are found in the document, if they differ.
        words: What turns sentences into the unit of the document.
    """

    path: Path
    text: str
    raw: Mapping[str, Any]
    workshop: Workshop | None
    faults: tuple[CleatwrightError, ...]
    readable: Readable | None
    words: Wording

    @property
    def whole(self) -> bool:
        """Return True when all of it can be read."""
        return self.readable is None

    def placed(self, error: CleatwrightError) -> CleatwrightError:
        """Return a fault of the workshop with its place in the document, in its words."""
        return self.words.error(error if self.readable is None else self.readable.placed(error))


@dataclass(frozen=True)
class ReadTools:
    """The tools of a document that can be, and the faults of all that cannot."""

    tools: tuple[OwnedTool, ...]
    faults: tuple[CleatwrightError, ...]


def _read(run: Run, given: tuple[str, Path]) -> ReadDocument:
    text, path = given
    raw = toml_tables(text, file=str(path))
    found = what_can_be_read(raw, run=run)
    if isinstance(found, Workshop):
        return ReadDocument(path, text, raw, found, (), None, Wording(found.units))
    words = found.words
    faults = tuple(words.error(fault) for one in found.faults for fault in one.leaves())
    return ReadDocument(path, text, raw, found.workshop, faults, found, words)


def _read_key(given: tuple[str, Path]) -> str:
    return content_key((given[0], str(given[1])))


READ = Stage("document as far as it can be read", _read, _read_key)
"""From the text of a document to what of it can be read."""


def read_tools(document: ReadDocument, run: Run) -> ReadTools:
    """Return the tools of a document that can be, and all faults so far."""
    if document.workshop is None:
        return ReadTools((), document.faults)
    try:
        tools, wrong = owned_what_can_be(document.workshop, folder=document.path.parent, run=run)
    except InputError:
        # a workshop without tools is no fault of its document
        return ReadTools((), document.faults)
    told = tuple(document.placed(fault) for one in wrong for fault in one.leaves())
    return ReadTools(tools, (*document.faults, *told))
