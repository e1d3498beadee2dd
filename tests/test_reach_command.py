"""`potherb cure ... --thickness --shape --days` and `potherb sheet`: reach as JSON, as a sentence, and as a refusal."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from tests.compute.reach.test_reach import recipe_text

BRINE = ("cure", "brine", "--meat", "6lb", "--water", "4L", "--salt", "3%", "--curing-salt", "150ppm")
DRY = ("cure", "dry", "--meat", "5lb", "--salt", "2.75%")
PIECE = ("--thickness", "3in", "--shape", "round", "--days", "5")


def run(*words: str) -> Result:
    return CliRunner().invoke(main, words)


def cure_json(*words: str, code: int = 0) -> dict[str, Any]:
    result = run(*words, "--json")
    assert result.exit_code == code, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_reach_is_null_where_it_is_not_asked_for() -> None:
    found = cure_json(*BRINE)
    assert "reach" in found
    assert found["reach"] is None


def test_reach_has_its_numbers_its_words_and_its_caveats() -> None:
    reach = cure_json(*BRINE, *PIECE, "--pump", "8%", "--bone", "in", "--skin", "off", "--silverskin", "off")[
        "reach"
    ]
    for key in ("low", "central", "high"):
        assert isinstance(reach[key], (int, float))
        assert round(reach[key], 2) == reach[key], "to 0.01"
    assert 0 <= reach["low"] < reach["central"] < reach["high"] < 4 / 3
    words = ("probably not yet reached", "uncertain", "probably even")
    assert reach["words"] in words
    assert words.index(reach["nitrite_words"]) <= words.index(reach["words"])
    assert isinstance(reach["day_even_low"], int)
    assert reach["day_even_high"] is None or reach["day_even_high"] > reach["day_even_low"]
    assert reach["days"] == 5
    assert "3 in (7.5 cm) thick" in reach["worked_out_for"]
    assert len(reach["caveats"]) >= 6
    assert all(caveat.endswith(".") for caveat in reach["caveats"])


def test_cure_without_nitrite_has_no_word_for_it() -> None:
    reach = cure_json(*DRY, *PIECE)["reach"]
    assert reach["words"]
    assert reach["nitrite_words"] is None


def test_what_is_not_told_widens_the_range() -> None:
    told = ("--bone", "in", "--skin", "off", "--silverskin", "off")
    month = (*DRY, *PIECE[:-1], "28")
    known, unknown = cure_json(*month, *told)["reach"], cure_json(*month)["reach"]
    assert unknown["low"] < known["low"]
    assert unknown["high"] >= known["high"]
    assert any("not told whether the skin is on" in caveat for caveat in unknown["caveats"])


def test_warmth_and_metric_units_are_read() -> None:
    cold, warm = (
        cure_json(*DRY, "--thickness", "51mm", "--shape", "slab", "--days", "10", "--temperature", at)[
            "reach"
        ]
        for at in ("1C", "40F")
    )
    assert cold["central"] < warm["central"]
    assert "at 34 °F (1 °C)" in cold["worked_out_for"]


def test_text_is_one_honest_sentence_and_the_word_of_nitrite() -> None:
    result = run(*BRINE, *PIECE)
    assert result.exit_code == 0, result.output
    text = re.sub(r"\s+", " ", result.stdout)
    sentence = (
        r"The estimated salt level at the middle is about \d+ % \(likely range \d+ to \d+ %\) of the even level "
        r"after 5 days: (probably not yet reached|uncertain|probably even)\."
    )
    assert len(re.findall(sentence, text)) == 1
    assert re.search(r"Nitrite at the middle: (probably not yet reached|uncertain)\.", text)
    assert not re.search(r"^ *%", result.stdout, re.MULTILINE), "a number stays with its sign"
    assert "likely range" not in run(*BRINE).stdout


@pytest.mark.parametrize(
    ("piece", "message", "hint"),
    [
        (("--thickness", "13in", "--shape", "round", "--days", "5"), "Thickness must be above 0 and up to 300 mm, not 330.2.", "above 0 to 300 mm (11.8 in)"),
        (("--thickness", "3in", "--shape", "round", "--days", "121"), "A cure lasts from 0 to 120 days, not 121.", "for 0 to 120 days"),
        ((*PIECE, "--temperature", "28F"), "Temperature must be from -1 to 15 C, not -2.2222", "from -1 to 15 °C (30.2 to 59 °F)"),
        ((*PIECE, "--pump", "55%"), "A pump is above 0 and up to 0.5 of the meat, not 0.55.", "a pump up to 50 % of the meat"),
    ],
)  # fmt: skip
def test_out_of_range_is_refused_with_the_range(piece: tuple[str, ...], message: str, hint: str) -> None:
    found = cure_json(*BRINE, *piece, code=1)
    assert found["reach"] is None
    assert found["weigh"] is not None, "the cure itself stands"
    (problem,) = found["problems"]
    assert (problem["slug"], problem["severity"]) == ("out-of-range", "error")
    assert problem["message"].startswith(message)
    assert hint in problem["hint"]
    result = run(*BRINE, *piece)
    assert result.exit_code == 1
    assert message in result.stderr
    assert "likely range" not in result.stdout


def test_refused_cure_has_no_reach() -> None:
    found = cure_json(*BRINE[:-1], "400ppm", *PIECE, code=1)
    assert found["weigh"] is None
    assert found["reach"] is None


@pytest.mark.parametrize(
    ("piece", "words"),
    [
        (("--thickness", "3in"), "cannot be told without --shape and --days."),
        (("--shape", "round", "--days", "5"), "cannot be told without --thickness."),
        (("--temperature", "4C"), "cannot be told without --thickness and --shape and --days."),
        (("--bone", "in"), "cannot be told without --thickness and --shape and --days."),
        ((*PIECE[:2], "--shape", "square", "--days", "5"), "'square' is not one of"),
        (("--thickness", "3lb", "--shape", "round", "--days", "5"), "one length above 0, such as 3in or 76mm, not '3lb'"),
        (("--thickness", "2-3in", "--shape", "round", "--days", "5"), "one length above 0"),
        (("--thickness", "3in", "--shape", "round", "--days", "0"), "--days '0': An amount of 0 is no amount."),
        ((*PIECE, "--temperature", "40"), "'40' is not a temperature on a named scale"),
        ((*PIECE, "--temperature", "2-4C"), "one temperature, such as 4C or 38F, not '2-4C'"),
    ],
)  # fmt: skip
def test_wrong_words_are_wrong_use(piece: tuple[str, ...], words: str) -> None:
    result = run(*BRINE, *piece)
    assert result.exit_code == 2
    assert words in re.sub(r"\s+", " ", result.stderr)
    assert "Traceback" not in result.output


def test_skin_of_a_belly_counts_for_its_limit_too() -> None:
    """A belly is counted without its skin, a tenth of its weight: FSIS Directive 7620.3, pp. 27-31 (from memory)."""
    belly = ("cure", "dry", "--meat", "2kg", "--cut", "belly", "--salt", "3%", "--curing-salt", "4g")
    off, on = cure_json(*belly, "--skin", "off"), cure_json(*belly, "--skin", "on")
    # 4 g x 0.0625 = 0.25 g: on 2000 g it is 125 ppm, on 1800 g 138.89 ppm
    assert off["ingoing_nitrite_ppm"]["dry"] == 125
    assert on["ingoing_nitrite_ppm"]["dry"] == 138.89
    assert off["reach"] is None


def test_sheet_has_reach_inside_its_cure(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: One shank\n", encoding="utf-8")
    recipe = tmp_path / "recipes" / "shank.md"
    recipe.write_text(recipe_text(), encoding="utf-8")
    found = cure_json("sheet", str(recipe))
    assert found["cure"]["reach"]["days"] == 6
    scaled = cure_json("sheet", str(recipe), "--meat", "12lb")
    for key in ("low", "central", "high", "words", "day_even_low"):
        assert scaled["cure"]["reach"][key] == found["cure"]["reach"][key], "it depends on ratios alone"
    assert "12 lb" in scaled["cure"]["reach"]["worked_out_for"]
    text = re.sub(r"\s+", " ", run("sheet", str(recipe)).stdout)
    assert "of the even level after 6 days:" in text
    recipe.write_text(recipe_text(meat={"shape": ""}), encoding="utf-8")
    assert cure_json("sheet", str(recipe))["cure"]["reach"] is None
    assert "cannot be told without 'shape' of the meat." in run("sheet", str(recipe)).stdout
