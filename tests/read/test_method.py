"""Sentences of a method in, stages out: `method/*.txt` holds a sentence a line, and under it the lines of `course` it tells."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.book import BookConfig
from generator.model.recipe import Recipe
from generator.problems import Position, ProblemLog
from generator.read.grammar import Grammar
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.read.stage import parse_stage
from generator.read.stage_name import read_stage_name
from generator.render.course import course_line, course_lines
from generator.tables import load_tables

FOLDER = Path(__file__).parent / "method"
TABLES = load_tables()
ELK = "  - 3 lb elk roast\n  - 2 onions\n  - 1 cup brown sugar\n"
LINES = {
    "bread": "  - 2.5 kg bread flour\n  - 1.6 kg water\n",
    "plants": "  - 1 lb nettles\n  - 10 cloves garlic\n  - 2 cups olive oil\n  - 1 lb pinto beans\n",
}


def recipe(method: str, *, lines: str = ELK, more: str = "", **config: str) -> Recipe:
    """A dinner with a method and no course."""
    log = ProblemLog()
    text = f"---\nname: Dinner\nserves: 4\ningredients:\n{lines}{more}---\n\n{method}\n"
    source = split_front_matter(text, "recipes/dish.md", log)
    assert source is not None
    found = read_recipe(
        source, "dish", Reading(config=BookConfig(title="Book", **config), tables=TABLES), log
    )
    assert found is not None, [problem.message for problem in log]
    return found


def told(method: str, **more: str) -> list[str]:
    return [course_line(stage) for stage in recipe(method, **more).stages]


def rows() -> Iterator[tuple[str, str, list[str]]]:
    """File, sentence, and the lines that it tells."""
    for path in sorted(FOLDER.glob("*.txt")):
        sentence, lines = "", []
        for line in path.read_text(encoding="utf-8").splitlines():
            if line.startswith("  -> "):
                lines.append(line.removeprefix("  -> "))
            elif line and not line.startswith("#"):
                if sentence:
                    yield path.stem, sentence, lines
                sentence, lines = line, []
        yield path.stem, sentence, lines


ROWS = list(rows())


@pytest.mark.parametrize(("file", "sentence", "lines"), ROWS, ids=[row[1][:60] for row in ROWS])
def test_a_sentence_tells_its_stages_and_no_others(file: str, sentence: str, lines: list[str]) -> None:
    assert told(sentence, lines=LINES.get(file, ELK)) == lines


@pytest.mark.parametrize("line", sorted({line for _, _, lines in ROWS for line in lines}))
def test_a_line_can_be_pasted_under_course(line: str) -> None:
    name, _, text = line.partition(": ")
    grammar = Grammar(system="us", language="en", tables=TABLES)
    stage = parse_stage(
        read_stage_name(name, grammar, alone=not text),
        text,
        grammar,
        written=line,
        position=Position("recipes/dish.md"),
    )
    assert stage.name in TABLES.stages


def test_what_is_read_is_marked_and_keeps_its_sentence_and_place() -> None:
    one = recipe("Salt it. Then roast it at 350 °F for 2 hours.").stages[0]
    assert one.is_read
    assert one.written == "Then roast it at 350 °F for 2 hours."
    assert (one.position.line, one.position.column) == (10, 15)


def test_a_written_course_is_the_course() -> None:
    found = recipe("Thaw it on the counter overnight.", more="course:\n  - thaw: in the fridge\n")
    assert [stage.place for stage in found.stages] == ["fridge"]
    assert found.read_course is None
    assert not found.course_read


def test_a_book_in_another_language_is_not_read() -> None:
    found = recipe("Thaw it on the counter overnight.", language="de")
    assert found.stages == ()
    assert found.read_course is None


BRINE = "meat: 6 lb elk shoulder\ncure:\n  method: brine\n  water: 1 gal\n  salt: 5 %\n"


@pytest.mark.parametrize(
    "method",
    [
        "Boil half the water with the salt. Cool it. Sink the shoulder in it, weight it down and leave it in the "
        "icebox 5 days.",
        "Boil the salt in 2 quarts of water. Submerge the shoulder, cover it and leave it in the icebox 5 days.",
        "Mix the brine. Lay the shoulder in it, cover and leave it in the icebox for 5 days.",
    ],
)
def test_days_in_what_was_mixed_are_the_cure_where_a_brine_stands(method: str) -> None:
    assert told(method, more=BRINE) == ["cure: 5 days in the icebox"]
    assert not any(line.startswith("cure") for line in told(method))


def test_behind_the_cure_and_behind_heat_it_lies_in_no_brine() -> None:
    later = "Roast it for 3 hours at 325 °F. Lay the meat in its broth, cover it with it and leave it in the fridge for 2 days."
    assert told(later, more=BRINE) == ["roast: 3 h at 325 °F", "chill: 2 days in the fridge"]
    short = "Sink the shoulder in it and leave it in the fridge for 2 hours."
    assert told(short, more=BRINE) == ["chill: 2 h in the fridge"]


def test_degrees_are_those_of_the_book() -> None:
    assert told("Roast at 180° for 2 hours until it reaches 74.", units="metric") == [
        "roast: 2 h at 180 °C to 74 °C inside"
    ]


def test_headings_tell_nothing_and_what_stands_under_notes_is_no_stage() -> None:
    method = "# Roast\n\nRoast at 350 °F for 2 hours.\n\n## Notes\n\nRoast for 9 hours.\n\n## Method\n\nRest 10 minutes."
    assert told(method) == ["roast: 2 h at 350 °F", "rest: 10 min"]


def test_sentences_that_give_nothing_are_said() -> None:
    found = recipe("Salt it. Roast for 2 hours. Leave it two days.")
    assert found.read_course is not None
    assert [one.text for one in found.read_course.unread] == ["Salt it.", "Leave it two days."]
    assert not found.read_course.is_whole


def test_the_lines_to_paste_and_what_gave_none() -> None:
    assert list(course_lines(recipe("Salt it. Roast for 2 hours."))) == [
        "course:",
        "  - roast: 2 h",
        "",
        "Nothing was read from 1 of 2 sentences:",
        "  recipes/dish.md:10:1: Salt it.",
    ]


WORDS = [word for _, sentence, _ in ROWS for word in sentence.split()]


@given(st.lists(st.one_of(st.sampled_from(WORDS), st.text(max_size=6)), max_size=40))
def test_any_words_are_read_without_a_crash(words: list[str]) -> None:
    text = " ".join(" ".join(words).split())
    if any(sign in text for sign in "\x00\u2028") or "---" in text:
        return
    recipe_or_none(text)


def recipe_or_none(method: str) -> None:
    log = ProblemLog()
    text = f"---\nname: Dinner\nserves: 4\ningredients:\n{ELK}---\n\n{method}\n"
    source = split_front_matter(text, "recipes/dish.md", log)
    if source is not None:
        read_recipe(source, "dish", Reading(config=BookConfig(title="Book"), tables=TABLES), log)
