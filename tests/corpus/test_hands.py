"""Old cards of six hands, with their abbreviations, columns and asides: at most two lines are changed, and each builds.

The cards are invented; what each line comes to was worked out by hand from published sizes (NIST SP 811, appendix B).
"""

from __future__ import annotations

import csv
import json
import re
import shutil

import pytest

from generator.model.book import BookConfig
from generator.read.card import read_card
from generator.read.record import Reading
from generator.tables import Tables
from tests.corpus.books import wrong_amounts
from tests.corpus.outsider import book_of, run
from tests.corpus.rows import HERE, read_lines, read_phrases

HANDS = sorted((HERE / "hands").glob("*.txt"))
MOST_CHANGED = 2


def answers(name: str) -> dict[str, str]:
    """By the beginning of each question, the line that answers it."""
    with (HERE / "hands" / "answers.csv").open(newline="", encoding="utf-8") as file:
        return {row["question"]: row["answer"] for row in csv.DictReader(file) if row["recipe"] == name}


def test_there_are_five_and_more() -> None:
    assert len(HANDS) >= 5


@pytest.mark.parametrize("name", [path.stem for path in HANDS])
def test_a_card_builds_with_at_most_two_changed_lines(name: str) -> None:
    given = answers(name)
    assert len(given) <= MOST_CHANGED
    with book_of({}) as book:
        shutil.copy(HERE / "hands" / f"{name}.txt", book)
        assert run("start", "--recipe", name, "--from", f"{name}.txt").exit_code == 0
        path = book / "recipes" / f"{name}.md"
        lines = path.read_text(encoding="utf-8").splitlines()
        for question, answer in given.items():
            (at,) = [
                number for number, line in enumerate(lines) if line.strip().startswith(f"# ? {question}")
            ]
            lines[at] = answer
        path.write_text("\n".join(lines), encoding="utf-8")
        problems = json.loads(run("check", "--json").stdout)
        assert [one for one in problems if one["severity"] == "error" or one["slug"] == "open-question"] == []
        sheet = json.loads(run("sheet", name, "--json").stdout)
        assert wrong_amounts(name, sheet, "hands") == []


def test_every_line_is_a_thing_and_every_phrase_a_step_where_they_stand_on_a_card(tables: Tables) -> None:
    """Eight lines of the corpus to a card: each is a line, but for what is several things, which is one line a thing."""
    context = Reading(config=BookConfig(title="Book"), tables=tables)
    lines, steps = read_lines(), read_phrases()
    for at in range(0, len(lines), 8):
        some = lines[at : at + 8]
        text = "\n".join(line.text for line in some)
        card = read_card(f"Stew\n\n{text}\n\nSimmer it all.\n", context.grammar)
        things = [said(thing.words) for thing in card.lines]
        several = [said(line.text) for line in some if said(line.text) not in things]
        parts = {word for thing in things for word in thing}
        assert all({*words} - parts <= {"and", "each", "of"} for words in several), several
        assert len(things) == len(some) + len(several), [*several, *things]
    for step in steps:
        card = read_card(f"Stew\n\n1 onion\n2 cups water\n\n{step.text}\n", context.grammar)
        assert [thing.words for thing in card.lines] == ["1 onion", "2 cups water"], step.text


def said(text: str) -> tuple[str, ...]:
    """Its words, for an amount behind dots goes to the front and a line may lose its comma."""
    return tuple(sorted(re.findall(r"\w+", text)))
