"""Every hint, applied to the letter, makes its problem go away: each mistake of the tests of single mistakes is tried.

A hint that leaves the words to the cook cannot be applied by a machine; its slugs are listed with what only a cook knows.
"""

from __future__ import annotations

import pytest

from generator.model.book import BookConfig
from generator.problems import Problem, ProblemLog
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.tables import Tables
from tests.read.mend import mended
from tests.read.test_mistakes import MISTAKES

WHICH = "which of the known is meant"
AWAY = "where else the link is to lead"
BY_COOK = {
    **dict.fromkeys(("rule like no other", "curing salt by colour", "unknown stage alone"), WHICH),
    **dict.fromkeys(("rule of a CAUTION", "rule of a NOTICE"), "nothing is to be written: the reason goes"),
    **dict.fromkeys(("salt that is none", "ice by volume"), "what it weighs"),
    **dict.fromkeys(("link elsewhere", "javascript", "hidden javascript", "data", "ftp"), AWAY),
    **dict.fromkeys(("another host without scheme", "photo elsewhere"), AWAY),
    **dict.fromkeys(
        ("no ingredient at all", "share of no amount", "shares over the whole"), "how much of what"
    ),
    **dict.fromkeys(("amount not linked", "amount beside its link"), "which words of the sentence give way"),
}
"Mistakes whose hint no machine can apply, with what only the cook knows."

# name, front matter with one slip, words of the sentence, the hint
SLIPS: list[tuple[str, str, str, str]] = [
    ("no colon", "serves 4", "A colon and a space are missing behind 'serves'.", "Write serves: 4"),
    ("no space behind a colon", "serves:4", "A space is missing behind 'serves'.", "Write serves: 4"),
    ("no colon behind a list", "serves: 4\ntags\n  - soup", "A colon is missing behind 'tags'.", "Write tags:"),
    ("spaces before a key", "serves: 4\n  eat: after cooking", "Spaces stand before 'eat'.", "Begin the line at the left edge: eat: after cooking"),
    ("a star", "serves: 4\ningredients:\n  * 1 onion", "'*' begins no item of a list.", "Begin the line with a dash: - 1 onion"),
    ("a long dash", "serves: 4\ningredients:\n  – 1 onion", "'ingredients' takes a list.", "Begin the line with a dash and a space: - 1 onion"),
    ("no space behind a dash", "serves: 4\ningredients:\n  -1 onion", "A space is missing behind the dash.", "Begin the line with a dash and a space: - 1 onion"),
    ("no dash", "serves: 4\ningredients:\n  1 onion", "'ingredients' takes a list.", "Begin the line with a dash and a space: - 1 onion"),
    ("a title in an item", "serves: 4\ningredients:\n  - For the sauce: 1 onion", "'For the sauce:' is a title, and stands in the line of an item.", "Put its words behind a comma: - 1 onion, for the sauce"),
    ("a title without its colon", "serves: 4\ningredients:\n  For the sauce\n  - 1 onion", "A colon is missing behind the title.", "Write For the sauce:"),
    ("an item in two", "serves: 4\ningredients:\n  - 1 onion\n   - 2 carrots", "YAML joins this line to the item above it.", "Begin it with '- ', indented as the other items: - 2 carrots"),
    ("a list in one line", "serves: 4\nseason: May to July", "'season' takes a list.", "Write season: [May to July]"),
    ("lines in one line", "serves: 4\ningredients: 1 onion", "'ingredients' takes a list.", "Put it under the key, with a dash: - 1 onion"),
    ("a place without its colon", "serves: 4\nkeep:\n  fridge 5 days", "A colon and a space are missing behind 'fridge'.", "Write fridge: 5 days"),
    ("a colon astray", "serves: 4\ncourse:\n  - simmer 3 h: gently", "The colon belongs behind 'simmer'.", "Write simmer: 3 h gently"),
    ("no colon in a stage", "serves: 4\ncourse:\n  - simmer 3 h", "A colon and a space are missing behind 'simmer'.", "Write simmer: 3 h"),
]  # fmt: skip


def problems_of(text: str, tables: Tables) -> tuple[Problem, ...]:
    log = ProblemLog()
    source = split_front_matter(text, "recipes/dish.md", log)
    if source is not None:
        read_recipe(source, "dish", Reading(config=BookConfig(title="Book"), tables=tables), log)
    return log.sorted()


def left(text: str, tables: Tables) -> Problem | None:
    """The problem of a text, where no reading of its hint makes it go away."""
    (problem,) = problems_of(text, tables)
    for new in mended(text, problem):
        if not any(
            one.slug == problem.slug and one.message == problem.message for one in problems_of(new, tables)
        ):
            return None
    return problem


@pytest.mark.parametrize(("name", "text"), [(row[0], row[1].replace("«", "")) for row in MISTAKES])
def test_hint_applied_to_the_letter_mends_the_mistake(name: str, text: str, tables: Tables) -> None:
    problem = left(text, tables)
    assert (problem is not None) is (name in BY_COOK), problem


@pytest.mark.parametrize(
    ("front", "message", "hint"), [row[1:] for row in SLIPS], ids=[row[0] for row in SLIPS]
)
def test_a_lone_sign_is_what_the_hint_speaks_of(front: str, message: str, hint: str, tables: Tables) -> None:
    text = f"---\nname: Dish\n{front}\n---\n\nCook it.\n"
    (problem,) = problems_of(text, tables)
    assert (problem.message, problem.hint) == (message, hint)
    assert any(problems_of(new, tables) == () for new in mended(text, problem)), "nothing is left"


def test_what_only_the_cook_knows_stands_among_the_mistakes() -> None:
    assert BY_COOK.keys() <= {row[0] for row in MISTAKES}
    assert len(BY_COOK) < len(MISTAKES) / 4
