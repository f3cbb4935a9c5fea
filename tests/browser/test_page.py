"""The page in a real browser: a size is typed, dragged, chosen, and the answer read.

Chromium is steered over W3C WebDriver, plain HTTP to the loopback address.
"""

import base64
import json
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from dataclasses import replace
from threading import Thread

import pytest
from handjob import hand_job

from nesting.bed import Bed
from nesting.tryserver import PageServer

DRIVER = shutil.which("chromedriver")
BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = """--headless --no-sandbox --disable-gpu --disable-quic --no-first-run
    --disable-background-networking --disable-component-update --disable-sync
    --disable-dev-shm-usage --window-size=1100,900"""
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
PATIENCE_S = 10
CONTROL, RELEASE, UP, DOWN, PAGE_UP = "\ue009", "\ue000", "\ue013", "\ue015", "\ue00e"
pytestmark = pytest.mark.skipif(
    not (DRIVER and BROWSER), reason="needs chromium and its chromedriver"
)


class Browser:
    """One session of a browser."""

    def __init__(self, port, profile):
        self.base = f"http://127.0.0.1:{port}/session"
        flags = [*FLAGS.split(), f"--user-data-dir={profile}"]
        options = {"binary": BROWSER, "args": flags}
        wanted = {"alwaysMatch": {"goog:chromeOptions": options}}
        self.base += "/" + self.call("POST", "", {"capabilities": wanted})["sessionId"]

    def call(self, method, path, body=None):
        """Send one command and return its value."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json"}
        request = urllib.request.Request(self.base + path, data, headers, method=method)
        with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(
            request, timeout=30
        ) as reply:
            return json.load(reply)["value"]

    def run(self, script, *args):
        """Return what a script in the page returns."""
        return self.call("POST", "/execute/sync", {"script": script, "args": list(args)})

    def find(self, css):
        """Return the name of the element."""
        found = self.call("POST", "/element", {"using": "css selector", "value": css})
        return found[ELEMENT]

    def type(self, css, text):
        """Replace what stands in a field by typing."""
        self.press(css, f"{CONTROL}a{RELEASE}{text}")

    def press(self, css, keys):
        """Press keys one after the other in a field."""
        self.call("POST", f"/element/{self.find(css)}/value", {"text": keys})

    def text(self, css):
        """Return the text of an element."""
        return self.run(f"return document.querySelector({css!r}).textContent")

    def value(self, css):
        """Return what stands in a field."""
        return self.run(f"return document.querySelector({css!r}).value")

    def await_text(self, css, part):
        """Wait until the element's text holds the part, and return the text."""
        late = time.monotonic() + PATIENCE_S
        while part not in (text := self.text(css)):
            assert time.monotonic() < late, f"{css} still reads {text!r}"
            time.sleep(0.03)
        return text

    def drag(self, css, across, up):
        """Drag the middle of an element by so many pixels."""
        origin = {ELEMENT: self.find(css)}
        move = {"type": "pointerMove", "duration": 0}
        actions = [
            {**move, "origin": origin, "x": 0, "y": 0},
            {"type": "pointerDown", "button": 0},
            {**move, "origin": "pointer", "x": across, "y": -up},
            {"type": "pointerUp", "button": 0},
        ]
        mouse = {"type": "pointer", "id": "mouse", "actions": actions}
        self.call("POST", "/actions", {"actions": [mouse]})

    def shoot(self, path):
        """Save a picture of the window."""
        path.write_bytes(base64.b64decode(self.call("GET", "/screenshot")))


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    """Start a browser with a fresh profile."""
    with socket.create_server(("127.0.0.1", 0)) as probe:
        port = probe.getsockname()[1]
    driver = subprocess.Popen([DRIVER, f"--port={port}"], stdout=subprocess.DEVNULL)
    try:
        _await_port(port)
        browser = Browser(port, tmp_path_factory.mktemp("profile"))
        yield browser
        browser.call("DELETE", "")
    finally:
        driver.terminate()
        driver.wait()


def _await_port(port):
    late = time.monotonic() + PATIENCE_S
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), 1).close()
            return
        except OSError:
            assert time.monotonic() < late, "chromedriver does not answer"
            time.sleep(0.05)


@pytest.fixture(scope="module")
def server():
    """Serve the hand-sized job, with a drum beside its bed and a name full of markup."""
    job = hand_job()
    name = "reeds <b>&amp;</script>"
    liner = replace(job.liner, name=name)
    job = replace(job, liner=liner, beds=(*job.beds, Bed("<i>drum</i>", "convex", 3000 * 8000)))
    with PageServer(job, "hand.toml") as server:
        thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        yield server
        server.shutdown()
        thread.join()


@pytest.fixture
def page(browser, server, tmp_path):
    """Open the page and wait for its first answer."""
    browser.call("POST", "/url", {"url": server.address})
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
