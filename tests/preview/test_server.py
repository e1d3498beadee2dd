"""The preview's server: this machine alone, nothing outside the site, the live script only on the way out."""

from __future__ import annotations

import re
import socket
import threading
import urllib.error
import urllib.request
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from generator.preview.live import BuildOutcome, Live
from generator.preview.server import PreviewServer, is_this_machine, open_server, serving
from generator.problems import Problem

Ask = Callable[..., Any]
Outcome = Callable[..., BuildOutcome]


@pytest.fixture(autouse=True)
def built(live: Live, outcome: Outcome) -> None:
    """One good build."""
    live.publish(outcome())


def policy_of(html: str) -> str:
    """The policy as a browser reads it: the attribute with its character references resolved."""

    class Reader(HTMLParser):
        policy = ""

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            if tag == "meta" and dict(attrs).get("http-equiv", "") == "Content-Security-Policy":
                self.policy = dict(attrs)["content"] or ""

    reader = Reader()
    reader.feed(html)
    return reader.policy


def test_pages_are_served(server: PreviewServer) -> None:
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    for path, word in (
        ("", "Smoked"),
        ("index.html", "Smoked"),
        ("recipes/shank/", "Cured"),
        ("recipes/shank/index.html?batches=2", "Cured"),
        ("recipes/shank", "Cured"),
    ):
        with opener.open(server.url + path, timeout=10) as response:
            assert word in response.read().decode()
            assert response.headers["Cache-Control"] == "no-store"
            assert response.headers["Content-Type"] == "text/html; charset=utf-8"
    with pytest.raises(urllib.error.HTTPError) as caught:
        opener.open(server.url + "nowhere/<i>.html".replace("<i>", "%3Ci%3E"), timeout=10)
    page = caught.value.read().decode()
    caught.value.close()
    assert caught.value.code == 404
    assert "nowhere/&lt;i&gt;.html" in page
    assert "__live.js" in page


def test_a_folder_without_its_slash_is_redirected(ask: Ask) -> None:
    answer = ask("/recipes/shank")
    assert answer.status == 301
    assert answer.headers["Location"] == "/recipes/shank/"
    assert ask("//evil.example/%2F..").status == 403


def test_the_script_is_in_what_is_served_and_never_in_the_files(ask: Ask, site: Path, live: Live) -> None:
    before = {path: path.read_bytes() for path in site.rglob("*") if path.is_file()}
    script = f'<script src="/__live.js" data-page="{live.state.page}"></script></body></html>'
    assert ask("/").body.endswith(script)
    assert ask("/book.js").body == before[site / "book.js"].decode()
    assert {path: path.read_bytes() for path in site.rglob("*") if path.is_file()} == before


def test_a_page_without_an_end_gets_the_script_at_its_end(ask: Ask, site: Path) -> None:
    (site / "bare.html").write_text("<p>bare")
    assert re.fullmatch(
        r'<p>bare<script src="/__live.js" data-page="[^"]+"></script>', ask("/bare.html").body
    )


@pytest.mark.parametrize(
    ("meta", "expected"),
    [
        (
            """<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'">""",
            "default-src 'none'; script-src 'self'; connect-src 'self'",
        ),
        (
            """<META content='default-src &#39;none&#39;; img-src &#39;self&#39; data:;'
            http-equiv="Content-Security-Policy"/>""",
            "default-src 'none'; img-src 'self' data:; connect-src 'self'",
        ),
        (
            """<meta http-equiv="Content-Security-Policy" content="connect-src 'none';default-src 'none'">""",
            "default-src 'none'; connect-src 'self'",
        ),
    ],
)
def test_the_policy_lets_the_page_listen_when_served(ask: Ask, site: Path, meta: str, expected: str) -> None:
    (site / "index.html").write_text(f'{meta}<meta name="description" content="connect-src; x">')
    served = ask("/").body
    assert policy_of(served) == expected
    assert '<meta name="description" content="connect-src; x">' in served
    assert "connect-src 'self'" not in (site / "index.html").read_text()


@pytest.mark.parametrize("path", ["/__live.js", "/__live.css"])
def test_the_previews_own_files(ask: Ask, path: str) -> None:
    answer = ask(path)
    assert answer.status == 200
    assert answer.headers["Content-Type"].startswith("text/javascript" if path.endswith("js") else "text/css")
    assert len(answer.body) > 500


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt",
        "/recipes/../../secret.txt",
        "/%2e%2e/secret.txt",
        "/recipes/..%2f..%2fsecret.txt",
        "/..%5csecret.txt",
        "/../site-secret/index.html",
        "/c:/secret.txt",
        "/%00",
        "/.",
    ],
)
def test_no_path_leads_out(ask: Ask, path: str) -> None:
    answer = ask(path)
    assert answer.status == 403
    assert "secret" not in answer.body


