"""Long work for the browser: how far it is, and how it ended."""

from __future__ import annotations

from typing import Literal

from cleatwright.web.rows.row import FaultRow, Row, fault_row
from cleatwright.web.work import Working


class WorkRow(Row):
    """One piece of long work."""

    name: str
    key: str
    state: Literal["running", "done", "stopped", "failed"]
    stage: str
    done: int
    total: int
    faults: tuple[FaultRow, ...]


def work_row(working: Working) -> WorkRow:
    """Return a piece of work as a row; every fault apart."""
    leaves = working.fault.leaves() if working.fault else ()
    return WorkRow(
        name=working.name,
        key=working.key,
        state=working.state,
        stage=working.stage,
        done=working.done,
        total=working.total,
        faults=tuple(fault_row(one) for one in leaves),
    )
