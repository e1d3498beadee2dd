"""Words, days, geometry, refusals: what the estimate says, and what it never says."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.compute.transfer import (
    EVEN,
    NOT_REACHED,
    UNCERTAIN,
    CoverBrine,
    DryCure,
    Estimate,
    Parameters,
    Piece,
    Pump,
    PumpBrine,
    Reach,
    ReachInput,
    estimate_reach,
    nitrite_means,
    parameters_from,
    rest,
    soak,
    state_after_cure,
)
from generator.compute.transfer.diffuse import Constant, diffuse
from generator.compute.transfer.geometry import Way, farthest_mm, halved, way_of
from generator.compute.transfer.parameters import (
    diffusivity_mm2_day,
    nitrite_loss_per_day,
    temperature_factor,
)
from generator.compute.transfer.reach import _first_day, nitrite_word_for, word_for
from generator.model.published import TransferRow
from generator.problems import OutOfRange

BRINE = CoverBrine(meat_g=2268, water_g=3766, salt_g=181, sugar_g=90)
SHANK = Piece(shape="round", thickness_mm=76.2, bone_in=True)
SLICE = Piece(shape="slab", thickness_mm=25.0)


def ask(parameters: Parameters, **changes: object) -> Reach:
    given = ReachInput(piece=SHANK, cure=BRINE, days=(4.0, 7.0, 14.0, 28.0))
    return estimate_reach(replace(given, **changes), parameters)  # type: ignore[arg-type]  # any field


# --- words


@pytest.mark.parametrize(
    ("low", "central", "high", "word"),
    [
        (0.0, 0.1, 0.49, NOT_REACHED),
        (0.0, 0.1, 0.50, UNCERTAIN),
        (0.75, 0.9, 1.0, UNCERTAIN),
        (0.76, 0.9, 1.0, EVEN),
        (0.0, 0.5, 1.0, UNCERTAIN),
        (0.9, 1.2, 1.4, UNCERTAIN),
        (0.9, 1.2, 1 / 0.75, UNCERTAIN),
        (0.9, 1.2, 1.33, EVEN),
    ],
)
def test_words(low: float, central: float, high: float, word: str) -> None:
    assert word_for(Estimate(low=low, central=central, high=high)) == word


def test_nitrite_is_never_more_than_uncertain_far_from_a_face() -> None:
    reached = Estimate(low=0.9, central=0.95, high=1.0)
    assert nitrite_word_for(reached, is_near=False) == UNCERTAIN
    assert nitrite_word_for(reached, is_near=True) == EVEN
    assert nitrite_word_for(None, is_near=True) == UNCERTAIN
    assert nitrite_word_for(Estimate(low=0, central=0.1, high=0.2), is_near=False) == NOT_REACHED


def test_nitrite_lags_behind_salt(parameters: Parameters) -> None:
    for day in ask(parameters).days:
        assert day.nitrite is not None
        assert day.nitrite.low <= day.salt.low
        assert day.nitrite.central <= day.salt.central
        assert day.nitrite_word != EVEN


@pytest.mark.parametrize("pump", [None, Pump(share=0.1)])
def test_nitrite_alone_is_that_of_the_whole_estimate_without_the_work_of_salt(
    parameters: Parameters, pump: Pump | None
) -> None:
    given = ReachInput(piece=SHANK, cure=BRINE, days=(0.0, 0.5, 4.0, 28.0), pump=pump)
    diffuse.cache_clear()
    alone = nitrite_means(given, parameters)
    solved = diffuse.cache_info().misses
    assert alone == tuple(day.nitrite_mean for day in estimate_reach(given, parameters).days)
    assert diffuse.cache_info().misses > solved, (
        "salt needs solutions of its own, which nitrite alone does not make"
    )


def test_nitrite_alone_is_refused_as_the_whole_estimate_is(parameters: Parameters) -> None:
    given = ReachInput(piece=SHANK, cure=BRINE, days=(1.0,), temperature_c=16)
    with pytest.raises(OutOfRange, match="temperature must be"):
        nitrite_means(given, parameters)


def test_nothing_forbidden_is_said(parameters: Parameters) -> None:
    untold = Piece(shape="slab", thickness_mm=60, bone_in=None, skin_on=None, silverskin_on=True)
    for piece in (SHANK, untold):
        for pump in (None, Pump(share=0.1, along_bone=True), Pump(share=0.1, pitch_mm=25)):
            reach = ask(parameters, piece=piece, pump=pump, frozen_before=None)
            said = " ".join((*reach.caveats, *(d.salt_word + d.nitrite_word for d in reach.days))).lower()
            for word in ("safe", "cured through", "fully cured", "ready to eat", "proof", "pasteuri"):
                assert word not in said
            assert len(set(reach.caveats)) == len(reach.caveats) >= 7


# --- days


def test_first_even_days_are_the_first(parameters: Parameters) -> None:
    reach = ask(parameters)
    early, late = reach.day_even_low, reach.day_even_high
    assert early is not None
    assert late is not None
    assert early < late
    points = {point.day: point.salt for point in reach.series}
    assert points[early].high > 0.75 >= points[early - 1].high
    assert points[late].low > 0.75 >= points[late - 1].low


def test_three_quarters_are_not_above_three_quarters() -> None:
    assert _first_day([0.0, 0.75, 0.7501]) == 2
    assert _first_day([0.0, 0.75]) is None


def test_beyond_the_longest_cure_there_is_no_day(parameters: Parameters) -> None:
    reach = ask(parameters, piece=Piece(shape="slab", thickness_mm=200, skin_on=True))
    assert reach.day_even_high is None


def test_series(parameters: Parameters) -> None:
    plain = ask(parameters)
    assert plain.series_without_pump is None
    pumped = ask(parameters, pump=Pump(share=0.08))
    assert pumped.series_without_pump is not None
    assert [p.day for p in pumped.series] == [p.day for p in pumped.series_without_pump]
    assert pumped.series_without_pump[: len(pumped.series)] == plain.series[: len(pumped.series)]
    for with_pump, without in zip(pumped.series[2:], pumped.series_without_pump[2:], strict=True):
        assert with_pump.salt.central >= without.salt.central
    asked = {day.day: day.salt for day in pumped.days}
    assert pumped.series[14].salt == asked[14]


def test_start_is_nothing_and_the_least_reached_spot_counts(parameters: Parameters) -> None:
    pumped = ask(parameters, pump=Pump(share=0.1), days=(0.0, 1.0))
    assert pumped.days[0].salt.high == pytest.approx(0.0, abs=1e-6)
    assert pumped.days[0].salt_mean.low > 0.05
    near = ask(parameters, pump=Pump(share=0.1, pitch_mm=15), days=(1.0,))
    assert near.days[0].salt.central > pumped.days[1].salt.central


def test_line_along_the_bone(parameters: Parameters) -> None:
    stitched = ask(parameters, pump=Pump(share=0.1))
    along = ask(parameters, pump=Pump(share=0.1, along_bone=True))
    for a, b in zip(stitched.days, along.days, strict=True):
        assert b.salt.high >= a.salt.high
        assert b.salt.low == a.salt.low
        assert b.salt_mean == a.salt_mean, "a line inside takes nothing up from the cover brine"


def test_far_future_is_even(parameters: Parameters) -> None:
    for cure in (BRINE, DryCure(salt_share=0.03)):
        day = ask(parameters, piece=SLICE, cure=cure, days=(120.0,)).days[0]
        assert day.salt_word == EVEN
        assert (day.salt.low, day.salt_mean.high) == pytest.approx((1.0, 1.0), abs=2e-3)


def test_strong_pump_is_not_even(parameters: Parameters) -> None:
    strong = Pump(share=0.2, pitch_mm=10, brine=PumpBrine(water_g=100, salt_g=30))
    weak = CoverBrine(meat_g=1000, water_g=3000, salt_g=30)
    day = ask(parameters, cure=weak, pump=strong, days=(3.0,)).days[0]
    assert day.salt.high > 4 / 3
    assert day.salt_word == UNCERTAIN


def test_even_level_by_hand(parameters: Parameters) -> None:
    """2 kg meat, 2 kg water, 150 g salt: 0.0436 g/g water, 3.0 % in the meat (reference, 10.2)."""
    reach = ask(parameters, cure=CoverBrine(meat_g=2000, water_g=2000, salt_g=150))
    assert reach.even_salt_percent.central == pytest.approx(3.0, abs=0.05)
    assert pytest.approx(0.0436, abs=5e-5) == 150 / (2000 + 0.72 * 2000)


def test_nitrite_of_a_separate_pump_brine(parameters: Parameters) -> None:
    untold = ask(parameters, pump=Pump(share=0.1, brine=PumpBrine(water_g=100, salt_g=8)))
    assert untold.days[0].nitrite is None
    assert untold.days[0].nitrite_word == UNCERTAIN
    told = ask(
        parameters,
        cure=replace(BRINE, nitrite_g=0.9),
        pump=Pump(share=0.1, brine=PumpBrine(water_g=100, salt_g=8, nitrite_g=0.1)),
    )
    assert told.days[0].nitrite is not None


def test_dry_cure_with_a_pump_settles_at_the_even_level(parameters: Parameters) -> None:
    pump = Pump(share=0.1, pitch_mm=15, brine=PumpBrine(water_g=100, salt_g=10))
    days = (0.0, 2.0, 10.0, 120.0)
    reach = ask(parameters, piece=SLICE, cure=DryCure(salt_share=0.025), pump=pump, days=days)
    assert reach.days[0].salt.high == pytest.approx(0.0, abs=1e-6)
    assert reach.days[-1].salt.central == pytest.approx(1.0, abs=2e-3)
    plain = ask(parameters, piece=SLICE, cure=DryCure(salt_share=0.025), days=days)
    assert reach.days[1].salt.low > plain.days[1].salt.low


# --- geometry


@pytest.mark.parametrize(
    ("piece", "low", "central", "high"),
    [
        (Piece(shape="slab", thickness_mm=40), (1, 20, True), (1, 20, True), (1, 20, True)),
        (Piece(shape="slab", thickness_mm=40, skin_on=True), (1, 40, True), (1, 40, True), (1, 20, True)),
        (Piece(shape="slab", thickness_mm=40, bone_in=True), (1, 40, True), (1, 40, True), (1, 20, True)),
        (Piece(shape="round", thickness_mm=40, bone_in=True), (2, 20, True), (2, 20, True), (2, 20, True)),
        (Piece(shape="lump", thickness_mm=40), (3, 20, True), (3, 20, True), (3, 20, True)),
        (
            Piece(shape="lump", thickness_mm=40, silverskin_on=True),
            (1, 40, True),
            (1, 40, True),
            (3, 20, True),
        ),
        (Piece(shape="round", thickness_mm=40, skin_on=None), (1, 40, True), (2, 20, True), (2, 20, True)),
        (
            Piece(shape="slab", thickness_mm=40, skin_on=True, silverskin_on=True),
            (1, 40, False),
            (1, 40, True),
            (1, 20, True),
        ),
    ],
)
def test_ways(
    piece: Piece,
    low: tuple[int, float, bool],
    central: tuple[int, float, bool],
    high: tuple[int, float, bool],
) -> None:
    for case, (shape, length, is_open) in (("low", low), ("central", central), ("high", high)):
        assert way_of(piece, case=case) == Way(shape=shape, length_mm=length, is_open=is_open)


def test_line_along_the_bone_halves_the_way() -> None:
    """10.4: L / 2, so a quarter of the time."""
    assert halved(Way(shape=2, length_mm=38), 0.5) == Way(shape=2, length_mm=19)
    with pytest.raises(OutOfRange):
        halved(Way(shape=2, length_mm=38), 0.2)


def test_farthest() -> None:
    assert farthest_mm(SHANK, along_bone=False, pitch_mm=None) == pytest.approx(38.1)
    assert farthest_mm(SHANK, along_bone=True, pitch_mm=None) == pytest.approx(19.05)
    assert farthest_mm(SHANK, along_bone=False, pitch_mm=20) == pytest.approx(20 / math.sqrt(2))
    shut = Piece(shape="slab", thickness_mm=40, skin_on=True, silverskin_on=True)
    assert farthest_mm(shut, along_bone=False, pitch_mm=None) == math.inf


def test_nothing_enters_a_shut_piece_in_the_low_case(parameters: Parameters) -> None:
    shut = Piece(shape="slab", thickness_mm=40, skin_on=True, silverskin_on=True)
    reach = ask(parameters, piece=shut)
    assert all(day.salt.low == 0 and day.salt_mean.low == 0 for day in reach.days)
    assert reach.day_even_high is None
    pumped = ask(parameters, piece=shut, pump=Pump(share=0.1))
    assert pumped.days[-1].salt.low > 0.05


# --- parameters


@pytest.mark.parametrize(
    ("celsius", "factor"),
    [(0, 0.840), (2, 0.901), (4, 0.966), (8, 1.107), (10, 1.183), (5, 1.0)],
)
def test_temperature_factor(celsius: float, factor: float) -> None:
    """Ea 22 kJ/mol (reference, 1.3)."""
    assert temperature_factor(temperature_c=celsius, activation_kj_mol=22) == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize(
    ("celsius", "low", "high"), [(0, 0.7886, 0.9612), (10, 1.0389, 1.2574), (5, 1.0, 1.0)]
)
def test_range_of_the_temperature_factor(
    parameters: Parameters, celsius: float, low: float, high: float
) -> None:
    """Arrhenius by hand for 5 and 30 kJ/mol: the smaller factor is always the low case's."""
    per_day = {"low": 1e-10 * 86_400e6, "high": 4e-10 * 86_400e6}
    for case, factor in (("low", low), ("high", high)):
        found = diffusivity_mm2_day(
            parameters.salt_diffusivity, parameters, case=case, temperature_c=celsius, frozen=False
        )
        assert found == pytest.approx(per_day[case] * factor, rel=2e-4)


