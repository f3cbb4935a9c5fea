"""Scans on the command line: what each option is read as, what is printed and written."""

import json
from fractions import Fraction
from itertools import chain

import numpy as np
import pytest
from brokenscans import ARRAYS, PICTURES, SQUARE, binary, text
from makescans import example_grey, leafy_scan
from PIL import Image

from nesting.cli import run
from nesting.commands.scanned import (
    SCAN_OPTIONS,
    find_on_scan,
    is_scan,
    read_scan_options,
    scan_options,
)
from nesting.errors import InputError, InputErrors
from nesting.files.kinds import SCANS
from nesting.jobs.read import read_job

pytestmark = pytest.mark.long

SCALE = ["--width", "2400", "--relief", "14"]
THICK = [*SCALE, "--thickness", "13"]


def test_endings_tell_a_scan():
    """Capitals do not matter."""
    assert all(is_scan(f"reeds{ending}") for ending in (*SCANS, ".PNG", ".Tif"))
    assert not is_scan("reeds.dxf")


def test_what_is_not_given_has_its_default():
    """25 mm, 1 mm, 3 mm, gaps up to the dam width, no scale, the threshold from the noise."""
    scale, rules = read_scan_options({}, "mm")
    assert (scale.width, scale.pixel, scale.relief, scale.height_unit, scale.no_data) == (None,) * 5
    assert (rules.dam_width, rules.seal_gap, rules.speck) == (200_000, 8000, 24_000)
    assert (rules.join, rules.threshold) == (rules.dam_width, None)


def test_lengths_are_in_the_units_or_their_own():
    """Plain numbers are in the units, text with a unit is what it says."""
    texts = {
        "width": "94 1/2",
        "relief": "14 mm",
        "dam_width": "1",
        "join": "0",
        "threshold": "1/64 in",
    }
    scale, rules = read_scan_options({**texts, "height_units": "m", "no_data": "-9999"}, "in")
    assert scale.width == Fraction(189, 2) * Fraction(127, 5)
    assert (scale.relief, scale.height_unit, scale.no_data) == (14, 1000, -9999)
    assert (rules.dam_width, rules.join, rules.threshold) == (203_200, 0, 3175)


def test_all_that_cannot_be_read_is_told_at_once():
    """One line for each option, with its name."""
    texts = {
        "width": "wide",
        "pixel": "0",
        "relief": "-3",
        "threshold": "1,5",
        "join": "-1",
        "dam_width": "inf",
        "seal_gap": "0",
        "speck": "x",
        "no_data": "nan",
        "height_units": "ft",
    }
    with pytest.raises(InputErrors, match="--width") as caught:
        read_scan_options(texts, "mm")
    told = [error.where for error in caught.value.errors]
    assert sorted(told) == sorted(f"--{name.replace('_', '-')}" for name in texts)


def test_every_option_is_on_the_command():
    """The options reach the command by the names that are read."""

    def command(**texts):
        """Take them."""

    names = {option.name for option in scan_options(command).__click_params__}
    assert names == set(SCAN_OPTIONS)
    assert len(names) == 10


def test_options_are_read_before_the_file(tmp_path):
    """A wrong option is told though the file is missing too; then the file is."""
    texts = dict.fromkeys((*SCAN_OPTIONS, "units", "name", "thickness"))
    with pytest.raises(InputErrors, match="--relief"):
        find_on_scan(str(tmp_path / "gone.png"), {**texts, "relief": "x"})
    with pytest.raises(InputError, match="there is no such file"):
        find_on_scan(str(tmp_path / "gone.png"), {**texts, "thickness": "13"})


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Write the example's scan into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    Image.fromarray(example_grey()).save(tmp_path / "reeds_and_heron.png")
    return tmp_path


