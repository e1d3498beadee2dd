"""The demo book as a site: valid, accessible, relative, quiet, and the same bytes every time."""

from __future__ import annotations

import hashlib
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from generator.cli import main
from tests.pages.conftest import Errors
from tests.pages.kinds import OF_THE_BOOK as KINDS

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
DEMO = ROOT / "content"
CSP = {"default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self'", "font-src 'self'"} | {
    "base-uri 'none'",
    "form-action 'none'",
}


def pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def soup(path: Path) -> BeautifulSoup:
    return BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")


def test_every_page_is_valid_html(site: Path, html_errors: Errors) -> None:
    seen, errors = html_errors(site)
    assert errors == []
    assert seen == len(pages(site)) >= 30


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("kind", KINDS)
def test_page_kind_passes_the_accessibility_engine(
    site: Path, browser: Browser, kind: str, scheme: str
) -> None:
    axe = (HERE / "node_modules/axe-core/axe.min.js").read_text(encoding="utf-8")
    context = browser.new_context(
        viewport={"width": 390, "height": 844},
        color_scheme=scheme,  # type: ignore[arg-type]  # light or dark
        bypass_csp=True,
    )
    page = context.new_page()
    page.goto((site / KINDS[kind]).as_uri())
    page.evaluate(axe)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    result = page.evaluate("tags => axe.run(document, {resultTypes: ['violations'], runOnly: tags})", tags)
    context.close()
    found = [(violation["id"], violation["nodes"][0]["html"][:120]) for violation in result["violations"]]
    assert found == []
    assert len(result["passes"]) > 10


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_nothing_scrolls_sideways(site: Path, page: Page, kind: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((site / KINDS[kind]).as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("kind", KINDS)
def test_page_opens_from_a_folder_without_a_complaint(site: Path, page: Page, kind: str) -> None:
    """The console stays empty: no blocked style, no missing file, no request to anyone else."""
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("requestfailed", lambda request: complaints.append(request.url))
    page.on(
        "request", lambda request: None if request.url.startswith("file:") else complaints.append(request.url)
    )
    page.goto((site / KINDS[kind]).as_uri())
    page.wait_for_load_state("load")
    assert complaints == []
    assert page.evaluate("getComputedStyle(document.body).fontFamily") != "Times New Roman"


class Addresses(HTMLParser):
    """Every address and id of a page, read by another parser than the one that wrote or checked it."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in ("href", "src") and value:
                self.links.append(value)
            if name == "id" and value:
                assert value not in self.ids, f"id {value} twice"
                self.ids.add(value)


def test_every_link_is_relative_and_leads_somewhere(site: Path) -> None:
    read = {}
    for path in pages(site):
        addresses = Addresses()
        addresses.feed(path.read_text(encoding="utf-8"))
        read[path.resolve()] = addresses
    followed = 0
    for path, addresses in read.items():
        for link in addresses.links:
            if re.match(r"(https?|mailto):", link):
                continue
            assert not link.startswith("/"), f"{path}: {link} is not relative"
            file, _, fragment = link.partition("#")
            target = (path.parent / file).resolve() if file else path
            assert target.is_file(), f"{path}: {link} leads nowhere"
            if fragment:
                assert fragment in read[target].ids, f"{path}: {link} has no such place"
            followed += 1
    assert followed > 500


def test_every_page_carries_the_content_security_policy(site: Path) -> None:
    for path in pages(site):
        tag = soup(path).find("meta", attrs={"http-equiv": "Content-Security-Policy"})
        assert tag is not None, path
        assert {part.strip() for part in str(tag["content"]).split(";")} >= CSP  # type: ignore[index]  # a tag, as it has attrs


def test_no_page_has_inline_style_or_script(site: Path) -> None:
    for path in pages(site):
        tree = soup(path)
        assert tree.find(attrs={"style": True}) is None, path
        assert tree.find("style") is None, path
        for script in tree.find_all("script"):
            assert script.get("src") or script.get("type") in ("application/ld+json", "application/json"), (
                path
            )
        assert not [tag for tag in tree.find_all(True) if any(name.startswith("on") for name in tag.attrs)]


def test_two_builds_are_the_same_bytes(site: Path, tmp_path: Path) -> None:
    again = tmp_path / "again"
    assert CliRunner().invoke(main, ["site", str(DEMO), "--into", str(again)]).exit_code == 0

    def sums(folder: Path) -> dict[str, str]:
        return {
            path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in sorted(folder.rglob("*"))
            if path.is_file()
        }

    assert sums(site) == sums(again)


def test_demo_has_what_the_book_promises(site: Path) -> None:
    recipes = sorted((DEMO / "recipes").glob("*.md"))
    cured = [path for path in recipes if "\ncure:\n" in path.read_text(encoding="utf-8")]
    assert len(recipes) >= 18
    assert len(cured) >= 6
    collards = soup(site / "recipes/collards-in-smoked-stock/index.html").get_text(" ")
    assert "Smoked elk shank" in collards, "two links deep: shank, stock, greens"


def test_component_names_its_dishes_and_dish_its_components(site: Path) -> None:
    shank = soup(site / "recipes/smoked-elk-shank/index.html")
    links = {str(tag["href"]) for tag in shank.find_all("a", href=True)}
    assert "../pinto-beans-with-smoked-shank/index.html" in links
    beans = soup(site / "recipes/pinto-beans-with-smoked-shank/index.html")
    assert "../smoked-elk-shank/index.html" in {str(tag["href"]) for tag in beans.find_all("a", href=True)}


def test_cured_page_prints_with_all_its_weights_and_cautions(site: Path, page: Page, tmp_path: Path) -> None:
    """A real PDF, read back by a PDF reader."""
    page.goto((site / KINDS["cured component"]).as_uri())
    file = tmp_path / "shank.pdf"
    page.pdf(path=str(file), format="A4", print_background=False)
    reader = PdfReader(file)
    text = re.sub(r"\s+", " ", " ".join(sheet.extract_text() for sheet in reader.pages))
    tree = soup(site / KINDS["cured component"])
    boxes = tree.find_all(attrs={"role": "note"})
    assert len(boxes) >= 3
    for box in boxes:
        heading = box.find(["h2", "h3", "h4", "p"])
        assert heading is not None
        words = re.sub(r"\s+", " ", heading.get_text(" ")).strip()
        assert words.casefold()[:25] in text.casefold(), words
    assert "150 ppm" in text
    assert len(reader.pages) <= 4


def test_every_number_of_the_weigh_table_is_that_of_the_command(site: Path) -> None:
    """The page and `potherb sheet --json` say the same grams."""
    result = CliRunner().invoke(main, ["sheet", str(DEMO / "recipes/smoked-elk-shank.md"), "--json"])
    assert result.exit_code == 0, result.output
    shown = json.loads(result.stdout)["cure"]["shown"]
    text = soup(site / KINDS["cured component"]).get_text(" ")
    for key in ("salt", "sugar", "curing_salt"):
        assert shown[key] in text, key
