"""What the pot holds, the way and the speed, rest and soak: by hand from weights, at the ends of every range."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from generator.compute.transfer import (
    EVEN,
    UNCERTAIN,
    CoverBrine,
    DryCure,
    Parameters,
    Piece,
    Pump,
    PumpBrine,
    ReachInput,
    estimate_reach,
    rest,
    soak,
    state_after_cure,
    state_when_even,
)
from generator.compute.transfer.balance import Balance, nitrite_balance, salt_balance
from generator.compute.transfer.caveats import ALWAYS, caveats_for
from generator.compute.transfer.diffuse import Limited, Reservoir
from generator.compute.transfer.geometry import Way, halved, way_of
from generator.compute.transfer.parameters import diffusivity_mm2_day, nitrite_loss_per_day
from generator.problems import OutOfRange

BRINE = CoverBrine(meat_g=1000, water_g=1000, salt_g=100)
OWN = PumpBrine(water_g=100, salt_g=15, sugar_g=10, nitrite_g=0.25)
SLICE = Piece(shape="slab", thickness_mm=25)


def bath_of(balance: Balance | None) -> Limited:
    assert balance is not None
    assert isinstance(balance.boundary, Limited)
    return balance.boundary


# --- the balance: central case, meat 0.72 g water/g, exudate 0.03 g/g, saturation 0.36 g/g, 0.85 of a pump stays


def test_cover_brine_by_hand(parameters: Parameters) -> None:
    """100 g salt in 1000 + 720 g water: 0.0581395; the bath 0.1 / 0.0581395 = 1.72, 1000 / 720 of the meat's water."""
    balance = salt_balance(BRINE, None, parameters, case="central")
    assert (balance.even_level, balance.start) == (pytest.approx(0.0581395, rel=1e-5), 0)
    assert (balance.ratio, balance.meat_water) == pytest.approx((1000 / 720, 0.72))
    assert bath_of(balance) == Limited(pytest.approx(1.72), pytest.approx(1000 / 720))  # type: ignore[arg-type]


def test_pump_from_the_cover_brine_by_hand(parameters: Parameters) -> None:
    """150 g sugar more: the brine weighs 1250 g, so 10 % bring 0.08 g water and 0.008 g salt per g, 0.85 of it stays.

    Meat: 0.72 + 0.068 = 0.788 g water, 0.0068 g salt; brine 1 - 0.068 = 0.932 and 0.1 - 0.0068 = 0.0932.
    Even 0.1 / 1.72 = 0.0581395; start 0.0068 / 0.788 / 0.0581395 = 0.148426; outside 0.1 / 0.0581395 = 1.72.
    """
    balance = salt_balance(replace(BRINE, sugar_g=150), Pump(share=0.1), parameters, case="central")
    assert balance.even_level == pytest.approx(0.0581395, rel=1e-5)
    assert balance.start == pytest.approx(0.148426, rel=1e-5)
    assert (balance.meat_water, balance.ratio) == pytest.approx((0.788, 0.932 / 0.788))
    assert bath_of(balance).level == pytest.approx(1.72)


def test_pump_of_its_own_brine_by_hand(parameters: Parameters) -> None:
    """10 % of a brine of 125 g: 0.08 g water, 0.012 g salt per g; 0.85 stays, 0.15 joins the bath.

    Meat 0.788 g water, 0.0102 g salt; bath 1.012 and 0.1018; even 0.112 / 1.8 = 0.0622222;
    start 0.0102 / 0.788 / 0.0622222 = 0.208032; outside 0.1018 / 1.012 / 0.0622222 = 1.616678.
    """
    balance = salt_balance(BRINE, Pump(share=0.1, brine=OWN), parameters, case="central")
    assert balance.even_level == pytest.approx(0.0622222, rel=1e-5)
    assert balance.start == pytest.approx(0.208032, rel=1e-5)
    assert balance.ratio == pytest.approx(1.012 / 0.788)
    assert bath_of(balance).level == pytest.approx(1.616678, rel=1e-5)


