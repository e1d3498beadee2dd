"""Text in, amounts out: sums, two-part amounts, packages, alternatives in brackets, vague words.

An amount that cannot be read for certain raises AmountError with its place in the text.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from generator.model.quantity import COUNT, Dimension, Measure, Quantity, Span
from generator.model.shown import show_number
from generator.read.grammar import MEASURED, Grammar
from generator.read.measure import ARTICLE, NAME_WITH_DIGITS, read_count, read_term, skip_spaces
from generator.read.number import AmountError, plain, unreadable
from generator.tables import Tables

ABOUT = re.compile(
    r"(?:~|≈|(?:about|approximately|approx\.?|around|roughly|circa|ca\.?)(?= )) *", re.IGNORECASE
)
_SIGNED = re.compile(r"[-–+] ?[0-9¼-¾⅐-⅞.]")
_PLUS = re.compile(
    r" ?\+ ?| plus (?=[0-9¼-¾⅐-⅞.])| and (?=[0-9¼-¾⅐-⅞.]|(?:an?|one|two|three|four) [a-z])", re.IGNORECASE
)
_EACH = re.compile(r",? (?:each|apiece)$", re.IGNORECASE)
_ALSO = re.compile(r"(?:or|about|approximately|approx\.?) ", re.IGNORECASE)
_IN_ALL = re.compile(r",? (?:in all|total|altogether|in total)$", re.IGNORECASE)
_HOW_MUCH = re.compile(
    r"(?:good|generous|small|large|big|tiny|slight|healthy|scant|heaping) (?=[a-z])", re.IGNORECASE
)
"Before a vague measure: a good pinch."
_BOTH = re.compile(r"(?P<one>[^,()]{1,40} each), [^()]{1,40} in all$", re.IGNORECASE)
"As it is shown: 6 (6 oz each, 2 lb 4 oz in all)."
_SLASH = re.compile(r" ?/ ?(?=[0-9¼-¾⅐-⅞.])")
_HUNG = re.compile(r"([0-9]{1,3})- (to|or) ([0-9]{1,3})-(?=[a-z])", re.IGNORECASE)
"5- to 6-lb"
_LESS = re.compile(r",? (?:less|minus) (?=[0-9¼-¾⅐-⅞]|one|two|an? )", re.IGNORECASE)
_LOOSE_WORD = re.compile(r"(?:or|to|and|plus|up|x)(?![\w'’-])", re.IGNORECASE)
MOST_PARTS = 20
"Source: house; no kitchen adds up more in one amount, and the exact sum of thousands has thousands of digits."
_TOLERANCE = Fraction(6, 100)
"Source: house choice; a quart is commonly written as a litre, which is 5.7 % more (NIST Handbook 44, App. C)."


def parse_amount(text: str, grammar: Grammar) -> Quantity:
    """The amount that a whole text is, or AmountError."""
    found = read_amount(text, 0, grammar)
    if found is None:
        raise unreadable(
            f"'{text.strip()}' is not an amount." if text.strip() else "There is no amount.",
            "Write a number and a unit, such as 2 lb or 1 1/2 cups.",
            len(text) - len(text.lstrip()),
        )
    quantity, end = found
    rest = text[end:].strip()
    if rest:
        raise _left_over(rest, skip_spaces(plain(text), end), quantity, grammar)
    return quantity


def read_amount(text: str, start: int, grammar: Grammar) -> tuple[Quantity, int] | None:
    """The amount at an offset, and where it ends; None where no amount stands."""
    flat = plain(text)
    begin = skip_spaces(flat, start)
    about = ABOUT.match(flat, begin)
    position = about.end() if about else begin
    vague = _read_vague(flat, position, grammar)
    if vague is not None:
        words = text[position:vague].strip()
        return Quantity(vague=words, about=bool(about), written=text[begin:vague]), vague
    if _SIGNED.match(flat, position):
        raise unreadable(
            f"'{text[position:].split(',')[0]}' begins with a sign.", "Write an amount above 0.", position
        )
    found = _read_sum(flat, position, grammar)
    if found is None:
        return None
    found = _read_less(flat, *found, grammar)
    quantity, end = _read_alternative(flat, *found, grammar)
    _refuse_nothing(quantity, position)
    _check_rest(flat, end, quantity, grammar)
    return replace(quantity, about=bool(about), written=text[begin:end]), end


def disagreement(quantity: Quantity) -> str:
    """The sentence for an alternative in brackets that differs by more than 6 %, or the empty string."""
    for kind in Dimension:
        if not quantity.measures or not quantity.alternative:
            return ""
        first = replace(quantity, alternative=()).total(kind)
        second = replace(quantity, measures=(), alternative=quantity.alternative).total(kind)
        if first is None or second is None or kind is Dimension.COUNT:
            continue
        if any(
            abs(one - other) > _TOLERANCE * max(one, other)
            for one, other in ((first.low, second.low), (first.high, second.high))
        ):
            return f"'{quantity.written}': the two amounts differ by more than 6 %."
    return ""


_FL_OZ_OF_A_PINT = 20
"Of an imperial one; a US pint has 16. Source: Weights and Measures Act, Schedule 1; NIST Handbook 44, App. C."


def imperial(quantity: Quantity) -> str:
    """What to write where the two amounts agree by imperial measures: `1/2 pint (10 fl oz)`; else empty."""
    pint, ounces = quantity.measures[:1], quantity.alternative[:1]
    is_us = [one.unit.key for one in (*quantity.measures, *quantity.alternative)] == ["us_pint", "us_fl_oz"]
    if not is_us or pint[0].span.times(_FL_OZ_OF_A_PINT) != ounces[0].span or pint[0].span.is_range:
        return ""
    pints, fl_oz = show_number(pint[0].span.low), show_number(ounces[0].span.low)
    return f"An imperial pint has 20 fl oz: where that is meant, write {pints} imperial pint ({fl_oz} imperial fl oz)."


def _read_vague(text: str, start: int, grammar: Grammar) -> int | None:
    """Where a vague measure ends that begins here, with its number or article if it has one."""
    counted = read_count(text, start, grammar)
    article = ARTICLE.match(text, start)
    starts = [start]
    if counted:
        starts = [skip_spaces(text, counted[1])]
    elif article:
        starts.append(article.end())
    described = [how.end() for begin in starts if (how := _HOW_MUCH.match(text, begin))]
    found = (_vague(grammar.tables).match(text, begin) for begin in (*starts, *described))
    # The longest: `a few` is one, and `few drops` behind the article is another.
    return max((one.end() for one in found if one), default=None)


@lru_cache(maxsize=2)
def _vague(tables: Tables) -> re.Pattern[str]:
    """Every vague measure, the longest first."""
    return re.compile(rf"(?:{'|'.join(map(re.escape, tables.vague))})(?![\w'’-])", re.IGNORECASE)


def _read_sum(text: str, start: int, grammar: Grammar) -> tuple[Quantity, int] | None:
    found = read_term(text, start, grammar)
    if found is None:
        return None
    term, end = found
    measures, alternative = term.measures, term.alternative
    while plus := _PLUS.match(text, end):
        if len(measures) >= MOST_PARTS:
            raise too_many_parts(plus.start())
        after = read_term(text, plus.end(), grammar)
        if after is None and text[plus.end() : plus.end() + 1].isalpha():
            break
        # Brackets within a sum could speak of one part or of all of it.
        if after is None or alternative or after[0].alternative:
            raise unreadable(
                f"'{text[start : plus.end()].strip()}' is not followed by an amount that can be added.",
                "Write a sum as 1 cup + 2 tbsp.",
                plus.start(),
            )
        measures, end = measures + after[0].measures, after[1]
    return Quantity(measures=measures, alternative=alternative), end


def _read_less(text: str, quantity: Quantity, end: int, grammar: Grammar) -> tuple[Quantity, int]:
    """`1 cup less 2 tablespoons`: the difference, in the smaller unit."""
    less = _LESS.match(text, end)
    found = read_term(text, less.end(), grammar) if less else None
    if found is None or len(quantity.measures) != 1 or len(found[0].measures) != 1 or quantity.alternative:
        return quantity, end
    (whole,), (part,) = quantity.measures, found[0].measures
    left = Span(whole.base.low - part.base.high, whole.base.high - part.base.low).times(1 / part.unit.factor)
    if whole.unit.dimension is not part.unit.dimension or left.low <= 0:
        return quantity, end
    return replace(quantity, measures=(Measure(left, part.unit),)), found[1]


def too_many_parts(offset: int) -> AmountError:
    """The refusal of a sum that is longer than any kitchen's."""
    return unreadable(
        f"More than {MOST_PARTS} amounts are added up here.", "Write the sum as one amount.", offset
    )


