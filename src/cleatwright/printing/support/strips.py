"""Plane regions cut into strips along a direction, many regions at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cleatwright.printing.support.hanging import Flags, Floats, Ints

_GRID_MM = 1e-6
_JOIN_MM = 1e-5


@dataclass(frozen=True, eq=False)
class Strips:
    """The pieces between two rim edges that face each other along a direction.

    Each piece is a trapezoid with two sides along the direction.

    Args:
        job: Number of the cut that a piece belongs to, shape (s,).
        held: Whether both of its rim edges are held, shape (s,).
        low_mm: Place across the direction of its first side, shape (s,).
        high_mm: The same of its second side, shape (s,).
        left: Start of the two sides along the direction, shape (s, 2).
        right: End of the two sides, shape (s, 2).
    """

    job: Ints
    held: Flags
    low_mm: Floats
    high_mm: Floats
    left: Floats
    right: Floats

    @property
    def area_mm2(self) -> Floats:
        """Return the area of each piece."""
        areas: Floats = (self.right - self.left).mean(axis=1) * (self.high_mm - self.low_mm)
        return areas

    def spanned(self, *, bridge_mm: float) -> Strips:
        """Return what is held at both ends and nowhere longer than ``bridge_mm``.

        A piece that widens beyond that is cut where it gets too long.
        """
        length = self.right - self.left
        fits = self.held & (length.min(axis=1) <= bridge_mm)
        whole = self._taken(fits)
        length = length[fits]
        change = length[:, 1] - length[:, 0]
        steady = np.abs(change) < _GRID_MM
        reach = (bridge_mm - length[:, 0]) / np.where(steady, 1.0, change)
        reach = np.clip(reach, 0.0, 1.0)
        first = np.where(~steady & (change < 0.0), reach, 0.0)
        last = np.where(~steady & (change > 0.0), reach, 1.0)
        shares = np.column_stack([first, last])

        def within(ends: Floats) -> Floats:
            between: Floats = ends[:, :1] + shares * (ends[:, 1:] - ends[:, :1])
            return between

        across = within(np.column_stack([whole.low_mm, whole.high_mm]))
        return Strips(
            whole.job,
            whole.held,
            across[:, 0],
            across[:, 1],
            within(whole.left),
            within(whole.right),
        )

    def of(self, jobs: Flags) -> Strips:
        """Return the pieces of some cuts, without those of no area; ``jobs`` has shape (j,)."""
        return self._taken(jobs[self.job] & (self.area_mm2 > _GRID_MM))

    def _taken(self, which: Flags) -> Strips:
        return Strips(
            self.job[which],
            self.held[which],
            self.low_mm[which],
            self.high_mm[which],
            self.left[which],
            self.right[which],
        )

    def outlines(self, angles: Floats) -> list[tuple[int, Floats]]:
        """Return the outlines in plan, each with its job and its corners of shape (n, 2).

        Pieces that share a whole side lie in one outline.

        Args:
            angles: Direction of each job in radians, shape (j,).
        """
        sides = (
            np.column_stack([across, self.left[:, k], self.right[:, k]])
            for k, across in enumerate((self.low_mm, self.high_mm))
        )
        below, above = (np.rint(side / _JOIN_MM).astype(np.int64).tolist() for side in sides)
        jobs = self.job.tolist()
        growing: dict[tuple[int, ...], list[int]] = {}
        stacks: list[list[int]] = []
        for number in np.lexsort((self.low_mm, self.job)).tolist():
            job = jobs[number]
            stack = growing.pop((job, *below[number]), None)
            if stack is None:
                stack = list[int]()
                stacks.append(stack)
            stack.append(number)
            growing[(job, *above[number])] = stack
        cos, sin = np.cos(angles), np.sin(angles)
        turns = np.stack([np.column_stack([cos, sin]), np.column_stack([-sin, cos])], axis=1)
        return [(jobs[s[0]], self._ring(s) @ turns[jobs[s[0]]]) for s in stacks]

    def _ring(self, stack: list[int]) -> Floats:
        first, last = stack, stack[-1:]
        v = np.concatenate([self.low_mm[first], self.high_mm[last]])
        left = np.concatenate([self.left[first, 0], self.left[last, 1]])
        right = np.concatenate([self.right[first, 0], self.right[last, 1]])
        ring = np.empty((2 * len(v), 2))
        ring[:, 0] = np.concatenate([left, right[::-1]])
        ring[:, 1] = np.concatenate([v, v[::-1]])
        return ring


def strips(tails: Floats, heads: Floats, held: Flags, *, job: Ints, angles: Floats) -> Strips:
    """Return each job's region in strips.

    Args:
        tails: Starts of the rim edges, shape (e, 2); those of one job enclose its region.
        heads: Their ends, shape (e, 2).
        held: Whether each edge is held, shape (e,).
        job: Job of each edge, shape (e,).
        angles: Direction of each job in radians, shape (j,).
    """
    cos, sin = np.cos(angles)[job], np.sin(angles)[job]
    u0, u1 = (p[:, 0] * cos + p[:, 1] * sin for p in (tails, heads))
    v0, v1 = (np.rint((p[:, 1] * cos - p[:, 0] * sin) / _GRID_MM) for p in (tails, heads))
    base = float(min(v0.min(), v1.min()))
    room = int(max(v0.max(), v1.max()) - base) + 1
    k0, k1 = ((v - base).astype(np.int64) + job * room for v in (v0, v1))
    levels = np.unique(np.concatenate([k0, k1]))
    first = np.searchsorted(levels, np.minimum(k0, k1))
    many = np.searchsorted(levels, np.maximum(k0, k1)) - first
    edge = np.repeat(np.arange(len(many)), many)
    slab = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(many) - many, many)
    bounds = np.column_stack([levels[slab], levels[slab + 1]])
    share = (bounds - k0[edge, None]) / (k1 - k0)[edge, None]
    u = u0[edge, None] + share * (u1 - u0)[edge, None]
    order = np.lexsort((u.sum(axis=1), slab))
    # a closed outline crosses each slab an even number of times
    left, right = order[0::2], order[1::2]
    jobs = job[edge[left]]
    across: Floats = ((bounds[left] - jobs[:, None] * room + base) * _GRID_MM).astype(np.float64)
    return Strips(
        jobs,
        held[edge[left]] & held[edge[right]],
        across[:, 0],
        across[:, 1],
        u[left],
        u[right],
    )
