"""Smoke: its air, the slow middle, dry smoke, cold smoke, fish, frozen meat; met, not met, not to be told, and heat."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compute.safety.course import NITRITE, check, recipe

SHANK = "animal: elk; cut: shank; weight: 4 lb; thickness: 3 in; shape: round"
FISH = "animal: trout; cut: fillet; weight: 2 lb"
BRISKET = "animal: beef; cut: brisket"


def test_raw_uncured_meat_is_smoked_in_hot_air(tmp_path: Path) -> None:
    """USDA FSIS, Smoking Meat and Poultry: air of 225 to 300 °F (second-hand)."""
    rule = "smoker-air"
    met = check(tmp_path / "a", recipe("hot smoke: 4 h at 225–250 °F to 165 °F inside"))
    assert met.is_met(rule)
    assert met.boxes[rule]["stage"] == 0
    assert check(tmp_path / "b", recipe("hot smoke: 4 h to 165 °F inside")).is_untold(rule)
    refused = check(tmp_path / "c", recipe("hot smoke: 4 h at 180–230 °F to 165 °F inside")).words(rule)
    assert "180 °F (82.2 °C), below 225 °F (108 °C)" in refused
    assert "hotter air" in refused


def test_air_rule_is_silent_for_cured_meat_and_fish(tmp_path: Path) -> None:
    cured = recipe(
        "cure: 5 days in the fridge", "hot smoke: 4 h at 180 °F to 165 °F inside", meat=SHANK, cure=NITRITE
    )
    assert check(tmp_path / "a", cured).is_quiet("smoker-air")
    fish = recipe("hot smoke: 3 h at 200 °F to 160 °F inside until held half an hour", meat=FISH)
    assert check(tmp_path / "b", fish).is_quiet("smoker-air")


@pytest.mark.parametrize(("length", "speaks"), [("4 h", False), ("5 h", True), ("3–6 h", True)])
def test_a_slow_middle_is_watched_from_four_hours(tmp_path: Path, length: str, speaks: bool) -> None:
    """FSIS Revised Appendix A, 2021: 50 to 130 °F within 6 hours. The 4 hours are a house choice."""
    text = recipe(f"hot smoke: {length} at 225 °F to 165 °F inside", meat=SHANK)
    said = check(tmp_path, text)
    assert said.is_met("come-up-time") is speaks
    assert not said.refuses("come-up-time")


def test_a_middle_that_cannot_rise_in_time_is_refused_with_ways_out(tmp_path: Path) -> None:
    """Conduction series, fast case: 8 in of meat in air of 180 °F need more than 6 hours to 130 °F."""
    thick = "animal: beef; cut: chuck roll; thickness: 8 in; shape: round"
    words = check(tmp_path, recipe("hot smoke: 14 h at 180 °F to 165 °F inside", meat=thick)).words(
        "come-up-time"
    )
    assert "6 hours are the most" in words
    for way in ("bone out", "halve", "oven", "hot water"):
        assert way in words


def test_raw_meat_does_not_hang_in_lukewarm_smoke(tmp_path: Path) -> None:
    """FSIS Revised Appendix A, 2021: all the time between 50 and 130 °F, at most 6 hours."""
    rule, roast = "come-up-time", "roast: 2 h at 325 °F to 165 °F inside"
    words = check(tmp_path / "a", recipe("cold smoke: 12 h at 85 °F", roast)).words(rule)
    assert "12 h in smoke of at most 130 °F (54.4 °C); 6 hours are the most" in words
    assert check(tmp_path / "b", recipe("cold smoke: 4 h at 85 °F", roast)).is_quiet(rule)
    assert check(tmp_path / "c", recipe("cold smoke: at 85 °F", roast)).is_untold(rule)
    cured = recipe("cure: 5 days in the fridge", "cold smoke: 12 h at 85 °F", roast, meat=SHANK, cure=NITRITE)
    assert check(tmp_path / "d", cured).is_quiet(rule)


def test_a_slow_middle_without_length_or_thickness_cannot_be_told(tmp_path: Path) -> None:
    assert check(tmp_path / "a", recipe("hot smoke: at 225 °F to 165 °F inside", meat=SHANK)).is_untold(
        "come-up-time"
    )
    untold = check(tmp_path / "b", recipe("hot smoke: 12 h at 225 °F to 195 °F inside", meat=BRISKET))
    assert untold.boxes["come-up-time"]["missing"] == ["meat.thickness"]


def test_dry_smoke_alone_asks_for_moisture_or_a_hotter_end(tmp_path: Path) -> None:
    """FSIS Revised Appendix A, 2021, table 5, gap 3: dry-heat barbecue."""
    rule = "smoke-humidity"
    assert check(tmp_path / "a", recipe("hot smoke: 4 h at 225 °F to 145 °F inside", meat=BRISKET)).is_met(
        rule
    )
    assert check(tmp_path / "b", recipe("hot smoke: 4 h at 225 °F", meat=BRISKET)).is_untold(rule)
    assert check(tmp_path / "c", recipe("hot smoke: 4 h at 225 °F to 165 °F inside", meat=BRISKET)).is_quiet(
        rule
    )
    pan = "hot smoke: 4 h at 225 °F to 145 °F inside until done, over a water pan"
    assert check(tmp_path / "d", recipe(pan, meat=BRISKET)).is_quiet(rule)


def test_cold_smoke_is_cooked_later_or_is_raw(tmp_path: Path) -> None:
    """PNW 238: cold smoking, below 80 to 90 °F, does not pasteurise."""
    rule, smoke = "cold-smoke-raw", "cold smoke: 2 h at 80 °F"
    assert check(tmp_path / "a", recipe(smoke, "roast: 2 h at 325 °F to 165 °F inside")).is_met(rule)
    assert check(tmp_path / "b", recipe(smoke, eat=True)).is_met(rule)
    assert check(tmp_path / "c", recipe(smoke, "roast: 2 h at 325 °F")).is_untold(rule)
    words = check(tmp_path / "d", recipe(smoke, "rest: 1 h")).words(rule)
    assert "no later stage does" in words
    assert "eat: after cooking" in words
    before = check(tmp_path / "e", recipe("roast: 2 h at 325 °F to 165 °F inside", smoke))
    assert before.refuses(rule)
    cheese = recipe(smoke, meat="", lines=("1 lb cheese",))
    assert check(tmp_path / "f", cheese).is_quiet(rule)


def test_raw_cured_and_cold_smoked_fish_is_told_to_be_cooked(tmp_path: Path) -> None:
    """FDA Food Code 3-402.11: fish eaten raw is frozen at -4 °F for 7 days, colder than a home freezer's 0 °F."""
    smoke = "cold smoke: 2 h at 80 °F"
    cold = check(tmp_path / "a", recipe(smoke, meat=FISH))
    assert "no later stage does" in cold.words("cold-smoke-raw")
    frozen = check(tmp_path / "b", recipe("freeze", "thaw: in the fridge", smoke, meat=FISH))
    assert frozen.refuses("cold-smoke-raw")
    dry = "method: dry; salt: 3 %"
    cured = check(tmp_path / "c", recipe("cure: 2 days in the fridge", meat=FISH, cure=dry))
    assert cured.is_untold("fish-145")
    raw = check(tmp_path / "d", recipe("cure: 2 days in the fridge", meat=FISH, cure=dry, eat=True))
    assert raw.is_quiet("fish-145")


