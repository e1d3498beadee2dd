"""One build of the demo book, one browser, for all page tests."""

from __future__ import annotations

import json
import re
import subprocess
import unicodedata
from collections.abc import Callable, Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from urllib.parse import unquote, urlsplit

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from generator.cli import main
from generator.render import load_theme, render_book, render_gathering
from generator.tables import load_tables
from tests.render.plan_sample import sample_book, sample_plan, sample_sheet

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
CHROMIUM = "/usr/bin/chromium-headless-shell"
ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
Errors = Callable[[Path], tuple[int, list[str]]]
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


@pytest.fixture(scope="session")
def alone(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """What the command writes as a file by itself: a smoker's sheet and a sheet of labels."""
    recipe, folder = str(ROOT / "content/recipes/smoked-elk-shank.md"), tmp_path_factory.mktemp("alone")
    written = {"smoker": ("--smoker",), "labels": ("--labels", "3")}
    for kind, words in written.items():
        result = CliRunner().invoke(main, ["sheet", recipe, *words, "--into", str(folder / f"{kind}.html")])
        assert result.exit_code == 0, result.output
    return {kind: folder / f"{kind}.html" for kind in written}


@pytest.fixture(scope="session")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The sample plan of a gathering in each theme, and beside it the one document."""
    found = {}
    for name in ("larder", "slate"):
        theme, folder = load_theme(name), tmp_path_factory.mktemp(name)
        site = render_book(sample_book(), (sample_plan(),), tables=load_tables(), theme=theme)
        files = {page.path: page.html.encode() for page in site.pages}
        files |= {asset.path: asset.content for asset in site.assets}
        bound = render_gathering(sample_sheet(theme), sample_plan())
        for path, content in (files | {"bound.html": bound.encode()}).items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_bytes(content)
        found[name] = folder
    return found


@pytest.fixture(scope="session")
def html_errors(
    site: Path, sites: dict[str, Path], alone: dict[str, Path], tmp_path_factory: pytest.TempPathFactory
) -> Errors:
    """How many pages a file or a folder holds, and what the W3C's validator finds in them: one run of it over all."""
    jar = HERE / "node_modules/vnu-jar/build/dist/vnu.jar"
    assert jar.exists(), "no HTML checker: run bash tests/run, which installs it"
    wrong = tmp_path_factory.mktemp("wrong") / "wrong.html"
    wrong.write_text(
        "<!DOCTYPE html><html lang=en><title>Wrong</title><p id=a>One</p><p id=a>Two</p>", encoding="utf-8"
    )
    checked = [site, *sites.values(), *alone.values(), wrong]
    result = subprocess.run(
        ["java", "-jar", str(jar), "--skip-non-html", "--format", "json", *map(str, checked)],
        capture_output=True,
        text=True,
        check=False,
    )
    messages = [one for one in json.loads(result.stderr)["messages"] if one["type"] == "error"]

    def errors(path: Path) -> tuple[int, list[str]]:
        assert any(path.is_relative_to(one) for one in checked), f"{path} was not looked at"
        found = [(Path(unquote(urlsplit(one["url"]).path)), one) for one in messages]
        told = [
            f"{file}:{one.get('lastLine')}: {one['message']}"
            for file, one in found
            if file.is_relative_to(path)
        ]
        return len([path] if path.is_file() else list(path.rglob("*.html"))), told

    assert errors(wrong)[1], "the validator finds nothing in a page that has one id twice"
    return errors


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
    """Debian's Chromium without its windows; a machine without it fails, it does not skip."""
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
