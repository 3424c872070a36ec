"""A run: asks stages for results, says how far it is, and stops when it is asked to."""

from __future__ import annotations

import uuid
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from threading import Event, Lock
from typing import TypeVar, cast

from cleatwright.base.errors import Cancelled, DesignError, InputError
from cleatwright.base.stages.outcome import Done, Failed, Outcome
from cleatwright.base.stages.stage import Stage
from cleatwright.base.stages.store import Key, Shelf, Store

Input = TypeVar("Input")
PART_STEPS = 100
Output = TypeVar("Output")


@dataclass(frozen=True)
class RunProgress:
    """How far a run is.

    Args:
        run_id: The run, like no other.
        stage: What it is at.
        done: How many steps are behind it, over all stages that were begun.
        total: How many there are, as far as is known; it only grows.
    """

    run_id: str
    stage: str
    done: int
    total: int


class Run:
    """One piece of work over a store, for one person who waits for it.

    Any thread may ask, and any thread may cancel. What was computed before a stop is kept.

    Args:
        store: Where results are kept; one of its own when None.
        report: Called with each step, from the thread that makes it.
    """

    def __init__(
        self, store: Store | None = None, *, report: Callable[[RunProgress], None] | None = None
    ) -> None:
        self.run_id = uuid.uuid4().hex
        self.computed: Counter[str] = Counter()
        self._store = store if store is not None else Store()
        self._report = report
        self._stop = Event()
        self._lock = Lock()
        self._stages: dict[str, tuple[int, int, int]] = {}

    @property
    def shelf(self) -> Shelf | None:
        """Return what keeps results between two runs of the program, if anything does."""
        return self._store.shelf

    def cancel(self) -> None:
        """Ask the run to stop at its next step."""
        self._stop.set()

    def go_on(self) -> None:
        """Raise Cancelled when the run was asked to stop."""
        if self._stop.is_set():
            raise Cancelled("Stopped")

    def step(self, stage: str, done: int, total: int) -> None:
        """Take note that ``done`` of ``total`` steps of a stage are behind us.

        Raises:
            Cancelled: The run was asked to stop.
        """
        self.go_on()
        with self._lock:
            past, at, of = self._stages.get(stage, (0, 0, 0))
            if done < at:
                # a stage that is gone through once more adds to what there is to do
                past += of
            self._stages[stage] = (past, done, max(done, total))
            behind = sum(past + at for past, at, _ in self._stages.values())
            whole = sum(past + of for past, _, of in self._stages.values())
        if self._report is not None:
            self._report(RunProgress(self.run_id, stage, behind, whole))

    def part(self, stage: str, number: int, *, of: int) -> Run:
        """Return a run over the same store that is one of ``of`` like parts of a stage of this one.

        Its steps are told as a share of that part, and a stop of this run stops it too.
        """
        least = PART_STEPS * number
        told = [least]

        def report(progress: RunProgress) -> None:
            share = PART_STEPS * progress.done // max(progress.total, 1)
            told[0] = max(told[0], least + share)
            self.step(stage, told[0], PART_STEPS * of)

        return Run(self._store, report=report)

    def ask(self, stage: Stage[Input, Output], given: Input) -> Outcome[Output]:
        """Return what comes of a stage: kept, or computed now.

        Faults of the input and of the design come back as an outcome, and are kept like a value.

        Raises:
            Cancelled: The run was asked to stop.
            CleatwrightError: A kernel or a disk failed; that is not kept.
        """
        self.go_on()
        key = (stage.name, stage.key(given))
        found = self._store.get(key)
        if found is not None:
            return cast("Outcome[Output]", found)
        return self._computed(stage, given, key)

    def need(self, stage: Stage[Input, Output], given: Input) -> Output:
        """Return the value of a stage.

        Raises:
            CleatwrightError: What stands in its way.
        """
        outcome = self.ask(stage, given)
        if isinstance(outcome, Failed):
            raise outcome.raised()
        return outcome.value

    def each(
        self, stage: Stage[Input, Output], given: Iterable[Input], *, doing: str = ""
    ) -> tuple[Outcome[Output], ...]:
        """Return what comes of a stage for each input, each a step of ``doing`` if one is given."""
        whole = list(given)
        found: list[Outcome[Output]] = []
        for done, one in enumerate(whole):
            if doing:
                self.step(doing, done, len(whole))
            found.append(self.ask(stage, one))
        if doing:
            self.step(doing, len(whole), len(whole))
        return tuple(found)

    def _computed(self, stage: Stage[Input, Output], given: Input, key: Key) -> Outcome[Output]:
        shelf, codec = self._store.shelf, stage.codec
        if shelf is not None and codec is not None:
            data = shelf.get(key)
            if data is not None:
                try:
                    read = codec.read(data)
                except ValueError:
                    pass  # what another program or a fault left there is computed again
                else:
                    return self._kept(stage, key, Done(read))
        self.computed[stage.name] += 1
        try:
            value = stage.run(self, given)
        except (InputError, DesignError) as error:
            return self._kept(stage, key, Failed(error.again()))
        if shelf is not None and codec is not None:
            shelf.put(key, codec.write(value))
        return self._kept(stage, key, Done(value))

    def _kept(
        self, stage: Stage[Input, Output], key: Key, outcome: Outcome[Output]
    ) -> Outcome[Output]:
        size = stage.size(outcome.value) if isinstance(outcome, Done) else 1
        self._store.put(key, outcome, size)
        return outcome
