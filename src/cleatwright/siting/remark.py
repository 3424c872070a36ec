"""What the owner should see to, as it is found on a wall."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Remark:
    """Something that the owner should see to.

    Args:
        about: The key of a unit, or the name of a rail, with which it has to do.
        found: What was found.
        todo: What to do about it.
        beside_studs: True when screws of a plate on the wall itself meet no stud.
    """

    about: str
    found: str
    todo: str
    beside_studs: bool = False

    @property
    def sentence(self) -> str:
        """Return both."""
        return f"{self.found}: {self.todo}"
