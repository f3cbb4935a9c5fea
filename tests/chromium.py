"""A headless Chromium, steered over W3C WebDriver: plain HTTP to the loopback address."""

import base64
import json
import shutil
import socket
import subprocess
import time
import urllib.request
from contextlib import contextmanager

DRIVER = shutil.which("chromedriver")
BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = """--headless --no-sandbox --disable-gpu --disable-quic --no-first-run
    --disable-background-networking --disable-component-update --disable-sync
    --disable-dev-shm-usage --window-size=1100,900"""
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
PATIENCE_S = 10
CONTROL, RELEASE, UP, DOWN, PAGE_UP = "\ue009", "\ue000", "\ue013", "\ue015", "\ue00e"


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

    def command(self, name, **parameters):
        """Send one command of the browser's own protocol and return what it answers."""
        return self.call("POST", "/goog/cdp/execute", {"cmd": name, "params": parameters})

    def open(self, address, width, height):
        """Open a page on a screen of that many pixels."""
        screen = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self.command("Emulation.setDeviceMetricsOverride", **screen)
        self.call("POST", "/url", {"url": address})

    def print(self):
        """Return the page as printed: a PDF, on the paper the page itself asks for."""
        printed = self.command("Page.printToPDF", preferCSSPageSize=True)
        return base64.b64decode(printed["data"])


@contextmanager
def start_browser(profile):
    """Start a browser with a fresh profile in that folder, and end it."""
    with socket.create_server(("127.0.0.1", 0)) as probe:
        port = probe.getsockname()[1]
    driver = subprocess.Popen([DRIVER, f"--port={port}"], stdout=subprocess.DEVNULL)
    try:
        _await_port(port)
        browser = Browser(port, profile)
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
