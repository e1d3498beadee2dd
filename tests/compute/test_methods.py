"""Every home method against a second arithmetic: weights in, figures out, with no use of the solver's forms."""

from __future__ import annotations

import json
import shlex
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.cli import main
from generator.compute import Kitchen
from generator.compute.cure import CureInput, Scales, work_out_cure
from generator.compute.cure.case import PumpBrineInput
from generator.model.recipe import CureLine, Target, TargetKind
from generator.model.results import CureResult
from generator.problems import SLUGS
from tests import second_opinion
from tests.long import share

LIMITS = {
    # 21 CFR 172.175(a)(3); 9 CFR 424.21(c); 9 CFR 424.22(b)(2) and (3)
    ("whole", "brine"): Fraction(200),
    ("whole", "dry"): Fraction(200),
    ("ground", "brine"): Fraction("156.25"),
    ("ground", "dry"): Fraction("156.25"),
    ("belly", "brine"): Fraction(120),
    ("belly", "dry"): Fraction(200),
}
NITRATE_LIMIT = Fraction(500)  # 21 CFR 172.170(a)(2)
SHARES = {  # nitrite, nitrate: labels of the two salts, and their composition by hand
    "no. 1": (Fraction(1, 16), Fraction(0)),
    "no. 2": (Fraction(1, 16), Fraction(1, 25)),
    "european nitrite salt": (Fraction(1, 200), Fraction(0)),
}


def target(kind: TargetKind, value: Fraction) -> CureLine:
    return CureLine(target=Target(kind=kind, value=value), written=str(value), position=None)


@dataclass(frozen=True)
class Draw:
    """One random cure."""

    method: str
    cut: str
    kind: str
    salt: Fraction
    sugar: Fraction
    ppm: Fraction
    meat: Fraction
    water: Fraction
    skin: bool
    nitrate: Fraction
    pump: Fraction | None
    separate: bool
    pick_up: Fraction | None
    days: int
    thickness: int


@st.composite
def cures(draw: st.DrawFn) -> Draw:
    method = draw(st.sampled_from(["brine", "brine", "dry"]))
    brine = method == "brine"
    pick_up = draw(st.sampled_from([None, None, Fraction(5), Fraction(8), Fraction(12)])) if brine else None
    pump = draw(st.sampled_from([None, None, Fraction(8), Fraction(10)])) if brine and not pick_up else None
    return Draw(
        method=method,
        cut=draw(st.sampled_from(["whole", "whole", "ground", "belly"])),
        kind=draw(st.sampled_from(["no. 1", "no. 1", "no. 2", "european nitrite salt"])),
        salt=Fraction(draw(st.integers(10, 60)), 10),
        sugar=Fraction(draw(st.integers(0, 30)), 10),
        ppm=Fraction(draw(st.integers(30, 260))),
        meat=Fraction(draw(st.integers(60, 4000)) * 5),
        water=Fraction(draw(st.integers(60, 6000)) * 5),
        skin=draw(st.booleans()),
        nitrate=Fraction(draw(st.sampled_from([0, 0, 0, 100, 450, 600]))),
        pump=pump,
        separate=pump is not None and draw(st.booleans()),
        pick_up=pick_up,
        days=draw(st.integers(1, 20)),
        thickness=draw(st.integers(10, 120)),
    )


