"""One line of `ingredients` in, an Ingredient out: amount, unit, name, preparation; perhaps a link, perhaps (fixed).

A line that cannot be read for certain raises AmountError with its place in the line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from urllib.parse import unquote

from generator.model.quantity import COUNT, Dimension, Quantity
from generator.model.recipe import Ingredient, Link
from generator.model.slug import slugify
from generator.read.grammar import Grammar
from generator.read.number import AmountError, plain, unreadable
from generator.read.quantity import read_amount, take_alternative
from generator.read.text import Text

_FIXED = "(fixed)"
_FIXED_INSIDE = re.compile(r"\(fixed\)", re.IGNORECASE)
LINK = re.compile(r"\[(?P<text>[^\[\]]*)\]\((?P<target>[^()\s]*)\)")
_OF = re.compile(r" +of(?= )", re.IGNORECASE)
_HIDDEN = re.compile(r"(?:^|\s)(?:of|and|or|plus|\+)\s+(?P<number>[0-9¼-¾⅐-⅞])", re.IGNORECASE)
"A second amount inside a name: juice of 2 lemons, 1 onion and 2 carrots."
_WORDY = re.compile(
    r"(?:an?|half|quarter|several|(?:a )?few|(?:a )?couple|lots|plenty|up to|another)(?= )(?! and )",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class _Parts:
    """A line cut at its first comma outside brackets; offsets count in the whole line."""

    quantity: Quantity | None
    name: str
    name_at: int
    preparation: str
    link: Link | None


def parse_ingredient(line: Text, grammar: Grammar, *, group: str = "") -> Ingredient:
    """The ingredient of one line, or AmountError."""
    text = line.value
    fixed = text.rstrip()[-len(_FIXED) :].lower() == _FIXED
    text = text.rstrip()[: -len(_FIXED)].rstrip() if fixed else text
    inside = _FIXED_INSIDE.search(text)
    if inside:
        raise AmountError(
            "wrong-value", "'(fixed)' stands inside the line.", "Write it at the end.", inside.start()
        )
    parts = _cut(text, line, grammar)
    _check_name(parts, grammar)
    _check_order(parts, grammar)
    return Ingredient(
        id=slugify(parts.link.text if parts.link else parts.name),
        name=parts.name,
        quantity=parts.quantity,
        preparation=parts.preparation,
        group=group,
        fixed=fixed,
        link=parts.link,
        written=line.value,
        position=line.position,
    )


_BEHIND = re.compile(r"(?<![\w/.,])(\d[\d/.,]{0,20}|[¼½¾⅓⅔⅛]) ?([A-Za-z.]{1,20})?$")
"No number and no unit is longer: a run of points is both, and would be cut in two at each of them."


def _check_order(parts: _Parts, grammar: Grammar) -> None:
    """`flour 2 cups` would not scale: the amount stands before the name."""
    found = _BEHIND.search(parts.name)
    if parts.quantity is not None or found is None or found.start() == 0:
        return
    unit = found.group(2)
    if unit is None or grammar.unit_at(parts.name, found.start(2)):
        name = parts.name[: found.start()].strip()
        raise unreadable(
            f"The amount '{found.group().strip()}' stands behind the name and would not scale.",
            f"Write it first: {found.group().strip()} {name}.",
            0,
        )


def _cut(text: str, line: Text, grammar: Grammar) -> _Parts:
    found = LINK.search(text)
    before = text[: found.start()] if found else text
    quantity, name_at = read_amount(before, 0, grammar) or (None, 0)
    if quantity is not None and (of := _OF.match(text, name_at)):
        name_at = of.end()
    comma = _first_comma(text, found.end() if found else name_at)
    preparation = text[comma + 1 :].strip()
    if found:
        _check_before(found, _first_comma(text, name_at))
        link = read_link(found, text, line)
        beside = [before[name_at:].strip(), text[found.end() : comma].strip()]
        quantity, beside[1] = take_alternative(quantity, beside[1], found.end(), grammar)
        words = ", ".join(part for part in (*beside, preparation) if part)
        return _Parts(quantity, link.text, found.start() + 1, words, link)
    name_at += len(text[name_at:]) - len(text[name_at:].lstrip())
    quantity, name = take_alternative(quantity, text[name_at:comma].strip(), name_at, grammar)
    if quantity is None:
        quantity, name, preparation = _trailing_vague(name, preparation, grammar)
    elif not name:
        quantity, name = _thing_itself(quantity)
    return _Parts(quantity, " ".join(name.split()), name_at, preparation, None)


def _first_comma(text: str, start: int) -> int:
    """The first comma outside brackets, or the end; one between digits is part of a number."""
    depth = 0
    for offset in range(start, len(text)):
        depth += {"(": 1, "[": 1, ")": -1, "]": -1}.get(text[offset], 0)
        between = text[offset - 1 : offset].isdigit() and text[offset + 1 : offset + 2].isdigit()
        if text[offset] == "," and depth <= 0 and not between:
            return offset
    return len(text)


def _check_before(found: re.Match[str], first_comma: int) -> None:
    if first_comma < found.start():
        raise AmountError(
            "wrong-value",
            "The link stands in the preparation, behind a comma.",
            "Write it where the name stands, or mention the recipe in the method.",
            found.start(),
        )


def read_link(found: re.Match[str], text: str, line: Text) -> Link:
    """The one link of a line, to the file of a recipe; any other is an AmountError."""
    target = found.group("target").split("#")[0]
    second = LINK.search(text, found.end())
    if second:
        raise AmountError("wrong-value", "The line has two links.", "Write a line for each.", second.start())
    if not target.lower().endswith(".md") or ":" in target or target.startswith("/"):
        raise AmountError(
            "link-scheme",
            f"'{found.group('target')}' is not a recipe of this book.",
            "Link to the file of a recipe: [smoked elk shank](smoked-elk-shank.md).",
            found.start("target"),
        )
    if not slugify(found.group("text")):
        raise AmountError("missing-name", "The link has no words.", "Name the recipe in it.", found.start())
    return Link(
        text=found.group("text").strip(),
        target=unquote(found.group("target")),
        position=line.at(found.start()),
    )


def _trailing_vague(name: str, preparation: str, grammar: Grammar) -> tuple[Quantity | None, str, str]:
    """`salt, to taste` and `oil for frying`: the vague words stand behind the name."""
    for spelling in grammar.tables.vague:
        if preparation.lower() == spelling:
            return Quantity(vague=preparation, written=preparation), name, ""
        if name.lower().endswith(f" {spelling}"):
            words = name[-len(spelling) :]
            return Quantity(vague=words, written=words), name[: -len(spelling)].strip(), preparation
    return None, name, preparation


def _thing_itself(quantity: Quantity) -> tuple[Quantity, str]:
    """`6 cloves, crushed`: nothing follows the counted word, so it is the thing and not its measure."""
    last = quantity.measures[-1] if quantity.measures else None
    if last is None or len(quantity.measures) > 1 or quantity.dimension is not Dimension.COUNT:
        return quantity, ""
    if last.unit is COUNT or last.unit.factor != 1:
        return quantity, ""
    name = last.unit.plural if last.span.high > 1 else last.unit.singular
    return replace(quantity, measures=(replace(last, unit=COUNT),)), name


def _check_name(parts: _Parts, grammar: Grammar) -> None:
    name, at = parts.name, parts.name_at
    if not slugify(name):
        raise AmountError(
            "missing-name", "The line has no name.", "Write amount, unit, name: 2 cups flour, sifted.", at
        )
    if parts.link:
        return
    hidden = _HIDDEN.search(plain(name))
    if hidden:
        raise unreadable(
            f"An amount stands inside the name '{name}'.",
            "Begin the line with it (2 lemons, juice only), and give each ingredient a line.",
            at + hidden.start("number"),
        )
    if parts.quantity is None:
        _check_bare_name(name, at, grammar)
    elif parts.quantity.dimension is Dimension.COUNT:
        _check_counted_name(name, at, parts.quantity, grammar)
    elif parts.quantity.dimension is Dimension.TIME:
        raise AmountError("wrong-dimension", f"'{parts.quantity.written}' is a length of time.", "", 0)


def _check_bare_name(name: str, at: int, grammar: Grammar) -> None:
    """A line without an amount must not look as if it had one."""
    wordy = _WORDY.match(name)
    if wordy or grammar.begins_with_measure(name):
        message = f"'{wordy.group()}' is not a number." if wordy else f"No number stands before '{name}'."
        raise unreadable(message, "Begin the line with a number: 1/2 cup honey.", at)


def _check_counted_name(name: str, at: int, quantity: Quantity, grammar: Grammar) -> None:
    """A number before a misspelled unit, or before a word that changes a unit, is not a count."""
    first, _, rest = name.partition(" ")
    if quantity.measures[-1].unit is not COUNT or not rest:
        return
    near = grammar.near_unit(first)
    if near:
        raise AmountError("unknown-unit", f"'{first}' is not a unit.", f"Did you mean '{near}'?", at)
    words = rest.split()
    if any(grammar.begins_with_measure(word) for word in words[: min(2, len(words) - 1)]):
        raise unreadable(
            f"'{first}' between the number and its unit cannot be read for certain.",
            "Write the measure alone (1 tbsp honey), or weigh it; 'packed' goes behind a comma.",
            at,
        )
