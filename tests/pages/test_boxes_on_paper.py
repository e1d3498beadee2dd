"""Caution boxes as a printer gets them: all words on one sheet, frames and signal words in black, no colour at all."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from PIL import Image
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from tests.pages.conftest import squeezed

FRAMES = """() => [...document.querySelectorAll(".box")].map(box => { const style = getComputedStyle(box);
    return [style.borderTopStyle, style.borderTopColor, style.color, style.breakInside] })"""
BLACK = "rgb(0, 0, 0)"
STYLES = {"danger": "solid", "warning": "double", "caution": "dashed", "notice": "solid"}


def parts_of(box: Tag) -> list[str]:
    """What a box says, part by part: signal word, title, words, reason, what is missing, what is accepted, sources."""
    found = [*box.select(".signal, .says, p, .from li:not(.about)")]
    return [squeezed(part.get_text()) for part in found]


def with_boxes(site: Path) -> list[Path]:
    pages = sorted((site / "recipes").rglob("*.html"))
    return [page for page in pages if 'role="note"' in page.read_text(encoding="utf-8")]


def test_no_box_loses_a_word_or_breaks_over_two_sheets(site: Path, browser: Browser, tmp_path: Path) -> None:
    boxes = 0
    for file in with_boxes(site):
        page = browser.new_page()
        page.goto(file.as_uri())
        pdf = tmp_path / f"{file.parent.name}.pdf"
        page.pdf(path=str(pdf), format="A4", print_background=False)
        page.close()
        sheets = [squeezed(sheet.extract_text()) for sheet in PdfReader(pdf).pages]
        for box in BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser").select(".box"):
            boxes += 1
            parts = parts_of(box)
            assert len(parts) >= 3
            whole = [sheet for sheet in sheets if all(part in sheet for part in parts)]
            assert whole, f"{file.parent.name}: {parts[1]} is not whole on one sheet"
    assert boxes >= 20


def test_frames_are_black_and_differ_by_signal(site: Path, page: Page) -> None:
    seen: set[str] = set()
    for file in with_boxes(site):
        page.goto(file.as_uri())
        page.emulate_media(media="print")
        levels = page.eval_on_selector_all(
            ".box", "boxes => boxes.map(box => box.className.match(/box-(\\w+)/)[1])"
        )
        for level, frame in zip(levels, page.evaluate(FRAMES), strict=True):
            assert frame == [STYLES[level], BLACK, BLACK, "avoid"], f"{file.parent.name}: {level}"
            seen.add(level)
    assert {"warning", "caution"} <= seen


@pytest.mark.parametrize("recipe", ["smoked-elk-shank", "smoked-boar-belly", "hot-smoked-trout"])
def test_paper_has_no_colour(site: Path, page: Page, tmp_path: Path, recipe: str) -> None:
    page.goto((site / f"recipes/{recipe}/index.html").as_uri())
    pdf = tmp_path / "page.pdf"
    page.pdf(path=str(pdf), format="A4", print_background=False)
    subprocess.run(["pdftoppm", "-r", "40", str(pdf), str(tmp_path / "sheet")], check=True)
    sheets = sorted(tmp_path.glob("sheet*.ppm"))
    assert sheets
    for sheet in sheets:
        red, green, blue = Image.open(sheet).split()
        assert red.tobytes() == green.tobytes() == blue.tobytes(), sheet.name
