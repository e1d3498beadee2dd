"""What the tests of heat and game share: a recipe in a line or two, computed, with its boxes and its errors."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from generator.build import compute, kitchen
from generator.model.results import Caution, ComputedRecipe
from generator.problems import Problem, ProblemLog

Make = Callable[..., Path]
BOOK = "title: A tiny book\nchapters: [Pots]\ndeer disease area: no\nshot: none\n"


def of_meat(meat: str, *course: str, lines: tuple[str, ...] = (), more: str = "") -> str:
    """A recipe with a piece of meat of its own, its facts with semicolons between."""
    facts = "".join(f"  {fact.strip()}\n" for fact in meat.split(";"))
    return _recipe(f"meat:\n{facts}", course, lines, more)


def of_lines(*lines: str, course: tuple[str, ...] = (), more: str = "") -> str:
    """A recipe whose meat is an ingredient line."""
    return _recipe("", course, lines, more)


def _recipe(meat: str, course: tuple[str, ...], lines: tuple[str, ...], more: str) -> str:
    listed = "ingredients:\n" + "".join(f"  - {line}\n" for line in lines) if lines else ""
    stages = "course:\n" + "".join(f"  - {stage}\n" for stage in course) if course else ""
    return f"---\nname: Dinner\nserves: 4\nchapter: Pots\n{meat}{more}{listed}{stages}---\n\nCook it.\n"


def cook(
    make_book: Make, text: str, book: str = BOOK, others: Mapping[str, str] | None = None
) -> ComputedRecipe:
    """The recipe of a book, read without an error and computed."""
    files = {"book.yaml": book, "recipes/dinner.md": text, **(others or {})}
    log = ProblemLog()
    computed = compute(make_book(files), kitchen(), log)
    assert computed is not None, list(log)
    assert "dinner" in computed.recipes, list(log)
    return computed.recipes["dinner"]


def box_of(recipe: ComputedRecipe, slug: str) -> Caution | None:
    """The box of a rule; there is never more than one."""
    found = [caution for caution in recipe.cautions if caution.slug == slug]
    assert len(found) <= 1
    return found[0] if found else None


def the_box(recipe: ComputedRecipe, slug: str) -> Caution:
    """The box of a rule that must be there."""
    found = box_of(recipe, slug)
    assert found is not None, [caution.slug for caution in recipe.cautions]
    return found


def errors(recipe: ComputedRecipe) -> list[Problem]:
    """Errors of the recipe."""
    return [problem for problem in recipe.problems if problem.is_error]


def the_error(recipe: ComputedRecipe, rule: str) -> Problem:
    """The one error that names a rule."""
    found = [problem for problem in errors(recipe) if f"(rule {rule})" in problem.message]
    assert len(found) == 1, errors(recipe)
    return found[0]


def silent(recipe: ComputedRecipe, slug: str) -> bool:
    """Neither a box nor an error of a rule."""
    return box_of(recipe, slug) is None and not any(f"(rule {slug})" in p.message for p in errors(recipe))
