"""Farmed meat and fish: least temperatures, hold times, heating again. Met, not met, not to be told."""

from __future__ import annotations

import pytest

from tests.compute.safety.heated import Make, cook, errors, of_lines, of_meat, silent, the_box, the_error

CURE = "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 100 ppm\n"
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


@pytest.mark.parametrize(("meat", "rule", "enough", "too_little"), CASES[:3])
def test_a_reason_accepts_it(make_book: Make, meat: str, rule: str, enough: int, too_little: int) -> None:
    accept = f"accept:\n  {rule}: by the book of our butcher\n"
    found = cook(make_book, of_meat(meat, f"roast: 2 h to {too_little} °F inside", more=accept))
    assert errors(found) == []
    assert the_box(found, rule).accepted == "by the book of our butcher"


def test_pumped_pork_is_not_intact(make_book: Make) -> None:
    """FSIS Revised Appendix A 2021, key definitions: injected."""
    course = ("cure: 5 days in the fridge", "roast: 3 h to 150 °F inside")
    text = of_meat("animal: pork; cut: loin; weight: 4 lb", *course, more=f"{CURE}  pump: 8 %\n")
    assert "150 °F (65.6 °C)" in the_error(cook(make_book, text), "not-intact-160").message
    assert silent(
        cook(make_book, of_meat("animal: pork; cut: loin; weight: 4 lb", *course, more=CURE)),
        "not-intact-160",
    )


def test_cured_and_smoked_meat_goes_to_160(make_book: Make) -> None:
    """NCHFP 2002, 6.1.3."""
    meat = "animal: pork; cut: loin; weight: 4 lb"
    course = ("cure: 5 days in the fridge", "hot smoke: 5 h at 225 °F to {} °F inside")
    the_error(cook(make_book, of_meat(meat, course[0], course[1].format(150), more=CURE)), "cured-smoked-160")
    assert silent(
        cook(make_book, of_meat(meat, course[0], course[1].format(160), more=CURE)), "cured-smoked-160"
    )
    untold = cook(make_book, of_meat(meat, course[0], "hot smoke: 5 h at 225 °F", more=CURE))
    assert the_box(untold, "cured-smoked-160").missing == ("course",)


def test_dish_of_meat_and_egg(make_book: Make) -> None:
    """FoodSafety.gov, egg dishes; eggs without meat are no matter of this rule."""
    lines = ("1 lb pork, diced", "6 eggs")
    the_error(cook(make_book, of_lines(*lines, course=("bake: 40 min to 150 °F inside",))), "egg-dish-160")
    assert silent(
        cook(make_book, of_lines(*lines, course=("bake: 40 min to 160 °F inside",))), "egg-dish-160"
    )
    bread = of_lines("2 eggs", "2 cups cornmeal", course=("bake: 25 min at 425 °F",))
    assert cook(make_book, bread).cautions == ()


@pytest.mark.parametrize("stages", [("simmer: 2 h",), ("braise: 3 h in the pot",)])
def test_pot_of_water_needs_no_box(make_book: Make, stages: tuple[str, ...]) -> None:
    """Boiling water is hotter than every least temperature at any altitude where people live."""
    found = cook(make_book, of_meat(BEEF, *stages))
    assert silent(found, "whole-cut-145")
    assert any(
        fact.startswith("Cook beef to at least 145 °F (63 °C) inside, then let it rest 3 minutes")
        for fact in found.facts
    )


def test_fish_that_flakes_is_done(make_book: Make) -> None:
    """FoodSafety.gov: 145 °F, or opaque and flaking."""
    assert silent(
        cook(make_book, of_meat("animal: trout; weight: 1 lb", "fry: 8 min until it flakes")), "fish-145"
    )
    assert the_box(
        cook(make_book, of_meat("animal: trout; weight: 1 lb", "fry: 8 min")), "fish-145"
    ).missing == ("course",)


def test_strictest_meat_of_a_dish_decides(make_book: Make) -> None:
    """FSIS Revised Appendix A 2021: any poultry in the mix makes it poultry."""
    lines = ("1 lb ground pork", "1 lb ground turkey")
    the_error(cook(make_book, of_lines(*lines, course=("fry: 9 min to 160 °F inside",))), "poultry-165")
    wild = cook(
        make_book,
        of_lines("1 lb ground pork", "1 lb ground venison", course=("fry: 9 min to 160 °F inside",)),
    )
    the_error(wild, "wild-game-165")
    assert silent(wild, "ground-160")


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


