"""Stages: what is kept, what is computed again, what a stop leaves behind.

The oracle is a plain function without any memory: whatever was asked before, the answer is equal.
"""

import math
import threading
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cleatwright.base.errors import Cancelled, DesignError, KernelError
from cleatwright.base.stages.codec import JsonCodec
from cleatwright.base.stages.outcome import Done, Failed
from cleatwright.base.stages.run import Run, RunProgress
from cleatwright.base.stages.stage import Stage
from cleatwright.base.stages.store import Key, Store


@dataclass(frozen=True)
class Fallen:
    """A value as stages have them."""

    name: str
    falls_mm: tuple[float, ...]


def halved(_: Run, number: int) -> int:
    if number % 2:
        raise DesignError(f"{number} is odd", where="here", todo="Take another")
    return number // 2


HALF = Stage("half", halved, str)
QUARTER = Stage("quarter", lambda run, n: run.need(HALF, run.need(HALF, n)), str)


class Numbers:
    """Whole numbers as text."""

    def write(self, value: int) -> bytes:
        """Return its digits."""
        return str(value).encode()

    def read(self, data: bytes) -> int:
        """Return the number of digits."""
        return int(data)


class Drawer:
    """A shelf in memory."""

    def __init__(self) -> None:
        self.kept: dict[Key, bytes] = {}

    def get(self, key: Key) -> bytes | None:
        """Return what was put there, or None."""
        return self.kept.get(key)

    def put(self, key: Key, data: bytes) -> None:
        """Keep bytes."""
        self.kept[key] = data


KEPT = Stage("half", halved, str, codec=Numbers())


@given(st.lists(st.integers(0, 40), max_size=40), st.integers(1, 30))
def test_answers_are_those_of_the_plain_function_whatever_was_asked_before(
    asked: list[int], room: int
) -> None:
    run = Run(Store(most_bytes=room))
    for number in asked:
        outcome = run.ask(QUARTER, number)
        if number % 4 == 0:
            assert outcome == Done(number // 4)
        else:
            odd = number if number % 2 else number // 2
            assert isinstance(outcome, Failed)
            assert outcome.fault.given == f"{odd} is odd"


def test_a_result_is_computed_once_and_so_is_a_fault() -> None:
    run = Run()
    for _ in range(3):
        assert run.need(QUARTER, 8) == 2
        with pytest.raises(DesignError, match="3 is odd"):
            run.need(QUARTER, 6)
    assert run.computed == {"quarter": 2, "half": 4}


def test_a_raised_fault_does_not_grow_with_each_asking() -> None:
    run = Run()
    seen = []
    for _ in range(2):
        with pytest.raises(DesignError) as caught:
            run.need(HALF, 3)
        seen.append(caught.value)
    assert seen[0] is not seen[1]
    assert (seen[1].where, seen[1].todo) == ("here", "Take another")
    assert seen[1].__context__ is None


def test_a_fault_of_a_kernel_is_not_kept() -> None:
    tries: list[int] = []

    def first_fails(_: Run, number: int) -> int:
        tries.append(number)
        if len(tries) == 1:
            raise KernelError("no memory")
        return number

    stage = Stage("shaky", first_fails, str)
    run = Run()
    with pytest.raises(KernelError):
        run.ask(stage, 1)
    assert run.ask(stage, 1) == Done(1)


def test_a_shelf_serves_the_next_run_and_what_is_damaged_there_is_computed_again() -> None:
    shelf = Drawer()
    Run(Store(shelf=shelf)).need(KEPT, 8)
    later = Run(Store(shelf=shelf))
    assert later.need(KEPT, 8) == 4
    assert later.computed == {}
    shelf.kept[("half", "8")] = b"\x00rubbish"
    again = Run(Store(shelf=shelf))
    assert again.need(KEPT, 8) == 4
    assert again.computed == {"half": 1}
    assert shelf.kept[("half", "8")] == b"4"


def test_a_value_comes_back_from_its_json_as_it_was_infinite_or_not() -> None:
    codec = JsonCodec(Fallen)
    for fall_mm in (1 / 3, math.inf, -math.inf, 5e-324):
        assert codec.read(codec.write(Fallen("seat 1", (fall_mm, 0.1)))) == Fallen(
            "seat 1", (fall_mm, 0.1)
        )
    for other in (b"", b"[]", b'["seat 1"]', b'[{"name": "seat 1"}]', b"[1, 2]"):
        with pytest.raises(ValueError, match="error"):
            codec.read(other)
    rows = JsonCodec(tuple[Fallen, ...])
    many = (Fallen("a", (math.inf,)), Fallen("b", ()))
    assert rows.read(rows.write(many)) == many


def test_the_least_recently_asked_goes_first_when_the_store_is_full() -> None:
    store = Store(most_bytes=2)
    run = Run(store)
    for number in (2, 4, 2, 6):
        run.need(HALF, number)
    assert len(store) == 2
    run.need(HALF, 2)
    assert run.computed == {"half": 3}
    run.need(HALF, 4)
    assert run.computed == {"half": 4}


def test_a_run_is_stopped_from_another_thread_and_keeps_what_it_has() -> None:
    store, reached, go = Store(), threading.Event(), threading.Event()

    def slow(run: Run, number: int) -> int:
        value = run.need(HALF, number)
        reached.set()
        go.wait(10)
        run.go_on()
        return value

    run = Run(store)
    ended: list[str] = []

    def work() -> None:
        try:
            run.need(Stage("slow", slow, str), 8)
        except Cancelled:
            ended.append("stopped")

    thread = threading.Thread(target=work)
    thread.start()
    assert reached.wait(10)
    run.cancel()
    go.set()
    thread.join(10)
    assert ended == ["stopped"]
    assert store.get(("slow", "8")) is None
    next_one = Run(store)
    assert next_one.need(HALF, 8) == 4
    assert next_one.computed == {}


@given(st.lists(st.tuples(st.sampled_from("abc"), st.integers(1, 5)), max_size=12))
def test_steps_only_go_forward_and_the_total_only_grows(stages: list[tuple[str, int]]) -> None:
    told: list[RunProgress] = []
    run = Run(report=told.append)
    for name, total in stages:
        for done in range(total + 1):
            run.step(name, done, total)
    assert [one.done for one in told] == sorted(one.done for one in told)
    assert [one.total for one in told] == sorted(one.total for one in told)
    assert all(one.done <= one.total and one.run_id == run.run_id for one in told)
    if told:
        assert told[-1].done == told[-1].total == sum(total for _, total in stages)


def test_a_part_of_a_run_tells_its_share_and_stops_with_it() -> None:
    """Three parts of a hundred shares each: half of the second is 150 of 300, never less."""
    told: list[tuple[int, int]] = []
    run = Run(report=lambda at: told.append((at.done, at.total)))
    second = run.part("parts", 1, of=3)
    second.step("inside", 1, 2)
    second.step("inside more", 0, 2)
    second.step("inside more", 2, 2)
    assert told == [(150, 300), (150, 300), (175, 300)]
    run.cancel()
    with pytest.raises(Cancelled):
        second.step("inside more", 2, 2)
