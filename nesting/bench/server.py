"""The page on which sizes are tried, served to a browser; it writes nothing and changes nothing.

Served to this machine alone unless asked otherwise. The Host header is checked, so that no other
site can reach the page under a name of its own (DNS rebinding); in a network the address holds a
random token besides.
"""

import os
import secrets
import socket
from dataclasses import dataclass
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from ipaddress import ip_address
from urllib.parse import parse_qs, urlsplit

from nesting.bench.answers import LATER, SOON, AnswerPart, Asked, TryOut
from nesting.bench.aside import Aside
from nesting.errors import InputError
from nesting.files.document import to_line
from nesting.values.job import Job

LOOPBACK = "127.0.0.1"
_LONGEST_QUERY = 500
_KEYS = {"width", "height", "bed"}
_OUTRUN = '{"outrun": true}'


class PageServer(ThreadingHTTPServer):
    """Serves one job's page until it is shut down; ``port`` 0 takes any that is free.

    With ``lan`` it is served to the whole network, under an address that holds a random token.

    Raises InputError where the port cannot be had.
    """

    daemon_threads = True
    allow_reuse_address = os.name != "nt"  # elsewhere it would share a port in use

    def __init__(self, job: Job, file: str, port: int = 0, *, lan: bool = False) -> None:
        self.lan = lan
        self.token = secrets.token_urlsafe(16) if lan else ""
        self.tryout = TryOut(job, file)
        try:
            super().__init__(("" if lan else LOOPBACK, port), _Handler)
        except (OSError, OverflowError) as error:
            rule = "must be a port that is free"
            remedy = "give another, or 0 for any"
            raise InputError("--port", rule, str(port), remedy) from error
        self.aside = Aside(job, file)

    @property
    def prefix(self) -> str:
        """What every path begins with."""
        return f"/{self.token}/" if self.lan else "/"

    @property
    def address(self) -> str:
        """What to type into a browser."""
        host = _own_address() if self.lan else LOOPBACK
        return f"http://{host}:{self.server_port}{self.prefix}"

    def knows_host(self, host: str) -> bool:
        """Whether a Host header names this server: this machine, or in a network a bare number."""
        name, colon, port = host.rpartition(":")
        if not colon or port != str(self.server_port):
            return False
        return name in (LOOPBACK, "localhost") or (self.lan and _is_number(name))

    def server_close(self) -> None:
        """Close the port and end the process that works on slow answers."""
        super().server_close()
        if hasattr(self, "aside"):
            self.aside.close()

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing of a browser that left early."""


@dataclass(frozen=True, slots=True)
class _Reply:
    """What is sent back; ``nonce`` is that of the page's own script and style."""

    status: HTTPStatus
    text: str
    kind: str = "text/plain"
    nonce: str = ""


class _Handler(BaseHTTPRequestHandler):
    """Answers GET for the page and for the parts of an answer, and nothing else."""

    server: PageServer
    protocol_version = "HTTP/1.1"
    server_version = "nesting"
    sys_version = ""
    timeout = 60
    disable_nagle_algorithm = True
    wbufsize = -1
    error_content_type = "text/plain; charset=utf-8"
    error_message_format = "%(code)d %(message)s.\n"

    def do_GET(self) -> None:
        """Send the page, a part of an answer, or one line that says what is wrong."""
        try:
            reply = self._reply()
        except InputError as error:
            reply = _Reply(HTTPStatus.BAD_REQUEST, f"{error}\n")
        except Exception as error:
            text = f"Something went wrong in nesting itself ({type(error).__name__}).\n"
            reply = _Reply(HTTPStatus.INTERNAL_SERVER_ERROR, text)
        self._send(reply)

    def log_message(self, format: str, *args: object) -> None:
        """Keep the terminal quiet."""

    def _reply(self) -> _Reply:
        if not self.server.knows_host(self.headers.get("Host", "")):
            words = "This page is served under the address printed in the terminal only.\n"
            return _Reply(HTTPStatus.FORBIDDEN, words)
        address = urlsplit(self.path)
        start, prefix = address.path[: len(self.server.prefix)], self.server.prefix
        if not secrets.compare_digest(start.encode(), prefix.encode()):
            return _Reply(HTTPStatus.NOT_FOUND, "There is no such page here.\n")
        part = address.path[len(prefix) :]
        if not part:
            return self._page()
        for known in (*SOON, *LATER):
            if part == known:
                return _Reply(HTTPStatus.OK, self._answer(known, address.query), "application/json")
        return _Reply(HTTPStatus.NOT_FOUND, "There is no such page here.\n")

    def _answer(self, part: AnswerPart, query: str) -> str:
        asked = read_query(query)
        if part in LATER:
            return self.server.aside.answer(part, asked) or _OUTRUN
        return to_line(self.server.tryout.answer(part, asked))

    def _page(self) -> _Reply:
        nonce = secrets.token_urlsafe(16)
        text = write_page(self.server.tryout, nonce)
        return _Reply(HTTPStatus.OK, text, "text/html", nonce)

    def _send(self, reply: _Reply) -> None:
        body = reply.text.encode()
        source = f"'nonce-{reply.nonce}'" if reply.nonce else "'none'"
        policy = (
            f"default-src 'none'; script-src {source}; style-src {source}; connect-src 'self'; "
            "img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
        )
        self.send_response(reply.status)
        for key, value in (
            ("Content-Type", f"{reply.kind}; charset=utf-8"),
            ("Content-Length", str(len(body))),
            ("Cache-Control", "no-store"),
            ("Content-Security-Policy", policy),
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
        ):
            self.send_header(key, value)
        self.end_headers()
        self.wfile.write(body)


def read_query(query: str) -> Asked:
    """Return what a query asks: width, height and perhaps a bed, each once.

    Raises InputError where it is anything else.

    >>> read_query("width=63+1/2+in&height=900")
    Asked(width='63 1/2 in', height='900', bed='')
    """
    if len(query) > _LONGEST_QUERY:
        raise InputError("Query", f"must be at most {_LONGEST_QUERY} characters long")
    given = parse_qs(query, keep_blank_values=True)
    once = all(len(values) == 1 for values in given.values())
    if not once or not {"width", "height"} <= set(given) <= _KEYS:
        raise InputError("Query", "must hold width, height and perhaps bed, each once")
    return Asked(**{key: values[0] for key, values in given.items()})


def write_page(tryout: TryOut, nonce: str) -> str:
    """Return the page as HTML; nothing a name holds can end the data it stands in."""
    record = to_line(tryout.describe())
    safe = record.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
    page = files("nesting.bench").joinpath("page.html").read_text(encoding="utf-8")
    return page.replace("@nonce@", nonce).replace("@liner@", safe)


def _is_number(name: str) -> bool:
    try:
        ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True


def _own_address() -> str:
    """Return this machine's address in its network; a datagram socket sends nothing to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return socket.gethostname()
        return str(probe.getsockname()[0])
