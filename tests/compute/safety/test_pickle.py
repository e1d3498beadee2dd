"""Vinegar, salted ferments and oil: met, not met, cannot be told; and silence for a salad."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.compute import Kitchen
from tests.compute.safety.garden import Found, cook, of

Make = Callable[..., Path]


@pytest.mark.parametrize("vinegar", ["cider vinegar, 5 %", "white vinegar, 50 grain", "vinegar, 6% acidity"])
def test_vinegar_of_five_per_cent_is_met(make_book: Make, kitchen: Kitchen, vinegar: str) -> None:
    """North Dakota State University Extension: 5 % (50 grain); Utah State: pH 4.6."""
    found = cook(
        make_book, kitchen, of(f"2 lb cucumbers; 3 cups {vinegar}", "pickle: 7 days", keep="fridge: 30 days")
    )
    assert found.errors == ()
    box = found.boxes["pickle-acid"]
    assert (box.signal, box.missing) == ("WARNING", ())
    assert "pH 4.6" in box.text


@pytest.mark.parametrize(
    ("vinegar", "words"),
    [
        ("rice vinegar, 4 %", "has 4 % acid"),
        ("malt vinegar, 4,5 %", "has 4.5 %"),
        ("vinegar, 40-grain", "has 4 % acid"),
        ("vinegar, 4-5 %", "has 4 % acid"),
        ("vinegar, 4 % to 5 %", "has 4 % acid"),
        ("vinegar, 4.5 – 6 percent", "has 4.5 % acid"),
        ("vinegar, 40 to 50 grain", "has 4 % acid"),
    ],
)
def test_weaker_vinegar_is_refused(make_book: Make, kitchen: Kitchen, vinegar: str, words: str) -> None:
    found = cook(make_book, kitchen, of(f"2 lb cucumbers; 3 cups {vinegar}", "pickle: 7 days"))
    assert words in found.words
    assert "Use vinegar marked 5 %" in found.words
    assert found.errors[0].slug == "contradicts-warning"


@pytest.mark.parametrize(
    ("lines", "missing"),
    [
        ("1 cup cider vinegar, 5 %; 4 cups water", ("ingredients",)),
        ("1 cup cider vinegar, 5 %; 1 cup boiling water; 1 cup ice water", ("ingredients",)),
        ("1 pt cider vinegar, 5 %; 1 kg water", ("ingredients",)),
        ("1 cup cider vinegar, 5 %; 1 cup water", ()),
        ("1 cup cider vinegar, 5 %; 1 cup malt vinegar, 5 %; 2 cups water", ()),
    ],
)
def test_vinegar_thinned_with_more_water_is_not_called_met(
    make_book: Make, kitchen: Kitchen, lines: str, missing: tuple[str, ...]
) -> None:
    """The rule keeps to tested measures of vinegar and water; beyond equal parts none is known here."""
    found = cook(make_book, kitchen, of(f"2 lb cucumbers; {lines}", "pickle: 7 days"))
    assert found.boxes["pickle-acid"].missing == missing


@pytest.mark.parametrize("line", ["3 cups cider vinegar", "1 cup lemon juice"])
def test_unknown_acid_cannot_be_told(make_book: Make, kitchen: Kitchen, line: str) -> None:
    found = cook(make_book, kitchen, of(f"2 lb cucumbers; {line}", "pickle: 7 days"))
    assert found.boxes["pickle-acid"].missing == ("ingredients",)


def test_an_hours_onions_are_a_salad(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(
        make_book, kitchen, of("1 onion; 1 cup vinegar", "pickle: 1 h in the fridge", keep="fridge: 3 days")
    )
    assert found.boxes == {}
    long = cook(
        make_book, kitchen, of("1 onion; 1 cup vinegar", "pickle: 1 h in the fridge", keep="fridge: 30 days")
    )
    assert long.boxes["pickle-acid"].missing == ("ingredients",)


def kraut(
    make_book: Make, kitchen: Kitchen, salt: str, more: str = "", stage: str = "4 weeks at 72 °F in a crock"
) -> Found:
    return cook(make_book, kitchen, of(f"2000 g cabbage; {salt}{more}", f"ferment: {stage}"))


@pytest.mark.parametrize("grams", [45, 50])
def test_salt_of_the_guide_is_met(make_book: Make, kitchen: Kitchen, grams: int) -> None:
    """USDA Guide 6: 3 tbsp (17 to 19 g each) in 5 lb (2,268 g) of cabbage, 2.25 to 2.5 %; 45 g in 2000 g is 2.25 %."""
    box = kraut(make_book, kitchen, f"{grams} g salt").boxes["ferment-salt"]
    assert box.missing == ()
    assert f"{grams / 20:g} % salt in cabbage" in box.because


@pytest.mark.parametrize(
    ("salt", "words"),
    [
        ("44 g salt", "The salt is 2.2 % of the vegetables."),
        ("20 g salt", "1 %"),
        ("45 g salt substitute", "takes the place of salt"),
    ],
)
def test_less_salt_is_refused(make_book: Make, kitchen: Kitchen, salt: str, words: str) -> None:
    """North Dakota State University Extension: do not cut the salt; no substitutes. 44 / 2000 = 2.2 %."""
    found = kraut(make_book, kitchen, salt)
    assert words in found.words
    assert "Weigh 2.25 to 2.5 %" in found.words


@pytest.mark.parametrize(
    ("salt", "more"),
    [("salt, to taste", ""), ("45 g salt", "; 2 cups water"), ("45 g salt", "; 1 bunch radishes")],
)
def test_unknown_weights_cannot_be_told(make_book: Make, kitchen: Kitchen, salt: str, more: str) -> None:
    assert kraut(make_book, kitchen, salt, more).boxes["ferment-salt"].missing == ("ingredients",)


@pytest.mark.parametrize(
    ("stage", "words", "missing"),
    [
        ("4 weeks at 72 °F in a crock", "", ()),
        ("6 weeks at 62 °F in a crock", "", ()),
        ("4 weeks at 80 °F in a crock", "ferments at 80 °F", ()),
        ("6 weeks at 55 °F in a crock", "ferments at 55 °F", ()),
        ("1 week at 72 °F in a crock", "ferments for 1 week", ()),
        ("3 weeks at 62 °F in a crock", "ferments for 3 weeks", ()),
        ("4 weeks in a crock", "does not say the temperature", ("course",)),
        ("at 72 °F in a crock", "does not say the time", ("course",)),
    ],
)
def test_where_and_how_long_cabbage_ferments(
    make_book: Make, kitchen: Kitchen, stage: str, words: str, missing: tuple[str, ...]
) -> None:
    """USDA Guide 6: 70 to 75 °F 3 to 4 weeks, 60 to 65 °F 5 to 6; below 60 it may not ferment, above 75 soft."""
    box = kraut(make_book, kitchen, "46 g salt", stage=stage).boxes.get("ferment-place")
    if words:
        assert box is not None
        assert words in box.because
        assert box.missing == missing
    else:
        assert box is None


@pytest.mark.parametrize(
    "lines", ["4 cups flour; 1 cup water", "1 gal apple juice", "1 lb beef; 1 lb cabbage"]
)
def test_dough_cider_and_sausage_are_no_fermented_vegetables(
    make_book: Make, kitchen: Kitchen, lines: str
) -> None:
    boxes = cook(make_book, kitchen, of(lines, "ferment: 12 h", "bake: 1 h to 165 °F inside")).boxes
    assert not {"ferment-salt", "ferment-place"} & set(boxes)


def oil(make_book: Make, kitchen: Kitchen, fresh: str, stage: str, keep: str) -> Found:
    return cook(make_book, kitchen, of(f"{fresh}; 2 cups olive oil", stage, keep=keep))


@pytest.mark.parametrize("keep", ["fridge: 4 days", "fridge: 2 days; freezer: 3 months", "freezer: 3 months"])
def test_oil_in_the_cold_for_four_days_is_met(make_book: Make, kitchen: Kitchen, keep: str) -> None:
    """NCHFP 2015, citing Nummer 2011: the fridge, at most 4 days; freeze for months; never room temperature."""
    found = oil(make_book, kitchen, "1 head garlic", "infuse: 1 h in the pot", keep)
    assert found.errors == ()
    assert found.boxes["oil-infusion"].missing == ()


@pytest.mark.parametrize(
    ("fresh", "stage", "keep", "words"),
    [
        ("1 head garlic", "infuse: 1 h", "shelf: 30 days", "on the shelf for 30 days"),
        ("1 head garlic", "infuse: 1 h", "fridge: 7 days", "for 7 days, longer than 4 days"),
        ("1 cup basil", "infuse: 2 weeks in the pantry", "fridge: 4 days", "where it is not cold"),
        (
            "1 lb mushrooms",
            "infuse: 10 days in the fridge",
            "fridge: 4 days",
            "for longer than 4 days (infuse: 10 days in the fridge)",
        ),
    ],
)
def test_oil_that_is_warm_or_old_is_refused(
    make_book: Make, kitchen: Kitchen, fresh: str, stage: str, keep: str, words: str
) -> None:
    found = oil(make_book, kitchen, fresh, stage, keep)
    assert words in found.words
    assert "Keep it in the fridge for at most 4 days" in found.words
    assert found.errors[0].slug == "contradicts-danger"


def test_oil_without_a_place_cannot_be_told(make_book: Make, kitchen: Kitchen) -> None:
    assert oil(make_book, kitchen, "1 head garlic", "infuse: 1 h", "").boxes["oil-infusion"].missing == (
        "keep",
    )


@pytest.mark.parametrize(
    "fresh", ["2 tbsp dried rosemary", "1 tbsp chili flakes", "1 tbsp peppercorns", "2 lb trout"]
)
def test_dry_spices_in_oil_are_not_spoken_of(make_book: Make, kitchen: Kitchen, fresh: str) -> None:
    assert "oil-infusion" not in oil(make_book, kitchen, fresh, "infuse: 1 h", "shelf: 30 days").boxes


@pytest.mark.parametrize(
    "fresh",
    ["1 cup basil, rinsed and patted dry", "1 head garlic, dried with a cloth", "8 cloves garlic, ground"],
)
def test_what_was_wiped_dry_or_ground_is_still_fresh(make_book: Make, kitchen: Kitchen, fresh: str) -> None:
    found = oil(make_book, kitchen, fresh, "infuse: 2 weeks in the pantry", "shelf: 30 days")
    assert "where it is not cold" in found.words
    assert found.errors[0].slug == "contradicts-danger"
    dried = oil(make_book, kitchen, "2 tbsp thyme, dried", "infuse: 1 h", "shelf: 30 days")
    assert "oil-infusion" not in dried.boxes


def test_garlic_fried_for_supper_and_herbs_in_spirits_are_not_spoken_of(
    make_book: Make, kitchen: Kitchen
) -> None:
    assert oil(make_book, kitchen, "1 head garlic", "fry: 5 min", "fridge: 3 days").boxes == {}
    assert (
        cook(
            make_book,
            kitchen,
            of("1 cup mint; 2 cups vodka", "infuse: 2 weeks in the pantry", keep="shelf: 52 weeks"),
        ).boxes
        == {}
    )
