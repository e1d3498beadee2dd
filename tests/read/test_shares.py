"""Groups of shares in, weights out: published formulas worked by hand, and what cannot be read for certain."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Recipe
from generator.problems import Position, ProblemLog

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]

POUND, OUNCE = Fraction("453.59237"), Fraction("28.349523125")
"Source: exact definitions, NIST Handbook 44 appendix C."


def dish(ingredients: str, *, front: str = "serves: 4\n") -> str:
    return f"---\nname: Dish\n{front}ingredients:\n{ingredients}---\n\nMix.\n"


def read(read_text_of_recipe: ReadRecipe, text: str) -> dict[str, Ingredient]:
    recipe, log = read_text_of_recipe(text)
    assert [one.message for one in log if one.is_error] == []
    assert recipe is not None
    return {line.id: line for line in recipe.ingredients}


def grams(line: Ingredient) -> Fraction:
    assert line.quantity is not None
    total = line.quantity.total(Dimension.WEIGHT)
    assert total is not None
    assert not total.is_range
    return total.low


def test_sausage_by_shares_of_the_meat(read_text_of_recipe: ReadRecipe) -> None:
    """North Dakota State Univ., venison summer sausage, without its cure: 15 lb venison and 10 lb pork trim take 7 oz salt,
    1 oz mustard, 3 oz pepper, 3 oz sugar, 1/4 oz marjoram. Of 400 oz that is 1.75, 0.25, 0.75, 0.75 and 0.0625 %."""
    lines = read(
        read_text_of_recipe,
        dish(
            "  Meat:\n    - 15 lb venison\n    - 10 lb pork trim\n  Spices, of the meat:\n    - 1.75 % salt\n"
            "    - 0.25% mustard seed\n    - 0.75 % black pepper, coarse\n    - 3/4 % sugar\n    - 0.0625 per cent marjoram\n"
        ),
    )
    published = {"salt": 7, "mustard-seed": 1, "black-pepper": 3, "sugar": 3, "marjoram": Fraction(1, 4)}
    assert {id: grams(lines[id]) / OUNCE for id in published} == published
    assert lines["black-pepper"].preparation == "coarse"


def test_kraut_by_a_share_of_its_cabbage(read_text_of_recipe: ReadRecipe) -> None:
    """USDA Complete Guide 6: 3 tbsp canning salt to 5 lb cabbage, which at 17.01 g a tablespoon is 2.25 %: 51.03 g."""
    lines = read(
        read_text_of_recipe,
        dish("  Cabbage:\n    - 5 lb cabbage, cored\n  Salt, of the cabbage:\n    - 2.25 % canning salt\n"),
    )
    assert grams(lines["canning-salt"]) == pytest.approx(51.03, abs=0.005)
    share = lines["canning-salt"].share
    assert share is not None
    assert (share.written, share.of, share.part) == ("2.25 %", "cabbage", Span.of(Fraction("0.0225")))


def test_brine_by_shares_of_its_total(read_text_of_recipe: ReadRecipe) -> None:
    """Brine of 20 degrees salometer: 5.279 % salt, 0.464 lb to a US gallon of water of 8.328 lb (Oregon State Univ., SG 22)."""
    lines = read(
        read_text_of_recipe,
        dish("  Brine, of the total:\n    - 8.328 lb water\n    - 5.279 % salt\n"),
    )
    assert grams(lines["salt"]) / POUND == pytest.approx(0.464, abs=0.0005)


def test_water_weighs_a_gram_a_millilitre(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 2 L of water are 2000 g, and of them 6 % 120 g; where they are what 20 % salt leave, there are 500 g salt."""
    lines = read(read_text_of_recipe, dish("  Brine, of the water:\n    - 2 L cold water\n    - 6 % salt\n"))
    assert grams(lines["salt"]) == 120
    lines = read(read_text_of_recipe, dish("  Brine, of the total:\n    - 2 L water\n    - 20 % salt\n"))
    assert grams(lines["salt"]) == 500


