"""Text in, measures out: a number with its unit, both ends of a range, 2 lb 3 oz, and 2 x 400 g."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import COUNT, Dimension, Measure, Span, Unit
from generator.read.grammar import ADJECTIVES, Grammar
from generator.read.number import TO, AmountError, read_number, read_span, unreadable
from generator.read.number_words import OF_A, part_behind, read_part, read_worded

ARTICLE = re.compile(r"an? +(?=[^\W\d_])", re.IGNORECASE)
_HALF = re.compile(r"half(?=[ -])", re.IGNORECASE)
"Without `a`, before a unit: half pound."
_TIMES = re.compile(r" ?[x×] ?(?=[0-9¼-¾⅐-⅞.])", re.IGNORECASE)
_HYPHENED = re.compile(r"-[^\W\d_]")
_LETTER = re.compile(r"[^\W\d_]")
_GLUED = re.compile(r"[^\s,(]*")
NAME_WITH_DIGITS = re.compile(
    r"0[0-9]|[0-9]+ ?%|[0-9]{2}/[0-9]{2}(?![0-9])|[0-9]+-(?: (?:to|or) [0-9]+-)?[^\W\d_]"
)
"Names that begin with digits and follow a unit: 00 flour, 2 % milk, 80/20 beef, 7-grain flakes."


def skip_spaces(text: str, position: int) -> int:
    """The first offset from here on that is no space."""
    while position < len(text) and text[position] == " ":
        position += 1
    return position


@dataclass(frozen=True, slots=True)
class Term:
    """One summand: its measures, and the weight or volume of all its packages."""

    measures: tuple[Measure, ...]
    alternative: tuple[Measure, ...] = ()


def read_term(text: str, start: int, grammar: Grammar) -> tuple[Term, int] | None:
    """One summand at an offset of plain text, and where it ends; None where no number stands."""
    number = read_count(text, start, grammar)
    if number is None:
        return None
    span, end = number
    times = _TIMES.match(text, end)
    if times:
        return _read_packages(text, times.end(), span, grammar)
    return _read_parts(text, end, span, grammar)


def read_count(text: str, start: int, grammar: Grammar) -> tuple[Span, int] | None:
    """A number, a range, or words for one: `two or three`, `half a`, and `a` before a unit."""
    article = ARTICLE.match(text, start)
    if article and grammar.unit_at(text, article.end()):
        return Span.of(1), article.end()
    worded = _read_word(text, start, grammar)
    if worded is None:
        found = read_span(text, start, grammar.language)
        return found and _with_part(text, *found)
    low, end = worded
    between = TO.match(text, end)
    high = read_one(text, between.end(), grammar) if between else None
    if high is None or high[0] < low:
        return Span.of(low), end
    return Span(low, high[0]), high[1]


def read_one(text: str, start: int, grammar: Grammar) -> tuple[Fraction, int] | None:
    """One number, in digits or in words."""
    return _read_word(text, start, grammar) or read_number(text, start, grammar.language)


def _read_word(text: str, start: int, grammar: Grammar) -> tuple[Fraction, int] | None:
    """A number in words; `half` and `quarter` alone only before a unit: half pound, not half and half."""
    half = _HALF.match(text, start)
    if half and grammar.unit_at(text, half.end() + 1):
        return Fraction(1, 2), half.end()
    found = read_worded(text, start)
    return found if found and text[found[1] : found[1] + 1] in ("", " ", "-", ",", ")") else None


def _with_part(text: str, span: Span, end: int) -> tuple[Span, int]:
    """`2 and a half`, `1/2 a`, `3/4 of a`: words behind digits that belong to the number."""
    if not span.is_range and span.low.denominator == 1:
        part = part_behind(text, end)
        return (Span.of(span.low + part[0]), part[1]) if part else (span, end)
    of = OF_A.match(text, end) if span.high < 1 else None
    return span, of.end() if of else end


def _read_packages(text: str, start: int, number: Span, grammar: Grammar) -> tuple[Term, int]:
    """The size behind `2 x`: multiplied, and kept beside the packages where their kind is named."""
    size = read_span(text, start, grammar.language)
    parts = _read_parts(text, size[1], size[0], grammar) if size else None
    if parts is None or any(m.unit.dimension is Dimension.COUNT for m in parts[0].measures):
        raise unreadable("'x' is not followed by the size of a package.", "Write it as 2 x 400 g.", start)
    if number.is_range and any(measure.span.is_range for measure in parts[0].measures):
        raise unreadable("A range times a range cannot be read.", "Write one of them as a number.", start)
    total = tuple(measure.by(number) for measure in parts[0].measures)
    kind = grammar.unit_at(text, skip_spaces(text, parts[1]))
    if kind and kind[0].dimension is Dimension.COUNT:
        return Term((Measure(number, kind[0]),), total), kind[1]
    return Term(total), parts[1]


def _read_parts(text: str, end: int, span: Span, grammar: Grammar) -> tuple[Term, int] | None:
    """What follows a number: its unit, the other end of a range, and smaller units (2 lb 3 oz)."""
    unit = _read_unit(text, end, span, grammar)
    if unit is None:
        if _HYPHENED.match(text, end):
            return None
        _refuse_glued(text, end)
        return Term((Measure(span, COUNT),)), end
    span, end = _with_half(text, unit[1], span, grammar)
    first = Measure(span, unit[0])
    ranged = _read_range_end(text, end, first, grammar)
    if ranged is not None:
        return Term((ranged[0],)), ranged[1]
    measures = [first]
    while part := _read_smaller_part(text, end, measures[-1], grammar):
        measures.append(part[0])
        end = part[1]
    return Term(tuple(measures)), end


_HALF_BEHIND = re.compile(r" and (?=(?:an?|one|three)[- ][a-z])", re.IGNORECASE)


def _with_half(text: str, end: int, span: Span, grammar: Grammar) -> tuple[Span, int]:
    """`a pound and a half of venison`: the part of a mixed number behind its unit."""
    joint = _HALF_BEHIND.match(text, end)
    part = read_part(text, joint.end()) if joint else None
    if part is None or span.is_range or grammar.unit_at(text, skip_spaces(text, part[1])):
        return span, end
    return Span.of(span.low + part[0]), part[1]


def _read_unit(text: str, end: int, span: Span, grammar: Grammar) -> tuple[Unit, int] | None:
    start = end + 1 if _HYPHENED.match(text, end) else skip_spaces(text, end)
    found = grammar.unit_at(text, start)
    if found is None or found[0].dimension is not Dimension.COUNT:
        return found
    is_adjective = text[start : found[1]].lower() in ADJECTIVES and span.high > 1
    return None if is_adjective else found


def _read_range_end(text: str, end: int, first: Measure, grammar: Grammar) -> tuple[Measure, int] | None:
    """The other end of a range with a unit of its own: 1 tsp to 1 tbsp."""
    between = TO.match(text, end)
    number = read_span(text, between.end(), grammar.language) if between else None
    if between is None or number is None:
        return None
    unit = _read_unit(text, number[1], number[0], grammar)
    same = unit is not None and unit[0].dimension is first.unit.dimension
    if unit is None or not same or first.span.is_range or number[0].is_range:
        raise unreadable(
            f"'{text[between.start() : number[1]].strip()}' does not end a range.",
            "Write 1–2 tsp, or put another writing of the same amount in brackets.",
            between.start(),
        )
    # In the unit of the low end, so that both ends scale and round alike.
    high = number[0].high * unit[0].factor / first.unit.factor
    if high < first.span.low:
        raise unreadable("The range goes down.", "Write a range from low to high.", between.start())
    return replace(first, span=Span(first.span.low, high)), unit[1]


def _read_smaller_part(text: str, end: int, before: Measure, grammar: Grammar) -> tuple[Measure, int] | None:
    """The next part of 2 lb 3 oz: the same kind of amount in a smaller unit; None where there is none."""
    start = skip_spaces(text, end)
    if before.unit.dimension is Dimension.COUNT or not text[start : start + 1].strip():
        return None
    if text[start] == ",":
        return _behind_comma(text, start + 1, before, grammar)
    if NAME_WITH_DIGITS.match(text, start):
        return None
    number = read_span(text, start, grammar.language)
    unit = _read_unit(text, number[1], number[0], grammar) if number else None
    if number is None or unit is None:
        return None
    smaller = unit[0].dimension is before.unit.dimension and unit[0].factor < before.unit.factor
    one_system = unit[0].system == before.unit.system
    if not smaller or not one_system or before.span.is_range:
        raise unreadable(
            f"'{text[start : unit[1]]}' cannot be added to what stands before it.",
            "Write parts from large to small (2 lb 3 oz), a sum with +, or another writing in brackets.",
            start,
        )
    return Measure(number[0], unit[0]), unit[1]


def _behind_comma(text: str, start: int, before: Measure, grammar: Grammar) -> tuple[Measure, int] | None:
    """`2 pounds, 8 ounces`: of anything but a smaller unit of the same kind a comma is the end of the amount."""
    number = (
        read_span(text, skip_spaces(text, start), grammar.language)
        if text[start : start + 1] == " "
        else None
    )
    unit = _read_unit(text, number[1], number[0], grammar) if number else None
    if number is None or unit is None or before.span.is_range or number[0].is_range:
        return None
    smaller = unit[0].dimension is before.unit.dimension and unit[0].factor < before.unit.factor
    named = re.match(r" +(?:of )?[^\W\d_]", text[unit[1] : unit[1] + 8])
    return (
        (Measure(number[0], unit[0]), unit[1])
        if smaller and named and unit[0].system == before.unit.system
        else None
    )


def _refuse_glued(text: str, end: int) -> None:
    """Letters right behind a number that are no unit: 400gr, 2nd."""
    if _LETTER.match(text, end) and text[end - 1] != " ":
        word = _GLUED.match(text, end)
        assert word is not None
        raise AmountError(
            "unknown-unit", f"'{word.group()}' is not a unit.", "Write the unit out: 400 g.", end
        )
