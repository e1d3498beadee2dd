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
from generator.read.body import NOTHING_KNOWN, read_body
from generator.read.front_matter import read_front_matter
from generator.read.grammar import Grammar
from generator.read.ingredient_line import LINK, parse_ingredient, read_link
from generator.read.moment import MomentError, parse_moment
from generator.read.number import AmountError, plain, read_span
from generator.read.recipe import Context
from generator.read.shapes import GatheringShape, check_shape
from generator.read.source import Source
from generator.read.text import FrontMatter, Text, note
from generator.read.values import Values, wrong

SAMPLES = {"date": "2026-12-05 17:30", "work from": "2026-11-28 07:00"}
PLACES = {"freezer": "in the freezer", "fridge": "in the fridge", "shelf": "on the shelf"}
OTHER_PLACES = ("pantry", "cellar")
"Places where a stage can happen and food is kept, of which nothing is known that a plan could use."
PLACES_HINT = "Write in the freezer, in the fridge or on the shelf, or leave it out."
NEAR = 0.85
"How like a place a misspelled one is: 'frige' is, and nuts 'in the shell' are not."
HOW_MUCH = "all guests, 60 % of guests or 24 servings"
DISH_HINT = "Write how much and a link: all guests [Cornbread](../recipes/cornbread.md)."
CHILD_SHARE_HINT = "Write a share of an adult's helping, above 0 and up to 1: 1/2."
LONGEST = 5
"Digits of a number of guests."

_DAY_ALONE = re.compile(r"(\d{4}-\d{2}-\d{2})((?: +[A-Za-z][\w+/-]*)?)")
_SHARE = re.compile(r"(?P<number>.+?) ?% of guests", re.IGNORECASE)
_SERVINGS = re.compile(r"(?P<number>.+?) servings?", re.IGNORECASE)
_PLACE = re.compile(r",\s*(?:in the (?P<cold>freezer|fridge)|on the (?P<dry>shelf))\s*$", re.IGNORECASE)
_OTHER_PLACE = re.compile(r"\b(?:in|on|at) (?:the |an? )?(?=[^,])", re.IGNORECASE)


def read_gathering(source: Source, slug: str, context: Context, log: ProblemLog) -> Gathering | None:
    """The gathering of a file; None, and every problem noted, where something in it is an error."""
    own = ProblemLog()
    gathering = _read_gathering(source, slug, context, own)
    log.extend(own)
    return None if own.has_errors else gathering


def _read_gathering(source: Source, slug: str, context: Context, log: ProblemLog) -> Gathering | None:
    found = read_front_matter(source.front, source.front_line, source.file, log)
    if found is None:
        return None
    check_shape(GatheringShape, found, log)
    values = Values(found, context.grammar, log)
    serve_at = values.read(lambda text: _moment(text, "date"), "date")
    work_from = _work_from(values, serve_at)
    guests, dishes = _guests(values), _dishes(values)
    whole_batches, draft = values.yes_no("whole batches"), values.yes_no("draft")
    name, summary, on_hand = values.words("name"), values.words("summary"), _on_hand(values)
    body = read_body(source, NOTHING_KNOWN, context.grammar, log)
    if serve_at is None or guests is None:
        return None
    return Gathering(
        slug=slug,
        file=source.file,
        name=name,
        summary=summary,
        serve_at=serve_at,
        work_from=work_from,
        guests=guests,
        dishes=dishes,
        on_hand=on_hand,
        whole_batches=bool(whole_batches),
        body=body,
        position=found.start,
        draft=bool(draft),
    )


def _moment(text: str, key: str) -> Moment:
    """A date and a time; a day alone says neither when food is served nor when work begins."""
    day = _DAY_ALONE.fullmatch(text)
    if day:
        time = SAMPLES[key].partition(" ")[2]
        hint = f"Write the time behind it: {day.group(1)} {time}{day.group(2)}."
        raise AmountError("unreadable-moment", f"'{text}' has no time of day.", hint)
    try:
        return parse_moment(text)
    except MomentError as error:
        raise AmountError("unreadable-moment", f"'{text}': {error.message}", error.hint) from error


def _work_from(values: Values, serve_at: Moment | None) -> Moment | None:
    """The earliest moment of work, by the clock of the date where it names none of its own."""

    def parse(text: str) -> Moment:
        moment = _moment(text, "work from")
        if serve_at is None:
            return moment
        if moment.tzinfo is None and serve_at.tzinfo is not None:
            moment = _moment(f"{text}{_clock_of(serve_at)}", "work from")
        if moment.tzinfo is not None and serve_at.tzinfo is None:
            raise wrong("'work from' has a time zone and 'date' has none.", "Write it behind the date too.")
        if _in_order(moment) >= _in_order(serve_at):
            message = "'work from' is not before the food is served."
            raise wrong(message, "Write an earlier moment, or delete the line.")
        return moment

    return values.read(parse, "work from")


