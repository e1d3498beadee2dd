"""The README's tables of keys, written from the entries of the keys: `python -m tests.readme_keys` puts them in.

Each table stands between two comments, `<!-- keys of a recipe -->` and `<!-- end -->`. What is between them is not
edited by hand; tests/read/test_keys.py tells where it is not what this writes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from generator.read.config import BOOK_FILE_KEYS
from generator.read.gathering import GATHERING
from generator.read.keys import LISTS, Behind, Block, Key
from generator.read.recipe import PAGE, RECIPE

README = Path(__file__).parent.parent / "README.md"
TABLES: dict[str, Block[Any]] = {
    "a recipe": RECIPE,
    "a gathering": GATHERING,
    "a page": PAGE,
    "book.yaml": BOOK_FILE_KEYS,
}
HEAD = "| key | what it takes | for example |\n| --- | --- | --- |\n"


def lines(block: Block[Any], above: str = "") -> Iterator[str]:
    """A line for each key, those of an inner block below the key that holds them."""
    for key in block.keys:
        yield line(key, above)
        if key.inner:
            yield from lines(key.inner, f" of `{key.name}`")


def line(key: Key, above: str = "") -> str:
    """The row of one key; `above` names the key that holds it."""
    return f"| `{key.name}`{above} | {_takes(key)} | {_example(key)} |\n"


def _takes(key: Key) -> str:
    takes = key.takes or ", ".join(key.choices)
    below = {Behind.BLOCK: "its keys follow", Behind.TEXT_OR_BLOCK: "or the keys that follow"}
    below[Behind.PIECES] = "or the keys that follow; or a list of either, where several go in together"
    parts = ["required" if key.required else "", takes, below.get(key.behind, "")]
    return "; ".join(part for part in parts if part)


def _example(key: Key) -> str:
    dash = "- " if key.behind in LISTS else ""
    return f"`{dash}{key.example}`" if key.example else ""


def written(text: str) -> str:
    """The README with its tables as the entries have them."""
    for name, block in TABLES.items():
        begin, end = f"<!-- keys of {name} -->\n", "<!-- end -->\n"
        table = "".join(lines(block))
        text, count = re.subn(f"{begin}.*?{end}", lambda _: begin + HEAD + table + end, text, flags=re.S)  # noqa: B023
        assert count == 1, name
    return text


if __name__ == "__main__":
    README.write_text(written(README.read_text(encoding="utf-8")), encoding="utf-8")
