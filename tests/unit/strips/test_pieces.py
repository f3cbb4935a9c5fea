"""What each dam is made of."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM
from stripjobs import lay, strip_job

from nesting.strips.pieces import list_pieces
from nesting.values.bed import Bed

DRUM = Bed("table", "convex", 3000 * MM, "x", Fraction(1, 2))
ALONG, ACROSS = (0, 0, 800, 25), (100, 100, 25, 700)


def test_on_a_flat_bed_a_dam_is_a_strip_of_its_own_size():
    """Its height is the panel's thickness unless the job says."""
    (piece,) = list_pieces(strip_job(), lay(1, ACROSS))
    assert (piece.length, piece.width, piece.height) == (700 * MM, 25 * MM, 19 * MM)
    assert piece.is_strip
    (piece,) = list_pieces(strip_job(height=30 * MM), lay(1, ACROSS))
    assert piece.height == 30 * MM


def test_a_bent_strip_is_as_long_as_its_foot_and_alike_a_straight_one():
    """The face of a convex bed is longer than the flat liner; what runs across stays."""
    job = replace(strip_job(), beds=(DRUM,))
    bent, straight = list_pieces(job, lay(1, ALONG, ACROSS))
    assert bent.length == round(800 * MM * Fraction(3013, Fraction(6013, 2)))
    assert (bent.is_strip, straight.length) == (True, 700 * MM)
    assert bent == replace(straight, length=bent.length)


def test_a_dam_sawn_to_the_curve_is_no_strip():
    """It has the bed's profile, and parts where it is longer than the sheet."""
    job = replace(strip_job(stock=(500,), on_curve="cut"), beds=(DRUM,))
    sawn, straight = list_pieces(job, lay(1, ALONG, ACROSS))
    assert (sawn.is_strip, straight.is_strip) == (False, True)
    assert len(sawn.parts) == 2
    assert sum(sawn.parts) == sawn.length


def test_a_strip_within_a_twentieth_counts_as_of_a_width():
    """So a set-out a hair off makes no other strip; beyond it is a width of its own."""
    job = strip_job(widths=(25 * MM, 40 * MM))
    near, off = list_pieces(job, lay(1, (0, 0, 40.05, 300), (100, 0, 40.06, 300)))
    assert near.width == 40 * MM
    assert off.width == round(40.06 * MM)
