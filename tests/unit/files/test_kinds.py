"""File kinds: a job, a wall or a motif given to the wrong command is told in one line."""

from pathlib import Path

import pytest
from jobtext import list_mistakes, write_job

from nesting.errors import InputErrors
from nesting.jobs.motif import read_motif
from nesting.jobs.read import read_job
from nesting.walls.read import read_wall

EXAMPLES = Path(__file__).parents[3] / "examples"
JOB = EXAMPLES / "ferry-terminal.toml"
WALL = EXAMPLES / "walls" / "reading-room-drum.toml"
MOTIF = EXAMPLES / "motifs" / "frieze-to-be.toml"


@pytest.mark.parametrize(
    ("read", "path", "told"),
    [
        (read_job, WALL, "this is a wall's file, not a job; give it to nesting wall."),
        (read_job, MOTIF, "this is a motif, not a job; give it to nesting zones."),
        (read_wall, JOB, "this is a job, not a wall's file; give it to nesting plan."),
        (read_wall, MOTIF, "this is a motif, not a wall's file; give it to nesting zones."),
        (read_motif, JOB, "this is a job, not a motif; give it to nesting plan."),
        (read_motif, WALL, "this is a wall's file, not a motif; give it to nesting wall."),
    ],
)
def test_a_file_of_another_kind_is_told_in_one_line(read, path, told):
    """What the file is, what was wanted, and the command that takes it."""
    with pytest.raises(InputErrors, match="this is") as caught:
        read(path)
    assert str(caught.value) == f"{path.name}: {told}"


def test_a_misspelt_table_makes_no_other_kind(tmp_path):
    """A wall without its [wall] table keeps its own mistakes, though it has [[part]] tables."""
    path = tmp_path / "wall.toml"
    path.write_text(WALL.read_text().replace("[wall]", "[wal]"))
    with pytest.raises(InputErrors, match="wall: this table is needed"):
        read_wall(path)


@pytest.mark.parametrize("read", [read_job, read_wall, read_motif])
@pytest.mark.parametrize(
    ("name", "kind"),
    [("reeds.svg", "drawing"), ("Reeds.DXF", "drawing"), ("reeds.png", "scan")],
)
def test_a_drawing_or_a_scan_points_to_nesting_liner(tmp_path, read, name, kind):
    """In one line with the command to run, whether the file is there or not."""
    target = f"{name[:5]}.toml"
    with pytest.raises(InputErrors) as told:
        read(tmp_path / name)
    assert str(told.value) == (
        f"{name}: this is a {kind} of a liner, not a job; run nesting liner {name} -o {target}, "
        f"name {target} in a job."
    )


def test_a_drawing_in_the_place_of_a_liner_file_is_told_at_its_key(tmp_path):
    """With the same command to run."""
    path = write_job(tmp_path, 'title = "x"\nunits = "mm"\n[liner]\nfile = "reeds.dxf"\n')
    assert (
        "job.toml:4: liner.file: this is a drawing of a liner, not a job, got 'reeds.dxf'; "
        "run nesting liner reeds.dxf -o reeds.toml, name reeds.toml in a job."
    ) in list_mistakes(path)