def work_out(kitchen: Kitchen, cure: Draw) -> CureResult:
    tables = kitchen.tables
    kind = tables.curing_salt(cure.kind)
    assert kind is not None
    brine = cure.method == "brine"
    needle = PumpBrineInput(
        water_g=cure.meat,
        salt=target(TargetKind.PERCENT_OF_BRINE, Fraction(10)),
        sugar=None,
        curing_salt=target(TargetKind.PPM, Fraction(60)),
        kind=kind,
    )
    return work_out_cure(
        CureInput(
            method=cure.method,
            cut=cure.cut,
            kind=kind,
            salt=target(TargetKind.PERCENT, cure.salt),
            sugar=target(TargetKind.PERCENT, cure.sugar) if cure.sugar else None,
            curing_salt=target(TargetKind.PPM, cure.ppm),
            nitrate=target(TargetKind.PPM, cure.nitrate) if cure.nitrate else None,
            nitrate_kind=tables.curing_salt("potassium nitrate") if cure.nitrate else None,
            meat_g=cure.meat,
            water_g=cure.water if brine else None,
            skin_on=cure.skin,
            pump_percent=cure.pump,
            pump_brine=needle if cure.separate else None,
            pick_up_percent=cure.pick_up,
            days=Fraction(cure.days),
            thickness_mm=Fraction(cure.thickness),
        ),
        Scales(tables=tables),
        kitchen.shower,
    )


@dataclass(frozen=True)
class Audit:
    """What weights on the table come to: added up by hand, and put into the published formulas."""

    nitrite_ppm: Fraction
    pick_up_ppm: Fraction | None
    nitrate_ppm: Fraction
    salt_percent: Fraction
    basis_g: Fraction
    "What the judged figure is counted over: the brine that is taken up, or all that nitrite is spread over."


def audit(
    cure: Draw, salt: Fraction, sugar: Fraction, cured: Fraction, nitrate: Fraction, needle: Any
) -> Audit:
    nitrite_share, nitrate_share = SHARES[cure.kind]
    salt_share = 1 - nitrite_share - nitrate_share
    lean = cure.meat * Fraction(9, 10) if cure.cut == "belly" and cure.skin else cure.meat
    brine = cure.water + salt + sugar + cured + nitrate if cure.method == "brine" else Fraction(0)
    under, nitrite, nitrates = lean + brine, cured * nitrite_share, cured * nitrate_share + nitrate
    all_salt, base = salt + cured * salt_share, cure.meat + (cure.water if brine else 0)
    if needle is not None and cure.pump is not None:
        pumped = cure.meat * cure.pump / 100
        mixed = needle.water_g + needle.salt_g + needle.curing_salt_g
        under += pumped
        nitrite += pumped * needle.curing_salt_g * nitrite_share / mixed
        nitrates += pumped * needle.curing_salt_g * nitrate_share / mixed
        all_salt += pumped * (needle.salt_g + needle.curing_salt_g * salt_share) / mixed
        base += pumped
    taken_up = None
    if cure.pick_up is not None:
        taken_up = second_opinion.ingoing_nitrite_pumped_ppm(
            nitrite_g=cured * nitrite_share, pump_share=cure.pick_up / 100, pickle_g=brine
        )
    if cure.method == "brine":
        ppm = second_opinion.ingoing_nitrite_whole_system_ppm(
            nitrite_g=nitrite, green_weight_g=lean, pickle_g=under - lean
        )
    else:
        ppm = second_opinion.ingoing_nitrite_comminuted_ppm(
            curing_salt_g=cured, nitrite_share=nitrite_share, green_weight_g=lean
        )
    return Audit(
        nitrite_ppm=ppm,
        pick_up_ppm=taken_up,
        nitrate_ppm=nitrates / under * second_opinion.PER_MILLION,
        salt_percent=100 * all_salt / base,
        basis_g=under if cure.pick_up is None else brine,
    )


def dose_step(cure: Draw, found: Audit) -> Fraction:
    """What 0.1 g of curing salt does to the figure that is judged, by the formula."""
    taken_up = Fraction(1) if cure.pick_up is None else cure.pick_up / 100
    nitrite = SHARES[cure.kind][0] * taken_up
    return second_opinion.dose_step_ppm(step_g=Fraction(1, 10), nitrite_share=nitrite, basis_g=found.basis_g)


