"""How many examples a costly test draws: few as usual, more where the profile asks for more."""

from __future__ import annotations

from hypothesis import settings

# of hypothesis, where no profile says another number
USUAL = 100


def few(examples: int) -> int:
    """Return how many examples are drawn where as many are drawn as usual."""
    return examples * settings().max_examples // USUAL
