"""The bench's controls in real Chromium: on phone and desktop, from a folder, under a sub-path, offline, without script."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.pages.conftest import DESKTOP, PHONE

SHANK = "recipes/smoked-elk-shank/index.html"
BEANS = "recipes/pinto-beans-with-smoked-shank/index.html"
SIZES: list[Any] = [pytest.param(PHONE, id="phone"), pytest.param(DESKTOP, id="desktop")]


@pytest.fixture(params=SIZES)
def sized(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Page]:
    """A page of each size that must end without an error on its console."""
    context = browser.new_context(viewport=request.param)
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    yield page
    context.close()
    assert errors == []


def cell(page: Page, row: str, column: str = "grams") -> str:
    return (page.locator(f"tr#i-{row} .{column}").text_content() or "").strip()


def ask(page: Page, by: str, text: str) -> None:
    page.get_by_label("Scale by").select_option(by)
    page.get_by_label("to", exact=True).fill(text)


def test_meat_on_the_scale(sized: Page, site: Path) -> None:
    """Twice the written meat of the demo's shank: 10 lb are 4535.92 g, shown up to 5 g."""
    sized.goto((site / SHANK).as_uri())
    written = cell(sized, "meat")
    ask(sized, "meat", "10 lb")
    assert cell(sized, "meat") == "4.54 kg"
    assert cell(sized, "meat") != written
    expect(sized.locator(".bench .state")).to_contain_text("batches")
    sized.get_by_role("button", name="As written").click()
    assert cell(sized, "meat") == written


def test_water_that_breaks_the_limit_empties_every_weight(sized: Page, site: Path) -> None:
    sized.goto((site / "recipes/corned-deer-neck/index.html").as_uri())
    salt = cell(sized, "salt")
    sized.get_by_label("Water in my vessel").fill("0.3 qt")
    assert cell(sized, "salt") == cell(sized, "curing-salt") == "–"
    expect(sized.locator(".weigh .refused")).to_be_visible()
    expect(sized.locator(".weigh .refused")).to_contain_text("is above the limit of")
    expect(sized.locator(".bench .state")).to_contain_text("refused")
    assert "(no weight)" in (sized.locator(".method").text_content() or "")
    sized.get_by_label("Water in my vessel").fill("")
    assert cell(sized, "salt") == salt
    expect(sized.locator(".weigh .refused")).to_be_hidden()


@pytest.mark.parametrize(
    ("by", "text"),
    [
        ("meat", "10"),
        ("meat", "0 lb"),
        ("meat", "ten lb"),
        ("meat", "5 qt"),
        ("meat", "2,268 g"),
        ("batches", "2 3/2"),
        ("meat", "99999999 kg"),
        ("batches", "1/0"),
    ],
)
def test_what_cannot_be_read_changes_nothing_and_says_so(sized: Page, site: Path, by: str, text: str) -> None:
    sized.goto((site / SHANK).as_uri())
    written = cell(sized, "salt")
    ask(sized, by, text)
    assert cell(sized, "salt") == written
    expect(sized.locator(".bench .state")).to_contain_text(f"'{text}' cannot be read.")
    assert sized.get_by_label("to", exact=True).get_attribute("aria-invalid") == "true"


def test_water_without_a_unit_is_no_amount(sized: Page, site: Path) -> None:
    sized.goto((site / SHANK).as_uri())
    sized.get_by_label("Water in my vessel").fill("6")
    expect(sized.locator(".bench .state")).to_contain_text("'6' is no amount of water.")


def test_units_first(sized: Page, site: Path) -> None:
    sized.goto((site / BEANS).as_uri())
    before = sized.locator(".ingredients").text_content()
    sized.get_by_label("Metric").check()
    after = sized.locator(".ingredients li .amount").all_text_contents()
    assert sized.locator(".ingredients").text_content() != before
    assert any(" g" in text or " kg" in text or " mL" in text or " L" in text for text in after)


def test_every_control_by_keyboard(sized: Page, site: Path) -> None:
    sized.goto((site / SHANK).as_uri())
    sized.get_by_label("Scale by").focus()
    names = []
    for _ in range(7):
        names.append(sized.evaluate("document.activeElement.className || document.activeElement.value"))
        sized.keyboard.press("Tab")
    assert names[:4] == ["by", "is", "again", "vessel"]
    assert "us" in names
    sized.get_by_label("to", exact=True).focus()
    sized.keyboard.type("10 lb")
    sized.keyboard.press("Enter")
    assert cell(sized, "meat") == "4.54 kg"
    assert sized.url.startswith("file:"), "Enter sends nothing away"


def test_state_is_in_the_address_and_comes_back(browser: Browser, site: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / SHANK).as_uri())
    ask(page, "meat", "7.5 lb")
    page.get_by_label("Metric").check()
    shared, weight = page.url, cell(page, "curing-salt")
    assert "#by=meat&is=7.5" in shared
    page.reload()
    assert cell(page, "curing-salt") == weight
    page.goto((site / SHANK).as_uri())
    assert cell(page, "curing-salt") == weight, "remembered without the address"
    page.goto((site / BEANS).as_uri())
    assert page.get_by_label("Metric").is_checked(), "units hold for the whole book"
    context.close()
    stranger = browser.new_context().new_page()
    stranger.goto(shared)
    assert cell(stranger, "curing-salt") == weight, "another reader's browser"
    assert stranger.get_by_label("Metric").is_checked()
    stranger.context.close()


