"""The files of a packet by name, and the JSON that tells of them."""

import json

from packets import hand_packet

from nesting.packets.files import packet_to_json, write_packet_files


def test_a_packet_is_a_page_and_a_pdf():
    """Each begins as its kind does."""
    files = write_packet_files(hand_packet())
    assert list(files) == ["packet.html", "packet.pdf"]
    assert files["packet.html"].startswith("<!DOCTYPE html>")
    assert files["packet.pdf"].startswith(b"%PDF-")


def test_the_json_lists_files_and_sections():
    """Every section by name and title, in turn."""
    packet = hand_packet()
    document = json.loads(packet_to_json(packet, ["packet.html"]))
    assert document["format"] == "nesting-packet"
    assert document["files"] == ["packet.html"]
    assert [each["name"] for each in document["sections"]] == [s.ref for s in packet.sections]
