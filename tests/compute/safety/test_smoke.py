"""Smoke: its air, the slow middle, dry smoke, cold smoke, fish, frozen meat; met, not met, not to be told, and heat."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compute.safety.course import check, recipe

SHANK = "animal: elk; cut: shank; weight: 4 lb; thickness: 3 in; shape: round"
FISH = "animal: trout; cut: fillet; weight: 2 lb"
BRISKET = "animal: beef; cut: brisket"


@pytest.mark.parametrize(("length", "speaks"), [("4 h", False), ("5 h", True), ("3–6 h", True)])
def test_a_slow_middle_is_watched_from_four_hours(tmp_path: Path, length: str, speaks: bool) -> None:
    """FSIS Revised Appendix A, 2021: 50 to 130 °F within 6 hours. The 4 hours are a house choice."""
    text = recipe(f"hot smoke: {length} at 225 °F to 165 °F inside", meat=SHANK)
    said = check(tmp_path, text)
    assert said.is_met("come-up-time") is speaks
    assert not said.refuses("come-up-time")


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
