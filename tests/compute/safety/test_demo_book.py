"""The demo book: no page so full of boxes that nobody reads them, and the gravest first."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.build import check_recipes
from generator.model.results import ComputedRecipe
from generator.tables import Tables

DEMO = Path(__file__).parents[3] / "content"
MOST_BEFORE_THE_METHOD = 5
"Source: house choice; a reader skips a longer wall."


@pytest.fixture(scope="module")
def recipes() -> dict[str, ComputedRecipe]:
    checked = check_recipes(DEMO)
    problems, computed = checked.problems, checked.recipes
    assert problems == (), "the demo book has problems"
    return {one.recipe.slug: one for one in computed}


def test_no_page_has_more_than_five_boxes_before_its_method(recipes: dict[str, ComputedRecipe]) -> None:
    before = {
        slug: [caution.slug for caution in one.cautions if caution.stage is None]
        for slug, one in recipes.items()
    }
    assert len(before) >= 25
    assert {slug: boxes for slug, boxes in before.items() if len(boxes) > MOST_BEFORE_THE_METHOD} == {}


def test_boxes_of_a_page_are_of_different_rules_and_the_gravest_come_first(
    recipes: dict[str, ComputedRecipe], tables: Tables
) -> None:
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    for slug, one in recipes.items():
        slugs = [caution.slug for caution in one.cautions]
        assert len(slugs) == len(set(slugs)), slug
        signals = [order.index(caution.signal) for caution in one.cautions]
        assert signals == sorted(signals), slug
        assert set(slugs) <= set(tables.cautions)
