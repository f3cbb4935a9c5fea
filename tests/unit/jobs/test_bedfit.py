"""Whether liner, dams and panels go onto the beds of a job; more cases stand with bad input."""

import pytest
from jobtext import JOB, change, list_mistakes, write_job

from nesting.jobs.read import read_job

BED = '[[bed]]\nname = "table"\n'
DRUM = f'{BED}form = "convex"\nradius = 3000\nsize = [1197.41, 800]\n'


def test_a_bed_as_large_as_the_liner_on_it_is_taken(tmp_path):
    """1200 mm of liner 13 mm thick, neutral in its middle, take 1197.406 mm of a drum of 3 m."""
    assert read_job(write_job(tmp_path, change((BED, DRUM)))).beds[0].name == "table"


def test_a_bed_of_the_liner_file_is_told_at_the_liner(tmp_path):
    """The bed stands in the other file, so the liner of the job names it."""
    order = JOB.index("[[panel]]")
    short = change((BED, f"{BED}size = [1100, 800]\n"), text=JOB[:order])
    write_job(tmp_path, short, "reeds.toml")
    job = f'title = "Foyer"\nunits = "mm"\n[liner]\nfile = "reeds.toml"\n{JOB[order:]}'
    assert list_mistakes(write_job(tmp_path, job)) == [
        "job.toml:3: liner: bed 'table': size must hold the liner, which takes 1200 mm of it "
        "along x, got 1100 mm; the liner hangs over by 100 mm."
    ]


@pytest.mark.parametrize(("shrink", "holds"), [("1 %", True), ("0.1 %", False)])
def test_the_liner_is_taken_as_it_lies_now(tmp_path, shrink, holds):
    """Shrunk by a hundredth, a liner drawn 1200 mm long goes onto a bed of 1190 mm."""
    changes = (
        (BED, f"{BED}size = [1190, 800]\n"),
        ("set_out = 1", f'set_out = 1\nliner_shrink = "{shrink}"'),
    )
    assert (not list_mistakes(write_job(tmp_path, change(*changes)))) == holds


def test_a_bed_without_panels_asks_no_dam_to_fit(tmp_path):
    """A tight spare bed is no mistake while nothing is cast on it."""
    spare = f'{BED}[[bed]]\nname = "spare"\nform = "concave"\nradius = 20\n'
    text = change((BED, spare)).replace("quantity = 1", 'quantity = 1\nbed = "table"')
    assert len(read_job(write_job(tmp_path, text)).beds) == 2
