"""Many liners asked for many sizes, by one process, by two, and by a cluster."""

import json
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from multiprocessing import get_context

import pytest
from jobtext import JOB, change, write_job
from printtime import DRAWN

from nesting.errors import InputError
from nesting.files.document import to_line
from nesting.fitting.screening import Question, answer, list_liner_files, screen

SIZES = ("800x650", "850x650")


@pytest.fixture
def questions(tmp_path):
    """Return one question per file of a folder: two liners, and one that cannot be read."""
    write_job(tmp_path, name="b.toml")
    write_job(tmp_path, change(("rect = [790, 0, 70, 800]", "rect = [790, 0, 90, 800]")), "c.toml")
    write_job(tmp_path, JOB.replace("thickness = 13", "thickness = 0"), "a.toml")
    return [Question(str(path), SIZES) for path in list_liner_files(tmp_path)]


def summary(answers):
    """Return what was answered, in order."""
    return [
        (each.path[-6:], [record["fits"] for record in each.records], bool(each.errors))
        for each in answers
    ]


EXPECTED = [("a.toml", [], True), ("b.toml", [True, False], False), ("c.toml", [True, True], False)]


def test_answers_come_in_the_order_of_the_files_and_a_bad_file_stops_none(questions):
    """The file with a mistake is answered with its mistakes."""
    answers = screen(questions)
    assert summary(answers) == EXPECTED
    assert "a.toml:7: liner.thickness: must be > 0 mm" in answers[0].errors


def test_two_processes_give_the_same_answers(questions):
    """Any executor of concurrent.futures will do."""
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as executor:
        assert screen(questions, executor) == screen(questions)


@pytest.mark.long
def test_a_cluster_with_two_workers_gives_the_same_answers(questions):
    """A Dask cluster of two worker processes on this machine, through its executor."""
    distributed = pytest.importorskip("distributed", reason="needs nesting[cluster]")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as cluster,
        distributed.Client(cluster) as client,
        client.get_executor(pure=False) as executor,
    ):
        assert screen(questions, executor) == screen(questions)


def test_a_folder_lists_its_toml_files_by_name_and_a_file_stands_for_itself(tmp_path):
    """Other files are left alone; an empty folder is refused."""
    (tmp_path / "notes.txt").write_text("reeds")
    with pytest.raises(InputError, match=r"holds \.toml files, and this one has none"):
        list_liner_files(tmp_path)
    path = write_job(tmp_path, name="z.toml")
    assert list_liner_files(tmp_path) == [path] == list_liner_files(path)


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({"bed": "drum"}, "--bed: there is no such bed, got 'drum'; known: 'table'"),
        ({"tolerance": "tight"}, "--tolerance: there is no such tolerance class, got 'tight'"),
        ({"tolerance": "-900,3"}, "--tolerance: must leave a size > 0 mm, got '-900,3'"),
        ({"tolerance": "3"}, "--tolerance: there is no such tolerance class"),
        (
            {"tolerance": "architectural", "sizes": ("4000x650",)},
            "--tolerance: class 'architectural' has no published limits",
        ),
        ({"thickness": "thin"}, "--thickness: must be a length, got 'thin'"),
        ({"sizes": ("800",)}, "job.toml: size: must be a width and a height with an x between"),
    ],
)
def test_a_bad_wish_is_part_of_the_answer(tmp_path, options, message):
    """One line, and no trace."""
    question = Question(str(write_job(tmp_path)), SIZES)
    assert message in answer(replace(question, **options)).errors


def test_a_size_no_bed_can_bend_is_told_with_its_bed(tmp_path):
    """A chord beyond the diameter."""
    drum = '[[bed]]\nname = "table"\nform = "convex"\nradius = 300'
    path = write_job(tmp_path, change(('[[bed]]\nname = "table"', drum)))
    found = answer(Question(str(path), ("700x650",), measured_on="chord"))
    assert "size '700x650': no panel on bed 'table' can have that size" in found.errors


def test_tolerances_and_drawings_are_given_where_asked_for(tmp_path):
    """Limits with a comma, a class by name; a drawing for each size that has a place."""
    question = Question(
        str(write_job(tmp_path)), ("837x650", "900x650"), tolerance="-3,3", drawn=DRAWN
    )
    found = answer(question)
    assert [record["with_tolerance"] for record in found.records] == [True, False]
    assert ["2026-03-02 08:05, code " in drawing for drawing in found.drawings] == [True, False]
    classed = answer(replace(question, tolerance="small-unit")).records[0]
    assert classed["tolerance"].startswith("width -2 mm, height 0 mm, within class 'small-unit'")
    assert json.loads(to_line(found.records[0]))["size"] == [837, 650]


def test_a_size_that_cannot_be_read_in_a_file_names_the_file(tmp_path):
    """Plain numbers are in the units of each file, so one of many may refuse them."""
    write_job(tmp_path, change(('units = "mm"', 'units = "in"')), "short.toml")
    path = tmp_path / "short.toml"
    told = answer(Question(str(path), ("1500x900",))).errors
    assert f"{path}: size '1500x900': width and height must be" in told


def test_a_size_on_the_back_asks_for_the_thickness_by_its_option(tmp_path):
    """On a curved bed the back is longer or shorter than the face by it."""
    curved = 'name = "table"\nform = "convex"\nradius = 3000\ncurved_axis = "x"'
    path = write_job(tmp_path, change(('name = "table"', curved)))
    told = answer(Question(str(path), SIZES, measured_on="back")).errors
    assert "a size measured on the back needs the panel's thickness" in told
    assert told.endswith("give --thickness.")
