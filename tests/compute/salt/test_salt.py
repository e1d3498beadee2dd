"""Salt from a cured piece into a dish: balances worked by hand, published figures, and what is said where unknown."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.build import load_book
from generator.cli import main
from generator.compute import Kitchen, compute_book, compute_recipe
from generator.compute.cure.days import percent_brine
from generator.compute.salt.piece import Cured, salt_share_inside
from generator.compute.transfer import (
    CoverBrine,
    Piece,
    ReachInput,
    estimate_reach,
    parameters_from,
    soak,
    state_after_cure,
)
from generator.model.book import Book
from generator.model.quantity import Span
from generator.model.results import ComputedRecipe, DishSalt, SaltInPiece
from generator.model.shown import grams_shown, percent_shown, sodium_shown
from generator.problems import ProblemLog
from generator.tables import Tables

CONTENT = Path(__file__).parents[3] / "content"

BRINED = """---
name: Brined loin
makes: 2 loins (900 g)
chapter: Pots
eat: after cooking
meat:
  animal: deer
  cut: loin
  weight: 1000 g
  bone: out
cure:
  method: brine
  water: 1000 g
  salt: 3 %
course:
  - cure: 5 days in the fridge
---

Cure the [meat](#meat).
"""
"60 g salt on 1000 g meat and 1000 g water."

DISH = """---
name: Pot of beans
serves: 4
chapter: Pots
ingredients:
  - 1 [brined loin](loin.md)
  - 1 lb dry pinto beans
course:
  - simmer: 3 h to 165 °F inside
---

Cook.
"""


def load(folder: Path, kitchen: Kitchen) -> Book:
    log = ProblemLog()
    book = load_book(folder, kitchen, log)
    assert book is not None
    assert not log.has_errors, [problem.message for problem in log]
    return book


@pytest.fixture
def cook(make_book: Callable[..., Path], kitchen: Kitchen) -> Callable[..., ComputedRecipe]:
    """Compute `slug` of a book of texts: cook('beans', loin=..., beans=...)."""

    def compute(slug: str, **texts: str) -> ComputedRecipe:
        folder = make_book({f"recipes/{name}.md": text for name, text in texts.items()})
        return compute_recipe(load(folder, kitchen), slug, kitchen)

    return compute


Cook = Callable[..., ComputedRecipe]


def piece(computed: ComputedRecipe) -> SaltInPiece:
    assert computed.cure is not None
    assert computed.cure.salt_carried is not None
    return computed.cure.salt_carried


def salt(computed: ComputedRecipe) -> DishSalt:
    assert computed.salt is not None
    return computed.salt


# published figures


def test_even_level_of_the_reference_example() -> None:
    """Derived: 2 kg meat of 72 % water, 2 kg water, 150 g salt: c 0.0436, 3.0 % of the meat with its salt."""
    in_meat = 150 * salt_share_inside(Fraction(1440), Fraction(2000))
    assert float(in_meat / 1440) == pytest.approx(0.0436, abs=0.00005)
    assert float(100 * in_meat / (2000 + in_meat)) == pytest.approx(3.04, abs=0.005)


def test_salt_inside_is_nothing_without_water() -> None:
    assert salt_share_inside(Fraction(0), Fraction(0)) == 0


@pytest.mark.parametrize(
    ("salt_percent", "moisture", "expected"),
    [("2.5", 70, 3.448), ("2.6", 70, 3.581), ("2.539", 70, 3.5)],
)
def test_water_phase_salt(salt_percent: str, moisture: int, expected: float) -> None:
    """FDA Fish and Fishery Products Hazards and Controls Guidance, ch. 13, limit 3.5 % (from memory); derived."""
    found = percent_brine(salt_g=Fraction(salt_percent), water_g=Fraction(moisture))
    assert float(found) == pytest.approx(expected, abs=0.0006)


def test_sodium_of_salt(tables: Tables) -> None:
    """22.990 / 58.443 = 0.3934; 5 g salt (WHO) is 1.97 g sodium, 2,300 mg (21 CFR 101.9(c)(9)) is 5.85 g salt."""
    share = tables.constant("sodium_share_of_salt")
    assert float(share) == pytest.approx(22.990 / 58.443, abs=0.00005)
    assert float(tables.constant("who_salt_g") * share) == pytest.approx(1.97, abs=0.005)
    assert float(tables.constant("fda_sodium_mg") / 1000 / share) == pytest.approx(5.85, abs=0.005)


def test_published_yields(tables: Tables) -> None:
    """AWI-108, 1944: fresh 100, dry-cured 95 and smoked 90; brine-cured 103 and smoked 96; both within mild smoke."""
    carry = tables.carry
    dry, brine, smoke = (
        carry.loss_of("cure", "dry"),
        carry.loss_of("cure", "brine"),
        carry.loss_of("cold smoke"),
    )
    assert dry is not None
    assert brine is not None
    assert smoke is not None
    assert (dry.low, brine.low) == (Fraction(95, 100), Fraction(103, 100))
    for before, after in ((95, 90), (103, 96)):
        assert smoke.low <= Fraction(after, before) <= smoke.high


@pytest.mark.parametrize(
    ("part", "animal", "cut", "low", "high"),
    [
        ("bone", "elk", "fore shank", 29, 52),  # NDB 17276 (veal 29), 17007 (lamb 52)
        ("bone", "lamb", "foreshank", 36, 52),  # NDB 17068, 17007
        ("bone", "beef", "shank", 34, 34),  # NDB 13227
        ("bone", "pork", "picnic", 16, 22),  # NDB 10074
        ("bone", "turkey", "leg and thigh", 17, 33),  # NDB 05193, 05736
        ("bone", "goose", "whole", 19, 19),  # NDB 05146
        ("skin", "wild boar", "belly", 7, 10),  # NDB 10005; FSIS 7620.3
    ],
)
def test_refuse_of_sr28(tables: Tables, part: str, animal: str, cut: str, low: int, high: int) -> None:
    """USDA SR28, column refuse of FOOD_DES."""
    row = tables.carry.refuse_of(part, tables.animal(animal), cut)
    assert row is not None
    assert (row.low * 100, row.high * 100) == (low, high)


def test_refuse_is_looked_up_by_exact_name_only(tables: Tables) -> None:
    assert tables.carry.refuse_of("bone", tables.animal("elk"), "shanks of some kind") is None
    assert tables.carry.refuse_of("bone", tables.animal("bear"), "shank") is None
    assert tables.carry.refuse_of("bone", None, "shank") is None


# the piece


def test_brined_piece_by_hand(cook: Cook) -> None:
    """High: 60 g x 760 / (1000 + 760) = 25.909 g in 900 g: 2.879 %. Low: thickness not told, so nothing."""
    found = piece(cook("loin", loin=BRINED))
    assert found.high_g == Fraction(60 * 760, 1760)
    assert found.low_g == 0
    assert found.high_percent == Fraction(60 * 760, 1760) / 900 * 100
    assert (found.lean_share_low, found.lean_share_high) == (1, 1)
    assert "not estimated" in found.assumption
    assert "70 to 76 % water" in found.assumption


def test_water_phase_by_hand(cook: Cook) -> None:
    """High end, lean of 70 % water: 60 x 700 / 1700 = 24.706 g salt. 900 g hold 300 g dry matter: 575.294 g water."""
    found = piece(cook("loin", loin=BRINED))
    most = Fraction(60 * 700, 1700)
    assert found.water_phase_high_percent == 100 * most / (900 - 300)
    assert found.water_phase_low_percent == 0


def test_dry_cure_keeps_at_most_all(cook: Cook) -> None:
    """2.5 % of 1000 g is 25 g, on 900 g finished 2.778 %."""
    text = (
        BRINED.replace("method: brine", "method: dry")
        .replace("  water: 1000 g\n", "")
        .replace("3 %", "2.5 %")
    )
    found = piece(cook("loin", loin=text))
    assert found.high_g == 25
    assert found.high_percent == Fraction(2500, 900)
    assert found.low_g == 0


THICK = "  bone: out\n  thickness: 2 in\n  shape: slab\n  silverskin: off\n"


def test_low_end_is_the_slow_case_of_the_mean_uptake(cook: Cook, tables: Tables) -> None:
    """60 g x 700 / 1700 x the mean uptake of the transfer estimate, asked here by itself."""
    found = piece(cook("loin", loin=BRINED.replace("  bone: out\n", THICK)))
    reach = estimate_reach(
        ReachInput(
            piece=Piece(shape="slab", thickness_mm=50.8),
            cure=CoverBrine(meat_g=1.0, water_g=1.0, salt_g=0.06),
            days=(5.0,),
            frozen_before=None,
        ),
        parameters_from(tables.transfer),
    )
    expected = 60 * 700 / 1700 * reach.days[0].salt_mean.low
    assert float(found.low_g) == pytest.approx(expected, rel=1e-5)
    assert 0 < found.low_g < found.high_g


def test_short_cure_is_taken_at_its_fast_case(cook: Cook) -> None:
    """A short cure in a strong brine is not taken as even; the same brine left until even is."""
    thick = BRINED.replace("  bone: out\n", THICK).replace("5 days", "12 h")
    salted = thick.replace("3 %", "6 %")
    short = piece(
        cook("loin", loin=salted.replace("  salt:", "  pick-up: 8 %\n  curing salt: 20 ppm\n  salt:"))
    )
    even = piece(cook("loin", loin=salted))
    assert short.high_g < even.high_g
    assert short.low_g > 0


def test_soak_takes_what_the_transfer_estimate_says(cook: Cook, tables: Tables) -> None:
    thick = BRINED.replace("  bone: out\n", THICK)
    soaked = thick.replace("in the fridge\n---", "in the fridge\n  - soak: 12 h in cold water\n---")
    before, after = piece(cook("loin", loin=thick)), piece(cook("loin", loin=soaked))
    given_to = ReachInput(
        piece=Piece(shape="slab", thickness_mm=50.8),
        cure=CoverBrine(meat_g=1.0, water_g=1.0, salt_g=0.06),
        days=(5.0,),
        frozen_before=None,
    )
    left = soak(state_after_cure(given_to, parameters_from(tables.transfer), day=5.0), hours=12).left
    assert float(after.low_g / before.low_g) == pytest.approx(left.low, rel=1e-3)
    assert float(after.high_g / before.high_g) == pytest.approx(left.high, rel=1e-3)
    assert "The soak leaves" in after.assumption


def test_soak_of_unknown_length_leaves_between_nothing_and_all(cook: Cook) -> None:
    thick = BRINED.replace("  bone: out\n", THICK)
    found = piece(cook("loin", loin=thick.replace("in the fridge\n---", "in the fridge\n  - soak\n---")))
    assert found.low_g == 0
    assert found.high_g == piece(cook("loin", loin=thick)).high_g
    assert "How long it is soaked is not told" in found.assumption


def test_pot_takes_between_nothing_and_its_even_share(cook: Cook) -> None:
    """3 L pot: 700 g water in the raw lean less the 100 g lost hold 600 / 3700 of the salt when even."""
    thick = BRINED.replace("  bone: out\n", THICK)
    pot = thick.replace("in the fridge\n---", "in the fridge\n  - simmer: 3 h in the pot\n---")
    with_water = pot.replace("course:", "ingredients:\n  - 3 l fresh water\ncourse:")
    dry, wet, unknown = (piece(cook("loin", loin=text)) for text in (thick, with_water, pot))
    assert wet.low_g == dry.low_g * Fraction(600, 3700)
    assert wet.high_g == dry.high_g == unknown.high_g
    assert unknown.low_g == 0
    assert "How much salt goes into the pot" in unknown.assumption


def test_bone_of_the_deer_family_is_bracketed_and_said(cook: Cook) -> None:
    """29 to 52 % bone: high 60 x 0.76 x 710 / (1000 + 0.76 x 710); the 900 g hold 1 - 520/900 to 0.71 lean."""
    found = piece(
        cook("loin", loin=BRINED.replace("cut: loin", "cut: fore shank").replace("bone: out", "bone: in"))
    )
    inside = Fraction("0.76") * 710
    assert found.high_g == 60 * inside / (1000 + inside)
    assert found.lean_share_low == 1 - Fraction(520, 900)
    assert found.lean_share_high == Fraction(71, 100)
    assert "29 to 52 % bone (no row for deer: bracketed by veal shank" in found.assumption


def test_unknown_bone_gives_no_percentage(cook: Cook) -> None:
    for bone, words in (
        ("bone: in", "how much of deer neck is bone"),
        ("skin: off", "whether a bone is in deer neck"),
    ):
        found = piece(cook("loin", loin=BRINED.replace("cut: loin", "cut: neck").replace("bone: out", bone)))
        assert (found.low_percent, found.high_percent, found.water_phase_low_percent) == (None, None, None)
        assert (found.lean_share_low, found.low_g) == (0, 0)
        assert found.high_g == Fraction(60 * 760, 1760)
        assert f"It is not known {words}" in found.assumption


def test_finished_weight_from_published_losses(cook: Cook) -> None:
    """Brine 103 % (AWI-108) and a hot smoke that leaves 85 to 92 %: high 2.5909 % / (1.03 x 0.85)."""
    text = BRINED.replace("2 loins (900 g)", "2 loins")
    smoked = text.replace(
        "in the fridge\n---", "in the fridge\n  - hot smoke: 5 h at 200 °F to 165 °F inside\n---"
    )
    found = piece(cook("loin", loin=smoked))
    assert found.high_percent == Fraction(60 * 760, 17600) / (Fraction("1.03") * Fraction("0.85"))
    assert "published losses" in found.assumption
    aged = piece(
        cook("loin", loin=text.replace("in the fridge\n---", "in the fridge\n  - age: 30 days\n---"))
    )
    assert aged.high_percent is None
    assert aged.high_g == found.high_g
    assert "What the finished piece weighs is not known." in aged.assumption


def test_fat_belly_has_no_water_phase_salt(cook: Cook) -> None:
    """SR28, NDB 10005: pork belly has 36.7 % water, lean 76: the figure would say nothing."""
    text = BRINED.replace("animal: deer", "animal: wild boar").replace("cut: loin", "cut: belly\n  skin: off")
    found = piece(cook("loin", loin=text))
    assert found.high_percent is not None
    assert found.water_phase_high_percent is None


def test_refused_cure_carries_nothing_known(cook: Cook) -> None:
    strong = BRINED.replace("  salt: 3 %", "  salt: 3 %\n  curing salt: 400 ppm")
    assert cook("loin", loin=strong).cure.salt_carried is None  # type: ignore[union-attr]  # no cure would fail here too
    computed = cook("beans", loin=strong, beans=DISH)
    assert salt(computed).carried_g is None
    assert salt(computed).total_g is None
    assert (
        "How much salt is in it is not known: the cure of the brined loin is not worked out."
        in computed.facts
    )


@given(
    salt_g=st.fractions(1, 500),
    more=st.fractions(0, 500),
    water_g=st.fractions(0, 10_000),
    lean=st.fractions(0, 1),
    uptake=st.fractions(0, 1),
)
def test_meat_never_holds_more_than_was_put_in(
    salt_g: Fraction, more: Fraction, water_g: Fraction, lean: Fraction, uptake: Fraction
) -> None:
    def cured(salt: Fraction) -> Cured:
        return Cured(
            is_brine=True,
            meat_g=Fraction(1000),
            salt_g=Span.of(salt),
            water_g=water_g,
            lean=Span(lean, Fraction(1)),
            water_share=Span(Fraction(70, 100), Fraction(76, 100)),
            kept=Span.of(1),
            uptake=Span(uptake, Fraction(1)),
            left=Span.of(1),
        )

    once = cured(salt_g).grams
    assert 0 <= once.low <= once.high <= salt_g
    assert cured(salt_g + more).grams.high >= once.high


# the dish


def test_dish_by_hand(cook: Cook) -> None:
    """1 of 2 loins: 25.909 / 2 / 4 servings = 3.239 g at the most, 1,274 mg sodium; the low end is not known: 0."""
    computed = cook("beans", loin=BRINED, beans=DISH)
    found = salt(computed)
    each = found.portion(found.total_g)
    assert each == Span(Fraction(0), Fraction(60 * 760, 1760) / 8)
    assert (
        "Up to 3.3 g salt (up to 1,280 mg sodium) a serving, all of it from the brined loin; "
        "a day's limit is 5 g salt (WHO), 2,300 mg sodium (FDA)." in computed.facts
    )


def test_stock_carries_all_of_its_shank_on(cook: Cook) -> None:
    """2 loins (one batch, 25.909 g) in 4 qt of stock; 1 qt of it brings a quarter."""
    stock = "---\nname: Loin stock\nmakes: 4 qt\nchapter: Pots\ningredients:\n  - 2 [loins](loin.md)\n---\n\nSimmer.\n"
    greens = "---\nname: Greens\nserves: 2\nchapter: Pots\ningredients:\n  - 1 qt [loin stock](stock.md)\n---\n\nCook.\n"
    found = salt(cook("greens", loin=BRINED, stock=stock, greens=greens))
    assert found.total_g == Span(Fraction(0), Fraction(60 * 760, 1760) / 4)
    assert [share.recipe for share in found.shares] == ["stock"]
    facts = cook("stock", loin=BRINED, stock=stock).facts
    assert "Up to 26 g salt (up to 10,200 mg sodium) in the batch, all of it from the brined loin." in facts


def test_range_of_a_use_has_both_ends(cook: Cook) -> None:
    """1-2 of 2 loins of a piece with a known low end: half of it to all of it."""
    thick = BRINED.replace("  bone: out\n", THICK)
    whole = piece(cook("loin", loin=thick))
    found = salt(cook("beans", loin=thick, beans=DISH.replace("- 1 [", "- 1–2 [")))
    assert found.carried_g == Span(whole.low_g / 2, whole.high_g)


def test_fixed_component_does_not_scale(make_book: Callable[..., Path], kitchen: Kitchen) -> None:
    fixed = DISH.replace("loin.md)", "loin.md) (fixed)")
    data = [sheet(make_book({"recipes/loin.md": BRINED, "recipes/beans.md": text}), "beans", "--serves", "8")
            for text in (fixed, DISH)]  # fmt: skip
    assert data[1]["salt"]["per_batch_g"][1] == pytest.approx(25.91)
    assert data[0]["salt"]["per_batch_g"][1] == pytest.approx(12.95)


def test_weighed_use_of_a_piece_with_bone_may_be_picked_meat(cook: Cook) -> None:
    """450 g of 900 g is half a batch; weighed without bone, it is 450 g of lean at the high per cent."""
    text = BRINED.replace("cut: loin", "cut: fore shank").replace("  bone: out\n", THICK.replace("out", "in"))
    whole = piece(cook("loin", loin=text))
    assert whole.low_percent is not None
    assert whole.high_percent is not None
    plain = salt(cook("beans", loin=text, beans=DISH.replace("- 1 [", "- 450 g ["))).carried_g
    picked = salt(
        cook("beans", loin=text, beans=DISH.replace("- 1 [brined loin]", "- 450 g [picked loin]"))
    ).carried_g
    assert plain == Span(whole.low_g / 2, whole.high_percent * Fraction(450, 100))
    assert picked == Span(whole.low_percent * Fraction(450, 100), whole.high_percent * Fraction(450, 100))


@pytest.mark.parametrize("unit", ["", " g"])
def test_more_of_the_piece_never_lowers_the_salt(cook: Cook, unit: str) -> None:
    text = BRINED.replace("cut: loin", "cut: fore shank").replace("  bone: out\n", THICK.replace("out", "in"))
    amounts = (1, 2, 3, 5) if not unit else (100, 300, 450, 900)
    spans = [
        salt(cook("beans", loin=text, beans=DISH.replace("- 1 [", f"- {n}{unit} ["))).total_g for n in amounts
    ]
    for less, more in pairwise(spans):
        assert less is not None
        assert more is not None
        assert less.low < more.low
        assert less.high < more.high


def test_own_salt_and_salted_foods_by_hand(cook: Cook) -> None:
    """2 tsp table salt is 12 g (NDB 02047). 2 tbsp soy sauce is 32 g (NDB 16123) of 5,493 to 6,820 mg sodium / 100 g."""
    text = DISH.replace("  - 1 lb dry pinto beans\n", "  - 2 tsp table salt\n  - 2 tbsp soy sauce\n")
    found = salt(cook("beans", loin=BRINED, beans=text))
    low, high = (12 + Fraction(32 * mg, 100_000) / Fraction("0.3934") for mg in (5493, 6820))
    assert found.own_g == Span(low, high)
    assert found.total_g is not None
    assert found.total_g.high == high + Fraction(60 * 760, 1760) / 2
    assert found.not_counted == ()
    assert found.adds_salt


@pytest.mark.parametrize(
    ("line", "not_counted"),
    [
        ("unsalted butter, to taste", ()),
        ("unsalted butter, for the pan", ()),
        ("unsalted stock, to taste", ()),
        ("salted butter, to taste", ("salted butter (to taste)",)),
        ("butter, to taste", ("butter (to taste)",)),
        ("stock, to taste", ("stock (to taste)",)),
    ],
)
def test_what_is_unsalted_holds_no_salt_that_is_not_counted(
    cook: Cook, line: str, not_counted: tuple[str, ...]
) -> None:
    """Unsalted butter has 11 mg sodium per 100 g (SR28, NDB 01145)."""
    text = DISH.replace("  - 1 lb dry pinto beans\n", f"  - 2 tsp table salt\n  - {line}\n")
    assert salt(cook("beans", loin=BRINED, beans=text)).not_counted == not_counted


def test_what_cannot_be_counted_is_named(cook: Cook) -> None:
    """Salt to taste, and a food that is salted by an unknown amount."""
    lines = "  - 6 oz country ham, diced\n  - 1 tbsp honey\n"
    computed = cook("beans", loin=BRINED, beans=DISH.replace("  - 1 lb dry pinto beans\n", lines))
    assert salt(computed).own_g == Span.of(0)
    assert "Salt that is not counted: country ham (diced)." in computed.facts
    vague = cook(
        "beans", loin=BRINED, beans=DISH.replace("  - 1 lb dry pinto beans\n", "  - salt, to taste\n")
    )
    assert "Salt that is not counted: salt (to taste)." in vague.facts


def test_taste_before_you_salt(cook: Cook) -> None:
    """More than 2 g a serving may come from the loin (3.239 g) and the dish has salt of its own: taste first."""
    salted = DISH.replace("  - 1 lb dry pinto beans\n", "  - salt, to taste\n")
    words = "Taste before you salt: the brined loin brings up to 3.3 g a serving."
    assert words in cook("beans", loin=BRINED, beans=salted).facts
    assert words not in cook("beans", loin=BRINED, beans=DISH).facts
    mild = cook("beans", loin=BRINED, beans=salted.replace("serves: 4", "serves: 8"))
    assert not [fact for fact in mild.facts if fact.startswith("Taste")]


@pytest.mark.parametrize(
    ("name", "said"),
    [("Smoked wild pig hocks", "the smoked wild pig hocks bring up to"), ("Brined loin", "the brined loin brings up to"),
     ("Hocks in brine", "the hocks in brine bring up to"), ("Haunch with herbs", "the haunch with herbs brings up to")],
)  # fmt: skip
def test_a_component_in_the_plural_has_its_verb(cook: Cook, name: str, said: str) -> None:
    """By the number of its name's head, whatever stands behind that."""
    salted = DISH.replace("  - 1 lb dry pinto beans\n", "  - salt, to taste\n")
    loin = re.sub(r"(?m)^name: .*$", f"name: {name}", BRINED, count=1)
    (fact,) = [one for one in cook("beans", loin=loin, beans=salted).facts if one.startswith("Taste")]
    assert said in fact


def test_dish_without_salt_says_nothing(cook: Cook) -> None:
    plain = "---\nname: Jelly\nmakes: 3 pt\nchapter: Pots\ningredients:\n  - 4 cups sugar\n---\n\nBoil.\n"
    assert cook("jelly", jelly=plain).salt is None
    assert cook("loin", loin=BRINED).salt is None, "a cure has its own figures"


def test_a_shelf_is_kept_on_and_a_fridge_in(cook: Cook) -> None:
    jelly = "---\nname: Jelly\nmakes: 3 pt\nchapter: Pots\nkeep:\n  shelf: 1 year\n  fridge: 1 month\ningredients:\n"
    facts = cook("jelly", jelly=f"{jelly}  - 4 cups sugar\n---\n\nBoil.\n").facts
    assert [fact for fact in facts if fact.startswith("Keeps")] == [
        "Keeps 1 year on the shelf.",
        "Keeps 1 month in the fridge.",
    ]


# words


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [("1.24", "1.97", "1.2 to 2.0"), ("0", "1.61", "up to 1.7"), ("0.04", "1.61", "up to 1.7"),
     ("1.5", "1.5", "1.5"), ("0.01", "0.01", "0.1"), ("4.2", "27.3", "4 to 28"), ("1.51", "1.59", "1.5 to 1.6")],
)  # fmt: skip
def test_salt_is_rounded_outward(low: str, high: str, shown: str) -> None:
    assert grams_shown(Span(Fraction(low), Fraction(high))) == shown


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [("472", "786", "470 to 790"), ("61", "131", "60 to 135"), ("2", "9999", "up to 10,000"), ("1771", "10779", "1,700 to 10,800")],
)  # fmt: skip
def test_sodium_has_the_steps_of_labels(low: str, high: str, shown: str) -> None:
    """21 CFR 101.9(c)(4): by 5 mg up to 140, by 10 above (second-hand); here outward."""
    assert sodium_shown(Span(Fraction(low), Fraction(high))) == shown


