"""Whatever another package does, it is named and left out, and the program goes on."""

from __future__ import annotations

import os
import sys
from dataclasses import replace
from importlib.metadata import EntryPoint
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from cleatwright.base import plugins
from cleatwright.base.errors import Cancelled, DesignError, UnknownNameError
from cleatwright.base.plugins import LeftOut, picked_or_left_out, plug_ins, shielded
from cleatwright.holders.family import BuildContext, Family
from cleatwright.holders.guarded import TRIAL_FIT, family_fault, guarded
from cleatwright.holders.registry import FAMILIES
from cleatwright.mounts.mount import Mount
from cleatwright.mounts.registry import MOUNTS, mount_fault
from cleatwright.parts.tool import FittedTool
from cleatwright.tools.kind import Kind
from cleatwright.tools.registry import KINDS, kind_fault, ordinary_body

GROUP = "cleatwright.families"
FORK: Any = replace(FAMILIES["fork"], name="plug-in")


def ends(*_: object) -> Any:
    raise SystemExit(0)


class _Unspeakable(BaseException):
    def __str__(self) -> str:
        raise SystemExit


def unspeakable(*_: object) -> Any:
    raise _Unspeakable


def offered(monkeypatch: pytest.MonkeyPatch, thing: object) -> Any:
    """Return what the program makes of a thing that a package offers."""
    module = ModuleType("cleatwright_trial")
    module.__dict__["THING"] = thing
    monkeypatch.setitem(sys.modules, "cleatwright_trial", module)
    point = EntryPoint("one", "cleatwright_trial:THING", GROUP)
    monkeypatch.setattr(plugins, "offers", lambda _: [("cleatwright_trial", point)])
    faults: dict[type, Any] = {Kind: kind_fault, Mount: mount_fault}
    wanted = next((one for one in faults if isinstance(thing, one)), Family)
    return plug_ins(GROUP, wanted, taken=(), fault_of=faults.get(wanted, family_fault))


def test_a_sound_family_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    found = offered(monkeypatch, FORK)
    assert [one.name for one in found.things] == ["plug-in"]
    assert found.left_out == ()


BROKEN: dict[str, tuple[object, str]] = {
    "name is a list": (replace(FORK, name=["fork"]), "its name is ['fork']"),
    "name is None": (replace(FORK, name=None), "its name is None"),
    "name with an escape": (replace(FORK, name="a\x1b[2J"), r"its name is 'a\x1b[2J'"),
    "name that leads out": (replace(FORK, name="../x"), "its name is '../x'"),
    "Front is None": (replace(FORK, build=lambda *_: None), "NoneType, and no Front"),
    "Front is a text": (replace(FORK, build=lambda *_: "x"), "str, and no Front"),
    "build ends the program": (replace(FORK, build=ends), "SystemExit: 0"),
    "build fails without words": (replace(FORK, build=unspeakable), "_Unspeakable"),
    "refuses ends the program": (replace(FORK, refuses=ends), "SystemExit: 0"),
    "refuses answers a number": (replace(FORK, refuses=lambda _: 3), "it answers int"),
    "grip is None": (replace(FORK, grip=None), "its grip is no kind of Grip"),
    "params is a dict": (replace(FORK, params={}), "its params is no kind of FamilyParams"),
    "title is None": (replace(FORK, title=None), "its title is no str"),
    "kind without a body": (
        replace(KINDS["can"], name="tin", body=lambda *_: None),
        "NoneType of its own example",
    ),
    "kind that ends the program": (replace(KINDS["can"], name="tin", body=ends), "SystemExit: 0"),
    "mount with wrong params": (
        replace(MOUNTS["wall-screws"], name="hook", params=dict),
        "no kind of MountParams",
    ),
    "no family": (3, "is no Family"),
}