def _clock_of(moment: Moment) -> str:
    """The zone of a moment, or its distance from UTC, as they are written behind another."""
    if isinstance(moment.tzinfo, ZoneInfo):
        return f" {moment.tzinfo.key}"
    assert isinstance(moment.tzinfo, timezone)
    return moment.isoformat()[-6:]


def _in_order(moment: Moment) -> Moment:
    """In UTC where the zone is known: two moments of one zone would be compared by what its clock shows."""
    return moment if moment.tzinfo is None else moment.astimezone(UTC)


def _guests(values: Values) -> Guests | None:
    """Adults as a bare number, or adults and children by their keys."""
    path = ("guests",) if values.found.text("guests") else ("guests", "adults")
    adults = values.read(_people, *path)
    children = values.read(_people, "guests", "children")
    share = values.read(lambda text: _child_share(text, values.grammar), "guests", "child share")
    if adults is None:
        return None
    if adults == 0 and not children:
        values.log.add(
            "wrong-value", values.found.place(*path), "Nobody comes.", "Write a number such as 35."
        )
        return None
    guests = Guests(adults=adults, children=children or 0)
    return guests if share is None else replace(guests, child_share=share)


def _people(text: str) -> int:
    if text.isascii() and text.isdigit() and len(text) <= LONGEST:
        return int(text)
    raise wrong(f"'{text}' is not a number of people.", "Write a whole number such as 35.")


def _child_share(text: str, grammar: Grammar) -> Fraction:
    share = _number(text, grammar)
    if share is None or share > 1:
        raise wrong(f"'{text}' is not a share.", CHILD_SHARE_HINT)
    return share


def _number(text: str, grammar: Grammar) -> Fraction | None:
    """One number above 0, and nothing else."""
    flat = plain(text)
    found = read_span(flat, 0, grammar.language)
    if found is None or flat[found[1] :].strip() or found[0].is_range or found[0].low <= 0:
        return None
    return found[0].low


def _items(found: FrontMatter, key: str) -> list[Text]:
    return [text for path, text in found.texts.items() if path[0] == key and len(path) == 2]


def _dishes(values: Values) -> tuple[Dish, ...]:
    """The dishes in order; a gathering without any is none."""
    dishes = []
    for text in _items(values.found, "dishes"):
        try:
            dishes.append(_dish(text, values.grammar))
        except AmountError as error:
            note(values.log, text, error)
    if values.found.data.get("dishes") == []:
        values.log.add("wrong-value", values.found.place("dishes"), "'dishes' is empty.", DISH_HINT)
    return tuple(dishes)


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
    return Dish(
        link=link.target, name=link.text, servings=servings, share=share, position=line.at(found.start())
    )


def _how_much(words: str, grammar: Grammar) -> tuple[Fraction | None, Fraction | None]:
    """Servings, or the share of the guests: one of the two."""
    if words.lower() == "all guests":
        return None, Fraction(1)
    for pattern in (_SHARE, _SERVINGS):
        found = pattern.fullmatch(words)
        number = _number(found["number"], grammar) if found else None
        if number is not None and pattern is _SERVINGS:
            return number, None
        if number is not None and number <= 100:
            return None, number / 100
    message = f"'{words}' does not say how much of it." if words else "Nothing says how much of it."
    hint = f"Write {HOW_MUCH} before the link, one number, and no more than 100 %."
    raise AmountError("unreadable-dish", message, hint)


def _on_hand(values: Values) -> tuple[OnHand, ...]:
    """What is there already, in order; the same thing may lie in two places."""
    kept: dict[tuple[str, str], OnHand] = {}
    for text in _items(values.found, "on hand"):
        try:
            one = _thing(text, values.grammar)
            _check_once(one, kept)
        except AmountError as error:
            note(values.log, text, error)
            continue
        values.warn_disagreement(one.line.quantity, text)
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


def _check_once(one: OnHand, kept: Mapping[tuple[str, str], OnHand]) -> None:
    same = kept.get((one.line.id, one.place))
    if same is not None:
        message = f"'{one.line.name}' stands in line {same.line.position.line} already."
        raise AmountError("same-id", message, "Add the amounts together, or tell the places apart.")
