"""The section on how far it has reached: its sentences, its figure with an equal table, and what it never says."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from generator.build import kitchen
from generator.compute import compute_book
from generator.model.page import Site
from generator.model.results import ComputedBook
from generator.problems import ProblemLog
from generator.read import read_book
from generator.render import Theme, load_theme, render_book, render_sheet
from generator.resolve import resolve_book
from tests.render import reach_sample, sample
from tests.render.helpers import SHANK, one, parse, words

Render = Callable[[ComputedBook], Site]

FORBIDDEN = re.compile(r"\bsafe|\bcured through|\bfully cured|ready to eat|pasteuri|proof", re.IGNORECASE)
"Never in this section, even negated."

DEMO = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def page(render: Render) -> BeautifulSoup:
    return parse(render(sample.book(reach_sample.shank(), sample.beans())), SHANK)


@pytest.fixture(scope="module")
def section(page: BeautifulSoup) -> Tag:
    return one(page, "section.reach")


def test_section_stands_behind_the_method(page: BeautifulSoup) -> None:
    headings = [words(tag) for tag in page.find_all("h2")]
    at = headings.index("How far it has reached")
    assert headings[at - 1] == "Method"


def test_recipe_without_an_estimate_has_no_section(render: Render) -> None:
    assert not parse(render(sample.book()), SHANK).select(".reach")


def test_sentence_and_nitrite_stand_side_by_side(section: Tag) -> None:
    assert words(one(section, ".estimate")) == (
        "The estimated salt level at the middle is about 20 % (likely range 10 to 25 %) of the even level "
        "after 7 days: probably not yet reached. Nitrite at the middle: probably not yet reached."
    )
    assert "on day 21 in the fast case, and not within 120 days in the slow case." in words(section)
    assert "Worked out for 6 lb (2.725 kg) of meat in 1.04 times its weight of water." in words(section)


def test_cure_without_nitrite_is_silent_about_it(render: Render) -> None:
    computed = reach_sample.shank(nitrite_words="", caveats=("An estimate.",))
    page = parse(render(sample.book(computed, sample.beans())), SHANK)
    assert "itrite" not in words(one(page, ".reach"))


def test_caveats_are_a_plain_list_and_escaped(section: Tag) -> None:
    caveats = [words(item) for item in section.select("ul.caveats > li")]
    assert caveats == ["An estimate for planning.", "Nitrite <lags>."]
    assert one(section, "ul.caveats").find_parent("details") is None


def test_figure_has_a_name_and_a_description(page: BeautifulSoup, section: Tag) -> None:
    svg = one(section, "svg")
    assert svg["role"] == "img"
    title, description = one(svg, "title"), one(svg, "desc")
    assert svg["aria-labelledby"] == f"{title['id']} {description['id']}"
    assert words(title) == "Estimated salt at the middle, day by day"
    assert "it stands at 20 % of the even level" in words(description)
    ids = [tag["id"] for tag in page.find_all(id=True)]
    assert len(ids) == len(set(ids))


def test_figure_marks_its_axes_its_day_and_both_lines(section: Tag) -> None:
    svg = one(section, "svg")
    texts = [words(text) for text in svg.find_all("text")]
    assert "salt, % of the even level" in texts
    assert "days in the cure" in texts
    assert "day 7" in texts
    assert one(svg, "polyline.without")["stroke-dasharray"]
    assert not one(svg, "polyline.central").get("stroke-dasharray")
    assert len(str(one(svg, "polygon.band")["points"]).split()) == 2 * 29
    caption = words(one(section, "figcaption"))
    for said in (
        "Solid line",
        "dashed line: the same without the pump",
        "Grey band",
        "day 7, the recipe's own",
    ):
        assert said in caption


def test_letters_are_twelve_pixels_on_the_narrowest_phone(section: Tag) -> None:
    """320 px less 17 px of margin on each side is 286 px for a figure 320 wide."""
    svg = one(section, "svg")
    width = float(str(svg["viewbox"]).split()[2])
    assert float(str(svg["font-size"])) * 286 / width >= 12


def test_figure_needs_no_inline_style(page: BeautifulSoup) -> None:
    assert not page.find_all(style=True)


def test_table_has_the_numbers_of_the_figure(section: Tag) -> None:
    details = one(section, "details")
    assert words(one(details, "caption")) == "Estimated salt at the middle, in % of the even level"
    heads = details.select("thead th")
    assert [words(head) for head in heads] == ["Day", "Slow", "Central", "Fast", "Central, no pump"]
    assert all(head["scope"] == "col" for head in heads)
    rows = details.select("tbody tr")
    assert len(rows) == 29
    assert all(one(row, "th")["scope"] == "row" for row in rows)
    # day 7 of 28: a quarter of 40, 80, 100 and 40 %
    assert [words(cell) for cell in rows[7].find_all(["th", "td"])] == [
        "7, the recipe's own", "10", "20", "25", "10",
    ]  # fmt: skip
    assert [words(cell) for cell in rows[28].find_all("td")] == ["40", "80", "100", "40"]


def test_table_without_a_pump_has_no_column_for_it(render: Render) -> None:
    computed = reach_sample.shank(series_without_pump=None)
    section = one(parse(render(sample.book(computed, sample.beans())), SHANK), ".reach")
    assert len(section.select("thead th")) == 4
    assert "pump" not in words(section)


def test_heading_of_a_recipe_cannot_take_the_ids_of_the_figure(render: Render) -> None:
    computed = reach_sample.shank()
    text = "## Reach title\n\nOne.\n\n## Reach description\n\nTwo."
    recipe = sample.replace(computed.recipe, body=sample.body(text))
    page = parse(render(sample.book(sample.replace(computed, recipe=recipe), sample.beans())), SHANK)
    ids = [tag["id"] for tag in page.find_all(id=True)]
    assert len(ids) == len(set(ids))


def test_sources_of_the_page_carry_those_of_the_estimate(page: BeautifulSoup) -> None:
    links = {str(link["href"]).partition("#")[2] for link in one(page, ".sources").find_all("a")}
    assert {"source-pork-brine-2015", "source-house"} <= links


def test_sheet_has_the_section_too(theme: Theme) -> None:
    computed = reach_sample.shank()
    html = render_sheet(sample.sheet(theme, sample.book(computed, sample.beans()), units="metric"), computed)
    assert words(one(BeautifulSoup(html, "html.parser"), ".reach h2")) == "How far it has reached"


# the demo book, as it is computed


@pytest.fixture(scope="module")
def sections() -> dict[str, str]:
    """The words of the section on each cured page of the demo book, the figure's among them."""
    log = ProblemLog()
    manuscript = read_book(DEMO, kitchen().tables, log)
    assert manuscript is not None
    computed = compute_book(resolve_book(manuscript, log), kitchen())
    site = render_book(computed, tables=kitchen().tables, theme=load_theme(computed.book.config.theme))
    cured = [slug for slug, recipe in computed.recipes.items() if recipe.cure and recipe.cure.reach]
    return {slug: words(one(parse(site, f"recipes/{slug}/index.html"), ".reach")) for slug in cured}


def test_demo_pages_say_how_far_and_promise_nothing(sections: dict[str, str]) -> None:
    assert len(sections) >= 5
    for slug, text in sections.items():
        assert not FORBIDDEN.search(text), slug
        assert re.search(
            r"about \d+ % \(likely range \d+ to \d+ %\) of the even level after [\d½]+ days: "
            r"(probably not yet reached|uncertain|probably even)\.",
            text,
        ), slug
        assert "a published rule that asks for longer prevails" in text, slug


def test_forbidden_words_would_be_seen() -> None:
    for text in ("It is safe.", "not Cured through", "never fully cured"):
        assert FORBIDDEN.search(text)
