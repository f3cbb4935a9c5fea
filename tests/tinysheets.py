"""Sheets of a few cells for the search, small enough to look at every layout there is."""

from itertools import combinations, product

import numpy as np

from nesting.search.instance import Instance, Item


def sheet(width, height, *items):
    """Return the instance of items (width, height, quantity) anywhere on a sheet of cells."""
    return Instance(
        tuple(
            Item(w, h, quantity, tuple(product(range(width - w + 1), range(height - h + 1))))
            for w, h, quantity in items
        )
    )


def strip(length, *items):
    """Return the instance of items (width, quantity) on a strip one cell high."""
    return sheet(length, 1, *((width, 1, quantity) for width, quantity in items))


def placed(*items):
    """Return the instance of items (width, height, quantity, places)."""
    return Instance(tuple(Item(w, h, n, tuple(places)) for w, h, n, places in items))


def by_chance(pick, items=3):
    """Return an instance of a few sizes, each at some of its places on a small sheet."""
    width, height = pick.randint(5, 8), pick.randint(4, 6)
    found = []
    for _ in range(items):
        w, h = pick.randint(1, 4), pick.randint(1, 3)
        places = list(product(range(width - w + 1), range(height - h + 1)))
        some = pick.sample(places, min(len(places), pick.randint(2, 7)))
        found.append(Item(w, h, pick.randint(1, 6), tuple(sorted(some))))
    return Instance(tuple(found))


def excludes(instance):
    """Return which places share ground, as a matrix; each shares its own."""
    x0, y0, x1, y1 = instance.boxes.T[:, :, None]
    return (x0 < x1.T) & (x1 > x0.T) & (y0 < y1.T) & (y1 > y0.T)


def is_free(instance, layout):
    """Whether no two places of a layout share ground."""
    places = list(layout)
    return int(excludes(instance)[np.ix_(places, places)].sum()) == len(places)


def every_layout(instance):
    """Return every set of places without conflict, as tuples of indexes."""
    clash = excludes(instance)
    found = [()]
    for place in range(len(instance.owner)):
        found += [(*known, place) for known in found if not clash[place, list(known)].any()]
    return found


def largest_counts(instance):
    """Return the count vectors of all layouts that no other one's are at least as large as."""
    counts = {instance.counts(layout) for layout in every_layout(instance)}
    return {
        one
        for one in counts
        if not any(other != one and np.all(np.array(other) >= one) for other in counts)
    }


def fewest_casts(instance):
    """Return the fewest casts that meet the demand, by trying them all."""
    vectors = [np.array(counts) for counts in largest_counts(instance)]
    states, casts = {tuple(instance.demand)}, 0
    while tuple(0 for _ in instance.demand) not in states:
        states = {
            tuple(int(n) for n in np.maximum(np.array(state) - counts, 0))
            for state in states
            for counts in vectors
        }
        casts += 1
    return casts


def shares_out(casts, layouts):
    """Return every way to cast so many different layouts, each once at least."""
    if layouts == 1:
        return [(casts,)] if casts else []
    firsts = range(1, casts - layouts + 2)
    return [(n, *rest) for n in firsts for rest in shares_out(casts - n, layouts - 1)]


def fewest_layouts(instance, casts):
    """Return the fewest different layouts that meet the demand in so many casts, by trying all."""
    vectors = [np.array(counts) for counts in largest_counts(instance)]
    for layouts in range(1, casts + 1):
        ways = np.array(shares_out(casts, layouts))
        for chosen in combinations(vectors, layouts):
            if (ways @ np.array(chosen) >= instance.demand).all(axis=1).any():
                return layouts
    return None


def casts_of(answer):
    """Return how many casts an answer of the search takes."""
    return sum(times for times, _ in answer.layouts)


def yields(instance, layouts):
    """Return how many of each item (repeats, layout) pairs give."""
    total = np.zeros(len(instance.items), dtype=int)
    for repeats, layout in layouts:
        total += repeats * np.array(instance.counts(layout))
    return tuple(int(n) for n in total)
