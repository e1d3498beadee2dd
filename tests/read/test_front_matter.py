"""Front matter: every scalar stays as typed, and whatever YAML would lose, join or misread is named at its place.

The sign « stands just before the character that the problem must point at.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.problems import Position, ProblemLog
from generator.read.front_matter import read_front_matter
from generator.read.recipe import RECIPE
from generator.read.text import FrontMatter

MARK = "«"


def read(front: str, *, first_line: int = 2) -> tuple[FrontMatter | None, ProblemLog]:
    log = ProblemLog()
    return read_front_matter(front, first_line, "recipes/dish.md", log, RECIPE.holds), log


AS_TYPED = [
    ("a: 1", "1"),
    ("a: 1.50", "1.50"),
    ("a: 0x1F", "0x1F"),
    ("a: 010", "010"),
    ("a: 1_000", "1_000"),
    ("a: 1:30", "1:30"),
    ("a: yes", "yes"),
    ("a: no", "no"),
    ("a: on", "on"),
    ("a: null", "null"),
    ("a: ~", "~"),
    ("a: 2026-11-05", "2026-11-05"),
    ("a: 1/2", "1/2"),
    ("a: 3 %", "3 %"),
    ("a: 1e3", "1e3"),
    ("a: .5", ".5"),
    ("a: =", "="),
    ("a: <<", "<<"),
    ("a: 'it''s'", "it's"),
    ('a: "1 \\u00bd"', "1 ½"),
    ("a: one\n  two", "one two"),
    ("a: |\n  one\n  two\n", "one\ntwo"),
    ("a: 5 lb      # green weight", "5 lb"),
    ("'a': x", "x"),
]


@pytest.mark.parametrize(("front", "value"), AS_TYPED)
def test_scalar_is_text_as_typed(front: str, value: str) -> None:
    """YAML 1.1 would make numbers, truth values, dates, sexagesimals and nothing of these."""
    found, log = read(front)
    assert found is not None, list(log)
    assert found.data == {"a": value}
    assert len(log) == 0


NESTED = """meat:
  animal: elk      # an animal
  weight: 5 lb
tags: [smoked, keeps]
ingredients:
  Brine:
    - 4 bay leaves
    - '1 can #10'
course:
  - rinse
  - cure: 5 days
