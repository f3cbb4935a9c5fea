"""The liner command: what is printed, what is written, and how it ends."""

import io
import json
from dataclasses import replace

import ezdxf
import pytest
from drawnliners import svg_bytes
from handjob import rect
from jobtext import JOB, change, write_job
from oddliner import ODD

from nesting.cli import run
from nesting.drawings.dxf import liner_to_dxf
from nesting.drawings.linersvg import liner_to_svg
from nesting.jobs.found import LinerFound
from nesting.jobs.liner import write_liner
from nesting.jobs.read import read_job, read_liner_file

DISC = '<circle class="ornament" id="heron" cx="500" cy="500" r="100"/>'


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Put a small drawing and a liner's file into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "reeds.svg").write_bytes(svg_bytes(DISC))
    (tmp_path / "odd.toml").write_text(write_liner(LinerFound(ODD, "mm")), encoding="utf-8")
    return tmp_path


def names(folder):
    """Return the names of the files in the folder."""
    return sorted(path.name for path in folder.iterdir())


def test_without_names_nothing_is_written(folder, capsys):
    """The report is printed, and how to get the files."""
    assert run(["liner", "reeds.svg", "--thickness", "1/2 in"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("reeds.svg: liner 'reeds', 2400 x 1200 mm, 2.88 m2, 1 ornament")
    assert printed.out.endswith(
        "Nothing was written; name a file with -o for the liner, with --svg for its picture.\n"
    )
    assert names(folder) == ["odd.toml", "reeds.svg"]


def test_liner_and_picture_are_written(folder, capsys):
    """The liner can be named by a job; the picture is SVG."""
    args = ["reeds.svg", "--thickness", "13", "-o", "reeds.toml", "--svg", "picture.svg"]
    assert run(["liner", *args]) == 0
    assert capsys.readouterr().out.endswith("\nWritten: reeds.toml, picture.svg.\n")
    liner, units = read_liner_file("reeds.toml")
    assert (liner.name, liner.ornaments[0].name, units) == ("reeds", "heron", "mm")
    assert "<svg" in (folder / "picture.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("ending", ["dxf", "svg"])
def test_a_liners_file_goes_to_a_drawing_and_back(folder, ending, units):
    """Nothing is lost on the way, not a step, nor the units."""
    (folder / "odd.toml").write_text(write_liner(LinerFound(ODD, units)), encoding="utf-8")
    assert run(["liner", "odd.toml", "-o", f"back.{ending}"]) == 0
    assert run(["liner", f"back.{ending}", "-o", "again.toml"]) == 0
    assert read_liner_file("again.toml") == (ODD, units)


@pytest.mark.parametrize(("units", "wide", "long"), [("mm", "2400mm", 2400), ("in", "94.", 94.488)])
def test_a_drawing_counts_in_the_units_of_its_liner(units, wide, long):
    """The SVG page is told in them; so are the lengths of the DXF file, as its header says."""
    liner = replace(ODD, outline=rect(0, 0, 2400, 1200), zones=())
    assert f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}' in liner_to_svg(liner, units)
    doc = ezdxf.read(io.StringIO(liner_to_dxf(liner, units)))
    (outline,) = doc.modelspace().query("LWPOLYLINE[layer=='OUTLINE']")
    assert max(x for x, *_ in outline) == pytest.approx(long, abs=1e-3)
    assert (doc.units, doc.header["$MEASUREMENT"]) == ((4, 1) if units == "mm" else (1, 0))


@pytest.mark.parametrize("ending", ["toml", "dxf", "svg"])
def test_a_former_liner_of_the_command_is_replaced_and_no_other_file(folder, ending, capsys):
    """Its first line tells; a file written by hand stays as it is."""
    for _ in range(2):
        assert run(["liner", "odd.toml", "-o", f"back.{ending}"]) == 0
    (folder / f"back.{ending}").write_text("# mine\n", encoding="utf-8")
    assert run(["liner", "odd.toml", "-o", f"back.{ending}"]) == 2
    assert f"did not write, got back.{ending}; name another file" in capsys.readouterr().err
    assert (folder / f"back.{ending}").read_text(encoding="utf-8") == "# mine\n"


def test_the_liner_of_a_job_is_taken_as_it_is_drawn(folder, capsys):
    """Order and rules are left aside, a shrinkage too; a mistake in them is told."""
    shrunk = change(("edge_margin = 12", "edge_margin = 12\nliner_shrink = 0.01"))
    write_job(folder, shrunk, "job.toml")
    assert read_job(folder / "job.toml").liner.outline.bounds.width < 1200 * 8000
    assert run(["liner", "job.toml", "-o", "alone.toml"]) == 0
    write_job(folder, JOB, "plain.toml")
    liner, units = read_liner_file("alone.toml")
    assert (liner, units) == (read_job(folder / "plain.toml").liner, "mm")
    write_job(folder, JOB.replace("quantity = 1", "quantity = 0"), "wrong.toml")
    assert run(["liner", "wrong.toml"]) == 2
    assert "panel[1].quantity" in capsys.readouterr().err


def test_json_prints_nothing_else(folder, capsys):
    """Standard output is one JSON document."""
    assert run(["liner", "reeds.svg", "--thickness", "13", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["ornaments"][0]["name"] == "heron"


def test_options_reach_the_reader(folder, capsys):
    """Name, ground, unit, layers, origin and chord error are taken as given."""
    args = ["--thickness", "13", "--name", "reed bed", "--unmarked", "blank", "--units", "cm"]
    args += ["--layer", "ornament=none", "--keep-origin", "--chord-error", "1", "--gap", "1 mm"]
    assert run(["liner", "reeds.svg", *args, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["name"], told["unmarked"], told["ornaments"]) == ("reed bed", "blank", [])
    assert told["outline"]["right"] == 24_000


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.dxf"], "none.dxf: there is no such file."),
        (
            ["reeds.gif"],
            "must be a file of a kind that is read: .dxf, .svg, .png, .tif, .tiff, .npy",
        ),
        (["reeds.svg"], "--thickness: a drawing does not tell how thick the liner is; give it"),
        (["reeds.svg", "--thickness", "0"], "--thickness: must be > 0 mm and at most 33000 mm"),
        (["reeds.svg", "--chord-error", "0"], "--chord-error: must be >= 0.001 mm"),
        (["reeds.svg", "--gap", "wide"], "--gap: must be a length, got 'wide'"),
        (["reeds.svg", "--units", "ell"], "--units: must be one of mm, cm, m, in, ft, pt, px, got"),
        (["reeds.svg", "--unmarked", "bare"], "--unmarked: must be one of detail, blank"),
        (["reeds.svg", "--layer", "x"], "--layer: must name a role and a layer, got 'x'"),
        (["reeds.svg", "-o", "reeds.svg"], "FILE, LINER and PICTURE must be different files."),
        (
            ["reeds.svg", "-o", "reeds.txt"],
            "-o: must name a file that ends with .toml or .dxf or .svg",
        ),
        (["reeds.svg", "--svg", "a.png"], "--svg: must name a file that ends with .svg, got a.png"),
        (["reeds.svg", "--svg", ""], "--svg: must name a file"),
        (["odd.toml", "-o", "reeds.svg"], "-o: must not replace a file that nesting liner did not"),
        (["reeds.svg", "--thickness", "9", "-o", "no/such.toml"], "the file must be writable"),
        (["."], "must be a file of a kind that is read"),
    ],
)
def test_wrong_use_ends_with_two_and_writes_nothing(folder, capsys, args, told):
    """One line on standard error."""
    assert run(["liner", *args]) == 2
    printed = capsys.readouterr()
    assert told in printed.err
    assert printed.out == ""
    assert names(folder) == ["odd.toml", "reeds.svg"]


def test_a_folder_is_no_drawing(folder, capsys):
    """Even one with a drawing's name."""
    (folder / "a.dxf").mkdir()
    assert run(["liner", "a.dxf"]) == 2
    assert "this is a folder; name the file itself" in capsys.readouterr().err


@pytest.mark.parametrize("ending", ["dxf", "svg"])
def test_a_drawing_does_not_lose_places_that_dams_keep_off(folder, ending, capsys):
    """It is refused, as a drawing has no such thing; a liner's file keeps them."""
    loop = '[[liner.keep_clear]]\nname = "loop"\nat = [60, 1]\ndistance = 50\n[rules]'
    write_job(folder, change(("[rules]", loop)), "job.toml")
    assert run(["liner", "job.toml", "-o", f"alone.{ending}"]) == 2
    assert "holds no keep_clear, and the liner has some; write a .toml" in capsys.readouterr().err
    assert run(["liner", "job.toml", "-o", "alone.toml"]) == 0
    assert read_liner_file("alone.toml")[0].keep_clear == read_job("job.toml").liner.keep_clear
