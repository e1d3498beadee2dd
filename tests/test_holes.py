"""A word that is not read leaves a hole: the rest of the file is read, computed, judged and shown with it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.build import build_site, check_recipes, compute, kitchen
from generator.cli import main
from generator.model.results import ComputedBook
from generator.problems import BookError, ProblemLog

Make = Callable[..., Path]

SHANK = """---
name: Smoked elk shank
makes: 4 shanks (3 lb)
chapter: Pots
meat: 5 lb elk fore shank
cure:
  method: brine
  water: 2 qt cold
  salt: 3 %
  curing salt: 150 ppm
ingredients:
  - 4 bay leaves
course:
  - cure: 5 days in the fridge
  - hot-smoke: 3 hours at 225 °F to 165 °F inside
---
Smoke it.
"""
STEW = """---
name: Elk stew
serves: 6
chapter: Pots
ingredients:
  - 2 lb elk stew meat
  - 3 cups water
course:
  - simmer: 3 hours to 165 °F inside
---
Stir the [water](#water) in.
"""
DISH = """---
name: Pot of beans
serves: 6
chapter: Pots
ingredients:
  - 1 [shank](shank.md)
  - 2 cups dry pinto beans
course:
  - simmer: 2 hours
---
Simmer it.
"""


def computed(folder: Path) -> tuple[ComputedBook, ProblemLog]:
    log = ProblemLog()
    book = compute(folder, kitchen(), log)
    assert book is not None
    return book, log


def test_a_line_that_is_not_read_leaves_the_others(make_book: Make) -> None:
    folder = make_book({"recipes/stew.md": STEW.replace("3 cups water", "3 cupps water")})
    book, log = computed(folder)
    stew = book.recipes["stew"].recipe
    assert [line.name for line in stew.ingredients] == ["elk stew meat"]
    (hole,) = stew.holes
    assert (hole.key, hole.words, hole.position.line) == ("ingredients", "3 cupps water", 7)
    assert [problem.slug for problem in log] == ["unknown-unit"], (
        "the link to the line is not asked about too"
    )


def test_each_hole_stands_beside_its_question_in_the_sheet_and_the_site_is_refused(
    make_book: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = make_book({"recipes/stew.md": STEW.replace("simmer: 3", "frobnicate: 3")})
    monkeypatch.chdir(folder)
    sheet = CliRunner().invoke(main, ["sheet", "stew"])
    assert sheet.exit_code == 1
    assert (
        "Not read\n  line 9: frobnicate: 3 hours to 165 °F inside\n    'frobnicate' is not a stage."
        in sheet.stdout
    )
    assert "elk stew meat" in sheet.stdout
    assert "recipes/stew.md:9:5: error" in sheet.stderr
    data = json.loads(CliRunner().invoke(main, ["sheet", "stew", "--json"]).stdout)
    assert [(hole["key"], hole["line"]) for hole in data["holes"]] == [("course", 9)]
    site = CliRunner().invoke(main, ["site", str(folder), "--into", str(folder.parent / "out")])
    assert site.exit_code == 1
    assert not (folder.parent / "out").exists()


def test_a_preview_shows_the_recipe_with_its_hole(make_book: Make, tmp_path: Path) -> None:
    stew = STEW.replace("3 cups water", "3 cupps water").replace(
        "stew meat\n", "stew meat\n  - For me: 1 onion\n"
    )
    folder = make_book({"recipes/stew.md": stew})
    with pytest.raises(BookError):
        build_site(folder, into=tmp_path / "site")
    report = build_site(folder, into=tmp_path / "open" / "site", with_holes=True)
    assert [problem.slug for problem in report.problems] == ["yaml-not-text", "unknown-unit"]
    page = (tmp_path / "open" / "site" / "recipes" / "stew" / "index.html").read_text(encoding="utf-8")
    assert "Line 8: <q>3 cupps water</q>" in page
    assert "Not all of it is read" in page
    assert "elk stew meat" in page


def test_a_preview_does_not_show_what_the_rules_refuse(make_book: Make, tmp_path: Path) -> None:
    refused = STEW.replace("3 cups water", "1 cup death cap mushrooms")
    folder = make_book({"recipes/stew.md": refused.replace("simmer: 3", "frobnicate: 3")})
    with pytest.raises(BookError, match="problems"):
        build_site(folder, into=tmp_path / "site", with_holes=True)


@pytest.mark.parametrize(
    ("whole", "broken"),
    [
        ("curing salt: 150 ppm", "curing salt: 150 ppmm"),
        ("meat: 5 lb elk", "meat: 5 lb 2 zzz elk"),
        ("  method: brine", "  method: brain"),
        ("  salt: 3 %", "  salt: 3 %\n  salt: 6 %"),
        ("ingredients:", "cure:\n  method: dry\ningredients:"),
        ("ingredients:", "cures:\n  method: dry\ningredients:"),
        ("- 4 bay leaves", "- 4 bay leaves\n  - 2 tsbp pink curing salt"),
    ],
)
def test_a_cure_with_a_hole_gives_no_weights(make_book: Make, whole: str, broken: str) -> None:
    assert whole in SHANK
    book, log = computed(make_book({"recipes/shank.md": SHANK.replace(whole, broken)}))
    shank = book.recipes["shank"]
    assert log.has_errors
    assert shank.recipe.holes != ()
    assert shank.cure is None or (shank.cure.weigh, shank.cure.shown, shank.cure.contract) == (None, {}, None)
    assert shank.cure_lines == {}
    assert "not-read" in {box.slug for box in shank.cautions}


def test_a_cure_beside_a_hole_elsewhere_keeps_its_weights(make_book: Make) -> None:
    folder = make_book({"recipes/shank.md": SHANK.replace("4 bay leaves", "3 cupps stock")})
    shank = computed(folder)[0].recipes["shank"]
    assert [hole.key for hole in shank.recipe.holes] == ["ingredients"]
    cure = shank.cure
    assert cure is not None
    assert cure.weigh is not None


def test_a_dish_of_a_recipe_with_a_hole_is_computed_and_says_that_nobody_can_tell(make_book: Make) -> None:
    shank = SHANK.replace("hot-smoke: 3 hours", "hot-smokk: 3 hours")
    book, log = computed(make_book({"recipes/shank.md": shank, "recipes/beans.md": DISH}))
    dish = book.recipes["beans"]
    assert [need.recipe for need in dish.needs] == ["shank"]
    (box,) = [box for box in dish.cautions if box.slug == "not-read"]
    assert box.missing == ("course",)
    assert "hot-smokk" in box.because
    assert not any("eat it cold" in line for line in dish.facts), "nothing says that it is ready"
    assert [problem.slug for problem in log if problem.is_error] == ["unknown-stage"]


@pytest.mark.parametrize("broken", [("makes: 4", "makes: fourish"), ("name: Smoked", "nam: Smoked")])
def test_a_dish_whose_recipe_cannot_be_counted_or_read_is_never_silent(
    make_book: Make, broken: tuple[str, str]
) -> None:
    book, log = computed(make_book({"recipes/shank.md": SHANK.replace(*broken), "recipes/beans.md": DISH}))
    dish = book.recipes["beans"]
    assert {box.slug for box in dish.cautions} >= {"not-read"}
    assert dish.salt is None
    assert {problem.position.file for problem in log if problem.is_error and problem.position} == {
        "recipes/shank.md"
    }


def test_a_recipe_without_a_name_or_without_sense_to_yaml_gives_nothing(make_book: Make) -> None:
    for wrong in (STEW.replace("name: Elk stew\n", ""), STEW.replace("name: Elk", "name: [Elk")):
        checked = check_recipes(make_book({"recipes/stew.md": wrong}))
        assert checked.recipes == ()
        assert any(problem.is_error for problem in checked.problems)


def test_what_an_unread_stage_may_do_is_not_held_against_the_recipe_and_never_called_fine(
    make_book: Make,
) -> None:
    bear = STEW.replace("elk", "bear").replace("simmer: 3 hours to 165 °F inside", "frobnicate: 3 hours")
    book, log = computed(make_book({"recipes/stew.md": bear}))
    assert [problem.slug for problem in log if problem.is_error] == ["unknown-stage"]
    boxes = {box.slug: box.missing for box in book.recipes["stew"].cautions}
    assert boxes["not-read"] == ("course",)
    assert "course" in boxes["high-risk-game-165"]
