"""Old cures by cups and spoons: every figure from end to end, each limit at the end that matters.

Ends of what a cup can weigh: salt of unknown crystal 134 g (hollow flake, 48 tsp of 2.8 g) to 292 g (table salt, SR28
02047); brown sugar 145 g loose and 220 g packed (SR28 19334). A teaspoon of curing salt is 5.6 g to 7.0874 g (labels:
the lightest, and 1 oz as 4 level tsp). What follows from them is worked out by hand beside each check.
"""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main

BRINE = "brine --meat 2kg --water 2L"
CUPS = f"{BRINE} --salt '1 cup kosher salt' --sugar '1 cup brown sugar'"


def cure(words: str) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def slugs(data: dict[str, Any]) -> list[str]:
    return [problem["slug"] for problem in data["problems"]]


def told(data: dict[str, Any], slug: str) -> dict[str, str]:
    (found,) = (problem for problem in data["problems"] if problem["slug"] == slug)
    return found


def test_each_figure_of_a_brine_by_the_cup_goes_from_end_to_end() -> None:
    data = cure(f"{CUPS} --curing-salt 10g")
    assert slugs(data) == ["cure-by-volume", "cure-by-volume"]
    assert data["weigh"] == {"salt_g": [134, 292], "sugar_g": [145, 220], "curing_salt_g": 10}
    assert data["shown"]["salt"] == "134–292 g"
    # 0.625 g nitrite in 2000 + 2000 + 292 + 220 + 10 = 4522 g, and in 2000 + 2000 + 134 + 145 + 10 = 4289 g.
    assert data["ingoing_nitrite_range_ppm"] == [138.21, 145.72]
    assert data["judged_ppm"] == 145.72
    # Salt in all 134 + 9.375 and 292 + 9.375 g, of 4000 g of meat and water.
    assert data["salt_percent"] == [3.58, 7.53]
    # ... in a brine of 2000 + 134 + 220 + 10 = 2364 g, and of 2000 + 292 + 145 + 10 = 2447 g.
    assert data["brine_strength_percent"] == [6.06, 12.32]
    # A saturated brine is 26.395 %.
    assert data["salometer_degrees"] == [22.98, 46.66]
    assert data["sugar_percent"] == [3.63, 5.5]
    assert data["brine"] is None, "the brine tables have no row for a range"


def test_a_spoon_of_curing_salt_beside_cups_is_judged_at_its_heaviest_in_the_lightest() -> None:
    """2 tsp are 11.2 to 14.1748 g: 0.8859 g of nitrite in 4293.2 g are 206.4 ppm, 0.7 g in 4523.2 g 154.8 ppm."""
    data = cure(f"{CUPS} --curing-salt '2 tsp'")
    assert data["ingoing_nitrite_range_ppm"] == [154.76, 206.36]
    assert "206.36 ppm" in told(data, "above-limit")["message"]
    assert data["weigh"] is None


def test_a_cure_within_its_limit_only_with_heavy_cups_is_refused() -> None:
    """13.9 g: 0.86875 g of nitrite in 4292.9 g are 202.4 ppm, but 191.9 ppm beside table salt and packed sugar."""
    assert "above-limit" in slugs(cure(f"{CUPS} --curing-salt 13.9g"))
    heavy = cure(f"{BRINE} --salt '1 cup table salt' --sugar '1 cup packed brown sugar' --curing-salt 13.9g")
    assert (slugs(heavy), heavy["judged_ppm"]) == ([], 191.95)


def test_what_is_given_to_weigh_of_the_curing_salt_is_held_to_the_lightest_cup() -> None:
    """At most 200 x 4279 / (62500 - 200) = 13.737 g. The cups are not rounded before: 134 g may be 134 g."""
    data = cure(f"{CUPS} --curing-salt 13.73g")
    assert data["weigh"]["curing_salt_g"] == 13.73
    assert data["shown"]["curing_salt"] == "13.7 g"


