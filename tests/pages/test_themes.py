"""Every theme over the demo book: readable in light and dark and by a reader's own palette, narrow, by finger, on paper.

The accessibility engine over the theme of the demo book is in test_site.py; here it looks at the other themes, and at
the controls in all of them. The controls are set into a page by hand: a theme styles them before any script shows them.
"""

from __future__ import annotations

import gzip
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Browser, BrowserContext, Page
from pypdf import PdfReader

from generator.build import build_site
from generator.render.theme import themes_root
from tests.pages.conftest import squeezed
from tests.pages.kinds import OF_THE_BOOK as KINDS
from tests.pages.test_boxes_on_paper import parts_of
from tests.pages.test_site import DEMO, HERE

THEMES = sorted(folder.parent.name for folder in themes_root().glob("*/theme.toml"))
OF_THE_DEMO = "larder"
OTHERS = [name for name in THEMES if name != OF_THE_DEMO]
CURED = KINDS["cured component"]
DISH = KINDS["dish"]
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
COLOURS = ["color-contrast"]
"All that changes in the dark."
MOST_BYTES = 60_000

BENCH = """
<form class="bench"><fieldset class="by"><legend>Scale by</legend>
<label><input type="radio" name="by" checked> batches</label> <label><input type="radio" name="by"> meat</label></fieldset>
<fieldset><legend>How much</legend><label>Meat <input value="7.5"></label>
<label>Unit <select><option>lb</option></select></label> <button type="button">As written</button></fieldset>
<fieldset><legend>Paper</legend><label>Print as <select class="paper"><option>page</option></select></label>
<button type="button" class="awake" aria-pressed="true">Keep the screen awake</button></fieldset>
<p class="state" role="status">Scaled to 7.5 lb of meat.</p><p class="gone" hidden>Not to be seen</p></form>
"""
"The controls as a script shows them, by the names that themes style."

SET_IN = """bench => {
    document.querySelector("article > header").insertAdjacentHTML("afterend", bench);
    const tick = '<input type="checkbox" class="tick" checked aria-label="done">';
    for (const line of document.querySelectorAll(".ingredients li, .method .prose > ol > li, .weigh tbody th"))
        line.insertAdjacentHTML("afterbegin", tick);
    for (const length of document.querySelectorAll(".stage .length"))
        length.insertAdjacentHTML("afterend", ' <button type="button" class="timer">Set going</button>');
    document.querySelector("article").insertAdjacentHTML("beforeend", '<p class="printed mine">Scaled by 2, from here.</p>');
}"""

TARGETS = """() => [...document.querySelectorAll("a, button, input, select, summary, [tabindex='0']")].filter(one => {
    if (one.matches(".skip, .wide") || !one.getClientRects().length) return false;
    const block = one.closest("p, li, dd, td, th, h1, h2, h3, figcaption, label");
    const own = one.textContent.trim().length;
    const inText = one.matches("a") && block && block.textContent.trim().length > own;
    const box = one.getBoundingClientRect();
    return !inText && (box.height < 24 || box.width < 24);
}).map(one => one.outerHTML.slice(0, 90))"""
"What a finger has to hit, but for links in a run of text (WCAG 2.2, 2.5.8: at least 24 by 24 CSS pixels)."

CONTRAST = """selector => [...document.querySelectorAll(selector)].map(one => {
    const parts = colour => colour.match(/[\\d.]+/g).map(Number);
    const light = colour => { const [r, g, b] = parts(colour).slice(0, 3).map(part => part / 255).map(
        part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
    let under = one;
    while (parts(getComputedStyle(under).backgroundColor)[3] === 0) under = under.parentElement;
    const pair = [light(getComputedStyle(one).color), light(getComputedStyle(under).backgroundColor)];
    return (Math.max(...pair) + 0.05) / (Math.min(...pair) + 0.05);
})"""
"Contrast by the formula of WCAG 2.2 (relative luminance)."

INKS = """() => [...document.querySelectorAll(".plate path, .plate ellipse, .plate circle, .symbol *")].map(one => {
    const style = getComputedStyle(one); return style.stroke === "none" ? style.fill : style.stroke })"""

MOVING = """() => [...document.querySelectorAll("*")].filter(one => {
    const style = getComputedStyle(one);
    return style.scrollBehavior === "smooth" || style.animationName !== "none" || parseFloat(style.transitionDuration) > 0
}).length"""