@pytest.mark.parametrize(
    ("frozen", "factors"), [(True, (1.0, 1.15, 1.3)), (False, (1.0, 1.0, 1.0)), (None, (1.0, 1.0, 1.3))]
)
def test_freeze_thaw_factor(parameters: Parameters, frozen: bool | None, factors: tuple[float, ...]) -> None:
    """LWT 51, 2013: 30 % above fresh; where it was not told it counts in the high case alone."""
    for case, factor in zip(("low", "central", "high"), factors, strict=True):
        fast, fresh = (
            diffusivity_mm2_day(
                parameters.salt_diffusivity, parameters, case=case, temperature_c=5, frozen=was
            )
            for was in (frozen, False)
        )
        assert fast / fresh == pytest.approx(factor)


def test_nitrite_half_life(parameters: Parameters) -> None:
    """Half is left after 50 h at 4 degC in the low case (Nordin 1969, from memory), all in the high case."""
    loss = nitrite_loss_per_day(parameters, case="low", temperature_c=4.0)
    assert math.exp(-loss * 50 / 24) == pytest.approx(0.5)
    assert nitrite_loss_per_day(parameters, case="low", temperature_c=10.0) > loss
    assert nitrite_loss_per_day(parameters, case="low", temperature_c=0.0) == loss
    assert nitrite_loss_per_day(parameters, case="high", temperature_c=10.0) == 0


