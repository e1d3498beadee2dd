"""From the guests down to the raw meat: each recipe once, for all that take from it, worked by hand."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.compute import Kitchen, NotScalable
from generator.compute.gathering.demand import make_demand
from generator.model.book import Book
from generator.model.plan import Making
from generator.model.quantity import Span
from tests.compute.gathering.conftest import RECIPES
from tests.compute.gathering.invite import book_of, invite, recipe


def by_slug(makings: tuple[Making, ...]) -> dict[str, Making]:
    return {making.slug: making for making in makings}


def test_two_dishes_share_one_batch_of_shanks(book: Book, kitchen: Kitchen) -> None:
    """By hand: 24 helpings are 4 batches of greens and 3 of beans; 4 x 2 L of 4 L is 2 batches of stock; 2 x 2 and
    3 x 1 shanks are 7 of 4, so 7/4 batches: 3.5 kg raw, 2.625 kg smoked."""
    invited = invite(("greens", "1"), ("beans", "1"), adults=21, children=6, tables=kitchen.tables)
    makings = make_demand(book, invited, kitchen)
    assert [making.slug for making in makings] == ["greens", "beans", "stock", "shank"]
    made = by_slug(makings)
    assert [made[slug].batches for slug in ("greens", "beans", "stock")] == [4, 3, 2]
    assert made["greens"].servings == 24
    assert made["shank"].servings is None
    assert made["shank"].batches == Fraction(7, 4)
    assert made["shank"].green_weight_g == 3500
    assert made["shank"].amount_g == Span.of(2625)
    assert made["shank"].used_by == ("beans", "stock")
    assert made["greens"].used_by == ()
    assert made["shank"].recipe.green_weight_g == 3500, "the recipe is worked out at that scale"


def test_a_share_of_the_guests_and_servings_as_told(book: Book, kitchen: Kitchen) -> None:
    """By hand: 3/5 of 10 + 4/2 helpings are 7.2 servings, 1.2 batches of 6; 20 servings are 2.5 batches of 8."""
    invited = invite(
        ("greens", "3/5"), ("beans", "20 servings"), adults=10, children=4, tables=kitchen.tables
    )
    made = by_slug(make_demand(book, invited, kitchen))
    assert made["greens"].servings == Fraction("7.2")
    assert made["greens"].batches == Fraction("1.2")
    assert made["beans"].batches == Fraction("2.5")


def test_a_dish_that_stands_twice_counts_twice(book: Book, kitchen: Kitchen) -> None:
    invited = invite(("beans", "8 servings"), ("beans", "4 servings"), tables=kitchen.tables)
    made = by_slug(make_demand(book, invited, kitchen))
    assert made["beans"].batches == Fraction(3, 2)
    assert made["shank"].batches == Fraction(3, 8)


def test_only_the_rest_is_made(book: Book, kitchen: Kitchen) -> None:
    """By hand: of 2 batches of stock 1/2 is there, so 3/2 are made, which take 3 shanks; with 3 for the beans 6, 3/2
    batches; 1/4 batch is there, so 5/4 are made, of 2.5 kg."""
    invited = invite(
        ("greens", "24 servings"),
        ("beans", "24 servings"),
        components={"stock": "1/2", "shank": "1/4"},
        tables=kitchen.tables,
    )
    made = by_slug(make_demand(book, invited, kitchen))
    stock, shank = made["stock"], made["shank"]
    assert (stock.needed, stock.on_hand, stock.batches) == (2, Fraction(1, 2), Fraction(3, 2))
    assert (shank.needed, shank.on_hand, shank.batches) == (Fraction(3, 2), Fraction(1, 4), Fraction(5, 4))
    assert shank.green_weight_g == 2500
    assert stock.extra == shank.extra == 0


def test_nothing_is_made_of_what_is_there_in_full(book: Book, kitchen: Kitchen) -> None:
    """More stock than is needed: none is made, so no shank goes into it."""
    invited = invite(("greens", "6 servings"), components={"stock": "7"}, tables=kitchen.tables)
    made = by_slug(make_demand(book, invited, kitchen))
    assert (made["stock"].needed, made["stock"].on_hand, made["stock"].batches) == (
        Fraction(1, 2),
        Fraction(1, 2),
        0,
    )
    assert "shank" not in made
    assert made["stock"].recipe.scale.batches == 1, "as written"


def test_whole_batches_of_components_leave_some_over(book: Book, kitchen: Kitchen) -> None:
    """By hand: 10 of 6 servings of greens stay 5/3 batches; 5/6 of stock becomes 1; 2 of 4 shanks becomes 1 batch."""
    invited = invite(("greens", "10 servings"), whole_batches=True, tables=kitchen.tables)
    made = by_slug(make_demand(book, invited, kitchen))
    assert made["greens"].batches == Fraction(5, 3)
    assert (made["stock"].batches, made["stock"].extra) == (1, Fraction(1, 6))
    assert (made["shank"].needed, made["shank"].batches, made["shank"].extra) == (
        Fraction(1, 2),
        1,
        Fraction(1, 2),
    )


FIXED = {
    **RECIPES,
    "beans": RECIPES["beans"].replace("(shank.md), sawn in two", "(shank.md), sawn in two (fixed)"),
}


def test_a_fixed_use_counts_once_and_not_at_all_where_nothing_is_made(
    tmp_path: Path, kitchen: Kitchen
) -> None:
    book = book_of(tmp_path / "content", FIXED, kitchen)
    made = by_slug(make_demand(book, invite(("beans", "80 servings"), tables=kitchen.tables), kitchen))
    assert made["beans"].batches == 10
    assert made["shank"].batches == Fraction(1, 4)
    there = invite(("beans", "80 servings"), components={"beans": "10"}, tables=kitchen.tables)
    assert [making.slug for making in make_demand(book, there, kitchen)] == ["beans"]


def test_a_dish_that_another_dish_takes_comes_behind_it(tmp_path: Path, kitchen: Kitchen) -> None:
    """By hand: 16 of 8 servings are 2 batches; a hash of 6 takes 4 of the 8 bowls of a batch, twice: 1 more."""
    texts = {
        **RECIPES,
        "beans": RECIPES["beans"].replace("serves: 8", "serves: 8\nmakes: 8 bowls"),
        "hash": recipe("Hash", "serves: 6\ningredients:\n  - 4 [bowls of beans](beans.md)"),
    }
    book = book_of(tmp_path / "content", texts, kitchen)
    invited = invite(("beans", "16 servings"), ("hash", "12 servings"), tables=kitchen.tables)
    makings = make_demand(book, invited, kitchen)
    assert [making.slug for making in makings] == ["hash", "beans", "shank"]
    assert by_slug(makings)["beans"].batches == 3
    assert by_slug(makings)["beans"].used_by == ("hash",)


def test_a_dish_that_says_no_servings_is_refused_in_words(book: Book, kitchen: Kitchen) -> None:
    with pytest.raises(NotScalable, match="Smoked stock does not say how many it serves"):
        make_demand(book, invite(("stock", "1"), tables=kitchen.tables), kitchen)


NO_WEIGHT = RECIPES["shank"].replace("makes: 4 shanks (1.5 kg)", "makes: 4 shanks")


def test_published_losses_where_the_author_gives_no_weight(tmp_path: Path, kitchen: Kitchen) -> None:
    """By hand: AWI-108 has 103 after a brine, the house 85 to 92 % of that after a hot smoke: 87.55 to 94.76 % of the
    raw weight, which is 500 g for one of the four shanks of 2 kg: 437.75 to 473.8 g."""
    book = book_of(tmp_path / "content", {**RECIPES, "shank": NO_WEIGHT}, kitchen)
    made = by_slug(make_demand(book, invite(("beans", "8 servings"), tables=kitchen.tables), kitchen))[
        "shank"
    ]
    assert made.green_weight_g == 500
    assert made.amount_g == Span(Fraction("437.75"), Fraction("473.8"))
    assert made.sources == ("awi-108", "house")
    assert made.note == (
        "By published losses 88 to 95 % of the trimmed green weight is left; the recipe does not say it."
    )


def test_raw_meat_by_the_largest_published_loss_where_only_the_finished_weight_is_told(
    tmp_path: Path, kitchen: Kitchen
) -> None:
    """By hand: a quarter of 1.5 kg is 375 g; 375 / 0.8755 = 428.327 g."""
    text = RECIPES["shank"].replace("  weight: 2 kg\n", "")
    book = book_of(tmp_path / "content", {**RECIPES, "shank": text}, kitchen)
    made = by_slug(make_demand(book, invite(("beans", "8 servings"), tables=kitchen.tables), kitchen))[
        "shank"
    ]
    assert made.amount_g == Span.of(375)
    assert made.green_weight_g == Fraction(375) / Fraction("0.8755")
    assert made.sources == ("awi-108", "house")


def test_the_author_goes_before_the_tables(book: Book, kitchen: Kitchen) -> None:
    made = by_slug(make_demand(book, invite(("beans", "8 servings"), tables=kitchen.tables), kitchen))[
        "shank"
    ]
    assert made.amount_g == Span.of(375)
    assert (made.note, made.sources) == ("", ())


def test_a_loss_that_nobody_published_gives_no_weight(tmp_path: Path, kitchen: Kitchen) -> None:
    text = NO_WEIGHT.replace("  - hot smoke", "  - age: 30 days at 38 °F in the fridge\n  - hot smoke")
    book = book_of(tmp_path / "content", {**RECIPES, "shank": text}, kitchen)
    made = by_slug(make_demand(book, invite(("beans", "8 servings"), tables=kitchen.tables), kitchen))[
        "shank"
    ]
    assert made.amount_g is None
    assert made.green_weight_g == 500


def test_the_cure_is_judged_again_at_its_scale(tmp_path: Path, kitchen: Kitchen) -> None:
    """60 g of curing salt bring 3.75 g of nitrite into some 5 kg of meat and brine, about 700 ppm; the limit is 200."""
    text = RECIPES["shank"].replace("curing salt: 150 ppm", "curing salt: 60 g")
    book = book_of(tmp_path / "content", {**RECIPES, "shank": text}, kitchen)
    made = by_slug(make_demand(book, invite(("beans", "32 servings"), tables=kitchen.tables), kitchen))[
        "shank"
    ]
    assert made.recipe.cure is not None
    assert made.recipe.cure.weigh is None
    assert "above-limit" in {problem.slug for problem in made.recipe.problems}
