"""Farmed meat and fish: least temperatures, hold times, heating again. Met, not met, not to be told."""

from __future__ import annotations

import pytest

from tests.compute.safety.heated import Make, cook, of_lines, of_meat, silent, the_box, the_error

DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
BEEF = "animal: beef; cut: top round; weight: 4 lb"

# what, the rule, a temperature that is enough and one that is not
CASES = [
    # FoodSafety.gov, Safe Minimum Internal Temperatures
    ("animal: chicken; weight: 3 lb", "poultry-165", 165, 164),
    ("animal: domestic duck; cut: breast; weight: 1 lb", "poultry-165", 165, 140),
    ("animal: duck; source: farmed; weight: 1 lb", "poultry-165", 165, 140),
    ("animal: beef; form: ground; weight: 2 lb", "ground-160", 160, 159),
    ("animal: lamb; cut: sausage; weight: 2 lb", "ground-160", 160, 150),
    (BEEF, "whole-cut-145", 145, 144),
    ("animal: pork; cut: loin; weight: 2 lb", "whole-cut-145", 145, 140),
    ("animal: trout; weight: 2 lb", "fish-145", 145, 130),
    # FDA Food Code 3-401.11(A)(2) and FSIS Revised Appendix A 2021: not intact
    ("animal: beef; cut: 'shoulder, boned and rolled'; weight: 4 lb", "not-intact-160", 160, 145),
    ("animal: beef; cut: tenderized steak; weight: 2 lb", "not-intact-160", 160, 150),
    # FDA Food Code 3-401.11(A)(3)
    ("animal: pork; cut: 'chop, stuffed'; weight: 2 lb", "stuffed-165", 165, 160),
    # FSIS on farm-raised game and rabbit, from memory
    ("animal: elk; source: farmed; weight: 2 lb", "farmed-game-160", 160, 150),
    ("animal: rabbit; source: farmed; weight: 2 lb", "farmed-game-160", 160, 150),
]


@pytest.mark.parametrize(("meat", "rule", "enough", "too_little"), CASES)
def test_least_temperature(make_book: Make, meat: str, rule: str, enough: int, too_little: int) -> None:
    found = cook(make_book, of_meat(meat, f"roast: 2 h at 350 °F to {enough} °F inside"))
    assert silent(found, rule)
    assert any(f"at least {enough} °F" in fact for fact in found.facts), found.facts
    problem = the_error(cook(make_book, of_meat(meat, f"roast: 2 h to {too_little} °F inside")), rule)
    assert problem.slug == "contradicts-warning"
    assert f"only to {too_little} °F" in problem.message
    assert f"to {enough} °F inside" in problem.hint
    assert the_box(cook(make_book, of_meat(meat, "roast: 2 h at 350 °F")), rule).missing == ("course",)


@pytest.mark.parametrize(
    "line",
    [
        "1 lb turkey tail mushrooms",
        "1 lb chicken of the woods",
        "1 qt beef stock",
        "2 tbsp fox grapes",
        "1 head lamb lettuce",
    ],
)
def test_names_that_only_sound_like_meat(make_book: Make, line: str) -> None:
    found = cook(make_book, of_lines(line, course=("roast: 20 min at 400 °F",)))
    assert not {caution.slug for caution in found.cautions} & {
        "poultry-165",
        "wild-game-165",
        "whole-cut-145",
    }


# hold times: FSIS Appendix A 1999, FDA Food Code 3-401.11(B), McMinn et al. 2018


@pytest.mark.parametrize(
    ("inside", "length"),
    [("145", "4 minutes"), ("147", "144 seconds"), ("150", "72 seconds"), ("155.5", "23 seconds")],
)
def test_hold_time_of_a_whole_farmed_roast(make_book: Make, inside: str, length: str) -> None:
    found = cook(make_book, of_meat(BEEF, f"roast: 2 h at 350 °F to {inside} °F inside in the oven"))
    assert any(f"stays that hot for {length} or longer" in fact for fact in found.facts), found.facts


