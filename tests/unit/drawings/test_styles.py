"""Styles: every name has one look, and a look can be seen without colour."""

from typing import get_args

from nesting.drawings.record import AreaStyle, LineStyle
from nesting.drawings.styles import AREAS, HATCHED, LINES, MASKED


def test_every_style_has_a_look():
    """Areas, hatched or filled, and lines are all told how they look, and nothing else is."""
    assert sorted((*AREAS, *HATCHED)) == sorted(get_args(AreaStyle))
    assert set(LINES) == set(get_args(LineStyle))
    assert MASKED.width < MASKED.pitch / 2


def test_a_line_is_never_filled_and_always_seen():
    """Every line has a colour and a width."""
    assert all(look.stroke and look.width > 0 and not look.fill for look in LINES.values())
    assert all(look.fill or look.stroke for look in AREAS.values())


def test_lines_to_trace_are_thin():
    """What is traced full size is at most half a millimetre wide, crosses far thinner."""
    assert all(LINES[style].width <= 0.35 for style in ("trace", "strip", "ghost", "zone", "join"))
    assert LINES["cross"].width <= 0.15
    assert LINES["ghost"].width < LINES["strip"].width < LINES["trace"].width
