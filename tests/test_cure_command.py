"""What is typed at `potherb cure` is the `cure:` block of a recipe: the same keys, the same reader, the same weights."""

from __future__ import annotations

import json
import shlex
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.cli.cure import KEYS, cure
from generator.read.cure_keys import CURE, PUMP_BRINE
from generator.read.recipe import MEAT

OF_MEAT = {
    "meat": "weight",
    "cut": "cut",
    "fish": "animal",
    **{key: key for key in ("thickness", "shape", "bone", "skin", "silverskin")},
}
"Options that a recipe writes under `meat:`."
OF_COURSE = {"days", "temperature"}
"Options that a recipe writes in the stages of its course."
AT_TABLE = {"units", "as_json", "nitrite", "pot", "hot", "hot_at", "cold_at", "salometer_at", "used"}
"Options of the table alone: units and a curing salt of one's own stand in book.yaml, a pot in no recipe."
WITHOUT_OPTION = {
    ("applications",),  # says how the mix is shared out, weighs nothing else
    ("pump brine", "sugar"),
    ("pump brine", "kind of curing salt"),
}
"Keys of a recipe that the command does not ask for."


def options_of(name: str) -> set[str]:
    assert isinstance(cure, click.Group)
    return {str(option.name) for option in cure.commands[name].params}


def paths() -> set[tuple[str, ...]]:
    """The keys of a `cure:` block, those of its pump brine with it."""
    pump = {("pump brine", key) for key in PUMP_BRINE.names}
    return {(key,) for key in CURE.names if key != "pump brine"} | pump


def test_each_option_is_a_key_of_a_recipe_and_each_key_an_option() -> None:
    typed = options_of("brine") | options_of("dry") | {"method"}
    assert typed == {*KEYS, *OF_MEAT, *OF_COURSE, *AT_TABLE}
    assert paths() - set(KEYS.values()) == WITHOUT_OPTION
    assert set(KEYS.values()) <= paths()
    assert set(OF_MEAT.values()) <= set(MEAT.names)


BLOCKS = (
    (
        "dry --meat 2kg --salt 2.5% --curing-salt 0.25%",
        "cure: {method: dry, salt: 2.5 %, curing salt: 0.25 %}",
    ),
    (
        "brine --meat 2.4kg --water 4L --salt 3% --sugar 1.5% --curing-salt 150ppm",
        "cure: {method: brine, water: 4 L, salt: 3 %, sugar: 1.5 %, curing salt: 150 ppm}",
    ),
    (
        "dry --meat 2kg --salt 2.5% --kind no.2 --curing-salt 22g --accelerator '400ppm sodium erythorbate'",
        "cure: {method: dry, salt: 2.5 %, kind of curing salt: no.2, curing salt: 22 g, "
        "accelerator: 400 ppm sodium erythorbate}",
    ),
    (
        "brine --meat 5lb --water '2qt hot + 2lb ice' --salt '40 degrees salometer' --pump 8% --pump-water 1qt --pump-salt 12% "
        "--pump-curing-salt 100ppm --nitrate '2g saltpetre'",
        "cure: {method: brine, water: 2 qt hot + 2 lb ice, salt: 40 degrees salometer, pump: 8 %, nitrate: 2 g "
        "saltpetre, pump brine: {water: 1 qt, salt: 12 %, curing salt: 100 ppm}}",
    ),
    (
        "brine --meat 2kg --water 'to make 3L' --salt 3% --curing-salt 900ppm",
        "cure: {method: brine, water: to make 3 L, salt: 3 %, curing salt: 900 ppm}",
    ),
)


def worked_out(*words: str) -> Any:
    return json.loads(CliRunner().invoke(main, [*words, "--json"]).stdout)


@pytest.mark.parametrize(("typed", "block"), BLOCKS, ids=[typed for typed, _ in BLOCKS])
def test_options_and_block_come_to_the_same(typed: str, block: str, tmp_path: Path) -> None:
    meat = shlex.split(typed)[2]
    (tmp_path / "recipes").mkdir()
    (tmp_path / "book.yaml").write_text("title: A test book\n")
    recipe = tmp_path / "recipes" / "shank.md"
    written = f"name: Shank\nmakes: 4 shanks\nmeat: {{animal: elk, cut: shank, weight: {meat}}}\n{block}"
    recipe.write_text(f"---\n{written}\n---\n")
    at_table, in_recipe = worked_out("cure", *shlex.split(typed)), worked_out("sheet", str(recipe))
    assert words(at_table) == words(in_recipe)
    if any(problem["severity"] == "error" for problem in at_table["problems"]):
        assert at_table["weigh"] is None
    else:
        assert {**at_table, "problems": [], "salt_carried": None} == {
            **in_recipe["cure"],
            "problems": [],
            "salt_carried": None,
        }


def test_curing_salt_in_per_cent_of_the_meat() -> None:
    """By hand: 0.25 % of 2,000 g is 5 g; 5 x 0.0625 / 2,000 is 156.25 ppm, the limit of 9 CFR 424.21(c) for ground."""
    found = worked_out("cure", *shlex.split("dry --meat 2kg --salt 2.5% --curing-salt 0.25%"))
    assert found["weigh"]["curing_salt_g"] == 5
    assert found["judged_ppm"] == 156.25


def test_a_brine_takes_no_curing_salt_in_per_cent() -> None:
    """Of the meat, of the brine or of both: a brine does not say."""
    typed = shlex.split("cure brine --meat 2kg --water 2L --salt 3% --curing-salt 0.25%")
    result = CliRunner().invoke(main, typed)
    assert result.exit_code == 2
    assert "Write 150 ppm" in result.output


def words(data: Any) -> list[tuple[str, str]]:
    """What is wrong, without its place: a prompt has none."""
    return [(problem["message"], problem["hint"]) for problem in data["problems"]]


def test_an_option_that_cannot_be_read_is_named_with_its_text() -> None:
    result = CliRunner().invoke(
        main, ["cure", "brine", "--meat", "1kg", "--water", "2kg", "--salt", "3 cups moon salt"]
    )
    assert result.exit_code == 2
    assert "Error: --salt '3 cups moon salt': " in result.output
