"""How far salt has reached: what a recipe says becomes the question, and the answer keeps its words and its caveats."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.build import compute
from generator.compute import Kitchen, Wish, compute_recipe
from generator.compute.cure import CureInput, Scales, work_out_cure
from generator.compute.meat.cured import days_in_cure
from generator.compute.reach.estimate import PieceInCure, add_reach, work_out_reach
from generator.compute.reach.recipe import piece_of
from generator.compute.transfer import estimate_reach
from generator.model.quantity import Temperature
from generator.model.recipe import CureLine, Recipe, Target, TargetKind
from generator.model.results import ComputedBook, CureResult, PumpBrineResult, ReachResult
from generator.problems import OutOfRange, Position, ProblemLog

HERE = Position("command line")
NOT_YET, UNCERTAIN, EVEN = "probably not yet reached", "uncertain", "probably even"

MEAT = {
    "animal": "elk",
    "cut": "fore shank",
    "weight": "6 lb",
    "thickness": "3 in",
    "shape": "round",
    "bone": "in",
    "silverskin": "off",
}
CURE = {"method": "brine", "water": "2 qt", "salt": "3 %", "curing salt": "150 ppm"}
COURSE = ("thaw: in the fridge", "cure: 6 days in the fridge")

Write = Callable[..., Path]


def recipe_text(
    meat: dict[str, str] | None = None, cure: dict[str, str] | None = None, course: tuple[str, ...] = COURSE
) -> str:
    def block(name: str, values: dict[str, str]) -> str:
        return "\n".join([f"{name}:", *(f"  {key}: {value}" for key, value in values.items() if value)])

    stages = "\n".join(f"  - {stage}" for stage in course)
    parts = (block("meat", {**MEAT, **(meat or {})}), block("cure", {**CURE, **(cure or {})}))
    return "\n".join(
        (
            "---",
            "name: Shank",
            "makes: 4 lb",
            "eat: after cooking",
            *parts,
            "course:",
            stages,
            "---",
            "",
            "Cure it.",
            "",
        )
    )


@pytest.fixture
def cured(make_book: Write, kitchen: Kitchen) -> Callable[..., ComputedBook]:
    """A book of one cured recipe, computed; it must have no error."""

    def make(**changes: object) -> ComputedBook:
        folder = make_book({"recipes/shank.md": recipe_text(**changes)})  # type: ignore[arg-type]  # any field
        log = ProblemLog()
        book = compute(folder, kitchen, log)
        assert book is not None
        assert not log.has_errors, list(log)
        return book

    return make


def result_of(book: ComputedBook) -> CureResult:
    cure = book.recipes["shank"].cure
    assert cure is not None
    return cure


def reach_of(book: ComputedBook) -> ReachResult:
    reach = result_of(book).reach
    assert reach is not None, book.recipes["shank"].facts
    return reach


def fact_of(book: ComputedBook) -> str:
    """The one fact line that says why there is no estimate."""
    assert result_of(book).reach is None
    facts = [fact for fact in book.recipes["shank"].facts if fact.startswith("How far")]
    assert len(facts) == 1
    return facts[0]


def recipe_of(book: ComputedBook) -> Recipe:
    return book.recipes["shank"].recipe


def target(kind: TargetKind, value: int) -> CureLine:
    return CureLine(target=Target(kind=kind, value=Fraction(value)), written=str(value), position=HERE)


def cure_of(kitchen: Kitchen, **changes: object) -> CureResult:
    values: dict[str, object] = {
        "method": "brine",
        "cut": "whole",
        "kind": kitchen.tables.curing_salt("no. 1"),
        "salt": target(TargetKind.PERCENT, 3),
        "sugar": None,
        "curing_salt": target(TargetKind.PPM, 150),
        "meat_g": Fraction(1000),
        "water_g": Fraction(1500),
        **changes,
    }
    return work_out_cure(CureInput(**values), Scales(tables=kitchen.tables), kitchen.shower)  # type: ignore[arg-type]  # any field


def piece(**changes: object) -> PieceInCure:
    values: dict[str, object] = {
        "thickness_mm": Fraction("76.2"),
        "shape": "round",
        "days": Fraction(5),
        "bone_in": True,
        "skin_on": False,
        "silverskin_on": False,
        "frozen_before": True,
        **changes,
    }
    return PieceInCure(**values)  # type: ignore[arg-type]  # any field


def estimate(kitchen: Kitchen, cure: CureResult, one: PieceInCure) -> ReachResult:
    found = work_out_reach(cure, one, kitchen.tables, kitchen.shower, "us")
    assert found is not None
    return found


# the words

INCH = Fraction("25.4")
BIG_BATH_G = Fraction(60_000)
"""Water for 1 kg of meat: so much that the level outside hardly falls, as the bands below take it."""


@pytest.mark.parametrize(
    ("inches", "shape", "day", "word"),
    [
        # Bands of days for the middle to reach 50 % and 75 % of a constant level, from the fastest to the slowest
        # published diffusivity at 5 degC: Crank's series, evaluated for this project beside the rules in days.
        # Frozen meat is up to 1.3 times as fast (Picouet et al. 2013), so the fast ends are divided by 1.3.
        # Not yet: before the fast end of 50 %. Even: after the slow end of 75 %. Between them: uncertain.
        #
        # round 76 mm (3 in shank): 50 % [8 to 34] days, 75 % [13 to 54]; 8 / 1.3 = 6.2
        (3, "round", 4, NOT_YET),
        (3, "round", 7, UNCERTAIN),
        (3, "round", 14, UNCERTAIN),
        (3, "round", 28, UNCERTAIN),
        (3, "round", 60, EVEN),
        # round 152 mm (6 in ham): 50 % [34 to 134] days, 75 % [54 to 215]; 34 / 1.3 = 26
        (6, "round", 4, NOT_YET),
        (6, "round", 7, NOT_YET),
        (6, "round", 14, NOT_YET),
        (6, "round", 28, UNCERTAIN),
        # slab 25 mm (1 in): 50 % [1.7 to 6.8] days, 75 % [3.0 to 12]; 1.7 / 1.3 = 1.3
        (1, "slab", 1, NOT_YET),
        (1, "slab", 4, UNCERTAIN),
        (1, "slab", 14, EVEN),
        (1, "slab", 28, EVEN),
    ],
)
def test_word_of_a_day_is_that_of_the_published_band(
    kitchen: Kitchen, inches: int, shape: str, day: int, word: str
) -> None:
    cure = cure_of(kitchen, water_g=BIG_BATH_G)
    bone = shape == "round"
    one = piece(thickness_mm=inches * INCH, shape=shape, days=Fraction(day), bone_in=bone)
    found = estimate(kitchen, cure, one)
    assert found.words == word
    assert found.low <= found.central <= found.high


@pytest.mark.parametrize(
    ("inches", "day"), [(1, 7), (2, 14)], ids=["1 in after a week", "2 in after two weeks"]
)
def test_a_dry_cure_of_seven_days_an_inch_is_probably_even_while_thin(
    kitchen: Kitchen, inches: int, day: int
) -> None:
    # Rule of 7 days an inch; a round, slowest diffusivity: 0.99 at 1 in, 0.82 at 2 in, both above 0.75.
    cure = cure_of(kitchen, method="dry", water_g=None, salt=target(TargetKind.PERCENT, 3))
    one = piece(thickness_mm=inches * INCH, days=Fraction(day), bone_in=False)
    assert estimate(kitchen, cure, one).words == EVEN


def test_a_dry_cure_of_seven_days_an_inch_is_uncertain_when_thick(kitchen: Kitchen) -> None:
    # The same rule at 5 in: 0.23 at the slowest, 0.96 at the fastest.
    cure = cure_of(kitchen, method="dry", water_g=None, salt=target(TargetKind.PERCENT, 3))
    one = piece(thickness_mm=5 * INCH, days=Fraction(35), bone_in=False)
    assert estimate(kitchen, cure, one).words == UNCERTAIN


def test_nitrite_is_never_called_more_than_uncertain_in_a_thick_piece(kitchen: Kitchen) -> None:
    # 38 mm from the face to the middle is beyond 25 mm, where nitrite is not called even (judgement of transfer.csv).
    found = estimate(kitchen, cure_of(kitchen, water_g=BIG_BATH_G), piece(days=Fraction(100)))
    assert found.words == EVEN
    assert found.nitrite_words == UNCERTAIN


# what a cure gives


def test_salt_of_the_curing_salt_counts(kitchen: Kitchen) -> None:
    """3 % of meat + water is 75 g for 1000 + 1500 g, whatever share of it comes with the curing salt."""
    with_it, without = cure_of(kitchen), cure_of(kitchen, curing_salt=None)
    first, second = (estimate(kitchen, cure, piece()) for cure in (with_it, without))
    assert (first.low, first.central, first.high) == pytest.approx((second.low, second.central, second.high))


def test_cure_without_nitrite_says_nothing_of_nitrite(kitchen: Kitchen) -> None:
    found = estimate(kitchen, cure_of(kitchen, curing_salt=None), piece())
    assert (found.nitrite_words, found.nitrite_low, found.nitrite_high) == ("", None, None)
    assert not any("itrite" in caveat for caveat in found.caveats)
    found = estimate(kitchen, cure_of(kitchen), piece())
    assert found.nitrite_words
    assert any("Nitrite is used up" in caveat for caveat in found.caveats)


def test_pump_gives_a_second_course_without_it(kitchen: Kitchen) -> None:
    plain = estimate(kitchen, cure_of(kitchen), piece())
    pumped = estimate(kitchen, cure_of(kitchen, pump_percent=Fraction(10)), piece())
    assert plain.series_without_pump is None
    assert pumped.series_without_pump is not None
    assert len(pumped.series_without_pump) == len(pumped.series)
    assert pumped.series_without_pump[:29] == plain.series[:29]
    assert pumped.central > plain.central
    assert any("farthest from the needle" in caveat for caveat in pumped.caveats)


def test_separate_pump_brine_is_reckoned_with_its_own_salt(kitchen: Kitchen) -> None:
    """A stronger brine by the needle leaves more at the middle than the cover brine would."""
    pumped = cure_of(kitchen, pump_percent=Fraction(10))
    strong = PumpBrineResult(
        water_g=Fraction(1000),
        salt_g=Fraction(200),
        sugar_g=Fraction(0),
        curing_salt_g=Fraction(20),
        strength_percent=Fraction(18),
        nitrite_ppm=Fraction(102),
        kind=pumped.kind,
    )
    cover = estimate(kitchen, pumped, piece())
    own = estimate(kitchen, replace(pumped, pump_brine=strong), piece())
    assert own.central > cover.central
    assert own.nitrite_words


def test_warmer_reaches_farther(kitchen: Kitchen) -> None:
    cure = cure_of(kitchen)
    cold, fridge, cellar = (
        estimate(kitchen, cure, piece(temperature=at))
        for at in (Temperature(Fraction(34), "F"), None, Temperature(Fraction(12), "C"))
    )
    assert cold.central < fridge.central < cellar.central
    assert "taken as lying at 41 °F (5 °C)" in fridge.worked_out_for
    assert "at 34 °F (1 °C)" in cold.worked_out_for
    assert "taken" not in cold.worked_out_for


def test_refused_cure_has_no_reach(kitchen: Kitchen) -> None:
    refused = cure_of(kitchen, curing_salt=target(TargetKind.PPM, 400))
    assert refused.weigh is None
    assert work_out_reach(refused, piece(), kitchen.tables, kitchen.shower, "us") is None


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"thickness_mm": Fraction(301)}, "Thickness must be above 0 and up to 300 mm, not 301."),
        ({"days": Fraction(121)}, "A cure lasts from 0 to 120 days, not 121."),
        ({"temperature": Temperature(Fraction(16), "C")}, "Temperature must be from -1 to 15 C, not 16."),
        (
            {"temperature": Temperature(Fraction(28), "F")},
            "Temperature must be from -1 to 15 C, not -2.22222.",
        ),
    ],
)
def test_out_of_range_is_a_problem_and_no_number(
    kitchen: Kitchen, changes: dict[str, object], words: str
) -> None:
    found = add_reach(cure_of(kitchen), piece(**changes), kitchen.tables, kitchen.shower, "us")
    assert found.reach is None
    assert found.weigh is not None
    (problem,) = found.problems
    assert (problem.slug, problem.is_error, problem.message) == ("out-of-range", True, words)
    assert "0 to 300 mm" in problem.hint
    assert "0 to 120 days" in problem.hint
    assert "-1 to 15 °C" in problem.hint


def test_pump_out_of_range_is_refused(kitchen: Kitchen) -> None:
    cure = cure_of(kitchen, pump_percent=Fraction(60))
    with pytest.raises(OutOfRange, match=r"a pump is above 0 and up to 0.5 of the meat, not 0.6"):
        work_out_reach(cure, piece(), kitchen.tables, kitchen.shower, "us")


def test_ground_meat_is_refused(kitchen: Kitchen) -> None:
    cure = cure_of(kitchen, method="dry", water_g=None, cut="ground")
    with pytest.raises(OutOfRange, match="ground meat is mixed with its cure"):
        work_out_reach(cure, piece(), kitchen.tables, kitchen.shower, "us")


# what a recipe says


def test_recipe_is_read_as_its_piece(cured: Callable[..., ComputedBook], kitchen: Kitchen) -> None:
    found = piece_of(recipe_of(cured()), kitchen.tables)
    assert found == PieceInCure(
        thickness_mm=Fraction("76.2"),
        shape="round",
        days=Fraction(6),
        bone_in=True,
        skin_on=False,  # elk is skinned
        silverskin_on=False,
        frozen_before=True,
    )


def test_what_is_not_told_stays_so(cured: Callable[..., ComputedBook], kitchen: Kitchen) -> None:
    book = cured(
        meat={"animal": "pork", "cut": "shank", "bone": "", "silverskin": ""}, course=("cure: 6 days",)
    )
    found = piece_of(recipe_of(book), kitchen.tables)
    assert found is not None
    assert (found.bone_in, found.skin_on, found.silverskin_on, found.frozen_before) == (None,) * 4
    caveats = " ".join(reach_of(book).caveats)
    for words in ("whether the skin is on", "whether the silverskin is on", "whether the meat was frozen"):
        assert words in caveats


@pytest.mark.parametrize(("skin", "told"), [("on", True), ("off", False)])
def test_belly_skin_is_read(
    cured: Callable[..., ComputedBook], kitchen: Kitchen, skin: str, told: bool
) -> None:
    cure = {"method": "dry", "water": "", "curing salt": "120 ppm"}
    book = cured(
        meat={"animal": "wild boar", "cut": "belly", "skin": skin, "shape": "slab", "bone": "out"}, cure=cure
    )
    found = piece_of(recipe_of(book), kitchen.tables)
    assert found is not None
    assert found.skin_on is told


def test_range_takes_the_slower_end(cured: Callable[..., ComputedBook], kitchen: Kitchen) -> None:
    """Shorter and colder: what is said of the middle holds for the slowest way to follow the recipe."""
    book = cured(course=("cure: 4–5 days at 34–38 °F in the fridge",))
    found = piece_of(recipe_of(book), kitchen.tables)
    assert found is not None
    assert found.days == 4
    assert found.temperature == Temperature(Fraction(34), "F")
    assert reach_of(book).day == 4


def test_days_of_several_cure_stages_are_added(cured: Callable[..., ComputedBook]) -> None:
    book = cured(course=("cure: 3 days", "turn", "cure: 36 h"))
    days = days_in_cure(recipe_of(book))
    assert days is not None
    assert days.low == Fraction(9, 2)


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"meat": {"thickness": ""}}, "'thickness' of the meat"),
        ({"meat": {"shape": ""}}, "'shape' of the meat"),
        ({"meat": {"thickness": "", "shape": ""}}, "'thickness' of the meat and 'shape' of the meat"),
        ({"course": ("thaw", "cure: in the fridge")}, "the length of the cure in 'course'"),
        ({"course": ("thaw", "rinse")}, "the length of the cure in 'course'"),
        ({"course": ("cure: 3 days", "cure")}, "the length of the cure in 'course'"),
    ],
)
def test_missing_fact_gives_no_number_and_names_its_key(
    cured: Callable[..., ComputedBook], changes: dict[str, object], named: str
) -> None:
    assert fact_of(cured(**changes)) == f"How far the salt has reached cannot be told without {named}."


def test_recipe_out_of_range_has_a_fact_line_and_still_builds(cured: Callable[..., ComputedBook]) -> None:
    """A ham of half a year is no mistake of its author: it has no estimate, and its page stands."""
    book = cured(course=("cure: 180 days in the fridge",))
    assert fact_of(book) == (
        "How far the salt has reached is not estimated: a cure lasts from 0 to 120 days, not 180."
    )


def test_fish_has_no_estimate(cured: Callable[..., ComputedBook]) -> None:
    # J. Cookery Science Japan 25(4):283, 1992: 1e-11 to 1e-10 m2/s in fillets, below the range of the table.
    cure = {"curing salt": ""}
    meat = {"animal": "trout", "cut": "fillet", "shape": "slab", "thickness": "3/4 in", "skin": "on"}
    assert "of meat, not of fish" in fact_of(cured(meat=meat, cure=cure))


def test_ground_meat_has_neither_estimate_nor_fact_line(cured: Callable[..., ComputedBook]) -> None:
    book = cured(meat={"form": "ground"}, cure={"method": "dry", "water": "", "curing salt": "120 ppm"})
    assert result_of(book).reach is None
    assert not [fact for fact in book.recipes["shank"].facts if fact.startswith("How far")]


def test_scaling_keeps_the_estimate_and_asks_it_once(
    cured: Callable[..., ComputedBook], kitchen: Kitchen
) -> None:
    """Reach depends on ratios: three times the recipe is the same question, and names its own weight."""
    book = cured(cure={"pump": "8 %"})
    before = estimate_reach.cache_info()
    tripled = compute_recipe(book.book, "shank", kitchen, Wish(batches=Fraction(3)))
    after = estimate_reach.cache_info()
    assert tripled.cure is not None
    assert tripled.cure.reach is not None
    written = reach_of(book)
    assert replace(tripled.cure.reach, worked_out_for="") == replace(written, worked_out_for="")
    assert (after.misses, after.hits) == (before.misses, before.hits + 1)
    # 6 lb = 2721.55 g, shown up to 5 g; 2 US qt of water (1893 g) / 2722 g = 0.7
    assert written.worked_out_for == (
        "6 lb (2.725 kg) of meat in 0.7 times its weight of water, 3 in (7.5 cm) thick, round, bone in, skin off, "
        "silverskin off, taken as lying at 41 °F (5 °C)"
    )
    assert tripled.cure.reach.worked_out_for.startswith("18 lb (8.165 kg) of meat in 0.7 times")


def test_estimate_names_the_publications_behind_it(cured: Callable[..., ComputedBook]) -> None:
    assert reach_of(cured()).sources == ("pork-brine-2015", "house", "nordin-1969", "picouet-2013")
