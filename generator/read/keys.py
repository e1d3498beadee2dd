"""The keys of a front matter: each is one entry, which says how it is read, what it takes and what an example is.

Values of a front matter in, the record out that its keys fill. Hints of problems and the README's tables of keys are
written from the same entries. All values are text; what they mean is for their readers.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import KW_ONLY, MISSING, dataclass, field, fields, replace
from enum import Enum, IntEnum
from functools import cached_property
from typing import Any, Generic, TypeVar

from generator.read.text import Path
from generator.read.values import OneOf, Value

Record = TypeVar("Record")


class Holds(IntEnum):
    """What the text behind a key is: the later, the more of what YAML does to it can only be a slip."""

    VALUES = 0
    "Measured or chosen: behind it a comment may stand."
    PIECES = 1
    "The same of one thing, or a list of them: each a line, or keys of its own."
    PROSE = 2
    "There a lone ' # ' is more likely text than a comment."
    LINES = 3
    "A list of things, each in a line of its own."
    STAGES = 4
    "The same, where an item may be one key with a text behind it."
    COUNTED = 5
    "A list of things, where a number alone is a slip."


class Behind(Enum):
    """What stands behind a key."""

    TEXT = "text"
    LIST = "a list"
    GROUPS = "a list, or lists under a title each"
    STAGES = "a list of names, some with a text behind them"
    MAPPING = "names with a text each"
    BLOCK = "keys of its own"
    TEXT_OR_BLOCK = "a text, or keys of its own"
    PIECES = "a text, keys of its own, or a list of either"


LISTS = (Behind.LIST, Behind.GROUPS, Behind.STAGES)


@dataclass(frozen=True, slots=True)
class Key:
    """One key: the only place where it is told, besides the field of the record that it fills."""

    name: str
    "As it is written."
    read: Callable[[Value], Any]
    "Gives what the field holds; None where that is not told, and the record's default stands."
    takes: str
    "For the README; where it is empty, the closed list of its values says it."
    example: str
    "A value, or an item of its list; empty where the keys under it have theirs."
    _: KW_ONLY
    fills: str = ""
    "Where the record names it otherwise. Two keys may add to one field that is a list."
    also: Mapping[str, Callable[[Value], Any]] = field(default_factory=dict)
    "Further fields that the same value fills."
    required: bool = False
    behind: Behind = Behind.TEXT
    holds: Holds = Holds.VALUES
    inner: Block[Any] | None = None
    "Its own keys."

    @property
    def readers(self) -> dict[str, Callable[[Value], Any]]:
        """The fields that it fills, and how each is read."""
        return {self.fills or self.name.replace(" ", "_"): self.read, **self.also}

    @property
    def choices(self) -> tuple[str, ...]:
        """The values of a closed list, or nothing."""
        return self.read.known if isinstance(self.read, OneOf) else ()

    @property
    def to_add(self) -> str:
        """What to write where it is missing."""
        if self.choices:
            return ", or ".join(f"{self.name}: {choice}" for choice in self.choices)
        under = "and under it - " if self.behind in LISTS else ""
        return f"{self.name}: {under}{self.example}"


class Block(Generic[Record]):
    """The keys that fill one record, in the order in which they are read."""

    def __init__(self, record: type[Record], *keys: Key) -> None:
        self.record = record
        self.keys = keys
        self.fields = {one.name for one in fields(record)}  # type: ignore[arg-type]
        self.needed = {one.name for one in fields(record) if _has_no_default(one)}  # type: ignore[arg-type]

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The keys as they are written."""
        return tuple(key.name for key in self.keys)

    @cached_property
    def holds(self) -> dict[str, Holds]:
        """What the text behind each key is, by which YAML's slips are judged."""
        return {key.name: key.holds for key in self.keys}

    def key(self, name: object) -> Key | None:
        """The entry of a key, or None."""
        return next((key for key in self.keys if key.name == name), None)

    def told(self, at: Value, **known: Any) -> dict[str, Any]:
        """Field and value of what the keys say, besides what is known already; a key never read stays its default."""
        said = dict(known)
        for key in self.keys:
            value = replace(at.under(key.name), example=key.example, before=said)
            for name, read in key.readers.items():
                one = read(value)
                if one is not None:
                    said[name] = said[name] + one if isinstance(said.get(name), tuple) else one
        return said

    def read(self, at: Value, **known: Any) -> Record | None:
        """The record of what stands at a place; None where a field that has no default is not told."""
        return self.made(self.told(at, **known))

    def made(self, said: Mapping[str, Any]) -> Record | None:
        """The record of its fields; None where one that has no default is not told."""
        return self.record(**said) if self.needed <= said.keys() else None

    def inside(self, path: Path) -> Block[Any]:
        """The block that the keys under a path belong to."""
        block: Block[Any] = self
        for part in path:
            key = block.key(part)
            block = key.inner if key and key.inner else block
        return block


def _has_no_default(one: Any) -> bool:
    return one.default is MISSING and one.default_factory is MISSING
