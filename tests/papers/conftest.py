"""What several drawings are asked for when another reader has read their PDF."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest


def touching(page: Any) -> list[tuple[str, str]]:
    """Return pairs of letters of a page whose boxes overlap, and assert that all are on it.

    The boxes are made a little smaller: they are as high as the line, not as the letter.
    """
    chars = [c for c in page.chars if c["text"].strip()]
    boxes = np.array([[c["x0"], c["top"], c["x1"], c["bottom"]] for c in chars])
    size = (boxes[:, 2:] - boxes[:, :2]) * 0.15
    low, high = boxes[:, :2] + size, boxes[:, 2:] - size
    assert (low > 0.0).all()
    assert (high < [page.width, page.height]).all()
    meets = (low[:, None] + 0.28 < high[None]).all(axis=2)
    pairs = np.argwhere(meets & meets.T)
    return [(chars[i]["text"], chars[j]["text"]) for i, j in pairs if i < j]


@pytest.fixture
def touching_letters() -> Callable[[Any], list[tuple[str, str]]]:
    """Return a callable that finds letters on each other."""
    return touching
