"""Whatever key of a sound document is made wrong, ``check`` names that key as data.

The keys are those of the document itself, so that no list of them can go out of date.
"""

import copy
import random
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cleatwright.base.errors import CleatwrightError, MeasureError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.holders.registry import FAMILIES
from cleatwright.jobs.checking import check_workshop
from cleatwright.tools.registry import KINDS, tool_body

Steps = tuple[str | int, ...]
SHED = Path(__file__).parent.parent / "shed.toml"
# of each sort of value some that it can never be
WRONG: dict[type, tuple[object, ...]] = {
    str: ([3], {"a": 1}, True),
    float: (-1e7, 1e7, "many", "3 years", True, [3]),
    bool: (3, "yes"),
    list: (5, "x"),
    dict: (5, [3]),
}
NAMES = {
    "kind": "no-such-kind",
    "family": "no-such-family",
    "mount": "no-such-mount",
    "joint": "no-such-joint",
    "fit": "baggy",
    "use": "never",
}
TRIES = 10
# one document differs from the next in one key: what both have is computed once
KNOWN = Store()


def steps_of(value: Any, at: Steps = ()) -> Iterator[tuple[Steps, Any]]:
    rows = enumerate(value) if isinstance(value, list) else ()
    for step, inner in value.items() if isinstance(value, dict) else rows:
        yield (*at, step), inner
        yield from steps_of(inner, (*at, step))


def inside(document: Any, at: Steps) -> Any:
    for step in at:
        document = document[step]
    return document


def wrong_values(at: Steps, value: Any) -> tuple[object, ...]:
    sort = float if type(value) is int else type(value)
    return WRONG[sort] + ((NAMES[str(at[-1])],) if at[-1] in NAMES and sort is str else ())


def told(folder: Path, document: Any) -> list[Steps] | None:
    """Return the paths of all faults; None when there is none."""
    folder.mkdir(exist_ok=True)
    (folder / "workshop.toml").write_text(tomlkit.dumps(document), "utf-8")
    try:
        check_workshop(folder, run=Run(KNOWN))
    except CleatwrightError as error:
        leaves = [one.as_dict() for one in error.leaves()]
        assert all(one["file"] == str(folder / "workshop.toml") for one in leaves)
        return [tuple(path) for one in leaves for path in one["paths"]]  # type: ignore[attr-defined]
    return None


def changed(document: Any, at: Steps, value: object) -> Any:
    made = copy.deepcopy(document)
    inside(made, at[:-1])[at[-1]] = value
    return made


def without(document: Any, at: Steps) -> Any:
    made = copy.deepcopy(document)
    del inside(made, at[:-1])[at[-1]]
    return made


def require_told(paths: list[Steps], at: Steps) -> None:
    assert at in paths or any(path[: len(at)] == at for path in paths), (at, paths)


@pytest.mark.parametrize("example", ["bicycle-room", "joiners-bench", "shared-workshop"])
def test_each_key_of_an_example_that_is_made_wrong_is_named(
    tmp_path: Path, examples: Path, example: str
) -> None:
    text = (examples / example / "workshop.toml").read_text("utf-8")
    for drawing in sorted((examples / example).rglob("*.svg")):
        copied = tmp_path / "shed" / drawing.relative_to(examples / example)
        copied.parent.mkdir(parents=True, exist_ok=True)
        copied.write_bytes(drawing.read_bytes())
    document, chance = tomllib.loads(text), random.Random(example)  # noqa: S311 - no secret
    keys = list(steps_of(document))
    for at, value in chance.sample(keys, TRIES):
        wrong = chance.choice(wrong_values(at, value))
        paths = told(tmp_path / "shed", changed(document, at, wrong))
        assert paths is not None, (at, wrong)
        require_told(paths, at)


@pytest.mark.parametrize("example", ["bicycle-room", "joiners-bench", "shared-workshop"])
def test_a_missing_key_names_itself_or_its_table(
    tmp_path: Path, examples: Path, example: str
) -> None:
    document = tomllib.loads((examples / example / "workshop.toml").read_text("utf-8"))
    needed = [at for at, _ in steps_of(document) if at[-1] in {"width", "kind", "bed", "x"}]
    chance = random.Random(example)  # noqa: S311 - no secret
    for at in chance.sample(needed, 6):
        paths = told(tmp_path / "shed", without(document, at))
        if paths is not None:
            assert at in paths or at[:-1] in paths, (at, paths)


@settings(
    deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_any_two_wrong_keys_are_both_named_in_one_run(tmp_path: Path, data: st.DataObject) -> None:
    """Two keys of two tables do not depend on each other, so neither hides the other."""
    document = tomllib.loads(SHED.read_text("utf-8"))
    keys = [(at, value) for at, value in steps_of(document) if len(at) > 1]
    (one, was), (other, had) = data.draw(
        st.tuples(st.sampled_from(keys), st.sampled_from(keys)).filter(
            lambda two: two[0][0][:2] != two[1][0][:2] and not overlap(two[0][0], two[1][0])
        )
    )
    made = changed(document, one, data.draw(st.sampled_from(wrong_values(one, was))))
    made = changed(made, other, data.draw(st.sampled_from(wrong_values(other, had))))
    paths = told(tmp_path / "shed", made)
    assert paths is not None
    require_told(paths, one)
    require_told(paths, other)


def overlap(one: Steps, other: Steps) -> bool:
    return one[: len(other)] == other or other[: len(one)] == one


# of what some family can hold, less than this may be in the way of no bed
BULKY_MM = 180.0


def may_be_refused(kind: str, measures: dict[str, float], value: float) -> bool:
    """Tell whether anything can be wrong with a tool: its measures, its grip or its size."""
    try:
        body = tool_body(kind, measures)
    except MeasureError:
        return True
    held = any(family.why_not(body) is None for family in FAMILIES.values())
    return not held or value >= BULKY_MM


# of a kind that is outlined, a measure may be at odds with a drawing, which has no key of its own
@pytest.mark.parametrize("name", sorted(name for name, one in KINDS.items() if not one.outlined))
def test_a_measure_that_is_at_odds_with_others_is_among_those_named(
    tmp_path: Path, name: str
) -> None:
    """Each measure at its least and at its largest: within its bounds, and maybe at odds."""
    document = tomllib.loads(SHED.read_text("utf-8"))
    kind, example = KINDS[name], dict(KINDS[name].example)
    for row in kind.card:
        for value in (row.low_mm, row.high_mm):
            measures = {**example, row.name: value}
            if not may_be_refused(name, measures, value):
                continue
            tool = {"name": "T", "kind": name, "measures": measures}
            paths = told(tmp_path / "shed", {**document, "tool": [tool], "holder": []})
            if paths is not None:
                assert ("tool", 0, "measures", row.name) in paths, (row.name, value, paths)
