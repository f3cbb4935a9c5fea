"""Papers: known by name in any spelling, rolls by their width."""

import pytest

from nesting.drawings.papers import PAPERS, ROLL_LIMIT, find_paper, lying
from nesting.errors import InputError


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("A4", (210, 297)),
        (" a0 ", (841, 1189)),
        ("Letter", (215.9, 279.4)),
        ("ledger", (279.4, 431.8)),
        ("ansi d", (558.8, 863.6)),
        ("ARCH_D", (609.6, 914.4)),
        ("arch-e1", (762, 1066.8)),
    ],
)
def test_a_paper_is_found_in_any_spelling(text, size):
    """Case, blanks and underscores do not matter, and second names lead to the same paper."""
    paper = find_paper(text)
    assert (paper.width, paper.height) == size
    assert not paper.is_roll


@pytest.mark.parametrize(
    ("text", "width"),
    [("roll:914mm", 914), ("roll:36in", 914.4), ('ROLL: 36"', 914.4), ("roll:0.61 m", 610)],
)
def test_a_roll_has_the_width_written(text, width):
    """A roll's width is a length with its unit, and its sheets are at most 5 m long."""
    paper = find_paper(text)
    assert (paper.width, paper.height, paper.is_roll) == (width, ROLL_LIMIT, True)


def test_every_paper_stands_upright_and_names_its_source():
    """No paper is wider than high, and each says where its size comes from."""
    assert len(PAPERS) > 15
    for name, paper in PAPERS.items():
        assert paper.width < paper.height
        assert paper.source
        assert find_paper(name) is paper


def test_an_unknown_paper_is_answered_with_the_known_ones():
    """The nearest name comes first, then all of them."""
    with pytest.raises(
        InputError, match="--paper: must be a paper that is known, got 'ansi-f'"
    ) as e:
        find_paper("ansi-f")
    assert "the nearest is ansi-" in str(e.value)
    assert all(name in str(e.value) for name in PAPERS)
    with pytest.raises(InputError, match="known are a4, a3") as e:
        find_paper("<script>")
    assert "nearest" not in str(e.value)


@pytest.mark.parametrize("text", ["roll:", "roll:wide", "roll:-3mm", "roll:1,2 m"])
def test_a_roll_without_a_length_is_refused(text):
    """The reason is that of any length."""
    with pytest.raises(InputError, match=r"--paper: a roll.s width: a? ?(length|must be)"):
        find_paper(text)


@pytest.mark.parametrize("text", ["roll:36", "roll:6m"])
def test_a_roll_no_printer_takes_is_refused(text):
    """A width without a unit is in mm, and so too narrow."""
    with pytest.raises(InputError, match="a roll must be 200 to 5000 mm wide, got 'roll:"):
        find_paper(text)


def test_papers_lie_for_drawings():
    """The long side comes first, and inch papers are called by their sides."""
    assert lying("a2", "a1") == (("A2", 594, 420), ("A1", 841, 594))
    assert lying("letter", measure="in") == (("8.5 x 11 in", 279.4, 215.9),)
