"""One state of a workshop: all that its files say at one moment."""

from __future__ import annotations

import hashlib
from collections.abc import Generator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from types import MappingProxyType

from cleatwright.base.gathering import in_file
from cleatwright.base.keys import content_key
from cleatwright.base.lengths import Wording, errors_in
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.stage import Stage
from cleatwright.design.kept_parts import NO_PARTS, KeptPart, kept_part
from cleatwright.design.planned import Earlier
from cleatwright.workshop.document.model import Workshop
from cleatwright.workshop.document.store import checked, document_path, read_text
from cleatwright.workshop.ledger.hung_wall import WhatHangs
from cleatwright.workshop.ledger.last_made import LastMade
from cleatwright.workshop.ledger.made_wall import MadeWall
from cleatwright.workshop.ledger.reading import read_kept, read_recipes
from cleatwright.workshop.ledger.ready_parts import ReadyParts


@dataclass(frozen=True)
class Revision:
    """The document with its drawings, and what earlier times left in the ledger.

    Args:
        path: The document.
        text: What stands in it.
        workshop: The same, checked.
        drawings: The outlines that it names, each with the digest of its file, or "" for none.
        made: What was last made.
        hung: What hangs.
        recorded: The number of the last recipe in the ledger, when something is there.
        ready: What is printed and does not hang.
        wall: Where everything was to hang when it was last made.
    """

    path: Path
    text: str
    workshop: Workshop
    drawings: tuple[tuple[str, str], ...]
    made: LastMade
    hung: WhatHangs
    recorded: int
    ready: ReadyParts
    wall: MadeWall

    @property
    def folder(self) -> Path:
        """Return the folder of the workshop."""
        return self.path.parent

    @cached_property
    def key(self) -> str:
        """The content key of everything in it."""
        return content_key(
            (
                str(self.path),
                self.text,
                self.drawings,
                self.made,
                self.hung,
                self.recorded,
                self.ready,
                self.wall,
            )
        )

    def earlier(self, *, regroup: bool = False, renew: bool = False) -> Earlier:
        """Return what a plan goes by.

        Args:
            regroup: Group the tools as if nothing was made.
            renew: Let new tools join holders that are printed or hang, which are made anew then.
        """
        there = frozenset[str]() if renew or regroup else self.seated
        parts = self.parts if there else NO_PARTS
        return Earlier(self.made, bool(self.hung.holders), regroup, there, parts)

    @cached_property
    def seated(self) -> frozenset[str]:
        """The identities of the tools whose holder is printed, or hangs and is whole."""
        names = {name for one in self.hung.holders if not one.broken for name in one.tools}
        hung = {tool.identity for tool in self.made.tools if tool.name in names}
        left, marks = self.ready.counts("printed"), dict(self.wall.marks)
        printed: set[str] = set()
        for holder in self.made.holders:
            mark = marks.get(holder.number, "")
            if left[mark] and not hung.issuperset(holder.tools):
                left[mark] -= 1
                printed.update(holder.tools)
        return frozenset(hung | printed)

    @cached_property
    def parts(self) -> Mapping[int, KeptPart]:
        """The parts of holders that are printed, or hang, by their numbers, for empty seats.

        None are looked for while every tool that there was is in the document.
        """
        here = {(item.name, item.kind) for item in self.workshop.items()}
        known = {one.identity: one for one in self.made.tools}
        if all((one.name, one.kind) in here and not one.gone for one in self.made.tools):
            return NO_PARTS
        wall, ready = dict(self.wall.marks), self.ready.counts("printed")
        marks: dict[int, set[str]] = {}
        for holder in self.made.holders:
            names = {known[one].name for one in holder.tools}
            hung = {one.mark for one in self.hung.holders if names.intersection(one.tools)}
            printed = {wall.get(holder.number, "")} & ready.keys()
            if self.seated.intersection(holder.tools):
                marks[holder.number] = hung | printed
        stored = read_recipes(self.folder, {mark for some in marks.values() for mark in some})
        found: dict[int, KeptPart] = {}
        for holder in self.made.holders:
            tools = [known[one] for one in holder.tools]
            for mark in sorted(marks.get(holder.number, ())):
                part = kept_part(mark, stored[mark], tools)
                if part is not None:
                    found[holder.number] = part
        return MappingProxyType(found)


def read_revision(place: Path, run: Run) -> Revision:
    """Return what the files of a workshop say now.

    Args:
        place: The workshop folder, or its document.
        run: The run that keeps what was read before.

    Raises:
        DocumentError: There is no document, or none that can be read as a workshop.
        StorageError: The disk refused.
        LedgerError: The ledger cannot be read.
    """
    path = document_path(place)
    text = read_text(place)
    workshop = run.need(DOCUMENT, (text, str(path)))
    return revision_of(workshop, path, text)


def revision_of(workshop: Workshop, path: Path, text: str = "") -> Revision:
    """Return a workshop with what else its folder says.

    Args:
        workshop: The document, or what of it can be read.
        path: Its file.
        text: What stands in it; "" when the workshop is not all of it.

    Raises:
        LedgerError: The ledger cannot be read.
    """
    kept = read_kept(path.parent)
    return Revision(
        path=path,
        text=text,
        workshop=workshop,
        drawings=tuple(
            (name, _digest(path.parent / name))
            for name in sorted({item.outline for item in workshop.items() if item.outline})
        ),
        made=kept.made,
        hung=kept.hung,
        # recipes are looked up only of what is there
        recorded=kept.recorded if kept.hung or kept.ready else 0,
        ready=kept.ready,
        wall=kept.wall,
    )


def with_text(revision: Revision, text: str, run: Run) -> Revision:
    """Return a revision of which the document says something else, as a trial.

    Raises:
        DocumentError: The text is no workshop.
    """
    workshop = run.need(DOCUMENT, (text, str(revision.path)))
    return replace(revision, text=text, workshop=workshop)


@contextmanager
def said_of(revision: Revision) -> Generator[None]:
    """Name the document in every error, and let its sentences out in the unit of the workshop."""
    with in_file(str(revision.path)), errors_in(Wording(revision.workshop.units)):
        yield


def _digest(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _document(run: Run, given: tuple[str, str]) -> Workshop:
    text, file = given
    return checked(text, file=file, run=run)


DOCUMENT = Stage("document", _document, content_key)
"""From the text and the name of a document to the workshop that it describes."""