def _read_alternative(text: str, quantity: Quantity, end: int, grammar: Grammar) -> tuple[Quantity, int]:
    """The amount with the same in another unit behind it, in brackets or behind a slash, where one stands there."""
    slash = _SLASH.match(text, end)
    if slash and not quantity.alternative:
        return _behind_slash(text, quantity, slash.end(), grammar)
    start = skip_spaces(text, end)
    close = text.find(")", start) if text[start : start + 1] == "(" else -1
    if close < 0 or quantity.alternative:
        return quantity, end
    both = _BOTH.match(text, start + 1, close)
    inside = text[start + 1 : both.end("one") if both else close]
    each = _EACH.search(inside)
    also = _ALSO.match(inside)
    in_all = _IN_ALL.search(inside)
    behind = each or in_all
    lead = also.end() if also else 0
    said = inside[lead : behind.start()] if behind else inside[lead:]
    found = _inside(said, start + 1 + lead, grammar, instead=inside[:2].lower() == "or")
    if found is None:
        return quantity, end
    if not each and any(m.unit.dimension is Dimension.LENGTH for m in found):
        return quantity, end
    if each:
        if len(quantity.measures) != 1 or quantity.dimension is not Dimension.COUNT:
            raise unreadable("'each' needs a count before it.", "Write 2 cans (14 oz each).", start)
        sized = of_size(quantity, found, about=bool(also))
        if sized.alternative or not any(m.unit.dimension in MEASURED for m in found):
            return sized, close + 1
    if quantity.measures[-1].unit is COUNT and grammar.unit_at(text, skip_spaces(text, close + 1)):
        raise unreadable(
            "The brackets stand between the number and what is counted.", "Write 2 cans (14 oz each).", start
        )
    return replace(quantity, alternative=found), close + 1