@pytest.mark.parametrize(
    ("outside_g", "pumped_g", "start", "level"),
    [
        # pumped 0.1 x 0.25 / 125 = 0.0002 per g, cover 0.5 / 1000 = 0.0005; all 0.0007 / 1.8 = 0.000388889
        # start 0.00017 / 0.788 / 0.000388889; outside 0.00053 / 1.012 / 0.000388889
        (0.5, 0.25, 0.554749, 1.346697),
        # 0.0002 / 1.8 = 0.000111111: 0.00017 / 0.788 / 0.000111111; 0.00003 / 1.012 / 0.000111111
        (0.0, 0.25, 1.941624, 0.266798),
        # 0.0005 / 1.8 = 0.000277778: nothing inside; 0.0005 / 1.012 / 0.000277778
        (0.5, 0.0, 0.0, 1.778656),
    ],
)
def test_nitrite_of_two_brines_by_hand(
    parameters: Parameters, outside_g: float, pumped_g: float, start: float, level: float
) -> None:
    pump = Pump(share=0.1, brine=replace(OWN, nitrite_g=pumped_g))
    balance = nitrite_balance(replace(BRINE, nitrite_g=outside_g), pump, parameters, case="central")
    assert bath_of(balance).level == pytest.approx(level, rel=1e-5)
    assert balance is not None
    assert balance.start == pytest.approx(start, rel=1e-5)


@pytest.mark.parametrize(
    ("share", "start", "level"),
    [
        # meat 0.788 g water, 0.00017 g; film 0.03 + 0.15 x 0.08 = 0.042 g water, 0.0002 + 0.00003 g
        # even 0.0004 / 0.83 = 0.000481928: 0.00017 / 0.788 / 0.000481928; 0.00023 / 0.042 / 0.000481928
        (0.0002, 0.447652, 11.363094),
        # 0.0002 / 0.83 = 0.000240964: 0.00017 / 0.788 / 0.000240964; 0.00003 / 0.042 / 0.000240964
        (0.0, 0.895305, 2.964286),
    ],
)
def test_nitrite_of_a_dry_cure_and_a_pump_by_hand(
    parameters: Parameters, share: float, start: float, level: float
) -> None:
    cure = DryCure(salt_share=0.025, nitrite_share=share)
    balance = nitrite_balance(cure, Pump(share=0.1, brine=OWN), parameters, case="central")
    assert bath_of(balance).level == pytest.approx(level, rel=1e-5)
    assert balance is not None
    assert balance.start == pytest.approx(start, rel=1e-5)


def test_where_nitrite_is_in_neither_brine_or_not_told_it_has_no_balance(parameters: Parameters) -> None:
    for outside, pumped in ((0.0, 0.0), (None, 0.25), (0.5, None)):
        pump = Pump(share=0.1, brine=replace(OWN, nitrite_g=pumped))
        cure = replace(BRINE, nitrite_g=outside)
        assert nitrite_balance(cure, pump, parameters, case="central") is None


def test_dry_cure_by_hand(parameters: Parameters) -> None:
    """The film of 0.03 g water holds 0.36 x 0.03 = 0.0108 g salt per g of meat; 0.75 g of water in all.

    0.02: even 0.0266667, the film at 0.36 / 0.0266667 = 13.5, all salt in the meat alone 0.02 / 0.72 / 0.0266667.
    0.5: even at most saturated, 0.36; 0.5 / 0.72 / 0.36 = 1.929012. 0.01 is dissolved at once: 0.01 / 0.03 / 0.0133333.
    """
    film = salt_balance(DryCure(salt_share=0.02), None, parameters, case="central").boundary
    assert isinstance(film, Reservoir)
    assert (film.amount, film.ratio, film.saturation) == pytest.approx((1.0416667, 0.03 / 0.72, 13.5))
    much = salt_balance(DryCure(salt_share=0.5), None, parameters, case="central")
    assert isinstance(much.boundary, Reservoir)
    assert (much.even_level, much.boundary.amount, much.boundary.saturation) == pytest.approx(
        (0.36, 1.929012, 1)
    )
    little = salt_balance(DryCure(salt_share=0.01), None, parameters, case="central")
    assert bath_of(little) == Limited(pytest.approx(25), pytest.approx(0.03 / 0.72))  # type: ignore[arg-type]
    assert nitrite_balance(DryCure(salt_share=0.02), None, parameters, case="central") is not None


