"""The cure solved by forms, against the closed formulas of the methods, worked here a second time by hand."""

from __future__ import annotations

import json
import random
import re
import shlex
from fractions import Fraction
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.cli import main
from generator.compute import Kitchen
from generator.compute.cure import CureInput, work_out_cure
from generator.compute.cure.amounts import Scales
from generator.model.form import Setting
from generator.model.reader import Reader
from generator.model.recipe import CureLine, Target, TargetKind
from generator.model.results import CureResult
from generator.problems import Position
from tests.long import share

HERE = Position("command line")
MILLION = 1_000_000


def line(kind: TargetKind, value: Fraction) -> CureLine:
    return CureLine(target=Target(kind=kind, value=value), written=f"{value}", position=HERE)


def percent(value: Fraction) -> CureLine:
    return line(TargetKind.PERCENT, value)


def brine(kitchen: Kitchen, **changes: object) -> CureResult:
    values: dict[str, object] = {
        "method": "brine",
        "cut": "whole",
        "kind": kitchen.tables.curing_salt("no. 1"),
        "salt": percent(Fraction(3)),
        "sugar": percent(Fraction(3, 2)),
        "curing_salt": line(TargetKind.PPM, Fraction(150)),
        "meat_g": Fraction(2400),
        "water_g": Fraction(4000),
    }
    values.update(changes)
    return work_out_cure(CureInput(**values), Scales(tables=kitchen.tables), kitchen.shower)  # type: ignore[arg-type]  # any field


shares = st.fractions(min_value=Fraction(1, 200), max_value=Fraction(6, 100), max_denominator=2000)
grams = st.integers(min_value=200, max_value=30_000).map(Fraction)
ppms = st.integers(min_value=40, max_value=200).map(Fraction)


class TestBrineLeftUntilEven:
    @given(s=shares, u=shares, m=grams, w=grams, ppm=ppms)
    def test_weights_are_those_of_the_closed_formula(
        self, kitchen: Kitchen, s: Fraction, u: Fraction, m: Fraction, w: Fraction, ppm: Fraction
    ) -> None:
        """c = k (1+s+u)(m+w) / (n - k(1-h)); salt to weigh = s (m+w) - h c; sugar = u (m+w)."""
        n, k = Fraction(1, 16), ppm / MILLION
        h = 1 - n
        result = brine(
            kitchen,
            salt=percent(100 * s),
            sugar=percent(100 * u),
            curing_salt=line(TargetKind.PPM, ppm),
            meat_g=m,
            water_g=w,
        )
        assert result.forms is not None
        assert result.setting is not None
        cure = k * (1 + s + u) * (m + w) / (n - k * (1 - h))
        assert result.forms.curing_salt.at(result.setting) == cure
        assert result.forms.salt.at(result.setting) == s * (m + w) - h * cure
        assert result.forms.sugar.at(result.setting) == u * (m + w)
        assert result.whole_system_ppm == ppm
        assert result.salt_percent == 100 * s

    @given(m=grams, w=grams, low=st.integers(1, 400), more=st.integers(1, 400))
    def test_more_curing_salt_never_lowers_the_ppm(
        self, kitchen: Kitchen, m: Fraction, w: Fraction, low: int, more: int
    ) -> None:
        def ppm(grams_of_it: int) -> Fraction:
            amount = kitchen_amount(kitchen, f"{grams_of_it} g")
            found = brine(kitchen, curing_salt=amount, meat_g=m, water_g=w).whole_system_ppm
            assert found is not None
            return found

        assert ppm(low) < ppm(low + more)

    @given(p=st.integers(2, 24), m=grams, w=grams)
    def test_percent_of_the_brine_is_its_strength(
        self, kitchen: Kitchen, p: int, m: Fraction, w: Fraction
    ) -> None:
        salt = line(TargetKind.PERCENT_OF_BRINE, Fraction(p))
        result = brine(kitchen, salt=salt, meat_g=m, water_g=w)
        assert result.strength_percent == p

    def test_sixty_degrees_is_the_published_strength(self, kitchen: Kitchen) -> None:
        # 100 degrees at 60 F is 26.395 % (salometer sheet); 60 degrees 15.8 % (Fish Safety Notes, Canada).
        result = brine(kitchen, salt=line(TargetKind.DEGREES, Fraction(60)))
        assert result.salometer_degrees == 60
        assert result.strength_percent is not None
        assert abs(result.strength_percent - Fraction("15.8")) < Fraction("0.05")


