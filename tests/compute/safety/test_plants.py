"""Plants and fungi that poison: met, not met, cannot be told; and silence for what only sounds like them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.build import check_book
from generator.compute import Kitchen
from generator.compute.safety.facts.plants import plant_in
from generator.tables import Tables
from tests.compute.safety.garden import cook, of

Make = Callable[..., Path]


def test_fiddleheads_blanched_to_freeze_are_cooked_by_their_dish(make_book: Make, kitchen: Kitchen) -> None:
    """Health Canada 2014: blanched 2 minutes to freeze, and the full cooking still later."""
    frozen = of(
        "2 lb fiddleheads", "blanch: 2 min", "freeze: in the freezer", name="Frozen", makes="2 lb"
    ).replace("course:", "eat: after cooking\ncourse:")
    fried = of("1 lb [frozen](frozen.md)", "fry: 8 min to 165 °F inside")
    found = cook(make_book, kitchen, fried, frozen=frozen)
    assert "not boiled for 15 min first" in " ".join(error.message for error in found.errors)
    boiled = of("1 lb [frozen](frozen.md)", "boil: 15 min to 165 °F inside")
    found = cook(make_book, kitchen, boiled, frozen=frozen)
    assert found.errors == ()
    assert "in Frozen, not yet cooked" in found.boxes["fiddlehead"].because


def test_no_acceptance_lets_pokeweed_in(make_book: Make) -> None:
    text = of("1 lb pokeweed", "boil: 60 min", more="accept:\n  pokeweed: grandmother ate it\n")
    found = {one.slug: one for one in check_book(make_book({"recipes/dish.md": text}))}
    assert set(found) == {"contradicts-danger", "unknown-rule"}
    assert "nobody can accept" in found["unknown-rule"].hint
    assert "(rule pokeweed)" in found["contradicts-danger"].message


@pytest.mark.parametrize("line", ["1 bunch ramps", "1 cup wild garlic", "1 cup bear garlic", "2 wild leeks"])
def test_look_alikes_of_ramps(make_book: Make, kitchen: Kitchen, line: str) -> None:
    """Seale 2022, Anwar 2018: false hellebore eaten for ramps and for wild garlic. Bear garlic is no bear."""
    found = cook(make_book, kitchen, of(line, "fry: 5 min"))
    assert set(found.boxes) == {"ramps-lookalike", "foraged"}


@pytest.mark.parametrize("line", ["1 lb chicken of the woods", "2 pheasant backs", "1 lb duck potatoes"])
def test_a_plant_with_the_name_of_an_animal_is_no_meat(make_book: Make, kitchen: Kitchen, line: str) -> None:
    found = cook(make_book, kitchen, of(line, "fry: 20 min"))
    assert set(found.boxes) <= {"wild-mushrooms", "foraged"}
    assert "foraged" in found.boxes


def test_foraged_box_stands_once_with_the_books_own_line_for_help(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(
        make_book,
        kitchen,
        of("1 lb nettle tops; 1 bunch ramps; 1 cup chickweed", "boil: 10 min"),
        book="poison help: Ring 555\n",
    )
    assert [box.slug for box in found.recipe.cautions].count("foraged") == 1
    assert found.boxes["foraged"].because.endswith("; Ring 555")
    assert "it uses chickweed" in found.boxes["foraged"].because
    for words in ("roadsides", "named", "eat a little", "small children"):
        assert words in found.boxes["foraged"].text


def test_every_row_of_plants_finds_itself(tables: Tables) -> None:
    for name, plant in tables.garden.plants.items():
        found = plant_in(f"young {name}", tables)
        assert found is not None
        assert found.key == plant.key, name


def test_plants_are_found_as_whole_words_only(tables: Tables) -> None:
    for name in (
        "docking",
        "paddock leaves",
        "rampion",
        "chardonnay",
        "beetle",
        "elderflower",
        "kettle corn",
    ):
        assert plant_in(name, tables) is None, name
