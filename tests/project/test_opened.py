"""A workshop that is open, against a plain list of texts, under any sequence of changes.

The oracle is a model of the test's own: the texts that should stand on the disk one after the
other, read by ``tomllib``; what another program writes is written here with plain files.
"""

from __future__ import annotations

import tempfile
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from cleatwright.base.errors import ChangedMeanwhileError, DocumentError
from cleatwright.project.opened.opened import CHANGED_ELSEWHERE, OpenWorkshop
from cleatwright.workshop.document.changes import DocumentChange

TEXT = """# a shed, with a comment   and  odd   spaces
schema = 1
name = "Shed"

[wall]   # the wall
width=2400
height = 1_200 # measured twice

[[tool]]
name = "Long nose"
kind = "pliers"
measures = { neck = 9.5 }

# the heavy one
[[tool]]
name = "Hammer"
kind = "hammer"
"""
BROKEN = "name = = 3\n"


def opened(folder: Path, text: str = TEXT) -> OpenWorkshop:
    (folder / "workshop.toml").write_bytes(text.encode())
    return OpenWorkshop(folder)


def on_disk(workshop: OpenWorkshop) -> str:
    return workshop.path.read_bytes().decode()


def test_a_guarded_change_of_what_changed_outside_is_refused_and_nothing_is_lost(
    tmp_path: Path,
) -> None:
    workshop = opened(tmp_path)
    others = TEXT.replace("9.5", "8.75 ")
    workshop.path.write_bytes(others.encode())
    neck = ("tool", 0, "measures", "neck")
    with pytest.raises(ChangedMeanwhileError, match=r"8\.75 stands there now"):
        workshop.change([DocumentChange("set", neck, 9.9, was=9.5)], label="neck")
    assert on_disk(workshop) == others == workshop.now.text
    assert workshop.now.undoes == CHANGED_ELSEWHERE
    # elsewhere both go together
    workshop.change([DocumentChange("set", ("wall", "width"), 2500, was=2400)], label="width")
    assert tomllib.loads(on_disk(workshop))["tool"][0]["measures"]["neck"] == 8.75
    assert tomllib.loads(on_disk(workshop))["wall"]["width"] == 2500


def test_a_file_that_is_no_toml_keeps_the_last_readable_state_and_says_where(
    tmp_path: Path,
) -> None:
    workshop = opened(tmp_path)
    workshop.change([DocumentChange("set", ("wall", "width"), 2500, was=2400)], label="width")
    kept = workshop.now.text
    workshop.path.write_text(BROKEN)
    now = workshop.look()
    assert now.text == kept
    assert now.fault is not None
    assert "line 1, column 8" in str(now.fault)
    for act in (
        lambda: workshop.change(
            [DocumentChange("set", ("name",), "Hut", was="Shed")], label="name"
        ),
        workshop.undo,
        workshop.redo,
        lambda: workshop.replace_text(TEXT, label="all"),
    ):
        with pytest.raises(DocumentError):
            act()
        assert on_disk(workshop) == BROKEN
    assert workshop.put_back().fault is None
    assert on_disk(workshop) == kept
    assert workshop.undo().text == TEXT


def test_an_empty_file_is_one_that_is_still_being_written(tmp_path: Path) -> None:
    workshop = opened(tmp_path)
    workshop.path.write_text("")
    assert workshop.look().text == TEXT
    workshop.path.write_text(TEXT.replace("2400", "2500"))
    now = workshop.look()
    assert now.outside is not None
    assert now.outside.before == TEXT
    assert workshop.undo().text == TEXT


def test_a_broken_file_that_is_mended_outside_is_taken_over(tmp_path: Path) -> None:
    workshop = opened(tmp_path)
    workshop.path.write_text(BROKEN)
    number = workshop.look().number
    workshop.path.write_text(TEXT.replace("2400", "2600"))
    now = workshop.look()
    assert now.fault is None
    assert now.number > number
    assert now.outside is not None
    assert (now.outside.before, now.outside.after) == (TEXT, TEXT.replace("2400", "2600"))


def test_an_undo_never_takes_away_what_nobody_here_has_seen(tmp_path: Path) -> None:
    workshop = opened(tmp_path)
    workshop.change([DocumentChange("set", ("wall", "width"), 2500, was=2400)], label="width")
    others = on_disk(workshop) + "# one word more\n"
    workshop.path.write_text(others)
    assert workshop.undo().text == others
    assert workshop.undo().undoes == "width"
    assert workshop.undo().text == TEXT


def test_what_changed_outside_is_kept_until_it_is_seen(tmp_path: Path) -> None:
    workshop = opened(tmp_path)
    for text in (TEXT.replace("2400", "2500"), TEXT.replace("2400", "2600")):
        workshop.path.write_text(text)
        workshop.look()
    outside = workshop.now.outside
    assert outside is not None
    assert (outside.before, outside.after) == (TEXT, TEXT.replace("2400", "2600"))
    number = workshop.now.number
    assert workshop.seen().outside is None
    assert workshop.now.number > number
    # a file that is written anew with what stood there has no news
    workshop.path.write_text(workshop.now.text)
    assert workshop.look().outside is None


def test_what_is_put_back_outside_is_no_change_any_more(tmp_path: Path) -> None:
    workshop = opened(tmp_path)
    for text in (TEXT.replace("2400", "2500"), TEXT):
        workshop.path.write_text(text)
        workshop.look()
    assert workshop.now.outside is None


