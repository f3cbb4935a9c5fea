"""The page in a real browser: a size is typed, dragged, chosen, and the answer read."""

from contextlib import contextmanager
from dataclasses import replace
from threading import Thread

import pytest
from chromium import DOWN, PAGE_UP, UP
from ferry import make_drum_job
from handjob import hand_job

from nesting.bench.server import PageServer
from nesting.values.bed import Bed


@contextmanager
def serve(job):
    """Serve a job while the block runs."""
    with PageServer(job, "hand.toml") as server:
        thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        yield server
        server.shutdown()
        thread.join()


@pytest.fixture(scope="module")
def server():
    """Serve the hand-sized job, with a drum beside its bed and a name full of markup."""
    job = hand_job()
    name = "reeds <b>&amp;</script>"
    liner = replace(job.liner, name=name)
    job = replace(job, liner=liner, beds=(*job.beds, Bed("<i>drum</i>", "convex", 3000 * 8000)))
    with serve(job) as server:
        yield server


@pytest.fixture
def page(browser, server, tmp_path):
    """Open the page and wait for its first answer."""
    browser.open(server.address, 1100, 900)
    browser.await_text("#answer", "fit")
    yield browser
    browser.shoot(tmp_path / "page.png")


def test_a_size_is_typed_and_its_dams_are_drawn(page):
    """A size that fits is told in words and drawn with panel, two dams and its best place."""
    page.type("#width", "800")
    page.type("#height", "650")
    assert page.await_text("#answer", "800 x 650 mm fits") == "800 x 650 mm fits."
    assert "shows heron" in page.await_text("#reason", "Best place")
    assert page.run("return document.querySelectorAll('.dam').length") == 2
    assert page.run("return document.querySelectorAll('.panel').length") == 1
    assert page.run("return document.querySelectorAll('.place, .stretch').length") > 0
    assert "Marked out flat 800 x 650 mm" in page.text("#text")


def test_a_size_that_does_not_fit_is_told_why_and_what_would(page):
    """Reason and nearest sizes follow; the button of one tries it, and it fits."""
    page.type("#width", "800")
    page.type("#height", "700")
    page.await_text("#answer", "800 x 700 mm does not fit.")
    assert "too high" in page.await_text("#reason", "It is")
    assert page.run("return document.querySelectorAll('.absent').length") == 1
    assert page.run("return document.querySelectorAll('.dam').length") == 0
    page.call("POST", f"/element/{page.find('#nearest button')}/click", {})
    page.await_text("#answer", " fits.")


def test_the_corner_is_dragged(page):
    """Dragging the ring makes the panel wider and higher by whole set-out divisions."""
    page.type("#width", "800")
    page.type("#height", "650")
    page.await_text("#reason", "Best place")
    page.drag("#handle", 60, 30)
    width, height = (float(page.value(css)) for css in ("#width", "#height"))
    assert width > 820
    assert height > 660
    assert width == int(width)
    assert (width - 800) / (height - 650) == pytest.approx(2, rel=0.1)
    page.await_text("#answer", f"{width:g} x {height:g} mm does not fit.")


def test_keys_alone_are_enough(page):
    """Arrow keys in a field change it by one set-out division, page keys by ten."""
    page.type("#width", "800")
    page.type("#height", "650")
    page.press("#height", PAGE_UP + UP + UP + DOWN)
    assert page.value("#height") == "661"
    page.await_text("#answer", "800 x 661 mm fits.")


def test_a_length_that_cannot_be_read_is_told(page):
    """What was typed comes back in one line, and no panel is drawn."""
    page.type("#width", "wide")
    page.await_text("#answer", "Size 'wide x")
    assert page.run("return document.querySelectorAll('.panel, .absent').length") == 0


def test_the_bed_is_chosen(page):
    """On a drum 790 mm are marked out as less, so that the dam leaves its blank zone."""
    page.type("#width", "790")
    page.type("#height", "650")
    page.await_text("#answer", "790 x 650 mm fits.")
    page.run(
        "const bed = document.getElementById('bed'); bed.selectedIndex = 1;"
        "bed.dispatchEvent(new Event('change'))"
    )
    page.await_text("#answer", "790 x 650 mm does not fit.")
    assert "1.704 mm too narrow" in page.await_text("#text", "bed '<i>drum</i>'")


def test_names_are_words_and_never_markup(page):
    """A name with markup is shown letter for letter and makes no element."""
    assert "reeds <b>&amp;</script>" in page.text("#title")
    assert page.run("return document.querySelectorAll('b, i').length") == 0
    assert (
        page.run("return document.querySelector('[aria-live]').getAttribute('aria-live')")
        == "polite"
    )


def test_an_inch_field_steps_through_fractions(browser):
    """What a fraction is stepped to is a fraction again, and the answer is in fractions."""
    with serve(make_drum_job()) as server:
        browser.open(server.address, 1100, 900)
        browser.await_text("#answer", "fit")
        browser.type("#height", "30")
        browser.type("#width", "59 7/16")
        browser.await_text("#answer", "59 7/16 x 30 in fits.")
        browser.press("#width", UP)
        assert browser.value("#width") == "59 1/2"
        browser.await_text("#answer", "59 1/2 x 30 in fits.")
        browser.press("#width", PAGE_UP)
        assert browser.value("#width") == "60 1/8"
        browser.type("#height", "0.5")
        browser.press("#height", DOWN)
        assert browser.value("#height") == "7/16"