def test_a_component_opens_at_the_share_that_the_dish_needs(page: Page, site: Path) -> None:
    page.goto((site / BEANS).as_uri())
    ask(page, "batches", "3")
    need = page.locator("[data-need] a").first
    words = page.locator("[data-batches]").first.text_content() or ""
    need.click()
    expect(page.locator(".bench .state")).to_contain_text(words.split()[0])
    assert page.get_by_label("Scale by").input_value() == "batches"


def test_an_anchor_keeps_the_scale(page: Page, site: Path) -> None:
    page.goto((site / SHANK).as_uri())
    ask(page, "meat", "10 lb")
    page.locator(".method a.word").first.click()
    assert cell(page, "meat") == "4.54 kg"


def test_nonsense_in_the_address_is_as_written(page: Page, site: Path) -> None:
    page.goto((site / SHANK).as_uri())
    written = cell(page, "salt")
    for hash in ("#by=moon&is=3", "#by=meat", "#units=cubits", "#by=meat&is=%3Cb%3E"):
        page.goto("about:blank")
        page.goto((site / SHANK).as_uri() + hash)
        assert cell(page, "salt") == written, hash


def test_without_script_the_page_is_whole(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto((site / SHANK).as_uri())
    assert not page.locator("form.bench").is_visible()
    assert cell(page, "curing-salt").endswith(" g")
    assert not page.locator(".weigh .refused").is_visible()
    assert not page.locator(".asof").first.is_visible()
    context.close()


def test_under_a_sub_path_and_then_offline(browser: Browser, served: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{served}{SHANK}", wait_until="networkidle")
    assert all(url.startswith(served) for url in asked), "no third party"
    context.set_offline(True)
    asked.clear()
    ask(page, "meat", "10 lb")
    assert cell(page, "meat") == "4.54 kg"
    assert [url for url in asked if "/assets/" not in url] == [], "scaling asks nobody"
    context.close()


@pytest.mark.parametrize("file", [SHANK, BEANS])
def test_scaling_shifts_nothing(sized: Page, site: Path, file: str) -> None:
    """Layout shift as the browser itself measures it, input counted too: typing must not move the page."""
    sized.goto((site / file).as_uri())
    sized.evaluate(
        "window.shifts = []; new PerformanceObserver((list) => { for (const one of list.getEntries()) "
        "window.shifts.push(one.value); }).observe({ type: 'layout-shift', buffered: true });"
    )
    for number in ("2", "5.5", "40", "0.5"):
        ask(sized, "batches", number)
        sized.wait_for_timeout(120)
    assert sized.evaluate("window.shifts") == []
    sized.evaluate("document.querySelector('.head').style.paddingBottom = '9rem'")
    sized.wait_for_timeout(120)
    assert sized.evaluate("window.shifts"), "what would be seen is seen"


def test_what_does_not_follow_says_so(page: Page, site: Path) -> None:
    page.goto((site / SHANK).as_uri())
    assert page.locator(".asof:visible").count() == 0
    ask(page, "meat", "10 lb")
    assert page.locator(".asof:visible").count() > 0


def test_the_smokers_sheet_is_offered_only_for_the_scale_that_it_has(page: Page, site: Path) -> None:
    page.goto((site / "recipes/corned-deer-neck/index.html").as_uri())
    link = page.get_by_role("link", name="The smoker’s sheet")
    expect(link).to_be_visible()
    page.get_by_label("Water in my vessel").fill("4 L")
    expect(link).to_be_hidden()
    expect(page.locator("code", has_text="--smoker")).to_have_text(
        'potherb sheet corned-deer-neck --smoker --water "4 L" --into smoker.pdf'
    )
    page.get_by_label("Water in my vessel").fill("0.3 qt")
    expect(page.locator("code", has_text="--smoker")).to_be_hidden()


def test_a_tick_holds_for_one_weight_alone(page: Page, site: Path) -> None:
    page.goto((site / SHANK).as_uri())
    tick = page.locator("#i-curing-salt input.tick")
    page.get_by_label("Water in my vessel").fill("8 qt")
    tick.check()
    page.get_by_label("Water in my vessel").fill("6 qt")
    expect(tick).not_to_be_checked()
    ask(page, "meat", "30 g")
    tick.check()
    ask(page, "meat", "54 g")
    expect(tick).not_to_be_checked()


def test_scripts_are_small(site: Path) -> None:
    scripts = sorted((site / "assets").glob("*.js"))
    assert [one.name for one in scripts] == ["bench.js", "kitchen.js", "measures.js"]
    sizes = {one.name: len(gzip.compress(one.read_bytes(), 9)) for one in scripts}
    assert sizes["bench.js"] + sizes["kitchen.js"] < 12_000, sizes
    assert sizes["measures.js"] < 1_500, "the rounding table, which is data"