def test_roast_held_as_long_as_the_table_asks_is_not_refused(make_book: Make) -> None:
    """At 140 °F: 12 minutes in both columns; at 136 °F: 32 minutes in the longer one."""

    def of(inside: int, hold: str) -> str:
        return of_meat(BEEF, f"roast: 4 h at 250 °F to {inside} °F inside", hold)

    assert silent(cook(make_book, of(140, "rest: 12 min at 140 °F in the oven")), "whole-cut-145")
    the_error(cook(make_book, of(140, "rest: 11 min at 140 °F in the oven")), "whole-cut-145")
    the_error(cook(make_book, of(140, "rest: 1 h")), "whole-cut-145")
    the_error(cook(make_book, of(136, "rest: 28 min at 136 °F in the oven")), "whole-cut-145")
    assert silent(cook(make_book, of(136, "rest: 32 min at 136 °F in the oven")), "whole-cut-145")


def test_below_135_no_hold_counts(make_book: Make) -> None:
    """McMinn et al. 2018: the kill was not found at 54.4 °C (130 °F)."""
    text = of_meat(BEEF, "roast: 4 h at 250 °F to 130 °F inside", "rest: 3 h at 130 °F in the oven")
    the_error(cook(make_book, text), "whole-cut-145")


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


# heating again: FoodSafety.gov, ham from elsewhere than an inspected plant, leftovers


HAM = of_meat(
    "animal: pork; cut: ham; weight: 9 lb",
    "cure: 9 days in the fridge",
    "hot smoke: 9 h at 225 °F to 160 °F inside",
    more=CURE,
).replace("serves: 4", "makes: 1 ham (8 lb)")


@pytest.mark.parametrize(
    ("stage", "outcome"),
    [
        ("bake: 2 h to 140 °F inside", "error"),
        ("bake: 2 h to 165 °F inside", "quiet"),
        ("bake: 2 h at 350 °F", "untold"),
        ("simmer: 2 h", "quiet"),
        ("chill: 2 h in the fridge", "quiet"),
    ],
)
def test_home_cured_ham_is_heated_again_to_165(make_book: Make, stage: str, outcome: str) -> None:
    dish = of_lines("2 lb [ham](ham.md)", course=(stage,))
    found = cook(make_book, dish, others={"recipes/ham.md": HAM})
    if outcome == "error":
        assert (
            "Dinner is heated again only to 140 °F (60 °C) inside" in the_error(found, "reheat-165").message
        )
    elif outcome == "untold":
        assert the_box(found, "reheat-165").missing == ("course",)
    else:
        assert silent(found, "reheat-165")


def test_reheat_stage(make_book: Make) -> None:
    the_error(
        cook(make_book, of_lines("1 lb beans", course=("reheat: 10 min to 140 °F inside",))), "reheat-165"
    )
    assert silent(
        cook(make_book, of_lines("1 lb beans", course=("reheat: 10 min to 165 °F inside",))), "reheat-165"
    )


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


@pytest.mark.parametrize(
    ("thickness", "missing"),
    [("; thickness: 6 in", ()), ("; thickness: 8 in", ()), ("", ("meat.thickness",))],
)
def test_frost_is_for_thin_pork(make_book: Make, thickness: str, missing: tuple[str, ...]) -> None:
    """CDC, Trichinellosis, prevention: less than 6 inches thick, 20 days at 5 °F."""
    course = ("freeze: 20 days at 5 °F in the freezer", *HANG)
    found = cook(make_book, of_meat(f"{PORK}{thickness}", *course, more=DRY))
    assert the_box(found, "raw-pork").missing == missing


def test_cooked_pork_and_pork_for_the_pot_are_not_raw(make_book: Make) -> None:
    assert silent(cook(make_book, of_meat(PORK, *HANG, "simmer: 4 h to 160 °F inside", more=DRY)), "raw-pork")
    assert silent(cook(make_book, of_meat(PORK, *HANG, more=f"{DRY}eat: after cooking\n")), "raw-pork")


def test_brined_pork_that_nobody_cooks_asks_whether_it_is_cooked_later(make_book: Make) -> None:
    found = cook(make_book, of_meat(PORK, "cure: 9 days in the fridge", more=CURE))
    assert the_box(found, "raw-pork").missing == ("course", "eat")
