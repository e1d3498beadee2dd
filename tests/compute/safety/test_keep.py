"""Cooling, hours out of the cold and keeping; each rule met, not met and not to be told, with its source."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.tables import Tables
from tests.compute.safety.course import NITRITE, check, recipe

SIMMER = "simmer: 3 h to 165 °F inside in the pot"
ROAST = "roast: 2 h at 325 °F to 165 °F inside"
FISH = "animal: trout; cut: fillet; weight: 2 lb"
SMOKED_FISH = "hot smoke: 3 h at 225 °F to 160 °F inside until it has held there for half an hour"
BELLY = "animal: wild boar; cut: belly; weight: 5 lb; thickness: 1 in; shape: slab; skin: off"
GROUND = "animal: pork; cut: sausage; weight: 5 lb; form: ground"
DRY = "method: dry; salt: 2.5 %; curing salt: 150 ppm"
CURED = (
    "cure: 10 days in the fridge",
    "hot smoke: 4 h at 225 °F to 165 °F inside",
    "cool: 2 h in the fridge",
)

# kind, fridge days, freezer months: FoodSafety.gov and FSIS cold storage chart unless a row says otherwise
PUBLISHED = (
    ("bacon", 7, 1),
    ("raw sausage", 2, 2),
    ("hard sausage", 21, 2),
    ("smoked sausage", 7, 2),
    ("whole ham", 7, 2),
    ("ground meat", 2, 3),  # MSU 01600806, venison 2 to 3 months
    ("offal", 2, 4),
    ("cuts", 5, 12),
    ("poultry", 2, 9),
    ("game birds", 2, 6),  # University of New Hampshire Extension
    ("small game", 2, 12),  # FSIS rabbit sheet
    ("fatty fish", 2, 3),
    ("lean fish", 2, 6),
    ("smoked fish", 5, 3),  # University of Alaska FNH-00221; MSU 01600816
    ("smoked fish below 36", 14, 3),  # MSU 01600816
    ("soup or stew", 4, 3),
    ("stock", 4, 3),
    ("cooked meat", 4, 6),
    ("cooked fish", 4, 3),
)


@pytest.mark.parametrize(("kind", "days", "months"), PUBLISHED)
def test_table_has_the_published_days(tables: Tables, kind: str, days: int, months: int) -> None:
    row = tables.keeping[kind]
    assert (row.fridge_days, row.freezer_months) == (Fraction(days), Fraction(months))


# what it is, course, meat, cure, eat after cooking, days allowed
KEPT = (
    ("stew", (SIMMER,), "animal: elk; cut: shoulder", "", False, 4),
    ("roast", (ROAST,), "animal: elk; cut: roast", "", False, 4),
    ("bacon", CURED, BELLY, DRY, False, 7),
    ("cured and cooked", CURED, BELLY.replace("belly", "loin"), DRY, False, 4),
    ("raw cured, after cooking", ("cure: 10 days in the fridge",), BELLY.replace("belly", "loin"), DRY, True, 5),
    ("smoked sausage", ("grind", *CURED), GROUND, DRY, False, 7),
    ("raw cured sausage", ("grind", CURED[0]), GROUND, DRY, True, 2),
    ("hard sausage", ("grind", *CURED, "dry: 10 days at 38 °F in the fridge"), GROUND, DRY, False, 21),
    ("raw ground", ("grind", "pack: in bags"), "animal: elk; cut: shoulder", "", False, 2),
    ("raw venison", ("trim: 20 min", "pack: in bags"), "animal: deer; cut: loin", "", False, 5),
    ("raw liver", ("trim: 20 min", "pack: in bags"), "animal: deer; cut: liver", "", False, 2),
    ("raw goose", ("trim: 20 min", "pack: in bags"), "animal: goose; cut: breast", "", False, 2),
    ("raw trout", ("trim: 20 min", "pack: in bags"), FISH, "", False, 2),
    ("baked trout", ("bake: 20 min at 400 °F to 145 °F inside",), FISH, "", False, 4),
    ("smoked trout", (SMOKED_FISH,), FISH, "", False, 5),
)  # fmt: skip


@pytest.mark.parametrize(
    ("what", "course", "meat", "cure", "eat", "days"), KEPT, ids=[row[0] for row in KEPT]
)
def test_fridge_days_are_hard(
    tmp_path: Path, what: str, course: tuple[str, ...], meat: str, cure: str, eat: bool, days: int
) -> None:
    def kept(days: int) -> str:
        return recipe(*course, meat=meat, cure=cure, eat=eat, keep=f"fridge: {days} days")

    assert check(tmp_path / "a", kept(days)).is_quiet("keep-fridge")
    words = check(tmp_path / "b", kept(days + 1)).words("keep-fridge")
    assert f"{days} days at most" in words
    assert f"Write fridge: {days} days" in words


def test_fridge_is_cold_and_the_rule_can_be_accepted(tmp_path: Path) -> None:
    """NCHFP 2002, 6.1.3: 40 °F."""
    words = check(tmp_path / "a", recipe(ROAST, keep="fridge: 3 days at 45 °F")).words("keep-fridge")
    assert "above 40 °F (4 °C)" in words
    text = recipe(ROAST, keep="fridge: 6 days").replace(
        "course:", "accept:\n  keep-fridge: eaten by one person\ncourse:"
    )
    said = check(tmp_path / "b", text)
    assert not said.refuses("keep-fridge")
    assert said.boxes["keep-fridge"]["accepted"] == "eaten by one person"


def test_a_jar_in_the_fridge_keeps_no_longer_than_another_vessel(tmp_path: Path) -> None:
    jar = "jar: in the fridge"
    assert "4 days at most" in check(tmp_path / "a", recipe(SIMMER, jar, keep="fridge: 30 days")).words(
        "keep-fridge"
    )
    assert check(tmp_path / "b", recipe(SIMMER, jar, keep="shelf: 6 months")).refuses("shelf-meat")


def test_dishes_without_meat_keep_as_their_author_says(tmp_path: Path) -> None:
    said = check(
        tmp_path, recipe("simmer: 1 h", meat="", lines=("2 lb kale",), keep="fridge: 9 days; shelf: 3 days")
    )
    assert said.boxes == {}
    assert said.errors == {}


def test_loose_smoked_fish_keeps_longer_in_a_colder_fridge(tmp_path: Path) -> None:
    """MSU 01600816: 14 days below 36 °F; never in a vacuum pack (FNH-00221: 5 days)."""
    rule = "keep-fridge"
    assert check(tmp_path / "a", recipe(SMOKED_FISH, meat=FISH, keep="fridge: 10 days at 35 °F")).is_quiet(
        rule
    )
    assert check(tmp_path / "b", recipe(SMOKED_FISH, meat=FISH, keep="fridge: 10 days at 38 °F")).refuses(
        rule
    )
    vacuum = recipe(SMOKED_FISH, "pack: vacuum", meat=FISH, keep="fridge: 10 days at 35 °F")
    assert check(tmp_path / "c", vacuum).refuses("vacuum-fish")


def test_freezer_is_quality_and_a_notice_at_most(tmp_path: Path) -> None:
    """FoodSafety.gov: food held at 0 °F stays safe; soups and stews 2 to 3 months."""
    long = check(tmp_path / "a", recipe(SIMMER, keep="freezer: 8 months"))
    assert long.boxes["keep-freezer"]["signal"] == "NOTICE"
    assert long.errors == {}
    assert check(tmp_path / "b", recipe(SIMMER, keep="freezer: 3 months")).is_quiet("keep-freezer")


def test_vacuum_packed_fish_is_below_38(tmp_path: Path) -> None:
    """University of Alaska FNH-00221: below 38 °F, at most 5 days; longer is frozen."""
    rule = "vacuum-fish"

    def packed(keep: str) -> str:
        return recipe(SMOKED_FISH, "pack: vacuum", meat=FISH, keep=keep)

    assert check(tmp_path / "a", packed("fridge: 5 days at 36 °F")).is_met(rule)
    assert check(tmp_path / "b", packed("fridge: 5 days")).is_untold(rule)
    assert check(tmp_path / "c", packed("")).is_untold(rule)
    assert check(tmp_path / "d", packed("freezer: 2 months")).is_quiet(rule)
    for number, keep in enumerate(("5 days at 45 °F", "5 days at 38 °F", "6 days at 36 °F")):
        words = check(tmp_path / f"e{number}", packed(f"fridge: {keep}")).words(rule)
        assert keep in words
        assert "fridge: 5 days at 36 °F" in words
    assert check(
        tmp_path / "f", recipe(SMOKED_FISH, "pack: in bags", meat=FISH, keep="fridge: 5 days")
    ).is_quiet(rule)


def test_no_meat_on_a_shelf(tmp_path: Path) -> None:
    """Utah State University Extension: most cured and smoked foods need the refrigerator."""
    rule = "shelf-meat"
    words = check(tmp_path / "a", recipe(*CURED, meat=BELLY, cure=DRY, keep="shelf: 2 months")).words(rule)
    assert "kept on a shelf for 2 months" in words
    assert "in the fridge or in the freezer" in words
    assert check(tmp_path / "b", recipe(*CURED, meat=BELLY, cure=DRY)).is_untold(rule)
    assert check(tmp_path / "c", recipe(*CURED, meat=BELLY, cure=DRY, keep="fridge: 5 days")).is_quiet(rule)
    bread = recipe("bake: 40 min at 400 °F", meat="", lines=("1 lb flour",), keep="shelf: 3 days")
    assert check(tmp_path / "d", bread).is_quiet(rule)
    pie = recipe(ROAST, meat="", lines=("1 lb ground elk",), keep="shelf: 3 days")
    assert check(tmp_path / "e", pie).refuses(rule)


def test_garlic_and_mushrooms_in_a_vacuum_are_kept_cold(tmp_path: Path) -> None:
    """NCHFP, Should I vacuum package food at home?: what needed cold still needs it (the plants by inference)."""
    text = recipe("pack: vacuum", meat="", lines=("1 lb garlic, peeled",), keep="shelf: 1 month")
    assert "garlic is packed without air" in check(tmp_path / "a", text).words("shelf-meat").lower()
    cold = text.replace("shelf: 1 month", "fridge: 3 days")
    assert check(tmp_path / "b", cold).is_quiet("shelf-meat")


def test_stuffed_birds_are_not_frozen(tmp_path: Path) -> None:
    """NCHFP, Freezing poultry and game birds."""
    rule, bird = "frozen-stuffed-bird", "animal: goose; cut: whole"
    assert check(tmp_path / "a", recipe("stuff: 20 min", ROAST, meat=bird)).is_quiet(rule)
    assert "Freeze the bird empty" in check(
        tmp_path / "b", recipe("stuff: 20 min", "freeze", meat=bird)
    ).words(rule)
    assert check(tmp_path / "c", recipe("stuff: 20 min", meat=bird, keep="freezer: 2 months")).is_untold(rule)


def test_cooked_meat_cools_in_two_steps(tmp_path: Path) -> None:
    """FDA Food Code 3-501.14(A): 135 to 70 °F in 2 hours, 135 to 41 °F in 6."""
    rule = "cool-two-steps"
    met = check(tmp_path / "a", recipe(SIMMER, "cool: 1 h in an ice bath"))
    assert met.is_met(rule)
    assert met.boxes[rule]["stage"] == 1
    assert "within 2 hours" in met.boxes[rule]["text"]
    assert "within 6 hours" in met.boxes[rule]["text"]
    assert check(tmp_path / "b", recipe(SIMMER, "cool: on the counter")).is_untold(rule)
    words = check(tmp_path / "c", recipe(SIMMER, "cool: 5 h on the counter")).words(rule)
    assert "5 h out of the cold; 2 hours are the most" in words
    assert "ice bath" in words
    assert check(tmp_path / "d", recipe(SIMMER)).is_quiet(rule)
    assert check(tmp_path / "e", recipe(SIMMER, keep="fridge: 3 days")).is_met(rule)


@pytest.mark.parametrize(
    ("ppm", "accelerator", "speaks"), [(150, 500, True), (150, 200, False), (90, 500, False), (150, 0, False)]
)
def test_slower_schedule_is_named_only_with_nitrite_and_accelerator(
    tmp_path: Path, ppm: int, accelerator: int, speaks: bool
) -> None:
    """FSIS Appendix B 1999, option 3: 100 ppm ingoing nitrite; Revised Appendix B 2021: 250 ppm ascorbate (from memory)."""
    cure = f"method: dry; salt: 2.5 %; curing salt: {ppm} ppm"
    cure += f"; accelerator: {accelerator} ppm sodium ascorbate" if accelerator else ""
    said = check(tmp_path, recipe(*CURED, meat=BELLY.replace("belly", "loin"), cure=cure))
    assert ("80 to 45 °F" in said.boxes["cool-two-steps"]["because"]) is speaks


def test_a_thick_piece_names_its_ways_out(tmp_path: Path) -> None:
    """Food Code 3-501.15: smaller pieces, ice water. The 4 in of WAC 246-215-03515 are a shortcut of one state."""
    thick = "animal: elk; cut: shank; weight: 4 lb; thickness: 4 in; shape: round"
    said = check(tmp_path / "a", recipe(SIMMER, "cool: 2 h in the fridge", meat=thick))
    assert said.is_met("thick-cooling")
    assert said.is_quiet("cool-two-steps")
    for way in ("bone out", "halve", "ice water", "bag"):
        assert way in said.boxes["thick-cooling"]["because"]
    thin = check(
        tmp_path / "b", recipe(SIMMER, "cool: 2 h in the fridge", meat=thick.replace("4 in", "1 in"))
    )
    assert thin.is_quiet("thick-cooling")
    untold = check(tmp_path / "c", recipe(SIMMER, "cool: 2 h in the fridge", meat="animal: elk; cut: shank"))
    assert untold.is_met("cool-two-steps")


def test_two_hours_out_of_the_cold(tmp_path: Path) -> None:
    """USDA FSIS, Danger Zone: 2 hours, 1 hour above 90 °F."""
    rule = "danger-hours"
    assert check(tmp_path / "a", recipe("trim: 2 h on the counter", ROAST)).is_quiet(rule)
    words = check(tmp_path / "b", recipe("trim: 3 h on the counter", ROAST)).words(rule)
    assert "3 h in 'trim'; 2 h is the most" in words
    assert "trim: 3 h in the fridge" in words
    hot = check(tmp_path / "c", recipe("trim: 90 min at 95 °F in the shade", ROAST)).words(rule)
    assert "1 h is the most" in hot
    assert check(tmp_path / "d", recipe("trim: on the counter", ROAST)).is_untold(rule)
    assert check(tmp_path / "e", recipe("dry: 12 h on a rack", ROAST)).is_untold(rule)
    assert check(tmp_path / "f", recipe("dry: 12 h in the fridge", ROAST)).is_quiet(rule)
    dough = recipe("rest: 5 h on the counter", "bake: 40 min", meat="", lines=("1 lb flour",))
    assert check(tmp_path / "g", dough).is_quiet(rule)


def test_two_hours_out_of_the_cold_are_counted_in_all(tmp_path: Path) -> None:
    """USDA FSIS, Danger Zone: the hours are those of the meat, not those of each step."""
    rule = "danger-hours"
    trim, rest = "trim: 90 min on the counter", "rest: 90 min on the counter"
    words = check(tmp_path / "a", recipe(trim, rest, ROAST)).words(rule)
    assert "for 3 h in all, in 'trim', 'rest'; 2 h is the most" in words
    assert "rest: 90 min in the fridge" in words
    cold = ("cure: 2 days in the fridge", rest, ROAST)
    assert check(tmp_path / "b", recipe(trim, *cold)).refuses(rule), "the cold stops growth and undoes none"
    hot = ("trim: 40 min at 95 °F in the shade", "rest: 60 min on the counter")
    assert check(tmp_path / "c", recipe(*hot, ROAST)).refuses(rule), "two thirds of an hour, and half of two"
    assert check(
        tmp_path / "d", recipe("trim: 1 h on the counter", "rest: 1 h on the counter", ROAST)
    ).is_quiet(rule)
    assert check(tmp_path / "e", recipe(trim, ROAST, rest)).is_quiet(rule), "the roast lies between"


def test_drying_of_cured_meat_over_days_is_its_own_process(tmp_path: Path) -> None:
    course = ("cure: 14 days in the fridge", "dry: 30 days at 55 °F in the cellar")
    said = check(tmp_path, recipe(*course, meat=BELLY, cure=DRY, eat=True))
    assert said.is_quiet("danger-hours")
    assert NITRITE.startswith("method: brine")