@pytest.mark.parametrize(
    "path", ["/.potherb.json", "/%2Epotherb.json", "/recipes/.draft/index.html", "/.git/"]
)
def test_what_is_hidden_is_not_served(ask: Ask, site: Path, path: str) -> None:
    for hidden in (".potherb.json", "recipes/.draft/index.html", ".git/index.html"):
        (site / hidden).parent.mkdir(exist_ok=True)
        (site / hidden).write_text("hidden")
    answer = ask(path)
    assert answer.status == 404
    assert "hidden" not in answer.body


def test_what_is_no_address_is_answered_without_a_traceback(
    ask: Ask, capsys: pytest.CaptureFixture[str]
) -> None:
    assert ask("http://[::1").status == 400
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("begun", [b"", b"GET / HT", b"GET / HTTP/1.1\r\nHost: localhost\r\n"])
def test_a_client_that_falls_silent_is_let_go(
    site: Path, live: Live, begun: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    with (
        serving(0, site=site, live=live, patience_s=0.1) as server,
        socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as client,
    ):
        client.sendall(begun)
        assert client.recv(1) == b"", "the server hangs up"
    assert capsys.readouterr().err == ""


def test_a_client_that_takes_nothing_is_let_go(
    site: Path, live: Live, capsys: pytest.CaptureFixture[str]
) -> None:
    """More than all buffers between the two hold: the server's write waits, and no longer than its patience."""
    (site / "large.bin").write_bytes(bytes(32_000_000))
    with (
        serving(0, site=site, live=live, patience_s=0.1) as server,
        socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as client,
    ):
        client.sendall(b"GET /large.bin HTTP/1.1\r\nHost: localhost\r\n\r\n")
        assert client.recv(1) == b"H", "the answer has begun"
        (answering,) = (one for one in threading.enumerate() if "process_request" in one.name)
        answering.join(10)
        assert not answering.is_alive()
    assert capsys.readouterr().err == ""


def test_no_link_leads_out(ask: Ask, site: Path) -> None:
    (site / "link.txt").symlink_to(site.parent / "secret.txt")
    (site / "folder").symlink_to(site.parent / "site-secret")
    for path in ("/link.txt", "/folder/index.html", "/folder/"):
        assert ask(path).status == 403
    assert ask("/%2Fetc/hostname").status == 404


@pytest.mark.parametrize("path", ["/", "/book.js", "/__live", "/__live.js"])
def test_only_names_of_this_machine_are_answered(ask: Ask, path: str) -> None:
    for host in (
        "evil.example",
        "evil.example:8000",
        "127.0.0.1.evil.example",
        "localhost.evil.example",
        None,
    ):
        answer = ask(path, host=host)
        assert answer.status == 403
        assert "Smoked" not in answer.body
    assert ask(path, host="localhost:9", method="HEAD").status == 200


def test_hosts() -> None:
    for host in ("localhost", "LOCALHOST:80", "127.0.0.1", "127.0.0.1:65535"):
        assert is_this_machine([host])
    for hosts in (
        [],
        ["localhost", "localhost"],
        ["localhost@evil.example"],
        ["localhost:80:80"],
        ["127.0.0.2"],
        ["0.0.0.0"],
        ["localhost\nevil"],
        [""],
    ):
        assert not is_this_machine(hosts)


def test_nothing_but_reading_is_answered(ask: Ask, site: Path) -> None:
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert ask("/index.html", method=method).status == 501
    assert ask("/index.html", method="HEAD").body == ""
    assert (site / "index.html").is_file()


def test_it_listens_on_the_loopback_address_only(server: PreviewServer) -> None:
    assert server.socket.getsockname()[0] == "127.0.0.1"


def test_a_taken_port_gives_the_next_free_one(site: Path, live: Live) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        wanted = taken.getsockname()[1]
        with open_server(wanted, site=site, live=live) as server:
            assert wanted < server.server_port < wanted + 20
            with open_server(server.server_port, site=site, live=live) as second:
                assert second.server_port > server.server_port


def test_while_no_build_was_good_the_problems_are_the_page(
    site: Path, outcome: Outcome, ask: Ask, wrong_amount: Problem, unlinked: Problem
) -> None:
    live = Live()
    live.publish(outcome(wrong_amount, unlinked, ok=False))
    with serving(0, site=site, live=live) as server:
        for path in ("/", "/recipes/shank/"):
            answer = ask(path, port=server.server_port)
            assert answer.status == 503
            assert "Smoked" not in answer.body
            assert '<div role="alert">' in answer.body
            assert "1 error, 1 warning." in answer.body
            assert "recipes/shank.md:12:5" in answer.body
            assert "&lt;b&gt;2 &amp; a bit&lt;/b&gt;" in answer.body
            assert "<script>" not in answer.body
            assert "would not scale" in answer.body
            assert "connect-src 'self'" in policy_of(answer.body)
        assert ask("/__live.css", port=server.server_port).status == 200