@pytest.mark.parametrize(
    ("salt", "sugar"), [(1340, 1450), (1340, 2200), (2920, 1450), (2920, 2200), (2000, 1800), (1510, 2190)]
)
@pytest.mark.parametrize("curing_salt", ["56g", "60g", "70.8g"])
def test_whatever_the_cups_weigh_is_within_what_is_printed(salt: int, sugar: int, curing_salt: str) -> None:
    big = "brine --meat 20kg --water 20L"
    data = cure(
        f"{big} --salt '10 cups salt' --sugar '10 cups brown sugar' --curing-salt '10 tsp' --nitrate '300ppm saltpetre'"
    )
    grams = data["shown"]["nitrate"]
    weighed = cure(
        f"{big} --salt {salt}g --sugar {sugar}g --curing-salt {curing_salt} --nitrate '{grams} saltpetre'"
    )
    low, high = data["ingoing_nitrite_range_ppm"]
    assert low - 0.01 <= weighed["judged_ppm"] <= high + 0.01
    # What is shown of the nitrate is rounded down by less than 0.1 g, which is 2.4 ppm of 41.3 kg.
    low, high = data["ingoing_nitrate_ppm"]
    assert low - 2.4 <= weighed["ingoing_nitrate_ppm"] <= high
    for key in ("salt_percent", "sugar_percent", "brine_strength_percent", "salometer_degrees"):
        low, high = data[key]
        assert low - 0.02 <= weighed[key] <= high + 0.02, key


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("--salt '2 cups'", "between `salt: 268 g` and `salt: 584 g`"),
        ("--salt '2 cups salt'", "between `salt: 268 g` and `salt: 584 g`"),
        ("--salt '2 cups sea salt'", "between `salt: 268 g` and `salt: 584 g`"),
        ("--salt '1 tbsp kosher salt'", "between `salt: 8.4 g` and `salt: 18 g`"),
        ("--salt '2 qt coarse salt'", "between `salt: 1072 g` and `salt: 2336 g`"),
        ("--salt 3% --sugar '1 cup brown sugar'", "between `sugar: 145 g` and `sugar: 220 g`"),
        ("--salt 3% --sugar '2 tbsp dark brown sugar'", "between `sugar: 18 g` and `sugar: 27.6 g`"),
    ],
)
def test_the_line_to_write_once_it_is_weighed_ends_the_question(line: str, hint: str) -> None:
    data = cure(f"brine --meat 20kg --water 20L {line}")
    problem = told(data, "cure-by-volume")
    assert problem["severity"] == "warning"
    assert hint in problem["hint"]
    for key, grams in re.findall(r"`(\w+): ([\d.]+ g)`", problem["hint"]):
        plain = line.replace(line[line.index("'") :], f"'{grams}'")
        assert f"--{key} '{grams}'" in plain
        assert slugs(cure(f"brine --meat 20kg --water 20L {plain}")) == []


@pytest.mark.parametrize("line", ["1 cup table salt", "1 cup dense-flake salt", "250 g kosher salt"])
def test_a_salt_of_one_weight_is_no_range(line: str) -> None:
    data = cure(f"{BRINE} --salt '{line}'")
    assert slugs(data) == []
    assert isinstance(data["salt_percent"], float | int)


@pytest.mark.parametrize("line", ["1 cup", "1 cup sugar", "1 cup white sugar"])
def test_plain_sugar_is_granulated(line: str) -> None:
    """SR28 19335: 200 g a cup."""
    data = cure(f"{BRINE} --salt 3% --sugar '{line}'")
    assert (slugs(data), data["weigh"]["sugar_g"]) == ([], 200)


def test_a_dry_cure_by_the_spoon_has_one_nitrite_figure() -> None:
    """On the green weight alone: 5 g in 2 kg are 156.25 ppm, whatever the cups hold. 1/4 cup is 33.5 to 73 g."""
    data = cure("dry --meat 2kg --salt '1/4 cup kosher salt' --curing-salt 0.25%")
    assert (data["ingoing_nitrite_range_ppm"], data["judged_ppm"]) == (None, 156.25)
    assert data["weigh"]["salt_g"] == [33.5, 73]
    # 33.5 + 4.6875 and 73 + 4.6875 g of 2000 g.
    assert data["salt_percent"] == [1.91, 3.88]


def test_only_salt_that_is_too_much_at_its_lightest_is_beyond_saturation() -> None:
    """8 cups are 1072 to 2336 g: 22 % of the brine, or more than water holds, the rest of which lies on the bottom.
    12 cups are 1608 g at the least, 29.8 %."""
    data = cure("brine --meat 5kg --water 1gal --salt '8 cups kosher salt'")
    assert slugs(data) == ["cure-by-volume"]
    assert data["brine_strength_percent"] == [22.07, 26.4]
    assert data["salometer_degrees"][1] == 100
    too_much = cure("brine --meat 5kg --water 1gal --salt '12 cups kosher salt'")
    assert "29.81 % salt" in told(too_much, "salt-beyond-saturation")["message"]


