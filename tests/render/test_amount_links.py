"""Bodies as HTML: amounts behind their words, links of the site, photos, and nothing of raw HTML."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.model.recipe import StageLink
from generator.render.context import Context, make_context
from generator.render.course import stage_views
from generator.render.paths import recipe_path
from generator.render.prose import Prose
from generator.render.theme import Theme
from tests.render import sample
from tests.render.helpers import words

ROWS = frozenset({"meat", "water", "salt", "sugar", "curing-salt", "bay-leaves", "juniper-berries"})


@pytest.fixture
def context(theme: Theme) -> Context:
    return make_context(sample.book(), tables=sample.TABLES, theme=theme)


def prose(context: Context, text: str, rows: frozenset[str] = ROWS) -> BeautifulSoup:
    body = Prose(
        context=context.at(recipe_path("smoked-elk-shank")),
        file="recipes/smoked-elk-shank.md",
        recipe=context.computed.recipes["smoked-elk-shank"],
        rows=rows,
    )
    return BeautifulSoup(body.html(text), "html.parser")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the [salt](#salt) in", "the salt 153 g in"),
        ("the [water](#water)", "the water 3 qt (2.84 kg)"),
        ("the [shanks](#meat)", "the shanks 6 lb (2.7 kg)"),
        ("half of the [sugar](#sugar:1/2)", "half of the sugar 41.7 g"),  # 83.42 / 2
        (
            "a third of the [curing salt](#curing-salt:1/3)",
            "a third of the curing salt 4.6 g",
        ),  # 13.97 / 3, down
        ("half the [meat](#meat:1/2)", "half the meat 3 lb (1.35 kg)"),  # 1360.8 g
        ("the [leaves](#bay-leaves)", "the leaves (4)"),
        ("the [berries](#juniper-berries:1/3)", "the berries 1 tsp (5 mL)"),
    ],
)
def test_amount_link_shows_the_scaled_amount_behind_its_word(
    context: Context, text: str, expected: str
) -> None:
    assert words(prose(context, text)) == expected


def test_amount_link_leads_to_the_row_and_the_other_system_is_lighter(context: Context) -> None:
    tree = prose(context, "the [water](#water)")
    assert tree.a is not None
    assert tree.a["href"] == "#i-water"
    assert words(tree.select_one(".amount .other")) == "(2.84 kg)"


def test_amount_link_without_a_row_is_only_a_word(context: Context) -> None:
    tree = prose(context, "the [salt](#salt)", frozenset())
    assert tree.find("a") is None
    assert words(tree) == "the salt"


def test_vague_amount_stands_in_no_sentence(theme: Theme) -> None:
    context = make_context(sample.book(), tables=sample.TABLES, theme=theme)
    body = Prose(
        context=context.at(recipe_path("beans")),
        file="recipes/beans.md",
        recipe=context.computed.recipes["beans"],
        rows=frozenset({"salt"}),
    )
    html = body.html("Add [salt](#salt) if it asks.")
    assert words(BeautifulSoup(html, "html.parser")) == "Add salt if it asks."


def test_link_to_a_source_file_becomes_a_relative_link_to_its_page(context: Context) -> None:
    tree = prose(context, "[beans](beans.md) and [scale](../pages/weighing.md#the-scale), [gone](gone.md)")
    assert [a["href"] for a in tree.find_all("a")] == [
        "../beans/index.html",
        "../../pages/weighing/index.html#the-scale",
    ]
    assert words(tree) == "beans and scale, gone"


def test_link_to_a_draft_is_only_its_words(theme: Theme) -> None:
    draft = sample.beans(recipe=replace(sample.BEANS, draft=True))
    context = make_context(sample.book(sample.shank(), draft), tables=sample.TABLES, theme=theme)
    tree = prose(context, "[the beans](beans.md)")
    assert tree.find("a") is None
    assert words(tree) == "the beans"


def test_address_elsewhere_stays_and_a_forbidden_one_does_not(context: Context) -> None:
    tree = prose(
        context, "[a](https://example.org/?a=1&b=2) [b](javascript:alert(1)) [c](mailto:a@example.org)"
    )
    assert [a["href"] for a in tree.find_all("a")] == ["https://example.org/?a=1&b=2", "mailto:a@example.org"]


def test_raw_html_is_shown_as_text(context: Context) -> None:
    tree = prose(context, 'no <b>bold</b> <script>alert(1)</script>\n\n<img src="x" onerror="y">')
    assert tree.find(["b", "script", "img"]) is None
    assert "<b>bold</b> <script>alert(1)</script>" in words(tree)


def test_photo_is_lazy_with_its_words_and_a_relative_address(context: Context) -> None:
    image = prose(context, "![Shanks <on> a rack](../photos/shank.jpg)").img
    assert image is not None
    assert (image["src"], image["alt"]) == ("../../assets/photos/shank.jpg", "Shanks <on> a rack")
    assert image["loading"] == "lazy"


def test_bound_before_markup_counts_for_the_temperature_inside_it(context: Context) -> None:
    assert (
        words(prose(context, "at least **160 °F**\nin the middle")) == "at least 160 °F (72 °C) in the middle"
    )


def test_code_is_left_alone(context: Context) -> None:
    assert words(prose(context, "`165 °F` and 165 °F inside")) == "165 °F and 165 °F (74 °C) inside"


def test_amount_of_a_link_is_not_converted_twice(context: Context) -> None:
    assert (
        words(prose(context, "[meat](#meat), then 1 lb of bones"))
        == "meat 6 lb (2.7 kg), then 1 lb (455 g) of bones"
    )


def test_headings_come_below_those_of_the_page_and_never_take_an_id_of_its_frame(context: Context) -> None:
    tree = prose(context, "# Main\n\ntext\n\n## Next")
    assert [(tag.name, tag["id"]) for tag in tree.find_all(["h1", "h2", "h3"])] == [
        ("h2", "main-2"),
        ("h3", "next"),
    ]


def test_share_of_a_refused_cure_shows_no_weight(theme: Theme) -> None:
    refused = sample.shank(cure=sample.REFUSED, cure_lines={})
    context = make_context(sample.book(refused), tables=sample.TABLES, theme=theme)
    assert words(prose(context, "the [salt](#salt) and [sugar](#sugar:1/2)")) == "the salt and sugar"


def test_link_to_a_stage_shows_its_length_and_temperatures_to_readers_and_machines(context: Context) -> None:
    """200 to 225 °F and 145 °F: (F - 32) x 5/9 = 93.3, 107.2 and, as a least one rounded up, 62.8."""
    shank = context.computed.recipes["smoked-elk-shank"]
    links = (StageLink(number=3, written="smoke", position=sample.AT),)
    recipe = replace(shank, recipe=replace(shank.recipe, body=replace(shank.recipe.body, stage_links=links)))
    body = Prose(
        context=context, file="recipes/x.md", recipe=recipe, stages=stage_views(context.amounts, recipe)
    )
    text = "[Smoke it](#smoke) until red."
    shown = "Smoke it 5–6 h at 200–225 °F (93–107 °C), to 145 °F (63 °C) inside until red."
    tree = BeautifulSoup(body.html(text), "html.parser")
    assert words(tree) == shown
    assert tree.a is not None
    assert tree.a["href"] == "#stage-4"
    assert body.steps(text) == (shown,)
