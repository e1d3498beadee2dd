"""What a step of the scale does to a dose, the blend that helps, and the house's own weighing of a spoon."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.build import compute, kitchen
from generator.cli import main
from generator.compute.cure.dose import blends, pre_blend
from generator.model.contract import constant
from generator.model.form import Setting
from generator.model.reader import Reader
from generator.model.results import ComputedRecipe
from generator.problems import ProblemLog

READER = Reader(
    setting=Setting(batches=Fraction(1), meat_g=Fraction(1), water_g=Fraction(1)), shower=kitchen().shower
)


def run(words: str) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    assert result.exit_code in (0, 1), result.output
    data: dict[str, Any] = json.loads(result.stdout)
    return data


class TestStepOfTheScale:
    def test_dry_cure_by_hand(self) -> None:
        # 1 g of 6.25 % on 2500 g: 0.0625 / 2500 x 1,000,000 = 25 ppm; 150 ppm are 6 g, so 1 g is a sixth of it.
        dose = run("dry --meat 2.5kg --salt 3% --curing-salt 150ppm")["dose"]
        assert dose["per_1_g_ppm"] == 25
        assert dose["per_0.1_g_ppm"] == 2.5
        assert dose["use_finer_scale"] is True

    def test_brine_by_hand(self) -> None:
        # The basis is all of it: 2000 + 3000 g, 3 % of them salt, and the nitrite's 1/16 of some 12 g.
        dose = run("brine --meat 2kg --water 3L --salt 3% --curing-salt 150ppm")["dose"]
        assert dose["per_1_g_ppm"] == pytest.approx(0.0625e6 / (5000 * 1.03), rel=1e-3)
        assert dose["use_finer_scale"] is False
        assert dose["pre_blend"] is None

    @pytest.mark.parametrize(("meat", "finer"), [(4000, True), (4166, True), (4167, False), (5000, False)])
    def test_a_tenth_of_the_figure_is_ten_grams(self, meat: int, finer: bool) -> None:
        # 150 ppm of 6.25 %: 10 g of curing salt at 4166.7 g of meat.
        assert run(f"dry --meat {meat}g --salt 3% --curing-salt 150ppm")["dose"]["use_finer_scale"] is finer

    def test_just_a_tenth_of_the_figure_is_not_too_coarse(self) -> None:
        # 1 g of 10 g that are weighed: a tenth, and no more than that.
        assert run("dry --meat 5kg --salt 3% --curing-salt 10g")["dose"]["use_finer_scale"] is False

    def test_nothing_to_dose(self) -> None:
        assert run("dry --meat 2kg --salt 3%")["dose"] is None

    def test_a_refused_cure_has_none(self) -> None:
        data = run("dry --meat 2kg --salt 3% --curing-salt 300ppm")
        assert data["weigh"] is None
        assert data["dose"] is None


class TestBlend:
    def test_worked_by_hand(self) -> None:
        # 150 ppm on 2 kg: 4.8 g; 48 g of a blend of 1 and 9 hold 4.8 g and 43.2 g of salt; 60 - 4.5 - 43.2 = 12.3 g.
        data = run("dry --meat 2kg --salt 3% --curing-salt 150ppm")
        assert data["weigh"] == {"salt_g": 55.5, "sugar_g": 0, "curing_salt_g": 4.8}
        assert data["dose"]["pre_blend"] == {
            "with": "salt",
            "curing_salt_g": 50,
            "carrier_g": 450,
            "weigh_g": 48,
            "carrier_left_g": 12.3,
        }

    def test_sugar_where_the_salt_is_not_enough(self) -> None:
        # 1 % of 2 kg is 20 g of salt, 15.5 g beside the curing salt; 43.2 g of the 60 g of sugar go into the blend.
        blend = run("dry --meat 2kg --salt 1% --sugar 3% --curing-salt 150ppm")["dose"]["pre_blend"]
        assert (blend["with"], blend["weigh_g"], blend["carrier_left_g"]) == ("sugar", 48, 16.8)

    def test_just_enough_salt_is_all_taken(self) -> None:
        # 10 g of the blend for 1 g of curing salt: 9 g of salt, which is all there is.
        weigh = {"salt": constant(Fraction(9)), "sugar": constant(Fraction(0)), "curing_salt": constant(1)}
        blend = pre_blend(blends(weigh), READER)
        assert blend is not None
        assert (blend.carrier, blend.weigh_g, blend.carrier_left_g) == ("salt", 10, 0)

    def test_neither_is_enough(self) -> None:
        dose = run("dry --meat 2kg --salt 1% --curing-salt 150ppm")["dose"]
        assert dose["use_finer_scale"] is True
        assert dose["pre_blend"] is None

    @given(
        c=st.integers(1, 1000).map(lambda n: Fraction(n, 100)),
        s=st.integers(0, 200).map(Fraction),
        u=st.integers(0, 200).map(Fraction),
    )
    def test_never_more_curing_salt_and_never_other_salt(self, c: Fraction, s: Fraction, u: Fraction) -> None:
        """The blend's tenth is at most what would be weighed, within 0.1 g, and no salt is gained or lost."""
        weigh = {"salt": constant(s), "sugar": constant(u), "curing_salt": constant(c)}
        blend = pre_blend(blends(weigh), READER)
        if blend is None:
            assert max(s, u) < 9 * c
            return
        curing_salt = blend.weigh_g * blend.curing_salt_g / (blend.curing_salt_g + blend.carrier_g)
        assert c - Fraction(1, 10) < curing_salt <= c
        carrier = blend.weigh_g - curing_salt + blend.carrier_left_g
        assert carrier == {"salt": s, "sugar": u}[blend.carrier]
        assert blend.carrier_left_g >= 0

    def test_the_terminal_says_how(self) -> None:
        words = shlex.split("cure dry --meat 2kg --salt 3% --curing-salt 150ppm")
        said = " ".join(CliRunner().invoke(main, words).stdout.split())
        assert "0.1 g of curing salt is 3.2 ppm, 1 g is 31.3 ppm" in said  # 31.25, never named smaller
        assert "Use a scale that reads 0.1 g" in said
        assert "mix 50 g of curing salt evenly with 450 g of salt; weigh 48 g of that" in said
        assert "label it, and keep it from the table" in said
        words = shlex.split("cure dry --meat 2kg --salt 1% --curing-salt 150ppm")
        said = " ".join(CliRunner().invoke(main, words).stdout.split())
        assert "Use a scale that reads 0.1 g" in said
        assert "blend" not in said