class TestDryCure:
    @given(s=shares, m=grams, ppm=ppms)
    def test_weights_are_those_of_the_closed_formula(
        self, kitchen: Kitchen, s: Fraction, m: Fraction, ppm: Fraction
    ) -> None:
        """c = k m / n; salt to weigh = s m - h c."""
        n, k = Fraction(1, 16), ppm / MILLION
        result = brine(
            kitchen,
            method="dry",
            salt=percent(100 * s),
            sugar=None,
            curing_salt=line(TargetKind.PPM, ppm),
            meat_g=m,
            water_g=None,
        )
        assert result.forms is not None
        assert result.setting is not None
        assert result.forms.curing_salt.at(result.setting) == k * m / n
        assert result.forms.salt.at(result.setting) == s * m - (1 - n) * k * m / n
        assert result.dry_ppm == ppm
        assert result.whole_system_ppm is None

    def test_belly_counts_without_its_skin(self, kitchen: Kitchen) -> None:
        # 9 CFR 424.22(b): skin-free green weight; the skin is 10 % (FSIS Directive 7620.3, from memory).
        result = brine(kitchen, method="dry", cut="belly", skin_on=True, sugar=None, water_g=None)
        assert result.forms is not None
        assert result.setting is not None
        assert (
            result.forms.curing_salt.at(result.setting)
            == Fraction(150, MILLION) * 2400 * Fraction(9, 10) * 16
        )


def kitchen_amount(kitchen: Kitchen, text: str) -> CureLine:
    from generator.read import Grammar
    from generator.read.cure import parse_cure_value

    return parse_cure_value(text, "curing salt", Grammar(system="us", language="en", tables=kitchen.tables))


LIMITS = [
    # cut, method, limit in ppm, where it is printed
    ("whole", "brine", Fraction(200), "21 CFR 172.175"),
    ("whole", "dry", Fraction(200), "21 CFR 172.175"),
    ("ground", "dry", Fraction("156.25"), "9 CFR 424.21(c), 1/4 oz per 100 lb"),
    ("belly", "brine", Fraction(120), "9 CFR 424.22(b)(2)"),
    ("belly", "dry", Fraction(200), "9 CFR 424.22(b)(3)"),
]


@pytest.mark.parametrize(("cut", "method", "limit", "source"), LIMITS)
@pytest.mark.parametrize(("step", "refused"), [("-0.01", False), ("0", False), ("0.01", True)])
def test_limit_just_below_at_and_just_above(
    kitchen: Kitchen, cut: str, method: str, limit: Fraction, source: str, step: str, refused: bool
) -> None:
    result = brine(kitchen, cut=cut, method=method, curing_salt=line(TargetKind.PPM, limit + Fraction(step)))
    assert (result.weigh is None) is refused, source
    slugs = [problem.slug for problem in result.problems]
    assert slugs == (["above-limit"] if refused else [])


@given(
    c=st.integers(30, 4000),
    m=grams,
    w=grams,
    method=st.sampled_from(["brine", "dry"]),
    cut=st.sampled_from(["whole", "ground", "belly"]),
)
def test_each_way_out_leads_below_the_limit(
    kitchen: Kitchen, c: int, m: Fraction, w: Fraction, method: str, cut: str
) -> None:
    """Each way, typed in as the hint has it, is accepted; the hint's numbers are read, not recomputed."""
    amount = kitchen_amount(kitchen, f"{c} g")
    given_: dict[str, object] = {
        "method": method,
        "cut": cut,
        "curing_salt": amount,
        "salt": kitchen_amount(kitchen, "90 g"),
        "sugar": None,
        "meat_g": m,
        "water_g": w if method == "brine" else None,
    }
    first = brine(kitchen, **given_)
    if not any(problem.slug == "above-limit" for problem in first.problems):
        return
    hint = first.problems[-1].hint if first.problems[-1].slug == "above-limit" else first.problems[0].hint
    most = re.search(r"At most ([\d.]+) g", hint)
    meat = re.search(r"at least (\d+) g of meat", hint)
    water = re.search(r"at least (\d+) g of water", hint)
    assert most is not None
    assert meat is not None
    assert (water is not None) is (method == "brine")
    ways: list[dict[str, object]] = [
        {"curing_salt": kitchen_amount(kitchen, f"{most[1]} g")},
        {"meat_g": Fraction(meat[1])},
    ]
    if water is not None:
        ways.append({"water_g": Fraction(water[1])})
    for way in ways:
        result = brine(kitchen, **{**given_, **way})
        assert "above-limit" not in [problem.slug for problem in result.problems], way


