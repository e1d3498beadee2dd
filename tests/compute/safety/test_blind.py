"""Recipes by four hands that had not read the rules: how many dangerous ones pass in silence, and harmless ones are refused.

`blind/*.txt` is read whole, by folder. A case begins with `=== ID | where | hazard | what a proper caution mentions`, a
regular expression; below it stands the recipe as it was written. `where` is the place of the danger (front, line, prose,
title) or harmless. Common practice, no source: the hazards are those of tests/compute/safety/cases with their sources.

Of `d_*.txt`, before anything was mended by it: of 150 dangerous ones 124 were told their danger (8 of them by chance), 6
another, 3 stopped at a word that was not read, 17 passed; of 50 harmless ones 1 was refused and 18 had a box, of 30
stories 2 and 14, most of them the box of all wild game.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from generator.build import check_recipes
from generator.problems import BookError

FOLDER = Path(__file__).parent / "blind"
BOOK = "title: A blind book\nchapters: [Pots]\n"
MOST_SILENT = 0.02
"Of the dangerous ones."
SAFETY = ("contradicts-", "nitrite-", "uncooked-component", "warm-cure", "cold-smoke-sealed")
"How the slug of an error of the rules begins; every other is a word that was not read."


@dataclass(frozen=True, slots=True, kw_only=True)
class Blind:
    """One recipe and what is expected of it."""

    id: str
    where: str
    hazard: str
    mentions: str
    text: str


def read() -> Iterator[Blind]:
    for path in sorted(FOLDER.glob("*.txt")):
        for block in re.split(r"(?m)^=== ", path.read_text(encoding="utf-8"))[1:]:
            head, _, text = block.partition("\n")
            id, where, hazard, mentions = ([*map(str.strip, head.split(" | ", 3)), ""])[:4]
            yield Blind(
                id=id, where=where, hazard=hazard, mentions=mentions.strip("| "), text=text.strip("\n") + "\n"
            )


CASES = tuple(read())
HOSTILE = tuple(case for case in CASES if case.where != "harmless")
HARMLESS = tuple(case for case in CASES if case.where == "harmless")


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the program says: slugs of errors, slugs of boxes, every word of both."""

    errors: tuple[str, ...]
    boxes: tuple[str, ...]
    words: str

    @property
    def refusals(self) -> tuple[str, ...]:
        return tuple(slug for slug in self.errors if slug.startswith(SAFETY))


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Said]:
    folder = tmp_path_factory.mktemp("blind")

    @cache
    def check(case: Blind) -> Said:
        book = folder / case.id
        (book / "recipes").mkdir(parents=True)
        (book / "book.yaml").write_text(BOOK, encoding="utf-8")
        (book / "recipes/case.md").write_text(case.text, encoding="utf-8")
        try:
            checked = check_recipes(book)
        except BookError as error:
            return Said(errors=tuple(one.slug for one in error.problems), boxes=(), words="")
        boxes = [one for recipe in checked.recipes for one in recipe.cautions]
        words = [f"{one.message} {one.hint}" for one in checked.problems]
        words += [f"{one.title} {one.text} {one.because}" for one in boxes]
        errors = tuple(one.slug for one in checked.problems if one.is_error)
        return Said(errors=errors, boxes=tuple(one.slug for one in boxes), words="\n".join(words))

    return {case.id: check(case) for case in CASES}


def test_there_are_as_many_as_were_written() -> None:
    assert len({case.id for case in CASES}) == len(CASES)
    assert (len(HOSTILE), len(HARMLESS)) == (410, 262)
    assert {case.where for case in HOSTILE} == {"front", "line", "prose", "title"}


def test_few_dangerous_recipes_pass_in_silence(said: dict[str, Said]) -> None:
    silent = [case.id for case in HOSTILE if not said[case.id].boxes and not said[case.id].errors]
    assert len(silent) <= MOST_SILENT * len(HOSTILE), silent


@pytest.mark.parametrize(("where", "least"), [("front", 0.55), ("line", 1.0), ("prose", 0.9), ("title", 1.0)])
def test_what_is_said_is_about_the_danger(said: dict[str, Said], where: str, least: float) -> None:
    """Of the front ones many stop at a word that is not a stage yet; those are read as errors, not as cautions."""
    cases = [case for case in HOSTILE if case.where == where]
    met = [case for case in cases if re.search(case.mentions, said[case.id].words, re.IGNORECASE)]
    assert len(met) >= least * len(cases), sorted({case.id for case in cases} - {case.id for case in met})


def test_no_harmless_recipe_is_refused_by_a_rule(said: dict[str, Said]) -> None:
    refused = {case.id: said[case.id].refusals for case in HARMLESS if said[case.id].refusals}
    assert refused == {}
