"""Long work behind the pages: of each sort one at a time, told as it goes, stopped at any time."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from threading import Lock, Thread
from typing import Any, Literal

from cleatwright.base.errors import Cancelled, CleatwrightError, FaultError
from cleatwright.base.stages.run import Run, RunProgress
from cleatwright.base.stages.store import Store
from cleatwright.web.live import Hub

State = Literal["running", "done", "stopped", "failed"]
TELL_SECONDS = 0.12
WALL, SHEET, FILES = "wall", "make", "files"
"""Arranging the walls, computing what the sheet Make shows, and writing all files."""


@dataclass(frozen=True)
class Working:
    """One piece of work.

    Args:
        name: Its sort; of each only one goes on at a time.
        key: What it is about; work on something else takes its place.
        run_id: Which run it is.
        state: Whether it goes on, or how it ended.
        stage: What it is at.
        done: How many steps are behind it.
        total: How many there are, as far as is known.
        fault: Why it failed.
        result: What came of it, also so far.
        found: How often it came to something so far.
    """

    name: str
    key: str
    run_id: str
    state: State
    stage: str = ""
    done: int = 0
    total: int = 0
    fault: CleatwrightError | None = None
    result: Any = None
    found: int = 0


class Works:
    """All long work of a session.

    Args:
        store: What keeps results.
        hub: Tells the pages.
    """

    def __init__(self, store: Store, hub: Hub) -> None:
        self._store = store
        self._hub = hub
        self._lock = Lock()
        self._now: dict[str, tuple[Run, Working]] = {}
        self._good: dict[str, Working] = {}

    def start(self, name: str, key: str, do: Callable[[Run], object]) -> Working:
        """Begin a piece of work, unless the same is under way or done; another one is stopped.

        Args:
            name: Its sort.
            key: What it is about.
            do: Does it; it asks the run.
        """
        with self._lock:
            before = self._now.get(name)
            if before is not None and before[1].key == key and before[1].state != "stopped":
                return before[1]
            if before is not None:
                before[0].cancel()
            told = [0.0]

            def tell(progress: RunProgress) -> None:
                now = time.monotonic()
                if now - told[0] >= TELL_SECONDS or progress.done == progress.total:
                    told[0] = now
                    self._at(name, run, progress)

            run = Run(self._store, report=tell)
            working = Working(name, key, run.run_id, "running")
            self._now[name] = (run, working)
            self._tell(working)
        Thread(target=self._work, args=(run, working, do), name=name, daemon=True).start()
        return working

    def so_far(self, name: str, run: Run, result: object) -> None:
        """Take note of what a piece of work came to so far; it stays when the work is stopped."""
        with self._lock:
            found = self._now.get(name)
            if found is None or found[0] is not run:
                return
            working = replace(found[1], result=result, found=found[1].found + 1)
            self._now[name] = (run, working)
            self._tell(working)

    def drop(self, name: str) -> None:
        """Stop the work of a sort, and forget it."""
        with self._lock:
            found = self._now.pop(name, None)
            self._good.pop(name, None)
            if found is None:
                return
            found[0].cancel()
            self._tell(replace(found[1], state="stopped", found=0))

    def now(self, name: str) -> Working | None:
        """Return the last work of a sort, however it stands."""
        with self._lock:
            found = self._now.get(name)
            return None if found is None else found[1]

    def good(self, name: str) -> Working | None:
        """Return the last work of a sort that came to something."""
        with self._lock:
            return self._good.get(name)

    def forget(self, name: str) -> None:
        """Forget how the last work of a sort ended, so that the same may be begun again."""
        with self._lock:
            found = self._now.get(name)
            if found is not None and found[1].state != "running":
                del self._now[name]

    def stop(self, name: str) -> None:
        """Ask the work of a sort to stop."""
        with self._lock:
            found = self._now.get(name)
        if found is not None:
            found[0].cancel()

    def stop_all(self) -> None:
        """Ask all work to stop."""
        with self._lock:
            runs = [run for run, _ in self._now.values()]
        for run in runs:
            run.cancel()

    def _work(self, run: Run, working: Working, do: Callable[[Run], object]) -> None:
        try:
            result = do(run)
        except Cancelled:
            self._end(run, replace(working, state="stopped"))
        except CleatwrightError as error:
            self._end(run, replace(working, state="failed", fault=error))
        except Exception as error:  # noqa: BLE001 - a fault of the program is told like any other
            fault = FaultError(f"The program has a fault: {type(error).__name__} {error}")
            self._end(run, replace(working, state="failed", fault=fault))
        else:
            self._end(run, replace(working, state="done", result=result))

    def _at(self, name: str, run: Run, progress: RunProgress) -> None:
        with self._lock:
            found = self._now.get(name)
            if found is None or found[0] is not run:
                return
            working = replace(
                found[1], stage=progress.stage, done=progress.done, total=progress.total
            )
            self._now[name] = (run, working)
            self._tell(working)

    def _end(self, run: Run, working: Working) -> None:
        with self._lock:
            if working.state == "done":
                self._good[working.name] = working
            found = self._now.get(working.name)
            if found is None or found[0] is not run:
                return
            so_far = found[1]
            result = so_far.result if working.result is None else working.result
            working = replace(so_far, state=working.state, fault=working.fault, result=result)
            self._now[working.name] = (run, working)
            self._tell(working)

    def _tell(self, working: Working) -> None:
        """Tell the pages; with the lock held, so that they hear of states in their order."""
        self._hub.tell(
            {
                "event": "work",
                "name": working.name,
                "key": working.key,
                "state": working.state,
                "stage": working.stage,
                "done": working.done,
                "total": working.total,
                "found": working.found,
            }
        )
