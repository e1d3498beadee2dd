"""The values of `cure:` in, targets and amounts out: `3 %`, `40 degrees salometer`, `150 ppm`, `22 g`.

What cannot be read for certain raises AmountError with its place in the value.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from generator.model.published import CuringSalt
from generator.model.quantity import TO_MAKE, Dimension, Measure, Quantity, Span
from generator.model.recipe import CureLine, Target, TargetKind
from generator.problems import Position, nearest
from generator.read.grammar import MEASURED, Grammar
from generator.read.measure import skip_spaces
from generator.read.number import AmountError, plain, read_span, unreadable
from generator.read.quantity import MOST_PARTS, read_amount, take_alternative, too_many_parts
from generator.read.spoon import check_letter, check_level
from generator.tables import Tables
from generator.tables.foods import unknown_crystal

SALT, SUGAR, CURING_SALT = "salt", "sugar", "curing salt"
NITRATE, ACCELERATOR = "nitrate", "accelerator"
BY_PPM = frozenset({CURING_SALT, NITRATE, ACCELERATOR})
"Lines whose target is in ppm; in a dry cure the curing salt may be so many per cent of the meat, as it is weighed."
NITRATE_KINDS = {
    "": "sodium nitrate",
    "nitrate": "sodium nitrate",
    "sodium nitrate": "sodium nitrate",
    "nitrate of soda": "sodium nitrate",
    "chile saltpetre": "sodium nitrate",
    "chile saltpeter": "sodium nitrate",
    **dict.fromkeys(
        (
            *(
                "saltpetre",
                "saltpeter",
                "salt petre",
                "salt peter",
                "salt-petre",
                "salt-peter",
                "nitre",
                "niter",
            ),
            *("potassium nitrate", "nitrate of potash", "nitrate of potassium"),
        ),
        "potassium nitrate",
    ),
}
ACCELERATORS = ("sodium erythorbate", "sodium ascorbate", "ascorbic acid", "erythorbic acid")
STATES = ("hot", "cold", "ice")
_TO_MAKE = re.compile(r" *to make +", re.IGNORECASE)
_USED = re.compile(r"\b(?:old|used|re-?used|left-?over|spent)\b", re.IGNORECASE)

_PERCENT = r"(?:%|percent|per cent)"
_MEAT_AND_WATER = r"(?:the )?meat (?:\+|and|plus) (?:the )?water"
_OF_MEAT = rf"{_PERCENT}(?: of (?:the )?(?:meat|green weight))?"
_SHARES: tuple[tuple[TargetKind, str, str], ...] = (
    (TargetKind.PERCENT, "brine", rf"{_PERCENT}(?: of {_MEAT_AND_WATER})?"),
    (TargetKind.PERCENT, "dry", _OF_MEAT),
    (TargetKind.PERCENT_OF_BRINE, "brine", rf"{_PERCENT} of (?:the )?brine"),
    (TargetKind.DEGREES, "brine", r"(?:°|º|˚|degrees?|deg\.?) ?salometer"),
)
_PPM = re.compile(r"ppm|parts per million|mg ?/ ?kg", re.IGNORECASE)
_LOOKS_LIKE_TARGET = re.compile(r"%|percent|per cent|ppm|parts|mg ?/|°|º|˚|deg", re.IGNORECASE)
_OF = re.compile(r"of +", re.IGNORECASE)
_HINTS = {
    SALT: "Write 3 %, 3 % of the brine, 40 degrees salometer, or an amount such as 240 g.",
    SUGAR: "Write 1.5 %, 1.5 % of the brine, or an amount such as 100 g.",
    CURING_SALT: "Write 150 ppm, or an amount such as 22 g.",
    NITRATE: "Write 300 ppm, or a weight and its kind: 2 oz saltpetre, 50 g sodium nitrate.",
    ACCELERATOR: "Write 500 ppm sodium erythorbate, or a weight: 3 g sodium ascorbate.",
}
_WATER_HINT = "Write a sum such as 1 qt hot + 2 qt cold + 1 lb ice."
_DRY_HINTS = {
    SALT: "Write 3 %, or an amount such as 240 g.",
    SUGAR: "Write 1.5 %, or an amount such as 100 g.",
    CURING_SALT: "Write 150 ppm, 0.25 % of the meat, or an amount such as 22 g.",
}


def parse_cure_value(
    text: str, which: str, grammar: Grammar, *, method: str = "brine", position: Position | None = None
) -> CureLine:
    """Salt, sugar or curing salt of a cure: a target, or an amount with its name. Else AmountError."""
    wanted, named = _split_name(text, which)
    target = _read_target(wanted, which, method, grammar)
    if target is not None:
        return CureLine(target=target, name=named, written=text, position=position)
    amount, name = _read_weighed(text, which, grammar)
    return CureLine(amount=amount, name=name, written=text, position=position)


def _split_name(text: str, which: str) -> tuple[str, str]:
    """The kind behind the target of a nitrate or an accelerator: `500 ppm sodium erythorbate`."""
    if which not in (NITRATE, ACCELERATOR):
        return text, ""
    kinds = NITRATE_KINDS if which == NITRATE else ACCELERATORS
    for kind in sorted((kind for kind in kinds if kind), key=len, reverse=True):
        if text.lower().rstrip().endswith(f" {kind}"):
            return text.rstrip()[: -len(kind)], kind
    return text, ""


def nitrate_kind(line: CureLine) -> str:
    """The key of the nitrate that a line weighs."""
    return NITRATE_KINDS[line.name.lower()]


def _read_target(text: str, which: str, method: str, grammar: Grammar) -> Target | None:
    """The target that a text is; None where it may be an amount."""
    flat = plain(text)
    start = skip_spaces(flat, 0)
    number = read_span(flat, start, grammar.language)
    if number is None:
        return None
    span, end = number
    rest = flat[end:].strip()
    # A number without a sign of a share is left to the reader of amounts, which says what is missing.
    if not _LOOKS_LIKE_TARGET.match(rest):
        return None
    kind = _target_kind(rest, which, method)
    hint = _DRY_HINTS.get(which, _HINTS[which]) if method == "dry" else _HINTS[which]
    if kind is None:
        raise AmountError(
            "wrong-value",
            f"'{text.strip()}' is no target for the {which} of a {'dry cure' if method == 'dry' else 'brine'}.",
            hint,
            skip_spaces(flat, end),
        )
    most = {TargetKind.PPM: None, TargetKind.DEGREES: 100}.get(kind, 99)
    if span.is_range or span.low <= 0 or (most is not None and span.low > most):
        raise AmountError("wrong-value", f"'{flat[start:end]}' is not one number in range.", hint, start)
    return Target(kind=kind, value=span.low)


def _target_kind(rest: str, which: str, method: str) -> TargetKind | None:
    if which == CURING_SALT and method == "dry" and re.fullmatch(_OF_MEAT, rest, re.IGNORECASE):
        return TargetKind.PERCENT
    if which in BY_PPM:
        return TargetKind.PPM if _PPM.fullmatch(rest) else None
    for kind, of_method, pattern in _SHARES:
        if method == of_method and re.fullmatch(pattern, rest, re.IGNORECASE):
            # A salometer tells salt alone.
            return None if kind is TargetKind.DEGREES and which == SUGAR else kind
    return None


def _read_weighed(text: str, which: str, grammar: Grammar) -> tuple[Quantity, str]:
    """One certain amount by weight or volume, and the name behind it."""
    flat = plain(text)
    level = _NOT_LEVEL.sub("", flat, count=1).strip()
    check_level(flat, which, f"Weigh it and write the grams, or level it off and write `{which}: {level}`.")
    if which in (CURING_SALT, NITRATE):
        check_letter(flat, which)
    # A level spoon is how every spoon is meant.
    text = _LEVEL.sub("", flat, count=1)
    found = read_amount(text, 0, grammar)
    if found is None:
        raise unreadable(f"'{text.strip()}' is not an amount.", _HINTS[which], 0)
    quantity, end = found
    start = skip_spaces(plain(text), end)
    if of := _OF.match(text, start):
        start = of.end()
    taken, name = take_alternative(quantity, text[start:].strip(), start, grammar)
    quantity, name = taken or quantity, " ".join(name.split())
    _check_certain(quantity, which, name, start, grammar)
    if which == CURING_SALT:
        return quantity, _named_kind(quantity, name, start, grammar)
    if which in (NITRATE, ACCELERATOR):
        return quantity, _known_chemical(quantity, which, name, start)
    return quantity, _known_by_volume(quantity, which, name, start, grammar)


_KIND_BEHIND = re.compile(r"(?P<what>salt|sugar)(?:, ?| ?\()(?P<kind>[^(),]{1,40})\)?", re.IGNORECASE)
"`salt, kosher` and `salt (kosher)`: kosher salt."
_LEVEL = re.compile(r"(?<! ) (?:level|levell?ed|even)(?= [a-z])", re.IGNORECASE)
_NOT_LEVEL = re.compile(
    r"(?<! ) (?:heap(?:ing|ed)|round(?:ed|ing)|scant|generous|brimming)(?= [a-z])", re.IGNORECASE
)


def _named_kind(quantity: Quantity, name: str, start: int, grammar: Grammar) -> str:
    """The kind behind an amount of curing salt: `2 tsp cure no. 1`. A colour names none, and has a line of its own."""
    if name.lower() in ("", CURING_SALT):
        return ""
    if grammar.tables.curing_salt(name) is None:
        raise unreadable(
            f"'{name}' behind the amount is not read: a curing salt is known by its number or its nitrite.",
            f"Write `{CURING_SALT}: {quantity.written}` and in a line below it `kind of curing salt: no. 1`, "
            "or what its label says.",
            start,
        )
    return name


def _known_chemical(quantity: Quantity, which: str, name: str, start: int) -> str:
    """Accelerators are weighed, nitrates may come by the spoon; both are named by one of the known names."""
    kinds = {measure.unit.dimension for measure in quantity.measures}
    by_spoon = which == NITRATE and kinds == {Dimension.VOLUME}
    if quantity.total(Dimension.WEIGHT) is None and not by_spoon:
        raise AmountError("wrong-dimension", f"'{quantity.written}' is not a weight.", _HINTS[which], 0)
    known = NITRATE_KINDS if which == NITRATE else ACCELERATORS
    if name.lower() not in known:
        raise unreadable(f"'{name}' is no {which} that is known.", _HINTS[which], start)
    return name.lower()


def _check_certain(quantity: Quantity, which: str, name: str, start: int, grammar: Grammar) -> None:
    kinds = {measure.unit.dimension for measure in quantity.measures}
    if quantity.is_vague or (quantity.about and which == CURING_SALT):
        raise unreadable(f"'{quantity.written}' is not weighed.", _HINTS[which], 0)
    if any(measure.span.is_range for measure in (*quantity.measures, *quantity.alternative)):
        raise unreadable(f"'{quantity.written}' is a range.", "Write the one amount that goes in.", 0)
    if not kinds <= set(MEASURED):
        near = grammar.near_unit(name.split()[0]) if name else ""
        if near:
            raise AmountError(
                "unknown-unit", f"'{name.split()[0]}' is not a unit.", f"Did you mean '{near}'?", start
            )
        raise AmountError(
            "wrong-dimension", f"'{quantity.written}' is neither a weight nor a volume.", _HINTS[which], 0
        )


def _known_by_volume(quantity: Quantity, which: str, name: str, start: int, grammar: Grammar) -> str:
    """The name of a salt or sugar; where it is measured by volume, one whose weight is known."""
    kinds = {measure.unit.dimension for measure in quantity.measures}
    if Dimension.VOLUME not in kinds or quantity.total(Dimension.WEIGHT) is not None:
        return name
    if name.lower() in ("", which):
        return name
    tables = grammar.tables
    kind_behind = _KIND_BEHIND.fullmatch(name)
    spellings = [name, f"{name} {which}"]
    if kind_behind:
        spellings.append(f"{kind_behind['kind']} {kind_behind['what']}")
    for spelling in spellings:
        bare_salt = which == SALT and tables.is_bare_salt(spelling)
        if spelling.lower() in grammar.own_weights or bare_salt or tables.loose_or_packed(spelling):
            return spelling
        if tables.food(spelling) and not tables.is_bare_salt(spelling):
            return spelling
    if which == SALT:
        message, hint = unknown_crystal(f"{quantity.written} {name}", tables.salt_grams(quantity, SALT))
        raise AmountError("unknown-crystal", message, hint, start)
    raise AmountError(
        "wrong-dimension", f"The weight of '{quantity.written} {name}' is not known.", "Weigh it.", start
    )


def parse_water(text: str, grammar: Grammar) -> Quantity:
    """The sum of hot, cold and frozen water, or AmountError. Ice has to be weighed."""
    used = _USED.search(plain(text))
    if used and "brine" in text.lower():
        raise _used_brine(text, used.start())
    if made := _TO_MAKE.match(text):
        return _read_to_make(text, made.end(), grammar)
    terms = text.replace("＋", "+").split("+")
    if len(terms) > MOST_PARTS:
        raise too_many_parts(0)
    measures: list[Measure] = []
    found: list[Quantity] = []
    offset = 0
    for term in terms:
        try:
            quantity, state = _read_water_term(term, grammar)
        except AmountError as error:
            raise error.moved(offset) from None
        measures += [replace(measure, state=state) for measure in quantity.measures]
        found.append(quantity)
        offset += len(term) + 1
    alternative = found[0].alternative if len(found) == 1 else ()
    about = any(quantity.about for quantity in found)
    return Quantity(measures=tuple(measures), alternative=alternative, about=about, written=text.strip())


def _read_to_make(text: str, start: int, grammar: Grammar) -> Quantity:
    """`to make 6 gal`: the volume of the finished brine; how much water that takes is worked out."""
    try:
        quantity, _ = _read_water_term(text[start:], grammar)
    except AmountError as error:
        raise error.moved(start) from None
    if quantity.total(Dimension.VOLUME) is None:
        raise AmountError(
            "wrong-dimension", f"'{quantity.written}' is not a volume.", "Write to make 6 gal.", start
        )
    measures = tuple(replace(measure, state=TO_MAKE) for measure in quantity.measures)
    return Quantity(measures=measures, about=quantity.about, written=text.strip())


def _read_water_term(term: str, grammar: Grammar) -> tuple[Quantity, str]:
    """One summand: an amount, and hot, cold or ice."""
    start = skip_spaces(plain(term), 0)
    if term.strip().lower() == "ice":
        # Thrown in unweighed: nothing for the limit, and an unknown lot for the strength.
        unweighed = Measure(Span.of(0), grammar.tables.units["gram"])
        return Quantity(measures=(unweighed,), written="ice"), "ice"
    found = read_amount(term, 0, grammar)
    if found is None:
        raise unreadable(f"'{term.strip()}' is not an amount of water.", _WATER_HINT, start)
    quantity, end = found
    words = term[end:].split()
    at = skip_spaces(plain(term), end)
    if words[:1] == ["of"]:
        words = words[1:]
    state = words[0].lower() if words and words[0].lower() in STATES else ""
    behind = [word.lower() for word in (words[1:] if state else words)]
    if behind not in ([], ["water"]) or (state == "ice" and behind):
        raise unreadable(f"'{' '.join(words)}' behind the water cannot be read.", _WATER_HINT, at)
    kinds = {measure.unit.dimension for measure in quantity.measures}
    if quantity.is_vague or not kinds <= set(MEASURED):
        raise AmountError(
            "wrong-dimension", f"'{quantity.written}' is neither a weight nor a volume.", _WATER_HINT, start
        )
    if any(measure.span.is_range for measure in quantity.measures):
        raise unreadable(f"'{quantity.written}' is a range.", "Write the one amount that goes in.", start)
    if state == "ice" and kinds != {Dimension.WEIGHT}:
        raise AmountError(
            "wrong-dimension", "A volume of ice holds an unknown lot of air.", "Weigh it: 1 lb ice.", start
        )
    return quantity, state


def _used_brine(text: str, offset: int) -> AmountError:
    """Nobody knows what it still holds, and it carries what the meat left in it."""
    return AmountError(
        "reused-brine",
        f"'{text.strip()}': brine that has held meat is not used again.",
        "Mix fresh brine: write the water that goes in (Michigan R 285.569.5: do not re-use brine).",
        offset,
    )


def parse_strength(text: str, *, language: str) -> Target:
    """A brine's strength by itself: `40deg`, `40 degrees salometer`, `10.5 %`. Else AmountError."""
    flat = plain(text)
    start = skip_spaces(flat, 0)
    number = read_span(flat, start, language)
    rest = flat[number[1] :].strip() if number else ""
    percent = re.fullmatch(rf"{_PERCENT}(?: of (?:the )?brine)?", rest, re.IGNORECASE)
    degrees = re.fullmatch(r"(?:°|º|˚|degrees?|degs?\.?)(?: ?salometer)?", rest, re.IGNORECASE)
    if number is None or not (percent or degrees) or number[0].is_range or number[0].low < 0:
        raise AmountError(
            "wrong-value",
            f"'{text.strip()}' is not the strength of a brine.",
            "Write 40deg (degrees salometer) or 10.5%.",
            start,
        )
    return Target(kind=TargetKind.DEGREES if degrees else TargetKind.PERCENT_OF_BRINE, value=number[0].low)


