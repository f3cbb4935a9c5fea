"""The packet of one example, byte for byte; ``pytest --redraw`` writes anew.

The PDF is compared with its parts unpacked, since what packs them may differ from machine to
machine.
"""

from pathlib import Path

import pytest
from packets import example_packet
from pdfink import unpack

from nesting.packets.files import write_packet_files

FOLDER = Path(__file__).parents[2] / "output_svg" / "ferry-terminal-packet"


@pytest.fixture(scope="module")
def fresh():
    """Return both files of the packet, made anew from the committed job and schedule."""
    files = write_packet_files(example_packet("ferry-terminal"))
    return {name: each.encode() if isinstance(each, str) else each for name, each in files.items()}


def test_the_ferry_terminal_comes_to_the_committed_packet(fresh, request):
    """Every page, drawing and word, on the page and in the PDF; nothing else lies beside them."""
    for name, content in fresh.items():
        if request.config.getoption("--redraw"):
            FOLDER.mkdir(parents=True, exist_ok=True)
            (FOLDER / name).write_bytes(content)
        same = unpack((FOLDER / name).read_bytes()) == unpack(content)
        assert same, f"{name}: look at what changed, then --redraw"
    assert sorted(fresh) == sorted(path.name for path in FOLDER.iterdir())


def test_unpacking_keeps_the_drawings(fresh):
    """The far end of layout 1's top dam stands in an unpacked stream, as in the schedule."""
    streams = [each[1] for each in unpack(fresh["packet.pdf"]) if isinstance(each, tuple)]
    assert sum(b" re" in stream or b" l" in stream for stream in streams) >= 14
