"""Random walls of known fill, for benchmarks and tests of arranging.

Measures lie on a grid of 5 mm, like the places that arranging tries.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from cleatwright.wall.model import Box, Item, RailRule, WallSpace
from cleatwright.wall.rail import Profile
from cleatwright.wall.studs import studs_at

GRID_MM = 5
NARROWEST_MM, WIDEST_MM = 40, 260
MEAN_TALL_MM = (40 + 110) / 2 + (80 + 320) / 2
STUD_PITCH_MM = 400.0
GROUPED_SHARE = 0.6

Wall = tuple[WallSpace, RailRule, tuple[Item, ...]]


@dataclass(frozen=True)
class WallCase:
    """One row of the table of walls: how many holders on which wall, and how full it is."""

    name: str
    count: int
    width_mm: float
    height_mm: float
    fill: float

    def wall(self, seed: int) -> Wall:
        """Return the wall of this row for a seed."""
        return random_wall(
            self.count,
            width_mm=self.width_mm,
            height_mm=self.height_mm,
            seed=seed,
            fill=self.fill,
        )


WALLS = (
    WallCase("40 holders on 2.4 × 1.5 m", 40, 2400.0, 1500.0, 0.60),
    WallCase("120 holders on 3.6 × 1.5 m", 120, 3600.0, 1500.0, 0.60),
    WallCase("120 holders on 2.4 × 1.5 m", 120, 2400.0, 1500.0, 0.70),
    WallCase("300 holders on 4.8 × 2.0 m", 300, 4800.0, 2000.0, 0.60),
)


def random_wall(
    count: int, *, width_mm: float, height_mm: float, seed: int, fill: float = 0.6
) -> Wall:
    """Return a wall, its rail rule and ``count`` holders that cover ``fill`` of its area.

    Args:
        count: Number of holders, >= 1.
        width_mm: Width of the wall, >= 600.
        height_mm: Height of the wall, >= 600.
        seed: The same seed gives the same wall.
        fill: Sum of the whole rectangles over the area of the wall, 0 to 1; it is met to
            about 2 % as long as the mean width lies well between the narrowest and the widest.
    """
    r = random.Random(seed)  # noqa: S311 - a repeatable example, not a secret
    tall = [(r.randrange(40, 111, GRID_MM), r.randrange(80, 321, GRID_MM)) for _ in range(count)]
    widths = _widths(r, tall, area_mm2=fill * width_mm * height_mm)
    groups = _groups(r, count)
    items = tuple(
        Item(
            f"h{k:03}",
            width_mm=float(widths[k]),
            up_mm=float(up),
            down_mm=float(down),
            mass_kg=round(min(max(r.lognormvariate(-0.4, 0.9), 0.1), 5.0), 2),
            use=r.choices(("daily", "weekly", "seldom"), (2, 5, 3))[0],
            group=groups[k],
            rail_depth_mm=60.0,
        )
        for k, (up, down) in enumerate(tall)
    )
    obstacles = (
        _box(r, "socket", (90, 150), (width_mm, height_mm)),
        _box(r, "switch", (80, 80), (width_mm, height_mm)),
    )
    studs = studs_at(
        *(STUD_PITCH_MM / 2 + STUD_PITCH_MM * k for k in range(int(width_mm / STUD_PITCH_MM)))
    )
    space = WallSpace(width_mm, height_mm, 700.0, obstacles=obstacles, studs=studs)
    return space, RailRule(Profile(80.0, 18.0, 45.0), min_gap_mm=50.0), items


def _widths(r: random.Random, tall: list[tuple[int, int]], *, area_mm2: float) -> list[int]:
    mean = area_mm2 / (len(tall) * MEAN_TALL_MM)
    share = min(max((mean - NARROWEST_MM) / (WIDEST_MM - NARROWEST_MM), 0.05), 0.95)
    raw = [
        NARROWEST_MM + (WIDEST_MM - NARROWEST_MM) * r.betavariate(3 * share, 3 * (1 - share))
        for _ in tall
    ]
    covered = sum(w * (up + down) for w, (up, down) in zip(raw, tall, strict=True))
    scaled = [GRID_MM * round(w * area_mm2 / covered / GRID_MM) for w in raw]
    return [min(max(w, NARROWEST_MM), WIDEST_MM) for w in scaled]


def _groups(r: random.Random, count: int) -> list[str]:
    """Return the group of each holder: three to six in each, some holders without one."""
    order = list(range(count))
    r.shuffle(order)
    names = [""] * count
    first, number = 0, 0
    while first + 3 <= GROUPED_SHARE * count:
        size = min(r.randint(3, 6), count - first)
        for k in order[first : first + size]:
            names[k] = f"g{number:02}"
        first, number = first + size, number + 1
    return names


def _box(r: random.Random, name: str, size: tuple[int, int], wall: tuple[float, float]) -> Box:
    """Return an obstacle; a socket lies in the left half of the wall, all else in the right."""
    half = int(wall[0] / 2)
    x = r.randrange(100, half - size[0] - 50, GRID_MM) + (0 if name == "socket" else half)
    z = r.randrange(200, int(wall[1]) - size[1] - 200, GRID_MM)
    return Box(name, float(x), float(z), float(size[0]), float(size[1]))
