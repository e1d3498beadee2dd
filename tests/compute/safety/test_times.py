"""The lines and rules of worked-out times on a page: thawing, heating, cooling."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.compute.safety.words import span_words
from tests.compute.safety.course import check, facts, recipe

SHANK = "animal: elk; cut: shank; weight: 6 lb; pieces: 4; thickness: 3 in; shape: round"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (48, 93, "45 min to 1 h 35 min"),
        (130, 250, "2 to 4 1/2 h"),
        (17 * 60, 69.5 * 60, "17 to 70 h"),
        (48 * 60, 60 * 60, "2 to 2 1/2 days"),
        (24 * 60, 24 * 60, "24 h"),
        (60, 60, "1 h"),
    ],
)
def test_spans_are_rounded_outwards(low: float, high: float, words: str) -> None:
    assert span_words(low, high) == words


def test_ten_minutes_do_not_cook_a_shank(tmp_path: Path) -> None:
    """Exact series, fast case: 3 in round from 20 °C in boiling water, 0.145 mm2/s: no sooner than 40 minutes."""
    rule = "simmer-too-short"
    words = check(tmp_path / "a", recipe("simmer: 10 min to 165 °F inside", meat=SHANK)).words(rule)
    assert "3 in (76 mm) thick and cooks for 10 min" in words
    assert "at the soonest" in words
    assert "cut it smaller" in words
    assert check(tmp_path / "b", recipe("simmer: 3 h to 165 °F inside", meat=SHANK)).is_quiet(rule)
    assert check(tmp_path / "c", recipe("simmer", meat=SHANK)).is_untold(rule)
    untold = check(tmp_path / "d", recipe("simmer: 10 min", meat="animal: elk; cut: shank"))
    assert untold.boxes[rule]["missing"] == ["meat.thickness"]
    assert check(tmp_path / "e", recipe("boil: 10 min", meat="animal: elk; cut: shank, diced")).is_quiet(rule)


def test_days_of_a_jar_in_the_fridge_are_no_minutes_of_a_pot(tmp_path: Path) -> None:
    rule = "simmer-too-short"
    course = ("simmer: 10 min to 165 °F inside", "jar: 3 days in the fridge")
    assert "cooks for 10 min" in check(tmp_path / "a", recipe(*course, meat=SHANK)).words(rule)
    assert check(tmp_path / "b", recipe("simmer", "jar: 3 days in the fridge", meat=SHANK)).is_untold(rule)


def test_a_dish_is_judged_by_the_piece_it_uses(tmp_path: Path) -> None:
    shank = recipe(
        "hot smoke: 3 h at 225 °F to 150 °F inside", meat=SHANK, eat=True, keep="fridge: 4 days", name="Shank"
    )

    def dish(line: str, minutes: int) -> str:
        return recipe(f"simmer: {minutes} min to 165 °F inside", meat="", lines=(line,), makes="serves: 6")

    rule = "simmer-too-short"
    assert check(tmp_path / "a", dish("1 [shank](shank.md)", 10), shank=shank).refuses(rule)
    assert check(tmp_path / "b", dish("1 [shank](shank.md), sawn in two", 10), shank=shank).refuses(rule)
    assert check(tmp_path / "c", dish("1 [shank](shank.md), diced", 10), shank=shank).is_quiet(rule)
    assert check(tmp_path / "d", dish("1 [shank](shank.md)", 120), shank=shank).is_quiet(rule)


def test_lines_of_times_on_a_page(tmp_path: Path) -> None:
    """The published rule stands beside the estimate; cooling stands on a clock; best by is worked out."""
    text = recipe(
        "thaw: in the fridge", "simmer: 3 h to 165 °F inside", "cool: 2 h in an ice bath", "pack: vacuum",
        meat=SHANK, keep="fridge: 3 days; freezer: 2 months",
    )  # fmt: skip
    said = facts(tmp_path, text)
    assert "24 h for a piece of 1.5 lb (0.68 kg) by the published rule, a day for each 4 to 5 lb" in said
    assert "by an estimate from its thickness, 3 in (76 mm)" in said
    assert "In a simmer the middle of a piece 3 in (76 mm) thick comes to 165 °F (74 °C) after about" in said
    assert ", from frozen " in said
    assert "off the heat at 18:00, at 70 °F (21 °C) by 20:00 and at 41 °F (5 °C) by 00:00" in said
    assert "made on a Saturday, eat it by Tuesday" in said
    assert "Reheat leftovers to 165 °F (74 °C)." in said
    assert "A vacuum pack does not preserve it" in said
    assert "it keeps raw for up to 5 more days" in said


def test_cold_water_has_its_own_line_and_vegetables_have_none(tmp_path: Path) -> None:
    text = recipe("thaw: 1 h in cold water", "simmer: 3 h to 165 °F inside", meat=SHANK)
    assert "45 min for a piece of 1.5 lb (0.68 kg) by the published rule, 30 minutes a pound" in facts(
        tmp_path / "a", text
    )
    plain = recipe("thaw: in the fridge", "simmer: 1 h", meat="", lines=("2 lb kale",), keep="fridge: 3 days")
    assert "Thawing" not in facts(tmp_path / "b", plain)


def test_a_dish_that_does_not_say_goes_by_the_table(tmp_path: Path) -> None:
    said = facts(tmp_path, recipe("simmer: 3 h to 165 °F inside", meat=SHANK))
    assert "eat it by Wednesday" in said
    assert "soups and stews with meat keep 4 days" in said