@pytest.mark.parametrize(
    ("cure", "pump", "words"),
    [
        (DryCure(salt_share=0.0), None, "a share of the meat"),
        (DryCure(salt_share=1.01), None, "a share of the meat"),
        (replace(BRINE, meat_g=math.inf), None, "must weigh something"),
        (replace(BRINE, meat_g=0), None, "must weigh something"),
        (replace(BRINE, water_g=0), None, "some water and some salt"),
        (replace(BRINE, water_g=math.inf), None, "some water and some salt"),
        (replace(BRINE, salt_g=0), None, "some water and some salt"),
        (replace(BRINE, salt_g=math.inf), None, "some water and some salt"),
        (replace(BRINE, sugar_g=-0.1), None, "some water and some salt"),
        (replace(BRINE, sugar_g=math.inf), None, "some water and some salt"),
        (replace(BRINE, salt_g=360.5), None, "do not dissolve"),
        (BRINE, Pump(share=0), "above 0 and up to 0.5"),
        (BRINE, Pump(share=0.51), "above 0 and up to 0.5"),
        (BRINE, Pump(share=0.1, pitch_mm=4.9), "5 to 100 mm apart"),
        (BRINE, Pump(share=0.1, pitch_mm=100.5), "5 to 100 mm apart"),
        (BRINE, Pump(share=0.1, brine=replace(OWN, salt_g=36.5)), "do not dissolve"),
        (DryCure(salt_share=0.03), Pump(share=0.1), "must be told"),
        (CoverBrine(meat_g=1000, water_g=400, salt_g=50, sugar_g=50), Pump(share=0.5), "all of the cover brine"),
    ],
)  # fmt: skip
def test_what_no_pot_holds_is_refused(
    parameters: Parameters, cure: CoverBrine | DryCure, pump: Pump | None, words: str
) -> None:
    with pytest.raises(OutOfRange, match=words):
        salt_balance(cure, pump, parameters, case="central")


@pytest.mark.parametrize(
    ("cure", "pump"),
    [
        (DryCure(salt_share=1.0), None),
        (CoverBrine(meat_g=0.5, water_g=0.5, salt_g=0.1), None),
        (CoverBrine(meat_g=1000, water_g=100, salt_g=36), None),
        (BRINE, Pump(share=0.5, pitch_mm=5)),
        (BRINE, Pump(share=0.1, pitch_mm=100)),
        (CoverBrine(meat_g=1000, water_g=400, salt_g=20, sugar_g=100), Pump(share=0.5)),
    ],
)
def test_the_ends_of_the_range_are_within(
    parameters: Parameters, cure: CoverBrine | DryCure, pump: Pump | None
) -> None:
    assert salt_balance(cure, pump, parameters, case="central").even_level > 0


def test_what_is_not_told_of_a_brine_is_not_in_it() -> None:
    cover, own = CoverBrine(meat_g=1, water_g=1, salt_g=0.1), PumpBrine(water_g=100, salt_g=15)
    assert (cover.sugar_g, cover.nitrite_g, own.sugar_g, own.nitrite_g) == (0, None, 0, None)
    assert (Pump(share=0.1).along_bone, Pump(share=0.1).pitch_mm) == (False, None)


# --- ways and speeds


def test_three_covers_leave_no_more_open_than_two() -> None:
    sealed = Piece(shape="slab", thickness_mm=40, bone_in=True, skin_on=True, silverskin_on=None)
    assert way_of(sealed, case="low") == Way(shape=1, length_mm=40, is_open=False)
    assert way_of(sealed, case="central") == Way(shape=1, length_mm=40)


def test_what_is_not_said_of_a_piece_is_bare() -> None:
    piece = Piece(shape="slab", thickness_mm=25)
    assert (piece.bone_in, piece.skin_on, piece.silverskin_on) == (False, False, False)
    assert Way(shape=1, length_mm=1).is_open


@pytest.mark.parametrize("thickness", [0.5, 300.0])
def test_the_thinnest_and_the_thickest_piece(thickness: float) -> None:
    way = way_of(Piece(shape="round", thickness_mm=thickness), case="low")
    assert way == Way(shape=2, length_mm=thickness / 2)


def test_the_way_along_the_bone_is_from_a_half_to_the_whole() -> None:
    assert halved(Way(shape=1, length_mm=40), 1.0) == Way(shape=1, length_mm=40)
    assert halved(Way(shape=1, length_mm=40, is_open=False), 0.5) == Way(shape=1, length_mm=20, is_open=False)
    for share in (0.49, 1.01, math.nan):
        with pytest.raises(OutOfRange):
            halved(Way(shape=1, length_mm=40), share)


@pytest.mark.parametrize(
    ("case", "celsius", "half_life_h"),
    [
        ("low", 4, 50),
        ("low", 4.5, 48.581),  # 50 x 10^(-0.025 x 0.5)
        ("low", 10, 35.397),  # 50 x 10^(-0.025 x 6)
        ("low", 0, 50),
        ("central", 10, 84.953),  # 120 x 10^-0.15
    ],
)
def test_half_life_by_hand(parameters: Parameters, case: str, celsius: float, half_life_h: float) -> None:
    """Nordin 1969 (from memory): log10 of the half-life falls by 0.025 per degree. ln 2 = 0.693147."""
    loss = nitrite_loss_per_day(parameters, case=case, temperature_c=celsius)
    assert loss == pytest.approx(0.693147 * 24 / half_life_h, rel=2e-5)


