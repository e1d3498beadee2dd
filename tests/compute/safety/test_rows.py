"""Every row of the safety reference is covered by a rule or has a reason; every rule has words, every word a rule.

A part of a rule that stands in one place only fails by its own sentence (tests/test_contributing.py leaves out each). `rows.txt` holds the ids of the reference lists, one a line: cooking, game, smoking, keeping, plants and the rest; then
HAZ, what cooks write as words. Each HAZ row has a case of its own, with its id in the case's name.
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from generator.compute.safety.poisons import owner_of
from generator.compute.safety.quiet import QUIET
from generator.compute.salt.words import salt_facts
from generator.problems import SLUGS
from generator.read.config import BOOK_FILE_KEYS
from generator.read.cure_keys import CURE
from generator.read.recipe import MEAT, RECIPE
from generator.tables import Tables
from generator.tables.load import FOLDER
from generator.tables.words import SIGNALS
from tests.compute.safety.case_rows import read_cases
from tests.compute.safety.owners import SPEAKS, gaps, places

HERE = Path(__file__).parent
ROWS = tuple((HERE / "rows.txt").read_text(encoding="utf-8").split())


def covered() -> list[dict[str, str]]:
    with (FOLDER / "safety_rows.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def slugs_of(row: dict[str, str]) -> list[str]:
    return [slug.strip() for slug in re.split(r"[;,]", row["rule"]) if slug.strip()]


def test_reference_list_is_whole() -> None:
    assert len(ROWS) == len(set(ROWS)) == 477


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


def said_by_row() -> dict[str, set[tuple[str, bool]]]:
    """By id in the name of a case: slugs of its rows, and whether each speaks there."""
    found: dict[str, set[tuple[str, bool]]] = {}
    for case in read_cases():
        for row in re.findall(r"HAZ-\d+", case.name):
            found.setdefault(row, set()).update((one.slug, one.outcome in SPEAKS) for one in case.rows)
    return found


def test_each_hazard_that_is_written_as_words_has_a_case_that_speaks_and_one_that_is_quiet() -> None:
    hazards, said = [row for row in covered() if row["row"].startswith("HAZ-")], said_by_row()
    assert len(hazards) == 204
    for row in hazards:
        slugs = slugs_of(row)
        for speaks in (True, False):
            assert not slugs or any((slug, speaks) in said[row["row"]] for slug in slugs), row["row"]


def test_each_poison_is_answered_by_the_rule_of_its_class(tables: Tables) -> None:
    rules = {row["row"]: slugs_of(row) for row in covered()}
    for key, poison in tables.lexicon.poisons.items():
        if poison.row in rules and poison.cls != BABIES:
            assert owner_of(key, tables) in rules[poison.row], key


BABIES = "N"
"The class of greens that are a hazard for babies alone."
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
