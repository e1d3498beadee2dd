"""A small site on a running preview server, and a way to ask it, for the tests of the preview."""

from __future__ import annotations

import http.client
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from generator.preview.live import BuildOutcome, Live
from generator.preview.server import PreviewServer, serving
from generator.problems import Position, Problem

POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; base-uri 'none'"
PAGE = (
    "<!doctype html><html lang=en><head><title>Book</title>"
    f'<meta http-equiv="Content-Security-Policy" content="{POLICY}"></head>'
    "<body><h1>Smoked shank</h1></body></html>"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a server answered."""

    status: int
    body: str
    headers: dict[str, str] = field(default_factory=dict)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A home page, a deeper page, a script; and beside the site a file that is nobody's business."""
    folder = tmp_path / "site"
    (folder / "recipes" / "shank").mkdir(parents=True)
    (folder / "index.html").write_text(PAGE)
    (folder / "recipes" / "shank" / "index.html").write_text(PAGE.replace("Smoked", "Cured"))
    (folder / "book.js").write_text('const page = "</body>";')
    (tmp_path / "secret.txt").write_text("secret")
    (tmp_path / "site-secret").mkdir()
    (tmp_path / "site-secret" / "index.html").write_text("secret")
    return folder


@pytest.fixture
def live() -> Live:
    """No build yet."""
    return Live()


@pytest.fixture
def server(site: Path, live: Live) -> Iterator[PreviewServer]:
    """Running on a free port."""
    with serving(0, site=site, live=live, ping_s=0.2) as running:
        yield running


@pytest.fixture
def outcome(site: Path) -> Callable[..., BuildOutcome]:
    """A build that came out well, or not."""

    def make(*problems: Problem, ok: bool = True) -> BuildOutcome:
        return BuildOutcome(ok=ok, problems=problems, site=site)

    return make


@pytest.fixture
def ask(server: PreviewServer) -> Callable[..., Answer]:
    """Ask the server for a path exactly as written, with a Host header of one's choice."""

    def get(path: str, *, host: str | None = "", method: str = "GET", port: int = 0) -> Answer:
        port = port or server.server_port
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
        try:
            connection.putrequest(method, path, skip_host=True)
            if host is not None:
                connection.putheader("Host", host or f"127.0.0.1:{port}")
            connection.endheaders()
            response = connection.getresponse()
            body = response.read().decode()
            return Answer(status=response.status, body=body, headers=dict(response.getheaders()))
        finally:
            connection.close()

    return get


@pytest.fixture
def wrong_amount() -> Problem:
    """An error whose words would be markup if they were not escaped."""
    return Problem(
        slug="unreadable-amount",
        message="'<b>2 & a bit</b>' cannot be read.",
        hint="Write '2 1/2 \"cups\"' <script>alert(1)</script>.",
        position=Position("recipes/shank.md", 12, 5),
    )


@pytest.fixture
def unlinked() -> Problem:
    """A warning."""
    return Problem(slug="unlinked-amount", message="'2 cups' would not scale.", position=None)