def test_beside_unweighed_ice_a_range_is_of_the_brine_without_it() -> None:
    """134 to 292 g in 2134 to 2292 g; what the ice does to it is said beside."""
    words = shlex.split("cure brine --meat 2kg --water '2L + ice' --salt '1 cup kosher salt'")
    text = CliRunner().invoke(main, words).stdout
    assert "6.28 to 12.74 % by weight, 23.8 to 48.3 degrees salometer" in text
    assert "not weighed: the strength is at most what is printed" in text


def test_a_brine_for_the_needle_is_weighed() -> None:
    data = cure(
        f"{BRINE} --salt 3% --pump 10% --pump-water 1L --pump-salt '1/2 cup kosher salt' --pump-curing-salt 5g"
    )
    problem = told(data, "unknown-crystal")
    assert "67 g to 146 g" in problem["message"]
    assert "between `salt: 67 g` and `salt: 146 g`" in problem["hint"]
    assert data["weigh"] is None


@pytest.mark.parametrize("line", ["3 heaping tsp", "1 scant tsp", "1 rounded tsp"])
def test_a_heaping_spoon_of_curing_salt_stays_an_error(line: str) -> None:
    number, _, unit = line.split()
    refused = CliRunner().invoke(main, ["cure", *shlex.split(f"{CUPS} --curing-salt '{line}'")])
    assert refused.exit_code == 2
    assert f"`curing salt: {number} {unit}`" in refused.stderr
    level = cure(f"{CUPS} --curing-salt '{number} level {unit}'")
    assert (
        level["ingoing_nitrite_ppm"] == cure(f"{CUPS} --curing-salt '{number} {unit}'")["ingoing_nitrite_ppm"]
    )


@pytest.mark.parametrize(
    ("line", "lines"),
    [
        ("--curing-salt '3 T'", ["3 tbsp or 3 tsp"]),
        ("--nitrate '1 t saltpeter'", ["1 tbsp or 1 tsp"]),
        ("--salt '2 heaping cups kosher salt'", ["`salt: 2 cups kosher salt`"]),
    ],
)
def test_what_has_two_meanings_is_asked_with_both_lines(line: str, lines: list[str]) -> None:
    refused = CliRunner().invoke(main, ["cure", *shlex.split(f"{BRINE} {line}")])
    assert refused.exit_code == 2
    for one in lines:
        assert one in refused.stderr


def test_an_old_brine_with_saltpetre_by_the_spoon() -> None:
    """1 tbsp is 14.7868 ml: solid potassium nitrate of 2.11 g/ml is 31.2001 g, and 0.26 of that 8.112 g.

    No more than 31.2001 g in 45000 + 15000 + 31.2 + 1340 g (10 cups of salt at the least) are 508.4 ppm,
    which is above 500; with 5 kg more meat it is below.
    """
    words = "brine --meat {} --water 15L --salt '10 cups kosher salt' --nitrate '1 tbsp salt petre'"
    data = cure(words.format("45kg"))
    assert "508.4 ppm ingoing nitrate" in told(data, "nitrate-above-limit")["message"]
    data = cure(words.format("50kg"))
    # 8.112 g in 50000 + 15000 + 2920 + 8.1 g, 31.2001 g in 50000 + 15000 + 1340 + 31.2 g.
    assert (slugs(data), data["ingoing_nitrate_ppm"]) == (["cure-by-volume"] * 2, [119.42, 470.08])
    assert data["shown"]["nitrate"] == "8.1–31.2 g"
    hint = next(problem["hint"] for problem in data["problems"] if "nitrate" in problem["hint"])
    assert "between `nitrate: 8.1 g salt petre` and `nitrate: 31.3 g salt petre`" in hint


def test_a_spoon_of_sodium_nitrate_is_heavier() -> None:
    """1 tsp is 4.92892 ml of 2.26 g/ml: 11.1394 g in 100 kg are 111.4 ppm."""
    data = cure("dry --meat 100kg --salt 3% --nitrate '1 tsp chile saltpetre'")
    assert data["ingoing_nitrate_ppm"] == [28.96, 111.39]
    pinch = CliRunner().invoke(
        main, ["cure", *shlex.split("dry --meat 1kg --salt 3% --nitrate '1 nut saltpetre'")]
    )
    assert pinch.exit_code == 2