"""


def test_every_path_has_its_place() -> None:
    found, log = read(NESTED)
    assert found is not None
    assert len(log) == 0
    places = {path: (text.position.line, text.position.column) for path, text in found.texts.items()}
    assert places == {
        ("meat", "animal"): (3, 11),
        ("meat", "weight"): (4, 11),
        ("tags", 0): (5, 8),
        ("tags", 1): (5, 16),
        ("ingredients", "Brine", 0): (8, 7),
        ("ingredients", "Brine", 1): (9, 8),
        ("course", 0): (11, 5),
        ("course", 1, "cure"): (12, 11),
    }
    assert found.keys["course", 1, "cure"] == Position("recipes/dish.md", 12, 5)
    assert found.keys["meat",] == Position("recipes/dish.md", 2, 1)


OFFSETS = [
    ("a: 2 cupps flour", "cupps", (2, 6)),
    ("a: '2 cupps'", "cupps", (2, 7)),
    ("a: 'Ida''s cupps'", "cupps", (2, 12)),
    ("a: 2 lb beans,\n   soaked overnight", "overnight", (3, 11)),
    ("a: >\n  2 lb beans,\n  soaked", "soaked", (4, 3)),
    ("a: |\n  2 lb\n  beans", "beans", (4, 3)),
    ('a: "1\\u00bd cupps"', "cupps", (2, 13)),
    ("é: ½ cupps", "cupps", (2, 6)),
]


@pytest.mark.parametrize(("front", "word", "place"), OFFSETS)
def test_offset_in_a_value_is_a_place_in_the_file(front: str, word: str, place: tuple[int, int]) -> None:
    found, _ = read(front)
    assert found is not None
    (text,) = found.texts.values()
    at = text.at(text.value.index(word))
    assert (at.line, at.column) == place


# name, front matter with its mark, slug, words of the message, the hint
DAMAGE: list[tuple[str, str, str, str, str]] = [
    ("duplicate key", "a: 1\n«a: 2", "yaml-duplicate-key", "line 2", "Keep one of the two."),
    (
        "duplicate inner key",
        "meat:\n  cut: a\n  «cut: b",
        "yaml-duplicate-key",
        "line 3",
        "Keep one of the two.",
    ),
    ("alias", "summary: «*salt", "yaml-alias", "'*'", "Put the text in single quotes: summary: '*salt'"),
    ("anchor", "ingredients:\n  - «&x y", "yaml-alias", "'&'", "Put the text in single quotes: - '&x y'"),
    (
        "tag",
        "name: «!important Stew",
        "yaml-tag",
        "'!'",
        "Put the text in single quotes: name: '!important Stew'",
    ),
    (
        "tab before a key",
        "meat:\n«\tanimal: elk",
        "yaml-tab",
        "tab",
        "Indent with spaces, two for each level.",
    ),
    (
        "tab behind spaces",
        "meat:\n  «\tanimal: elk",
        "yaml-tab",
        "tab",
        "Indent with spaces, two for each level.",
    ),
    (
        "hash behind a name",
        "name: Shank« #2",
        "yaml-comment",
        "'#2'",
        "Put the text in single quotes: name: 'Shank #2'",
    ),
    (
        "hash in an ingredient",
        "ingredients:\n  - 1 can« #10 tomatoes",
        "yaml-comment",
        "'#10 tomatoes'",
        "Put the text in single quotes: - '1 can #10 tomatoes'",
    ),
    (
        "lone comment behind running text",
        "summary: Good« # really",
        "yaml-comment",
        "'# really'",
        "Put the text in single quotes: summary: 'Good # really'",
    ),
    (
        "hash behind a measured value",
        "cure:\n  kind of curing salt: no.« #1",
        "yaml-comment",
        "'#1'",
        "Put the text in single quotes: kind of curing salt: 'no. #1'",
    ),
    (
        "item that is all comment",
        "ingredients:\n  -« #10 can of beans",
        "yaml-comment",
        "'#10 can of beans'",
        "Put the text in single quotes: - '#10 can of beans'",
    ),
    (
        "ingredient with a colon",
        "ingredients:\n  - «Note: salt",
        "yaml-not-text",
        "'Note:'",
        "Put the text in single quotes: - 'Note: salt'",
    ),
    (
        "ingredient with a colon, in a group",
        "ingredients:\n  Pot:\n    - «2 lb beans: soaked",
        "yaml-not-text",
        "'2 lb beans:'",
        "Put the text in single quotes: - '2 lb beans: soaked'",
    ),
    (
        "list as item",
        "ingredients:\n  - «[salt]",
        "yaml-not-text",
        "list",
        "Put the text in single quotes: - '[salt]'",
    ),
    (
        "link at the beginning of an item",
        "ingredients:\n  - «[stock](stock.md)",
        "yaml-syntax",
        "list above",
        "Put the text in single quotes: - '[stock](stock.md)'",
    ),
    (
        "empty item",
        "ingredients:\n  «-\n  - salt",
        "yaml-not-text",
        "empty",
        "Write something behind the dash, or delete the line.",
    ),
    (
        "bare number",
        "ingredients:\n  - «3",
        "yaml-not-text",
        "'3'",
        "Write what it is a number of: 3 onions.",
    ),
    (
        "two stages in an item",
        "course:\n  - «cure: 5 days\n    dry: 1 h",
        "yaml-not-text",
        "two stages",
        "Begin every stage with a dash of its own.",
    ),
    (
        "item joined to the one above",
        "ingredients:\n  - 4 bay leaves\n    «1 tbsp juniper",
        "yaml-not-text",
        "joins",
        "Begin it with '- ', indented as the other items: - 1 tbsp juniper",
    ),
    (
        "dash joined to the item above",
        "ingredients:\n  - 4 bay leaves\n   «- 1 tbsp juniper",
        "yaml-not-text",
        "joins",
        "Begin it with '- ', indented as the other items: - 1 tbsp juniper",
    ),
    (
        "second colon",
        "name: Shanks«: the best",
        "yaml-syntax",
        "second ': '",
        "Put the text in single quotes: name: 'Shanks: the best'",
    ),
    (
        "second colon in a stage",
        "course:\n  - cure: 5 days«: or six",
        "yaml-syntax",
        "second ': '",
        "Put the text in single quotes: - cure: '5 days: or six'",
    ),
    (
        "apostrophe in single quotes",
        "name: «'Ida's beans'",
        "yaml-syntax",
        "quotation mark",
        "Put the text in single quotes: name: 'Ida''s beans'",
    ),
    ("quote never closed", "name: «'Ida\nserves: 3", "yaml-syntax", "never closed", ""),
    ("bracket never closed", "tags: «[a, b\nserves: 3", "yaml-syntax", "bracket", ""),
    (
        "line without a key",
        "name: Ida\n«junk\nserves: 3",
        "yaml-syntax",
        "neither 'key: value'",
        "Put the text in single quotes: 'junk'",
    ),
    (
        "value beginning with @",
        "name: «@home",
        "yaml-syntax",
        "'@'",
        "Put the text in single quotes: name: '@home'",
    ),
    ("value beginning with %", "name: «%x", "yaml-syntax", "'%'", ""),
    ("backslash in double quotes", 'name: "a«\\q"', "yaml-syntax", "backslash", ""),
    ("key that is a list", "? «[a]\n: b", "yaml-not-text", "key", "Write 'key: value'."),
    ("no keys at all", "«just text", "yaml-not-text", "no keys", ""),
    ("character outside YAML", "a: é\nb: x«\ufffe", "yaml-syntax", "character", "Type the line again."),
    ("too deep", "a: [[[[[[[«[x]]]]]]]]", "yaml-too-deep", "8", "Write it flat."),
]


@pytest.mark.parametrize(
    ("front", "slug", "words", "hint"), [d[1:] for d in DAMAGE], ids=[d[0] for d in DAMAGE]
)
def test_damage_is_named_at_its_place(front: str, slug: str, words: str, hint: str) -> None:
    before, _, after = front.partition(MARK)
    found, log = read(before + after)
    assert found is None
    problems = log.sorted()
    assert [problem.slug for problem in problems] == [slug]
    (problem,) = problems
    line = 2 + before.count("\n")
    column = len(before) - before.rfind("\n")
    assert problem.position == Position("recipes/dish.md", line, column)
    assert words in problem.message
    assert problem.hint.startswith(hint) if not hint else problem.hint == hint
    assert problem.hint


def test_quoted_hint_mends_what_it_is_the_hint_for() -> None:
    """The line in the hint, put in the place of the damaged one, is read without a problem."""
    mended = 0
    for _, front, _, _, _ in DAMAGE:
        before, _, after = front.partition(MARK)
        _, log = read(before + after)
        (problem,) = log.sorted()
        if not problem.hint.startswith("Put the text in single quotes: ") or problem.position is None:
            continue
        lines = (before + after).split("\n")
        number = problem.position.line - 2
        indent = len(lines[number]) - len(lines[number].lstrip())
        lines[number] = " " * indent + problem.hint.removeprefix("Put the text in single quotes: ")
        again, log = read("\n".join(lines))
        if "junk" in front or "never" in problem.message:
            continue
        assert again is not None, (front, problem.hint, list(log))
        mended += 1
    assert mended >= 12


def test_aliases_cannot_blow_up() -> None:
    """Ten lines that would expand to 10^9 items are refused before anything is built."""
    bomb = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}, *a{n - 1}]" for n in range(1, 10)]
    found, log = read("\n".join(bomb))
    assert found is None
    assert {problem.slug for problem in log} == {"yaml-alias"}


def test_deep_nesting_cannot_exhaust_the_stack() -> None:
    found, log = read("a: " + "[" * 50_000)
    assert found is None
    assert [problem.slug for problem in log] == ["yaml-too-deep"]


def test_front_matter_has_a_size() -> None:
    found, log = read("a: " + "x" * 70_000)
    assert found is None
    assert [problem.slug for problem in log] == ["file-too-large"]


def test_empty_front_matter_has_no_values() -> None:
    found, log = read("")
    assert found is not None
    assert found.data == {}
    assert len(log) == 0


def _leaves(value: Any) -> list[Any]:
    if isinstance(value, dict):
        return [leaf for inner in value.values() for leaf in _leaves(inner)]
    if isinstance(value, list):
        return [leaf for inner in value for leaf in _leaves(inner)]
    return [value]


SNIPPETS = st.sampled_from(
    (
        *(
            "a",
            "name",
            "ingredients",
            "course",
            ": ",
            ":",
            "\n",
            "\n  ",
            "\n  - ",
            "- ",
            " # ",
            "&x",
            "*x",
            "!t",
        ),
        *("1/2", "---", "...", "<<", "🍲", *"'\"#|>[]{},?½\t%@\\"),
    )
)


@example("? 0")
@example("0: |")
@given(st.one_of(st.text(max_size=60), st.lists(SNIPPETS, max_size=24).map("".join)))
def test_any_text_gives_text_or_problems(front: str) -> None:
    """Never an exception; where there is no problem, every leaf is text with a place in the file."""
    found, log = read(front)
    assert (found is None) == bool(len(log))
    if found is None:
        return
    assert all(isinstance(leaf, str) for leaf in _leaves(found.data))
    for text in found.texts.values():
        at = text.at(max(len(text.value) - 1, 0))
        assert 2 <= at.line <= 2 + front.count("\n")
        assert at.column >= 1
