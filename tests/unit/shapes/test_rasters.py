"""Grids of pixels against the same asked pixel by pixel."""

import itertools

import numpy as np
import pytest

from nesting.shapes.rasters import (
    count_in,
    find_runs,
    label_runs,
    mark_meeting,
    part_at,
    slide,
    spread,
    sums,
)


def random_mask(seed, shape=(17, 23), share=0.4):
    """Return a mask strewn at random."""
    return np.random.default_rng(seed).random(shape) < share


def flood(mask):
    """Return the parts of a mask, pixel by pixel, in the order of their first pixel."""
    labels = np.full(mask.shape, -1)
    count = 0
    for start in zip(*np.nonzero(mask), strict=True):
        if labels[start] >= 0:
            continue
        stack = [start]
        while stack:
            row, column = stack.pop()
            if labels[row, column] >= 0:
                continue
            labels[row, column] = count
            for y in range(max(0, row - 1), min(mask.shape[0], row + 2)):
                for x in range(max(0, column - 1), min(mask.shape[1], column + 2)):
                    if mask[y, x]:
                        stack.append((y, x))
        count += 1
    return labels


@pytest.mark.parametrize("seed", range(6))
def test_runs_hold_every_set_pixel_once(seed):
    """Painting the runs gives the mask back."""
    mask = random_mask(seed)
    painted = np.zeros(mask.shape, int)
    for row, start, end in zip(*find_runs(mask), strict=True):
        painted[row, start:end] += 1
    assert (painted == mask).all()


@pytest.mark.parametrize("seed", range(12))
def test_parts_are_those_of_a_flood(seed):
    """Pixels get the labels that flooding over sides and corners gives."""
    mask = random_mask(seed, share=0.1 + 0.05 * seed)
    runs = find_runs(mask)
    labels = label_runs(runs)
    rows, columns = np.nonzero(mask)
    assert (part_at(runs, labels, rows, columns) == flood(mask)[mask]).all()


def test_an_empty_mask_has_no_parts():
    """No pixel gives no run and no label."""
    runs = find_runs(np.zeros((3, 4), bool))
    assert len(runs.row) == len(label_runs(runs)) == 0


@pytest.mark.parametrize("by", [0, 1, 3])
def test_spreading_reaches_every_pixel_of_the_square(by):
    """A pixel is set where any within the square around it was."""
    mask = random_mask(3, share=0.03)
    framed = np.pad(mask, by)
    expected = [
        [framed[y : y + 2 * by + 1, x : x + 2 * by + 1].any() for x in range(mask.shape[1])]
        for y in range(mask.shape[0])
    ]
    assert (spread(mask, by) == np.array(expected)).all()


@pytest.mark.parametrize("length", [1, 2, 3, 7, 11])
def test_windows_give_the_greatest_of_each(length):
    """Doubling gives what each window gives by itself."""
    values = np.random.default_rng(length).normal(size=(5, 29))
    expected = np.lib.stride_tricks.sliding_window_view(values, length, axis=1).max(axis=-1)
    assert (slide(values, length, 1, np.maximum) == expected).all()


def test_counts_in_boxes_are_sums():
    """The table of sums gives the count of any box."""
    mask = random_mask(4)
    boxes = np.array([[0, 0, 23, 17], [3, 2, 9, 11], [5, 5, 5, 8], [22, 16, 23, 17]])
    expected = [mask[y0:y1, x0:x1].sum() for x0, y0, x1, y1 in boxes]
    assert count_in(sums(mask), boxes).tolist() == expected


def test_every_pixel_an_area_meets_is_marked():
    """A triangle marks each pixel its inside meets, as seen by fine sampling, and no far one."""
    ring = np.array([[1.3, 0.7], [14.2, 3.1], [6.4, 9.8], [1.3, 0.7]])
    marked = np.zeros((12, 16), bool)
    mark_meeting(marked, [ring])
    fine = 40
    ys, xs = (np.mgrid[0 : 12 * fine, 0 : 16 * fine] + 0.5) / fine
    inside = np.zeros(xs.shape, bool)
    for (x0, y0), (x1, y1) in itertools.pairwise(ring):
        inside ^= ((y0 <= ys) != (y1 <= ys)) & (xs < x0 + (ys - y0) * (x1 - x0) / (y1 - y0))
    met = inside.reshape(12, fine, 16, fine).any(axis=(1, 3))
    assert not (met & ~marked).any()
    assert (marked & ~met).sum() <= 2  # slivers finer than the sampling


def test_areas_beyond_the_mask_are_passed_over():
    """A square that reaches past all four sides marks all and fails nowhere."""
    mask = np.zeros((4, 5), bool)
    mark_meeting(mask, [np.array([[-3, -3], [9, -3], [9, 9], [-3, 9], [-3, -3]], float)])
    assert mask.all()
