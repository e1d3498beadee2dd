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
from generator.build import check_book
from generator.compute import Kitchen
from generator.compute.safety.facts.animals import animal_in
from generator.model.quantity import Dimension, Quantity, TemperatureRange
from generator.model.slug import slugify, stream_safe
from generator.problems import Position, Problem, ProblemLog, nearest
from generator.read.grammar import Grammar
from generator.read.number import AmountError
from generator.read.quantity import MOST_PARTS, parse_amount
from generator.read.text import Text
from generator.render import conversions as conversions_module
from generator.render import prose as prose_module
from generator.render.amounts import Amounts
from generator.render.context import make_context
from generator.render.conversions import FARTHEST, Insertion, bound_of, conversions
from generator.render.prose import Prose
from generator.render.theme import load_theme
from generator.tables import Tables
from tests.regex_looks import Looks, has_unbounded, parsed
from tests.render import sample

ROOT = Path(generator.__file__).parent
FOR_TWICE = 3
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
    methods: dict[str, set[str]] = {
        **{"_SERVINGS": {"fullmatch"}, "_JOINTS": {"match"}},
        **{"_NEXT": {"search"}, "ENDS_A_PLACE": {"search"}},
    }
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


# --- files and values -------------------------------------------------------------------------------------------

HEAD = "---\nname: Greens\nserves: 4\nchapter: Pots\n"
MEAT = "meat:\n  animal: elk\n  cut: shank\n  weight: 5 lb\n"
SUPPER = "---\nname: Supper\ndate: 2026-12-05 17:30\nguests: 4\ndishes:\n  - all guests [Roast](../recipes/roast.md)\n"

# name, text before, one piece (in it #n is a word of its own in each), text behind
FILES = [
    ("amounts in a sentence", f"{HEAD}ingredients:\n  - 1 lb salt\n---\n\n", "1 lb ", "\n"),
    ("temperatures in a sentence", f"{HEAD}---\n\n", "180 °F ", "\n"),
    ("mixed numbers in a sentence", f"{HEAD}---\n\n", "1 1/2 ", "\n"),
    ("a sum in a sentence", f"{HEAD}---\n\n", "1 cup + ", "\n"),
    ("brackets in a sentence", f"{HEAD}---\n\n", "1 lb (", "\n"),
    ("lines of amounts", f"{HEAD}ingredients:\n  - 1 lb salt\n---\n\n", "1 lb\n", "\n"),
    ("headings of one name", f"{HEAD}---\n\n", "# salt\n", "\n"),
    ("wrong links", f"{HEAD}---\n\n", "[a](#b) ", "\n"),
    ("wrong links under headings", f"{HEAD}---\n\n", "# c\n\n[a](#b)\n\n", "\n"),
    ("open brackets", f"{HEAD}---\n\n", "[", "\n"),
    ("cells", f"{HEAD}---\n\n|{'a|' * 9}\n|{'-|' * 9}\n|", "b\\|c|", "\n"),
    ("a method of sentences", f"{HEAD}---\n\n", "Roast it at 350 °F for 2 hours to 165 °F. ", "\n"),
    ("a method in one sentence", f"{HEAD}{MEAT}---\n\n", "roast it in the oven for 2 hours, and ", "\n"),
    (
        "a method without an end",
        f"{HEAD}{MEAT}---\n\nroast it ",
        "in the fridge for 2 hours at 180 °F ",
        "\n",
    ),
    ("then and then", f"{HEAD}{MEAT}---\n\nroast it 1 h ", "then 2 h ", "\n"),
    ("ranges of a stage", f"{HEAD}course:\n  - simmer: '6 h ", "to 1 ", "'\n---\n\nEat.\n"),
    ("temperatures of a stage", f"{HEAD}course:\n  - simmer: 'at 1 ", "to 165 °F ", "'\n---\n\nEat.\n"),
    ("an ingredient line", f"{HEAD}ingredients:\n  - '1 lb salt ", "1 lb ", "'\n---\n\nEat.\n"),
    ("spaces of an ingredient line", f"{HEAD}ingredients:\n  - '1 lb salt", "    ", "a'\n---\n\nEat.\n"),
    ("brackets of an ingredient line", f"{HEAD}ingredients:\n  - '1 lb elk ", "[", "'\n---\n\nEat.\n"),
    ("words of nitrite", f"{HEAD}{MEAT}ingredients:\n  - 1 tsp ", "sodium nitrite ", "\n---\n\nEat.\n"),
    ("lines of ingredients", f"{HEAD}ingredients:\n", "  - 1 lb root of #n\n", "---\n\nEat.\n"),
    ("wrong lines of ingredients", f"{HEAD}ingredients:\n", "  - 1 zz #n\n", "---\n\nEat.\n"),
    ("tags of YAML", f"{HEAD}ingredients:\n", "  - !a b\n", "---\n\nEat.\n"),
    ("anchors in one line", f"{HEAD}ingredients: [", "&a b, ", "c]\n---\n\nEat.\n"),
    ("comments", f"{HEAD}ingredients:\n", "  - 1 lb elk # salt\n", "---\n\nEat.\n"),
    ("a title", "---\nname: a ", "# salt ", "\nserves: 4\nchapter: Pots\n---\n\nEat.\n"),
    ("water", f"{HEAD}{MEAT}cure:\n  method: brine\n  water: ", "1 cup + ", "1 cup\n---\n\nEat.\n"),
    ("dishes of a gathering", SUPPER, "  - all guests [Roast](../recipes/roast.md)\n", "---\n\nEat.\n"),
    ("things on hand", f"{SUPPER}on hand:\n", "  - 1 lb root of #n, in the freezer\n", "---\n\nEat.\n"),
    ("places of a thing on hand", f"{SUPPER}on hand:\n  - '1 lb elk ", "in the ", ",'\n---\n\nEat.\n"),
]
PIECES = 40
FLOOR = 400
"Lines of the program: what a text that is refused at its first piece may take."


