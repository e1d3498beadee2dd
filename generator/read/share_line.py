"""One ingredient line in that is a share, its share and the rest of it out: 2.25 % salt; salt, 2 %; 3 parts paprika.

What could be a share and something else, or two ingredients, is an AmountError with both readings.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.recipe import Ingredient, Share
from generator.model.slug import slugify
from generator.read.grammar import Grammar
from generator.read.measure import read_count
from generator.read.number import AmountError, plain, unreadable
from generator.read.quantity import ABOUT
from generator.read.second import second_amounts
from generator.read.text import Text

WHOLE = Fraction(100)
"Per cent of a whole. Source: a definition."
_ARTICLE = re.compile(r"an? (?=part(?![\w'’-]))", re.IGNORECASE)
_SIGN = re.compile(
    r" ?(?:%|per ?cent(?![\w'’-])|pct\b\.?|(?P<parts>parts?(?![\w'’-])))(?: by weight)?(?: of(?= ))? *",
    re.IGNORECASE,
)
_LAST = re.compile(
    r"(?<= )\(?(?P<number>[0-9]{1,4}(?:[.,][0-9]{1,4})?) ?(?:%|per ?cent|pct\.?)\)?$", re.IGNORECASE
)
"Bread flour, 100 %: as bakers' tables have it."
_PINTS = re.compile(r"(?P<number>[0-9¼-¾⅐-⅞][0-9/., ¼-¾⅐-⅞]{0,9}) ?pts?\b\.?", re.IGNORECASE)
_BY_WEIGHT = re.compile(r" by weight$", re.IGNORECASE)
_NUMBER = r"(?:[0-9¼-¾⅐-⅞][0-9/.,]{0,6}|an?|one|two|three|four|five|six|half)"
_RATIO = re.compile(
    rf"(?P<first>.{{1,60}}?),? (?:to|and) (?P<number>{_NUMBER})(?: parts?)?(?: of)? (?P<second>.{{1,60}})",
    re.IGNORECASE,
)
"3 parts oil to 1 part vinegar."
_ANOTHER = re.compile(
    rf"(?:and )?(?P<number>{_NUMBER}) ?(?P<sign>%|per ?cent|pct|parts?)(?: of)? (?P<name>.{{1,60}})",
    re.IGNORECASE,
)
_JOINED = re.compile(
    rf"(?P<first>.{{1,60}}?) (?:and|plus|\+|&) (?P<number>{_NUMBER}) ?(?P<sign>%|per ?cent|pct|parts?)"
    r"(?: of)? (?P<second>.{1,60})",
    re.IGNORECASE,
)
_STRENGTH = ("acid", "acidity", "acetic", "strength", "fat", "butterfat", "alcohol", "proof", "lean")
"Words behind a per cent that is no share of the mixture: vinegar, 5 % acidity."
_LOOSE = re.compile(r"(?:or|to|and|plus|each|minus|less|more)(?![\w'’-])", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"\((?P<amount>[^()%]{0,40}[0-9¼-¾⅐-⅞][^()%]{0,40})\)")
"An amount in brackets."
_MOST_FAT = Fraction(4, 100)
"Of milk as it is sold. Source: 21 CFR 131.110 and the grades of shops, from memory."


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A line without its share."""

    share: Share
    rest: Text
    is_first: bool
    "The share stands before the name."


def take_share(line: Text, grammar: Grammar, *, among_shares: bool) -> Taken | None:
    """The share that a line begins with, or among shares ends with; None where there is none."""
    if among_shares:
        _ask_pints(plain(line.value).lstrip())
    return _share_first(line, grammar) or (_share_last(line, grammar) if among_shares else None)


def _ask_pints(text: str) -> None:
    """`3 pts paprika` is three parts or three pints; `% salt` has lost its number."""
    pints = _PINTS.match(text)
    if pints is not None:
        number, rest = pints["number"].strip(), text[pints.end() :].strip()
        raise unreadable(
            f"'{pints[0].strip()}' could be parts or pints.",
            f"Write {number} parts {rest}, or {number} pints {rest}.",
            0,
        )
    if text.startswith("%"):
        raise unreadable("No number stands before '%'.", f"Write one: 2 {text}.", 0)


def _share_first(line: Text, grammar: Grammar) -> Taken | None:
    flat = plain(line.value)
    begin = len(flat) - len(flat.lstrip())
    about = ABOUT.match(flat, begin)
    start = about.end() if about else begin
    article = _ARTICLE.match(flat, start)
    found = (Span.of(1), article.end() - 1) if article else _number(flat, start, grammar)
    sign = _SIGN.match(flat, found[1]) if found else None
    if found is None or sign is None:
        return None
    share = _share(found[0], is_parts=bool(sign["parts"]), written=line.value[begin : sign.end()])
    rest = _behind(line, sign.end())
    joined = _JOINED.fullmatch(rest.value.strip())
    if joined is not None:
        raise _two(share, joined["first"], f"{joined['number']} {joined['sign']} {joined['second']}")
    return Taken(share=replace(share, about=bool(about)), rest=rest, is_first=True)


