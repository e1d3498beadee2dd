"""What any right answer keeps to: no salt comes from nowhere, and more time, more speed, less meat never mean less."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from generator.compute.transfer import (
    CoverBrine,
    DryCure,
    Estimate,
    Parameters,
    Piece,
    Pump,
    PumpBrine,
    ReachInput,
    estimate_reach,
)
from generator.compute.transfer.balance import nitrite_balance, salt_balance
from generator.compute.transfer.diffuse import Limited, Reservoir, diffuse

SHAPE = st.sampled_from((1, 2, 3))
BRINE = CoverBrine(meat_g=2000, water_g=3000, salt_g=150)


@given(SHAPE, st.floats(0.02, 30), st.floats(0, 2), st.floats(1e-4, 5))
@settings(max_examples=60, deadline=None)
def test_limited_bath_keeps_the_salt(shape: int, alpha: float, start: float, fo: float) -> None:
    trace = diffuse(shape=shape, start=start, boundary=Limited(1.0, alpha), fo_end=fo)
    assert trace.mean[-1] + alpha * trace.bath == pytest.approx(start + alpha, rel=1e-9)
    assert min(trace.profile) >= min(start, 0) - 1e-9


@example(1, 0.2, 2.0, 1.0)  # the film holds it to the last grain
@example(3, 0.2, 2.000001, 1.0)
@given(SHAPE, st.floats(0.01, 0.2), st.floats(0.3, 3), st.floats(1e-3, 5))
@settings(max_examples=60, deadline=None)
def test_dry_cure_keeps_the_salt(shape: int, film: float, amount: float, fo: float) -> None:
    trace = diffuse(shape=shape, start=0.0, boundary=Reservoir(amount, film, 10.0), fo_end=fo)
    if trace.bath < 9.99:  # the last undissolved salt is gone
        assert trace.mean[-1] + film * trace.bath == pytest.approx(amount, rel=1e-6)
    assert trace.mean[-1] <= amount + 1e-9


@given(SHAPE, st.floats(0.02, 30), st.floats(0, 40))
@settings(max_examples=60, deadline=None)
def test_nitrite_only_ever_gets_less(shape: int, alpha: float, loss: float) -> None:
    kept = diffuse(shape=shape, start=0.0, boundary=Limited(1.0, alpha), fo_end=1.0)
    lost = diffuse(shape=shape, start=0.0, boundary=Limited(1.0, alpha), fo_end=1.0, loss=loss)
    for fo in (0.05, 0.2, 0.8):
        assert lost.middle_at(fo) <= kept.middle_at(fo) + 1e-3
        assert lost.mean_at(fo) <= kept.mean_at(fo) + 1e-3


def leq(a: Estimate, b: Estimate, slack: float = 2e-3) -> bool:
    return a.low <= b.low + slack and a.central <= b.central + slack and a.high <= b.high + slack


CURES = st.sampled_from((BRINE, DryCure(salt_share=0.025), DryCure(salt_share=0.06)))
PIECES = st.builds(
    Piece,
    shape=st.sampled_from(("slab", "round", "lump")),
    thickness_mm=st.floats(10, 200),
    bone_in=st.sampled_from((True, False, None)),
    skin_on=st.sampled_from((True, False, None)),
)


@given(PIECES, CURES, st.floats(-1, 15))
@settings(max_examples=15, deadline=None)
def test_more_time_never_means_less_salt(
    parameters: Parameters, piece: Piece, cure: CoverBrine | DryCure, warmth: float
) -> None:
    days = (0.0, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 120.0)
    reach = estimate_reach(ReachInput(piece=piece, cure=cure, days=days, temperature_c=warmth), parameters)
    assert reach.days[0].salt == Estimate(low=0, central=0, high=0)
    for before, after in zip(reach.days, reach.days[1:], strict=False):
        assert leq(before.salt, after.salt)
        assert leq(before.salt_mean, after.salt_mean)


@given(PIECES, CURES, st.floats(1.05, 1.5))
@settings(max_examples=15, deadline=None)
def test_thicker_never_means_sooner(
    parameters: Parameters, piece: Piece, cure: CoverBrine | DryCure, times: float
) -> None:
    thin = ReachInput(piece=piece, cure=cure, days=(3.0, 10.0, 30.0))
    thick = replace(thin, piece=replace(piece, thickness_mm=min(300.0, piece.thickness_mm * times)))
    pairs = zip(estimate_reach(thick, parameters).days, estimate_reach(thin, parameters).days, strict=True)
    for thicker, thinner in pairs:
        assert leq(thicker.salt, thinner.salt)


@given(PIECES, CURES, st.floats(-1, 14), st.floats(0.1, 1))
@settings(max_examples=15, deadline=None)
def test_warmer_or_frozen_never_means_later(
    parameters: Parameters, piece: Piece, cure: CoverBrine | DryCure, warmth: float, more: float
) -> None:
    cold = ReachInput(piece=piece, cure=cure, days=(3.0, 10.0, 30.0), temperature_c=warmth)
    for faster in (replace(cold, temperature_c=warmth + more), replace(cold, frozen_before=True)):
        pairs = zip(
            estimate_reach(cold, parameters).days, estimate_reach(faster, parameters).days, strict=True
        )
        for slow, fast in pairs:
            assert leq(slow.salt, fast.salt)


@pytest.mark.parametrize("case", ["low", "central", "high"])
@pytest.mark.parametrize("own", [None, PumpBrine(water_g=100, salt_g=15, nitrite_g=0.2)])
def test_pump_changes_no_total(parameters: Parameters, case: str, own: PumpBrine | None) -> None:
    """Salt before and after the needle, per gram of meat: by hand from the weights."""
    cure = replace(BRINE, nitrite_g=0.6)
    pump = Pump(share=0.1, brine=own)
    added_salt, added_water = (0.1 * 15 / 115, 0.1 * 100 / 115) if own else (0.0, 0.0)
    water = parameters.meat_water.of(case)
    balance = salt_balance(cure, pump, parameters, case=case)
    assert isinstance(balance.boundary, Limited)
    inside = balance.start * balance.even_level * balance.meat_water
    outside = balance.boundary.level * balance.even_level * balance.ratio * balance.meat_water
    assert inside + outside == pytest.approx(150 / 2000 + added_salt, rel=1e-9)
    assert balance.meat_water * (1 + balance.ratio) == pytest.approx(water + 1.5 + added_water, rel=1e-9)
    nitrite = nitrite_balance(cure, pump, parameters, case=case)
    assert nitrite is not None
    if own is None:
        assert nitrite.start == pytest.approx(balance.start, rel=1e-9)
