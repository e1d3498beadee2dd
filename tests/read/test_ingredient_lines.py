"""Ingredient lines: *amount unit name, preparation*, as the file format says; forms from cooks' lists, common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.quantity import Dimension, Measure
from generator.model.recipe import Ingredient
from generator.read import AmountError
from generator.read.grammar import Grammar
from generator.read.ingredient_line import parse_ingredient
from generator.read.text import Text
from generator.tables import load_tables

GRAMMAR = Grammar(system="us", language="en", tables=load_tables())


def line(text: str, grammar: Grammar = GRAMMAR) -> Ingredient:
    return parse_ingredient(Text(text, "recipes/dish.md", (f"  - {text}",), 7, (0, 4)), grammar)


def short(measures: tuple[Measure, ...]) -> str:
    return " + ".join(f"{measure.span.low} {measure.unit.key}" for measure in measures)


# line, amount, alternative, id, name, preparation
LINES = [
    ("2 cups flour, sifted", "2 us_cup", "", "flour", "flour", "sifted"),
    ("1 cup of honey", "1 us_cup", "", "honey", "honey", ""),
    ("4 bay leaves", "4 count", "", "bay-leaves", "bay leaves", ""),
    ("1 medium onion, chopped", "1 count", "", "medium-onion", "medium onion", "chopped"),
    ("3 cloves garlic", "3 clove", "", "garlic", "garlic", ""),
    ("6 cloves, crushed", "6 count", "", "cloves", "cloves", "crushed"),
    ("1 clove", "1 count", "", "clove", "clove", ""),
    ("2 carrots", "2 count", "", "carrots", "carrots", ""),
    ("1 cabbage", "1 count", "", "cabbage", "cabbage", ""),
    ("2 bunches collards (3 lb)", "2 bunch", "3 pound", "collards", "collards", ""),
    ("2 bunches collards (1 lb each), washed", "2 bunch", "2 pound", "collards", "collards", "washed"),
    ("2 lb (900 g) potatoes, diced", "2 pound", "900 gram", "potatoes", "potatoes", "diced"),
    ("1 can (14 oz) tomatoes", "1 can", "14 ounce", "tomatoes", "tomatoes", ""),
    ("2 x 400 g cans tomatoes", "2 can", "800 gram", "tomatoes", "tomatoes", ""),
    ("1 dozen eggs", "1 dozen", "", "eggs", "eggs", ""),
    ("2 onions, halved, skins on", "2 count", "", "onions", "onions", "halved, skins on"),
    ("2 lb beef (boneless), cubed", "2 pound", "", "beef-boneless", "beef (boneless)", "cubed"),
    ("1 cup vinegar (5 % acidity)", "1 us_cup", "", "vinegar-5-acidity", "vinegar (5 % acidity)", ""),
    ("1 tbsp cider vinegar, 5 %", "1 us_tbsp", "", "cider-vinegar", "cider vinegar", "5 %"),
    ("1,5 kg beans, dried", "3/2 kilogram", "", "beans", "beans", "dried"),
    ("½ lemon", "1/2 count", "", "lemon", "lemon", ""),
    ("half a lemon", "1/2 count", "", "lemon", "lemon", ""),
    ("two onions", "2 count", "", "onions", "onions", ""),
    ("1 cup half and half", "1 us_cup", "", "half-and-half", "half and half", ""),
    ("2 cups crème fraîche", "2 us_cup", "", "crème-fraîche", "crème fraîche", ""),
    ("1 tbsp Ida's rub", "1 us_tbsp", "", "idas-rub", "Ida's rub", ""),
    ("1/2 head cabbage", "1/2 head", "", "cabbage", "cabbage", ""),
    ("1 cup salt (240 g)", "1 us_cup", "240 gram", "salt", "salt", ""),
    ("240 g salt", "240 gram", "", "salt", "salt", ""),
    ("1 tbsp table salt", "1 us_tbsp", "", "table-salt", "table salt", ""),
]


@pytest.mark.parametrize(("text", "amount", "other", "id", "name", "preparation"), LINES)
def test_line_is_cut_into_its_parts(
    text: str, amount: str, other: str, id: str, name: str, preparation: str
) -> None:
    found = line(text)
    assert found.quantity is not None
    assert short(found.quantity.measures) == amount
    assert short(found.quantity.alternative) == other
    assert (found.id, found.name, found.preparation) == (id, name, preparation)
    assert found.written == text
    assert (found.position.line, found.position.column) == (7, 5)
    assert not found.fixed
    assert found.link is None


VAGUE = [
    ("salt, to taste", "to taste", "salt", ""),
    ("salt to taste", "to taste", "salt", ""),
    ("a pinch of cayenne", "a pinch", "cayenne", ""),
    ("1 pinch cayenne, if you like", "1 pinch", "cayenne", "if you like"),
    ("2 pinches salt", "2 pinches", "salt", ""),
    ("lard for frying", "for frying", "lard", ""),
    ("lard, for frying", "for frying", "lard", ""),
    ("some parsley, chopped", "some", "parsley", "chopped"),
]


@pytest.mark.parametrize(("text", "vague", "name", "preparation"), VAGUE)
def test_vague_amount_before_or_behind_the_name(text: str, vague: str, name: str, preparation: str) -> None:
    found = line(text)
    assert found.quantity is not None
    assert found.quantity.is_vague
    assert (found.quantity.vague, found.name, found.preparation) == (vague, name, preparation)


@pytest.mark.parametrize("text", ["half and half", "parsley, chopped", "7-grain bread", "salt"])
def test_name_alone_has_no_amount(text: str) -> None:
    assert line(text).quantity is None


FIXED = ["4 bay leaves (fixed)", "4 bay leaves, torn (fixed)", "4 bay leaves (Fixed) ", "4 bay leaves(fixed)"]


@pytest.mark.parametrize("text", FIXED)
def test_fixed_line_does_not_scale(text: str) -> None:
    found = line(text)
    assert found.fixed
    assert found.name == "bay leaves"


def test_link_makes_a_line_a_use() -> None:
    found = line("1 [smoked elk shank](smoked-elk-shank.md), sawn in two")
    assert found.link is not None
    assert (found.link.text, found.link.target) == ("smoked elk shank", "smoked-elk-shank.md")
    assert found.link.position.column == 7
    assert (found.id, found.name, found.preparation) == (
        "smoked-elk-shank",
        "smoked elk shank",
        "sawn in two",
    )


LINKS = [
    ("1 lb of [stock](a.md)", "1 pound", "", ""),
    ("1 lb 8 oz [neck](a.md), pulled", "1 pound + 8 ounce", "", "pulled"),
    ("1 [shank](a.md) (2 lb), sawn", "1 count", "2 pound", "sawn"),
    ("1 large [shank](a.md), sawn", "1 count", "", "large, sawn"),
    ("1/4 cup [jelly](../recipes/a.md)", "1/4 us_cup", "", ""),
]


@pytest.mark.parametrize(("text", "amount", "other", "preparation"), LINKS)
def test_amount_stands_before_a_link(text: str, amount: str, other: str, preparation: str) -> None:
    found = line(text)
    assert found.quantity is not None
    assert short(found.quantity.measures) == amount
    assert short(found.quantity.alternative) == other
    assert found.preparation == preparation


# line, slug, offset, words of message or hint
REFUSED = [
    ("2 cupps flour", "unknown-unit", 2, "'cups'"),
    ("2 tpsp sugar", "unknown-unit", 2, "'tsp'"),
    ("1 tbps honey", "unknown-unit", 2, "'tbsp'"),
    ("3 galons water", "unknown-unit", 2, "'gallons'"),
    ("1 pond beef", "unknown-unit", 2, "'pound'"),
    ("400gr flour", "ambiguous-unit", 3, "'g'"),
    ("2 cups", "missing-name", 6, "name"),
    ("2 lb , diced", "missing-name", 5, "name"),
    (", chopped", "missing-name", 0, "name"),
    ("???", "missing-name", 0, "name"),
    ("cups flour", "unreadable-amount", 0, "1 cups flour"),
    ("1 onion and 2 carrots", "unreadable-amount", 12, "- 1 onion; - 2 carrots."),
    ("plenty of butter", "unreadable-amount", 0, "butter, to taste"),
    ("2 x onions", "unreadable-amount", 2, "'x'"),
    ("2 bunches collards (1/0 lb)", "unreadable-amount", 20, "divides by nothing"),
    ("3 days bread", "wrong-dimension", 0, "time"),
    ("4 bay (fixed) leaves", "wrong-value", 6, "at the end"),
    ("1 [shank](http://a.b/c.md)", "link-scheme", 10, "smoked-elk-shank.md"),
    ("1 [shank](shank.html)", "link-scheme", 10, "smoked-elk-shank.md"),
    ("1 [a](a.md) and [b](b.md)", "wrong-value", 16, "two links"),
    ("1 lb beans, cooked as [here](a.md)", "wrong-value", 22, "behind a comma"),
    ("1 [](a.md)", "missing-name", 2, "words"),
]


@pytest.mark.parametrize(("text", "slug", "offset", "words"), REFUSED)
def test_uncertain_line_is_refused_at_its_place(text: str, slug: str, offset: int, words: str) -> None:
    with pytest.raises(AmountError) as caught:
        line(text)
    error = caught.value
    assert (error.slug, error.offset) == (slug, offset)
    assert words in f"{error.message} {error.hint}"


FOODS = """pinto beans;graham crackers;mint leaves;neck bones;scallion greens;pink grapefruit;gala apples;round steaks
quince halves;lamb shanks;peach halves;pear halves;dill heads;ramp bulbs;cupcake cases;pod peppers;liver slices;grill steaks
grouse breasts;table grapes;pecan halves;carrot tops;cabbage leaves;turnip greens;steak bones;loaf ends;quail eggs""".replace(
    "\n", ";"
).split(";")


@pytest.mark.parametrize("food", FOODS)
def test_food_that_resembles_a_unit_is_counted(food: str) -> None:
    found = line(f"2 {food}")
    assert found.quantity is not None
    assert found.quantity.dimension is Dimension.COUNT
    assert found.name == food


def test_no_word_of_the_foods_table_is_taken_for_a_misspelled_unit() -> None:
    words = {word for name in GRAMMAR.tables.food_names for word in name.split()} - {"one"}
    words |= {name for name in GRAMMAR.tables.lexicon.names_of_animals if " " not in name}
    assert len(words) > 100
    assert [word for word in sorted(words) if GRAMMAR.near_unit(word)] == []


@pytest.mark.parametrize("text", ["1 cup salt", "1 tbsp kosher salt", "1 tsp sea salt, and more"])
def test_salt_by_volume_is_a_volume(text: str) -> None:
    """Whether its crystal matters is not decided by the line alone."""
    found = line(text).quantity
    assert found is not None
    assert found.dimension is Dimension.VOLUME


@given(st.text(max_size=50))
def test_any_line_is_read_or_refused(text: str) -> None:
    place = 0
    try:
        found = line(text)
    except AmountError as refused:
        place = refused.offset
    else:
        assert found.id
        assert found.name
    assert 0 <= place <= len(text)


@given(st.integers(1, 99), st.sampled_from(["cup", "lb", "g", "oz"]), st.sampled_from(["honey", "lard"]))
def test_read_line_scales_exactly(number: int, unit: str, name: str) -> None:
    found = line(f"{number} {unit} {name}")
    assert found.quantity is not None
    assert found.quantity.times(Fraction(1, 3)).measures[0].span.low == Fraction(number, 3)


def test_words_of_a_link_may_hold_a_pair_of_brackets_and_no_half_of_one() -> None:
    found = line("1 [smoked [elk] shank](shank.md)")
    assert found.link is not None
    assert (found.name, found.link.target) == ("smoked [elk] shank", "shank.md")
    with pytest.raises(AmountError, match="a bracket too many") as refused:
        line("1 [smoked elk] shank](shank.md), sawn")
    assert (refused.value.offset, refused.value.hint) == (2, "Write [smoked elk shank](shank.md).")
