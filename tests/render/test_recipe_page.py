"""The page of a recipe: everything that was worked out is on it, in both systems, and nothing that was refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from bs4 import BeautifulSoup, Tag

from generator.model.page import Site
from generator.model.quantity import Span
from generator.model.recipe import ReadCourse
from generator.model.results import Caution, ComputedBook, ComputedRecipe, CureResult, Scale
from generator.render.amounts import Amounts
from tests.render import sample
from tests.render.helpers import BEANS, SHANK, one, parse, words

Read = Callable[[str], BeautifulSoup]
Render = Callable[[ComputedBook], Site]


def shank_page(render: Render, computed: ComputedRecipe) -> BeautifulSoup:
    return parse(render(sample.book(computed, sample.beans())), SHANK)


def test_parts_come_in_reading_order(read: Read) -> None:
    headings = [words(tag) for tag in read(SHANK).find_all(["h1", "h2"])]
    assert headings == [
        "Smoked elk shank",
        "Before you start",
        "Weigh",
        "Course",
        "Ingredients",
        "Method",
        "Who uses it",
        "Keeping",
        "Sources of this page",
    ]


def test_heading_levels_never_skip(site: Site) -> None:
    for page in site.pages:
        levels = [
            int(tag.name[1])
            for tag in BeautifulSoup(page.html, "html.parser").find_all(re.compile("^h[1-6]$"))
        ]
        assert levels[0] == 1, page.path
        assert all(after <= before + 1 for before, after in pairwise(levels)), page.path


def test_head_says_what_it_makes_where_it_belongs_and_that_it_is_raw(read: Read) -> None:
    head = one(read(SHANK), "main header")
    assert "Makes4 shanks (4¾ lb / 2.15 kg)" in words(head)
    assert [a["href"] for a in head.find_all("a")] == [
        "../../chapters/smokehouse/index.html",
        "../../by-tag/index.html#term-smoked",
        "../../by-tag/index.html#term-keeps",
    ]
    assert "Not ready to eat. Cook it first." in words(head)


def test_quiet_facts_stand_behind_the_boxes_and_are_none(read: Read) -> None:
    part = one(read(SHANK), "main .before")
    assert [words(fact) for fact in part.select(".facts li")] == ["Contains no milk."]
    assert words(part).index("Weigh the curing salt") < words(part).index("Contains no milk.")
    assert not part.select(".box .facts")


@pytest.mark.parametrize(
    ("number", "unit", "noun", "expected"),
    [
        (4, "", "loaves", "4 loaves"),
        (1, "", "shanks", "1 shank"),
        (3, "pound", "", "3 lb (1.35 kg)"),  # 1360.8 g
        (2, "us_quart", "stock", "2 qt stock (1.9 L stock)"),  # 1892.7 mL
    ],
)
def test_what_it_makes_is_named_in_both_systems(number: int, unit: str, noun: str, expected: str) -> None:
    amounts = Amounts(sample.SHOWER, "us")
    assert amounts.made(sample.amount(number, unit), noun).plain == expected


def test_cooked_recipe_is_not_called_raw(read: Read) -> None:
    assert "Not ready to eat" not in words(read(BEANS))


@pytest.mark.parametrize("caution", sample.CAUTIONS, ids=lambda caution: caution.signal)
def test_every_word_of_a_caution_is_on_the_page(read: Read, caution: Caution) -> None:
    box = next(tag for tag in read(SHANK).select(".box") if caution.title in tag.get_text())
    said = words(box)
    assert said.startswith(f"{caution.signal} {caution.title}")
    assert caution.text in said
    assert ("Because" in said) is bool(caution.because)
    assert caution.because in said
    rule, *cited = [words(a) for a in box.find_all("a")]
    assert rule == "About this rule"
    assert ("Cannot be told: write" in said) is bool(caution.missing)
    assert ("Accepted by the author" in said) is bool(caution.accepted)
    assert caution.accepted in said
    assert cited == [sample.TABLES.sources[key].citation for key in caution.sources]


def test_box_is_a_note_named_by_its_heading_with_a_symbol_and_a_border_of_its_level(read: Read) -> None:
    tree = read(SHANK)
    for box in tree.select(".box"):
        assert (box.name, box["role"]) == ("section", "note")
        named = one(tree, f"#{box['aria-labelledby']}")
        assert named.name == "h3"
        assert named.svg is not None
        signal = words(one(box, ".signal"))
        assert f"box-{signal.lower()}" in box["class"]
    assert len(tree.select(".box")) == 4


def test_box_stands_beside_its_stage_and_one_without_a_stage_before_the_method(read: Read) -> None:
    tree = read(SHANK)
    before = [words(tag) for tag in tree.select(".before .signal")]
    assert before == ["DANGER", "CAUTION", "NOTICE"], "stage 99 does not exist: its box is not lost"
    stages = tree.select(".stages > li")
    assert [len(stage.select(".box")) for stage in stages] == [0, 1, 0, 0]


def test_weigh_table_has_grams_large_and_other_units_small(read: Read) -> None:
    rows = [
        [words(cell) for cell in row.find_all(["th", "td"])] for row in read(SHANK).select(".ledger tbody tr")
    ]
    assert rows == [
        ["elk fore shank, green weight", "2.725 kg", "6 lb"],
        ["water", "2.84 kg", "3 qt"],
        ["salt", "153 g", "5.4 oz"],  # 153.12 g / 28.3495, to 0.05 oz
        ["sugar", "83.4 g", "2.95 oz"],  # 83.42 g / 28.3495 = 2.943, to 0.05 oz
        ["curing salt no. 1 (6.25 % sodium nitrite)", "13.9 g", "by weight only"],
    ]


def test_weigh_table_has_a_caption_and_scoped_headings(read: Read) -> None:
    table = one(read(SHANK), ".ledger table")
    assert words(table.caption) == "Brine for 4 pieces, 3 in (7.5 cm) at the thickest, bone in"
    assert {th["scope"] for th in table.select("thead th")} == {"col"}
    assert {th["scope"] for th in table.select("tbody th")} == {"row"}


def test_page_says_which_curing_salt_the_grams_are_for(read: Read) -> None:
    assert words(one(read(SHANK), ".only")).startswith(
        "The weight of curing salt is for curing salt no. 1 (6.25 % sodium nitrite) and no other kind."
    )


def test_figures_have_their_basis_limit_and_source(read: Read) -> None:
    figures = {words(row.dt): row.dd for row in read(SHANK).select(".figures > div")}
    said = {label: words(value) for label, value in figures.items()}
    assert said["Salt"] == "3 % of meat and water"
    assert said["Brine strength"] == "5.4 % salt by weight 20 degrees salometer"
    assert said["Pump"].startswith("218 g of this brine")
    assert said["Ingoing nitrite"].startswith("150 ppm over meat and brine together"), "149.9 is rounded up"
    assert said["Limit"].startswith("200 ppm")
    assert said["Curing salt"].startswith("6.25 % sodium nitrite, 93.75 % salt")
    limit = figures["Limit"]
    assert limit is not None
    link = one(limit, "a")
    assert link["href"] == "../../sources/index.html#source-21cfr172-175"
    assert words(link) == sample.TABLES.sources["21cfr172.175"].citation


@pytest.mark.parametrize(
    ("cure", "basis"),
    [
        (replace(sample.CURE, whole_system_ppm=None, dry_ppm=Fraction(150)), "150 ppm of green weight"),
        (
            replace(sample.CURE, whole_system_ppm=None, pick_up_ppm=Fraction(90)),
            "90 ppm carried in by the brine that the meat takes up",
        ),
    ],
)
def test_no_nitrite_figure_stands_without_its_basis(render: Render, cure: CureResult, basis: str) -> None:
    page = shank_page(render, sample.shank(cure=cure))
    assert basis in words(one(page, ".figures"))


def test_spooned_curing_salt_shows_its_range_rounded_up_at_its_end(render: Render) -> None:
    cure = replace(sample.CURE, ppm_range=Span(Fraction(1202, 10), Fraction(1991, 10)))
    assert "120 to 200 ppm" in words(one(shank_page(render, sample.shank(cure=cure)), ".figures"))


def test_refused_cure_prints_no_weight_but_every_reason(render: Render) -> None:
    page = shank_page(render, sample.shank(cure=sample.REFUSED, cure_lines={}, used_by=()))
    weigh = one(page, ".weigh")
    assert weigh.table is None
    assert "The ingoing nitrite is 312 ppm; the limit is 200 ppm." in words(weigh)
    assert "Use at most 12.3 g of curing salt." in words(weigh)
    rest = words(page).replace(words(weigh), "")
    assert not re.search(r"\d\s?g\b", rest), "no gram of the cure anywhere else"
    data = one(page, 'script[type="application/ld+json"]').get_text()
    assert not re.search(r"\d g (salt|sugar|curing)", data)
    assert page.select("#i-meat"), "the meat is still an ingredient"


def test_salt_only_cure_says_nothing_of_nitrite(render: Render) -> None:
    assert sample.SHANK.cure is not None
    recipe = replace(sample.SHANK, cure=replace(sample.SHANK.cure, curing_salt=None))
    shown = {**sample.CURE.shown, "curing_salt": ""}
    cure = replace(sample.CURE, shown=shown, limit=None, whole_system_ppm=Fraction(0))
    weigh = one(shank_page(render, sample.shank(recipe=recipe, cure=cure)), ".weigh")
    assert "nitrite" not in words(weigh)
    assert len(weigh.select("tbody tr")) == 4


def test_course_names_length_temperatures_place_and_end(read: Read) -> None:
    stages = [words(tag) for tag in read(SHANK).select(".stages .stage")]
    assert stages == [
        "thaw in the fridge",
        "cure 6 days in the fridge",
        "dry 2 h until tacky",
        # 145 °F = 62.78 °C: a least temperature, so 63; 200 and 225 °F = 93.3 and 107.2 °C
        "hot smoke 5–6 h at 200–225 °F (93–107 °C) to 145 °F (63 °C) inside",
    ]
    assert one(read(SHANK), ".stages").name == "ol"


def test_ingredient_has_its_amount_first_and_the_other_system_behind(read: Read) -> None:
    lines = {line["id"]: line for line in read(SHANK).select(".ingredients li")}
    assert words(lines["i-bay-leaves"]) == "4 bay leaves"
    assert words(lines["i-juniper-berries"]) == "1 tbsp (15 mL) juniper berries, crushed"
    assert words(one(lines["i-juniper-berries"], ".other")) == "(15 mL)"


def test_metric_book_prints_metric_first(render: Render) -> None:
    page = parse(render(sample.book(units="metric")), SHANK)
    assert words(one(page, "#i-juniper-berries")) == "15 mL (1 tbsp) juniper berries, crushed"
    assert "at 93–107 °C (200–225 °F) to 63 °C (145 °F) inside" in words(page)


def test_ingredients_stand_under_their_groups_and_a_component_leads_to_its_page(read: Read) -> None:
    tree = read(BEANS)
    assert [words(tag) for tag in tree.select(".ingredients h3")] == ["For the pot"]
    line = one(tree, "#i-smoked-elk-shank")
    assert words(line) == "1 smoked elk shank, sawn in two"
    assert line.a is not None
    assert line.a["href"] == "../smoked-elk-shank/index.html"


def test_second_look_stands_at_its_line_and_at_its_stage(render: Render) -> None:
    lines = (sample.line("salt", "salt", sample.amount(3, "us_tbsp"), check="Add half, then taste."),)
    computed = sample.shank(
        lines=lines, stage_checks=("", "", "", "Check the time."), scale=Scale(batches=Fraction(5, 2))
    )
    page = shank_page(render, computed)
    assert "Add half, then taste." in words(one(page, ".ingredients"))
    assert words(page.select(".stages .stage")[3]).endswith("Check the time.")
    assert "Scaled to2½ batches" in words(one(page, "main header"))


def test_dish_names_what_it_uses_and_component_who_uses_it(read: Read) -> None:
    uses = words(one(read(BEANS), ".uses"))
    assert "Smoked elk shank: 1 shank, ¼ of one batch" in uses
    assert "Start from 1 lb 8 oz (680 g) of raw elk fore shank, green weight." in uses
    takers = one(read(SHANK), ".uses")
    # a quarter of 4 3/4 lb is 19 oz = 538.6 g
    assert words(takers).endswith("Beans & <shank> takes 1 shank (1 lb 3 oz / 540 g), ¼ of one batch")


def test_component_of_a_component_names_the_way_to_it(render: Render) -> None:
    need = replace(sample.beans().needs[0], path=("beans", "stock", "smoked-elk-shank"))
    stock = replace(sample.BEANS, slug="stock", file="recipes/stock.md", name="Stock")
    computed = sample.book(sample.shank(), sample.beans(needs=(need,)), sample.beans(recipe=stock, needs=()))
    assert "By way of Stock." in words(one(parse(render(computed), BEANS), ".uses"))


@pytest.mark.parametrize(
    ("batches", "expected"),
    [
        (Fraction(1), "one batch"),
        (Fraction(3, 2), "1½ batches"),
        (Fraction(2), "2 batches"),
        (Fraction(17, 95), "0.18 of one batch"),
    ],
)
def test_batches_are_in_words_and_never_too_few(render: Render, batches: Fraction, expected: str) -> None:
    need = replace(sample.beans().needs[0], batches=batches)
    page = parse(render(sample.book(sample.shank(), sample.beans(needs=(need,)))), BEANS)
    assert words(one(page, ".uses")).split("1 shank, ")[1].startswith(f"{expected} Start")


def test_sources_of_the_page_lead_to_the_page_of_sources(site: Site, read: Read) -> None:
    links = one(read(SHANK), ".sources").find_all("a")
    targets = {tag["id"] for tag in read("sources/index.html").find_all(id=True)}
    assert {link["href"] for link in links} == {
        f"../../sources/index.html#source-{key}"
        for key in ("21cfr172-175", "nchfp-2002", "practice", "cdc-cwd", "wsu-kitsap", "sr28")
    }
    assert {str(link["href"]).partition("#")[2] for link in links} <= targets


def test_every_name_is_escaped(render: Render) -> None:
    evil = "<img src=x onerror=alert(1)> & \"co\" 'x'"
    recipe = replace(sample.SHANK, name=evil, summary=evil, tags=(evil,), chapter=evil)
    lines = (sample.line("x", evil, sample.amount(1), preparation=evil),)
    caution = replace(sample.CAUTIONS[0], title=evil, text=evil, because=evil)
    site = render(
        sample.book(sample.shank(recipe=recipe, lines=lines, cautions=(caution,)), title=evil, family=evil)
    )
    for page in site.pages:
        tree = BeautifulSoup(page.html, "html.parser")
        assert not [tag for tag in tree.find_all("img") if tag.get("onerror")], page.path
        assert "<img src=x" not in page.html, page.path
    tree = parse(site, SHANK)
    assert words(tree.h1) == evil
    assert isinstance(tree.title, Tag)
    assert words(tree.title).startswith(evil)


def test_recipe_of_name_and_body_alone_has_a_page(render: Render) -> None:
    bare = replace(
        sample.BEANS,
        slug="bare",
        file="recipes/bare.md",
        name="Bare",
        serves=None,
        chapter="",
        tags=(),
        ingredients=(),
    )
    bare = replace(bare, body=sample.body("Eat it."))
    computed = sample.beans(recipe=bare, serves=None, lines=(), needs=())
    site = render(sample.book(computed))
    page = parse(site, "recipes/bare/index.html")
    assert [words(tag) for tag in page.find_all(["h1", "h2"])] == ["Bare", "Method"]
    assert "Other recipes" in words(parse(site, "index.html"))


def test_a_course_that_was_read_says_so(render: Render) -> None:
    shank = sample.shank()
    stages = tuple(replace(stage, is_read=True) for stage in shank.recipe.stages)
    read = replace(shank.recipe, stages=stages, read_course=ReadCourse(unread=(), is_whole=True))
    page = shank_page(render, replace(shank, recipe=read))
    assert "Read from the method" in words(one(page, ".course"))


def test_a_written_course_does_not(read: Read) -> None:
    assert "Read from the method" not in words(one(read(SHANK), ".course"))
