"""A line `# ? ...` of a front matter is a question: told with its place, and a draft until it is gone."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.model.recipe import Recipe
from generator.problems import ProblemLog

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]

ASKED = """---
name: Pork cake
# ? serves: How many does it feed? Write serves: 6.
draft: no
ingredients:
  - 1 lb raisins
  # ?  Which   spices?
  - 2 cups flour
---

Bake it.
"""


def test_each_question_is_told_where_it_stands_and_makes_a_draft(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(ASKED)
    assert recipe is not None
    assert recipe.draft, "whatever the key says"
    assert [line.name for line in recipe.ingredients] == ["raisins", "flour"]
    assert [(one.slug, str(one.position), one.message) for one in log] == [
        (
            "open-question",
            "recipes/dish.md:3:1",
            "Not answered yet: serves: How many does it feed? Write serves: 6.",
        ),
        ("open-question", "recipes/dish.md:7:3", "Not answered yet: Which spices?"),
    ]
    assert not log.has_errors
    assert {one.hint for one in log} == {"Write the answer in its place, and delete the line."}


def test_the_hint_makes_it_go_away(read_text_of_recipe: ReadRecipe) -> None:
    answered = ASKED.replace("# ? serves: How many does it feed? Write serves: 6.", "serves: 6").replace(
        "  # ?  Which   spices?\n", "  - 1 tsp cloves\n"
    )
    recipe, log = read_text_of_recipe(answered)
    assert list(log) == []
    assert recipe is not None
    assert not recipe.draft
    assert recipe.questions == ()


def test_it_hides_no_error(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(ASKED.replace("2 cups flour", "some 2 cups of 3 cups"))
    assert recipe is not None
    assert log.has_errors, "no site is written"
    assert {one.slug for one in log} > {"open-question"}
    assert log.has_errors


@pytest.mark.parametrize("line", ["# serves: 6", "# how many?", "summary: What? # ? no"])
def test_another_comment_is_no_question(read_text_of_recipe: ReadRecipe, line: str) -> None:
    _, log = read_text_of_recipe(f"---\nname: Cake\n{line}\nserves: 4\n---\n\nBake.\n")
    assert "open-question" not in {one.slug for one in log}


def test_only_a_question_about_it_lets_the_number_of_servings_be_missing(
    read_text_of_recipe: ReadRecipe,
) -> None:
    _, log = read_text_of_recipe("---\nname: Cake\n# ? Which oven?\n---\n\nBake.\n")
    assert {one.slug for one in log} == {"missing-key", "open-question"}
