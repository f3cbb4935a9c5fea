"""Names of the drawings of finished faces."""

import re

from hypothesis import given
from hypothesis import strategies as st

from nesting.files.faces import FACE_PATTERN, list_face_files, name_face_files

MARKS = st.lists(st.text("Aa1- ()", min_size=1, max_size=4), max_size=8)


def test_kinds_of_one_mark_are_numbered():
    """A mark of one kind has no number."""
    names = ["face-A1-1.svg", "face-A1-2.svg", "face-B1.svg"]
    assert name_face_files(["A1", "A1", "B1"]) == names


def test_names_that_a_folder_takes_for_one_are_numbered():
    """Case alone does not tell files apart everywhere; a number may be another mark's own."""
    assert name_face_files(["a1", "A1"]) == ["face-a1.svg", "face-A1-1.svg"]
    assert name_face_files(["A-1", "A", "A"]) == ["face-A-1.svg", "face-A-2.svg", "face-A-3.svg"]


@given(MARKS)
def test_every_kind_has_a_file_of_its_own(marks):
    """However alike the marks: the names differ in more than case, and all look like a face's."""
    names = name_face_files(marks)
    assert len({name.casefold() for name in names}) == len(marks)
    assert all(re.fullmatch(FACE_PATTERN, name) for name in names)


@given(MARKS)
def test_a_schedule_knows_the_files_of_its_faces(marks):
    """What was written for the kinds of a schedule is among what its file says can have been."""
    layouts = [{"panels": [{"mark": mark}]} for mark in marks]
    assert set(name_face_files(sorted(marks))) <= set(list_face_files(layouts))
