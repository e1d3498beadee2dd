"""Running text in, out come places where the same amount is added in the other system of units.

Temperatures, weights, volumes and lengths are found only where number and unit are beyond doubt. A bare
number, a price, or an amount whose author already gave both is left alone. The words around a temperature
say whether it is a least one (`at least 165 °F`, `165 °F inside`) or a greatest one (`below 40 °F`); such a
one is rounded to its safe side. Those words are English only: where they do not settle it the temperature is a
plain one, rounded to the nearest degree.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from generator.model.quantity import Span, Temperature, TemperatureRange, Unit
from generator.model.shown import GLYPHS, USES
from generator.render.amounts import MAXIMUM, MINIMUM, PLAIN, Amounts

FindUnit = Callable[[str], Unit | None]
"The unit that a spelling means in this book, or None where it is not certain."

SPELLINGS = (
    "pounds|pound|lbs|lb|ounces|ounce|oz|kilograms|kilogram|kilos|kilo|kg|grams|gram|g|"
    "cups|cup|tablespoons|tablespoon|tbsp|teaspoons|teaspoon|tsp|fluid ounces|fluid ounce|fl oz|"
    "pints|pint|pt|quarts|quart|qt|gallons|gallon|gal|"
    "liters|liter|litres|litre|L|milliliters|milliliter|millilitres|millilitre|mL|ml|"
    "inches|inch|feet|foot|ft|centimeters|centimeter|centimetres|centimetre|cm|"
    "millimeters|millimeter|millimetres|millimetre|mm"
)
"What a sentence may say. `in`, `m`, `c`, `t`, and F or C without degrees, mean too many things there."

SCALES = {"F": r"[°º]\s?F|degrees? F(?:ahrenheit)?", "C": r"[°º]\s?C|degrees? C(?:elsius)?"}
SIGNS = {glyph: value for value, glyph in GLYPHS.items()}
_SIGN = f"[{''.join(SIGNS)}]"
_NUMBER = (
    rf"(?:\d+/\d+|\d+[ \u00a0]\d+/\d+|\d+[ \u00a0]?{_SIGN}|{_SIGN}|\d+(?:[.,]\d{{1,2}})?(?![\d/]|[.,]\d))"
)
_DASH = r"\s?[–—-]\s?"
_UNITS = "|".join(sorted(SPELLINGS.split("|"), key=len, reverse=True))
AMOUNT = re.compile(
    rf"(?<![\w$€£¥.,#°–—])(?<!\d/)(?<!\w-)(?<![x×] )(?P<low>[-−]?{_NUMBER})"
    rf"(?:(?P<to>{_DASH}|\s+(?:to|or|and)\s+)(?P<high>[-−]?{_NUMBER}))?"
    rf"(?:\s?(?P<scale>{'|'.join(SCALES.values())})|[\s-]?(?P<unit>{_UNITS})(?:\.(?=\s[a-z(]))?)(?!\w)"
)
TWICE = re.compile(r",?\s*[(\[/=]\s*+(?:(?:about |ca\.? |~|≈|=)\s*)?|\s+or\s+(?:about )?")
"What stands between the two writings of an author who gave both."


_BETWEEN = re.compile(r"between\s*+$")
NEAR = 40
"Characters before an amount in which `between` may stand. Source: house; more is a gap and no sentence."
_RANGE = re.compile(rf"{_DASH}|\s+to\s+")
_PLUS = re.compile(r"\s|\s+plus\s+|\s\+\s")
_PART = re.compile(rf"\d+/\d+|\d+(?:[.,]\d+)?|{_SIGN}")


@dataclass(frozen=True, slots=True)
class Insertion:
    """Text to be put in at an offset."""

    at: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """An amount in running text: a temperature has a scale, everything else a unit."""

    start: int
    end: int
    span: Span
    scale: str = ""
    unit: Unit | None = None

    @property
    def kind(self) -> str:
        """Amounts of one kind can stand for one another."""
        return self.unit.dimension if self.unit else "temperature"

    @property
    def is_metric(self) -> bool:
        """True for the metric kitchen's units and Celsius."""
        return self.unit.system == "metric" if self.unit else self.scale == "C"


def conversions(text: str, *, amounts: Amounts, find_unit: FindUnit) -> tuple[Insertion, ...]:
    """Every amount of a text that wants the other system behind it, in order."""
    found = list(_joined(text, _found(text, find_unit)))
    doubled = _written_twice(text, found)
    return tuple(
        Insertion(one.end, _other(one, text, amounts))
        for index, one in enumerate(found)
        if index not in doubled
    )


def _found(text: str, find_unit: FindUnit) -> Iterator[Found]:
    for match in AMOUNT.finditer(text):
        low, high = _number(match["low"]), _number(match["high"] or match["low"])
        start = match.start()
        if (match["to"] or "").strip() == "and" and not _BETWEEN.search(text, max(start - NEAR, 0), start):
            low, start = high, match.start("high")
        scale = next((s for s in SCALES if match["scale"] and re.fullmatch(SCALES[s], match["scale"])), "")
        unit = find_unit(match["unit"]) if match["unit"] else None
        if low <= high and (scale or (unit is not None and low > 0)):
            yield Found(start=start, end=match.end(), span=Span(low, high), scale=scale, unit=unit)


