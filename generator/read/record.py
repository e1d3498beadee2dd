"""One split file and the block of its keys in, its record out; None where something in the file is an error."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.model.book import BookConfig
from generator.problems import ProblemLog
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
    """The record of a file; `known` gives from its fields what the links of the body can name."""
    own, record = ProblemLog(), None
    found = read_front_matter(source.front, source.front_line, source.file, own, block.holds)
    if found is not None:
        check_keys(block, found, own)
        at = Value(found=found, grammar=context.grammar, log=own)
        said = block.told(at, slug=slug, file=source.file, position=found.start)
        for question in found.questions:
            own.add("open-question", question.position, f"Not answered yet: {question.words}", _ANSWER)
        body = read_body(source, known(said), at.grammar, own)
        record = block.made({**said, **_asked(block, found), "body": body})
    log.extend(own)
    return None if own.has_errors else record
