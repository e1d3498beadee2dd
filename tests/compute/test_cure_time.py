"""What follows from a cure's stages: published times, the look at the middle, refusals, and the soak."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.build import load_book
from generator.cli import main
from generator.compute import Kitchen, Wish, compute_recipe
from generator.model.results import Caution, ComputedRecipe
from generator.problems import Problem, ProblemLog
from generator.tables import Tables

Make = Callable[..., Path]
Compute = Callable[..., ComputedRecipe]

PIECE = """---
name: Piece
makes: 2 pieces (3 lb)
chapter: Pots
{meat}{cure}course:
{course}{eat}---

Wait.
"""
DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
SALT_ALONE = "cure:\n  method: dry\n  salt: 3 %\n"
BRINE = "cure:\n  method: brine\n  water: 2 gal\n  salt: 3 %\n  curing salt: 100 ppm\n"
PUMPED = BRINE + "  pump: 8 %\n"


def meat(cut: str, weight: str = "10 lb", animal: str = "pork", **facts: str) -> str:
    lines = {"animal": animal, "cut": cut, "weight": weight, "skin": "off", **facts}
    return "meat:\n" + "".join(f"  {key}: {value}\n" for key, value in lines.items())


@pytest.fixture
def compute(make_book: Make, kitchen: Kitchen) -> Compute:
    def one(
        meat: str, cure: str, *course: str, eat: str = "eat: after cooking\n", wish: Wish | None = None
    ) -> ComputedRecipe:
        stages = "".join(f"  - {stage}\n" for stage in course)
        text = PIECE.format(meat=meat, cure=cure, course=stages, eat=eat)
        log = ProblemLog()
        book = load_book(make_book({"recipes/piece.md": text}), kitchen, log)
        assert book is not None
        assert not log.has_errors, list(log)
        return compute_recipe(book, "piece", kitchen, wish or Wish())

    return one


def box_of(recipe: ComputedRecipe, slug: str) -> Caution | None:
    found = [caution for caution in recipe.cautions if caution.slug == slug]
    assert len(found) <= 1
    return found[0] if found else None


def because(recipe: ComputedRecipe, slug: str = "cure-time") -> str:
    found = box_of(recipe, slug)
    assert found is not None, [caution.slug for caution in recipe.cautions]
    return found.because


def errors(recipe: ComputedRecipe) -> list[Problem]:
    return [problem for problem in recipe.problems if problem.is_error]


# published times: not met


def test_a_shoulder_of_six_pounds_wants_24_days(compute: Compute) -> None:
    # USDA Farmers' Bulletin 2265, sweet pickle: 3 1/2 to 4 days a pound; a 6 lb shoulder 24 days.
    recipe = compute(meat("shoulder", "6 lb", pieces="1"), BRINE, "cure: 20 days in the fridge")
    words = because(recipe)
    for expected in (
        "shoulder in a brine",
        "3 1/2 to 4 days",
        "24 days for a piece of 6 lb (2.72 kg)",
        "gives 20",
    ):
        assert expected in words
    found = box_of(recipe, "cure-time")
    assert found is not None
    assert (found.signal, found.sources, found.stage) == ("CAUTION", ("fb2265",), 0)
    assert errors(recipe) == []


def test_a_belly_wants_seven_days_an_inch(compute: Compute) -> None:
    # USDA Farmers' Bulletin 2265: 7 days an inch, 2.5 in: 17.5, shown whole. Purdue, 1919: 12 to 14 days for sides.
    recipe = compute(meat("belly", thickness="2 1/2 in"), DRY, "cure: 11 days in the fridge")
    words = because(recipe)
    assert "7 days for each inch of thickness, which is 18 days for a piece 2.5 in (6.4 cm) thick" in words
    assert "Purdue University, 1919, thin sides: 12 to 14 days, and this recipe gives 11 days" in words
    assert "general" not in words
    assert "heavy pieces" not in words


def test_every_rule_of_a_ham_is_named_with_its_own_days(compute: Compute) -> None:
    """9 CFR 318.10: Method 1 40 days; Method 3 30 and 40 days for 20 lb; Method 4 40 days. Virginia 1.5 a pound: 30."""
    recipe = compute(meat("ham", "20 lb", pieces="1"), DRY, "cure: 25 days in the fridge")
    words = because(recipe)
    assert "Method 1: at least 40 days, and this recipe gives 25" in words
    assert (
        "28 days in the cure, and 1 1/2 days for each pound, which is 30 days for a piece of 20 lb (9.07 kg)"
        in words
    )
    assert "equalising, and 2 days for each pound, which is 40 days" in words
    assert "Method 4: at least 30 days in the cure, and 2 days for each pound, which is 40 days" in words
    assert "(from memory): 1 1/2 days for each pound, which is 30 days" in words
    assert "14 days of equalising" not in words  # asked of recipes that equalise
    found = box_of(recipe, "cure-time")
    assert found is not None
    assert found.sources == ("9cfr318.10", "virginia-458-223")


@pytest.mark.parametrize(("days", "told"), [("13", True), ("14", False)])
def test_equalising_has_days_of_its_own(compute: Compute, days: str, told: bool) -> None:
    # 9 CFR 318.10, ham, Method 4: at least 14 days and 1 day a pound; a 10 lb ham 14.
    stages = ("cure: 40 days in the fridge", f"equalise: {days} days at 50–60 °F in the cellar")
    recipe = compute(meat("ham", pieces="1"), DRY, *stages)
    found = box_of(recipe, "cure-time")
    assert (found is not None) == told
    if found is not None:
        assert "14 days of equalising" in found.because
        assert "and this recipe gives 13" in found.because


def test_equalising_counts_where_the_rule_counts_it(compute: Compute) -> None:
    # 9 CFR 318.10, ham, Method 3: 28 days in contact, 40 with equalisation.
    short = because(compute(meat("ham", pieces="1"), DRY, "cure: 30 days in the fridge", "equalise: 9 days"))
    assert "40 days in the cure and equalising, and 2 days for each pound, which is 40 days" in short
    enough = because(
        compute(meat("ham", pieces="1"), DRY, "cure: 30 days in the fridge", "equalise: 10 days")
    )
    assert "40 days in the cure and equalising" not in enough


def test_days_below_35_do_not_count(compute: Compute) -> None:
    # 9 CFR 318.10, ham, Method 3: days below 35 °F do not count.
    ham = meat("ham", pieces="1")
    cold = because(compute(ham, DRY, "cure: 60 days at 33–34 °F in the fridge"))
    assert "this recipe gives 0 days, where days below 35 °F (1.7 °C) do not count" in cold
    assert box_of(compute(ham, DRY, "cure: 60 days at 36–40 °F in the fridge"), "cure-time") is None


def test_of_a_range_the_shorter_end_is_what_the_recipe_gives(compute: Compute) -> None:
    loin = meat("loin", "4 lb")
    assert "this recipe gives 20" in because(compute(loin, DRY, "cure: 20–30 days in the fridge"))
    assert box_of(compute(loin, DRY, "cure: 25–30 days in the fridge"), "cure-time") is None


def test_a_cut_without_a_rule_of_its_own_is_a_heavy_piece(compute: Compute) -> None:
    # Purdue, 1919: heavy pieces 2 days a pound.
    words = because(compute(meat("neck", "8 lb", "deer", pieces="1"), BRINE, "cure: 15 days in the fridge"))
    assert "for heavy pieces in a brine" in words
    assert "2 days for each pound, which is 16 days for a piece of 8 lb (3.63 kg)" in words
    assert words.endswith("the times were written for pork")
    assert "written for pork" not in because(
        compute(meat("neck", "8 lb"), BRINE, "cure: 15 days in the fridge")
    )


def test_bellies_in_a_pickle_have_a_time_by_their_weight(compute: Compute) -> None:
    # USDA Farmers' Bulletin 2265: 10 lb about 15 days, heavier bellies 21. Levine asks for 28 of either.
    light = because(compute(meat("belly", "10 lb", pieces="1"), BRINE, "cure: 14 days in the fridge"))
    heavy = because(compute(meat("belly", "11 lb", pieces="1"), BRINE, "cure: 14 days in the fridge"))
    assert "about 15 days for bellies of 10 lb" in light
    assert "21 days" not in light
    assert "21 days for bellies above 10 lb" in heavy
    assert "15 days" not in heavy


# published times: met, or not of the same kind

NOT_LONGER = [
    (meat("shoulder", "6 lb", pieces="1"), BRINE, "cure: 24 days in the fridge"),
    (meat("shoulder", "12 lb", pieces="2"), BRINE, "cure: 24 days in the fridge"),
    (meat("belly", thickness="2 in"), DRY, "cure: 14 days in the fridge"),
    (meat("ham", pieces="1"), DRY, "cure: 40 days in the fridge"),
    (
        meat("shoulder", "6 lb", pieces="1"),
        PUMPED,
        "cure: 3 days in the fridge",
    ),  # no rule for pumped shoulders
    (meat("fore shank", "6 lb", "elk", pieces="4"), BRINE, "cure: 3 days in the fridge"),
    (meat("breast", "6 lb", "goose"), BRINE, "cure: 3 days in the fridge"),  # pork's times are not a bird's
    (meat("belly", "6 lb", "salmon"), SALT_ALONE, "cure: 1 day in the fridge"),
    (meat("shoulder", form="ground"), DRY, "cure: 1 day in the fridge"),
]


@pytest.mark.parametrize(("piece", "cure", "stage"), NOT_LONGER)
def test_no_box_where_no_rule_of_the_kind_asks_for_longer(
    compute: Compute, piece: str, cure: str, stage: str
) -> None:
    recipe = compute(piece, cure, stage)
    assert box_of(recipe, "cure-time") is None
    assert box_of(recipe, "cure-time-unknown") is None


def test_both_lengths_have_their_unit(compute: Compute) -> None:
    # Levine, about 1921, sections 39-41: hams are pumped with 5 to 10 oz and stay 5 to 7 weeks; a week is 7 days.
    words = because(compute(meat("ham", "16 lb", pieces="1"), PUMPED, "cure: 6 days in the fridge"))
    weeks = "5 to 7 weeks (35 to 49 days), of hams pumped with 5 to 10 oz"
    assert f"{weeks}, and this recipe gives 6 days" in words
    assert "2265" not in words  # its days for each pound are of hams that are not pumped
    day = because(compute(meat("ham", "16 lb", pieces="1"), PUMPED, "cure: 1 day in the fridge"))
    assert "this recipe gives 1 day" in day
    assert "1 days" not in day


def test_a_pumped_ham_is_held_against_rules_for_pumped_ones_alone(compute: Compute) -> None:
    words = because(compute(meat("ham", pieces="1"), PUMPED, "cure: 10 days in the fridge"))
    assert "Levine" in words
    assert "Farmers' Bulletin" not in words


def test_a_ham_rule_is_never_asked_of_a_shoulder(compute: Compute) -> None:
    words = because(compute(meat("shoulder", pieces="1"), DRY, "cure: 10 days in the fridge"))
    assert "318.10" not in words
    assert "heavy pieces" in words


# published times: pieces, scale, and what is not told


def test_weight_is_that_of_one_piece(compute: Compute) -> None:
    words = because(compute(meat("shoulder", "12 lb", pieces="2"), BRINE, "cure: 20 days in the fridge"))
    assert "24 days for a piece of 6 lb" in words
    assert "divided by 2 pieces, and a heavier piece takes longer" in words
    alone = because(compute(meat("shoulder", "12 lb"), BRINE, "cure: 20 days in the fridge"))
    assert "48 days for a piece of 12 lb" in alone
    assert "the whole weight was taken as one piece" in alone


def test_scale_never_changes_the_days(compute: Compute) -> None:
    given = (meat("shoulder", "12 lb", pieces="2"), BRINE, "cure: 20 days in the fridge")
    tenfold = compute(*given, wish=Wish(batches=Fraction(10)))
    assert tenfold.scale.batches == 10
    assert because(tenfold) == because(compute(*given))


def test_what_cannot_be_told_is_named_with_what_is_missing(compute: Compute) -> None:
    unknown = because(compute(meat("loin", "4 lb"), DRY, "cure: in the fridge"), "cure-time-unknown")
    assert "the course does not say how long the cure lasts" in unknown
    assert "9 CFR 318.10, boneless loin, Method 1: at least 25 days" in unknown
    told = compute(meat("loin", "4 lb"), DRY, "cure: 25 days in the fridge")
    assert box_of(told, "cure-time-unknown") is None


def test_a_rule_that_can_be_told_is_enough(compute: Compute) -> None:
    """The thickness of this belly is not told, but the other rule of the kind is met."""
    recipe = compute(meat("belly"), DRY, "cure: 14 days in the fridge")
    assert box_of(recipe, "cure-time") is None
    assert box_of(recipe, "cure-time-unknown") is None


# the look at the middle


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"thickness": "2 in"}, "the piece is 2 in thick"),
        ({"thickness": "5.1 cm", "bone": "out"}, "in thick; from 2 in (5 cm) on"),
        ({"thickness": "1 in", "bone": "in"}, "the bone is in"),
        ({}, "the thickness is not told"),
    ],
)
def test_a_thick_cure_is_cut_and_looked_at(compute: Compute, facts: dict[str, str], words: str) -> None:
    assert words in because(compute(meat("neck", "2 lb", **facts), DRY, "cure: 9 days"), "grey-middle")


@pytest.mark.parametrize(
    "facts", [{"thickness": "1 7/8 in", "bone": "out"}, {"thickness": "3 in", "form": "ground"}]
)
def test_a_thin_cure_is_not(compute: Compute, facts: dict[str, str]) -> None:
    assert box_of(compute(meat("neck", "2 lb", **facts), DRY, "cure: 9 days"), "grey-middle") is None


def test_meat_without_a_cure_has_no_grey_middle(compute: Compute) -> None:
    recipe = compute(meat("neck", thickness="5 in", bone="in"), "", "roast: 3 h to 165 °F inside", eat="")
    assert box_of(recipe, "grey-middle") is None


def test_without_curing_salt_grey_is_all_there_is(compute: Compute) -> None:
    words = because(compute(meat("neck", bone="in"), SALT_ALONE, "cure: 20 days"), "grey-middle")
    assert "without a curing salt the meat is grey all through" in words
    assert "without a curing salt" not in because(
        compute(meat("neck", bone="in"), DRY, "cure: 20 days"), "grey-middle"
    )


@pytest.mark.parametrize(
    ("course", "stage"),
    [
        (("thaw: in the fridge", "cure: 9 days", "rinse", "pack: vacuum"), 1),
        (("cure: 9 days", "equalise: 3 days", "dry: 2 h"), 1),
        (("cure: 9 days", "rinse", "hot smoke: 6 h to 150 °F inside", "pack: vacuum"), 2),
        (("cure: 9 days", "hot smoke: 6 h to 150 °F inside"), 0),
        (("rest: 9 days",), None),
    ],
)
def test_the_look_stands_where_it_is_taken(
    compute: Compute, course: tuple[str, ...], stage: int | None
) -> None:
    found = box_of(compute(meat("neck", bone="in"), DRY, *course), "grey-middle")
    assert found is not None
    assert found.stage == stage


def test_the_look_says_what_to_do_and_promises_nothing(compute: Compute, tables: Tables) -> None:
    found = box_of(compute(meat("neck", bone="in"), DRY, "cure: 9 days"), "grey-middle")
    assert found is not None
    for words in (
        "Cut the thickest piece to the bone",
        "cook all of it through now",
        "do not keep it as cured",
        "throw it out",
    ):
        assert words in found.text
    said = f"{found.title} {found.text} {found.because}".lower()
    for word in ("safe", "cured through", "fully cured"):
        assert word not in said
    assert found.sources == ("practice",)
    assert tables.sources["practice"].note == "No source."


# refusals


def refused(recipe: ComputedRecipe, slug: str) -> Problem:
    """The one problem of a slug; a recipe that ends raw may be told so by other rules besides."""
    (problem,) = (problem for problem in errors(recipe) if problem.slug == slug)
    return problem


@pytest.mark.parametrize(
    ("cure", "stage", "words"),
    [
        (BRINE, "cure: 15 days at 83 °F", "at up to 83 °F (28.3 °C), above 40 °F (4 °C)"),
        (BRINE, "cure: 15 days at 41 °F in the fridge", "at up to 41 °F"),
        (DRY, "cure: 15 days at 36–42 °F", "at up to 42 °F"),
        (DRY, "cure: 15 days at 5 °C in the fridge", "at up to 41 °F (5 °C)"),
        (DRY, "cure: 15 days in the pantry", "'cure' in the pantry, and no temperature says"),
        (DRY, "cure: 15 days in the cellar", "in the cellar"),
        (DRY, "cure: 15 days on the counter", "on the counter"),
        (DRY, "cure: 15 days in the shade", "in the shade"),
        (BRINE, "equalise: 3 days at 50 °F", "'equalise' at up to 50 °F"),
    ],
)
def test_a_warm_cure_is_refused(compute: Compute, cure: str, stage: str, words: str) -> None:
    """NCHFP 2002, section 6.1.3: below 40 °F. The handout that adds a third more salt for each 15 °F is refused."""
    problem = refused(compute(meat("neck", "2 lb"), cure, stage), "warm-cure")
    assert words in problem.message
    assert "at or below 40 °F (4 °C)" in problem.hint
    assert "More salt does not replace the cold" in problem.hint
    assert problem.position is not None
    assert problem.position.file == "recipes/piece.md"


@pytest.mark.parametrize(
    ("cure", "stage"),
    [
        (BRINE, "cure: 15 days at 40 °F"),
        (BRINE, "cure: 15 days at 4 °C in the fridge"),
        (BRINE, "cure: 15 days"),
        (DRY, "cure: 15 days in the crock"),
        (DRY, "cure: 15 days at 36–40 °F in the cellar"),
        (DRY, "equalise: 14 days at 50–60 °F in the cellar"),  # 9 CFR 318.10, ham, Method 3: 35 to 60 °F
    ],
)
def test_a_cold_cure_is_not(compute: Compute, cure: str, stage: str) -> None:
    assert errors(compute(meat("neck", "2 lb"), cure, stage)) == []


def test_onions_may_cure_warm(compute: Compute) -> None:
    assert errors(compute("ingredients:\n  - 5 lb onions\n", "", "cure: 14 days at 80 °F", eat="")) == []


@pytest.mark.parametrize(
    "course",
    [
        ("cure: 3 days in the fridge", "cold smoke: 12 h at 70 °F", "pack: vacuum"),
        ("cold smoke: 12 h", "rest: 1 day", "pack: in jars"),
        ("cold smoke: 12 h", "hot smoke: 2 h to 140 °F inside", "pack: vacuum"),
        ("cold smoke: 12 h", "roast: 1 h", "pack: vacuum"),
        ("cold smoke: 12 h", "jar"),
    ],
)
def test_sealed_cold_smoke_without_curing_salt_is_refused(compute: Compute, course: tuple[str, ...]) -> None:
    problem = refused(compute(meat("belly", "2 lb"), SALT_ALONE, *course), "cold-smoke-sealed")
    assert "Clostridium botulinum" in problem.message
    for way in ("Cook it first", "160 °F inside", "pack it open", "freeze it", "cure it with a curing salt"):
        assert way in problem.hint


@pytest.mark.parametrize(
    ("cure", "course"),
    [
        (DRY, ("cold smoke: 12 h", "pack: vacuum")),
        (SALT_ALONE, ("cold smoke: 12 h", "pack: in bags", "freeze: in the freezer")),
        (SALT_ALONE, ("cold smoke: 12 h", "roast: 1 h to 160 °F inside", "pack: vacuum")),
        (SALT_ALONE, ("pack: vacuum", "cold smoke: 12 h")),
        (SALT_ALONE, ("hot smoke: 4 h to 165 °F inside", "pack: vacuum")),
    ],
)
def test_the_ways_out_of_a_sealed_cold_smoke_are_taken(
    compute: Compute, cure: str, course: tuple[str, ...]
) -> None:
    assert errors(compute(meat("belly", "2 lb"), cure, *course)) == []


def test_cheese_may_be_cold_smoked_and_sealed_and_venison_may_not(compute: Compute) -> None:
    course = ("cold smoke: 2 h", "pack: vacuum")
    assert errors(compute("ingredients:\n  - 2 lb cheese\n", "", *course, eat="")) == []
    refused(compute("ingredients:\n  - 2 lb venison\n", "", *course, eat=""), "cold-smoke-sealed")


NO_2 = DRY + "  kind of curing salt: no. 2\n"


@pytest.mark.parametrize(
    ("course", "days"),
    [
        (("cure: 7 days", "hot smoke: 5 h to 165 °F inside"), "7"),
        (("cure: 10–12 days", "equalise: 3 days", "dry: 12 h", "cook: 2 h to 165 °F inside"), "15.5"),
        (("cure: 7 days", "dry: until tacky", "hot smoke: 5 h"), "7"),
    ],
)
def test_nitrate_in_a_quick_cure_is_refused(compute: Compute, course: tuple[str, ...], days: str) -> None:
    problem = refused(compute(meat("loin", "2 lb"), NO_2, *course), "nitrate-quick-cure")
    assert f"over in {days} days" in problem.message
    assert "curing salt no. 2" in problem.message.lower()
    assert "Use curing salt no. 1" in problem.hint
    assert "at least 30 days (common practice, no source)" in problem.hint


def test_nitrate_weighed_by_itself_is_refused_too(compute: Compute) -> None:
    cure = DRY + "  nitrate: 0.4 g sodium nitrate\n"
    problem = refused(
        compute(meat("loin", "2 lb"), cure, "cure: 7 days", "cook: 2 h to 165 °F inside"),
        "nitrate-quick-cure",
    )
    assert problem.message.startswith("Nitrate is weighed in, which needs weeks")


@pytest.mark.parametrize(
    ("cure", "course"),
    [
        (DRY, ("cure: 7 days", "hot smoke: 5 h to 165 °F inside")),
        (NO_2, ("cure: 20 days", "dry: 10 days", "cook: 2 h to 165 °F inside")),
        (NO_2, ("cure: 10 days", "age: 60 days", "cook: 2 h to 165 °F inside")),
        (NO_2, ("cure: 7 days", "pack: vacuum")),  # not cooked here
        (NO_2, ("cure: in the fridge", "cook: 2 h to 165 °F inside")),  # how long is not told
    ],
)
def test_nitrate_with_time_or_without_heat_is_not(
    compute: Compute, cure: str, course: tuple[str, ...]
) -> None:
    assert errors(compute(meat("loin", "2 lb"), cure, *course)) == []


def test_refusals_stop_the_site_and_are_told_with_their_line(make_book: Make) -> None:
    course = "  - cure: 3 days at 60 °F\n  - cold smoke: 2 h\n  - pack: vacuum\n"
    text = PIECE.format(meat=meat("belly"), cure=SALT_ALONE, course=course, eat="eat: after cooking\n")
    result = CliRunner().invoke(main, ["check", str(make_book({"recipes/piece.md": text})), "--json"])
    found: list[dict[str, Any]] = json.loads(result.stdout)
    assert result.exit_code == 1
    lines = {problem["slug"]: text.splitlines()[problem["line"] - 1] for problem in found}
    assert lines == {"warm-cure": "  - cure: 3 days at 60 °F", "cold-smoke-sealed": "  - pack: vacuum"}


# the soak


@pytest.mark.parametrize(
    ("course", "words"),
    [
        # USDA Farmers' Bulletin 2265: about 2 minutes a day, water of at most 70 °F (21.1 °C).
        (("cure: 14 days", "soak: 1 h in cold water"), "so 28 minutes after 14 days"),
        (("cure: 14 days", "soak: 1 h in cold water"), "this recipe soaks for 1 h"),
        (("cure: 4–5 days", "soak: 10 min"), "so 8–10 minutes after 4–5 days"),
        (("cure: 14 days", "soak: in cold water"), "this recipe does not say how long it soaks"),
        (("cure: in the fridge", "soak: 1 h"), "the course does not say how many days that are"),
        (("cure: 14 days", "soak: 1 h"), "water of at most 70 °F (21 °C)"),
        (("cure: 14 days", "soak: 1 h"), "2 minutes for each day in the cure"),
    ],
)
def test_the_published_soak_stands_beside_the_recipe_s_own(
    compute: Compute, course: tuple[str, ...], words: str
) -> None:
    (fact,) = [fact for fact in compute(meat("neck", "2 lb"), DRY, *course).facts if fact.startswith("Soak:")]
    assert words in fact


@pytest.mark.parametrize(
    ("cure", "course"),
    [
        (DRY, ("cure: 14 days", "rinse")),
        (DRY, ("soak: 1 h", "cure: 14 days")),
        ("", ("soak: 1 h", "roast: 2 h")),
    ],
)
def test_no_soak_after_a_cure_no_line(compute: Compute, cure: str, course: tuple[str, ...]) -> None:
    assert not any(fact.startswith("Soak:") for fact in compute(meat("neck", "2 lb"), cure, *course).facts)
