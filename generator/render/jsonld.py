"""A recipe's views in, schema.org data for machine readers out (schema.org Recipe, HowToSection, HowToStep).

No rating and no review. Times are given only when they are exact, as P[n]DT[n]H[n]M: the form that schema.org
and HTML share. Caution boxes have no term of their own, so their sentences stand in the instructions.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.cautions import box_sentences
from generator.render.context import Context
from generator.render.course import StageView
from generator.render.yields import makes_view, serves_words

MINUTES_OF_DAY, MINUTES_OF_HOUR = 1440, 60


def recipe_data(
    context: Context,
    recipe: ComputedRecipe,
    *,
    ingredients: list[str],
    stages: tuple[StageView, ...],
    method: tuple[str, ...],
) -> dict[str, Any]:
    """The data of one page, `method` step by step, `ingredients` as lines. What is not known is left out."""
    one = recipe.recipe
    makes = makes_view(context.amounts, recipe)
    data: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "@id": context.href(context.path),
        "name": one.name,
        "description": one.summary,
        "inLanguage": context.config.language,
        "author": {"@type": "Organization", "name": context.config.family} if context.config.family else None,
        "image": [
            context.href(paths.photo_path(paths.book_path(one.file, photo.target)))
            for photo in one.body.photos
        ],
        "recipeYield": [word for word in (serves_words(recipe), makes.plain if makes else "") if word],
        "recipeCategory": one.chapter,
        "keywords": ", ".join(one.tags),
        "totalTime": duration(_total_minutes(recipe)),
        "recipeIngredient": ingredients,
        "recipeInstructions": _instructions(recipe, stages, method),
        "isBasedOn": _components(context, recipe),
    }
    return {key: value for key, value in data.items() if value}


def _instructions(
    recipe: ComputedRecipe, stages: tuple[StageView, ...], method: tuple[str, ...]
) -> list[dict[str, Any]]:
    course = tuple(" ".join((stage.plain, *box_sentences(recipe, n))) for n, stage in enumerate(stages))
    title = "Course, read from the method" if recipe.recipe.course_read else "Course"
    sections = {"Before you start": box_sentences(recipe, None), title: course, "Method": method}
    return [
        {
            "@type": "HowToSection",
            "name": name,
            "itemListElement": [{"@type": "HowToStep", "text": text} for text in texts],
        }
        for name, texts in sections.items()
        if texts
    ]


def _components(context: Context, recipe: ComputedRecipe) -> list[dict[str, str]]:
    """The recipes this one takes from directly, by the address of their pages."""
    direct = dict.fromkeys(need.recipe for need in recipe.needs if len(need.path) == 2)
    links = (context.link_to(slug) for slug in direct)
    return [{"@type": "Recipe", "@id": link.href, "name": link.text} for link in links if link.href]


def _total_minutes(recipe: ComputedRecipe) -> Fraction | None:
    """The length of the whole course, or None where a stage has none, or a range."""
    read = recipe.recipe.read_course
    spans = [stage.minutes for stage in recipe.recipe.stages]
    if (
        (read is not None and not read.is_whole)
        or not spans
        or any(span is None or span.is_range for span in spans)
    ):
        return None
    return sum((span.low for span in spans if span is not None), Fraction(0))


def duration(minutes: Fraction | None) -> str:
    """`P1DT2H30M`, or nothing where the time is not known in whole minutes."""
    if minutes is None or minutes <= 0 or minutes.denominator != 1:
        return ""
    days, rest = divmod(int(minutes), MINUTES_OF_DAY)
    hours, rest = divmod(rest, MINUTES_OF_HOUR)
    time = (f"{hours}H" if hours else "") + (f"{rest}M" if rest else "")
    return "P" + (f"{days}D" if days else "") + (f"T{time}" if time else "")