@pytest.mark.parametrize("name", sorted(BROKEN))
def test_a_broken_thing_is_named_and_left_out(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    thing, words = BROKEN[name]
    found = offered(monkeypatch, thing)
    assert found.things == ()
    (left_out,) = found.left_out
    assert words in left_out.sentence
    assert "cleatwright_trial" in left_out.sentence


@pytest.mark.parametrize("error", [SystemExit, RuntimeError, _Unspeakable, GeneratorExit])
def test_a_package_that_ends_the_program_while_it_loads_is_left_out(
    monkeypatch: pytest.MonkeyPatch, error: type[BaseException]
) -> None:
    class Ending:
        name, value, module, dist = "one", "x:Y", "x", None

        def load(self) -> object:
            raise error

    monkeypatch.setattr(plugins, "offers", lambda _: [("a-package", Ending())])
    found = plug_ins(GROUP, Family, taken=())
    assert [one.name for one in found.left_out] == ["one"]


def test_a_wish_to_stop_is_no_fault_of_a_package(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> Any:
        raise KeyboardInterrupt

    with pytest.raises(Cancelled, match="while the package cleatwright_trial was being loaded"):
        offered(monkeypatch, replace(FORK, build=stop))


def test_what_fails_only_later_is_an_error_that_names_the_package() -> None:
    family = guarded(replace(FORK, build=ends))
    with pytest.raises(DesignError, match=r"package of .*the family plug-in failed \(SystemExit"):
        family.build([], None, Any)  # pyright: ignore[reportArgumentType] - it is never looked at
    assert guarded(replace(FORK, refuses=ends)).why_not(ordinary_body("hammer")) is not None
    with pytest.raises(DesignError, match="the mount x failed"):
        shielded(ends, int, what="the mount x")()


def test_one_broken_list_of_entry_points_leaves_out_its_package_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for package, text in {
        "p-broken": "[cleatwright.families]\ngarbage without equals\n",
        "p-foreign": "[of.others]\ngarbage without equals\n",
        "p-sound": "[cleatwright.families]\nplug-in = p_sound:FAMILY\n",
        "p-bytes": "[cleatwright.families]\n\xaa = p_sound:FAMILY\n",
    }.items():
        folder = tmp_path / f"{package.replace('-', '_')}-1.0.dist-info"
        folder.mkdir()
        (folder / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {package}\nVersion: 1.0\n")
        (folder / "entry_points.txt").write_bytes(text.encode("latin-1"))
    module = ModuleType("p_sound")
    module.__dict__["FAMILY"] = FORK
    monkeypatch.setitem(sys.modules, "p_sound", module)
    monkeypatch.syspath_prepend(tmp_path)
    found = plug_ins(GROUP, Family, taken=(), fault_of=family_fault)
    assert [(one.name, one.package) for one in found.origins] == [("plug-in", "p-sound")]
    assert sorted(one.package for one in found.left_out) == ["p-broken", "p-bytes"]
    assert all("entry points cannot be read" in one.sentence for one in found.left_out)


def test_what_a_package_prints_while_it_loads_reaches_no_stream(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    class Printing:
        name, value, module, dist = "one", "x:Y", "x", None

        def load(self) -> object:
            for stream in (sys.stdout, sys.stderr, sys.__stdout__):
                print("\x1b[2J", file=stream)
            os.write(1, b"\x1b[2J")
            os.write(2, b"\x1b[2J")
            return FORK

    monkeypatch.setattr(plugins, "offers", lambda _: [("a-package", Printing())])
    assert [one.name for one in plug_ins(GROUP, Family, taken=()).things] == ["plug-in"]
    print("after", flush=True)  # noqa: T201 - it is heard again
    assert capfd.readouterr() == ("after\n", "")


def chatters(call: Any) -> Any:
    """Return a call that writes to every stream first, by both ways."""

    def loud(*given: Any, **named: Any) -> Any:
        for number, stream in ((1, sys.stdout), (2, sys.stderr)):
            print("chatter", file=stream)
            os.write(number, b"chatter")
        return call(*given, **named)

    return loud


def test_what_a_package_prints_while_it_works_reaches_no_stream(
    capfd: pytest.CaptureFixture[str],
) -> None:
    fork = FAMILIES["fork"]
    family = guarded(replace(FORK, build=chatters(fork.build), refuses=chatters(fork.refuses)))
    body = ordinary_body("hammer")
    assert family.why_not(body) is None
    assert family.build([FittedTool(body, TRIAL_FIT)], family.params(), BuildContext()).seats
    assert shielded(chatters(lambda: 3), int, what="the mount x")() == 3
    with pytest.raises(DesignError, match="the mount x failed"):
        shielded(chatters(ends), int, what="the mount x")()
    print("after", flush=True)  # noqa: T201 - it is heard again
    assert capfd.readouterr() == ("after\n", "")


def test_what_was_left_out_is_not_said_to_be_unknown() -> None:
    gone = LeftOut(GROUP, "tin", "tin-package", "its build\ngives None")
    with pytest.raises(
        UnknownNameError, match=r'family "tin" of the package tin-package was left '
    ):
        picked_or_left_out("family", "tin", FAMILIES, left_out=[gone])
    with pytest.raises(
        UnknownNameError, match=r"left out: its build\\x0agives None\. Mend or renew"
    ):
        picked_or_left_out("family", "tin", FAMILIES, left_out=[gone])
    with pytest.raises(UnknownNameError, match="There is no family"):
        picked_or_left_out("family", "tim", FAMILIES, left_out=[gone])
    assert picked_or_left_out("family", "fork", FAMILIES, left_out=[gone]) is FAMILIES["fork"]
