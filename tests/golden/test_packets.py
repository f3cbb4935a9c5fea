"""The packet of one example, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

from packets import example_packet

from nesting.packethtml import to_html

PAGE = Path(__file__).parents[2] / "output_svg" / "ferry-terminal-packet" / "packet.html"


def test_the_ferry_terminal_comes_to_the_committed_packet(request):
    """From the committed job and schedule, every page, drawing and word."""
    text = to_html(example_packet("ferry-terminal"))
    if request.config.getoption("--redraw"):
        PAGE.parent.mkdir(parents=True, exist_ok=True)
        PAGE.write_text(text, encoding="utf-8", newline="\n")
    assert PAGE.read_text(encoding="utf-8") == text, "look at what changed, then --redraw"
