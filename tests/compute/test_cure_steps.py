"""The steps of a cure one by one, at the values where they turn: amounts into grams, water, ice, pots, short cures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import Kitchen
from generator.compute.cure import CureInput, Scales, work_out_cure
from generator.compute.cure.amounts import (
    curing_salt_grams,
    has_unmeasured_ice,
    plain_grams,
    to_make_ml,
    water_g,
)
from generator.compute.cure.brine import at_temperature, brine_figures, volume_ml, water_g_per_l
from generator.compute.cure.case import JudgedCure, PumpBrineInput
from generator.compute.cure.correct import correct_brine, strength_percent
from generator.compute.cure.ice import PouredWater, most_hot_g, share_ice
from generator.compute.cure.refusals import judge, last_time
from generator.compute.cure.short import Entered
from generator.compute.cure.table import AtTable, CannotAsk, work_out_at_table
from generator.compute.cure.to_make import specific_gravity, water_to_make_g
from generator.compute.cure.vessel import Pot, fit_vessel, refuse_small_pot, water_that_fits
from generator.compute.cure.written import CuredMeat, cure_input
from generator.model.book import HouseWeight
from generator.model.form import Setting
from generator.model.published import CuringSalt
from generator.model.quantity import TO_MAKE, Measure, Quantity, Span, Unit
from generator.model.reader import Reader
from generator.model.recipe import Cure, CureLine, PumpBrine, Target, TargetKind
from generator.model.results import CureResult
from generator.problems import OutOfRange, Position, ProblemLog

HERE = Position("a.md", 1, 1)


def amount(number: object, unit: Unit, state: str = "") -> Quantity:
    measure = Measure(Span.of(Fraction(str(number))), unit, state)
    return Quantity(measures=(measure,), written=f"{number} {unit.singular}")


def line(quantity: Quantity, name: str = "") -> CureLine:
    return CureLine(amount=quantity, name=name, written=quantity.written, position=HERE)


def target(kind: TargetKind, value: object) -> CureLine:
    return CureLine(target=Target(kind=kind, value=Fraction(str(value))), written="", position=HERE)


def slugs(log: ProblemLog | CureResult) -> list[str]:
    problems = log.problems if isinstance(log, CureResult) else tuple(log)
    return [problem.slug for problem in problems]


@pytest.fixture(scope="module")
def units(kitchen: Kitchen) -> Any:
    return kitchen.tables.units


@pytest.fixture(scope="module")
def no1(kitchen: Kitchen) -> CuringSalt:
    found = kitchen.tables.curing_salt("no. 1")
    assert found is not None
    return found


class TestWater:
    def test_a_millilitre_is_a_gram_and_ice_counts_by_weight_alone(self, units: Any) -> None:
        log = ProblemLog()
        assert water_g(amount(2, units["litre"]), log) == 2000
        assert water_g(amount(2, units["kilogram"], "ice"), log) == 2000
        both = Quantity(
            measures=(
                Measure(Span(Fraction(1), Fraction(2)), units["litre"], "hot"),
                Measure(Span.of(500), units["gram"], "ice"),
            )
        )
        assert water_g(both, log) == 2500, "of a range the high end"
        assert not len(log)
        assert water_g(amount(2, units["litre"], "ice"), log, HERE) is None
        assert water_g(amount(2, units["inch"]), log, HERE) is None
        assert [problem.message for problem in log] == [
            "'2 L': ice cannot be weighed from what is written.",
            "'2 in': this cannot be weighed from what is written.",
        ]

    def test_a_volume_to_make_is_no_water(self, units: Any) -> None:
        made = amount(3, units["litre"], TO_MAKE)
        assert (water_g(made, ProblemLog()), to_make_ml(made)) == (None, 3000)
        assert to_make_ml(amount(3, units["litre"])) is None
        assert to_make_ml(amount(3, units["kilogram"], TO_MAKE)) is None

    def test_ice_without_a_weight(self, units: Any) -> None:
        assert has_unmeasured_ice(amount(0, units["gram"], "ice"))
        assert not has_unmeasured_ice(amount(1, units["gram"], "ice"))
        assert not has_unmeasured_ice(amount(0, units["gram"]))


class TestGrams:
    def test_a_weight_is_what_it_is(self, kitchen: Kitchen, no1: CuringSalt, units: Any) -> None:
        scales, log = Scales(tables=kitchen.tables), ProblemLog()
        ounce = Quantity(measures=(Measure(Span(Fraction(1), Fraction(2)), units["ounce"]),))
        # 1 oz is 28.349523125 g (international avoirdupois pound, 1959).
        assert plain_grams(line(ounce), "salt", scales, log) == Span.of(2 * Fraction("28.349523125"))
        found = curing_salt_grams(line(ounce), no1, scales, log)
        assert found == Span(Fraction("28.349523125"), 2 * Fraction("28.349523125"))
        assert not len(log)

    def test_what_cannot_be_weighed_is_said(self, kitchen: Kitchen, units: Any) -> None:
        scales, log = Scales(tables=kitchen.tables), ProblemLog()
        cup = amount(1, units["us_cup"])
        assert plain_grams(line(cup), "accelerator", scales, log) is None
        assert [(problem.slug, problem.hint) for problem in log] == [("wrong-dimension", "Weigh it.")]

    def test_the_name_behind_the_amount_and_else_the_usual_one(self, kitchen: Kitchen, units: Any) -> None:
        own = HouseWeight(name="Brown sugar", grams=Fraction(190), unit="us_cup", position=HERE)
        white = replace(own, name="granulated sugar", grams=Fraction(201))
        scales = Scales(tables=kitchen.tables, house=(own, white))
        cups = amount(2, units["us_cup"])
        log = ProblemLog()
        assert plain_grams(line(cups, "brown sugar"), "sugar", scales, log) == Span.of(380)
        assert plain_grams(line(cups), "sugar", scales, log) == Span.of(402)
        assert not len(log), "what the author weighed is no range"

    def test_a_house_weighs_its_own_spoon_of_the_very_unit(
        self, kitchen: Kitchen, no1: CuringSalt, units: Any
    ) -> None:
        own = HouseWeight(name="Curing Salt", grams=Fraction(6), unit="us_tsp", position=HERE)
        salt = replace(own, name="salt", grams=Fraction(5))
        scales = Scales(tables=kitchen.tables, house=(salt, own))
        assert scales.house_grams("curing salt", "us_tsp") == 6
        assert scales.house_grams("curing salt", "us_tbsp") is None
        log = ProblemLog()
        assert curing_salt_grams(line(amount(2, units["us_tsp"])), no1, scales, log) == Span.of(12)
        (problem,) = log
        # Published: 5.6 g to a quarter of an ounce for a teaspoon (second-hand).
        assert problem.message == (
            f"'{amount(2, units['us_tsp']).written}' of curing salt is 12.0 g by your own weighing (11.2 to 14.2 g by "
            "published spoons); a spoon differs from hand to hand."
        )

    def test_an_own_spoon_that_nobody_has_published(
        self, kitchen: Kitchen, no1: CuringSalt, units: Any
    ) -> None:
        own = HouseWeight(name="curing salt", grams=Fraction(300), unit="us_cup", position=HERE)
        log = ProblemLog()
        cup = line(amount(1, units["us_cup"]))
        assert curing_salt_grams(cup, no1, Scales(tables=kitchen.tables, house=(own,)), log) == Span.of(300)
        assert "by your own weighing; a spoon differs" in next(iter(log)).message
        assert curing_salt_grams(cup, no1, Scales(tables=kitchen.tables), log) is None
        pure = kitchen.tables.curing_salt("sodium nitrite")
        assert pure is not None
        spoon = line(amount(1, units["us_tsp"]))
        assert curing_salt_grams(spoon, pure, Scales(tables=kitchen.tables), log) is None
        assert slugs(log)[1:] == ["curing-salt-not-weighed"] * 2


MEAT = CuredMeat(cut="whole", meat_g=Fraction(1000))


class TestWritten:
    def read(
        self, kitchen: Kitchen, meat: CuredMeat, cure: Cure, own: tuple[CuringSalt, ...] = ()
    ) -> CureInput:
        return cure_input(cure, meat, own, kitchen.tables, ProblemLog())

    def test_a_cure_of_one_batch(self, kitchen: Kitchen, units: Any) -> None:
        cure = Cure(method="brine", water=amount(2, units["litre"]), position=HERE)
        found = self.read(kitchen, MEAT, cure)
        assert (found.batches, found.water_g, found.to_make_ml, found.ice_unmeasured) == (
            1,
            2000,
            None,
            False,
        )
        assert (found.fish, found.fish_limit_ppm, found.fish_nitrate_ppm) == (None, None, 0)
        assert (found.nitrate_kind, found.pump_brine, found.kind.key) == (None, None, "no. 1")

    def test_water_is_of_all_batches(self, kitchen: Kitchen, units: Any) -> None:
        meat = replace(MEAT, batches=Fraction(3))
        cure = Cure(method="brine", water=amount(2, units["litre"]), position=HERE)
        assert self.read(kitchen, meat, cure).water_g == 6000
        made = replace(cure, water=amount(2, units["litre"], TO_MAKE))
        assert self.read(kitchen, meat, made).to_make_ml == 6000
        assert self.read(kitchen, meat, made).water_g is None

    def test_water_that_is_asked_for_goes_before_what_is_written(self, kitchen: Kitchen, units: Any) -> None:
        cure = Cure(method="brine", water=amount(2, units["litre"]), position=HERE)
        assert self.read(kitchen, replace(MEAT, water_g=Fraction(700)), cure).water_g == 700
        assert self.read(kitchen, MEAT, replace(cure, water=None)).water_g is None

    def test_only_a_fish_is_judged_as_one(self, kitchen: Kitchen) -> None:
        """21 CFR 172.175(a)(1): 10 ppm nitrite in tuna; 172.170(a)(1): 500 ppm nitrate in salmon."""
        cure, tables = Cure(method="dry", position=HERE), kitchen.tables
        animals = {animal.key: animal for animal in tables.animals}
        tuna = self.read(kitchen, replace(MEAT, animal=animals["tuna"]), cure)
        assert (tuna.fish, tuna.fish_limit_ppm, tuna.fish_nitrate_ppm) == ("tuna", 10, 0)
        salmon = self.read(kitchen, replace(MEAT, animal=animals["salmon"]), cure)
        assert salmon.fish_nitrate_ppm == 500
        assert self.read(kitchen, replace(MEAT, animal=animals["elk"]), cure).fish is None

    def test_own_curing_salt_goes_before_the_published_one(self, kitchen: Kitchen, no1: CuringSalt) -> None:
        own = replace(no1, key="mine", title="Mine")
        other = replace(no1, key="other", title="Other")
        cure = Cure(method="dry", kind="mine", nitrate_kind="potassium nitrate", position=HERE)
        found = self.read(kitchen, MEAT, cure, (other, own))
        assert found.kind is own
        assert found.nitrate_kind is kitchen.tables.curing_salt("potassium nitrate")
        assert self.read(kitchen, MEAT, replace(cure, kind="no. 2"), (other, own)).kind.key == "no. 2"

    def test_a_pump_brine_and_its_water(self, kitchen: Kitchen, units: Any) -> None:
        pump = PumpBrine(water=amount(1, units["litre"]), position=HERE)
        cure = Cure(method="brine", pump_brine=pump, position=HERE)
        found = self.read(kitchen, MEAT, cure).pump_brine
        assert found is not None
        assert found.water_g == 1000
        dry = self.read(kitchen, MEAT, replace(cure, pump_brine=replace(pump, water=None))).pump_brine
        assert dry is not None
        assert dry.water_g is None


@pytest.fixture
def given_cure(no1: CuringSalt) -> CureInput:
    """1 kg of meat in 1 kg of water with 46 g of salt."""
    return CureInput(
        method="brine",
        cut="whole",
        kind=no1,
        salt=target(TargetKind.PERCENT, "2.3"),
        sugar=None,
        curing_salt=None,
        meat_g=Fraction(1000),
        water_g=Fraction(1000),
    )


def worked(kitchen: Kitchen, cure: CureInput) -> CureResult:
    return work_out_cure(cure, Scales(tables=kitchen.tables), kitchen.shower)


class TestCure:
    def test_pump_brine_without_its_water_or_its_share(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        pump = PumpBrineInput(
            water_g=None, salt=None, sugar=None, curing_salt=None, kind=given_cure.kind, position=HERE
        )
        cure = replace(given_cure, pump_brine=pump, pump_percent=Fraction(10))
        assert slugs(worked(kitchen, cure)) == ["water-unknown"]
        wet = replace(pump, water_g=Fraction(500))
        assert slugs(worked(kitchen, replace(cure, pump_brine=wet, pump_percent=None))) == ["pump-unknown"]

    def test_pump_brine_whose_targets_contradict(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """60 % and 60 % of one brine, and 60 % and 40 %, leave no water; both are plain per cents of that brine."""
        for sugar in ("60", "40"):
            pump = PumpBrineInput(
                water_g=Fraction(500),
                salt=target(TargetKind.PERCENT, 60),
                sugar=target(TargetKind.PERCENT, sugar),
                curing_salt=None,
                kind=given_cure.kind,
                position=HERE,
            )
            result = worked(kitchen, replace(given_cure, pump_brine=pump, pump_percent=Fraction(10)))
            assert slugs(result)[0] == "no-solution"
            assert result.problems[0].message == "No weights reach all the targets of the pump brine."

    def test_each_line_of_a_pump_brine_must_be_weighed(
        self, kitchen: Kitchen, given_cure: CureInput, units: Any
    ) -> None:
        cup = line(amount(1, units["inch"]))
        for key in ("salt", "sugar", "curing_salt"):
            lines: Any = {"salt": None, "sugar": None, "curing_salt": None, key: cup}
            pump = PumpBrineInput(water_g=Fraction(500), **lines, kind=given_cure.kind)
            result = worked(kitchen, replace(given_cure, pump_brine=pump, pump_percent=Fraction(10)))
            assert len(result.problems) == 1
            assert result.weigh is None

    def test_sugar_of_a_pump_brine(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """10 % salt and 5 % sugar: 85 % of the brine are its 850 g of water. Of three batches all is three times that."""
        pump = PumpBrineInput(
            water_g=Fraction(850),
            salt=target(TargetKind.PERCENT, 10),
            sugar=target(TargetKind.PERCENT, 5),
            curing_salt=None,
            kind=given_cure.kind,
        )
        cure = replace(given_cure, pump_brine=pump, pump_percent=Fraction(10), batches=Fraction(3))
        found = worked(kitchen, cure).pump_brine
        assert found is not None
        assert (found.water_g, found.salt_g, found.sugar_g, found.curing_salt_g) == (2550, 300, 150, 0)
        assert (found.strength_percent, found.nitrite_ppm) == (10, 0)

    def test_a_pump_brine_of_water_alone(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        pump = PumpBrineInput(
            water_g=Fraction(850), salt=None, sugar=None, curing_salt=None, kind=given_cure.kind
        )
        found = worked(kitchen, replace(given_cure, pump_brine=pump, pump_percent=Fraction(10))).pump_brine
        assert found is not None
        assert (found.whole_g, found.strength_percent, found.nitrite_ppm) == (850, 0, 0)

    def test_each_line_must_be_weighed(self, kitchen: Kitchen, given_cure: CureInput, units: Any) -> None:
        inch = line(amount(1, units["inch"]))
        for key in ("salt", "sugar", "curing_salt", "nitrate", "accelerator"):
            result = worked(kitchen, replace(given_cure, **{key: inch}))
            assert len(result.problems) == 1, key
            assert result.forms is None

    def test_nitrate_of_no_told_kind_counts_whole(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """600 ppm of 1 kg are 0.6 g of it, all nitrate; the most, 500 ppm, is half a gram."""
        nitrate = target(TargetKind.PPM, 600)
        result = worked(kitchen, replace(given_cure, method="dry", nitrate=nitrate))
        assert result.forms is not None
        assert result.forms.nitrate.cm == Fraction(600, 1_000_000)
        assert "At most 0.5 g" in result.problems[0].hint

    def test_a_fish_of_which_nothing_is_told_takes_no_nitrate(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        cure = replace(given_cure, fish="perch", nitrate=target(TargetKind.PPM, 5))
        assert slugs(worked(kitchen, cure)) == ["fish-nitrite"]

    def test_what_a_cure_does_not_bring_has_no_guard(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """The page carries the comparisons of its own cure alone."""

        def groups(cure: CureInput) -> set[str]:
            contract = worked(kitchen, cure).contract
            assert contract is not None
            return {guard.group for guard in contract.guards}

        plain = groups(given_cure)
        assert plain == {"no-solution", "negative salt", "saturation"}
        cured = replace(given_cure, curing_salt=target(TargetKind.PPM, 100))
        assert groups(cured) - plain == {"nitrite", "too little"}
        dry = replace(cured, method="dry", water_g=None, accelerator=target(TargetKind.PPM, 100))
        assert groups(dry) == {"no-solution", "nitrite", "accelerator", "negative salt", "too little"}
        pumped = replace(cured, pump_percent=Fraction(10), nitrate=target(TargetKind.PPM, 100))
        assert groups(pumped) - groups(cured) == {"pump", "nitrate"}

    def test_unknown_water_is_told_where_it_is_written_or_else_at_the_cure(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        for written, place in ((None, HERE), (Position("a.md", 9, 9), Position("a.md", 9, 9))):
            cure = replace(given_cure, water_g=None, position=HERE, water_position=written)
            assert [problem.position for problem in worked(kitchen, cure).problems] == [place]

    def test_left_until_even_it_is_judged_on_all_of_it(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """However long it lies and however thick it is: 100 ppm of meat and brine. A short cure brings less."""
        cure = replace(
            given_cure, curing_salt=target(TargetKind.PPM, 100), days=Fraction(1), thickness_mm=Fraction(80)
        )
        even = worked(kitchen, cure)
        assert (even.judged_ppm, even.last_hour) == (100, None)
        short = worked(
            kitchen, replace(cure, curing_salt=target(TargetKind.PPM, 30), pick_up_percent=Fraction(10))
        )
        assert short.judged_ppm is not None
        assert short.whole_system_ppm is not None
        assert 0 < short.judged_ppm < short.whole_system_ppm
        # Nothing is taken off a dose that lets in less than the limit by its last day.
        assert short.forms is not None
        assert short.weigh is not None
        assert short.setting is not None
        assert 0 <= short.forms.curing_salt.at(short.setting) - short.weigh.curing_salt_g < Fraction(1, 100)
        plain = worked(kitchen, replace(cure, curing_salt=None, pick_up_percent=Fraction(10)))
        assert (plain.judged_ppm, plain.last_hour) == (0, None)

    def test_what_is_shown_is_held_to_the_limit_with_salt_and_sugar_as_they_are_shown(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """At 200 ppm exactly: a sixteenth of the curing salt over all that is shown; rounded by itself it would pass."""
        cure = replace(
            given_cure, curing_salt=target(TargetKind.PPM, 200), sugar=target(TargetKind.PERCENT, "1.7")
        )
        contract, forms = worked(kitchen, cure).contract, worked(kitchen, cure).forms
        assert contract is not None
        assert forms is not None
        held = 0
        for meat in range(1000, 4000, 3):
            setting = Setting(batches=Fraction(1), meat_g=Fraction(meat), water_g=Fraction(1500))
            reader = Reader(setting=setting, shower=kitchen.shower)
            shown = {
                key: Fraction(reader.text(text).removesuffix(" g"))
                for key, text in contract.shown.items()
                if text and key not in ("green_weight", "water")
            }
            rest = meat + 1500 + shown["salt"] + shown["sugar"]
            assert shown["curing_salt"] / 16 <= (rest + shown["curing_salt"]) * Fraction(200, 1_000_000)
            alone = kitchen.shower.rounded(forms.curing_salt.at(setting), use="curing salt", system="metric")
            held += shown["curing_salt"] < alone
        assert held

    def test_a_dry_cure_has_no_water(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """Whatever water is told beside it: percentages are of the meat, and nothing stands for a brine."""
        result = worked(kitchen, replace(given_cure, method="dry", sugar=target(TargetKind.PERCENT, 2)))
        assert result.setting is not None
        assert (result.setting.water_g, result.water_g, result.sugar_percent) == (0, None, 2)

    def test_no_curing_salt_asked_for_is_none_to_weigh(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        none = target(TargetKind.PPM, 0)
        result = worked(kitchen, replace(given_cure, curing_salt=none))
        assert slugs(result) == []
        assert result.weigh is not None
        assert (result.weigh.curing_salt_g, result.dose) == (0, None)

    def test_skin_is_told_unless_it_is_asked(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        belly = replace(given_cure, cut="belly", curing_salt=target(TargetKind.PPM, 100))
        told = worked(kitchen, belly)
        assert slugs(told) == []
        assert told.forms is not None
        assert told.forms.nitrite_ppm.under.cm - told.forms.brine.cm == 1, (
            "off, where nobody says that it is on"
        )
        assert slugs(worked(kitchen, replace(belly, skin_on=None))) == ["skin-unknown"]
        assert slugs(worked(kitchen, replace(belly, skin_on=None, curing_salt=None))) == []
        assert slugs(worked(kitchen, replace(belly, skin_on=None, cut="whole"))) == []
        # On with its skin a tenth is left out: 100 ppm over 900 g of meat and the brine.
        on = worked(kitchen, replace(belly, skin_on=True)).forms
        assert on is not None
        assert on.nitrite_ppm.under.cm - on.brine.cm == Fraction(9, 10)

    def test_a_short_cure_of_no_days_lets_nothing_in(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        cure = replace(
            given_cure,
            curing_salt=target(TargetKind.PPM, 50),
            pick_up_percent=Fraction(10),
            days=Fraction(0),
            thickness_mm=Fraction(50),
        )
        result = worked(kitchen, cure)
        assert (result.judged_ppm, result.last_hour) == (0, 0)
        assert result.whole_limit_is_worst_case
        assert result.weigh is not None

    def test_what_can_have_entered_beyond_the_estimate(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """A piece of half a metre is beyond what the transfer estimate is valid for."""
        cure = replace(
            given_cure,
            curing_salt=target(TargetKind.PPM, 100),
            pick_up_percent=Fraction(10),
            days=Fraction(2),
            thickness_mm=Fraction(500),
        )
        result = worked(kitchen, cure)
        assert slugs(result) == ["short-cure-unknown"]
        assert "into the meat, and what enters in time is not known, so a short" in result.problems[0].message

    def test_water_to_make_is_of_one_batch_times_the_batches(
        self, kitchen: Kitchen, given_cure: CureInput, units: Any
    ) -> None:
        """20 g of salt to a batch: three batches in three times the volume take three times the water."""
        cure = replace(
            given_cure, salt=line(amount(20, units["gram"])), water_g=None, to_make_ml=Fraction(1000)
        )
        one = worked(kitchen, cure)
        thrice = replace(cure, batches=Fraction(3), meat_g=Fraction(3000), to_make_ml=Fraction(3000))
        assert one.water_g is not None
        assert worked(kitchen, thrice).water_g == 3 * one.water_g
        # 2 % brine of 1.0146 by the US table at 60 °F: 1014.6 g, less 20 g.
        assert abs(one.water_g - Fraction("994.5")) < 1
        by_meat = replace(thrice, salt=target(TargetKind.PERCENT, 2))
        # 2 % of meat and water, 1000 g and some 974 g: 39.5 g of salt in a litre of some 3.9 % and 1.0277.
        assert abs((worked(kitchen, by_meat).water_g or 0) - 3 * Fraction("988.2")) < 6
        unknown = worked(kitchen, replace(cure, meat_g=None))
        assert unknown.water_g == one.water_g
        of_all = replace(cure, salt=target(TargetKind.PERCENT, 20), meat_g=None)
        bare = worked(kitchen, of_all)
        assert bare.forms is not None
        # Meat that is not known brings no salt of its own.
        asked = {"volume_ml": Fraction(1000), "batches": Fraction(1), "meat_g": Fraction(0)}
        assert bare.water_g == water_to_make_g(bare.forms, kitchen.tables.brine, **asked)

    def test_no_water_makes_that_brine(self, kitchen: Kitchen, given_cure: CureInput, units: Any) -> None:
        cure = replace(
            given_cure, salt=line(amount(900, units["gram"])), water_g=None, to_make_ml=Fraction(1000)
        )
        for written, place in ((None, HERE), (Position("a.md", 9, 9), Position("a.md", 9, 9))):
            result = worked(kitchen, replace(cure, position=HERE, water_position=written))
            first = next(problem for problem in result.problems if problem.slug == "out-of-range")
            assert first.position == place

    def test_a_spoon_too_coarse_to_tell_has_no_range(
        self, kitchen: Kitchen, given_cure: CureInput, units: Any
    ) -> None:
        spoon = line(amount(1, units["us_tsp"]))
        result = worked(kitchen, replace(given_cure, curing_salt=spoon))
        assert result.ppm_range is not None
        assert result.ppm_range.low < result.ppm_range.high == result.judged_ppm


class TestShort:
    def test_the_last_hour_within_a_limit(self) -> None:
        entered = Entered(ppm_by_hour=tuple(Fraction(ppm) for ppm in (0, 100, 200, 201)))
        assert entered.at_last == 201
        assert entered.last_hour_within(Fraction(200)) == 2
        assert entered.last_hour_within(Fraction(199)) == 1
        assert entered.last_hour_within(Fraction(500)) == 3
        assert Entered(ppm_by_hour=(Fraction(7),)).last_hour_within(Fraction(5)) == 0, "the start counts"
        assert Entered(ppm_by_hour=(Fraction(7), Fraction(8))).last_hour_within(Fraction(5)) == 0

    def test_just_the_limit_may_enter(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """By a pick-up of a tenth 100 ppm: 16.8 g of no. 1, 1.05 g nitrite in 2.05 kg, 512 ppm when even."""
        cure = replace(given_cure, curing_salt=target(TargetKind.PPM, 100), pick_up_percent=Fraction(10))
        result = worked(kitchen, cure)
        assert result.forms is not None
        assert result.setting is not None
        judged = JudgedCure(
            given=cure,
            forms=result.forms,
            needle=None,
            limit=result.limit,
            pump_brine=None,
            tables=kitchen.tables,
            entered_share=Fraction(1),
        )
        for ppm, found in ((200, []), (201, ["short-cure-too-long"])):
            log = ProblemLog()
            entered = Entered(ppm_by_hour=(Fraction(0), Fraction(199), Fraction(ppm)))
            judge(judged, (), entered, Reader(setting=result.setting, shower=kitchen.shower), log)
            assert slugs(log) == found
        (problem,) = log
        assert problem.message.startswith(
            "By its last day up to 201 ppm nitrite can have entered (left until even 51"
        )
        assert "The last day allowed is the first, and on it no more than 1 h." in problem.message

    @pytest.mark.parametrize(
        ("hours", "said"),
        [
            (0, "No day is allowed: within the first hour more than the limit can have entered"),
            (1, "The last day allowed is the first, and on it no more than 1 h"),
            (23, "The last day allowed is the first, and on it no more than 23 h"),
            (24, "The last day allowed is day 1"),
            (47, "The last day allowed is day 1"),
            (48, "The last day allowed is day 2"),
        ],
    )
    def test_a_last_hour_in_words(self, hours: int, said: str) -> None:
        assert last_time(hours) == said


class TestIce:
    """c = 4.186 J/gK and L = 334 J/g (handbook values, as in the formulas); 38 °F is 10/3 °C."""

    TARGET = Fraction(10, 3)

    def test_the_most_hot_water(self, kitchen: Kitchen) -> None:
        c, latent = Fraction("4.186"), Fraction(334)
        heat = PouredWater(hot_g=Fraction(0), hot_c=Fraction(80), cold_c=Fraction(10))
        most = most_hot_g(Fraction(4000), heat, self.TARGET)
        assert most * c * (80 - self.TARGET) == (4000 - most) * (latent + c * self.TARGET)
        assert most_hot_g(Fraction(4000), replace(heat, hot_c=Fraction(3)), self.TARGET) == 4000
        log = ProblemLog()
        full = share_ice(Fraction(4000), replace(heat, hot_g=most), kitchen.tables, log)
        assert full is not None, "just the most is still cooled"
        assert (full.cold_g, full.ice_g) == (0, 4000 - most)
        assert not len(log)
        assert share_ice(Fraction(4000), replace(heat, hot_g=most + 1), kitchen.tables, log) is None
        assert slugs(log) == ["ice-over-water"]


class TestBrine:
    def test_between_the_rows_and_on_them(self, kitchen: Kitchen) -> None:
        rows = kitchen.tables.brine
        for low, high in pairwise(rows):
            assert specific_gravity(low.percent, rows) == low.specific_gravity
            assert specific_gravity(high.percent, rows) == high.specific_gravity
            quarter = low.percent + (high.percent - low.percent) / 4
            wanted = low.specific_gravity + (high.specific_gravity - low.specific_gravity) / 4
            assert specific_gravity(quarter, rows) == wanted
        with pytest.raises(OutOfRange):
            specific_gravity(rows[-1].percent + 1, rows)

    def test_water_in_a_litre(self, kitchen: Kitchen) -> None:
        # 8.328 lb in a US gallon (brine table): 8.328 x 453.59237 / 3.785411784 = 997.9 g.
        assert abs(water_g_per_l(kitchen.tables) - Fraction("997.91")) < Fraction("0.01")

    def test_a_volume_is_the_weight_over_the_gravity(
        self, kitchen: Kitchen, given_cure: CureInput, units: Any
    ) -> None:
        """250 g of salt in 750 g of water are 25 %; 1 kg of salt in 1 kg is beyond saturation, at 26.395 % 1.203."""
        for salt, water, gravity in (
            (250, 750, None),
            (1000, 1000, Fraction("1.203")),
            (0, 800, Fraction(1)),
        ):
            part = line(amount(salt, units["gram"])) if salt else None
            forms = worked(kitchen, replace(given_cure, salt=part)).forms
            assert forms is not None
            setting = Setting(batches=Fraction(1), meat_g=Fraction(1000), water_g=Fraction(water))
            gravity = gravity or specific_gravity(Fraction(25), kitchen.tables.brine)
            assert volume_ml(forms, setting, kitchen.tables) == (salt + water) / gravity
        assert volume_ml(forms, replace(setting, water_g=Fraction(0)), kitchen.tables) == 0

    def test_figures_where_they_are(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        result = worked(kitchen, given_cure)
        figures = brine_figures(result, kitchen.tables)
        assert figures is not None
        # 46 g of salt in 1000 g of water.
        assert figures.plain_percent == Fraction(4600, 1046)
        for change in (
            {"ice_unmeasured": True},
            {"forms": None},
            {"setting": None},
            {"strength_percent": None},
            {"salometer_degrees": None},
        ):
            assert brine_figures(replace(result, **change), kitchen.tables) is None  # type: ignore[arg-type]
        plain = worked(kitchen, replace(given_cure, salt=None))
        of_water = brine_figures(plain, kitchen.tables)
        assert of_water is not None
        assert of_water.plain_percent == 0
        # A salometer in 26.395 % at 60 °F reads 100, and that very strength still has its figures.
        full = replace(given_cure, salt=target(TargetKind.DEGREES, 100))
        saturated = brine_figures(worked(kitchen, full), kitchen.tables)
        assert saturated is not None
        assert at_temperature(saturated, Fraction(60), kitchen.tables).reading_at == 100
        assert brine_figures(worked(kitchen, replace(given_cure, salt=target(TargetKind.PERCENT, 20))), kitchen.tables) is None  # fmt: skip

    def test_a_dose_of_curing_salt_that_takes_more_salt_than_there_is(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """A total below nothing has no strength: of -1 g in 1000 g of water no table tells."""
        result = worked(kitchen, given_cure)
        assert result.forms is not None
        wrong = replace(
            result, forms=replace(result.forms, total_salt=result.forms.total_salt.times(Fraction(-1)))
        )
        assert brine_figures(wrong, kitchen.tables) is None


class TestToMake:
    @given(salt=st.integers(0, 300), litres=st.integers(1, 40))
    def test_what_is_mixed_fills_the_volume(self, kitchen: Kitchen, salt: int, litres: int) -> None:
        """To within the 0.1 g that it is worked out to, and the little that this changes the rest."""
        tables = kitchen.tables
        no1 = tables.curing_salt("no. 1")
        gram = tables.units["gram"]
        assert no1 is not None
        cure = CureInput(
            method="brine", cut="whole", kind=no1, salt=line(amount(salt, gram)) if salt else None,
            sugar=None, curing_salt=None, meat_g=Fraction(1000), water_g=Fraction(1000),
        )  # fmt: skip
        forms = worked(kitchen, cure).forms
        assert forms is not None
        asked = {"volume_ml": Fraction(1000 * litres), "batches": Fraction(1), "meat_g": Fraction(1000)}
        water = water_to_make_g(forms, tables.brine, **asked)
        assert (water * 10).denominator == 1, "to 0.1 g"
        setting = Setting(batches=Fraction(1), meat_g=Fraction(1000), water_g=water)
        assert abs(volume_ml(forms, setting, tables) - 1000 * litres) < Fraction(1, 5)

    @pytest.mark.parametrize(
        ("volume_ml", "water_g"), [("0.5", "0.5"), ("0.3", "0.3"), ("0.06", "0.1"), ("0.04", None)]
    )
    def test_water_alone_to_a_tenth_of_a_gram(
        self, kitchen: Kitchen, given_cure: CureInput, volume_ml: str, water_g: str | None
    ) -> None:
        """A brine without salt is its water, of 0.999 g/mL at 60 °F (handbook, from memory); less than half a step is none."""
        forms = worked(kitchen, replace(given_cure, salt=None)).forms
        assert forms is not None

        def found() -> Fraction:
            asked = {"volume_ml": Fraction(volume_ml), "batches": Fraction(1), "meat_g": Fraction(1000)}
            return water_to_make_g(forms, kitchen.tables.brine, **asked)

        if water_g is None:
            with pytest.raises(OutOfRange, match="no room for water"):
                found()
        else:
            assert found() == Fraction(water_g)


class TestPot:
    """Meat of 1.05 g/mL, a pot filled to 95 %, 60 g of brine for 100 g of meat: constants.csv with their sources."""

    def pot(self, kitchen: Kitchen, **changes: int) -> Pot:
        values = {"pot_ml": 4000, "meat_g": 1050, "pump_g": 0, **changes}
        return Pot(**{key: Fraction(value) for key, value in values.items()}, tables=kitchen.tables)  # type: ignore[arg-type]

    def test_by_hand(self, kitchen: Kitchen) -> None:
        pot = self.pot(kitchen)
        assert (pot.meat_ml, pot.filled_share, pot.cover_g) == (1000, Fraction(19, 20), 630)
        assert pot.room_ml == 3800 - 1000
        assert pot.pot_for(Fraction(900)) == 2000
        # 3800 mL take m / 1.05 + 0.6 m, and a tenth of m more with its pump.
        assert pot.most_meat_g() == 3800 / (1 / Fraction("1.05") + Fraction(6, 10))
        pumped = self.pot(kitchen, pump_g=105)
        assert pumped.most_meat_g() == 3800 / (1 / Fraction("1.05") + Fraction(7, 10))
        assert self.pot(kitchen, meat_g=0).most_meat_g() == pot.most_meat_g()

    def test_the_most_water_to_the_gram(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        plain = worked(kitchen, replace(given_cure, salt=None)).forms
        assert plain is not None
        assert water_that_fits(plain, Fraction(1), self.pot(kitchen)) == 2800, (
            "water alone, the room to the full"
        )
        assert water_that_fits(plain, Fraction(1), self.pot(kitchen, pot_ml=1000)) == 0
        salted = worked(kitchen, given_cure).forms
        assert salted is not None
        pot = self.pot(kitchen)
        most = water_that_fits(salted, Fraction(1), pot)
        for grams, fits in ((most, True), (most + 1, False)):
            setting = Setting(batches=Fraction(1), meat_g=pot.meat_g, water_g=grams)
            assert (volume_ml(salted, setting, kitchen.tables) <= pot.room_ml) is fits

    @pytest.mark.parametrize(
        ("pot_ml", "pump_g", "said"),
        [
            # 629.25 mL of room, down, and 630 g, up; (1000 + 630) / 0.95 = 1715.8 mL, up to 1.8 L and 2 US qt.
            # 1629.25 / (1 / 1.05 + 0.6) = 1049.5 g of meat, down to ten.
            (1715, 0, "The pot leaves 0.6 L for brine beside the meat, and covering it takes 0.7 L. "
                      "Take a pot of at least 1.8 L (2 qt), or at most 1040 g of meat in this one."),
            (1715, 105, "and covering it and the pump take 0.8 L."),
            (500, 0, "The pot leaves 0 L for brine"),
        ],
    )  # fmt: skip
    def test_a_small_pot(self, kitchen: Kitchen, pot_ml: int, pump_g: int, said: str) -> None:
        log = ProblemLog()
        refuse_small_pot(self.pot(kitchen, pot_ml=pot_ml, pump_g=pump_g), log)
        (problem,) = log
        assert said in f"{problem.message} {problem.hint}"

    def test_a_pot_that_just_does(self, kitchen: Kitchen) -> None:
        """1000 mL of meat and 630 mL of brine in 95 % of it."""
        log = ProblemLog()
        tight = replace(self.pot(kitchen), pot_ml=(1000 + Fraction(630)) / Fraction(95, 100))
        refuse_small_pot(tight, log)
        assert not len(log)
        assert tight.room_ml == 630

    def test_a_brine_that_just_fits_and_one_that_does_not(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """Plain water: 2800 g fill the room of a 4 L pot beside 1050 g of meat."""
        pot = self.pot(kitchen)
        for grams, found in ((2800, []), (2801, ["pot-too-small"])):
            log = ProblemLog()
            cure = replace(given_cure, salt=None, meat_g=Fraction(1050), water_g=Fraction(grams))
            vessel = fit_vessel(worked(kitchen, cure), pot, water_from_pot=False, log=log)
            assert slugs(log) == found
            assert (vessel.brine_ml, vessel.left_for_pump_g) == (grams, grams - 630)
        (problem,) = log
        # 3801 mL together, up; room 3.8 L; 3801 / 0.95 = 4001.05 mL are 4.1 L and 4.228, up 4.25 US qt.
        assert (
            problem.message == "Meat and brine are 3.9 L together, and the pot takes 3.8 L with its headroom."
        )
        assert problem.hint == "Take a pot of at least 4.1 L (4¼ qt), or at most 2800 g of water in this one."
        nothing = fit_vessel(replace(worked(kitchen, cure), forms=None), pot, water_from_pot=False, log=log)
        assert (nothing.brine_ml, nothing.left_for_pump_g) == (None, None)
        nowhere = fit_vessel(replace(worked(kitchen, cure), setting=None), pot, water_from_pot=False, log=log)
        assert nowhere.brine_ml is None

    def test_water_from_the_pot_is_not_judged_again(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        log = ProblemLog()
        cure = replace(given_cure, salt=None, meat_g=Fraction(1050), water_g=Fraction(9000))
        fit_vessel(worked(kitchen, cure), self.pot(kitchen), water_from_pot=True, log=log)
        assert not len(log)

    def test_what_the_brine_leaves_for_the_pump(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """730 g of water leave 100 g beside the 630 g that cover the meat."""
        cure = replace(given_cure, salt=None, meat_g=Fraction(1050), water_g=Fraction(730))
        for grams, found in ((100, []), (101, ["pump-over-brine"])):
            log = ProblemLog()
            fit_vessel(worked(kitchen, cure), self.pot(kitchen, pump_g=grams), water_from_pot=False, log=log)
            assert slugs(log) == found
        (problem,) = log
        assert problem.message == (
            "The pump takes 101 g, and beside the 630 g that cover the meat there are 100 g of brine."
        )
        log = ProblemLog()
        little = worked(kitchen, replace(cure, water_g=Fraction(500)))
        vessel = fit_vessel(little, self.pot(kitchen, pump_g=1), water_from_pot=False, log=log)
        assert vessel.left_for_pump_g == 0
        # Said once: more pumped than there is brine at all is told by the cure itself.
        known = worked(kitchen, replace(cure, water_g=Fraction(500), pump_percent=Fraction(60)))
        assert slugs(known) == ["pump-over-brine"]
        log = ProblemLog()
        fit_vessel(known, self.pot(kitchen, pump_g=630), water_from_pot=False, log=log)
        assert not len(log)

    def test_ways_out_where_not_even_the_least_brine_fits(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """1715 mL x 0.95 leave 629.25 mL beside the meat, and 630 g must cover it: less meat, not less water alone."""
        cure = replace(given_cure, salt=None, meat_g=Fraction(1050), water_g=Fraction(700))
        for pot_ml, way in (
            (1715, "or less brine and at most 1040 g of meat"),
            (1720, "or at most 630 g of water"),
        ):
            log = ProblemLog()
            fit_vessel(worked(kitchen, cure), self.pot(kitchen, pot_ml=pot_ml), water_from_pot=False, log=log)
            (problem,) = log
            assert way in problem.hint


class TestTable:
    def at_table(self, kitchen: Kitchen, cure: CureInput, **asked: Any) -> CureResult:
        return work_out_at_table(cure, AtTable(**asked), Scales(tables=kitchen.tables), kitchen.shower)

    def test_nothing_asked_changes_nothing(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        assert self.at_table(kitchen, given_cure) == worked(kitchen, given_cure)

    def test_the_cold_of_a_cure(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """40 °F is 40/9 °C (NCHFP 2002, section 6.1.3)."""
        for celsius, found in ((Fraction(40, 9), []), (Fraction(45, 10), ["warm-cure"])):
            result = self.at_table(kitchen, replace(given_cure, temperature_c=celsius))
            assert slugs(result) == found
            assert (result.weigh is None) is bool(found)
        assert result.problems[0].message == "4.5 °C is too warm for a cure of raw meat."

    def test_skin_is_assumed_only_of_a_belly_with_nitrite(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        belly = replace(given_cure, cut="belly", curing_salt=target(TargetKind.PPM, 100))
        assert slugs(self.at_table(kitchen, belly, skin_assumed=True)) == ["skin-assumed"]
        assert slugs(self.at_table(kitchen, belly)) == []
        assert slugs(self.at_table(kitchen, replace(belly, cut="whole"), skin_assumed=True)) == []
        assert slugs(self.at_table(kitchen, replace(belly, curing_salt=None), skin_assumed=True)) == []

    def test_water_of_the_pot_only_where_none_is_told(self, kitchen: Kitchen, given_cure: CureInput) -> None:
        """1 kg takes 952.4 mL, so 2847.6 mL of the 3800 are left, whole grams of plain water."""
        plain = replace(given_cure, salt=None)
        free = self.at_table(kitchen, replace(plain, water_g=None), pot_ml=Fraction(4000))
        assert free.water_g == 2847
        assert free.vessel is not None
        assert free.vessel.water_from_pot
        told = self.at_table(kitchen, plain, pot_ml=Fraction(4000))
        assert told.vessel is not None
        assert (told.water_g, told.vessel.water_from_pot) == (1000, False)
        made = replace(plain, water_g=None, to_make_ml=Fraction(900))
        volume = self.at_table(kitchen, made, pot_ml=Fraction(4000))
        assert volume.vessel is not None
        assert (volume.water_g, volume.vessel.water_from_pot) == (900, False)
        assert self.at_table(kitchen, plain).vessel is None
        assert self.at_table(kitchen, replace(plain, meat_g=None), pot_ml=Fraction(4000)).vessel is None

    def test_the_pump_is_drawn_from_the_brine_unless_it_has_its_own(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """A fifth of 1 kg: 200 g; 700 g of water leave 100 g beside the 600 g that cover the meat."""
        cure = replace(given_cure, salt=None, water_g=Fraction(700), pump_percent=Fraction(20))
        assert slugs(self.at_table(kitchen, cure, pot_ml=Fraction(4000))) == ["pump-over-brine"]
        assert (
            slugs(self.at_table(kitchen, replace(cure, water_g=Fraction(800)), pot_ml=Fraction(4000))) == []
        )
        bare = replace(cure, water_g=Fraction(600), pump_percent=None)
        assert slugs(self.at_table(kitchen, bare, pot_ml=Fraction(4000))) == [], (
            "600 g cover it, and no pump takes any"
        )
        own = PumpBrineInput(
            water_g=Fraction(500),
            salt=target(TargetKind.PERCENT, 10),
            sugar=None,
            curing_salt=None,
            kind=cure.kind,
        )
        assert slugs(self.at_table(kitchen, replace(cure, pump_brine=own), pot_ml=Fraction(4000))) == []

    def test_a_small_pot_leaves_no_word_of_unknown_water(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        cure = replace(given_cure, water_g=None)
        assert slugs(self.at_table(kitchen, cure, pot_ml=Fraction(900))) == ["pot-too-small"]
        warm = replace(given_cure, water_g=None, temperature_c=Fraction(20))
        assert set(slugs(self.at_table(kitchen, warm))) == {"warm-cure", "water-unknown"}
        broken = replace(cure, curing_salt=target(TargetKind.PPM, 150), cut="belly", skin_on=None)
        found = self.at_table(kitchen, broken, pot_ml=Fraction(900))
        assert set(slugs(found)) == {"pot-too-small", "skin-unknown"}
        assert (found.weigh, found.shown, found.dose) == (None, {}, None)

    def test_ice_and_salometer_are_of_the_water_and_the_brine(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        heat = PouredWater(hot_g=Fraction(100), hot_c=Fraction(80), cold_c=Fraction(10))
        found = self.at_table(kitchen, given_cure, heat=heat, salometer_f=Fraction(70))
        assert found.ice is not None
        assert found.ice.cold_g + found.ice.hot_g + found.ice.ice_g == 1000
        assert found.brine is not None
        # 46 g in 1046 g of salt and water, 26.395 % for 100 degrees; a degree less at 70 °F (Fish Safety Notes, Canada).
        assert found.brine.reading_at == 100 * Fraction(4600, 1046) / Fraction("26.395") - 1
        dry = replace(given_cure, method="dry", water_g=None)
        none = self.at_table(kitchen, dry, heat=heat, salometer_f=Fraction(70))
        assert (none.ice, none.brine) == (None, None)
        with pytest.raises(CannotAsk):
            self.at_table(kitchen, given_cure, salometer_f=Fraction(50))


class TestCorrection:
    def test_a_strength_in_per_cent_or_degrees(self, kitchen: Kitchen) -> None:
        half = Target(kind=TargetKind.DEGREES, value=Fraction(50))
        assert strength_percent(half, kitchen.tables) == Fraction("26.395") / 2
        assert strength_percent(replace(half, kind=TargetKind.PERCENT), kitchen.tables) == 50

    def test_only_degrees_are_corrected_for_warmth(self, kitchen: Kitchen, units: Any) -> None:
        """4 kg at 10 % hold 3600 g of water; a percentage is no reading of a salometer."""
        log = ProblemLog()
        ten, twenty = (Target(kind=TargetKind.PERCENT, value=Fraction(n)) for n in (10, 20))
        brine = Quantity(measures=(Measure(Span(Fraction(4), Fraction(5)), units["kilogram"]),))
        found = correct_brine(brine, ten, twenty, kitchen.tables, log, measured_at_f=Fraction(80))
        assert found is not None
        assert (found.brine_g, found.water_g, found.is_percent) == (4000, 3600, 10)
        # 3600 g of water at 20 % want 900 g of salt; 400 g are in.
        assert (found.add_salt_g, found.add_water_g) == (500, 0)
        back = correct_brine(brine, twenty, ten, kitchen.tables, log)
        assert back is not None
        # 800 g of salt are 10 % of 8 kg.
        assert (back.add_salt_g, back.add_water_g) == (0, 4000)
        same = correct_brine(brine, ten, ten, kitchen.tables, log)
        assert same is not None
        assert (same.add_salt_g, same.add_water_g) == (0, 0)
        cold = Target(kind=TargetKind.DEGREES, value=Fraction(58))
        warm = correct_brine(brine, cold, cold, kitchen.tables, log, measured_at_f=Fraction(80))
        assert warm is not None
        # 58 read at 80 °F are 60 (Fish Safety Notes, Canada).
        assert (warm.is_degrees, warm.want_degrees) == (60, 58)

    def test_saturation_word_for_word(self, kitchen: Kitchen, units: Any) -> None:
        log = ProblemLog()
        strong, weak = (Target(kind=TargetKind.PERCENT, value=Fraction(n)) for n in ("27.125", "10"))
        brine = amount(4, units["kilogram"])
        assert correct_brine(brine, strong, weak, kitchen.tables, log) is None
        assert next(iter(log)).message == (
            "27.13 % salt is more than water can hold (26.395 % at 60 °F, 100 degrees salometer)."
        )

    @pytest.mark.parametrize(("nitrite", "ways"), [("1/16", 2), ("1/10", 2), ("21/200", 0), ("3/20", 0)])
    def test_a_nitrite_of_more_than_a_tenth_is_not_mixed_at_home(
        self, kitchen: Kitchen, given_cure: CureInput, nitrite: str, ways: int
    ) -> None:
        """House choice, written beside the constant: a tenth still is."""
        kind = replace(given_cure.kind, nitrite=Fraction(nitrite))
        found = worked(kitchen, replace(given_cure, kind=kind, curing_salt=target(TargetKind.PPM, 100)))
        assert found.contract is not None
        assert found.contract.dose is not None
        assert len(found.contract.dose.blends) == ways

    def test_what_has_entered_is_a_share_of_the_whole_at_every_hour(
        self, kitchen: Kitchen, given_cure: CureInput
    ) -> None:
        """A day and a half are 36 hours after the first; a thin piece has nearly all of it by then, and never more."""
        cure = replace(
            given_cure,
            curing_salt=target(TargetKind.PPM, 30),
            pick_up_percent=Fraction(10),
            days=Fraction(3, 2),
            thickness_mm=Fraction(5),
        )
        short = worked(kitchen, cure)
        assert short.judged_ppm is not None
        assert short.whole_system_ppm is not None
        assert Fraction(9, 10) * short.whole_system_ppm < short.judged_ppm <= short.whole_system_ppm
        soon = worked(kitchen, replace(cure, thickness_mm=Fraction(80), days=Fraction(1, 12)))
        late = worked(kitchen, replace(cure, thickness_mm=Fraction(80)))
        assert soon.judged_ppm is not None
        assert late.judged_ppm is not None
        assert soon.judged_ppm < late.judged_ppm
