"""The page's server over a real loopback socket: answers, and what it refuses."""

import http.client
import json
import re
import socket
from contextlib import contextmanager
from dataclasses import replace
from threading import Thread
from urllib.parse import urlencode

import pytest
from handjob import hand_job

from nesting.bench.server import PageServer, read_query
from nesting.errors import InputError
from nesting.fitting.answer import fit_size
from nesting.fitting.report import fit_record
from nesting.maps.ground import survey
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bend import bend_of
from nesting.values.panels import Panel


@contextmanager
def serving(job, **options):
    """Serve the job's page while the block runs."""
    with PageServer(job, "hand.toml", **options) as server:
        thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        try:
            yield server
        finally:
            server.shutdown()
            thread.join()


@pytest.fixture(scope="module")
def server():
    """Serve the hand-sized job to this machine."""
    with serving(hand_job()) as server:
        yield server


def send(server, path, method="GET", **headers):
    """Return status, headers and text of the reply."""
    link = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=20)
    try:
        link.request(method, path, headers=headers)
        reply = link.getresponse()
        return reply.status, reply.headers, reply.read().decode()
    finally:
        link.close()


def ask(server, part, width, height, **more):
    """Return status and the decoded reply."""
    query = urlencode({"width": width, "height": height, **more})
    status, _, text = send(server, f"/{part}?{query}")
    return status, json.loads(text) if status == 200 else text


@pytest.mark.parametrize("size", [(800, 650), (700, 500), (800, 670), (1201, 300)])
def test_the_full_answer_is_that_of_nesting_fit(server, size):
    """Every key of the record that `nesting fit --json` prints has the same value here."""
    job = hand_job()
    panel = Panel("Panel", size[0] * MM, size[1] * MM, 1, job.beds[0].name)
    fit = fit_size(survey(job.liner, job.rules), panel, bend_of(job, job.beds[0].name), mend=False)
    expected = fit_record(job, fit, "hand.toml")
    status, full = ask(server, "full", *size)
    assert status == 200
    assert {key: full[key] for key in expected} == expected


@pytest.mark.parametrize(("size", "fits"), [((800, 650), True), ((800, 670), False)])
def test_the_quick_answer_agrees_with_the_full_one(server, size, fits):
    """Yes or no is the same in both parts, and a place is given where it is yes."""
    quick, full = (ask(server, part, *size)[1] for part in ("fit", "full"))
    assert [part["fits"] for part in (quick, full)] == [fits] * 2
    assert (quick["panel"] is not None) == fits
    if fits:
        assert quick["panel"] == [0, 0, 800, 650]
        assert sorted(quick["dams"]) == sorted(full["dams"])
        assert [800, 0] in [dam[:2] for dam in quick["dams"]]


def test_the_only_place_is_among_the_places(server):
    """A panel flush with two rims and two zones' worth of dams has its one place at the corner."""
    _, places = ask(server, "places", 800, 650)
    points = [p for rings in places["areas"] for ring in rings for p in ring]
    points += [p for stretch in places["stretches"] for p in stretch]
    assert [0, 0] in points
    _, none = ask(server, "places", 800, 670)
    assert none == {"areas": [], "stretches": []}


def test_nearest_sizes_can_be_typed_back(server):
    """A nearest size, sent back as it is written, fits."""
    _, full = ask(server, "full", 800, 670)
    assert full["nearest"]
    for size in full["nearest"]:
        width, height = size["typed"]
        assert size["told"] == f"{width} x {height} mm"
        assert ask(server, "fit", width, height)[1]["fits"] is True


