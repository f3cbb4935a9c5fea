"""The command that serves the page: how it begins and how it ends."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from nesting.cli import run

ROOT = Path(__file__).parents[3]
JOB = str(ROOT / "examples" / "ferry-terminal.toml")
PATIENCE_S = 120
"""How long a busy machine may take to answer."""
COMMAND = [sys.executable, "-c", "from nesting.cli import main; main()", "page", JOB]


@pytest.mark.skipif(os.name == "nt", reason="needs a signal like that of Ctrl-C")
def test_the_page_is_served_until_ctrl_c():
    """The address is printed, answers there, and Ctrl-C ends it with 130 and one line."""
    started = subprocess.Popen(
        [*COMMAND, "--port", "0"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    try:
        address = re.search(r"http://127\.0\.0\.1:\d+/", started.stdout.readline())[0]
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        with opener.open(address, timeout=PATIENCE_S) as reply:
            assert b"Try a size" in reply.read()
        with opener.open(f"{address}full?width=800&height=890", timeout=PATIENCE_S) as reply:
            assert json.loads(reply.read())["fits"]
        started.send_signal(signal.SIGINT)
        told = started.communicate(timeout=PATIENCE_S)[1]
    finally:
        started.kill()
    assert (started.returncode, told.strip()) == (130, "nesting: stopped.")


def test_a_port_in_use_ends_with_2_and_one_line(capsys):
    """The line names the option, the port and what to do."""
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        assert run(["page", JOB, "--port", str(port)]) == 2
    assert capsys.readouterr() == (
        "",
        f"nesting: --port: must be a port that is free, got {port}; give another, or 0 for any.\n",
    )


def test_a_job_with_mistakes_is_not_served(tmp_path, capsys):
    """Its mistakes are listed and nothing is served."""
    (tmp_path / "job.toml").write_text("units = 5\n")
    assert run(["page", str(tmp_path / "job.toml"), "--port", "0"]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert "units" in printed.err
