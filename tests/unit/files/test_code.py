"""Short codes of texts."""

from hypothesis import given
from hypothesis import strategies as st

from nesting.files.code import code_of

TEXTS = st.lists(st.text(), max_size=4)


@given(one=TEXTS, other=TEXTS)
def test_a_code_tells_texts_apart(one, other):
    """Equal texts have one code, others, however they are divided, have others."""
    assert (code_of(*one) == code_of(*other)) == (one == other)


@given(texts=TEXTS)
def test_a_code_has_no_letters_that_look_alike(texts):
    """Two groups of four, none of them 0, O, 1 or I."""
    first, second = code_of(*texts).split("-")
    assert len(first) == len(second) == 4
    assert set(first + second) <= set("23456789ABCDEFGHJKLMNPQRSTUVWXYZ")


def test_every_letter_comes_about():
    """A few hundred codes show all thirty-two in the first place and in the last."""
    codes = [code_of(str(number)) for number in range(400)]
    for place in (0, -1):
        assert len({code[place] for code in codes}) == 32
