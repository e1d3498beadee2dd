"""The amount at the head of an ingredient line in, with how it is filled and how big each piece is; and where it ends.

Only ingredient lines are read so: what a safety figure follows from (`cure:`) stays with the plain amounts of `quantity`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from generator.model.quantity import COUNT, Dimension, Measure, Quantity, Span, Unit
from generator.read.grammar import MEASURED, Grammar
from generator.read.measure import read_count, read_one, skip_spaces
from generator.read.number import plain
from generator.read.quantity import of_size, read_amount

PACKAGES = frozenset(
    (
        "can",
        "tin",
        "jar",
        "bottle",
        "box",
        "packet",
        "bag",
        "carton",
        "envelope",
        "container",
        "tub",
        "tube",
        "sack",
    )
)
"What a shop fills: the size in brackets behind one of these is that of one. Keys of counted_units.csv."
FILLED = PACKAGES | {"handful", "teacup", "coffee cup", "wineglass", "tumbler"}
"Of these a small one is no other food: a small head of cabbage has a weight of its own."
_SIZE_WORDS = frozenset(
    (
        "big",
        "large",
        "small",
        "medium",
        "good",
        "full",
        "short",
        "tall",
        "lg.",
        "sm.",
        "med.",
        "lg",
        "sm",
        "med",
        "level",
        "even",
    )
)
_LEVEL = frozenset(("level", "even", "leveled", "levelled"))
_MANNER = re.compile(
    r"(?P<words>(?:(?:very|slightly|well|firmly|lightly|loosely|tightly)[ -])?"
    r"(?:level|even|levell?ed|heap(?:ing|ed)|round(?:ed|ing)|scant|scanty|generous|brimming|full|good|big|large|small"
    r"|short|tall|medium|packed|filled)|lg\.?|sm\.?|med\.?) (?=[^\W\d_])",
    re.IGNORECASE,
)
_OR_MORE = re.compile(r"(?: [a-z.]{1,15})? (?P<words>or (?:more|so|less))(?![\w'’-])", re.IGNORECASE)
_FROM = re.compile(r"(?:from|between) +(?=[0-9¼-¾⅐-⅞]|one|two|three|four)", re.IGNORECASE)
_ARTICLE = re.compile(r"an? +(?=[(0-9]|(?:one|two|three|four|five|six|eight|ten|twelve)[- ])", re.IGNORECASE)
_COUNTED_ARTICLE = re.compile(
    r"(?:an?(?! (?:half|lot|deal|great|bit|piece of the)\b)|another(?= )) +(?=[^\W\d_])", re.IGNORECASE
)
_COUPLE = re.compile(r"(?:a |the )?couple(?: of)?(?= )", re.IGNORECASE)
_ABOUT = re.compile(r"(?:~|(?:about|approximately|approx\.?|around)(?= )) *", re.IGNORECASE)
_DASH = re.compile(r" ?[-–] ?(?=[0-9¼-¾⅐-⅞])")
_HUNG_PART = r"[0-9]{1,3}(?: [0-9]/[0-9]{1,2}| ?[¼-¾⅐-⅞])?"
_HUNG = re.compile(rf"{_HUNG_PART}- (?:to|or) {_HUNG_PART}-")
_TIMES = re.compile(r" ?[x×] ?(?=[0-9¼-¾⅐-⅞.])", re.IGNORECASE)
_SIZED = re.compile(r" ?\((?P<inside>[^()]{1,60})\)")
_SIZE_TO = re.compile(r"-? ?(?:to|or)[ -]|-? ?[-–] ?", re.IGNORECASE)
_EACH = re.compile(r",? (?:each|apiece)(?![\w'’-])", re.IGNORECASE)
_BOTH = re.compile(r"(?P<one>.{1,40} each), .{1,40} in all", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Head:
    """The amount of a line, where the rest begins, and words of it that stay shown behind the name."""

    quantity: Quantity
    end: int
    words: str = ""


def read_head(text: str, start: int, grammar: Grammar) -> Head | None:
    """The amount at an offset; None where the line begins with its name."""
    begin = skip_spaces(plain(text), start)
    for form in (
        _read_packaged,
        _read_size_alone,
        _read_filled,
        _read_more,
        _read_plain,
        _read_couple,
        _read_article,
    ):
        found = form(text, begin, grammar)
        if found is not None:
            written = text[begin : found.end].strip()
            return replace(found, quantity=replace(found.quantity, written=written))
    return None


def _read_size_alone(text: str, start: int, grammar: Grammar) -> Head | None:
    """`4- to 5-pound roast`: the size of the one piece is the weight of it."""
    if not _HUNG.match(text, start):
        return None
    size = _read_size(plain(text), start, grammar)
    return Head(Quantity(measures=size.measures), size.end) if size else None


def _read_plain(text: str, start: int, grammar: Grammar) -> Head | None:
    begin = _FROM.match(text, start)
    found = read_amount(text, begin.end() if begin else start, grammar)
    if found is None:
        return None
    quantity, end = found
    numbered = _SIZED.match(text, end)
    can = grammar.numbered_can(f"{numbered['inside']} can", 0) if numbered else None
    if numbered and can and quantity.measures[-1:] and quantity.measures[-1].unit.key in ("can", "tin"):
        return Head(Quantity(measures=(Measure(quantity.measures[-1].span, can[0]),)), numbered.end())
    return _quart_can(quantity, end, text, grammar) or Head(_one_of_each(quantity, end, text), end)


def _quart_can(quantity: Quantity, end: int, text: str, grammar: Grammar) -> Head | None:
    """`2 quart cans tomatoes`: a measure before a package is its size."""
    if len(quantity.measures) != 1 or quantity.alternative or quantity.dimension is not Dimension.VOLUME:
        return None
    size = quantity.measures[0]
    noun = _noun(plain(text), end, grammar)
    if noun[0].key not in PACKAGES:
        return None
    counted = Quantity(measures=(Measure(size.span, noun[0]),))
    return Head(of_size(counted, (Measure(Span.of(1), size.unit),), about=False), noun[1])


def _one_of_each(quantity: Quantity, end: int, text: str) -> Quantity:
    """`2 cans (14 oz)`: the size in brackets between a package and its name is that of one; of bunches, of all."""
    if (
        quantity.each
        or len(quantity.measures) != 1
        or not quantity.alternative
        or "in all" in quantity.written
    ):
        return quantity
    measure = quantity.measures[0]
    weighs = all(one.unit.dimension in MEASURED for one in quantity.alternative)
    if measure.unit.dimension is not Dimension.COUNT or not weighs or text[end - 1] != ")":
        return quantity
    sized = measure.unit.key in PACKAGES or measure.unit is COUNT or is_numbered(measure.unit)
    return (
        of_size(replace(quantity, alternative=()), quantity.alternative, about=False) if sized else quantity
    )


def is_numbered(unit: Unit) -> bool:
    """A can that is named by its number: No. 10."""
    return unit.key.startswith("No. ")


def _read_filled(text: str, start: int, grammar: Grammar) -> Head | None:
    """`1 heaping tbsp`, `a scant cup`, `2 level teaspoons`: the word between the number and its spoon is taken out."""
    flat = plain(text)
    at = _number_end(flat, start, grammar)
    bare = _MANNER.match(flat, start)
    if (
        at is None
        and bare
        and not bare["words"]
        .lower()
        .startswith(("lg", "sm", "med", "small", "large", "medium", "big", "short"))
    ):
        at = start
    found = _MANNER.match(flat, at) if at is not None else None
    unit = grammar.unit_at(flat, found.end()) if found else None
    if found is None or unit is None or unit[0].dimension not in (*MEASURED, Dimension.COUNT):
        return None
    words = found["words"].lower()
    counted = unit[0].dimension is Dimension.COUNT
    if counted and words in _SIZE_WORDS and unit[0].key not in FILLED:
        return None
    if not counted and words.strip(".") in ("medium", "lg", "sm", "med", "tall"):
        return None
    blank = text[: found.start()] + " " * len(found.group()) + text[found.end() :]
    rest = (
        (Quantity(measures=(Measure(Span.of(1), unit[0]),)), unit[1])
        if at == start
        else read_amount(blank, start, grammar)
    )
    if rest is None:
        return None
    rest = (_one_of_each(*rest, text), rest[1])
    if words in _LEVEL:
        return Head(*rest, words)
    packed = "packed" in words or words == "full" or counted
    manner = "" if packed else words
    return Head(replace(rest[0], manner=manner), rest[1], words if packed else f"{words} (counted as level)")


def _number_end(flat: str, start: int, grammar: Grammar) -> int | None:
    article = re.compile(r"an? +(?=[^\W\d_])", re.IGNORECASE).match(flat, start)
    if article and not grammar.unit_at(flat, article.end()):
        return article.end()
    found = read_count(flat, start, grammar)
    return skip_spaces(flat, found[1]) if found else None


def _read_more(text: str, start: int, grammar: Grammar) -> Head | None:
    """`2 or more cloves`: the least is what is counted, and the words stay."""
    flat = plain(text)
    number = read_count(flat, start, grammar)
    found = _OR_MORE.match(flat, number[1]) if number else None
    if found is None:
        return None
    cut = found.start("words") - 1
    blank = text[:cut] + " " * (found.end() - cut) + text[found.end() :]
    rest = read_amount(blank, start, grammar)
    return Head(rest[0], max(rest[1], found.end()), found["words"]) if rest else None


def _read_couple(text: str, start: int, grammar: Grammar) -> Head | None:
    found = _COUPLE.match(text, start)
    if found is None:
        return None
    return _counted(text, found.end(), Span.of(2), grammar)


def _counted(text: str, end: int, span: Span, grammar: Grammar) -> Head:
    """So many of what follows, in its unit if it has one."""
    unit = grammar.unit_at(text, skip_spaces(plain(text), end))
    kind, end = unit or (COUNT, end)
    return Head(Quantity(measures=(Measure(span, kind),)), end)


def _read_article(text: str, start: int, grammar: Grammar) -> Head | None:
    """`a small onion`, `an old cock pheasant`."""
    found = _COUNTED_ARTICLE.match(text, start)
    if found is None or (
        text[start : start + 2].lower() == "an" and text[start : start + 7].lower() == "another"
    ):
        return None
    return Head(Quantity(measures=(Measure(Span.of(1), COUNT),)), found.end())


def _read_packaged(text: str, start: int, grammar: Grammar) -> Head | None:
    """A count with the size of one before what is counted: 6 (6-ounce), 1 14-oz can, 1 - 16 oz. can."""
    flat = plain(text)
    counted = _counts(flat, start, grammar)
    if counted is None:
        return None
    span, end = counted
    for form in (_in_brackets, _behind_dash, _behind_times, _behind_space):
        found = form(flat, end, span, grammar)
        if found is not None:
            return found
    return None


def _counts(flat: str, start: int, grammar: Grammar) -> tuple[Span, int] | None:
    article = _ARTICLE.match(flat, start)
    if article:
        return Span.of(1), article.end() - 1
    one = read_one(flat, start, grammar)
    if one is None:
        return None
    return Span.of(one[0]), one[1]


def _in_brackets(flat: str, end: int, span: Span, grammar: Grammar) -> Head | None:
    found = _SIZED.match(flat, end)
    if found is None:
        return None
    inside = found["inside"]
    both = _BOTH.fullmatch(inside)
    said = both["one"] if both else inside
    can = grammar.numbered_can(f"{inside} can", 0)
    if can and can[1] == len(inside) + 4:
        noun = _noun(flat, found.end(), grammar)
        return Head(Quantity(measures=(Measure(span, can[0]),)), noun[1]) if noun[0] is not COUNT else None
    size = _read_size(said, 0, grammar)
    if size is None or said[size.end :].strip(" .,").lower() not in ("", "each", "apiece", "total", "in all"):
        return None
    if said.lower().endswith(("total", "in all")):
        return None
    return _of(span, size, *_noun(flat, found.end(), grammar))


def _behind_dash(flat: str, end: int, span: Span, grammar: Grammar) -> Head | None:
    """`1 - 16 oz. can`: a dash before the size of a package; before anything else it makes a range."""
    dash = _DASH.match(flat, end)
    size = _read_size(flat, dash.end(), grammar) if dash else None
    if size is None:
        return None
    noun = _noun(flat, size.end, grammar)
    is_package = noun[0].key in PACKAGES or is_numbered(noun[0])
    return _of(span, size, *noun) if is_package else None


def _behind_times(flat: str, end: int, span: Span, grammar: Grammar) -> Head | None:
    """`2 x 400 g tins`, `2 x 250 g duck breasts`: so many of that size each."""
    times = _TIMES.match(flat, end)
    size = _read_size(flat, times.end(), grammar) if times else None
    noun = _noun(flat, size.end, grammar) if size else None
    named = noun is not None and re.match(r" *(?:of )?[^\W\d_]", flat[noun[1] : noun[1] + 6]) is not None
    return _of(span, size, *noun) if size and noun and named else None


def _behind_space(flat: str, end: int, span: Span, grammar: Grammar) -> Head | None:
    """`1 14-oz can`, `1 3-lb roast`, `6 4-inch trout`; digits that begin a name (00 flour) have no unit behind them."""
    start = skip_spaces(flat, end)
    if start == end:
        return None
    size = _read_size(flat, start, grammar)
    if size is None or not re.match(r"[ .]+[^\W\d_]", flat[size.end : size.end + 4]):
        return None
    noun = _noun(flat, size.end, grammar)
    # `1 2 cups` is a slip of the pen; `1 2-cup tub` and `1 400 g tin` are not.
    loose = size.measures[0].unit.dimension is Dimension.VOLUME and "-" not in flat[start : size.end]
    return None if loose and noun[0] is COUNT else _of(span, size, *noun)


@dataclass(frozen=True, slots=True)
class _Size:
    measures: tuple[Measure, ...]
    end: int
    about: bool


def _read_size(flat: str, start: int, grammar: Grammar) -> _Size | None:
    """`6-ounce`, `14.5 oz`, `4- to 5-pound`, `two-inch`, `about 3 lb`."""
    about = _ABOUT.match(flat, start)
    begin = about.end() if about else start
    low = read_one(flat, begin, grammar)
    if low is None or low[0] == 0:
        return None
    high, end = low
    between = _SIZE_TO.match(flat, end)
    upper = read_one(flat, between.end(), grammar) if between else None
    if upper is not None and upper[0] >= low[0]:
        high, end = upper
    joint = end + 1 if flat[end : end + 1] in ("-", " ") else end
    unit = grammar.unit_at(flat, joint)
    if unit is None or unit[0].dimension not in (*MEASURED, Dimension.LENGTH):
        return None
    return _Size((Measure(Span(low[0], high), unit[0]),), unit[1], bool(about))


def _noun(flat: str, end: int, grammar: Grammar) -> tuple[Unit, int]:
    """The package or counted thing behind a size, and where it ends; a plain count where the name follows."""
    start = skip_spaces(flat, end + 1 if flat[end : end + 1] == "." else end)
    unit = grammar.unit_at(flat, start)
    if unit is None or unit[0].dimension is not Dimension.COUNT or unit[0].factor != 1:
        return COUNT, start
    return unit if flat[unit[1] :].strip(" .") else (COUNT, start)


def _of(span: Span, size: _Size, unit: Unit, end: int) -> Head | None:
    if size.measures[0].unit.dimension in MEASURED and span.low.denominator > 4 and span.low > 1:
        return None
    counted = Quantity(measures=(Measure(span, unit),))
    return Head(of_size(counted, size.measures, about=size.about), end)
