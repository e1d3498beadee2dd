"""Brine planned from the pot, and ice as a part of its water: worked a second time by hand."""

from __future__ import annotations

import json
import re
import shlex
from fractions import Fraction
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.cli import main
from generator.compute import Kitchen
from generator.compute.cure.formulas import ice_within
from generator.compute.cure.ice import PouredWater, share_ice
from generator.problems import OutOfRange, ProblemLog
from tests.second_opinion import ice_for


def brine(words: str) -> tuple[int, dict[str, Any]]:
    result = CliRunner().invoke(main, ["cure", "brine", *shlex.split(words), "--json"])
    assert result.exit_code in (0, 1), result.output
    return result.exit_code, json.loads(result.stdout)


def slugs(data: dict[str, Any]) -> list[str]:
    return [problem["slug"] for problem in data["problems"]]


class TestWaterFromThePot:
    def test_worked_by_hand(self) -> None:
        """5 lb in 12 US qt: 0.95 x 11356.24 mL - 2267.96 g / 1.05 g/mL = 8628.46 mL of room."""
        code, data = brine("--meat 5lb --pot 12qt --salt 3%")
        assert code == 0
        pot, meat = 12 * 946.352946, 5 * 453.59237 / 1.05
        assert data["vessel"]["pot_ml"] == pytest.approx(pot, abs=0.01)
        assert data["vessel"]["meat_ml"] == pytest.approx(meat, abs=0.01)
        room = 0.95 * pot - meat
        assert data["vessel"]["brine_ml"] == pytest.approx(room, abs=1.5), "filled to the gram of water"
        assert data["vessel"]["brine_ml"] <= room
        # 3 % of meat and water in a brine of 3.7 %: between 10 (2.640 %, 1.019) and 15 degrees (3.959 %, 1.028).
        weigh, water = data["weigh"], data["water_g"]
        strength = 100 * weigh["salt_g"] / (water + weigh["salt_g"])
        gravity = 1.019 + (strength - 2.640) / (3.959 - 2.640) * 0.009
        assert (water + weigh["salt_g"]) / gravity == pytest.approx(room, abs=2)
        assert weigh["salt_g"] == pytest.approx(0.03 * (5 * 453.59237 + water), abs=0.01)
        # 60 lb of pickle for 100 lb of meat: 9 CFR 318.10(c), boneless loin, method 2.
        left = water + weigh["salt_g"] - 0.6 * 5 * 453.59237
        assert data["vessel"]["left_for_pump_g"] == pytest.approx(left, abs=0.1)

    def test_a_written_amount_of_salt_takes_its_room_too(self) -> None:
        _, plain = brine("--meat 2kg --pot 8L")
        _, salted = brine("--meat 2kg --pot 8L --salt 500g")
        assert plain["water_g"] == 7600 - 1905  # 0.95 x 8000 - 2000 / 1.05 = 5695.2, whole grams
        assert salted["water_g"] < plain["water_g"] - 100

    @given(
        meat=st.integers(300, 15_000),
        pot=st.integers(500, 40_000),
        salt=st.integers(1, 60),
        sugar=st.integers(0, 30),
        pump=st.integers(0, 12),
    )
    def test_never_over_the_headroom_and_never_too_little(
        self, meat: int, pot: int, salt: int, sugar: int, pump: int
    ) -> None:
        words = f"--meat {meat}g --pot {pot}mL --salt {salt / 10}%"
        words += f" --sugar {sugar / 10}%" if sugar else ""
        words += f" --pump {pump}%" if pump else ""
        code, data = brine(words)
        if code == 1:
            assert slugs(data) == ["pot-too-small"]
            assert data["weigh"] is None
            return
        vessel = data["vessel"]
        assert vessel["meat_ml"] + vessel["brine_ml"] <= 0.95 * pot + 0.02
        assert vessel["left_for_pump_g"] >= (data["pump_g"] or 0) - 1.5

    @given(meat=st.integers(300, 15_000), pot=st.integers(200, 20_000), pump=st.integers(1, 12))
    def test_each_way_out_typed_in_is_accepted(self, meat: int, pot: int, pump: int) -> None:
        _, data = brine(f"--meat {meat}g --pot {pot}mL --salt 3% --pump {pump}%")
        assume("pot-too-small" in slugs(data))
        hint = data["problems"][0]["hint"]
        litres, quarts, grams = (
            re.search(pattern, hint)
            for pattern in (r"at least ([\d.]+) L", r"\(([^)]*) qt\)", r"at most (\d+) g of meat")
        )
        assert litres
        assert quarts
        assert grams
        ways = [f"--meat {meat}g --pot {litres[1]}L", f"--meat {meat}g --pot '{quarts[1]} qt'"]
        if int(grams[1]) > 0:
            ways.append(f"--meat {grams[1]}g --pot {pot}mL")
        for way in ways:
            code, again = brine(f"{way} --salt 3% --pump {pump}%")
            assert code == 0, (way, again["problems"])

    def test_refusal_in_words(self) -> None:
        # By hand: 5 lb take 2160 mL, a 2 qt pot has 0.95 x 1893 mL; 60 % of 2268 g are 1361 g of brine.
        # (2160 + 1361) / 0.95 = 3706 mL; 0.95 x 1892.7 / (1 / 1.05 + 0.6) = 1158 g of meat.
        code, data = brine("--meat 5lb --pot 2qt --salt 3%")
        assert code == 1
        assert data["weigh"] is None
        (problem,) = data["problems"]
        assert problem["slug"] == "pot-too-small"
        assert problem["message"] == (
            "The pot leaves 0 L for brine beside the meat, and covering it takes 1.4 L."
        )
        assert (
            problem["hint"] == "Take a pot of at least 3.8 L (4 qt), or at most 1150 g of meat in this one."
        )

    def test_without_the_meat_nothing_is_planned(self) -> None:
        code, data = brine("--pot 12qt --salt 3%")
        assert code == 1
        assert "meat-unknown" in slugs(data)
        assert data["vessel"] is None