def _number(text: str) -> Fraction:
    """`1 3/4`, `1¾`, `2.5`, `2,5`, `-18`."""
    total = Fraction(0)
    for part in _PART.findall(text):
        total += SIGNS[part] if part in SIGNS else Fraction(part.replace(",", "."))
    return -total if text[0] in "-−" else total


def _joined(text: str, found: Iterator[Found]) -> Iterator[Found]:
    """`140 °F to 160 °F` is one range, and `2 lb 3 oz` one weight."""
    last: Found | None = None
    for one in found:
        both = _join(last, one, text[last.end : one.start]) if last else None
        if last and not both:
            yield last
        last = both or one
    if last:
        yield last


def _join(last: Found, one: Found, between: str) -> Found | None:
    if (last.scale, last.unit) == (one.scale, one.unit):
        if _RANGE.fullmatch(between) and last.span.high <= one.span.low:
            return replace(last, end=one.end, span=Span(last.span.low, one.span.high))
        return None
    if last.unit is None or one.unit is None or _PLUS.fullmatch(between) is None:
        return None
    if last.kind != one.kind or last.is_metric != one.is_metric or last.unit.factor <= one.unit.factor:
        return None
    total = one.span.plus(last.span.times(last.unit.factor / one.unit.factor))
    return replace(last, end=one.end, span=total, unit=one.unit)


def _written_twice(text: str, found: list[Found]) -> set[int]:
    """Amounts that stand in both systems already: neither wants another."""
    doubled: set[int] = set()
    for index, (one, after) in enumerate(pairwise(found)):
        other_system = one.kind == after.kind and one.is_metric is not after.is_metric
        if other_system and TWICE.fullmatch(text[one.end : after.start]):
            doubled |= {index, index + 1}
    return doubled


def _other(one: Found, text: str, amounts: Amounts) -> str:
    """The amount in the other system, rounded once."""
    if one.unit is None:
        bound = bound_of(text[max(one.start - FARTHEST, 0) : one.start], text[one.end : one.end + FARTHEST])
        use = {"": PLAIN, "minimum": MINIMUM, "maximum": MAXIMUM}[bound]
        at = TemperatureRange(Temperature(one.span.low, one.scale), Temperature(one.span.high, one.scale))
        return amounts.on_scale(at, "F" if one.scale == "C" else "C", use=use)
    us = "imperial" if amounts.system == "imperial" else "us"
    system = us if one.is_metric else "metric"
    return amounts.shower.base(one.span.times(one.unit.factor), use=USES[one.unit.dimension], system=system)


_LEAST = (
    r"at least|over|above|past|pass(?:es|ed)?|exceeds?|beyond|reach(?:es|ed|ing)?|hits?|reads?|registers?|"
    r"shows?|hotter than|warmer than|more than|higher than|minimum(?: of)?|to"
)
_MOST = (
    r"at most|below|under|less than|lower than|colder than|cooler than|maximum(?: of)?|"
    r"(?:stays?|staying|keeps?|kept) within"
)
_FILLER = (
    r"(?:\s+(?:an?|the|its|inside|internal|core|middle|temperature|heat|of|about|around|full|is))*[\s~]*$"
)
_BEFORE = re.compile(rf"\b(?:(?P<unclear>up to)|(?P<least>{_LEAST})|(?P<most>{_MOST})){_FILLER}")
_NOT = re.compile(r"(?:\b(?:no|not|never|nor|without|cannot)|n[’']t)\b(?:\s+\w+){0,3}\s*$")
_UNTIL = re.compile(r"\b(?:before|until|till|unless)\b")
_COOLING = re.compile(r"\b(?:cool|chill|drop|fall|fell|down|lower|freez|froze)\w*\b[^,;:]{0,30}$")
_MIDDLE = r"(?:middle|cent(?:er|re)|core|thickest|bone)"
_OR_MORE = re.compile(
    r"\s*(?:or|and)\s+(?:more|above|over|higher|hotter|warmer|up)\b|\s*at (?:the )?(?:least|minimum)\b"
)
_OR_LESS = re.compile(
    r"\s*(?:or|and)\s+(?:less|below|under|lower|colder|cooler)\b|\s*at (?:the )?(?:most|maximum)\b"
)
_INSIDE = re.compile(rf",?\s*(?:inside|(?:in|at) (?:the|its) {_MIDDLE})\b")

FARTHEST = 160
"Characters on either side of a temperature whose words can speak of it. Source: house; a clause is shorter."


def bound_of(before: str, after: str) -> str:
    """`or below` behind it settles it first, then the words before it, then `inside` behind it."""
    if _OR_MORE.match(after.lower()):
        return "minimum"
    if _OR_LESS.match(after.lower()):
        return "maximum"
    clause = re.split(r"[.;:!?]\s", before.lower())[-1]
    if match := _BEFORE.search(clause):
        return _said_before(match, clause[: match.start()])
    return "minimum" if _INSIDE.match(after.lower()) else ""


def _said_before(match: re.Match[str], rest: str) -> str:
    """What the last words before a temperature say; `never` and its like turn them round."""
    if match["unclear"]:
        return ""
    if match["least"] == "to" and _COOLING.search(rest):
        return "maximum"
    no = _NOT.search(rest)
    turned = no is not None and not match[0].startswith("at ") and not _UNTIL.search(no[0])
    return "minimum" if (match["least"] is not None) is not turned else "maximum"
