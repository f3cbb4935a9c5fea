"""The process for slow answers: answers, refusals, and questions that are outrun."""

import json
import time
from threading import Thread

import pytest
from handjob import hand_job

from nesting.bench import aside
from nesting.bench.answers import Asked
from nesting.bench.aside import Aside
from nesting.errors import InputError


@pytest.fixture(scope="module")
def worker():
    """Return a process that knows the hand-sized job."""
    worker = Aside(hand_job(), "hand.toml")
    yield worker
    worker.close()


def fits(answer):
    """Tell what the JSON says of the size."""
    return json.loads(answer)["fits"]


def test_an_answer_comes_back_as_json(worker):
    """The size that fills its bay has a place."""
    assert fits(worker.answer("full", Asked("800", "650")))


def test_a_refusal_crosses_over_unchanged(worker):
    """What cannot be read is refused in the words of the reader, and the process goes on."""
    with pytest.raises(InputError, match=r"^Size 'abc x 1': .*[^.]\.$"):
        worker.answer("full", Asked("abc", "1"))
    assert not fits(worker.answer("full", Asked("800", "670")))


def test_trouble_of_our_own_is_told_and_the_process_goes_on(worker):
    """An unforeseen error names its kind; the next question is answered."""
    with pytest.raises(RuntimeError, match="KeyError"):
        worker.answer("nonsense", Asked("800", "650"))
    assert fits(worker.answer("full", Asked("800", "650")))


def test_a_process_that_dies_is_replaced(worker):
    """Its question fails and the next one is answered."""
    worker._process.kill()
    worker._process.join()
    with pytest.raises(RuntimeError, match="the process that works on slow answers ended"):
        worker.answer("full", Asked("800", "650"))
    assert fits(worker.answer("full", Asked("800", "650")))


def test_a_newer_question_outruns_an_older_one(monkeypatch):
    """An older question whose time is up gives nothing; the newer one is answered."""
    monkeypatch.setattr(aside, "PATIENCE_S", 0.0)
    monkeypatch.setattr(aside, "_LOOK_S", 0.001)
    worker = Aside(hand_job(), "hand.toml")  # still loading, so the first question has to wait
    first = worker._process.pid
    found = {}
    older = Thread(target=lambda: found.update(old=worker.answer("full", Asked("800", "670"))))
    older.start()
    time.sleep(0.05)
    found["new"] = worker.answer("full", Asked("800", "650"))
    older.join()
    assert found["old"] is None
    assert fits(found["new"])
    assert worker._process.pid != first
    worker.close()
