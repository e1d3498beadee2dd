"""The pages of a gathering: what the sample plan says, every word of it, and nothing that it does not say."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from bs4 import BeautifulSoup, Tag

from generator.model.page import Site
from generator.model.plan import Plan
from generator.model.results import ComputedBook
from generator.problems import Problem
from generator.render import load_theme, paths, render_book, render_gathering
from generator.tables import load_tables
from tests.render.plan_sample import (
    BEANS,
    COLLARDS,
    SHANK,
    STEPS,
    STOCK,
    at,
    sample_book,
    sample_plan,
    sample_sheet,
    step,
)

CARDS = (BEANS, COLLARDS, STOCK, SHANK)


def site_of(*plans: Plan, book: ComputedBook | None = None) -> Site:
    return render_book(book or sample_book(), plans, tables=load_tables(), theme=load_theme("larder"))


@cache
def sample_site() -> Site:
    return site_of(sample_plan())


def soup(path: str, site: Site | None = None) -> BeautifulSoup:
    page = next(one for one in (site or sample_site()).pages if one.path == path)
    return BeautifulSoup(page.html, "html.parser")


def words(tag: Tag | BeautifulSoup | None) -> str:
    assert tag is not None
    return re.sub(r"\s+", " ", tag.get_text(" ")).strip()


def gathering() -> BeautifulSoup:
    return soup("gatherings/supper/index.html")


def part(title: str, page: BeautifulSoup | None = None) -> Tag:
    heading = next(h for h in (page or gathering()).find_all("h2") if words(h) == title)
    assert heading.parent is not None
    return heading.parent


def test_a_gathering_has_its_pages() -> None:
    found = {page.path for page in sample_site().pages if page.path.startswith("gatherings/")}
    assert found == {
        "gatherings/supper/index.html",
        "gatherings/supper/wall/index.html",
        "gatherings/supper/list/index.html",
        *(f"gatherings/supper/{slug}/index.html" for slug in CARDS),
    }


def test_without_plans_there_are_none_and_the_front_page_is_silent() -> None:
    site = site_of()
    assert not [page for page in site.pages if page.path.startswith("gatherings/")]
    assert "Gatherings" not in words(soup("index.html", site))


def test_a_draft_gathering_gets_no_page() -> None:
    plan = sample_plan()
    hidden = replace(
        plan, invited=replace(plan.invited, gathering=replace(plan.invited.gathering, draft=True))
    )
    assert not [page for page in site_of(hidden).pages if page.path.startswith("gatherings/")]


def test_the_front_page_lists_it_with_date_and_guests() -> None:
    front = soup("index.html")
    entry = part("Gatherings", front).find("li")
    assert words(entry) == "Supper for thirty-five Sat 5 Dec 2026, 35 guests"
    assert front.find("a", href="gatherings/supper/index.html") is not None


def test_a_recipe_called_wall_does_not_take_the_place_of_the_wall_sheet() -> None:
    assert paths.card_path("supper", "wall") == "gatherings/supper/wall-/index.html"
    assert paths.card_path("supper", "walls") == "gatherings/supper/walls/index.html"


def test_head_says_when_and_who() -> None:
    head = words(gathering().find("header", class_="head"))
    assert "Sat 5 Dec 2026, 17:30" in head
    assert "MST, like every time here" in head
    assert "29 adults and 6 children, each counted as ½" in head


def test_what_cannot_be_met_comes_first_in_plain_words() -> None:
    titles = [words(h) for h in gathering().find_all("h2")]
    assert titles[:3] == ["It cannot be met", "Look at this first", "On the table"]
    assert "The brine of Smoked elk shank is 2 days short." in words(part("It cannot be met"))
    assert "Begin by Fri 27 Nov 17:20" in words(part("It cannot be met"))
    assert "Wilt the greens in three rounds." in words(part("Look at this first"))
    article = words(gathering().find("article"))
    assert not re.search(r"\b(DANGER|WARNING|CAUTION|NOTICE)\b", article), "signal words are for hazards"


def test_without_problems_no_heading_says_so() -> None:
    page = soup("gatherings/supper/index.html", site_of(replace(sample_plan(), problems=())))
    assert page.find(class_="troubles") is None


def test_makings_with_batches_amounts_on_hand_and_left_over() -> None:
    """All of it set by hand in the sample; left over = 1 + 1/2 - 59/48 = 13/48 = 0.2708, shown as 0.28."""
    rows = part("What is made").find_all("tr")[1:]
    assert [words(row.find("a")) for row in rows] == [
        "Pinto beans with smoked shank",
        "Collards in smoked stock",
        "Smoked shank stock",
        "Smoked elk shank",
    ]
    assert [words(cell) for cell in rows[3].find_all("td")] == [
        "one batch",
        "4 shanks (4¾ lb / 2.15 kg)",
        "6 lb (2.7 kg)",
        "½ of one batch",
        "0.28 of one batch",
    ]
    assert "2⅔ batches" in words(rows[0])
    assert "32 servings" in words(rows[0])
    assert "for Pinto beans with smoked shank , Smoked shank stock" in words(rows[3])


def test_makings_lead_to_their_cards_and_to_their_own_pages() -> None:
    links = {str(a["href"]) for a in part("What is made").find_all("a")}
    assert {f"{slug}/index.html" for slug in CARDS} <= links
    assert f"../../recipes/{SHANK}/index.html" in links


def test_cure_weights_stand_there_with_the_nitrite_and_its_limit() -> None:
    """The targets of the demo recipe: 150 ppm, whole cut, 200 ppm (21 CFR 172.175)."""
    section = words(part("Cures to weigh"))
    cure = sample_plan().makings[3].recipe.cure
    assert cure is not None
    for key in ("green_weight", "water", "salt", "sugar", "curing_salt"):
        assert cure.shown[key] in section, key
    assert "150 ppm" in section
    assert "200 ppm" in section
    assert "no other kind" in section


def refused() -> Plan:
    """The same plan with its cure refused, as one above its limit is."""
    plan = sample_plan()
    shank = plan.makings[3]
    assert shank.recipe.cure is not None
    reason = Problem(slug="above-limit", message="Nitrite is 400 ppm.", hint="Take less curing salt.")
    cure = replace(shank.recipe.cure, weigh=None, shown={}, problems=(reason,), contract=None, dose=None)
    recipe = replace(shank.recipe, cure=cure, cure_lines={})
    return replace(plan, makings=(*plan.makings[:3], replace(shank, recipe=recipe)))


def test_a_refused_cure_gives_its_reasons_and_no_weight() -> None:
    site, cure = site_of(refused()), sample_plan().makings[3].recipe.cure
    assert cure is not None
    for path in ("gatherings/supper/index.html", f"gatherings/supper/{SHANK}/index.html"):
        text = words(soup(path, site).find("article"))
        assert "Nitrite is 400 ppm. Take less curing salt." in text
        assert cure.shown["curing_salt"] not in text, "what the curing salt would weigh"
        assert soup(path, site).find(class_="grams") is None
    section = part("Cures to weigh", soup("gatherings/supper/index.html", site))
    assert section.find("table") is None


def test_a_component_that_is_all_on_hand_is_not_cured() -> None:
    plan = sample_plan()
    idle = replace(plan.makings[3], batches=Fraction(0), on_hand=plan.makings[3].needed)
    page = soup("gatherings/supper/index.html", site_of(replace(plan, makings=(*plan.makings[:3], idle))))
    assert "Cures to weigh" not in [words(h) for h in page.find_all("h2")]
    assert "none" in words(part("What is made", page).find_all("tr")[4])


def table_rows(page: BeautifulSoup) -> list[list[str]]:
    rows = part("Day by day", page).find_all("tr")
    return [[words(cell) for cell in row.find_all("td")] for row in rows if row.find("td")]


def test_the_day_by_day_table_has_every_step() -> None:
    rows = table_rows(gathering())
    assert len(rows) == len(STEPS)
    assert rows[0] == [
        "1",
        "08:00 to Mon 30 Nov 17:00",
        "thaw in the fridge: Smoked elk shank",
        "10 min",
    ]
    assert rows[3][1] == "06:30", "a stage that takes no time has no end"
    assert rows[4][3] == "waits"
    assert rows[5][2].endswith("in one smoke of 28 lb")
    days = [words(th) for th in part("Day by day").find_all("th", scope="rowgroup")]
    assert days == ["Sun 29 Nov", "Mon 30 Nov", "Fri 4 Dec", "Sat 5 Dec"]


def test_the_picture_says_what_the_table_says() -> None:
    """Number and stage of each bar against the table, and a solid part for each row with hand work."""
    page = gathering()
    svg = page.find("svg", class_="plan")
    assert svg is not None
    labels = sorted(
        (words(text) for text in svg.find_all("text", class_="bar")), key=lambda s: int(s.split()[0])
    )
    rows = table_rows(page)
    assert len(labels) == len(rows)
    for label, row in zip(labels, rows, strict=True):
        number, stage = label.split(" ", 1)
        assert number == row[0]
        assert row[2].startswith(stage)
    assert len(svg.find_all("rect", class_="wait")) == len(rows)
    assert len(svg.find_all("rect", class_="work-time")) == sum(row[3] != "waits" for row in rows)
    assert svg.find_all("rect", class_="night"), "nights are hatched"


def test_the_picture_has_words_and_no_style() -> None:
    svg = gathering().find("svg", class_="plan")
    assert svg is not None
    assert svg["role"] == "img"
    title, description = (svg.find(id=id) for id in str(svg["aria-labelledby"]).split())
    assert words(title) == "The plan at a glance"
    assert "Served Sat 5 Dec 17:30" in words(description)
    assert not svg.find_all(attrs={"style": True})
    assert svg.find("style") is None


def test_shopping_by_place_in_the_order_in_which_one_walks() -> None:
    for page in (gathering(), soup("gatherings/supper/list/index.html")):
        headings = [words(section.find(["h2", "h3"])) for section in page.find_all("section", class_="place")]
        assert headings == [
            "From the freezer",
            "From the garden",
            "From the woods",
            "From the smokehouse shelf",
            "From the shop",
        ]
        lines = page.select(".fetch li")
        assert len(lines) == 6
        assert all(line.find(class_="to-tick") for line in lines)
        assert words(lines[1]) == "20 lb collards for Collards in smoked stock 43 % of the weight is stems"


def test_an_unknown_place_is_not_lost() -> None:
    item = replace(sample_plan().shopping[0], place="cellar")
    page = soup("gatherings/supper/list/index.html", site_of(replace(sample_plan(), shopping=(item,))))
    assert [words(h) for h in page.select(".place h2")] == ["Cellar"]


def test_notes_prose_and_the_calendar() -> None:
    page = gathering()
    assert "is left over" in words(part("Besides"))
    notes = part("Notes")
    assert words(notes.find("h3")) == "The evening"
    link = next(a for a in notes.find_all("a") if words(a) == "the beans")
    assert link["href"] == f"{BEANS}/index.html", "prose of a gathering leads to its card"
    assert page.find("a", href="plan.ics") is not None
    assert page.find("a", href="wall/index.html") is not None
    assert page.find("a", href="list/index.html") is not None


@pytest.mark.parametrize("slug", CARDS)
def test_a_card_is_the_recipe_at_its_scale(slug: str) -> None:
    card = soup(f"gatherings/supper/{slug}/index.html")
    making = next(one for one in sample_plan().makings if one.slug == slug)
    assert words(card.find("h1")) == making.recipe.recipe.name
    back = card.find("a", href="../index.html")
    assert words(back) == "Supper for thirty-five"
    assert card.find(class_="bench") is None, "a card is not scaled again"
    assert card.find("script", type="application/ld+json") is None
    boxes = card.find_all(attrs={"role": "note"})
    assert len(boxes) == len(making.recipe.cautions)
    if making.recipe.cure is not None:
        assert making.recipe.cure.shown["curing_salt"] in words(card.find("article"))


def test_cards_lead_to_each_other() -> None:
    card = soup(f"gatherings/supper/{BEANS}/index.html")
    assert card.find("a", href=f"../{SHANK}/index.html") is not None


def test_a_recipe_page_still_leads_to_recipe_pages() -> None:
    page = soup(f"recipes/{BEANS}/index.html")
    assert page.find("a", href=f"../{SHANK}/index.html") is not None
    assert "gatherings/" not in str(page)


def wall(plan: Plan | None = None) -> BeautifulSoup:
    return soup("gatherings/supper/wall/index.html", None if plan is None else site_of(plan))


def test_the_wall_sheet_has_every_step_by_the_clock() -> None:
    lines = wall().select(".day li")
    assert len(lines) == len(STEPS)
    assert words(lines[5]) == (
        "08:30 Smoked elk shank: hot smoke to 14:30 30 min by hand in one smoke of 28 lb"
    )
    assert "by-hand" in (lines[5].get("class") or [])
    assert "by-hand" not in (lines[4].get("class") or [])


def test_stop_rules_name_the_hour() -> None:
    """Through 50 to 130 °F in at most 6 h (FSIS Appendix A, 2021): 08:30 + 6 h = 14:30. 130 °F = 54.4 °C, up: 55."""
    rules = [words(rule) for rule in wall().select(".stops .rule")]
    assert rules == [
        "Not past 130 °F (55 °C) inside by Fri 4 Dec 14:30: finish it in the oven.",
        "150 °F (66 °C) inside by Fri 4 Dec 14:30, else finish it in the oven.",
    ]
    assert "Appendix A" in words(wall().find(class_="stops"))


def test_stop_rules_count_real_hours_when_the_clocks_change() -> None:
    """Smoke lit at 00:30 MDT on 1 November 2026, a day of 25 hours in Denver: 6 h later it is 05:30 MST."""
    start = at(1, "00:30", 11)
    smoke = step(SHANK, "hot smoke", 5, start, at(1, "06:30", 11), 30)
    rules = [words(rule) for rule in wall(replace(sample_plan(), steps=(smoke,))).select(".stops .rule")]
    assert rules[0].startswith("Not past 130 °F (55 °C) inside by Sun 1 Nov 05:30 MST")


def test_a_smoke_that_is_over_before_the_hour_of_the_rule_keeps_its_own_end() -> None:
    smoke = step(SHANK, "hot smoke", 5, at(1, "08:00", 12), at(1, "11:00", 12), 30)
    rules = [words(rule) for rule in wall(replace(sample_plan(), steps=(smoke,))).select(".stops .rule")]
    assert len(rules) == 1
    assert rules[0].endswith("inside by Tue 1 Dec 11:00, else finish it in the oven.")


def test_fish_has_a_stop_rule_of_its_own() -> None:
    """160 °F held for 30 min (PNW 238); by the end of its smoke."""
    plan = sample_plan()
    shank = plan.makings[3]
    meat = shank.recipe.recipe.meat
    assert meat is not None
    fish = replace(shank.recipe.recipe, meats=(replace(meat, animal="trout", animal_written="trout"),))
    swum = replace(shank, recipe=replace(shank.recipe, recipe=fish))
    page = wall(replace(plan, makings=(*plan.makings[:3], swum)))
    rules = [words(rule) for rule in page.select(".stops .rule")]
    assert rules[0] == "Not 160 °F (72 °C) inside, held 30 min, by Fri 4 Dec 14:30: finish it in the oven."
    assert "130 °F" not in " ".join(rules)


def test_no_smoke_no_stop_rules() -> None:
    page = wall(replace(sample_plan(), steps=STEPS[6:]))
    assert page.find(class_="stops") is None


def test_hot_holding_and_cooling_with_their_sources() -> None:
    """140 °F at home (NCHFP 2002, 6.1.3); 135 °F = 57 °C in the trade and two steps of cooling (Food Code 2022)."""
    left = words(wall().find(class_="left"))
    assert "140 °F (60 °C) or hotter" in left
    assert "135 °F (57 °C) at least" in left
    assert "from 135 to 70 °F (57 to 21 °C) within 2 hours, and to 41 °F (5 °C) within 6 hours" in left
    assert "FDA Food Code 2022" in left
    assert "is left over" in left


def test_the_wall_says_what_cannot_be_met_and_has_a_blank_log() -> None:
    assert "The brine of Smoked elk shank is 2 days short." in words(wall().find(class_="troubles"))
    cells = wall().select(".log td")
    assert len(cells) >= 5 * 12
    assert not any(words(cell) for cell in cells)


@pytest.mark.parametrize("theme", ["larder", "slate"])
def test_one_document_has_all_of_it_and_no_id_twice(theme: str) -> None:
    html = render_gathering(sample_sheet(load_theme(theme), "us"), sample_plan())
    page = BeautifulSoup(html, "html.parser")
    assert [words(h) for h in page.find_all("h1")] == [
        "Supper for thirty-five",
        "Supper for thirty-five",
        "What to fetch",
        *(making.recipe.recipe.name for making in sample_plan().makings),
    ]
    ids = [str(tag["id"]) for tag in page.find_all(id=True)]
    assert len(ids) == len(set(ids))
    for name in ("aria-labelledby", "aria-describedby"):
        for tag in page.find_all(attrs={name: True}):
            assert set(str(tag[name]).split()) <= set(ids), tag
    targets = {str(a["href"])[1:] for a in page.find_all("a", href=True) if str(a["href"]).startswith("#")}
    assert targets <= set(ids)
    night = page.find("rect", class_="night")
    assert night is not None
    assert str(night["fill"])[5:-1] in ids
    assert not [
        a["href"] for a in page.find_all("a", href=True) if not str(a["href"]).startswith(("#", "http"))
    ]
    assert page.find(attrs={"style": True}) is None


def test_other_units_on_paper() -> None:
    html = render_gathering(sample_sheet(load_theme("larder"), "metric"), sample_plan())
    assert "2.7 kg (6 lb)" in words(BeautifulSoup(html, "html.parser"))