VALUES = st.integers(100, 30_000) | st.sampled_from(["8 ft", "2,4 m", "# no comment", "ü"])


class OpenedMachine(RuleBasedStateMachine):
    """Changes, steps of undo and writes of another program in any order."""

    @initialize()
    def begin(self) -> None:
        """Open a workshop."""
        self.folder = tempfile.TemporaryDirectory()
        self.workshop = opened(Path(self.folder.name))
        self.states = [TEXT]
        self.at = 0
        self.broken = False
        self.keys = [""]

    def teardown(self) -> None:
        """Take its folder away."""
        if hasattr(self, "folder"):
            self.folder.cleanup()

    def _stands(self) -> Any:
        return tomllib.loads(self.states[self.at])

    def _after(self, text: str, key: str = "") -> None:
        kept = self.at + 1
        if key and self.at and self.keys[self.at] == key:
            kept = self.at
        self.states = [*self.states[:kept], text]
        self.keys = [*self.keys[:kept], key]
        self.at = len(self.states) - 1

    @precondition(lambda self: not self.broken)
    @rule(key=st.sampled_from(["width", "height"]), value=VALUES, held=st.booleans())
    def change_a_value(self, key: str, *, value: int | str, held: bool) -> None:
        """A value of the wall is set."""
        wanted = self._stands()
        was, wanted["wall"][key] = wanted["wall"][key], value
        name = f"hold {key}" if held else ""
        now = self.workshop.change(
            [DocumentChange("set", ("wall", key), value, was=was)], label=key, key=name
        )
        assert tomllib.loads(now.text) == wanted
        self._after(now.text, name)

    @precondition(lambda self: not self.broken)
    @rule(number=st.integers(0, 9), name=st.sampled_from(["Saw", "Awl", "Plane"]))
    def add_or_take_away_a_tool(self, number: int, name: str) -> None:
        """A row of tables grows or shrinks."""
        wanted = self._stands()
        rows = wanted.setdefault("tool", [])
        if number < len(rows):
            gone = rows.pop(number)["name"]
            change = DocumentChange("remove", ("tool", number), was=gone)
        else:
            rows.append({"name": name})
            change = DocumentChange("insert", ("tool",), {"name": name})
        if not rows:
            del wanted["tool"]
        now = self.workshop.change([change], label=name)
        assert tomllib.loads(now.text) == wanted
        self._after(now.text)

    @precondition(lambda self: not self.broken)
    @rule(value=VALUES)
    def change_on_a_wrong_ground(self, value: int | str) -> None:
        """Of two changes the second is refused, so that the first is not made."""
        before = self.workshop.now
        wrong = DocumentChange("set", ("wall", "width"), value, was="something else")
        with pytest.raises(ChangedMeanwhileError):
            self.workshop.change(
                [DocumentChange("set", ("name",), "x", guarded=False), wrong], label="no"
            )
        assert self.workshop.now == before

    @precondition(lambda self: not self.broken)
    @rule(value=VALUES, after=st.sampled_from(["look", "change", "undo"]))
    def another_program_writes(self, value: int | str, after: str) -> None:
        """What another program wrote is taken over by whatever comes next."""
        shown = value if isinstance(value, int) else f"'{value}'"
        text = self.states[self.at] + f"\n[extra{len(self.states[self.at])}]\nkey = {shown}\n"
        self.workshop.path.write_bytes(text.encode())
        self._after(text)
        if after == "change":
            now = self.workshop.change(
                [DocumentChange("set", ("note",), 1, guarded=False)], label="note"
            )
            assert text.count("[extra") == now.text.count("[extra")
            self._after(now.text)
        elif after == "undo":
            assert self.workshop.undo().text == text
        else:
            assert self.workshop.look().text == text

    @rule()
    def another_program_breaks_it(self) -> None:
        """Another program leaves what is no TOML."""
        self.workshop.path.write_text(BROKEN)
        self.workshop.look()
        self.broken = True

    @precondition(lambda self: self.broken)
    @rule()
    def it_is_put_back(self) -> None:
        """The last text that could be read comes back."""
        assert self.workshop.put_back().text == self.states[self.at]
        self.broken = False

    @precondition(lambda self: not self.broken)
    @rule()
    def undo(self) -> None:
        """One step back."""
        self.at = max(0, self.at - 1)
        assert self.workshop.undo().text == self.states[self.at]

    @precondition(lambda self: not self.broken)
    @rule()
    def redo(self) -> None:
        """One step forward."""
        self.at = min(len(self.states) - 1, self.at + 1)
        assert self.workshop.redo().text == self.states[self.at]

    @precondition(lambda self: not self.broken)
    @rule()
    def undo_all(self) -> None:
        """All steps back give the first text, byte for byte."""
        while self.workshop.now.undoes:
            self.workshop.undo()
        self.at = 0
        assert on_disk(self.workshop) == TEXT

    @invariant()
    def the_disk_has_what_the_history_has(self) -> None:
        """The disk has what the history has."""
        if not hasattr(self, "workshop"):
            return
        assert self.workshop.now.text == self.states[self.at]
        assert on_disk(self.workshop) == (BROKEN if self.broken else self.states[self.at])
        assert (self.workshop.now.fault is not None) == self.broken


TestOpened = OpenedMachine.TestCase
TestOpened.settings = settings(deadline=None, max_examples=30, stateful_step_count=20)
