"""Structured data: schema.org Recipe as web readers ask for it, read back by another parser than wrote it.

Property names: schema.org, types Recipe, HowToSection, HowToStep. Durations: the form that ISO 8601, RFC 5545 and
HTML share, P[n]DT[n]H[n]M.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from bs4 import BeautifulSoup

from generator.model.page import Site
from generator.model.quantity import Span
from generator.model.results import ComputedBook
from generator.render.encode import script_text
from generator.render.jsonld import duration
from tests.render import sample
from tests.render.helpers import BEANS, SHANK, one, parse

Render = Callable[[ComputedBook], Site]
KNOWN = {
    *("@context", "@type", "@id", "name", "description", "inLanguage", "author", "image", "recipeYield"),
    *("recipeCategory", "keywords", "totalTime", "recipeIngredient", "recipeInstructions", "isBasedOn"),
}


def data_of(tree: BeautifulSoup) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(one(tree, 'script[type="application/ld+json"]').get_text())
    return found


@pytest.fixture
def shank(site: Site) -> dict[str, Any]:
    return data_of(parse(site, SHANK))


def test_recipe_has_what_readers_ask_for_and_nothing_invented(shank: dict[str, Any]) -> None:
    assert (shank["@context"], shank["@type"], shank["name"]) == (
        "https://schema.org",
        "Recipe",
        "Smoked elk shank",
    )
    assert shank["recipeCategory"] == "Smokehouse"
    assert shank["keywords"] == "smoked, keeps"
    assert shank["image"] == ["../../assets/photos/shank.jpg"]
    assert shank["recipeYield"] == ["4 shanks (4¾ lb / 2.15 kg)"]
    assert set(shank) <= KNOWN
    assert not {"aggregateRating", "review"} & set(shank)


def test_ingredients_are_strings_with_the_cure_among_them(shank: dict[str, Any]) -> None:
    assert shank["recipeIngredient"] == [
        "2.725 kg elk fore shank, green weight",
        "2.84 kg water",
        "153 g salt",
        "83.4 g sugar",
        "13.9 g curing salt no. 1 (6.25 % sodium nitrite)",
        "4 bay leaves",
        "1 tbsp (15 mL) juniper berries, crushed",
    ]


def test_instructions_are_steps_and_no_caution_is_lost(shank: dict[str, Any]) -> None:
    sections = {section["name"]: section["itemListElement"] for section in shank["recipeInstructions"]}
    assert list(sections) == ["Before you start", "Course", "Method"]
    assert {step["@type"] for steps in sections.values() for step in steps} == {"HowToStep"}
    said = " ".join(step["text"] for steps in sections.values() for step in steps)
    for caution in sample.CAUTIONS:
        assert f"{caution.signal}: {caution.title}. {caution.text}" in said
        assert caution.because in said
    assert "Cure 6 days in the fridge. WARNING: Keep the cure cold." in said
    assert sections["Method"][1]["text"].startswith("Stir the salt 153 g, half of the sugar 41.7 g")


def test_dish_names_its_component_by_the_address_of_its_page(site: Site) -> None:
    data = data_of(parse(site, BEANS))
    assert data["isBasedOn"] == [
        {"@type": "Recipe", "@id": "../smoked-elk-shank/index.html", "name": "Smoked elk shank"}
    ]
    assert data["recipeYield"] == ["12"]
    assert data["name"] == "Beans & <shank>"


def test_title_cannot_end_the_script_element(render: Render) -> None:
    evil = "</script><script>alert(1)</script><!--"
    site = render(sample.book(sample.shank(recipe=replace(sample.SHANK, name=evil))))
    tree = parse(site, SHANK)
    assert len(tree.find_all("script", src=False)) == 1
    assert data_of(tree)["name"] == evil
    assert "<" not in script_text({"name": evil})


def test_time_is_given_only_when_every_stage_is_exact(render: Render, shank: dict[str, Any]) -> None:
    assert "totalTime" not in shank, "thaw has no length, the smoke a range"
    stages = tuple(stage for stage in sample.SHANK.stages if stage.name in ("cure", "dry"))
    exact = sample.shank(recipe=replace(sample.SHANK, stages=stages))
    assert data_of(parse(render(sample.book(exact)), SHANK))["totalTime"] == "P6DT2H"
    ranged = (replace(stages[0], minutes=Span(Fraction(60), Fraction(90))), stages[1])
    loose = sample.shank(recipe=replace(sample.SHANK, stages=ranged))
    assert "totalTime" not in data_of(parse(render(sample.book(loose)), SHANK))


@pytest.mark.parametrize(
    ("minutes", "expected"),
    [
        (30, "PT30M"),
        (90, "PT1H30M"),
        (60, "PT1H"),
        (30240, "P21D"),
        (1560, "P1DT2H"),
        (0, ""),
        (Fraction(1, 2), ""),
    ],
)
def test_duration_is_never_months_and_never_a_guess(minutes: Fraction, expected: str) -> None:
    found = duration(Fraction(minutes))
    assert found == expected
    assert found == "" or re.fullmatch(r"P(?!$)(\d+D)?(T(?=\d)(\d+H)?(\d+M)?)?", found)


BODY = """\
# Ida's way

Don't boil the "greens" & <stems> at 180 °F;
keep them below `A&B's` line.

1. Stir in the [salt](#salt), *half* of the [sugar](#sugar:1/2) and [4 leaves](#bay-leaves).
2. Three
   - four & five<!-- not this -->

| at | say |
|----|-----|
| 5 lb | Ida's |

    R&D's own
"""


def test_steps_are_the_words_of_the_text_itself(render: Render) -> None:
    recipe = replace(sample.SHANK, body=replace(sample.SHANK.body, text=BODY))
    data = data_of(parse(render(sample.book(sample.shank(recipe=recipe))), SHANK))
    method = next(one for one in data["recipeInstructions"] if one["name"] == "Method")
    assert [step["text"] for step in method["itemListElement"]] == [
        "Ida's way",
        "Don't boil the \"greens\" & <stems> at 180 °F (82 °C); keep them below A&B's line.",
        "Stir in the salt 153 g, half of the sugar 41.7 g and 4 leaves (4).",
        "Three",
        "four & five",
        "at",
        "say",
        "5 lb (2.25 kg)",  # 2268 g, to the nearest 50 g by the rounding table
        "Ida's",
        "R&D's own",
    ]


def test_no_step_of_a_page_carries_markup(site: Site) -> None:
    for page in (SHANK, BEANS):
        text = json.dumps(data_of(parse(site, page)))
        assert not re.search(r"&(?:amp|lt|gt|quot|#\d+);", text)
        assert "Beans & <shank>" in text or page == SHANK
