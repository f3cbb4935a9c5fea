"""What a DXF file holds is counted against what was kept: nothing missed, nothing made up."""

import io

import ezdxf
import pytest

from nesting.liners.dxfcensus import end_properly, list_lost

VERSIONS = ["R12", "R2000", "R2010", "R2018"]


def odd_drawing(version):
    """Return a document whose names and texts look like the structure of a file."""
    doc = ezdxf.new(version, setup=True)
    space = doc.modelspace()
    space.add_circle((5, 5), 3, dxfattribs={"layer": "ENTITIES"})
    doc.layers.add("BLOCKS")
    block = doc.blocks.new("ENTITIES")
    block.add_line((0, 0), (1, 1))
    block.add_attdef("T", (0, 0))
    doc.blocks.new("LINE").add_blockref("ENTITIES", (0, 0))
    space.add_blockref("LINE", (1, 1)).add_attrib("T", "0")
    space.add_linear_dim((0, 5), (0, 0), (9, 0)).render()
    space.add_polyline2d([(0, 0), (1, 0), (1, 1)])
    for words in ("0", "LINE", "ENDSEC", "AcDbEntity"):
        space.add_text(words)
    doc.layout("Layout1").add_line((0, 0), (1, 1))
    return doc


@pytest.mark.parametrize("form", ["asc", "bin"])
@pytest.mark.parametrize("version", VERSIONS)
def test_of_a_whole_file_nothing_is_lost(version, form):
    """Layers, blocks and texts may be called like sections and kinds."""
    doc = odd_drawing(version)
    stream = io.StringIO() if form == "asc" else io.BytesIO()
    doc.write(stream, fmt=form)
    content = stream.getvalue().encode() if form == "asc" else stream.getvalue()
    assert list_lost(content, doc) == []
    assert list_lost(content.replace(b"\n", b"\r\n") if form == "asc" else content, doc) == []
    assert end_properly(content) == content


def test_what_the_document_lacks_is_counted_by_kind():
    """In model space, paper space and blocks alike."""
    doc = odd_drawing("R2010")
    stream = io.StringIO()
    doc.write(stream)
    for space in (doc.modelspace(), doc.layout("Layout1"), doc.blocks.get("ENTITIES")):
        for entity in space.query("LINE CIRCLE"):
            space.delete_entity(entity)
    lost = list_lost(stream.getvalue().encode(), doc)
    assert [stray.what for stray in lost] == ["1 CIRCLE", "2 LINE"]
    assert all(stray.is_needed for stray in lost)


def test_a_file_cut_short_is_ended_before_its_last_entity():
    """What is not whole of it is not taken for whole."""
    cut = b"  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n  8\na\n  0\nCIRCLE\n  8\n"
    assert end_properly(cut) == cut[: cut.index(b"  0\nCIRCLE")] + b"  0\nENDSEC\n  0\nEOF\n"