def test_the_kind_behind_an_amount_of_curing_salt() -> None:
    """As if it stood in a line of its own; a colour names no kind."""
    assert cure(f"{BRINE} --salt 3% --curing-salt '1 tsp cure #2'")["curing_salt"] == "no. 2"
    assert cure(f"{BRINE} --salt 3% --curing-salt '1 tsp' --kind 'no. 2'")["curing_salt"] == "no. 2"
    both = CliRunner().invoke(
        main, ["cure", *shlex.split(f"{BRINE} --curing-salt '1 tsp no. 2' --kind 'no. 1'")]
    )
    assert "Name it once: write `curing salt: 1 tsp`." in both.stderr
    colour = CliRunner().invoke(main, ["cure", *shlex.split(f"{BRINE} --curing-salt '1 tsp pink salt'")])
    assert "`curing salt: 1 tsp`" in colour.stderr
    assert "`kind of curing salt: no. 1`" in colour.stderr


def test_ends_that_read_alike_are_one_number() -> None:
    """A teaspoon of curing salt moves the salt of 70 kg by less than a hundredth of a per cent."""
    words = shlex.split("cure brine --meat 70kg --water 40L --salt 3% --curing-salt '1 tsp'")
    assert "  3 % of meat + water" in CliRunner().invoke(main, words).stdout


def test_a_blend_is_not_taken_from_a_cup() -> None:
    """Of a cup nobody knows what is left when nine parts of it are in the blend; sugar that is weighed will do."""
    small = "brine --meat 200g --water 200mL"
    data = cure(f"{small} --salt '2 tbsp kosher salt' --sugar 30g --curing-salt 1g")
    assert data["dose"]["pre_blend"]["with"] == "sugar"
    both = cure(f"{small} --salt '2 tbsp kosher salt' --sugar '3 tbsp brown sugar' --curing-salt 1g")
    assert both["dose"]["use_finer_scale"]
    assert both["dose"]["pre_blend"] is None


OLD_BRINE = """---
name: Shanks
makes: 6 shanks (5 lb)
meat: {{animal: deer, cut: fore shank, weight: 7 lb, pieces: 6, thickness: 2 1/2 in, shape: round, bone: in}}
cure:
  method: brine
  water: 1 gal
  salt: {salt}
  sugar: {sugar}
  curing salt: 20 g
course:
  - cure: 4 days in the fridge
  - hot smoke: 5 h at 225 °F to 165 °F inside
---
"""


def sheet(folder: Path, salt: str, sugar: str) -> dict[str, Any]:
    (folder / "recipes").mkdir(exist_ok=True)
    (folder / "book.yaml").write_text("title: Old brines\nunits: us\n")
    recipe = folder / "recipes" / "shanks.md"
    recipe.write_text(OLD_BRINE.format(salt=salt, sugar=sugar))
    found: dict[str, Any] = json.loads(CliRunner().invoke(main, ["sheet", str(recipe), "--json"]).stdout)
    return found["cure"]


def test_what_the_pieces_carry_goes_from_the_lightest_cup_to_the_heaviest(tmp_path: Path) -> None:
    """As the same recipe with 268 g and with 584 g of salt, weighed; the sugar moves neither."""
    cups = sheet(tmp_path, "2 cups kosher salt", "1 cup brown sugar")
    light, heavy = sheet(tmp_path, "268 g", "145 g"), sheet(tmp_path, "584 g", "145 g")
    for key in ("salt_g", "percent"):
        ends = cups["salt_carried"][key]
        assert ends == [light["salt_carried"][key][0], heavy["salt_carried"][key][1]]
    for key in ("low", "central", "high", "words"):
        assert cups["reach"][key] == light["reach"][key] == heavy["reach"][key]


@pytest.mark.parametrize("name", ["plain salt", "non-iodized salt", "butcher's salt", "Kosher", "coarse"])
def test_an_everyday_name_tells_no_crystal(tmp_path: Path, name: str) -> None:
    assert sheet(tmp_path, f"2 cups {name}", "100 g")["weigh"]["salt_g"] == [268, 584]