def parse_pump(text: str, language: str) -> Fraction:
    """The share of the green weight that is injected, per cent."""
    flat = plain(text)
    start = skip_spaces(flat, 0)
    found = read_span(flat, start, language)
    rest = flat[found[1] :].strip() if found else ""
    if found is None or not re.fullmatch(_OF_MEAT, rest):
        raise AmountError("wrong-value", f"'{text.strip()}' is not a share of the meat.", "Write 8 %.", start)
    span = found[0]
    if span.is_range or not 0 < span.low <= 100:
        raise AmountError("wrong-value", f"'{text.strip()}' is not one number in range.", "Write 8 %.", start)
    return span.low


def find_kind(name: str, tables: Tables, own: tuple[CuringSalt, ...]) -> CuringSalt:
    """A curing salt by a name of the published table or of the book, or AmountError."""
    words = " ".join(name.lower().split())
    for salt in own:
        if words in salt.names:
            return salt
    published = tables.curing_salt(name)
    if published is not None:
        return published
    known = [salt.key for salt in (*own, *tables.curing_salts)]
    hint = (
        nearest(words, known)
        or f"Known are {', '.join(known)}; others go into book.yaml under 'curing salts'."
    )
    raise AmountError("unknown-curing-salt", f"'{name}' is not a curing salt that is known.", hint, 0)
