"""What the tests of plants, jerky, jars, pickles and allergens share: a recipe computed, its boxes and its errors."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from generator.build import compute
from generator.compute import Kitchen
from generator.model.results import Caution, ComputedRecipe
from generator.problems import Problem, ProblemLog

BOOK = "title: A tiny book\nchapters: [Pots]\n"


def of(
    lines: str,
    *course: str,
    name: str = "Put up",
    makes: str = "4 pt",
    keep: str = "",
    meat: str = "",
    more: str = "",
) -> str:
    """A recipe of ingredient lines; lines, facts of the meat and places to keep have semicolons between."""
    listed = "".join(f"  - {line.strip()}\n" for line in lines.split(";") if line.strip())
    stages = "".join(f"  - {stage}\n" for stage in course)
    kept = "keep:\n" + "".join(f"  {one.strip()}\n" for one in keep.split(";")) if keep else ""
    own = "meat:\n" + "".join(f"  {fact.strip()}\n" for fact in meat.split(";")) if meat else ""
    items = f"ingredients:\n{listed}" if listed else ""
    return f"---\nname: {name}\nmakes: {makes}\nchapter: Pots\n{own}{more}{items}course:\n{stages}{kept}---\n\nCook it.\n"


class Found:
    """One recipe of a book, with the errors of the whole book."""

    def __init__(self, recipe: ComputedRecipe, errors: tuple[Problem, ...]) -> None:
        self.recipe = recipe
        self.errors = errors
        self.boxes: dict[str, Caution] = {caution.slug: caution for caution in recipe.cautions}

    @property
    def words(self) -> str:
        """Messages and hints of all errors; nothing where there is none."""
        return " ".join(f"{error.message} {error.hint}" for error in self.errors)

    def facts(self, begins: str) -> list[str]:
        """Quiet lines that begin with some words."""
        return [fact for fact in self.recipe.facts if fact.startswith(begins)]


def cook(make_book: Callable[..., Path], kitchen: Kitchen, text: str, book: str = "", **others: str) -> Found:
    """The recipe `dish` of a book; further lines of book.yaml and further recipes by slug."""
    files = {f"recipes/{slug}.md": other for slug, other in others.items()}
    folder = make_book({"book.yaml": BOOK + book, "recipes/dish.md": text, **files})
    log = ProblemLog()
    computed = compute(folder, kitchen, log)
    assert computed is not None, log.sorted()
    assert "dish" in computed.recipes, log.sorted()
    return Found(computed.recipes["dish"], tuple(problem for problem in log.sorted() if problem.is_error))