def test_a_diffusivity_in_square_millimetres_a_day(parameters: Parameters) -> None:
    """2e-10 m2/s x 1e6 mm2/m2 x 86,400 s/day = 17.28."""
    found = diffusivity_mm2_day(
        parameters.salt_diffusivity, parameters, case="central", temperature_c=5.0, frozen=False
    )
    assert found == pytest.approx(17.28, rel=1e-9)


# --- what is taken for granted


def said(piece: Piece = SLICE, pump: Pump | None = None, frozen: bool | None = False) -> str:
    return " ".join(caveats_for(piece, BRINE, pump, frozen))


def test_each_caveat_stands_where_it_holds_and_nowhere_else() -> None:
    bare = said()
    assert bare.startswith(" ".join(ALWAYS))
    for words, with_it in (
        ("A covered side", said(replace(SLICE, skin_on=True))),
        ("A covered side", said(replace(SLICE, bone_in=True))),
        (
            "whether the skin is on; the low case takes it as on and sealed",
            said(replace(SLICE, skin_on=None)),
        ),
        ("whether the silverskin is on", said(replace(SLICE, silverskin_on=None))),
        ("whether a bone is in", said(replace(SLICE, bone_in=None))),
        ("whether the meat was frozen before", said(frozen=None)),
        ("pockets", said(pump=Pump(share=0.1))),
        ("50, 30 and 20 mm", said(pump=Pump(share=0.1))),
        ("along the bone", said(pump=Pump(share=0.1, along_bone=True))),
    ):
        assert words not in bare
        assert words in with_it
    assert "A covered side" not in said(replace(SLICE, skin_on=None))
    assert "whether a bone is in" not in said(Piece(shape="round", thickness_mm=25, bone_in=None))
    assert "50, 30 and 20 mm" not in said(pump=Pump(share=0.1, pitch_mm=20))
    assert "along the bone" not in said(pump=Pump(share=0.1))


def test_a_brine_is_stirred_and_a_cure_is_rubbed() -> None:
    dry = " ".join(caveats_for(SLICE, DryCure(salt_share=0.03), None, False))
    assert ("stirred" in said(), "rubbed" in said()) == (True, False)
    assert ("stirred" in dry, "rubbed" in dry) == (False, True)


# --- rest and soak


def asked(piece: Piece = SLICE, **changes: object) -> ReachInput:
    return replace(ReachInput(piece=piece, cure=BRINE, days=(3.0,)), **changes)  # type: ignore[arg-type]  # any field


def test_a_soak_of_much_water_by_hand(parameters: Parameters) -> None:
    """25 mm slab, even, 12 h: short times take 2 / l x sqrt(D t / pi) out (Crank 1975, 4.20), l 12.5 mm.

    D t is 4.32, 8.64, 17.28 mm2 at 1, 2, 4e-10 m2/s: 0.16 x sqrt(8.64 / 3.14159) = 0.26534; 0.18762; 0.37525.
    """
    state = state_when_even(asked(), parameters)
    left = soak(state, hours=12).left
    assert (1 - left.central, 1 - left.high) == pytest.approx((0.26534, 0.18762), abs=1e-3)
    assert 1 - left.low == pytest.approx(0.37525, abs=1e-3)
    assert state.middle == state.mean == replace(left, low=1, central=1, high=1)


def test_the_longest_soak_and_rest_are_within(parameters: Parameters) -> None:
    state = state_when_even(asked(), parameters)
    week = soak(state, hours=168, water_per_meat=0.5, changes=50).left
    assert (
        soak(state, hours=168).left.central
        < week.central
        < soak(state, hours=168, water_per_meat=0.5).left.central
    )
    assert rest(state, days=120).mean.central == pytest.approx(1)
    assert rest(state, days=0).mean.central == pytest.approx(1)
    for hours, water, changes in ((168.5, None, 0), (-0.1, None, 0), (1, 0.0, 0), (1, 1.0, -1), (1, 1.0, 51)):
        with pytest.raises(OutOfRange):
            soak(state, hours=hours, water_per_meat=water, changes=changes)
    for days in (-0.1, 120.5):
        with pytest.raises(OutOfRange):
            rest(state, days=days)


