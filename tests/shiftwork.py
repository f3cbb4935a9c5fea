"""Small work to be put in order, and every order of it tried, for tests of the search."""

import random
from functools import cache
from itertools import product

from nesting.ordering.shifts import Way, Workload

GAPS = 60
"""Shifts that the tables of small work reach over."""


def make_work(families, counts, kinds, liners=1, beds=None, gap=1, **changes):
    """Return work without due dates whose every cast is demoulded ``gap`` shifts later."""
    beds = tuple(beds or [1] * (max(kinds) + 1))
    given = {
        "family": tuple(families),
        "counts": tuple(counts),
        "kind": tuple(kinds),
        "liners": liners,
        "beds": beds,
        "lead": (0,) * len(Way),
        "free": (tuple(t + gap for t in range(GAPS)),) * len(Way),
        "late": (tuple([0] * (2 * GAPS)),) * len(counts),
    }
    return Workload(**{**given, **changes})


def late_after(shift, weight=1):
    """Return how late a cast demoulded in each shift is, where ``shift`` is the last in time."""
    return tuple(weight * max(0, t - shift) for t in range(2 * GAPS))


def random_work(seed):
    """Return generated work of at most five casts: families, kinds, gaps and due dates differ."""
    chance = random.Random(seed)
    layouts = chance.randint(2, 3)
    families = [min(n, chance.randint(0, n)) for n in range(layouts)]
    families = [sorted(set(families)).index(f) for f in families]
    kinds = [chance.randint(0, 1) for _ in range(max(families) + 1)]
    counts = [1] * layouts
    for _ in range(chance.randint(0, 5 - layouts)):
        counts[chance.randrange(layouts)] += 1
    slow = [chance.random() < 0.25 for _ in range(GAPS)]
    free = tuple(
        tuple(t + 1 + (1 if slow[t] and way in (Way.RESET, Way.BOTH) else 0) for t in range(GAPS))
        for way in Way
    )
    late = tuple(
        late_after(chance.randint(1, 4), chance.randint(1, 3)) if chance.random() < 0.6
        else late_after(GAPS)
        for _ in range(layouts)
    )  # fmt: skip
    liners = min(chance.randint(1, 3), 7 - sum(counts))
    beds = [chance.randint(1, 2) for _ in range(2)]
    return make_work(
        families, counts, kinds, liners, beds, free=free, late=late, finish_first=seed % 3 == 2
    )


@cache
def try_every_order(work):
    """Return the best (late, changes, end), by trying everything every liner can do in each shift.

    A liner is (free, dams, kind of the bed it lies on), -1 where there is none. Without lead.
    """

    @cache
    def best(t, counts, liners):
        if not any(counts):
            return (0, 0, max(free for free, _, _ in liners))
        if t > work.horizon:
            return None
        found = []
        for choice in product(*(options(t, counts, liner) for liner in liners)):
            cast = [layout for layout, *_ in choice if layout >= 0]
            left = tuple(n - cast.count(layout) for layout, n in enumerate(counts))
            lying = [liner[2] for *_, liner in choice]
            if min(left) < 0 or any(lying.count(k) > n for k, n in enumerate(work.beds)):
                continue
            rest = best(t + 1, left, tuple(sorted(liner for *_, liner in choice)))
            if rest is not None:
                late = sum(late for _, late, _, _ in choice)
                changes = sum(changes for _, _, changes, _ in choice)
                found.append((late + rest[0], changes + rest[1], rest[2]))
        order = (0, 2, 1) if work.finish_first else (0, 1, 2)
        return min(found, key=lambda worth: [worth[n] for n in order], default=None)

    def options(t, counts, liner):
        free, dams, lying = liner
        yield -1, 0, 0, liner
        if free > t:
            return
        if lying >= 0:
            yield -1, 0, 0, (free, dams, -1)
        for layout, count in enumerate(counts):
            family = work.family[layout]
            kind = work.kind[family]
            if count:
                way, changes = way_to(dams, lying, family, kind)
                freed = work.free[way][t]
                yield layout, work.late[layout][freed], changes, (freed, family, kind)

    return best(0, work.counts, ((0, -1, -1),) * work.liners)


def way_to(dams, lying, family, kind):
    """Return how a liner comes to a cast, and the re-sets and bed changes that takes."""
    if dams < 0:
        return Way.FIRST, 0
    if lying == kind:
        return (Way.AGAIN, 0) if dams == family else (Way.RESET, 1)
    return (Way.MOVE, 1) if dams == family else (Way.BOTH, 2)
