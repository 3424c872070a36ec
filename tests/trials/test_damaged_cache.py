"""Whatever happens to the files of compiled code, the search gives the same and says nothing."""

import random
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numba

from cleatwright.wall.search.kept_code import ENDING, KeptCode

LIBRARY: Any = numba
Rounds = Callable[[], Iterator[random.Random]]


def half(number: int) -> int:
    return number // 2


def steps(number: int) -> int:
    """Return how many steps a number takes to one; 27 takes 111."""
    count = 0
    while number != 1:
        number = HALF(number) if number % 2 == 0 else 3 * number + 1
        count += 1
    return count


HALF: Any = LIBRARY.njit(half)


def damage(path: Path, chance: random.Random) -> None:
    data = path.read_bytes()
    at = chance.randrange(len(data))
    how = chance.randrange(6)
    if how == 0:
        path.unlink()
    elif how == 1:
        path.write_bytes(b"")
    elif how == 2:
        path.write_bytes(data[:at])
    elif how == 3:
        path.write_bytes(data[:at] + bytes([data[at] ^ chance.randrange(1, 256)]) + data[at + 1 :])
    elif how == 4:
        path.write_bytes(chance.randbytes(len(data)))
    else:
        path.unlink()
        path.mkdir()


def test_a_damaged_file_never_changes_a_result(tmp_path: Path, rounds: Rounds) -> None:
    def both(folder: Path) -> tuple[Any, Any]:
        made = tuple(LIBRARY.njit(function) for function in (half, steps))
        for one, function in zip(made, (half, steps), strict=True):
            one._cache = KeptCode(function, folder)
        return made

    whole = tmp_path / "whole"
    whole.mkdir()
    for function in both(whole):
        function(27)
    for chance in rounds():
        folder = tmp_path / "damaged"
        shutil.copytree(whole, folder)
        for path in sorted(folder.glob(f"*{ENDING}")):
            if chance.random() < 0.7:
                damage(path, chance)
        first, second = both(folder)
        assert first(27) == 13
        assert second(27) == 111
        shutil.rmtree(folder)