def test_percent_is_rounded_outward() -> None:
    assert percent_shown(Span(Fraction("2.16"), Fraction("3.81"))) == "2.1 to 3.9"


# JSON, pages, demo book


def sheet(folder: Path, slug: str, *words: str) -> Any:
    result = CliRunner().invoke(main, ["sheet", str(folder / f"recipes/{slug}.md"), *words, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_json_of_a_dish_and_of_a_cure(make_book: Callable[..., Path]) -> None:
    folder = make_book({"recipes/loin.md": BRINED, "recipes/beans.md": DISH})
    dish = sheet(folder, "beans")["salt"]
    assert dish == {
        "per": "serving",
        "per_serving_g": [0, 3.24],
        "per_batch_g": [0, 12.95],
        "sodium_mg": [0, 1274.08],
        "from_components_g": [0, 3.24],
        "own_g": [0, 0],
        "components": [{"recipe": "loin", "salt_g": [0, 3.24]}],
        "not_counted": [],
    }
    cure = sheet(folder, "loin")
    assert cure["salt"] is None
    assert cure["cure"]["salt_carried"]["salt_g"] == [0, 25.91]
    assert cure["cure"]["salt_carried"]["percent"] == [0, 2.88]
    assert cure["cure"]["salt_carried"]["lean_share"] == [1, 1]


def test_salt_a_serving_stays_when_the_dish_grows(make_book: Callable[..., Path]) -> None:
    folder = make_book({"recipes/loin.md": BRINED, "recipes/beans.md": DISH})
    once, many = sheet(folder, "beans")["salt"], sheet(folder, "beans", "--serves", "36")["salt"]
    assert once["per_serving_g"] == many["per_serving_g"]
    assert many["per_batch_g"][1] == pytest.approx(9 * 12.9545, abs=0.01)


def test_page_of_a_cure_has_both_figures(make_book: Callable[..., Path]) -> None:
    folder = make_book({"recipes/loin.md": BRINED})
    result = CliRunner().invoke(
        main, ["sheet", str(folder / "recipes/loin.md"), "--into", str(folder / "a.html")]
    )
    assert result.exit_code == 0, result.output
    page = (folder / "a.html").read_text(encoding="utf-8")
    assert "<dt>Salt it carries</dt>" in page
    assert "up to 26 g in all, up to 2.9 % of the finished lean" in page
    assert "<dt>Water-phase salt</dt>" in page


def test_demo_dishes_are_plausible(kitchen: Kitchen) -> None:
    """No component brings more than was weighed for it, and each dish with a cured piece says its salt."""
    book = compute_book(load(CONTENT, kitchen), kitchen)
    for slug, computed in book.recipes.items():
        if (
            computed.cure is not None
            and computed.cure.setting is not None
            and computed.cure.forms is not None
        ):
            found = piece(computed)
            assert (
                0 <= found.low_g < found.high_g <= computed.cure.forms.total_salt.at(computed.cure.setting)
            ), slug
            assert found.high_percent is not None, slug
            assert 2 < found.high_percent < 6, slug
    said = {slug: [f for f in one.facts if "g salt (" in f] for slug, one in book.recipes.items()}
    for slug in (
        "pinto-beans-with-smoked-shank",
        "collards-in-smoked-stock",
        "hominy-pot",
        "corned-neck-hash",
        "trout-spread",
    ):
        assert len(said[slug]) == 1, slug
        carried = salt(book.recipes[slug]).portion(salt(book.recipes[slug]).carried_g)
        assert carried is not None
        assert Fraction(1, 2) < carried.high < 6, slug
