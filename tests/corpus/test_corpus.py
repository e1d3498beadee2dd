"""The rows of the corpus are well formed and stand in the proportions that were counted of published recipes."""

from __future__ import annotations

import csv
from collections import Counter

import pytest

from tests.corpus.amounts import Amount, amounts
from tests.corpus.books import try_cards, try_recipes
from tests.corpus.judge import CONTEXTS, Verdict, item_is, judge_lines, judge_phrases, plain
from tests.corpus.rows import HERE, one, read_lines, read_phrases
from tests.corpus.run import meets

LINES = read_lines()
PHRASES = read_phrases()


def test_each_row_has_an_id_of_its_own_and_no_text_stands_twice() -> None:
    for rows in (LINES, PHRASES):
        assert len({row.id for row in rows}) == len(rows)
        texts = Counter((row.text, getattr(row, "context", "")) for row in rows)
        assert [text for text, times in texts.items() if times > 1] == []


def test_there_are_three_hundred_lines_and_a_hundred_phrases() -> None:
    assert len(LINES) >= 300
    assert len(PHRASES) >= 100


def test_each_line_that_is_read_has_its_name_in_it_and_a_known_context() -> None:
    for line in LINES:
        assert line.context in CONTEXTS
        assert line.asked or line.name.lower() in line.text.lower(), line.id


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 lb 3 oz", Amount(low=992.233309375, high=992.233309375, kind="g")),  # NIST SP 811: 35 oz
        ("1½ cups", Amount(low=354.88235475, high=354.88235475, kind="mL")),
        ("1–2 tbsp", Amount(low=14.78676478125, high=29.5735295625, kind="mL")),
        ("12 fillets", Amount(low=12, high=12, kind="count")),
        ("3 dozen", Amount(low=36, high=36, kind="count")),
    ],
)
def test_amounts_are_read_off_a_page_by_published_factors(text: str, expected: Amount) -> None:
    (found,) = amounts(text)
    assert found.near(expected, 1e-9)


@pytest.mark.parametrize(("folder", "ending", "how_many"), [("natural", "md", 24), ("cards", "txt", 10)])
def test_each_recipe_and_card_has_amounts_that_must_come_out(folder: str, ending: str, how_many: int) -> None:
    there = {path.stem for path in (HERE / folder).glob(f"*.{ending}")}
    assert len(there) == how_many
    with (HERE / folder / "expected.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert {row["recipe"] for row in rows} == there
    for row in rows:
        text = (HERE / folder / f"{row['recipe']}.{ending}").read_text(encoding="utf-8")
        assert row["name"] == "page" or plain(row["name"]) in plain(text), row
        assert row["name"] == "page" or [one(amount) for amount in row["comes to"].split("; ")]


def test_the_judge_tells_an_amount_that_did_not_double() -> None:
    """The verdicts can fail: six fillets of six ounces are 36 oz, not 6 oz; half of a range is not the range."""
    fillets = Amount(low=1020.58, high=1020.58, kind="g")
    assert not item_is(fillets, {"grams": 170.1, "millilitres": None, "shown": "6"}, "6 trout fillets")
    assert item_is(fillets, {"grams": 1020.58, "millilitres": None, "shown": "6"}, "6 trout fillets")
    assert item_is(fillets, {"grams": None, "millilitres": None, "shown": "6"}, "6 trout fillets (6 oz each)")
    assert not item_is(fillets, {"grams": None, "millilitres": None, "shown": "6"}, "6 trout fillets (6 oz)")
    cups = Amount(low=236.59, high=473.18, kind="mL")
    assert not item_is(cups, {"grams": None, "millilitres": 473.18, "shown": "2 cups"}, "")
    assert item_is(cups, {"grams": None, "millilitres": [236.59, 473.18], "shown": "1–2 cups"}, "")


def test_nearly_all_lines_are_read_or_rightly_asked_and_none_is_silently_wrong() -> None:
    verdicts = list(judge_lines(LINES))
    assert meets(verdicts), [str(verdict) for verdict in verdicts if verdict.word not in ("right", "asked")]


def test_nearly_all_phrases_are_converted_or_left_alone_and_none_is_silently_wrong() -> None:
    verdicts = list(judge_phrases(PHRASES))
    assert meets(verdicts), [str(verdict) for verdict in verdicts if verdict.word not in ("right", "asked")]


def test_twenty_recipes_and_eight_cards_come_out_with_few_questions_and_no_wrong_value() -> None:
    recipes, cards = try_recipes(), try_cards()
    assert sum(each.good(1) for each in recipes) >= 20, [each for each in recipes if not each.good(1)]
    assert not [each for each in recipes + cards if each.wrong]
    assert sum(each.good(2) for each in cards) >= 8, [each for each in cards if not each.good(2)]


def test_the_bound_is_missed_by_one_that_is_silently_wrong_and_by_four_in_a_hundred_refused() -> None:
    def verdicts(**words: int) -> list[Verdict]:
        return [
            Verdict(id="", kind="", text="", word=word, why="")
            for word, times in words.items()
            for _ in range(times)
        ]

    assert meets(verdicts(right=90, asked=7, refused=3))
    assert not meets(verdicts(right=90, asked=6, refused=4))
    assert not meets(verdicts(right=99, silent=1))
