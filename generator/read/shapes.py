"""A front matter and the block of its keys in; a problem out for every key and value that does not fit."""

from __future__ import annotations

import re
from functools import cache
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, ValidationError, create_model

from generator.problems import Position, ProblemLog, nearest
from generator.read.keys import LISTS, Behind, Block, Key
from generator.read.signs import CURLY
from generator.read.text import FrontMatter, Path, Text

LATER = {
    "jar": "Cures in a jar are not read by this version.",
}
"Keys that the design knows and this version does not: never passed over in silence."

_OVENS = "What a kitchen has stands in book.yaml: ovens: 1."
INSTEAD = {
    "nitrite": "Write 'curing salt: 150 ppm'; nitrate is another salt.",
    "smoker": "What a smoker holds stands in book.yaml: smoker capacity: 30 lb.",
    "oven": _OVENS,
    "oven capacity": _OVENS,
}
"Keys whose nearest neighbour means something else."


def check_keys(block: Block[Any], found: FrontMatter, log: ProblemLog) -> None:
    """A problem for every key and value that does not fit."""
    try:
        _model(block).model_validate(found.data)
    except ValidationError as error:
        for detail in error.errors(include_url=False, include_context=False, include_input=False):
            path, key = _path(detail["loc"], found), str(detail["loc"][-1])
            if detail["type"] == "missing":
                _report_missing(block, key, path, found, log)
            elif detail["type"] == "extra_forbidden":
                _report_unknown(block, key, path, found, log)
            else:
                _report_wrong(block, detail["type"], path, found, log)


@cache
def _model(block: Block[Any]) -> type[BaseModel]:
    """The block as a model that takes nothing but its keys, all of them text."""
    wanted: dict[str, Any] = {}
    for key in block.keys:
        name, kind = key.name.replace(" ", "_").replace("-", "_"), _type_of(key)
        if key.required:
            wanted[name] = kind, Field(alias=key.name)
        else:
            wanted[name] = kind | None, Field(default=None, alias=key.name)
    strict = ConfigDict(extra="forbid", strict=True, frozen=True)
    return create_model(block.record.__name__, __config__=strict, **wanted)


def _report_missing(block: Block[Any], name: str, path: Path, found: FrontMatter, log: ProblemLog) -> None:
    key = block.inside(path).key(name)
    assert key is not None
    log.add("missing-key", found.key(*path), f"'{name}' is missing{_under(path)}.", f"Add {key.to_add}.")


def _report_unknown(block: Block[Any], name: str, path: Path, found: FrontMatter, log: ProblemLog) -> None:
    at, parent = found.key(*path), path[:-1]
    if name.lower() in LATER:
        log.add("unknown-key", at, f"'{name}': {LATER[name.lower()]}", "Remove the line.")
        return
    known = block.inside(parent).names
    bare = name.strip(CURLY)
    if bare != name and bare in known:
        log.add(
            "unknown-key", at, f"'{name}' is a key in curly quotation marks.", f"Write {bare}: without them."
        )
        return
    hint = INSTEAD.get(name.lower()) or nearest(name, known) or f"Known are {', '.join(known)}."
    log.add("unknown-key", at, f"'{name}' is not a key that is known{_under(parent)}.", hint)


def _keys_or_list(value: object) -> str:
    return "keys" if isinstance(value, dict) else "list"


def _text_or_keys(value: object) -> str:
    return "text" if isinstance(value, str) else "keys"


def _piece_or_list(value: object) -> str:
    return "list" if isinstance(value, list) else _text_or_keys(value)


_TYPES: dict[Behind, Any] = {
    Behind.TEXT: str,
    Behind.LIST: list[str],
    Behind.MAPPING: dict[str, str],
    Behind.GROUPS: Annotated[
        Annotated[list[str], Tag("list")] | Annotated[dict[str, list[str]], Tag("keys")],
        Discriminator(_keys_or_list),
    ],
}


