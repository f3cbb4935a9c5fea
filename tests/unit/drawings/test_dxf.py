"""DXF of our own: audited clean, the same bytes twice, every layer, and read back equal."""

import io
from dataclasses import replace
from itertools import pairwise

import ezdxf
import pytest
from drawnliners import MM, OPTIONS
from handjob import hand_job
from oddliner import ODD

from nesting.drawings.dxf import layout_to_dxf, liner_to_dxf
from nesting.files.marks import DXF_MARK
from nesting.liners.build import build_liner
from nesting.liners.dxfread import read_dxf
from nesting.shapes.geometry import Box
from nesting.values.liner import KeepClear


def opened(text):
    """Return the document the library reads, which its audit finds nothing wrong with."""
    doc = ezdxf.read(io.StringIO(text))
    auditor = doc.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    return doc


@pytest.mark.parametrize("liner", [hand_job().liner, ODD], ids=["hand", "odd"])
def test_a_liner_reads_back_equal(liner):
    """Every step of every shape, all names, thickness, relief and kind of ground."""
    text = liner_to_dxf(liner)
    opened(text)
    found = build_liner(
        read_dxf("a.dxf", text.encode("ascii"), OPTIONS), replace(OPTIONS, thickness=None), "a", "a"
    )
    assert found.liner == liner
    assert {what for what, _, _ in found.left_out} == {"TEXT on layer 'NAMES'"}


def test_a_layout_has_a_layer_for_each_kind(job, schedule):
    """Positions are mm on the liner; panels and dams lie where the schedule has them."""
    layout = schedule.layouts[0]
    doc = opened(layout_to_dxf(job, layout))
    assert (doc.dxfversion, doc.units) == ("AC1015", ezdxf.units.MM)
    kinds = {}
    for entity in doc.modelspace():
        kinds.setdefault(entity.dxf.layer, []).append(entity)
    names = ["LINER", "ZONES", "ORNAMENTS", "PANELS", "DAMS", "MASKS", "SET-OUT"]
    assert sorted(kinds) == sorted(names)
    panels = [
        sorted((x * MM, y * MM) for x, y in line.get_points("xy"))
        for line in kinds["PANELS"]
        if line.dxftype() == "LWPOLYLINE"
    ]
    assert panels == [sorted(panel.box.ring) for panel in layout.panels]
    words = [text.dxf.text for text in kinds["DAMS"] if text.dxftype() == "TEXT"]
    assert words == [dam.name for dam in layout.dams]
    figures = {text.dxf.text for text in kinds["SET-OUT"] if text.dxftype() == "TEXT"}
    assert {"0", "800", "825", "1200", "650", "675"} <= figures
    assert f"{job.title}: layout 1, cast once on bed table" in figures


def test_figures_close_together_are_fanned_out(job, schedule):
    """No two figures along x stand nearer than their height."""
    doc = opened(layout_to_dxf(job, schedule.layouts[0]))
    texts = [text for text in doc.modelspace().query("TEXT") if text.dxf.layer == "SET-OUT"]
    places = sorted(text.get_placement()[1][0] for text in texts if text.dxf.rotation == 90)
    assert min(b - a for a, b in pairwise(places)) >= 12


def test_the_same_layout_gives_the_same_bytes(job, schedule):
    """Plain ASCII, marked as ours, without a date."""
    first, second = (layout_to_dxf(job, schedule.layouts[0]) for _ in range(2))
    assert first == second
    assert first.startswith(DXF_MARK)
    assert first.isascii()


def test_writing_leaves_the_librarys_options_alone():
    """The switch that fixes dates is set back."""
    was = ezdxf.options.write_fixed_meta_data_for_testing
    liner_to_dxf(ODD)
    assert ezdxf.options.write_fixed_meta_data_for_testing == was


def test_a_place_that_dams_keep_off_has_a_layer_where_there_is_one(job, schedule):
    """Its rim lies at the distance."""
    loop = KeepClear("loop", Box(400 * MM, 720 * MM, 400 * MM, 720 * MM), 40 * MM)
    kept = replace(job, liner=replace(job.liner, keep_clear=(loop,)))
    (rim,) = opened(layout_to_dxf(kept, schedule.layouts[0])).query("*[layer=='KEEP-CLEAR']")
    xs, ys = zip(*rim.get_points("xy"), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (360, 440, 680, 760)
