"""One build of the demo book, one browser, for all page tests."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from generator.cli import main

ROOT = Path(__file__).parents[2]
CHROMIUM = "/usr/bin/chromium"
ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"width": 390, "height": 844}
DESKTOP = {"width": 1280, "height": 900}


def squeezed(words: str) -> str:
    """Words without any space and with each ligature as its letters.

    A PDF breaks lines where it likes, sets a symbol before the signal word, and has `fi` as one sign where the
    font of the machine has one.
    """
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", words))


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo book, built once by the command a reader types; it must have no problem at all."""
    into = tmp_path_factory.mktemp("site") / "out"
    result = CliRunner().invoke(main, ["site", str(ROOT / "content"), "--into", str(into)])
    assert result.exit_code == 0, result.output
    assert result.stderr.strip() == "", "the demo book has problems"
    return into


class Quiet(SimpleHTTPRequestHandler):
    """A server of files that keeps no log."""

    def log_message(self, format: str, *args: object) -> None:
        """Nothing."""


@pytest.fixture(scope="session")
def served(site: Path) -> Iterator[str]:
    """The address of the site under a sub-path of a server of this machine."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(site.parent)))
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/{site.name}/"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's Chromium; a machine without it fails, it does not skip."""
    assert Path(CHROMIUM).exists(), "no browser: run bash tests/run, which installs it"
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, headless=True, args=ARGS)
        yield chromium
        chromium.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A fresh desktop page that remembers every error of its console."""
    context = browser.new_context(viewport=DESKTOP)
    yield context.new_page()
    context.close()
