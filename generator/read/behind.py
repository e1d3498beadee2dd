"""A line that begins with its name in, the amount behind it out: `Flour, 2 cups`, `juice of 1 lemon`, `yolks 4 eggs`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from generator.model.quantity import COUNT, Dimension, Quantity
from generator.read.grammar import MEASURED, Grammar
from generator.read.head import Head, read_head
from generator.read.measure import skip_spaces
from generator.read.number import AmountError, plain, unreadable

NUMBER = (
    r"[0-9¼-¾⅐-⅞]|(?:an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|half|few|several)[ -]"
)
_START = re.compile(rf"(?<=[ \t,:—–.-])(?={NUMBER}|about )", re.IGNORECASE)
_EACH_BEFORE = re.compile(r"[ ,]{1,3}(?:of )?each:? {0,2}$", re.IGNORECASE)
"Salt and mace, of each half an ounce."
_MOST_WORDS = 9
"No amount with its brackets is longer; further in front none is looked for."
_STRONG = (",", ":", ";", "—", "–", "-", ".", "…")
_NO_AMOUNT_AFTER = frozenset(
    (
        *(
            "in",
            "into",
            "to",
            "by",
            "at",
            "for",
            "of",
            "with",
            "than",
            "under",
            "over",
            "every",
            "each",
            "per",
            "from",
        ),
        *("and", "or", "plus", "about", "least", "most", "through", "x", "#"),
        *("no", "no.", "number", "type", "grade", "formula", "size"),
    )
)
"Words before a number that is not how much of the ingredient there is: cut in 4, type 00, no. 1."
_SIZES = re.compile(
    r"(?:(?:large|medium|small|whole|med\.?|lg\.?|sm\.?|big|ripe|fresh)(?:[- ]sized?)?)$", re.IGNORECASE
)
_PREPARED = re.compile(
    r"(?:,|\(|\w+(?:ed|'d)(?![\w'’-])|(?:large|medium|small|ripe|cut|fresh|ground|or|plus)(?![\w'’-]))",
    re.IGNORECASE,
)
_OF = re.compile(
    rf"(?P<part>[^\W\d_][\w ,&'’-]{{0,48}}?) +(?P<of>of|from)(?: the)? +(?={NUMBER})", re.IGNORECASE
)
_PART = r"(?:juice|rind|zest|peel|yolks?|whites?|meat|livers?|skin)"
_DESCRIBED = r"(?:grated |strained |the |thin(?:ly pared)? |yellow |egg )"
_PARTS = re.compile(
    rf"(?P<part>{_DESCRIBED}{{0,3}}{_PART}(?:(?:,| and|,? &) (?:grated )?{_PART}){{0,2}}),? +(?={NUMBER})",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Behind:
    """The amount, the name, and what stays shown behind it."""

    head: Head
    name: str
    name_at: int
    preparation: str
    apart: str = ""
    "Words that tell the line from another of the same whole: the juice of a lemon, the rind of a lemon."


def read_part_of(text: str, grammar: Grammar) -> Behind | None:
    """`Juice of 1 lemon`, `whites of three eggs`, `yolks 4 eggs`: the whole is counted, the part stays said."""
    if grammar.begins_with_measure(text):
        return None
    flat = plain(text)
    for found in (_OF.match(flat), _PARTS.match(flat)):
        head = _head(text, found.end(), grammar) if found else None
        if found is None or head is None:
            continue
        at = skip_spaces(flat, head.end)
        name, _, rest = text[at:].partition(",")
        if found["part"].lower().endswith("size"):
            continue  # butter the size of a walnut: nobody published the size
        if not re.search(r"[^\W\d_]", name) or head.quantity.dimension not in (Dimension.COUNT, *MEASURED):
            continue
        words = (
            found["part"].strip().lower()
            if text[:1].isupper() and not text[:2].isupper()
            else found["part"].strip()
        )
        said = f"{words} of" if found.groupdict().get("of") == "of" and " " in words else words
        part = said.removesuffix(" of")
        egg, part = _part_of_eggs(part, name.strip())
        words_behind = ", ".join(filter(None, (part, head.words, rest.strip())))
        apart = "" if egg else f"{_one(name.strip())} {part}"
        return Behind(head, egg or name.strip(), at, words_behind, apart)
    return None


_OF_EGGS = re.compile(r"(?P<how>.{0,40}?) ?(?:egg )?(?P<part>yolk|white)s?", re.IGNORECASE)


def _part_of_eggs(part: str, whole: str) -> tuple[str, str]:
    """`yolks` of `large eggs`: large egg yolks, and what else is said of them; anything else has no name of its own."""
    found = _OF_EGGS.fullmatch(part)
    egg = re.fullmatch(r"(?P<size>(?:[\w-]{1,20} ){0,3}egg)s?", whole, re.IGNORECASE)
    if found is None or egg is None or re.search(r" (?:and|or|&)$|,", found["how"]):
        return "", part
    return f"{egg['size']} {found['part'].lower()}s", found["how"].removeprefix("the").strip()


def _one(whole: str) -> str:
    """One of what is counted: lemons are known by the same words as a lemon."""
    return whole.removesuffix("s") if not whole.endswith("ss") else whole


def _head(text: str, start: int, grammar: Grammar) -> Head | None:
    try:
        return read_head(text, start, grammar)
    except AmountError:
        return None


def read_behind(text: str, grammar: Grammar) -> Behind | None:
    """The amount in the last place, or in front of a preparation: `Flour, sifted, 2 cups`, `Carrots, 4 large`."""
    flat = plain(text)
    for start in _starts(flat):
        before = flat[:start].rstrip(" ")
        each = _EACH_BEFORE.search(flat[max(0, start - 12) : start])
        head = _head(text, start, grammar) if each else None
        if each and head and start > len(each.group()):
            raise _each(text[: start - len(each.group())], text[start : head.end].strip())
        last = before.rsplit(" ", 1)[-1].lower()
        if not re.search(r"[^\W\d_]", before) or last in _NO_AMOUNT_AFTER:
            continue
        head = _head(text, start, grammar)
        if head is None:
            continue
        strong = before.endswith(_STRONG)
        rest = text[head.end :].strip(" .")
        if (
            rest.lower() in ("each", "ea")
            and head.quantity.measures[-1:]
            and head.quantity.measures[-1].unit is COUNT
        ):
            rest = ""
        if re.match(r"(?:each|ea)(?![\w'’-])|of each", rest, re.IGNORECASE):
            raise _each(text[:start], text[start : head.end].strip())
        if _fits(head, rest, before, strong=strong):
            return _cut(text, start, head, rest)
    bracket = _BRACKET_LAST.search(flat)
    inside = _head(text, bracket.start("inside"), grammar) if bracket else None
    if bracket and inside and inside.end == bracket.end("inside") and _weighs(inside):
        return _cut(text, bracket.start(), inside, "")
    return None


_BRACKET_LAST = re.compile(r"(?<=[\w.]) \((?P<inside>[^()]{1,40})\)$")


def _weighs(head: Head) -> bool:
    """True for a weight, a volume, or so many of a named thing: shoulder (4 lb), garlic (3 cloves)."""
    quantity = head.quantity
    bare = quantity.measures[-1:] and quantity.measures[-1].unit is COUNT
    return quantity.dimension in (*MEASURED, Dimension.COUNT) and not bare


def _starts(flat: str) -> list[int]:
    """Places where an amount may begin among the last words, the first of them first."""
    words = [found.start() for found in re.finditer(r"(?<= )\S", flat)][-_MOST_WORDS:]
    first = words[0] if words else len(flat)
    return [found.start() for found in _START.finditer(flat, max(first - 1, 1))]


def _fits(head: Head, rest: str, before: str, *, strong: bool) -> bool:
    quantity = head.quantity
    if quantity.is_vague:
        return not rest
    if quantity.dimension in (Dimension.LENGTH, Dimension.TIME, None):
        return False
    bare = quantity.measures[-1].unit is COUNT
    if not rest:
        return strong or not bare or bool(quantity.alternative) or len(before.split()) <= 2
    if bare and not strong:
        return _SIZES.fullmatch(rest) is not None and len(before.split()) <= 2
    if bare:
        return _SIZES.match(rest) is not None or (_PREPARED.match(rest) is not None and rest[0] != ",")
    return _PREPARED.match(rest) is not None or _SIZES.match(rest) is not None


def _of_all(quantity: Quantity) -> Quantity:
    """`Eggs 15 (1 1/2 lb)`: behind the name, the brackets weigh all of them."""
    bare = len(quantity.measures) == 1 and quantity.measures[0].unit is COUNT
    if not bare or not quantity.each or "each" in quantity.written.lower():
        return quantity
    return replace(quantity, each=(), alternative=quantity.each)


def _cut(text: str, start: int, head: Head, rest: str) -> Behind:
    described = text[:start].rstrip(" \t.…:;,—–-")
    name, _, words = described.partition(",")
    rest = rest.removeprefix(",").strip()
    head = replace(head, quantity=_of_all(head.quantity))
    return Behind(head, name.strip(), 0, ", ".join(filter(None, (words.strip(), rest, head.words))))


def _each(names: str, amount: str) -> AmountError:
    """`Salt, pepper and mace, 1/4 tsp. each`: a line for each."""
    return several([f"{amount} {name}" for name in split_names(names)], 0)


def split_names(names: str) -> list[str]:
    """`salt, pepper and mace` cut into its names."""
    return [part.strip(" ,.:") for part in re.split(r",? and |,? & |, ", names) if part.strip(" ,.:")]


def several(lines: list[str], offset: int) -> AmountError:
    """The question of a line that holds several ingredients, with the lines to write."""
    return unreadable(
        "Several ingredients stand in one line.",
        f"Write a line for each: {'; '.join(f'- {line}' for line in lines)}.",
        offset,
    )
