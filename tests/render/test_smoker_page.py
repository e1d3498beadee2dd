"""The smoker's sheet: what is weighed, who weighed it, pieces, days, heat; and nothing of it for a refused cure."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from fractions import Fraction

import pytest
from bs4 import BeautifulSoup

from generator.compute.clock import times_from
from generator.model.moment import StageTime
from generator.model.page import Site
from generator.model.results import ComputedBook, ComputedRecipe, Scale
from generator.render import Theme, render_smoker
from tests.render import sample
from tests.render.helpers import one, parse, words

SHEET = "smoker/smoked-elk-shank/index.html"
Render = Callable[[ComputedBook], Site]


def alone(theme: Theme, recipe: ComputedRecipe, times: Sequence[StageTime] = ()) -> BeautifulSoup:
    html = render_smoker(sample.sheet(theme, sample.book(recipe)), recipe, times)
    assert html is not None
    return BeautifulSoup(html, "html.parser")


def test_every_cured_recipe_has_one_and_its_page_leads_there(site: Site) -> None:
    assert [page.path for page in site.pages if page.path.startswith("smoker/")] == [SHEET]
    recipe = parse(site, "recipes/smoked-elk-shank/index.html")
    assert one(recipe, 'a[href="../../smoker/smoked-elk-shank/index.html"]')
    assert not parse(site, "recipes/beans/index.html").select('a[href*="smoker/"]')
    assert one(parse(site, SHEET), ".back a")["href"] == "../../recipes/smoked-elk-shank/index.html"


def test_weights_are_those_of_the_recipe_with_boxes_for_two_people(site: Site) -> None:
    sheet, recipe = parse(site, SHEET), parse(site, "recipes/smoked-elk-shank/index.html")
    assert [words(cell) for cell in sheet.select(".weights td.mass")] == [
        words(cell) for cell in recipe.select(".weigh td.grams")
    ]
    assert [words(head) for head in sheet.select(".weights thead th")][2:] == ["Weighed by", "Checked by"]
    rows = sheet.select(".weights tbody tr")
    assert rows
    assert all([words(cell) for cell in row.select("td.sign")] == ["", ""] for row in rows)


def test_curing_salt_its_ppm_and_its_limit_are_told(site: Site) -> None:
    sheet = parse(site, SHEET)
    cure = sample.shank().cure
    assert cure is not None
    assert cure.limit is not None
    assert cure.kind.title in words(one(sheet, ".weights .only"))
    told = words(one(sheet, ".weights .told"))
    assert re.search(r"Ingoing nitrite: \d+ ppm", told)
    assert f"Limit: {cure.limit.limit_ppm} ppm" in told


def test_every_caution_is_whole(site: Site) -> None:
    sheet = words(one(parse(site, SHEET), ".cautions"))
    cautions = sample.shank().cautions
    assert cautions
    for caution in cautions:
        for part in (caution.signal, caution.title, caution.text, caution.because, caution.accepted):
            assert part.rstrip(".") in sheet


@pytest.mark.parametrize(
    ("pieces", "batches", "rows"),
    [
        (4, Fraction(1), 4),
        (4, Fraction(5, 4), 5),
        (4, Fraction(1, 8), 1),  # half a piece is a piece
        (None, Fraction(3), 6),
    ],
)
def test_a_row_for_each_piece_at_this_scale(
    theme: Theme, pieces: int | None, batches: Fraction, rows: int
) -> None:
    meat = sample.shank().recipe.meat
    assert meat is not None
    recipe = replace(sample.shank().recipe, meats=(replace(meat, pieces=pieces),))
    tree = alone(theme, sample.shank(recipe=recipe, scale=Scale(batches=batches, by="batches")))
    assert len(tree.select(".pieces tbody tr")) == rows
    heads = [words(head) for head in tree.select(".pieces thead th")]
    assert heads == ["No.", "Green", "Out of brine", "Smoked"]


def test_a_box_for_each_begun_day_of_the_cure_with_its_date(theme: Theme) -> None:
    """Of a cure of 6 days that begins on Saturday 26 December the last is Thursday the 31st."""
    shank = sample.shank()
    cure = next(stage for stage in shank.recipe.stages if stage.name == "cure")
    assert cure.minutes is not None
    assert cure.minutes.high == 6 * 24 * 60
    plain = alone(theme, shank)
    assert [words(day) for day in plain.select(".turning li")] == ["1", "2", "3", "4", "5", "6"]
    only = replace(shank, recipe=replace(shank.recipe, stages=(cure,)), stage_checks=(), cautions=())
    dated = alone(theme, only, times=times_from((cure,), datetime(2026, 12, 26, 8)))
    assert [words(day) for day in dated.select(".turning li")] == [
        "1 Sat 26 Dec", "2 Sun 27 Dec", "3 Mon 28 Dec", "4 Tue 29 Dec", "5 Wed 30 Dec", "6 Thu 31 Dec",
    ]  # fmt: skip
    run = [words(cell) for cell in dated.select(".run tbody td")]
    assert run == ["Sat 26 Dec 08:00", "Fri 1 Jan 08:00"]


def test_temperatures_stand_in_both_scales(site: Site) -> None:
    heats = words(one(parse(site, SHEET), ".heats"))
    stages = [stage for stage in sample.shank().recipe.stages if stage.at or stage.inside]
    assert stages
    assert "chamber" in heats
    assert "inside" in heats
    assert heats.count("°F") == heats.count("°C") >= 2


def test_raw_piece_is_told_first(site: Site) -> None:
    assert sample.shank().recipe.eat_after_cooking
    told = words(one(parse(site, SHEET), ".eat"))
    assert told == "Not ready to eat. COOK TO 165 °F / 74 °C BEFORE EATING."


def test_refused_cure_prints_no_weight_no_row_and_every_reason(theme: Theme) -> None:
    tree = alone(theme, sample.shank(cure=sample.REFUSED, cure_lines={}))
    assert not tree.select(".mass, .pieces, .turning, .run, .log, .heats, .only")
    refused = words(one(tree, ".refused"))
    assert sample.REFUSED.problems
    for problem in sample.REFUSED.problems:
        assert problem.message in refused
    assert one(tree, ".cautions")


def test_recipe_without_a_cure_has_none(theme: Theme) -> None:
    beans = sample.beans()
    book = sample.book(beans, sample.shank())
    assert render_smoker(sample.sheet(theme, book), beans) is None


def test_sheet_that_stands_alone_asks_for_nothing(theme: Theme) -> None:
    tree = alone(theme, sample.shank())
    assert not tree.select("link, a[href^='..'], script")
    assert ".smoker" in one(tree, "style").get_text()
