"""Forms in which cooks write a line: what is counted, how big one is, what else is said. Lines are invented.

Sizes: pound and inch by NIST SP 811, B.8; US measures by NIST Handbook 44, App. C. How printed books write a line
(numbers in words, sizes of packages, amounts behind the name) is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute.scale.lines import compute_line
from generator.model.book import BookConfig
from generator.model.quantity import Dimension, Quantity
from generator.model.shown import Shower
from generator.read import AmountError
from generator.render.amounts import preparation_in
from tests.read.test_ingredient_lines import GRAMMAR, line, short

TABLES = GRAMMAR.tables
SHOWER = Shower(TABLES.rounding, TABLES.units)


def shown(text: str, batches: int = 1) -> str:
    """The line at so many batches as a US kitchen reads it."""
    found = compute_line(line(text), Fraction(batches), TABLES, BookConfig(title="A book"), SHOWER)
    amount = f"{found.shown.us} " if found.shown else ""
    preparation = preparation_in(found, "us")
    return f"{amount}{found.ingredient.name}" + (f", {preparation}" if preparation else "")


# line, amount, name, preparation
WORDS = [
    ("One cup of milk", "1 us_cup", "milk", ""),
    ("one-half cup lard", "1/2 us_cup", "lard", ""),
    ("Half a pound of suet", "1/2 pound", "suet", ""),
    ("half pound butter", "1/2 pound", "butter", ""),
    ("one and one-half cups meal", "3/2 us_cup", "meal", ""),
    ("one and a half pounds of neck", "3/2 pound", "neck", ""),
    ("two and three-quarters cups flour", "11/4 us_cup", "flour", ""),
    ("2 and a half cups flour", "5/2 us_cup", "flour", ""),
    ("a pound and a half of trim", "3/2 pound", "trim", ""),
    ("A quarter of a pound of lard", "1/4 pound", "lard", ""),
    ("three fourths of a cup of cream", "3/4 us_cup", "cream", ""),
    ("1/2 a cup sugar", "1/2 us_cup", "sugar", ""),
    ("3/4 of a cup of honey", "3/4 us_cup", "honey", ""),
    ("a half cup honey", "1/2 us_cup", "honey", ""),
    ("twenty-four crayfish", "24 count", "crayfish", ""),
    ("one hundred oysters", "100 count", "oysters", ""),
    ("two-and-a-half gallons cider", "5/2 us_gallon", "cider", ""),
    ("one-and-one-half cups meal", "3/2 us_cup", "meal", ""),
    ("four-and-twenty oysters", "24 count", "oysters", ""),
    ("1 cup or more of broth", "1 us_cup", "broth", "or more"),
    ("1 cup less 2 tablespoons flour", "14 us_tbsp", "flour", ""),
    ("1 sm. can peas", "1 can", "peas", "sm."),
    ("half a dozen onions", "1/2 dozen", "onions", ""),
    ("a couple of carrots", "2 count", "carrots", ""),
    ("a small onion, minced", "1 count", "small onion", "minced"),
    ("an old hen", "1 count", "old hen", ""),
    ("2 pounds, 8 ounces side pork", "2 pound + 8 ounce", "side pork", ""),
    ("from 2 to 3 onions", "2 count", "onions", ""),
    ("2 or more cloves garlic", "2 clove", "garlic", "or more"),
    ("2 Tbsps. lard", "2 us_tbsp", "lard", ""),
    ("1 tea-spoonful mace", "1 us_tsp", "mace", ""),
    ("2 qts. cider", "2 us_quart", "cider", ""),
    ("1 salt-spoon of pepper", "1 saltspoon", "pepper", ""),
    ("1 cup fresh, tender nettle tops, washed", "1 us_cup", "fresh, tender nettle tops", "washed"),
    ("1 heaping tbsp flour", "1 us_tbsp", "flour", "heaping (counted as level)"),
    ("3 heaping tbsp canning salt", "3 us_tbsp", "canning salt", "heaping (counted as level)"),
    ("a scant cup of milk", "1 us_cup", "milk", "scant (counted as level)"),
    ("2 level teaspoons soda", "2 us_tsp", "soda", "level"),
    ("1 packed cup brown sugar", "1 us_cup", "brown sugar", "packed"),
]


@pytest.mark.parametrize(("text", "amount", "name", "preparation"), WORDS)
def test_words_of_an_amount_are_read(text: str, amount: str, name: str, preparation: str) -> None:
    found = line(text)
    assert found.quantity is not None
    assert (short(found.quantity.measures), found.name, found.preparation) == (amount, name, preparation)


BEHIND = [
    ("Flour, 2 cups", "2 us_cup", "Flour", ""),
    ("flour 2 cups", "2 us_cup", "flour", ""),
    ("Venison, boned, cut in 1-inch cubes, 20 lb", "20 pound", "Venison", "boned, cut in 1-inch cubes"),
    ("Onions, dry, chopped, 2 lb 8 oz", "2 pound + 8 ounce", "Onions", "dry, chopped"),
    ("Sugar . . . . 1 cup", "1 us_cup", "Sugar", ""),
    ("Butter — 1/2 cup", "1/2 us_cup", "Butter", ""),
    ("Water, boiling 2 gal", "2 us_gallon", "Water", "boiling"),
    ("Garlic, fresh, 6 cloves", "6 clove", "Garlic", "fresh"),
    ("Eggs, 3", "3 count", "Eggs", ""),
    ("Carrots, 4 large", "4 count", "Carrots", "large"),
    ("Onions, 2 cups chopped", "2 us_cup", "Onions", "chopped"),
    ("Salt pork, half a pound", "1/2 pound", "Salt pork", ""),
    ("Onion 1 large", "1 count", "Onion", "large"),
    ("cold water, about 2 quarts", "2 us_quart", "cold water", ""),
    ("Venison shoulder (4 lb)", "4 pound", "Venison shoulder", ""),
    ("Shortening, melted, 1/2 cup (4 oz)", "1/2 us_cup", "Shortening", "melted"),
    ("Eggs, beaten, 2 each", "2 count", "Eggs", "beaten"),
    ("Juice of one lemon or 2 tbsp. vinegar", "1 count", "lemon", "juice, or 2 tbsp. vinegar"),
    ("Yolks 4 eggs", "4 count", "egg yolks", ""),
    ("Whites of three eggs", "3 count", "egg whites", ""),
    ("Yolks of six eggs, well beaten", "6 count", "egg yolks", "well beaten"),
    ("Hard-boiled yolks of 2 large eggs", "2 count", "large egg yolks", "hard-boiled"),
    ("Yolks and whites of 2 eggs", "2 count", "eggs", "yolks and whites"),
    ("A piece of butter the size of a walnut, melted", "1 piece", "butter", "the size of a walnut, melted"),
    ("2 1/2- to 3-pound chicken, cut up", "5/2 pound", "chicken", "cut up"),
    ("2½- to 3½-pound hen", "5/2 pound", "hen", ""),
    ("juice of 1 lemon", "1 count", "lemon", "juice"),
    ("Juice and rind of 2 oranges", "2 count", "oranges", "juice and rind"),
    ("Juice of half a lemon", "1/2 count", "lemon", "juice"),
]


@pytest.mark.parametrize(("text", "amount", "name", "preparation"), BEHIND)
def test_amount_behind_the_name_is_read(text: str, amount: str, name: str, preparation: str) -> None:
    found = line(text)
    assert found.quantity is not None
    assert (short(found.quantity.measures), found.name, found.preparation) == (amount, name, preparation)


NO_AMOUNT = [
    "potatoes, cut in 4",
    "carrots, cut into 2 inch lengths",
    "flour, type 00",
    "butter the size of a walnut",
    "ribs, cut every 2 inches",
]


@pytest.mark.parametrize("text", NO_AMOUNT)
def test_number_that_is_not_how_much_there_is_of_it_stays_a_word(text: str) -> None:
    assert line(text).quantity is None


# line, count, size of one, size of all
SIZES = [
    ("6 (6-ounce) trout fillets, skin on", "6 count", "6 ounce", "36 ounce"),
    ("1 (14.5-ounce) can tomatoes", "1 can", "29/2 ounce", "29/2 ounce"),
    ("1 14-oz can milk", "1 can", "14 us_fl_oz", "14 us_fl_oz"),
    ("1 14-oz can condensed milk", "1 can", "14 ounce", "14 ounce"),
    ("1 12-ounce bottle dark beer", "1 bottle", "12 us_fl_oz", "12 us_fl_oz"),
    ("2 (8 oz) cans tomatoes in juice", "2 can", "8 ounce", "16 ounce"),
    ("2 12-ounce bottles beer", "2 bottle", "12 us_fl_oz", "24 us_fl_oz"),
    ("1 bottle (750 ml) wine", "1 bottle", "750 millilitre", "750 millilitre"),
    ("2 six-ounce cans tomato paste", "2 can", "6 ounce", "12 ounce"),
    ("1 - 15 oz can beans", "1 can", "15 ounce", "15 ounce"),
    ("2 – 8 oz. packages mushrooms", "2 packet", "8 ounce", "16 ounce"),
    ("2 cans (14 oz) beans", "2 can", "14 ounce", "28 ounce"),
    ("1/2 (28-ounce) can tomatoes", "1/2 can", "28 ounce", "14 ounce"),
    ("2 x 400 g tins tomatoes", "2 tin", "400 gram", "800 gram"),
    ("2 × 250 g duck breasts", "2 count", "250 gram", "500 gram"),
    ("2 x 250 g duck breasts", "2 count", "250 gram", "500 gram"),
    ("1 3-lb roast of elk", "1 count", "3 pound", "3 pound"),
    ("One 4- to 5-pound goose", "1 count", "4 pound", "4 pound"),
    ("1 venison roast, about 3 lb", "1 count", "3 pound", "3 pound"),
    ("2 hams, 12 lb. each", "2 count", "12 pound", "24 pound"),
    ("4 ducks (2 lb. each), split", "4 count", "2 pound", "8 pound"),
    ("a ham of fourteen pounds", "1 count", "14 pound", "14 pound"),
    ("1 whole (5- to 6-lb.) goose", "1 count", "5 pound", "5 pound"),
    ("1 large (about 8 oz) onion", "1 count", "8 ounce", "8 ounce"),
    ("2 quart cans tomatoes", "2 can", "1 us_quart", "2 us_quart"),
    ("6 4-inch trout", "6 count", "4 inch", ""),
    ("1 (2-inch) piece ginger", "1 piece", "2 inch", ""),
    ("Eggs, whole, beaten 15 (1 1/2 lb)", "15 count", "", "3/2 pound"),
    ("2 bunches collards (3 lb)", "2 bunch", "", "3 pound"),
    ("1 cup / 240 ml milk", "1 us_cup", "", "240 millilitre"),
    ("4 oz./115 g bacon", "4 ounce", "", "115 gram"),
    ("1 cup (or 8 oz.) yogurt", "1 us_cup", "", "8 ounce"),
]


@pytest.mark.parametrize(("text", "count", "each", "total"), SIZES)
def test_size_of_one_multiplies(text: str, count: str, each: str, total: str) -> None:
    found = line(text).quantity
    assert found is not None
    assert (short(found.measures), short(found.each), short(found.alternative)) == (count, each, total)


PARTS = [
    ("Yolks of 4 eggs", "Whites of 4 eggs", "4 egg yolks", "4 egg whites"),
    ("Juice of 1 lemon", "Grated rind of 1 lemon", "1 lemon, juice", "1 lemon, grated rind"),
    ("Juice of 2 lemons", "rind 2 lemons", "2 lemons, juice", "2 lemons, rind"),
    ("Butter the size of an egg", "1 cup butter", "Butter, the size of an egg", "1 cup butter"),
]


@pytest.mark.parametrize(("one", "other", "first", "second"), PARTS)
def test_two_parts_of_a_thing_are_two(one: str, other: str, first: str, second: str) -> None:
    assert line(one).id != line(other).id
    assert (shown(one), shown(other)) == (first, second)


def test_part_is_known_by_the_same_words_for_one_and_for_more() -> None:
    assert line("Juice of 1 lemon").id == line("juice of 2 lemons").id == "lemon-juice"
    assert line("3 egg yolks").id == line("yolks of 3 eggs").id == "egg-yolks"


SIZED_BY_FOOD = [
    ("Butter the size of an egg", ("milk",)),
    ("Butter the size of a walnut", ("milk",)),
    ("a piece of butter the size of an egg", ("milk",)),
    ("lard as big as a walnut", ()),
]


@pytest.mark.parametrize(("text", "contains"), SIZED_BY_FOOD)
def test_what_gives_a_size_is_no_food(text: str, contains: tuple[str, ...]) -> None:
    assert TABLES.garden.allergens_in(line(text).name) == contains


def test_both_ends_of_a_hung_size_with_a_fraction() -> None:
    found = line("2 1/2- to 3-pound chicken, cut up").quantity
    assert found is not None
    total = found.total(Dimension.WEIGHT)
    assert total is not None
    assert (total.low, total.high) == (Fraction(5, 2) * Fraction("453.59237"), 3 * Fraction("453.59237"))


def test_both_ends_of_a_size_multiply() -> None:
    found = line("2 4- to 5-pound geese").quantity
    assert found is not None
    total = found.total(Dimension.WEIGHT)
    assert total is not None
    assert (total.low, total.high) == (8 * Fraction("453.59237"), 10 * Fraction("453.59237"))


# Home-economics tables of can sizes, second-hand: No. 10 12 to 13 cups, No. 2 2 1/2, No. 2 1/2 3 1/2, No. 303 2 cups.
CANS = [
    ("1 No. 10 can hominy", "1 No. 10 can", "12", "13"),
    ("1/2 No. 10 can beets", "1/2 No. 10 can", "6", "13/2"),
    ("2 No. 2½ cans peaches", "2 No. 2½ can", "7", "7"),
    ("1 #2 can beans", "1 No. 2 can", "5/2", "5/2"),
    ("1 can (No. 303) beans", "1 No. 303 can", "2", "2"),
    ("1½ (No. 10) cans tomatoes", "3/2 No. 10 can", "18", "39/2"),
]


@pytest.mark.parametrize(("text", "count", "low", "high"), CANS)
def test_numbered_can_holds_what_the_table_says(text: str, count: str, low: str, high: str) -> None:
    found = line(text).quantity
    assert found is not None
    assert short(found.measures) == count
    total = found.total(Dimension.VOLUME)
    assert total is not None
    cup = TABLES.units["us_cup"].factor
    assert (total.low, total.high) == (Fraction(low) * cup, Fraction(high) * cup)


def test_can_of_an_unknown_number_is_a_thing() -> None:
    found = line("2 No. 5 cans juice").quantity
    assert found is not None
    assert (short(found.measures), found.alternative) == ("2 No. 5 can", ())


# line, at one batch, at two
SCALED = [
    ("1 roast, about 3 lb", "1 (about 3 lb) roast", "2 (about 3 lb each, 6 lb in all) roast"),
    ("2 (6-ounce) fillets", "2 (6 oz each, 12 oz in all) fillets", "4 (6 oz each, 1 lb 8 oz in all) fillets"),
    ("2 x 1 lb breasts", "2 (1 lb each, 2 lb in all) breasts", "4 (1 lb each, 4 lb in all) breasts"),
    ("Half a peck of spinach", "½ peck spinach", "1 peck spinach"),
    ("3 bushels apples", "3 bushels apples", "6 bushels apples"),
    ("10 lb (1 peck) apples", "10 lb (1 peck) apples", "20 lb (2 pecks) apples"),
    ("5 lb 6 oz (1 gal) shortening", "5 lb 6 oz (1 gal) shortening", "10¾ lb (2 gal) shortening"),
    ("4 lb. 8 oz. (2 qt) flour", "4 lb 8 oz (2 qt) flour", "9 lb (1 gal) flour"),
    ("1 cup (4 oz) grated cheese", "1 cup (4 oz) grated cheese", "2 cups (8 oz) grated cheese"),
    ("2 lb (900 g) neck", "2 lb neck", "4 lb neck"),
    ("1 cup (240 ml) milk", "1 cup milk", "2 cups milk"),
    ("2 bunches kale (1 lb)", "2 bunches (1 lb) kale", "4 bunches (2 lb) kale"),
    ("4 ducks (6 lb)", "4 (6 lb in all) ducks", "8 (12 lb in all) ducks"),
    (
        "2 tbsp starch mixed with 1/4 cup cold water",
        "2 tbsp starch, mixed with ¼ cup cold water",
        "¼ cup starch, mixed with ½ cup cold water",
    ),
    ("4 tomatoes or 1 cup canned", "4 tomatoes, or 1 cup canned", "8 tomatoes, or 2 cups canned"),
    ("1 large or 2 small onions", "1 onions, large, or 2 small", "2 onions, large, or 4 small"),
    ("1 quart water, plus 1 cup for later", "1 qt water, plus 1 cup for later", "2 qt water, plus 2 cups for later"),
    ("1 cup sugar, divided (3/4 cup and 1/4 cup)", "1 cup sugar, divided (¾ cup and ¼ cup)", "2 cups sugar, divided (1½ cups and ½ cup)"),
    ("4 cups apples, about 6", "4 cups apples, about 6", "2 qt apples, about 12"),
    ("1 tbsp fresh thyme (1 tsp dried)", "1 tbsp fresh thyme, (1 tsp dried)", "2 tbsp fresh thyme, (2 tsp dried)"),
    ("2 tbsp vinegar or juice of 1 lemon", "2 tbsp vinegar, or juice of 1 lemon", "¼ cup vinegar, or juice of 2 lemon"),
    ("1 teaspoon soda in 1/4 cup hot water", "1 tsp soda, in ¼ cup hot water", "2 tsp soda, in ½ cup hot water"),
    ("25 lb (about 50 medium) tomatoes", "25 lb tomatoes, (about 50 medium)", "50 lb tomatoes, (about 100 medium)"),
    ("2 oz. salt for each 4 lb. of meat", "2 oz. salt, for each 4 lb. of meat", "2 oz. salt, for each 4 lb. of meat"),
    ("To each quart of juice, 1 pound sugar", "1 pound sugar, to each quart of juice", "1 pound sugar, to each quart of juice"),
    ("1/4 tsp per jar alum", "1/4 tsp alum, per jar", "1/4 tsp alum, per jar"),
    ("2 ducks, cut in 8 pieces", "2 ducks, cut in 8 pieces", "4 ducks, cut in 8 pieces"),
    ("2 lb elk, in 1-inch cubes", "2 lb elk, in 1-inch cubes", "4 lb elk, in 1-inch cubes"),
    ("20 g salt per kg of meat", "20 g salt, per kg of meat", "20 g salt, per kg of meat"),
    ("3 g/kg pepper", "3 g pepper, per kg", "3 g pepper, per kg"),
    ("8 lb. salt to each 100 lb. of meat", "8 lb. salt, to each 100 lb. of meat", "8 lb. salt, to each 100 lb. of meat"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "once", "twice"), SCALED)
def test_what_scales_and_what_stays(text: str, once: str, twice: str) -> None:
    assert (shown(text), shown(text, 2)) == (once, twice)


# line, words of the hint: the lines to write, each of which is read
ASKED = [
    ("1 pound plums and 3/4 pound sugar", "- 1 pound plums; - 3/4 pound sugar."),
    ("2 lb. elk trim, 1 lb. pork fat", "- 2 lb. elk trim; - 1 lb. pork fat."),
    ("6 lbs. lean pork and 3 lbs. fat pork", "- 6 lbs. lean pork; - 3 lbs. fat pork."),
    ("1 qt. each of onions, beans and corn", "- 1 qt. onions; - 1 qt. beans; - 1 qt. corn."),
    ("salt, 1 lb.; sugar, 1/2 lb.", "- salt, 1 lb; - sugar, 1/2 lb."),
    ("1 teaspoon of each: thyme, sage", "- 1 teaspoon of thyme; - 1 teaspoon of sage."),
    ("cloves and mace, of each half an ounce", "- half an ounce cloves; - half an ounce mace."),
    ("2 cups sugar + 1/3 cup honey", "- 2 cups sugar; - 1/3 cup honey."),
    ("1 tsp. each thyme and sage", "- 1 tsp. thyme; - 1 tsp. sage."),
    ("Salt, pepper and mace, 1/4 tsp. each", "- 1/4 tsp. Salt; - 1/4 tsp. pepper; - 1/4 tsp. mace."),
    ("1 teaspoon salt and a pinch of soda", "- 1 teaspoon salt; - a pinch of soda."),
]


@pytest.mark.parametrize(("text", "hint"), ASKED)
def test_several_things_in_a_line_are_asked_about_with_the_lines_to_write(text: str, hint: str) -> None:
    with pytest.raises(AmountError) as caught:
        line(text)
    assert caught.value.hint.endswith(hint)
    for one in hint.removesuffix(".").split("; "):
        assert line(one.removeprefix("- ")).quantity is not None


TWO_READINGS = [
    ("3 – 4 lb. rabbits", ["3 to 4 lb rabbits", "3 (4 lb each) rabbits"]),
    ("2 rabbits, about 3 lb", ["2 rabbits, about 3 lb each", "2 rabbits, about 3 lb in all"]),
]


@pytest.mark.parametrize(("text", "readings"), TWO_READINGS)
def test_two_readings_are_asked_about_and_both_can_be_written(text: str, readings: list[str]) -> None:
    with pytest.raises(AmountError):
        line(text)
    found = [line(reading).quantity for reading in readings]
    totals = [one.total(Dimension.WEIGHT) for one in found if one is not None]
    assert None not in totals
    assert totals[0] != totals[1]


CURING = [
    ("1 T curing salt", "Write 1 tbsp or 1 tsp"),
    ("2 t. pink curing salt", "Write 2 tbsp or 2 tsp"),
    ("1 heaping tsp. curing salt No. 1", "Weigh it"),
]


@pytest.mark.parametrize(("text", "hint"), CURING)
def test_spoon_of_curing_salt_must_be_certain(text: str, hint: str) -> None:
    with pytest.raises(AmountError) as caught:
        line(text)
    assert caught.value.hint.startswith(hint)


def test_letter_of_anything_else_is_read() -> None:
    for text, amount in (("2 T butter", "2 us_tbsp"), ("1 t. vanilla", "1 us_tsp")):
        found = line(text).quantity
        assert found is not None
        assert short(found.measures) == amount


VAGUE = [
    ("A few drops onion juice", "A few drops", "onion juice"),
    ("Few gratings nutmeg", "Few gratings", "nutmeg"),
    ("a few sprigs of parsley", "a few sprigs", "parsley"),
    ("A bit of bay leaf", "A bit", "bay leaf"),
    ("a good pinch of thyme", "a good pinch", "thyme"),
    ("several onions", "several", "onions"),
]


@pytest.mark.parametrize(("text", "vague", "name"), VAGUE)
def test_few_and_a_bit_have_no_size(text: str, vague: str, name: str) -> None:
    found = line(text)
    assert found.quantity is not None
    assert (found.quantity.vague, found.name) == (vague, name)


COUNTS = st.sampled_from(["1", "2", "6", "1/2", "1 1/2"])
SIZED = st.sampled_from(["(6-ounce) fillets", "14-oz cans beans", "bottles (750 ml) wine", "3-lb roasts", "bunches kale (1 lb)"])  # fmt: skip
PLAIN = st.sampled_from(
    ["cups honey", "lb 4 oz neck", "tbsp lard", "onions", "to 9 onions", "No. 2 cans beans"]
)


def same(one: Quantity, other: Quantity) -> bool:
    """The same in weight, volume and number, to what a shown amount is rounded to."""
    for kind in (Dimension.WEIGHT, Dimension.VOLUME, Dimension.COUNT):
        ours, theirs = one.total(kind), other.total(kind)
        if (ours is None) != (theirs is None):
            return False
        if ours and theirs and abs(ours.high - theirs.high) > Fraction(1, 20) * ours.high:
            return False
    return True


@given(COUNTS, st.one_of(SIZED, PLAIN), st.integers(1, 4))
def test_reading_what_is_shown_gives_the_amount_shown(count: str, rest: str, batches: int) -> None:
    written = line(f"{count} {rest}").quantity
    assert written is not None
    again = line(shown(f"{count} {rest}", batches)).quantity
    assert again is not None
    assert same(written.times(batches), again), (f"{count} {rest}", shown(f"{count} {rest}", batches))


@given(st.integers(1, 9), SIZED, st.integers(1, 9))
def test_scaling_commutes_with_reading(count: int, rest: str, batches: int) -> None:
    """So many times a line is the line of so many times the count, where its size is that of one."""
    once, many = line(f"{count} {rest}").quantity, line(f"{count * batches} {rest}").quantity
    assert once is not None
    assert many is not None
    assert once.times(batches).measures == many.measures
    if once.each:
        assert once.times(batches).alternative == many.alternative