@settings(max_examples=share(5000))
@given(cure=cures())
def test_random_cures_are_right_or_refused_with_words(kitchen: Kitchen, cure: Draw) -> None:
    result = work_out(kitchen, cure)
    limit = LIMITS[cure.cut, cure.method]
    errors = [problem for problem in result.problems if problem.is_error]
    if result.weigh is None:
        assert errors
        for problem in errors:
            assert problem.slug in SLUGS
            assert len(problem.message) > 20, "says what is missing or too much"
            assert len(problem.hint) > 10, "says what to do"
        return
    assert not errors
    assert result.forms is not None
    assert result.setting is not None
    exact = [
        form.at(result.setting)
        for form in (result.forms.salt, result.forms.sugar, result.forms.curing_salt, result.forms.nitrate)
    ]
    found = audit(cure, *exact, result.pump_brine)
    # targets are met exactly by the exact weights
    wanted = found.pick_up_ppm if cure.pick_up is not None else found.nitrite_ppm
    assert wanted == cure.ppm
    if cure.nitrate:
        assert found.nitrate_ppm == cure.nitrate
    if result.dose is not None:
        assert result.dose.tenth_gram_ppm == dose_step(cure, found)
    if not cure.separate:
        assert found.salt_percent == cure.salt
    # and what is put on the scale is the exact weight to 0.01 g, curing salt never more than it
    assert abs(result.weigh.salt_g - exact[0]) <= Fraction(1, 100)
    assert abs(result.weigh.sugar_g - exact[1]) <= Fraction(1, 100)
    assert exact[2] - Fraction(2, 100) - exact[2] / 1000 <= result.weigh.curing_salt_g <= exact[2]
    # none above its limit is ever shown
    shown = audit(
        cure,
        result.weigh.salt_g,
        result.weigh.sugar_g,
        result.weigh.curing_salt_g,
        exact[3],
        result.pump_brine,
    )
    assert shown.nitrate_ppm <= NITRATE_LIMIT + Fraction(1, 10)
    assert cure.cut != "belly" or shown.nitrate_ppm == 0
    if cure.pick_up is None:
        assert shown.nitrite_ppm <= limit
    else:
        assert shown.pick_up_ppm is not None
        assert shown.pick_up_ppm <= limit
        assert result.judged_ppm is not None
        assert result.judged_ppm <= limit
        assert found.nitrite_ppm >= result.judged_ppm, "the whole system is the worst case"


def run(words: str) -> tuple[int, Any]:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    assert result.exit_code in (0, 1), result.output
    return result.exit_code, json.loads(result.stdout)


PICKLE = "--water 100gal --salt 60lb --curing-salt 2lb --nitrite 100%"


class TestShortCure:
    """2 lb of nitrite in 100 gal is the plants' pickle for a 10 % pump (9 CFR 424.21(c)); at home it is no bath."""

    def test_a_pump_pickle_as_a_bath_for_five_days_is_refused_with_its_last_day(self) -> None:
        code, data = run(f"brine --meat 50lb {PICKLE} --pick-up 8% --days 5 --thickness 2in")
        assert code == 1
        assert data["weigh"] is None
        (problem,) = data["problems"]
        assert problem["slug"] == "short-cure-too-long"
        assert "No day is allowed" in problem["message"] or "The last day allowed is" in problem["message"]
        assert "left until even" in problem["message"]
        assert "At most" in problem["hint"]

    def test_the_last_day_is_allowed_and_the_next_is_not(self) -> None:
        words = (
            "brine --meat 10kg --water 10kg --salt 5% --curing-salt 180ppm --pick-up 25% --thickness 150mm"
        )
        _, data = run(f"{words} --days 60")
        last = data["last_hour"] // 24
        assert last >= 1
        assert f"The last day allowed is day {last}." in data["problems"][0]["message"]
        assert run(f"{words} --days {last}")[0] == 0
        assert run(f"{words} --days {last + 1}")[0] == 1

    def test_the_worst_case_is_printed_beside_the_pick_up(self) -> None:
        _, data = run(
            "brine --meat 10kg --water 40kg --salt 5% --curing-salt 100ppm --pick-up 8% --days 1 --thickness 150mm"
        )
        figures = data["ingoing_nitrite_ppm"]
        assert figures["pick_up"] == 100
        assert figures["whole_system"] > 900

    def test_without_thickness_or_days_it_is_refused_for_the_missing_fact(self) -> None:
        for words, missing in (("--days 5", "thickness"), ("--thickness 2in", "the length of the cure")):
            code, data = run(f"brine --meat 50lb {PICKLE} --pick-up 8% {words}")
            assert code == 1
            (problem,) = data["problems"]
            assert problem["slug"] == "short-cure-unknown"
            assert missing in problem["message"]

    def test_pick_up_figure_above_the_limit_is_refused(self) -> None:
        code, data = run(
            "brine --meat 10kg --water 20kg --salt 5% --curing-salt 201ppm --pick-up 8% --days 1 --thickness 3in"
        )
        assert code == 1
        assert "by a pick-up of 8 %" in data["problems"][0]["message"]


