"""Where a key of a front matter stands, as given values, so that a part can be left out; a sentence for each that is missing."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, fields
from typing import Any

from generator.read.keys import Behind, Block
from tests.readme_keys import line


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyPlaces:
    """All places of which the keys of one block need several."""

    block: Block[Any]
    others: Collection[str]
    "Fields of its record that no key fills."
    above: str
    "In the README, what stands behind the name of a key: `` of `meat` ``, or nothing."
    readme: str
    taken: Collection[str]
    "Names that the program takes from something, behind the reading."


def key_gaps(of: KeyPlaces) -> list[str]:
    """A sentence for each part of a key that stands in one place and is missing in another."""
    return [*_unpaired(of), *_untold(of), *_unseen(of)]


def _filled(of: KeyPlaces) -> dict[str, str]:
    """The fields that keys fill, and the key of each."""
    return {field: key.name for key in of.block.keys for field in key.readers}


def _unpaired(of: KeyPlaces) -> Iterator[str]:
    filled, record = _filled(of), of.block.record.__name__
    has = {field.name for field in fields(of.block.record)}
    for field, key in filled.items():
        if field not in has:
            yield f"the key `{key}` fills {record}.{field}, which {record} does not have"
        if field in of.others:
            yield f"the key `{key}` fills {record}.{field}, which is said to be none of a key"
    for field in sorted(has - filled.keys() - set(of.others)):
        yield f"{record}.{field} is filled by no key of its block"


def _untold(of: KeyPlaces) -> Iterator[str]:
    for key in of.block.keys:
        if not (key.takes or key.choices):
            yield f"the key `{key.name}` does not say what it takes"
        if bool(key.example) is (key.behind is Behind.BLOCK):
            yield f"the key `{key.name}` has no example, or one beside those of its own keys"
        if line(key, of.above) not in of.readme:
            yield f"README.md lacks the line of the key `{key.name}`: python -m tests.readme_keys writes it"


def _unseen(of: KeyPlaces) -> Iterator[str]:
    """By its name, which another record may have too: so this sees most keys that nothing follows from, not all."""
    for field, key in _filled(of).items():
        if field not in of.taken:
            yield f"nothing looks at {of.block.record.__name__}.{field}: the key `{key}` is read in vain"