@pytest.mark.parametrize(
    "text",
    [
        of_meat("animal: deer; cut: loin; weight: 4 lb", "roast: 2 h at 350 °F to 165 °F inside"),
        of_meat("animal: chicken; weight: 4 lb", "roast: 2 h at 350 °F to 165 °F inside"),
        of_meat("animal: beef; form: ground; weight: 4 lb", "roast: 2 h at 350 °F to 160 °F inside"),
        of_meat(BEEF, "dry: 24 h in the fridge", "roast: 2 h at 350 °F to 150 °F inside"),
        of_meat(BEEF, "hot smoke: 3 h at 225 °F", "roast: 2 h at 350 °F to 150 °F inside"),
        of_meat(BEEF, "cure: 5 days in the fridge", "roast: 2 h at 350 °F to 150 °F inside", more=DRY),
        of_meat(BEEF, "roast: 2 h at 350 °F to 158 °F inside"),
        of_meat(BEEF, "braise: 2 h to 150 °F inside"),
    ],
)
def test_no_hold_time_where_the_table_does_not_hold(make_book: Make, text: str) -> None:
    assert not [fact for fact in cook(make_book, text).facts if "stays that hot" in fact]


def test_oven_of_a_roast(make_book: Make) -> None:
    """FDA Food Code 3-401.11(B)(1): still and dry, 350 °F below 10 lb, 250 °F from 10 lb."""

    def oven(weight: str, at: str) -> list[str]:
        found = cook(
            make_book,
            of_meat(f"animal: beef; cut: round; weight: {weight}", f"roast: 4 h at {at} to 150 °F inside"),
        )
        return [fact for fact in found.facts if "still, dry oven" in fact]

    assert oven("4 lb", "350 °F") == []
    assert "350 °F (177 °C) or hotter" in oven("4 lb", "300 °F")[0]
    assert oven("12 lb", "250 °F") == []
    assert "250 °F (122 °C) or hotter" in oven("12 lb", "225 °F")[0]


# the thermometer, whole birds


def test_error_of_the_thermometer(make_book: Make) -> None:
    """FSIS Revised Appendix A 2021: an instrument of 1 °F is set to 166 °F for 165 °F."""
    found = cook(make_book, of_meat("animal: deer; weight: 4 lb", "roast: 2 h to 165 °F inside"))
    assert any("shows 166 °F (75 °C) where 165 °F (74 °C) is certain" in fact for fact in found.facts)
    carrots = cook(make_book, of_lines("1 lb carrots", course=("roast: 40 min at 400 °F",)))
    assert not [fact for fact in carrots.facts if "thermometer" in fact]


def test_whole_game_bird(make_book: Make) -> None:
    """Health Canada 2012: 180 °F (82 °C) for a whole bird."""
    whole = of_meat("animal: pheasant; cut: whole; weight: 2 lb", "roast: 1 h to 165 °F inside")
    assert any("180 °F (82.2 °C)" in fact for fact in cook(make_book, whole).facts)
    breast = of_meat("animal: pheasant; cut: breast; weight: 2 lb", "roast: 1 h to 165 °F inside")
    assert not [fact for fact in cook(make_book, breast).facts if "Canada" in fact]


# farm pork that is never cooked: CDC, Trichinellosis, freezing works in pork


PORK = "animal: pork; cut: ham; weight: 15 lb"
HANG = ("cure: 40 days in the fridge", "dry: 200 days at 55 °F in the cellar")


@pytest.mark.parametrize(
    ("freeze", "boxed", "missing"),
    [
        ((), True, ()),
        (("freeze: 20 days at 5 °F in the freezer",), False, ()),
        (("freeze: 30 days at 0 °F in the freezer",), False, ()),
        (("freeze: 19 days at 5 °F in the freezer",), True, ()),
        (("freeze: in the freezer",), True, ("course",)),
        (("freeze: 30 days in the freezer",), True, ("course",)),
        (
            ("freeze: 10 days at 5 °F in the freezer", "thaw: in the fridge", "freeze: 10 days at 5 °F"),
            True,
            (),
        ),
    ],
)
def test_raw_pork(make_book: Make, freeze: tuple[str, ...], boxed: bool, missing: tuple[str, ...]) -> None:
    found = cook(make_book, of_meat(f"{PORK}; thickness: 5 in", *freeze, *HANG, more=DRY))
    slugs = {caution.slug for caution in found.cautions}
    assert ("raw-pork" in slugs) is boxed
    assert not boxed or the_box(found, "raw-pork").missing == missing