class TestNitrate:
    @pytest.mark.parametrize(("ppm", "refused"), [("499.99", False), ("500", False), ("500.01", True)])
    def test_home_limit_just_below_at_and_just_above(self, ppm: str, refused: bool) -> None:
        """21 CFR 172.170(a)(2): 500 ppm sodium nitrate, with or without nitrite."""
        for basis in ("dry --meat 5kg --salt 3%", "brine --meat 5kg --water 5kg --salt 3%"):
            code, data = run(f"{basis} --nitrate {ppm}ppm")
            assert (code == 1) is refused
            assert [p["slug"] for p in data["problems"]] == (["nitrate-above-limit"] if refused else [])

    def test_the_way_out_of_too_much_nitrate_is_within_the_limit(self) -> None:
        words = "brine --meat 100lb --water 4gal --salt 10lb --nitrate"
        _, data = run(f"{words} '3oz saltpetre'")
        most = data["problems"][0]["hint"].split("At most ")[1].split(" g")[0]
        assert run(f"{words} '{most}g saltpetre'")[0] == 0
        assert run(f"{words} '{float(most) + 0.2}g saltpetre'")[0] == 1

    def test_number_two_brings_its_nitrate(self) -> None:
        # 4 % nitrate beside 6.25 % nitrite: 150 ppm nitrite brings 96 ppm nitrate (150 x 4 / 6.25).
        _, data = run("dry --meat 5kg --salt 3% --curing-salt 150ppm --kind no.2")
        assert data["ingoing_nitrate_ppm"] == 96

    def test_nitrate_is_never_allowed_in_belly(self) -> None:
        code, data = run("dry --cut belly --meat 5kg --salt 3% --nitrate 10ppm")
        assert code == 1
        assert data["problems"][0]["slug"] == "nitrate-in-belly"


class TestPumpBrine:
    def test_cover_and_pump_add_up(self) -> None:
        # By hand: cover 10 g of no. 1 (0.625 g nitrite) and 2,020 g of cover brine; pump 8 % of 1,000 g from a
        # brine of 1,000 g water, 100 g salt, 12 g no. 1: 80 g carry 0.75 x 80 / 1,112 = 0.05396 g.
        # Together 0.67896 g over 1,000 + 2,110 + 80 g.
        _, data = run(
            "brine --meat 1kg --water 2kg --salt 100g --curing-salt 10g --pump 8% "
            "--pump-water 1kg --pump-salt 100g --pump-curing-salt 12g"
        )
        expected = (0.625 + 0.75 * 80 / 1112) / (1000 + 2110 + 80) * 1e6
        assert data["ingoing_nitrite_ppm"]["whole_system"] == pytest.approx(expected, abs=0.01)
        assert data["pump_brine"]["ingoing_nitrite_ppm"] == pytest.approx(
            0.75 * 80 / 1112 / 1000 * 1e6, abs=0.01
        )

    def test_plain_pump_changes_no_total(self) -> None:
        words = "brine --meat 1kg --water 2kg --salt 3% --curing-salt 150ppm"
        assert run(words)[1]["weigh"] == run(f"{words} --pump 10%")[1]["weigh"]

    @pytest.mark.parametrize("option", ["--water", "--pump-water"])
    def test_water_that_cannot_be_read_is_told_by_its_own_option(self, option: str) -> None:
        words = ["--meat", "1kg", "--salt", "3%", "--pump", "10%"]
        waters = {"--water": "2kg", "--pump-water": "1kg", option: "some"}
        typed = [word for pair in waters.items() for word in pair]
        result = CliRunner().invoke(main, ["cure", "brine", *words, *typed])
        assert result.exit_code == 2
        assert f"Error: {option} 'some':" in result.output

    def test_pump_brine_without_its_share_is_refused(self) -> None:
        code, data = run("brine --meat 1kg --water 2kg --salt 3% --curing-salt 100ppm --pump-water 1kg")
        assert code == 1
        assert data["problems"][0]["slug"] == "pump-unknown"


