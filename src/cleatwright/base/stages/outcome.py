"""What comes of a stage: a value, or the faults that stand in its way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeAlias, TypeVar

from cleatwright.base.errors import CleatwrightError

Value_co = TypeVar("Value_co", covariant=True)
Output = TypeVar("Output")


@dataclass(frozen=True)
class Done(Generic[Value_co]):
    """A stage came to a value."""

    value: Value_co


@dataclass(frozen=True)
class Failed:
    """A stage cannot come to a value, and never will with the same input."""

    fault: CleatwrightError

    def raised(self) -> CleatwrightError:
        """Return the fault as a new error: one that was raised keeps where it came from."""
        return self.fault.again()


Outcome: TypeAlias = Done[Output] | Failed
