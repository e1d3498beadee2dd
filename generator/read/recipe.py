"""One file of `recipes/` or `pages/` in, a Recipe or a PlainPage out; None for a page with an error, a nameless recipe."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from generator.model.quantity import Dimension, Quantity, Span
from generator.model.recipe import Keep, Makes, PlainPage, Recipe
from generator.problems import ProblemLog
from generator.read import jar_words
from generator.read.accept import accept_key
from generator.read.body import Known
from generator.read.cure_keys import CURE, read_cure
from generator.read.keys import Behind, Block, Holds, Key
from generator.read.lines import read_course, read_ingredients
from generator.read.link_words import stage_ids
from generator.read.meat import MEAT, read_meats
from generator.read.method import with_read_course
from generator.read.number import AmountError, plain, read_span, unreadable
from generator.read.quantity import read_amount, take_alternative
from generator.read.record import Reading, read_record
from generator.read.season import read_season
from generator.read.source import SourceFile
from generator.read.time import DAY_MIN, parse_kept
from generator.read.values import (
    Value,
    place,
    words,
    wrong,
    yes_no,
)

NAME = Key("name", words, "a line", "Smoked elk shank", required=True, holds=Holds.PROSE)
SUMMARY = Key(
    "summary", words, "a line under the name", "Brined by weight and hot-smoked.", holds=Holds.PROSE
)
DRAFT = Key("draft", yes_no, "`yes`: it is checked and not published", "yes")


def _serves(value: Value) -> Fraction | None:
    """How many a dish serves; a recipe says that, or what it makes, or both."""
    found = value.found
    is_asked = found.asks("serves") or found.asks("makes")
    if value.text is None and found.text("makes") is None and not is_asked:
        message, hint = (
            "Neither 'serves' nor 'makes' is there.",
            "Add serves: 6, or makes: 4 shanks (3 1/2 lb).",
        )
        value.log.add("missing-key", found.start, message, hint)

    span = value.read(lambda text: _servings(text, value))
    return None if span is None else span.low


def _serves_most(value: Value) -> Fraction | None:
    """Of `4-6` the 6; the slips are told where the lower end is read."""
    try:
        span = None if value.text is None else _servings(value.text.value, value)
    except AmountError:
        return None
    return span.high if span is not None and span.is_range else None


def _servings(text: str, value: Value) -> Span:
    """`6`, `4-6`, `4 people`, `about 12 to 15`."""
    flat = plain(text)
    about = _ABOUT.match(flat)
    start = about.end() if about is not None else 0
    found = read_span(flat, start, value.grammar.language)
    if found is None or found[0].low <= 0 or not _EATERS.fullmatch(flat, found[1]):
        raise wrong(f"'{text}' is not a number.", f"Write one number: serves: {value.example}.")
    return found[0]


_ABOUT = re.compile(r" *(?:about|around|approximately|approx\.?|some) +", re.IGNORECASE)
_EATERS = re.compile(
    r" *(?:(?:hungry |generous |small |large |main[- ]course )?"
    r"(?:people|persons?|servings?|portions?|helpings?|plates?|bowls?|guests?|eaters?|adults?|folks?))?[ .]*",
    re.IGNORECASE,
)


def _makes(value: Value) -> Makes | None:
    makes = value.read(lambda text: _parse_makes(text, value))
    value.warn_disagreement(makes.quantity if makes else None)
    return makes


def _parse_makes(text: str, value: Value) -> Makes:
    """`4 shanks (3 1/2 lb)`, `2 qt broth`: an amount, what it is an amount of, and its weight."""
    grammar = value.grammar
    found = read_amount(text, 0, grammar)
    if found is None or found[0].is_vague:
        raise unreadable(f"'{text}' has no amount.", f"Write an amount and what: {value.example}.", 0)
    quantity, end = found
    start = end + len(text[end:]) - len(text[end:].lstrip())
    taken, noun = take_alternative(quantity, text[start:].strip(), start, grammar)
    quantity, noun = taken or quantity, noun.removeprefix("of ").strip()
    if any(sign.isdigit() for sign in plain(noun)) or "(" in noun:
        hint = f"Put the weight in brackets: {_in_brackets(text[:start].strip(), noun) or value.example}"
        raise unreadable(f"'{noun}' behind the amount cannot be read.", hint, start)
    near = grammar.near_unit(noun) if quantity.dimension is Dimension.COUNT else ""
    if near:
        raise AmountError("unknown-unit", f"'{noun}' is not a unit.", f"Did you mean '{near}'?", start)
    _refuse_time(quantity)
    return Makes(quantity=quantity, noun=noun, position=value.found.place(*value.path))


def _in_brackets(amount: str, noun: str) -> str:
    """`shanks, 3 lb` with the weight where it belongs; empty where that is not what stands there."""
    at = next((at for at, sign in enumerate(noun) if sign.isdigit()), 0)
    made = noun[:at].strip(" ,")
    return f"{amount} {made} ({noun[at:]})" if made and "(" not in noun else ""


def _refuse_time(quantity: Quantity) -> None:
    if quantity.dimension in (Dimension.TIME, Dimension.LENGTH):
        message = f"'{quantity.written}' is not a count, a weight or a volume."
        raise AmountError("wrong-dimension", message, "Write 3 lb.")


def _tags(value: Value) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words(item) for item in value.items()))


EATEN = {
    **dict.fromkeys(
        ("after cooking", "after it is cooked", "cook first", "cook before eating", "once cooked"), True
    ),
    **dict.fromkeys(("as it is", "as is", "ready to eat", "ready", "raw", "cold"), False),
}
"What a recipe may say of how its food is eaten, and whether it is cooked after its course."


def _after_cooking(value: Value) -> bool | None:
    """True where it is not ready to eat; False where it is said to be."""

    def parse(text: str) -> bool:
        spelled = " ".join(text.lower().split())
        if spelled not in EATEN:
            hint = "Write eat: after cooking, where it is not ready to eat, or eat: as it is, where it is."
            raise wrong(f"'{text}' does not say whether it is ready to eat.", hint)
        return EATEN[spelled]

    return value.read(parse)


def _kept(value: Value) -> Keep | None:
    """How long it keeps in the place that its key names."""
    read = value.read(lambda text: parse_kept(text, value.grammar))
    if read is None or value.text is None:
        return None
    minutes, at = read
    days = minutes.times(1 / DAY_MIN)
    written, position = value.text.value, value.text.position
    return Keep(place=value.name, days=days, written=written, position=position, at=at)


KEEP = Block(
    Keep,
    Key("fridge", _kept, "days; how cold, where that matters", "5 days at 36 °F"),
    Key("freezer", _kept, "weeks, months or years", "2 months"),
    Key("shelf", _kept, "the same, dry and dark", "1 year"),
)
"Each of its keys makes a record: the key is the place."


def _keep(value: Value) -> tuple[Keep, ...]:
    """How long it keeps, in the order of the file."""
    kept = (_kept(one) for one in value.items() if one.name in KEEP.names)
    return tuple(one for one in kept if one is not None)


RECIPE = Block(
    Recipe,
    NAME,
    SUMMARY,
    Key(
        "makes", _makes, "an amount and what, best a count with its weight in brackets", "4 shanks (3 1/2 lb)"
    ),
    Key(
        "serves",
        _serves,
        "a number, or a range, of which the lower end counts; this or `makes` is required",
        "6",
        also={"serves_most": _serves_most},
    ),
    Key(
        "chapter",
        words,
        "a chapter of `book.yaml`",
        "Smokehouse",
        also={"chapter_position": place},
        holds=Holds.PROSE,
    ),
    Key("tags", _tags, "a list of words", "keeps", behind=Behind.LIST, holds=Holds.PROSE),
    Key(
        "season",
        read_season,
        "the months in which it is made, each by its name; `May to July` is three",
        "May",
        behind=Behind.LIST,
    ),
    Key(
        "from",
        words,
        "whose recipe it is, and of which year",
        "Aunt Orla, 1938",
        fills="origin",
        holds=Holds.PROSE,
    ),
    Key(
        "meat",
        read_meats,
        "the raw meat that it is written for: a line",
        "5 lb elk fore shank",
        fills="meats",
        behind=Behind.PIECES,
        holds=Holds.PIECES,
        inner=MEAT,
    ),
    Key("cure", read_cure, "targets or amounts", "", behind=Behind.BLOCK, inner=CURE),
    Key(
        "ingredients",
        read_ingredients,
        "a list of lines, or lists under a title each",
        "4 bay leaves",
        behind=Behind.GROUPS,
        holds=Holds.COUNTED,
    ),
    Key(
        "course",
        read_course,
        "a list of stages: `name: [LENGTH] [at T or T–T] [to T inside[, held LENGTH]] [in or on PLACE] "
        "[until WORDS] [hands LENGTH]`; of a jar also its size, raw or hot pack, pounds and gauge",
        "cure: 5 days in the fridge",
        fills="stages",
        behind=Behind.STAGES,
        holds=Holds.STAGES,
    ),
    Key(
        "eat",
        _after_cooking,
        "`after cooking`: not ready to eat as it is; `as it is`: ready",
        "after cooking",
        fills="eat_after_cooking",
    ),
    Key("keep", _keep, "how long the finished thing keeps", "", behind=Behind.BLOCK, inner=KEEP),
    accept_key("the page shows the reason; a DANGER rule is never accepted"),
    DRAFT,
)

PAGE = Block(PlainPage, NAME, SUMMARY)


IN_JARS = frozenset({"us_pint", "us_quart"})
"Units that are also jars. Source: USDA AIB 539."


def read_recipe(source: SourceFile, slug: str, context: Reading, log: ProblemLog) -> Recipe | None:
    """The recipe of a file, with a hole for each place that is not read; None where it has no name, or YAML has no sense."""
    recipe = read_record(RECIPE, source, slug, context, log, _known)
    if recipe is None:
        return recipe
    if not recipe.is_open("course"):  # what its author has written goes before the method
        recipe = with_read_course(recipe, context.grammar)
    return _counted_in_jars(recipe)


def _counted_in_jars(recipe: Recipe) -> Recipe:
    """`7 quarts` of a recipe that fills jars and heats them are seven jars."""
    makes = recipe.makes
    if makes is None or all(stage.name != jar_words.NAME for stage in recipe.stages):
        return recipe
    keys = [measure.unit.key for measure in makes.quantity.measures]
    if len(keys) != 1 or keys[0] not in IN_JARS:
        return recipe
    return replace(recipe, makes=replace(makes, quantity=replace(makes.quantity, in_jars=True)))


def read_page(source: SourceFile, slug: str, context: Reading, log: ProblemLog) -> PlainPage | None:
    """The page of a file; None, and every problem noted, where something in it is an error."""
    return read_record(PAGE, source, slug, context, log)


def _known(said: Mapping[str, Any]) -> Known:
    """The ids and names that a body can use."""
    lines, meats, cure = said["ingredients"], said.get("meats", ()), said.get("cure")
    amounts = {line.id: line.quantity is not None and not line.quantity.is_vague for line in lines}
    names = {line.name: line.id for line in lines}
    if meats:
        amounts["meat"] = all(meat.weight is not None for meat in meats)
    if len(meats) == 1:
        names |= {meats[0].cut or meats[0].animal_written: "meat"}
    else:
        amounts |= {meat.id: meat.weight is not None for meat in meats}
        names |= {meat.name: meat.id for meat in meats}
    if cure:
        parts = {"water": cure.water, "salt": cure.salt, "sugar": cure.sugar, "curing-salt": cure.curing_salt}
        for id, part in parts.items():
            if part is not None:
                amounts[id] = True
                names[id.replace("-", " ")] = id
    stages = stage_ids((stage.name, stage.called) for stage in said["stages"] or ())
    return Known(amounts, names, stages)