def steps(work: Callable[[], object]) -> int:
    """Lines of the program that run, those of loops and generators each time round."""
    count = 0

    def step(frame: FrameType, event: str, _: Any) -> Any:
        nonlocal count
        count += event in ("line", "call")
        return step

    def begin(frame: FrameType, event: str, argument: Any) -> Any:
        return step(frame, event, argument) if frame.f_code.co_filename.startswith(str(ROOT)) else None

    before = sys.gettrace()
    sys.settrace(begin)
    try:
        work()
    finally:
        sys.settrace(before)
    return count


@pytest.mark.parametrize(
    ("before", "piece", "behind"), [file[1:] for file in FILES], ids=[file[0] for file in FILES]
)
def test_check_takes_twice_as_long_for_twice_as_much(
    before: str, piece: str, behind: str, make_book: Callable[..., Path]
) -> None:
    def work(pieces: int) -> int:
        numbered = (piece.replace("#n", "x" * number) for number in range(1, pieces + 1))
        text = before + "".join(numbered) + behind
        name = "gatherings/supper.md" if text.startswith(SUPPER) else "recipes/dish.md"
        book = make_book({"recipes/roast.md": f"{HEAD}---\n\nRoast it.\n", name: text})
        check_book(book)  # what a first run loads is no work of the text
        markdown.parse.cache_clear()
        return steps(lambda: check_book(book))

    # From a text that has the piece already: one without it may be read further than one that is refused for it.
    half, once, twice = (work(pieces) for pieces in (PIECES // 2, PIECES, 2 * PIECES))
    assert twice - once <= FOR_TWICE * max(once - half, FLOOR)


class Counted(str):
    """A text that counts the characters that are copied of it, by itself or by its copies."""

    copied = 0

    def __getitem__(self, key: Any) -> Counted:
        part = Counted(str.__getitem__(self, key))
        Counted.copied += len(part)
        return part

    def split(self, *how: Any) -> list[str]:  # type: ignore[override]
        Counted.copied += len(self)
        return str.split(self, *how)

    def rstrip(self, *what: Any) -> Counted:
        Counted.copied += len(self)
        return Counted(str.rstrip(self, *what))

    def lstrip(self, *what: Any) -> Counted:
        Counted.copied += len(self)
        return Counted(str.lstrip(self, *what))


def copied(work: Callable[[], object]) -> int:
    Counted.copied = 0
    work()
    return Counted.copied


def test_place_in_a_value_copies_no_rest_of_its_line() -> None:
    def work(pieces: int) -> int:
        line = Counted("name: " + "1 lb " * pieces + "x")
        text = Text(str(line)[6:], "a.md", (line, Counted("serves: 4")), 2, (0, 6))
        at: list[Position] = []
        count = copied(lambda: at.append(text.at(len(text.value) - 1)))
        assert at == [Position("a.md", 2, len(line))]
        return count

    assert work(200) <= FOR_TWICE * work(100)


def test_place_in_a_paragraph_copies_no_text_before_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def work(pieces: int) -> int:
        text = "1 lb *of*\n" * pieces
        tokens = tuple(markdown._parser().parse(text))
        for token in tokens:
            token.content = Counted(token.content)
        monkeypatch.setattr(markdown, "parse", lambda text: tokens)
        runs: list[markdown.Run] = []
        count = copied(lambda: runs.extend(markdown.find_runs(text)))
        last = [run for run in runs if run.text == "of"][-1]
        assert (last.line, last.column) == (pieces, 7)
        return count

    assert work(200) <= FOR_TWICE * work(100)


def test_words_around_a_temperature_are_few(monkeypatch: pytest.MonkeyPatch, kitchen: Kitchen) -> None:
    """What `bound_of` is handed, for every temperature of a paragraph."""
    handed: list[int] = []

    def counting(before: str, after: str, at: TemperatureRange) -> str:
        handed.append(len(before) + len(after))
        return bound_of(before, after, at)

    monkeypatch.setattr(conversions_module, "bound_of", counting)
    amounts = Amounts(kitchen.shower, "us")
    for pieces in (100, 200):
        handed.clear()
        found = conversions("heat it to 165 °F. " * pieces, amounts=amounts, find_unit=lambda word: None)
        assert len(found) == len(handed) == pieces
        assert max(handed) <= 2 * FARTHEST


class Gone(tuple[Insertion, ...]):
    """Insertions that count how often all of them are gone through."""

    times = 0

    def __iter__(self) -> Iterator[Insertion]:
        Gone.times += 1
        return super().__iter__()


def test_amounts_of_a_paragraph_are_gone_through_once(monkeypatch: pytest.MonkeyPatch) -> None:
    context = make_context(sample.book(), tables=sample.TABLES, theme=load_theme("larder"))
    monkeypatch.setattr(prose_module, "conversions", lambda *text, **how: Gone(conversions(*text, **how)))
    Gone.times = 0
    html = Prose(context=context, file="recipes/a.md").html("*165 °F* in " * 50)
    assert html.count("74 °C") == 50
    assert Gone.times == 5  # the two tags, what stands between them and around them


def test_problem_is_compared_with_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[object] = []
    alike = Problem.__eq__

    def counting(one: Problem, other: object) -> bool:
        compared.append(other)
        return alike(one, other)

    monkeypatch.setattr(Problem, "__eq__", counting)
    log = ProblemLog()
    for line in [*range(1, 101), *range(1, 101)]:
        log.add("missing-name", Position("a.md", line), "The line has no name.")
    log.extend(tuple(log))
    assert [problem.position for problem in log] == [Position("a.md", line) for line in range(1, 101)]
    assert len(compared) <= 3 * 100  # each once where it is met again; two may share a place in the table


def test_names_joined_a_thousand_times_are_read(tables: Tables) -> None:
    assert animal_in("elk fat" + " and fat" * 3000, tables) is None
    assert animal_in("elk meat" + " and fat" * 3000, tables) == tables.animal("elk")


def test_name_of_nitrite_is_denied_by_words_near_it(tables: Tables) -> None:
    """Only so many characters before a name are looked at; a no behind which it cannot be sure denies nothing."""
    names = tables.nitrite_names
    assert [one.kind for one in names.all_in("salt, no added nitrite")] == []
    assert names.all_in("salt, no " + "nitrite or " * 20 + "nitrite") == ()
    assert len(names.all_in("no " + "added " * 100 + "nitrite")) == 1


@pytest.mark.parametrize("make", [lambda number: "salt", lambda number: f"salt-{number}"])
def test_id_of_a_heading_is_found_at_once(make: Callable[[int], str]) -> None:
    def work(pieces: int) -> int:
        text = "".join(f"# {make(number)}\n" for number in range(pieces))
        markdown.parse(text)
        return steps(lambda: markdown.find_headings(text))

    assert work(200) <= FOR_TWICE * work(100)


def test_marks_on_a_letter_are_cut_into_thirties() -> None:
    """Unicode Standard Annex 15, Stream-Safe Text Process: a joiner, U+034F, behind every 30 marks."""
    acute = "\N{COMBINING ACUTE ACCENT}"
    assert stream_safe("a" + acute * 30) == "a" + acute * 30
    assert stream_safe("a" + acute * 61) == "a" + acute * 30 + "\u034f" + acute * 30 + "\u034f" + acute
    assert slugify("Crème brûlée") == "crème-brûlée"
    assert len(slugify("a" + acute * 61)) <= 63


@pytest.mark.parametrize(("word", "known"), [("a" * 101, ("a" * 100,)), ("smokd", ("x",) * 500 + ("smoke",))])
def test_no_near_name_is_looked_for_in_what_is_no_slip(word: str, known: tuple[str, ...]) -> None:
    assert nearest(word, known) == ""


def test_near_name_is_found_among_as_many_as_a_book_has() -> None:
    assert nearest("smokd", ("x",) * 499 + ("smoke",)) == "Did you mean 'smoke'?"


def test_sum_of_more_parts_than_a_kitchen_adds_is_refused(tables: Tables) -> None:
    def parse(parts: int) -> Quantity:
        return parse_amount(" + ".join(["1 cup"] * parts), Grammar(system="us", language="en", tables=tables))

    one, most = parse(1).total(Dimension.VOLUME), parse(MOST_PARTS).total(Dimension.VOLUME)
    assert one is not None
    assert most is not None
    assert most.low == MOST_PARTS * one.low
    with pytest.raises(AmountError, match=r"More than 20 amounts are added up here\."):
        parse(MOST_PARTS + 1)
