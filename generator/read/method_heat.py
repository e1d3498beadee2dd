"""Words of a method in, how hot the air is and how hot the middle gets out: `in a 350° oven`, `until it reads 165 °F`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from generator.english.degrees import degrees_at, scale_of
from generator.model.quantity import Temperature, TemperatureRange
from generator.read import method_words as words
from generator.read.grammar import Grammar
from generator.read.number import plain

NEAR = 90
"Characters before a number that say of what it is. Source: house; a line."
WATER_BOILS_F = Fraction(212)
"[degF] Nothing that holds water gets hotter inside. Source: a definition."
INSIDE_F, AIR_F = (Fraction(95), Fraction(212)), (Fraction(140), Fraction(550))
"[degF] Between these a number without a sign is a temperature. Source: house choice."
INSIDE_C, AIR_C = (Fraction(45), Fraction(100)), (Fraction(110), Fraction(280))
"[degC] Source: as INSIDE_F."


@dataclass(frozen=True, slots=True, kw_only=True)
class Heats:
    """The temperatures of one stage."""

    at: TemperatureRange | None = None
    inside: Temperature | None = None


def find_heats(text: str, grammar: Grammar, *, heats: bool, of_room: bool = False) -> Heats:
    """The first temperature of the air and the last one inside; `heats`: the stage brings the middle to one."""
    flat = plain(text)
    at: TemperatureRange | None = None
    inside: Temperature | None = None
    end = 0
    for number in _NUMBERS.finditer(flat):
        if number.start() < end:
            continue
        before = flat[max(0, number.start() - NEAR) : number.start()]
        found = _read(flat, number.start(), grammar)
        if found is None:
            continue
        value, end = found
        behind = flat[end : end + NEAR]
        again = _AGAIN.match(flat, end)
        end = again.end() if again is not None else end
        if value is None or words.NO_POINT_BEFORE.search(before):
            continue
        if not of_room and _is_inside(before, behind, value, heats=heats):
            inside = value.low
        elif at is None and (of_room or words.AT_BEFORE.search(before)) and not _is_of_piece(before):
            at = value
    return Heats(at=at, inside=inside)


_NUMBERS = re.compile(r"(?<![\w.,/°–])-?[0-9]{1,3}(?![0-9.,/]*[0-9])")


def _read(text: str, start: int, grammar: Grammar) -> tuple[TemperatureRange | None, int] | None:
    """A temperature, or one that the book's own scale makes unmistakable, and where it ends; of a change only its end."""
    scale = scale_of(grammar.system)
    told = degrees_at(text, start, scale=scale)
    if told is not None:
        return (None if told.is_change or told.falls else told.at), told.end
    found = _RANGE.match(text, start)
    if found is None or words.IN_DEGREES.match(text, found.end()):
        return None
    low, high = Fraction(found["low"]), Fraction(found["high"] or found["low"])
    before, behind = text[max(0, start - NEAR) : start], text[found.end() : found.end() + NEAR]
    if high < low or not _is_plain(before, behind, low, high, scale):
        return None
    return TemperatureRange(Temperature(low, scale), Temperature(high, scale)), found.end()


_AGAIN = re.compile(r" ?(?:[(/]|or )\s?-?[0-9]{1,3} ?[°º˚]? ?[CF]\b\)?", re.IGNORECASE)
"The same in the other scale."
_RANGE = re.compile(r"-?(?P<low>[0-9]{1,3})(?: ?(?:-|–|to) ?(?P<high>[0-9]{1,3}))?(?![0-9.,/]*[0-9])")


def _is_plain(before: str, behind: str, low: Fraction, high: Fraction, scale: str) -> bool:
    """`until it reaches 165`, `roast at 350 for an hour`, `in a 350 oven`."""
    inside, air = (INSIDE_F, AIR_F) if scale == "F" else (INSIDE_C, AIR_C)
    if not (
        words.BARE_AT_BEHIND.match(behind) or _ROOM_BEHIND.match(behind) or words.INSIDE_BEHIND.match(behind)
    ):
        return False
    is_inside = words.INSIDE_BEHIND.match(behind) or _UNTIL.search(before)
    if is_inside or words.UNTIL_BEFORE.search(before) or words.INTERNAL_BEFORE.search(before):
        return inside[0] <= low <= high <= inside[1]
    is_room = words.OVEN.search(before) or words.SMOKER.search(before)
    if words.AT_BEFORE.search(before) or (words.TO_BEFORE.search(before) and is_room):
        return air[0] <= low <= high <= air[1]
    return False


_UNTIL = re.compile(r"\b(?:until|till?) (?:about |around )?$", re.IGNORECASE)
_ROOM_BEHIND = re.compile(r"[ -](?:oven|smoker|grill|pit|smokehouse)\b", re.IGNORECASE)


def _is_inside(before: str, behind: str, value: TemperatureRange, *, heats: bool) -> bool:
    if value.high.fahrenheit > WATER_BOILS_F:
        return False
    if words.INSIDE_BEHIND.match(behind) or words.INTERNAL_BEFORE.search(before):
        return True
    if words.READS_BEFORE.search(before):
        return heats
    until = words.UNTIL_BEFORE.search(before)
    if until is not None:
        return heats and words.NOT_THE_PIECE.search(until["what"]) is None
    return heats and words.TO_BEFORE.search(before) is not None and words.WARMS_ROOM.search(before) is None


def _is_of_piece(before: str) -> bool:
    return words.UNTIL_BEFORE.search(before) is not None