def of_size(quantity: Quantity, size: tuple[Measure, ...], *, about: bool) -> Quantity:
    """A count with the size of one: the size of all is worked out, that of one stays. A length has no sum."""
    count = quantity.measures[0].span
    if count.is_range and any(measure.span.is_range for measure in size):
        raise unreadable("A range times a range cannot be read.", "Write one of them as a number.", 0)
    weighs = all(measure.unit.dimension in MEASURED for measure in size)
    total = tuple(measure.by(count) for measure in size) if weighs else ()
    return replace(quantity, each=size, each_about=about, alternative=total)


def _behind_slash(text: str, quantity: Quantity, start: int, grammar: Grammar) -> tuple[Quantity, int]:
    """`1 cup / 240 ml`: one amount in two units."""
    found = read_term(text, start, grammar)
    same = found is not None and all(m.unit.dimension in MEASURED for m in found[0].measures)
    if found is None or not same or quantity.dimension not in MEASURED:
        raise unreadable("A second amount follows '/'.", "Put it in brackets: 1 lb (450 g).", start - 1)
    return replace(quantity, alternative=found[0].measures), found[1]


def take_alternative(
    quantity: Quantity | None, name: str, offset: int, grammar: Grammar
) -> tuple[Quantity | None, str]:
    """An amount in brackets behind the name belongs to the amount before it: 2 bunches collards (3 lb)."""
    start = name.rfind("(")
    if quantity is None or quantity.is_vague or not name.endswith(")") or start < 0:
        return quantity, name
    try:
        taken, end = _read_alternative(plain(name), quantity, start, grammar)
    except AmountError as error:
        raise error.moved(offset) from None
    if end != len(name):
        return quantity, name
    written = f"{quantity.written} {name[start:]}"
    return replace(taken, written=written), name[:start].strip()


