"""Every row of the safety reference is covered by a rule or has a reason; every rule has words, every word a rule.

A part of a rule that stands in one place only fails by its own sentence. `rows.txt` holds the ids of the reference list, one a line: cooking, game, smoking, keeping, plants and the rest.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.quiet import QUIET
from generator.compute.salt.words import salt_facts
from generator.problems import SLUGS
from generator.read.config import BOOK_FILE_KEYS
from generator.read.cure_keys import CURE
from generator.read.recipe import MEAT, RECIPE
from generator.tables import Tables
from generator.tables.load import FOLDER
from generator.tables.words import SIGNALS
from tests.compute.safety.owners import Places, gaps, places

HERE = Path(__file__).parent
ROWS = tuple((HERE / "rows.txt").read_text(encoding="utf-8").split())


def covered() -> list[dict[str, str]]:
    with (FOLDER / "safety_rows.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def slugs_of(row: dict[str, str]) -> list[str]:
    return [slug.strip() for slug in re.split(r"[;,]", row["rule"]) if slug.strip()]


def test_reference_list_is_whole() -> None:
    assert len(ROWS) == len(set(ROWS)) == 273


def test_every_row_of_the_reference_is_answered() -> None:
    answered = {row["row"] for row in covered()}
    assert [row for row in ROWS if row not in answered] == []


def test_no_row_is_made_up_or_stands_twice() -> None:
    rows = [row["row"] for row in covered()]
    assert sorted(set(rows) - set(ROWS)) == []
    assert sorted(row for row in set(rows) if rows.count(row) > 1) == []


def test_each_row_has_a_rule_that_exists_or_a_reason(tables: Tables) -> None:
    known = {*tables.cautions, *SLUGS}
    for row in covered():
        slugs = slugs_of(row)
        assert slugs or len(row["why"].split()) >= 3, f"{row['row']}: neither a rule nor a reason"
        assert [slug for slug in slugs if slug not in known] == [], row["row"]


NAMED = re.compile(r"`([^`]+)`")
TELLERS = {tell.__name__ for tell in (*QUIET, salt_facts)}
"The functions behind the quiet lines of a page."
NAMES_SOMETHING = re.compile(r"\b(?:rules?|box|limits|table|lines?)\b|\.csv")
"Words by which an excuse leans on something else."
MAKES_NO_BOX = "a box on each page would not be read"


def followable(tables: Tables) -> set[str]:
    """What an excuse may name: rules, boxes, problems, keys of the front matter, tables, quiet lines."""
    files = {path.name for path in FOLDER.glob("*.csv")}
    keys = {*RECIPE.names, *MEAT.names, *CURE.names, *BOOK_FILE_KEYS.names}
    return {*tables.cautions, *SLUGS, *keys, *files, *TELLERS}


def test_every_excuse_leads_to_the_rule_or_key_it_names(tables: Tables) -> None:
    known = followable(tables)
    named = {(row["row"], name) for row in covered() for name in NAMED.findall(row["why"])}
    assert sorted((row, name) for row, name in named if name not in known) == []
    assert len(named) > 40


def test_no_excuse_leans_on_what_it_does_not_name(tables: Tables) -> None:
    """A rule, a box, a limit, a table or a line of a page that an excuse speaks of is named, so that it can be followed."""
    for row in covered():
        why = row["why"].replace(MAKES_NO_BOX, "")
        leans = "line" in why.split() if row["rule"] else NAMES_SOMETHING.search(why)
        assert NAMED.search(why) or not leans, row
        bare = NAMED.sub("", why).replace(",", " ").replace(";", " ").split()
        assert [word for word in bare if "-" in word and word in followable(tables)] == [], row


def test_every_part_of_a_rule_stands_wherever_it_is_needed(tables: Tables) -> None:
    assert gaps(places(tables)) == []


def lone(case: Case) -> None:
    """A rule that looks at nothing."""


def without(stand: Places, slug: str) -> dict[str, tuple[Rule, ...]]:
    """The hazards, and no rule with that slug among its own."""
    return {
        name: tuple(
            Rule(slugs=tuple(one for one in rule.slugs if one != slug), look=rule.look) for rule in found
        )
        for name, found in stand.hazards.items()
    }


LEFT_OUT: tuple[tuple[str, Callable[[Places], Places], str], ...] = (
    (
        "a file of HAZARDS",
        lambda of: replace(of, files={**of.files, "frost": ()}),
        "rules/frost.py is not in HAZARDS of rules/__init__.py, so none of its rules ever looks",
    ),
    (
        "a rule of RULES",
        lambda of: replace(of, files={**of.files, "plants": (*of.files["plants"], lone)}),
        "rules/plants.py: lone looks at a case and is not in RULES, so it never does",
    ),
    (
        "the rule of a row",
        lambda of: replace(of, hazards=without(of, "nettle")),
        "nettle is a row of cautions.csv, and no rule has it among its slugs",
    ),
    (
        "one owner",
        lambda of: replace(of, hazards={**of.hazards, "frost": (Rule(slugs=("nettle",), look=lone),)}),
        "nettle is among the slugs of 2 rules; one box has one owner",
    ),
    (
        "the words of a slug",
        lambda of: replace(of, cautions=[slug for slug in of.cautions if slug != "nettle"]),
        "nettle is among the slugs of a rule, and has no row in cautions.csv",
    ),
    (
        "the rule of a name",
        lambda of: replace(of, hazards=without(of, "pokeweed")),
        "pokeweed is a row of named_boxes.csv, and no rule that looks by name has it among its slugs",
    ),
    (
        "the row of a name",
        lambda of: replace(of, named=[slug for slug in of.named if slug != "pokeweed"]),
        "pokeweed is a slug of a rule that looks by name, and has no row in named_boxes.csv",
    ),
    (
        "a case",
        lambda of: replace(of, cases=[slug for slug in of.cases if slug != "nettle"]),
        "nettle has no case in tests/compute/safety/cases/*.txt in which its rule speaks",
    ),
)
"What is left out, the places without it, and the sentence that says so."


@pytest.mark.parametrize(("what", "leave_out", "sentence"), LEFT_OUT, ids=[row[0] for row in LEFT_OUT])
def test_what_is_left_out_is_told(
    tables: Tables, what: str, leave_out: Callable[[Places], Places], sentence: str
) -> None:
    assert sentence in gaps(leave_out(places(tables))), what


def test_every_caution_has_a_known_signal_words_and_sources(tables: Tables) -> None:
    assert SIGNALS == ("DANGER", "WARNING", "CAUTION", "NOTICE")
    for slug, caution in tables.cautions.items():
        assert caution.slug == slug
        assert caution.signal in SIGNALS, slug
        assert caution.title, slug
        assert caution.text, slug
        assert caution.sources, slug
        assert set(caution.sources) <= set(tables.sources), slug


@pytest.mark.parametrize("signal", SIGNALS)
def test_every_signal_is_spoken(tables: Tables, signal: str) -> None:
    assert signal in {caution.signal for caution in tables.cautions.values()}
