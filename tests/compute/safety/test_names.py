"""Where a name stands in a recipe, and how it is said there: line, title, tag, sentence, quoted, turned down."""

from __future__ import annotations

import pytest

from generator.compute.safety.facts.animals import animal_in, animals_in, is_bare_cut
from generator.compute.safety.facts.names import mentions_in
from generator.english import sentence_spans
from generator.model.recipe import Body, Ingredient, Recipe, Sentence
from generator.problems import Position
from generator.tables import load_tables

TABLES = load_tables()
AT = Position("recipes/dish.md", 1, 1)


def recipe(
    *, name: str = "Dish", line: str = "", preparation: str = "", method: str = "", quoted: bool = False
) -> Recipe:
    """A recipe of a name, one line and a method that begins at line 9."""
    sentences = tuple(
        Sentence(text=method[begin:end], block=0, is_quoted=quoted, file=AT.file, places=((0, 9, 1 + begin),))
        for begin, end in sentence_spans(method)
    )
    lines = (
        Ingredient(
            id="a",
            name=line,
            preparation=preparation,
            quantity=None,
            written=line,
            position=Position(AT.file, 4, 5),
        ),
    )
    body = Body(text=method, first_line=9, sentences=sentences)
    return Recipe(
        slug="dish", file=AT.file, name=name, ingredients=lines if line else (), body=body, position=AT
    )


def seen(found: Recipe, *, is_english: bool = True) -> list[tuple[str, str, bool]]:
    """Name, where, and whether it is said as food."""
    return [(one.named, one.where, one.is_said) for one in mentions_in(found, TABLES, is_english=is_english)]


def test_a_line_its_preparation_and_a_title() -> None:
    assert seen(recipe(name="Foxglove tea", line="elk steaks", preparation="wrapped in pokeweed leaves")) == [
        ("elk", "line", True),
        ("pokeweed", "line", True),
        ("Foxglove", "name", False),
    ]


def test_what_gives_the_size_of_a_food_is_no_food() -> None:
    """A buckeye poisons; lard of its size does not."""
    assert seen(recipe(line="lard", preparation="the size of a buckeye")) == []
    assert seen(recipe(line="lard", preparation="the size of an egg, with pokeweed")) == [
        ("pokeweed", "line", True)
    ]


@pytest.mark.parametrize(
    ("method", "said"),
    [
        ("Chop the foxglove.", True),
        ("It is the foxglove leaves that bring the taste.", False),
    ],
)
def test_a_sentence_that_does_something_with_it_says_it(method: str, said: bool) -> None:
    assert seen(recipe(method=method)) == [("foxglove", "sentence", said)]


@pytest.mark.parametrize(
    "method",
    [
        "Never eat foxglove.",
        "Comfrey looks like foxglove.",
        "Pick the mint beside the foxglove.",
        "Slice the bear claws.",
    ],
)
def test_what_is_turned_down_or_food_is_no_mention(method: str) -> None:
    assert [one for one in seen(recipe(method=method)) if one[0] in ("foxglove", "bear")] == []


def test_a_quoted_passage_says_nothing_for_certain() -> None:
    assert seen(recipe(method="Chop the foxglove.", quoted=True)) == [("foxglove", "sentence", False)]


def test_sentences_of_another_language_are_not_read_and_lines_are() -> None:
    found = recipe(line="foxglove", method="Chop the foxglove.")
    assert seen(found, is_english=False) == [("foxglove", "line", True)]


def test_a_mention_has_the_place_of_its_name() -> None:
    (one,) = mentions_in(recipe(method="Chop the foxglove."), TABLES, is_english=True)
    assert (one.position.line, one.position.column) == (9, 10)
    (line,) = mentions_in(recipe(line="foxglove"), TABLES, is_english=True)
    assert (line.position.line, line.position.column) == (4, 5)


def test_only_the_very_next_sentence_turns_a_story_down() -> None:
    story, end = "My uncle ate foxglove once.", "It made him very ill."
    assert seen(recipe(method=story)) == [("foxglove", "sentence", False)]
    assert seen(recipe(method=f"{story} {end}")) == []
    assert seen(recipe(method=f"{story} Stir the pot. {end}")) == [("foxglove", "sentence", False)]


def test_a_name_of_whole_foods_is_none_in_a_sentence() -> None:
    """`alpaca` counts as the whole of a line, else beside a word of meat."""
    assert seen(recipe(line="alpaca")) == [("alpaca", "line", True)]
    assert seen(recipe(method="Alpaca.")) == []
    assert seen(recipe(method="Alpaca steak.")) == [("Alpaca", "sentence", False)]


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("venison or beef", "deer"),
        ("ground elk and pork", "elk"),
        ("half bear, half pork", "bear"),
        ("beef with bear fat", "beef"),
        ("bear fat", ""),
    ],
)
def test_of_several_animals_the_strictest_is_judged(name: str, key: str) -> None:
    """Mixed meat: the strictest of all that are named."""
    animal = animal_in(name, TABLES)
    assert (animal.key if animal else "") == key


def test_every_animal_of_a_name_is_known() -> None:
    assert [animal.key for animal in animals_in("ground elk and pork", TABLES)] == ["elk", "pork"]


@pytest.mark.parametrize(
    ("name", "is_bare"),
    [
        *(("steaks", True), ("stew meat", True), ("thick boneless shoulder roast", True), ("ham", False)),
        *(("celery ribs", False), ("beef steaks", False), ("stewed tomatoes", False), ("whole", False)),
    ],
)
def test_a_bare_cut_names_no_animal(name: str, is_bare: bool) -> None:
    assert is_bare_cut(name, TABLES) is is_bare
