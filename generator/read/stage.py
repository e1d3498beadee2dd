"""One item of `course` in, a Stage out.

    name: [LENGTH] [at T or T–T] [to T inside[, held LENGTH]] [in|on PLACE] [until WORDS] [hands LENGTH]
    jar: [SIZE] [raw|hot pack] [LENGTH] [at POUNDS] [on the dial|weighted gauge] [in PLACE]

Words without a number that are none of these stay beside it: gently, with the lid on. A stage that cannot be read for
certain raises AmountError with its place in the text.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from generator.model.quantity import Span, Temperature, TemperatureRange
from generator.model.recipe import Stage
from generator.problems import Position
from generator.read import jar_words
from generator.read.grammar import Grammar
from generator.read.measure import skip_spaces
from generator.read.method_heat import WATER_BOILS_F
from generator.read.method_words import NOT_THE_PIECE
from generator.read.number import AmountError, plain
from generator.read.place import PlaceFound, Unplaced, find_place, read_place
from generator.read.stage_name import StageName, settled
from generator.read.temperature import find_temperature, read_point, read_temperature
from generator.read.time import read_length, read_told, unreadable_length

GRAMMAR = "Write it as: 6 h at 180–200 °F to 150 °F inside in the smoker until dark hands 20 min."
BARE_PLACES = ("pack",)
"Stages whose place may stand alone: pack: vacuum. Of them the vessel counts, of others the room."
VESSELS = frozenset({"bag", "vacuum", "jar", "crock", "pot", "pan", "rack", "bowl"})
"Places that stand in another. Source: words of the trade."

_KEYWORD = re.compile(r"(?:at|to|in|on|until|hands|for)(?![\w'’-])", re.IGNORECASE)
_NEXT = re.compile(
    r"[,;]| (?=(?:at|to|in|on|until|hands|with|and|or until|chang(?:ed|ing)|turn(?:ed|ing)|(?:un)?covered|wrapped)"
    r"(?![\w'’-])|(?:for )?[0-9¼-¾⅐-⅞])",
    re.IGNORECASE,
)
_HANDS = re.compile(r" hands(?= *[0-9¼-¾⅐-⅞a])", re.IGNORECASE)
_INSIDE = re.compile(
    r" +(?:inside|internal(?:ly)?|in the (?:middle|cent(?:er|re)))(?![\w'’-])", re.IGNORECASE
)
_BARE_INSIDE = re.compile(r"[0-9.]+ +(?:inside|internal)", re.IGNORECASE)
_TO = re.compile(r" to (?=[-–]?[0-9.])", re.IGNORECASE)
_NUMBER = re.compile(r"[-–~0-9¼-¾⅐-⅞.]|(?:about|an?|half|one|two|three|four|five|six) ", re.IGNORECASE)
_BETWEEN = re.compile(
    r"[,;] *(?:(?:and|or) (?=until ))?|(?:and|or) (?=until )|and (?=then |(?:at|to|in|on) )", re.IGNORECASE
)
"Says nothing between two parts."
_ROOM = re.compile(r"(?:at )?(?P<room>room temp(?:erature)?\.?)(?![\w'’-])", re.IGNORECASE)
_WORDS_END = re.compile(
    r"[,;]| (?=(?:(?:at|to|in|on|until|for|hands)(?![\w'’-])|[-–~]?[0-9¼-¾⅐-⅞.]))", re.IGNORECASE
)
"Where words beside the grammar end."
_TELLS = re.compile(
    r"[0-9¼-¾⅐-⅞°º˚℉℃(]|(?<![\w'’-])(?:inside|internal\w*|degrees?|temp\w*|room|over ?night|nights?|morning|"
    r"seconds?|sec|minutes?|mins?|hours?|hrs?|days?|weeks?|months?|years?|a while|half|fahrenheit|celsius)"
    r"(?![\w'’-])",
    re.IGNORECASE,
)
"What words beside the grammar may not hold: it would tell a time or a heat that nobody reckons with."
_BY = re.compile(r"(?:through|with|without|from) ", re.IGNORECASE)
"What stands behind is no place where it is: through a jelly bag, from the freezer."
_LETTERS = re.compile(r"[^\W\d_][\w '’&./-]*", re.IGNORECASE)


@dataclass(slots=True)
class _Reading:
    """What has been read of one stage so far."""

    name: str
    text: str
    flat: str
    grammar: Grammar
    called: str = ""
    "Its author's own word."
    told: dict[str, Any] = field(default_factory=dict)
    "By the field of the stage."

    def once(self, part: str, what: str, offset: int) -> None:
        """Refuse a part that was read before."""
        if part in self.told:
            raise unreadable_stage(f"The {what} stands twice.", offset)


def unreadable_stage(message: str, offset: int, hint: str = GRAMMAR) -> AmountError:
    """The refusal of a stage."""
    return AmountError("unreadable-stage", message, hint, offset)


def parse_stage(named: StageName, text: str, grammar: Grammar, *, written: str, position: Position) -> Stage:
    """The stage of a known name and what stands behind its colon."""
    reading = _Reading(named.name, text, plain(text), grammar, named.called)
    offset = skip_spaces(reading.flat, 0)
    while offset < len(text):
        offset = skip_spaces(reading.flat, _read_part(reading, offset))
    told = {"place": named.place, **reading.told}
    stage = Stage(name=named.name, called=named.called, **told, written=written, position=position)
    return settled(stage, text)


def _read_part(reading: _Reading, offset: int) -> int:
    """Read one part of the grammar at an offset; where it ends."""
    between = _BETWEEN.match(reading.flat, offset)
    comes_to = _inside_in_words(reading, offset)
    if comes_to is not None:
        return comes_to
    if between is not None and between.end() < len(reading.flat):
        return between.end()
    of_jar = _read_of_jar(reading, offset) if reading.name == jar_words.NAME else None
    if of_jar is not None:
        return of_jar
    room = _ROOM.match(reading.flat, offset)
    if room is not None:
        return _read_room(reading, offset, room.end())
    keyword = _KEYWORD.match(reading.flat, offset)
    if keyword is None or _begins_length(reading, offset):
        return _read_bare(reading, offset)
    word = keyword.group().lower()
    behind = skip_spaces(reading.flat, keyword.end())
    if word == "for":
        is_hold = "minutes" in reading.told and _BEHIND_INSIDE.search(
            reading.flat, max(0, offset - 12), offset
        )
        return _read_hold(reading, behind) if is_hold else _read_length(reading, behind)
    return _PARTS[word](reading, offset, behind)


_COMES_TO = re.compile(
    r"(?:to|until)(?P<words>(?: (?:it|they|the [a-z]+(?: (?:part|of the [a-z]+))?|an?|is|are|at|about|least|"
    r"reach(?:es)?|reads?|registers?|hits?|shows?|comes? to|internal(?:ly)?|inside|temp(?:erature)?|of)){0,8}) (?=[0-9])",
    re.IGNORECASE,
)
_MEASURED = re.compile(
    r"internal|inside|reach|reads?\b|register|hits?\b|comes? to|thermometer", re.IGNORECASE
)


def _inside_in_words(reading: _Reading, start: int) -> int | None:
    """`until it reaches 165 °F`, `to an internal temperature of 165 °F`; None where nothing says that it is the middle."""
    comes = _COMES_TO.match(reading.flat, start)
    if comes is None or NOT_THE_PIECE.search(comes["words"]):
        return None
    try:
        found, end = read_temperature(reading.flat, comes.end())
    except AmountError:
        return None
    inside = _INSIDE.match(reading.flat, end)
    is_told = inside is not None and comes.group().lower().startswith("until")
    hotter = found.high.fahrenheit > WATER_BOILS_F
    if hotter or found.low != found.high or not (is_told or _MEASURED.search(comes["words"])):
        return None
    reading.once("inside", "inside temperature", start)
    reading.told["inside"] = found.low
    return inside.end() if inside is not None else end


_BEHIND_INSIDE = re.compile(r"(?:inside|internal|internally|middle|center|centre),? ?$", re.IGNORECASE)


def _read_hold(reading: _Reading, offset: int) -> int:
    """`4 h at 200 °F to 160 °F inside for 30 min`: behind a length and the middle, another one is how long it is held."""
    _, end = _length_at(reading, offset)
    _keep_words(reading, f"held {reading.text[offset:end].strip()}")
    return end


def _read_of_jar(reading: _Reading, offset: int) -> int | None:
    """A part that only a jar has; None where none stands here."""
    for part, (what, read) in jar_words.PARTS.items():
        if found := read(reading.flat, offset, reading.grammar):
            reading.once(part, what, offset)
            reading.told[part], end = found
            return end
    return None


def _read_bare(reading: _Reading, offset: int) -> int:
    if _begins_length(reading, offset):
        return _read_length(reading, offset)
    if not _NUMBER.match(reading.flat, offset):
        if reading.name in BARE_PLACES and "place" not in reading.told and _is_place(reading, offset):
            return _read_place(reading, offset, offset)
        return _read_words(reading, offset)
    hot = _air_that_is_bare(reading, offset)
    return hot if hot is not None else _read_length(reading, offset)


def _begins_length(reading: _Reading, offset: int) -> bool:
    """A length in words: overnight, a week, at least three days."""
    return reading.flat[offset].isalpha() and read_told(reading.flat[offset:], reading.grammar) is not None


def _is_place(reading: _Reading, offset: int) -> bool:
    """`vacuum`; or a word that is near one, or names the jars."""
    words = reading.flat[offset : _end_of_words(reading, offset)]
    try:
        return isinstance(read_place(words, reading.grammar), PlaceFound)
    except AmountError as error:
        return bool(error.hint) and not error.hint.startswith("Known")


def _end_of_words(reading: _Reading, offset: int) -> int:
    end = _WORDS_END.search(reading.flat, offset)
    return end.start() if end is not None else len(reading.flat)


_UP_TO = re.compile(r"up to (?P<length>[^,;]+)", re.IGNORECASE)


_EACH = re.compile(
    r" (?:(?:on|for|to|per|a|an|each|every|by)(?: each| every| the| one)? "
    r"(?:sides?|pounds?|lbs?|kg|kilos?|inch|batch)|each)"
    r"(?![\w'’-])",
    re.IGNORECASE,
)
"Behind a length that is not that of the stage: 3 min a side, 20 min to the pound."
_BESIDE = re.compile(
    r"(?<!\w)(?:(?:and )?(?:held?|hold(?:ing)?)|(?:[^\W\d_]+ ){0,3}(?:every|once an?|twice an?|times an?)) [^,;°]+",
    re.IGNORECASE,
)
_BESIDE_ENDS = re.compile(r" (?=(?:at|to|in|on|until|hands) )", re.IGNORECASE)
"Times that are told beside the length: held 30 min, turning every 10 min."


def _read_words(reading: _Reading, offset: int) -> int:
    """Words beside the grammar: they are kept where nothing in them tells a time, a heat or a place."""
    most = _UP_TO.match(reading.flat, offset)
    told = read_told(most["length"], reading.grammar) if most is not None else None
    if most is not None and told is not None:
        length = most["length"][: told[1]].strip()
        hint = f"Write {length}, or the shortest and the longest, such as 1–2 days."
        raise AmountError(
            "unreadable-time", f"'up to {length}' does not say how long at least.", hint, offset
        )
    beside = _BESIDE.match(reading.flat, offset)
    if beside is not None:
        until = _BESIDE_ENDS.search(reading.flat, offset, beside.end())
        end = until.start() if until is not None else beside.end()
        _keep_words(reading, reading.text[offset:end].strip().removeprefix("and "))
        return end
    end = _end_of_words(reading, offset)
    words = reading.text[offset:end].strip()
    if not _BY.match(words) and find_place(words, reading.grammar):
        hint = (
            f"Write 'in the {words}'."
            if reading.grammar.tables.place(words)
            else "Write one place: in the fridge."
        )
        raise unreadable_stage(f"'{words}' names a place.", offset, hint)
    of_jar = reading.name == jar_words.NAME and reading.grammar.begins_with_measure(words)
    if of_jar or not _LETTERS.fullmatch(words) or _TELLS.search(words):
        raise _not_understood(reading, offset)
    _keep_words(reading, words)
    return end


def _keep_words(reading: _Reading, words: str) -> None:
    before = reading.told.get("words", "")
    reading.told["words"] = f"{before}, {words}" if before else words


def _read_room(reading: _Reading, start: int, end: int) -> int:
    """`at room temperature` is out of the cold, wherever that is."""
    reading.once("place", "place", start)
    reading.told |= {"place": "counter", "place_written": "at room temperature"}
    return end


def _air_that_is_bare(reading: _Reading, offset: int) -> int | None:
    """`bake: 350 °F for 1 h`: hotter than anything gets inside, it is the air. None where no temperature stands."""
    try:
        at, end = read_temperature(reading.flat, offset)
    except AmountError:
        _refuse_bare_temperature(reading.flat, offset)
        return None
    if at.low.fahrenheit <= WATER_BOILS_F or "at" in reading.told:
        _refuse_bare_temperature(reading.flat, offset)
    reading.told["at"] = at
    return end


def _not_understood(reading: _Reading, offset: int) -> AmountError:
    rest = reading.text[offset:]
    if rest.startswith("(") and find_temperature(rest.split(")")[0]):
        return unreadable_stage(
            "A second temperature stands in brackets.", offset, "Write one; the page shows both scales."
        )
    hint = jar_words.GRAMMAR if reading.name == jar_words.NAME else GRAMMAR
    return unreadable_stage(f"'{(rest.split() or [rest])[0]}' was not understood.", offset, hint)


def _refuse_bare_temperature(flat: str, offset: int) -> None:
    try:
        _, end = read_point(flat, offset)
    except AmountError:
        return
    hint = f"Write 'at {flat[offset:end]}', or 'to {flat[offset:end]} inside'."
    raise unreadable_stage(f"'at' is missing before '{flat[offset:end]}'.", offset, hint)


def _read_length(reading: _Reading, offset: int) -> int:
    minutes, end = _length_at(reading, offset, _limit(reading.flat, offset, of_length=True))
    each = _EACH.match(reading.flat, end)
    if each is not None:
        _keep_words(reading, reading.text[offset : each.end()])
        return each.end()
    reading.once("minutes", "length", offset)
    reading.told |= {"minutes": minutes, "length_written": reading.text[offset:end].strip()}
    return end


def _length_at(reading: _Reading, offset: int, limit: int | None = None) -> tuple[Span, int]:
    told = read_told(reading.flat[offset:limit], reading.grammar)
    if told is not None:
        return told[0], offset + told[1]
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
    if _says_no_number(reading, behind):
        return _read_words(reading, start)
    reading.once("at", "temperature", start)
    limit = _limit(reading.flat, behind, of_length=False)
    try:
        reading.told["at"], end = read_temperature(reading.flat[:limit], behind)
    except AmountError:
        _refuse_bare_number(reading.flat, behind)
        raise
    inside = _INSIDE.match(reading.flat, end)
    if inside is not None and reading.called == "hold" and "inside" not in reading.told:
        reading.told["inside"] = _one_point(reading.told.pop("at"), behind)
        return inside.end()
    if inside is not None:
        raise unreadable_stage(
            "A temperature inside is what the piece comes to.", start, "Write 'to 165 °F inside'."
        )
    return end


def _says_no_number(reading: _Reading, behind: int) -> bool:
    """`at a simmer`, `to a thread`: words, where a temperature could stand."""
    rest = reading.flat[behind:]
    return bool(rest) and rest[0].isalpha()


_BARE = re.compile(
    r"(?P<number>[0-9]{2,3}(?: ?[-–] ?[0-9]{2,3})?)(?: ?(?:[°º˚]|degrees?|deg\.?))?"
    r"(?! ?[FC](?![a-z])| to [0-9])(?= *(?:$|[,;a-z]))",
    re.IGNORECASE,
)


def _refuse_bare_number(flat: str, offset: int) -> None:
    """`at 350`: both scales are asked about."""
    bare = _BARE.match(flat, offset)
    if bare is not None:
        number = bare["number"]
        hint = f"Write at {number} °F, or at {number} °C."
        raise AmountError("unreadable-temperature", f"'{bare.group().strip()}' has no scale.", hint, offset)


def _read_to(reading: _Reading, start: int, behind: int) -> int:
    room = _ROOM.match(reading.flat, behind)
    if room is not None and reading.name == "cool":
        reading.told["until"] = f"at {room['room']}"
        return room.end()
    if _says_no_number(reading, behind):
        return _read_words(reading, start)
    reading.once("inside", "inside temperature", start)
    found, end = read_temperature(reading.flat, behind)
    inside = _INSIDE.match(reading.flat, end)
    if inside is None:
        raise unreadable_stage(
            "'to' and a temperature does not say where.",
            start,
            "Write 'to 165 °F inside' for the middle of the piece, or 'at' for the air.",
        )
    reading.told["inside"] = _one_point(found, behind)
    return inside.end()


def _one_point(found: TemperatureRange, offset: int) -> Temperature:
    if found.low != found.high:
        raise unreadable_stage("The inside temperature is one number.", offset, "Write 'to 165 °F inside'.")
    return found.low


def _read_place(reading: _Reading, start: int, behind: int) -> int:
    end = _end_of_place(reading, behind)
    written = reading.text[behind:end].strip(" ,;")
    if not written:
        raise unreadable_stage(f"Nothing stands behind '{reading.text[start:behind].strip()}'.", start)
    try:
        found = read_place(written, reading.grammar)
    except AmountError as error:
        raise error.moved(behind) from None
    whole = reading.text[start:end].strip(" ,;")
    if isinstance(found, Unplaced):
        _keep_words(reading, whole)
        return end
    if reading.told.get("place"):
        return _second_place(reading, start, end, found, whole)
    reading.told |= {"place": found.word, "place_written": whole}
    return end


def _second_place(reading: _Reading, start: int, end: int, found: PlaceFound, whole: str) -> int:
    """`in bags in the fridge`: a vessel stands in a room, and the room says how cold it is."""
    before, is_first = reading.told["place"], reading.told["place"] in VESSELS
    if is_first == (found.word in VESSELS):
        raise unreadable_stage("The place stands twice.", start)
    keeps = reading.name in BARE_PLACES
    room = found.word if is_first else before
    vessel = before if is_first else found.word
    reading.told |= {
        "place": vessel if keeps else room,
        "place_written": f"{reading.told['place_written']} {whole}",
    }
    return end


def _end_of_place(reading: _Reading, behind: int) -> int:
    """The longest spelling of a place that stands here; else where another part begins."""
    ends = (_NEXT, jar_words.ENDS_A_PLACE) if reading.name == jar_words.NAME else (_NEXT,)
    found = sorted({one.start() for pattern in ends for one in pattern.finditer(reading.flat, behind)})
    found.append(len(reading.text))
    spelled = [end for end in found if reading.grammar.tables.place(reading.text[behind:end].strip(" .,;"))]
    return max(spelled, default=found[0])


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
