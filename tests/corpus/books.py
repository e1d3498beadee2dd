"""In: the recipes of natural/ and the cards of cards/, as their hands left them. Out: what `potherb` makes of each.

A recipe or a card is good where the program asks at most so many questions and every amount of expected.csv is as it must be.
"""

from __future__ import annotations

import csv
import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.corpus.amounts import Amount
from tests.corpus.judge import item_is, plain
from tests.corpus.outsider import book_of, run
from tests.corpus.rows import HERE, one

CHAPTERS = ("Smokehouse", "Pots", "Fish and fowl", "Garden and woods", "Bread", "Put up")


@dataclass(frozen=True, kw_only=True)
class Tried:
    """One recipe or card: its questions (one sentence each), its wrong values, and whether it is there at all."""

    name: str
    questions: list[str]
    wrong: list[str]
    built: bool

    def good(self, questions: int) -> bool:
        """Built, with at most so many questions and no wrong value."""
        return self.built and len(self.questions) <= questions and not self.wrong


def try_recipes() -> list[Tried]:
    """All natural recipes, in one book, because some are made with others."""
    with book_of({}, CHAPTERS) as book:
        for path in _sources("natural", "md"):
            shutil.copy(path, book / "recipes" / path.name)
        problems = json.loads(run("check", "--json").stdout)
        return [_tried(path.stem, problems, "natural") for path in _sources("natural", "md")]


def try_cards() -> list[Tried]:
    """Each card, through `start --recipe NAME --from CARD`, in a book of its own."""
    return [_try_card(path) for path in _sources("cards", "txt")]


def _try_card(path: Path) -> Tried:
    with book_of({}, CHAPTERS) as book:
        shutil.copy(path, book / path.name)
        result = run("start", "--recipe", path.stem, "--from", path.name)
        if result.exit_code == 2:
            return Tried(name=path.stem, questions=[], wrong=["there is no such command"], built=False)
        problems = json.loads(run("check", "--json").stdout)
        return _tried(path.stem, problems, "cards")


def _sources(folder: str, ending: str) -> list[Path]:
    return sorted((HERE / folder).glob(f"*.{ending}"))


def _tried(name: str, problems: list[dict[str, Any]], folder: str) -> Tried:
    mine = [problem for problem in problems if problem["file"] == f"recipes/{name}.md"]
    told = run("sheet", name, "--json").stdout
    sheet = json.loads(told) if told.startswith("{") else {}
    built = "ingredients" in sheet
    return Tried(
        name=name,
        questions=[
            f"{problem['line']}: {problem['message']}"
            for problem in mine
            if problem["severity"] == "error" or problem["slug"] == "open-question"
        ],
        wrong=wrong_amounts(name, sheet, folder) if built else [],
        built=built,
    )


def wrong_amounts(name: str, sheet: dict[str, Any], folder: str) -> list[str]:
    """The rows of the folder's expected.csv that do not come out on the sheet of a recipe."""
    with (HERE / folder / "expected.csv").open(newline="", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["recipe"] == name]
    page = run("sheet", name).stdout
    wrong = []
    for row in rows:
        if row["name"] == "page":
            good = row["comes to"] in page
        else:
            good = _comes_to([one(text) for text in row["comes to"].split("; ")], row["name"], sheet)
        if not good:
            wrong.append(f"{row['name']} does not come to {row['comes to']}")
    return wrong


def _comes_to(amounts: list[Amount], name: str, sheet: dict[str, Any]) -> bool:
    """Some line that has the name has one of the amounts: `milk` may stand in two lines of a card."""
    items = [item for item in sheet["ingredients"] if plain(name) in plain(item["name"])]
    return any(item_is(amount, item, "") for item in items for amount in amounts)