class TestWaterAndPot:
    def test_a_brine_that_fits(self) -> None:
        code, data = brine("--meat 2kg --pot 8L --water 4L --salt 3%")
        assert code == 0
        assert data["vessel"]["brine_ml"] == pytest.approx(4180 / 1.030, abs=8)  # 4.3 %: 1.028 to 1.033
        assert data["vessel"]["water_from_pot"] is False

    def test_a_brine_that_does_not_fit_says_what_would(self) -> None:
        code, data = brine("--meat 5lb --pot 4qt --water 1gal --salt 3%")
        assert code == 1
        assert data["weigh"] is None
        (problem,) = data["problems"]
        assert problem["slug"] == "pot-too-small"
        assert "the pot takes 3.5 L with its headroom" in problem["message"]
        found = re.search(r"at least ([\d.]+) L .* at most (\d+) g of water", problem["hint"])
        assert found
        assert brine(f"--meat 5lb --pot {found[1]}L --water 1gal --salt 3%")[0] == 0
        assert brine(f"--meat 5lb --pot 4qt --water {found[2]}g --salt 3%")[0] == 0

    def test_meat_that_fills_the_pot_leaves_no_water_to_name(self) -> None:
        _, data = brine("--meat 5lb --pot 2qt --water 1gal --salt 3%")
        (problem,) = data["problems"]
        assert "at most 1150 g of meat in this one" in problem["hint"]

    def test_a_pump_that_would_bare_the_meat(self) -> None:
        # 1000 g of meat want 600 g of brine; 700 g of water with 3 % of 1700 g is 751 g; 151 g are left, not 200.
        code, data = brine("--meat 1kg --pot 4L --water 700g --salt 3% --pump 20%")
        assert code == 1
        (problem,) = data["problems"]
        assert problem["slug"] == "pump-over-brine"
        assert "beside the 600 g that cover the meat there are 151 g of brine" in problem["message"]