class TestAccelerator:
    @pytest.mark.parametrize(
        ("words", "most"),
        [
            # 9 CFR 424.21(c): 7/8 oz and 3/4 oz per 100 lb; 424.22(b)(1): 550 ppm with pumped bacon
            ("dry --meat 5kg --salt 3%|sodium erythorbate", "546.875"),
            ("dry --meat 5kg --salt 3%|ascorbic acid", "468.75"),
            ("brine --cut belly --meat 5kg --water 5kg --salt 3%|sodium ascorbate", "550"),
        ],
    )
    def test_limit_at_and_just_above(self, words: str, most: str) -> None:
        cure, kind = words.split("|")
        assert run(f"{cure} --accelerator '{most}ppm {kind}'")[0] == 0
        code, data = run(f"{cure} --accelerator '{float(most) + 0.01}ppm {kind}'")
        assert code == 1
        assert data["problems"][0]["slug"] == "accelerator-above-limit"


class TestFish:
    @pytest.mark.parametrize(
        ("fish", "limit"), [("salmon", 200), ("shad", 200), ("sablefish", 200), ("tuna", 10)]
    )
    def test_listed_fish_have_their_limit(self, fish: str, limit: int) -> None:
        """21 CFR 172.175(a)(1) and (2)."""
        words = f"brine --fish {fish} --meat 2kg --water 2kg --salt 5% --curing-salt"
        assert run(f"{words} {limit}ppm")[0] == 0
        assert run(f"{words} {limit}.01ppm")[0] == 1

    def test_other_fish_have_none(self) -> None:
        code, data = run("brine --fish trout --meat 2kg --water 2kg --salt 5% --curing-salt 10ppm")
        assert code == 1
        assert data["problems"][0]["slug"] == "fish-nitrite"


def test_water_to_make_a_volume_fills_it() -> None:
    # 6 US gal at 60 °F of a brine of 5.75 % (specific gravity 1.042 by the US table, 0.4 % more with the sugar):
    # between the weight of 6 gal of water (50.07 lb) and 5 % more.
    _, data = run("brine --meat 50lb --water 'to make 6gal' --salt 3lb --sugar 10oz")
    parts = data["water_g"] + (3 + 10 / 16) * 453.59237
    assert 50.07 * 453.59237 < parts < 50.07 * 453.59237 * 1.05
    assert data["water_g"] == pytest.approx(21_942, rel=0.01)


def test_unmeasured_ice_counts_nothing_for_the_limit() -> None:
    measured = run("brine --meat 2kg --water 2kg --salt 3% --curing-salt 150ppm")[1]
    with_ice = run("brine --meat 2kg --water '2kg + ice' --salt 3% --curing-salt 150ppm")[1]
    assert with_ice["weigh"] == measured["weigh"]
    assert with_ice["ice_unmeasured"] is True
