"""Where a problem and a command stand, as given values, so that a part can be left out; a sentence for each that is missing.

`names_taken` and `names_shown` are what such checks have in common: what nobody asks for by its name is not used.
"""

from __future__ import annotations

import ast
import functools
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
GENERATOR = ROOT / "generator"
TEMPLATES = tuple(sorted((ROOT / "themes").rglob("*.html")))
REPORTED = re.compile(r"\b(?:log\.add\(\s*|Problem\(\s*slug=|AmountError\(\s*)\"([a-z0-9-]+)\"")
"A slug where it is reported. Where a name stands in its place, this does not see it."


def names_taken(*files: Path) -> frozenset[str]:
    """Names of the attributes that modules take from something."""
    return frozenset().union(*map(_taken, files))


@functools.cache  # several checks ask for the same files, and parsing takes longer than all of them
def _taken(file: Path) -> frozenset[str]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return frozenset(node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute))


def names_shown(*templates: Path) -> frozenset[str]:
    """Names that templates take from something."""
    return frozenset(re.findall(r"\.(\w+)", texts(*templates)))


def texts(*files: Path) -> str:
    """Several files as one text."""
    return "\n".join(file.read_text(encoding="utf-8") for file in files)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProblemPlaces:
    """All places of which a problem needs several."""

    slugs: Collection[str]
    "Of SLUGS."
    program: str
    "Its text, but for that of problems.py."
    tests: str


def problem_gaps(of: ProblemPlaces) -> list[str]:
    """A sentence for each slug that stands in one place and is missing in another."""
    return [*_unreported(of), *_unlisted(of)]


def _unreported(of: ProblemPlaces) -> Iterator[str]:
    for slug in of.slugs:
        if f'"{slug}"' not in of.program:
            yield f"{slug} is in SLUGS, and is reported nowhere"
        if not re.search(rf"[\"']{slug}[\"']", of.tests):
            yield f"{slug} is in SLUGS, and is seen by no test"


def _unlisted(of: ProblemPlaces) -> Iterator[str]:
    for slug in sorted(set(REPORTED.findall(of.program)) - set(of.slugs)):
        yield f"{slug} is reported, and is not in SLUGS of problems.py"


@dataclass(frozen=True, slots=True, kw_only=True)
class CommandPlaces:
    """All places of which a command needs several."""

    written: Mapping[str, Collection[str]]
    "Each file of cli/, and the names of its commands."
    listed: Collection[str]
    "Those of COMMANDS, and of the groups among them."
    readme: str


def command_gaps(of: CommandPlaces) -> list[str]:
    """A sentence for each command that stands in one place and is missing in another."""
    return [*_unreachable(of), *_undescribed(of)]


def _unreachable(of: CommandPlaces) -> Iterator[str]:
    for file, names in of.written.items():
        for name in names:
            if name not in of.listed:
                yield f"{file}: {name} is not in COMMANDS of cli/__init__.py, so nobody can call it"


def _undescribed(of: CommandPlaces) -> Iterator[str]:
    for name in of.listed:
        if not re.search(rf"`potherb (?:cure (?:[a-z]+\\\|)*)?{name}\b", of.readme):
            yield f"README.md does not describe `potherb {name}`"
    for name in sorted(set(re.findall(r"`potherb ([a-z]+)", of.readme)) - set(of.listed)):
        yield f"README.md describes `potherb {name}`, which is no command"