@pytest.fixture(scope="session")
def looks(site: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The demo book in every theme: the one build that all page tests share, and one more for each other theme."""
    built = {OF_THE_DEMO: site}
    for name in OTHERS:
        folder = tmp_path_factory.mktemp(name)
        book = folder / "content"
        shutil.copytree(DEMO, book)
        text = (DEMO / "book.yaml").read_text(encoding="utf-8")
        assert f"theme: {OF_THE_DEMO}" in text
        (book / "book.yaml").write_text(
            text.replace(f"theme: {OF_THE_DEMO}", f"theme: {name}"), encoding="utf-8"
        )
        build_site(book, into=folder / "out")
        built[name] = folder / "out"
    return built


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 390, "height": 844}, bypass_csp=True)
    yield made
    made.close()


def violations(page: Page, only: list[str]) -> list[tuple[str, str]]:
    """What the accessibility engine finds on an open page by these tags or rules."""
    if not page.evaluate("'axe' in window"):
        page.evaluate((HERE / "node_modules/axe-core/axe.min.js").read_text(encoding="utf-8"))
    result = page.evaluate("only => axe.run(document, {resultTypes: ['violations'], runOnly: only})", only)
    assert len(result["passes"]) > (0 if only == COLOURS else 10)
    return [(found["id"], found["nodes"][0]["html"][:120]) for found in result["violations"]]


def open_bench(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    page.evaluate(SET_IN, BENCH)


def printed(page: Page, into: Path, *, paper: str = "", sheet: str = "A4") -> PdfReader:
    """An open page as a PDF, on the paper that the reader chose, else on the printer's own."""
    page.evaluate("paper => { document.documentElement.dataset.paper = paper }", paper)
    page.pdf(path=str(into), format=sheet, prefer_css_page_size=True, print_background=False)
    return PdfReader(into)


def millimetres(reader: PdfReader) -> set[tuple[int, int]]:
    """Width and height of every sheet; a point is 1/72 in, an inch 25.4 mm."""
    boxes = [page.mediabox for page in reader.pages]
    return {(round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) for box in boxes}


def test_there_are_two_themes_and_the_demo_has_one_of_them() -> None:
    assert len(THEMES) >= 2
    assert OF_THE_DEMO in THEMES


@pytest.mark.parametrize("name", OTHERS)
def test_every_page_kind_passes_the_accessibility_engine_in_light_and_dark(
    looks: dict[str, Path], context: BrowserContext, name: str
) -> None:
    page = context.new_page()
    for kind, path in KINDS.items():
        page.emulate_media(color_scheme="light")
        page.goto((looks[name] / path).as_uri())
        assert violations(page, TAGS) == [], kind
        page.emulate_media(color_scheme="dark")
        assert violations(page, COLOURS) == [], kind


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_controls_pass_the_accessibility_engine_and_what_is_ticked_stays_readable(
    looks: dict[str, Path], context: BrowserContext, name: str, scheme: Any
) -> None:
    page = context.new_page()
    page.emulate_media(color_scheme=scheme)
    open_bench(page, looks[name] / CURED)
    assert violations(page, TAGS) == []
    ticked = page.evaluate(CONTRAST, "li:has(.tick:checked), tr:has(.tick:checked) > *")
    assert len(ticked) > 15
    assert min(ticked) >= 4.5
    assert page.locator(".gone").is_hidden()
    assert page.locator(".printed.mine").is_hidden()


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_scrolls_sideways_and_every_target_can_be_hit(
    looks: dict[str, Path], page: Page, name: str, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    for kind, path in KINDS.items():
        page.goto((looks[name] / path).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, kind
        assert page.evaluate(TARGETS) == [], kind
    open_bench(page, looks[name] / CURED)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate(TARGETS) == []


def test_a_target_too_small_is_seen(looks: dict[str, Path], page: Page) -> None:
    open_bench(page, looks[OF_THE_DEMO] / CURED)
    page.evaluate("document.querySelector('.tick').style.width = '20px'")
    assert len(page.evaluate(TARGETS)) == 1


@pytest.mark.parametrize("name", THEMES)
def test_a_palette_of_the_readers_own_leaves_every_drawing_border_and_focus(
    looks: dict[str, Path], browser: Browser, name: str
) -> None:
    """Forced colours: nothing is drawn in the colour of the ground that was not meant to be cut out of a drawing."""
    context = browser.new_context(forced_colors="active", color_scheme="dark")
    page = context.new_page()
    page.goto((looks[name] / CURED).as_uri())
    ground, text = page.evaluate(
        "() => [getComputedStyle(document.body).backgroundColor, getComputedStyle(document.body).color]"
    )
    assert ground != text
    inks = page.evaluate(INKS)
    assert len(inks) > 10
    assert set(inks) <= {ground, text}
    assert inks.count(text) > len(inks) / 2
    frames = page.eval_on_selector_all(
        ".box", "boxes => boxes.map(box => getComputedStyle(box).borderTopStyle)"
    )
    assert {"double", "dashed"} <= set(frames)
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    context.close()


@pytest.mark.parametrize("name", THEMES)
def test_focus_is_seen_and_nothing_moves_for_who_asked_for_rest(
    looks: dict[str, Path], page: Page, name: str
) -> None:
    page.emulate_media(reduced_motion="reduce")
    open_bench(page, looks[name] / CURED)
    assert page.evaluate(MOVING) == 0
    widths = []
    for _ in range(16):
        page.keyboard.press("Tab")
        widths.append(page.evaluate("parseFloat(getComputedStyle(document.activeElement).outlineWidth)"))
    assert min(widths) >= 2
    page.emulate_media(reduced_motion="no-preference")
    assert page.evaluate(MOVING) == 1


@pytest.mark.parametrize("name", THEMES)
def test_every_page_is_light_to_fetch(looks: dict[str, Path], name: str) -> None:
    """A page with both its style sheets and its scripts, packed as hosts send them, without photos."""
    for path in sorted(looks[name].rglob("*.html")):
        links = re.findall(
            r'<link rel="\w+" href="([^"]+)"|<script[^>]* src="([^"]+)"', path.read_text("utf-8")
        )
        files = {path, *((path.parent / (style or script)).resolve() for style, script in links)}
        assert {file.name for file in files} >= {"screen.css", "print.css", "icon.svg"}
        assert sum(len(gzip.compress(file.read_bytes())) for file in files) < MOST_BYTES, path


@pytest.mark.parametrize("name", THEMES)
def test_theme_is_data_and_drawing_only(name: str) -> None:
    """No code of any kind, no sum worked out in a style beyond lengths: a theme cannot hold a second arithmetic."""
    files = [path for path in (themes_root() / name).rglob("*") if path.is_file()]
    assert {path.suffix for path in files} <= {".toml", ".css", ".svg", ".html"}
    for path in files:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"<script|javascript:|\son\w+\s*=|expression\(", text, re.IGNORECASE), path


def test_drawings_carry_their_own_strokes() -> None:
    """A renderer that does not style drawings (the one that makes PDFs) would fill every line and every cut with black."""
    shapes = [
        (path.name, shape)
        for path in sorted(themes_root().glob("*/plates/*.svg"))
        for shape in BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser").find_all(class_=True)
        if shape.name != "svg" and shape["class"] != ["solid"]
    ]
    assert len(shapes) > 15
    assert [name for name, shape in shapes if not shape.get("fill")] == []


@pytest.mark.parametrize("name", THEMES)
def test_paper_is_the_printers_own_or_the_one_chosen_and_a_cure_gets_no_card(
    looks: dict[str, Path], page: Page, tmp_path: Path, name: str
) -> None:
    page.goto((looks[name] / DISH).as_uri())
    for paper, sheet, size in (
        ("", "A4", (210, 297)),
        ("", "Letter", (216, 279)),
        ("a5", "A4", (148, 210)),
        ("card", "A4", (152, 102)),
    ):
        reader = printed(page, tmp_path / "dish.pdf", paper=paper, sheet=sheet)
        (found,) = millimetres(reader)
        assert found == pytest.approx(size, abs=1), (paper, sheet)
        if not paper:
            assert len(reader.pages) == 1, f"{sheet}: the dish is on one side"
    page.goto((looks[name] / CURED).as_uri())
    (size,) = millimetres(printed(page, tmp_path / "cured.pdf", paper="card"))
    assert size == pytest.approx((210, 297), abs=1)


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("paper", ["", "a5"])
def test_no_caution_and_no_weight_is_cut_and_no_control_is_printed(
    looks: dict[str, Path], page: Page, tmp_path: Path, name: str, paper: str
) -> None:
    file = looks[name] / CURED
    open_bench(page, file)
    reader = printed(page, tmp_path / "cured.pdf", paper=paper)
    sheets = [squeezed(sheet.extract_text()) for sheet in reader.pages]
    tree = BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
    wholes = [parts_of(box) for box in tree.select(".box")]
    wholes.append(
        [squeezed(cell.get_text()) for cell in tree.select(".ledger table td, .ledger table tbody th")]
    )
    assert len(wholes) >= 4
    for parts in wholes:
        assert any(all(part in sheet for part in parts) for sheet in sheets), parts[:2]
    everything = "".join(sheets)
    assert "Scaledby2,fromhere." in everything
    for control in ("Scaleby", "Aswritten", "Keepthescreenawake", "Setgoing", "Byingredient"):
        assert control not in everything, control


@pytest.mark.parametrize("name", THEMES)
def test_card_keeps_name_vitals_ingredients_method_and_cautions(
    looks: dict[str, Path], page: Page, tmp_path: Path, name: str
) -> None:
    file = looks[name] / DISH
    page.goto(file.as_uri())
    reader = printed(page, tmp_path / "card.pdf", paper="card")
    text = squeezed(" ".join(sheet.extract_text() for sheet in reader.pages))
    tree = BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
    for unseen in tree.select("[hidden]"):
        unseen.decompose()
    kept = tree.select(
        "h1, .head .vitals dd, .ingredients li, .method li, .stage, .box .says, .box p, .facts li"
    )
    assert len(kept) > 20
    for one in kept:
        assert squeezed(one.get_text()).casefold() in text.casefold(), one
    assert len(reader.pages) <= 2, "both sides of one card"
