"""One split file and the block of its keys in, its record out; None for an error that leaves no hole."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from generator.model.book import BookConfig
from generator.model.recipe import Hole
from generator.problems import Problem, ProblemLog
from generator.read.body import NOTHING_KNOWN, Known, read_body
from generator.read.front_matter import read_front_matter
from generator.read.grammar import Grammar
from generator.read.keys import Block, Record
from generator.read.shapes import check_keys
from generator.read.source import SourceFile
from generator.read.text import FrontMatter
from generator.read.values import Value
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What the files of one book are read with."""

    config: BookConfig
    tables: Tables

    @property
    def grammar(self) -> Grammar:
        """How amounts are written in this book."""
        return Grammar(
            system=self.config.units,
            language=self.config.language,
            tables=self.tables,
            own_weights=frozenset(weight.name.lower() for weight in self.config.house_weights),
            own_salts=self.config.curing_salts,
        )


def _asked(block: Block[Any], found: FrontMatter) -> dict[str, Any]:
    """The fields that open questions fill: with one of them a record is a draft, whatever `draft` says."""
    if not found.questions:
        return {}
    filled = {"questions": tuple(found.questions), "draft": True}
    return {name: value for name, value in filled.items() if name in block.fields}


_ANSWER = "Write the answer in its place, and delete the line."


def _nothing(_: Mapping[str, Any]) -> Known:
    return NOTHING_KNOWN


def read_record(
    block: Block[Record],
    source: SourceFile,
    slug: str,
    context: Reading,
    log: ProblemLog,
    known: Callable[[Mapping[str, Any]], Known] = _nothing,
) -> Record | None:
    """The record of a file; `known` gives from its fields what the links of the body can name.

    One that has a field for holes is kept without what cannot be read, as long as it has a name.
    """
    own, record = ProblemLog(), None
    keeps = "holes" in block.fields
    found = read_front_matter(source.front, source.front_line, source.file, own, block.holds, keeps=keeps)
    if found is not None:
        check_keys(block, found, own)
        at = Value(found=found, grammar=context.grammar, log=own)
        said = block.told(at, slug=slug, file=source.file, position=found.start)
        for question in found.questions:
            own.add("open-question", question.position, f"Not answered yet: {question.words}", _ANSWER)
        body = read_body(source, known(said), at.grammar, own)
        holes = {"holes": _holes(block, source, own)} if keeps and own.has_errors else {}
        own = _without_echoes(own) if keeps else own
        record = block.made({**said, **_asked(block, found), **holes, "body": body})
        keeps = keeps and bool(said.get("name"))
    log.extend(own)
    return None if own.has_errors and not keeps else record


_SECTION = re.compile(r"([^\s:#-][^:]*):")
_LOST = frozenset({"open-comment", "invisible-character"})
"Problems of a body that hide words of it; what else is wrong there stands beside words that are heard."


_ECHOES = frozenset({"unknown-ingredient", "unknown-base", "shares-not-whole"})
"Errors that something is not there, which another may have kept from being read."


def _without_echoes(own: ProblemLog) -> ProblemLog:
    """The problems without those that may follow from one of the others: each is asked about once."""
    kept = ProblemLog()
    is_lost = any(one.is_error and one.slug not in (*_ECHOES, "missing-key") for one in own)
    damaged = {line for one in own if one.slug.startswith("yaml-") for line in _lines_of(one)}
    kept.extend(
        one
        for one in own
        if not (is_lost and one.slug in _ECHOES)
        and (
            one.slug.startswith("yaml-")
            or not one.is_error
            or one.position is None
            or one.position.line not in damaged
        )
    )
    return kept


def _lines_of(one: Problem) -> Iterator[int]:
    """The line of a damage; where YAML joins it to the item above it, that of the item too."""
    if one.position is not None:
        yield one.position.line
        if one.message.startswith("YAML joins"):
            yield one.position.line - 1


def _holes(block: Block[Any], source: SourceFile, own: ProblemLog) -> tuple[Hole, ...]:
    """A hole for each error of a front matter, and for what hides words of the body."""
    lines = source.front.split("\n")
    return tuple(hole for one in own.sorted() if one.is_error for hole in _hole(block, source, lines, one))


def _hole(block: Block[Any], source: SourceFile, lines: list[str], one: Problem) -> Iterator[Hole]:
    assert one.position is not None
    number = one.position.line - source.front_line
    in_front = 0 <= number < len(lines)
    key = _section(lines, number) if in_front else "text"
    entry = block.key(key)
    # Of a key that is not there nothing is unread, unless it is one under another.
    is_missing = one.slug == "missing-key" and entry is not None and entry.inner is None
    if is_missing or (not in_front and one.slug not in _LOST):
        return
    words = lines[number].strip().removeprefix("- ").strip() if in_front else ""
    is_known = entry is not None or not in_front
    yield Hole(
        key=key, is_known=is_known, words=words, message=one.message, hint=one.hint, position=one.position
    )


def _section(lines: list[str], number: int) -> str:
    """The key at the left edge that a line of a front matter stands under; empty where there is none."""
    for line in reversed(lines[: number + 1]):
        found = _SECTION.match(line)
        if found is not None:
            return found.group(1).strip(" '\"")
    return ""
