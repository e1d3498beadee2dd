"""Thawing by each way: fridge, cold water, microwave, counter, warm water; each rule met, not met and not to be told."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.compute.safety.course import NITRITE, check, recipe

ROAST = "roast: 2 h at 325 °F to 165 °F inside"
STEAK = "animal: beef; cut: strip steak; thickness: 1 in"
FISH = "animal: trout; cut: fillet"


@pytest.mark.parametrize("place", ["in the fridge", "at 38 °F", "in the fridge at 40 °F"])
def test_a_thaw_in_the_fridge_is_quiet(tmp_path: Path, place: str) -> None:
    """USDA FSIS, The Big Thaw: in the refrigerator."""
    said = check(tmp_path, recipe(f"thaw: {place}", ROAST))
    assert said.is_quiet("thaw-counter")
    assert said.is_quiet("thaw-cold-water")


@pytest.mark.parametrize(
    "place",
    [
        "on the counter",
        "in warm water",
        "in the pantry",
        "in the fridge at 45 °F",
        "in cold water at 75 °F",
        "in the shade",
    ],
)
def test_a_warm_thaw_is_refused(tmp_path: Path, place: str) -> None:
    """USDA FSIS, The Big Thaw: never on the counter or in warm water. Food Code 3-501.13: water up to 70 °F."""
    said = check(tmp_path, recipe(f"thaw: 4 h {place}", ROAST))
    assert said.refuses("thaw-counter")
    words = said.words("thaw-counter")
    assert "outside is warm while the middle is frozen" in words
    assert "thaw: in the fridge" in words
    assert "accept" not in words


def test_a_thaw_without_a_place_cannot_be_told(tmp_path: Path) -> None:
    said = check(tmp_path, recipe("thaw: 2 days", ROAST))
    assert said.is_untold("thaw-counter")
    assert said.boxes["thaw-counter"]["missing"] == ["course"]


def test_bread_may_thaw_on_the_counter(tmp_path: Path) -> None:
    said = check(tmp_path, recipe("thaw: 4 h on the counter", meat="", lines=("2 loaves bread",)))
    assert said.is_quiet("thaw-counter")


def test_thin_bagged_steaks_may_thaw_in_warm_water_as_they_were_studied(tmp_path: Path) -> None:
    """Eastridge and Bowker 2011: 11 min at 39 °C (102 °F), 20 min at 20 °C (68 °F); strip steaks of about 1 in."""
    course = (
        "thaw: 10 min at 102 °F in warm water until soft in the sealed bag",
        "fry: 8 min to 145 °F inside",
    )
    assert check(tmp_path, recipe(*course, meat=STEAK)).is_met("thaw-warm-steak")
    cool = ("thaw: 20 min at 68 °F in cold water", "fry: 8 min to 145 °F inside")
    assert check(tmp_path, recipe(*cool, meat=STEAK)).is_quiet("thaw-counter")


@pytest.mark.parametrize(
    ("meat", "stage", "lacks"),
    [
        (
            "animal: beef; cut: rib roast; thickness: 1 in",
            "10 min at 102 °F in warm water until soft in its bag",
            "not told to be steaks",
        ),
        (
            STEAK.replace("1 in", "1 1/2 in"),
            "10 min at 102 °F in warm water until soft in its bag",
            "thicker than 1 in",
        ),
        (STEAK, "10 min at 102 °F in warm water", "sealed bag"),
        (STEAK, "10 min at 110 °F in warm water until soft in its bag", "hotter than 102 °F"),
        (STEAK, "15 min at 102 °F in warm water until soft in its bag", "more than 11 minutes"),
        (STEAK, "25 min at 68 °F in warm water until soft in its bag", "more than 20 minutes"),
        (STEAK, "at 102 °F in warm water until soft in its bag", "for how long is not told"),
    ],
)
def test_any_other_warm_water_is_refused_and_says_what_is_lacking(
    tmp_path: Path, meat: str, stage: str, lacks: str
) -> None:
    said = check(tmp_path, recipe(f"thaw: {stage}", "fry: 8 min to 160 °F inside", meat=meat))
    assert lacks in said.words("thaw-counter")


def test_warm_water_is_refused_where_the_steak_is_not_cooked_at_once(tmp_path: Path) -> None:
    course = (
        "thaw: 10 min at 102 °F in warm water until soft in its bag",
        "chill: 1 day in the fridge",
        "fry: 8 min",
    )
    assert "not cooked at once" in check(tmp_path, recipe(*course, meat=STEAK)).words("thaw-counter")


@pytest.mark.parametrize("follows", [ROAST, "trim: 20 min", "brown: 10 min"])
def test_cold_water_leads_to_the_heat(tmp_path: Path, follows: str) -> None:
    """USDA FSIS, The Big Thaw: cook at once. Minutes of trimming and browning lie between."""
    course = ("thaw: 2 h in cold water", *dict.fromkeys((follows, ROAST)))
    assert check(tmp_path, recipe(*course)).is_met("thaw-cold-water")


def test_cold_water_may_lead_into_a_cure(tmp_path: Path) -> None:
    """Issue: a cold-water thaw may lead into a cure. Farmers put frozen meat into brine; no source asks to cook between."""
    course = (
        "thaw: 2 h in cold water",
        "cure: 5 days in the fridge",
        "hot smoke: 4 h at 225 °F to 165 °F inside",
    )
    meat = "animal: elk; cut: roast; weight: 4 lb"
    assert check(tmp_path, recipe(*course, meat=meat, cure=NITRITE)).is_met("thaw-cold-water")


@pytest.mark.parametrize("follows", ["freeze", "chill: 1 day in the fridge", "pack: vacuum"])
def test_meat_out_of_cold_water_is_not_put_away_raw(tmp_path: Path, follows: str) -> None:
    """University of Illinois Extension, Food Code: refreeze raw only what thawed in the fridge."""
    words = check(tmp_path, recipe("thaw: 2 h in cold water", follows, ROAST)).words("thaw-cold-water")
    assert "does not cook it" in words
    assert "accept:" in words


def test_microwaved_meat_is_cooked_and_not_cured(tmp_path: Path) -> None:
    meat = "animal: elk; cut: roast; weight: 4 lb"
    course = ("thaw: 20 min in the microwave", "cure: 5 days in the fridge", ROAST)
    assert check(tmp_path, recipe(*course, meat=meat, cure=NITRITE)).refuses("thaw-cold-water")


def test_cold_water_and_nothing_after_it_cannot_be_told(tmp_path: Path) -> None:
    assert check(tmp_path, recipe("thaw: 2 h in cold water")).is_untold("thaw-cold-water")


def test_vacuum_packed_fish_thaws_in_an_opened_pack(tmp_path: Path) -> None:
    """University of Alaska FNH-00221; Michigan State University Extension."""
    end = "bake: 20 min at 400 °F to 145 °F inside"
    rule = "thaw-vacuum-fish"
    assert check(
        tmp_path / "a", recipe("thaw: in the fridge until soft, pack opened", end, meat=FISH)
    ).is_met(rule)
    assert check(tmp_path / "b", recipe("thaw: in the fridge", end, meat=FISH)).is_untold(rule)
    refused = check(tmp_path / "c", recipe("thaw: in the vacuum bag", end, meat=FISH))
    assert "without air" in refused.words(rule)
    assert "opened pack" in refused.words(rule)
    assert check(tmp_path / "d", recipe("thaw: in the fridge", ROAST)).is_quiet(rule)


def test_a_dish_knows_how_its_fish_was_packed(tmp_path: Path) -> None:
    smoked = recipe(
        "hot smoke: 3 h at 225 °F to 160 °F inside until it has held for half an hour", "pack: vacuum", "freeze",
        meat=FISH, keep="freezer: 2 months", name="Trout",
    )  # fmt: skip
    dish = recipe("thaw: in the fridge", "chill: 1 h in the fridge", meat="", lines=("1 [trout](trout.md)",))
    said = check(tmp_path, dish, trout=smoked)
    assert "Trout comes vacuum-packed" in said.boxes["thaw-vacuum-fish"]["because"]


@pytest.mark.parametrize(("file", "target"), [("Trout", "Trout.md"), ("trout", "tr%6Fut.md")])
def test_a_component_is_seen_however_its_link_is_written(tmp_path: Path, file: str, target: str) -> None:
    packed = recipe("pack: vacuum", "freeze", meat=FISH, keep="freezer: 2 months", name="Trout", eat=True)
    dish = recipe("thaw: in the fridge", ROAST, meat="", lines=(f"1 [trout]({target})",))
    said = check(tmp_path, dish, **{file: packed})
    assert "Trout comes vacuum-packed" in said.boxes["thaw-vacuum-fish"]["because"]
