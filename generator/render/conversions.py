"""Running text in, out come places where the same amount is added in the other system of units.

Temperatures, weights, volumes and lengths are found only where number and unit are beyond doubt. A bare number, a price,
the pounds of a pressure, the size of a knife, or an amount whose author already gave both is left alone. The words around
a temperature say whether it is a least one (`at least 165 °F`, `165 °F inside`) or a greatest one (`below 40 °F`); such a
one is rounded to its safe side. What keeps cold (`38–40 °F`) has a greatest end whatever the words, and so has what yeast or
rennet is warmed to. Those words are English only: where they do not settle it the temperature is a plain one,
rounded to the nearest degree. A change of temperature (`by 10 °F`) is shown as a change.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from generator.english.degrees import Degrees, degrees_of, scale_of
from generator.model.quantity import Dimension, Span, Temperature, TemperatureRange, Unit
from generator.model.shown import GLYPHS, USES
from generator.render.amounts import MAXIMUM, MINIMUM, PLAIN, Amounts, is_cold

FindUnit = Callable[[str], Unit | None]
"The unit that a spelling means in this book, or None where it is not certain."

SPELLINGS = (
    "pounds|pound|lbs|lb|ounces|ounce|ozs|oz|kilograms|kilogram|kilos|kilo|kg|grams|gram|"
    "cups|cup|tablespoons|tablespoon|tbsps|tbsp|teaspoons|teaspoon|tsps|tsp|fluid ounces|fluid ounce|fl. oz|fl oz|"
    "pints|pint|pts|pt|quarts|quart|qts|qt|gallons|gallon|gals|gal|"
    "liters|liter|litres|litre|milliliters|milliliter|millilitres|millilitre|ml|"
    "inches|inch|feet|foot|ft|centimeters|centimeter|centimetres|centimetre|cm|"
    "millimeters|millimeter|millimetres|millimetre|mm"
)
"What a sentence may say, in small letters or capitals; besides these g and L. `m`, `c`, `t` mean too many things there."

SIGNS = {glyph: value for value, glyph in GLYPHS.items()}
_SIGN = f"[{''.join(SIGNS)}]"
_DECIMAL = r"\d{1,5}(?:[.,]\d{1,2})?(?![\d/⁄]|[.,]\d)"
_NUMBER = rf"(?:\d{{1,3}}[\s-]\d{{1,2}}[/⁄][1-9]\d?|\d{{1,2}}[/⁄][1-9]\d?|\d{{1,3}}[\s-]?{_SIGN}|{_SIGN}|{_DECIMAL})"
_DASH = r"\s?[–—-]\s?"
_TO = rf"(?:-to-|-?\s(?:to|or|and)\s(?:about\s)?|{_DASH})"
_WORDS = "|".join(re.escape(word) for word in sorted(SPELLINGS.split("|"), key=len, reverse=True))
_ACROSS = (
    r"(?:thick|wide|long|deep|high|tall|across|apart|square|squares|in diameter|of headspace|headspace)\b"
)
_IN = rf"(?:-in\b\.?|\s?in\.|\sin(?=\s{_ACROSS}))"
_BEHIND_UNIT = r"(?!\w)(?!\s?/\s?[a-z])(?:\.(?=,?\s[a-z(\d]))?(?:-(?:thick|wide|long|deep|high|tall)\b)?"
_UNIT = rf"(?:[\s-]?(?:(?P<unit>(?i:{_WORDS})|g|L){_BEHIND_UNIT})|(?P<inch>[\"″”]|{_IN}))"
_START = r"(?<![\w$€£¥.,#°–—'’⁄])(?<!\d/)(?<!\w-)"
AMOUNT = re.compile(rf"{_START}(?<![x×]\s)(?P<low>{_NUMBER})(?:(?P<to>{_TO})(?P<high>{_NUMBER}))?{_UNIT}")
_TIMES = r"(?:[\"″”]|\s?in\.|[\s-]?(?:inches|inch|cm|mm)|-)?\s?(?:[x×]|by)\s?"
PRODUCT = re.compile(
    rf"{_START}(?P<first>{_NUMBER}){_TIMES}(?P<second>{_NUMBER})(?:{_TIMES}(?P<third>{_NUMBER}))?"
    rf"(?:[\s-]?(?P<unit>inches|inch|cm|mm)\b|(?P<inch>[\"″”]|{_IN}))",
    re.IGNORECASE,
)
"`a 9 x 13-inch pan`. Boards are left alone: their feet and inches are names."
_INCH = "inch"
_QUOTES = re.compile('["“”]')
_GOES_ON = re.compile(r"\s?[a-z,;)x×]")
_MEASURES = re.compile(r"\b(?:leave|leaving|about|least|to|by|than|of|[Ee]very)\s$")
_VESSELS = re.compile(
    r"\s(?:pint|quart|gallon|cup|pound|ounce|liter|litre|oz|lb)\.?\s(?:\w{1,12}\s)?"
    r"(?:jars|cans|bottles|crocks|jugs|bags|boxes|packages|packets|cartons|containers|loaves|kettles|pots|roasts|"
    r"chickens|birds|hens|fish)\b",
    re.IGNORECASE,
)
TWICE = re.compile(r"[.,]?\s*[(\[/=]\s*+(?:(?:about |ca\.? |~|≈|=)\s*)?|\s+or\s+(?:about )?")
"What stands between the two writings of an author who gave both."


_BETWEEN = re.compile(r"[Bb]etween\s*+$")
NEAR = 40
"Characters before an amount in which `between` may stand. Source: house; more is a gap and no sentence."
POUNDS = frozenset({"pound", "pounds", "lb", "lbs"})
_PRESSED = re.compile(
    r"[\s-]?\(?(?:of )?(?:steam |gauge |air |the )?(?:pressure\b|psi\b|per sq|to the sq|a sq|weighted|gauge\b|steam\b|"
    r"on (?:the|a|your) (?:\w{1,12} )?(?:gauge|dial))"
)
"Behind pounds that are no weight."
_PRESSURE = re.compile(
    r"\b(?:pressure|psi|gauge|canner|retort|petcock|steam(?:ed|ing)?|process(?:ed|ing)?)\b"
)
_HELD_AT = re.compile(
    r"(?:\b(?:at|to|use|with|reads?|reach(?:es)?|is|or|and|between|under|hold|maintain|keep|steady|about|from|than|least|"
    r"gauge|pressure|hits|shows|for)|[(:,])\s$"
)
_ENDS = re.compile(
    r"\s?(?:[.,;:()]|$)|\s(?:for|in|until|till|and|or|at|if|on|when|above|below|according|as|with|\d)\b"
)
_KNIFE = re.compile(r"[\s-]?(?:[\w'’]{1,12} )?(?:knife|knives|blades?|cleavers?)\b")
_RANGE = re.compile(rf"{_DASH}|\s+to\s+")
_PLUS = re.compile(r",?\s|\s+plus\s+|\s\+\s")
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
    is_change: bool = False
    sides: tuple[Fraction, ...] = ()
    "Of what is measured in two or three directions."

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
    found = list(_joined(text, _found(text, find_unit, scale_of(amounts.system))))
    doubled = _written_twice(text, found)
    return tuple(
        Insertion(one.end, _other(one, text, amounts))
        for index, one in enumerate(found)
        if index not in doubled
    )


def _found(text: str, find_unit: FindUnit, scale: str) -> Iterator[Found]:
    """Degrees, sizes and amounts as they stand, each place once."""
    heats = [_heat(one) for one in degrees_of(text, scale=scale)]
    sizes = [size for match in PRODUCT.finditer(text) if (size := _size(match, find_unit))]
    closing = _closing(text)
    amounts = [
        amount for match in AMOUNT.finditer(text) if (amount := _amount(text, match, find_unit, closing))
    ]
    end = 0
    # Where two begin at one place the size comes first: its first number is no amount by itself.
    for one in sorted([*heats, *sizes, *amounts], key=lambda one: (one.start, -one.end)):
        if one.start >= end:
            yield one
            end = one.end


def _heat(one: Degrees) -> Found:
    span = Span(*one.ends) if one.ends[0] <= one.ends[1] else Span(one.ends[1], one.ends[0])
    return Found(start=one.start, end=one.end, span=span, scale=one.scale, is_change=one.is_change)


def _size(match: re.Match[str], find_unit: FindUnit) -> Found | None:
    unit = find_unit(_INCH if match["inch"] else match["unit"].lower())
    sides = tuple(_number(match[name]) for name in ("first", "second", "third") if match[name])
    if unit is None or not all(sides):
        return None
    return Found(start=match.start(), end=match.end(), span=Span.of(sides[0]), unit=unit, sides=sides)


def _amount(text: str, match: re.Match[str], find_unit: FindUnit, closing: frozenset[int]) -> Found | None:
    start, written = match.start(), _INCH if match["inch"] else match["unit"]
    if (match["inch"] and not _is_inch(text, match, closing)) or _is_count_of_vessels(text, match):
        return None
    if _is_no_amount(text, start, match.end(), written.lower()):
        return None
    low, high = _number(match["low"]), _number(match["high"] or match["low"])
    if (match["to"] or "").strip() == "and" and not _BETWEEN.search(text, max(start - NEAR, 0), start):
        low, start = high, match.start("high")
    unit = find_unit(written if written in ("g", "L") else written.lower().replace(".", ""))
    return (
        Found(start=start, end=match.end(), span=Span(low, high), unit=unit)
        if unit and 0 < low <= high
        else None
    )


def _closing(text: str) -> frozenset[int]:
    """Where quotation marks close what somebody says; all others behind a number are inches."""
    is_open = False
    closing: set[int] = set()
    for sign in _QUOTES.finditer(text):
        at = sign.start()
        if is_open and sign[0] != "“":
            closing.add(at)
            is_open = False
        elif sign[0] == "“" or not (at and (text[at - 1].isdigit() or text[at - 1] in SIGNS)):
            is_open = True
    return frozenset(closing)


def _is_inch(text: str, match: re.Match[str], closing: frozenset[int]) -> bool:
    """`1/2 in. headspace`, but not `stir 2 in. Cover it`; and no sign that closes what somebody says."""
    sign = match["inch"]
    if sign in ('"', "”"):
        return match.start("inch") not in closing
    is_part = any(letter in match["low"] for letter in ("/", "⁄", *SIGNS))
    return (
        not sign.endswith("in.")
        or is_part
        or _GOES_ON.match(text, match.end()) is not None
        or _MEASURES.search(text, max(match.start() - NEAR, 0), match.start()) is not None
    )


def _is_count_of_vessels(text: str, match: re.Match[str]) -> bool:
    """`12 pint jars` are twelve jars of a pint, not twelve pints."""
    return match["unit"] is not None and _VESSELS.match(text, match.start("unit") - 1) is not None


def _is_no_amount(text: str, start: int, end: int, unit: str) -> bool:
    """Pounds of a pressure, and the size of a knife."""
    behind = text[end : end + FARTHEST].lower()
    if unit in (_INCH, "inches") and _KNIFE.match(behind):
        return True
    if unit not in POUNDS:
        return False
    if _PRESSED.match(behind):
        return True
    before = re.split(r"[.!?]\s(?=[a-z0-9])", text[max(start - FARTHEST, 0) : start].lower())[-1]
    sentence = before + re.split(r"[.!?]\s", behind)[0]
    is_held = _HELD_AT.search(before) is not None and _ENDS.match(behind) is not None
    return is_held and _PRESSURE.search(sentence) is not None


def _number(text: str) -> Fraction:
    """`1 3/4`, `1-3/4`, `1¾`, `1 3⁄4`, `2.5`, `2,5`."""
    total = Fraction(0)
    for part in _PART.findall(text.replace("⁄", "/")):
        total += SIGNS[part] if part in SIGNS else Fraction(part.replace(",", "."))
    return total


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
    if last.sides or one.sides or last.is_change is not one.is_change:
        return None
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
        if one.is_change:
            return amounts.change(one.span, one.scale)
        before, after = text[max(one.start - FARTHEST, 0) : one.start], text[one.end : one.end + FARTHEST]
        at = TemperatureRange(Temperature(one.span.low, one.scale), Temperature(one.span.high, one.scale))
        bound = bound_of(before, after, at)
        other = "F" if one.scale == "C" else "C"
        return amounts.on_scale(at, other, use=USE_OF[bound], is_most=bound == LIVING)
    us = "imperial" if amounts.system == "imperial" else "us"
    system = us if one.is_metric else "metric"
    if one.sides:
        return _across([side * one.unit.factor for side in one.sides], amounts, system)
    return amounts.shower.base(one.span.times(one.unit.factor), use=USES[one.unit.dimension], system=system)


def _across(sides_mm: Sequence[Fraction], amounts: Amounts, system: str) -> str:
    """`23 × 33 cm`"""
    sides = [
        amounts.shower.base(Span.of(side), use=USES[Dimension.LENGTH], system=system) for side in sides_mm
    ]
    unit = sides[-1].rpartition(" ")[2]
    if all(side.endswith(f" {unit}") for side in sides):
        sides = [*(side.removesuffix(f" {unit}") for side in sides[:-1]), sides[-1]]
    return " × ".join(sides)


_COMES_TO = r"reach(?:es|ed|ing)?|hits?|reads?|registers?|shows?|to"
_LEAST = (
    r"at least|over|above|past|pass(?:es|ed)?|exceeds?|beyond|"
    r"hotter than|warmer than|more than|higher than|minimum(?: of)?"
)
_MOST = (
    r"at most|below|under|less than|lower than|colder than|cooler than|maximum(?: of)?|"
    r"(?:stays?|staying|keeps?|kept) within"
)
_FILLER = (
    r"(?:\s+(?:an?|the|its|inside|internal|core|middle|temperature|heat|of|about|around|full|is))*[\s~]*$"
)
_BEFORE = re.compile(
    rf"\b(?:(?P<unclear>up to)|(?P<comes>{_COMES_TO})|(?P<least>{_LEAST})|(?P<most>{_MOST})){_FILLER}"
)
_NOT = re.compile(r"(?:\b(?:no|not|never|nor|without|cannot)|n[’']t)\b(?:\s+\w+){0,4}\s*$")
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


LIVING = "living"
"To the nearest degree, but the upper end never up: more warmth would kill."
USE_OF = {"": PLAIN, "minimum": MINIMUM, "maximum": MAXIMUM, LIVING: PLAIN}
KILLS_F = Fraction(130)
"""[°F] Below it no heat makes food safe, so that what is merely heated `to` it has no least temperature.
Source: FSIS Revised Appendix A, 2021: its table of times begins at 130 °F."""
_ALIVE = re.compile(
    r"\b(?:yeasts?|rennet|proof(?:ed|ing|s)?|prov(?:e|ed|ing)|dough|sourdough|ris(?:es?|ing)|leaven|cultures?)\b"
)
"What too much warmth harms. Source: common practice, no source."


def bound_of(before: str, after: str, at: TemperatureRange) -> str:
    """`or below` behind it settles it first, then the words before it, then `inside` behind it."""
    if _OR_MORE.match(after.lower()):
        return "minimum"
    if _OR_LESS.match(after.lower()):
        return "maximum"
    clause = _SENTENCE_ENDS.split(before.lower())[-1]
    is_inside = _INSIDE.match(after.lower()) is not None
    if match := _BEFORE.search(clause):
        bound = _said_before(match, clause[: match.start()])
        if match["comes"] is None or bound != "minimum":
            return bound
        if is_cold(at):
            return "maximum"
        if is_inside or at.low.fahrenheit >= KILLS_F:
            return "minimum"
    elif is_inside:
        return "minimum"
    is_alive = _ALIVE.search(f"{clause} {_SENTENCE_ENDS.split(after.lower())[0]}") is not None
    return LIVING if is_alive and at.high.fahrenheit < KILLS_F else ""


_SENTENCE_ENDS = re.compile(r"[.;:!?]\s")


def _said_before(match: re.Match[str], rest: str) -> str:
    """What the last words before a temperature say; `never` and its like turn them round."""
    if match["unclear"]:
        return ""
    if match["comes"] == "to" and _COOLING.search(rest):
        return "maximum"
    no = _NOT.search(rest)
    turned = no is not None and not match[0].startswith("at ") and not _UNTIL.search(no[0])
    return "minimum" if (match["most"] is None) is not turned else "maximum"
