"""One item of `course` in, a Stage out.

    name: [LENGTH] [at T or T–T] [to T inside] [in|on PLACE] [until WORDS] [hands LENGTH]
    jar: [SIZE] [raw|hot pack] [LENGTH] [at POUNDS] [on the dial|weighted gauge] [in PLACE]

A stage that cannot be read for certain raises AmountError with its place in the text.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from generator.model.quantity import Span
from generator.model.recipe import Stage
from generator.problems import Position, nearest
from generator.read import jar_words
from generator.read.grammar import Grammar
from generator.read.measure import skip_spaces
from generator.read.number import AmountError, plain
from generator.read.temperature import find_temperature, read_point, read_temperature
from generator.read.time import read_length, unreadable_length

GRAMMAR = "Write it as: 6 h at 180–200 °F to 150 °F inside in the smoker until dark hands 20 min."
BARE_PLACES = ("pack",)
"Stages whose place may stand alone: pack: vacuum."

_KEYWORD = re.compile(r"(?:at|to|in|on|until|hands|for)(?![\w'’-])", re.IGNORECASE)
_NEXT = re.compile(r" (?=(?:at|to|until|hands)(?![\w'’-])|(?:for )?[0-9¼-¾⅐-⅞])", re.IGNORECASE)
_HANDS = re.compile(r" hands(?= *[0-9¼-¾⅐-⅞a])", re.IGNORECASE)
_INSIDE = re.compile(r" +inside(?![\w'’-])", re.IGNORECASE)
_ARTICLE = re.compile(r"(?:the|an?) ", re.IGNORECASE)
_BARE_INSIDE = re.compile(r"[0-9.]+ +inside", re.IGNORECASE)
_TO = re.compile(r" to (?=[-–]?[0-9.])", re.IGNORECASE)
_NUMBER = re.compile(r"[-–~0-9¼-¾⅐-⅞.]|(?:about|an?|half|one|two|three|four|five|six) ", re.IGNORECASE)
_OVERNIGHT = re.compile(r"over ?night(?![\w'’-])", re.IGNORECASE)


@dataclass(slots=True)
class _Reading:
    """What has been read of one stage so far."""

    name: str
    text: str
    flat: str
    grammar: Grammar
    told: dict[str, Any] = field(default_factory=dict)
    "By the field of the stage."

    def once(self, part: str, what: str, offset: int) -> None:
        """Refuse a part that was read before."""
        if part in self.told:
            raise unreadable_stage(f"The {what} stands twice.", offset)


def unreadable_stage(message: str, offset: int, hint: str = GRAMMAR) -> AmountError:
    """The refusal of a stage."""
    return AmountError("unreadable-stage", message, hint, offset)


def check_stage_name(name: str, grammar: Grammar, *, alone: bool) -> str:
    """The stage's name as the table has it, or AmountError."""
    words = " ".join(name.lower().split())
    known = grammar.tables.stages
    if words in known:
        return words
    begun = max((stage for stage in known if re.match(rf"{stage}(?:: ?| )", words)), key=len, default="")
    if alone and begun:
        rest = name.strip()[len(begun) :].lstrip(": ")
        raise unreadable_stage(
            f"A colon and a space are missing behind '{begun}'.", len(begun), f"Write {begun}: {rest}"
        )
    hint = nearest(words, known) or f"Known are {', '.join(known)}."
    raise AmountError("unknown-stage", f"'{name}' is not a stage.", hint, 0)


def parse_stage(name: str, text: str, grammar: Grammar, *, written: str, position: Position) -> Stage:
    """The stage of a known name and what stands behind its colon."""
    reading = _Reading(name, text, plain(text), grammar)
    offset = skip_spaces(reading.flat, 0)
    while offset < len(text):
        offset = skip_spaces(reading.flat, _read_part(reading, offset))
    return Stage(name=name, **reading.told, written=written, position=position)


def _read_part(reading: _Reading, offset: int) -> int:
    """Read one part of the grammar at an offset; where it ends."""
    of_jar = _read_of_jar(reading, offset) if reading.name == jar_words.NAME else None
    if of_jar is not None:
        return of_jar
    keyword = _KEYWORD.match(reading.flat, offset)
    if keyword is None:
        return _read_bare(reading, offset)
    word = keyword.group().lower()
    behind = skip_spaces(reading.flat, keyword.end())
    if word == "for":
        return _read_length(reading, behind)
    return _PARTS[word](reading, offset, behind)


def _read_of_jar(reading: _Reading, offset: int) -> int | None:
    """A part that only a jar has; None where none stands here. Commas between its parts say nothing."""
    if reading.flat[offset] == ",":
        return offset + 1
    for part, (what, read) in jar_words.PARTS.items():
        if found := read(reading.flat, offset, reading.grammar):
            reading.once(part, what, offset)
            reading.told[part], end = found
            return end
    return None


def _read_bare(reading: _Reading, offset: int) -> int:
    if _OVERNIGHT.match(reading.flat, offset):
        raise unreadable_length("overnight", offset)
    if not _NUMBER.match(reading.flat, offset):
        if reading.name in BARE_PLACES and "place" not in reading.told:
            return _read_place(reading, offset, offset)
        raise _not_understood(reading, offset)
    _refuse_bare_temperature(reading.flat, offset)
    return _read_length(reading, offset)


