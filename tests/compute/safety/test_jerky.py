"""Jerky, uncooked sausage and fried cured belly: met, not met, cannot be told, and silence beside them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.compute import Kitchen
from tests.compute.safety.garden import Found, cook, of

Make = Callable[..., Path]
DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
PLAIN = "cure:\n  method: dry\n  salt: 3 %\n"


def meat_of(animal: str, form: str = "sliced") -> str:
    return f"animal: {animal}; cut: round; weight: 4 lb; thickness: 1/4 in; bone: out; form: {form}"


def strips(
    make_book: Make, kitchen: Kitchen, animal: str, *course: str, name: str = "Jerky", eat: str = ""
) -> Found:
    return cook(make_book, kitchen, of("", *course, name=name, makes="1 lb", meat=meat_of(animal), more=eat))


@pytest.mark.parametrize(
    ("animal", "inside"), [("beef", "160"), ("elk", "165"), ("turkey", "165"), ("beef", "72 °C")]
)
def test_heated_first_and_dried_hot_is_met(
    make_book: Make, kitchen: Kitchen, animal: str, inside: str
) -> None:
    """USDA FSIS, Jerky and Food Safety: 160 °F, poultry 165 °F, then a dryer of 130 to 140 °F."""
    to = inside if "°" in inside else f"{inside} °F"
    found = strips(make_book, kitchen, animal, f"roast: 20 min to {to} inside", "dry: 6 h at 140 °F")
    assert found.errors == ()
    box = found.boxes["jerky"]
    assert (box.signal, box.missing) == ("DANGER", ())
    assert "Freezing first is not to be relied on" in box.text


def test_heat_after_the_dryer_is_met(make_book: Make, kitchen: Kitchen) -> None:
    """University of Missouri Extension: or bring it to 160 °F after drying."""
    found = strips(make_book, kitchen, "beef", "dry: 6 h at 140 °F", "bake: 10 min to 160 °F inside")
    assert found.errors == ()
    assert found.boxes["jerky"].missing == ()


@pytest.mark.parametrize(
    ("animal", "course", "words"),
    [
        ("deer", ("dry: 48 h at 120 °F",), "dries at 120 °F (48.9 °C)"),
        ("beef", ("roast: 20 min to 160 °F inside", "dry: 9 h at 125 °F"), "dries at 125 °F"),
        ("beef", ("roast: 20 min to 150 °F inside", "dry: 6 h at 140 °F"), "heated only to 150 °F"),
        ("turkey", ("roast: 20 min to 160 °F inside", "dry: 6 h at 140 °F"), "heated only to 160 °F"),
        ("beef", ("dry: 10 h at 145 °F",), "heated only to 145 °F"),
        ("beef", ("freeze: 60 days", "dry: 6 h at 140 °F"), "Freezing first does not replace the heat"),
    ],
)
def test_raw_or_cold_jerky_is_refused(
    make_book: Make, kitchen: Kitchen, animal: str, course: tuple[str, ...], words: str
) -> None:
    """The 1997 sheet that dried venison at 120 °F for 48 hours is refused: obsolete."""
    found = strips(make_book, kitchen, animal, *course)
    told = [error for error in found.errors if "(rule jerky)" in error.message]
    assert len(told) == 1
    assert told[0].slug == "contradicts-danger"
    assert words in f"{told[0].message} {told[0].hint}"


@pytest.mark.parametrize(
    "course", [("roast: 20 min", "dry: 6 h at 140 °F"), ("roast: 20 min to 165 °F inside", "dry: 6 h")]
)
def test_untold_heat_or_dryer_cannot_be_told(
    make_book: Make, kitchen: Kitchen, course: tuple[str, ...]
) -> None:
    assert strips(make_book, kitchen, "beef", *course).boxes["jerky"].missing == ("course",)


def test_thin_raw_meat_in_a_warm_dryer_is_jerky_by_any_name(make_book: Make, kitchen: Kitchen) -> None:
    assert "(rule jerky)" in strips(make_book, kitchen, "beef", "dry: 9 h at 110 °F", name="Strips").words


def test_a_rest_in_the_cold_before_the_smoke_is_no_jerky(make_book: Make, kitchen: Kitchen) -> None:
    found = strips(
        make_book,
        kitchen,
        "beef",
        "dry: 3 h at 38 °F in the fridge",
        "hot smoke: 4 h to 165 °F inside",
        name="Beef",
    )
    assert "jerky" not in found.boxes


def test_soup_with_jerky_in_it_is_no_jerky(make_book: Make, kitchen: Kitchen) -> None:
    assert (
        "jerky"
        not in cook(
            make_book, kitchen, of("4 oz beef jerky; 2 qt water", "simmer: 1 h", name="Jerky soup")
        ).boxes
    )


@pytest.mark.parametrize(
    "stage", ["ferment: 3 days at 70 °F", "age: 30 days in the cellar", "dry: 21 days in the cellar"]
)
def test_uncooked_game_is_refused_and_other_meat_is_not(
    make_book: Make, kitchen: Kitchen, stage: str
) -> None:
    """Trichinella, Brucella and Toxoplasma rows together: no uncooked fermented or dry-cured game."""
    course = ("cure: 9 days in the fridge", stage)
    game = cook(make_book, kitchen, of("", *course, meat="animal: deer; weight: 4 lb; bone: out", more=DRY))
    assert any("(rule uncooked-ferment)" in error.message for error in game.errors)
    assert any(
        "is never cooked" in error.message and "eat: after cooking" in error.hint for error in game.errors
    )
    farmed = cook(make_book, kitchen, of("", *course, meat="animal: pork; weight: 4 lb; bone: out", more=DRY))
    assert "uncooked-ferment" not in farmed.boxes
    assert ("fermented-sausage" in farmed.boxes) is stage.startswith("ferment")


def test_a_jar_in_the_fridge_cooks_no_aged_game(make_book: Make, kitchen: Kitchen) -> None:
    course = ("cure: 9 days in the fridge", "age: 30 days in the cellar", "jar: in the fridge")
    game = cook(make_book, kitchen, of("", *course, meat="animal: deer; weight: 4 lb; bone: out", more=DRY))
    assert any("(rule uncooked-ferment)" in error.message for error in game.errors)


def test_game_sausage_that_is_cooked_or_cooked_later_is_silent(make_book: Make, kitchen: Kitchen) -> None:
    course = ("cure: 2 days in the fridge", "ferment: 2 days at 70 °F")
    deer = "animal: deer; weight: 4 lb; form: ground"
    cooked = cook(make_book, kitchen, of("", *course, "hot smoke: 5 h to 165 °F inside", meat=deer, more=DRY))
    assert "uncooked-ferment" not in cooked.boxes
    later = cook(make_book, kitchen, of("", *course, meat=deer, more=f"{DRY}eat: after cooking\n"))
    assert "uncooked-ferment" not in later.boxes


def test_fermented_sausage_says_that_plants_measure(make_book: Make, kitchen: Kitchen) -> None:
    """88 FR 29077 and CFIA, second-hand; pH 5.3 from memory: 'commonly'."""
    text = of(
        "",
        "cure: 1 day in the fridge",
        "ferment: 2 days",
        meat="animal: beef; weight: 4 lb; form: ground",
        more=PLAIN,
    )
    box = cook(make_book, kitchen, text).boxes["fermented-sausage"]
    assert "commonly ask for pH 5.3" in box.text
    assert "without a curing salt" in box.because


@pytest.mark.parametrize(
    ("line", "stage", "because", "missing"),
    [
        ("8 oz bacon, diced", "fry: 8 min at 325 °F in the pan", "bacon is fried", ()),
        ("8 oz bacon, diced", "fry: 8 min at 400 °F in the pan", "bacon fries at 400 °F (204.4 °C)", ()),
        ("8 oz bacon, diced", "fry: 8 min in the pan", "does not say how hot", ("course",)),
    ],
)
def test_cured_belly_in_a_pan(
    make_book: Make, kitchen: Kitchen, line: str, stage: str, because: str, missing: tuple[str, ...]
) -> None:
    """FDA/NCTR 1989, Food Chem Toxicol 27:295; below about 350 °F is reported."""
    box = cook(make_book, kitchen, of(line, stage)).boxes["fried-cured-belly"]
    assert because in box.because
    assert box.missing == missing
    assert "350 °F (176 °C)" in box.text


def test_cured_belly_of_a_component_counts_and_simmered_bacon_does_not(
    make_book: Make, kitchen: Kitchen
) -> None:
    belly = of(
        "",
        "cure: 10 days in the fridge",
        "hot smoke: 4 h at 225 °F to 165 °F inside",
        makes="3 lb",
        meat="animal: pork; cut: belly; skin: off; weight: 4 lb; thickness: 1 in; bone: out",
        more=DRY,
        name="Belly",
    )
    found = cook(make_book, kitchen, of("8 oz [belly](belly.md)", "fry: 8 min"), belly=belly)
    assert "Belly is fried" in found.boxes["fried-cured-belly"].because
    assert "fried-cured-belly" not in cook(make_book, kitchen, of("8 oz bacon", "simmer: 1 h")).boxes
    assert (
        "fried-cured-belly"
        not in cook(make_book, kitchen, of("8 oz pork belly", "fry: 9 min to 165 °F inside")).boxes
    )
