"""A folder of pages and the live state in; both served to this machine alone, out.

Only names of this machine are answered to, so that no page from elsewhere can reach the preview through a name
it has pointed here; no path leads out of the folder, none to what is hidden in it; a client that is silent or slow is
let go; nothing is kept by the browser.
"""

from __future__ import annotations

import errno
import mimetypes
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache, partial
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from pathlib import Path
from socketserver import TCPServer
from urllib.parse import quote, unquote, urlsplit

from generator.preview.live import PING_S, Live
from generator.preview.pages import (
    SCRIPT_PATH,
    STYLE_PATH,
    missing_page,
    problems_page,
    with_live_script,
)
from generator.write.paths import is_hidden

HOST = "127.0.0.1"
EVENTS_PATH = "/__live"
PORTS_TRIED = 20
"From the wanted port up, before any free one is taken."
PATIENCE_S = 30.0
"How long a client may be silent while it asks, or take to receive one answer or one event."
_THIS_MACHINE = re.compile(r"(localhost|127\.0\.0\.1)(:[0-9]{1,5})?", re.IGNORECASE)
_HTML = "text/html; charset=utf-8"
_OWN_FILES = {
    SCRIPT_PATH: ("live.js", "text/javascript; charset=utf-8"),
    STYLE_PATH: ("live.css", "text/css; charset=utf-8"),
}
_TYPES = {
    ".html": _HTML,
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
    ".ics": "text/calendar; charset=utf-8",
    ".webmanifest": "application/manifest+json",
}
"Told here, because what a system knows of endings differs."


class PathRefusedError(Exception):
    """An address that would lead out of the site."""


class PreviewServer(ThreadingHTTPServer):
    """Serves one folder; each request in a thread that does not outlive the program."""

    daemon_threads = True

    def __init__(
        self, port: int, *, site: Path, live: Live, ping_s: float = PING_S, patience_s: float = PATIENCE_S
    ) -> None:
        self.site = site
        self.live = live
        self.ping_s = ping_s
        self.patience_s = patience_s
        super().__init__((HOST, port), _Handler)

    def server_bind(self) -> None:
        """As TCPServer does it: the name of the machine is not looked up, which may take long."""
        TCPServer.server_bind(self)
        self.server_name, self.server_port = HOST, self.socket.getsockname()[1]

    @property
    def url(self) -> str:
        """Where the first page is."""
        return f"http://{HOST}:{self.server_port}/"