def _not_understood(reading: _Reading, offset: int) -> AmountError:
    rest = reading.text[offset:]
    if rest.startswith("(") and find_temperature(rest.split(")")[0]):
        return unreadable_stage(
            "A second temperature stands in brackets.", offset, "Write one; the page shows both scales."
        )
    hint = jar_words.GRAMMAR if reading.name == jar_words.NAME else GRAMMAR
    return unreadable_stage(f"'{rest.split()[0]}' was not understood.", offset, hint)


def _refuse_bare_temperature(flat: str, offset: int) -> None:
    try:
        _, end = read_point(flat, offset)
    except AmountError:
        return
    hint = f"Write 'at {flat[offset:end]}', or 'to {flat[offset:end]} inside'."
    raise unreadable_stage(f"'at' is missing before '{flat[offset:end]}'.", offset, hint)


def _read_length(reading: _Reading, offset: int) -> int:
    reading.once("minutes", "length", offset)
    minutes, end = _length_at(reading, offset, _limit(reading.flat, offset, of_length=True))
    reading.told |= {"minutes": minutes, "length_written": reading.text[offset:end].strip()}
    return end


def _length_at(reading: _Reading, offset: int, limit: int | None = None) -> tuple[Span, int]:
    found = read_length(reading.text[:limit], offset, reading.grammar)
    if found is None:
        raise unreadable_length(reading.text[offset:].split(" ")[0] or "nothing", offset)
    return found


def _limit(flat: str, offset: int, *, of_length: bool) -> int:
    """Where a range must have ended: in `at 180 to 200 °F to 165 °F inside` only the second `to` ends it.

    A length ends before any temperature, a temperature only before one that is inside.
    """
    for to in _TO.finditer(flat, offset):
        try:
            _, end = read_point(flat, to.end())
        except AmountError:
            if of_length and _BARE_INSIDE.match(flat, to.end()):
                return to.start()
            continue
        if of_length or _INSIDE.match(flat, end):
            return to.start()
    return len(flat)


def _read_at(reading: _Reading, start: int, behind: int) -> int:
    reading.once("at", "temperature", start)
    limit = _limit(reading.flat, behind, of_length=False)
    reading.told["at"], end = read_temperature(reading.flat[:limit], behind)
    if _INSIDE.match(reading.flat, end):
        raise unreadable_stage(
            "A temperature inside is what the piece comes to.", start, "Write 'to 165 °F inside'."
        )
    return end


def _read_to(reading: _Reading, start: int, behind: int) -> int:
    reading.once("inside", "inside temperature", start)
    found, end = read_temperature(reading.flat, behind)
    inside = _INSIDE.match(reading.flat, end)
    if inside is None:
        raise unreadable_stage(
            "'to' and a temperature does not say where.",
            start,
            "Write 'to 165 °F inside' for the middle of the piece, or 'at' for the air.",
        )
    if found.low != found.high:
        raise unreadable_stage("The inside temperature is one number.", behind, "Write 'to 165 °F inside'.")
    reading.told["inside"] = found.low
    return inside.end()


def _read_place(reading: _Reading, start: int, behind: int) -> int:
    reading.once("place", "place", start)
    end = _end_of_place(reading, behind)
    words = reading.text[behind:end].strip()
    if not words:
        raise unreadable_stage(f"Nothing stands behind '{reading.text[start:behind].strip()}'.", start)
    place = reading.grammar.tables.place(words)
    if place is None:
        spellings = reading.grammar.tables.place_names
        article = _ARTICLE.match(words)
        noun = words[article.end() :] if article else words
        known = sorted({place.word for place in spellings.values()})
        hint = nearest(noun, spellings) or f"Known are {', '.join(known)}."
        offset = behind + len(words) - len(noun)
        raise AmountError("unknown-place", f"'{noun}' is not a place.", hint, offset)
    reading.told |= {"place": place, "place_written": reading.text[start:end].strip()}
    return end


def _end_of_place(reading: _Reading, behind: int) -> int:
    ends = (_NEXT, jar_words.ENDS_A_PLACE) if reading.name == jar_words.NAME else (_NEXT,)
    found = [one.start() for pattern in ends if (one := pattern.search(reading.flat, behind))]
    return min(found, default=len(reading.text))


def _read_until(reading: _Reading, start: int, behind: int) -> int:
    reading.once("until", "'until'", start)
    hands = _HANDS.search(reading.flat, behind)
    end = hands.start() if hands else len(reading.text)
    words = reading.text[behind:end].strip()
    if not words:
        raise unreadable_stage("Nothing stands behind 'until'.", start)
    if find_temperature(words):
        raise unreadable_stage(
            "A temperature behind 'until' is not reckoned with.", behind, "Write 'to 165 °F inside'."
        )
    reading.told["until"] = words
    return end


def _read_hands(reading: _Reading, start: int, behind: int) -> int:
    reading.once("hands_minutes", "time of hands", start)
    reading.told["hands_minutes"], end = _length_at(reading, behind)
    return end


_PARTS: dict[str, Callable[[_Reading, int, int], int]] = {
    "at": _read_at,
    "to": _read_to,
    "in": _read_place,
    "on": _read_place,
    "until": _read_until,
    "hands": _read_hands,
}
