"""The figure of reach as a browser draws it: its letters can be read on the narrowest phone, its lines on paper."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

SHANK = "recipes/smoked-elk-shank/index.html"

LETTERS = """() => [...document.querySelectorAll("svg.graph text")].map(
    text => parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a)"""
OUTSIDE = """() => { const frame = document.querySelector("svg.graph").getBoundingClientRect();
    return [...document.querySelectorAll("svg.graph *")].map(one => one.getBoundingClientRect())
        .filter(box => box.width && (box.left < frame.left - 1 || box.right > frame.right + 1)).length }"""
INK = """() => [...document.querySelectorAll("svg.graph polyline, svg.graph text")].map(
    one => one.matches("text") ? getComputedStyle(one).fill : getComputedStyle(one).stroke)"""


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_letters_are_at_least_twelve_pixels_and_nothing_sticks_out(
    site: Path, page: Page, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((site / SHANK).as_uri())
    sizes = page.evaluate(LETTERS)
    assert len(sizes) >= 10
    assert min(sizes) >= 12
    assert page.evaluate(OUTSIDE) == 0


def test_paper_has_black_lines_and_no_table(site: Path, page: Page) -> None:
    page.goto((site / SHANK).as_uri())
    page.emulate_media(media="print")
    inks = page.evaluate(INK)
    assert len(inks) >= 14
    assert set(inks) == {"rgb(0, 0, 0)"}
    assert page.locator(".reach details").is_hidden()
    assert page.locator("svg.graph").is_visible()


def test_table_opens_without_scrolling_sideways(site: Path, page: Page) -> None:
    page.set_viewport_size({"width": 320, "height": 800})
    page.goto((site / SHANK).as_uri())
    assert page.locator(".reach table").is_hidden()
    page.locator(".reach summary").click()
    assert page.locator(".reach table").is_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
