"""Links of the text by a word of a line's name, or to a stage: what each means, and what is asked where it may mean two."""

from __future__ import annotations

import pytest

from generator.model.recipe import Recipe
from generator.problems import ProblemLog
from generator.read.link_words import meant, stage_ids, without_accents
from tests.read.conftest import ReadRecipe

FRONT = """---
name: Stew
serves: 4
ingredients:
  - 2 cups dry pinto beans
  - 1 lb red potatoes
  - 1 lb white potatoes
  - 1 cup crème fraîche
course:
  - sear: to 100 °F inside
  - hot smoke: 4 h at 200 °F
  - simmer: 2 h
  - simmer: 20 min
---

"""


@pytest.fixture
def read(read_text_of_recipe: ReadRecipe):  # type: ignore[no-untyped-def]  # a fixture that hands out a function
    def read_body(text: str) -> tuple[Recipe | None, ProblemLog]:
        return read_text_of_recipe(FRONT + text + "\n")

    return read_body


@pytest.mark.parametrize(
    ("written", "ids", "expected"),
    [
        ("beans", ["dry-pinto-beans", "salt"], ["dry-pinto-beans"]),
        ("bean", ["dry-pinto-beans", "salt"], ["dry-pinto-beans"]),
        ("Pinto-Beans", ["dry-pinto-beans", "salt"], ["dry-pinto-beans"]),
        ("pinto", ["dry-pinto-beans", "salt"], ["dry-pinto-beans"]),
        ("salt", ["salt-pork", "kosher-salt"], ["kosher-salt"]),  # an ending goes before another word
        ("creme-fraiche", ["crème-fraîche"], ["crème-fraîche"]),
        ("potatoes", ["red-potatoes", "white-potatoes"], ["red-potatoes", "white-potatoes"]),
        ("bea", ["dry-pinto-beans"], []),
        ("dry-beans", ["dry-pinto-beans"], []),
        ("", ["salt"], []),
    ],
)
def test_words_of_a_link_mean_the_ids_that_end_in_them_or_hold_them(
    written: str, ids: list[str], expected: list[str]
) -> None:
    assert meant(written, ids) == expected


def test_stages_have_ids_by_name_by_their_word_and_by_their_place() -> None:
    ids = stage_ids([("brown", "sear"), ("simmer", ""), ("simmer", "")])
    assert ids == {"brown": (0,), "sear": (0,), "simmer": (1, 2), "simmer-1": (1,), "simmer-2": (2,)}


def test_ids_without_accents() -> None:
    assert without_accents("crème-fraîche") == without_accents("creme-fraiche") == "creme-fraiche"


def test_links_name_lines_by_a_word_and_stages(read) -> None:  # type: ignore[no-untyped-def]
    recipe, log = read(
        "[Sear](#sear), [smoke](#smoke) and [again](#simmer-2) with half the [beans](#beans:1/2)."
    )
    assert log.sorted() == ()
    body = recipe.body
    assert [(link.number, link.written) for link in body.stage_links] == [
        (0, "sear"),
        (1, "smoke"),
        (3, "simmer-2"),
    ]
    assert [(link.id, link.written, link.share) for link in body.amount_links] == [
        ("dry-pinto-beans", "beans", 1 / 2)
    ]


def test_heading_of_the_page_goes_before_a_word_of_a_name(read) -> None:  # type: ignore[no-untyped-def]
    recipe, log = read("# Beans\n\nSee [above](#beans).")
    assert (log.sorted(), recipe.body.amount_links) == ((), ())


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        (
            "[Simmer](#simmer)",
            "'#simmer' may be any of 2: simmer-1, simmer-2.",
            "Write [Simmer](#simmer-1) or [Simmer](#simmer-2).",
        ),
        (
            "[spuds](#potatoes)",
            "'#potatoes' may be any of 2: red-potatoes, white-potatoes.",
            "Write [spuds](#red-potatoes) or [spuds](#white-potatoes).",
        ),
        (
            "[smoke](#hot-smoke:1/2)",
            "'hot-smoke' is a stage: it has no amount to take a share of.",
            "Write [smoke](#hot-smoke).",
        ),
        (
            "[thaw it](#thaw)",
            "'#thaw' is no ingredient of this recipe, and its course has no such stage.",
            "Write the stage under course: - thaw, or the words without a link: thaw it.",
        ),
        ("[rice](#rice)", "'#rice' is no ingredient of this recipe.", ""),
    ],
)
def test_link_that_may_mean_two_things_is_asked_about_with_both(
    read,  # type: ignore[no-untyped-def]
    text: str,
    message: str,
    hint: str,
) -> None:
    _, log = read(text)
    (problem,) = log.sorted()
    assert (problem.message, problem.hint if hint else "") == (message, hint)
    if "without a link" in hint:
        hint = f"Write {hint.rpartition(': ')[2]}"
    for line in hint.removeprefix("Write ").removesuffix(".").split(" or ") if hint else ():
        assert read(line)[1].sorted() == ()  # each of the lines to write does away with it
