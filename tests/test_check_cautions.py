"""`potherb check --cautions` and the cautions of `sheet --json`: the boxes of the page, to be read by machines."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from click.testing import CliRunner, Result

from generator.cli import main
from generator.tables import Tables

MakeBook = Callable[..., Path]

STEW = "---\nname: Stew\nserves: 4\nchapter: Pots\ningredients:\n  - 2 lb venison, diced\ncourse:\n  - simmer: 2 h to 165 °F inside\n---\n\nCook.\n"
KALE = "---\nname: Kale\nserves: 4\nchapter: Pots\ningredients:\n  - 2 lb kale\n---\n\nCook.\n"
WRONG = KALE.replace("2 lb kale", "2 lumps kale").replace("serves: 4", "serves: many")


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words))


def test_json_has_problems_and_cautions(make_book: MakeBook, tables: Tables) -> None:
    folder = make_book({"recipes/stew.md": STEW, "recipes/kale.md": KALE})
    result = run("check", str(folder), "--json", "--cautions")
    assert result.exit_code == 0
    data = json.loads(result.stdout)
    assert data["problems"] == []
    boxes = [caution for caution in data["cautions"] if caution["slug"] == "wild-game-165"]
    assert [box["file"] for box in data["cautions"]] == ["recipes/stew.md"] * len(data["cautions"])
    (box,) = boxes
    rule = tables.cautions["wild-game-165"]
    assert box["recipe"] == "stew"
    assert (box["signal"], box["title"], box["text"]) == (rule.signal, rule.title, rule.text)
    assert box["because"].startswith("venison is an ingredient")
    assert box["sources"][: len(rule.sources)] == list(rule.sources)
    assert box["missing"] == []
    assert box["accepted"] is None
    assert box["stage"] is None


def test_json_without_cautions_stays_a_list_of_problems(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/stew.md": STEW})), "--json")
    assert json.loads(result.stdout) == []


def test_problems_stand_beside_the_cautions_of_what_could_be_read(make_book: MakeBook) -> None:
    folder = make_book({"recipes/stew.md": STEW, "recipes/kale.md": WRONG})
    result = run("check", str(folder), "--json", "--cautions")
    assert result.exit_code == 1
    data = json.loads(result.stdout)
    assert {problem["file"] for problem in data["problems"]} == {"recipes/kale.md"}
    assert {caution["file"] for caution in data["cautions"]} == {"recipes/stew.md"}


def test_book_that_is_none_has_problems_and_no_caution(tmp_path: Path) -> None:
    result = run("check", str(tmp_path), "--json", "--cautions")
    assert result.exit_code == 1
    data = json.loads(result.stdout)
    assert data["problems"][0]["slug"] == "no-book"
    assert data["cautions"] == []


def test_text_has_file_signal_slug_title_and_reason(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/stew.md": STEW})), "--cautions")
    assert result.exit_code == 0
    line = next(line for line in result.stdout.splitlines() if "wild-game-165" in line)
    assert line.startswith(
        "recipes/stew.md: WARNING [wild-game-165] Cook wild game to 165 °F (74 °C). Because venison is an ingredient"
    )
    assert "No problems." in result.stdout


def test_text_without_the_option_names_no_box(make_book: MakeBook) -> None:
    said = run("check", str(make_book({"recipes/stew.md": STEW}))).stdout
    assert said.startswith("No problems.\nOf ")
    assert "wild-game-165" not in said


def test_a_check_ends_with_how_much_could_be_judged(make_book: MakeBook) -> None:
    text = (
        "---\nname: Stew\nserves: 4\ningredients:\n  - 2 lb beef\n  - 1 cup zorble\n---\n\nStir it. Eat it.\n"
    )
    book = make_book({"recipes/stew.md": text})
    last = "2 sentences were read. Pages and makings are never read.\n"
    assert run("check", str(book)).stdout.endswith(
        f"Of 2 names of ingredients 1 is not known (--cautions lists them); {last}"
    )
    listed = run("check", str(book), "--cautions").stdout
    assert "recipes/stew.md:6:" in listed
    assert "'zorble' is a name that is not known" in listed
    assert listed.endswith(f"Of 2 names of ingredients 1 is not known; {last}")


def test_sheet_tells_what_is_missing_and_accepted(make_book: MakeBook) -> None:
    folder = make_book({"recipes/stew.md": STEW})
    data = json.loads(run("sheet", str(folder / "recipes/stew.md"), "--json").stdout)
    for caution in data["cautions"]:
        assert {"slug", "signal", "text", "because", "sources", "missing", "accepted"} <= caution.keys()
    assert "wild-game-165" in {caution["slug"] for caution in data["cautions"]}


ROAST = (
    "---\nname: Roast\nserves: 4\nchapter: Pots\ningredients:\n  - 2 lb venison roast\n---\n\nSalt it. {}\n"
)


def test_course_prints_the_lines_that_were_read_from_a_method(make_book: MakeBook) -> None:
    text = ROAST.format("Roast at 325 °F until it reaches 165 °F.")
    result = run("check", str(make_book({"recipes/roast.md": text})), "--course", "roast")
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        "course:",
        "  - roast: at 325 °F to 165 °F inside",
        "",
        "Nothing was read from 1 of 2 sentences:",
        "  recipes/roast.md:9:1: Salt it.",
    ]


def test_course_of_a_recipe_that_has_one_is_its_own(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/stew.md": STEW})), "--course", "stew")
    assert result.stdout == (
        "Stew: nothing is read from its method, since it has a course or is not in English.\n"
    )


def test_course_of_no_recipe_is_a_problem(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/stew.md": STEW})), "--course", "pie")
    assert result.exit_code == 1
    assert "pie" in result.stderr


def test_course_goes_alone(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/stew.md": STEW})), "--course", "stew", "--json")
    assert result.exit_code == 2


def test_a_box_that_a_read_stage_makes_has_its_sentence_as_cause(make_book: MakeBook) -> None:
    text = ROAST.format("Thaw it on the counter overnight. Roast at 325 °F until it reaches 165 °F.")
    result = run("check", str(make_book({"recipes/roast.md": text})), "--json", "--cautions")
    assert result.exit_code == 0
    (box,) = [one for one in json.loads(result.stdout)["cautions"] if one["slug"] == "thaw-counter"]
    assert "the method says “Thaw it on the counter overnight”" in box["because"]


def test_check_says_that_another_language_is_not_read(make_book: MakeBook) -> None:
    files = {"recipes/stew.md": STEW.replace("Cook.", "Thaw it on the counter.")}
    german = run(
        "check", str(make_book({**files, "book.yaml": "title: Buch\nlanguage: de\nchapters: [Pots]\n"}))
    )
    assert "Its sentences are not read" in german.stdout
    english = run("check", str(make_book(files)), "--cautions")
    assert "are not read" not in english.stdout
    assert "thaw-counter" in english.stdout
