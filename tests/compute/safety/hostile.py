"""Hostile recipes of every `cases/hostile_*.txt`, and what the program makes of a recipe: errors and boxes."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner

from generator.cli import main
from tests.compute.safety.case_rows import Row, SafetyCase, read_cases


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of a book."""

    errors: frozenset[str]
    "Slugs of the problems that are errors, and of the rules that they name."
    boxes: frozenset[str]
    untold: frozenset[str]
    "Those of the boxes that say what cannot be told."

    def answers(self, row: Row) -> bool:
        """True where the demand is met: an error where one must stop the site, a box where a box must stand."""
        spoken = self.errors if row.outcome == "error" else self.boxes | self.errors
        return row.slug in spoken


def collect() -> tuple[SafetyCase, ...]:
    """Every case of a file of that name; its first row is what is demanded."""
    return tuple(case for case in read_cases() if case.name.startswith("hostile_"))


def outcome(folder: Path, files: dict[str, str]) -> Outcome:
    """What `potherb check` says of a book of these files, written into an empty folder."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    result = CliRunner().invoke(main, ["check", str(folder), "--json", "--cautions"], catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    data = json.loads(result.stdout)
    errors = [problem for problem in data["problems"] if problem["severity"] == "error"]
    assert (result.exit_code == 1) is bool(errors)
    named = (re.findall(r"\(rule ([\w-]+)\)", problem["message"]) for problem in errors)
    return Outcome(
        errors=frozenset({problem["slug"] for problem in errors}.union(*named)),
        boxes=frozenset(caution["slug"] for caution in data["cautions"]),
        untold=frozenset(caution["slug"] for caution in data["cautions"] if caution["missing"]),
    )


def facts_of(text: str) -> Iterator[tuple[str, str]]:
    """Each fact of a front matter by name, and the text without it: a key with all below it, or a part of a stage."""
    head, front, body = text.split("---\n", 2)
    lines = front.splitlines(keepends=True)
    for number, line in enumerate(lines):
        key = re.match(r"( *)([a-z][\w -]*):", line)
        if key is not None and not line.lstrip().startswith("- "):
            end = _end_of(lines, number, len(key[1]))
            yield key[2], _join(head, lines[:number] + lines[end:], body)
        for name, part in _parts_of_a_stage(line):
            yield name, _join(head, [*lines[:number], line.replace(part, "", 1), *lines[number + 1 :]], body)


def _end_of(lines: list[str], number: int, depth: int) -> int:
    """The first line behind a key that does not stand below it."""
    end = number + 1
    while end < len(lines) and len(lines[end]) - len(lines[end].lstrip(" ")) > depth:
        end += 1
    return end


PARTS = (
    ("length", r"(?<=: )[\d–./½ -]+ (?:min|minutes|h|hours|days?|weeks?)\b"),
    ("at", r" ?\bat [\d–-]+ ?°[FC]"),
    ("inside", r" ?\bto [\d–-]+ ?°[FC] inside"),
    ("place", r" ?\b(?:in|on) (?:the|a|an) [a-z ]*?[a-z]+(?=$|\n| until| at| to)"),
)


def _parts_of_a_stage(line: str) -> Iterator[tuple[str, str]]:
    if re.match(r"\s*- [a-z ]+: ", line):
        for name, pattern in PARTS:
            found = re.search(pattern, line)
            if found is not None:
                yield name, found[0]


def _join(head: str, lines: list[str], body: str) -> str:
    return f"{head}---\n{''.join(lines)}---\n{body}"
