"""Counts by class how lines and phrases that cooks write are read, and what becomes of recipes and cards.

By hand: python -m tests.corpus.run [lines|phrases|recipes|cards] [ID ...]. It takes a minute.

Every row is tried as a reader of the README would try it: in a recipe of its own, by `check` and `sheet`. All of it is invented,
in the manner of cookbooks, school and preserving guides, service cards and manuscripts of 1750 to 2015. What each row must come
to was worked out by hand from published sizes (units: NIST SP 811; cans and old measures: extension and can makers' tables, GNU
units) and written down before any of it was run; three rows were put right after the first run, where a range or a plate of a
grinder had been written down wrongly. first_run.csv has the counts of that first run, before anything was mended by it.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from typing import TypeVar

from tests.corpus.books import Tried, try_cards, try_recipes
from tests.corpus.judge import VERDICTS, Verdict, judge_lines, judge_phrases
from tests.corpus.rows import Line, Phrase, read_lines, read_phrases

KINDS = ["lines", "phrases", "recipes", "cards"]
BOUND = 0.97
Row = TypeVar("Row", Line, Phrase)


def main(words: list[str]) -> None:
    """Run what the words name, all of it without any, and print what is not right and the counts."""
    what = [word for word in words if word in KINDS] or KINDS
    ids = {word for word in words if word not in KINDS}
    if "lines" in what:
        show(list(judge_lines(chosen(read_lines(), ids))))
    if "phrases" in what:
        show(list(judge_phrases(chosen(read_phrases(), ids))))
    if "recipes" in what:
        show_tried(try_recipes(), questions=1)
    if "cards" in what:
        show_tried(try_cards(), questions=2)


def chosen(rows: list[Row], ids: set[str]) -> list[Row]:
    """The rows with these ids; all of them where none is named."""
    return [row for row in rows if not ids or row.id in ids]


def show(verdicts: list[Verdict]) -> None:
    """Print every row that is not right, then a table of the counts by class."""
    for verdict in verdicts:
        if verdict.word != "right":
            print(f"{verdict.id} {verdict.word:8} {verdict.text}\n      {verdict.why}")
    counts = Counter((verdict.kind, verdict.word) for verdict in verdicts)
    print(f"{'class':42}" + "".join(f"{word:>9}" for word in VERDICTS))
    for kind in dict.fromkeys(verdict.kind for verdict in verdicts):
        print(f"{kind:42}" + "".join(f"{counts[kind, word]:9}" for word in VERDICTS))
    all_of_it = Counter(verdict.word for verdict in verdicts)
    print(f"{'all':42}" + "".join(f"{all_of_it[word]:9}" for word in VERDICTS))
    print(
        f"at least {BOUND:.0%} read or rightly asked, none silently wrong: {'yes' if meets(verdicts) else 'not yet'}"
    )


def meets(verdicts: Sequence[Verdict]) -> bool:
    """Whether nearly all is right or rightly asked about, and nothing is silently wrong."""
    words = Counter(verdict.word for verdict in verdicts)
    return words["right"] + words["asked"] >= BOUND * len(verdicts) and not words["silent"]


def show_tried(tried: list[Tried], *, questions: int) -> None:
    """Print what is asked and what is wrong of each recipe or card, and how many are good."""
    for each in tried:
        print(
            f"{'good' if each.good(questions) else 'not yet':8} {each.name}: {len(each.questions)} questions"
        )
        for line in [*each.questions, *each.wrong]:
            print(f"             {line}")
    built = sum(each.built for each in tried)
    good = sum(each.good(questions) for each in tried)
    print(f"{len(tried)} tried, {built} built, {good} with at most {questions} asked and no wrong value")


if __name__ == "__main__":
    main(sys.argv[1:])
