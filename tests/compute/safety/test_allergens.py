"""Allergens are a quiet line by whole words of names; food for babies has rules of its own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.tables import Tables
from tests.compute.safety.garden import cook, of

Make = Callable[..., Path]

# FDA, FASTER Act 2021: nine; Regulation (EU) 1169/2011, Annex II: fourteen. Both second-hand.
UNITED_STATES = ("milk", "egg", "fish", "crustaceans", "tree nuts", "peanuts", "wheat", "soy", "sesame")
EUROPE = (
    *(
        "wheat",
        "rye (gluten)",
        "barley (gluten)",
        "oats (gluten)",
        "crustaceans",
        "egg",
        "fish",
        "peanuts",
        "soy",
    ),
    *("milk", "tree nuts", "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs"),
)


def test_both_lists_are_whole(tables: Tables) -> None:
    known = {allergen for found in tables.garden.allergens.values() for allergen in found}
    assert known - {"none"} == {*UNITED_STATES, *EUROPE}


@pytest.mark.parametrize(
    ("lines", "contains"),
    [
        ("1 cup whole milk; 2 cups flour", "milk, wheat"),
        ("1 tbsp peanut butter", "peanuts"),
        (
            "1 cup coconut milk; 1 butternut squash; 2 cups butter beans; 1 tsp cream of tartar; 1 tsp nutmeg",
            "",
        ),
        ("2 tbsp soy sauce", "soy, wheat"),
        ("1 lb walleye", "fish"),
        ("1 lb crayfish; 2 lb clams", "crustaceans, molluscs"),
        ("1 lb oyster mushrooms; 1 lobster mushroom", ""),
        ("2 celery stalks; 1 tbsp prepared mustard; 1/2 cup red wine", "celery, mustard, sulphites"),
        ("1 cup almond milk", "tree nuts"),
        ("2 eggs; 1 eggplant", "egg"),
        ("2 cups buckwheat; 2 cups rice flour", ""),
        ("1/2 cup pearled barley; 1 cup rolled oats", "barley (gluten), oats (gluten)"),
        ("2 tbsp red wine vinegar", ""),
        ("1 dessertspoonful of mustard flour", "mustard"),
        (
            "1 cup acorn flour; 1 cup chestnut flour; 1 cup corn flour; 1 cup buckwheat flour; 1 cup pea flour",
            "",
        ),
        ("1 cup almond flour", "tree nuts"),
        ("1 cup barley flour; 1 cup soy flour; 1 cup peanut flour", "barley (gluten), peanuts, soy"),
        ("1 cup sifted flour", "wheat"),
    ],
)
def test_contains(make_book: Make, kitchen: Kitchen, lines: str, contains: str) -> None:
    found = cook(make_book, kitchen, of(lines, "cook: 20 min to 165 °F inside"))
    expected = [f"Contains {contains}, as far as the ingredients' names tell."] if contains else []
    assert found.facts("Contains") == expected


def test_a_component_counts_at_any_depth(make_book: Make, kitchen: Kitchen) -> None:
    sauce = of("1 lb butter", "cook: 5 min", name="Sauce", makes="1 lb")
    pie = of("4 oz [sauce](sauce.md); 2 cups flour", "bake: 1 h", name="Pie", makes="2 lb")
    found = cook(
        make_book, kitchen, of("1 lb [pie](pie.md)", "reheat: 20 min to 165 °F inside"), sauce=sauce, pie=pie
    )
    assert found.facts("Contains milk, wheat,")
    assert found.boxes == {}


def test_meat_of_a_recipe_counts(make_book: Make, kitchen: Kitchen) -> None:
    trout = of("", "bake: 20 min to 145 °F inside", meat="animal: trout; cut: fillet; weight: 2 lb")
    assert cook(make_book, kitchen, trout).facts("Contains fish,")


def test_every_name_of_the_table_finds_its_allergen(tables: Tables) -> None:
    for name, allergens in tables.garden.allergens.items():
        assert tables.garden.allergens_in(f"2 {name}") == tuple(
            a for a in dict.fromkeys(allergens) if a != "none"
        ), name
