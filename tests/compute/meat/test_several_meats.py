"""Several meats in one recipe: their sum in every formula, the lowest limit of any, the hazards of each.

Expected values are worked by hand from printed figures, the working beside each. 1 lb is 453.59237 g, 1 oz a sixteenth
of it (NIST Handbook 44, appendix C).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.build import load_book
from generator.compute import Kitchen, LineWish, Wish, compute_recipe
from generator.model.quantity import Measure, Quantity, Span
from generator.model.results import ComputedRecipe
from generator.problems import ProblemLog
from generator.tables import Tables

Make = Callable[..., Path]
Compute = Callable[..., ComputedRecipe]

LB, OZ = Fraction("453.59237"), Fraction("28.349523125")
DISH = "---\nname: Sausage\nmakes: 9 lb links\nchapter: Pots\nmeat:\n{meat}cure:\n{cure}{lines}course:\n{course}{eat}---\n\nWait.\n"
SAUSAGE = ("15 lb venison", "10 lb pork trim")
GRIND = ("grind", "cure: 3 days in the fridge")


@pytest.fixture
def compute(make_book: Make, kitchen: Kitchen) -> Compute:
    def one(
        meats: tuple[str, ...],
        cure: tuple[str, ...],
        course: tuple[str, ...] = GRIND,
        lines: tuple[str, ...] = (),
        eat: str = "eat: after cooking\n",
        wish: Wish | None = None,
    ) -> ComputedRecipe:
        text = DISH.format(
            meat="".join(f"  - {meat}\n" for meat in meats),
            cure="".join(f"  {key}\n" for key in cure),
            lines="ingredients:\n" + "".join(f"  - {line}\n" for line in lines) if lines else "",
            course="".join(f"  - {stage}\n" for stage in course),
            eat=eat,
        )
        log = ProblemLog()
        book = load_book(make_book({"recipes/sausage.md": text}), kitchen, log)
        assert book is not None, list(log)
        assert not log.has_errors, list(log)
        return compute_recipe(book, "sausage", kitchen, wish or Wish())

    return one


def slugs(recipe: ComputedRecipe) -> set[str]:
    return {problem.slug for problem in recipe.problems}


def test_a_published_sausage_of_two_meats(compute: Compute) -> None:
    """15 lb venison, 10 lb pork trim, 7 oz salt, 1 oz cure: 156.25 ppm, 1.75 % added salt, 1.98 % with the cure's.

    Source: North Dakota State University, venison summer sausage, at 6.25 % nitrite; recomputed by hand:
    1/16 x 0.0625 / 25 lb = 156.25 ppm; 7/16 / 25 = 1.75 %; (7 + 0.9375)/16 / 25 = 1.984 %.
    """
    recipe = compute(SAUSAGE, ("method: dry", "salt: 7 oz pickling salt", "curing salt: 1 oz"))
    cure = recipe.cure
    assert cure is not None
    assert cure.weigh is not None
    assert recipe.green_weight_g == 25 * LB
    assert cure.dry_ppm == Fraction("156.25")
    assert cure.salt_percent == Fraction(7 + Fraction("0.9375"), 16) / 25 * 100
    assert cure.limit is not None
    assert (cure.limit.cut, cure.limit.limit_ppm) == ("ground", Fraction("156.25"))


def test_a_target_is_of_the_sum(compute: Compute) -> None:
    """c = k m / n: 120 ppm of 25 lb at 6.25 % is 0.048 lb (FSIS 7620.3, F2 solved for the cure)."""
    recipe = compute(SAUSAGE, ("method: dry", "salt: 1.75 %", "curing salt: 120 ppm"))
    assert recipe.cure is not None
    assert recipe.cure.forms is not None
    assert recipe.cure.setting is not None
    assert recipe.cure.forms.curing_salt.at(recipe.cure.setting) == Fraction("0.048") * LB


@pytest.mark.parametrize("meat_lb", [25, Fraction(25, 2), 7])
def test_each_meat_is_its_written_share_of_what_lies_on_the_scale(
    compute: Compute, meat_lb: Fraction | int
) -> None:
    """15 and 10 of 25: three fifths and two fifths."""
    cure = ("method: dry", "salt: 1.75 %", "curing salt: 120 ppm")
    recipe = compute(SAUSAGE, cure, wish=Wish(meat_g=meat_lb * LB))
    assert recipe.green_weight_g == meat_lb * LB
    assert recipe.meat_shares == {"venison": Fraction(3, 5), "pork-trim": Fraction(2, 5)}
    assert [line.grams.high for line in recipe.meat_lines if line.grams] == [
        meat_lb * LB * Fraction(3, 5),
        meat_lb * LB * Fraction(2, 5),
    ]
    assert recipe.meat_line is not None
    assert recipe.meat_line.grams is not None
    assert recipe.meat_line.grams.high == meat_lb * LB


@pytest.mark.parametrize(
    ("name", "pounds", "batches"),
    [
        ("venison", 5, Fraction(1, 3)),
        ("pork-trim", 5, Fraction(1, 2)),
        ("trim", 20, 2),
        ("meat", 5, Fraction(1, 5)),
    ],
)
def test_it_is_scaled_by_any_meat_or_by_all_of_it(
    compute: Compute, tables: Tables, name: str, pounds: int, batches: Fraction
) -> None:
    """15 lb venison and 10 lb pork trim: 5 lb of venison are a third of it, 5 lb of all the meat a fifth."""
    amount = Quantity(
        measures=(Measure(Span.of(Fraction(pounds)), tables.units["pound"]),), written=f"{pounds} lb"
    )
    cure = ("method: dry", "salt: 1.75 %", "curing salt: 120 ppm")
    recipe = compute(SAUSAGE, cure, wish=Wish(line=LineWish(name=name, amount=amount)))
    assert recipe.scale.batches == batches
    assert recipe.green_weight_g == 25 * LB * batches


def test_one_meat_that_is_not_weighed_leaves_no_weight(compute: Compute) -> None:
    recipe = compute(
        ("15 lb venison", "1 pork shoulder"), ("method: dry", "salt: 2 %", "curing salt: 120 ppm")
    )
    assert recipe.green_weight_g is None
    assert recipe.cure is not None
    assert recipe.cure.weigh is None
    assert "meat-unknown" in slugs(recipe)


BRINE = ("method: brine", "water: 1 gal", "salt: 5 %")
DRY = ("method: dry", "salt: 3 %")
LIMITS = (
    (("6 lb deer trim", "4 lb pork belly, skin off"), BRINE, ("cure: 5 days in the fridge",), "120"),
    (("4 lb pork belly, skin off", "6 lb pork ham"), BRINE, ("cure: 5 days in the fridge",), "120"),
    (("6 lb pork ham", "4 lb pork belly, skin off"), DRY, ("cure: 9 days in the fridge",), "200"),
    (("6 lb pork ham", "4 lb ground venison"), DRY, ("cure: 9 days in the fridge",), "156.25"),
    (("6 lb pork ham", "4 lb elk roast"), BRINE, ("cure: 9 days in the fridge",), "200"),
    (("6 lb deer trim", "4 lb pork belly"), DRY, GRIND, "156.25"),
    (("6 lb salmon", "4 lb ground pork"), DRY, ("cure: 1 day in the fridge",), "156.25"),
    (("6 lb salmon", "4 lb tuna"), DRY, ("cure: 1 day in the fridge",), "10"),
)
"Meats, cure, course, and the lowest limit [ppm]: 9 CFR 424.21(c), 424.22(b); 21 CFR 172.175."


@pytest.mark.parametrize(
    ("meats", "cure", "course", "limit"), LIMITS, ids=[" + ".join(one[0]) for one in LIMITS]
)
def test_the_lowest_limit_of_any_piece_holds_for_all(
    compute: Compute, meats: tuple[str, ...], cure: tuple[str, ...], course: tuple[str, ...], limit: str
) -> None:
    for listed in (meats, meats[::-1]):
        at_it = compute(listed, (*cure, f"curing salt: {limit} ppm"), course).cure
        assert at_it is not None
        assert at_it.limit is not None
        assert at_it.limit.limit_ppm == Fraction(limit)
        assert at_it.weigh is not None, at_it.problems
        above = compute(listed, (*cure, f"curing salt: {Fraction(limit) + 1} ppm"), course)
        assert above.cure is not None
        assert above.cure.weigh is None
        assert "above-limit" in slugs(above)


def test_fish_that_may_have_none_forbids_it_to_all(compute: Compute) -> None:
    cure, course = (*DRY, "curing salt: 5 ppm"), ("cure: 1 day in the fridge",)
    assert "fish-nitrite" in slugs(compute(("6 lb salmon", "1 lb trout"), cure, course))
    assert "fish-nitrite" not in slugs(compute(("6 lb salmon", "1 lb shad"), cure, course))


def test_nitrate_that_one_piece_forbids_is_forbidden(compute: Compute) -> None:
    """Never in belly (9 CFR 424.22(b)), also where another piece has the lower limit for nitrite."""
    cure, course = (
        (*DRY, "curing salt: 100 ppm", "kind of curing salt: no. 2"),
        ("cure: 40 days in the fridge",),
    )
    for other in ("6 lb pork ham", "6 lb ground venison"):
        refused = compute((other, "4 lb pork belly, skin off"), cure, course)
        assert "nitrate-in-belly" in slugs(refused), other
        allowed = compute((other, "4 lb pork loin"), cure, course)
        assert "nitrate-in-belly" not in slugs(allowed)
        assert allowed.cure is not None
        assert allowed.cure.weigh is not None, allowed.cure.problems


def test_only_the_skin_of_the_belly_is_left_out(compute: Compute) -> None:
    """Skin 10 % of the belly (FSIS 7620.3, pp. 27-31, from memory): of 10 lb with 4 lb belly, 9.6 lb count.

    1 oz of 6.25 % cure: 0.0625/16 lb / 9.6 lb = 406.9 ppm; of 2 lb more belly without skin / 11.6 lb = 336.75 ppm.
    """
    cure, course = (*DRY, "curing salt: 0.25 oz"), ("cure: 9 days in the fridge",)
    one = compute(("6 lb pork ham", "4 lb pork belly, skin on"), cure, course).cure
    assert one is not None
    assert one.dry_ppm == Fraction(625, 640) / (10 - Fraction(4, 10)) * 1000
    meats = ("6 lb pork ham", "4 lb pork belly, skin on", "2 lb pig belly, skin off")
    two = compute(meats, cure, course).cure
    assert two is not None
    assert two.dry_ppm == Fraction(625, 640) / (12 - Fraction(4, 10)) * 1000
    untold = compute(("6 lb pork ham", "4 lb pork belly"), cure, course)
    assert "skin-unknown" in slugs(untold)


def boxes(recipe: ComputedRecipe) -> dict[str, str]:
    return {box.slug: box.because for box in recipe.cautions}


def test_each_kind_keeps_its_hazards(compute: Compute) -> None:
    """Bear carries Trichinella, deer Toxoplasma (game_hazards.csv), whatever farm meat is ground with them."""
    salt = ("method: dry", "salt: 2 %")
    hot = ("grind", "cook: 20 min to 165 °F inside")
    deer = compute(("6 lb deer trim", "2 lb pork shoulder"), salt, hot, eat="")
    bear = compute(("6 lb deer trim", "2 lb pork shoulder", "1 lb bear fat"), salt, hot, eat="")
    assert not any("Trichinella" in words for words in boxes(deer).values())
    assert any("Trichinella" in words for words in boxes(bear).values())
    cool = ("grind", "cook: 20 min to 150 °F inside")
    wild = compute(("6 lb beef", "2 lb deer trim"), salt, cool, eat="")
    farm = compute(("6 lb beef", "2 lb pork shoulder"), salt, cool, eat="")
    fowl = compute(("6 lb beef", "2 lb chicken thighs"), salt, cool, eat="")
    refused = [
        " ".join(one.message for one in recipe.problems if one.is_error) for recipe in (wild, farm, fowl)
    ]
    words = (("Deer is", "165 °F"), ("beef is", "160 °F"), ("chicken thighs is", "165 °F"))
    assert all(one in message for message, told in zip(refused, words, strict=True) for one in told), refused


WHOLE = (
    "{animal: elk, cut: fore shank, weight: 5 lb, thickness: 3 in, shape: round, bone: out, silverskin: off}",
    "{animal: pork, cut: shoulder, weight: 3 lb, thickness: 2 in, shape: round, bone: out, skin: off, silverskin: off}",
)


def test_the_thickest_piece_decides_how_far_the_salt_has_reached(compute: Compute) -> None:
    cure, course = (*BRINE, "curing salt: 100 ppm"), ("cure: 5 days in the fridge",)
    for listed in (WHOLE, WHOLE[::-1]):
        both = compute(listed, cure, course).cure
        assert both is not None
        assert both.reach is not None
        assert "3 in" in both.reach.worked_out_for
    slab = WHOLE[1].replace("2 in, shape: round", "2.5 in, shape: slab")
    slower = compute((WHOLE[0], slab), cure, course).cure
    assert slower is not None
    assert slower.reach is not None
    assert "slab" in slower.reach.worked_out_for, "2.5^2/2.467 is more than 3^2/5.783 (Crank 1975)"


def test_a_thickness_that_is_not_told_of_one_piece_is_named(compute: Compute) -> None:
    cure, course = (*BRINE, "curing salt: 100 ppm"), ("cure: 5 days in the fridge",)
    recipe = compute((WHOLE[0], "3 lb pork shoulder, boneless"), cure, course)
    assert recipe.cure is not None
    assert recipe.cure.reach is None
    assert any("'thickness' of pork shoulder" in fact for fact in recipe.facts), recipe.facts
    ground = compute((WHOLE[0], "3 lb ground pork"), cure, course)
    assert ground.cure is not None
    assert not any("thickness" in fact for fact in ground.facts), "what is ground has none"


def test_what_is_mixed_through_asks_for_no_thickness(compute: Compute) -> None:
    recipe = compute(SAUSAGE, (*DRY, "curing salt: 120 ppm"))
    assert not any("thickness" in fact for fact in recipe.facts)
    assert not {"grey-middle", "cure-time", "cure-time-unknown"} & boxes(recipe).keys()
    later = compute(SAUSAGE, (*DRY, "curing salt: 120 ppm"), ("cure: 3 days in the fridge", "grind"))
    assert any("thickness" in fact for fact in later.facts), "it lies in its cure in pieces"


TOLD = (
    ("2 lb pork back fat", "2 lb pork back fat"),
    ("1 lb fatback", "1 lb fatback"),
    ("1 lb suet", "1 lb beef suet"),
    ("1 lb fat", "1 lb pork fat"),
    ("3 lb pork shoulder", "3 lb pork shoulder"),
)


@pytest.mark.parametrize(("line", "as_meat"), TOLD, ids=[one[0] for one in TOLD])
def test_fat_that_is_no_meat_line_is_told_where_a_ground_cure_stands(
    compute: Compute, line: str, as_meat: str
) -> None:
    cure = (*DRY, "curing salt: 120 ppm")
    recipe = compute(("6 lb deer trim",), cure, lines=(line,))
    (problem,) = [one for one in recipe.problems if one.slug == "meat-not-counted"]
    assert not problem.is_error
    assert problem.hint.endswith(f"`meat:` as a list: `- 6 lb deer trim` and `- {as_meat}`.")
    assert any("does not count" in fact for fact in recipe.facts)
    mended = compute(("6 lb deer trim", as_meat), cure)
    assert "meat-not-counted" not in slugs(mended)


QUIET = (
    (("6 lb deer trim",), (*DRY, "curing salt: 120 ppm"), GRIND, "2 tbsp lard"),
    (("6 lb deer trim",), (*DRY, "curing salt: 120 ppm"), GRIND, "4 oz hog casings"),
    (("6 lb deer trim",), (*DRY, "curing salt: 120 ppm"), GRIND, "8 oz low-fat milk powder"),
    (
        ("6 lb deer roast",),
        (*DRY, "curing salt: 120 ppm"),
        ("cure: 9 days in the fridge",),
        "2 lb pork back fat",
    ),
)


@pytest.mark.parametrize(("meats", "cure", "course", "line"), QUIET, ids=[one[3] for one in QUIET])
def test_what_is_not_ground_with_it_is_not_told(
    compute: Compute, meats: tuple[str, ...], cure: tuple[str, ...], course: tuple[str, ...], line: str
) -> None:
    recipe = compute(meats, cure, course, lines=(line,))
    assert "meat-not-counted" not in slugs(recipe)
    assert not any("does not count" in fact for fact in recipe.facts)


ROUND = (
    "{{animal: elk, cut: {cut}, weight: 3 lb, thickness: {thick}, shape: round, bone: out, silverskin: off}}"
)
THIN, THICK = ROUND.format(cut="tenderloin", thick="1 in"), ROUND.format(cut="shank", thick="4 in")
UNTOLD = "3 lb elk neck, boneless"
SALT = ("method: dry", "salt: 2 %")


def test_a_pot_is_judged_by_the_thickest_and_asks_of_one_that_is_not_told(compute: Compute) -> None:
    """As of one meat: 4 in is not hot in 40 minutes; of the untold one nobody knows."""
    course = ("cure: 5 days in the fridge", "simmer: 40 min to 165 °F inside")
    said = [boxes_or_refusals(compute, listed, course) for listed in ((THIN, THICK), (THICK, THIN))]
    assert all("4 in" in words for words in said), said
    assert (
        "elk neck cooks for 40 min"
        in boxes(compute((THIN, UNTOLD), SALT, course, eat=""))["simmer-too-short"]
    )
    assert "simmer-too-short" not in boxes(compute((THIN,), SALT, course, eat=""))


def boxes_or_refusals(compute: Compute, meats: tuple[str, ...], course: tuple[str, ...]) -> str:
    return " ".join(problem.message for problem in compute(meats, SALT, course, eat="").problems)


def test_a_slow_smoke_of_a_piece_that_is_not_told_is_asked(compute: Compute) -> None:
    """Over 6 hours between 50 and 130 °F: what clears the thin piece says nothing of the other."""
    course = ("cure: 5 days in the fridge", "hot smoke: 7 h at 225 °F to 165 °F inside")
    told, untold = (
        {box.slug: box.missing for box in compute(meats, SALT, course, eat="").cautions}
        for meats in ((THIN, ROUND.format(cut="round", thick="2 in")), (THIN, UNTOLD))
    )
    (asked,) = [slug for slug, missing in untold.items() if "meat.thickness" in missing]
    assert "meat.thickness" not in told[asked]


@pytest.mark.parametrize(
    ("meats", "line"),
    [
        ("  - 2 lb elk roast\n", "raw venison keep 5 days"),
        ("  - 2 lb elk roast\n  - 1 lb elk liver\n", "raw organ meat keep 2 days"),
        ("  - 1 lb elk liver\n  - 2 lb elk roast\n", "raw organ meat keep 2 days"),
        ("  - 2 lb elk roast\n  - 3 lb pork loin\n", "raw venison keep 5 days"),
    ],
)
def test_what_keeps_least_long_decides(make_book: Make, kitchen: Kitchen, meats: str, line: str) -> None:
    """Cuts 3 to 5 days, organs 1 to 2 (cold storage chart, keeping.csv); of two of 5 days the shorter in the freezer."""
    text = f"---\nname: Box\nmakes: 1 box\nchapter: Pots\nmeat:\n{meats}course:\n  - chill\neat: after cooking\n---\n\nWait.\n"
    book = load_book(make_book({"recipes/box.md": text}), kitchen, ProblemLog())
    assert book is not None
    facts = compute_recipe(book, "box", kitchen, Wish()).facts
    assert any(line in fact for fact in facts), facts


def test_fish_among_the_meats_is_an_allergen(compute: Compute) -> None:
    recipe = compute(("2 lb pork shoulder", "1 lb salmon"), SALT, ("cure: 1 day in the fridge",))
    assert any("Contains fish" in fact for fact in recipe.facts)
