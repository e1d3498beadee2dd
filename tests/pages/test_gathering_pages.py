"""The pages of a gathering in a browser and on paper: valid, accessible, whole at 320 px, readable at arm's length."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from tests.pages.conftest import Errors
from tests.pages.kinds import OF_A_GATHERING
from tests.render.plan_sample import STEPS

HERE = Path(__file__).parent
THEMES = ("larder", "slate")
KINDS = {**OF_A_GATHERING, "one document": "bound.html"}
LEFT = "net::ERR_ABORTED"
"What was still being fetched when the next page was opened."
POINT = 96 / 72
"[px] Source: CSS, an inch is 96 px and 72 pt."


@pytest.mark.parametrize("theme", THEMES)
def test_every_page_is_valid_html(sites: dict[str, Path], html_errors: Errors, theme: str) -> None:
    for kind, path in KINDS.items():
        assert html_errors(sites[theme] / path) == (1, []), kind


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("theme", THEMES)
def test_pages_pass_the_accessibility_engine(
    sites: dict[str, Path], browser: Browser, theme: str, scheme: str
) -> None:
    axe = (HERE / "node_modules/axe-core/axe.min.js").read_text(encoding="utf-8")
    context = browser.new_context(
        viewport={"width": 390, "height": 844},
        color_scheme=scheme,  # type: ignore[arg-type]  # light or dark
        bypass_csp=True,
    )
    page = context.new_page()
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    found = []
    for kind in ("gathering", "wall sheet", "list", "card"):
        page.goto((sites[theme] / KINDS[kind]).as_uri())
        page.evaluate(axe)
        result = page.evaluate(
            "tags => axe.run(document, {resultTypes: ['violations'], runOnly: tags})", tags
        )
        found += [(kind, one["id"], one["nodes"][0]["html"][:120]) for one in result["violations"]]
        assert len(result["passes"]) > 10
    context.close()
    assert found == []


@pytest.mark.parametrize("width", [320, 390, 1280])
@pytest.mark.parametrize("theme", THEMES)
def test_nothing_scrolls_sideways_and_the_console_is_silent(
    sites: dict[str, Path], page: Page, theme: str, width: int
) -> None:
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on(
        "requestfailed", lambda request: complaints.append(request.url) if request.failure != LEFT else None
    )
    page.set_viewport_size({"width": width, "height": 800})
    for kind, path in KINDS.items():
        page.goto((sites[theme] / path).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, kind
    assert complaints == []


LETTERS = """() => [...document.querySelectorAll('svg.plan text')].map(text => {
    const svg = text.ownerSVGElement;
    return parseFloat(getComputedStyle(text).fontSize) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
})"""


@pytest.mark.parametrize("theme", THEMES)
def test_letters_of_the_strip_are_readable_at_320(sites: dict[str, Path], page: Page, theme: str) -> None:
    page.set_viewport_size({"width": 320, "height": 700})
    page.goto((sites[theme] / KINDS["gathering"]).as_uri())
    sizes = page.evaluate(LETTERS)
    assert len(sizes) > len(STEPS)
    assert min(sizes) >= 12
    table, strip = (
        page.evaluate("s => document.querySelector(s).getBoundingClientRect().top", selector)
        for selector in (".by-day table", ".strip")
    )
    assert table < strip, "a narrow screen has the table first"


TOUCHING = """() => {
    const found = [];
    for (const lane of document.querySelectorAll('svg.plan .lane')) {
        const labels = [...lane.querySelectorAll('text.bar')].map(one => [one.textContent, one.getBoundingClientRect()]);
        labels.forEach(([a, one], n) => labels.slice(n + 1).forEach(([b, other]) => {
            const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
            const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
            if (across > 0.5 && down > 4) found.push([a, b]);
        }));
    }
    return found;
}"""


@pytest.mark.parametrize("theme", THEMES)
def test_no_label_lies_on_another(sites: dict[str, Path], page: Page, theme: str) -> None:
    """As the browser sets them, in the theme's own letters."""
    page.goto((sites[theme] / KINDS["gathering"]).as_uri())
    assert page.evaluate(TOUCHING) == []


def test_waiting_and_work_are_told_apart_without_colour(sites: dict[str, Path], page: Page) -> None:
    page.goto((sites["slate"] / KINDS["gathering"]).as_uri())
    fills = page.evaluate(
        "['.wait', '.work-time'].map(s => getComputedStyle(document.querySelector(`svg.plan ${s}`)).fill)"
    )
    assert fills == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]


@pytest.mark.parametrize("theme", THEMES)
def test_the_wall_sheet_is_read_at_arms_length(sites: dict[str, Path], page: Page, theme: str) -> None:
    """14 pt and more for what is done, larger still for the clock and the stop rules."""
    page.emulate_media(media="print")
    page.goto((sites[theme] / KINDS["wall sheet"]).as_uri())
    size = "s => Math.min(...[...document.querySelectorAll(s)].map(e => parseFloat(getComputedStyle(e).fontSize)))"
    step, clock, rule = (page.evaluate(size, s) / POINT for s in (".day .step", ".day .time", ".stops .rule"))
    assert step >= 14
    assert clock >= 20
    assert rule > step
    for selector in (".running", ".back"):
        assert page.locator(selector).first.is_hidden()


def printed(page: Page, path: Path, into: Path, paper: str) -> PdfReader:
    page.goto(path.as_uri())
    page.pdf(path=str(into), format=paper, print_background=False)
    return PdfReader(into)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("theme", THEMES)
def test_paper_has_all_of_it(
    sites: dict[str, Path], page: Page, tmp_path: Path, theme: str, paper: str
) -> None:
    """The list on one sheet; the clock, the stop rules and a log on three; every step on the wall."""
    listed = printed(page, sites[theme] / KINDS["list"], tmp_path / "list.pdf", paper)
    assert len(listed.pages) == 1
    assert "20 lb" in listed.pages[0].extract_text()
    wall = printed(page, sites[theme] / KINDS["wall sheet"], tmp_path / "wall.pdf", paper)
    assert len(wall.pages) == 3
    text = re.sub(r"\s+", " ", " ".join(sheet.extract_text() for sheet in wall.pages))
    for step in STEPS:
        assert f"{step.start:%H:%M}" in text
    assert "Not past 130 °F (55 °C) inside by Fri 4 Dec 14:30" in text
    plan = printed(page, sites[theme] / KINDS["gathering"], tmp_path / "plan.pdf", paper)
    assert len(plan.pages) <= 4


def test_boxes_to_tick_are_printed_without_backgrounds(sites: dict[str, Path], page: Page) -> None:
    page.emulate_media(media="print")
    page.goto((sites["larder"] / KINDS["list"]).as_uri())
    boxes = page.locator(".to-tick")
    assert boxes.count() == 6
    assert boxes.first.evaluate("e => getComputedStyle(e).borderTopStyle") == "solid"
    box = boxes.first.bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(box["height"])
    assert box["width"] >= 4 * 96 / 25.4, "at least 4 mm"