def test_without_names_nothing_is_written(folder, capsys):
    """The report is printed, and how to get the files."""
    assert run(["liner", "reeds_and_heron.png", *THICK]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("reeds_and_heron.png: liner 'reeds and heron', ")
    assert printed.out.endswith(
        "Nothing was written; name a file with -o for the liner, with --svg for its picture.\n"
    )
    assert printed.err == ""
    assert len(list(folder.iterdir())) == 1


def test_liner_and_picture_are_written_where_told(folder, capsys):
    """The liner is TOML, the picture SVG; the last line names both."""
    args = [
        "-o",
        "reeds.toml",
        "--svg",
        "reeds.svg",
        "--name",
        "tall reeds",
        "--thickness",
        "1/2 in",
    ]
    assert run(["liner", "reeds_and_heron.png", *SCALE, *args]) == 0
    assert capsys.readouterr().out.endswith("\nWritten: reeds.toml, reeds.svg.\n")
    written = (folder / "reeds.toml").read_text(encoding="utf-8")
    assert 'name = "tall reeds"' in written
    assert "thickness = 12.7" in written
    assert "<svg" in (folder / "reeds.svg").read_text(encoding="utf-8")


def test_json_prints_nothing_else(folder, capsys):
    """Standard output is one JSON document."""
    assert run(["liner", "reeds_and_heron.png", *THICK, "--json", "-o", "a.toml"]) == 0
    assert json.loads(capsys.readouterr().out)["size"] == [2400, 1200]
    assert (folder / "a.toml").exists()


def test_the_found_liner_plans(folder, capsys):
    """A job that names the liner's file is read and planned, and passes the checker."""
    assert run(["liner", "reeds_and_heron.png", *THICK, "-o", "reeds.toml"]) == 0
    (folder / "job.toml").write_text(
        'title = "Bath house, foyer"\nunits = "mm"\n[liner]\nfile = "reeds.toml"\n'
        "[rules]\ndam_width = 25\ndam_clearance = 6\nedge_margin = 12\n"
        '[[panel]]\nmark = "A1"\nsize = [760, 880]\nquantity = 3\nmust_show = ["ornament 4"]\n'
        '[[panel]]\nmark = "B1"\nsize = [500, 300]\nquantity = 4\n',
        encoding="utf-8",
    )
    job = read_job(folder / "job.toml")
    assert len(job.liner.ornaments) == 8
    capsys.readouterr()
    assert run(["plan", "job.toml", "-o", "out", "--quiet"]) == 0
    assert "fewest casts PROVED" in capsys.readouterr().out
    assert run(["check", "job.toml", "out/schedule.json"]) == 0


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.png", *THICK], "none.png: there is no such file."),
        (
            ["reeds_and_heron.png", *SCALE],
            "--thickness: a scan does not tell how thick the liner is; give it, for example",
        ),
        (["reeds_and_heron.png", "--thickness", "13"], "a scan needs its scale, got none"),
        (
            ["reeds_and_heron.png", "--width", "2400", "--thickness", "13"],
            "give with --relief the height",
        ),
        (["reeds_and_heron.png", *THICK, "--units", "cm"], "--units: must be one of mm, in"),
        (["reeds_and_heron.png", *THICK, "--name", "a/b"], "--name: must have no slashes"),
        (["reeds_and_heron.png", *SCALE, "--thickness", "0"], "--thickness: must be > 0 mm"),
        (
            ["reeds_and_heron.png", *THICK, "-o", "./reeds_and_heron.png"],
            "-o: must name a file that",
        ),
        (["reeds_and_heron.png", *THICK, "-o", "no/such/folder.toml"], "must be writable"),
        (
            ["reeds_and_heron.png", "--pixel", "500", "--relief", "14", "--thickness", "13"],
            "at most 33000 mm long",
        ),
        (["reeds_and_heron.png", *THICK, "--lenient"], "--lenient is for drawings"),
        (["reeds_and_heron.png", *THICK, "--layer", "outline=A"], "--layer is for drawings"),
        (["liner.dxf", "--seal-gap", "1"], "--seal-gap is for scans, and FILE is none."),
        ([], "Missing argument 'FILE'. See 'nesting liner --help'."),
    ],
)
def test_what_cannot_be_done_ends_with_two_and_writes_nothing(folder, capsys, args, told):
    """One line on standard error, and no file beside the scan."""
    assert run(["liner", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert printed.err.count("\n") == 1
    assert [path.name for path in folder.iterdir()] == ["reeds_and_heron.png"]


BROKEN = {
    **{f"{name}.png": content for name, (content, _) in PICTURES.items()},
    **{f"{name}.npy": content for name, (content, _) in ARRAYS.items()},
    "cut.stl": binary(SQUARE)[:-7],
    "wrong count.stl": bytes(80) + (99).to_bytes(4, "little") + binary(SQUARE)[84:],
    "garbage.stl": b"solid tray\nfacet normal x\nvertex a b c\nendfacet\nendsolid\n",
    "cut text.stl": text(SQUARE)[:-30],
    "empty.png": b"",
}


@pytest.mark.parametrize("name", sorted(BROKEN))
def test_broken_and_hostile_files_end_with_two(folder, capsys, name):
    """Each of them is one clear line: no traceback, nothing written."""
    (folder / name).write_bytes(BROKEN[name])
    scale = ["--pixel", "1"] if name.endswith("stl") else SCALE
    assert run(["liner", name, *scale, "--thickness", "13", "-o", "out.toml"]) == 2
    printed = capsys.readouterr()
    assert printed.err.startswith(f"nesting: {name}: ")
    assert printed.err.count("\n") == 1
    assert len(BROKEN) > 20
    assert not (folder / "out.toml").exists()


@pytest.mark.parametrize("form", ["png", "tif", "npy", "stl"])
def test_a_file_damaged_anywhere_is_read_or_refused(folder, capsys, form):
    """With bytes changed at random the command ends with 0 or 2, never otherwise."""
    rng = np.random.default_rng(5)
    heights = leafy_scan(1, (40, 60), 1)[0]
    if form == "npy":
        np.save("whole.npy", heights)
    elif form == "stl":
        (folder / "whole.stl").write_bytes(text(SQUARE))
    else:
        Image.fromarray((heights * 900 + 20_000).astype(np.uint16)).save(f"whole.{form}")
    whole = (folder / f"whole.{form}").read_bytes()
    scale = {"npy": SCALE[:2], "stl": ["--pixel", "1"]}.get(form, SCALE)
    ends = set()
    for _ in range(60):
        content = bytearray(whole)
        head = int(rng.integers(1, 200))
        for at in rng.integers(0, min(len(content), head), rng.integers(1, 4)):
            content[at] = rng.integers(256)
        (folder / f"broken.{form}").write_bytes(content[: rng.integers(20, 2 * len(content))])
        ends.add(run(["liner", f"broken.{form}", *scale, "--thickness", "13"]))
    assert ends <= {0, 2}
    assert 2 in ends
    assert "Traceback" not in "".join(chain(*capsys.readouterr()))