def test_nitrite_band_of_a_50_mm_slab(parameters: Parameters) -> None:
    """14 days: 0.05 to 0.77 of the surface level without loss, 0.00 to 0.35 with (reference, 10.9; central 0.35)."""

    def middle(metres2: float, half_life_h: float) -> float:
        per_day = metres2 * 86_400 / 0.025**2
        loss = math.log(2) * 24 / half_life_h / per_day
        return diffuse(shape=1, start=0.0, boundary=Constant(1.0), fo_end=14 * per_day, loss=loss).middle[-1]

    nitrite = parameters.nitrite_diffusivity
    assert middle(nitrite.low, math.inf) == pytest.approx(0.05, abs=0.006)
    assert middle(nitrite.high, math.inf) == pytest.approx(0.77, abs=0.006)
    assert middle(nitrite.low, 50) == pytest.approx(0.0, abs=0.006)


def test_every_parameter_names_its_source(parameters: Parameters) -> None:
    for field in dataclasses.fields(parameters):
        row = getattr(parameters, field.name)
        assert row.source
        assert row.locator
        assert row.unit
        assert row.certainty in ("seen", "second-hand", "from memory", "judgement")


def test_table_with_a_gap_or_a_double_is_a_bug() -> None:
    with pytest.raises(ValueError, match="missing"):
        parameters_from([])
    one, said = Fraction(1), dict.fromkeys(("unit", "source", "locator", "certainty"), "x")
    row = TransferRow(key="saturation", low=one, central=one, high=one, **said)
    with pytest.raises(ValueError, match="twice"):
        parameters_from([row, row])


