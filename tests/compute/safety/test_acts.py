"""Each row of acts.csv by its own sentences: one that meets it makes its box, and three kinds that do not."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from generator.compute.safety.check import check_safety
from generator.compute.safety.facts.acts import words_of_recipe
from generator.compute.safety.facts.gather import Facts
from generator.english import sentence_spans
from generator.model.book import BookConfig
from generator.model.recipe import Body, Ingredient, Recipe, Sentence
from generator.model.results import Caution
from generator.problems import Position, ProblemLog
from generator.tables import load_tables
from generator.tables.acts import ActRow
from generator.tables.phrases import spoken

TABLES = load_tables()
ACTS = TABLES.acts()
AT = Position("recipes/dish.md", 1, 1)
FORMS = ("meets", "harmless", "negated", "past")


def words_for(row: ActRow) -> str:
    """An ingredient of what the row asks a recipe to speak of: the first word of its first class."""
    for one in row.when:
        if one.startswith("["):
            return " ".join(ACTS.notation.classes[one.strip("[]")].words[0].split())
    return "water"


def boxes(
    row: ActRow, text: str, *, line: str, quoted: bool = False
) -> tuple[tuple[Caution, ...], ProblemLog]:
    """What is said of a recipe whose method is a text."""
    found = tuple(
        Sentence(text=text[begin:end], block=0, is_quoted=quoted, file=AT.file, places=((0, 9, 1 + begin),))
        for begin, end in sentence_spans(text)
    )
    recipe = Recipe(
        slug="dish",
        file=AT.file,
        name="Dish",
        position=AT,
        body=Body(text=text, first_line=9, sentences=found),
        ingredients=(Ingredient(id="x", name=line, quantity=None, written=line, position=AT),),
    )
    config = BookConfig(title="Book")
    facts = Facts(
        recipe=recipe,
        cure=None,
        wild=(),
        raw_components=(),
        heating=(),
        meats=(),
        config=config,
        words=words_of_recipe(recipe, ACTS, scale="F"),
    )
    log = ProblemLog()
    return check_safety(facts, TABLES, log), log


def told(row: ActRow, text: str) -> list[str]:
    """The sentences that made the row's box."""
    found, _ = boxes(row, text, line=words_for(row))
    return [
        cause.words
        for box in found
        if box.slug in slugs_of(row)
        for cause in box.causes
        if cause.kind == "sentence"
    ]


def slugs_of(row: ActRow) -> tuple[str, ...]:
    """That of its row, and the graver one of what lies out of the cold for more than four hours."""
    return (row.slug, "danger-hours-long") if row.slug == "danger-hours" else (row.slug,)


def examples() -> Iterator[tuple[str, ActRow, str, str]]:
    for number, row in enumerate(ACTS.rows, start=2):
        for form in FORMS:
            for text in getattr(row, form):
                yield f"{number} {row.slug} {form}", row, form, text


@pytest.mark.parametrize(
    ("row", "form", "text"), [one[1:] for one in examples()], ids=[one[0] for one in examples()]
)
def test_each_sentence_of_a_row(row: ActRow, form: str, text: str) -> None:
    if form != "meets":
        assert told(row, text) == []
        return
    found, _ = boxes(row, text, line=words_for(row))
    box = next((box for box in found if box.slug in slugs_of(row)), None)
    assert box is not None, f"{row.phrase} is not met"
    assert any(cause.words in text for cause in box.causes if cause.kind == "sentence")
    own = [act for act in words_in(text) if act is row]
    assert own, f"another row than {row.phrase} made the box"


def words_in(text: str) -> list[ActRow]:
    """The rows whose phrase stands in a text."""
    return [row for row, _, _ in ACTS.acts.find(spoken(text))]
