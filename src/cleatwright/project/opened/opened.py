"""A workshop that is open: every change is on the disk at once, and one step of undo."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from threading import Lock, RLock
from typing import TypeVar

import tomlkit

from cleatwright.base.errors import DocumentError, FaultError, LedgerError
from cleatwright.base.place import InFile
from cleatwright.project.opened.history import DocumentState, History, LedgerStep
from cleatwright.workshop.document.changes import DocumentChange, apply_changes
from cleatwright.workshop.document.store import (
    changing,
    document_path,
    parse,
    read_text,
    save_text,
)
from cleatwright.workshop.document.toml_text import toml_tables
from cleatwright.workshop.ledger.database import open_ledger
from cleatwright.workshop.ledger.reading import has_ledger
from cleatwright.workshop.ledger.rows import WhatIsThere

T = TypeVar("T")
CHANGED_ELSEWHERE = "a change outside"


@dataclass(frozen=True)
class Outside:
    """What another program changed, until the person has seen it: the text before and after."""

    before: str
    after: str


@dataclass(frozen=True)
class Opened:
    """One revision of an open document.

    Args:
        instance: Which opening this is; numbers of two openings cannot be compared.
        number: Grows with every change, also by a step of undo.
        text: What stands in the document.
        undoes: What a step of undo would take away, or "".
        redoes: What a step of redo would bring again, or "".
        fault: Why the file on the disk cannot be taken over, or None. The text is the last that
            could.
        outside: What another program changed since somebody last said that it was seen, or None.
    """

    instance: str
    number: int
    text: str
    undoes: str
    redoes: str
    fault: DocumentError | None = None
    outside: Outside | None = None


class OpenWorkshop:
    """A document with its history; any thread may ask and change it.

    Args:
        place: The workshop folder, or its document.

    Raises:
        DocumentError: There is no document, or it is no TOML.
        StorageError: The disk refused.
    """

    def __init__(self, place: Path) -> None:
        self.path = document_path(place).resolve()
        text: str = read_text(self.path)
        toml_tables(text, file=str(self.path))
        self._instance = uuid.uuid4().hex
        self._number = 1
        self._history = History((DocumentState(text),))
        self._on_disk: str = text
        self._parsed: tuple[str, tomlkit.TOMLDocument] | None = None
        self._fault: DocumentError | None = None
        self._outside: Outside | None = None
        self._lock = RLock()
        self._saying = Lock()

    @property
    def now(self) -> Opened:
        """Return the revision at which the document is."""
        with self._lock:
            history = self._history
            return Opened(
                instance=self._instance,
                number=self._number,
                text=history.now.text,
                undoes=history.undoes,
                redoes=history.redoes,
                fault=self._fault,
                outside=self._outside,
            )

    def change(self, changes: Sequence[DocumentChange], *, label: str, key: str = "") -> Opened:
        """Make changes, write the document, and return the new revision.

        What another program wrote meanwhile is taken over first; a change of what it changed
        too is refused.

        Args:
            changes: What to do, in this order.
            label: What that is, for people.
            key: Changes of one key that follow each other are one step of undo; "" for none.

        Raises:
            ChangedMeanwhileError: Something else stands where one of them was to be made.
            DocumentError: A path leads nowhere, or the file on the disk is no TOML.
            OutputError: The disk refused; nothing is changed.
        """
        with self._lock, changing(self.path):
            self._take_over()
            if self._fault is not None:
                raise self._fault
            document = self._document()
            self._parsed = None
            apply_changes(document, changes)
            text = tomlkit.dumps(document)
            if toml_tables(text, file=str(self.path)) != document.unwrap():
                raise FaultError("a change did not come out as it was made")
            self._write(self._history.after(DocumentState(text, label, key)))
            self._parsed = (text, document)
            return self.now

    def say(self, act: Callable[[], T], *, label: str) -> T:
        """Do what changes what hangs or lies ready by the ledger, as one step of undo.

        Args:
            act: What to do; what it raises is raised, and then it is no step.
            label: What that is, for people.
        """
        folder = self.path.parent
        with self._saying:
            before = _there(folder)
            done = act()
            step = LedgerStep(before, _there(folder))
        if step.before != step.after:
            with self._lock:
                text = self._history.now.text
                self._history = self._history.after(DocumentState(text, label, ledger=step))
                self._number += 1
        return done

    def replace_text(self, text: str, *, label: str) -> Opened:
        """Put a whole text in the place of the document.

        Raises:
            DocumentError: It is no TOML.
            OutputError: The disk refused; nothing is changed.
        """
        with self._lock, changing(self.path):
            self._take_over()
            if self._fault is not None:
                raise self._fault
            toml_tables(text, file=str(self.path))
            self._write(self._history.after(DocumentState(text, label)))
            return self.now

    def undo(self) -> Opened:
        """Go one step back, write the document, and return the new revision.

        Where another program has just changed the document, that is taken over and no step is
        made: nobody meant to undo what was not seen.

        Raises:
            DocumentError: The file on the disk is no TOML.
            LedgerError: The step changed the ledger, and something else is said there now; it is
                a step no more.
            OutputError: The disk refused; nothing is changed.
        """
        return self._go(History.back)

    def redo(self) -> Opened:
        """Go one step forward, write the document, and return the new revision; see ``undo``."""
        return self._go(History.forward)

    def put_back(self) -> Opened:
        """Write the last text that could be read over a file that is no TOML any more.

        Raises:
            OutputError: The disk refused; nothing is changed.
        """
        with self._lock, changing(self.path):
            self._take_over()
            if self._fault is not None:
                self._write(self._history)
            return self.now

    def seen(self) -> Opened:
        """Forget what another program changed: somebody has seen it."""
        with self._lock:
            if self._outside is not None:
                self._outside = None
                self._number += 1
            return self.now

    def look(self) -> Opened:
        """Return the revision, with what another program wrote to the file taken over.

        Raises:
            StorageError: The disk refused.
        """
        with self._lock:
            self._take_over()
            return self.now

    def _go(self, step: Callable[[History], History]) -> Opened:
        with self._lock, changing(self.path):
            before = self._history
            self._take_over()
            if self._fault is not None:
                raise self._fault
            history = step(before)
            if self._history is before and history.at != before.at:
                self._put_back(history)
                self._write(history)
            return self.now

    def _put_back(self, wanted: History) -> None:
        """Put back in the ledger what a step from here to a state of the history changes there."""
        back = wanted.at < self._history.at
        at = max(wanted.at, self._history.at)
        step = self._history.states[at].ledger
        if step is None:
            return
        there, here = (step.before, step.after) if back else (step.after, step.before)
        try:
            with open_ledger(self.path.parent) as ledger:
                ledger.put_back(there, instead_of=here)
        except LedgerError:
            if _there(self.path.parent) != here:
                self._history = self._history.without(at)
                self._number += 1
            raise

    def _take_over(self) -> None:
        """Take what another program wrote as a state of its own; keep the last one if it cannot."""
        try:
            text = read_text(self.path)
            if text == self._on_disk:
                return
            _require_whole(text, self.path)
        except DocumentError as error:
            if self._fault is None or self._fault.sentence != error.sentence:
                self._number += 1
            self._fault = error
            return
        self._fault = None
        self._on_disk = text
        self._number += 1
        if text != self._history.now.text:
            known = self._history.now.text if self._outside is None else self._outside.before
            self._outside = None if text == known else Outside(known, text)
            self._history = self._history.after(DocumentState(text, CHANGED_ELSEWHERE))

    def _write(self, history: History) -> None:
        save_text(self.path, history.now.text)
        self._on_disk = history.now.text
        self._fault = None
        self._history = history
        self._number += 1

    def _document(self) -> tomlkit.TOMLDocument:
        """Return the document with its comments, which a change changes in place."""
        text = self._history.now.text
        if self._parsed is not None and self._parsed[0] == text:
            return self._parsed[1]
        return parse(text, file=str(self.path))


def _there(folder: Path) -> WhatIsThere:
    """Return what hangs and lies ready by the ledger of a folder; nothing where there is none."""
    if not has_ledger(folder):
        return WhatIsThere()
    with open_ledger(folder) as ledger:
        return ledger.there()


def _require_whole(text: str, path: Path) -> None:
    """Refuse a text that is no TOML, and an empty one: a program is still writing it.

    Raises:
        DocumentError: It cannot be taken over.
    """
    if not text.strip():
        raise DocumentError("The file is empty", place=InFile(str(path)), todo="Write it anew")
    toml_tables(text, file=str(path))
