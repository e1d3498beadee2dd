"""A text of one thing over and over in; the work of reading and writing it grows with its length, not with the square.

Work is counted, never timed: characters that a pattern looks at, characters that are copied, lines of the program that
run. A text twice as long takes about twice as much; three times is refused, and four would be the square.
"""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

import generator
from generator import markdown
from generator.build import kitchen
from generator.model.book import BookConfig
from generator.model.slug import slugify, stream_safe
from generator.problems import Position, ProblemLog, nearest
from generator.read.gathering import read_gathering
from generator.read.recipe import Context, read_recipe
from generator.read.source import split_front_matter
from generator.read.text import Text
from generator.render import conversions as conversions_module
from generator.render.amounts import Amounts
from generator.render.conversions import conversions
from generator.render.prose import _blocks
from tests.regex_looks import Looks, has_unbounded, parsed

ROOT = Path(generator.__file__).parent
AT_MOST = 3
"Times the work for twice the text."

# --- patterns ---------------------------------------------------------------------------------------------------

SEARCHES = frozenset({"search", "finditer", "findall", "sub", "split"})
BEFORE = ("", "1", "[")
TOKENS = (
    *(
        "a",
        "1",
        "1 ",
        "1 lb ",
        "180 °F ",
        "[",
        "[a](",
        " ",
        "(",
        ", ",
        "1,",
        "1/",
        "-",
        "to ",
        "in the ",
        "no ",
        "1.",
    ),
    *(".", "%", "(fixed)", "*", "\n", "<", "&", '"', "a:", "#", "\u200d"),
)
SHORT, LONG = 20, 60
FEW = 12
"Looks at each character of the long text that need no second count: the square is 30 or more."
FOR_THRICE = 5
"Times the looks at three times the text: in proportion it is 3, and 9 for the square."


def calls() -> Iterator[tuple[Path, ast.Call, ast.Attribute]]:
    """Every call of a method in the program."""
    for path in ROOT.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                yield path, node, node.func


def uses() -> tuple[dict[str, set[str]], dict[str, tuple[re.Pattern[str], set[str]]]]:
    """What is called on each name (AMOUNT.finditer, self.pattern.sub), and the patterns written where they are used."""
    methods: dict[str, set[str]] = {"_SERVINGS": {"fullmatch"}, "_JOINTS": {"match"}}
    written: dict[str, tuple[re.Pattern[str], set[str]]] = {}
    for path, call, function in calls():
        on = function.value
        name = on.id if isinstance(on, ast.Name) else getattr(on, "attr", "")
        methods.setdefault(name, set()).add(function.attr)
        if name == "re" and function.attr in SEARCHES and isinstance(call.args[0], ast.Constant):
            one = re.compile(call.args[0].value)
            written[f"{path.stem} line {call.lineno}"] = (one, {function.attr})
    return methods, written


def patterns() -> dict[str, tuple[re.Pattern[str], set[str]]]:
    """Every pattern that can run over any number of characters, each once, with how it is used."""
    methods, found = uses()
    for module in pkgutil.walk_packages(generator.__path__, "generator."):
        for name, value in vars(importlib.import_module(module.name)).items():
            for number, one in enumerate(value if isinstance(value, tuple) else (value,)):
                if isinstance(one, re.Pattern) and all(one is not other for other, _ in found.values()):
                    found[f"{module.name.removeprefix('generator.')} {name} {number}"] = one, methods[name]
    return {name: (one, how) for name, (one, how) in found.items() if has_unbounded(parsed(one))}


PATTERNS = patterns()


def looks(pattern: re.Pattern[str], methods: set[str], text: str) -> int:
    """Characters that the pattern looks at as the program uses it."""
    count = Looks(pattern, text)
    return count.search_all() if methods & SEARCHES else count.match(full="match" not in methods)


@pytest.mark.parametrize("name", PATTERNS)
def test_pattern_looks_at_each_character_a_few_times(name: str) -> None:
    pattern, methods = PATTERNS[name]
    for before in BEFORE:
        for token in TOKENS:
            short, long = (before + token * (length // len(token)) + "§" for length in (SHORT, LONG))
            looked = looks(pattern, methods, long)
            if looked > FEW * len(long):
                assert looked <= FOR_THRICE * looks(pattern, methods, short), (before, token)


@pytest.mark.parametrize(
    ("pattern", "text", "count"),
    [
        (r"ab", "aab", 2 + 2 + 1),
        (r"a*b", "aaa", (4 + 4) + (3 + 3) + (2 + 2) + (1 + 1)),
        (r"\s*c", "  c", (3 + 1) + (1 + 1)),
        (r"\s*+c", "  d", (3 + 1) + (2 + 1) + (1 + 1) + (1 + 1)),
        (r"(?:ab|b)+c", "ab", 6 + 5 + 2),
    ],
)
def test_looks_are_counted_by_hand(pattern: str, text: str, count: int) -> None:
    assert Looks(re.compile(pattern), text).search_all() == count


@pytest.mark.parametrize(
    "text", ["", "1 lb salt", "2 lb 3 oz (1 kg) to 4 °F, inside", "[a](b.md) [c](#d:1/2)"]
)
def test_looks_end_where_the_engine_ends(text: str) -> None:
    for pattern, _ in PATTERNS.values():
        ends = [found.span() for found in pattern.finditer(text)]
        assert Looks(pattern, text).ends() == ends, pattern.pattern


def test_searches_are_for_patterns_that_stand_in_the_code() -> None:
    """One put together where it is used would not be looked at above."""
    for path, call, function in calls():
        if isinstance(function.value, ast.Name) and function.value.id == "re" and function.attr in SEARCHES:
            assert isinstance(call.args[0], ast.Constant), (path.name, call.lineno)
