"""Figures of a brine against published tables, corrections there and back, and brine that is not used again."""

from __future__ import annotations

import json
import shlex
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.build import check_book
from generator.cli import main
from generator.compute import Kitchen
from generator.compute.cure.correct import correct_brine
from generator.compute.cure.formulas import (
    degrees_at_60_f,
    salometer_reading,
    salt_to_add_g,
    water_to_add_g,
)
from generator.model.quantity import Measure, Quantity, Span
from generator.model.recipe import Target, TargetKind
from generator.problems import OutOfRange, ProblemLog
from generator.read import AmountError, parse_strength
from tests.second_opinion import ice_for


def cure(words: str) -> tuple[int, dict[str, Any]]:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    assert result.exit_code in (0, 1), result.output
    return result.exit_code, json.loads(result.stdout)


def refused(words: str) -> str:
    """Words of wrong use."""
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    assert result.exit_code == 2
    return " ".join(result.stderr.split())


class TestFigures:
    def test_sixty_degrees_in_three_systems(self) -> None:
        """Fish Safety Notes (Canada): 60 degrees = 15.8 % = 187.8 g/L = 1.882 lb per imperial gallon."""
        code, data = cure("brine --meat 2kg --water 4L --salt '60 degrees salometer'")
        assert code == 0
        brine = data["brine"]
        assert brine["degrees_60F"] == 60
        assert brine["percent"] == pytest.approx(15.8, abs=0.05)
        assert brine["g_salt_per_l_water"] == pytest.approx(187.8, abs=0.1)
        # 1.882 x 3.785411784 / 4.54609 = 1.567, derived: the imperial figure is not for a US gallon.
        assert brine["lb_salt_per_us_gal_water"] == pytest.approx(1.567, abs=0.001)
        assert brine["lb_salt_per_us_gal_water"] * 4.54609 / 3.785411784 == pytest.approx(1.882, abs=0.001)
        # 176.7 g per litre of brine, UK training material on smoking fish; its water is 998.3 g, ours 997.9 g.
        assert brine["g_salt_per_l_brine"] == pytest.approx(176.7, abs=0.3)

    def test_between_rows_of_the_table(self) -> None:
        # 42.5 degrees lies half-way between 40 (1.078) and 45 (1.088), US table at 60 F.
        _, data = cure("brine --meat 2kg --water 4L --salt '42.5 degrees salometer'")
        assert data["brine"]["specific_gravity"] == pytest.approx(1.083, abs=0.0005)

    def test_saturated_brine_is_the_last_row_and_nothing_beyond(self) -> None:
        _, data = cure("brine --meat 2kg --water 4L --salt '100 degrees salometer'")
        assert data["brine"]["specific_gravity"] == 1.203
        code, data = cure("brine --meat 2kg --water 4L --salt 2kg")
        assert code == 1
        assert data["brine"] is None

    def test_sugar_is_left_out_of_salt_to_water(self) -> None:
        # 100 g in 4 L at 997.92 g/L: 100 / 4000 x 997.92 = 24.948 g per litre of water, with sugar or without.
        for sugar in ("", "--sugar 400g"):
            _, data = cure(f"brine --meat 2kg --water 4L --salt 100g {sugar}")
            assert data["brine"]["g_salt_per_l_water"] == pytest.approx(24.95, abs=0.01)
        assert data["brine"]["percent"] == pytest.approx(100 / 45, abs=0.01)

    def test_dry_cure_has_none(self) -> None:
        assert cure("dry --meat 2kg --salt 3%")[1]["brine"] is None

    def test_unmeasured_ice_gives_none(self) -> None:
        assert cure("brine --meat 2kg --water '2 qt + ice' --salt 3%")[1]["brine"] is None

    def test_warm_salometer_reads_low(self) -> None:
        # +1 degree for each 10 F above 60 F, Fish Safety Notes (Canada): 60 degrees read 58 at 80 F.
        _, data = cure("brine --meat 2kg --water 4L --salt '60 degrees salometer' --salometer-at 80F")
        assert data["brine"]["salometer"] == {"at_F": 80, "reads_degrees": 58}

    @pytest.mark.parametrize("at", ["50F", "120F"])
    def test_the_rule_is_not_stretched(self, at: str) -> None:
        words = refused(f"brine --meat 2kg --water 4L --salt '60 degrees salometer' --salometer-at {at}")
        assert "a salometer is corrected from 60 to 100 °F" in words

    def test_below_the_scale(self) -> None:
        with pytest.raises(OutOfRange, match="too weak and too warm"):
            salometer_reading(degrees=Fraction(1), temperature_f=Fraction(90))


