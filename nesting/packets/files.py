"""The files of a packet, and what is told of them as JSON."""

from nesting.files.document import to_json
from nesting.files.marks import MARK, PDF_MARK
from nesting.packets.html import to_html
from nesting.packets.parts import Packet
from nesting.packets.pdf import to_pdf

HTML_FILE, PDF_FILE = "packet.html", "packet.pdf"
PACKET_MARKS = {HTML_FILE: MARK, PDF_FILE: PDF_MARK}
"""Both files, each with what tells that a packet wrote it."""


def write_packet_files(packet: Packet) -> dict[str, str | bytes]:
    """Return both files of a packet by name: the page for browsers, and the PDF."""
    return {HTML_FILE: to_html(packet), PDF_FILE: to_pdf(packet)}


def packet_to_json(packet: Packet, files: list[str]) -> str:
    """Return what a packet holds, section by section, as JSON text."""
    document = {
        "job": packet.title,
        "files": files,
        "sections": [{"name": each.ref, "title": each.title} for each in packet.sections],
    }
    return to_json("nesting-packet", 1, document)
