"""Safety cases as rows of text in, recipes and what must be said of them out. `cases/*.txt` is read whole, by folder.

A case is its name, then what differs from a plain recipe, then what each rule says:

    elderberries that boil too short
      ingredients: 2 lb elderberries; 1 cup honey
      course: boil: 19 min
      -> elderberry error: boiled for only 19 min

Lists and tables have semicolons between. `all` is what every recipe of its file has, `recipe shank` a recipe that a case
names by `beside: shank`, `book` lines of book.yaml, `method` the words of its body. A line with a number sign says where the expected comes from.

What a rule says: `error`, it refuses; `box`, it speaks and knows all; `asks` with the keys that are missing; `quiet`,
neither box nor error. Behind a colon stand words, a bar between: of an error those of its message, of a box those of
its reason, `!` before those that are not there. A mark before them looks elsewhere: `hint: boil them`, `text: never`.
`errors none` and `boxes none` are of the whole recipe, `page says` of its quiet lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

FOLDER = Path(__file__).parent / "cases"
FILE = "recipes/dinner.md"
OUTCOMES = ("error", "box", "asks", "quiet", "none", "says")
MARKS = ("hint", "problem", "text", "title", "only", "signal", "source", "accepted", "stage")
"Where words stand. The first and `text` and `title` have them among others, the rest are all that is there."
LISTS, TABLES = ("ingredients", "course"), ("meat", "cure", "keep", "accept")
ROW = re.compile(
    rf"-> (?P<slug>\S+) (?P<outcome>{'|'.join(OUTCOMES)})(?: (?P<keys>[^:]+))?(?:: (?P<words>.+))?"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What is read, or must not be."""

    mark: str
    "One of MARKS; empty for the message or the reason."
    text: str
    absent: bool

    def stand_in(self, told: str) -> bool:
        """True where what is told keeps to it."""
        found = (
            self.text in told if self.mark in ("", "hint", "text", "title") else self.text in told.split("\n")
        )
        return found is not self.absent


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What is said under one slug."""

    slug: str
    outcome: str
    missing: tuple[str, ...]
    words: tuple[Words, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyCase:
    """A book of one dish, and what is said of it."""

    name: str
    "With its file before it."
    files: dict[str, str]
    rows: tuple[Row, ...]


@dataclass(slots=True, kw_only=True)
class _Block:
    name: str
    keys: dict[str, str] = field(default_factory=dict)
    rows: list[Row] = field(default_factory=list)


def read_cases(folder: Path = FOLDER) -> tuple[SafetyCase, ...]:
    """Every case of every file, in the order of their names."""
    found = tuple(case for path in sorted(folder.glob("*.txt")) for case in _cases_in(path))
    names = [case.name for case in found]
    assert len(names) == len(set(names)), [name for name in names if names.count(name) > 1]
    return found


def _cases_in(path: Path) -> Iterator[SafetyCase]:
    blocks = list(_blocks(path))
    shared = next((block.keys for block in blocks if block.name == "all"), {})
    recipes = {block.name.split()[1]: block for block in blocks if block.name.startswith("recipe ")}
    for block in blocks:
        if block.name == "all" or block in recipes.values():
            assert not block.rows, f"{path.name}: {block.name} is no case"
            continue
        assert block.rows, f"{path.name}: nothing must be said of {block.name}"
        keys = {**shared, **block.keys}
        beside = [name.strip() for name in keys.pop("beside", "").split(";") if name]
        files = {f"recipes/{name}.md": recipe_of(recipes[name].keys) for name in beside}
        book = "".join(f"{line.strip()}\n" for line in keys.pop("book", "").split(";") if line)
        files |= {"book.yaml": f"title: A tiny book\nchapters: [Pots]\n{book}", FILE: recipe_of(keys)}
        yield SafetyCase(name=f"{path.stem}: {block.name}", files=files, rows=tuple(block.rows))


def _blocks(path: Path) -> Iterator[_Block]:
    block: _Block | None = None
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        text, where = line.strip(), f"{path.name}:{number}"
        if not text or text.startswith("#"):
            continue
        if not line.startswith(" "):
            if block is not None:
                yield block
            block = _Block(name=text)
            continue
        assert block is not None, f"{where}: no case begins before this line"
        if text.startswith("->"):
            block.rows.append(_row(text, where))
        else:
            key, colon, value = text.partition(":")
            assert colon, f"{where}: neither a key with its value nor an outcome"
            assert key not in block.keys, f"{where}: {key} stands twice"
            block.keys[key] = value.strip()
    if block is not None:
        yield block


def _row(text: str, where: str) -> Row:
    found = ROW.fullmatch(text)
    assert found is not None, f"{where}: -> slug, then one of {', '.join(OUTCOMES)}"
    keys = tuple(key.strip() for key in (found["keys"] or "").split(",") if key.strip())
    assert bool(keys) is (found["outcome"] == "asks"), (
        f"{where}: `asks` names what is missing, others nothing"
    )
    words = tuple(_words(text.strip()) for text in found["words"].split(" | ")) if found["words"] else ()
    return Row(slug=found["slug"], outcome=found["outcome"], missing=keys, words=words)


def _words(text: str) -> Words:
    mark, colon, rest = text.partition(": ")
    marked = bool(colon) and mark in MARKS
    text = rest if marked else text
    return Words(mark=mark if marked else "", text=text.removeprefix("!"), absent=text.startswith("!"))


def recipe_of(keys: dict[str, str]) -> str:
    """A recipe of its keys; `name` and what it yields have a plain value where a case does not say."""
    yields = {} if "makes" in keys else {"serves": "4"}
    method = keys.get("method", "Cook it.")
    front = {key: value for key, value in keys.items() if key != "method"}
    lines = {"name": "Dinner", **yields, "chapter": "Pots", **front}
    return "---\n" + "".join(_key(key, value) for key, value in lines.items()) + f"---\n\n{method}\n"


def _key(key: str, value: str) -> str:
    if key not in LISTS + TABLES:
        return f"{key}: {value}\n"
    mark = "- " if key in LISTS else ""
    return f"{key}:\n" + "".join(f"  {mark}{one.strip()}\n" for one in value.split(";"))