percents = st.fractions(min_value=1, max_value=26, max_denominator=100)
grams = st.integers(100, 40_000).map(Fraction)


class TestCorrection:
    @given(low=percents, high=percents, brine_g=grams)
    def test_there_and_back(self, low: Fraction, high: Fraction, brine_g: Fraction) -> None:
        """Salt keeps the water, water keeps the salt: what is mixed has the wanted strength, by its own weights."""
        low, high = sorted((low, high))
        salt_g = salt_to_add_g(is_percent=low, want_percent=high, brine_g=brine_g)
        stronger = brine_g + salt_g
        assert 100 * (brine_g * low / 100 + salt_g) / stronger == high
        water_g = water_to_add_g(is_percent=high, want_percent=low, brine_g=stronger)
        assert 100 * (stronger * high / 100) / (stronger + water_g) == low
        assert stronger + water_g >= brine_g

    def test_salt_for_the_water_not_for_the_brine(self) -> None:
        """40 to 60 degrees: 188.18 - 117.98 = 70.2 g a litre of water (UK training material on smoking fish).

        4 L of brine at 1.078 and 10.558 % hold 3.857 L of water, by hand.
        """
        code, data = cure("correct --brine 4L --is 40deg --want 60deg")
        assert code == 0
        assert data["add_water_g"] == 0
        assert data["add_salt_g"] == pytest.approx(70.2 * 3.857, rel=0.005)
        assert data["add_salt_g"] < 70.2 * 4 * 0.98, "a litre of brine holds less than a litre of water"

    def test_water_for_a_strong_brine(self) -> None:
        # By hand: 4 kg at 20 % hold 800 g of salt, and 800 g are 16 % of 5 kg.
        code, data = cure("correct --brine 4kg --is 20% --want 16%")
        assert code == 0
        assert (data["add_salt_g"], data["add_water_g"]) == (0, 1000)

    def test_nothing_to_add(self) -> None:
        _, data = cure("correct --brine 4kg --is 60deg --want 60deg")
        assert (data["add_salt_g"], data["add_water_g"]) == (0, 0)

    def test_reading_of_a_warm_brine_is_corrected_first(self) -> None:
        _, data = cure("correct --brine 4kg --is 58deg --at 80F --want 60deg")
        assert (data["is_degrees"], data["add_salt_g"]) == (60, 0)
        assert degrees_at_60_f(reading_degrees=Fraction(58), temperature_f=Fraction(80)) == 60

    @pytest.mark.parametrize(("measured", "wanted"), [("40deg", "101deg"), ("10%", "27%"), ("30%", "10%")])
    def test_beyond_saturation(self, measured: str, wanted: str) -> None:
        code, data = cure(f"correct --brine 4L --is {measured} --want {wanted}")
        assert code == 1
        assert data["add_salt_g"] is None
        assert data["add_water_g"] is None
        (problem,) = data["problems"]
        assert problem["slug"] == "salt-beyond-saturation"
        assert "more than water can hold (26.395 % at 60 °F" in problem["message"]

    def test_saturated_is_still_dissolved(self, kitchen: Kitchen) -> None:
        litre = kitchen.tables.units["litre"]
        log = ProblemLog()
        full = Target(kind=TargetKind.DEGREES, value=Fraction(100))
        amount = Quantity(measures=(Measure(Span.of(1), litre),))
        found = correct_brine(amount, full, full, kitchen.tables, log)
        assert found is not None
        assert found.brine_g == 1203  # 1 L at the table's 1.203
        assert not len(log)

    @pytest.mark.parametrize(
        ("words", "said"),
        [
            ("--brine 4L --is 40 --want 60deg", "'40' is not the strength of a brine"),
            ("--brine 4L --is 40deg --want strong", "Write 40deg (degrees salometer) or 10.5%"),
            ("--brine 4L --is 40deg --want 0deg", "--want takes a strength above 0"),
            ("--brine '4 to 5 L' --is 40deg --want 60deg", "--brine takes one amount above 0"),
            ("--brine 4L --is 40deg --want 60deg --at 40F", "from 60 to 100 °F, not at 40 °F"),
        ],
    )
    def test_wrong_use(self, words: str, said: str) -> None:
        assert said in refused(f"correct {words}")

    def test_text_says_how_and_what_it_is_not_for(self) -> None:
        words = CliRunner().invoke(main, shlex.split("cure correct --brine 4kg --is 10% --want 20%")).stdout
        # By hand: 3600 g of water want 900 g of salt at 20 %; 400 g are in. 500 g / 3.6 L.
        assert "Add 500 g of salt (138.9 g for each litre of the 3.6 L of water in it)" in words
        assert "Only for fresh brine." in words
        assert "work the cure out again" in words
        words = CliRunner().invoke(main, shlex.split("cure correct --brine 4kg --is 20% --want 16%")).stdout
        assert "Add 1000 g of water; its salt stays" in words
        words = CliRunner().invoke(main, shlex.split("cure correct --brine 4kg --is 20% --want 20%")).stdout
        assert "Add nothing" in words

    @pytest.mark.parametrize("text", ["40deg", "40 degrees salometer", "40°", " 40 degrees"])
    def test_degrees_are_read(self, text: str) -> None:
        assert parse_strength(text, language="en") == Target(kind=TargetKind.DEGREES, value=Fraction(40))

    @pytest.mark.parametrize("text", ["", "deg", "10-12%", "40 F", "10 ppm", "-3%"])
    def test_what_is_no_strength_is_refused(self, text: str) -> None:
        with pytest.raises(AmountError, match="is not the strength of a brine"):
            parse_strength(text, language="en")