def test_hot_smoked_fish_is_held_at_160(tmp_path: Path) -> None:
    """Washington State University Extension; PNW 238: 160 °F for at least 30 minutes."""
    rule, start = "hot-smoked-fish", "hot smoke: 3 h at 200–225 °F"
    held = f"{start} to 160 °F inside until it has held there for half an hour"
    assert check(tmp_path / "a", recipe(held, meat=FISH)).is_met(rule)
    assert check(tmp_path / "b", recipe(f"{start} to 160 °F inside", meat=FISH)).is_untold(rule)
    assert check(tmp_path / "c", recipe(start, meat=FISH)).is_untold(rule)
    words = check(tmp_path / "d", recipe(f"{start} to 145 °F inside", meat=FISH)).words(rule)
    assert "145 °F (62.8 °C), below 160 °F (72 °C)" in words
    assert "half an hour" in words
    rest = (f"{start} to 160 °F inside", "rest: 30 min at 165 °F in the oven")
    assert check(tmp_path / "e", recipe(*rest, meat=FISH)).is_met(rule)


def test_only_thawed_meat_goes_into_the_smoker(tmp_path: Path) -> None:
    """USDA FSIS, Smoking Meat and Poultry: thaw before smoking."""
    rule, smoke = "smoke-frozen", "hot smoke: 4 h at 250 °F to 165 °F inside"
    assert check(tmp_path / "a", recipe("freeze", "thaw: in the fridge", smoke)).is_quiet(rule)
    assert check(tmp_path / "b", recipe(smoke)).is_quiet(rule)
    assert "thaw: in the fridge" in check(tmp_path / "c", recipe("freeze", smoke)).words(rule)
    line = recipe(smoke, meat="", lines=("4 lb venison shoulder, frozen",))
    assert "frozen" in check(tmp_path / "d", line).words(rule)
    raw = recipe("cold smoke: 1 h at 70 °F", "freeze", eat=True, keep="freezer: 1 month", name="Raw")
    dish = recipe(smoke, meat="", lines=("1 [raw](raw.md)",))
    assert check(tmp_path / "e", dish, raw=raw).is_untold(rule)


def warnings(text: str) -> set[str]:
    """Rules of heat that speak: boxes, untold and refused alike."""
    with tempfile.TemporaryDirectory() as folder:
        said = check(Path(folder), text)
    heat = {
        "smoker-air",
        "come-up-time",
        "smoke-humidity",
        "hot-smoked-fish",
        "simmer-too-short",
        "cold-smoke-raw",
    }
    return {rule for rule in heat if said.refuses(rule)} | {
        rule for rule in heat if rule in said.boxes and rule == "smoke-humidity"
    }


@settings(max_examples=25, deadline=None)
@given(
    meat=st.sampled_from((SHANK, FISH, BRISKET, SHANK.replace("3 in", "6 in"))),
    air=st.integers(150, 300),
    inside=st.integers(120, 200),
    more_air=st.integers(0, 100),
    more_inside=st.integers(0, 60),
)
def test_adding_heat_never_adds_a_warning_of_heat(
    meat: str, air: int, inside: int, more_air: int, more_inside: int
) -> None:
    """A law of any rule about too little heat: hotter air and a hotter middle take warnings away, and add none."""

    def smoked(at: int, to: int) -> str:
        return recipe(f"hot smoke: 5 h at {at} °F to {to} °F inside until held half an hour", meat=meat)

    before = warnings(smoked(air, inside))
    after = warnings(smoked(air + more_air, min(inside + more_inside, max(air + more_air, inside))))
    assert after <= before


@settings(max_examples=15, deadline=None)
@given(minutes=st.integers(1, 200), more=st.integers(0, 200), thickness=st.integers(1, 6))
def test_a_longer_pot_never_adds_a_warning(minutes: int, more: int, thickness: int) -> None:
    meat = f"animal: elk; cut: shank; thickness: {thickness} in; shape: round"
    short = warnings(recipe(f"simmer: {minutes} min", meat=meat))
    assert warnings(recipe(f"simmer: {minutes + more} min", meat=meat)) <= short