def shown_grams(text: str) -> Fraction:
    """An independent reading of what the page shows."""
    number, unit = text.split()
    return Fraction(number) * {"g": 1, "kg": 1000}[unit]


@pytest.mark.parametrize("part", range(4))
def test_shown_weights_audited_again_never_pass_the_limit(kitchen: Kitchen, part: int) -> None:
    """200,000 cures in four parts, on the scale's own grid, most at the limit itself, dry cures among them."""
    rng = random.Random(172175 + part)
    seen, settings = 0, share(500)
    for _ in range(100):
        method = rng.choice(["brine", "brine", "dry"])
        cut, limit = rng.choice(
            [("whole", Fraction(200)), ("ground", Fraction("156.25"))]
            + ([("belly", Fraction(120))] if method == "brine" else [])
        )
        ppm = rng.choice([limit, limit, limit - Fraction(1, 100), Fraction(rng.randint(40, 119))])
        salt = percent(Fraction(rng.randint(15, 45), 10))
        sugar = percent(Fraction(rng.randint(0, 30), 10))
        asked = {
            "method": method,
            "cut": cut,
            "salt": salt,
            "sugar": sugar,
            "curing_salt": line(TargetKind.PPM, ppm),
        }
        contract = None
        for _ in range(settings):
            meat = Fraction(rng.randrange(300, 20_000, 5))
            least = int(meat) * 2 // 5  # so that 4.5 % of the whole still dissolves
            water = Fraction(5 * rng.randrange(least // 5 + 60, 6000)) if method == "brine" else None
            if contract is None:  # the command's own, once for each cure; every other setting is read from it
                result = brine(kitchen, **asked, meat_g=meat, water_g=water)
                assert result.weigh is not None
                assert result.contract is not None
                contract = result.contract
            setting = Setting(batches=Fraction(1), meat_g=meat, water_g=water or Fraction(0))
            reader = Reader(setting=setting, shower=kitchen.shower)
            shown = {key: reader.text(text) for key, text in contract.shown.items() if text}
            if seen % settings == 0:
                assert shown == {key: text for key, text in result.shown.items() if text}
            audited_weights = [{key: shown_grams(text) for key, text in shown.items()}]
            if seen % 10 == 0:  # and what JSON has, to 0.01 g
                assert reader.broken(contract.guards) == ()
                finer = {key: reader.value(value) for key, value in contract.weigh.items()}
                audited_weights.append({"green_weight": meat, "water": water or Fraction(0), **finer})
            seen += 1
            for weights in audited_weights:
                whole = sum(weights.values(), Fraction(0)) if method == "brine" else weights["green_weight"]
                audited = weights["curing_salt"] * MILLION / 16 / whole
                assert audited <= limit, (weights, float(audited))
                assert audited > ppm * Fraction(9, 10), "rounding takes no tenth of a dose of this size"
    assert seen == share(50_000)


def run(*words: str) -> tuple[int, Any]:
    result = CliRunner().invoke(main, ["cure", *words, "--json"])
    return result.exit_code, json.loads(result.stdout)


R9 = (
    "brine",
    "--water",
    "6gal",
    "--salt",
    "3lb",
    "--sugar",
    "10oz",
    "--curing-salt",
    "0.5oz",
    "--nitrite",
    "100%",
)


def test_corned_game_with_ten_pounds_of_meat_is_refused() -> None:
    """R9 of a US extension handout (second-hand): 6 gal of water, 3 lb salt, 10 oz sugar, 1/2 oz pure nitrite."""
    code, data = run(*R9, "--meat", "10lb")
    assert code == 1
    assert data["weigh"] is None
    assert 485 < data["ingoing_nitrite_ppm"]["whole_system"] < 495
    (problem,) = data["problems"]
    assert problem["slug"] == "above-limit"
    assert "above the limit of 200 ppm for whole cuts, in a brine (21 CFR 172.175" in problem["message"]
    assert "less" in problem["hint"] or "At most" in problem["hint"]


def test_corned_game_with_its_meat_unknown_names_the_least_meat() -> None:
    # By hand, in lb: 0.03125 / 0.0002 - (6 x 8.3454 + 3 + 0.625 + 0.03125) = 102.52 lb = 46,504 g.
    code, data = run(*R9)
    assert code == 1
    assert data["weigh"] is None
    (problem,) = data["problems"]
    assert problem["slug"] == "meat-unknown"
    least = re.search(r"no less than (\d+) g of meat", problem["hint"])
    assert least is not None
    assert abs(int(least[1]) - 46_504) < 30


REFUSALS = [
    (
        "brine --meat 2kg --water 2L --salt '60 % of the brine' --sugar '60 % of the brine'",
        "no-solution",
        "Change one target to an amount.",
    ),
    (
        "brine --meat 2kg --salt 3% --curing-salt 150ppm",
        "water-unknown",
        "The water of the brine is not known",
    ),
    (
        "brine --meat 2kg --water 2L --salt 0.1% --curing-salt 150ppm",
        "negative-salt",
        "Ask for at least 0.23 % salt",
    ),
    (
        "brine --meat 2kg --water 2L --salt 2kg --curing-salt 150ppm",
        "salt-beyond-saturation",
        "Use less salt or more water.",
    ),
    ("brine --meat 2kg --water 2L --salt '1 cup celery salt'", "unknown-crystal", "Name the crystal"),
    (
        "dry --meat 2kg --salt 3% --curing-salt '1 tsp' --nitrite 100%",
        "curing-salt-not-weighed",
        "Weigh it on a scale",
    ),
    (
        "dry --cut belly --meat 2kg --salt 3% --curing-salt 150ppm --kind 'no. 2'",
        "nitrate-in-belly",
        "Nitrate is never allowed in belly",
    ),
    ("brine --meat 2kg --water 500g --salt 3% --pump 60%", "pump-over-brine", "Mix more brine or pump less."),
]


@pytest.mark.parametrize(("words", "slug", "said"), REFUSALS, ids=[slug for _, slug, _ in REFUSALS])
def test_refusal_gives_no_weights_and_says_why(words: str, slug: str, said: str) -> None:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    if result.exit_code == 2:  # read as a word that the command does not take
        assert said in result.stderr
        assert slug == "unknown-crystal"
        return
    data = json.loads(result.stdout)
    assert result.exit_code == 1
    assert data["weigh"] is None
    found = [problem for problem in data["problems"] if problem["slug"] == slug]
    assert len(found) == 1
    assert said in found[0]["message"] + found[0]["hint"]


def test_spoons_of_curing_salt_are_judged_at_the_heaviest_and_give_their_range() -> None:
    """Published teaspoons run from 5.6 g to 7.09 g (1 oz in 4 tsp), second-hand."""
    code, data = run("brine", "--meat", "5lb", "--water", "1gal", "--salt", "3%", "--curing-salt", "2 tsp")
    assert code == 0
    heavy = 2 * 28.349523125 / 4
    low, high = data["ingoing_nitrite_range_ppm"]
    assert data["ingoing_nitrite_ppm"]["whole_system"] == high
    meat_and_water = 5 * 453.59237 + 3785.411784
    assert high == pytest.approx(heavy / 16 * 1e6 / (meat_and_water * 1.03 + heavy / 16), rel=1e-4)
    assert low / high == pytest.approx(5.6 / 7.0873808, rel=1e-3)
    assert [problem["slug"] for problem in data["problems"]] == ["curing-salt-by-spoon"]