def test_lengths_may_bring_their_units(server):
    """A size in inches is read in a job in millimetres."""
    _, inches = ask(server, "fit", "20 in", "10 in")
    _, plain = ask(server, "fit", "508", "254")
    assert inches == plain
    assert inches["size"] == "508 x 254 mm"


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("width=abc&height=900", "Size 'abc x 900'"),
        ("width=-5&height=900", "must be"),
        ("width=0&height=900", "must be > 0 mm"),
        ("width=nan&height=900", "Size 'nan x 900'"),
        ("width=1e999&height=900", "Size"),
        ("width=800", "must hold width, height and perhaps bed, each once"),
        ("width=800&width=900&height=1", "each once"),
        ("width=800&height=900&x=1", "must hold"),
        ("width=800&height=900&bed=moon", "there is no such bed, got 'moon'; known:"),
        ("width=" + "9" * 600 + "&height=1", "at most 500 characters"),
    ],
)
@pytest.mark.parametrize("part", ["fit", "full"])
def test_what_cannot_be_read_is_told_in_one_line(server, part, query, told):
    """A size, bed or query that cannot be read is 400 and one line."""
    status, headers, text = send(server, f"/{part}?{query}")
    assert status == 400
    assert told in text
    assert text.count("\n") == 1
    assert headers["Content-Type"] == "text/plain; charset=utf-8"


@pytest.mark.parametrize(
    "path", ["/index.html", "/fit/", "/../etc/passwd", "/answer", "/page.html"]
)
def test_other_paths_are_not_there(server, path):
    """Only the page and the parts of an answer can be had."""
    assert send(server, path)[0] == 404


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
def test_nothing_but_get_is_answered(server, method):
    """There is nothing to change, so every other method is refused."""
    assert send(server, "/", method)[0] == 501


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "evil.example:{}", "192.168.1.20:{}", ""]
)
def test_a_foreign_host_is_refused(server, host):
    """A page of another site cannot reach this one under a name of its own."""
    status, _, text = send(server, "/", Host=host.format(server.server_port))
    assert (status, text.count("\n")) == (403, 1)


def test_localhost_is_this_machine(server):
    """Both names of this machine are taken."""
    assert send(server, "/", Host=f"localhost:{server.server_port}")[0] == 200


def test_the_page_may_load_nothing_from_elsewhere(server):
    """Its policy allows its own script and style by a nonce new each time; nothing is stored."""
    status, headers, text = send(server, "/")
    policy = headers["Content-Security-Policy"]
    assert status == 200
    assert headers["Cache-Control"] == "no-store"
    assert policy.startswith("default-src 'none'; script-src 'nonce-")
    (nonce,) = set(re.findall(r'nonce="([^"]+)"', text))
    assert f"'nonce-{nonce}'" in policy
    assert nonce not in send(server, "/")[2]
    assert re.findall(r"https?://(?!www\.w3\.org/2000/svg)", text) == []


def test_names_cannot_end_the_data_they_stand_in():
    """A name with markup stays a name: it appears in the page's data alone, and escaped."""
    job = hand_job()
    name = "</script><img src=x onerror=alert(1)>&amp;"
    job = replace(job, liner=replace(job.liner, name=name))
    with serving(job) as server:
        text = send(server, "/")[2]
    assert "<img" not in text
    (data,) = re.findall(r'type="application/json"[^>]*>(.*?)</script>', text)
    assert json.loads(data)["liner"] == name


def test_in_a_network_the_address_holds_a_token():
    """Without the token there is nothing; with it, under the machine's number, the page."""
    with serving(hand_job(), lan=True) as server:
        assert len(server.token) > 20
        assert server.address.endswith(f":{server.server_port}/{server.token}/")
        for path in ("/", "/fit?width=1&height=1", f"/{server.token[:-1]}x/", f"/{server.token}"):
            assert send(server, path)[0] == 404
        assert send(server, server.prefix)[0] == 200
        number = f"192.168.1.20:{server.server_port}"
        assert send(server, server.prefix, Host=number)[0] == 200
        assert send(server, server.prefix, Host=f"evil.example:{server.server_port}")[0] == 403


def test_without_lan_only_this_machine_is_served(server):
    """The socket is bound to the loopback address."""
    assert server.server_address[0] == "127.0.0.1"
    assert server.address == f"http://127.0.0.1:{server.server_port}/"


def test_a_port_in_use_is_one_clear_line():
    """A port that somebody else listens on is refused."""
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        with pytest.raises(
            InputError, match=rf"--port: must be a port that is free, got {port}; give"
        ):
            PageServer(hand_job(), "hand.toml", port)


def test_a_query_keeps_its_text():
    """Nothing is read into a query before the size is read."""
    asked = read_query("width=5+ft+3+in&height=900&bed=drum%20two")
    assert (asked.width, asked.height, asked.bed) == ("5 ft 3 in", "900", "drum two")
