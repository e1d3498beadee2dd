"""Sentences of a body: what ends one, what is quoted, and where each word stands in the file."""

from __future__ import annotations

from generator.markdown import find_runs
from generator.read.body import read_sentences

BODY = """# Beans

Soak the [beans](#beans) in **cold**
water. Boil them 10 min. Then simmer.

1. Drain. Rinse!
2. Eat

> Grandmother left them out. It worked.

`no sentence. here`
"""


def texts() -> list[str]:
    return [one.text for one in read_sentences(find_runs(BODY), "recipes/beans.md", 5)]


def test_sentences_end_at_stops_list_items_and_paragraphs() -> None:
    assert texts() == [
        "Beans",
        "Soak the beans in cold water.",
        "Boil them 10 min.",
        "Then simmer.",
        "Drain.",
        "Rinse!",
        "Eat",
        "Grandmother left them out.",
        "It worked.",
    ]


def test_a_block_quote_is_somebody_elses_words() -> None:
    quoted = [one.text for one in read_sentences(find_runs(BODY), "a.md", 1) if one.is_quoted]
    assert quoted == ["Grandmother left them out.", "It worked."]


def test_each_word_has_its_place_in_the_file() -> None:
    lines = BODY.split("\n")
    for one in read_sentences(find_runs(BODY), "recipes/beans.md", 5):
        for offset, sign in enumerate(one.text):
            if sign != " ":
                at = one.at(offset)
                assert (at.file, lines[at.line - 5][at.column - 1]) == ("recipes/beans.md", sign), one.text


def test_sentences_of_one_paragraph_follow_each_other() -> None:
    soak, boil, *_ = read_sentences(find_runs(BODY), "a.md", 1)[1:]
    assert soak.block == boil.block
