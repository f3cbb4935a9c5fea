"""What reaches the terminal: nothing a stream cannot show, and one line that is wiped."""

import json
import threading

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.commands.console import ProgressLine, escape_text, hush, note_progress, speak_up


def test_plain_text_passes_through():
    """Printable text and line ends are left alone."""
    assert escape_text("D1  1500\nD2", "ascii") == "D1  1500\nD2"


def test_what_a_stream_cannot_show_is_escaped():
    """A letter beyond the stream's encoding becomes its JSON escape."""
    assert escape_text("\u0142\u00f3", "latin-1") == "\\u0142\u00f3"
    assert escape_text("\U0001f986", "ascii") == "\\ud83e\\udd86"


def test_control_characters_never_reach_the_terminal():
    """An escape sequence in a name is shown, not obeyed."""
    assert escape_text("\x1b[2J\r\x7f\x9b", None) == "\\u001b[2J\\u000d\\u007f\\u009b"


def test_an_unknown_encoding_counts_as_one_that_holds_nothing():
    """A stream with an encoding of no known name gets escapes, not a failure."""
    assert escape_text("\u0142", "no-such-code") == "\\u0142"


@given(st.text())
def test_escaped_json_is_still_the_same_json(text):
    """Escaping a JSON text for an ASCII stream changes nothing in what it says."""
    document = json.dumps(text, ensure_ascii=False)
    shown = escape_text(document, "ascii")
    assert shown.isascii()
    assert json.loads(shown) == text


def make_line(columns=40):
    """Return a progress line with a clock set by hand, the clock, and what was written."""
    written, now = [], [0.0]
    return ProgressLine(written.append, columns, lambda: now[0]), now, written


def test_a_progress_line_is_rewritten_in_place():
    """Each word returns to the start of the line and covers the one before."""
    line, now, written = make_line()
    line("bound 7")
    now[0] = 1.0
    line("7 casts")
    assert written == ["\r" + "0 s  bound 7".ljust(39), "\r" + "1 s  7 casts".ljust(39)]


def test_a_progress_line_is_not_redrawn_within_a_moment():
    """Words that follow each other too fast to read are left out."""
    line, _, written = make_line()
    line("one")
    line("two")
    assert len(written) == 1


def test_a_progress_line_ticks_with_its_latest_text():
    """A text that came too soon after another is shown by the next tick, with its own seconds."""
    line, now, written = make_line()
    line("one")
    line("two")
    now[0] = 3.0
    line.tick()
    assert written[-1] == "\r" + "3 s  two".ljust(39)


def test_a_progress_line_fits_the_terminal():
    """A long word is cut, so that the line never wraps."""
    line, _, written = make_line(20)
    line("a bound of a great many casts")
    assert written == ["\r0 s  a bound of a g"]


def test_a_progress_line_is_wiped():
    """Nothing of the line is left, and it is wiped once."""
    line, _, written = make_line(10)
    line("bound")
    line.wipe()
    line.wipe()
    assert written[1:] == ["\r" + " " * 9 + "\r"]


def test_a_progress_line_that_never_spoke_leaves_no_trace():
    """Work too short to speak of writes nothing at all."""
    line, _, written = make_line()
    line.wipe()
    assert written == []


def make_watched_line(columns):
    """Return a progress line that stands at 0 s, what was written, and whether anything was."""
    written, drawn = [], threading.Event()

    def write(text):
        written.append(text)
        drawn.set()

    return ProgressLine(write, columns, lambda: 0.0), written, drawn


def test_long_work_is_spoken_of_until_something_else_is_said():
    """The line appears by itself, is wiped by hush, and appears no more."""
    line, written, drawn = make_watched_line(20)
    with speak_up(line, after=0):
        assert drawn.wait(60)
        hush()
        assert written == ["\r0 s  working; Ctrl-", "\r" + " " * 19 + "\r"]
        hush()
    assert len(written) == 2


def test_what_is_noted_is_spoken_of_from_the_next_tick_on():
    """Where nothing speaks, a note goes nowhere."""
    written, drawn = [], threading.Event()

    def write(text):
        written.append(text)
        if "planning" in text:
            drawn.set()

    note_progress("nobody hears this")
    with speak_up(ProgressLine(write, 60), after=0, every=0.01):
        note_progress("planning liner 2")
        assert drawn.wait(60)
    assert not any("nobody" in text for text in written)


def test_short_work_is_not_spoken_of():
    """What ends in time leaves no trace, and hush does nothing where no one speaks."""
    line, _, written = make_line()
    with speak_up(line, after=3600):
        pass
    hush()
    assert written == []


def test_what_was_spoken_of_is_wiped_where_the_work_fails():
    """The line is gone before the error is told."""
    line, written, drawn = make_watched_line(10)

    def work():
        with speak_up(line, after=0):
            assert drawn.wait(60)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        work()
    assert written[-1] == "\r" + " " * 9 + "\r"