def _number(flat: str, start: int, grammar: Grammar) -> tuple[Span, int] | None:
    """What is no number is for the reader of amounts to say."""
    try:
        return read_count(flat, start, grammar)
    except AmountError:
        return None


def _share_last(line: Text, grammar: Grammar) -> Taken | None:
    flat = plain(line.value).rstrip()
    sign = _LAST.search(flat)
    found = _number(flat, sign.start("number"), grammar) if sign else None
    name = flat[: sign.start()].rstrip(" ,:-–(") if sign else ""
    # Behind an amount it is a strength: 2 cups vinegar, 5 %.
    if sign is None or found is None or not name or _number(flat, 0, grammar):
        return None
    written = line.value[sign.start("number") : len(flat)].removesuffix(")")
    rest = replace(line, value=line.value[: len(name)])
    return Taken(share=_share(found[0], is_parts=False, written=written), rest=rest, is_first=False)


def _share(number: Span, *, is_parts: bool, written: str) -> Share:
    words = _BY_WEIGHT.sub("", " ".join(written.split()).removesuffix(" of"))
    if number.low <= 0:
        raise AmountError("unreadable-amount", f"'{words}' is nothing.", "Write a share above 0.")
    return Share(part=number if is_parts else number.times(1 / WHOLE), is_parts=is_parts, written=words)


def _behind(line: Text, end: int) -> Text:
    """What stands behind the share, each of its characters still at its place."""
    if not line.value[end:].strip():
        raise AmountError("missing-name", "The line has no name.", "Write share and name: 2 % salt.", end)
    at = line.at(end)
    return replace(line, value=line.value[end:], start=(at.line - line.first_line, at.column - 1))


def with_share(line: Ingredient, taken: Taken, whole: Text, grammar: Grammar) -> Ingredient:
    """The line as its share makes it; AmountError where it is not one share of one ingredient."""
    share, name = taken.share, _BY_WEIGHT.sub("", line.name)
    _refuse_amount(line, share)
    _refuse_two(line, share)
    _ask_product(taken, name)
    if line.fixed:
        raise AmountError(
            "wrong-value",
            f"'{name}' is a share, which follows what it is a share of, and (fixed).",
            "Take (fixed) out, or write its weight.",
        )
    second = second_amounts(line.preparation, grammar)
    id = line.id if line.link is not None else slugify(name)
    return replace(
        line, id=id, name=name, share=share, second=second, written=whole.value, position=whole.position
    )


def _refuse_amount(line: Ingredient, share: Share) -> None:
    """A share beside an amount: they could differ, and the scale follows one of them."""
    inside = _IN_BRACKETS.search(line.name)
    if line.quantity is None and inside is None and not line.name.startswith("("):
        return
    told = line.quantity.written if line.quantity is not None else ""
    amount = inside["amount"].strip() if inside else told
    name = " ".join(_IN_BRACKETS.sub("", line.name.partition(") ")[2] or line.name).split())
    or_amount = f", or {amount} {name}" if amount else ""
    raise AmountError(
        "wrong-value",
        f"An amount stands beside the share '{share.written}'.",
        f"Write one of the two: {share.written} {name}{or_amount}.",
    )


def _refuse_two(line: Ingredient, share: Share) -> None:
    """Several ingredients, or no single share, in one line."""
    loose = _LOOSE.match(line.name)
    if loose is not None and loose[0].lower() == "each":
        names = line.name[loose.end() :].strip().removeprefix("of ")
        raise unreadable(
            f"'{share.written} each' is of several ingredients.",
            f"Give each a line: {share.written} {names.replace(' and ', f', and {share.written} ')}.",
            0,
        )
    if loose is not None:
        rest = " ".join(line.name.split(" ")[2:]) or "salt"
        raise unreadable(
            f"'{share.written} {loose[0]}' is not one share.", f"Write one: {share.written} {rest}.", 0
        )
    ratio = _RATIO.fullmatch(line.name) if share.is_parts else None
    if ratio is not None:
        raise _two(share, ratio["first"], f"{ratio['number']} part {ratio['second'].removeprefix('of ')}")
    other = _ANOTHER.match(line.preparation)
    if other is not None and not set(other["name"].lower().split()) & set(_STRENGTH):
        raise _two(share, line.name, f"{other['number']} {other['sign']} {other['name']}")


def _two(share: Share, first: str, second: str) -> AmountError:
    words = f"Give each a line, {share.written} {first} and {second}"
    whole = ", under a title that ends in what they come to: 'Dressing, of 1 cup'" if share.is_parts else ""
    return unreadable(f"'{share.written} {first} ... {second}' is two ingredients.", f"{words}{whole}.", 0)


def _ask_product(taken: Taken, name: str) -> None:
    """`2 % milk`, `80 % lean beef`: sold under that name, or a share of it. Behind the name it is a share."""
    share, words = taken.share, name.lower().split()
    is_milk = words == ["milk"] and share.part.high <= _MOST_FAT
    if taken.is_first and not share.is_parts and (is_milk or words[0] == "lean"):
        raise unreadable(
            f"'{share.written} {name}' could be sold so, or be that share of it.",
            f"Write the share behind, {name}, {share.written}; or an amount before: 1 lb {share.written} {name}.",
            0,
        )
