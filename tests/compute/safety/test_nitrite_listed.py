"""Nitrite and nitrate among the ingredients, by any name: refused, asked, or silent; figures worked by hand."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.model.slug import slugify
from generator.problems import Problem
from generator.tables import Tables
from generator.tables.load import FOLDER
from tests.compute.safety.garden import Found, cook, of

Make = Callable[..., Path]
PORK = "animal: pork; cut: loin; weight: 2 kg"
DRY = "cure:\n  method: dry\n  salt: 3 %\n"
COURSE = "cure: 5 days in the fridge"


def quoted(line: str) -> str:
    """As YAML wants a line with a number sign in it."""
    return f"'{line}'" if "#" in line else line


def found(make_book: Make, kitchen: Kitchen, line: str, meat: str = PORK, more: str = "") -> Found:
    return cook(make_book, kitchen, of(quoted(line), COURSE if more else "roast: 3 h", meat=meat, more=more))


def refused(of_recipe: Found) -> list[Problem]:
    return [error for error in of_recipe.errors if error.slug == "nitrite-listed"]


# Names in trade, on labels and in old receipts, from memory but for the two CFR sections and the labels cited there.
REFUSED = [
    *("1 tsp sodium nitrite", "4 tbsp pink curing salt", "100 g saltpeter", "2 g NaNO2", "2 g NaNO₂", "1 g E250"),
    *("1 g potassium nitrite", "1 g E 249", "1 oz nitrate of soda", "10 g Chile saltpetre", "10 g cubic nitre"),
    *("1 oz saltpetre", "1 oz salt petre", "5 g KNO3", "5 g potassium nitrate", "5 g nitre", "5 g sal petrae"),
    *("5 g salpêtre", "5 g E-252", "1 oz sal prunella", "1 oz salt, curing", "1 tsp curing salt", "1 tsp cure #1"),
    *("1 tsp cure no. 1", "1 tsp no. 1 curing salt", "1 tsp pink salt #1", "1 tsp pink salt (6.25 %)"),
    *("1 tsp pink cure", "1 tsp tinted cure", "1 tsp curing salt No. 2", "1 tsp cure #2", "1 tsp pink salt #2"),
    *("1 cup sugar cure", "1 cup brown sugar cure", "2 tbsp ham cure", "1 tbsp jerky cure", "30 g Pökelsalz"),
    *("30 g Nitritpökelsalz", "30 g peklosól", "30 g nitritsalt", "30 g sal curante", "30 g all-purpose curing salt"),
    *("2 nitrites", "1 oz salt, mixed with saltpetre", "2 tbsp no-iodine curing salt", "1 g wall saltpetre"),
    *("1 tsp stump remover", "1 tsp ammonium nitrate", "1 tsp gunpowder", "1 tbsp salt and saltpetre"),
    *("1 lb kosher salt with sodium nitrite", "curing salt, to taste", "1 tsp pink curing salt (fixed)"),
]  # fmt: skip


@pytest.mark.parametrize("line", REFUSED)
@pytest.mark.parametrize("meat", [PORK, ""], ids=["meat", "no meat"])
def test_a_nitrite_or_nitrate_salt_is_refused(
    make_book: Make, kitchen: Kitchen, line: str, meat: str
) -> None:
    [problem] = refused(found(make_book, kitchen, line, meat))
    assert problem.position is not None
    assert problem.hint.startswith("Delete the line")


SILENT = [
    *("1 tsp kosher salt", "1 tsp sea salt", "1 tsp pickling salt", "1 tsp salt", "1 tsp rock salt", "1 tsp bay salt"),
    *("1 tsp Himalayan pink salt", "1 tsp pink Himalayan salt", "1 tsp pink salt, Himalayan", "1 tsp black salt"),
    *("2 celery stalks", "1 tsp celery seed", "1 tsp celery salt", "1 tsp pink peppercorns", "1 tsp seasoned salt"),
    *("1 lb bacon, no nitrites or nitrates added", "1 lb nitrite-free bacon", "1 lb uncured bacon", "1 lb cured ham"),
    *("1 tsp kosher salt (not pink curing salt)", "1 tsp kosher salt instead of curing salt", "1 tbsp gunpowder tea"),
    *("1 cup sweet pickle relish", "1 g sodium erythorbate", "1 lb Prague ham", "1 tsp salt without saltpetre"),
    *("2 beets", "1 lb spinach", "1 cup cherries", "1 lb sugar-cured ham"),
]  # fmt: skip


@pytest.mark.parametrize("line", SILENT)
def test_what_holds_none_says_nothing(make_book: Make, kitchen: Kitchen, line: str) -> None:
    """False alarms are the second worst."""
    of_line = found(make_book, kitchen, line)
    assert refused(of_line) == []
    assert not {"nitrite-unclear", "vegetable-nitrite"} & set(of_line.boxes)


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("1 tsp pink salt", "nitrite-unclear"),
        ("1 tsp salt, pink", "nitrite-unclear"),
        ("2 tbsp cure", "nitrite-unclear"),
        ("2 tbsp cure for the ham", "nitrite-unclear"),
        ("1 cup corning salt", "nitrite-unclear"),
        ("1 cup dry cure", "nitrite-unclear"),
        ("1 tbsp celery powder", "vegetable-nitrite"),
        ("1 tbsp cultured celery juice powder", "vegetable-nitrite"),
        ("1 tbsp beet powder", "vegetable-nitrite"),
        ("1 tbsp Swiss chard powder", "vegetable-nitrite"),
    ],
)
def test_a_name_that_may_hold_nitrite_is_asked(
    make_book: Make, kitchen: Kitchen, line: str, slug: str
) -> None:
    of_line = found(make_book, kitchen, line)
    assert refused(of_line) == []
    assert of_line.boxes[slug].signal == "WARNING"
    assert of_line.boxes[slug].missing == ("ingredients",)
    assert of_line.boxes[slug].because == f"{line.split(' ', 2)[2].partition(',')[0]} is an ingredient"


def test_a_vegetable_powder_without_meat_is_a_vegetable(make_book: Make, kitchen: Kitchen) -> None:
    assert "vegetable-nitrite" not in found(make_book, kitchen, "1 tbsp beet powder", "").boxes


def test_spoons_of_curing_salt_on_known_meat(make_book: Make, kitchen: Kitchen) -> None:
    """By hand: 4 tbsp of 17.01 to 22.68 g (labels, spoons.csv), 6.25 % of it over 2,000 g: 2,126 to 2,835 ppm."""
    [problem] = refused(found(make_book, kitchen, "4 tbsp pink curing salt"))
    assert problem.message.endswith(
        "As curing salt no. 1 (6.25 % sodium nitrite) it brings, on the meat, 2,126 to 2,835 ppm nitrite (limit 200 ppm)."
    )


def test_saltpetre_on_known_meat(make_book: Make, kitchen: Kitchen) -> None:
    """By hand: 100 g over 2 kg is 50,000 ppm; 21 CFR 172.170(a)(2): 500 ppm."""
    [problem] = refused(found(make_book, kitchen, "100 g saltpeter"))
    assert "on the meat, 50,000 ppm nitrate (limit 500 ppm)" in problem.message
    assert "`nitrate: 100 g saltpetre`" in problem.hint


def test_lines_and_a_cure_beside_them_are_summed(make_book: Make, kitchen: Kitchen) -> None:
    """By hand, dry: 10 g of no. 1 on 2 kg are 312.5 ppm, and the target of the cure is 150 ppm more."""
    one = found(make_book, kitchen, "10 g pink curing salt", more=f"{DRY}  curing salt: 150 ppm\n")
    [problem] = refused(one)
    assert (
        "on the meat, 313 ppm nitrite, with what stands beside it 463 ppm (limit 200 ppm)" in problem.message
    )
    assert "has its curing salt already" in problem.hint
    two = found(make_book, kitchen, "10 g pink curing salt; 2 g sodium nitrite")
    assert "with what stands beside it 1,313 ppm" in refused(two)[0].message


def test_beside_a_brine_it_is_spread_over_meat_and_brine(make_book: Make, kitchen: Kitchen) -> None:
    """By hand: 16 g of no. 1 bring 1 g over 2,000 g meat, 2,000 g water and 120 g salt (3 % of 4,000 g): 243 ppm."""
    brine = "cure:\n  method: brine\n  water: 2 kg\n  salt: 3 %\n"
    [problem] = refused(found(make_book, kitchen, "16 g curing salt", more=brine))
    assert "on meat and brine together, 243 ppm nitrite" in problem.message


@pytest.mark.parametrize(
    ("line", "meat"),
    [
        ("1 tsp sodium nitrite", PORK),
        ("4 tbsp pink curing salt", "animal: pork; cut: loin"),
        ("1 lb salt and saltpetre", PORK),
        ("30 g sal curante", PORK),
    ],
)
def test_no_figure_where_weight_meat_or_strength_is_not_known(
    make_book: Make, kitchen: Kitchen, line: str, meat: str
) -> None:
    [problem] = refused(found(make_book, kitchen, line, meat))
    assert "ppm" not in problem.message


@pytest.mark.parametrize(
    ("line", "lines"),
    [
        ("1 tsp pink curing salt", ["curing salt: 120 ppm", "kind of curing salt: no. 1"]),
        ("4 g cure #2", ["curing salt: 4 g", "kind of curing salt: no. 2"]),
        ("60 g Pökelsalz", ["curing salt: 60 g", "kind of curing salt: european nitrite salt 0.6 %"]),
        ("1 tsp sodium nitrite", ["curing salt: 120 ppm", "kind of curing salt: no. 1"]),
        ("1 tsp saltpetre", ["nitrate: 300 ppm saltpetre"]),
        ("1 g sodium nitrate", ["nitrate: 1 g sodium nitrate"]),
    ],
)
def test_the_lines_to_write_instead_make_the_problem_go_away(
    make_book: Make, kitchen: Kitchen, line: str, lines: list[str]
) -> None:
    [problem] = refused(found(make_book, kitchen, line))
    assert all(f"`{one}`" in problem.hint for one in ("method: dry", "salt: 3 %", *lines))
    cure = DRY + "".join(f"  {one}\n" for one in lines)
    assert found(make_book, kitchen, "1 tsp pepper", more=cure).errors == ()


def test_of_a_curing_salt_with_both_each_is_held_against_its_limit(make_book: Make, kitchen: Kitchen) -> None:
    """By hand: 10 g of 6.25 % and 4 % over 2,000 g are 312.5 and 200 ppm."""
    [problem] = refused(found(make_book, kitchen, "10 g cure no. 2"))
    assert "313 ppm nitrite (limit 200 ppm) and 200 ppm nitrate (limit 500 ppm)" in problem.message


def test_a_mix_of_unknown_strength_is_reckoned_as_no_other(make_book: Make, kitchen: Kitchen) -> None:
    [problem] = refused(found(make_book, kitchen, "1 cup sugar cure"))
    assert "no. 1" not in problem.message + problem.hint
    assert "on its label alone" in problem.hint


@pytest.mark.parametrize(
    ("line", "meat", "said"),
    [
        ("1 tsp curing salt", "animal: trout; weight: 1 kg", "not allowed in trout"),
        ("1 tsp saltpetre", "animal: pork; cut: belly; weight: 2 kg; skin: off", "never allowed in belly"),
        ("1 tsp curing salt", "", "for curing meat alone"),
    ],
)
def test_where_none_is_allowed_no_line_is_offered(
    make_book: Make, kitchen: Kitchen, line: str, meat: str, said: str
) -> None:
    [problem] = refused(found(make_book, kitchen, line, meat))
    assert said in problem.hint
    assert "kind of curing salt:" not in problem.hint


def test_curing_salt_by_its_plain_name_beside_a_cure_is_summed_too(make_book: Make, kitchen: Kitchen) -> None:
    of_line = found(make_book, kitchen, "10 g curing salt", more=f"{DRY}  curing salt: 150 ppm\n")
    assert "with what stands beside it 463 ppm" in refused(of_line)[0].message


def rows() -> list[dict[str, str]]:
    with (FOLDER / "nitrite_names.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def names_of(kinds: set[str], mark: str) -> list[str]:
    """Names of the table, without those that read as another of them does (cure #1, cure 1)."""
    names = [
        name
        for row in rows()
        if row["kind"] in kinds and row["mark"] in mark
        for name in row["names"].split(";")
    ]
    return list({slugify(name.partition(",")[0]): name for name in names}.values())


@pytest.mark.parametrize("mark", ["no", "yes"])
def test_every_name_of_the_table_is_refused_and_no_mark_of_a_maker_is_shown(
    make_book: Make, kitchen: Kitchen, mark: str
) -> None:
    names = names_of({"nitrite", "nitrate", "unknown nitrate", "mixed", "unknown", "not food"}, mark)
    of_all = cook(
        make_book, kitchen, of("; ".join(quoted(f"7 g {name}") for name in names), "roast: 3 h", meat=PORK)
    )
    assert len(refused(of_all)) == len(names) > 20
    shown = f" {of_all.words.lower()} "
    assert mark == "no" or [name for name in names if f" {name} " in shown] == []


@pytest.mark.parametrize("mark", ["no", "yes"])
def test_every_name_of_the_table_that_may_be_a_cure_is_asked(
    make_book: Make, kitchen: Kitchen, mark: str
) -> None:
    names = names_of({"ask", "ask alone", "vegetable"}, mark)
    assert len(names) > 4
    for name in names:
        of_one = found(make_book, kitchen, f"7 g {name}")
        asked = {"nitrite-unclear", "vegetable-nitrite"} & set(of_one.boxes)
        assert asked, name
        assert mark == "no" or name not in of_one.boxes[asked.pop()].because


def test_no_title_is_a_mark() -> None:
    marks = {name for row in rows() if row["mark"] == "yes" for name in row["names"].split(";")}
    assert len(marks) > 20
    assert not {row["title"] for row in rows()} & marks


PLAIN = [
    "himalayan pink salt",
    "sea salt",
    "kosher salt",
    "celery seed",
    "sodium erythorbate",
    "gunpowder tea",
]


@pytest.mark.parametrize("name", PLAIN)
def test_a_harmless_longer_name_wins(tables: Tables, name: str) -> None:
    assert {one.kind for one in tables.nitrite_names.all_in(name)} == {"plain"}