class TestIce:
    @given(
        total=st.integers(500, 20_000),
        share=st.integers(0, 100),
        hot=st.integers(40, 100),
        cold=st.integers(0, 25),
    )
    def test_heat_given_is_heat_taken(self, total: int, share: int, hot: int, cold: int) -> None:
        """What hot and cold water give up is what the ice takes, melting and warming: a balance of its own."""
        target = Fraction(10, 3)
        hot_g = Fraction(total * share, 100)
        values = {"hot_c": Fraction(hot), "cold_c": Fraction(cold), "target_c": target}
        try:
            ice = ice_within(total_g=Fraction(total), hot_g=hot_g, **values)
        except OutOfRange:
            assume(False)
        cold_g = total - hot_g - ice
        assert cold_g >= 0
        c, latent = Fraction("4.186"), 334
        given_up = c * (hot_g * (hot - target) + cold_g * (cold - target))
        assert given_up == ice * (latent + c * target) or (ice == 0 and given_up <= 0)
        assert ice == ice_for(hot_g=hot_g, cold_g=cold_g, **values)

    def test_on_the_command_line(self) -> None:
        """By hand: 4 L of water, 1 qt of it at 180 F, the rest at 50 F, to 38 F: 1058.2 g of ice, 1995.5 g cold."""
        code, data = brine("--meat 2kg --water 4L --salt 3% --hot 1qt --hot-at 180F --cold-at 50F")
        assert code == 0
        ice = data["ice"]
        assert ice["ice_g"] == pytest.approx(1058.19, abs=0.01)
        assert ice["cold_g"] == pytest.approx(1995.46, abs=0.01)
        assert ice["water_g"] == data["water_g"] == 4000
        assert ice["target_F"] == 38  # Michigan R 285.569.5: brining for more than 4 h

    def test_hot_part_as_the_water_is_written(self) -> None:
        words = "--meat 2kg --salt 3% --hot-at 180F --cold-at 50F"
        _, written = brine(f"{words} --water '1 qt hot + 3 qt cold'")
        _, told = brine(f"{words} --water 4qt --hot 1qt")
        assert written["ice"] == told["ice"]

    def test_water_of_a_pot(self) -> None:
        _, data = brine("--meat 5lb --pot 12qt --salt 3% --hot 1qt --hot-at 180F --cold-at 50F")
        assert data["ice"]["water_g"] == pytest.approx(data["water_g"], abs=0.01)

    def test_too_much_hot_water_is_refused_and_the_most_is_named(self) -> None:
        # By hand at 212 F: (100 - 3.333) x 4.186 = 404.6 J/g given, 347.95 taken: 4000 x 347.95 / 752.6 = 1849 g.
        code, data = brine("--meat 2kg --water 4L --salt 3% --hot 3L --hot-at 212F --cold-at 50F")
        assert code == 1
        assert data["weigh"] is None
        assert data["ice"] is None
        (problem,) = data["problems"]
        assert problem["slug"] == "ice-over-water"
        assert problem["hint"] == "Take at most 1840 g of hot water, or let it cool first."
        again = brine("--meat 2kg --water 4L --salt 3% --hot 1840g --hot-at 212F --cold-at 50F")
        assert again[0] == 0
        assert again[1]["ice"]["cold_g"] < 50

    def test_all_cold_enough_needs_none(self, kitchen: Kitchen) -> None:
        heat = PouredWater(hot_g=Fraction(100), hot_c=Fraction(3), cold_c=Fraction(2))
        found = share_ice(Fraction(1000), heat, kitchen.tables, ProblemLog())
        assert found is not None
        assert (found.ice_g, found.cold_g) == (0, 900)

    @pytest.mark.parametrize(
        ("words", "said"),
        [
            ("--hot 1qt", "Ice cannot be worked out without --hot-at and --cold-at."),
            ("--hot-at 180F --cold-at 50F", "Which part of the water is hot?"),
            ("--hot 1qt --hot-at 300F --cold-at 50F", "hot water must be from 0 to 100 °C"),
            ("--hot 1qt --hot-at 180F --cold-at 20F", "cold water must be from 0 to 100 °C"),
            ("--hot '2 carrots' --hot-at 180F --cold-at 50F", "--hot"),
            ("--pot 5lb", "--pot takes one volume above 0"),
        ],
    )
    def test_wrong_use(self, words: str, said: str) -> None:
        result = CliRunner().invoke(main, shlex.split(f"cure brine --meat 2kg --water 4L --salt 3% {words}"))
        assert result.exit_code == 2
        assert said in " ".join(result.stderr.split())


def test_the_terminal_says_it_all() -> None:
    words = "cure brine --meat 5lb --pot 12qt --salt 3% --pump 8% --hot 1qt --hot-at 180F --cold-at 50F"
    said = " ".join(CliRunner().invoke(main, shlex.split(words)).stdout.split())
    assert "the pot 11.36 L; the meat takes 2.16 L, the brine 8.63 L the water is worked out from it" in said
    assert "beside the 1361 g of brine that cover the meat" in said
    assert "all of it is the water, and comes to 38 °F; salt and pot not counted" in said
    assert "specific gravity 1.02" in said
    assert "lb per US gal of water" in said
