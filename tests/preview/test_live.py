"""Pages are told of each build: to reload after another good one, to show the problems of a failed one."""

from __future__ import annotations

import http.client
import json
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from generator.preview.live import BuildOutcome, Live
from generator.preview.run import preview
from generator.preview.server import PreviewServer
from generator.problems import Problem

Outcome = Callable[..., BuildOutcome]
LONG_ENOUGH_S = 20.0
"Generous: a save is told of in a tenth of a second on a quiet machine."


class Events:
    """Reads a stream of server-sent events (HTML standard, section 9.2.6) over one connection."""

    def __init__(self, port: int) -> None:
        self._connection = http.client.HTTPConnection("127.0.0.1", port, timeout=LONG_ENOUGH_S)
        self._connection.request("GET", "/__live")
        self._response = self._connection.getresponse()
        assert self._response.status == 200
        assert self._response.getheader("Content-Type") == "text/event-stream"

    def close(self) -> None:
        self._response.close()
        self._connection.close()

    def block(self) -> dict[str, str]:
        """The next block of lines, up to an empty one; a comment has the empty name."""
        fields = {}
        while line := self._response.readline().decode().rstrip("\n"):
            name, _, value = line.partition(":")
            fields[name] = value.removeprefix(" ")
        return fields

    def build(self) -> dict[str, Any]:
        """The next build event, past comments and the retry time."""
        latest = time.monotonic() + LONG_ENOUGH_S
        while time.monotonic() < latest:
            fields = self.block()
            if not fields:
                raise EOFError("the stream ended")
            if fields.get("event") == "build":
                told: dict[str, Any] = json.loads(fields["data"])
                return told
        raise TimeoutError("no build was told of")


@contextmanager
def listening(port: int) -> Iterator[Events]:
    events = Events(port)
    try:
        yield events
    finally:
        events.close()


def test_a_page_that_comes_is_told_the_state_and_how_soon_to_come_again(
    server: PreviewServer, live: Live, outcome: Outcome
) -> None:
    live.publish(outcome())
    with listening(server.server_port) as events:
        assert events.block() == {"retry": "500"}
        assert events.build() == {
            "build": live.state.build,
            "page": live.state.page,
            "ok": True,
            "panel": "",
        }


def test_a_quiet_stream_gives_signs_of_life(server: PreviewServer, live: Live, outcome: Outcome) -> None:
    live.publish(outcome())
    with listening(server.server_port) as events:
        events.build()
        assert events.block() == {"": "ping"}
        assert events.block() == {"": "ping"}


def test_every_page_is_told_of_every_kind_of_build(
    server: PreviewServer, live: Live, outcome: Outcome, wrong_amount: Problem, unlinked: Problem
) -> None:
    live.publish(outcome())
    with listening(server.server_port) as one, listening(server.server_port) as other:
        first = one.build()
        assert other.build() == first

        live.publish(outcome(wrong_amount, ok=False))
        failed = one.build()
        assert other.build() == failed
        assert failed["page"] == first["page"], "the last good site stays"
        assert failed["build"] != first["build"]
        assert 'role="alert"' in failed["panel"]
        assert "recipes/shank.md:12:5" in failed["panel"]
        assert "&lt;b&gt;2 &amp; a bit&lt;/b&gt;" in failed["panel"]
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in failed["panel"]
        assert '<button type="button">' in failed["panel"]

        live.publish(outcome(unlinked))
        good = one.build()
        assert good["page"] not in (first["page"], failed["build"])
        assert "1 warning" in good["panel"]
        assert "role=" not in good["panel"], "a warning interrupts nobody"


def test_while_no_build_was_good_each_failed_one_is_a_page_of_its_own(
    live: Live, outcome: Outcome, wrong_amount: Problem
) -> None:
    pages = []
    for ok in (False, False, True, False):
        live.publish(outcome(wrong_amount, ok=ok))
        pages.append(live.state.page)
    assert len(set(pages)) == 3
    assert pages[2] == pages[3]


def test_two_previews_never_share_a_name() -> None:
    assert Live().state.page != Live().state.page


