"""The states of a document, one after the other, and the one at which it is."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cleatwright.workshop.ledger.rows import WhatIsThere

MOST_STATES = 500


@dataclass(frozen=True)
class LedgerStep:
    """What was said to hang and to lie ready before a step, and after it."""

    before: WhatIsThere
    after: WhatIsThere


@dataclass(frozen=True)
class DocumentState:
    """One state of a document.

    Args:
        text: What stands in it.
        label: What led to it, for people: "neck of Long nose"; "" for the first one.
        key: Steps of one key follow each other as one step, such as a key that is held down.
        ledger: What the step that led to it changed in the ledger; None for a step of the document.
    """

    text: str
    label: str = ""
    key: str = ""
    ledger: LedgerStep | None = None


@dataclass(frozen=True)
class History:
    """States in their order; those behind ``at`` were undone and may be done again."""

    states: tuple[DocumentState, ...]
    at: int = 0

    @property
    def now(self) -> DocumentState:
        """Return the state at which the document is."""
        return self.states[self.at]

    @property
    def undoes(self) -> str:
        """Return what a step back would take away, or "" at the first state."""
        return self.now.label if self.at else ""

    @property
    def redoes(self) -> str:
        """Return what a step forward would bring again, or "" at the last state."""
        return self.states[self.at + 1].label if self.at + 1 < len(self.states) else ""

    def after(self, state: DocumentState) -> History:
        """Return the history with a new state; what was undone is forgotten."""
        kept = self.states[: self.at + 1]
        if state.key and self.at and kept[-1].key == state.key:
            kept = kept[:-1]
        states = (*kept, state)[-MOST_STATES:]
        return History(states, len(states) - 1)

    def without(self, at: int) -> History:
        """Return the history without a state that says the same as the one before it."""
        states = (*self.states[:at], *self.states[at + 1 :])
        return History(states, self.at - (self.at >= at))

    def back(self) -> History:
        """Return the history one step back; the same at its first state."""
        return replace(self, at=max(0, self.at - 1))

    def forward(self) -> History:
        """Return the history one step forward; the same at its last state."""
        return replace(self, at=min(len(self.states) - 1, self.at + 1))