# --- refusals


@pytest.mark.parametrize("thickness", [0.0, -1.0, 300.1, float("nan"), float("inf")])
def test_refused_thickness(thickness: float) -> None:
    with pytest.raises(OutOfRange):
        Piece(shape="slab", thickness_mm=thickness)


def test_refused_shape() -> None:
    with pytest.raises(OutOfRange):
        Piece(shape="cube", thickness_mm=20)


@pytest.mark.parametrize(
    "wrong",
    [
        {"temperature_c": -1.1},
        {"temperature_c": 15.1},
        {"temperature_c": float("nan")},
        {"days": (-0.1,)},
        {"days": (120.5,)},
        {"days": (3.0, float("nan"))},
        {"days": ()},
        {"cure": CoverBrine(meat_g=0, water_g=1, salt_g=0.1)},
        {"cure": CoverBrine(meat_g=1, water_g=0, salt_g=0.1)},
        {"cure": CoverBrine(meat_g=1, water_g=1, salt_g=0.0)},
        {"cure": CoverBrine(meat_g=1, water_g=1, salt_g=0.37)},
        {"cure": DryCure(salt_share=0.0)},
        {"cure": DryCure(salt_share=1.1)},
        {"cure": DryCure(salt_share=float("nan"))},
        {"cure": CoverBrine(meat_g=float("nan"), water_g=1, salt_g=0.1)},
        {"cure": CoverBrine(meat_g=1, water_g=float("nan"), salt_g=0.1)},
        {"cure": CoverBrine(meat_g=1, water_g=1, salt_g=float("nan"))},
        {"pump": Pump(share=0.0)},
        {"pump": Pump(share=0.6)},
        {"pump": Pump(share=0.1, pitch_mm=2)},
        {"pump": Pump(share=0.1, pitch_mm=float("nan"))},
        {"pump": Pump(share=0.1, brine=PumpBrine(water_g=1, salt_g=0.5))},
        {"pump": Pump(share=0.4), "cure": CoverBrine(meat_g=1000, water_g=300, salt_g=20)},
        {"pump": Pump(share=0.1), "cure": DryCure(salt_share=0.03)},
    ],
)
def test_refused(parameters: Parameters, wrong: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        ask(parameters, **wrong)


def test_refused_rest_and_soak(parameters: Parameters) -> None:
    given = ReachInput(piece=SLICE, cure=BRINE, days=(3.0,))
    state = state_after_cure(given, parameters, day=3.0)
    for hours, water, changes in (
        (-1, None, 0),
        (169, None, 0),
        (1, 0.0, 0),
        (1, math.inf, 0),
        (1, None, 51),
    ):
        with pytest.raises(OutOfRange):
            soak(state, hours=hours, water_per_meat=water, changes=changes)
    with pytest.raises(OutOfRange):
        rest(state, days=121)
    with pytest.raises(OutOfRange):
        state_after_cure(given, parameters, day=121)


def test_chain_of_cure_rest_and_soak(parameters: Parameters) -> None:
    given = ReachInput(piece=SHANK, cure=BRINE, days=(5.0,), pump=Pump(share=0.08))
    cured = state_after_cure(given, parameters, day=5.0)
    rested = rest(cured, days=3.0)
    assert (rested.mean.low, rested.mean.high) == pytest.approx((cured.mean.low, cured.mean.high), abs=1e-6)
    assert rested.middle.central > cured.middle.central
    soaked = soak(rested, hours=2.0)
    assert 0 < soaked.left.low < soaked.left.high < 1
    assert soaked.state.mean.central < rested.mean.central
    assert soak(rested, hours=0.0).left.low == pytest.approx(1.0)
    asked = estimate_reach(given, parameters).days[0]
    assert cured.mean.central == pytest.approx(asked.salt_mean.central, abs=1e-3)


def test_asked_again_it_answers_the_same(parameters: Parameters) -> None:
    first = ask(parameters)
    estimate_reach.cache_clear()
    assert ask(parameters) == first
