"""A name and a preparation in; second amounts out: what is added or taken instead scales too, what is a rate does not.

`4 tomatoes or 1 cup canned`, `2 tbsp cornstarch mixed with 1/4 cup water`, `8 lb salt to each 100 lb of meat`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import SecondAmount
from generator.read.behind import several, split_names
from generator.read.grammar import MEASURED, Grammar
from generator.read.measure import skip_spaces
from generator.read.number import AmountError, plain
from generator.read.quantity import read_amount

_START = re.compile(
    r"(?<=[ (])(?=[0-9¼-¾⅐-⅞]|(?:an?|one|two|three|four|five|six|eight|ten|half|pinch|dash|few)[ -])",
    re.IGNORECASE,
)
_JOINT = re.compile(r"(?:, and|,| and| &) ")
MOST = 12
"Second amounts of a line: no cook writes more, and each takes a look at the line."
_NEAR = 40
"Letters in front of an amount in which the word that joins it stands."
_ADDED = re.compile(
    r"(?:,? {1,4}(?P<way>(?:\w{1,20}ed|cut|beaten|mixed) (?:up )?(?:with|in|into|over)|or(?: [a-z]{1,12}){1,3} of"
    r"|or|plus|with|in|in place of)"
    r"|,? {0,4}(?P<bracket>\((?:or )?))(?: ?about| another| an additional| an extra| else| the)? {0,4}$",
    re.IGNORECASE,
)
_AND = re.compile(r"(?P<joint>,? {1,4}(?:and|&|\+)|,)(?: about| also)? {1,4}$", re.IGNORECASE)
_NO_NAME = re.compile(
    r" *(?:[.,;)]|$|(?:for|more|extra|to|in|into|on|over|each|apiece|of the same|long|thick|wide|square|or|and|per|at|total"
    r"|additional|reserved|with|size|sized|pieces?|cubes?|chunks?|strips?|slices?|halves|quarters|inch(?:es)?|minutes?|hours?|days?"
    r"|times?|parts?|ways|left)(?![\w'’-])"
    r"|(?:\w{1,20}ed|fine|coarse|whole|lean|fat|fresh|dry) {0,4}(?:[.,;)]|$|(?:and|for|or|to|in)(?![\w'’-])))",
    re.IGNORECASE,
)
_NEXT = re.compile(r"(?:, and|,| and| &|;) (?=[0-9¼-¾⅐-⅞])")
RATE = re.compile(
    r"(?:,? {1,4}|,? {0,4}\()(?=(?:(?:allow )?(?:per|to each|to every|to the|for each|for every)) {1,4}(?P<base>[^\s,()]))",
    re.IGNORECASE,
)
_RATE_UNIT = re.compile(
    r"(?<=[a-zA-Z.])/ ?(?:[0-9]{1,4} ?)?(?P<unit>kg|lb|lbs|litre|liter|L|l|quart|qt|gal|gallon|pound)(?= )\.?"
)
_EACH_OF = re.compile(r"(?:each(?: of|:)?|ea\.?) ", re.IGNORECASE)
_AND_NAMES = re.compile(r" (?:and|&) ")
_STAYS = re.compile(
    r" {0,4}(?:each|apiece|long|thick|wide|square|in diameter|per|pieces?|chunks?|cubes?|strips?|lengths|size|dressed)"
    r"(?![\w'’-])",
    re.IGNORECASE,
)
_IN = re.compile(r"(?:^| )in(?:to)? {0,4}$", re.IGNORECASE)
_SIZE_ALONE = re.compile(r" {0,4}(?:large|medium|small|lg|med|sm)?\.?\)", re.IGNORECASE)
_MIXED_IN = re.compile(r"(?:\w{1,20}ed|mixed|up) (?:in|into|over) {0,4}$|(?:or|plus) about {0,4}$")
_OR_PLUS = re.compile(r"(?:^|[ ,(])(?:or|plus)(?:(?: [a-z]{1,12}){1,3} of)? {0,4}(?:about {0,4})?$")
_ABOUT_ALONE = re.compile(r"(?:^|,) {0,4}about {0,4}$", re.IGNORECASE)
_ENDS = re.compile(r" {0,4}(?:large|medium|small)? {0,4}(?:,|$)", re.IGNORECASE)
_NOT_SCALED = re.compile(
    r"(?:per|each|every|to the|at|under|over|than|into|each about|least|most|of|%|weighing|weighing about|in) {0,4}$",
    re.IGNORECASE,
)


def check_parts(text: str) -> None:
    """`salt, 1 lb.; sugar, 1/2 lb.`: parts with an amount each, cut by semicolons, are lines."""
    parts = [part.strip(" .") for part in text.split(";")]
    if len(parts) > 1 and all(_DIGIT.search(part) for part in parts):
        raise several(parts[:MOST], 0)


_DIGIT = re.compile(r"[0-9¼-¾⅐-⅞]")


def rate_at(text: str, grammar: Grammar) -> int | None:
    """Where a rate begins: `per kg of meat`, `to each 100 lb`; `to the` only before a unit."""
    ratio = _TO_AMOUNT.search(text)
    unit = grammar.unit_at(text, ratio.end()) if ratio else None
    if ratio and unit and unit[0].dimension in MEASURED:
        return ratio.start()
    for found in RATE.finditer(text):
        words = text[found.end() :].lower()
        if not words.startswith("to the") or grammar.unit_at(text, found.start("base")):
            return found.start()
    return None


_TO_AMOUNT = re.compile(
    r"(?<=[a-z])(?<!\bup) (?:to|for) (?:[0-9¼-¾⅐-⅞][0-9/.]{0,5}|one|a) (?=[a-z])", re.IGNORECASE
)
_RATE_WORDS = re.compile(
    r"(?:per|to each|to every|for each|for every) (?:[0-9/¼-¾]{1,5} )?[^\s,()]{1,20}(?: of [^\s,()]{1,20})?(?= |$)",
    re.IGNORECASE,
)
_TO_EACH = re.compile(
    r"(?P<rate>(?:to|for) (?:each|every|the|one|a) (?:[0-9/¼-¾]{1,5} )?[^\s,]{1,20}(?: of(?: the)? [^\s,]{1,20})?),? "
    r"(?:add |allow |take |use |put )?(?=[0-9¼-¾⅐-⅞]|(?:an?|one|two|three|four|five|six|eight|ten|half)[ -])",
    re.IGNORECASE,
)


def rate_words_end(text: str, at: int) -> int:
    """Where the words of a rate end that stands before the name: `per jar`, `per 10 lb`."""
    found = _RATE_WORDS.match(text, at)
    return found.end() if found else len(text)


def leading_rate(text: str) -> re.Match[str] | None:
    """`To each quart of juice, 1 pound sugar`: the rate that a line begins with."""
    return _TO_EACH.match(text)


def rate_unit(text: str) -> re.Match[str] | None:
    """The `/kg` behind an amount: 3 g/kg."""
    return _RATE_UNIT.search(text)


def cut_name(name: str, line: str, at: int, grammar: Grammar) -> tuple[str, str]:
    """The name and what is added or taken instead, which begins with its own amount; several names are a question."""
    _refuse_each(name, line, at)
    flat = plain(name)
    past = 0
    for found in islice(_START.finditer(flat, 1), MOST):
        start = found.start()
        quantity = _amount(name, start, grammar) if start >= past else None
        if quantity is None:
            continue
        past = start + len(quantity.written)
        near = max(0, start - _NEAR)
        joint = _AND.search(flat[near:start])
        end = start + len(quantity.written)
        if joint and quantity.dimension is not Dimension.LENGTH:
            if _NO_NAME.match(flat, end):
                return name[: near + joint.start()], name[near + joint.start() :].strip(" ,")
            _refuse_several(line, at + near + joint.start(), at + start)
        added = _ADDED.search(flat[near:start])
        is_count = quantity.measures and quantity.measures[-1].unit.dimension is Dimension.COUNT
        way = (added["way"] or "").lower() if added else ""
        cut = near + added.start() if added else 0
        if cut > 0 and not (is_count and not way.startswith(("or", "plus")) and way):
            return name[:cut].rstrip(), name[cut:].strip(" ,")
    return name, ""


def _refuse_each(name: str, line: str, at: int) -> None:
    """`1 tsp each thyme and sage`, `1 qt each of onions, beans and corn`"""
    each = _EACH_OF.match(name)
    if each is None:
        return
    amount, rest = line[:at].strip(), line[at + each.end() :]
    named = name[each.end() :]
    names = (
        split_names(named)
        if _AND_NAMES.search(named)
        else split_names(rest)
        if (_AND_NAMES.search(rest) or ":" in each.group())
        else []
    )
    if len(names) > 1:
        raise several([f"{amount} {one}" for one in names], 0)


def _refuse_several(line: str, cut: int, second: int) -> None:
    raise several([line[:cut].strip(" ,"), *_NEXT.split(line[second:].strip())], second)


def _amount(text: str, start: int, grammar: Grammar) -> Quantity | None:
    try:
        found = read_amount(text, start, grammar)
    except AmountError:
        return None
    if found is None:
        return None
    quantity, _ = found
    joint = quantity.written.find(" and ")
    # Two that are divided, or added, stay two: 3/4 cup and 1/4 cup.
    return (
        _amount(text[: start + joint], start, grammar)
        if joint > 0 and len(quantity.measures) > 1
        else quantity
    )


def check_preparation(preparation: str, line: str, at: int, grammar: Grammar) -> None:
    """`2 lb. elk trim, 1 lb. pork fat`: a second weight with a name of its own is a second line."""
    flat = plain(preparation)
    places = [0] if flat else []
    for found in islice(_JOINT.finditer(flat), MOST):
        places.append(found.end())
    for start in places:
        quantity = _amount(preparation, start, grammar) if flat[start : start + 1].strip() else None
        if quantity is None or quantity.dimension not in (*MEASURED, Dimension.COUNT) or quantity.is_vague:
            continue
        end = start + len(quantity.written)
        if _NO_NAME.match(flat, end) or not re.match(r" *(?:of )?[^\W\d_]", flat[end:]):
            continue
        if quantity.dimension is Dimension.COUNT and not _names_food(flat[skip_spaces(flat, end) :], grammar):
            continue
        cut = line.find(preparation[start:], at)
        if cut > 0:
            _refuse_several(line, len(line[:cut].rstrip(" ,&").removesuffix(" and")), cut)


def _names_food(text: str, grammar: Grammar) -> bool:
    words = re.findall(r"[^\W\d_]+", text[:60])[:2]
    tried = [" ".join(words), *words[:1]]
    return any(grammar.names_food(word) for word in tried if word)


def second_amounts(preparation: str, grammar: Grammar) -> tuple[SecondAmount, ...]:
    """The amounts of a preparation that scale with the line, in their order."""
    return tuple(_second(preparation, grammar))


def _second(preparation: str, grammar: Grammar) -> Iterator[SecondAmount]:
    flat = plain(preparation)
    end = 0
    for found in islice(_START.finditer(f" {flat}"), MOST):
        start = found.start() - 1
        if start < end:
            continue
        quantity = _amount(preparation, start, grammar)
        if quantity is None or quantity.is_vague or not quantity.measures:
            continue
        stop = start + len(quantity.written)
        end = stop
        if _scales(quantity, flat[max(0, start - _NEAR) : start], flat[stop : stop + _NEAR]):
            yield SecondAmount(start=start, end=stop, quantity=quantity)


def _scales(quantity: Quantity, before: str, behind: str) -> bool:
    if _STAYS.match(behind) or behind.startswith("-"):
        return False
    if all(one.unit.dimension in MEASURED for one in quantity.measures):
        liquid = quantity.dimension is Dimension.VOLUME and _IN.search(before) is not None
        return _NOT_SCALED.search(before) is None or _MIXED_IN.search(before) is not None or liquid
    if quantity.dimension is not Dimension.COUNT:
        return False
    one_of_all = (
        before.rstrip().removesuffix("about").endswith(("(", "( ")) and _SIZE_ALONE.match(behind) is not None
    )
    alone = _ABOUT_ALONE.search(before) is not None and _ENDS.match(behind) is not None
    return _OR_PLUS.search(before) is not None or one_of_all or alone