class _Handler(BaseHTTPRequestHandler):
    """Answers one request."""

    server: PreviewServer
    server_version = "Potherb"
    sys_version = ""

    def setup(self) -> None:
        """The patience holds for reading the request and for each write of the answer."""
        super().setup()
        self.connection.settimeout(self.server.patience_s)

    def do_GET(self) -> None:
        """The page, file or stream of events that was asked for."""
        try:
            self._answer()
        except (ConnectionError, TimeoutError):
            self.close_connection = True  # the page was closed or reloaded, or takes nothing any more

    def do_HEAD(self) -> None:
        """As GET, without the content."""
        self.do_GET()

    def _answer(self) -> None:
        path = path_of(self.path)
        if not is_this_machine(self.headers.get_all("Host") or []):
            self._send(HTTPStatus.FORBIDDEN, "text/plain", b"Only this machine is answered.\n")
        elif path is None:
            self._send(HTTPStatus.BAD_REQUEST, "text/plain", b"That is not an address.\n")
        elif path == EVENTS_PATH:
            self._send_events()
        elif path in _OWN_FILES:
            name, kind = _OWN_FILES[path]
            self._send(HTTPStatus.OK, kind, own_file(name))
        else:
            self._send_from_site(path)

    def _send_from_site(self, path: str) -> None:
        """The state is taken before the file is read: a page may be newer than it says, never older."""
        state = self.server.live.state
        if not state.has_site:
            html = problems_page(state.problems, state.page)
            self._send(HTTPStatus.SERVICE_UNAVAILABLE, _HTML, html.encode())
            return
        try:
            file = find_file(self.server.site, path)
            if file.is_dir():
                self._redirect(path)
                return
            content = file.read_bytes()
        except PathRefusedError:
            self._send(HTTPStatus.FORBIDDEN, "text/plain", b"The address leads out of the site.\n")
        except OSError:
            html = missing_page(unquote(path), state.page)
            self._send(HTTPStatus.NOT_FOUND, _HTML, html.encode())
        else:
            kind = _TYPES.get(file.suffix.lower()) or mimetypes.guess_type(file.name)[0]
            if kind == _HTML:
                content = with_live_script(content.decode(), state.page).encode()
            self._send(HTTPStatus.OK, kind or "application/octet-stream", content)

    def _redirect(self, path: str) -> None:
        """A folder's address ends in a slash, or the relative links of its page go wrong."""
        self.send_response(HTTPStatus.MOVED_PERMANENTLY)
        self.send_header("Location", quote("/" + unquote(path).strip("/") + "/"))
        self._end_headers(0)

    def _send(self, status: HTTPStatus, kind: str, content: bytes) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self._end_headers(len(content))
        if self.command != "HEAD":
            self.wfile.write(content)

    def _send_events(self) -> None:
        """One event per build for as long as the page listens."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self._end_headers(None)
        if self.command != "HEAD":
            for event in self.server.live.events(ping_s=self.server.ping_s):
                self.wfile.write(event)

    def _end_headers(self, length: int | None) -> None:
        if length is not None:
            self.send_header("Content-Length", str(length))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Requests are not worth a line: what the author wants to see are problems."""


def is_this_machine(hosts: list[str]) -> bool:
    """True for exactly one Host header that names this machine, with any port."""
    return len(hosts) == 1 and _THIS_MACHINE.fullmatch(hosts[0].strip()) is not None


def path_of(target: str) -> str | None:
    """The path that a request asks for, without what stands behind `?`; None where it is no address."""
    try:
        return urlsplit(target).path
    except ValueError:
        return None


def find_file(site: Path, path: str) -> Path:
    """The file an address names, an index for a folder's.

    PathRefusedError where it would lead elsewhere, FileNotFoundError for what is hidden: a manifest is no page.
    """
    parts = unquote(path).split("/")
    if any(part in (".", "..") or set(part) & set("\\:\0") for part in parts):
        raise PathRefusedError(path)
    if is_hidden("/".join(parts)):
        raise FileNotFoundError(path)
    file = site.joinpath(*parts[1:-1], parts[-1] or "index.html")
    if not file.resolve().is_relative_to(site.resolve()):
        raise PathRefusedError(path)
    return file


@cache
def own_file(name: str) -> bytes:
    """A file of the preview itself, from beside this module."""
    return (files(__package__) / name).read_bytes()


def open_server(
    port: int, *, site: Path, live: Live, ping_s: float = PING_S, patience_s: float = PATIENCE_S
) -> PreviewServer:
    """A server on the wanted port, or the next free one above it; 0 takes any free one."""
    make = partial(PreviewServer, site=site, live=live, ping_s=ping_s, patience_s=patience_s)
    for candidate in range(port, port + PORTS_TRIED) if port else ():
        try:
            return make(candidate)
        except OSError as error:
            if error.errno not in (errno.EADDRINUSE, errno.EACCES):
                raise
    return make(0)


@contextmanager
def serving(
    port: int, *, site: Path, live: Live, ping_s: float = PING_S, patience_s: float = PATIENCE_S
) -> Iterator[PreviewServer]:
    """Serve until the end of the `with`."""
    with open_server(port, site=site, live=live, ping_s=ping_s, patience_s=patience_s) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        try:
            yield server
        finally:
            live.close()
            server.shutdown()
            thread.join()
