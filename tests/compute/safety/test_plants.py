"""Plants and fungi that poison: met, not met, cannot be told; and silence for what only sounds like them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.build import check_book
from generator.compute import Kitchen
from generator.tables import Tables
from tests.compute.safety.garden import cook, of

Make = Callable[..., Path]


@pytest.mark.parametrize(
    "course", ["boil: 20 min", "simmer: 30 min in the pot", "bake: 50 min at 375 °F in the oven"]
)
def test_boiled_elderberries_are_boxed(make_book: Make, kitchen: Kitchen, course: str) -> None:
    """CDC MMWR 1984;33(13):173: raw juice poisons; 20 to 30 minutes is second-hand, so 'commonly advised'."""
    found = cook(make_book, kitchen, of("2 lb ripe elderberries", course))
    assert found.errors == ()
    box = found.boxes["elderberry"]
    assert box.signal == "DANGER"
    assert "commonly advised" in box.text
    assert box.missing == ()


@pytest.mark.parametrize(
    ("lines", "course", "words"),
    [
        ("2 lb elderberries", "chill: 1 h", "'elderberries': raw. Raw elderberries poison."),
        ("2 lb elderberries", "boil: 19 min", "boiled for only 19 min"),
        ("2 lb elderberries", "simmer: 40 min at 150 °F", "'elderberries': raw"),
        ("1 cup elderberry juice", "rest: 1 h", "'elderberry juice': raw"),
        ("2 lb elderberries; 1 cup fresh elderberries, raw to serve", "boil: 30 min", "raw"),
    ],
)
def test_raw_elderberries_are_refused(
    make_book: Make, kitchen: Kitchen, lines: str, course: str, words: str
) -> None:
    found = cook(make_book, kitchen, of(lines, course))
    assert found.errors[0].slug == "contradicts-danger"
    assert words in found.errors[0].message
    assert "boil: 20 min in the pot" in found.errors[0].hint


def test_elderberries_without_a_length_cannot_be_told(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(make_book, kitchen, of("2 lb elderberries", "boil: in the pot until soft"))
    assert found.boxes["elderberry"].missing == ("course",)
    assert found.errors == ()


@pytest.mark.parametrize("line", ["1 cup elderberry syrup", "2 cups elderflowers", "1 cup elderberry wine"])
def test_what_was_boiled_before_or_is_no_berry_is_not_boxed(
    make_book: Make, kitchen: Kitchen, line: str
) -> None:
    assert "elderberry" not in cook(make_book, kitchen, of(line, "rest: 1 h")).boxes


@pytest.mark.parametrize("course", ["boil: 15 min in the pot", "cook: 12 min until steamed tender"])
def test_boiled_fiddleheads_are_boxed(make_book: Make, kitchen: Kitchen, course: str) -> None:
    """Health Canada 2006-42: boil 15 minutes or steam 10 to 12, pour the water away, before frying or baking."""
    found = cook(make_book, kitchen, of("1 lb fiddleheads", course, "fry: 3 min"))
    assert found.errors == ()
    assert "pour that water away" in found.boxes["fiddlehead"].text


@pytest.mark.parametrize(
    "course", [("boil: 14 min",), ("fry: 20 min",), ("bake: 1 h at 350 °F",), ("cook: 9 min until steamed",)]
)
def test_fiddleheads_not_boiled_are_refused(
    make_book: Make, kitchen: Kitchen, course: tuple[str, ...]
) -> None:
    found = cook(make_book, kitchen, of("1 lb fiddleheads", *course))
    assert "not boiled for 15 min first" in found.words
    assert "pour that water away" in found.words


def test_fiddleheads_without_a_length_cannot_be_told(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(make_book, kitchen, of("1 lb fiddleheads", "boil: in the pot"))
    assert found.boxes["fiddlehead"].missing == ("course",)


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


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("1 lb poke sallet", "pokeweed"),
        ("1 lb pokeweed shoots", "pokeweed"),
        ("1 oz elder leaves", "elder-leaf"),
        ("1 lb rhubarb leaves", "rhubarb-leaf"),
    ],
)
def test_what_is_never_eaten_is_refused_however_it_cooks(
    make_book: Make, kitchen: Kitchen, line: str, slug: str
) -> None:
    """MMWR 1981;30(6):65: boiled, drained and boiled again, pokeweed made 20 of 46 ill."""
    found = cook(make_book, kitchen, of(line, "boil: 60 min", "boil: 60 min"))
    assert f"this poisons, and no cooking makes it safe to eat. (rule {slug})" in found.words
    assert "Take the line out" in found.words


def test_no_acceptance_lets_pokeweed_in(make_book: Make) -> None:
    text = of("1 lb pokeweed", "boil: 60 min", more="accept:\n  pokeweed: grandmother ate it\n")
    (problem,) = check_book(make_book({"recipes/dish.md": text}))
    assert problem.slug == "unknown-rule"
    assert "nobody can accept" in problem.hint


@pytest.mark.parametrize("line", ["6 oz morels", "2 oz dried morels", "1 lb morel mushrooms"])
def test_morels_are_never_raw(make_book: Make, kitchen: Kitchen, line: str) -> None:
    """CDC MMWR 2024;73(10):219: 51 ill; raw worse than part-cooked."""
    assert "eaten raw" in cook(make_book, kitchen, of(line, "chill: 1 h")).words
    assert cook(make_book, kitchen, of(line, "fry: 15 min in the pan")).boxes["morel"].missing == ()
    assert cook(make_book, kitchen, of(line, "fry: in the pan")).boxes["morel"].missing == ("course",)


def test_bought_mushrooms_are_not_spoken_of(make_book: Make, kitchen: Kitchen) -> None:
    for line in ("1 lb mushrooms", "1 lb oyster mushrooms", "1 lb maitake", "1 lb button mushrooms, raw"):
        assert cook(make_book, kitchen, of(line, "rest: 10 min")).boxes == {}, line


def test_gathered_mushrooms_are_looked_at_by_an_expert(make_book: Make, kitchen: Kitchen) -> None:
    """California Department of Public Health: no cooking makes a death cap harmless (second-hand)."""
    for line in ("1 lb wild mushrooms", "1 lb chanterelles", "1 lb maitake, gathered"):
        found = cook(make_book, kitchen, of(line, "fry: 15 min"))
        assert "death cap" in found.boxes["wild-mushrooms"].text
        assert "foraged" in found.boxes
    tagged = of("1 lb maitake", "fry: 15 min", more="tags: [foraged]\n")
    assert "wild-mushrooms" in cook(make_book, kitchen, tagged).boxes
    assert "eaten raw" in cook(make_book, kitchen, of("1 lb boletes", "rest: 1 h")).words


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


def test_nettles_lose_their_sting_by_heat(make_book: Make, kitchen: Kitchen) -> None:
    """A flora citing Crowhurst 1972 (second-hand): 5 minutes."""
    assert (
        cook(make_book, kitchen, of("1 lb nettles", "boil: 5 min")).boxes["nettle"].because
        == "it uses nettles"
    )
    assert (
        "heated for less"
        in cook(make_book, kitchen, of("1 lb nettles", "boil: 2 min")).boxes["nettle"].because
    )
    assert (
        "nothing in the course"
        in cook(make_book, kitchen, of("1 lb nettles", "rinse")).boxes["nettle"].because
    )
    assert cook(make_book, kitchen, of("1 lb nettles", "boil: in the pot")).boxes["nettle"].missing == (
        "course",
    )


def test_only_wild_watercress_can_carry_fluke(make_book: Make, kitchen: Kitchen) -> None:
    assert cook(make_book, kitchen, of("2 cups watercress", "rinse")).boxes == {}
    wild = cook(make_book, kitchen, of("2 cups wild watercress", "rinse")).boxes["watercress-fluke"]
    assert "eaten raw" in wild.because
    cooked = cook(make_book, kitchen, of("2 cups wild watercress", "boil: 5 min")).boxes["watercress-fluke"]
    assert "eaten raw" not in cooked.because


@pytest.mark.parametrize(
    ("course", "keep", "seen"),
    [
        ("pack: vacuum", "fridge: 9 days", "error"),
        ("pack: vacuum", "", "missing"),
        ("pack", "fridge: 9 days", "missing"),
        ("pack: vacuum", "freezer: 6 months", "nothing"),
        ("pack: in bags", "fridge: 9 days", "nothing"),
    ],
)
def test_raw_mushrooms_are_not_sealed(
    make_book: Make, kitchen: Kitchen, course: str, keep: str, seen: str
) -> None:
    """FDA note on morels, as reported: cold and where air gets to them."""
    found = cook(make_book, kitchen, of("1 lb mushrooms", course, keep=keep))
    box = found.boxes.get("mushroom-sealed")
    if seen == "error":
        assert "sealed from the air raw" in found.words
    assert (box is not None and bool(box.missing)) is (seen == "missing")
    assert (box is None) is (seen == "nothing")


def test_dried_cooked_and_frozen_mushrooms_may_be_sealed(make_book: Make, kitchen: Kitchen) -> None:
    for course in (
        ("dry: 9 h at 130 °F", "pack: vacuum"),
        ("fry: 9 min", "pack: vacuum"),
        ("pack: vacuum", "freeze"),
    ):
        found = cook(make_book, kitchen, of("1 lb mushrooms", *course, keep="fridge: 9 days"))
        assert "mushroom-sealed" not in found.boxes


def test_oxalate_rhubarb_and_nitrate_are_quiet_lines(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(make_book, kitchen, of("1 lb spinach; 1 lb sorrel; 1 lb rhubarb", "boil: 8 min"))
    assert found.boxes == {}
    assert found.facts("Rich in oxalate (spinach, sorrel)")
    assert found.facts("Rich in nitrate (spinach)")
    assert found.facts("Of rhubarb only the stalk")


def test_every_row_of_plants_finds_itself(tables: Tables) -> None:
    for name, plant in tables.garden.plants.items():
        found = tables.garden.plant_in(f"young {name}")
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
        assert tables.garden.plant_in(name) is None, name
