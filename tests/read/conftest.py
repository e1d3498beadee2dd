"""What the tests of reading share: one grammar a system, one recipe from text, its problems as plain tuples."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.model.book import BookConfig
from generator.model.recipe import Recipe
from generator.problems import ProblemLog
from generator.read.grammar import Grammar
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.tables import Tables

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]


@pytest.fixture(scope="session")
def grammar(tables: Tables) -> Grammar:
    return Grammar(system="us", language="en", tables=tables)


@pytest.fixture(scope="session")
def read_text_of_recipe(tables: Tables) -> ReadRecipe:
    """Read a recipe from the text of its file, as recipes/dish.md of a book in US units."""

    def read(text: str, *, config: BookConfig | None = None) -> tuple[Recipe | None, ProblemLog]:
        log = ProblemLog()
        context = Reading(config=config or BookConfig(title="Book"), tables=tables)
        source = split_front_matter(text, "recipes/dish.md", log)
        recipe = read_recipe(source, "dish", context, log) if source else None
        return recipe, log

    return read