def _inside(inside: str, offset: int, grammar: Grammar, *, instead: bool) -> tuple[Measure, ...] | None:
    """The measures in brackets; None where those hold words; an error where they hold half an amount."""
    inside = _HUNG.sub(r"\1 \2 \3 ", inside)
    try:
        found = read_amount(inside, 0, grammar)
    except AmountError as error:
        if any(grammar.is_measure(word) for word in re.findall(r"[^\W\d_]+", inside)):
            raise error.moved(offset) from None
        return None
    if found is None or found[0].is_vague:
        return None
    quantity, end = found
    if not inside[end:].strip() and not quantity.alternative:
        return quantity.measures
    # Words behind it make it another amount, which stays with the name: (1 tsp dried).
    if quantity.dimension in MEASURED and not instead and not inside[end:].strip()[:1].isalpha():
        raise unreadable(
            f"'({inside})' is more than an amount.", "Leave only the amount in the brackets.", offset + end
        )
    return None


def _refuse_nothing(quantity: Quantity, offset: int) -> None:
    if any(measure.span.high == 0 for measure in (*quantity.measures, *quantity.alternative)):
        raise unreadable("An amount of 0 is no amount.", "Write an amount above 0.", offset)


def _begins_a_name(text: str, start: int, quantity: Quantity, grammar: Grammar) -> bool:
    """True for the digits of 00 flour or 7-grain flakes behind a unit, not for 1 5-lb roast."""
    found = NAME_WITH_DIGITS.match(text, start)
    if found is None or quantity.dimension is Dimension.COUNT:
        return False
    unit = grammar.unit_at(text, found.end() - 1)
    return unit is None or unit[0].dimension is Dimension.LENGTH


def _check_rest(text: str, end: int, quantity: Quantity, grammar: Grammar) -> None:
    """What may not follow an amount, because the amount then means something else."""
    start = skip_spaces(text, end)
    rest = text[start:]
    if not rest or (text[start - 1 : start] == " " and _begins_a_name(text, start, quantity, grammar)):
        return
    if rest[0].isdigit() or rest[0] in "¼½¾" or "⅐" <= rest[0] <= "⅞":
        raise unreadable(
            f"'{rest.split(',')[0]}': a second number follows the amount.",
            "Write 1 can (14 oz), 2 x 14 oz, or a sum with +.",
            start,
        )
    if rest[0] == "/":
        raise unreadable("A second amount follows '/'.", "Put it in brackets: 1 lb (450 g).", start)
    if rest[0] in "%°+-–×*=<>^" or _LOOSE_WORD.match(rest):
        word = rest.split()[0]
        raise unreadable(f"'{word}' behind the amount cannot be read.", "Write one amount.", start)


def _left_over(rest: str, offset: int, quantity: Quantity, grammar: Grammar) -> AmountError:
    word = rest.split()[0].strip(",;")
    near = grammar.near_unit(word)
    if quantity.dimension is Dimension.COUNT:
        hint = f"Did you mean '{near}'?" if near else "Write a number and a unit, such as 2 lb."
        return AmountError("unknown-unit", f"'{word}' is not a unit.", hint, offset)
    return unreadable(f"'{rest}' behind the amount cannot be read.", "Write only the amount.", offset)
