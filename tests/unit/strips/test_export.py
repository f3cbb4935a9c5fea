"""Strips as JSON, and the files of one run."""

import json

from printtime import STAMP
from stripjobs import strip_job, three_sets

from nesting.files.output import list_owned, write_folder
from nesting.strips.export import STRIPS, strips_to_json, write_strip_files
from nesting.strips.plan import plan_strips


def made():
    """Return (job, plan) of the three sets."""
    return strip_job(), plan_strips(strip_job(), three_sets())


def test_json_holds_strips_layings_and_cuts():
    """Lengths in mm; the first laying is no re-set."""
    document = json.loads(strips_to_json(*made()))
    assert (document["format"], document["version"]) == ("nesting-strips", 1)
    assert document["strips"][1]["uses"] == [
        {"dam": "dam 2", "laying": 1, "layout": 1},
        {"dam": "dam 2", "laying": 2, "layout": 2},
        {"dam": "dam 2", "laying": 3, "layout": 3},
    ]
    assert [each["reset"] for each in document["layings"]] == [None, 1, 2]
    assert document["layings"][1]["changes"][1] == {
        "becomes": "dam 2", "strip": 2, "was": "dam 2", "what": "moves",
    }  # fmt: skip
    (section,) = document["cuts"]
    assert section["stock"] == [{"left_over": 228, "length": 2440, "strips": [1, 2, 4, 3]}]
    assert (section["lengths"], section["lower_bound"], section["proved"]) == (1, 1, True)


def test_a_sheet_is_written_for_each_re_set_and_a_former_one_goes(tmp_path):
    """What a former run wrote is replaced or removed, other files stay."""
    job, plan = made()
    files = write_strip_files(job, plan, STAMP)
    assert list(files) == ["strips.json", "reset-01.svg", "reset-02.svg"]
    assert all(STAMP.words in text for name, text in files.items() if name.endswith(".svg"))
    write_folder(tmp_path, files, STRIPS)
    (tmp_path / "layout-01.svg").write_text("ours", encoding="utf-8")
    assert list_owned(tmp_path, STRIPS) == set(files)
    fewer = {name: text for name, text in files.items() if name != "reset-02.svg"}
    write_folder(tmp_path, fewer, STRIPS)
    names = {path.name for path in tmp_path.iterdir()}
    assert names == {"strips.json", "reset-01.svg", "layout-01.svg"}
