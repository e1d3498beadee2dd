"""A text, and a problem of it, in; the texts that its hint says to write, applied to the letter, out."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.problems import Problem

WHOLE_LINE = re.compile(
    r"(?:Put the text in single quotes|Begin the line with a dash(?: and a space)?|Put its words behind a comma): (?P<line>.+)"
)
AS_ITEM = re.compile(r"Begin it with '- ', indented as the other items: (?P<line>.+)")
AT_EDGE = re.compile(r"Begin the line at the left edge: (?P<line>.+)")
UNDER = re.compile(r"Put it under the key, with a dash: (?P<line>.+)")
MEANT = re.compile(r"Did you mean '(?P<word>[^']+)'\?")
WRITE = re.compile(r"Write (?P<what>.+?)\.?")
APART = re.compile(r"Name (?:it apart from the cure's: |them apart \()(?P<name>.+) for (?P<place>the \w+).*")
BRACKETS = re.compile(r"Put the weight in brackets: (?P<value>.+)")
ONE_OF_TWO = re.compile(r"Correct one of the two: write (?P<one>.+), or (?P<two>.+)\.")
QUOTED = re.compile(r"'([^']+)'")
DELETE = ("Remove the line", "Delete the line", "Write a value, or delete the line", "Keep one of the two")


def mended(text: str, problem: Problem) -> Iterator[str]:
    """Every text that the hint can mean; none where it says no line or word to write."""
    assert problem.position is not None
    lines = text.split("\n")
    at = problem.position.line - 1
    for new in _lines(lines, at, problem):
        yield "\n".join([*lines[:at], *new, *lines[at + 1 :]])
    if problem.hint.startswith("Add "):
        added = problem.hint.removeprefix("Add ").rstrip(".")
        above = lines[at]
        indent = " " * (len(above) - len(above.lstrip(" ")) + 2)
        for one in re.split(r", or ", added):
            yield "\n".join([lines[0], one, *lines[1:]])
            yield "\n".join([*lines[: at + 1], f"{indent}{one}", *lines[at + 1 :]])


def _lines(lines: list[str], at: int, problem: Problem) -> Iterator[list[str]]:
    """What may stand in place of the line."""
    line, hint = lines[at], problem.hint
    indent = line[: len(line) - len(line.lstrip(" "))]
    if found := WHOLE_LINE.fullmatch(hint):
        yield [indent + found["line"]]
    elif found := AT_EDGE.fullmatch(hint):
        yield [found["line"]]
    elif found := AS_ITEM.fullmatch(hint):
        above = next(one for one in reversed(lines[:at]) if one.lstrip().startswith("- "))
        yield [above[: len(above) - len(above.lstrip(" "))] + found["line"]]
    elif found := APART.fullmatch(hint):
        name = found["name"]
        yield [re.sub(rf"\b{re.escape(name)}", f"{name} for {found['place']}", line)]
    elif found := BRACKETS.fullmatch(hint):
        yield [f"{line.partition(':')[0]}: {found['value']}"]
    elif found := ONE_OF_TWO.fullmatch(hint):
        both = re.compile(rf"{re.escape(found['one'])} *\({re.escape(found['two'])}\)")
        yield [both.sub(found["one"], line)]
        yield [both.sub(found["two"], line)]
    elif found := UNDER.fullmatch(hint):
        yield [line.partition(":")[0] + ":", f"  {found['line']}"]
    elif found := MEANT.search(hint):
        for word in QUOTED.findall(problem.message):
            yield [line.replace(word, found["word"], 1)]
    elif hint.startswith(DELETE):
        yield []
    elif found := WRITE.fullmatch(hint):
        yield from _written(line, indent, found["what"], problem)


def _written(line: str, indent: str, what: str, problem: Problem) -> Iterator[list[str]]:
    """`Write X, or Y`: each in place of the line behind its dash, of what stands behind its key, or of the word told."""
    dash = "- " if line.lstrip().startswith("- ") else ""
    for one in (what, *re.split(r",? or (?:an amount such as )?|, such as |: (?=\d)", what)):
        yield [f"{indent}{dash}{one}"]
        yield [f"{line.partition(':')[0]}: {one}"]
        for word in QUOTED.findall(problem.message):
            yield [line.replace(word, one, 1)]
