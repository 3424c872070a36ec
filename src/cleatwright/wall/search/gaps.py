"""Where an item may stand in a row: the gaps that everything else leaves free."""

from __future__ import annotations

from cleatwright.wall.search.around import Around
from cleatwright.wall.search.compiled import lean
from cleatwright.wall.search.state import State
from cleatwright.wall.search.tables import FAR, NONE, Tables


@lean
def gaps_on_rail(t: Tables, s: State, near: Around, i: int, row: int) -> int:
    """Write where item ``i`` may hang in a row of rails and return how many gaps there are."""
    left, plate, whole = t.items[i].left, t.items[i].plate, t.items[i].whole
    z, own_low, own_high = t.rails[row].z, t.rails[row].low, t.rails[row].high
    z0, z1 = z - t.items[i].down, z + t.items[i].up
    taken = near.taken
    count = _obstacles(t, near, i, z)
    count = _barred(t, near, i, count)
    first, last = s.hull[row, 0], s.hull[row, 1]
    from_x, to_x = t.rails[row].from_x, t.rails[row].to_x
    for k in range(near.used[0]):
        j = near.others[k]
        beside = z0 < s.box[j, 3] and z1 > s.box[j, 2]
        if beside:
            taken[count, 0], taken[count, 1] = s.box[j, 0] - whole, s.box[j, 1]
            count += 1
        if s.bar[j, 2] < own_high and s.bar[j, 3] > own_low and (s.row[j] == NONE or s.z[j] != z):
            from_x, to_x = _beside(from_x, to_x, (first, last), (s.bar[j, 0], s.bar[j, 1]))
            # what the bar takes lies within what the whole rectangle takes
            if not beside:
                taken[count, 0], taken[count, 1] = s.bar[j, 0] - left - plate, s.bar[j, 1] - left
                count += 1
    gap, bears = t.rule[0].gap, z - t.items[i].bear
    for k in range(near.used[1]):
        r = near.open[k]
        if t.rails[r].z == z:
            continue
        low, high = t.rails[r].low, t.rails[r].high
        close = own_low < high + gap and own_high > low - gap
        if close:
            from_x, to_x = _beside(from_x, to_x, (first, last), (s.hull[r, 0], s.hull[r, 1]))
        # an item must not bear on a rail at another height
        if close or (bears < high and z > low):
            taken[count, 0], taken[count, 1] = s.hull[r, 0] - left - plate, s.hull[r, 1] - left
            count += 1
    high = min(t.rule[0].width - whole, to_x - left - plate, t.items[i].to_x)
    return _gaps(near, count, max(t.items[i].from_x, from_x - left), high)


@lean
def gaps_flat(t: Tables, s: State, near: Around, i: int, level: int) -> int:
    """Write where item ``i`` may be screwed flat to the wall at a level; return how many gaps."""
    z, whole = t.levels[level], t.items[i].whole
    z0, z1 = z - t.items[i].down, z + t.items[i].up
    count = _barred(t, near, i, _obstacles(t, near, i, z))
    for k in range(near.used[0]):
        j = near.others[k]
        if z0 < s.box[j, 3] and z1 > s.box[j, 2]:
            near.taken[count, 0], near.taken[count, 1] = s.box[j, 0] - whole, s.box[j, 1]
            count += 1
    for k in range(near.used[1]):
        r = near.open[k]
        if z0 < t.rails[r].high and z1 > t.rails[r].low:
            near.taken[count, 0], near.taken[count, 1] = s.hull[r, 0] - whole, s.hull[r, 1]
            count += 1
    low, high = t.items[i].from_x, min(t.rule[0].width - whole, t.items[i].to_x)
    return _gaps(near, count, low, high)


@lean
def _obstacles(t: Tables, near: Around, i: int, z: int) -> int:
    """Write what obstacles take from the whole rectangle and return how many do."""
    boxes = t.hot if t.items[i].cool else t.obstacles
    count = 0
    for k in range(len(boxes)):
        if z - t.items[i].down < boxes[k, 3] and z + t.items[i].up > boxes[k, 2]:
            near.taken[count, 0] = boxes[k, 0] - t.items[i].whole
            near.taken[count, 1] = boxes[k, 1]
            count += 1
    return count


@lean
def _barred(t: Tables, near: Around, i: int, count: int) -> int:
    """Write where screws of an item would meet nothing, after ``count`` pairs; return the sum."""
    for k in range(len(t.barred)):
        if t.barred[k, 0] == i:
            near.taken[count, 0], near.taken[count, 1] = t.barred[k, 1], t.barred[k, 2]
            count += 1
    return count


@lean
def _beside(from_x: int, to_x: int, span: tuple[int, int], bar: tuple[int, int]) -> tuple[int, int]:
    """Return from where to where a rail may grow past which a bar stands."""
    # a rail that is not there yet lies on either side
    if span[0] < FAR:
        if bar[1] <= span[0]:
            from_x = max(from_x, bar[1])
        if bar[0] >= span[1]:
            to_x = min(to_x, bar[0])
    return from_x, to_x


@lean
def _gaps(near: Around, count: int, low: int, high: int) -> int:
    """Write what the pairs leave free between the two ends and return how many gaps there are."""
    taken, gaps = near.taken, near.gaps
    for k in range(1, count):
        a, b = taken[k, 0], taken[k, 1]
        m = k
        while m > 0 and taken[m - 1, 0] > a:
            taken[m, 0], taken[m, 1] = taken[m - 1, 0], taken[m - 1, 1]
            m -= 1
        taken[m, 0], taken[m, 1] = a, b
    found = 0
    free = low
    for k in range(count):
        if taken[k, 0] > high:
            break
        if taken[k, 0] >= free:
            gaps[found, 0], gaps[found, 1] = free, taken[k, 0]
            found += 1
        free = max(free, taken[k, 1])
    if free <= high:
        gaps[found, 0], gaps[found, 1] = free, high
        found += 1
    return found


@lean
def in_a_gap(near: Around, count: int, x: int) -> bool:
    """Return whether ``x`` lies in one of the gaps."""
    free = False
    for k in range(count):
        free = free or near.gaps[k, 0] <= x <= near.gaps[k, 1]
    return free
