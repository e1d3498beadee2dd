"""The recipe page at the stove, in a real browser: every control, on phone and desktop, kept over a reload."""

from __future__ import annotations

import gzip
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.pages.conftest import DESKTOP, PHONE

SHANK = "recipes/smoked-elk-shank/index.html"
BREAD = "recipes/cornbread/index.html"
SCRIPT = Path(__file__).parents[2] / "themes/base/assets/kitchen.js"
SIZES = {"phone": PHONE, "desktop": DESKTOP}
CONTROLS = ".kitchen, input.tick, button.timer, output.timer"
BEFORE, NOON = "2026-11-25T11:59:00", "2026-11-25T12:00:00"

Open = Callable[..., Page]


@pytest.fixture(params=SIZES)
def context(browser: Browser, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    """One reader on a phone, one at a desk; whatever the console complains of fails the test."""
    made = browser.new_context(viewport=SIZES[request.param], timezone_id="America/Denver")
    complaints: list[str] = []
    made.on("console", lambda message: complaints.append(message.text))
    made.on("weberror", lambda error: complaints.append(str(error.error)))
    yield made
    made.close()
    assert complaints == []


@pytest.fixture
def open_page(site: Path, context: BrowserContext) -> Open:
    """A page of the demo book from its folder, at noon by a clock that the test moves."""

    def opened(path: str = SHANK, *, init: str = "") -> Page:
        page = context.new_page()
        page.clock.install(time=BEFORE)
        if init:
            page.add_init_script(init)
        page.goto((site / path).as_uri())
        page.clock.pause_at(NOON)
        return page

    return opened


def names(page: Page, selector: str) -> list[str]:
    """The accessible names as the browser itself works them out."""
    session = page.context.new_cdp_session(page)
    session.send("DOM.enable")
    root = session.send("DOM.getDocument")["root"]["nodeId"]
    nodes = session.send("DOM.querySelectorAll", {"nodeId": root, "selector": selector})["nodeIds"]
    trees = [
        session.send("Accessibility.getPartialAXTree", {"nodeId": node, "fetchRelatives": False})
        for node in nodes
    ]
    return [tree["nodes"][0]["name"]["value"] for tree in trees]


def timer_of(page: Page, stage: str) -> tuple[str, str]:
    """What the button and the time left of a stage say."""
    row = page.locator(".stages > li", has=page.locator(".name", has_text=re.compile(f"^{stage}$")))
    return row.locator("button.timer").inner_text(), row.locator("output.timer").inner_text()


def press(page: Page, stage: str) -> None:
    page.get_by_role("button", name=re.compile(rf"(Start a|Stop the) timer: {stage}, ")).click()


def test_script_is_small() -> None:
    assert len(gzip.compress(SCRIPT.read_bytes())) < 4000


def test_script_asks_no_one_and_writes_no_style() -> None:
    code = SCRIPT.read_text(encoding="utf-8")
    assert not re.search(r"fetch|XMLHttp|import|https?:|\.style|innerHTML|eval", code)


# Ticks.


@pytest.mark.parametrize("path", [SHANK, BREAD])
def test_every_line_row_step_and_stage_has_a_tick(open_page: Open, path: str) -> None:
    page = open_page(path)
    for lines in (".ingredients li", ".weigh tbody tr", ".method ol > li", ".stages > li"):
        count = page.locator(lines).count()
        assert page.locator(f":is({lines}) input.tick").count() == count, lines
        assert count or lines.startswith(".weigh")


def test_tick_is_named_by_its_line_and_follows_it(open_page: Open) -> None:
    page = open_page()
    found = names(page, "input.tick")
    assert len(found) == len(set(found)) >= 12
    assert all(len(name) > 3 for name in found)
    assert any(re.match(r"curing salt no\. 1.* [\d.]+ g ", name) for name in found), found
    assert any(name.startswith("dry 2 h on a rack until tacky") for name in found), found
    page.locator(".grams").first.evaluate("cell => { cell.textContent = '1,234 g' }")
    assert "1,234 g" in names(page, ".weigh input.tick")[0]


def test_ticks_survive_a_reload_and_stay_on_their_page(open_page: Open) -> None:
    page = open_page()
    marked = [0, 3, 9]
    for index in marked:
        page.locator("input.tick").nth(index).check()
    page.reload()
    assert (
        page.locator("input.tick").evaluate_all(
            "all => all.flatMap((box, index) => box.checked ? [index] : [])"
        )
        == marked
    )
    other = open_page(BREAD)
    assert other.locator("input.tick:checked").count() == 0
    other.get_by_role("button", name="Clear the ticks").click()
    page.reload()
    assert page.locator("input.tick:checked").count() == len(marked), "cleared on another page only"


def test_cleared_ticks_stay_cleared(open_page: Open) -> None:
    page = open_page()
    page.locator("input.tick").first.check()
    page.get_by_role("button", name="Clear the ticks").click()
    expect(page.locator(".kitchen .told")).to_have_text("All ticks are cleared.")
    assert page.locator("input.tick:checked").count() == 0
    page.reload()
    assert page.locator("input.tick:checked").count() == 0


def test_tick_holds_for_the_scale_at_which_it_was_made(open_page: Open) -> None:
    """What was weighed for one batch is not weighed for three."""
    page = open_page()
    scale, asked = page.get_by_label("Scale by"), page.get_by_label("to", exact=True)
    tick = page.locator(".weigh input.tick").first
    tick.check()
    scale.select_option("batches")
    asked.fill("3")
    expect(tick).not_to_be_checked()
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator(".printed").evaluate("line => line.textContent").startswith("Scale: 3 batches. ")
    asked.fill("1")
    expect(tick).to_be_checked()


def test_second_window_of_the_same_page_follows(site: Path, open_page: Open) -> None:
    first, second = open_page(BREAD), open_page(BREAD)
    first.locator("input.tick").nth(1).check()
    expect(second.locator("input.tick").nth(1)).to_be_checked()
    second.locator("input.tick").nth(2).check()
    first.reload()
    assert first.locator("input.tick:checked").count() == 2


def test_browser_without_storage_says_that_it_forgets(open_page: Open) -> None:
    page = open_page(init="Storage.prototype.setItem = () => { throw new Error('full') }")
    page.locator("input.tick").first.check()
    expect(page.locator(".kitchen .told")).to_contain_text("This browser remembers nothing of it")
    assert page.locator("input.tick").first.is_checked()
    press(page, "dry")
    assert timer_of(page, "dry") == ("Stop the timer", "2:00:00 left")


def test_spoilt_memory_is_as_none(open_page: Open) -> None:
    page = open_page(init="Storage.prototype.getItem = () => '{spoilt'")
    assert page.locator("input.tick").count() >= 12
    assert page.locator("input.tick:checked").count() == 0


# Timers.


def test_timer_is_offered_for_each_length_up_to_a_day(open_page: Open) -> None:
    page = open_page()
    lengths = page.locator(".stages .length")
    assert any("days" in length for length in lengths.all_inner_texts())
    timed = page.locator(".stages .length[data-minutes]").count()
    assert 0 < timed < lengths.count()
    assert page.locator("button.timer").count() == page.locator("output.timer").count() == timed
    found = names(page, "button.timer")
    assert "Start a timer: dry, 2 h" in found
    assert len(set(found)) == timed
    assert page.locator("output.timer").first.get_attribute("aria-live") == "off"


def test_timer_runs_out_and_says_so(open_page: Open) -> None:
    page = open_page(
        init="""window.tones = 0; const made = AudioContext.prototype.createOscillator;
        AudioContext.prototype.createOscillator = function () { tones += 1; return made.call(this) }"""
    )
    title = page.title()
    press(page, "dry")
    told = page.locator(".kitchen .told")
    expect(told).to_have_text("dry: the timer runs, 2 h.")
    assert timer_of(page, "dry") == ("Stop the timer", "2:00:00 left")
    page.clock.run_for(119 * 60_000 + 50_000)
    assert timer_of(page, "dry") == ("Stop the timer", "0:00:10 left")
    expect(told).to_have_text("dry: the timer runs, 2 h.")
    assert page.title() == title
    page.clock.run_for(10_000)
    expect(told).to_have_text("dry: the time is over, 2 h.")
    assert timer_of(page, "dry") == ("Start a timer", "the time is over")
    assert page.title() == f"dry: the time is over, 2 h. {title}"
    assert page.evaluate("tones") == 3
    page.keyboard.press("Shift")
    assert page.title() == title
    page.reload()
    assert timer_of(page, "dry") == ("Start a timer", "")


def test_status_is_not_rewritten_every_second(open_page: Open) -> None:
    page = open_page()
    press(page, "dry")
    page.evaluate("""() => { window.changes = 0; new MutationObserver(() => { changes += 1 }).observe(
        document.querySelector('.told'), {childList: true, characterData: true, subtree: true}) }""")
    page.clock.run_for(20 * 60_000)
    assert page.evaluate("changes") == 0
    assert timer_of(page, "dry")[1] == "1:40:00 left"


def test_range_runs_to_its_low_end_first(open_page: Open) -> None:
    page = open_page(BREAD)
    press(page, "bake")
    told = page.locator(".kitchen .told")
    expect(told).to_have_text("bake: the timer runs, 22–25 min, to the low end first.")
    page.clock.run_for(21 * 60_000)
    assert timer_of(page, "bake") == ("Stop the timer", "0:01:00 to the low end")
    page.clock.run_for(60_000)
    expect(told).to_have_text("bake: the low end of 22–25 min is reached. The timer runs on to the high end.")
    assert page.title().startswith("bake: the low end of 22–25 min is reached.")
    assert timer_of(page, "bake") == ("Stop the timer", "0:03:00 to the high end")
    page.clock.run_for(3 * 60_000)
    expect(told).to_have_text("bake: the time is over, 22–25 min.")


def test_several_timers_run_at_once_and_one_can_be_stopped(open_page: Open) -> None:
    page = open_page(BREAD)
    press(page, "bake")
    press(page, "rest")
    page.clock.run_for(60_000)
    assert timer_of(page, "bake")[1] == "0:21:00 to the low end"
    assert timer_of(page, "rest")[1] == "0:04:00 left"
    press(page, "bake")
    expect(page.locator(".kitchen .told")).to_have_text("bake: the timer is stopped.")
    assert timer_of(page, "bake") == ("Start a timer", "")
    page.clock.run_for(4 * 60_000)
    expect(page.locator(".kitchen .told")).to_have_text("rest: the time is over, 5 min.")
    page.reload()
    assert timer_of(page, "bake") == ("Start a timer", "")


def test_two_timers_that_end_together_are_both_told(open_page: Open) -> None:
    page = open_page(BREAD)
    press(page, "bake")
    page.clock.run_for(17 * 60_000)
    press(page, "rest")
    page.clock.run_for(5 * 60_000)
    told = page.locator(".kitchen .told")
    expect(told).to_contain_text("bake: the low end of 22–25 min is reached.")
    expect(told).to_contain_text("rest: the time is over, 5 min.")


def test_timer_survives_a_reload(open_page: Open) -> None:
    page = open_page()
    press(page, "dry")
    page.clock.run_for(10 * 60_000)
    page.reload()
    assert timer_of(page, "dry") == ("Stop the timer", "1:50:00 left")
    page.clock.run_for(110 * 60_000)
    expect(page.locator(".kitchen .told")).to_have_text("dry: the time is over, 2 h.")


def test_timer_that_ended_while_the_page_was_closed_says_when(open_page: Open) -> None:
    page = open_page()
    press(page, "dry")
    address = page.url
    page.goto("about:blank")
    page.clock.run_for(125 * 60_000)
    page.goto(address)
    page.clock.run_for(1_000)
    told = page.locator(".kitchen .told")
    expect(told).to_have_text(re.compile(r"dry: the time is over, 2 h, 0:05:0\d ago\."))
    assert page.title().startswith("dry: the time is over")


def test_timers_of_pages_in_one_folder_do_not_mix(open_page: Open) -> None:
    page = open_page(BREAD)
    press(page, "rest")
    other = open_page("recipes/chanterelle-pot-pie/index.html")
    assert timer_of(other, "rest") == ("Start a timer", "")
    kept = "Object.keys(localStorage).map(key => key.replace(/.*recipes/, ''))"
    press(other, "rest")
    assert sorted(other.evaluate(kept)) == ["/chanterelle-pot-pie/", "/cornbread/"]


# The screen.

LOCKS = """window.locks = []; window.refuse = false;
    navigator.wakeLock.request = kind => {
        if (refuse) return Promise.reject(new DOMException('low battery', 'NotAllowedError'));
        const lock = new EventTarget();
        lock.kind = kind;
        lock.release = () => { lock.released = true; lock.dispatchEvent(new Event('release')) };
        locks.push(lock);
        return Promise.resolve(lock);
    };
    window.see = seen => {
        Object.defineProperty(document, 'hidden', {value: !seen, configurable: true});
        if (!seen) locks.filter(lock => !lock.released).forEach(lock => lock.release());
        document.dispatchEvent(new Event('visibilitychange'));
    }"""
"Stands in for the device: a headless browser has no screen to keep awake."


def test_screen_is_kept_awake_and_let_go(open_page: Open) -> None:
    page = open_page(init=LOCKS)
    button = page.get_by_role("button", name="Keep the screen awake")
    told = page.locator(".kitchen .told")
    expect(button).to_have_attribute("aria-pressed", "false")
    button.click()
    expect(told).to_have_text("The screen stays awake while this page is seen.")
    expect(button).to_have_attribute("aria-pressed", "true")
    assert page.evaluate("locks.map(lock => [lock.kind, !!lock.released])") == [["screen", False]]
    button.click()
    expect(button).to_have_attribute("aria-pressed", "false")
    expect(told).to_have_text("The screen may sleep again.")
    assert page.evaluate("locks[0].released")


def test_lock_is_asked_for_again_when_the_page_is_seen_again(open_page: Open) -> None:
    page = open_page(init=LOCKS)
    button = page.get_by_role("button", name="Keep the screen awake")
    button.click()
    expect(page.locator(".kitchen .told")).to_contain_text("stays awake")
    page.evaluate("see(false)")
    expect(button).to_have_attribute("aria-pressed", "true")
    assert page.evaluate("locks.length") == 1
    page.evaluate("see(true)")
    page.wait_for_function("locks.length === 2")
    page.evaluate("refuse = true; see(false); see(true)")
    expect(button).to_have_attribute("aria-pressed", "false")
    expect(page.locator(".kitchen .told")).to_contain_text("refuses")


def test_refusal_and_loss_of_the_lock_are_told(open_page: Open) -> None:
    page = open_page(init=LOCKS)
    button = page.get_by_role("button", name="Keep the screen awake")
    told = page.locator(".kitchen .told")
    page.evaluate("refuse = true")
    button.click()
    expect(told).to_have_text("The device refuses to keep the screen awake.")
    expect(button).to_have_attribute("aria-pressed", "false")
    page.evaluate("refuse = false")
    button.click()
    expect(told).to_contain_text("stays awake")
    page.evaluate("locks[0].release()")
    expect(told).to_have_text("The device lets the screen sleep again.")
    expect(button).to_have_attribute("aria-pressed", "false")


def test_button_is_not_shown_where_the_device_cannot(open_page: Open) -> None:
    page = open_page(init="Object.defineProperty(Navigator.prototype, 'wakeLock', {value: undefined})")
    assert page.locator(".awake").is_hidden()
    assert page.get_by_role("button", name="Clear the ticks").is_visible()


def test_the_browsers_own_lock_is_answered_in_words(open_page: Open) -> None:
    """Whether this machine grants it or not, the reader is told which."""
    page = open_page()
    button = page.get_by_role("button", name="Keep the screen awake")
    button.click()
    told = page.locator(".kitchen .told")
    expect(told).to_have_text(re.compile("stays awake while|refuses to keep"))
    granted = "stays" in told.inner_text()
    expect(button).to_have_attribute("aria-pressed", str(granted).lower())


# Paper.


def test_paper_is_chosen_and_the_small_card_is_not_for_a_cure(open_page: Open) -> None:
    page = open_page(BREAD)
    paper = page.get_by_label("Paper")
    root = page.locator("html")
    expect(root).to_have_attribute("data-paper", "page")
    for value in ("a5", "card", "page"):
        paper.select_option(value)
        expect(root).to_have_attribute("data-paper", value)
    cured = open_page(SHANK).get_by_label("Paper").locator("option")
    assert cured.evaluate_all("all => all.map(one => one.value)") == ["page", "a5"]


def test_print_names_scale_day_and_address(open_page: Open) -> None:
    """The day is the reader's: late in the evening in Denver it is tomorrow in Greenwich already."""
    page = open_page(BREAD, init="window.prints = 0; window.print = () => { prints += 1 }")
    assert page.locator(".printed").is_hidden()
    page.get_by_role("button", name="Print").click()
    assert page.evaluate("prints") == 1
    page.clock.set_fixed_time("2026-01-05T23:30:00-07:00")
    page.get_by_label("Scale by").select_option("serves")
    page.get_by_label("to", exact=True).fill("12")
    page.pdf(format="A4")
    expect(page.locator(".printed")).to_have_text(
        f"Scale: 1½ batches. Printed 2026-01-05 from {page.url}", use_inner_text=False
    )
    assert page.url.endswith("#by=serves&is=12")
    page.emulate_media(media="print")
    assert page.locator(".printed").is_visible()
    assert not [one for one in page.locator("button, select, output").all() if one.is_visible()]


# The page around it.


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("path", [SHANK, BREAD])
def test_page_without_script_is_whole_and_shows_no_control(
    site: Path, browser: Browser, size: str, path: str
) -> None:
    def read(scripts: bool) -> tuple[list[bool], str]:
        context = browser.new_context(viewport=SIZES[size], java_script_enabled=scripts)
        page = context.new_page()
        page.goto((site / path).as_uri())
        if scripts:
            page.evaluate(
                "() => document.querySelectorAll('.kitchen, .bench, .timing').forEach(one => one.remove())"
            )
        seen = [one.is_visible() for one in page.locator(CONTROLS).all()]
        text = " ".join(page.locator("main").inner_text().split())
        context.close()
        return seen, text

    seen, without = read(scripts=False)
    assert seen == [False]
    ticks, with_script = read(scripts=True)
    assert all(ticks)
    assert len(ticks) > 5
    assert with_script == without
    assert len(without) > 1000


def test_works_under_a_sub_path_and_offline_once_loaded(context: BrowserContext, served: str) -> None:
    page = context.new_page()
    page.clock.install(time=BEFORE)
    page.goto(served + SHANK)
    page.clock.pause_at(NOON)
    context.set_offline(True)
    page.locator("input.tick").nth(2).check()
    press(page, "dry")
    page.clock.run_for(60_000)
    assert timer_of(page, "dry") == ("Stop the timer", "1:59:00 left")
    context.set_offline(False)
    page.goto(served + SHANK.removesuffix("index.html"))
    assert page.locator("input.tick").nth(2).is_checked(), "the folder is the same page as its index"
    assert timer_of(page, "dry")[0] == "Stop the timer"
    other = context.new_page()
    other.goto(served + BREAD)
    assert other.locator("input.tick:checked").count() == 0


def test_everything_is_reached_and_worked_by_keyboard(open_page: Open) -> None:
    page = open_page(BREAD, init=LOCKS + "; window.prints = 0; window.print = () => { prints += 1 }")
    wanted = page.locator(
        ".kitchen button:visible, .kitchen select:visible, input.tick:visible, button.timer:visible"
    ).count()
    worked: set[str] = set()
    for _ in range(200):
        page.keyboard.press("Tab")
        kind = page.evaluate("""() => { const one = document.activeElement;
            window.seen = window.seen || new Set();
            if (!one.matches('.kitchen *, .tick, .timer') || seen.has(one)) return '';
            seen.add(one); return one.className }""")
        if kind in ("awake", "tick", "timer", "clear", "print"):
            page.keyboard.press("Space")
            worked.add(kind)
        if kind == "paper":
            page.keyboard.press("ArrowDown")
            worked.add(kind)
    assert page.evaluate("seen.size") == wanted
    assert worked == {"awake", "tick", "timer", "clear", "print", "paper"}
    assert page.locator("input.tick").evaluate_all("all => all.every(box => box.checked)")
    assert page.locator("html").get_attribute("data-paper") == "a5"
    assert page.evaluate("[prints, locks.length]") == [1, 1]
    assert timer_of(page, "rest")[0] == "Stop the timer"


@pytest.mark.parametrize("path", [SHANK, BREAD])
def test_nothing_moves_after_the_first_paint(site: Path, context: BrowserContext, path: str) -> None:
    page = context.new_page()
    page.add_init_script("""window.shift = 0; new PerformanceObserver(list => list.getEntries().forEach(
        one => { shift += one.value })).observe({type: 'layout-shift', buffered: true})""")
    page.goto((site / path).as_uri())
    page.wait_for_load_state("load")
    page.evaluate("() => new Promise(done => setTimeout(done, 500))")
    assert page.evaluate("shift") == 0