RECIPE = (
    "---\nname: Loin\nmakes: 1 loin\nmeat:\n  animal: elk\n  weight: 2 kg\n  form: whole\n"
    "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 1 tsp\n---\n"
)


class TestOwnWeighing:
    def computed(self, book: Path) -> ComputedRecipe:
        log = ProblemLog()
        found = compute(book, kitchen(), log)
        assert found is not None
        return found.recipes["loin"]

    def test_is_used_and_gives_no_range(self, make_book: Callable[..., Path]) -> None:
        """6.1 g on the house's own scale: 6.1 x 0.0625 / 2000 g = 190.6 ppm, with a warning all the same."""
        config = "title: A tiny book\nweighings:\n  curing salt: 6.1 g per tsp\n"
        recipe = self.computed(make_book({"book.yaml": config, "recipes/loin.md": RECIPE}))
        assert recipe.cure is not None
        assert recipe.cure.dry_ppm == Fraction("6.1") / 16 / 2000 * 1_000_000
        assert recipe.cure.ppm_range is None
        assert "curing-salt-by-spoon" in [problem.slug for problem in recipe.problems]
        assert recipe.cure.weigh is not None

    def test_without_it_a_spoon_is_a_range(self, make_book: Callable[..., Path]) -> None:
        recipe = self.computed(make_book({"recipes/loin.md": RECIPE}))
        assert recipe.cure is not None
        assert recipe.cure.ppm_range is not None
        assert recipe.cure.ppm_range.is_range
        assert "curing-salt-by-spoon" in [problem.slug for problem in recipe.problems]


def test_blend_of_a_real_dose_stays_below_the_limit() -> None:
    """At the limit itself: a tenth of the blend, judged again on the green weight, is not above 200 ppm."""
    for meat in range(500, 3100, 37):
        data = run(f"dry --meat {meat}g --salt 4% --curing-salt 200ppm")
        blend = data["dose"]["pre_blend"]
        assert blend is not None
        assert Fraction(str(blend["weigh_g"])) / 10 / 16 / meat * 1_000_000 <= 200
        assert re.fullmatch(r"\d+", str(blend["weigh_g"]))