class TestUsedBrine:
    @pytest.mark.parametrize(
        "words",
        [
            "brine --meat 2kg --water 4L --salt 3% --used",
            "brine --meat 2kg --water '2 qt old brine' --salt 3%",
            "brine --meat 2kg --water '1 qt hot + 2 qt re-used brine' --salt 3%",
            "brine --meat 2kg --water '2 qt of brine, used' --salt 3%",
            "correct --brine 4L --is 40deg --want 60deg --used",
            "correct --brine '4L old brine' --is 40deg --want 60deg",
        ],
    )
    def test_is_refused(self, words: str) -> None:
        """Michigan Administrative Code R 285.569.5: brine is not used again."""
        code, data = cure(words)
        assert code == 1
        assert data.get("weigh") is None
        assert data.get("add_salt_g") is None
        (problem,) = data["problems"]
        assert problem["slug"] == "reused-brine"
        assert "Mix fresh brine" in problem["hint"]

    def test_text_says_so_too(self) -> None:
        result = CliRunner().invoke(main, shlex.split("cure brine --meat 2kg --water 4L --salt 3% --used"))
        assert result.exit_code == 1
        assert result.stdout == ""
        assert "Brine that has held meat is not used again. [reused-brine]" in result.stderr

    def test_in_a_recipe_at_its_line(self, make_book: Callable[..., Path]) -> None:
        recipe = (
            "---\nname: Hock\nmakes: 2 hocks\nmeat:\n  animal: elk\n  weight: 4 lb\n"
            "cure:\n  method: brine\n  water: 1 gal old brine\n  salt: 3 %\n---\n"
        )
        problems = check_book(make_book({"recipes/hock.md": recipe}))
        (problem,) = (one for one in problems if one.slug == "reused-brine")
        assert problem.position is not None
        assert (problem.position.line, problem.position.column) == (9, 16)
        assert "'1 gal old brine': brine that has held meat" in problem.message

    def test_cold_water_is_not_old_brine(self) -> None:
        assert cure("brine --meat 2kg --water '2 qt cold + 1 qt hot' --salt 3%")[0] == 0


def test_water_is_not_boiled_off() -> None:
    with pytest.raises(OutOfRange, match="hot water must be from 0 to 100 °C"):
        ice_for(
            hot_g=Fraction(1),
            hot_c=Fraction(101),
            cold_g=Fraction(1),
            cold_c=Fraction(5),
            target_c=Fraction(3),
        )
