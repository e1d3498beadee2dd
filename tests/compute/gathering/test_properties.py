"""What holds of every gathering: demand adds up, grows with the guests, nothing is lost, nothing is listed for nothing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import Kitchen
from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.shopping import make_list
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.plan import Item, Making
from generator.model.quantity import Span
from tests.compute.gathering.invite import book_of, invite, on_hand_line, recipe

BROTH = "makes: 3 L\ningredients:\n  - 2 [smoked hocks](hock.md)\n  - 150 g onion\n  - 2 tbsp honey"
TEXTS = {
    "hock": recipe(
        "Smoked hock", "makes: 7 hocks (2 kg)\nmeat:\n  animal: pork\n  cut: hock\n  weight: 3 kg"
    ),
    "broth": recipe("Broth", BROTH),
    "soup": recipe(
        "Soup",
        "serves: 5\ningredients:\n  - 1 L [broth](broth.md)\n  - 300 g kale\n  - 1 cup all-purpose flour",
    ),
    "peas": recipe(
        "Peas",
        "serves: 7\ningredients:\n  - 1 [hock](hock.md)\n  - 500 g dry split peas\n  - 1 tsp table salt\n  - 100 g onion",
    ),
    "bread": recipe("Bread", "serves: 9\ningredients:\n  - 400 g all-purpose flour\n  - 1/4 cup honey"),
}
DISHES = ("soup", "peas", "bread")
COUNT = st.integers(min_value=1, max_value=90)
SERVINGS = st.dictionaries(st.sampled_from(DISHES), COUNT, min_size=1)
ON_HAND = st.dictionaries(st.sampled_from(("broth", "hock")), st.fractions(0, 3, max_denominator=12))
few = settings(max_examples=60)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory, kitchen: Kitchen) -> Book:
    """A book without fixed lines, where every food has a known weight."""
    return book_of(tmp_path_factory.mktemp("properties") / "content", TEXTS, kitchen)


@pytest.fixture(scope="module")
def supper(kitchen: Kitchen) -> Callable[..., Invited]:
    def make(
        servings: dict[str, int], components: dict[str, Fraction] | None = None, times: int = 1
    ) -> Invited:
        dishes = [(slug, f"{many * times} servings") for slug, many in sorted(servings.items())]
        there = {slug: str(batches) for slug, batches in (components or {}).items()}
        return invite(*dishes, components=there, tables=kitchen.tables)

    return make


def needed(makings: tuple[Making, ...]) -> dict[str, Fraction]:
    return {making.slug: making.needed for making in makings}


def grams(items: tuple[Item, ...]) -> dict[tuple[str, str], Fraction]:
    found: dict[tuple[str, str], Fraction] = {}
    for item in items:
        assert item.grams is not None, f"{item.name}: every food of this book has a known weight"
        found[item.place, item.name] = item.grams.high
    return found


def added(one: dict[object, Fraction], other: dict[object, Fraction]) -> dict[object, Fraction]:
    return {key: one.get(key, Fraction(0)) + other.get(key, Fraction(0)) for key in {*one, *other}}


@few
@given(one=SERVINGS, other=SERVINGS)
def test_demand_of_two_gatherings_is_the_sum(
    plain: Book, kitchen: Kitchen, supper: Callable[..., Invited], one: dict[str, int], other: dict[str, int]
) -> None:
    first, second = supper(one), supper(other)
    both = replace(first, dishes=first.dishes + second.dishes)
    makings = [make_demand(plain, invited, kitchen) for invited in (first, second, both)]
    assert added(needed(makings[0]), needed(makings[1])) == needed(makings[2])
    lists = [
        grams(make_list(plain, invited, made, kitchen))
        for invited, made in zip((first, second, both), makings, strict=True)
    ]
    assert added(lists[0], lists[1]) == lists[2]


@few
@given(servings=SERVINGS, times=st.integers(min_value=2, max_value=7))
def test_more_guests_make_exactly_as_much_more(
    plain: Book, kitchen: Kitchen, supper: Callable[..., Invited], servings: dict[str, int], times: int
) -> None:
    once, many = (make_demand(plain, supper(servings, times=factor), kitchen) for factor in (1, times))
    assert [making.slug for making in once] == [making.slug for making in many]
    for one, more in zip(once, many, strict=True):
        assert more.batches == one.batches * times
        assert more.amount_g == (None if one.amount_g is None else one.amount_g.times(times))
        assert more.green_weight_g == (None if one.green_weight_g is None else one.green_weight_g * times)
    first, second = (
        grams(make_list(plain, supper(servings, times=factor), made, kitchen))
        for factor, made in ((1, once), (times, many))
    )
    assert second == {key: value * times for key, value in first.items()}


@few
@given(servings=SERVINGS, there=ON_HAND, whole=st.booleans())
def test_nothing_is_listed_for_nothing_and_nothing_is_lost(
    plain: Book,
    kitchen: Kitchen,
    supper: Callable[..., Invited],
    servings: dict[str, int],
    there: dict[str, Fraction],
    whole: bool,
) -> None:
    invited = supper(servings, there)
    invited = replace(invited, gathering=replace(invited.gathering, whole_batches=whole))
    makings = make_demand(plain, invited, kitchen)
    every = make_list(plain, invited, makings, kitchen)
    items = tuple(item for item in every if not item.is_made)
    assert len(every) - len(items) == sum(making.on_hand > 0 for making in makings)
    made = {making.slug: making for making in makings if making.batches}
    for item in items:
        assert item.needed_for
        for slug in item.needed_for:
            names = [line.name for line in made[slug].recipe.recipe.ingredients]
            meat = made[slug].recipe.recipe.meat
            assert item.name in (*names, meat.name if meat else "")
    # Every line that is bought is on the list, in full: its weight at the scale of its making, kale with its stems.
    bought = sum(
        (
            line.grams.high / (Fraction("0.72") if line.ingredient.name == "kale" else 1)
            for making in made.values()
            for line in making.recipe.lines
            if line.ingredient.link is None and line.grams is not None and "onion" not in line.ingredient.name
        ),
        Fraction(0),
    )
    onions = sum(
        (
            line.grams.high / Fraction("0.9")
            for making in made.values()
            for line in making.recipe.lines
            if line.ingredient.name == "onion" and line.grams is not None
        ),
        Fraction(0),
    )
    meat_g = sum((making.green_weight_g or Fraction(0) for making in made.values()), Fraction(0))
    assert sum(grams(items).values()) == bought + onions + meat_g


@few
@given(servings=SERVINGS, there=ON_HAND)
def test_what_is_made_and_what_is_there_is_what_is_needed(
    plain: Book,
    kitchen: Kitchen,
    supper: Callable[..., Invited],
    servings: dict[str, int],
    there: dict[str, Fraction],
) -> None:
    made = {making.slug: making for making in make_demand(plain, supper(servings, there), kitchen)}
    for making in made.values():
        assert making.batches >= 0
        assert making.extra == 0
        assert making.on_hand <= there.get(making.slug, Fraction(0))
        if making.servings is None:
            taken = sum(
                use.batches * made[use.dish].batches for use in plain.used_by(making.slug) if use.dish in made
            )
            assert making.needed == taken
    slugs = list(made)
    for use in plain.uses:
        if use.dish in made and use.component in made:
            assert slugs.index(use.dish) < slugs.index(use.component)


@few
@given(servings=SERVINGS, which=st.integers(min_value=0), share=st.fractions(0, 2, max_denominator=8))
def test_what_is_on_hand_in_full_is_not_listed(
    plain: Book,
    kitchen: Kitchen,
    supper: Callable[..., Invited],
    servings: dict[str, int],
    which: int,
    share: Fraction,
) -> None:
    invited = supper(servings)
    makings = make_demand(plain, invited, kitchen)
    items = make_list(plain, invited, makings, kitchen)
    chosen = items[which % len(items)]
    assert chosen.grams is not None
    have = on_hand_line(f"1 g {chosen.name}", kitchen.tables)
    assert have.line.quantity is not None
    there = replace(have.line, quantity=have.line.quantity.times(chosen.grams.high * share))
    left = make_list(plain, replace(invited, ingredients=(replace(have, line=there),)), makings, kitchen)
    others = [item for item in items if item is not chosen]
    if share >= 1:
        assert list(left) == others
        return
    rest = {(item.place, item.name): item.grams for item in left}
    assert rest.pop((chosen.place, chosen.name)) == Span.of(chosen.grams.high * (1 - share))
    assert rest == {(item.place, item.name): item.grams for item in others}


@few
@given(base=st.fractions(min_value=Fraction(1, 100), max_value=200_000, max_denominator=1000))
def test_what_is_bought_is_never_less_than_what_is_needed(kitchen: Kitchen, base: Fraction) -> None:
    for system in ("us", "metric", "imperial"):
        for use in ("bought weight", "bought volume", "bought curing salt"):
            bought = kitchen.shower.rounded(base, use=use, system=system)
            assert bought >= base
        assert kitchen.shower.rounded(base, use="bought curing salt", system=system) < base + 1
    assert Fraction(kitchen.shower.bought_count(base)) >= base
