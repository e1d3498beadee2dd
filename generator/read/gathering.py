"""One file of `gatherings/` in, a Gathering out; None where the file has an error."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, timezone
from fractions import Fraction
from zoneinfo import ZoneInfo

from generator.model.gathering import Dish, Gathering, Guests, OnHand
from generator.model.moment import Moment
from generator.problems import ProblemLog
from generator.read.grammar import Grammar
from generator.read.ingredient_line import LINK, parse_ingredient, read_link
from generator.read.keys import Behind, Block, Holds, Key
from generator.read.moment import parse_moment
from generator.read.number import AmountError
from generator.read.recipe import DRAFT, NAME, SUMMARY
from generator.read.record import Reading, read_record
from generator.read.source import SourceFile
from generator.read.text import Text
from generator.read.values import MOST_DIGITS, Value, bare_number, of_text, wrong, yes_no

PLACES = {"freezer": "in the freezer", "fridge": "in the fridge", "shelf": "on the shelf"}
OTHER_PLACES = ("pantry", "cellar")
"Places where a stage can happen and food is kept, of which nothing is known that a plan could use."
PLACES_HINT = "Write in the freezer, in the fridge or on the shelf, or leave it out."
NEAR = 0.85
"How like a place a misspelled one is: 'frige' is, and nuts 'in the shell' are not."
HOW_MUCH = "all guests, 60 % of guests or 24 servings"
DISH_HINT = "Write how much and a link: all guests [Cornbread](../recipes/cornbread.md)."
CHILD_SHARE_HINT = "Write a share of an adult's helping, above 0 and up to 1: 1/2."

_DAY_ALONE = re.compile(r"(\d{4}-\d{2}-\d{2})((?: +[A-Za-z][\w+/-]*)?)")
_SHARE = re.compile(r"(?P<number>.+?) ?% of guests", re.IGNORECASE)
_SERVINGS = re.compile(r"(?P<number>.+?) servings?", re.IGNORECASE)
_PLACE = re.compile(r",\s*(?:in the (?P<cold>freezer|fridge)|on the (?P<dry>shelf))\s*$", re.IGNORECASE)
_OTHER_PLACE = re.compile(r"\b(?:in|on|at) (?:the |an? )?(?=[^,])", re.IGNORECASE)


def _moment(text: str, sample: str) -> Moment:
    """A date and a time; a day alone says neither when food is served nor when work begins."""
    day = _DAY_ALONE.fullmatch(text)
    if day:
        time = sample.split(" ")[1]
        hint = f"Write the time behind it: {day.group(1)} {time}{day.group(2)}."
        raise AmountError("unreadable-moment", f"'{text}' has no time of day.", hint)
    try:
        return parse_moment(text)
    except AmountError as error:
        raise AmountError(error.slug, f"'{text}': {error.message}", error.hint) from error


@of_text
def _date(text: str, value: Value) -> Moment:
    return _moment(text, value.example)


@of_text
def _work_from(text: str, value: Value) -> Moment:
    """The earliest moment of work, by the clock of the date where it names none of its own."""
    moment = _moment(text, value.example)
    serve_at: Moment | None = value.before.get("serve_at")
    if serve_at is None:
        return moment
    if moment.tzinfo is None and serve_at.tzinfo is not None:
        moment = _moment(f"{text}{_clock_of(serve_at)}", value.example)
    if moment.tzinfo is not None and serve_at.tzinfo is None:
        raise wrong("'work from' has a time zone and 'date' has none.", "Write it behind the date too.")
    if _in_order(moment) >= _in_order(serve_at):
        message = "'work from' is not before the food is served."
        raise wrong(message, "Write an earlier moment, or delete the line.")
    return moment


def _clock_of(moment: Moment) -> str:
    """The zone of a moment, or its distance from UTC, as they are written behind another."""
    if isinstance(moment.tzinfo, ZoneInfo):
        return f" {moment.tzinfo.key}"
    assert isinstance(moment.tzinfo, timezone)
    return moment.isoformat()[-6:]


def _in_order(moment: Moment) -> Moment:
    """In UTC where the zone is known: two moments of one zone would be compared by what its clock shows."""
    return moment if moment.tzinfo is None else moment.astimezone(UTC)


@of_text
def _people(text: str, _: Value) -> int:
    if text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS:
        return int(text)
    raise wrong(f"'{text}' is not a number of people.", "Write a whole number such as 35.")


@of_text
def _child_share(text: str, value: Value) -> Fraction:
    share = bare_number(text, value.grammar)
    if share is None or share > 1:
        raise wrong(f"'{text}' is not a share.", CHILD_SHARE_HINT)
    return share


GUESTS = Block(
    Guests,
    Key("adults", _people, "how many", "29", required=True),
    Key("children", _people, "how many", "6"),
    Key("child share", _child_share, "a child's helping, of an adult's; 1/2 if not told", "1/2"),
)


def _guests(value: Value) -> Guests | None:
    """Adults as a bare number, or adults and children by their keys."""
    at = value if value.text else value.under("adults")
    adults = _people(value) if value.text else None
    guests = GUESTS.read(value) if adults is None else Guests(adults=adults)
    if guests is None or guests.adults or guests.children:
        return guests
    value.log.add("wrong-value", at.found.place(*at.path), "Nobody comes.", "Write a number such as 35.")
    return None


def _dishes(value: Value) -> tuple[Dish, ...]:
    """The dishes in order; a gathering without any is none."""
    dishes = (one.read_text(lambda text: _dish(text, value.grammar)) for one in value.items())
    told = tuple(dish for dish in dishes if dish is not None)
    if value.found.data.get(value.name) == []:
        value.log.add("wrong-value", value.found.place(*value.path), "'dishes' is empty.", DISH_HINT)
    return told


def _dish(line: Text, grammar: Grammar) -> Dish:
    """`60 % of guests [Collards](../recipes/collards.md)`: how much, then one link, and nothing more."""
    text = line.value
    found = LINK.search(text)
    if found is None:
        raise AmountError("unreadable-dish", "The line links to no recipe.", DISH_HINT)
    link = read_link(found, text, line)
    rest = text[found.end() :]
    if rest.strip():
        at = found.end() + len(rest) - len(rest.lstrip())
        message = f"'{rest.strip()}' stands behind the link."
        raise AmountError("unreadable-dish", message, "Say it in the text; the line ends with the link.", at)
    servings, share = _how_much(" ".join(text[: found.start()].split()), grammar)
    return Dish(link=link, servings=servings, share=share)


def _how_much(words: str, grammar: Grammar) -> tuple[Fraction | None, Fraction | None]:
    """Servings, or the share of the guests: one of the two."""
    if words.lower() == "all guests":
        return None, Fraction(1)
    for pattern in (_SHARE, _SERVINGS):
        found = pattern.fullmatch(words)
        number = bare_number(found["number"], grammar) if found else None
        if number is not None and pattern is _SERVINGS:
            return number, None
        if number is not None and number <= 100:
            return None, number / 100
    message = f"'{words}' does not say how much of it." if words else "Nothing says how much of it."
    hint = f"Write {HOW_MUCH} before the link, one number, and no more than 100 %."
    raise AmountError("unreadable-dish", message, hint)


def _on_hand(value: Value) -> tuple[OnHand, ...]:
    """What is there already, in order; the same thing may lie in two places."""
    kept: dict[tuple[str, str], OnHand] = {}
    for item in value.items():
        one = item.read_text(lambda text: _check_once(_thing(text, value.grammar), kept))
        if one is not None:
            item.warn_disagreement(one.line.quantity)
            kept[one.line.id, one.place] = one
    return tuple(kept.values())


def _thing(text: Text, grammar: Grammar) -> OnHand:
    """An ingredient line with its amount, perhaps with the place where it lies behind it."""
    found = _PLACE.search(text.value)
    place = (found["cold"] or found["dry"]).lower() if found else ""
    before = text.value[: found.start()] if found else text.value
    line = parse_ingredient(replace(text, value=before), grammar)
    if line.quantity is None or line.quantity.is_vague:
        message = f"'{line.name}' has no amount, so nobody knows how much of it is there."
        raise AmountError("wrong-dimension", message, "Begin the line with a count, a weight or a volume.")
    if line.fixed:
        raise wrong(
            "What is on hand is never scaled.", "Leave '(fixed)' out.", before.lower().rindex("(fixed)")
        )
    _check_place(before, grammar)
    return OnHand(line=line, place=place)


def _check_place(text: str, grammar: Grammar) -> None:
    """A place that is none of the three, or stands elsewhere, would be lost among the words of the line."""
    found = list(_OTHER_PLACE.finditer(text, text.rfind(",") + 1))
    if not found:
        return
    last = found[-1]
    noun = text[last.end() :].strip().lower()
    meant = grammar.tables.place(noun) or noun
    near = difflib.get_close_matches(meant, PLACES, n=1, cutoff=NEAR)
    if near or meant in OTHER_PLACES:
        message = f"'{text[last.start() :]}' is not read as the place of what is on hand."
        hint = f"Write one place behind a comma: , {PLACES[near[0]]}" if near else PLACES_HINT
        raise AmountError("unknown-place", message, hint, last.start())


def _check_once(one: OnHand, kept: Mapping[tuple[str, str], OnHand]) -> OnHand:
    same = kept.get((one.line.id, one.place))
    if same is not None:
        message = f"'{one.line.name}' stands in line {same.line.position.line} already."
        raise AmountError("same-id", message, "Add the amounts together, or tell the places apart.")
    return one


GATHERING = Block(
    Gathering,
    NAME,
    SUMMARY,
    Key(
        "date",
        _date,
        "day and time of serving, and a time zone where clocks may change: `2026-12-05 17:30 America/Denver`",
        "2026-12-05 17:30",
        fills="serve_at",
        required=True,
    ),
    Key(
        "work from",
        _work_from,
        "nobody starts before then; by the clock of `date` where it names no zone",
        "2026-11-28 07:00",
    ),
    Key(
        "guests",
        _guests,
        "a number of adults",
        "35",
        required=True,
        behind=Behind.TEXT_OR_BLOCK,
        inner=GUESTS,
    ),
    Key(
        "dishes",
        _dishes,
        f"a list: {HOW_MUCH}, then one link to a recipe with `serves`",
        "all guests [Cornbread](../recipes/cornbread.md)",
        required=True,
        behind=Behind.LIST,
        holds=Holds.LINES,
    ),
    Key(
        "on hand",
        _on_hand,
        "a list of ingredient lines, each with its amount, which a link measures by what its recipe `makes`; "
        "`, in the freezer`, `, in the fridge` or `, on the shelf` at the end says where it lies",
        "2 lb dry pinto beans, on the shelf",
        behind=Behind.LIST,
        holds=Holds.COUNTED,
    ),
    Key(
        "whole batches",
        yes_no,
        "`yes`: components are made in whole batches; `no`, as where nothing is said: as much as is needed",
        "yes",
    ),
    DRAFT,
)


def read_gathering(source: SourceFile, slug: str, context: Reading, log: ProblemLog) -> Gathering | None:
    """The gathering of a file; None, and every problem noted, where something in it is an error."""
    return read_record(GATHERING, source, slug, context, log)