def _type_of(key: Key) -> Any:
    """What pydantic is told of what stands behind a key."""
    if key.behind in _TYPES:
        return _TYPES[key.behind]
    if key.behind is Behind.STAGES:
        return list[_either(dict[str, str])]  # type: ignore[misc]
    assert key.inner is not None
    if key.behind is Behind.PIECES:
        return _pieces(_model(key.inner))
    return _model(key.inner) if key.behind is Behind.BLOCK else _either(_model(key.inner))


def _either(keys: type) -> Any:
    """A text or keys; told apart first, so that a problem is that of the one which is meant."""
    return Annotated[Annotated[str, Tag("text")] | Annotated[keys, Tag("keys")], Discriminator(_text_or_keys)]


def _pieces(keys: type) -> Any:
    """The same, or a list of them."""
    many = list[_either(keys)]  # type: ignore[misc,valid-type]
    return Annotated[
        Annotated[str, Tag("text")] | Annotated[keys, Tag("keys")] | Annotated[many, Tag("list")],
        Discriminator(_piece_or_list),
    ]


_WANTED = {
    "list_type": ("a list", "Write one item a line, each with a dash, or [first, second]."),
    "dict_type": ("keys with a value each", "Write one 'name: value' a line, indented."),
    "model_type": ("keys with a value each", "Write one 'key: value' a line, indented."),
    "string_type": ("text", "Write it in one line."),
}


def _report_wrong(block: Block[Any], kind: str, path: Path, found: FrontMatter, log: ProblemLog) -> None:
    name = next((str(part) for part in reversed(path) if isinstance(part, str)), "value")
    wanted, hint = _WANTED.get(kind, ("something else", "Look at the rules of the file."))
    text = found.text(*path)
    is_empty = text is not None and not text.value
    message = f"'{name}' is empty." if is_empty else f"'{name}' takes {wanted}."
    if text is not None and text.value and kind in _WANTED:
        message, hint = _of_the_line(block.inside(path[:-1]).key(name), text, message, hint, found.key(*path))
    log.add("wrong-value", found.place(*path), message, hint)


_BEGUN = re.compile(r"(?P<sign>[-*+•–—·]?) *(?P<item>[^ ].*)")


def _of_the_line(key: Key | None, text: Text, message: str, hint: str, at: Position) -> tuple[str, str]:
    """What is wrong in a line that stands where a list, or keys, are wanted, and how to write that line."""
    first = text.lines[text.position.line - text.first_line].strip()
    alone = text.position.line != at.line
    begun = _BEGUN.fullmatch(first)
    if key is None or begun is None:
        return message, hint
    if key.inner is not None and alone:
        name = max((n for n in key.inner.names if first.startswith(n)), key=len, default="")
        if name:
            return f"A colon and a space are missing behind '{name}'.", (
                f"Write {name}: {first[len(name) :].lstrip(' :')}"
            )
    if key.behind in LISTS and not alone:
        short = (
            key.behind is Behind.LIST and text.value.isprintable() and not set("[]{}#:'\"") & set(text.value)
        )
        return (
            message,
            f"Write {key.name}: [{text.value}]"
            if short
            else f"Put it under the key, with a dash: - {text.value}",
        )
    if key.behind in LISTS:
        more = next(iter(text.lines[text.position.line - text.first_line + 1 :]), "").strip()
        if begun["sign"] == "" and more.startswith("- ") and key.behind is Behind.GROUPS:
            return "A colon is missing behind the title.", f"Write {first}:"
        if begun["sign"] == "-":
            message = "A space is missing behind the dash."
        return message, f"Begin the line with a dash and a space: - {begun['item']}"
    return message, hint


def _path(loc: tuple[int | str, ...], found: FrontMatter) -> Path:
    """The part of a place that stands in the file: pydantic puts names of alternatives between."""
    path: Path = ()
    for part in loc:
        if isinstance(part, int) or (*path, part) in found.keys or (*path, part) in found.texts:
            path = (*path, part)
    return path


def _under(path: Path) -> str:
    return f" under '{path[-1]}'" if path else ""