def test_the_end_of_the_preview_ends_the_streams(live: Live, outcome: Outcome) -> None:
    live.publish(outcome())
    events = live.events(ping_s=LONG_ENOUGH_S)
    assert next(events).startswith(b"retry")
    assert next(events).startswith(b"event: build\n")
    live.close()
    assert list(events) == []


@contextmanager
def running(
    book: Path, site: Path, build: Callable[[], BuildOutcome]
) -> Iterator[tuple[int, list[BuildOutcome]]]:
    """A whole preview in a thread of its own: its port, and the outcomes it told its caller."""
    stop, ready = threading.Event(), threading.Event()
    urls: list[str] = []
    outcomes: list[BuildOutcome] = []

    def on_ready(url: str) -> None:
        urls.append(url)
        ready.set()

    def run() -> None:
        preview(
            folders=[book],
            build=build,
            site=site,
            port=0,
            on_ready=on_ready,
            on_built=outcomes.append,
            stop=stop,
        )

    thread = threading.Thread(target=run)
    thread.start()
    try:
        assert ready.wait(LONG_ENOUGH_S)
        yield int(urls[0].rstrip("/").rpartition(":")[2]), outcomes
    finally:
        stop.set()
        thread.join(LONG_ENOUGH_S)
        assert not thread.is_alive()


def test_from_save_to_page(tmp_path: Path, wrong_amount: Problem, ask: Callable[..., Any]) -> None:
    """A save is built and told; a failed build keeps the last good site; mending it brings the new one."""
    book, site = tmp_path / "book", tmp_path / "built"
    book.mkdir()
    site.mkdir()
    recipe = book / "shank.md"

    def save(text: str) -> None:
        """In one step, as most editors do: no build may read half a file."""
        (book / ".shank.md.tmp").write_text(text)
        (book / ".shank.md.tmp").replace(recipe)

    def build() -> BuildOutcome:
        text = recipe.read_text()
        if text == "wrong":
            return BuildOutcome(ok=False, problems=(wrong_amount,), site=site)
        (site / "index.html").write_text(f"<p>{text}</p>")
        return BuildOutcome(ok=True, site=site)

    save("first")
    with running(book, site, build) as (port, outcomes), listening(port) as events:

        def page() -> str:
            answer = ask("/", port=port)
            assert answer.status == 200
            return str(answer.body)

        first = events.build()
        assert page() == f'<p>first</p><script src="/__live.js" data-page="{first["page"]}"></script>'

        save("second")
        second = events.build()
        assert second["page"] != first["page"]
        assert page() == f'<p>second</p><script src="/__live.js" data-page="{second["page"]}"></script>'

        save("wrong")
        failed = events.build()
        assert not failed["ok"]
        assert failed["page"] == second["page"]
        assert "recipes/shank.md:12:5" in failed["panel"]
        assert "<p>second</p>" in page()

        save("mended")
        mended = events.build()
        assert mended["ok"]
        assert mended["panel"] == ""
        assert page() == f'<p>mended</p><script src="/__live.js" data-page="{mended["page"]}"></script>'
    assert [outcome.ok for outcome in outcomes] == [True, True, False, True]


def test_a_build_into_another_folder_is_a_bug(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="the preview serves"):
        preview(
            folders=[tmp_path],
            build=lambda: BuildOutcome(ok=True, site=tmp_path / "output"),
            site=tmp_path / "site",
            port=0,
            on_ready=lambda url: None,
            on_built=lambda outcome: None,
        )


def test_what_a_build_raises_goes_up(tmp_path: Path) -> None:
    def build() -> BuildOutcome:
        raise LookupError("a bug of ours")

    with pytest.raises(LookupError, match="a bug of ours"):
        preview(
            folders=[tmp_path],
            build=build,
            site=tmp_path / "site",
            port=0,
            on_ready=lambda url: None,
            on_built=lambda outcome: None,
        )


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.5", "::", ""])
def test_it_is_never_served_to_other_machines(tmp_path: Path, host: str) -> None:
    with pytest.raises(ValueError, match="this machine alone"):
        preview(
            folders=[tmp_path],
            build=lambda: BuildOutcome(ok=True, site=tmp_path),
            site=tmp_path,
            host=host,
            on_ready=lambda url: None,
            on_built=lambda outcome: None,
        )