def test_brine_by_a_share_of_its_water(read_text_of_recipe: ReadRecipe) -> None:
    """Brine of 60 degrees: 188.18 g salt to a litre of water (UK fish-smoking training material, seafoodacademy.org)."""
    lines = read(read_text_of_recipe, dish("  Brine, of 1 L water:\n    - 18.818 % salt\n"))
    assert grams(lines["salt"]) == Fraction("188.18")


def test_bread_by_bakers_percentages(read_text_of_recipe: ReadRecipe) -> None:
    """AACC method 10-10, straight dough: to 100 g flour 6 g sugar, 1.5 g salt, 3 g shortening (from memory)."""
    lines = read(
        read_text_of_recipe,
        dish(
            "  Flour:\n    - 80 g bread flour\n    - 20 g whole wheat flour\n  Dough, of the flour:\n"
            "    - sugar, 6 %\n    - salt 1.5%\n    - 3 % shortening\n"
        ),
    )
    assert {id: grams(lines[id]) for id in ("sugar", "salt", "shortening")} == {
        "sugar": 6,
        "salt": Fraction(3, 2),
        "shortening": 3,
    }


def test_parts_are_shares_of_their_own_whole(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 3 + 2 + 1 parts of 12 oz are 6, 4 and 2 oz."""
    lines = read(
        read_text_of_recipe,
        dish(
            "  Rub, of 12 oz:\n    - 3 parts sweet paprika\n    - two parts of brown sugar\n    - a part black pepper\n"
        ),
    )
    weights = [grams(line) / OUNCE for line in lines.values()]
    assert weights == [6, 4, 2]
    assert [line.share.written for line in lines.values() if line.share] == ["3 parts", "two parts", "a part"]


def test_parts_of_a_volume_are_volumes(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 3 + 1 parts of 1 cup are 3/4 and 1/4 cup; of a US cup of 236.5882365 mL."""
    lines = read(
        read_text_of_recipe, dish("  Dressing, of 1 cup:\n    - 3 parts oil\n    - 1 part vinegar\n")
    )
    volumes = [line.quantity.total(Dimension.VOLUME) for line in lines.values() if line.quantity]
    cup = Fraction("236.5882365")
    assert volumes == [Span.of(cup * 3 / 4), Span.of(cup / 4)]


@pytest.mark.parametrize(
    ("front", "base", "wanted"),
    [
        ("makes: 10 lb\n", "the total", Fraction(7)),
        ("makes: 4 shanks (10 lb)\n", "the whole", Fraction(7)),
        ("serves: 4\n", "10 lb", Fraction(7)),
        ("serves: 4\n", "of 10 lb of meat", Fraction(7)),
    ],
)
def test_total_is_what_is_made_or_what_the_title_says(
    read_text_of_recipe: ReadRecipe, front: str, base: str, wanted: Fraction
) -> None:
    title = f"Sausage, {base if base.startswith('of') else f'of {base}'}"
    lines = read(
        read_text_of_recipe,
        dish(f"  {title}:\n    - 70 % venison trim\n    - 30 % pork back fat\n", front=front),
    )
    assert grams(lines["venison-trim"]) / POUND == wanted
    share = lines["venison-trim"].share
    assert share is not None
    assert share.whole == "Sausage"


def test_total_follows_from_what_is_weighed_in_it(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 7 lb are what 28 % and 2 % leave, 70 %: the total is 10 lb."""
    lines = read(
        read_text_of_recipe,
        dish("  Sausage, of the total:\n    - 7 lb venison trim\n    - 28 % pork back fat\n    - 2 % salt\n"),
    )
    assert grams(lines["pork-back-fat"]) / POUND == Fraction("2.8")
    assert grams(lines["salt"]) / POUND == Fraction("0.2")


def test_share_of_a_share_and_of_the_meat(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 20 % of 1000 g are 200 g, 70 % of both flours 700 g; 1.6 % of 5 lb are 0.08 lb."""
    lines = read(
        read_text_of_recipe,
        dish(
            "  Dough, of the flours:\n    - 70 % water\n  Flours, of 1000 g:\n    - 80 % bread flour\n    - 20 % rye flour\n"
        ),
    )
    assert [grams(lines[id]) for id in ("bread-flour", "rye-flour", "water")] == [800, 200, 700]
    lines = read(
        read_text_of_recipe,
        dish(
            "  Spices, of the meat:\n    - 1.6 % salt\n",
            front="serves: 4\nmeat:\n  animal: elk\n  weight: 5 lb\n",
        ),
    )
    assert grams(lines["salt"]) / POUND == Fraction("0.08")


def test_share_of_a_range_and_a_range_of_shares(read_text_of_recipe: ReadRecipe) -> None:
    """By hand: 2 to 2.5 % of about 10 to 12 lb are 0.2 to 0.3 lb."""
    lines = read(
        read_text_of_recipe,
        dish("  Cabbage:\n    - about 10–12 lb cabbage\n  Of the cabbage:\n    - 2–2.5 % salt\n"),
    )
    quantity = lines["salt"].quantity
    assert quantity is not None
    assert quantity.total(Dimension.WEIGHT) == Span(POUND / 5, POUND * 3 / 10)
    assert quantity.about


def test_line_stands_where_it_is_written(read_text_of_recipe: ReadRecipe) -> None:
    lines = read(read_text_of_recipe, dish("  Mix, of 10 lb:\n    - 2 % salt, fine\n"))
    assert lines["salt"].position == Position("recipes/dish.md", 6, 7)
    assert lines["salt"].written == "2 % salt, fine"


def test_second_amount_of_a_share_scales_with_it(read_text_of_recipe: ReadRecipe) -> None:
    lines = read(
        read_text_of_recipe, dish("  Mix, of 10 lb:\n    - 2 % cornstarch, mixed with 2 tbsp water\n")
    )
    (second,) = lines["cornstarch"].second
    assert second.quantity.total(Dimension.VOLUME) == Span.of(2 * Fraction("14.78676478125"))


def test_what_is_fixed_keeps_its_shares_fixed(read_text_of_recipe: ReadRecipe) -> None:
    lines = read(
        read_text_of_recipe, dish("  A:\n    - 1000 g flour (fixed)\n  B, of the flour:\n    - 2 % salt\n")
    )
    assert lines["salt"].fixed


def test_other_lines_and_titles_stay_as_they_are(read_text_of_recipe: ReadRecipe) -> None:
    """Under a title of shares a count beside them is no share; a title with `of` and no shares is a title."""
    lines = read(
        read_text_of_recipe,
        dish(
            "  Jar, of 10 lb:\n    - 2 % salt\n    - 2 bay leaves\n    - dill, to taste\n  Filling, of your choice:\n"
            "    - 1 cup vinegar (5%)\n    - 2 cups cider vinegar, 5 %\n"
        ),
    )
    assert [id for id, line in lines.items() if line.share] == ["salt"]


WRONG = [
    ("no base", "  - 2 % salt\n", "unknown-base", "does not say of what", "'Shares, of 10 lb'"),
    ("two flours", "  F:\n    - 800 g bread flour\n    - 200 g rye flour\n  Dough:\n    - 2 % salt\n", "unknown-base", "does not say", "'Dough, of the bread flour and the rye flour'"),
    ("each by itself", "  - 1 part oil\n  - 2 % salt\n", "unknown-base", "'1 part' of 'oil'", "'Shares, of 12 oz'"),
    ("no base, a line", "  - 5 lb cabbage\n  - 2 % salt\n", "unknown-base", "does not say", "'Shares, of the cabbage'"),
    ("title without", "  Dough:\n    - 70 % water\n", "unknown-base", "does not say of what", "'Dough, of 10 lb'"),
    ("parts alone", "  - 3 parts oil\n  - 1 part vinegar\n", "unknown-base", "'3 parts'", "'Shares, of 12 oz'"),
    ("no such line", "  A, of the flower:\n    - 2 % salt\n", "unknown-base", "'flower' is no line", "10 lb"),
    ("counted", "  B:\n    - 3 eggs\n  A, of the eggs:\n    - 2 % salt\n", "unknown-base", "'eggs' has no weight", "5 lb eggs"),
    ("by the cup", "  B:\n    - 4 cups flour\n  A, of the flour:\n    - 2 % salt\n", "unknown-base", "'flour' has no weight", "4 cups (5 lb) flour"),
    ("volume", "  A, of 1 qt cream:\n    - 2 % salt\n", "unknown-base", "'1 qt' is a volume", "Weigh it"),
    ("total of nothing", "  A, of the total:\n    - 60 % oil\n    - 40 % honey\n", "unknown-base", "total of 'A, of the total'", "'A, of 10 lb'"),
    ("not whole", "  A, of the total:\n    - 60 % oil\n    - 30 % honey\n", "shares-not-whole", "come to 90 %", "Correct them"),
    ("nothing left", "  A, of the total:\n    - 60 % oil\n    - 40 % honey\n    - 1 lb nuts\n", "shares-not-whole", "leave nothing", "Correct"),
    ("both kinds", "  A, of 1 lb:\n    - 60 % oil\n    - 1 part honey\n", "wrong-value", "in parts", "one way"),
    ("range of parts", "  A, of 1 lb:\n    - 1–2 parts oil\n    - 1 part honey\n", "wrong-value", "is a range", "one number"),
    ("nothing", "  A, of 1 lb:\n    - 0 % oil\n", "unreadable-amount", "'0 %' is nothing", "above 0"),
    ("no name", "  A, of 1 lb:\n    - 5 %\n", "missing-name", "no name", "2 % salt"),
    ("ratio", "  A, of 1 lb:\n    - 3 parts oil to 1 part vinegar\n", "unreadable-amount", "is two ingredients", "3 parts oil and 1 part vinegar"),
    ("line or title", "  Flour:\n    - 1 lb rye flour\n    - 1 oz bran\n  A, of the flour:\n    - 2 % salt\n", "unknown-base", "could be 'rye flour' or all that stands under 'Flour'", "Name the line, rye flour"),
    ("each", "  A, of 1 lb:\n    - 3 parts each salt and pepper\n", "unreadable-amount", "several ingredients", "3 parts salt, and 3 parts pepper"),
    ("two shares", "  A, of 1 lb:\n    - 2 % salt, 1 % sugar\n", "unreadable-amount", "two ingredients", "2 % salt and 1 % sugar"),
    ("joined", "  A, of 1 lb:\n    - 2 % salt and 1 % sugar\n", "unreadable-amount", "two ingredients", "2 % salt and 1 % sugar"),
    ("pints", "  A, of 1 lb:\n    - 3 pts paprika\n", "unreadable-amount", "parts or pints", "3 parts paprika, or 3 pints paprika"),
    ("no number", "  A, of 1 lb:\n    - '% salt'\n", "unreadable-amount", "No number stands before '%'", "2 % salt"),
    ("no one share", "  A, of 1 lb:\n    - 2 % or more salt\n", "unreadable-amount", "'2 % or' is not one share", "2 % salt"),
    ("milk", "  A, of 1 lb:\n    - 2 % milk\n", "unreadable-amount", "could be sold so", "milk, 2 %; or an amount before: 1 lb 2 % milk"),
    ("lean", "  A, of 1 lb:\n    - 80% lean beef\n", "unreadable-amount", "could be sold so", "lean beef, 80%"),
    ("amount behind", "  A, of 1 lb:\n    - 100 % flour (1 lb)\n", "wrong-value", "beside the share", "100 % flour, or 1 lb flour"),
    ("share twice", "  A, of 1 lb:\n    - 0.25 % (1/4 %) sage\n", "wrong-value", "beside the share", "0.25 % sage"),
    ("more than all", "  A, of 1 lb:\n    - 101 % flour\n", "shares-not-whole", "more than all of it", "100 % or less"),
    ("two wholes", "  Rub, of 1 lb:\n    - 1 part oil\n  Rub, of 2 lb:\n    - 1 part nuts\n", "same-id", "are called the same", "another word"),
    ("cup in a total", "  A, of the total:\n    - 1 lb nuts\n    - 1 cup milk\n    - 60 % oil\n", "unknown-base", "'milk' stands in the total", "1 cup (5 lb) milk"),
    ("count in a total", "  A, of the total:\n    - 1 lb nuts\n    - 2 eggs\n    - 60 % oil\n", "unknown-base", "'eggs' stands in the total", "a title of its own"),
    ("weight among parts", "  A, of 1 lb:\n    - 1 part nuts\n    - 1 oz salt\n", "wrong-value", "'salt' stands by its weight among parts", "in parts too"),
    ("fixed share", "  A, of 1 lb:\n    - 5 % oil (fixed)\n", "wrong-value", "and (fixed)", "Take (fixed) out"),
    ("amount too", "  A, of 1 lb:\n    - 5 % (1 oz) oil\n", "wrong-value", "beside the share '5 %'", "5 % oil"),
    ("in a ring", "  A, of the oil:\n    - 5 % honey\n  B, of the honey:\n    - 5 % oil\n", "unknown-base", "has no weight", "Write its weight"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("ingredients", "slug", "says", "hint"), [row[1:] for row in WRONG], ids=[row[0] for row in WRONG]
)
def test_what_is_no_share_of_one_thing_is_asked(
    read_text_of_recipe: ReadRecipe, ingredients: str, slug: str, says: str, hint: str
) -> None:
    recipe, log = read_text_of_recipe(dish(ingredients))
    assert recipe is not None
    assert log.has_errors, "no site is written"
    found = [one for one in log if one.slug == slug]
    assert found, [(one.slug, one.message) for one in log]
    assert says in found[0].message
    assert hint in found[0].hint


@pytest.mark.parametrize(
    ("title", "made"), [("Rub", "12 oz"), ("Rub, by weight", "4 jars (12 oz)"), ("", "12 oz")]
)
def test_parts_that_are_all_of_a_recipe_are_of_what_it_makes(
    read_text_of_recipe: ReadRecipe, title: str, made: str
) -> None:
    """By hand: three and one of four parts of 12 oz."""
    indent = "  " if title else ""
    text = (
        f"  {title}:\n" if title else ""
    ) + f"{indent}  - 3 parts paprika\n{indent}  - 1 part pepper\n{indent}  - salt, to taste\n"
    lines = read(read_text_of_recipe, dish(text, front=f"makes: {made}\n"))
    assert [grams(lines[id]) / OUNCE for id in ("paprika", "pepper")] == [9, 3]


@pytest.mark.parametrize("title", ["Seasoning, per lb of meat", "Salt for each 10 lb", "To every quart"])
def test_rate_of_a_title_is_asked(read_text_of_recipe: ReadRecipe, title: str) -> None:
    recipe, log = read_text_of_recipe(dish(f"  M:\n    - 7 lb venison\n  {title}:\n    - 1 tsp sage\n"))
    assert recipe is not None
    assert log.has_errors, "no site is written"
    (problem,) = log
    assert problem.slug == "unreadable-amount"
    assert problem.message == f"'{title}' is a rate, and the lines under it would be taken as they stand."
    assert ", of the venison'." in problem.hint


@pytest.mark.parametrize("title", ["Per serving", "For each loaf", "Every day mix", "Each for itself"])
def test_title_that_is_no_rate_is_left_alone(read_text_of_recipe: ReadRecipe, title: str) -> None:
    assert read(read_text_of_recipe, dish(f"  {title}:\n    - 1 tsp sage\n"))


@pytest.mark.parametrize(
    "title",
    [
        "Dough, of the flours",
        "Dough, of flour weight",
        "Dough, of the total weight of the flour",
        "Dough (of the flour)",
        "Dough, in % of the flour",
        "Dough, of the bread flour and the rye flour",
        "Dough, of a kilo of flour",
        "Per cent of all flour",
    ],
)
def test_titles_that_say_the_same(read_text_of_recipe: ReadRecipe, title: str) -> None:
    """By hand: 70 % of 800 g and 200 g are 700 g."""
    flour = "  Flour:\n    - 800 g bread flour\n    - 200 g rye flour\n"
    lines = read(read_text_of_recipe, dish(f"{flour}  {title}:\n    - 70 % water\n"))
    assert grams(lines["water"]) == 700


@pytest.mark.parametrize(
    ("base", "pounds"),
    [
        ("meat", 10),
        ("green weight", 10),
        ("pork", 4),
        ("deer trim", 6),
        ("meat and the ice", 11),
        ("pork and ice", 5),
    ],
)
def test_shares_of_meat_and_of_more(read_text_of_recipe: ReadRecipe, base: str, pounds: int) -> None:
    """By hand: 1 % of 6 lb deer trim, 4 lb of two cuts of pork, and 1 lb of ice."""
    front = "serves: 4\nmeat:\n  - 6 lb deer trim\n  - 3 lb pork shoulder\n  - 1 lb pork back fat\n"
    lines = read(
        read_text_of_recipe,
        dish(f"  Ice:\n    - 1 lb ice\n  Spices, of the {base}:\n    - 1 % sage\n", front=front),
    )
    assert grams(lines["sage"]) / POUND == Fraction(pounds, 100)


@pytest.mark.parametrize(
    "line",
    [
        "2 % salt",
        "salt, 2 %",
        "Salt - 2%",
        "salt (2 %)",
        "2 pct salt",
        "2 % by weight of salt",
        "2 percent salt by weight",
    ],
)
def test_lines_that_say_the_same(read_text_of_recipe: ReadRecipe, line: str) -> None:
    lines = read(read_text_of_recipe, dish(f"  Mix, of 10 lb:\n    - {line}\n"))
    assert grams(lines["salt"]) / POUND == Fraction("0.2")


@pytest.mark.parametrize(
    ("wrong", "mended"),
    [
        (
            "  - 5 lb cabbage\n  - 2 % salt\n",
            "  A:\n    - 5 lb cabbage\n  Shares, of the cabbage:\n    - 2 % salt\n",
        ),
        ("  Dough:\n    - 70 % water\n", "  Dough, of 10 lb:\n    - 70 % water\n"),
        ("  A, of the flower:\n    - 2 % salt\n", "  A, of 10 lb:\n    - 2 % salt\n"),
        (
            "  B:\n    - 3 eggs\n  A, of the eggs:\n    - 2 % salt\n",
            "  B:\n    - 5 lb eggs\n  A, of the eggs:\n    - 2 % salt\n",
        ),
        (
            "  F:\n    - 800 g bread flour\n    - 200 g rye flour\n  A:\n    - 2 % salt\n",
            "  F:\n    - 800 g bread flour\n    - 200 g rye flour\n  A, of the bread flour and the rye flour:\n    - 2 % salt\n",
        ),
        ("  A, of the total:\n    - 100 % oil\n", "  A, of 10 lb:\n    - 100 % oil\n"),
    ],
)
def test_hint_followed_to_the_letter_ends_the_problem(
    read_text_of_recipe: ReadRecipe, wrong: str, mended: str
) -> None:
    _, log = read_text_of_recipe(dish(wrong))
    (problem,) = log
    title = next(line.strip(" :") for line in mended.splitlines() if ", of " in line)
    assert f"'{title}'" in problem.hint or "5 lb eggs" in problem.hint
    assert read(read_text_of_recipe, dish(mended))


def test_parts_are_no_share_of_a_line_or_the_meat(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        dish("  A:\n    - 1 lb nuts\n  B, of the nuts:\n    - 2 parts oil\n", front="makes: 1 pint\n")
    )
    assert recipe is not None
    assert log.has_errors, "no site is written"
    (problem,) = log
    assert problem.slug == "wrong-value"
    assert problem.message == "Parts make a whole of their own; they are no share of 'nuts'."
    assert problem.hint == "End the title with what they come to: 'B, of 1 pint'; or write per cent."
    assert problem.position == Position("recipes/dish.md", 7, 3)


def test_meat_that_cannot_be_read_is_told_once(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        dish(
            "  Spices, of the meat:\n    - 1.6 % salt\n",
            front="serves: 4\nmeat:\n  animal: elkk\n  weight: 1 lb\n",
        )
    )
    assert recipe is not None
    assert log.has_errors, "no site is written"
    assert [one.slug for one in log] == ["unknown-animal"]


def test_meat_without_a_weight_has_no_shares(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        dish("  Spices, of the meat:\n    - 1.6 % salt\n", front="serves: 4\nmeat:\n  animal: elk\n")
    )
    assert recipe is not None
    assert log.has_errors, "no site is written"
    (problem,) = log
    assert problem.slug == "unknown-base"
    assert problem.hint == "Write `weight: 5 lb` under `meat:`, with its own weight."