def test_a_soak_without_water_is_told_so(parameters: Parameters) -> None:
    with pytest.raises(OutOfRange, match="a soak needs some water"):
        soak(state_when_even(asked(), parameters), hours=1, water_per_meat=0.0)


def test_a_soak_at_rest_by_hand(parameters: Parameters) -> None:
    """3 g water per g of meat, which holds 0.72 g: 4.1667 times its water, so 1 / 5.1667 = 0.19355 is left."""
    thin = state_when_even(asked(Piece(shape="slab", thickness_mm=6)), parameters)
    assert soak(thin, hours=160, water_per_meat=3.0).left.central == pytest.approx(0.19355, abs=5e-4)


def test_the_middle_of_a_piece_is_its_innermost_cell(parameters: Parameters) -> None:
    state = state_after_cure(asked(), parameters, day=3.0)
    cases = (state.low, state.central, state.high)
    innermost = [case.levels[0] for case in cases if isinstance(case.levels, tuple)]
    assert [state.middle.low, state.middle.central, state.middle.high] == innermost


def test_one_water_and_no_change_is_what_is_not_told(parameters: Parameters) -> None:
    state = state_when_even(asked(), parameters)
    assert soak(state, hours=100, water_per_meat=1.0) == soak(state, hours=100, water_per_meat=1.0, changes=0)


def test_where_there_is_no_salt_a_soak_leaves_all_of_it(parameters: Parameters) -> None:
    state = state_after_cure(asked(), parameters, day=0.0)
    assert state.mean == replace(state.mean, low=0, central=0, high=0)
    left = soak(state, hours=12).left
    assert (left.low, left.high) == (1, 1)


def test_no_salt_leaves_a_piece_without_an_open_face(parameters: Parameters) -> None:
    shut = Piece(shape="slab", thickness_mm=25, skin_on=True, silverskin_on=True)
    left = soak(state_when_even(asked(shut), parameters), hours=100).left
    assert left.high == pytest.approx(1)
    assert left.low < 0.5


# --- the estimate


@pytest.mark.parametrize("warmth", [-1.0, 15.0])
def test_the_coldest_and_the_warmest_cure(parameters: Parameters, warmth: float) -> None:
    reach = estimate_reach(asked(temperature_c=warmth, days=(0.0, 120.0)), parameters)
    assert reach.days[1].salt.low == pytest.approx(1, abs=2e-3)
    for wrong in (-1.5, 15.5):
        with pytest.raises(OutOfRange):
            estimate_reach(asked(temperature_c=wrong), parameters)


def test_where_no_temperature_is_told_it_is_5_degrees(parameters: Parameters) -> None:
    assert estimate_reach(asked(), parameters) == estimate_reach(asked(temperature_c=5.0), parameters)


def test_a_figure_goes_on_for_28_days_to_the_day_asked_for_and_to_the_even_day(
    parameters: Parameters,
) -> None:
    assert [point.day for point in estimate_reach(asked(), parameters).series] == list(range(29))
    later = estimate_reach(asked(days=(3.0, 40.5)), parameters)
    assert later.series[-1].day == 41
    thick = estimate_reach(asked(Piece(shape="round", thickness_mm=90)), parameters)
    assert thick.day_even_high is not None
    assert thick.series[-1].day == thick.day_even_high > 28


def test_salt_at_the_even_level_by_hand(parameters: Parameters) -> None:
    """100 g salt, 1000 g meat, 1000 g water: w c / (1 + w c), w 0.70, 0.72, 0.76, c = 0.1 / (1 + w).

    0.041176 / 1.041176 = 3.9548 %, 0.041860 / 1.041860 = 4.0178 %, 0.043182 / 1.043182 = 4.1394 %.
    """
    percent = estimate_reach(asked(), parameters).even_salt_percent
    assert (percent.low, percent.central, percent.high) == pytest.approx((3.9548, 4.0178, 4.1394), abs=2e-4)


@pytest.mark.parametrize(("thickness", "word"), [(50.0, EVEN), (50.5, UNCERTAIN)])
def test_nitrite_may_be_even_up_to_25_mm_from_a_face_and_no_farther(
    parameters: Parameters, thickness: float, word: str
) -> None:
    """Half of 50 mm is 25 mm; a nitrite that nothing uses up would be even after 120 days, near or far."""
    kept = replace(parameters.nitrite_half_life, low=math.inf, central=math.inf)
    given = asked(Piece(shape="slab", thickness_mm=thickness), days=(120.0,))
    (day,) = estimate_reach(given, replace(parameters, nitrite_half_life=kept)).days
    assert (day.salt_word, day.nitrite_word) == (EVEN, word)
